"""What lines come to, put on a shelf: parts add up, names stand once, what leaves a question is kept beside them."""

from collections.abc import Iterable

from fasten.catalog.shelf_words import KITS
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.list.parts import part_text, same_part
from fasten.job.list.stock import stock
from fasten.job.shelf.amounts import split, together
from fasten.job.shelf.lines.read import read_line, read_lines
from fasten.job.shelf.lines.words import Asked, Read, ReadNames, ReadPart
from fasten.job.shelf.reels import is_cable
from fasten.job.shelf.view import bit_named
from fasten.job.words import Shelf, ShelfPart
from fasten.model.line import Part, Sort
from fasten.record import record, replace
from fasten.text.names import plain_name, unknown

_ASSUMED = "assumed: "
_LONGEST_NOTE = 200


@record
class Kit:
    """A common set: its name, what is in it, and its lines."""

    name: str
    title: str
    lines: tuple[str, ...]


def kits(tables: Tables) -> tuple[Kit, ...]:
    """The common kits, in the order of their table."""
    rows = tables.rows(KITS)
    titles = {row.kit: row.title for row in rows}
    return tuple(Kit(name, title, tuple(row.line for row in rows if row.kit == name)) for name, title in titles.items())


def kit_reads(name: str, tables: Tables) -> tuple[Read, ...]:
    """What a kit comes to; raises FastenError with the nearest where there is none of this name."""
    found = {kit.name: kit for kit in kits(tables)}
    if name not in found:
        raise unknown(name, "a kit", found, "kit")
    return tuple(read_line(line, tables) for line in found[name].lines)


def has_kit(shelf: Shelf, name: str, tables: Tables) -> bool:
    """Whether all of a kit is on a shelf."""
    return shelf == added(shelf, kit_reads(name, tables))


def added(shelf: Shelf, reads: Iterable[Read]) -> Shelf:
    """The shelf with what the lines come to."""
    for read in reads:
        shelf = _added(shelf, read)
    return shelf


def added_text(shelf: Shelf, text: str, tables: Tables) -> tuple[Shelf, tuple[Read, ...]]:
    """The shelf with every line of a text, and what each came to."""
    reads = read_lines(text, tables)
    return added(shelf, reads), reads


def questions(shelf: Shelf, tables: Tables) -> tuple[Asked, ...]:
    """The lines that are kept but not counted, each with its question; what is understood by now asks to be added."""
    return tuple(_question(line, tables) for line in shelf.asked)


def _question(line: str, tables: Tables) -> Asked:
    read = read_line(line, tables)
    if isinstance(read, Asked):
        return read
    return Asked(line, "is it this?", (read.entry.part,) if isinstance(read, ReadPart) else read.names[:1])


def answer(shelf: Shelf, at: int, text: str, tables: Tables) -> tuple[Shelf, Read]:
    """The shelf with the question `at`, from 1, answered: by the number of what is near, or by the line anew.

    A number may be followed by how many there are: `1 x 20`.
    Raises: FastenError if there is no such question, or it is not said how many there are.
    """
    if not 1 <= at <= len(shelf.asked):
        count = len(shelf.asked)
        fix = f"give a number from 1 to {count}" if count else "no line of the shelf leaves one"
        raise FastenError(f"there is no question {at}", where="answer", fix=fix)
    line = shelf.asked[at - 1]
    asked = _question(line, tables)
    read = _chosen(asked, text, tables) or read_line(text, tables)
    left = tuple(one for place, one in enumerate(shelf.asked, 1) if place != at)
    return _added(replace(shelf, asked=left), read), read


def _sort_of(name: str, tables: Tables) -> Sort:
    """What one of the nearest is: a bit, a consumable or a tool."""
    if bit_named(name, tables) is not None:
        return Sort.BIT
    known = stock(tables).consumables
    return Sort.CONSUMABLE if any(name.startswith(one) for one in known) else Sort.TOOL


def _chosen(asked: Asked, text: str, tables: Tables) -> Read | None:
    """What the number of one of the nearest says; None where the text is a line of its own."""
    number, _, count = text.strip().partition("x")
    if not number.strip().isdecimal() or not 1 <= int(number) <= len(asked.nearest):
        return None
    near = asked.nearest[int(number) - 1]
    if not isinstance(near, Part):
        return ReadNames(_sort_of(near, tables), (near,))
    if near.length_mm is None and not stock(tables).holds(near):
        raise FastenError("it is not said how long it is", where="answer", fix="write the whole line with its length")
    many = int(count) if count.strip().isdecimal() else asked.count
    if not many:
        raise FastenError(
            "it is not said how many there are", where="answer", fix=f"write such as {number.strip()} x 20"
        )
    return ReadPart(ShelfPart(near, many))


def _added(shelf: Shelf, read: Read) -> Shelf:
    if isinstance(read, ReadPart):
        return _with_part(shelf, read)
    if isinstance(read, ReadNames):
        return _with_names(shelf, read)
    return replace(shelf, asked=(*shelf.asked, read.line))


def _with_names(shelf: Shelf, read: ReadNames) -> Shelf:
    if read.sort is Sort.BIT:
        return replace(shelf, bits=_more(shelf.bits, read.names))
    if read.sort is Sort.TOOL:
        return replace(shelf, tools=_more(shelf.tools, read.names))
    return replace(shelf, consumables=_more_of(shelf.consumables, read.names))


def _more(kept: tuple[str, ...], names: tuple[str, ...]) -> tuple[str, ...]:
    known = {plain_name(one) for one in kept}
    return (*kept, *(one for one in dict.fromkeys(names) if plain_name(one) not in known))


def _more_of(kept: tuple[str, ...], names: tuple[str, ...]) -> tuple[str, ...]:
    """Consumables, each once: reels of cable stand by themselves, the amounts of all others add up."""
    found = list(kept)
    for text in names:
        name = plain_name(split(text)[0])
        at = next((at for at, one in enumerate(found) if plain_name(split(one)[0]) == name), None)
        if at is None or is_cable(text):
            found.append(text)
        else:
            found[at] = together(found[at], text)
    return tuple(found)


def _with_part(shelf: Shelf, read: ReadPart) -> Shelf:
    """The shelf with a part more: to those of it that are there already, else at the end."""
    entry = replace(read.entry, note=_noted(read))
    for at, kept in enumerate(shelf.parts):
        if same_part(kept.part) == same_part(entry.part):
            more = replace(kept, count=kept.count + entry.count)
            return replace(shelf, parts=(*shelf.parts[:at], more, *shelf.parts[at + 1 :]))
    return replace(shelf, parts=(*shelf.parts, entry))


def _noted(read: ReadPart) -> str:
    """What was assumed, as it stands beside the part: it is shown as taken until somebody rewrites the note."""
    return f"{_ASSUMED}{'; '.join(read.assumed)}"[:_LONGEST_NOTE] if read.assumed else read.entry.note


def near_text(near: Part | str) -> str:
    """One of the nearest in words."""
    return part_text(near) if isinstance(near, Part) else near
