"""Which files and jobs hold nothing but short, plain texts, which no check would change or refuse.

The check of a file (`check`) is slow to load. Where every text is as it leaves it, and the whole says letter for letter
what the program writes, there is nothing left for it to find.
"""

from collections.abc import Mapping
from typing import Any

MAX_LINE = 200  # letters of a text of one line; no entry may hold fewer
_HEAD = ("format", "kind")


def is_plain(data: Mapping[str, Any]) -> bool:
    """Whether a file, beside its head, is texts, lists of them, and lists of tables of these."""
    return all(
        _is_text(value) or (isinstance(value, list) and (_are_names(value) or all(map(_is_table, value))))
        for name, value in data.items()
        if name not in _HEAD
    )


def _is_table(value: object) -> bool:
    return isinstance(value, dict) and all(
        _is_text(entry) or (isinstance(entry, list) and _are_names(entry)) for entry in value.values()
    )


def _are_names(values: list[Any]) -> bool:
    return all(_is_text(value) and value for value in values)


def _is_text(value: object) -> bool:
    """Whether it is a text as it would be kept: none of it is hidden, stripped or too long."""
    return isinstance(value, str) and len(value) <= MAX_LINE and value.isprintable() and value == value.strip()
