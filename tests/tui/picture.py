"""The screen as SVG, cell by cell in rows without leading: blocks are drawn as rectangles, which no font tears."""

from collections.abc import Iterator
from html import escape

from rich.cells import cell_len
from rich.color import Color
from rich.style import Style
from textual.pilot import Pilot

from .pilot import app_of, strips_of

WIDE, HIGH, FONT, BASE = 10, 20, 16.6, 15  # of a cell, of its letters, and where they stand in it
EIGHTHS = {chr(0x2581 + n): (0, 1 - (n + 1) / 8, 1, (n + 1) / 8) for n in range(7)}
LEFT = {chr(0x2589 + n): (0, 0, (7 - n) / 8, 1) for n in range(7)}
BLOCKS = {**EIGHTHS, **LEFT, "█": (0, 0, 1, 1), "▀": (0, 0, 1, 0.5), "▐": (0.5, 0, 0.5, 1)}
QUARTERS = dict(zip("▖▗▘▙▚▛▜▝▞▟", ("2", "3", "0", "023", "03", "012", "013", "1", "12", "123"), strict=True))


def picture(pilot: Pilot[None]) -> str:
    """The screen as it stands, in whatever fixed-pitch font is there."""
    app, size = app_of(pilot), pilot.app.size
    ground = app.screen.background_colors[0].rich_color
    width, height = size.width * WIDE, size.height * HIGH
    strips = strips_of(app)
    cells = [part for row, strip in enumerate(strips) for part in _row(row, strip, ground)]
    return "\n".join((
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" xml:space="preserve"'
        f' font-family="monospace" font-size="{FONT}" shape-rendering="crispEdges">',
        f'<rect width="{width}" height="{height}" fill="{_hex(ground)}"/>', *cells, "</svg>", "",
    ))  # fmt: skip


def _row(row: int, strip: object, ground: Color) -> Iterator[str]:
    column = 0
    for text, style, _ in strip:  # type: ignore[attr-defined]
        yield from _run(column, row, text, style or Style(), ground)
        column += cell_len(text)


def _run(column: int, row: int, text: str, style: Style, ground: Color) -> Iterator[str]:
    fore, back = style.color or ground, style.bgcolor or ground
    fore, back = (back, fore) if style.reverse else (fore, back)
    left, top, wide = column * WIDE, row * HIGH, cell_len(text) * WIDE
    if _hex(back) != _hex(ground):
        yield f'<rect x="{left}" y="{top}" width="{wide}" height="{HIGH}" fill="{_hex(back)}"/>'
    yield from _drawn(left, top, text, _hex(fore))
    words = "".join(" " * cell_len(letter) if letter in BLOCKS or letter in QUARTERS else letter for letter in text)
    if words.strip():
        start = len(words) - len(words.lstrip())
        said = words.strip()
        bold = ' font-weight="bold"' if style.bold else ""
        yield (
            f'<text x="{left + start * WIDE}" y="{top + BASE}" textLength="{cell_len(said) * WIDE}"'
            f'{bold} fill="{_hex(fore)}">{escape(said)}</text>'
        )
    if style.underline:
        yield f'<rect x="{left}" y="{top + HIGH - 3}" width="{wide}" height="1" fill="{_hex(fore)}"/>'


def _drawn(left: int, top: int, text: str, fill: str) -> Iterator[str]:
    """The blocks of a run; of one kind beside each other one rectangle."""
    at = 0
    while at < len(text):
        end = at + 1
        while end < len(text) and text[end] == text[at] and text[at] in "█▀▄▁▂▃▅▆▇":
            end += 1
        for x, y, wide, high in _parts(text[at]):
            yield (
                f'<rect x="{left + (at + x) * WIDE:g}" y="{top + y * HIGH:g}"'
                f' width="{(end - at - 1 + wide) * WIDE:g}" height="{high * HIGH:g}" fill="{fill}"/>'
            )
        at = end


def _parts(letter: str) -> list[tuple[float, float, float, float]]:
    if letter in BLOCKS:
        return [BLOCKS[letter]]
    return [(int(part) % 2 / 2, int(part) // 2 / 2, 0.5, 0.5) for part in QUARTERS.get(letter, "")]


def _hex(colour: Color | None) -> str:
    assert colour is not None
    return "#{:02x}{:02x}{:02x}".format(*colour.get_truecolor())
