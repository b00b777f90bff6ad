"""The foot of the screen: its words are pressed by their letters, and each can be tapped."""

from collections.abc import Sequence

from textual.events import Click
from textual.message import Message
from textual.widgets import Static

from fasten.tui.actions import HOME, LEADER, PLACES, Action
from fasten.tui.drawn.foot import MORE, Foot, Word, foot_of
from fasten.tui.widgets.content import content

_MORE = Word(MORE, LEADER, "do")
_PAGES = frozenset(place.name for place in PLACES)


class FootLine(Static):
    """One row; a tap carries what the word under it does, never its text."""

    class Pressed(Message):
        """A word was tapped: the name of what it does."""

        def __init__(self, name: str) -> None:
            super().__init__()
            self.does = name

    def __init__(self) -> None:
        super().__init__(id="foot", markup=False)
        self._foot: Foot | None = None
        self._asked: tuple[int, str, tuple[Action, ...], bool] | None = None

    def tell(self, width: int, place: str, offered: Sequence[Action], *, typing: bool) -> None:
        """Show the pages and what is offered here; where it is another it stands at once."""
        was, self._asked = self._asked, (width, place, tuple(offered), typing)
        if self._asked == was:
            return
        home = f"go('{HOME.get(place, place)}')"
        pages = [Word(page.label, page.key, page.name, page.name == home) for page in PLACES]
        own = "" if place in HOME else place  # one that no page stands for is filled where it can be pressed
        actions = [Word(action.label, action.key, action.name, action.name == own)
                  for action in offered if action.name not in _PAGES]  # fmt: skip
        foot = foot_of(width, pages, actions, _MORE, typing=typing)
        if foot != self._foot:
            self._foot = foot
            self.update(content([foot.line]), layout=False)

    def on_click(self, event: Click) -> None:
        if self._foot is not None and (name := self._foot.at(event.x)):
            self.post_message(self.Pressed(name))
