"""The large actions over the foot, where a screen is held in the hand: each can be tapped anywhere on it."""

from collections.abc import Sequence

from textual.events import Click
from textual.widgets import Static

from fasten.tui.actions import LARGE, Action
from fasten.tui.drawn.foot import Word
from fasten.tui.drawn.large import Large, large_of
from fasten.tui.widgets.content import content
from fasten.tui.widgets.foot import FootLine

_ROWS = 3
_PRESSED = frozenset({"make", "take_route", "keep_built"})  # what is pressed on its own page, three rows high


def words_of(place: str, offered: Sequence[Action]) -> list[Word]:
    """What is pressed most in a place, of what is offered there."""
    by_name = {action.name: action for action in offered}
    wanted = LARGE.get(place, ())
    return [Word(text or by_name[name].label, by_name[name].key, name) for name, text in wanted if name in by_name]


def others(offered: Sequence[Action], larges: Sequence[Word]) -> tuple[Action, ...]:
    """What is offered beside the large actions."""
    shown = {word.name for word in larges} | _PRESSED
    return tuple(action for action in offered if action.name not in shown)


class LargeLine(Static):
    """As many rows as there is room for; a tap carries what the action under it does, never its text."""

    def __init__(self) -> None:
        super().__init__(id="large", markup=False)
        self._shown: tuple[int, tuple[Word, ...], int, bool] = (0, (), 0, True)
        self._large = Large((), ())
        self.display = False

    def tell(self, width: int, words: Sequence[Word], *, is_short: bool, filled: bool) -> None:
        """Show these actions; where they are others they stand at once."""
        rows = 1 if is_short else _ROWS
        asked = width, tuple(words), rows, filled
        if asked == self._shown:
            return
        self._shown, self._large = asked, large_of(width, words, rows, filled=filled)
        self.display, self.styles.height = bool(words), rows
        self.update(content(self._large.lines))

    def on_click(self, event: Click) -> None:
        if name := self._large.at(event.x):
            self.post_message(FootLine.Pressed(name))
