"""A shelf as a document: what is owned, each line that leaves a question, and what lines that were added came to."""

from collections.abc import Iterable, Iterator
from typing import Any

from fasten.catalog.tables import Tables
from fasten.job.list.parts import part_text
from fasten.job.shelf.lines.add import Kit, has_kit, kits, near_text, questions
from fasten.job.shelf.lines.words import Asked, Read, ReadNames, ReadPart
from fasten.job.words import Shelf
from fasten.model.line import Part
from fasten.report.forms.document import Column, Document, Section
from fasten.report.plain import to_plain
from fasten.text.figures import counted
from fasten.text.names import capital

FORMAT = 1
_SOME = 3  # names of a line that are repeated


def shelf_document(shelf: Shelf, tables: Tables) -> Document:
    """Everything on a shelf, questions first."""
    asked = questions(shelf, tables)
    sections = (
        _questions(asked),
        Section("Parts", (Column("Part"), Column("Count", figures=True), Column("Note")), tuple(_parts(shelf))),
        *(Section(capital(name), notes=(", ".join(names),)) for name, names in _names(shelf) if names),
    )
    return Document(shelf.title or "Shelf", (_counts(shelf),), tuple(one for one in sections if one.rows or one.notes))


def added_document(shelf: Shelf, reads: tuple[Read, ...], tables: Tables) -> Document:
    """What each line that was added came to, and what the shelf asks now."""
    taken = tuple(_taken(read) for read in reads if not isinstance(read, Asked))
    columns = (Column("Taken"), Column("Assumed"))
    sections = (_questions(questions(shelf, tables)), Section("Put on the shelf", columns, taken))
    return Document("Added", (_counts(shelf),), tuple(one for one in sections if one.rows))


def kits_document(shelf: Shelf | None, tables: Tables) -> Document:
    """The common kits, each with whether all of it is there."""
    rows = tuple(_kit_row(kit, shelf, tables) for kit in kits(tables))
    return Document("Common kits", (), (Section("Kits", (Column("Kit"), Column("There"), Column("In it")), rows),))


def shelf_json(shelf: Shelf, reads: tuple[Read, ...], tables: Tables) -> dict[str, Any]:
    """The shelf, its questions and what was added, as plain data; keys are only ever added."""
    return {
        "format": FORMAT,
        "title": shelf.title,
        "bits": to_plain(shelf.bits),
        "tools": to_plain(shelf.tools),
        "consumables": to_plain(shelf.consumables),
        "parts": to_plain(shelf.parts),
        "questions": [_asked_json(one) for one in questions(shelf, tables)],
        "added": [_read_json(read) for read in reads],
    }


def _asked_json(asked: Asked) -> dict[str, Any]:
    near = [{"text": near_text(one), "part": to_plain(one) if isinstance(one, Part) else None} for one in asked.nearest]
    return {"line": asked.line, "question": asked.question, "nearest": near, "count": asked.count}


def _read_json(read: Read) -> dict[str, Any]:
    """What a line came to; its sort is asked where it left a question."""
    if isinstance(read, Asked):
        return {"sort": "asked", "part": None, "count": read.count, "names": [], "assumed": [], **_asked_json(read)}
    part = to_plain(read.entry.part) if isinstance(read, ReadPart) else None
    count = read.entry.count if isinstance(read, ReadPart) else None
    names = list(read.names) if isinstance(read, ReadNames) else []
    sort = read.sort.value if isinstance(read, ReadNames) else "part"
    return {"sort": sort, "part": part, "count": count, "names": names, "assumed": list(read.assumed),
            "line": None, "question": None, "nearest": []}  # fmt: skip


def _questions(asked: Iterable[Asked]) -> Section:
    """Each line that is not counted yet, by its number, with the nearest two by theirs."""
    rows = tuple(
        (f"{at}. {one.line}", capital(one.question), "; ".join(_numbered(one.nearest)))
        for at, one in enumerate(asked, 1)
    )
    lines = tuple((line, question, *near.split("; ")) for line, question, near in rows)
    return Section(
        "Not counted yet", (Column("Line"), Column("Question"), Column("Nearest")), rows, loud=True, lines=lines
    )


def _numbered(nearest: tuple[Part | str, ...]) -> Iterator[str]:
    return (f"{at}: {near_text(one)}" for at, one in enumerate(nearest, 1))


def _taken(read: Read) -> tuple[str, str]:
    if isinstance(read, ReadPart):
        return f"{read.entry.count} {part_text(read.entry.part)}", "; ".join(read.assumed)
    assert isinstance(read, ReadNames)
    shown = read.names if len(read.names) <= _SOME else (read.names[0], "\u2026", read.names[-1])
    many = f" ({len(read.names)})" if len(read.names) > _SOME else ""
    return f"{read.sort.value} {', '.join(shown)}{many}", "; ".join(read.assumed)


def _counts(shelf: Shelf) -> str:
    parts = counted(len(shelf.parts), "part")
    rest = [counted(len(names), name.removesuffix("s")) for name, names in _names(shelf) if names]
    asked = f"{counted(len(shelf.asked), 'line')} not counted yet" if shelf.asked else ""
    return f"{', '.join(text for text in (parts, *rest, asked) if text)}."


def _parts(shelf: Shelf) -> Iterator[tuple[str, str, str]]:
    return ((part_text(entry.part), str(entry.count), entry.note) for entry in shelf.parts)


def _names(shelf: Shelf) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return ("bits", shelf.bits), ("tools", shelf.tools), ("consumables", shelf.consumables)


def _kit_row(kit: Kit, shelf: Shelf | None, tables: Tables) -> tuple[str, str, str]:
    there = shelf is not None and has_kit(shelf, kit.name, tables)
    return kit.name, "yes" if there else "", kit.title
