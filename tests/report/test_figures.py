"""Numbers as a person reads them: limits to the safe side, and never changing places by rounding."""

import pytest

from fasten.model import Span, Torque
from fasten.report.figures import rounded_down, rounded_up, torque_digits


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
    torque = Torque(most_nm, least_nm, most_nm, most_nm * 8.85, "built", Span(0.2, 0.2), "", ())
    digits = torque_digits(torque)
    assert (rounded_up(least_nm, digits), rounded_down(most_nm, digits)) == told
