"""The shelf in hand: what is owned, how it is changed, and that every change is saved. No widgets here."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from fasten.errors import FastenError
from fasten.job.store.written import UNKNOWN, Written
from fasten.job.words import Shelf, ShelfPart
from fasten.model.line import Part
from fasten.record import record, replace
from fasten.tui.state.blank import Blank

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.list.ticks import Line as Thing
    from fasten.job.shelf.check import Trouble

NONE = Shelf("", "", "", (), (), (), ())
_SORTS = {"line": "asked", "bit": "bits", "tool": "tools", "consumable": "consumables"}


@dataclass(eq=False, repr=False)
class OpenShelf:
    """The shelf in hand: opened when it is first wanted, saved at every change."""

    path: Path
    written: Written = UNKNOWN
    shelf: Shelf = NONE
    trouble: str = ""
    _stamp: object = None
    _past: list[Shelf] = field(default_factory=list)
    _next: list[Shelf] = field(default_factory=list)

    def known(self) -> Shelf | None:
        """What is on the shelf; nothing where its file cannot be read, which is said where the shelf is wanted."""
        try:
            return self.read()
        except FastenError:
            return None

    def read(self) -> Shelf | None:
        """The shelf, as another program has left it; None where there is none yet.

        Raises: FastenError if its file cannot be read.
        """
        from fasten.job.store.files import is_there
        from fasten.job.store.storage import load_shelf

        if not is_there(self.path):
            self._stamp = None  # where it went away, what is known of it is kept, and saved with the next change
        elif self._stamp is None or self._is_stale():
            loaded = load_shelf(self.path, self.written)
            self.shelf, self._stamp = loaded.value, loaded.stamp
            self._past.clear()  # to take a change of one's own back would take theirs back too
            self._next.clear()
        return None if self.shelf == NONE else self.shelf

    def to_change(self, held: Held | None = None) -> Shelf:
        """The shelf, to be changed as it was seen.

        Raises: FastenError if its file cannot be read, another program changed it meanwhile, or a line that was
        `held` is not on it any more.
        """
        from fasten.job.store.files import label

        is_other = self._is_stale()
        shelf = self.read() or NONE
        if is_other and self._stamp is not None:
            what = "another program changed the shelf since it was read; nothing was overwritten"
            raise FastenError(what, where=label(self.path), fix="look at it as it is now, then do this again")
        if held is not None and not held.is_on(shelf):
            what = "this line of the shelf has changed since it was shown; nothing was done"
            raise FastenError(what, where=held.name, fix="look at the shelf as it is now, then do this again")
        return shelf

    def _is_stale(self) -> bool:
        from fasten.job.store.storage import changed

        return self._stamp is not None and changed(self.path, self._stamp)  # type: ignore[arg-type]

    def change(self, shelf: Shelf) -> None:
        """Take the shelf as it is now and save it; raises FastenError if it cannot be saved, and keeps the old one."""
        before = self.shelf
        self._save(shelf)
        if self.shelf != before:
            self._past.append(before)
            self._next.clear()

    @property
    def can_undo(self) -> bool:
        """Whether there is a change to take back."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether there is one to make again."""
        return bool(self._next)

    def undo(self) -> bool:
        """Take the last change back; whether there was one."""
        return self._step(self._past, self._next)

    def redo(self) -> bool:
        """Make the last change that was taken back again; whether there was one."""
        return self._step(self._next, self._past)

    def _step(self, steps: list[Shelf], others: list[Shelf]) -> bool:
        if not steps:
            return False
        before = self.shelf
        self._save(steps[-1])
        steps.pop()
        others.append(before)
        return True

    def _save(self, shelf: Shelf) -> None:
        from fasten.job.store.files import make_folder
        from fasten.job.store.storage import save_shelf

        make_folder(self.path.parent)
        saved = save_shelf(shelf, self.path, self._stamp, self.written)  # type: ignore[arg-type]
        self.shelf, self._stamp = saved.value, saved.stamp


def with_part(shelf: Shelf, part: ShelfPart, *, instead_of: ShelfPart | None = None) -> Shelf:
    """The shelf with this entry in place of one of the same part, or of another one; a count of 0 takes it off."""
    from fasten.job.list.parts import same_part

    gone = {same_part(entry.part) for entry in (part, instead_of) if entry is not None}
    at = next((at for at, entry in enumerate(shelf.parts) if same_part(entry.part) in gone), len(shelf.parts))
    before, after = (
        [e for e in parts if same_part(e.part) not in gone] for parts in (shelf.parts[:at], shelf.parts[at:])
    )
    return replace(shelf, parts=(*before, *((part,) if part.count else ()), *after))


def with_thing(shelf: Shelf, sort: str, name: str, *, instead_of: str = "") -> Shelf:
    """The shelf with a bit, tool or consumable, once, in place of another one of its sort; no name takes that off.

    A line that leaves a question is only taken off.
    """
    if sort == "line":
        return replace(shelf, asked=_put(shelf.asked, name, instead_of))
    if sort == "bit":
        return replace(shelf, bits=_put(shelf.bits, name, instead_of))
    if sort == "tool":
        return replace(shelf, tools=_put(shelf.tools, name, instead_of))
    return replace(shelf, consumables=_put(shelf.consumables, name, instead_of))


def _put(kept: tuple[str, ...], name: str, instead_of: str) -> tuple[str, ...]:
    gone = {one.casefold() for one in (name, instead_of)}
    at = next((at for at, one in enumerate(kept) if one.casefold() in gone), len(kept))
    before, after = ([one for one in names if one.casefold() not in gone] for names in (kept[:at], kept[at:]))
    return (*before, *((name,) if name else ()), *after)


def with_line(shelf: Shelf, line: Thing) -> Shelf:
    """The shelf with what a line of the box wants put on it, in the number that is wanted."""
    from fasten.job.list.lists import BitLine, PartLine, ToolLine

    match line:
        case PartLine():
            return with_part(shelf, ShelfPart(line.part, line.total, line.pack, line.price))
        case BitLine():
            sort, name = "bit", line.name
        case ToolLine():
            sort, name = "tool", f"{line.name} {line.size}".strip()
        case _:
            sort, name = "consumable", f"{line.name}, {line.detail}" if line.detail else line.name
    return shelf if line.on_shelf else with_thing(shelf, sort, name)


def blanks_of(entry: ShelfPart | None) -> tuple[Blank, ...]:
    """The fields of a part, filled where there is one."""
    from fasten.text.units import number

    part = entry.part if entry else Part("", "", "", "", None)
    length = "" if part.length_mm is None else f"{number(part.length_mm, 2)} mm"
    count, pack, price = ("" if entry is None else _shown(v) for v in (
        entry.count if entry else None, entry.pack if entry else None, entry.price if entry else None,
    ))  # fmt: skip
    return (
        Blank("kind", "What", part.kind, "screw"), Blank("size", "Size", part.size, "M5"),
        Blank("length", "Length", length, "16 mm"), Blank("name", "Standard", part.name, "ISO 15071"),
        Blank("grade", "Grade", part.grade, "8.8"), Blank("count", "How many", count, "20"),
        Blank("pack", "In a pack", pack, "100"), Blank("price", "Price of 1", price, "0.12"),
        Blank("note", "Note", entry.note if entry else ""),
    )  # fmt: skip


def part_from(filled: dict[str, str]) -> ShelfPart:
    """The part that was filled in; raises FastenError where a figure is none."""
    from fasten.text import units

    length = filled["length"].strip()
    part = Part(
        filled["kind"].strip(), filled["size"].strip(), filled["name"].strip(), filled["grade"].strip(),
        units.read(length, units.Dimension.LENGTH, "length") if length else None,
    )  # fmt: skip
    count = _whole(filled["count"], "how many")
    if not part.kind or count is None:
        raise FastenError("a part wants at least what it is and how many", where="shelf", fix="fill both in")
    return ShelfPart(part, count, _whole(filled["pack"], "in a pack"), _price(filled["price"]), filled["note"].strip())


def _whole(text: str, where: str) -> int | None:
    if not text.strip():
        return None
    if not (text.strip().isascii() and text.strip().isdigit() and len(text.strip()) <= 6):
        raise FastenError(f"'{text.strip()[:20]}' is not a whole number", where=where, fix="write such as 20")
    return int(text)


def _price(text: str) -> float | None:
    plain = text.strip().replace(",", ".")
    if not plain:
        return None
    if not plain.replace(".", "", 1).isascii() or not plain.replace(".", "", 1).isdigit() or len(plain) > 12:
        raise FastenError(f"'{plain[:20]}' is not a price", where="price", fix="write such as 0.12")
    return float(plain)


def _shown(value: float | None) -> str:
    from fasten.text.units import number

    return "" if value is None else number(value, 4)


@record
class Held:
    """A line of the shelf: its sort, what it goes by, what it says, and what there is to say of it."""

    sort: str
    name: str
    text: str
    entry: ShelfPart | None = None
    trouble: str = ""

    def is_on(self, shelf: Shelf) -> bool:
        """Whether the line is on this shelf as it says."""
        return self.entry in shelf.parts if self.entry is not None else self.name in getattr(shelf, _SORTS[self.sort])


def lines_of(shelf: Shelf, tables: Tables) -> list[Held]:
    """Everything that is owned, a line each: what leaves a question first, then parts."""
    from fasten.job.list.parts import part_text
    from fasten.job.shelf.check import troubles

    said = {(t.sort, t.line): f"{t.what}; {t.fix}" if t.fix else t.what for t in troubles(shelf, tables)}
    parts = [Held("part", part_text(e.part), _part_line(e), e) for e in shelf.parts]
    rest = [Held(sort, name, f"{sort}: {name}") for sort, names in _SORTS.items() for name in getattr(shelf, names)]
    asked, others = ([held for held in rest if (held.sort == "line") is is_asked] for is_asked in (True, False))
    return [replace(held, trouble=said.get((held.sort, held.name), "")) for held in (*asked, *parts, *others)]


class Doubt:
    """What was said of the line that is about to be kept: it may be kept as it is when that is asked for again."""

    def __init__(self) -> None:
        self.line: object = None

    def check(self, line: Part | str, trouble: Trouble | None) -> None:
        """Raises FastenError for a line that lacks something, and once for one that nothing is like."""
        if trouble is None or trouble.taken or (line == self.line and not trouble.lacks):
            return
        self.line = line
        again = "" if trouble.lacks else ", or keep it once more to keep it as it is"
        raise FastenError(trouble.error.what, where=trouble.sort, fix=f"{trouble.fix}{again}")


def _part_line(entry: ShelfPart) -> str:
    from fasten.job.list.parts import part_text

    price = "" if entry.price is None else f", {_shown(entry.price)} each"
    note = f" ({entry.note})" if entry.note else ""
    return f"{entry.count} x {part_text(entry.part)}{price}{note}"
