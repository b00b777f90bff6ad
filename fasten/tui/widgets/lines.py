"""A long text of lines that fit: each is made when it comes into view, and kept while it stays the same."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.visual import Visual
from textual.widgets import Static

from fasten.tui.drawn.runs import Line, columns
from fasten.tui.widgets.content import content


class Lines(Static):
    """Lines of runs, or a text before there are any. Most of an answer is out of view, and to make all of it is slow.

    On a screen that is narrower than the lines, and while a part of them is selected, they are shown as any text is.
    """

    auto_links = False  # what is tapped goes by its style, and to look for links takes long

    def __init__(self, start: str, id_: str) -> None:
        super().__init__(Content(start), id=id_, markup=False)
        self._lines: tuple[Line, ...] = ()
        self._wide = 0
        self._rest: Iterator[Line] = iter(())  # what is shown on the next frame
        self._kept: dict[Line, Strip] = {}
        self._styles: dict[str, Style | None] = {}  # how a run in each looks
        self._kept_for: tuple[int, str] | None = None  # width and look that those were made for

    def write(self, text: str) -> None:
        """Show a text in place of the lines."""
        self._lines, self._wide, self._rest = (), 0, iter(())
        self.update(Content(text))

    def begin(self, lines: Iterable[Line]) -> None:
        """Show these lines in the place of as many; what stands beneath them stays until all are drawn."""
        self._rest = iter(())
        self._show_over(tuple(lines))

    def draw(self, lines: Iterable[Line], rest: Iterable[Line] | None = None) -> None:
        """Show these lines; the rest that follows them is made and shown on the next frame.

        Until then what stood beneath them stays, and the text is as high as before: nothing moves.
        """
        begun = tuple(lines)
        self._rest = iter(rest or ())
        if rest is None:
            self._show(begun)
            return
        self._show_over(begun)
        self.call_after_refresh(self._go_on, begun, self._rest)

    def _go_on(self, begun: tuple[Line, ...], rest: Iterator[Line]) -> None:
        if rest is self._rest:  # else another answer has come since
            self._show((*begun, *rest))

    def _show_over(self, begun: tuple[Line, ...]) -> None:
        """Show these lines in the place of as many, above what stands beneath; that is no wider than all was."""
        beneath = self._lines[len(begun) :] if self._is_fit(self.size.width) else ()
        wide = max(map(columns, begun), default=0)
        self._put((*begun, *beneath), max(wide, self._wide) if beneath else wide)

    def _show(self, lines: tuple[Line, ...]) -> None:
        """Show these lines alone, and keep no others."""
        self._kept = {line: self._kept[line] for line in lines if line in self._kept}
        self._put(lines, max(map(columns, lines), default=0))

    def _put(self, lines: tuple[Line, ...], wide: int) -> None:
        """Where there are as many lines as before, those alone that are others are drawn, and nothing is laid out."""
        width, were = self.size.width, self._lines
        was_fit = self._is_fit(width)
        self._lines, self._wide = lines, wide
        if not (was_fit and self._is_fit(width) and len(lines) == len(were)) or self.text_selection is not None:
            self.refresh(layout=True)
        elif lines != were:
            self.refresh(*(Region(0, at, width, high) for at, high in _others(lines, were)))

    def render(self) -> Content:
        """All of it as one text, as it is copied."""
        shown = content(self._lines) if self._lines else self.content
        assert isinstance(shown, Content)
        return shown

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many rows as lines, where they fit."""
        return len(self._lines) if self._is_fit(width) else super().get_content_height(container, viewport, width)

    def render_line(self, y: int) -> Strip:
        """One row as it is shown."""
        if y >= len(self._lines) or not self._is_fit(self.size.width) or self.text_selection is not None:
            return super().render_line(y)
        return self._strip(self._lines[y]).apply_offsets(0, y)  # by which what the mouse selects is found

    def _is_fit(self, width: int) -> bool:
        return 0 < self._wide <= width

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._kept_for = None

    def _strip(self, line: Line) -> Strip:
        made_for = self.size.width, self.app.theme
        if made_for != self._kept_for:
            self._kept, self._styles, self._kept_for = {}, {}, made_for
        if line not in self._kept:
            self._kept[line] = Strip([Segment(text, self._style(style)) for text, style in line], columns(line))
        return self._kept[line]

    def _style(self, style: str) -> Style | None:
        """How a run in a style looks, as Textual makes one; to have it make every line is slow."""
        if style not in self._styles:
            (strip,) = Visual.to_strips(self, content([((" ", style),)]), 1, 1, self.visual_style)
            self._styles[style] = next(iter(strip)).style
        return self._styles[style]


def _others(lines: tuple[Line, ...], were: tuple[Line, ...]) -> Iterator[tuple[int, int]]:
    """The first row and the height of each run of lines that are not as they were."""
    is_other = ((at, line != was) for at, (line, was) in enumerate(zip(lines, were, strict=True)))
    for differs, run in groupby(is_other, key=lambda row: row[1]):
        if differs:
            rows = [at for at, _ in run]
            yield rows[0], len(rows)
