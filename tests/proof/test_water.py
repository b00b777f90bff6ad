"""The far side of a floor is outside, and a door is wet inside: what goes through stays sealed, or its check is open.

Common practice: a closed end, or flange and thread sealed as a step, for what comes off never or rarely; an open nut
that comes off yearly or more often is an open check, whatever its thread.
"""

from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.job.choices import pinned
from fasten.job.words import Pin
from fasten.model import Advice, Answer, Check, FarSide, MountPoint, Origin, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
AMPLIFIER = {
    "item": "amplifier", "onto": "steel 1.2 mm", "removed": "yearly", "panel": "floor", "support": "firm",
    "behind": "60mm", "edge": "60mm",
}  # fmt: skip


def mounted(**said: str) -> MountPoint:
    fields = {name: text for name, text in (AMPLIFIER | said).items() if text}
    return resolve(read_question({name.replace("_", "-"): text for name, text in fields.items()}, TABLES), TABLES)


@cache
def _advised(mount: MountPoint) -> Advice:
    return advise(mount, TABLES, changes=False)


def asked(**said: str) -> Advice:
    return _advised(mounted(**said))


def sealed(advice: Advice, method: str) -> dict[str, Check]:
    """The line of the seal of each answer of a method, by its title."""
    found = [answer for answer in advice.answers if answer.method == method]
    return {a.title: check for a in found for check in a.proposal.checks if check.id == "water-behind"}


@pytest.mark.parametrize(
    ("said", "side", "origin"),
    [
        ({"onto": "steel floor", "panel": ""}, FarSide.WET, Origin.PRESET),
        ({"onto": "steel wheel-arch", "panel": ""}, FarSide.WET, Origin.PRESET),
        ({"onto": "steel spare-wheel-well", "panel": ""}, FarSide.WET, Origin.PRESET),
        ({"onto": "steel door", "panel": ""}, FarSide.WET, Origin.PRESET),
        ({"onto": "steel seat-back", "panel": ""}, FarSide.DRY, Origin.PRESET),
        ({}, FarSide.WET, Origin.PRESET),
        ({"panel": "side"}, FarSide.DRY, Origin.ASSUMED),
        ({"panel": "side", "where": "underfloor"}, FarSide.WET, Origin.PRESET),
        ({"onto": "mdf 18 mm", "support": ""}, FarSide.DRY, Origin.ASSUMED),
        ({"onto": "steel plate 3 mm"}, FarSide.DRY, Origin.ASSUMED),
        ({"far_side": "dry"}, FarSide.DRY, Origin.GIVEN),
        ({"panel": "side", "far_side": "wet"}, FarSide.WET, Origin.GIVEN),
    ],
)
def test_water_is_behind_body_sheet_whose_back_is_outside(said: dict[str, str], side: FarSide, origin: Origin) -> None:
    mount = mounted(**said)
    assert mount.far_side is side
    assert dict(mount.origins)["far_side"] is origin


@pytest.mark.parametrize("removed", ["yearly", "monthly", "weekly"])
def test_an_open_nut_that_comes_off_often_is_an_open_check_and_a_closed_one_goes_before_it(removed: str) -> None:
    advice = asked(removed=removed, item_hole="9mm")
    lines = sealed(advice, "rivet_nut")
    is_open = {title: check.status for title, check in lines.items()}
    assert advice.answers[0].proposal.proven
    assert "closed end" in advice.answers[0].title
    assert {status for title, status in is_open.items() if "closed end" in title} == {Status.HOLDS}
    assert {status for title, status in is_open.items() if "closed end" not in title} <= {Status.NOT_CHECKED}


def test_an_open_m8_is_no_exception() -> None:
    lug = asked(item="ground-lug", cable="50 mm2", ring="M8", current="150 A")
    lines = sealed(lug, "rivet_nut")
    assert lines
    assert {check.status for title, check in lines.items() if "closed" not in title} == {Status.NOT_CHECKED}
    [needs] = {check.needs for check in lines.values() if check.needs}
    assert needs == "needs a closed end, or its seal looked at from behind after each removal"


@pytest.mark.parametrize("removed", ["never", "rarely"])
def test_what_seldom_comes_off_is_sealed_by_a_step(removed: str) -> None:
    """The closed nut comes before the open one; held by a pin, the open one is proven with its sealant."""
    closed = next(a for a in asked(removed=removed).answers if a.method == "rivet_nut")
    assert "closed end" in closed.title
    opened = pinned(Pin("rivet_nut", "M5", "round, large head, knurled", None, None), mounted(removed=removed), TABLES)
    assert isinstance(opened, Answer)
    assert opened.proposal.proven
    assert [step.text for step in opened.steps if step.text.startswith("Water gets behind here: put sealant")]
    assert "sealant" in {need.key for need in opened.consumables}


def test_a_bolt_from_both_sides_is_sealed_anew_each_time() -> None:
    advice = asked(removed="monthly", reach="both-sides")
    bolt = next(answer for answer in advice.answers if answer.method == "through_bolt")
    assert {check.status for check in sealed(advice, "through_bolt").values()} == {Status.HOLDS}
    assert [step.text for step in bolt.steps if "seal it anew at each removal" in step.text]


def test_no_sealant_gets_under_a_ground_lug() -> None:
    lug = asked(item="ground-lug", cable="50 mm2", ring="M8", current="150 A", removed="rarely")
    steps = [step.text for step in lug.answers[0].steps]
    assert [text for text in steps if text.startswith("Water gets behind") and "never between lug and metal" in text]
    assert not [text for text in steps if "under what lies on it" in text]


def test_where_it_is_dry_behind_or_nothing_goes_through_there_is_no_such_check() -> None:
    assert not sealed(asked(far_side="dry"), "rivet_nut")
    assert not sealed(asked(item="wire-clamp", run="2m"), "bonded_stud")
