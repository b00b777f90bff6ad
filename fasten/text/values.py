"""Values in a text as people type them, each by its sort: threads, sizes, gauges, areas, drives, standards and numbers.

A question to the look-up and a line of a shelf are read by the same forms. The longest match counts: an area before a
length before a thread (`10mm2` holds `m2`), `lock nut` before `nut`, `tapping drill` before `tapping`.
"""

import re
from collections.abc import Container, Iterator
from enum import Enum
from functools import cache
from itertools import islice

from fasten.record import record
from fasten.text.units import MM_PER_INCH

INCHES = frozenset({"in", "inch", "inches", '"'})

_PER_UNIT = (
    {"cm": 10.0, "thou": MM_PER_INCH / 1000.0}
    | dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1000.0)
    | dict.fromkeys(("ft", "feet"), 12 * MM_PER_INCH)
)
_INCH_SHARE = 0.01
_LEAST_OF_REEL = 100.0
_MOST_WORDS = 6  # of a phrase
_BREAKS = " ,;:?!()"
_SIGNS = re.compile(r"[ ,;:?!()+/*\"']|-(?![0-9.])|(?<=[^ ])-")  # between words, where they mean nothing
_N = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_FRACTION = r"(?:[0-9]+[ -])?[0-9]+/[0-9]+"
_LONG = rf"(?: ?[x*] ?(?P<x>{_FRACTION}|{_N})(?P<u> ?mm| ?in(?:ch)?|\")?)?"


class ValueSort(Enum):
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
    PAIR = "two sizes"
    LENGTH = "length"
    AREA = "area"
    AMPS = "amperes"
    AWG = "wire gauge"
    GAUGE = "gauge"
    TORQUE = "torque"
    BARE = "number"


# Of matches of one length the first counts. Groups: n the first figure or name, k, l or m in its place; p a second
# figure, x a length and u a unit. A letter beside a bit is no `a` and no `i`, which are words, and no `x`, a sign.
# 1/0 to 4/0 are sizes of cable and of nothing else, whatever stands behind them.
_FORMS = (
    (ValueSort.AREA, rf"(?P<n>{_N}) ?(?P<u>mm(?:2|²|\^2)|sq ?mm|square mm)"),
    (ValueSort.TORQUE, rf"(?P<n>{_N})(?: ?(?:-|to) ?(?P<p>{_N}))? ?"
                  r"(?P<u>n ?[·.-]? ?m|(?:in|ft)[ ·.-]?lb(?:f|s)?|lbf?[ ·.-]?(?:in|ft))"),
    (ValueSort.AWG, r"(?P<n>[1-4]/0|[0-9]{1,2}) ?awg|awg ?(?P<m>[1-4]/0|[0-9]{1,2})|(?P<k>[1-4]/0)"),
    (ValueSort.GAUGE, r"(?P<n>[1-4]/0|[0-9]{1,2}) ?(?:gauge|ga)"),
    (ValueSort.METRIC, rf"m ?(?P<n>{_N})(?: ?[x*-] ?(?P<p>{_N}))?(?: ?[x*] ?(?P<x>{_N}))?(?: ?mm)?"),
    (ValueSort.TAPPING, rf"st ?(?P<n>{_N})(?: ?[x*] ?(?P<x>{_N})(?: ?mm)?)?"),
    (ValueSort.UNIFIED, rf"(?:(?:#|no\.?|number) ?)?(?P<n>[0-9]+/[0-9]+|[0-9]{{1,2}})\"? ?- ?(?P<p>[0-9]{{2}}){_LONG}"),
    (ValueSort.NUMBERED, rf"(?:#|no\.?|number) ?(?P<n>[0-9]{{1,2}}){_LONG}"),
    (ValueSort.STANDARD, r"(?P<n>iso|din|en) ?(?P<p>[0-9]{2,5}(?:-[0-9])?)"),
    (ValueSort.STRENGTH, r"(?P<n>a[24]-[0-9]{2})"),
    (ValueSort.GRADE, r"(?:grade|gr\.?) ?(?P<n>[0-9]{1,2}(?:\.[0-9])?)"),
    (ValueSort.STAR, r"(?:star|hexalobular|six[ -]lobe|tx|t) ?(?P<n>[0-9]{1,2})"),
    (ValueSort.CROSS, r"(?:ph|pz|cross[ -]recess|cross) ?(?P<n>[0-4])"),
    (ValueSort.AMPS, rf"(?P<n>{_N}) ?(?:amperes?|amps?|a)"),
    (ValueSort.PAIR, rf"(?P<n>{_N})(?: ?mm)? ?[x*] ?(?P<x>{_N})(?P<u> ?mm)?"),
    (ValueSort.LENGTH, rf"(?P<n>{_FRACTION}|{_N}) ?(?P<u>mm|cm|met(?:re|er)s?|m|\"|inches|inch|in|ft|feet|thou)"),
    (ValueSort.FRACTION, rf"(?P<n>{_FRACTION})"),
    (ValueSort.LETTER, r"letter (?P<n>[a-z])|(?P<k>[b-hj-wyz])(?= (?:drill|bit))"
                  r"|(?<=drill )(?P<l>[b-hj-wyz])|(?<=bit )(?P<m>[b-hj-wyz])"),
    (ValueSort.BARE, rf"(?P<n>{_N})"),
)  # fmt: skip


@record
class Value:
    """A value as it was written, in lower case: its sort, where it stands, its figures as texts, and its unit.

    `first` is its number or name; `second` a pitch, threads to the inch, a length in place of a pitch (M5x16), the end
    of a range, or the number of a standard; `length` what stands after a size of a screw.
    """

    sort: ValueSort
    text: str
    at: int
    first: str
    second: str = ""
    length: str = ""
    unit: str = ""

    @property
    def number(self) -> float:
        """Its first figure, a fraction as a decimal [in its unit]."""
        return number(self.first)

    @property
    def mm(self) -> float:
        """Its first figure as a length [mm]; one without a unit is in millimetres, a fraction in inches."""
        if self.unit in INCHES or self.sort is ValueSort.FRACTION:
            return self.number * MM_PER_INCH
        return self.number * _PER_UNIT.get(self.unit, 1.0)

    @property
    def is_metres(self) -> bool:
        """Whether it is a length as cable is bought by: in metres or feet."""
        return _PER_UNIT.get(self.unit, 0.0) > _LEAST_OF_REEL


@record
class Words:
    """A phrase that was looked for, or a word that was not."""

    text: str
    at: int
    is_known: bool


def is_nominal(said_mm: float, size_mm: float) -> bool:
    """Whether a size is what is sold for a length in inches: 1/8, 5/32 and 3/16 in are 3.2, 4 and 4.8 mm."""
    return size_mm * (1 - _INCH_SHARE) <= said_mm <= size_mm * (1 + _INCH_SHARE)


def number(text: str) -> float:
    """A figure as it is written, a fraction with it."""
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    over, _, under = fraction.partition("/")
    return (float(whole) if whole else 0.0) + float(over) / (float(under or 1) or 1.0)


def scan(plain: str, phrases: Container[str]) -> Iterator[Value | Words]:
    """Values and phrases of a text in lower case from left to right, the longest at each place; other words alone."""
    at = 0
    while at < len(plain):
        if _SIGNS.match(plain, at):
            at += 1
            continue
        found = _at(plain, at, phrases)
        yield found
        at += len(found.text)


def _at(plain: str, at: int, phrases: Container[str]) -> Value | Words:
    value, phrase = _value_at(plain, at), _phrase_at(plain, at, phrases)
    if value is not None and len(value.text) >= len(phrase):
        return value
    return Words(phrase or plain[at : next(_ends_of_words(plain, at), len(plain))], at, bool(phrase))


@cache
def _forms() -> tuple[tuple[ValueSort, "re.Pattern[str]"], ...]:
    """The forms of values, ready to match: made when the first text is read."""
    return tuple((sort, re.compile(form)) for sort, form in _FORMS)


def _value_at(plain: str, at: int) -> Value | None:
    """The longest value that begins at a place and ends at the end of a word."""
    best: Value | None = None
    for sort, form in _forms():
        found = _match(form, plain, at)
        if found is not None and (best is None or len(found[0]) > len(best.text)):
            best = _value(sort, found)
    return best


def _match(form: "re.Pattern[str]", plain: str, at: int) -> "re.Match[str] | None":
    """What a form matches up to the end of a word: what it took of the words after is given back, word by word."""
    found = form.match(plain, at)
    end = at if found is None else found.end()
    while end > at and (found is None or not _is_end(plain, end)):
        end = max(plain.rfind(" ", at, end), at)
        found = form.fullmatch(plain, at, end)
    return found if end > at else None


def _is_end(plain: str, end: int) -> bool:
    return end == len(plain) or not (plain[end].isalnum() or plain[end] in './"' or plain[end - 1 : end + 1] == "--")


def _value(sort: ValueSort, found: "re.Match[str]") -> Value:
    said = {name: text.strip() for name, text in found.groupdict().items() if text}
    first = next((said[name] for name in "nklm" if name in said), "")
    return Value(sort, found[0], found.start(), first, said.get("p", ""), said.get("x", ""), said.get("u", ""))


def _phrase_at(plain: str, at: int, phrases: Container[str]) -> str:
    """The longest phrase at a place; empty where there is none."""
    ends = islice(_ends_of_words(plain, at), _MOST_WORDS)
    return max((plain[at:end] for end in ends if plain[at:end] in phrases), key=len, default="")


def _ends_of_words(plain: str, at: int) -> Iterator[int]:
    """Where words end from a place on, the first of them after it."""
    yield from (end for end in range(at + 1, len(plain)) if plain[end] in _BREAKS)
    yield len(plain)
