"""`prove` by hand: what is refused before all else, removals, the words of a refusal, the window of torque."""

from dataclasses import replace

import pytest
from built.receivers import changed

from fasten.model import BitChoice, FarSide, Joint, JointKind, Refusal, Removal, Span, kinds
from fasten.proof.demands import demands
from fasten.proof.prove import Proving, prove, removals
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .built_joint import (
    HOLE,
    JOINT,
    MOUNT,
    NUT,
    SCREW,
    SELDOM,
    TABLES,
    TAPPING,
    fit_only,
    ids,
    line,
    nut,
    proved,
    refused,
)

DRY = replace(MOUNT, far_side=FarSide.DRY)


def test_the_joint_as_built_is_proven() -> None:
    """Every figure has room, so that each change below is at fault alone."""
    found = proved(JOINT, DRY)
    assert found.proven
    assert {"space-behind", "edge-distance", "head-cover", "hole", "removals", "spacing", "grip-min", "grip-max",
            "jacking-out", "lock-breakaway", "torque-window", "panel-stiffness", "dent.service",
            } == ids(found)  # fmt: skip
    assert found.torque is not None
    assert found.torque.min_nm < found.torque.target_nm == pytest.approx(found.torque.max_nm / 1.06)


# -- what keeps it, where it may go -----------------------------------------------------------------------------------


def test_a_screw_that_claims_no_clamp_needs_a_lock() -> None:
    """Only located, screwed and without a lock is refused; each of the three alone is not."""
    loose = replace(JOINT, kind=JointKind.LOCATED, lock=kinds.NO_LOCK)
    found = refused(loose)
    assert "from working loose" in found.because
    assert found.figures == ()
    assert proved(replace(JOINT, kind=JointKind.LOCATED), DRY).proven
    assert proved(replace(JOINT, lock=kinds.NO_LOCK), DRY).proven
    unscrewed = replace(nut(part="push-in clip", spin_out_nm=None), method="push_in_clip", screw=None)
    snapped = replace(unscrewed, kind=JointKind.LOCATED, lock=kinds.NO_LOCK)
    assert "torque-window" not in ids(proved(snapped))


def test_a_ground_joint_is_asked_before_all_else() -> None:
    """A lug rated for M8 does not go under an M5: the method is refused and nothing is calculated."""
    said = {"item": "ground-lug", "onto": "steel 1.5 mm", "ring": "M8", "cable": "20 mm2", "current": "100 A"}
    lug = resolve(read_question(said | {"removed": "rarely", "reach": "one-side"}, TABLES), TABLES)
    refusal = prove(
        replace(JOINT, receiver=changed(NUT, breaking_nm=1e-9)), lug, fit_only(JOINT), demands(lug, TABLES), TABLES
    )
    assert isinstance(refusal, Refusal)
    assert refusal.check != "torque-window"


# -- removals ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("removed", "method", "lock", "told"),
    [
        (Removal.NEVER, "through_bolt", kinds.NO_LOCK, ()),
        (Removal.RARELY, "through_bolt", kinds.NO_LOCK, ()),
        (Removal.YEARLY, "through_bolt", kinds.NO_LOCK, ("prevailing-torque nut at every 5 removals",)),
        (Removal.YEARLY, "rivet_nut", kinds.NO_LOCK, ()),
        (Removal.YEARLY, "rivet_nut", kinds.SPRING, ()),
        (Removal.MONTHLY, "rivet_nut", kinds.SPRING, ("spring washer at every 10 removals",)),
        (Removal.RARELY, "rivet_nut", kinds.LOCKER, ("low-strength threadlocker at each removal",)),
        (Removal.RARELY, "adhesive", kinds.NO_LOCK, ("adhesive or tape at each removal",)),
    ],
)  # fmt: skip
def test_what_is_renewed_in_ten_years(
    removed: Removal, method: str, lock: kinds.LockKind, told: tuple[str, ...]
) -> None:
    """Common practice: ten years have 5, 10, 120 removals; a nut lasts 5, so of 5 none is renewed and of 10 it is."""
    joint = replace(JOINT, method=method, lock=lock)
    assert removals(joint, replace(MOUNT, removed=removed), TABLES).replace == told


def test_as_many_removals_as_the_method_bears() -> None:
    """A tapping screw is rated for 5, a rivet nut for 600 (common practice): 5 of 5 holds, 10 do not."""
    five = line(proved(TAPPING, replace(MOUNT, removed=Removal.RARELY)), "removals")
    assert (five.demand, five.allowable) == (5, 5)
    assert refused(TAPPING).check == "removals"


# -- a refusal in words -----------------------------------------------------------------------------------------------


def test_the_worst_is_told_with_at_most_two_others() -> None:
    """Five fail. Used most: grip 3.0 of 0.8; then the edge stands alone, since without it nothing can be calculated."""
    joint = replace(nut(grip_mm=Span(3.2, 4.0)), behind_set_mm=60.0)
    mount = replace(MOUNT, behind_mm=20.0)
    found = refused(joint, mount)
    assert (found.check, found.fails) == ("grip-min", 2)
    assert found.because == "M5: grip not below its range; also space behind"
    three = replace(joint, receiver=changed(NUT, grip_mm=Span(3.2, 4.0), flange_mm=5.0))
    assert refused(three, mount).because == (
        "M5: grip not below its range; also space behind; flange wider than the opening over it"
    )
    four = replace(three, hole=replace(HOLE, bit=BitChoice("x", 7.5, 0.5, True)))
    told = refused(four, mount)
    assert told.fails == 4
    assert told.because.count(";") == 2


def test_torque_is_told_last() -> None:
    """An empty window is used more than the space behind, and still comes after it."""
    found = refused(nut(breaking_nm=0.001), replace(MOUNT, behind_mm=17.0))
    assert (found.check, found.fails) == ("space-behind", 2)
    assert "torque window, limited by" in found.because


@pytest.mark.parametrize(
    ("joint", "formula"),
    [
        (JOINT, "K d (separation x T + slip x V / friction) / ((1 - scatter) kept) <= "),
        (TAPPING, "K d separation x T / ((1 - scatter) kept) <= "),
        (replace(JOINT, kind=JointKind.LOCATED), "seated: K d x separation x T / (1 - scatter) <= "),
    ],
)
def test_the_torque_window_says_what_it_is_calculated_from(joint: Joint, formula: str) -> None:
    """A clamped screw holds shear by friction, one that forms its thread or only locates bears it (AISI E4)."""
    check = line(proved(joint, SELDOM), "torque-window")
    assert check.formula.startswith(formula)
    assert len(set(check.inputs)) == len(check.inputs)
    assert len(set(check.from_)) == len(check.from_)


def test_without_a_screw_nothing_is_tightened() -> None:
    """A rivet is set, not tightened, though it is a screw to the drawing."""
    part = nut(part="blind rivet", spin_out_nm=None, grip_mm=None)
    rivet = replace(part, method="blind_rivet", screw=replace(SCREW, kind=kinds.RIVET))
    never = replace(MOUNT, removed=Removal.NEVER)
    assert "torque-window" not in ids(proved(rivet, never))
    assert proved(rivet, never).torque is None


def test_without_a_torque_no_strength_is_calculated_where_the_edge_is_too_near() -> None:
    """Nothing else is counted beside it, though the torque is far too small as well."""
    found = refused(nut(breaking_nm=0.001), replace(MOUNT, edge_mm=5.0))
    assert (found.check, found.fails) == ("edge-distance", 1)


def test_fit_alone() -> None:
    """One failing line among many that hold is enough."""
    assert Proving(MOUNT, fit_only(JOINT), (), TABLES).fits(JOINT)
    assert not Proving(replace(MOUNT, edge_mm=10.0), fit_only(JOINT), (), TABLES).fits(JOINT)
