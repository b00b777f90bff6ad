"""A text as words and values in any order: what is named, what is asked of it, and which words mean nothing here.

Values and words are found as `fasten.text.values` finds them; a number without a unit is what stands beside it.
"""

import re
from collections.abc import Iterator

from fasten.catalog.parts import (
    BOARD_SCREWS,
    CLIP_NUTS,
    EXPANDING_NUTS,
    HEADS,
    NUTS,
    PLASTIC_INSERTS,
    RIVET_NUTS,
    SCREW_IN_INSERTS,
    TEE_NUTS,
    WASHERS,
)
from fasten.catalog.rows import METRIC_THREADS, PROPERTY_CLASSES
from fasten.catalog.tables import Tables
from fasten.catalog.vocabulary import LOOK_WORDS
from fasten.record import record, replace
from fasten.text.shown import visible
from fasten.text.values import Value, ValueSort, scan

_PILOT, _PLASTIC = "pilot", "plastic"
_THREADS = (ValueSort.METRIC, ValueSort.UNIFIED, ValueSort.TAPPING, ValueSort.NUMBERED)
_FACTS_OF_THREAD = frozenset({"clearance", "tap", "pitch", "torque", "proof", "stress area"})
_BY_THREAD = frozenset(
    table.name for table in (HEADS, NUTS, WASHERS, RIVET_NUTS, TEE_NUTS, SCREW_IN_INSERTS, PLASTIC_INSERTS, CLIP_NUTS,
                             EXPANDING_NUTS)
)  # fmt: skip


@record
class Part:
    """A part that is named: the table its rows are in, and their form where the words say it."""

    table: str
    form: str
    words: str


@record
class Query:
    """What a text asks: values, the parts named, what is wanted of them, and words that mean nothing here."""

    text: str
    values: tuple[Value, ...]
    parts: tuple[Part, ...]
    facts: tuple[str, ...]
    fits: tuple[str, ...]
    metals: tuple[str, ...]
    boards: tuple[str, ...]
    wire: bool
    tapping: bool
    unknown: tuple[str, ...]

    def of(self, *sorts: ValueSort) -> tuple[Value, ...]:
        """Its values of some sorts, in the order written."""
        return tuple(value for value in self.values if value.sort in sorts)

    def asks(self, *facts: str) -> bool:
        """Whether any of these is wanted."""
        return any(fact in self.facts for fact in facts)

    @property
    def bare(self) -> bool:
        """Whether it names one value and asks nothing of it."""
        return len(self.values) == 1 and not (self.parts or self.facts or self.fits or self.metals or self.wire)


@record
class _Word:
    sort: str
    names: str
    form: str
    text: str


def parse(plain: str, tables: Tables) -> Query:
    """What a text asks, from its plain form: lower case, one space between words."""
    if re.fullmatch("[a-z]", plain):
        return Query(plain, (Value(ValueSort.LETTER, plain, 0, plain),), (), (), (), (), (), False, False, ())
    read = tuple(_read(plain, _vocabulary(tables)))
    values = tuple(_settled(read, tables))
    words = [word for word in read if isinstance(word, _Word)]
    parts = tuple(Part(word.names, word.form, word.text) for word in words if word.sort == "part")
    facts, boards = _named(words, "fact"), _named(words, "board")
    if not parts and _PILOT in facts and set(boards) - {_PLASTIC}:  # what a pilot in board is for
        parts = (Part(BOARD_SCREWS.name, "", "screw"),)
    return Query(
        text=plain, values=values, parts=parts,
        facts=facts, fits=_named(words, "fit"), metals=_named(words, "metal"),
        boards=boards,
        wire=any(word.sort == "wire" for word in words), tapping=any(word.sort == "tapping" for word in words),
        unknown=tuple(word.text for word in words if word.sort == "unknown"),
    )  # fmt: skip


def _named(words: list[_Word], sort: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word.names for word in words if word.sort == sort))


def _vocabulary(tables: Tables) -> dict[str, _Word]:
    """Every phrase that is known, spelled with spaces."""
    found = {}
    for row in tables.rows(LOOK_WORDS):
        for phrase in row.written.split("|"):
            found[phrase] = _Word(row.sort, row.names or "", row.form or "", phrase)
    return found


def _read(plain: str, vocabulary: dict[str, _Word]) -> Iterator[Value | _Word]:
    """Values and words from left to right, each word with what it means."""
    for found in scan(plain, vocabulary):
        if isinstance(found, Value):
            yield found
        else:
            yield vocabulary.get(found.text) or _Word("unknown", "", "", found.text)


def _settled(read: tuple[Value | _Word, ...], tables: Tables) -> Iterator[Value]:
    """Values, a number without a unit as what the word beside it makes of it."""
    of_part = any(isinstance(word, _Word) and word.sort in {"part", "tapping"} for word in read)
    has_thread = any(isinstance(value, Value) and value.sort in _THREADS for value in read)
    of_thread = not of_part and any(isinstance(word, _Word) and word.names in _FACTS_OF_THREAD for word in read)
    for at, item in enumerate(read):
        if isinstance(item, Value):
            after, before = _without_filler(read[at + 1 :]), _without_filler(read[:at])
            for value in _alone(item, tables, of_part):
                if not has_thread and (of_thread or _names_thread(read[at + 1 : at + 2])):
                    yield from _thread_of(value, tables)
                yield _of_bare(value, before, after, tables) if value.sort is ValueSort.BARE else value


def _without_filler(read: tuple[Value | _Word, ...]) -> list[Value | _Word]:
    return [one for one in read if not (isinstance(one, _Word) and one.sort in {"filler", "screw"})]


def _names_thread(following: tuple[Value | _Word, ...]) -> bool:
    """Whether the next word is a bolt, or a part that goes by its thread."""
    return any(isinstance(word, _Word) and (word.sort == "screw" or word.names in _BY_THREAD) for word in following)


def _thread_of(value: Value, tables: Tables) -> Iterator[Value]:
    """The thread that millimetres are: what is called an 8 mm bolt is an M8."""
    if value.sort is not ValueSort.LENGTH or value.unit != "mm":
        return
    row = tables.find(METRIC_THREADS, f"M{value.number:g}")
    if row is not None:
        yield replace(value, sort=ValueSort.METRIC, text=row.designation.lower(), unit="")


def _alone(value: Value, tables: Tables, of_part: bool) -> Iterator[Value]:
    """A size of a part without its length, two sizes each by itself, and a grade that is a property class as one."""
    is_class = value.sort is ValueSort.GRADE and tables.find(PROPERTY_CLASSES, value.first) is not None
    if value.sort is ValueSort.PAIR:
        sort = ValueSort.LENGTH if value.unit and not of_part else ValueSort.BARE
        for first in (value.first,) if of_part else (value.first, value.length):
            yield replace(value, sort=sort, first=first, text=f"{first} {value.unit}".strip())
    elif value.sort is ValueSort.NUMBERED:
        yield replace(value, text=f"#{value.first}")
    else:
        yield replace(value, sort=ValueSort.STRENGTH) if is_class else value


def _of_bare(value: Value, before: list[Value | _Word], after: list[Value | _Word], tables: Tables) -> Value:
    """A number: of a tapping screw, a class, a sheet, a part or a key; else it stays one."""
    following = after[0] if after else None
    beside = [word for word in (following, before[-1] if before else None) if isinstance(word, _Word)]
    if isinstance(following, _Word) and following.sort == "tapping":
        return replace(value, sort=ValueSort.TAPPING)
    if isinstance(following, _Word) and following.sort == "wire" and value.first.isdigit():
        return replace(value, sort=ValueSort.AWG)
    if any(word.sort in {"metal", "board", "part"} for word in beside) or any(
        word.names in {"drill", "hole", "spanner", "key", "hexagon"} for word in beside
    ):
        return replace(value, sort=ValueSort.LENGTH, unit="mm", text=f"{value.first} mm")
    if tables.find(PROPERTY_CLASSES, value.first) is not None:
        return replace(value, sort=ValueSort.STRENGTH)
    return value


def unknown_words(query: Query, tables: Tables) -> Iterator[str]:
    """A note on each word that means nothing here, with those that come nearest."""
    from difflib import get_close_matches

    words = [phrase for phrase, word in _vocabulary(tables).items() if word.sort != "filler"]
    for unknown in query.unknown:
        near = get_close_matches(unknown, words, n=2, cutoff=0.6)
        nearest = f"; nearest {'are' if len(near) > 1 else 'is'} {' and '.join(near)}" if near else ""
        yield f"{visible(unknown)} means nothing here{nearest}"
