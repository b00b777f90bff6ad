"""Which words the question has by now, and which of them are folded away. No widgets here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from fasten.question.fields import FORM, ONTO, Field, Needed, Unsaid
from fasten.tui.drawn.sentence import MORE, NONE, NOT_GIVEN, Kind, Word
from fasten.tui.drawn.wording import PHRASES, Phrase
from fasten.tui.state.outcome import Outcome

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.model import Advice, MountPoint

_ONE = "1"


class Known:
    """What the last advice tells of the question: what stands in for a field, what concerns it, and what it asks."""

    def __init__(self, advice: Advice, tables: Tables) -> None:
        from fasten.catalog.materials import ITEMS, MATERIALS

        self.mount: MountPoint = advice.mount
        item, material = tables.find(ITEMS, self.mount.item), tables.find(MATERIALS, self.mount.material)
        self._sort = "" if item is None else item.sort
        self._family = "" if material is None else material.family
        self.answer = advice.answers[0] if advice.answers else None
        checks = () if self.answer is None else self.answer.proposal.checks
        self.asked = {check.asks.value for check in checks if check.asks is not None}

    def concerns(self, field: Field) -> bool:
        """Whether the item and what it is fastened to have this field at all."""
        phrase = PHRASES[field.name]
        is_of = field.of is None or field.of.item == self.mount.item
        return is_of and _among(self._family, phrase.families) and _among(self._sort, phrase.sorts)

    def is_wanted(self, field: Field) -> bool:
        """Whether the answer asks for it; where there is none, for all that must not be assumed."""
        return field.name in self.asked if self.answer is not None else field.unsaid is Unsaid.OPEN


def _among(found: str, wanted: Sequence[str]) -> bool:
    return not wanted or found in wanted


def words_of(
    said: Mapping[str, str], outcome: Outcome, known: Known | None, current: str, *, unfolded: bool,
    preset: Mapping[str, str] = {},
) -> list[Word]:  # fmt: skip
    """The words of the sentence in their order; the last tells how many are folded away, or folds them again.

    What says the same as an install did is `preset` still.
    """
    folded = [] if unfolded else folded_of(said, known, current)
    concerned = [ask for ask in FORM if ask not in folded and _stands(ask, said, known, current)]
    words = [_word(ask, PHRASES[ask.name], said, outcome, known, preset) for ask in concerned]
    if known is None:
        return words
    last = words.pop()
    more = f"{len(folded)} more" if folded else "fewer" if unfolded else ""
    ended = Word(last.name, last.text, last.kind, last.before, f"{last.after}. " if more else f"{last.after}.")
    return [*words, ended, *([Word(MORE, more, Kind.MORE)] if more else [])]


def folded_of(said: Mapping[str, str], known: Known | None, current: str) -> list[Field]:
    """The fields that concern the question and stand behind the last word."""
    if known is None:
        return []
    return [ask for ask in FORM if known.concerns(ask) and not _is_first(ask, said, known, current)]


def _stands(ask: Field, said: Mapping[str, str], known: Known | None, current: str) -> bool:
    """Whether it stands in the sentence once nothing is folded away."""
    if known is None:
        return isinstance(ask.unsaid, Needed) or bool(said.get(ask.name)) or ask.name == current
    return known.concerns(ask) or bool(said.get(ask.name)) or ask.name == current


def _is_first(ask: Field, said: Mapping[str, str], known: Known, current: str) -> bool:
    is_said = bool(said.get(ask.name)) or ask.name == current
    return is_said or PHRASES[ask.name].always or known.is_wanted(ask)


def _word(
    ask: Field, phrase: Phrase, said: Mapping[str, str], outcome: Outcome, known: Known | None,
    preset: Mapping[str, str],
) -> Word:  # fmt: skip
    text, kind = _said(ask, said, outcome, known)
    if kind is Kind.GIVEN and preset.get(ask.name) == said.get(ask.name, "").strip():
        text, kind = f"{text} (proposed)" if ask is ONTO else text, Kind.PRESET
    return Word(ask.name, text, kind, phrase.before, phrase.one if phrase.one and text == _ONE else phrase.after)


def _said(ask: Field, said: Mapping[str, str], outcome: Outcome, known: Known | None) -> tuple[str, Kind]:
    reading, typed = outcome.readings.get(ask.name), said.get(ask.name, "").strip()
    if reading is not None and reading.why:
        return f"{NOT_GIVEN} {typed}", Kind.MISREAD
    if reading is not None and typed:
        return reading.understood or typed, Kind.GIVEN
    if typed:
        return typed, Kind.GIVEN
    stands = _stands_in(ask, known)
    if stands:
        return stands, Kind.PRESET
    return (NONE, Kind.PRESET) if ask.unsaid is Unsaid.ABSENT else (NOT_GIVEN, Kind.OPEN)


def _stands_in(ask: Field, known: Known | None) -> str:
    if known is None:
        return ""
    from fasten.tui.mounts.entry import stands_in

    return stands_in(ask, known.mount)


def hint_of(ask: Field, known: Known | None) -> str:
    """What stands in the entry line while the field is empty: what fills it, or an example."""
    if known is None:
        return ask.hint
    from fasten.tui.mounts.entry import filled

    return filled(ask, known.mount) or ask.hint
