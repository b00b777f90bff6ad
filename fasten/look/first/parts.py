"""A part that is named by a word or a standard, of the thread or size that stands beside it."""

from collections.abc import Callable, Iterator
from itertools import islice

from fasten.catalog.parts import HEADS, LENGTH_RANGES, NUTS, PREFERRED_LENGTHS, RIVET_NUTS, TEE_NUTS, WASHERS, Washer
from fasten.catalog.tables import Tables
from fasten.catalog.vocabulary import WITHDRAWN_STANDARDS
from fasten.errors import FastenError
from fasten.look.first.drives import head_line, is_wanted, nut_line, nuts_across
from fasten.look.first.line import Answer, answer, size
from fasten.look.first.receivers import RECEIVERS
from fasten.look.first.titles import WASHER_TITLES
from fasten.look.query import Part, Query
from fasten.record import replace
from fasten.text.units import number
from fasten.text.values import Value, ValueSort

_THREADS = (ValueSort.METRIC, ValueSort.UNIFIED, ValueSort.TAPPING, ValueSort.NUMBERED)
_PLAIN = "plain"  # which is what a washer is that nobody calls anything else
_HEAD_ORDER = ("ISO 15071",)  # the small flange is what a workshop keeps


def of_parts(query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines of every part that is named.

    Raises:
        FastenError: nothing says of which size.
    """
    for standard in query.of(ValueSort.STANDARD):
        yield from _of_standard(standard, query, tables)
    for part in query.parts:
        found = tuple(_of_part(part, query, tables))
        if not found:
            sizes = " ".join(designations(query) or [value.text for value in query.values])
            raise FastenError(
                f"there is no {part.words} of {sizes} in the tables", fix=f"see `fasten tables {part.table}`"
            )
        yield from found


def _of_part(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    if part.table in _BY_THREAD:
        yield from _by_thread(part, query, tables)
    elif part.table in RECEIVERS:
        yield from RECEIVERS[part.table](part, query, tables)
    else:
        from fasten.look.first.wires import of_wiring

        yield from of_wiring(part, query, tables)


def designations(query: Query) -> list[str]:
    """The sizes of screws that stand in a question, as the tables of parts know them."""
    return [_designation(value) for value in query.of(*_THREADS)]


def _designation(value: Value) -> str:
    if value.sort is ValueSort.METRIC:
        return f"M{size(value.number)}"
    return f"ST{size(value.number)}" if value.sort is ValueSort.TAPPING else value.text


def _by_thread(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    threads, lengths = designations(query), query.of(ValueSort.LENGTH)
    if not threads and not (lengths and part.table in _SO_WIDE):
        raise FastenError(f"{part.words} has no thread with it", fix=f"write it beside, such as {part.words} M6")
    for thread in threads:
        yield from _BY_THREAD[part.table](thread, part.form, query, tables)
    if part.table in _SO_WIDE and lengths and _is_of_length(query):
        yield from _SO_WIDE[part.table](lengths[0].mm, part.form, tables)


def _is_of_length(query: Query) -> bool:
    """Whether a thread is named by nothing but a length: then it may be what a calliper reads instead."""
    return all(value.at == query.of(ValueSort.LENGTH)[0].at for value in query.of(*_THREADS))


def _nuts(thread: str, form: str, query: Query, tables: Tables) -> Iterator[Answer]:
    found = [row for row in tables.rows(NUTS) if row.size == thread and form in ("", row.form)]
    for row in sorted(found, key=lambda row: row.form != "hexagon"):
        yield answer(nut_line(row, query), NUTS, [row], tables)
    if not form:  # what is called a nut may be one that stays in the sheet or board
        for table in (RIVET_NUTS.name, TEE_NUTS.name):
            yield from islice(RECEIVERS[table](Part(table, "", "nut"), replace(query, facts=()), tables), 1)


def _washers_so_wide(outer_mm: float, form: str, tables: Tables) -> Iterator[Answer]:
    """Washers by their outside: what a calliper reads on one without its box."""
    of_form = [row for row in tables.rows(WASHERS) if row.form == form and form != _PLAIN]
    for row in of_form or tables.rows(WASHERS):
        if outer_mm - 0.5 <= row.outer_mm <= outer_mm + 0.5:
            yield answer(_washer_line(row), WASHERS, [row], tables)


def _washer_line(row: Washer) -> str:
    sizes = f"hole {size(row.hole_mm)} mm, outside {size(row.outer_mm)} mm, {size(row.thickness_mm)} mm thick"
    return f"{row.size} {WASHER_TITLES[row.form]}, {row.standard}: {sizes}"


def _washers(thread: str, form: str, _query: Query, tables: Tables) -> Iterator[Answer]:
    for row in tables.rows(WASHERS):
        if row.size == thread and row.form == form:
            yield answer(_washer_line(row), WASHERS, [row], tables)


def _heads(thread: str, form: str, query: Query, tables: Tables) -> Iterator[Answer]:
    of_form = [row for row in tables.rows(HEADS) if row.size == thread and row.form == form]
    driven = [row for row in of_form if is_wanted(row, query)]
    for row in sorted(driven or of_form, key=lambda row: row.standard not in _HEAD_ORDER):
        text = head_line(row, query)
        length = _length(query)
        if length is not None:
            text = text.replace(row.size, f"{row.size} x {number(length, 1)}", 1) + _made(
                row.standard, row.size, length, tables
            )
        yield answer(text, HEADS, [row], tables)


def _length(query: Query) -> float | None:
    """The length [mm] of the screw that is named: M5x16, and M6x1x16."""
    for value in query.of(ValueSort.METRIC):
        if value.length:
            return float(value.length)
        if value.second and float(value.second) >= 3.0:
            return float(value.second)
    return None


def _made(standard: str, screw: str, length_mm: float, tables: Tables) -> str:
    """Whether a length is usually made, as a last half sentence; empty where no table says it."""
    span = tables.find(LENGTH_RANGES, standard, screw)
    choice = tables.find(PREFERRED_LENGTHS, "machine", length_mm)
    if span is None:
        return ""
    if not span.min_mm <= length_mm <= span.max_mm:
        return f"; usually {size(span.min_mm)} to {size(span.max_mm)} mm long"
    return f"; {number(length_mm, 1)} mm is a {choice.choice} choice of length" if choice else "; not a usual length"


def _of_standard(standard: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The rows of a standard, or of what replaced it, which is said."""
    asked = f"{standard.first.upper()} {standard.second}"
    withdrawn = tables.find(WITHDRAWN_STANDARDS, asked)
    now = withdrawn.now if withdrawn else asked
    differs = f": {withdrawn.differs}" if withdrawn and withdrawn.differs else ""
    said = f" ({asked} is withdrawn{differs})" if withdrawn else ""
    found = False
    for thread in designations(query) or [""]:
        for line in _rows_of(now, thread, query, tables):
            found = True
            yield replace(line, text=line.text + said)
    if not found:
        of = f" {', '.join(designations(query))}" if designations(query) else ""
        raise FastenError(f"{now}{of} is not in the tables{said}", fix=f"those of screws are {_standards(tables)}")


def _rows_of(standard: str, thread: str, query: Query, tables: Tables) -> Iterator[Answer]:
    for head in tables.rows(HEADS):
        if _is_of(head.standard, standard) and thread in ("", head.size):
            yield answer(head_line(head, query), HEADS, [head], tables)
    for nut in tables.rows(NUTS):
        if _is_of(nut.standard, standard) and thread in ("", nut.size):
            yield answer(nut_line(nut, query), NUTS, [nut], tables)
    forms = {washer.form for washer in tables.rows(WASHERS) if _is_of(washer.standard, standard)}
    for form in forms:
        sizes = [thread] if thread else [row.size for row in tables.rows(WASHERS) if row.form == form]
        for one in sizes:
            yield from _washers(one, form, query, tables)


def _is_of(standard: str, asked: str) -> bool:
    """Whether a standard is the one asked for, or a part of it: ISO 7380-1 of ISO 7380."""
    return standard == asked or standard.startswith(f"{asked}-")


def _standards(tables: Tables) -> str:
    heads = [row.standard for row in tables.rows(HEADS)]
    others = [row.standard for row in tables.rows(NUTS)] + [row.standard for row in tables.rows(WASHERS)]
    return ", ".join(dict.fromkeys(heads + others))


_SO_WIDE: dict[str, Callable[[float, str, Tables], Iterator[Answer]]] = {
    WASHERS.name: _washers_so_wide, NUTS.name: nuts_across,
}  # fmt: skip
_BY_THREAD: dict[str, Callable[[str, str, Query, Tables], Iterator[Answer]]] = {
    NUTS.name: _nuts, WASHERS.name: _washers, HEADS.name: _heads,
}  # fmt: skip
