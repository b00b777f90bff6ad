"""Lines of runs as what a widget shows. What people wrote is never markup."""

from collections.abc import Iterable

from textual.content import Content
from textual.events import Click
from textual.style import Style
from textual.widget import Widget

from fasten.tui.drawn.runs import Line

TAP, _TAP = "tap", "@"  # what a run is tapped for stands after its style, as `@hole:3`: a word and a number
_NEAR = sorted(
    ((right, down) for right in range(-2, 3) for down in (-1, 0, 1)), key=lambda by: by[0] ** 2 + 4 * by[1] ** 2
)
_WEIGHTS = frozenset({"bold", "underline", "reverse", "on"})


def content(lines: Iterable[Line]) -> Content:
    """The lines, each role of theirs as the look in use has it."""
    parts: list[str | tuple[str, str]] = []
    taps: list[tuple[str, int, int]] = []
    at = 0
    for line in lines:
        if parts:
            parts.append("\n")
            at += 1
        for text, style in line:
            role, _, tap = style.partition(_TAP)
            parts.append((text, styled(role)) if role else text)
            taps += [(tap, at, at + len(text))] if tap else []
            at += len(text)
        parts += () if line else ("",)
    found = Content.assemble(*parts)
    for tap, start, end in taps:
        found = found.stylize(Style.from_meta({TAP: tap}), start, end)
    return found


def tapped(widget: Widget, event: Click) -> tuple[str, int]:
    """What was tapped and its number, on the cell or the nearest beside it; empty and 0 where nothing is.

    A finger is wider than a cell.
    """
    for right, down in _NEAR:
        style = widget.screen.get_style_at(event.screen_x + right, event.screen_y + down)
        if tap := style.meta.get(TAP, ""):
            what, _, number = tap.partition(":")
            return what, int(number)
    return "", 0


def styled(style: str) -> str:
    """Weights and roles as Textual reads them."""
    return " ".join(word if word in _WEIGHTS else f"${word}" for word in style.split())
