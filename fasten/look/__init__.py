"""Look up whatever a person has in hand: one box for every thread, bit, gauge, screw, part, class and length.

`query` takes a text apart into values and words, and `first` answers each way to read it in one line. `readings` turns
a value into everything it may name, and one module a kind turns a reading into an entry with all that is known. The
field names of the entries are the keys of the JSON, less a trailing underscore.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from fasten.catalog.load import Source
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.first.entries import lines_of
from fasten.look.first.line import Answer
from fasten.look.readings import Reading, plain_text, read
from fasten.record import record

if TYPE_CHECKING:
    from fasten.text.values import Value

FORMAT = 1
_THREADS = frozenset({"metric", "unified", "tapping"})


@record
class Findings:
    """What was found for a text: a line for each way to read it, all that is known of each, and the sources cited.

    `notes` names the words that meant nothing here.
    """

    format: int
    query: str
    answers: tuple[Answer, ...]
    found: tuple[Any, ...]
    notes: tuple[str, ...]
    sources: tuple[Source, ...]


def look(text: str, tables: Tables) -> Findings:
    """Everything the tables know about what is written.

    Raises:
        FastenError: the text names nothing known; says what comes nearest.
    """
    plain = plain_text(text)
    readings, refusal = _readings(plain, plain, tables)
    found = tuple(_entry(reading, tables) for reading in readings)
    if _speaks_for_itself(plain, readings):
        return _findings(text, tuple(line for entry in found for line in lines_of(entry)), found, (), tables)
    from fasten.look.first.asked import first_lines
    from fasten.look.query import parse, unknown_words

    query = parse(plain, tables)
    answers = first_lines(query, tables)
    if not found:
        found = tuple(_entries(plain, query.values, tables))
    answers = answers or tuple(line for entry in found for line in lines_of(entry))
    if not answers and refusal is not None:
        raise refusal
    return _findings(text, answers, found, tuple(unknown_words(query, tables)), tables)


def _entries(plain: str, values: "Iterable[Value]", tables: Tables) -> Iterator[Any]:
    """All that is known of each value; one that the tables refuse has no entry, whatever else answers the question."""
    for value in values:
        for reading in _readings(plain, value.text, tables)[0]:
            try:
                yield _entry(reading, tables)
            except FastenError:
                continue


def _findings(
    text: str, answers: tuple[Answer, ...], found: tuple[Any, ...], notes: tuple[str, ...], tables: Tables
) -> Findings:
    cited = dict.fromkeys(source for entry in (*answers, *found) for source in _cited(entry))
    sources = tuple(Source(name, tables.source(name).basis, tables.source(name).text) for name in cited)
    return Findings(FORMAT, text, answers, found, notes, sources)


def _readings(whole: str, text: str, tables: Tables) -> tuple[tuple[Reading, ...], FastenError | None]:
    """Every reading of a text, or why there is none."""
    try:
        return read(text, tables), None
    except FastenError as error:
        return (), error


def _speaks_for_itself(plain: str, readings: tuple[Reading, ...]) -> bool:
    """Whether a text is a thread and nothing else: its words need not be known for that."""
    return " " not in plain and bool(readings) and all(reading.kind in _THREADS for reading in readings)


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
    else:
        for name in getattr(type(value), "__match_args__", ()):  # of a record, its fields
            content = getattr(value, name)
            yield from content if name == "from_" else _cited(content)
