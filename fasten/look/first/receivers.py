"""What takes the screw, or holds without one: its hole belongs to the body, not to the thread."""

from collections.abc import Callable, Iterator

from fasten.catalog.parts import (
    BLIND_RIVETS,
    BOARD_SCREWS,
    CLIP_NUTS,
    EXPANDING_NUTS,
    PLASTIC_INSERTS,
    PUSH_IN_CLIPS,
    RIVET_NUTS,
    SCREW_IN_INSERTS,
    TEE_NUTS,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.first.line import Answer, answer, either, size
from fasten.look.query import Part, Query
from fasten.text.values import ValueSort, is_nominal

_BOARDS = {"softwood": "hole_softwood_mm", "MDF and board": "hole_board_mm", "hardwood": "hole_hardwood_mm"}
_PLASTIC = "plastic"


def _thread(part: Part, query: Query) -> str:
    """The metric thread that stands beside a part.

    Raises:
        FastenError: there is none.
    """
    values = query.of(ValueSort.METRIC)
    if not values:
        raise FastenError(f"{part.words} has no thread with it", fix=f"write it beside, such as {part.words} M5")
    return f"M{size(values[0].number)}"


def _rivet_nuts(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """The holes of all bodies first, for a thread has several; then a line for each series."""
    thread = _thread(part, query)
    rows = [row for row in tables.rows(RIVET_NUTS) if row.thread == thread]
    if "closed" in query.fits:
        rows = [row for row in rows if row.end == "closed"]
    if query.asks("hexagon"):
        rows = [row for row in rows if row.body == "hexagon"]
    series = list(dict.fromkeys(row.series for row in rows))
    if len(series) > 1:
        holes = either(size(hole) for hole in sorted({row.hole_mm for row in rows}))
        yield answer(f"{thread} rivet nut: hole {holes}, by its body: measure it", RIVET_NUTS, rows, tables)
    for one in series:
        of_series = [row for row in rows if row.series == one]
        lengths = either(size(row.length_mm) for row in of_series)
        least, most = min(row.grip_min_mm for row in of_series), max(row.grip_max_mm for row in of_series)
        grip = f"grip {size(least)} to {size(most)} mm"
        text = f"{thread} rivet nut, {one}: hole {size(of_series[0].hole_mm)} mm, {lengths} long, {grip}"
        yield answer(text, RIVET_NUTS, of_series, tables)


def _tee_nuts(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    for row in tables.rows(TEE_NUTS):
        if row.thread == _thread(part, query):
            hole = f"hole {size(row.hole_min_mm)} to {size(row.hole_max_mm)} mm"
            text = (
                f"{row.thread} tee nut: {hole}, barrel {size(row.barrel_mm)} mm across, {size(row.length_mm)} mm long"
            )
            yield answer(text, TEE_NUTS, [row], tables)


def _screw_in(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    rows = () if query.boards == (_PLASTIC,) else tables.rows(SCREW_IN_INSERTS)
    for row in rows:
        if row.thread == _thread(part, query):
            wanted = [board for board in _BOARDS if board in query.boards] or list(_BOARDS)
            holes = [(board, getattr(row, _BOARDS[board])) for board in wanted]
            said = ", ".join(f"{size(hole)} mm in {board}" for board, hole in holes if hole is not None)
            if not said:
                continue
            body = f"{size(row.outer_mm)} x {size(row.length_mm)} mm"
            yield answer(f"{row.thread} insert {body}, {row.series}: hole {said}", SCREW_IN_INSERTS, [row], tables)
    if not query.boards or _PLASTIC in query.boards:
        yield from _plastic(part, query, tables)


def _plastic(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    for row in tables.rows(PLASTIC_INSERTS):
        if row.thread == _thread(part, query) and part.form in ("", row.series):
            hole = f"hole {size(row.hole_min_mm)} to {size(row.hole_max_mm)} mm, {size(row.deep_mm)} mm deep at least"
            text = f"{row.thread} {row.series} insert in plastic: {hole}, {size(row.length_mm)} mm long"
            yield answer(text, PLASTIC_INSERTS, [row], tables)


def _clips(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    sizes = [value.number for value in query.of(ValueSort.LENGTH, ValueSort.BARE)]
    if not sizes:
        raise FastenError(
            f"{part.words} has no hole with it", fix=f"write it beside, such as {part.words} for 8 mm hole"
        )
    for row in tables.rows(PUSH_IN_CLIPS):
        if row.hole_mm <= sizes[0] <= row.hole_mm + row.hole_plus_mm + 1e-6:
            hole = f"hole {size(row.hole_mm)} to {size(row.hole_mm + row.hole_plus_mm)} mm"
            grip = f"{size(row.grip_min_mm)} to {size(row.grip_max_mm)} mm"
            text = f"push-in clip, {hole}: grips {grip}, {size(row.length_mm)} mm long, head {size(row.head_mm)} mm"
            yield answer(text, PUSH_IN_CLIPS, [row], tables)


def _clip_nuts(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    for row in tables.rows(CLIP_NUTS):
        if row.thread == _thread(part, query):
            sheet = f"sheet {size(row.sheet_min_mm)} to {size(row.sheet_max_mm)} mm"
            reach = f"reaches {size(row.reach_mm)} mm from the edge"
            text = f"{row.thread} clip nut: hole {size(row.hole_mm)} mm, {sheet}, {reach}"
            yield answer(text, CLIP_NUTS, [row], tables)


def _rivets(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """The hole of a rivet, then its lengths with what each grips."""
    sizes = [value.mm for value in query.of(ValueSort.LENGTH, ValueSort.FRACTION, ValueSort.BARE)]
    rows = [row for row in tables.rows(BLIND_RIVETS) if not sizes or is_nominal(sizes[0], row.diameter_mm)]
    if rows and not sizes:
        raise FastenError(f"{part.words} has no diameter with it", fix=f"they are {either(row.size for row in rows)}")
    if rows:
        grips = "; ".join(
            f"{size(row.length_mm)} long grips {size(row.grip_min_mm)} to {size(row.grip_max_mm)}" for row in rows
        )
        text = f"{rows[0].size} mm blind rivet: hole {size(rows[0].hole_mm)} mm; {grips} mm"
        yield answer(text, BLIND_RIVETS, rows, tables)


def _expanding(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    for row in tables.rows(EXPANDING_NUTS):
        if row.thread == _thread(part, query):
            grip = f"grip {size(row.grip_min_mm)} to {size(row.grip_max_mm)} mm"
            hole = f"hole {size(row.hole_mm)} mm"
            text = f"{row.thread} expanding nut, {row.series}: {hole}, {grip}, {size(row.length_mm)} mm long"
            yield answer(text, EXPANDING_NUTS, [row], tables)


def _board_screws(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """A screw for board or wood by its diameter; its pilot depends on the board, so `pick` gives it."""
    sizes = [value.number for value in query.of(ValueSort.LENGTH, ValueSort.BARE, ValueSort.TAPPING)]
    rows = [row for row in tables.rows(BOARD_SCREWS) if not sizes or row.diameter_mm == sizes[0]]
    if rows and not sizes:
        known = either(size(row.diameter_mm) for row in rows)
        raise FastenError(f"{part.words} has no diameter with it", fix=f"they are {known}")
    for row in rows:
        long = f"{size(row.length_min_mm)} to {size(row.length_max_mm)} mm long"
        drive = row.drive.replace("T", "star ") if row.drive.startswith("hexalobular") else row.drive
        pilot = "; its pilot depends on the board: see its mount point" if query.asks("pilot", "hole", "drill") else ""
        root = f"root {size(row.root_mm)} mm, head {size(row.head_mm)} mm"
        text = f"{row.size} {row.series}: {root}, {drive}, {long}{pilot}"
        yield answer(text, BOARD_SCREWS, [row], tables)


RECEIVERS: dict[str, Callable[[Part, Query, Tables], Iterator[Answer]]] = {
    RIVET_NUTS.name: _rivet_nuts, TEE_NUTS.name: _tee_nuts, SCREW_IN_INSERTS.name: _screw_in,
    PLASTIC_INSERTS.name: _plastic, PUSH_IN_CLIPS.name: _clips, CLIP_NUTS.name: _clip_nuts,
    BLIND_RIVETS.name: _rivets, EXPANDING_NUTS.name: _expanding, BOARD_SCREWS.name: _board_screws,
}  # fmt: skip
