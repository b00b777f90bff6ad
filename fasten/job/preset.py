"""What of a mount point an install says and that is not confirmed: kept as preset until it is changed or confirmed."""

from collections.abc import Container, Iterable

from fasten.catalog.materials import PLACES, Place
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.words import Mount
from fasten.model import Answer, Check, FarSide, MountPoint, Panel, Status, Where
from fasten.model.plan import Plan
from fasten.question.fields import FAR_SIDE, NAMES, ONTO, PANEL, WHERE
from fasten.question.read_onto import read_onto
from fasten.question.resolve import as_preset
from fasten.record import replace

PROPOSED = "onto-proposed"
_OF_PLACE = (PANEL.name, WHERE.name, FAR_SIDE.name)
_AS_ASSUMED = frozenset({Panel.UNKNOWN.value, Where.CABIN.value, FarSide.DRY.value})  # where nothing is said


def with_said(mount: Mount, said: tuple[tuple[str, str], ...]) -> Mount:
    """The mount point with this question; what is said otherwise than its install says is preset no more."""
    before, now = dict(mount.said), dict(said)
    kept = tuple(name for name in mount.preset if name in now and now[name] == before.get(name))
    return replace(mount, said=said, preset=kept)


def on_its_place(was: Mount, now: Mount, asked: Container[str], tables: Tables) -> Mount:
    """The mount point with what its place said of it, where what it is fastened to is said anew without a place.

    A door is wet behind however its sheet is said. Another place says all that by itself, and the fields `asked` for
    are as they were set.
    """
    before, after = _place(was, tables), _place(now, tables)
    if dict(was.said).get(ONTO.name) == dict(now.said).get(ONTO.name):
        return now
    said, kept = dict(now.said), _says(before) if before is not None and after is None else {}
    for name in (one for one in _OF_PLACE if one not in asked):
        if after is not None and name in now.preset:
            del said[name]
        elif name in kept and not said.get(name):
            said[name] = kept[name]
    added = tuple(name for name in said if not dict(now.said).get(name))
    texts = tuple((name, said[name]) for name in NAMES if said.get(name))
    return replace(now, said=texts, preset=(*(name for name in now.preset if name in said), *added))


def _place(mount: Mount, tables: Tables) -> Place | None:
    """The place of a body that a mount point is fastened to; None where it is none, or it cannot be read."""
    try:
        place = read_onto(dict(mount.said).get(ONTO.name, ""), tables, ONTO.name)[2]
    except FastenError:
        return None
    return None if place is None else tables.find(PLACES, place)


def _says(place: Place) -> dict[str, str]:
    """What a place says of what is on it, as it may be said."""
    found = {PANEL.name: place.panel, WHERE.name: place.where, FAR_SIDE.name: place.far_side}
    return {name: text for name, text in found.items() if text not in _AS_ASSUMED}


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
