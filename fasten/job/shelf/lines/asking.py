"""The one question that a line leaves, and the two things that come nearest to what it may mean."""

from collections.abc import Iterable
from itertools import islice

from fasten.catalog.parts import PREFERRED_LENGTHS
from fasten.catalog.tables import Tables
from fasten.job.shelf.lines.tokens import Tokens
from fasten.job.shelf.lines.words import Asked, Read, ReadPart
from fasten.job.words import ShelfPart
from fasten.methods.stocked import ANY_MM
from fasten.model.line import Part
from fasten.record import replace

TWO = 2
HOW_MANY = "how many?"
_USUAL_DIAMETERS = 2.7  # that a screw is long, at least, where its length is asked for


def answered(
    tokens: Tokens, wants: Iterable[str], nearest: Iterable[Part | str], part: Part | None, count: int | None,
    assumed: tuple[str, ...] = (),
) -> Read:  # fmt: skip
    """The part where nothing is wanted any more; else the line with what it still wants, in one question."""
    asked = list(wants)
    if not count:
        asked.append(HOW_MANY)
    if part is None or not count or asked:
        question = ", and ".join(one.rstrip("?") for one in asked) + "?"
        return Asked(tokens.line, question, tuple(islice(dict.fromkeys(map(of_no_length, nearest)), TWO)), count)
    notes = (*assumed, *(f"not read: {word}" for word in tokens.unknown))
    return ReadPart(ShelfPart(part, count), notes)


def of_no_length(near: Part | str) -> Part | str:
    """A part that is cut or chosen to its joint, whose length is not said, without one."""
    return replace(near, length_mm=None) if isinstance(near, Part) and near.length_mm == ANY_MM else near


def listed(names: Iterable[str]) -> str:
    """Names with commas between, the last after an or."""
    found = list(dict.fromkeys(names))
    return " or ".join(text for text in (", ".join(found[:-1]), *found[-1:]) if text)


def usual_lengths(family: str, diameter_mm: float, tables: Tables) -> tuple[float, ...]:
    """The two shortest lengths of first choice that a screw of this diameter is usually had in."""
    rows = (row for row in tables.rows(PREFERRED_LENGTHS) if row.family == family and row.choice == "first")
    return tuple(islice((row.length_mm for row in rows if row.length_mm >= _USUAL_DIAMETERS * diameter_mm), TWO))
