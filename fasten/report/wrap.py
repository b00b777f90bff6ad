"""Text wrapped by words to a number of columns, made harmless on the way."""

import re
from collections.abc import Iterable
from functools import lru_cache
from textwrap import wrap

from fasten.report.safe import safe

_BEFORE_UNIT = re.compile(r"(?<=[0-9]) (?=(?:mm|N·m|in·lbf|N|MPa|kg|%)(?![A-Za-z]))")
_BREAKS = re.compile(r"[\t\n\v\f\r]")  # what `wrap` makes spaces of
_GLUE = "\u00a0"  # no place to break a line, so that a number keeps its unit


@lru_cache(maxsize=4096)  # the pages of a work sheet have most of their sentences in common
def wrapped(text: str, width: int, *, first: str = "", rest: str = "") -> tuple[str, ...]:
    """The text on lines of at most `width` characters, the first begun with `first`, the others with `rest`."""
    shown = safe(text)
    if len(first) + len(shown) <= width and shown.strip() and not _BREAKS.search(first + shown):
        return ((first + shown).replace(_GLUE, " ").rstrip(),)
    glued = _BEFORE_UNIT.sub(_GLUE, shown)
    lines = wrap(glued, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    return tuple(line.replace(_GLUE, " ").rstrip() for line in lines) or ((first.rstrip(),) if first.strip() else ())


def shortened(lines: tuple[str, ...], most: int, width: int) -> tuple[str, ...]:
    """At most so many of the lines; the last says with … where more was left out."""
    if len(lines) <= most:
        return lines
    *kept, last = lines[:most]
    last = last if len(last) <= width - 2 else last[: width - 2].rpartition(" ")[0]
    return (*kept, last.rstrip(" ,;") + " …")


def packed(entries: Iterable[str], width: int, gap: str = "   ") -> tuple[str, ...]:
    """Entries side by side, as many on a line as fit; one that is longer than a line is wrapped by words."""
    lines: list[str] = []
    for entry in entries:
        if lines and len(lines[-1]) + len(gap) + len(entry) <= width:
            lines[-1] += gap + entry
        else:
            lines.extend(wrapped(entry, width, rest="  "))
    return tuple(lines)
