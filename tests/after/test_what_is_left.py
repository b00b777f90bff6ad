"""Corroded sheet and soft board: nothing is proven in it until what is left is known, or where that is too little."""

import pytest

from fasten.after.damage import possible, read_damage
from fasten.after.routes import Route, repaired

from .test_repair import TABLES, fixed

ELSEWHERE = {"P1", "P2", "L1"}
LEFT = {"skin08": "sheet-left", "floor12": "sheet-left", "plate3": "sheet-left", "mdf18": "board-left",
        "birch12": "board-left"}  # fmt: skip


def of(substrate: str, what: str) -> list[Route]:
    answer, mount = fixed(substrate)
    found = repaired(answer.proposal.joint, mount, read_damage(what), None, TABLES)
    return [*found.routes, *found.refused]


@pytest.mark.parametrize("substrate", LEFT)
def test_no_route_in_corroded_stuff_is_proven_before_what_is_left_is_measured(substrate: str) -> None:
    """A through bolt in rusted sheet was proved by the thickness that the sheet had when it was new."""
    there = [route for route in of(substrate, "corroded") if route.route not in ELSEWHERE and route.refused is None]
    assert there
    for route in there:
        assert not route.proven, route.route
        assert LEFT[substrate] in {check.id for check in route.checks}, route.route


@pytest.mark.parametrize(("substrate", "left", "least"), [("floor12", "0.9 mm", 0.96), ("birch12", "9 mm", 9.6)])
def test_nothing_goes_into_less_than_a_rule_leaves(substrate: str, left: str, least: float) -> None:
    """Four fifths of it must be left: 0.96 of 1.2 mm, 9.6 of 12 mm."""
    there = [route for route in of(substrate, f"corroded {left}") if route.route not in ELSEWHERE]
    assert there
    for route in there:
        assert route.refused is not None, route.route
        assert route.refused.check == LEFT[substrate]
        assert route.refused.figures[1].value == pytest.approx(least)


def test_a_board_cut_back_is_proved_by_what_is_left_of_it() -> None:
    route = next(route for route in of("mdf18", "corroded 15 mm") if route.route == "Z2")
    assert route.answer is not None
    assert route.answer.proposal.joint.sheet_mm == 15.0


def test_plastic_does_not_rot() -> None:
    answer, mount = fixed("abs3")
    assert "corroded" in possible(answer.proposal.joint)
    assert mount.material == "abs"
    assert not [check for route in of("abs3", "corroded") for check in route.checks if check.id.endswith("-left")]
