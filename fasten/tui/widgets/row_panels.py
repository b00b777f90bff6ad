"""Panels that are lists of rows: pick one of many by a few of its letters, or read a few and take one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Click, Resize
from textual.geometry import Size
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fasten.tui.actions import LEADER
from fasten.tui.drawn.rows import Row, brief_row, row_lines
from fasten.tui.widgets.button import Button, on_button
from fasten.tui.widgets.columns import ColumnList, Written
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import BACK, Choice, Panel, PickPanel

_PICKED = 2  # lines of a row that is not in hand, where many are picked from
_SHARE = 60  # per cent of the lines of a screen that the rows of a panel take at most
_SHORT = 20  # lines of a screen, under which a row that is not in hand has one line


class RowOption(Written):
    """A choice as a row; in full while it is in hand, else in so many lines at most, 0 for all of them."""

    def __init__(self, choice: Choice, row: Row) -> None:
        super().__init__(self._written)
        self.choice, self.row = choice, row
        self.most = 0

    def _written(self, width: int) -> Content:
        return content(brief_row(self.row, width, self.most) if self.most else row_lines(self.row, width))


class RowList(ColumnList):
    """Rows of which the one in hand is shown in full, and the others in so many lines, 0 for all of them.

    On a short screen the others have one line.
    """

    def __init__(self, id_: str, most: int, *, beside: bool = False) -> None:
        super().__init__(id_, beside=beside)
        self._usual = most
        self._full: RowOption | None = None

    def show(self, options: Sequence[RowOption]) -> None:
        """Show these rows, the first of them in hand."""
        self._full = options[0] if options else None
        self._allot(options)
        self.fill(options)
        self.highlighted = 0 if options else None

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """No higher than its share of the screen, so that the panel round it is not either."""
        most = self.app.size.height * _SHARE // 100
        return min(super().get_content_height(container, viewport, width), most)

    def write(self) -> None:
        """Written anew it may be higher or lower, and the panel with it."""
        super().write()
        self.refresh(layout=True)

    @property
    def _most(self) -> int:
        return 1 if self.app.size.height < _SHORT else self._usual

    def _allot(self, options: Iterable[Option]) -> None:
        for option in options:
            if isinstance(option, RowOption):
                option.most = 0 if option is self._full else self._most

    def on_resize(self, _event: Resize) -> None:
        """How many lines each has depends on the screen; they are written by the list that this one is."""
        self._allot(self.options)

    @on(OptionList.OptionHighlighted)
    def _taken_in_hand(self, event: OptionList.OptionHighlighted) -> None:
        was, now = self._full, event.option
        if not isinstance(now, RowOption) or now is was or now not in self.options:
            return
        self._full = now
        self._allot(option for option in (was, now) if option is not None)
        for option in (was, now) if self._most else ():
            if option is not None and option in self.options:
                self.rewrite(option)
        self.refresh(layout=bool(self._most))
        self.scroll_to_highlight()


class RowPick(PickPanel):
    """Pick one of many rows by typing a few letters of it, by arrow keys and Enter, or by a tap."""

    def __init__(self, title: str, choices: Sequence[Choice], rows: Sequence[Row]) -> None:
        super().__init__(title, choices)
        self._rows = dict(zip((choice.key for choice in choices), rows, strict=True))
        self._list: RowList = RowList("pick-rows", _PICKED)

    def body(self) -> Vertical:
        return Vertical(classes="panel -row-panel")

    def renew(self, rows: Sequence[Row]) -> None:
        """The same choices with what is known of each by now; the one in hand stays so."""
        self._rows = dict(zip((choice.key for choice in self._choices), rows, strict=True))
        at = self._list.highlighted
        self._fill()
        self._list.highlighted = at

    def listed(self, found: Sequence[Choice]) -> None:
        self._list.show([RowOption(choice, self._rows[choice.key]) for choice in found])

    def key_of(self, option: Option) -> str:
        assert isinstance(option, RowOption)
        return option.choice.key


class _Read(RowList):
    """A list that is read: a tap takes a row in hand, one on that takes it; what is cut off is scrolled to first."""

    def action_cursor_down(self) -> None:
        """Show what of the row in hand is beneath the last line, else go on to the next row."""
        if self.is_cut_off:
            self.scroll_relative(y=self.scrollable_content_region.height - 1, animate=False)
        else:
            super().action_cursor_down()

    def on_click(self, event: Click) -> None:
        at = event.style.meta.get("option")
        if isinstance(at, int) and at != self.highlighted:
            event.prevent_default()
            self.highlighted = at


class TakePanel(Panel[str]):
    """A few rows to read beside each other; the one in hand is taken by Enter or its button, and there may be others.

    On a screen with room for two columns they stand beside each other however few they are.
    """

    def __init__(
        self, title: str, choices: Sequence[Choice], rows: Sequence[Row], take: str, offers: Sequence[Choice] = ()
    ) -> None:
        super().__init__(title)
        self._options = [RowOption(choice, row) for choice, row in zip(choices, rows, strict=True)]
        self._take_label, self._offers = take, offers
        self._list = _Read("take-rows", 0, beside=True)

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel -row-panel"):
            yield self.head()
            yield self._list
            with Horizontal(classes="panel-bar"):
                yield Button(on_button(self._take_label), compact=True, id="take")
                for number, offer in enumerate(self._offers):
                    yield Button(on_button(offer.text), compact=True, id=f"offer-{number}")
                yield Button(on_button(f"{LEADER} {BACK}"), compact=True, id="back")

    def on_mount(self) -> None:
        self._list.show(self._options)
        self.set_focus(self._list)

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        if isinstance(event.option, RowOption):
            self.close(event.option.choice.key)

    @on(Button.Pressed, "#take")
    def _take(self) -> None:
        at = self._list.highlighted
        if at is not None:
            self.close(self._options[at].choice.key)

    @on(Button.Pressed)
    def _offered(self, event: Button.Pressed) -> None:
        if event.button.id and event.button.id.startswith("offer-"):
            self.close(self._offers[int(event.button.id.removeprefix("offer-"))].key)
