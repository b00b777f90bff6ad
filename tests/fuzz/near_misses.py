"""Shelves of near misses: lines of a list, each a slip away from what the list says.

Such a line counts as what it was meant for, or as another thing that may be asked for, or is named; it is never passed
over without a word.
"""

import re
from collections.abc import Callable
from dataclasses import replace
from random import Random

from fasten.advice.tools import tool_names
from fasten.catalog.tables import builtin
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList
from fasten.job.list.parts import same_part
from fasten.job.list.stock import NO_SIZE, stock
from fasten.job.shelf.amounts import split
from fasten.job.shelf.check import SORTS, troubles
from fasten.job.shelf.reels import is_cable
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Job, Mount, Shelf, ShelfPart
from fasten.methods.stocked import ANY_MM
from fasten.model import kinds
from fasten.model.line import Part

Slip = Callable[[str, Random], str]


def _cut(text: str, random: Random) -> str:
    at = random.randrange(len(text))
    return text[:at] + text[at + 1 :]


def _swapped(text: str, random: Random) -> str:
    at = random.randrange(max(len(text) - 1, 1))
    return text[:at] + text[at + 1 : at + 2] + text[at : at + 1] + text[at + 2 :]


SLIPS: tuple[Slip, ...] = (
    lambda text, _: text.replace("-", " "), lambda text, _: text.replace(" ", "-"), lambda text, _: text.upper(),
    lambda text, _: text.replace(" ", ""), lambda text, _: f"  {text.replace(' ', '   ')} ",
    lambda text, _: text.replace("-", "\u2011"), lambda text, _: f"{text}s", lambda text, _: f"{text}, small",
    lambda text, _: text.rpartition(" ")[0] or text, lambda text, _: text.partition(" ")[2] or text,
    lambda text, _: text.replace(".", ","), _cut, _swapped,
)  # fmt: skip
KINDS = ("bolt", "nut", "insert", "rivet", "washers", "screw", "sprocket")


def listed_for(asked: tuple[dict[str, str], ...]) -> HardwareList:
    """The list of a job that asks all of these."""
    job = Job("", "", "", tuple(Mount(str(at), tuple(said.items())) for at, said in enumerate(asked)))
    return hardware(job, choices(job, builtin()), None, builtin())


def _slipped(text: str, random: Random) -> str:
    return random.choice(SLIPS)(text, random) if text else text


def _near_part(part: Part, random: Random) -> Part:
    field = random.choice(("kind", "size", "name", "grade", "length_mm", "as it goes by", "nothing"))
    if field == "length_mm":
        return replace(part, length_mm=random.choice((None, 1.0, 20.0, (part.length_mm or 5.0) + 0.1)))
    if field == "as it goes by":
        return replace(part, kind=random.choice(KINDS))
    if field == "nothing":
        return replace(part, **{random.choice(("size", "name", "grade")): ""})  # type: ignore[arg-type]
    return replace(part, **{field: _slipped(getattr(part, field), random)})  # type: ignore[arg-type]


def near_miss(listed: HardwareList, random: Random) -> Shelf:
    """A shelf of one line, a slip away from one of the list."""
    sort = random.choice(SORTS)
    if sort == "part":
        part = _near_part(random.choice(listed.parts).part, random)
        return Shelf("", "", "", (ShelfPart(part, 9),), (), (), ())
    things = {
        "bit": [line.name for line in listed.bits],
        "tool": [f"{line.name} {line.size}".strip() for line in listed.tools],
        "consumable": [f"{line.name}, {line.detail}".removesuffix(", ") for line in listed.consumables],
    }
    name = (_slipped(random.choice(things[sort]), random),)
    bits, tools, consumables = ((name if sort == other else ()) for other in ("bit", "tool", "consumable"))
    return Shelf("", "", "", (), bits, tools, consumables)


def is_passed_over(shelf: Shelf) -> bool:
    """Whether the one line of a shelf is neither named nor found by whatever may be asked for."""
    return not troubles(shelf, builtin()) and not counts(shelf)


def counts(shelf: Shelf) -> bool:
    """Whether a list would find the one line of a shelf: it is asked for everything that any list may ask for."""
    view, known = ShelfView(shelf, builtin()), stock(builtin())
    if shelf.parts:
        part = shelf.parts[0].part
        fixed = [entry for entry in known.parts.values() if entry.length_mm != ANY_MM]
        sized = [entry for entry in known.parts.values() if entry.length_mm == ANY_MM and part.length_mm is not None]
        sized = [replace(entry, length_mm=part.length_mm) for entry in sized]
        sized += [replace(entry, name=same_part(part).name) for entry in sized if _is_limiter(entry, part)]
        return any(view.part(entry).count for entry in (*fixed, *sized))
    if shelf.bits:
        return bool(view.bits)
    if shelf.tools:
        return any(view.has_tool(tool_names(base, size)) for base, size_of in known.tools.items()
                   for size in _rest(shelf.tools[0], base) if bool(size) == (size_of != NO_SIZE))  # fmt: skip
    if is_cable(split(shelf.consumables[0])[0]):
        return bool(view.reels)
    return any(view.has_consumable((base,), detail) for base, more in known.consumables.items()
               for detail in _rest(shelf.consumables[0], base) if more or not detail)  # fmt: skip


def _is_limiter(entry: Part, part: Part) -> bool:
    """Whether an entry is a compression limiter, and a part has an outside as such a one is named."""
    return entry.kind == kinds.LIMITER.line and bool(re.fullmatch(r"[0-9.]+ mm outside", same_part(part).name))


def _rest(line: str, base: str) -> list[str]:
    """What a line says before or after a name."""
    words, name = (" ".join(text.replace("\u2011", " ").replace("-", " ").casefold().split()) for text in (line, base))
    return [words.replace(name, "").strip(" ,")] if name in words else []
