"""The fields that are a size or one of few words."""

from collections.abc import Callable, Mapping
from enum import Enum

from fasten.catalog.tables import Tables
from fasten.model import Bound, FarSide, Into, Panel, Reach, Removal, Visible, Where
from fasten.text import units
from fasten.text.names import choice
from fasten.text.units import Dimension

Reader = Callable[[str, Tables, str], object]
"""(text, tables, name of the field for messages) to its value, or to a tuple of values where it fills several."""
_LEAST = ("at least ", ">=", "\u2265")
Names = Callable[[Tables], Mapping[str, str]]
"""Every name of each word that a field takes, with the word."""


def size(dimension: Dimension, *, allow_zero: bool = False) -> Reader:
    """The reader of a size of this dimension, in its canonical unit."""
    return lambda text, _tables, where: units.read(text, dimension, where, allow_zero=allow_zero)


def clear(*, allow_zero: bool = False) -> Reader:
    """The reader of a length that is clear, and whether it was measured or is "at least 16 mm", by a gauge."""

    def read(text: str, _tables: Tables, where: str) -> tuple[float, Bound]:
        plain = " ".join(text.split())
        least = next((mark for mark in _LEAST if plain.casefold().startswith(mark)), "")
        length_mm = units.read(plain[len(least) :].strip(), Dimension.LENGTH, where, allow_zero=allow_zero)
        return length_mm, Bound.AT_LEAST if least else Bound.EXACT

    return read


def one_of(kind: type[Enum]) -> tuple[Reader, Names]:
    """The reader of one of the words of an enum, and these words."""
    members: Mapping[str, Enum] = {str(member.value): member for member in kind}

    def read(text: str, _tables: Tables, where: str) -> Enum:
        return choice(text, members, where)

    def names(_tables: Tables) -> Mapping[str, str]:
        return {word: word for word in members}

    return read, names


length, clear_behind, clear_edge = size(Dimension.LENGTH), clear(allow_zero=True), clear()
mass, current = size(Dimension.MASS), size(Dimension.CURRENT)
removal, removals = one_of(Removal)
panel, panels = one_of(Panel)
into, intos = one_of(Into)
reach, reaches = one_of(Reach)
where, wheres = one_of(Where)
far_side, far_sides = one_of(FarSide)
visible, visibles = one_of(Visible)
