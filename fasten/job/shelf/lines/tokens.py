"""A line taken apart: how many it says there are, sizes as they are written, and the words that are known."""

import re
from collections.abc import Iterator
from functools import lru_cache

from fasten.catalog.rows import PROPERTY_CLASSES
from fasten.catalog.shelf_words import SHELF_WORDS
from fasten.catalog.tables import Tables
from fasten.record import record, replace
from fasten.text.shown import visible
from fasten.text.values import Value, ValueSort, scan

LONGEST = 200
COLUMN = "column"  # the sort of titles, which are no words of a line
_MEASURES = "mm|mm2|in|cm|x|to|by|awg|ga|gauge|a|amps?|m|metres?|ml|l|g|kg"  # a number before one is no count
_PACKS = re.compile(r"(?:(?<![\w./])(?P<n>[0-9]+) )?(?:packs?|boxes|box|bags?|tubs?) of (?P<m>[0-9]+)")
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
_OF_BITS = re.compile(r"(?:(?<=bit )|(?<=bits )|(?<=drill )|(?<=drills ))x ?(?P<n>[0-9]+)$")
_SAID_COUNTS = (*_COUNTS[:3], _OF_BITS)  # where other numbers are sizes


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

    def of(self, *sorts: ValueSort) -> tuple[Value, ...]:
        """The sizes of these sorts in the order written."""
        return tuple(value for value in self.values if value.sort in sorts)

    def named(self, *sorts: str) -> tuple[Word, ...]:
        """The words of these sorts in the order written."""
        return tuple(word for word in self.words if word.sort in sorts)

    @property
    def unknown(self) -> tuple[str, ...]:
        """The words that mean nothing here."""
        return tuple(word.text for word in self.words if not word.sort)


def taken_apart(line: str, tables: Tables, *, counts: bool = True) -> Tokens:
    """A line in its parts; without `counts` every number is a size, as of bits, but what is said to be a count."""
    count, rest = _counted(plain_line(line), _COUNTS if counts else _SAID_COUNTS)
    phrases = _phrases(tables)
    found = tuple(scan(re.sub(r"(?<= )-(?=[0-9])", " ", rest), phrases))
    values = [one for one in found if isinstance(one, Value)]
    words = tuple(
        Word(*phrases.get(one.text, ("", "")), one.text, one.at) for one in found if not isinstance(one, Value)
    )
    is_screw = any(word.sort == "head" for word in words)
    return Tokens(line, rest, count, tuple(_settled(values, is_screw, tables) if counts else values), words)


def _settled(values: list[Value], is_screw: bool, tables: Tables) -> Iterator[Value]:
    """Values, a number or a grade that is a property class as one: classes are those of screws with a metric thread."""
    of_screws = (ValueSort.METRIC, ValueSort.STANDARD)
    has_thread = is_screw or any(value.sort in of_screws for value in values)
    for value in values:
        is_class = tables.find(PROPERTY_CLASSES, value.first) is not None
        may_be = value.sort is ValueSort.GRADE or (value.sort is ValueSort.BARE and has_thread)
        yield replace(value, sort=ValueSort.STRENGTH) if is_class and may_be else value


def plain_line(line: str) -> str:
    """A line in lower case with one space between words; commas between cells are spaces, those of decimals points."""
    text = visible(line.replace("\t", " "), LONGEST).casefold().replace("\u00d7", "x")
    text = re.sub(r"[;|]", " ", text)
    if text.count(",") < 2:
        text = re.sub(r"(?<=[0-9]),(?=[0-9])", ".", text)
    return " ".join(text.replace(",", " ").split())


def _counted(plain: str, forms: "tuple[re.Pattern[str], ...]") -> tuple[int | None, str]:
    """How many a line says there are, and the line without it."""
    packs = _PACKS.search(plain)
    if packs is not None:
        return int(packs["n"] or 1) * int(packs["m"]), _without(plain, packs)
    dozen = _DOZEN.search(plain)
    if dozen is not None:
        return 12 * int(dozen["n"] or 1), _without(plain, dozen)
    for form in forms:
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
