"""Damage at a mount point of a job: what was planned there, the routes, and one of them taken."""

from fasten.advice.owned import Owned, complete
from fasten.after.damage import Damage, check_possible
from fasten.after.measured import Measured
from fasten.after.routes import Repaired, Route, repaired
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.judged import as_planned, pin_as_built
from fasten.job.after.repairs import with_parts, with_repair
from fasten.job.after.taken import Stands, check_first, stands
from fasten.job.choices import Choice, choice, choices
from fasten.job.edit import find_mount, with_mount
from fasten.job.pins import pin_of, pin_of_joint
from fasten.job.ticked import planned_ticks
from fasten.job.words import Job, Mount
from fasten.model import Answer, Joint, MountPoint
from fasten.progress import Step, unseen
from fasten.record import record, replace
from fasten.text.shown import visible


@record
class Planned:
    """What a mount point gets before any repair, and what is there after those that were done: routes start from that.

    `joint` is that of the fixings that no repair made unlike the rest, at `point`; `repairs` says how many were done.
    """

    choice: Choice
    joint: Joint
    point: MountPoint
    title: str
    stands: Stands
    repairs: int

    def is_before(self, other: "Planned", *, is_taken: bool) -> bool:
        """Whether the same was planned, and no repair was done or taken back since but for one of its routes."""
        same = self.choice.point == other.choice.point and self.choice.answer == other.choice.answer
        return same and (self.repairs < other.repairs if is_taken else self.repairs == other.repairs)

    def joint_at(self, at: int | None) -> Joint:
        """The joint that is there now, at one fixing or at all."""
        return self.stands.joint_at(at)

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every joint that is there: of the fixings that are alike, and of each that is not."""
        return self.joint, *(one.joint for one in self.stands.before.fixings if not one.is_left_out)

    @property
    def fixings(self) -> int:
        """How many it has."""
        return self.point.fixings


def planned_at(
    name: str, job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen
) -> Planned:  # fmt: skip
    """What a mount point gets beside the others of its job, and what its repairs left there.

    `step` is called for each mount point and may raise Stopped. Raises: FastenError where it has no answer.
    """
    mount = find_mount(job, name)
    plain = replace(mount, repairs=(), ticked=planned_ticks(mount))
    found = choices(with_mount(job, plain, instead_of=plain.name), tables, owned, step)
    chosen = next(one for one in found if one.name == plain.name)
    if chosen.answer is None or chosen.point is None:
        what = f"{plain.name} has no answer, so there is no joint to repair: {chosen.reason}"
        raise FastenError(what, where="mount", fix="see what would make it fit with fasten pick")
    _check_built(mount, chosen.answer)
    there = stands(mount, chosen.answer, chosen.point, tables)
    return Planned(chosen, there.joint, there.point, there.answer.title, there, len(mount.repairs))


def _check_built(mount: Mount, planned: Answer) -> None:
    """Raises FastenError where another part was built in than is planned: routes start from what is there."""
    built, joint = mount.built, planned.proposal.joint
    if built is None or mount.repairs:
        return
    there, wanted = pin_as_built(joint, built, Measured()), pin_of_joint(joint)
    if there == replace(wanted, screw_length_mm=there.screw_length_mm):
        return
    what = f"{mount.name} was built with {visible(built.hardware)}, and {planned.title} is planned"
    raise FastenError(what, where="mount", fix="hold the answer that was built with fasten keep, then ask again")


def routes_at(planned: Planned, damage: Damage, at: int | None, tables: Tables, step: Step = unseen) -> Repaired:
    """Every route for damage at a mount point, at one fixing numbered from 1 or at all of them (None).

    Raises: FastenError where that cannot have happened there, or the fixing was left out.
    """
    check_first(planned.stands, at)
    check_possible(damage, planned.joint_at(at), planned.title)
    return repaired(planned.joint, planned.point, damage, at, tables, step, planned.stands.before)


def on_shelf(found: Repaired, owned: Owned | None, tables: Tables) -> frozenset[str]:
    """The routes that a shelf has all parts for; none with a plate, which is cut to size."""
    if owned is None:
        return frozenset()
    return frozenset(
        route.route for route in found.routes
        if route.answer is not None and route.placed.plate is None and complete(
            route.answer.proposal.joint, 1 if found.at is not None else route.point.fixings, owned, tables
        )
    )  # fmt: skip


def with_route(job: Job, planned: Planned, found: Repaired, route: Route, today: str, tables: Tables) -> Job:
    """The job with this route taken at the mount point, which is pinned to what was planned where it must be."""
    mount = find_mount(job, planned.choice.name)
    pin = None if route.answer is None else pin_of(route.answer)
    kept = as_planned(mount, planned.choice, job, tables)
    done = with_repair(kept, found, route, pin, today)
    now = with_mount(job, done, instead_of=mount.name)
    plan = choice(done, tables, None, now).plan
    return now if plan is None else with_mount(now, with_parts(done, plan), instead_of=mount.name)
