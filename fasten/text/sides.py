"""The side of a vehicle that a name says, and the same name of the other side."""

import re

_SIDES = (("left", "right"), ("nearside", "offside"), ("near side", "off side"), ("lh", "rh"),
          ("driver side", "passenger side"), ("driver's side", "passenger's side"))  # fmt: skip


def other_side(name: str) -> str:
    """The name with its side turned, in the letters it is written in; empty where it says none."""
    for pair in _SIDES:
        for here, there in (pair, pair[::-1]):
            found = re.search(rf"(?<!\w){re.escape(here)}(?!\w)", name, re.IGNORECASE)
            if found is not None:
                return f"{name[: found.start()]}{_as_written(there, found[0])}{name[found.end() :]}"
    return ""


def is_beside(name: str, other: str) -> bool:
    """Whether two names are of one side of a vehicle; one that says no side may be of either.

    Words of two pairs are not compared: which side is the near one is another by country.
    """
    side, others = _side(name), _side(other)
    return not side or not others or side == others


def is_of_side(name: str) -> bool:
    """Whether a name says a side of a vehicle."""
    return bool(_side(name))


def _side(name: str) -> str:
    """The word by which a name says its side; empty where it says none."""
    words = (word for pair in _SIDES for word in pair)
    return next((word for word in words if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", name, re.IGNORECASE)), "")


def _as_written(word: str, like: str) -> str:
    """A word in capitals, or with a capital, where another is."""
    if like.isupper():
        return word.upper()
    return word.capitalize() if like[:1].isupper() else word
