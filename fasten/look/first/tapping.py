"""A tapping screw: its hole in a sheet, what clears it, what it is."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.first.line import Answer, size
from fasten.look.query import Query
from fasten.look.readings import read
from fasten.look.tapping import DIN_7975, THIN_SHEET, Hole, Tapping, hole_for_sheet, tapping_entry
from fasten.text.values import Value, ValueSort

_STEEL = "steel"
_ALUMINIUM = "aluminium"


def of_tapping(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for a tapping screw: its hole where a sheet is named, else what is asked of it, else what it is."""
    screw = _screw(value, tables)
    if screw is None:
        return
    sheets = [sheet.number for sheet in query.of(ValueSort.LENGTH) if sheet.unit == "mm"]
    if sheets:
        metal = _ALUMINIUM if _ALUMINIUM in query.metals else _STEEL
        found = tuple(_in_sheet(screw, sheets[0], metal))
        without = f"{screw.designation} in {size(sheets[0])} mm {metal}: the tables have no hole for it"
        yield from found or (Answer("pilot", without, ()), headline(screw))
        return
    if query.asks("clearance", "drill"):
        yield from _clearance(screw)
    if query.asks("pilot", "hole", "drill", "tap"):
        yield from _over_sheets(screw, _ALUMINIUM if _ALUMINIUM in query.metals else _STEEL)
    if query.asks("torque"):
        yield from _breaking(screw)
    if query.asks("key", "driver", "star", "cross", "spanner", "head"):
        from fasten.look.first.drives import of_screws

        yield from of_screws(screw.designation, query, tables)
    if query.asks("pitch") or not query.facts:
        yield headline(screw)


def _screw(value: Value, tables: Tables) -> Tapping | None:
    text = f"st{value.first}" if value.sort is ValueSort.TAPPING else value.text
    try:
        found = [reading for reading in read(text, tables) if reading.kind == "tapping"]
    except FastenError:
        return None
    return tapping_entry(found[0].name, tables, ()) if found else None


def headline(screw: Tapping) -> Answer:
    """What a tapping screw is, in one line."""
    pitch = f"pitch {size(screw.pitch_mm)} mm, {screw.threads_per_in} to the inch"
    across = f"at most {size(screw.major_mm)} mm across, root {size(screw.root_mm)} mm"
    return Answer("tapping screw", f"{_title(screw)}: {pitch}, {across}", screw.from_)


def _title(screw: Tapping) -> str:
    return f"{screw.designation} tapping screw, {screw.number}"


def _clearance(screw: Tapping) -> Iterator[Answer]:
    if clear := screw.clearance:
        yield Answer("clearance", f"{_title(screw)}: clearance hole {size(clear.hole_mm)} mm", clear.from_)


def _breaking(screw: Tapping) -> Iterator[Answer]:
    if breaking := screw.breaking:
        text = f"{_title(screw)}: breaks over {size(breaking.torque_nm)} N·m; what a sheet bears: see its mount point"
        yield Answer("torque", text, breaking.from_)


def _drilled(screw: Tapping, metal: str) -> list[Hole]:
    return [hole for hole in screw.holes if (hole.table, hole.material, hole.made) == (THIN_SHEET, metal, "drilled")]


def _in_sheet(screw: Tapping, sheet_mm: float, metal: str) -> Iterator[Answer]:
    """The drilled hole of the thin-sheet chart, then those of DIN 7975, which goes by the strength of the sheet."""
    thin = _drilled(screw, metal)
    if thin and (hole := hole_for_sheet(thin, sheet_mm)):
        band = f"{size(hole.sheet_mm.min)} to {size(hole.sheet_mm.max)} mm"
        yield Answer(
            "pilot",
            f"{screw.designation} in {size(sheet_mm)} mm {metal}: drill {size(hole.hole_mm)} mm, for sheet of {band}",
            hole.from_,
        )
    for material in dict.fromkeys(hole.material for hole in screw.holes if hole.table == DIN_7975):
        holes = [hole for hole in screw.holes if hole.table == DIN_7975 and hole.material == material]
        if found := hole_for_sheet(holes, sheet_mm):
            of = f"sheet of {material[6:9]} MPa, DIN 7975"
            yield Answer(
                "pilot",
                f"{screw.designation} in {size(sheet_mm)} mm: drill {size(found.hole_mm)} mm in {of}",
                found.from_,
            )


def _over_sheets(screw: Tapping, metal: str) -> Iterator[Answer]:
    """The drilled holes over all sheets of the thin-sheet chart, in one line."""
    holes = _drilled(screw, metal)
    if holes:
        over = ", ".join(f"{size(hole.hole_mm)} mm up to {size(hole.sheet_mm.max)}" for hole in holes)
        cited = tuple(dict.fromkeys(source for hole in holes for source in hole.from_))
        yield Answer("pilot", f"{screw.designation} pilot in {metal}, by its sheet: {over} mm", cited)
