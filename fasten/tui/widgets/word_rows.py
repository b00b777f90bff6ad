"""The words of the question as rows that a thumb can hit: what each is called, and what it says."""

from collections.abc import Callable, Sequence

from textual import on
from textual.app import ComposeResult
from textual.events import Resize
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fasten.report.safe import safe
from fasten.tui.actions import LEADER
from fasten.tui.drawn.runs import Line, padded
from fasten.tui.drawn.sentence import Word
from fasten.tui.widgets.button import Button, on_button
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import BACK, OPTION_COLUMNS, Panel

_LOW = 20  # rows of a screen, under which a row is two high


class WordRows(Panel[str]):
    """Every word of the question, folded away or not; the one that is picked is given back by its name."""

    def __init__(self, words: Sequence[Word], label: Callable[[str], str]) -> None:
        super().__init__("Which word?")
        self._words, self._label = words, label
        self._list = OptionList(*(Option("", id=f"word-{at}") for at in range(len(words))), markup=False)

    def compose(self) -> ComposeResult:
        with self.body():
            yield self.head()
            yield self._list
            yield Button(on_button(f"{LEADER} {BACK}"), compact=True, id="back")

    def on_mount(self) -> None:
        self.set_focus(self._list)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        width = self._list.scrollable_content_region.width - OPTION_COLUMNS
        for at, word in enumerate(self._words):
            self._list.replace_option_prompt_at_index(at, content(self._lines(word, width)))

    def _lines(self, word: Word, width: int) -> list[Line]:
        label: Line = ((self._label(word.name), "quiet"),)
        said = padded(((safe(word.text), word.kind.value),), max(width, 1))
        return [label, said] if self.app.size.height < _LOW else [label, said, ()]

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self.close(self._words[event.option_index].name)
