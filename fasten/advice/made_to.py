"""The figures that steps are made to, each by the name that `step-ticks` calls it by."""

from collections.abc import Callable, Mapping
from math import ceil

from fasten.advice.conditions import is_in_a_range
from fasten.advice.rows import pilot_mm
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import MadeTo, MountPoint, Proposal
from fasten.text.figures import figure, mm
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits, up_mm
from fasten.text.units import Dimension, number

Finds = Callable[[Proposal, MountPoint, Tables], MadeTo | None]
_MM, _NM = Dimension.LENGTH.unit, Dimension.TORQUE.unit


def _hole(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The hole."""
    return hole_of(proposal)


def hole_of(proposal: Proposal) -> MadeTo | None:
    """The hole; across flats where it is not round, with its depth where it does not go through."""
    hole = proposal.joint.hole
    if hole is None:
        return None
    deep = () if hole.depth_mm is None else (f"{mm(hole.depth_mm)} deep",)
    shape = () if hole.shape == "round" else (hole.shape,)
    return MadeTo(number(hole.diameter_mm, 2), _MM, ", ".join((*shape, *deep)))


def _pilot(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The first hole, through which the space behind is probed."""
    first_mm = pilot_mm(proposal.method, proposal.joint.hole, tables)
    return None if first_mm is None else MadeTo(number(first_mm, 2), _MM)


def _there(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The existing hole."""
    return None if mount.existing_hole_mm is None else MadeTo(number(mount.existing_hole_mm, 2), _MM)


def _behind(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The space that must be free behind, while it is set and after."""
    needed_mm = max(proposal.joint.behind_set_mm, proposal.joint.behind_done_mm)
    return MadeTo(f"{up_mm(needed_mm):.1f}", _MM) if ceil(needed_mm) > 0 else None


def _grip(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """What is gripped between head and receiver; nothing where that is what the sheet measures."""
    if is_in_a_range(mount):
        return None
    return MadeTo(number(proposal.joint.grip_mm, 2), _MM)


def _screw(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The screw, bolt or rivet by thread and length."""
    screw = proposal.joint.screw
    return None if screw is None else MadeTo(f"{screw.thread}×{figure(screw.length_mm)}", "")


def _torque(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """The torque, and what it is on top of."""
    torque = proposal.torque
    if torque is None:
        return None
    return MadeTo(rounded_down(torque.target_nm, torque_digits(torque)), _NM, past_driving(torque).strip())


def _test_torque(proposal: Proposal, mount: MountPoint, tables: Tables) -> MadeTo | None:
    """What a test piece is tightened to, past the target."""
    torque = proposal.torque
    if torque is None:
        return None
    most_nm = rule(tables, Rules.TEST_TORQUE).value * torque.target_nm
    return MadeTo(rounded_up(most_nm, torque_digits(torque)), _NM)


FIGURES: Mapping[str, Finds] = {
    "hole": _hole, "pilot": _pilot, "there": _there, "space": _behind, "grip": _grip, "screw": _screw,
    "torque": _torque, "test torque": _test_torque,
}  # fmt: skip
