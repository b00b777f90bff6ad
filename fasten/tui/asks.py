"""What the form asks, and what comes of it. The form stands on this alone: what reads and advises is loaded later."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.model import Advice

FIRST = ("item", "onto", "removed")  # the three that already give an answer


@dataclass(frozen=True)
class Ask:
    """One question of the form: the field it fills, its label, an example, and whether a part of a word is enough."""

    name: str
    label: str
    example: str
    is_word: bool = False

    @property
    def hint(self) -> str:
        """What stands in the empty field: the choices, or an example that nobody takes for a value."""
        return self.example if self.is_word else f"e.g. {self.example}"


@dataclass(frozen=True)
class Reading:
    """What is understood of one field, as text; or else why it is not."""

    taken: str
    understood: str = ""
    why: str = ""


@dataclass(frozen=True)
class Good:
    """An advice and the entry it belongs to: the fields that were said, as they were understood."""

    entry: Mapping[str, str]
    advice: Advice


@dataclass(frozen=True)
class Outcome:
    """What came of all fields together. Without `good`, something is unsaid, misread, or else there is `trouble`."""

    readings: Mapping[str, Reading] = field(default_factory=dict)
    good: Good | None = None
    trouble: str = ""
    held: str = ""
    is_held: bool = False
    is_fault: bool = False

    @property
    def unsaid(self) -> tuple[str, ...]:
        """The fields that an answer needs and that are empty."""
        return tuple(name for name in FIRST if name not in self.readings)

    @property
    def misread(self) -> tuple[str, ...]:
        """The fields that are not understood."""
        return tuple(name for name in LABELS if name in self.readings and self.readings[name].why)

    @property
    def entry(self) -> dict[str, str]:
        """Every field that is understood, in the order of the questions."""
        return {ask.name: self.readings[ask.name].understood for ask in ASKS if self._is_understood(ask.name)}

    def _is_understood(self, name: str) -> bool:
        return name in self.readings and not self.readings[name].why


def label(name: str) -> str:
    """The label of a field as it stands within a sentence."""
    return LABELS[name].lower()


ASKS = (
    Ask("item", "What", "amplifier, speaker …", is_word=True),
    Ask("onto", "Onto what", "steel 0.8 mm"),
    Ask("removed", "How often off", "never, rarely, yearly, monthly, weekly", is_word=True),
    Ask("behind", "Space behind", "40 mm"),
    Ask("edge", "To an edge", "20 mm"),
    Ask("mass", "Its mass", "6 kg"),
    Ask("fixings", "Fixings", "4"),
    Ask("pattern", "Where they sit", "rectangle 240x180, circle 165"),
    Ask("item-thickness", "Its thickness", "3 mm"),
    Ask("item-hole", "Its holes", "5.5 mm"),
    Ask("boss", "Boss", "8x14 mm: across, deep"),
    Ask("into", "Into", "face or edge of a board", is_word=True),
    Ask("reach", "Reach", "one-side or both-sides", is_word=True),
    Ask("panel", "Which panel", "floor, seat-back, side, roof or door", is_word=True),
    Ask("between", "In between", "foam 3 mm"),
    Ask("where", "Where", "cabin, door or underfloor", is_word=True),
    Ask("visible", "Heads seen", "yes or no", is_word=True),
    Ask("hole-there", "Hole there now", "6.2 mm, or M6 thread, M6 stud"),
    Ask("item-material", "It is made of", "aluminium"),
    Ask("cg", "Centre of mass", "30 mm off the panel"),
    Ask("grade", "Screw class", "8.8"),
    Ask("body", "Nut body", "7.1 mm, measured"),
    Ask("case", "Load case", "hard-stop"),
    Ask("carries", "It carries", "amplifier 5 kg, crossover"),
    Ask("run", "Cable run", "2 m, of wire clamps"),
    Ask("ring", "Ring for", "M8, of a ground lug"),
    Ask("rings", "Rings on it", "1 to 4"),
    Ask("cable", "Its cable", "50 mm2, or 4 AWG"),
    Ask("current", "Full current", "200 A"),
)
LABELS = {ask.name: ask.label for ask in ASKS}


def labelled(fields: tuple[str, ...]) -> str:
    """The label of the first of these fields, and how many others there are."""
    more = f" and {len(fields) - 1} more" if len(fields) > 1 else ""
    return f"{LABELS[fields[0]]}{more}"
