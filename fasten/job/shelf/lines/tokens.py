"""A line taken apart: how many it says there are, sizes as they are written, and the words that are known."""

import re
from collections.abc import Iterator
from enum import Enum
from functools import lru_cache

from fasten.catalog.shelf_words import SHELF_WORDS
from fasten.catalog.tables import Tables
from fasten.record import record
from fasten.text.shown import visible

LONGEST = 200
COLUMN = "column"  # the sort of titles, which are no words of a line
_N = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_F = r"(?:[0-9]+[ -])?[0-9]+/[0-9]+"

_INCH_THREAD = r"(?P<a>#?[0-9]{1,2}|[0-9]/[0-9]{1,2})-(?P<b>[0-9]{2})"


class Size(Enum):
    """What a size of a line may be."""

    METRIC = "metric thread"
    TAPPING = "tapping screw"
    UNIFIED = "inch thread"
    NUMBERED = "numbered size"
    STANDARD = "standard"
    GRADE = "property class"
    STAR = "hexalobular drive"
    CROSS = "cross recess"
    PAIR = "two sizes"
    TORQUE = "torque"
    LENGTH = "length"
    FRACTION = "fraction of an inch"
    LETTER = "letter"
    BARE = "number"


_FORMS = (
    (Size.METRIC, rf"m ?(?P<a>{_N})(?: ?[x*-] ?(?P<b>{_N}))?(?: ?[x*] ?(?P<c>{_N}))?(?: ?mm)?"),
    (Size.TAPPING, rf"st ?(?P<a>{_N})(?: ?[x*] ?(?P<b>{_N}))?(?: ?mm)?"),
    (Size.UNIFIED, rf"{_INCH_THREAD}(?: ?[x*] ?(?P<c>{_F}|{_N})(?: ?in|\")?)?"),
    (Size.NUMBERED, rf"(?:#|no\.? ?)(?P<a>[0-9]{{1,2}})(?: ?[x*] ?(?P<b>{_F}|{_N})(?P<u> ?mm| ?in|\")?)?"),
    (Size.STANDARD, r"(?P<a>iso|din|en) ?(?P<b>[0-9]{2,5}(?:-[0-9])?)"),
    (Size.GRADE, r"(?P<a>a[24]-[0-9]{2})|(?P<b>4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)(?! ?(?:mm|x|\*))"),
    (Size.STAR, r"(?:tx|t) ?(?P<a>[0-9]{1,2})"),
    (Size.CROSS, r"(?:ph|pz) ?(?P<a>[0-4])"),
    (Size.TORQUE, rf"(?P<a>{_N})(?: ?(?:-|to) ?(?P<b>{_N}))? ?n[.\u00b7 ]?m"),
    (Size.PAIR, rf"(?P<a>{_N})(?: ?mm)? ?[x*] ?(?P<b>{_N})(?: ?mm)?"),
    (Size.LENGTH, rf"(?P<a>{_F}|{_N}) ?(?P<u>mm|cm|m|inches|inch|in|\")"),
    (Size.FRACTION, rf"(?P<a>{_F})"),
    (Size.LETTER, r"letter (?P<a>[a-z])|(?P<b>[a-z])(?= (?:drill|bit))"),
    (Size.BARE, rf"(?P<a>{_N})"),
)  # fmt: skip
_MEASURES = "mm|mm2|in|cm|x|to|by|awg|ga|gauge|a|amps?|m|metres?|ml|l|g|kg"  # a number before one is no count
_INCH = ("in", "inch", "inches", '"')
_PACKS = re.compile(r"(?:(?P<n>[0-9]+) )?(?:packs?|boxes|box|bags?|tubs?) of (?P<m>[0-9]+)")
_DOZEN = re.compile(r"\b(?:(?P<n>[0-9]+) |a )?dozen\b")
_COUNTS = tuple(
    re.compile(form)
    for form in (
        r"\b(?:qty|quantity|count|pcs|pieces)\.?[:= ]*(?P<n>[0-9]+)\b", r"\((?P<n>[0-9]+)\)",
        r"(?<![\w.])(?P<n>[0-9]+) ?(?:pcs|pc|pieces|piece|off|ea|each|nos)\b\.?",
        r"^(?P<n>[0-9]+) ?x(?= ?[a-z#])", rf"^(?P<n>[0-9]+) (?=(?!(?:{_MEASURES})\b|-)[a-z#(])",
        r"(?<=[a-z)] )x ?(?P<n>[0-9]+)$", r"(?<=[0-9] )x(?P<n>[0-9]+)$", r"(?<=mm )x ?(?P<n>[0-9]+)$",
        r"(?<=[a-z] )(?P<n>[0-9]+)x?$", r"(?<=[0-9] )(?P<n>[0-9]+)x$",
    )
)  # fmt: skip


@record
class Value:
    """A size as it stands in the line: its sort and its figures as they are written."""

    sort: Size
    text: str
    at: int
    a: str
    b: str = ""
    c: str = ""
    unit: str = ""

    @property
    def mm(self) -> float:
        """Its first figure as a length [mm]."""
        figure = number(self.a)
        if self.unit in _INCH or self.sort is Size.FRACTION:
            return figure * 25.4
        return figure * {"cm": 10.0, "m": 1000.0}.get(self.unit, 1.0)


@record
class Word:
    """A word or phrase that is known, or one that is not: its sort is empty then."""

    sort: str
    names: str
    text: str
    at: int


@record
class Tokens:
    """A line in its parts."""

    line: str
    plain: str
    count: int | None
    values: tuple[Value, ...]
    words: tuple[Word, ...]

    def of(self, *sorts: Size) -> tuple[Value, ...]:
        """The sizes of these sorts in the order written."""
        return tuple(value for value in self.values if value.sort in sorts)

    def named(self, *sorts: str) -> tuple[Word, ...]:
        """The words of these sorts in the order written."""
        return tuple(word for word in self.words if word.sort in sorts)

    @property
    def unknown(self) -> tuple[str, ...]:
        """The words that mean nothing here."""
        return tuple(word.text for word in self.words if not word.sort)


def number(text: str) -> float:
    """A figure as it is written, a fraction with it."""
    whole, _, fraction = text.replace("-", " ").rpartition(" ")
    over, _, under = fraction.partition("/")
    return (float(whole) if whole else 0.0) + float(over) / (float(under or 1) or 1.0)


def taken_apart(line: str, tables: Tables, *, counts: bool = True) -> Tokens:
    """A line in its parts; without `counts` every number is a size, as of bits."""
    plain = plain_line(line)
    count, rest = _counted(plain) if counts else (None, plain)
    found = tuple(_scan(rest, _phrases(tables)))
    values = tuple(one for one in found if isinstance(one, Value))
    words = tuple(one for one in found if isinstance(one, Word))
    return Tokens(line, rest, count, values, words)


def plain_line(line: str) -> str:
    """A line in lower case with one space between words; commas between cells are spaces, those of decimals points."""
    text = visible(line.replace("\t", " "), LONGEST).casefold().replace("\u00d7", "x")
    text = re.sub(r"[;|]", " ", text)
    if text.count(",") < 2:
        text = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text)
    return " ".join(text.replace(",", " ").split())


def _counted(plain: str) -> tuple[int | None, str]:
    """How many a line says there are, and the line without it."""
    packs = _PACKS.search(plain)
    if packs is not None:
        return int(packs["n"] or 1) * int(packs["m"]), _without(plain, packs)
    dozen = _DOZEN.search(plain)
    if dozen is not None:
        return 12 * int(dozen["n"] or 1), _without(plain, dozen)
    for form in _COUNTS:
        found = form.search(plain)
        if found is not None:
            return int(found["n"]), _without(plain, found)
    return None, plain


def _without(plain: str, found: "re.Match[str]") -> str:
    return " ".join(f"{plain[: found.start()]} {plain[found.end() :]}".split())


@lru_cache(maxsize=2)
def _phrases(tables: Tables) -> dict[str, tuple[str, str]]:
    rows = [row for row in tables.rows(SHELF_WORDS) if row.sort != COLUMN]
    return {phrase: (row.sort, row.names or "") for row in rows for phrase in row.written.split("|")}


def _scan(plain: str, phrases: dict[str, tuple[str, str]]) -> Iterator[Value | Word]:
    at = 0
    while at < len(plain):
        if plain[at] in " ,:!?()+/-*\"'":
            at += 1
            continue
        value, phrase = _value_at(plain, at), _phrase_at(plain, at, phrases)
        if value is not None and len(value.text) >= len(phrase):
            yield value
            at += len(value.text)
        elif phrase:
            yield Word(*phrases[phrase], phrase, at)
            at += len(phrase)
        else:
            text = re.compile(r"[^ ]+").match(plain, at)
            word = text[0] if text else plain[at]
            yield Word("", "", word, at)
            at += len(word)


def _value_at(plain: str, at: int) -> Value | None:
    best: Value | None = None
    for sort, form in _compiled():
        found = form.match(plain, at)
        end = 0 if found is None else found.end()
        if found is not None and _ends(plain, end) and (best is None or len(found[0]) > len(best.text)):
            groups = found.groupdict()
            best = Value(sort, found[0], at, groups.get("a") or groups.get("b") or "",
                         (groups.get("b") or "") if groups.get("a") else "", groups.get("c") or "",
                         (groups.get("u") or "").strip())  # fmt: skip
    return best


@lru_cache(maxsize=1)
def _compiled() -> tuple[tuple[Size, "re.Pattern[str]"], ...]:
    return tuple((sort, re.compile(form)) for sort, form in _FORMS)


def _ends(plain: str, end: int) -> bool:
    return end == len(plain) or not (plain[end].isalnum() or plain[end] in "./")


def _phrase_at(plain: str, at: int, phrases: dict[str, tuple[str, str]]) -> str:
    ends = [found.start() for found in re.compile(r"[ ,:!?()]|$").finditer(plain, at)]
    return max((plain[at:end] for end in ends[:5] if plain[at:end] in phrases), key=len, default="")
