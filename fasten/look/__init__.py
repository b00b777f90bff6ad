"""Look up whatever a person has in hand: one box for every thread, bit, gauge, screw, class and length.

`readings` turns text into every way it can be read; one module a kind turns a reading into an entry. The field names of
the entries are the keys of the JSON, less a trailing underscore.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from fasten.catalog.load import Source
from fasten.catalog.tables import Tables
from fasten.look.readings import Reading, read
from fasten.record import record

FORMAT = 1


@record
class Findings:
    """What was found for a text: one entry for each way of reading it, and the sources they cite."""

    format: int
    query: str
    found: tuple[Any, ...]
    sources: tuple[Source, ...]


def look(text: str, tables: Tables) -> Findings:
    """Everything the tables know about what is written.

    Raises:
        FastenError: the text names nothing known; says what comes nearest.
    """
    found = tuple(_entry(reading, tables) for reading in read(text, tables))
    cited = dict.fromkeys(source for entry in found for source in _cited(entry))
    sources = tuple(Source(name, tables.source(name).basis, tables.source(name).text) for name in cited)
    return Findings(FORMAT, text, found, sources)


def _entry(reading: Reading, tables: Tables) -> Any:
    # Each kind is imported when it is met, so that looking up one thread does not load the rest.
    if reading.kind == "metric":
        from fasten.look.thread import metric_entry

        return metric_entry(reading.name, tables, reading.notes)
    if reading.kind == "unified":
        from fasten.look.thread import unified_entry

        return unified_entry(reading.name, tables, reading.notes)
    if reading.kind == "tapping":
        from fasten.look.tapping import tapping_entry

        return tapping_entry(reading.name, tables, reading.notes)
    if reading.kind == "bit":
        from fasten.look.bit import bit_entry

        return bit_entry(reading.name, tables)
    if reading.kind == "wiring":
        from fasten.look.cable import wiring_entry

        return wiring_entry(reading.name, tables)
    return _strength_or_sheet(reading, tables)


def _strength_or_sheet(reading: Reading, tables: Tables) -> Any:
    if reading.kind == "gauge":
        from fasten.look.sheet import gauge_entry

        return gauge_entry(int(reading.size), reading.name or None, tables)
    if reading.kind == "length":
        from fasten.look.sheet import length_entry

        return length_entry(reading.size, tables)
    from fasten.look.strength import class_entry, grade_entry

    if reading.kind == "class":
        return class_entry(reading.name, tables, reading.notes)
    return grade_entry(reading.name, tables, reading.notes, reading.asked)


def _cited(value: Any) -> Iterator[str]:
    """Source ids in an entry, in the order in which it cites them."""
    if isinstance(value, tuple):
        for item in value:
            yield from _cited(item)
    elif is_dataclass(value):
        for field in fields(value):
            content = getattr(value, field.name)
            yield from content if field.name == "from_" else _cited(content)
