"""What is off the shelf: a line of it, by the words in which the shelf is printed."""

from typing import Any

from fasten.errors import FastenError
from fasten.job.list.parts import part_text
from fasten.job.words import Shelf
from fasten.record import replace
from fasten.text.names import plain_name, unknown

_NAMES = ("bits", "tools", "consumables", "asked")  # of a shelf, beside its parts


def dropped(shelf: Shelf, text: str) -> tuple[Shelf, str]:
    """The shelf without one of its lines, and that line as it is printed.

    Raises: FastenError where none is so called, with the nearest.
    """
    wanted = plain_name(text)
    for entry in shelf.parts:
        if plain_name(part_text(entry.part)) == wanted:
            return replace(shelf, parts=tuple(one for one in shelf.parts if one is not entry)), part_text(entry.part)
    for field in _NAMES:
        for name in getattr(shelf, field):
            if plain_name(name) == wanted:
                kept: dict[str, Any] = {field: tuple(one for one in getattr(shelf, field) if one != name)}
                return replace(shelf, **kept), name
    names = [*(part_text(entry.part) for entry in shelf.parts), *(name for of in _NAMES for name in getattr(shelf, of))]
    if not names:
        raise FastenError("nothing is on the shelf", where="drop", fix="add what you own first")
    raise unknown(text, "on the shelf", names, "drop")
