"""A long text of lines that fit: each is made when it comes into view, and kept while it stays the same."""

from collections.abc import Iterable, Iterator
from itertools import islice

from textual.content import Content
from textual.geometry import Size
from textual.strip import Strip
from textual.style import Style
from textual.visual import Visual
from textual.widgets import Static

from fasten.tui.drawn.runs import Line, columns
from fasten.tui.widgets.content import content


class Lines(Static):
    """Lines of runs, or a text before there are any. Most of an answer is out of view, and to make all of it is slow.

    On a screen that is narrower than the lines, and while a part of them is selected, they are shown as any text is.
    """

    def __init__(self, start: str, id_: str) -> None:
        super().__init__(Content(start), id=id_, markup=False)
        self._lines: tuple[Line, ...] = ()
        self._wide = 0
        self._rest: Iterator[Line] = iter(())  # what is shown on the next frame
        self._kept: dict[Line, Strip] = {}
        self._kept_for: tuple[int, str, Style] | None = None  # width, look and style that those lines were made for

    def write(self, text: str) -> None:
        """Show a text in place of the lines."""
        self._lines, self._wide, self._rest = (), 0, iter(())
        self.update(Content(text))

    def draw(self, lines: Iterable[Line], first: int | None = None) -> None:
        """Show the first of these lines, as many as are in view, and all others on the next frame.

        Until then the text is as high as before. None for `first` shows all of them now.
        """
        self._rest = iter(lines)
        begun = tuple(islice(self._rest, first))
        if len(begun) != first:
            self._show(begun)
            return
        self._show((*begun, *[()] * (len(self._lines) - first)))
        self.call_after_refresh(self._go_on, begun, self._rest)

    def _go_on(self, begun: tuple[Line, ...], rest: Iterator[Line]) -> None:
        if rest is self._rest:  # else another answer has come since
            self._show((*begun, *rest))

    def _show(self, lines: tuple[Line, ...]) -> None:
        """Where there are as many lines as before, nothing else on the screen is laid out anew."""
        width = self.size.width
        high = len(self._lines) if self._is_fit(width) else 0
        self._lines, self._wide = lines, max(map(columns, lines), default=0)
        self._kept = {line: self._kept[line] for line in lines if line in self._kept}
        self.refresh(layout=not (self._is_fit(width) and len(lines) == high))

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

    def _strip(self, line: Line) -> Strip:
        made_for = self.size.width, self.app.theme, self.visual_style
        if made_for != self._kept_for:
            self._kept, self._kept_for = {}, made_for
        if line not in self._kept:
            (self._kept[line],) = Visual.to_strips(self, content([line]), made_for[0], 1, made_for[2])
        return self._kept[line]
