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


def _as_written(word: str, like: str) -> str:
    """A word in capitals, or with a capital, where another is."""
    if like.isupper():
        return word.upper()
    return word.capitalize() if like[:1].isupper() else word
