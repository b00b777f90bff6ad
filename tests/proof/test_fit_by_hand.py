"""Each line of fit at its limit and beside it, on the joint that is built for it, a figure changed at a time."""

from dataclasses import replace

import pytest

from fasten.catalog.practice import RULES
from fasten.model import BitChoice, Joint, Pattern, Position, Span, StackPart, Status, kinds
from fasten.proof.prove import Proving

from .built_joint import (
    HOLE,
    JOINT,
    MOUNT,
    SELDOM,
    TABLES,
    TAPPING,
    fit_only,
    given,
    ids,
    line,
    nut,
    proved,
    refused,
    row,
    rule,
)

# -- space behind -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("set_mm", "done_mm", "behind_mm", "holds"),
    [(18.0, 12.0, 18.0, True), (18.0, 12.0, 17.9, False), (12.0, 18.0, 18.0, True), (12.0, 18.0, 17.9, False)],
)
def test_the_larger_of_both_needs_is_held_against_the_space(
    set_mm: float, done_mm: float, behind_mm: float, holds: bool
) -> None:
    joint = replace(JOINT, behind_set_mm=set_mm, behind_done_mm=done_mm)
    mount = replace(MOUNT, behind_mm=behind_mm)
    assert Proving(mount, fit_only(joint), (), TABLES).fits(joint) is holds
    if holds:
        check = line(proved(joint, mount), "space-behind")
        assert (check.demand, check.allowable) == (18.0, behind_mm)
    else:
        refusal = refused(joint, mount)
        assert (refusal.check, refusal.fails) == ("space-behind", 1)
        assert [(figure.name, figure.value) for figure in refusal.figures] == [("demand", 18.0), ("capacity", 17.9)]


def test_space_that_nobody_told_is_asked_for_and_a_blind_hole_asks_none() -> None:
    open_ = line(proved(JOINT, replace(MOUNT, behind_mm=None)), "space-behind")
    assert (open_.status, open_.needs) == (Status.NOT_CHECKED, "needs 18.0 mm behind")
    assert not proved(JOINT, replace(MOUNT, behind_mm=None)).proven
    blind = replace(JOINT, hole=replace(HOLE, depth_mm=10.0))
    assert "space-behind" not in ids(proved(blind))


@pytest.mark.parametrize(
    ("joint", "source"),
    [
        (JOINT, "rules:reach"),
        (TAPPING, "rules:stop"),
        (nut(part="push-in clip"), None),
        (nut(part="ball socket"), None),
    ],
)  # fmt: skip
def test_what_needs_space_says_by_which_rule(joint: Joint, source: str | None) -> None:
    """A mandrel reaches past a rivet nut, a drill past sheet; what is snapped in by hand has no tool behind."""
    rules = {
        "rules:reach": TABLES.source_id(RULES, row("mandrel-reach")),
        "rules:stop": TABLES.source_id(RULES, row("drill-stop-past-sheet")),
    }
    found = line(proved(joint, SELDOM), "space-behind").from_
    assert found == (("built",) if source is None else tuple(dict.fromkeys(("built", rules[source]))))


# -- edges, heads, spacing --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "told_mm", "untold_mm"),
    [(JOINT, 14.0, 21.0), (TAPPING, 7.2, 7.2)],
)
def test_distance_to_an_edge(joint: Joint, told_mm: float, untold_mm: float) -> None:
    """FAA AC 43.13-1B: 2 D of a 7.0 body; AISI E4: 1.5 d of 4.8. Where nobody told, 3 d, as EN 1993-1-3 bears in full.

    A tapping screw bears by AISI, so its own 1.5 d is all that is asked. What is asked for beyond the least that is
    taken says that it is the most.
    """
    at = line(proved(joint, replace(SELDOM, edge_mm=told_mm)), "edge-distance")
    assert at.demand == pytest.approx(told_mm)
    assert at.status is Status.HOLDS
    assert refused(joint, replace(SELDOM, edge_mm=told_mm - 0.01)).check == "edge-distance"
    untold = line(proved(joint, replace(SELDOM, edge_mm=None)), "edge-distance")
    assert untold.demand == pytest.approx(untold_mm)
    assert untold.status is Status.NOT_CHECKED
    far = f"up to {untold_mm:.1f} mm," if untold_mm > told_mm else f"{untold_mm:.1f} mm from"
    assert untold.needs == f"needs {far} hole centre to any edge"


def test_a_head_covers_its_hole_with_a_margin() -> None:
    margin = rule("head-cover")
    just = replace(TAPPING, screw=replace(TAPPING.screw, head_mm=5.5 + margin))  # type: ignore[type-var]
    check = line(proved(just, SELDOM), "head-cover")
    assert (check.demand, check.allowable) == (5.5 + margin, 5.5 + margin)
    short = replace(TAPPING, screw=replace(TAPPING.screw, head_mm=5.49 + margin))  # type: ignore[type-var]
    assert refused(short, SELDOM).check == "head-cover"


@pytest.mark.parametrize(("spacing_mm", "holds"), [(21.0, True), (20.9, False)])
def test_fixings_stand_three_diameters_apart(spacing_mm: float, holds: bool) -> None:
    """FAA AC 43.13-1B: 3 D of a 7.0 body is 21; two in a row are neighbours, one alone has none."""
    mount = replace(MOUNT, fixings=2, pattern=Pattern("row", spacing_mm, None))
    if holds:
        check = line(proved(JOINT, mount), "spacing")
        assert check.demand == pytest.approx(21.0)
        assert check.allowable == pytest.approx(21.0)
    else:
        assert refused(JOINT, mount).check == "spacing"
    assert "spacing" not in ids(proved(JOINT, replace(MOUNT, fixings=1, pattern=None)))


# -- the hole ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bit_mm", "side", "off_mm", "allowed_mm"),
    [(7.0, "over", 0.0, 0.2), (7.2, "over", 0.2, 0.2), (6.9, "under", 0.1, 0.1), (7.05, "over", 0.05, 0.2)],
)
def test_a_bit_is_held_against_the_side_where_it_errs(
    bit_mm: float, side: str, off_mm: float, allowed_mm: float
) -> None:
    bit = BitChoice("x", bit_mm, round(bit_mm - 7.0, 6), True)
    check = line(proved(replace(JOINT, hole=replace(HOLE, bit=bit))), "hole")
    assert check.demand == pytest.approx(off_mm)
    assert (check.allowable, check.status) == (allowed_mm, Status.HOLDS)
    assert given(check) == {"hole": 7.0, "bit": bit_mm, f"may be {side}": allowed_mm}
    assert check.formula == {"over": "bit - hole <= over", "under": "hole - bit <= under"}[side]


@pytest.mark.parametrize(("bit_mm", "off_mm", "allowed_mm"), [(7.5, 0.5, 0.2), (6.5, 0.5, 0.1)])
def test_a_bit_outside_the_tolerance_is_told_with_both_figures(bit_mm: float, off_mm: float, allowed_mm: float) -> None:
    bit = BitChoice("x", bit_mm, bit_mm - 7.0, False)
    found = proved(replace(JOINT, hole=replace(HOLE, bit=bit)))
    check = line(found, "hole")
    assert (check.status, check.demand, check.allowable) == (Status.NOT_CHECKED, off_mm, allowed_mm)
    assert check.needs == "needs drilling under and reaming until the body just enters"
    assert not found.proven


# -- grip, opening, locker --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grip_mm", "least_mm", "most_mm", "fails"),
    [
        (0.8, 0.6, 0.8, None), (0.8, 0.61, 0.8, "grip-min"), (0.8, 0.6, 0.79, "grip-max"),
    ],
)  # fmt: skip
def test_grip_holds_at_both_ends_of_what_the_sheet_may_measure(
    grip_mm: float, least_mm: float, most_mm: float, fails: str | None
) -> None:
    """A sheet of 0.8 at most and 0.6 at least, gripped 0.8: the thinnest grip is 0.8 - (0.8 - 0.6) = 0.6."""
    joint = replace(nut(grip_mm=Span(least_mm, most_mm)), grip_mm=grip_mm, sheet_mm=0.6, sheet_max_mm=0.8)
    if fails is None:
        assert given(line(proved(joint), "grip-min")) == {"least grip": 0.6, "gripped at least": pytest.approx(0.6)}
        assert given(line(proved(joint), "grip-max")) == {"gripped at most": 0.8, "greatest grip": 0.8}
    else:
        assert refused(joint).check == fails


def test_a_flange_is_wider_than_the_opening_over_it() -> None:
    """The item's hole of 5.5 and the margin; a rigid washer between narrows it; without its width it stays open."""
    margin = rule("jacking-out-margin")
    assert line(proved(nut(flange_mm=5.5 + margin)), "jacking-out").utilisation == pytest.approx(1.0)
    assert refused(nut(flange_mm=5.49 + margin)).check == "jacking-out"
    washer = StackPart("ISO 7089", "M5", Position.BETWEEN, 5.3, 10.0, 1.0)
    narrowed = replace(nut(flange_mm=5.49 + margin), washers=(washer,))
    assert given(line(proved(narrowed), "jacking-out"))["opening over the flange"] == 5.3
    left = line(proved(nut(flange_mm=None)), "jacking-out")
    assert (left.status, left.needs) == (Status.NOT_CHECKED, "needs the width of its flange")


def test_a_locker_breaks_before_the_body_turns() -> None:
    """Breakaway grows with d³: of M5 an eighth of M10's; against the share of 3.4 N·m, sheet thicker than tested."""
    check = line(proved(JOINT), "lock-breakaway")
    assert check.demand == pytest.approx(rule("locker-breakaway-m10") / 8)
    assert check.allowable == pytest.approx(rule("spin-out-share") * 3.4)
    assert given(check)["spin-out as tested"] == 3.4
    assert "lock-breakaway" not in ids(proved(replace(JOINT, lock=kinds.NO_LOCK)))
    unread = line(proved(nut(spin_out_nm=None)), "spin-out")
    assert (unread.status, unread.needs) == (Status.NOT_CHECKED, "needs the torque that turns it")
    weak = nut(spin_out_nm=rule("locker-breakaway-m10") / 8 / rule("spin-out-share") - 0.001)
    assert "locker breaks before the body turns" in refused(weak).because.lower()
