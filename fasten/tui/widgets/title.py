"""The top line: which job is in hand, whether it is kept, and how far long work is."""

from collections.abc import Sequence

from textual.events import Click
from textual.message import Message
from textual.widgets import Static

from fasten.tui.actions import LEADER
from fasten.tui.drawn.top import Shown, Top, top_of
from fasten.tui.widgets.content import content


def counted_work(progress: str, *, by_letter: bool) -> str:
    """How far the work is, with the key that stops it; empty where there is none."""
    return f"{progress}, {'' if by_letter else LEADER}q stops it" if progress else ""


class Said(Static):
    """What was said since the last key, above what is pressed: it lies over what stands there and moves nothing."""

    def __init__(self) -> None:
        super().__init__(id="said", markup=False)
        self.display = False

    def tell(self, said: Sequence[tuple[str, bool]], pressed: int) -> None:
        """Show each text on lines of its own, those that warn in bold; nothing where nothing was said.

        It stands over so many rows that are `pressed`, of which it hides none.
        """
        self.styles.margin = (0, 0, 1 + pressed, 0)
        self.display = bool(said)
        self.update(content([((text, "bold open" if warn else "ink"),) for text, warn in said]))


class Title(Static):
    """The line where it stands; a tap on which of how many goes to the mount point before or after."""

    class Stepped(Message):
        """Another mount point is wanted: so many on."""

        def __init__(self, steps: int) -> None:
            super().__init__()
            self.steps = steps

    def __init__(self) -> None:
        super().__init__(id="title", markup=False)
        self._top: Top | None = None

    def tell(self, shown: Shown, width: int) -> None:
        """Say it where it is another; called every second, it must not have the screen laid out as often."""
        top = top_of(shown, width)
        if top != self._top:
            self._top = top
            self.update(content([top.line]), layout=False)

    def on_click(self, event: Click) -> None:
        where = event.get_content_offset(self)
        if self._top is not None and where is not None and (steps := self._top.at(where.x)):
            self.post_message(self.Stepped(steps))
