"""A plate over a hole, behind it or on a board has rivets, screws or its rim nearer the panel's edge than the hole."""

from math import inf

import pytest

from fasten.advice.advise import advise
from fasten.after.damage import read_damage
from fasten.after.routes import Route, repaired
from fasten.model import Check, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .test_repair import MOUNTS, TABLES

THIN = {"onto": "steel 1 mm", "support": "frame"}
BOARD = {"item": "amplifier", "mass": "4 kg", "fixings": "4", "pattern": "rectangle 240x180", "item-thickness": "3 mm",
         "item-hole": "5.5 mm", "support": "frame", "removed": "yearly"}  # fmt: skip


def route(key: str, what: str, substrate: str, **said: str) -> Route:
    mount = resolve(read_question(MOUNTS[substrate] | said, TABLES), TABLES)
    joint = advise(mount, TABLES, changes=False).answers[0].proposal.joint
    found = repaired(joint, mount, read_damage(what), 1, TABLES)
    return next(one for one in (*found.routes, *found.refused) if one.route == key)


def edge_of(one: Route) -> Check:
    return next(check for check in one.checks if check.id == "plate-edge")


def test_the_rivets_of_a_cover_plate_stay_on_the_panel() -> None:
    """Half the pitch of its rivets and twice the hole of one: at 13 mm no rivet is slim enough."""
    far = route("C1", "spun", "floor12", **THIN)
    assert far.proven
    needed_mm = edge_of(far).demand or inf
    plate = far.placed.plate
    assert plate is not None
    assert plate.rivet is not None
    assert plate.rivet.hole is not None
    assert needed_mm == pytest.approx(plate.pitch_mm / 2 + 2 * plate.rivet.hole.diameter_mm)
    assert needed_mm > 13.0
    near = route("C1", "spun", "floor12", **THIN, edge="13 mm")
    assert near.refused is not None
    assert near.refused.check == "plate-edge"
    assert edge_of(route("C1", "spun", "floor12", **THIN, edge=f"{needed_mm:.2f} mm")).status is Status.HOLDS
    for edge in ("", "at least 13 mm"):
        unsure = route("C1", "spun", "floor12", **THIN, edge=edge)
        assert not unsure.proven
        assert edge_of(unsure).status is Status.NOT_CHECKED


def test_the_screws_of_a_doubler_stay_on_their_board() -> None:
    """A crack of 20 mm takes a doubler whose screws sit half their pitch nearer the edge: 12 mm of board are left."""
    far = route("R5", "cracked 20 mm", "mdf18", **BOARD)
    assert far.placed.plate is not None
    nearer_mm = far.placed.plate.pitch_mm / 2
    edge = next(check for check in far.checks if check.id == "plate-rivets/edge-distance")
    assert edge.allowable == pytest.approx(60.0 - nearer_mm)
    for edge_mm in (nearer_mm + 11.9, nearer_mm - 1):
        near = route("R5", "cracked 20 mm", "mdf18", **BOARD, edge=f"{edge_mm:.1f} mm")
        assert near.refused is not None
        assert "screws of" in near.refused.because


def test_a_plate_behind_lies_on_its_panel_all_round() -> None:
    far = route("G1", "corroded", "abs3")
    assert far.placed.plate is not None
    side_mm = far.placed.plate.side_mm
    assert edge_of(far).demand == pytest.approx(side_mm / 2)
    near = route("G1", "corroded", "abs3", edge=f"{side_mm / 2 - 0.5:.2f} mm")
    assert near.refused is not None
    assert near.refused.check == "plate-edge"
