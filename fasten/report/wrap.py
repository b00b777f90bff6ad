"""Text wrapped by words to a number of columns."""

from collections.abc import Iterable
from textwrap import wrap


def wrapped(text: str, width: int, *, first: str = "", rest: str = "") -> tuple[str, ...]:
    """The text on lines of at most `width` characters, the first begun with `first`, the others with `rest`."""
    lines = wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    return tuple(line.rstrip() for line in lines) or ((first.rstrip(),) if first.strip() else ())


def packed(entries: Iterable[str], width: int, gap: str = "   ") -> tuple[str, ...]:
    """Entries side by side, as many on a line as fit; one that is longer than a line is wrapped by words."""
    lines: list[str] = []
    for entry in entries:
        if lines and len(lines[-1]) + len(gap) + len(entry) <= width:
            lines[-1] += gap + entry
        else:
            lines.extend(wrapped(entry, width, rest="  "))
    return tuple(lines)
