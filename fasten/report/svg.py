"""Pieces of an SVG drawing as text: elements with their numbers written out, boxes, text made harmless and measured.

Coordinates are mm, x to the right and y down, as long as a drawing's viewBox is its size in mm.
"""

import re
from collections.abc import Iterable
from math import hypot, inf
from unicodedata import east_asian_width
from xml.sax.saxutils import escape, quoteattr

from fasten.record import record
from fasten.report.safe import safe
from fasten.text.units import number

BLACK, GREY, WHITE = "#000", "#777", "#fff"
Attributes = dict[str, str | float | None]
_DIGITS = 4  # a ten-thousandth of a millimetre: far finer than a print
_WIDE, _NARROW, _USUAL, _FULL = "mwMW@%&—…", "iljtf.,:;'|!()[] ", 0.64, 1.25
_BEFORE_UNIT = re.compile(r"(?<=[0-9]) (?=(?:mm|N·m|N|kg|%)(?![A-Za-z]))")
_GLUE = "\u00a0"  # `safe` leaves none, so it can stand for a blank that must not end a line
_LINE = 1.3  # of the size of the letters


def tag(name: str, *inside: str, **attributes: str | float | None) -> str:
    """An element; `stroke_width` is written stroke-width, `class_` class, and an attribute that is None not at all."""
    known = ((key.rstrip("_").replace("_", "-"), value) for key, value in attributes.items() if value is not None)
    written = "".join(f" {key}={quoteattr(_value(value))}" for key, value in known)
    return f"<{name}{written}>{''.join(inside)}</{name}>" if inside else f"<{name}{written}/>"


def _value(value: str | float) -> str:
    return safe(value) if isinstance(value, str) else number(value, _DIGITS)


def _with(usual: Attributes, own: Attributes) -> Attributes:
    return usual | own


def words(name: str, text: str, **attributes: str | float | None) -> str:
    """An element that holds text, whatever is in the text."""
    return tag(name, escape(safe(text)), **attributes)


def label(x: float, y: float, text: str, size: float, **attributes: str | float | None) -> str:
    """Text on a base line, begun at a place unless `text_anchor` says middle or end."""
    return words("text", text, **_with({"x": x, "y": y, "font_size": size}, attributes))


def line(x1: float, y1: float, x2: float, y2: float, **attributes: str | float | None) -> str:
    """A straight line."""
    usual: Attributes = {"x1": x1, "y1": y1, "x2": x2, "y2": y2, "stroke": BLACK, "stroke_width": 0.2}
    return tag("line", **_with(usual, attributes))


def path(points: Iterable[tuple[float, float]], *, closed: bool = True, **attributes: str | float | None) -> str:
    """A line through points, closed to a shape unless you say otherwise."""
    path = " L".join(f"{number(x, _DIGITS)} {number(y, _DIGITS)}" for x, y in points)
    usual: Attributes = {"stroke": BLACK, "stroke_width": 0.2, "fill": "none"}
    return tag("path", d=f"M{path}{' Z' if closed else ''}", **_with(usual, attributes))


def document(width_mm: float, height_mm: float, title: str, described: str, *inside: str) -> str:
    """A drawing of that size, one unit of it a millimetre, on white; `described` says in words what it shows."""
    return tag(
        "svg", words("title", title), words("desc", described),
        tag("rect", x=0.0, y=0.0, width=width_mm, height=height_mm, fill=WHITE), "\n", "\n".join(inside), "\n",
        xmlns="http://www.w3.org/2000/svg", width=f"{number(width_mm, _DIGITS)}mm",
        height=f"{number(height_mm, _DIGITS)}mm",
        viewBox=f"0 0 {number(width_mm, _DIGITS)} {number(height_mm, _DIGITS)}", role="img", font_family="sans-serif",
    ) + "\n"  # fmt: skip


def text_width_mm(text: str, size: float) -> float:
    """How wide the text may be in letters of that size; rather too wide than too narrow, as the font is not known."""
    return size * sum(map(_share, safe(text)))


def _share(char: str) -> float:
    if char in _WIDE or east_asian_width(char) in "WFA":
        return _FULL if char not in _WIDE else 1.0
    return 0.4 if char in _NARROW else (0.78 if char.isupper() else _USUAL)


def line_height_mm(size: float) -> float:
    """From base line to base line."""
    return _LINE * size


def text_lines(text: str, width_mm: float, size: float, most: int) -> tuple[str, ...]:
    """The text in at most so many lines of that width, broken at spaces, or anywhere in a word that is wider.

    The last line ends in … where there was more.
    """
    lines: list[str] = []
    for word in _pieces(text, width_mm, size):
        if lines and text_width_mm(f"{lines[-1]} {word}", size) <= width_mm:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
        if len(lines) > most:
            return (*lines[: most - 1], _cut(lines[most - 1], width_mm, size))
    return tuple(lines)


def _pieces(text: str, width_mm: float, size: float) -> Iterable[str]:
    """Words, a figure and its unit as one, and what of a word is too wide for a line on its own."""
    for word in _BEFORE_UNIT.sub(_GLUE, safe(text)).split(" "):
        rest = word.replace(_GLUE, " ")
        while text_width_mm(rest, size) > width_mm and len(rest) > 1:
            kept = _fitting(rest, width_mm, size)
            yield rest[:kept]
            rest = rest[kept:]
        yield from [rest] if rest else []


def _fitting(word: str, width_mm: float, size: float) -> int:
    """How many letters of a word fit, one at least."""
    used_mm = 0.0
    for count, char in enumerate(word):
        used_mm += text_width_mm(char, size)
        if used_mm > width_mm:
            return max(1, count)
    return len(word)


def _cut(text: str, width_mm: float, size: float) -> str:
    while text and text_width_mm(text + " …", size) > width_mm:
        text = text[:-1]
    return text.rstrip() + " …"


@record
class Box:
    """An upright rectangle, from its left top corner to its right bottom corner."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width_mm(self) -> float:
        """From left to right."""
        return self.x1 - self.x0

    @property
    def height_mm(self) -> float:
        """From top to bottom."""
        return self.y1 - self.y0

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle point."""
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    def moved(self, x: float, y: float) -> "Box":
        """The box so far to the right and down."""
        return Box(self.x0 + x, self.y0 + y, self.x1 + x, self.y1 + y)

    def grown(self, by: float) -> "Box":
        """The box larger on every side."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def overlaps(self, other: "Box") -> bool:
        """Whether they share more than a border."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def holds(self, other: "Box") -> bool:
        """Whether the other lies inside."""
        return self.x0 <= other.x0 and self.y0 <= other.y0 and other.x1 <= self.x1 and other.y1 <= self.y1

    def touches(self, x: float, y: float, radius: float) -> bool:
        """Whether a circle reaches into the box."""
        return hypot(x - min(max(x, self.x0), self.x1), y - min(max(y, self.y0), self.y1)) < radius

    def meets(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """Whether a straight line runs through the box."""
        first, last = 0.0, 1.0
        for at, to, low, high in ((start[0], end[0], self.x0, self.x1), (start[1], end[1], self.y0, self.y1)):
            run = to - at
            if run == 0:
                if not low < at < high:
                    return False
                continue
            near, far = sorted(((low - at) / run, (high - at) / run))
            first, last = max(first, near), min(last, far)
        return first < last


def around(boxes: Iterable[Box]) -> Box:
    """The smallest box that holds them all.

    Raises: ValueError where there is none to hold.
    """
    x0, y0, x1, y1 = inf, inf, -inf, -inf
    for box in boxes:
        x0, y0, x1, y1 = min(x0, box.x0), min(y0, box.y0), max(x1, box.x1), max(y1, box.y1)
    if x0 == inf:
        raise ValueError("boxes is empty: nothing to go around")
    return Box(x0, y0, x1, y1)
