"""Which module answers what is asked, a line for each way to read it."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.look.first.line import Answer
from fasten.look.query import Query, Sort, Value

_OF_THREADS = (Sort.METRIC, Sort.UNIFIED, Sort.NUMBERED)
_OF_WIRES = (Sort.AWG, Sort.AREA, Sort.AMPS)


def first_lines(query: Query, tables: Tables) -> tuple[Answer, ...]:
    """The first line of each reading of a question, the likeliest first.

    Raises:
        FastenError: a thing is named and nothing that tells which one; says what to add.
    """
    return tuple(dict.fromkeys(_lines(query, tables)))


def _lines(query: Query, tables: Tables) -> Iterator[Answer]:
    if query.parts or query.of(Sort.STANDARD):
        from fasten.look.first.parts import of_parts

        yield from of_parts(query, tables)
        return
    for value in query.values:
        yield from _of_value(value, query, tables)


def _of_value(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for one value, from the module for its sort: what a question does not need is not loaded."""
    if value.sort is Sort.TORQUE or (value.sort in (Sort.STRENGTH, Sort.GRADE) and not query.of(*_OF_THREADS)):
        from fasten.look.first.strengths import of_strength

        yield from of_strength(value, tables)
    elif value.sort in (Sort.STAR, Sort.CROSS) or _of_drive(value, query):
        from fasten.look.first.drives import of_drive

        yield from of_drive(value, query, tables)
    elif value.sort is Sort.TAPPING or (value.sort is Sort.NUMBERED and query.tapping):
        from fasten.look.first.tapping import of_tapping

        yield from of_tapping(value, query, tables)
    elif value.sort in _OF_THREADS or (value.sort is Sort.FRACTION and _asks_of_thread(query)):
        from fasten.look.first.threads import of_thread

        yield from of_thread(value, query, tables)
        if value.sort is Sort.NUMBERED and not query.facts:
            from fasten.look.first.lengths import of_number

            yield from of_number(value, tables)
    elif value.sort in _OF_WIRES or value.sort is Sort.GAUGE:
        from fasten.look.first.gauges import of_gauge

        yield from of_gauge(value, query, tables)
    elif value.sort in (Sort.LETTER, Sort.FRACTION, Sort.LENGTH) and not _is_of_sheet(value, query):
        from fasten.look.first.lengths import of_length

        yield from of_length(value, query, tables)


def _of_drive(value: Value, query: Query) -> bool:
    """Whether a length is a spanner's or a key's."""
    return value.sort in (Sort.LENGTH, Sort.FRACTION) and query.asks("spanner", "key", "driver", "hexagon")


def _asks_of_thread(query: Query) -> bool:
    """Whether what is asked of a fraction is asked of the screws of that size."""
    return query.asks("tap", "clearance", "pitch", "torque", "proof", "stress area") or bool(query.fits)


def _is_of_sheet(value: Value, query: Query) -> bool:
    """Whether a length belongs to a screw that something is asked of, as its sheet: it has no line of its own."""
    of_screw = query.of(Sort.TAPPING) or query.tapping or (query.of(*_OF_THREADS) and query.facts)
    return value.sort is Sort.LENGTH and bool(of_screw)
