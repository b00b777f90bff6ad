"""A bit by its letter, number, fraction or width, and a length as a sheet or a screw."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.bit import BitEntry, bit_entry
from fasten.look.first.line import Answer, size
from fasten.look.query import Query
from fasten.look.readings import read
from fasten.look.sheet import Length, length_entry
from fasten.text.figures import words
from fasten.text.units import Dimension, number
from fasten.text.units import read as read_size
from fasten.text.values import Value, ValueSort

_MOST = 3  # things that a line names of each kind


def of_length(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """A bit, and where a sheet is named or nothing is asked, the length as what else it may be."""
    if value.sort is ValueSort.LENGTH and (query.metals or query.asks("gauge")):
        yield sheet_line(length_entry(_mm(value), tables), query.metals)
        return
    yield from _bits(value, tables)
    if value.sort is ValueSort.FRACTION and not query.asks("drill", "hole"):
        yield from _screws(value, tables)
    if value.sort is not ValueSort.LETTER and not query.asks("drill"):
        yield length_line(length_entry(_mm(value), tables))


def of_number(value: Value, tables: Tables) -> Iterator[Answer]:
    """A number as a drill bit."""
    yield from _bits(value, tables)


def _mm(value: Value) -> float:
    text = f"{value.first} in" if value.sort is ValueSort.FRACTION else value.text
    return read_size(text, Dimension.LENGTH, "length")


def _bits(value: Value, tables: Tables) -> Iterator[Answer]:
    text = value.first if value.sort is ValueSort.LETTER else value.text
    try:
        found = [reading.name for reading in read(text, tables) if reading.kind == "bit"]
    except FastenError:
        return
    yield from (bit_line(bit_entry(name, tables)) for name in found)


def _screws(value: Value, tables: Tables) -> Iterator[Answer]:
    from fasten.look.first.thread_line import thread_line
    from fasten.look.first.threads import threads_of

    bare = Query(value.text, (value,), (), (), (), (), (), False, False, ())
    yield from map(thread_line, threads_of(value, bare, tables))


def bit_line(entry: BitEntry) -> Answer:
    """A bit by its diameter, with what charts tap with it, what it clears and what it pilots."""
    taps = sorted(entry.taps, key=lambda tap: tap.listed_drill != entry.name)
    listed = [tap for tap in taps if tap.listed_drill == entry.name]
    tapped = [("tap drill of", listed[:_MOST])] if listed else [("taps", taps[:_MOST])]
    clears = [clear for clear in entry.clears if clear.fit in {"medium", "normal", "tapping screw"}] or list(
        entry.clears
    )
    said = [f"{what} {', '.join(tap.thread for tap in found)}" for what, found in tapped if found]
    said += [f"clears {', '.join(clear.size for clear in clears[:_MOST])}"] if clears else []
    pilots = list(dict.fromkeys(pilot.size for pilot in entry.pilots))[:_MOST]
    said += [f"pilots {', '.join(pilots)}"] if pilots else []
    cited = [*entry.from_, *(s for found in (taps[:_MOST], clears[:_MOST]) for item in found for s in item.from_)]
    title = entry.name if entry.series == "metric" else f"{_series(entry)}, {size(entry.diameter_mm)} mm"
    text = f"{title} bit, {number(entry.diameter_in, 4)} in" + (f": {'; '.join(said)}" if said else "")
    return Answer("bit", text, tuple(dict.fromkeys(cited)))


def _series(entry: BitEntry) -> str:
    return f"{entry.series} {entry.name}" if entry.series == "letter" else entry.name


def length_line(entry: Length) -> Answer:
    """A length in both units, with the screws that measure so across, and the gauges it is near."""
    screws = [screw.designation for screw in entry.screws][:_MOST]
    said = f"; across a screw {', '.join(screws)}" if screws else ""
    cited = tuple(source for screw in entry.screws[:_MOST] for source in screw.from_)
    return Answer(
        "length", f"{number(entry.length_mm, 3)} mm, {number(entry.length_in, 4)} in as a length{said}", cited
    )


def sheet_line(entry: Length, metals: tuple[str, ...]) -> Answer:
    """A thickness of sheet, with the gauge that comes nearest in each metal named."""
    near = [gauge for gauge in entry.gauges if gauge.material in metals or not metals]
    said = ", ".join(f"{gauge.number} gauge {words(gauge.material)} is {size(gauge.thickness_mm)} mm" for gauge in near)
    cited = tuple(source for gauge in near for source in gauge.from_)
    text = f"{number(entry.length_mm, 3)} mm, {number(entry.length_in, 4)} in" + (f"; nearest {said}" if said else "")
    return Answer("sheet", text, cited)
