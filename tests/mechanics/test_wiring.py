"""Equations of cable: what cannot be is refused by its name, and what they give exactly at their bounds, by hand."""

from collections.abc import Callable
from math import inf, nan, pi
from typing import Any

import pytest

from fasten.mechanics import wiring

Equation = Callable[..., Any]
GOOD: tuple[tuple[Equation, dict[str, float]], ...] = (
    (wiring.amplifier_current_a, {"power_w": 1000.0, "efficiency_share": 0.75, "supply_v": 13.8}),
    (wiring.loudspeaker_current_a, {"power_w": 100.0, "impedance_ohm": 4.0}),
    (wiring.conductor_temperature_c,
     {"ambient_c": 30.0, "insulation_c": 105.0, "rated_c": 30.0, "current_a": 100.0, "ampacity_a": 200.0}),
    (wiring.warm_mohm_per_m, {"cold_mohm_per_m": 0.6, "conductor_c": 45.0}),
    (wiring.drop_v, {"current_a": 100.0, "resistance_mohm_per_m": 0.6, "length_mm": 5000.0}),
    (wiring.loop_ohm, {"resistance_mohm_per_m": 20.0, "length_mm": 4000.0}),
    (wiring.lead_loss_db, {"lead_ohm": 0.2, "impedance_ohm": 4.0}),
    (wiring.shrink_cut_mm, {"covered_mm": 45.0, "shortening_share": 0.15}),
    (wiring.tape_mm,
     {"bundle_mm": 12.0, "width_mm": 19.0, "thickness_mm": 0.15, "overlap_share": 0.5, "length_mm": 1000.0}),
    (wiring.tie_count, {"length_mm": 1200.0, "spacing_mm": 250.0}),
    (wiring.weight_kg, {"area_mm2": 21.15, "length_mm": 100.0, "density_g_cm3": 8.96}),
)  # fmt: skip
EACH = [
    pytest.param(equation, good, name, id=f"{equation.__name__}-{name}") for equation, good in GOOD for name in good
]
NO_LENGTH = {"overlap_share": 0.0, "length_mm": 0.0}
MAY_BE_NEGATIVE = {"ambient_c", "conductor_c", "rated_c"}  # a temperature in °C
MAY_BE_NONE = {"current_a", "length_mm", "shortening_share", "overlap_share"}


@pytest.mark.parametrize(("equation", "good", "name"), EACH)
def test_no_impossible_number_gets_through(equation: Equation, good: dict[str, float], name: str) -> None:
    equation(**good)
    for broken in (nan, inf, *(() if name in MAY_BE_NEGATIVE else (-1.0,))):
        with pytest.raises(ValueError, match=f"{name} is {broken!r}; it must be .+: .+"):
            equation(**good | {name: broken})
    if name not in MAY_BE_NEGATIVE | MAY_BE_NONE:
        with pytest.raises(ValueError, match=f"{name} is 0.0; it must be .+: .+"):
            equation(**good | {name: 0.0})


@pytest.mark.parametrize(
    ("equation", "given", "gives"),
    [
        (wiring.amplifier_current_a, {"power_w": 138.0, "efficiency_share": 1.0, "supply_v": 13.8}, 10.0),
        (wiring.loudspeaker_current_a, {"power_w": 100.0, "impedance_ohm": 4.0}, 5.0),
        (wiring.warm_mohm_per_m, {"cold_mohm_per_m": 1.0, "conductor_c": 20.0}, 1.0),
        (wiring.drop_v, {"current_a": 100.0, "resistance_mohm_per_m": 1.0, "length_mm": 1000.0}, 0.1),
        (wiring.loop_ohm, {"resistance_mohm_per_m": 10.0, "length_mm": 1000.0}, 0.02),
        (wiring.lead_loss_db, {"lead_ohm": 0.05, "impedance_ohm": 1.0}, 0.4238),  # 5 %: 0.42 dB
        (wiring.shrink_cut_mm, {"covered_mm": 45.0, "shortening_share": 0.0}, 45.0),
        (wiring.tape_mm, dict.fromkeys(("bundle_mm", "width_mm", "thickness_mm"), 1.0) | NO_LENGTH, 4 * pi),
        (wiring.tie_count, {"length_mm": 250.0, "spacing_mm": 250.0}, 2),
    ],
)  # fmt: skip
def test_what_they_give(equation: Equation, given: dict[str, float], gives: float) -> None:
    assert equation(**given) == pytest.approx(gives, abs=1e-4)


def test_a_conductor_at_its_ampacity_is_as_warm_as_its_insulation_may_be() -> None:
    at = {"ambient_c": 30.0, "insulation_c": 105.0, "rated_c": 30.0, "ampacity_a": 200.0}
    assert wiring.conductor_temperature_c(**at, current_a=200.0) == 105.0
    assert wiring.conductor_temperature_c(**at, current_a=0.0) == 30.0
    with pytest.raises(ValueError, match=r"insulation_c is 30\.0; it must be above 30\.0"):
        wiring.conductor_temperature_c(**at | {"insulation_c": 30.0}, current_a=1.0)
