"""Words that may be typed into an entry, beneath it: each can be tapped."""

from textual.events import Click
from textual.message import Message
from textual.widgets import Static

from fasten.tui.widgets.content import content


class Offers(Static):
    """Words that may be typed, each to tap, by its place among them."""

    class Tapped(Message):
        """A word was tapped, by its place."""

        def __init__(self, at: int) -> None:
            super().__init__()
            self.at = at

    def __init__(self) -> None:
        super().__init__(id="run-offers", markup=False)
        self._spans: list[tuple[int, int]] = []

    def show(self, words: tuple[str, ...]) -> None:
        """Show as many of the words as there is room for."""
        self._spans, runs, column = [], [], 0
        for word in words:
            if column + len(word) > self.size.width:
                break
            runs += [(word, "underline accent"), ("  ", "quiet")]
            self._spans.append((column, column + len(word)))
            column += len(word) + 2
        self.update(content([tuple(runs)]), layout=False)

    def on_click(self, event: Click) -> None:
        at = next((at for at, (start, end) in enumerate(self._spans) if start <= event.x < end), None)
        if at is not None:
            self.post_message(self.Tapped(at))
