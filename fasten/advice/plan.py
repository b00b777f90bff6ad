"""The plan of a mount point, from its answer: all that lists, verdict, work sheet and labels know of it."""

from collections.abc import Iterator

from fasten.advice.bits import bits_of
from fasten.advice.consumables import consumables_of
from fasten.advice.panel_parts import panel_parts
from fasten.advice.parts import Fitted, fitted_parts, form_of
from fasten.advice.tasks import tasks_of
from fasten.advice.tools import tools_of
from fasten.catalog.tables import Tables
from fasten.geometry.joint import nut_is_there
from fasten.model import Answer, MountPoint, Proposal, kinds
from fasten.model.kinds import Locks
from fasten.model.plan import Label, PartNeed, Plan, Work
from fasten.text.figures import figure, mm, words


def plan_of(name: str, answer: Answer, point: MountPoint, tables: Tables) -> Plan:
    """What the mount point of this name results in with this answer."""
    proposal = answer.proposal
    return Plan(
        name=name, title=answer.title, checks=proposal.checks,
        parts=tuple(_parts(proposal, point, tables)), bits=tuple(bits_of(answer, point, tables)),
        tools=tuple(tools_of(answer, point, tables)), consumables=tuple(consumables_of(answer, point, tables)),
        work=Work(lambda: tasks_of(answer, point, tables)), cautions=answer.cautions, remarks=answer.remarks,
        label=_label(proposal),
    )  # fmt: skip


def _parts(proposal: Proposal, point: MountPoint, tables: Tables) -> Iterator[PartNeed]:
    found = [(fitted, each * point.fixings) for fitted, each in fitted_parts(proposal.joint, tables)]
    if nut_is_there(point):
        found = [pair for pair in found if pair[0].kind is not kinds.RIVET_NUT]
    for fitted, count in (*found, *panel_parts(point, tables)):
        yield _need(fitted, count, proposal, tables)


def fixing_parts(proposal: Proposal, tables: Tables) -> Iterator[PartNeed]:
    """What one fixing of a proposal takes."""
    for fitted, each in fitted_parts(proposal.joint, tables):
        yield _need(fitted, each, proposal, tables)


def _need(fitted: Fitted, count: int, proposal: Proposal, tables: Tables) -> PartNeed:
    kind = fitted.kind
    renewed = count if kind.key in proposal.removals.renewed else 0
    form = form_of(fitted.part, kind, tables)
    return PartNeed(fitted.id, fitted.part, form, kind.listed, kind.spares, count, renewed)


def _label(proposal: Proposal) -> Label:
    joint, torque = proposal.joint, proposal.torque
    return Label(
        bit=None if joint.hole is None else joint.hole.bit.name,
        target_nm=None if torque is None else torque.target_nm,
        least_nm=None if torque is None else torque.min_nm,
        by_feel=torque is None and joint.screw is not None,
        past_driving=joint.lock.how is Locks.NUT,
        held_by=held_by(proposal),
    )


def held_by(proposal: Proposal) -> str:
    """What holds by its face, with its size at each place; empty where nothing does."""
    patch = proposal.joint.patch
    if patch is None:
        return ""
    sides = f"{figure(patch.length_mm)} x {mm(patch.width_mm)}"
    size = f"{mm(patch.length_mm)} across" if patch.shape == "round" else sides
    return f"{words(patch.part)}, {words(patch.series)}, {size} at each place"
