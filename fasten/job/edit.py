"""Small changes to a job: each gives a new job and leaves the old one as it was."""

from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.store.runs_toml import RUN
from fasten.job.words import CableRun, Cover, Job, Mount
from fasten.question.fields import BOARD
from fasten.record import replace
from fasten.text.shown import shown
from fasten.wiring.fields import FROM, LENGTH, TO

MEASURE = "length proposed: measure it"  # the note of a run as long as its length is only proposed
_LISTED = 5


def check_no_cable(job: Job, name: str) -> None:
    """Raises FastenError with where to write it where what was built is said of a run, hole or section."""
    wanted = same_name(name)
    names = (*(run.name for run in job.runs), *(way.name for way in (*job.holes, *job.sections)))
    found = next((one for one in names if same_name(one) == wanted), None)
    if found is None or any(same_name(mount.name) == wanted for mount in job.mounts):
        return
    fix = f'write it there: fasten set JOB {shown(found)} note="190 mV at 60 A"'
    raise FastenError(f"what was measured of {shown(found)} goes in its note: it is cable", where="name", fix=fix)


def find_mount(job: Job, name: str) -> Mount:
    """The mount point of this name, whatever its case; raises FastenError with the nearest names."""
    return job.mounts[_index(job, name)]


def named(job: Job, name: str) -> Mount | None:
    """The mount point of this name, whatever its case; None where there is none."""
    return next((mount for mount in job.mounts if same_name(mount.name) == same_name(name)), None)


def free_name(job: Job, wanted: str) -> str:
    """The name wanted, or the same with the first number that no mount point, cover or run of the job has."""
    there: tuple[Mount | Cover | CableRun, ...] = (*job.mounts, *job.covers, *job.runs)
    taken = {same_name(one.name) for one in there}
    names = (wanted, *(f"{wanted} {number}" for number in range(2, len(taken) + 3)))
    return next(name for name in names if same_name(name) not in taken)


def cover_named(job: Job, name: str) -> Cover | None:
    """The cover of the car of this name, whatever its case; None where there is none."""
    return next((cover for cover in job.covers if same_name(cover.name) == same_name(name)), None)


def with_mount(job: Job, mount: Mount, *, instead_of: str | None = None) -> Job:
    """The job with one more mount point at its end, or with it `instead_of` the one of that name, in its place.

    The runs that end at that one end at it by its new name, and what is on its board names it so.

    Raises: FastenError if another mount point has its name, or there is none to replace.
    """
    at = len(job.mounts) if instead_of is None else _index(job, instead_of)
    others = job.mounts[:at] + job.mounts[at + 1 :]
    if any(same_name(other.name) == same_name(mount.name) for other in others):
        what = f"the job has a mount point {shown(mount.name)} already"
        raise FastenError(what, where="name", fix="give this one another name")
    runs = job.runs if instead_of is None else tuple(_ending_at(run, instead_of, mount.name) for run in job.runs)
    kept = others if instead_of is None else tuple(_standing_on(other, instead_of, mount.name) for other in others)
    kept = kept if instead_of is None else tuple(_under(other, instead_of, mount.name) for other in kept)
    return replace(job, mounts=(*kept[:at], mount, *kept[at:]), runs=runs)


def _standing_on(mount: Mount, old: str, new: str) -> Mount:
    """The mount point on the board of the old name, if it is on that, by its new name."""
    if old == new or same_name(dict(mount.said).get(BOARD.name, "")) != same_name(old):
        return mount
    return replace(mount, said=tuple((field, new if field == BOARD.name else text) for field, text in mount.said))


def _under(mount: Mount, old: str, *new: str) -> Mount:
    """The mount point under what has the old name by its new one, or under nothing in its place."""
    if not any(same_name(name) == same_name(old) for name in mount.covered_by):
        return mount
    named_now = (new if same_name(name) == same_name(old) else (name,) for name in mount.covered_by)
    return replace(mount, covered_by=tuple(name for names in named_now for name in names))


def renamed_cover(job: Job, cover: Cover, new: str) -> Job:
    """The job with a cover of the car under another name, by which what is under it names it.

    Raises: FastenError where the name is empty or taken.
    """
    if not new.strip():
        raise FastenError("the cover has no name", where="name", fix="write one, such as door card")
    taken = (*(one.name for one in job.mounts), *(one.name for one in job.covers if one is not cover))
    if same_name(new) in map(same_name, taken):
        raise FastenError(f"the job has {shown(new)} already", where="name", fix="give the cover another name")
    covers = tuple(replace(one, name=new.strip()) if one is cover else one for one in job.covers)
    return replace(job, covers=covers, mounts=tuple(_under(one, cover.name, new.strip()) for one in job.mounts))


def without_cover(job: Job, cover: Cover) -> Job:
    """The job without a cover of the car; nothing is under it any more."""
    covers = tuple(one for one in job.covers if one is not cover)
    return replace(job, covers=covers, mounts=tuple(_under(one, cover.name) for one in job.mounts))


def _ending_at(run: CableRun, old: str, new: str) -> CableRun:
    """The run with its ends at the old name at the new one; what is said of the terminal there stays."""
    if old == new:
        return run
    return replace(run, said=tuple((field, _renamed(text, old, new, field)) for field, text in run.said))


def _renamed(text: str, old: str, new: str, field: str) -> str:
    name, comma, terminal = text.partition(",")
    is_it = field in (FROM.name, TO.name) and same_name(name) == same_name(old)
    return f"{new}{comma}{terminal}" if is_it else text


def with_run(job: Job, run: CableRun, *, replace_it: bool = False) -> Job:
    """The job with one more run at its end, or with it in the place of the run of its name, whose note stays.

    Raises: FastenError if a run has its name and is not to be replaced, or a mount point has it.
    """
    at = next((at for at, other in enumerate(job.runs) if same_name(other.name) == same_name(run.name)), None)
    if named(job, run.name) is not None:
        what = f"the job has a mount point {shown(run.name)} already"
        raise FastenError(what, where="name", fix="give the run another name")
    if at is None:
        return replace(job, runs=(*job.runs, run))
    if not replace_it:
        what = f"the job has a run {shown(run.name)} already, nothing was saved"
        raise FastenError(what, where="name", fix="give another name, or add --replace to ask anew for this one")
    was = job.runs[at]
    asked = noted(replace(was, said=run.said, preset=run.preset))
    return replace(job, runs=(*job.runs[:at], asked, *job.runs[at + 1 :]))


def changed_run(job: Job, name: str, run: CableRun) -> Job:
    """The job with a run as it is now, in its place; raises FastenError where there is none of this name."""
    at = run_index(job, name)
    return replace(job, runs=(*job.runs[:at], noted(run), *job.runs[at + 1 :]))


def noted(run: CableRun) -> CableRun:
    """The run without the note that its length is proposed, once it is not."""
    return replace(run, note="") if run.note == MEASURE and LENGTH.name not in run.preset else run


def renamed_run(job: Job, name: str, new: str, note: str) -> Job:
    """The job with another name and note of a run; raises FastenError where the name is empty or taken."""
    at = run_index(job, name)
    run = replace(job.runs[at], name=new.strip(), note=note.strip())
    others = replace(job, runs=job.runs[:at] + job.runs[at + 1 :])
    if not run.name:
        raise FastenError("the run has no name", where="name", fix="write one, such as main power")
    with_run(others, run)  # the name is free
    return changed_run(job, name, run)


def without_run(job: Job, name: str) -> Job:
    """The job without the run of this name; raises FastenError where there is none."""
    at = run_index(job, name)
    return replace(job, runs=job.runs[:at] + job.runs[at + 1 :])


def run_index(job: Job, name: str) -> int:
    """The place of the run of this name, whatever its case; raises FastenError where there is none."""
    wanted = same_name(name)
    found = next((at for at, run in enumerate(job.runs) if same_name(run.name) == wanted), None)
    if found is None:
        raise FastenError(f"the job has no run {shown(name)}", where=RUN, fix="look at its runs as they are now")
    return found


def without_mount(job: Job, name: str) -> Job:
    """The job without the mount point of this name, and nothing under it; raises FastenError with the nearest names."""
    at = _index(job, name)
    left = job.mounts[:at] + job.mounts[at + 1 :]
    return replace(job, mounts=tuple(_under(mount, name) for mount in left))


def _index(job: Job, name: str) -> int:
    wanted = same_name(name)
    found = next((at for at, mount in enumerate(job.mounts) if same_name(mount.name) == wanted), None)
    if found is None:
        raise FastenError(f"the job has no mount point {shown(name)}", where="name", fix=_nearest(job, wanted))
    return found


def _nearest(job: Job, wanted: str) -> str:
    from difflib import get_close_matches

    names = {same_name(mount.name): shown(mount.name) for mount in job.mounts}
    if not names:
        return "it has none yet: add one"
    if close := get_close_matches(wanted[:100], names, n=3):
        return f"did you mean {' or '.join(names[name] for name in close)}?"
    listed = ", ".join(list(names.values())[:_LISTED])
    return f"it has {listed}" + (f" and {len(names) - _LISTED} more" if len(names) > _LISTED else "")
