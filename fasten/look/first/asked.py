"""Which module answers what is asked, a line for each way to read it."""

from collections.abc import Iterator

from fasten.catalog.parts import HEADS, NUTS, WASHERS
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.first.line import Answer
from fasten.look.query import Query
from fasten.text.values import Value, ValueSort

_OF_THREADS = (ValueSort.METRIC, ValueSort.UNIFIED, ValueSort.NUMBERED)
_OF_SCREWS = (*_OF_THREADS, ValueSort.TAPPING)
_FACTS_OF_THREAD = ("clearance", "tap", "pilot", "pitch", "torque", "stress area")  # of whatever has the thread
_FACTS_OF_SCREW = ("proof", "hole", "drill")
_OF_WIRES = (ValueSort.AWG, ValueSort.AREA, ValueSort.AMPS)


def first_lines(query: Query, tables: Tables) -> tuple[Answer, ...]:
    """The first line of each reading of a question, the likeliest first.

    Raises:
        FastenError: a thing is named and nothing that tells which one; says what to add.
    """
    return tuple(dict.fromkeys(_lines(query, tables)))


def _lines(query: Query, tables: Tables) -> Iterator[Answer]:
    if _asks_of_thread_of_part(query):
        for value in query.of(*_OF_SCREWS):
            yield from _of_value(value, query, tables)
        return
    if query.parts or query.of(ValueSort.STANDARD):
        from fasten.look.first.parts import of_parts

        yield from of_parts(query, tables)
        return
    if _lacks_its_size(query):
        raise FastenError("a tapping screw has no size with it", fix="write it beside, such as ST4.2 self tapper")
    for value in query.values:
        yield from _of_value(value, query, tables)


def _lacks_its_size(query: Query) -> bool:
    """Whether a tapping screw is named with no size but a length; a hole says which screws go with it."""
    only_long = all(value.sort in (ValueSort.LENGTH, ValueSort.FRACTION, ValueSort.BARE) for value in query.values)
    return query.tapping and only_long and not query.asks("hole", "drill", "pilot", "clearance")


def _asks_of_thread_of_part(query: Query) -> bool:
    """Whether a screw, nut or washer is named and its thread asked about: the clearance hole of an M6 button head."""
    tables = {part.table for part in query.parts} | ({HEADS.name} if query.of(ValueSort.STANDARD) else set())
    if not tables or not query.of(*_OF_SCREWS) or tables - {HEADS.name, NUTS.name, WASHERS.name}:
        return False
    is_head = query.parts and tables == {HEADS.name}
    return query.asks(*_FACTS_OF_THREAD, *(_FACTS_OF_SCREW if is_head else ()))


def _of_value(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for one value, from the module for its sort: what a question does not need is not loaded."""
    is_class = value.sort in (ValueSort.STRENGTH, ValueSort.GRADE) and not query.of(*_OF_THREADS)
    if value.sort is ValueSort.TORQUE or is_class:
        from fasten.look.first.strengths import of_strength

        yield from of_strength(value, tables)
    elif value.sort in (ValueSort.STAR, ValueSort.CROSS) or _of_drive(value, query):
        from fasten.look.first.drives import of_drive

        yield from of_drive(value, query, tables)
    elif value.sort is ValueSort.TAPPING or (value.sort is ValueSort.NUMBERED and query.tapping):
        from fasten.look.first.tapping import of_tapping

        yield from of_tapping(value, query, tables)
    elif value.sort in _OF_THREADS or (value.sort is ValueSort.FRACTION and _asks_of_thread(query)):
        from fasten.look.first.threads import of_thread

        yield from of_thread(value, query, tables)
        if value.sort is ValueSort.NUMBERED and not query.facts:
            from fasten.look.first.lengths import of_number

            yield from of_number(value, tables)
    elif value.sort in _OF_WIRES or value.sort is ValueSort.GAUGE:
        from fasten.look.first.gauges import of_gauge

        yield from of_gauge(value, query, tables)
    elif value.sort in (ValueSort.LETTER, ValueSort.FRACTION, ValueSort.LENGTH) and not _is_of_sheet(value, query):
        from fasten.look.first.lengths import of_length

        yield from of_length(value, query, tables)


def _of_drive(value: Value, query: Query) -> bool:
    """Whether a length is a spanner's or a key's."""
    return value.sort in (ValueSort.LENGTH, ValueSort.FRACTION) and query.asks("spanner", "key", "driver", "hexagon")


def _asks_of_thread(query: Query) -> bool:
    """Whether what is asked of a fraction is asked of the screws of that size."""
    return query.asks("tap", "clearance", "pitch", "torque", "proof", "stress area") or bool(query.fits)


def _is_of_sheet(value: Value, query: Query) -> bool:
    """Whether a length belongs to a screw that something is asked of, as its sheet: it has no line of its own."""
    threads = [thread for thread in query.of(*_OF_THREADS) if thread.at != value.at]  # the length may be read as one
    of_screw = query.of(ValueSort.TAPPING) or query.tapping or (threads and query.facts)
    return value.sort is ValueSort.LENGTH and bool(of_screw)
