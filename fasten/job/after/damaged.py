"""Damage at a mount point of a job: what was planned there, the routes, and one of them taken."""

from dataclasses import replace

from fasten.advice.owned import Owned, complete
from fasten.after.damage import Damage, check_possible
from fasten.after.routes import Repaired, Route, repaired
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.judged import as_planned
from fasten.job.after.repairs import check_first, others_of, with_repair
from fasten.job.choices import Choice, choices, pin_of
from fasten.job.edit import find_mount, with_mount
from fasten.job.ticked import planned_ticks
from fasten.job.words import Job
from fasten.model import Joint, MountPoint
from fasten.progress import Step, unseen
from fasten.record import record


@record
class Planned:
    """What a mount point gets before any repair, which every route starts from: its joint, and where it is."""

    choice: Choice
    joint: Joint
    point: MountPoint
    title: str

    @property
    def fixings(self) -> int:
        """How many it has."""
        return self.point.fixings


def planned_at(
    name: str, job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen
) -> Planned:  # fmt: skip
    """What a mount point gets beside the others of its job before any repair.

    `step` is called for each mount point and may raise Stopped. Raises: FastenError where it has no answer.
    """
    mount = find_mount(job, name)
    plain = replace(mount, repairs=(), ticked=planned_ticks(mount))
    found = choices(with_mount(job, plain, instead_of=plain.name), tables, owned, step)
    chosen = next(one for one in found if one.name == plain.name)
    if chosen.answer is None or chosen.point is None:
        what = f"{plain.name} has no answer, so there is no joint to repair: {chosen.reason}"
        raise FastenError(what, where="mount", fix="see what would make it fit with fasten pick")
    return Planned(chosen, chosen.answer.proposal.joint, chosen.point, chosen.answer.title)


def routes_at(
    planned: Planned, job: Job, damage: Damage, at: int | None, tables: Tables, step: Step = unseen
) -> Repaired:
    """Every route for damage at a mount point, at one fixing numbered from 1 or at all of them (None).

    Raises: FastenError where that cannot have happened there, or the fixing was repaired already.
    """
    check_possible(damage, planned.joint, planned.title)
    mount = find_mount(job, planned.choice.name)
    check_first(mount, at)
    others = others_of(mount, planned.joint, planned.point, tables)
    return repaired(planned.joint, planned.point, damage, at, tables, step, others)


def on_shelf(found: Repaired, owned: Owned | None, tables: Tables) -> frozenset[str]:
    """The routes that a shelf has all parts for."""
    if owned is None:
        return frozenset()
    return frozenset(
        route.route for route in found.routes
        if route.answer is not None and complete(
            route.answer.proposal.joint, 1 if found.at is not None else route.point.fixings, owned, tables
        )
    )  # fmt: skip


def with_route(job: Job, planned: Planned, found: Repaired, route: Route, today: str, tables: Tables) -> Job:
    """The job with this route taken at the mount point, which is pinned to what was planned where it must be."""
    mount = find_mount(job, planned.choice.name)
    pin = None if route.answer is None else pin_of(route.answer)
    kept = as_planned(mount, planned.choice, job, tables)
    return with_mount(job, with_repair(kept, found, route, pin, today), instead_of=mount.name)
