"""The question: one sentence, of which one word is in hand, and the line in which it is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.events import Resize

from fasten.question.fields import ITEM, NAMES, field_named
from fasten.tui.drawn.sentence import MORE, Word
from fasten.tui.drawn.wording import PHRASES, called
from fasten.tui.mounts.words import Known, folded_of, hint_of, words_of
from fasten.tui.state.found_word import found_word, reading_of
from fasten.tui.state.outcome import Outcome, Reading
from fasten.tui.widgets.entry_line import EntryLine
from fasten.tui.widgets.sentence import SentenceLine

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from fasten.catalog.tables import Tables
    from fasten.model import Answer

_MORE_LABEL = "More"


class Form(Vertical):
    """The sentence and the entry line. What is said stays said, whichever word is in hand."""

    def __init__(self, tables: Tables, typed: Callable[[], object], *, blink: bool) -> None:
        super().__init__(id="form")
        self._tables = tables
        self._outcome = Outcome({})
        self._known: Known | None = None  # of the last advice on this mount point
        self._said: dict[str, str] = {}
        self._preset: dict[str, str] = {}  # what an install said of it
        self._passed: set[str] = set()  # words that were gone on from: none is asked twice
        self.current = ITEM.name
        self.is_open = False
        self.sentence, self.line = SentenceLine(), EntryLine(typed, blink=blink)

    def compose(self) -> ComposeResult:
        yield self.sentence
        yield self.line

    def said(self) -> dict[str, str]:
        """Every field as typed, in hand or not."""
        typed = {} if self.current == MORE else {self.current: self.line.field.value}
        return {**dict.fromkeys(NAMES, ""), **self._said, **typed}

    def show(self, outcome: Outcome) -> None:
        """Show in the sentence and beside the entry what came of each field."""
        self._outcome = outcome
        if outcome.good is not None:
            self._known = Known(outcome.good.advice, self._tables)
        self._show()

    def fill(self, said: dict[str, str], preset: dict[str, str]) -> None:
        """Put a whole question into the sentence, its first word in hand; nothing of it counts as typed."""
        self._preset = preset
        self._said, self._known, self.is_open, self.current = dict(said), None, False, ITEM.name
        self._passed.clear()
        self.line.arrive(said.get(ITEM.name, ""))

    def show_preset(self, preset: dict[str, str]) -> None:
        """Show in the sentence what is preset by now."""
        if preset != self._preset:
            self._preset = preset
            self._show()

    def show_found(self) -> None:
        """Show what was found by what is typed at the last word; nothing is calculated for it."""
        if self.is_at_more:
            self._show()

    def words(self) -> list[Word]:
        """The words of the sentence by now."""
        return self._words(unfolded=self.is_open)

    def rows(self) -> list[Word]:
        """All that concerns the question, folded away or not."""
        return [word for word in self._words(unfolded=True) if word.name != MORE]

    def _words(self, *, unfolded: bool) -> list[Word]:
        said, preset = self.said(), self._preset
        return words_of(said, self._outcome, self._known, self.current, unfolded=unfolded, preset=preset)

    def step(self, steps: int) -> None:
        """Take the next word in hand, or the one before; at the ends the one in hand stays."""
        names = [word.name for word in self.words()]
        at = min(max(names.index(self.current) + steps, 0), len(names) - 1)
        if names[at] != self.current:
            self.take(names[at])

    @property
    def answer(self) -> Answer | None:
        """The first answer that was found last; None where there was none."""
        return None if self._known is None else self._known.answer

    def go_on(self, asked: Sequence[str]) -> None:
        """Take in hand what is asked next: in the order in which it is `asked`, each once, then the last word.

        Until there is an answer, and where all words are unfolded, the sentence is walked.
        """
        self._passed.add(self.current)
        if self._known is None or self.is_open:
            return self.step(1)
        left = (name for name in asked if name not in self._passed)
        return self.take(next(left, self.words()[-1].name))

    def take(self, name: str) -> None:
        """Take a word in hand; what stands in the entry line is said by then."""
        self._said, self.current = self.said(), name
        self.line.arrive(self._said.get(name, ""))
        self._show()

    def press(self) -> None:
        """Unfold what the last word stands for and take in hand what was typed there, or the first; or fold it.

        What is typed there and goes by no word stays, with the reason beside it.
        """
        if found := self._found():
            self.is_open = True
            return self.take(found)
        if self.line.field.value.strip():
            return None
        folded = folded_of(self.said(), self._known, self.current)
        self.is_open = not self.is_open
        return self.take(folded[0].name if self.is_open and folded else self.words()[-1].name)

    def _found(self) -> str:
        """The field that goes by what is typed at the last word; empty where none does."""
        return found_word(self.line.field.value, [(word.name, called(word.name)) for word in self.rows()])

    def _looked(self) -> Reading | None:
        """What was found by what is typed at the last word."""
        typed, found = self.line.field.value.strip(), self._found()
        return reading_of(typed, field_named(found).label if found else "") if typed else None

    @property
    def is_at_more(self) -> bool:
        """Whether the word in hand is the one that stands for what is folded away."""
        return self.current == MORE

    def resume(self) -> None:
        """Go back to the word in hand."""
        self.screen.set_focus(self.line.field)

    def on_resize(self, _event: Resize) -> None:
        self._show()

    def _show(self) -> None:
        """Show the sentence, and of the word in hand what came of it."""
        words = self.words()
        names = [word.name for word in words]
        if self.current not in names:
            return self.take(names[-1])
        self.sentence.show(words, names.index(self.current), is_open=self.is_open)
        if self.is_at_more:
            self.line.show(_MORE_LABEL, self._looked(), "", f"Enter: {words[-1].text}; or name one")
        else:
            ask = field_named(self.current)
            reading = self._outcome.readings.get(self.current)
            self.line.show(ask.label, reading, PHRASES[self.current].means, hint_of(ask, self._known))
        return None
