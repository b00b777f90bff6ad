"""No check passes because it was left out: what no mode examines stays open, or its method says why it need not be.

The half-turn fastener here is a double: a method that nothing outside this file names.
"""

from collections.abc import Mapping
from dataclasses import replace
from math import pi, sqrt

import pytest
from built.receivers import changed

from fasten.advice.advise import METHODS, advise
from fasten.advice.method import Method
from fasten.catalog.face_parts import POT_MAGNETS
from fasten.catalog.materials import MATERIALS, PLASTIC_KINDS
from fasten.catalog.parts import HEADS, PLASTIC_SCREWS
from fasten.model import Joint, MountPoint, Proposal, Receiver, Status, Subject, kinds
from fasten.model.kinds import Strength, Tightened
from fasten.model.known import Absent, Ground
from fasten.proof.demands import demands
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes.common import SHEET_BEARING
from fasten.proof.modes.mode import Mode
from fasten.proof.prove import prove
from fasten.proof.strength import exemptions
from fasten.proof.torque.limits import no_more_limits
from fasten.proof.torque.tightening import not_tightened
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text

from .built_joint import JOINT, MOUNT, NUT, TABLES

COVER = {"item": "trim-panel", "mass": "0.5kg", "fixings": "4", "pattern": "rectangle 240x180", "behind": "60mm",
         "edge": "40mm"}  # fmt: skip
MANY = (
    COVER | {"onto": "steel 0.8 mm", "removed": "never", "item-hole": "4.5mm", "item-thickness": "1mm"},
    COVER | {"onto": "steel 0.8 mm", "removed": "yearly", "item-hole": "5.5mm", "reach": "both-sides"},
    COVER | {"onto": "steel 6 mm", "removed": "yearly", "item-hole": "5.5mm"},
    COVER | {"onto": "MDF 18 mm", "removed": "rarely", "item-hole": "5.5mm", "reach": "both-sides"},
    COVER | {"onto": "pine 18 mm", "removed": "rarely", "item-hole": "5.5mm"},
    COVER | {"onto": "ABS 3 mm", "removed": "yearly", "item-hole": "5.5mm", "boss": "14x14"},
    COVER | {"onto": "fibreglass 4 mm", "removed": "rarely", "item-hole": "5.5mm", "reach": "both-sides"},
    COVER | {"onto": "steel 0.8 mm", "removed": "weekly", "item-hole": "7mm", "hole-there": "M6 stud"},
)
EXEMPT = {
    "thread_forming_screw": {Subject.HOLDS_TENSION, Subject.HOLDS_SHEAR},
    "hook_and_loop": {Subject.ITEM, Subject.SUBSTRATE_TENSION, Subject.SUBSTRATE_SHEAR},
    "magnet_and_plate": {Subject.ITEM, Subject.SUBSTRATE_TENSION, Subject.SUBSTRATE_SHEAR},
    "adhesive": {Subject.ITEM},
}


def mounts() -> list[MountPoint]:
    return [resolve(read_question(said, TABLES), TABLES) for said in MANY]


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.NAME)
def test_every_joint_is_examined_whole(method: Method) -> None:
    """A check of each part of the joint, or a reason: and only the methods listed here give any."""
    assert set(method.EXEMPT) == EXEMPT.get(method.NAME, set())
    for mount in mounts():
        if method.gates(mount, TABLES) is None:
            for joint in method.joints(mount, TABLES):
                seen = {s for mode in method.modes(mount, TABLES) if mode.applies(joint) for s in mode.subjects}
                assert seen | set(method.EXEMPT) == set(Subject), f"{method.NAME}: give it a mode or a reason"


def test_the_half_turn_that_names_no_pull_is_not_proven() -> None:
    """A part of its own, which no table of the program knows, with the sheet's bearing as its one check."""

    class HalfTurn:
        NAME = "half_turn"
        GROUND: Ground = Absent("it is for covers")
        EXEMPT: Mapping[Subject, str] = {}
        fit, limits, torque = staticmethod(around_hole), staticmethod(no_more_limits), staticmethod(not_tightened)

        def modes(self, mount: MountPoint, tables: object) -> tuple[Mode, ...]:
            return (SHEET_BEARING,)

    kind = replace(kinds.CLIP_NUT, name="half-turn receptacle", strength=Strength.TABLE, tightened=Tightened.LIMITS)
    part: Receiver = replace(changed(NUT, spin_out_nm=None, breaking_nm=None, flange_mm=None), kind=kind)
    joint: Joint = replace(JOINT, receiver=part)
    found = prove(joint, MOUNT, HalfTurn(), demands(MOUNT, TABLES), TABLES)
    assert isinstance(found, Proposal)
    assert not found.proven
    left = {check.title for check in found.checks if check.status is Status.NOT_CHECKED}
    assert left == {
        "Not examined: what holds it, in tension", "Not examined: what holds it, in shear",
        "Not examined: the item under the head", "Not examined: the substrate, in tension",
        "Removals that open its seal against the water behind",
    }  # fmt: skip


def test_an_exemption_is_told_with_its_reason() -> None:
    hook = next(method for method in METHODS if method.NAME == "hook_and_loop")
    mount = mounts()[0]
    backed = next(joint for joint in hook.joints(mount, TABLES) if joint.patch is not None and joint.patch.bond is None)
    bonded = next(joint for joint in hook.joints(mount, TABLES) if joint.patch is not None and joint.patch.bond)
    told = {entry.subject: entry.because for entry in exemptions(backed, hook.modes(mount, TABLES), hook.EXEMPT)}
    assert set(told) == {subject.value for subject in EXEMPT["hook_and_loop"]}
    assert [entry.subject for entry in exemptions(bonded, hook.modes(mount, TABLES), hook.EXEMPT)] == [
        Subject.ITEM.value
    ]


def test_the_core_of_a_screw_for_plastic_outlasts_all_plastic_it_may_hold_in() -> None:
    """Even as steel of 420 MPa with a core of 0.6 d: against the whole thread sheared out cold, and its bearing.

    Core and strength from memory, on the low side: ISO 898-1 has 420 MPa for class 4.8, the least of any screw here.
    """
    for screw in TABLES.rows(PLASTIC_SCREWS):
        core_n = 420.0 * pi * (0.6 * screw.diameter_mm) ** 2 / 4
        for kind in TABLES.rows(PLASTIC_KINDS):
            plastic = TABLES.find(MATERIALS, kind.material)
            assert plastic is not None
            low_mpa = min(value for value in (plastic.yield_mpa, plastic.ultimate_mpa) if value is not None)
            deep_mm = kind.engagement_over_d * screw.diameter_mm
            pulled_n = pi * screw.diameter_mm * deep_mm * low_mpa / sqrt(3)
            pressed_n = screw.diameter_mm * min(deep_mm, screw.diameter_mm) * low_mpa
            assert core_n / 1.25 > pulled_n / 3, f"{screw.size} in {kind.material}"
            assert 0.5 * core_n / 1.25 > pressed_n / 2


def test_the_head_in_a_pot_magnet_bears_more_than_the_magnet_pulls() -> None:
    """A button head of its thread on the weakest item, 1 mm of aluminium: dw t fu of EN 1993-1-3 against its pull."""
    aluminium = TABLES.find(MATERIALS, "aluminium")
    assert aluminium is not None
    assert aluminium.ultimate_mpa is not None
    for magnet in TABLES.rows(POT_MAGNETS):
        heads = [row for row in TABLES.rows(HEADS) if row.size == magnet.thread]
        least_mm = min(row.diameter_max_mm for row in heads)
        assert least_mm * 1.0 * aluminium.ultimate_mpa / 3 > magnet.pull_n


def test_what_is_exempt_stands_under_the_proof_and_in_the_json() -> None:
    advice = advise(mounts()[-1], TABLES)
    answer = next(answer for answer in advice.answers if answer.proposal.exempt)
    one = replace(advice, answers=(answer,))
    entry = answer.proposal.exempt[0]
    assert f"- No check of {entry.subject}: {entry.because}." in advice_text(one, 400)
    assert advice_json(one)["answers"][0]["exempt"][0] == {"subject": entry.subject, "because": entry.because}
