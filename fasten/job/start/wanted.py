"""What somebody is fitting, as they say it: "two amplifiers, four door speakers, sub box".

text  = part {"," part}, where "and", "plus" and "with" may stand for a comma
part  = [count] [place] words ["with" thing {"and" thing}]
thing = [count] words of what the install carries: "board with one amplifier and no processor"
count = a number or its word, of pieces; "pair of" before the words counts twice as many
"""

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from fasten.catalog.installs import INSTALL_MOUNTS, INSTALLS, Install, InstallMount
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.question.read_onto import item_names
from fasten.record import record, replace
from fasten.text.names import NEAR, either, some, tokens
from fasten.text.shown import shown

MOST_TEXT = 1_000  # characters
WHERE = "with"
_NEAREST = 2
_PARTS = re.compile(r"[,;\n]|\s[&+]\s")
_COUNTED = re.compile(r"([0-9]{1,9})x?")
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_COUNTS = {word: count for count, word in enumerate(_NUMBERS)} | {"a": 1, "an": 1, "the": 1, "without": 0, "couple": 2}
_JOINS = ("and", "plus", "with")
_PAIRS = ("pair", "pairs", "set", "sets")
_PLACES_EACH = 2  # pieces of a pair
_MOST_ITEMS = 12
SIDES = ("left", "right")


@record
class Wanted:
    """An install that is wanted: `count` of it, at a place of its own where one is said.

    `only` is the one mount point of it that is wanted, empty where all are; `counts` is how many of a mount point it
    has where that was said.
    """

    install: Install
    count: int
    place: str = ""
    only: str = ""
    counts: tuple[tuple[str, int], ...] = ()


@record
class WantedItem:
    """An item by itself that is wanted, with nothing proposed for it: its key, and a mount point at each place."""

    item: str
    places: tuple[str, ...]


@record
class _Named:
    """What words name: an install, or one mount point of it."""

    install: Install
    only: str


Words = tuple[str, ...]


def read_wanted(text: str, tables: Tables) -> tuple[Wanted | WantedItem, ...]:
    """What is wanted, in the order in which it is said: installs, and items that are none.

    Raises: FastenError that names every word that is not known with the nearest two, or a count that cannot be.
    """
    if len(text) > MOST_TEXT:
        raise FastenError(f"what is fitted is {len(text)} characters long, at most {MOST_TEXT}", where=WHERE,
                          fix="start with some of it, then add the rest")  # fmt: skip
    known = names(tables)
    found: list[Wanted | WantedItem] = []
    wrong: list[str] = []
    for part in _PARTS.split(text):
        words = tuple(tokens(part.casefold()))
        while words := _after_join(words):
            one, rest = _read_part(words, known, tables)
            item, after = (None, words) if one is not None else _read_item(words, tables)
            if item is not None:
                found.append(item)
                words = after
                continue
            if one is None:
                wrong.append(" ".join(words))
                break
            found.append(one)
            words = rest
    if wrong:
        raise _unknown(wrong, tables)
    if not found:
        raise FastenError("nothing is said to be fitted", where=WHERE, fix=f"write {_example()}")
    return tuple(found)


def are_several(text: str) -> bool:
    """Whether a text names things apart, so that it is no single item."""
    return sum(bool(part.strip()) for part in _PARTS.split(text)) > 1


def names(tables: Tables) -> dict[Words, _Named]:
    """Every way of saying an install or one mount point of it, each word without the s of many."""
    known = {_stems(text): _Named(row, "") for row in tables.rows(INSTALLS) for text in (row.title, *row.said_as)}
    alone = {
        _stems(text): _Named(tables.need(INSTALLS, row.install), row.mount)
        for row in tables.rows(INSTALL_MOUNTS)
        for text in row.alone
    }
    return {**alone, **known}


def nearest(text: str, tables: Tables, count: int = _NEAREST) -> list[str]:
    """The ways of saying an install that are near to a text without its count, nearest first."""
    said = [word for row in tables.rows(INSTALLS) for word in row.said_as]
    said += [word for row in tables.rows(INSTALL_MOUNTS) for word in row.alone]
    words = tuple(tokens(text.casefold()))
    start = max((after for after, *_ in _openings(words, tables) if words[after:]), default=0)
    wanted = " ".join(map(_stem, words[start:]))
    alike = ((SequenceMatcher(None, wanted, " ".join(_stems(word))).ratio(), word) for word in said)
    near = sorted((one for one in alike if one[0] >= NEAR), key=lambda one: -one[0])
    return [word for _, word in near[:count]]


def _example() -> str:
    return '"two amplifiers, four door speakers, sub box"'


def _unknown(wrong: list[str], tables: Tables) -> FastenError:
    """The refusal of parts that name no install, each with what is near; what is known where nothing is."""
    meant = [(part, either(near)) for part in wrong if (near := nearest(part, tables))]
    known = f"write {some([row.said_as[0] for row in tables.rows(INSTALLS)])}"
    if len(wrong) == 1:
        fix = f"did you mean {meant[0][1]}?" if meant else known
        return FastenError(f"{shown(wrong[0])} names no install", where=WHERE, fix=fix)
    what = f"{', '.join(map(shown, wrong[:-1]))} and {shown(wrong[-1])} name no install"
    fix = f"write {'; '.join(f'for {shown(part)} {words}' for part, words in meant)}" if meant else known
    return FastenError(what, where=WHERE, fix=fix)


def _after_join(words: Words) -> Words:
    while words and words[0] in _JOINS:
        words = words[1:]
    return words


def _read_part(words: Words, known: dict[Words, _Named], tables: Tables) -> tuple[Wanted | None, Words]:
    """The first thing that words say, and the words after it; nothing where they name no install."""
    for start, count, pairs, place in _openings(words, tables):
        named, end = _longest(words[start:], known)
        rest = words[start + end :]
        if named is None or (place and place not in named.install.places) or (rest and rest[0] not in _JOINS):
            continue
        one = replace(_of_count(named, count, is_pairs=pairs, said=" ".join(words)), place=place)
        return _with_carried(one, rest, tables)
    return None, words


def _read_item(words: Words, tables: Tables) -> tuple[WantedItem | None, Words]:
    """An item that words begin with, and the words after it: several by a count, two of what is said as many."""
    known = {_stems(name): key for name, key in item_names(tables).items()}
    for start, count, pairs, place in _openings(words, tables):
        stems = tuple(map(_stem, words[start:]))
        end = next((end for end in range(len(stems), 0, -1) if stems[:end] in known), 0)
        rest = words[start + end :]
        if not end or count == 0 or (rest and rest[0] not in _JOINS):
            continue
        if (count or 1) > _MOST_ITEMS:
            what = f"{shown(' '.join(words))} is more than one job is started with: at most {_MOST_ITEMS}"
            raise FastenError(what, where=WHERE, fix=f"write {_MOST_ITEMS} or fewer, and copy the rest")
        is_many = count is None and not place and words[start + end - 1] != stems[end - 1]
        sides = SIDES if pairs or is_many else ("",) * (count or 1)
        return WantedItem(known[stems[:end]], (place,) if place else sides), rest
    return None, words


def _openings(words: Words, tables: Tables) -> Iterator[tuple[int, int | None, bool, str]]:
    """Every way to read what stands before the words of an install: how many words, the count, a pair, the place."""
    places = {*SIDES, *(place for row in tables.rows(INSTALLS) for place in row.places)}
    yield 0, None, False, ""
    for start, count in ((0, None), *_counted(words)):
        after = start + 1 if words[start : start + 1] and words[start] in _PAIRS else start
        is_pairs = after > start
        after = after + 1 if is_pairs and words[after : after + 1] == ("of",) else after
        yield after, count, is_pairs, ""
        if words[after : after + 1] and words[after] in places:
            yield after + 1, count, is_pairs, words[after]


def _counted(words: Words) -> Iterator[tuple[int, int]]:
    found = _COUNTED.fullmatch(words[0])
    if found is not None:
        yield (2 if words[1:2] == ("x",) else 1), int(found[1])
    elif words[0] in _COUNTS:
        yield 1, _COUNTS[words[0]]
        if words[1:2] == ("couple",) and words[0] == "a":
            yield (3 if words[2:3] == ("of",) else 2), _COUNTS["couple"]


def _longest(words: Words, known: dict[Words, _Named]) -> tuple[_Named | None, int]:
    """The longest of the names that words begin with, and how many of them it takes."""
    stems = tuple(map(_stem, words))
    for end in range(len(stems), 0, -1):
        if stems[:end] in known:
            return known[stems[:end]], end
    return None, 0


def _of_count(named: _Named, count: int | None, *, is_pairs: bool, said: str) -> Wanted:
    """So many of an install; raises FastenError where a count of pieces makes no whole ones, or too many."""
    install = named.install
    pieces = install.pieces if count is None else count * (install.pieces if is_pairs else 1)
    title = shown(said)
    if is_pairs and install.pieces < _PLACES_EACH:
        pieces = (1 if count is None else count) * _PLACES_EACH
    if not pieces or pieces % install.pieces:
        fix = f"write {install.pieces} or {2 * install.pieces}" if install.pieces > 1 else "leave it out"
        why = "they come in pairs" if install.pieces > 1 else "that is none"
        raise FastenError(f"{title} cannot be: {why}", where=WHERE, fix=fix)
    if pieces > install.most:
        what = f"{title} is more than one job is started with: at most {install.most}"
        raise FastenError(what, where=WHERE, fix=f"write {install.most} or fewer, and copy the rest")
    return Wanted(install, 1 if named.only else pieces // install.pieces, only=named.only)


def _with_carried(one: Wanted, rest: Words, tables: Tables) -> tuple[Wanted, Words]:
    """What an install is said to carry: things joined by and, as long as they are of it."""
    counts: dict[str, int] = {}
    of = [row for row in tables.rows(INSTALL_MOUNTS) if row.install == one.install.install and row.counted]
    joins = rest[:1] in {("with",), ("without",)}
    while joins and rest:
        start = 0 if rest[0] == "without" else 1
        found = _carried(rest[start:], of)
        if found is None:
            break
        row, count, used = found
        if not 0 <= count <= one.install.most:
            raise FastenError(f"{count} {row.counted[0]}s are too many for one {one.install.said_as[0]}", where=WHERE,
                              fix=f"write {one.install.most} or fewer")  # fmt: skip
        counts[row.mount] = count
        rest = rest[start + used :]
        joins = rest[:1] in {("and",), ("with",), ("without",)}
    return replace(one, counts=tuple(counts.items())), rest


def _carried(words: Words, of: list[InstallMount]) -> tuple[InstallMount, int, int] | None:
    """A thing that an install carries, how many of it, and how many words say so."""
    for start, count in ((0, 1), *(_counted(words) if words else ())):
        stems = tuple(map(_stem, words[start:]))
        for row in of:
            for text in row.counted:
                wanted = _stems(text)
                if stems[: len(wanted)] == wanted:
                    return row, count, start + len(wanted)
    return None


def _stems(text: str) -> Words:
    return tuple(map(_stem, tokens(text.casefold())))


def _stem(word: str) -> str:
    """A word without the s of many, so that one and many are the same."""
    if len(word) < 4 or not word.endswith("s"):
        return word
    return word[:-2] if word.endswith(("xes", "ses")) else word[:-1]
