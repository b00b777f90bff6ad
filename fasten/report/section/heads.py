"""The head of a screw, rivet or stud in profile, by the row of its form: how wide it is at each part of its height."""

from collections.abc import Callable
from functools import lru_cache
from math import sqrt

from fasten.catalog.head_forms import HEAD_FORMS
from fasten.catalog.tables import builtin
from fasten.model import Joint
from fasten.record import record

_PLAIN, _NUT, _SET = "pan", "hexagon", "rivet head"  # forms of what no row names, of a stud's nut, of a part set once
_SUNK = "cone"
_SHOULDER = 0.5  # of the height of a pan head, from where it is round
_CORNER = 0.85  # of the height of a hexagon, from where its corners are turned off


@record
class Head:
    """A head as it is drawn: whether it is sunk, the share of its base in its height and of its crown in its width.

    `profile` is the word of its row.
    """

    profile: str
    crown: float
    base: float

    @property
    def is_sunk(self) -> bool:
        """Whether it lies in the layers."""
        return self.profile == _SUNK

    def radius(self, height: float) -> float:
        """The share of its greatest radius at a share of its height, from its underside up."""
        if height < self.base:
            return 1.0
        return self.crown * _OUTLINES[self.profile]((height - self.base) / (1.0 - self.base))


def head_of(joint: Joint, *, is_nut: bool = False) -> Head:
    """The head of a joint's screw, or of the part that goes through by itself; `is_nut` where its nut is the head."""
    return head_of_form(_NUT if is_nut else _SET if joint.screw is None else joint.screw.head)


@lru_cache(maxsize=64)
def head_of_form(form: str) -> Head:
    """By the longest form of a row that stands in the name; a pan head where none does."""
    rows = sorted(builtin().rows(HEAD_FORMS), key=lambda row: -len(row.form))
    known = [row for row in rows if row.form in form.casefold()] or [row for row in rows if row.form == _PLAIN]
    return Head(known[0].profile, known[0].crown_share, known[0].base_share)


def _dome(height: float) -> float:
    return sqrt(1.0 - (0.94 * height) ** 2)


def _pan(height: float) -> float:
    over = max(height - _SHOULDER, 0.0) / (1.0 - _SHOULDER)
    return sqrt(1.0 - 0.55 * over**2)


def _hexagon(height: float) -> float:
    return 1.0 - max(height - _CORNER, 0.0)


def _straight(_height: float) -> float:
    return 1.0


_OUTLINES: dict[str, Callable[[float], float]] = {
    "dome": _dome, "pan": _pan, "hexagon": _hexagon, "cylinder": _straight, _SUNK: _straight,
}  # fmt: skip
