"""What the form asks, and what comes of it. The form stands on this alone: what reads and advises is loaded later."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from fasten.question.fields import FORM, NEEDED, field_named
from fasten.record import record

if TYPE_CHECKING:
    from fasten.job.after.taken import Taken
    from fasten.model import Advice


@record
class Reading:
    """What is understood of one field, as text; or else why it is not. `is_begun` where it completes a word.

    `offer` is what Enter does with a text that is no value of the field.
    """

    taken: str
    understood: str = ""
    why: str = ""
    is_begun: bool = False
    offer: str = ""


@record
class Good:
    """An advice and the entry it belongs to: the fields that were said, as they were understood."""

    entry: Mapping[str, str]
    advice: Advice


@record
class Outcome:
    """What came of all fields together. Without `good`, something is unsaid, misread, or else there is `trouble`."""

    readings: Mapping[str, Reading]
    good: Good | None = None
    trouble: str = ""
    held: str = ""
    is_held: bool = False
    is_fault: bool = False
    repairs: tuple[Taken, ...] = ()
    asked: tuple[str, ...] = ()  # the words that Enter goes on to, in order
    preset: tuple[str, ...] = ()  # the needed fields that the item itself says

    @property
    def unsaid(self) -> tuple[str, ...]:
        """The fields that an answer needs and that are empty."""
        return tuple(name for name in NEEDED if name not in self.readings and name not in self.preset)

    @property
    def misread(self) -> tuple[str, ...]:
        """The fields that are not understood."""
        return tuple(field.name for field in FORM if field.name in self.readings and self.readings[field.name].why)

    @property
    def entry(self) -> dict[str, str]:
        """Every field that is understood, in the order of the questions."""
        return {field.name: self.readings[field.name].understood for field in FORM if self._is_understood(field.name)}

    def _is_understood(self, name: str) -> bool:
        return name in self.readings and not self.readings[name].why


def label(name: str) -> str:
    """The label of a field as it stands within a sentence."""
    return field_named(name).label.lower()


def labelled(names: tuple[str, ...]) -> str:
    """The label of the first of these fields, and how many others there are."""
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    return f"{field_named(names[0]).label}{more}"
