"""Boards that are mount points of a job: what stands on one, and what a mount point on one takes from it.

A mount point names the board that it is on. The board then carries all that names it, and each of these is counted with
the others; the span is the widest gap between the board's own fixings.
"""

from contextlib import suppress

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.patterns import gap_mm
from fasten.job.after.covered import above, opened, under
from fasten.job.preset import noted
from fasten.job.store.job_toml import same_name
from fasten.job.words import Job, Mount
from fasten.model import Carried, MountPoint, OnBoard, Origin
from fasten.question.fields import BOARD
from fasten.question.presets import together
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.record import replace


def placed(mount: Mount, job: Job | None, tables: Tables) -> MountPoint:
    """The mount point as its question says, with what the job has on the same board, or on it.

    Raises: FastenError if its question cannot be read, or names a board that the job does not have.
    """
    point = _point(mount, tables)
    if job is None:
        return point
    point = _carrying(_with_covers_weighed(point, mount, job, tables), _on(mount.name, job), tables)
    point = opened(point, mount, job, tables)
    return point if point.board is None else _on_its_board(point, mount, point.board, job, tables)


def context(mount: Mount, job: Job) -> tuple[Mount, ...]:
    """The other mount points of a job that decide what this one gets: on its board, the board, on it, under it."""
    board = dict(mount.said).get(BOARD.name)
    others = () if board is None else (*_on(board, job), *_named(board, job))
    over = tuple(one for name in mount.covered_by for one in _named(name, job))
    return (*_on(mount.name, job), *others, *over, *_of_covers(mount, job))


def _of_covers(mount: Mount, job: Job) -> tuple[Mount, ...]:
    """What is under a mount point and under what covers it, and itself where any is: its answer then names these."""
    if not job.under_covers:
        return ()
    below = (*under(mount.name, job), *(one for cover in above(mount, job) for one in under(cover.name, job)))
    return (mount, *below) if below or mount.covered_by else ()


def _point(mount: Mount, tables: Tables) -> MountPoint:
    return noted(resolve(read_question(dict(mount.said), tables), tables), mount)


def _on(name: str, job: Job) -> tuple[Mount, ...]:
    """The mount points that name a board."""
    return job.on_boards.get(same_name(name), ())


def _named(name: str, job: Job) -> tuple[Mount, ...]:
    return job.named.get(same_name(name), ())


def _carrying(point: MountPoint, on_it: tuple[Mount, ...], tables: Tables) -> MountPoint:
    """A board with all that stands on it, where its question does not say itself what it carries."""
    if not on_it or point.carries:
        return point
    things = [_point(mount, tables) for mount in on_it]
    carries = tuple(Carried(one.item, one.mass_kg, point.item_thickness_mm + one.cg_mm) for one in things)
    masses = [point.item_mass_kg, *(one.mass_kg for one in things)]
    mass_kg, cg_mm = together(masses, [point.item_cg_mm, *(one.cg_mm or 0.0 for one in carries)])
    return replace(point, mass_kg=mass_kg, cg_mm=cg_mm, carries=carries)


def _with_covers_weighed(point: MountPoint, mount: Mount, job: Job, tables: Tables) -> MountPoint:
    """An item that carries what is screwed into it, with the mass that this has as a mount point of its own.

    Of an adapter it is the driver, which comes off before it. A mass that is said of what it carries stays.
    """
    if point.carries is None or not mount.covered_by:
        return point
    unsaid = [thing.name for thing in read_question(dict(mount.said), tables).carries or () if thing.mass_kg is None]
    over = _readable([one for name in mount.covered_by for one in _named(name, job) if one is not mount], tables)
    weighed = {one.item: one for one in over if unsaid.count(one.item) == 1}
    if not weighed:
        return point
    things = tuple(
        replace(thing, mass_kg=weighed[thing.name].mass_kg) if thing.name in weighed else thing
        for thing in point.carries
    )
    masses = [point.item_mass_kg, *(thing.mass_kg or 0.0 for thing in things)]
    mass_kg, cg_mm = together(masses, [point.item_cg_mm, *(thing.cg_mm or 0.0 for thing in things)])
    origins = dict(point.origins)
    if all(name in weighed for name in unsaid):
        known = {dict(one.origins).get("mass_kg") for one in weighed.values()} | {origins.get("item_mass_kg")}
        origins["mass_kg"] = Origin.GIVEN if known == {Origin.GIVEN} else Origin.PRESET
    return replace(point, mass_kg=mass_kg, cg_mm=cg_mm, carries=things, origins=tuple(origins.items()))


def _readable(mounts: list[Mount], tables: Tables) -> list[MountPoint]:
    """Those whose question can be read: what is wrong with another is said there."""
    found = list[MountPoint]()
    for one in mounts:
        with suppress(FastenError):
            found.append(_point(one, tables))
    return found


def _on_its_board(point: MountPoint, mount: Mount, name: str, job: Job, tables: Tables) -> MountPoint:
    boards = [one for one in _named(name, job) if one is not mount]
    if not boards:
        what = f"no mount point of the job is called {name}"
        raise FastenError(what, where=BOARD.name, fix="name the mount point of the board, or leave it out")
    on_it = _on(name, job)
    under = _carrying(_point(boards[0], tables), on_it, tables)
    mass_kg = sum(_point(one, tables).mass_kg for one in on_it)
    gap = None if under.pattern is None else gap_mm(under.pattern, under.fixings)
    return replace(point, on_board=OnBoard(mass_kg, gap, under))
