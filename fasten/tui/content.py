"""Lines of runs as what a widget shows. What people wrote is never markup."""

from collections.abc import Iterable

from textual.content import Content

from fasten.tui.drawn.runs import Line

_WEIGHTS = frozenset({"bold", "underline", "reverse", "on"})


def content(lines: Iterable[Line]) -> Content:
    """The lines, each role of theirs as the look in use has it."""
    parts: list[str | tuple[str, str]] = []
    for line in lines:
        parts += ["\n"] * bool(parts)
        parts += [(text, styled(style)) if style else text for text, style in line] or [""]
    return Content.assemble(*parts)


def styled(style: str) -> str:
    """Weights and roles as Textual reads them."""
    return " ".join(word if word in _WEIGHTS else f"${word}" for word in style.split())
