"""Lines of what somebody owns, plain or as CSV: each is read by itself, and none is dropped."""

import re
from collections.abc import Callable, Iterator
from difflib import get_close_matches

from fasten.catalog.parts import HEADS
from fasten.catalog.shelf_words import SHELF_WORDS
from fasten.catalog.tables import Tables
from fasten.job.list.stock import stock
from fasten.job.shelf.lines import cable, others, screws, things
from fasten.job.shelf.lines.asking import TWO, of_no_length
from fasten.job.shelf.lines.listed import as_listed
from fasten.job.shelf.lines.tokens import COLUMN, LONGEST, Tokens, Word, taken_apart
from fasten.job.shelf.lines.words import Asked, Read, ReadPart
from fasten.model import kinds
from fasten.model.line import Part
from fasten.text.names import NEAR
from fasten.text.shown import visible
from fasten.text.values import ValueSort

_LEAST_TITLES = 2
_NEARLY, _LEAST_WORD = 0.82, 5  # of a word that is spelled wrong, the share that it has of the right one
_WHAT = "what is it: a part, a bit, a tool or a consumable?"


def read_lines(text: str, tables: Tables) -> tuple[Read, ...]:
    """Every line of a text that says anything; a first line of column titles says what the cells below it are."""
    lines = [line.strip() for line in text.splitlines() if line.strip(" \t,;|")]
    titles = _titles(lines[0], tables) if lines else None
    if titles is None:
        return tuple(read_line(line, tables) for line in lines)
    return tuple(read_line(_of_columns(line, titles), tables) for line in lines[1:])


def read_line(line: str, tables: Tables) -> Read:
    """What one line comes to."""
    exact = as_listed(line, tables)
    if exact is not None:
        return exact
    tokens = taken_apart(line, tables)
    read = _way(tokens, tables)
    return _unknown(tokens, tables) if read is None else read


def _way(tokens: Tokens, tables: Tables) -> Read | None:
    for sort, read in _BY_WORD.items():
        word = next(iter(tokens.named(sort)), None)
        found = None if word is None else read(tokens, word, tables)
        if found is not None:
            return found
    exact = things.known_name(tokens.plain, tables)
    if exact is not None:
        return exact
    if tokens.of(ValueSort.TAPPING):
        return screws.tapping_screw(tokens, _tapping_standard(tables), tables)
    by_standard = others.by_standard(tokens, tables)
    if by_standard is not None:
        return by_standard
    nearly = _nearly(tokens, tables)
    if nearly is not None:
        return nearly
    is_screw = tokens.named("head") or tokens.of(ValueSort.METRIC, ValueSort.UNIFIED, ValueSort.STANDARD)
    return screws.machine_screw(tokens, tables) if is_screw else None


def _kind(tokens: Tokens, word: Word, tables: Tables) -> Read:
    if word.names == kinds.MACHINE_SCREW.line:
        is_tapping = tokens.of(ValueSort.TAPPING)
        return (screws.tapping_screw(tokens, _tapping_standard(tables), tables) if is_tapping
                else screws.machine_screw(tokens, tables))  # fmt: skip
    if word.names == kinds.SELF_DRILLING.line:
        return screws.tapping_screw(tokens, _tapping_standard(tables), tables, word.names)
    if word.names == kinds.WASHER.line:
        return others.washer(tokens, tables)
    if word.names == kinds.LOCK_NUT.line:
        return others.nut(tokens, "prevailing_torque", tables)
    if word.names == kinds.HEXAGON_NUT.line:
        return others.nut(tokens, "hexagon", tables)
    return others.of_kind(tokens, word.names, tables)


def _series(tokens: Tokens, word: Word, tables: Tables) -> Read | None:
    """A word that alone says the part: a penny washer."""
    is_washer = word.text.endswith(("washer", "washers"))
    return others.washer(tokens, tables) if is_washer else None


def _is_of_screw(tokens: Tokens) -> bool:
    """Whether a socket is what a screw is driven by: its thread and head are said too."""
    return bool(tokens.named("head") and tokens.of(ValueSort.METRIC))


def _setter(tokens: Tokens, word: Word, tables: Tables) -> Read:
    """A tool; a setter with the mandrels that its line names."""
    mandrels = next(iter(tokens.named("threaded")), None)
    if mandrels is not None:
        return things.by_thread(tokens, mandrels.names, tables, (word.names,))
    return things.tool(tokens, word.names)


def _tapping_standard(tables: Tables) -> str:
    return next(row.standard for row in tables.rows(HEADS) if row.form == "pan_tapping")


# In this order: what a line is about is said by the first of these that it has.
_BY_WORD: dict[str, Callable[[Tokens, Word, Tables], Read | None]] = {
    "end": lambda tokens, word, tables: cable.end_part(tokens, word.names, tables),
    "tube": lambda tokens, word, tables: cable.tube(tokens, tables),
    "shrink": lambda tokens, word, tables: cable.shrink(tokens, tables),
    "reel": lambda tokens, word, tables: cable.cable(tokens, tables),
    "driver": lambda tokens, word, tables: things.drivers(tokens, word.names, tables),
    "tool": _setter,
    "threadless": lambda tokens, word, tables: things.riveter(tokens, word.names, tables),
    "sized": lambda tokens, word, tables: None if _is_of_screw(tokens) else things.by_flats(tokens, word.names, tables),
    "threaded": lambda tokens, word, tables: things.by_thread(tokens, word.names, tables),
    "layered": lambda tokens, word, tables: things.layered(tokens, word.names),
    "consumable": lambda tokens, word, tables: things.consumable(tokens, word.names),
    "bit": lambda tokens, word, tables: things.bits(tokens, tables),
    "board": lambda tokens, word, tables: screws.board_screw(tokens, word.names, tables),
    "thin": lambda tokens, word, tables: others.nut(tokens, "prevailing_torque_thin", tables),
    "tapping": lambda tokens, word, tables: screws.tapping_screw(tokens, word.names, tables),
    "kind": _kind,
    "nut": lambda tokens, word, tables: others.nut(tokens, "", tables),
    "insert": lambda tokens, word, tables: others.insert(tokens, tables),
    "series": _series,
}  # fmt: skip


def _nearly(tokens: Tokens, tables: Tables) -> Asked | None:
    """A line that names no kind of thing, but has a word that is nearly one: it is asked for, never taken."""
    rows = [row for row in tables.rows(SHELF_WORDS) if row.sort in _BY_WORD and row.sort != "series"]
    phrases = [phrase for row in rows for phrase in row.written.split("|")]
    words = [word for word in tokens.unknown if len(word) >= _LEAST_WORD]
    for word in words if not tokens.named("head") else ():
        close = get_close_matches(word, phrases, n=2, cutoff=_NEARLY)
        reads = [read_line(tokens.line.casefold().replace(word, phrase), tables) for phrase in close]
        if reads:
            rest = f", and {reads[0].question}" if isinstance(reads[0], Asked) else "?"
            near = tuple(dict.fromkeys(thing for read in reads for thing in _things(read)))[:TWO]
            return Asked(tokens.line, f"does {visible(word)} mean {close[0]}{rest}", near, tokens.count)
    return None


def _things(read: Read) -> tuple[Part | str, ...]:
    if isinstance(read, Asked):
        return read.nearest
    return (read.entry.part,) if isinstance(read, ReadPart) else read.names


def _unknown(tokens: Tokens, tables: Tables) -> Asked:
    """A line that says nothing that is known: the two that are nearest, of those near, of what answers ask for."""
    known = stock(tables)
    kinds_ = {part.kind.casefold(): part for part in reversed(known.parts.values())}
    names = {name.casefold(): name for name in (*known.tools, *known.consumables)}
    near = get_close_matches(tokens.plain[:LONGEST], (*names, *kinds_), n=2, cutoff=NEAR)
    nearest = tuple(of_no_length(names.get(text) or kinds_[text]) for text in near)
    return Asked(tokens.line, _WHAT, nearest, tokens.count)


# -- CSV --------------------------------------------------------------------------------------------------------------


def _titles(line: str, tables: Tables) -> tuple[str, ...] | None:
    """What the cells of each column are, where a line is one of titles."""
    cells = tuple(cell.strip().casefold().strip("\"'") for cell in _cells(line))
    rows = [row for row in tables.rows(SHELF_WORDS) if row.sort == COLUMN]
    known = {title: row.names or "" for row in rows for title in row.written.split("|")}
    is_head = len(cells) >= _LEAST_TITLES and all(cell in known for cell in cells)
    return tuple(known[cell] for cell in cells) if is_head else None


def _of_columns(line: str, titles: tuple[str, ...]) -> str:
    """A line of cells as a plain line, each bare number said to be what its column is."""
    return " ".join(_said(titles, _cells(line)))


def _said(titles: tuple[str, ...], cells: list[str]) -> Iterator[str]:
    for at, cell in enumerate(cells):
        text, title = cell.strip().strip("\"'"), titles[at] if at < len(titles) else ""
        bare = re.fullmatch(r"[0-9]+(?:[.,][0-9]+)?", text)
        if bare and title == "count":
            yield f"qty {text}"
        elif bare and title == "length":
            yield f"{text.replace(',', '.')} mm"
        elif text:
            yield text


def _cells(line: str) -> list[str]:
    import csv

    mark = next((one for one in ("\t", ";", "|", ",") if one in line), ",")
    return next(csv.reader([line], delimiter=mark), [])
