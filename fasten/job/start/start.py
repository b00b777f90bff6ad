"""A job from nothing: the mount points and cable of typical installs, every value of them preset.

Nothing of it is taken for given: what a mount point is fastened to stays proposed until it is confirmed, and space
behind, distance to an edge and support are never proposed.
"""

from collections.abc import Iterable, Iterator

from fasten.catalog.installs import INSTALL_MOUNTS, INSTALL_RUNS, INSTALLS, Install, InstallMount, InstallRun, said_of
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.edit import free_name, named
from fasten.job.preset import confirmed, proposed_onto
from fasten.job.start.wanted import SIDES, Wanted, WantedItem
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.proposals import proposals, with_its_mounts
from fasten.job.wiring.runs import run_choices
from fasten.job.wiring.ways import left_out
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.question.fields import BEHIND, BOARD, EDGE, ITEM, NAMES, ONTO, REMOVED, SUPPORT
from fasten.record import replace
from fasten.text.figures import words
from fasten.text.names import folded
from fasten.wiring.fields import FROM, TO

NEVER = (BEHIND.name, EDGE.name, SUPPORT.name)  # what no install says: it is found at the vehicle
_SYSTEM, _SECTION = "system", "section"
_SIDE, _CORNER = "side", "corner"


def started(job: Job, wanted: Iterable[Wanted | WantedItem], tables: Tables) -> Job:
    """The job with all that is wanted, in the order in which it is said, and the runs of cable that it lacks then.

    A job that has its power cable already gets the runs of what is added to it.
    """
    said, before = tuple(wanted), {same_name(mount.name) for mount in job.mounts}
    cabled = [row.install for row in installs_of(job, tables)] if job.runs else []
    for one in said:
        if isinstance(one, WantedItem):
            job = _with_item(job, one)
            continue
        for place in _instances(one):
            job = _with_install(job, one, place, tables)
    asked = [one.install.install for one in said if isinstance(one, Wanted) and not one.only]
    for install in dict.fromkeys((*asked, *cabled)):
        job = _with_cable(job, tables, install, before if install not in asked else set())
    return job


def installs_of(job: Job, tables: Tables) -> tuple[Install, ...]:
    """The installs that mount points of the job are of, in the order of the table."""
    there = {mount.install for mount in job.mounts}
    return tuple(row for row in tables.rows(INSTALLS) if row.install in there)


def install_named(name: str, job: Job, tables: Tables) -> Install | None:
    """The install of the job that a name means: its key, its title or one of its words."""
    wanted = folded(name)
    for row in installs_of(job, tables):
        if wanted in {folded(text) for text in (row.install, row.title, *row.said_as)}:
            return row
    return None


def unconfirmed(job: Job) -> tuple[Mount, ...]:
    """The mount points whose substrate is only proposed; what is left out needs none."""
    return tuple(mount for mount in job.mounts if proposed_onto(mount) and left_out(mount, job) is None)


def with_onto_confirmed(job: Job, install: str = "") -> Job:
    """The job with what its mount points are fastened to confirmed: of one install, or of all."""
    mounts = tuple(
        confirmed(mount, (ONTO.name,)) if not install or mount.install == install else mount for mount in job.mounts
    )
    return replace(job, mounts=mounts)


def _with_item(job: Job, one: WantedItem) -> Job:
    """The job with an item by itself, each of several under a name that is free."""
    for place in one.places:
        name = free_name(job, called(words(one.item).replace("-", " "), place, "", ""))
        job = replace(job, mounts=(*job.mounts, Mount(name, ((ITEM.name, one.item),))))
    return job


# -- one install ------------------------------------------------------------------------------------------------------


def _instances(one: Wanted) -> Iterator[str]:
    """What tells each of several apart: the places that the install has, then a number."""
    if one.count == 1:
        yield one.place
        return
    for number in range(1, one.count + 1):
        yield one.install.places[number - 1] if number <= len(one.install.places) else str(number)


def _with_install(job: Job, one: Wanted, place: str, tables: Tables) -> Job:
    """The job with one install at its place, each mount point under a name that is free."""
    by_name: dict[str, str] = {}  # the names that they got, by those that they were to have
    made: dict[str, str] = {}  # the names that its mount points go by, by those of the table
    for row in tables.rows(INSTALL_MOUNTS):
        if row.install != one.install.install or (one.only and row.mount != one.only):
            continue
        twin = free_twin(job, called(row.mount, place, "", ""))
        for name in _names(row, one, place):
            mount = _mount(row, free_name(job, name), _boards(job, made), twin if _is_twin(one.install, row) else "")
            made.setdefault(row.mount, mount.name)
            by_name[name] = mount.name
            job = replace(job, mounts=(*job.mounts, mount))
    return _with_order(job, one, place, by_name, tables)


def _with_order(job: Job, one: Wanted, place: str, by_name: dict[str, str], tables: Tables) -> Job:
    """The job with what comes off first named where the install says so: a driver before the adapter that it is on."""
    rows = {row.mount: row for row in tables.rows(INSTALL_MOUNTS) if row.install == one.install.install}
    over = {
        by_name[name]: by_name[first]
        for row in rows.values() if row.under
        for name, first in zip(_names(row, one, place), _names(rows[row.under], one, place), strict=False)
        if name in by_name and first in by_name
    }  # fmt: skip
    mounts = (replace(mount, covered_by=(over[mount.name],)) if mount.name in over else mount for mount in job.mounts)
    return replace(job, mounts=tuple(mounts))


def _is_twin(install: Install, row: InstallMount) -> bool:
    return (install.twin == _SIDE and "{side}" in row.mount) or (install.twin == _CORNER and row.count > 1)


def _names(row: InstallMount, one: Wanted, place: str) -> Iterator[str]:
    count = dict(one.counts).get(row.mount, 1 if one.only else row.count)
    sides = SIDES if "{side}" in row.mount else ("",)
    for side in sides:
        for number in range(1, count + 1):
            yield called(row.mount, place, side, str(number) if count > 1 else "")


def called(pattern: str, place: str, side: str, number: str) -> str:
    """The name of a mount point: its place before it, or its number behind."""
    filled = " ".join(pattern.replace("{side}", side).replace("{n}", number).split())
    return f"{filled} {place}" if place.isdecimal() else f"{place} {filled}".strip()


def _boards(job: Job, made: dict[str, str]) -> dict[str, str]:
    """What something may stand on, by what the table calls it: what was made with it, else what the job has."""
    return {mount.name: mount.name for mount in job.mounts} | made


def _mount(row: InstallMount, name: str, made: dict[str, str], twin: str) -> Mount:
    fields = {ITEM.name: row.mounted, ONTO.name: row.onto, REMOVED.name: row.removed, **said_of(row.said)}
    if BOARD.name in fields:
        board = made.get(fields.pop(BOARD.name), "")
        fields |= {BOARD.name: board} if board else {}  # there is none to stand on: it is asked
    said = tuple((field, fields[field]) for field in NAMES if field in fields)
    preset = tuple(field for field, _ in said if field not in (ITEM.name, BOARD.name))
    return Mount(name, said, note=row.note, preset=preset, install=row.install, twin=twin)


def free_twin(job: Job, wanted: str) -> str:
    """What twins are linked by: the name wanted, or the same with the first number that no others are linked by."""
    taken = {same_name(mount.twin) for mount in job.mounts}
    names = (wanted, *(f"{wanted} {number}" for number in range(2, len(taken) + 3)))
    return next(name for name in names if same_name(name) not in taken)


# -- its cable --------------------------------------------------------------------------------------------------------


def _with_cable(job: Job, tables: Tables, install: str, before: set[str]) -> Job:
    """The job with what an install says of its cable, and the runs it lacks but for those of mount points `before`."""
    rows = [row for row in tables.rows(INSTALL_RUNS) if row.install == install]
    if not rows:
        return job
    for row in rows:
        job = _with_system(job, row) if row.of == _SYSTEM else job
    job, taken = _with_runs(job, tables, before)
    for row in rows:
        job = _with_section(job, row, taken) if row.of == _SECTION else job
    return job


def _with_system(job: Job, row: InstallRun) -> Job:
    """The job with what the row says of its vehicle, where nothing is said of it yet."""
    there = dict(job.electrics)
    more = {name: text for name, text in said_of(row.said).items() if name not in there}
    return replace(job, electrics=tuple((there | more).items()), preset=(*job.preset, *more))


def _with_runs(job: Job, tables: Tables, old: set[str]) -> tuple[Job, dict[str, str]]:
    """The job with the runs that are lacking but for those of `old` mount points, and the names of these."""
    before = {same_name(run.name) for run in job.runs}
    lacking = tuple(one for one in proposals(job, run_choices(job, tables), tables) if not one.asks)
    new = {same_name(mount.name) for mount in job.mounts} - old
    fed = {same_name(mount.name) for one in lacking if _ends_at(one.run, new) for mount in one.mounts}
    for one in lacking:
        if named(job, one.run.name) is not None or same_name(one.run.name) in before:
            continue
        if old and not _ends_at(one.run, new) and same_name(dict(one.run.said)[TO.name]) not in fed:
            continue
        preset = replace(one.run, preset=tuple(name for name, _ in one.run.said))
        job = with_its_mounts(job, one)
        job = replace(job, runs=(*job.runs, preset))
    return job, {same_name(run.name): run.name for run in job.runs if same_name(run.name) not in before}


def _ends_at(run: CableRun, names: set[str]) -> bool:
    """Whether a run feeds or leaves one of these mount points."""
    said = dict(run.said)
    return any(same_name(said.get(end, "")) in names for end in (FROM.name, TO.name))


def _with_section(job: Job, row: InstallRun, taken: dict[str, str]) -> Job:
    """The job with the section, which the runs from the battery go through that its row names by their ends."""
    ends = tuple(f" {end}" for end in row.takes)
    through = {
        run.name for run in job.runs
        if same_name(run.name) in taken and run.name.endswith(ends) and named(job, dict(run.said)[FROM.name]) is None
    }  # fmt: skip
    there = next((way for way in job.sections if same_name(way.name) == same_name(row.called)), None)
    if there is None:
        said = tuple(said_of(row.said).items())
        there = Recorded(row.called, said, preset=tuple(name for name, _ in said))
        job = replace(job, sections=(*job.sections, there))
    runs = tuple(replace(run, sections=(*run.sections, there.name)) if run.name in through else run for run in job.runs)
    return replace(job, runs=runs)


def check_new(job: Job, *, add: bool) -> None:
    """Raises FastenError where a job is there already and nobody asked to add to it."""
    if job.mounts and not add:
        what = f"the job has {len(job.mounts)} mount points already, nothing was added"
        raise FastenError(what, where="add", fix="add --add, or name another file")
