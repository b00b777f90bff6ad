"""Routes of repair where something was measured: they start from hole, sheet and readings as they are."""

from dataclasses import replace

import pytest

from fasten.after.damage import read_damage
from fasten.after.routes import Repaired
from fasten.errors import FastenError
from fasten.job.after.damaged import planned_at, routes_at, with_route
from fasten.job.choices import choices
from fasten.job.words import FITTED, Visit

from .test_repairs import TABLES, amp

WIDE = Visit("2026-05-03", "7.5 mm", "", "", "", kind=FITTED)


def routes(what: str, at: int | None, visit: Visit | None = None) -> Repaired:
    return routes_at(planned_at("amp", amp(visit=visit), TABLES), read_damage(what), at, TABLES)


def test_a_hole_measured_wider_than_planned_is_what_a_route_starts_from() -> None:
    """A body of 7 mm holds in no hole of 7.5 mm: every part that goes into it is wider."""
    found = routes("spun", 3, WIDE)
    assert found.left_mm == 7.5
    in_it = [route for route in found.routes if route.route in {"N1", "N2", "N3", "N4"}]
    holes = [route.answer.proposal.joint.hole for route in in_it if route.answer is not None]
    assert holes
    assert all(hole is not None and hole.diameter_mm >= 7.5 for hole in holes)


def test_of_a_hole_for_each_fixing_its_own_counts() -> None:
    each = Visit("2026-05-03", "7 mm, 7 mm, 7.5 mm, 7 mm", "", "", "", kind=FITTED)
    assert [routes("spun", at, each).left_mm for at in (1, 3, None)] == [7.0, 7.5, 7.5]


def test_fixings_that_stay_in_holes_too_wide_are_open() -> None:
    """What is left once one is out holds by holes of 7 mm: at 7.5 mm each it is not proven."""
    left_out = next(route for route in routes("oversize 7.6 mm", 3, WIDE).routes if route.route == "L1")
    assert left_out.needs == ("the other fixings 1, 2, 4 repaired as oversize: 7.5 mm measured, 7.15 mm at most",)
    alone = Visit("2026-05-03", "7 mm, 7 mm, 7.5 mm, 7 mm", "", "", "", kind=FITTED)
    assert next(route for route in routes("spun", 3, alone).routes if route.route == "L1").proven


def test_what_turned_the_body_on_test_pieces_counts_for_its_repair() -> None:
    """At 0.7 N·m the nuts turn before the locker of their screws breaks: the others do not do without it."""
    low = Visit("2026-05-03", "7 mm", "", "", "", kind=FITTED, spin_out="0.7 0.68 0.72")
    assert "L1" in {route.route for route in routes("stripped", 3).routes}
    assert "L1" in {route.route for route in routes("stripped", 3, low).refused}


def test_a_sheet_measured_thinner_is_that_of_the_routes() -> None:
    thin = Visit("2026-05-03", "", "", "", "", kind=FITTED, sheet="0.7 mm")
    found = next(route for route in routes("stripped", 3, thin).routes if route.route == "L1")
    assert found.answer is not None
    assert found.answer.proposal.joint.sheet_mm == 0.7
    assert found.point.thickness_min_mm == 0.7


def test_what_was_built_otherwise_is_held_first() -> None:
    """No route starts from an M5 nut where an M6 is."""
    other = Visit("2026-05-03", "", "M6 rivet nut; M6x20", "", "", kind=FITTED)
    with pytest.raises(FastenError, match=r"amp was built with M6 rivet nut; M6x20, and M5 rivet nut.* is planned"):
        routes("spun", 3, other)
    assert routes("spun", 3, replace(other, hardware="M5 rivet nut; M5x16")).routes


def test_a_route_taken_in_a_wider_hole_is_proved_there_from_then_on() -> None:
    """What was measured later is not what it started from."""
    job = amp(visit=WIDE)
    planned = planned_at("amp", job, TABLES)
    found = routes_at(planned, read_damage("spun"), None, TABLES)
    taken = with_route(job, planned, found, found.routes[0], "2026-06-01", TABLES)
    (now,) = choices(taken, TABLES)
    assert now.repairs[0].route is not None
    assert now.repairs[0].route.route == found.routes[0].route
    assert now.plan is not None
    assert now.plan.unresolved == found.routes[0].needs


def test_an_item_that_is_slotted_is_not_opened_round() -> None:
    """A round hole of 8.25 mm lets an M5 go 1.6 mm aside, and the hole is 3 mm off: only the slot reaches it."""
    job = amp()
    planned = planned_at("amp", job, TABLES)
    found = routes_at(planned, read_damage("off 3 mm right"), 3, TABLES)
    slot = next(route for route in found.routes if route.route == "S1")
    (now,) = choices(with_route(job, planned, found, slot, "2026-06-01", TABLES), TABLES)
    assert now.plan is not None
    own = [task.step.text for task in now.plan.tasks if task.step.text.startswith("Only at fixing 3")]
    assert any("Slot 5.5 mm wide, 8.25 mm long" in text for text in own)
    assert not [text for text in own if "open the item's holes" in text or "opening in the item" in text]
