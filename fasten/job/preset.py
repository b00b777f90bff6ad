"""What of a mount point an install says and that is not confirmed: kept as preset until it is changed or confirmed."""

from collections.abc import Iterable

from fasten.job.words import Mount
from fasten.model import Answer, Check, MountPoint, Status
from fasten.model.plan import Plan
from fasten.question.fields import ONTO
from fasten.question.resolve import as_preset
from fasten.record import replace

PROPOSED = "onto-proposed"


def with_said(mount: Mount, said: tuple[tuple[str, str], ...]) -> Mount:
    """The mount point with this question; what is said otherwise than its install says is preset no more."""
    before, now = dict(mount.said), dict(said)
    kept = tuple(name for name in mount.preset if name in now and now[name] == before.get(name))
    return replace(mount, said=said, preset=kept)


def confirmed(mount: Mount, names: Iterable[str]) -> Mount:
    """The mount point with these fields confirmed as they stand."""
    given = set(names)
    return replace(mount, preset=tuple(name for name in mount.preset if name not in given))


def proposed_onto(mount: Mount) -> str:
    """What a mount point is fastened to where that is only proposed; empty where it is said."""
    return dict(mount.said).get(ONTO.name, "") if ONTO.name in mount.preset else ""


def noted(point: MountPoint, mount: Mount) -> MountPoint:
    """The mount point as it is resolved, with what its install says marked as preset."""
    return as_preset(point, mount.preset) if mount.preset else point


def waiting(plan: Plan, mount: Mount) -> Plan:
    """The plan, open as long as what the mount point is fastened to is only proposed."""
    onto = proposed_onto(mount)
    return replace(plan, checks=(*plan.checks, _unconfirmed(onto))) if onto else plan


def waiting_answer(answer: Answer, mount: Mount) -> Answer:
    """The answer, open as long as what the mount point is fastened to is only proposed."""
    onto = proposed_onto(mount)
    if not onto:
        return answer
    checks = (*answer.proposal.checks, _unconfirmed(onto))
    return replace(answer, proposal=replace(answer.proposal, checks=checks, proven=False))


def _unconfirmed(onto: str) -> Check:
    needs = f"needs what it is fastened to confirmed: {onto} is only proposed"
    title = "What it is fastened to"
    return Check(PROPOSED, title, Status.NOT_CHECKED, None, None, "", None, None, None, (), "", (), needs)
