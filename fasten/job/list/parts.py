"""How parts are compared and named: each under one spelling, and in words."""

from functools import lru_cache

from fasten.model import end_kinds, kinds
from fasten.model.line import Part
from fasten.text.names import plain_name, spelled
from fasten.text.units import number

_SAME_LENGTH = 4  # decimals of a millimetre to which two lengths are one


@lru_cache(maxsize=4096)
def same_part(part: Part) -> Part:
    """The one spelling under which parts are compared: case, spaces, dashes and underscores make no other part."""
    length = None if part.length_mm is None else round(part.length_mm, _SAME_LENGTH)
    return Part(kind_name(part.kind), _size(part.size), plain_name(part.name), plain_name(part.grade), length)


def kind_name(text: str) -> str:
    """The one spelling of a kind of part, whether it goes by its key or as a list calls it; else of the text."""
    plain = plain_name(text)
    return _KIND_NAMES.get(plain, plain)


def part_text(part: Part) -> str:
    """A part in words: kind, size and length, then what tells it from others."""
    length = "" if part.length_mm is None else f" x {number(part.length_mm, 2)} mm"
    said = (f"{part.kind} {part.size}{length}".strip(), part.name, part.grade)
    return ", ".join(text for text in said if text)


def _size(text: str) -> str:
    return spelled(text).replace(" ", "").replace("×", "x").replace(",", ".")


_ALL = (*kinds.ALL, *end_kinds.ALL)
_KIND_NAMES = {plain_name(text): plain_name(kind.key) for kind in _ALL for text in (kind.line, kind.key)}
