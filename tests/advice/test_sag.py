"""A board that sags in time over a 200th of its span is a caution, with figures; one that does not is none."""

import pytest

from fasten.advice.advise import advise
from fasten.advice.sag import sag_of
from fasten.catalog.tables import builtin
from fasten.model import MountPoint
from fasten.question.read import read_question
from fasten.question.resolve import resolve

FLOOR = {
    "item": "amplifier", "onto": "MDF 15 mm", "removed": "yearly", "mass": "20 kg", "support": "span 600 mm",
    "behind": "60mm", "edge": "60mm", "reach": "both-sides",
}  # fmt: skip


def mounted(**said: str) -> MountPoint:
    return resolve(read_question(FLOOR | said, builtin()), builtin())


def cautions(mount: MountPoint) -> list[str]:
    return [caution.text for caution in advise(mount, builtin(), changes=False).answers[0].cautions]


def test_a_false_floor_sags_as_beam_theory_and_creep_have_it() -> None:
    """48 x 2200 x 600 x 15^3 / (12 x 600^3) = 82.5 N/mm; 20 kg 2.377 mm at once, 3.25 times that in time.

    A worked case of a collection of panel formulas, recalculated. k_def of MDF 2.25: EN 1995-1-1, from memory.
    """
    sag = sag_of(mounted(), builtin())
    assert sag is not None
    assert sag.in_time_mm == pytest.approx(7.72645, rel=1e-5)
    assert sag.most_mm == pytest.approx(3.0)


def test_it_is_the_first_caution_of_the_answer() -> None:
    said = "Creep: under 20 kg the board sags 7.8 mm in time, over 3 mm, 1/200 of its span"
    assert cautions(mounted())[0].startswith(said)


@pytest.mark.parametrize("said", [{"mass": "3 kg"}, {"onto": "plywood 18 mm", "mass": "8 kg"}, {"support": "frame"}])
def test_what_sags_less_or_has_no_span_is_no_caution(said: dict[str, str]) -> None:
    assert not any(text.startswith("Creep: under") for text in cautions(mounted(**said)))
