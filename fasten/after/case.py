"""Damage to a joint at a mount point, and what a route of repair comes to there."""

from fasten.advice.ranking import order, score
from fasten.after import mixed
from fasten.after.damage import Damage
from fasten.catalog.tables import Tables
from fasten.model import Check, Demand, Joint, MountPoint, Proposal, Refusal
from fasten.proof.demands import demands
from fasten.record import record


@record
class Case:
    """Damage to a joint at a mount point: at one fixing, numbered from 1, or at all; how wide the hole is now."""

    joint: Joint
    mount: MountPoint
    damage: Damage
    at: int | None
    left_mm: float | None


@record
class Found:
    """What a route comes to: its proof or refusal, None where it is no joint; what it needs besides, and where.

    `notes` are what of it no joint says.
    """

    proof: Proposal | Refusal | None
    more: tuple[Check, ...]
    point: MountPoint
    notes: tuple[str, ...] = ()


def loads_of(mount: MountPoint, case: Case, tables: Tables) -> tuple[Demand, ...]:
    """The demands on the fixing that is repaired: beside others the worst share that its stiffness may give it."""
    loads = demands(mount, tables)
    if case.at is None or mount.fixings < 2 or mount.pattern is None or mount.fixings != case.mount.fixings:
        return loads
    _, share = mixed.worst_shares(mount, case.at - 1)
    return mixed.scaled(loads, share, mount.fixings)


def least(found: list[Proposal | Refusal], mount: MountPoint, method: str, tables: Tables) -> Proposal | Refusal:
    proposals = [one for one in found if isinstance(one, Proposal)]
    if proposals:
        return min(proposals, key=lambda one: (not one.proven, order(score(one, mount, tables), one)))
    refusals = [one for one in found if isinstance(one, Refusal)]
    nothing = Refusal(method, "no part of the tables is this one and fits here", ())
    return min(refusals, key=lambda one: (miss_of(one), one.fails), default=nothing)


def miss_of(refusal: Refusal) -> float:
    if len(refusal.figures) < 2 or refusal.figures[1].value <= 0:
        return float("inf")
    return refusal.figures[0].value / refusal.figures[1].value


def miss(found: Found) -> float:
    """How far off what a route comes to is; nothing where it is proved."""
    return miss_of(found.proof) if isinstance(found.proof, Refusal) else 0.0
