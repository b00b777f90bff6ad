"""The verdict on a job: ready, or what is missing and which mount points that stops, and what is not proven."""

from collections.abc import Iterator

from fasten.after.verdict import Verdict as BuiltVerdict
from fasten.catalog.job_parts import SAFETY_GEAR
from fasten.catalog.tables import Tables
from fasten.job.after.covered import CoverTimes, cover_times
from fasten.job.entry import Entry, plans_of
from fasten.job.list.alike import Alike
from fasten.job.list.lists import AsBuilt, Assumed, HardwareList, Missing, PartLine, ToolLine, Unproven, Verdict
from fasten.job.list.parts import part_text
from fasten.job.words import Job
from fasten.model import Status
from fasten.model.line import Sort
from fasten.model.plan import Plan
from fasten.text.exceeded import exceeded
from fasten.text.units import number

SAFETY = "safety gear"


def ready_of(
    job: Job, listed: HardwareList, found: tuple[Entry, ...], tables: Tables, assumed: tuple[Assumed, ...] = ()
) -> Verdict:  # fmt: skip
    """The verdict on a job by its list, with what its covers and the records of what was built leave open."""
    return ready(listed, found, worn(tables), covers_open(job, tables), assumed, tuple(as_built_of(found, tables)))


def ready(
    listed: HardwareList, found: tuple[Entry, ...], worn: frozenset[str] = frozenset(),
    covers: tuple[Unproven, ...] = (), assumed: tuple[Assumed, ...] = (),
    as_built: tuple[AsBuilt, ...] = (),
) -> Verdict:  # fmt: skip
    """Ready where all that is listed, spares too, is on the shelf or packed and every entry has a proven plan.

    What is built must hold too, by its record.

    Without a shelf nothing is there but what is packed, and what is `worn`, tools by their keys, is one thing. A job
    without mount points has nothing to be ready for. `covers` are those that are not proven (`covers_open`);
    what is `assumed` is said and stops nothing. `as_built` are the records that do not plainly hold (`as_built_of`).
    """
    gear = frozenset() if listed.shelf else worn
    missing = (*_parts(listed), *_bits(listed), *_tools(listed, gear), *_consumables(listed))
    alike = Alike(lambda plan: None if plan.proven else tuple(_unproven(plan)))
    needs = ((plan.name, alike.of(plan, plan.checks)) for plan in plans_of(found))
    unproven = (*(Unproven(name, left) for name, left in needs if left is not None), *covers)
    return Verdict(
        ready=bool(found) and not (missing or unproven or listed.unfit) and all(one.verdict.stands for one in as_built),
        title=listed.title, shelf=listed.shelf, mounts=len(found), missing=missing, unproven=unproven,
        unfit=listed.unfit, remarks=listed.remarks, apart=listed.apart, runs=listed.runs, ways=listed.ways,
        assumed=assumed,
        as_built=as_built,
    )  # fmt: skip


def _unproven(plan: Plan) -> Iterator[str]:
    """What a plan needs to be proven: another choice where a check fails, then what is still open."""
    yield from (f"another choice: {exceeded(check)}" for check in plan.checks if check.status is Status.FAILS)
    yield from plan.unresolved


def as_built_of(found: tuple[Entry, ...], tables: Tables) -> Iterator[AsBuilt]:
    """The records that do not plainly hold; what a plan needs already is said of that, and not once more."""
    for entry in found:
        if entry.built is None:
            continue
        from fasten.job.after.judged import verdict_of  # with all that repairs come to: slow to load

        judged = verdict_of(entry, tables)
        if judged is None or judged.verdict is BuiltVerdict.HOLDS:
            continue
        said = () if entry.plan is None or entry.plan.proven else entry.plan.unresolved
        needs = tuple(need for need in judged.needs if need not in said)
        if needs or judged.verdict is not BuiltVerdict.OPEN or not judged.needs:
            yield AsBuilt(entry.name, judged.verdict, needs, judged.do, judged.less)


def covers_open(job: Job, tables: Tables) -> tuple[Unproven, ...]:
    """The covers of the car that come off more often than they are rated for, or of which that is not known."""
    return tuple(Unproven(one.cover.name, needs) for one in cover_times(job, tables) if (needs := tuple(_needs(one))))


def _needs(found: CoverTimes) -> Iterator[str]:
    if found.is_over:
        yield f"another method: {found.times.once} removals in ten years, and {found.rated} are rated"
    elif found.times.unsaid and found.rated is not None:
        yield f"how often {' and '.join(found.times.unsaid)} comes off"


def _parts(listed: HardwareList) -> Iterator[Missing]:
    for line in listed.parts:
        if line.to_buy:
            yield Missing(Sort.PART, part_text(line.part), line.to_buy, tuple(_stopped(line)), line.known)


def _stopped(line: PartLine) -> Iterator[str]:
    """The mount points that what is there does not reach, served in the job's order."""
    left = line.at_hand
    for place in line.places:
        if place.count > left:
            yield place.mount
        else:
            left -= place.count


def _bits(listed: HardwareList) -> Iterator[Missing]:
    for line in listed.bits:
        if not (line.on_shelf or line.packed or line.instead):
            yield Missing(Sort.BIT, f"bit {line.name}", None, _once(work.mount for work in line.drills), line.known)


def _tools(listed: HardwareList, worn: frozenset[str]) -> Iterator[Missing]:
    """The tools that are not there; what is worn stands together, last, without its mount points."""
    lines = [line for line in listed.tools if not (line.on_shelf or line.packed)]
    for line in lines:
        if line.key not in worn:
            name, stopped = f"{line.name} {line.size}".strip(), line.beyond or line.used
            stops = _once(use.mount for use in stopped)
            yield Missing(Sort.TOOL, f"{name}{_reaching(line)}", None, stops, line.known)
    gear = [line for line in lines if line.key in worn]
    if gear:
        names, used = ", ".join(line.name for line in gear), (use.mount for line in gear for use in line.used)
        yield Missing(Sort.TOOL, f"{SAFETY}: {names}", None, _once(used), gear[0].known)


def _reaching(line: ToolLine) -> str:
    """Which torques a tool must reach that none on the shelf does."""
    torques = sorted({number(use.torque_nm, 2) for use in line.beyond if use.torque_nm is not None}, key=float)
    return f" that reaches {' to '.join(dict.fromkeys((torques[0], torques[-1])))} N·m" if torques else ""


def worn(tables: Tables) -> frozenset[str]:
    """The keys of the tools that are worn."""
    return frozenset(row.tool for row in tables.rows(SAFETY_GEAR))


def _consumables(listed: HardwareList) -> Iterator[Missing]:
    for line in listed.consumables:
        if not (line.on_shelf or line.packed):
            thing = f"{line.name}, {line.detail}" if line.detail else line.name
            stops = _once(use.mount for use in line.used)
            yield Missing(Sort.CONSUMABLE, thing, None, stops, line.known, line.short, line.unit)


def _once(names: Iterator[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))
