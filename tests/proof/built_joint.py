"""One joint that is built here, a rivet nut M5 in 0.8 mm steel, and what reads lines out of its proof. Invented."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from built.receivers import changed, receiver

from fasten.advice.advise import method_of
from fasten.advice.method import Method
from fasten.catalog.practice import RULES, Rule
from fasten.catalog.tables import Tables, builtin
from fasten.model import (
    BitChoice,
    Check,
    Hole,
    Joint,
    JointKind,
    Layer,
    MountPoint,
    Proposal,
    Refusal,
    Removal,
    Screw,
    Span,
    Subject,
    Tolerance,
    kinds,
)
from fasten.proof.demands import demands
from fasten.proof.fit.every import Alike, fit_checks
from fasten.proof.modes.mode import Mode
from fasten.proof.prove import prove
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
MOUNT = resolve(
    read_question(
        {
            "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "1kg", "fixings": "4",
            "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "edge": "40mm",
            "behind": "40mm", "panel": "floor", "reach": "one-side",
        },
        TABLES,
    ),
    TABLES,
)  # fmt: skip
HOLE = Hole(7.0, Tolerance(0.1, 0.2), None, BitChoice("7 mm", 7.0, 0.0, True))
NUT = receiver(
    part="rivet nut", series="built here", thread="M5", length_mm=13.0, grip_mm=Span(0.5, 3.0), material="steel",
    flange_mm=10.0, flange_thickness_mm=1.0, body_mm=7.0, bulge_mm=9.6, thread_proof_n=7000.0, shear_n=None,
    breaking_nm=9.0, spin_out_nm=3.4, spin_out_sheet_mm=0.76, prevailing_nm=None, from_="built",
)  # fmt: skip
SCREW = Screw(
    kinds.MACHINE_SCREW,
    "M5",
    12.0,
    "pan",
    "ISO 14583",
    "8.8",
    "zinc_plated",
    "hexalobular T25",
    5.0,
    0.8,
    9.5,
    3.7,
    7.0,
    1.0,
)
JOINT = Joint(
    method="rivet_nut", kind=JointKind.CLAMPED,
    layers=(Layer("item", "aluminium", 3.0), Layer("substrate", "steel", 0.8)), hole=HOLE, receiver=NUT, screw=SCREW,
    washers=(), grip_mm=0.8, sheet_mm=0.8, sheet_max_mm=0.8, behind_set_mm=18.0, behind_done_mm=12.0,
    lock=kinds.LOCKER, from_=("built",),
)  # fmt: skip
TAPPING = replace(
    JOINT, method="tapping_screw", receiver=None, lock=kinds.LOCKER,
    screw=replace(
        SCREW, kind=kinds.TAPPING_SCREW, thread="ST4.8", class_="case-hardened", diameter_mm=4.8, pitch_mm=1.6
    ),
)  # fmt: skip


SELDOM = replace(MOUNT, removed=Removal.RARELY)  # a tapping screw bears no more


class FitOnly:
    """A method whose joints are proved for fit and torque alone: strength is examined elsewhere."""

    NAME = "built"
    EXEMPT: Mapping[Subject, str] = dict.fromkeys(Subject, "built for its fit alone")

    def __init__(self, method: Method) -> None:
        self.GROUND, self.fit, self.limits, self.torque = method.GROUND, method.fit, method.limits, method.torque

    def modes(self, mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
        return ()


def fit_only(joint: Joint) -> FitOnly:
    """The joint's own method, without its ways to fail."""
    method = method_of(joint.method)
    assert method is not None
    return FitOnly(method)


EXAMINED: Mapping[Subject, str] = FitOnly.EXEMPT


EVERY_JOINT = {"space-behind", "stop-cover", "head-cover", "hole", "removals", "spacing", "grip-min", "grip-max"}


def own_lines(joint: Joint, mount: MountPoint) -> dict[str, Check]:
    """What the joint must fit by its method and its parts, without what every joint must."""
    checks = fit_checks(joint, mount, fit_only(joint), Alike(mount, TABLES), TABLES)
    found = {check.id: check for check in checks}
    return {name: check for name, check in found.items() if name not in EVERY_JOINT | {"lock-breakaway", "spin-out"}}


def row(name: str) -> Rule:
    found = TABLES.find(RULES, name)
    assert found is not None
    return found


def rule(name: str) -> float:
    return row(name).value


def proved(joint: Joint, mount: MountPoint = MOUNT) -> Proposal:
    found = prove(joint, mount, fit_only(joint), demands(mount, TABLES), TABLES)
    assert isinstance(found, Proposal), found
    return found


def refused(joint: Joint, mount: MountPoint = MOUNT) -> Refusal:
    found = prove(joint, mount, fit_only(joint), demands(mount, TABLES), TABLES)
    assert isinstance(found, Refusal)
    return found


def line(proposal: Proposal, identity: str) -> Check:
    found = [check for check in proposal.checks if check.id == identity]
    assert len(found) == 1, f"{identity} is there {len(found)} times"
    return found[0]


def ids(proposal: Proposal) -> set[str]:
    return {check.id for check in proposal.checks}


def given(check: Check) -> dict[str, float]:
    return {part.name: part.value for part in check.inputs}


def nut(**more: Any) -> Joint:
    return replace(JOINT, receiver=changed(NUT, **more))
