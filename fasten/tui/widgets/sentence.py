"""The sentence where it stands: a tap on a word tells which, as its place among the words."""

from collections.abc import Sequence

from textual.events import Click, Resize
from textual.geometry import Size
from textual.message import Message

from fasten.tui.drawn.sentence import Sentence, Word, height_of, sentence_of
from fasten.tui.widgets.lines import Lines

_PHONE = 60  # columns, under which a tap opens the words as rows
_LOW = 20  # rows of a screen, under which the sentence has two
_FOLDED, _FOLDED_PHONE = 2, 4
_UNFOLDED_PART = 3  # of the screen, at most, that all of its words take


class SentenceLine(Lines):
    """The whole question, as high whatever it says, so that what stands beneath it stays where it is."""

    class Tapped(Message):
        """A word was tapped, by its place; on a phone any place of the sentence, which has no place of its own then."""

        def __init__(self, place: int | None) -> None:
            super().__init__()
            self.place = place

    def __init__(self) -> None:
        super().__init__("", "sentence")
        self._words: Sequence[Word] = ()
        self._current = 0
        self.drawn = Sentence((), ())
        self._is_open = False

    def show(self, words: Sequence[Word], current: int, *, is_open: bool) -> None:
        """Show these words; where all of them are wanted, in as many rows as they take and the screen can spare."""
        was = self._words, self._current, self._is_open
        self._words, self._current, self._is_open = words, current, is_open
        if was != (words, current, is_open):
            self._write()

    def on_resize(self, _event: Resize) -> None:
        self._write()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return self._rows(width)

    @property
    def _is_read(self) -> bool:
        """Whether the answer is read on a phone: one row says what it is of."""
        return self.screen.has_class("-reading") and self.screen.has_class("-narrow")

    def _rows(self, width: int) -> int:
        if self._is_read:
            return 1
        screen = self.app.size
        folded = _FOLDED_PHONE if screen.width < _PHONE and screen.height >= _LOW else _FOLDED
        if not self._is_open or screen.height < _LOW:
            return folded
        return max(folded, min(height_of(self._words, width), screen.height // _UNFOLDED_PART))

    def _write(self) -> None:
        width = self.size.width
        if not width:
            return
        rows, was = self._rows(width), self.drawn
        self.drawn = sentence_of(self._words, len(self._words) if self._is_read else self._current, width, rows)
        if self.drawn != was:
            self.draw(self.drawn.rows)
            if self.size.height != rows:
                self.refresh(layout=True)

    def on_click(self, event: Click) -> None:
        place = self.drawn.at(event.x, event.y)
        if self.app.size.width < _PHONE:
            self.post_message(self.Tapped(None))
        elif place is not None:
            self.post_message(self.Tapped(place))
