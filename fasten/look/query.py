"""A text as words and values in any order: what is named, what is asked of it, and which words mean nothing here.

The longest match counts: an area before a length before a thread (`10mm2` holds `m2`), `lock nut` before `nut`,
`tapping drill` before `tapping`.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from enum import Enum
from functools import cache

from fasten.catalog.rows import PROPERTY_CLASSES
from fasten.catalog.tables import Tables
from fasten.catalog.vocabulary import LOOK_WORDS
from fasten.record import record
from fasten.text.shown import visible

_N = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_FRACTION = r"(?:[0-9]+[ -])?[0-9]+/[0-9]+"
_SIZE = r"(?:(?:#|no\.?|number) ?)?(?P<n>[0-9]+/[0-9]+|[0-9]{1,2})\"?"


class Sort(Enum):
    """What a value may be."""

    METRIC = "metric thread"
    UNIFIED = "unified thread"
    TAPPING = "tapping screw"
    NUMBERED = "numbered size"
    FRACTION = "fraction of an inch"
    LETTER = "letter"
    STRENGTH = "property class"
    GRADE = "inch grade"
    STAR = "hexalobular drive"
    CROSS = "cross recess"
    STANDARD = "standard"
    LENGTH = "length"
    AREA = "area"
    AMPS = "amperes"
    AWG = "wire gauge"
    GAUGE = "gauge"
    TORQUE = "torque"
    BARE = "number"


# Of matches of one length the first counts.
_VALUES: tuple[tuple[Sort, str], ...] = (
    (Sort.AREA, rf"(?P<n>{_N}) ?(?:mm(?:2|²|\^2)|sq ?mm|square mm)"),
    (Sort.TORQUE, rf"(?P<n>{_N}) ?(?P<unit>n ?[·.-]? ?m|(?:in|ft)[ ·.-]?lb(?:f|s)?|lbf?[ ·.-]?(?:in|ft))"),
    (Sort.AWG, r"(?P<n>[1-4]/0|[0-9]{1,2}) ?awg|awg ?(?P<m>[1-4]/0|[0-9]{1,2})"),
    (Sort.GAUGE, r"(?P<n>[1-4]/0|[0-9]{1,2}) ?(?:gauge|ga)"),
    (Sort.METRIC, rf"m ?(?P<n>{_N})(?: ?(?:x|-) ?(?P<p>{_N}))?(?: ?x ?(?P<l>{_N}))?(?: ?mm)?"),
    (Sort.TAPPING, rf"st ?(?P<n>{_N})(?: ?x ?(?P<l>{_N})(?: ?mm)?)?"),
    (Sort.UNIFIED, rf"{_SIZE} ?- ?(?P<tpi>[0-9]{{2}})(?: ?x ?(?P<l>{_FRACTION}|{_N}) ?(?:\"|in|inch)?)?"),
    (Sort.NUMBERED, r"(?:#|no\.?|number) ?(?P<n>[0-9]{1,2})"),
    (Sort.STANDARD, r"(?P<by>iso|din|en) ?(?P<n>[0-9]{2,5}(?:-[0-9])?)"),
    (Sort.STRENGTH, r"(?P<n>a[24]-[0-9]{2})"),
    (Sort.GRADE, r"(?:grade|gr\.?) ?(?P<n>[0-9](?:\.[0-9])?)"),
    (Sort.STAR, r"(?:star|hexalobular|six[ -]lobe|t) ?(?P<n>[0-9]{1,2})"),
    (Sort.CROSS, r"(?:ph|pz|cross recess|cross|cross-recess) ?(?P<n>[0-4])"),
    (Sort.AMPS, rf"(?P<n>{_N}) ?(?:amperes?|amps?|a)"),
    (Sort.LENGTH, rf"(?P<n>{_FRACTION}|{_N}) ?(?P<unit>mm|cm|m|\"|inches|inch|in|ft|thou)"),
    (Sort.FRACTION, rf"(?P<n>{_FRACTION})"),
    (Sort.LETTER, r"(?:letter|drill|bit) (?P<n>[a-z])|(?P<m>[a-z]) (?:drill|bit)"),
    (Sort.BARE, rf"(?P<n>{_N})"),
)  # fmt: skip


@record
class Value:
    """A value as it was written, in lower case: its sort, its first number, and what came with it.

    `named` is the number or name in it, `more` a screw's length, pitch or threads to the inch, or the unit.
    """

    sort: Sort
    text: str
    named: str
    more: str = ""
    length: str = ""

    @property
    def number(self) -> float:
        """Its number, a fraction as a decimal [in its unit]."""
        return _number(self.named)


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

    def of(self, *sorts: Sort) -> tuple[Value, ...]:
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


def _number(text: str) -> float:
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    over, _, under = fraction.partition("/")
    return (float(whole) if whole else 0.0) + float(over) / (float(under or 1) or 1.0)


def parse(plain: str, tables: Tables) -> Query:
    """What a text asks, from its plain form: lower case, one space between words."""
    if re.fullmatch("[a-z]", plain):
        return Query(plain, (Value(Sort.LETTER, plain, plain),), (), (), (), (), (), False, False, ())
    read = tuple(_scan(plain, _vocabulary(tables)))
    values = tuple(_settled(read, tables))
    words = [word for word in read if isinstance(word, _Word)]
    parts = tuple(Part(word.names, word.form, word.text) for word in words if word.sort == "part")
    return Query(
        text=plain, values=values, parts=parts,
        facts=_named(words, "fact"), fits=_named(words, "fit"), metals=_named(words, "metal"),
        boards=_named(words, "board"),
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


def _scan(plain: str, vocabulary: dict[str, _Word]) -> Iterator[Value | _Word]:
    """Values and words from left to right, the longest at each place."""
    at = 0
    while at < len(plain):
        if plain[at] in " ,;:?!()+/":
            at += 1
            continue
        value, phrase = _value_at(plain, at), _phrase_at(plain, at, vocabulary)
        if value is not None and len(value.text) >= len(phrase):
            yield value
            at += len(value.text)
        elif phrase:
            yield vocabulary[phrase]
            at += len(phrase)
        else:
            word = re.compile(r"[^ ,;:?!()]+").match(plain, at)
            text = word[0] if word else plain[at]
            yield _Word("unknown", "", "", text)
            at += len(text)


@cache
def _patterns() -> tuple[tuple[Sort, re.Pattern[str]], ...]:
    """The forms of values, ready to match: made when the first question is read."""
    return tuple((sort, re.compile(pattern)) for sort, pattern in _VALUES)


def _value_at(plain: str, at: int) -> Value | None:
    """The longest value that begins at a place and ends at the end of a word."""
    best: Value | None = None
    for sort, pattern in _patterns():
        found = pattern.match(plain, at)
        while found is not None and not _ends(plain, found.end()):
            found = pattern.fullmatch(plain, at, _shorter(plain, at, found.end()))
        if found is not None and found.end() > at and (best is None or len(found[0]) > len(best.text)):
            best = _value(sort, found)
    return best


def _shorter(plain: str, at: int, end: int) -> int:
    """The end of the word before: what a pattern took of the next word is given back."""
    cut = plain.rfind(" ", at, end)
    return cut if cut > at else at


def _ends(plain: str, end: int) -> bool:
    return end == len(plain) or not (plain[end].isalnum() or plain[end] in './²"' or plain[end - 1 : end + 1] == "--")


def _value(sort: Sort, found: re.Match[str]) -> Value:
    groups = found.groupdict()
    named = groups.get("n") or groups.get("m") or ""
    more = groups.get("p") or groups.get("tpi") or groups.get("unit") or groups.get("by") or ""
    return Value(sort, found[0], named, more, groups.get("l") or "")


def _phrase_at(plain: str, at: int, vocabulary: dict[str, _Word]) -> str:
    """The longest phrase of the vocabulary at a place; empty where none is."""
    ends = [found.end() for found in re.compile(r"[ ,;:?!()]|$").finditer(plain, at)]
    phrases = (plain[at : end - 1] if end < len(plain) or plain[-1:] in " ,;:?!()" else plain[at:] for end in ends)
    return max((phrase for phrase in phrases if phrase in vocabulary), key=len, default="")


def _settled(read: tuple[Value | _Word, ...], tables: Tables) -> Iterator[Value]:
    """Values, a number without a unit as what the word beside it makes of it."""
    for at, item in enumerate(read):
        if isinstance(item, Value):
            after = [word for word in read[at + 1 :] if not (isinstance(word, _Word) and word.sort == "filler")]
            before = [word for word in read[:at] if not (isinstance(word, _Word) and word.sort == "filler")]
            yield _of_bare(item, before, after, tables) if item.sort is Sort.BARE else item


def _of_bare(value: Value, before: list[Value | _Word], after: list[Value | _Word], tables: Tables) -> Value:
    """A number: of a tapping screw, a class, a sheet, a part or a key; else it stays one."""
    following = after[0] if after else None
    beside = [word for word in (following, before[-1] if before else None) if isinstance(word, _Word)]
    if isinstance(following, _Word) and following.sort == "tapping":
        return replace(value, sort=Sort.TAPPING)
    if isinstance(following, _Word) and following.sort == "wire":
        return replace(value, sort=Sort.AWG)
    if any(word.sort in {"metal", "board", "part"} for word in beside) or any(
        word.names in {"drill", "hole", "spanner", "key", "hexagon"} for word in beside
    ):
        return replace(value, sort=Sort.LENGTH, more="mm")
    if tables.find(PROPERTY_CLASSES, value.named) is not None:
        return replace(value, sort=Sort.STRENGTH)
    return value


def unknown_words(query: Query, tables: Tables) -> Iterator[str]:
    """A note on each word that means nothing here, with those that come nearest."""
    from difflib import get_close_matches

    words = [phrase for phrase, word in _vocabulary(tables).items() if word.sort != "filler"]
    for unknown in query.unknown:
        near = get_close_matches(unknown, words, n=2, cutoff=0.6)
        nearest = f"; nearest {'are' if len(near) > 1 else 'is'} {' and '.join(near)}" if near else ""
        yield f"{visible(unknown)} means nothing here{nearest}"
