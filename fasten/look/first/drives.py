"""Drives: which screws and nuts a spanner, key or bit fits, and what a head wants."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from fasten.catalog.parts import HEADS, NUTS, Head, Nut
from fasten.catalog.tables import Tables
from fasten.look.first.line import Answer, answer, size
from fasten.look.first.titles import HEAD_TITLES, NUT_TITLES
from fasten.look.query import Query
from fasten.text.units import MM_PER_INCH
from fasten.text.values import Value, ValueSort

_HEXAGON, _SOCKET, _LOBES, _CROSS = "hexagon", "hexagon_socket", "hexalobular", "cross_recess"
_DRIVES = {"spanner": _HEXAGON, "key": _SOCKET, "star": _LOBES, "cross": _CROSS}
_KEYS = {_HEXAGON: "spanner or socket", _SOCKET: "hexagon key"}


def of_drive(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """What a drive of that size fits: a spanner its nuts and heads, a key its sockets."""
    if value.sort is ValueSort.STAR:
        yield from _recess(f"star {value.first}, hexalobular", _LOBES, f"T{value.first}", tables)
    elif value.sort is ValueSort.CROSS:
        yield from _recess(
            f"cross recess {value.first}, PH{value.first} or PZ{value.first}", _CROSS, value.first, tables
        )
    else:
        across = size(value.number * MM_PER_INCH if value.unit in {"", '"', "in", "inch", "inches"} else value.number)
        found = [*_spanner(across, tables)] if query.asks("spanner", "hexagon") else []
        found += _key(across, tables) if query.asks("key", "driver", "hexagon") else []
        yield from found or [Answer("drive", f"{across} mm: no nut or head of the tables is so wide", ())]


def _recess(title: str, drive: str, number: str, tables: Tables) -> Iterator[Answer]:
    heads = [row for row in tables.rows(HEADS) if row.drive == drive and row.drive_size == number]
    if heads:
        yield answer(f"{title}: {_sizes(heads)}", HEADS, heads, tables)


def _sizes(heads: Iterable[Head]) -> str:
    """Heads by standard, each with its sizes: M4 pan head ISO 14583."""
    by_form = [
        (key, [head.size for head in group]) for key, group in groupby(heads, lambda head: (head.form, head.standard))
    ]
    return "; ".join(f"{', '.join(sizes)} {HEAD_TITLES[form]} {standard}" for (form, standard), sizes in by_form)


def _spanner(across: str, tables: Tables) -> Iterator[Answer]:
    """One line for each thread and head of that width across flats, flanges first: they are what a workshop keeps."""
    heads = [row for row in tables.rows(HEADS) if row.drive == _HEXAGON and row.drive_size == across]
    for head in sorted(heads, key=lambda head: not head.standard.startswith("ISO 15071")):
        yield answer(
            f"{across} mm spanner or socket: {head.size} {HEAD_TITLES[head.form]}, {head.standard}",
            HEADS,
            [head],
            tables,
        )
    yield from nuts_across(float(across), "", tables)


def nuts_across(across_mm: float, form: str, tables: Tables) -> Iterator[Answer]:
    """One line for each thread whose nuts are so wide across flats."""
    across = size(across_mm)
    nuts = [
        row
        for row in tables.rows(NUTS)
        if form in ("", row.form) and row.across_flats_mm is not None and size(row.across_flats_mm) == across
    ]
    for thread, group in groupby(sorted(nuts, key=lambda nut: nut.size), lambda nut: nut.size):
        rows = list(group)
        standards = ", ".join(row.standard for row in reversed(rows))
        yield answer(f"{across} mm spanner or socket: {thread} hexagon nut, {standards}", NUTS, rows, tables)


def _key(across: str, tables: Tables) -> Iterator[Answer]:
    heads = [row for row in tables.rows(HEADS) if row.drive == _SOCKET and row.drive_size == across]
    if heads:
        yield answer(f"{across} mm hexagon key: {_sizes(heads)}", HEADS, heads, tables)


def of_screws(designation: str, query: Query, tables: Tables) -> Iterator[Answer]:
    """What every head of a size wants, and where a spanner is asked for, its nuts."""
    screw = designation.partition("x")[0]
    for head in tables.rows(HEADS):
        if head.size == screw and is_wanted(head, query):
            yield answer(head_line(head, query), HEADS, [head], tables)
    if query.asks("spanner", "hexagon"):
        yield from (answer(nut_line(row, query), NUTS, [row], tables) for row in tables.rows(NUTS) if row.size == screw)


def is_wanted(head: Head, query: Query) -> bool:
    """Whether a head is driven as a question asks, if it asks for a spanner, a key or a bit at all."""
    wanted = [drive for fact, drive in _DRIVES.items() if query.asks(fact)]
    return not wanted or head.drive in wanted


def head_line(head: Head, query: Query) -> str:
    """A head in one line, what drives it first where that is asked for."""
    title = f"{head.size} {HEAD_TITLES[head.form]}, {head.standard}"
    if query.asks("driver", *_DRIVES):
        return f"{_driver(head)} for {title}"
    return f"{title}: {_across(head)}{_high(head)}, {_driver(head)}"


def _driver(head: Head) -> str:
    if head.drive in _KEYS:
        return f"{head.drive_size} mm {_KEYS[head.drive]}"
    known = head.drive_size.removeprefix("T")
    return {_LOBES: f"star {known}", _CROSS: f"cross recess {known}"}[head.drive] if known != "-" else head.drive


def _across(head: Head) -> str:
    if head.drive == _HEXAGON and size(head.diameter_max_mm) == head.drive_size:
        return f"{head.drive_size} mm across flats"
    flats = f"{head.drive_size} mm across flats, flange " if head.drive == _HEXAGON else "head "
    return f"{flats}{size(head.diameter_max_mm)} mm across"


def _high(head: Head) -> str:
    return f", {size(head.height_max_mm)} mm high" if head.height_max_mm is not None else ""


def nut_line(nut: Nut, query: Query) -> str:
    """A nut in one line, its spanner first where that is asked for."""
    title = f"{nut.size} {NUT_TITLES[nut.form]} nut, {nut.standard}"
    if nut.across_flats_mm is None:
        return f"{title}: {size(nut.height_max_mm)} mm high"
    if query.asks("spanner"):
        return f"{size(nut.across_flats_mm)} mm spanner or socket for {title}"
    return f"{title}: {size(nut.across_flats_mm)} mm across flats, {size(nut.height_max_mm)} mm high"
