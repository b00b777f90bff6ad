"""Numbers as a person reads them: limits to the safe side, and never changing places by rounding."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Span, Torque
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.headline import parts
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits


@pytest.mark.parametrize(
    ("least_nm", "most_nm", "told"),
    [
        (0.6, 1.563, ("0.6", "1.56")),
        (0.684, 0.6851, ("0.684", "0.685")),
        (0.684, 0.684, ("0.684", "0.684")),
        (0.6841, 0.6849, ("0.6841", "0.6849")),
        (3.12, 12.38, ("3.2", "12.3")),
        (12.31, 12.38, ("12.31", "12.38")),
        (0.684, 0.684 - 1e-10, ("0.684", "0.684")),  # a window that is only just open
    ],
)
def test_a_narrow_window_is_told_with_its_ends_in_place(least_nm: float, most_nm: float, told: tuple[str, str]) -> None:
    torque = Torque(most_nm, least_nm, most_nm, most_nm * 8.85, "built", Span(0.2, 0.2), "", (), past_driving=False)
    digits = torque_digits(torque)
    assert (rounded_up(least_nm, digits), rounded_down(most_nm, digits)) == told


@pytest.mark.parametrize(("onto", "told"), [("steel 0.8 mm", " past what drives it"), ("mdf 18 mm", "")])
def test_what_only_clamps_is_told_as_past_what_drives_the_screw(onto: str, told: str) -> None:
    """Nobody has tabled how hard a screw drives in sheet; for MDF what seats it is tabled and counted in."""
    said = {"item": "speaker-adapter", "onto": onto, "removed": "never", "mass": "0.3kg", "item-hole": "4.5mm"}
    answers = advise(resolve(read_question(said, builtin()), builtin()), builtin(), changes=False).answers
    driven = [answer for answer in answers if answer.proposal.method in {"tapping_screw", "screw_into_board"}]
    assert driven
    for answer in driven:
        torque = answer.proposal.torque
        assert torque is not None
        assert past_driving(torque) == told
        headline = dict(parts(answer))["Torque"]
        target = headline.partition(" N·m")[0]
        assert headline.endswith(f"){told}")
        assert any(f"{target} N·m{told}" in step.text for step in answer.steps)
