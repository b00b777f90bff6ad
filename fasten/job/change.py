"""What can be changed of a job by name: fields, names, order, what is held, ticks, its head. Each gives a new job."""

from collections.abc import Iterator, Mapping

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.covered import with_cover, with_covered_by
from fasten.job.edit import (
    cover_named,
    find_mount,
    named,
    noted,
    renamed_cover,
    renamed_run,
    with_mount,
    without_cover,
    without_mount,
    without_run,
)
from fasten.job.preset import confirmed, on_its_place, with_said
from fasten.job.start.same import asks_both, on_twins
from fasten.job.store.covers_toml import COVER, COVER_KEYS, COVERED_BY, check_covers, cover_said
from fasten.job.store.job_toml import check_mount, same_name
from fasten.job.store.runs_toml import ELECTRICS, check_runs
from fasten.job.wiring.recorded import check_electrics, check_end, find_recorded, with_name, without
from fasten.job.wiring.runs import check_run, check_ways
from fasten.job.words import CableRun, Cover, Job, Mount
from fasten.question.fields import BOARD, NAMES, field_named
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.record import record, replace
from fasten.text.letters import one_name
from fasten.text.names import either, unknown
from fasten.text.shown import shown
from fasten.wiring.fields import FROM, TO
from fasten.wiring.fields import NAMES as RUN_NAMES

HEAD = ("title", "vehicle", "note")
NOTE = "note"
_DIGITS = 6
_WAYS = ("sections", "holes")


def read_settings(words: list[str]) -> dict[str, str]:
    """What words such as `mass=6kg` set; raises FastenError for one without an equals sign, or set twice."""
    found: dict[str, str] = {}
    for word in words:
        name, is_set, text = word.partition("=")
        name = name.strip().removeprefix("--")
        if not is_set or not name:
            fix = "write a field and its value, such as mass=6kg; nothing after = takes it away"
            raise FastenError(f"{shown(word)} sets nothing", where="set", fix=fix)
        if name in found:
            raise FastenError(f"{name} is set twice", where="set", fix="write it once")
        found[name] = text.strip()
    return found


def with_head(job: Job, settings: Mapping[str, str], tables: Tables) -> Job:
    """The job with its title, vehicle or note, or what is said of the wiring of its vehicle; raises FastenError."""
    for name in settings:
        if name not in (*HEAD, *ELECTRICS):
            raise unknown(name, "an entry of a job", (*HEAD, *ELECTRICS), "set")
    wiring = {name: text for name, text in settings.items() if name in ELECTRICS}
    check_electrics({name: text for name, text in wiring.items() if text}, job, tables)
    electrics = dict(job.electrics) | wiring
    kept = tuple((name, text) for name, text in electrics.items() if text)
    preset = tuple(name for name in job.preset if name not in settings)
    title, vehicle = settings.get("title", job.title), settings.get("vehicle", job.vehicle)
    return replace(job, title=title, vehicle=vehicle, note=settings.get(NOTE, job.note), electrics=kept, preset=preset)


@record
class Changed:
    """A job after a change: the mount point as it was and is, and the twins that were changed with it."""

    job: Job
    was: Mount
    now: Mount
    also: tuple[str, ...]


def with_fields(job: Job, name: str, settings: Mapping[str, str], tables: Tables, both: bool | None) -> Changed:
    """The job with these fields of a mount point set, and its twins' where `both` says so.

    Raises: FastenError if a field or what it is set to is not known, or a twin is there and it is not given whether
    it is the same there.
    """
    was = find_mount(job, name)
    covered_by = _names(settings, COVERED_BY, was.covered_by)
    now = replace(with_said(was, _said(was, settings)), note=settings.get(NOTE, was.note), covered_by=covered_by)
    now = on_its_place(was, confirmed(now, settings), settings, tables)
    now = replace(now, pin=was.pin if now.said == was.said else None)
    _check(now, was, tables)
    alike = asks_both(job, was, now)
    if alike and both is None:
        others = either([shown(one.name) for one in alike]).replace(" or ", " and ")
        what = f"{others} {'is' if len(alike) == 1 else 'are'} alike, and whether it is the same there is not said"
        raise FastenError(what, where="both", fix="add --both, or --only for this one")
    changed = on_twins(job, was, now) if both else job
    also = tuple(one.name for one in alike) if both else ()
    done = with_mount(changed, now, instead_of=was.name)
    if COVERED_BY in settings:
        return Changed(with_covered_by(done, now.name, covered_by), was, now, also)
    check_covers(done, "")
    return Changed(done, was, now, also)


def _said(mount: Mount, settings: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    said = dict(mount.said)
    for name, text in settings.items():
        if name not in (NOTE, COVERED_BY):
            said[field_named(name).name] = text
    return tuple((name, said[name]) for name in NAMES if said.get(name))


def _check(now: Mount, was: Mount, tables: Tables) -> None:
    """Raises FastenError where a field cannot be read, or the whole could be answered before and cannot be now."""
    for name, text in now.said:
        if text != dict(was.said).get(name):
            field_named(name).read(text, tables)
    try:
        resolve(read_question(dict(now.said), tables), tables)
    except FastenError:
        if _resolves(was, tables):
            raise
        check_mount(now, tables)


def _resolves(mount: Mount, tables: Tables) -> bool:
    try:
        resolve(read_question(dict(mount.said), tables), tables)
    except FastenError:
        return False
    return True


def find_run(job: Job, name: str) -> CableRun | None:
    """The run of this name, whatever its case; None where there is none."""
    return next((run for run in job.runs if same_name(run.name) == same_name(name)), None)


def with_run_fields(job: Job, run: CableRun, settings: Mapping[str, str], tables: Tables) -> Job:
    """The job with these fields of a run set; raises FastenError where one is not known or cannot be read."""
    said = dict(run.said)
    for name, text in settings.items():
        if name not in (*RUN_NAMES, NOTE, *_WAYS):
            raise unknown(name, "a field of a run", (*RUN_NAMES, NOTE, *_WAYS), "set")
        if name in RUN_NAMES:
            said[name] = text
    now = replace(
        run, said=tuple((name, said[name]) for name in RUN_NAMES if said.get(name)),
        preset=tuple(name for name in run.preset if name not in settings), note=settings.get(NOTE, run.note),
        sections=_names(settings, "sections", run.sections), holes=_names(settings, "holes", run.holes),
    )  # fmt: skip
    if not set(_WAYS).isdisjoint(settings):
        check_ways(now, job)
    now = noted(now)
    changed = replace(job, runs=tuple(now if one is run else one for one in job.runs))
    check_runs(changed, tables, "")
    if any(settings.get(name) for name in RUN_NAMES):
        _check_run(settings, run, now, job, tables)
    return changed


def _check_run(settings: Mapping[str, str], was: CableRun, now: CableRun, job: Job, tables: Tables) -> None:
    """Raises FastenError where an end cannot be read, or the run could be before and cannot be now."""
    for name in (FROM.name, TO.name):
        if settings.get(name):
            check_end(settings[name], job, tables, name)
    try:
        check_run(was, job, tables)
    except FastenError:
        return
    check_run(now, job, tables)


def find_cover(job: Job, text: str) -> Cover | None:
    """The cover of the car that a name is of; said with its table, as in "cover door card", a new one if need be."""
    table, _, rest = text.strip().partition(" ")
    is_said = table.casefold() == COVER and bool(rest.strip())
    found = cover_named(job, text) or (cover_named(job, rest) if is_said else None)
    return Cover(rest.strip()) if found is None and is_said else found


def with_cover_fields(job: Job, cover: Cover, settings: Mapping[str, str], tables: Tables) -> Job:
    """The job with these fields of a cover of the car set, which is added where there is none.

    Raises: FastenError where one is not known or cannot be read.
    """
    for name in settings:
        if name not in COVER_KEYS[1:]:
            raise unknown(name, "a field of a cover", COVER_KEYS[1:], "set")
    whole = job if cover_named(job, cover.name) is not None else replace(job, covers=(*job.covers, cover))
    return with_cover(whole, cover.name, {**cover_said(cover), **settings}, tables)


def _names(settings: Mapping[str, str], name: str, before: tuple[str, ...]) -> tuple[str, ...]:
    """The names that a setting lists with commas, or those before."""
    if name not in settings:
        return before
    return tuple(way.strip() for way in settings[name].split(",") if way.strip())


def renamed(job: Job, name: str, new: str, tables: Tables) -> Job:
    """The job with a mount point, run, section, hole, cable or cover under another name, by which all names it.

    Raises: FastenError if it has none of this name, or the other already.
    """
    new = new.strip()
    run = find_run(job, name) if named(job, name) is None else None
    found = find_recorded(job, name) if run is None and named(job, name) is None else None
    if found is not None:
        return with_name(job, found, new, tables)
    if run is not None:
        return renamed_run(job, run.name, new, run.note)
    if (cover := _cover(job, name)) is not None:
        return renamed_cover(job, cover, new)
    if find_run(job, new) is not None:
        raise FastenError(f"the job has a run {shown(new)} already", where="name", fix="give another name")
    mount = find_mount(job, name)
    return with_mount(job, replace(mount, name=new), instead_of=mount.name)


def read_place(text: str) -> int:
    """A place in the order of a job; raises FastenError where it is no number."""
    if not text.strip().isdecimal() or len(text) > _DIGITS:
        raise FastenError(f"{shown(text)} is no place", where="place", fix="write a number, 1 for the first")
    return int(text)


def moved(job: Job, name: str, to: int) -> Job:
    """The job with a mount point at another place of its order, counted from 1; raises FastenError if there is none."""
    mount = find_mount(job, name)
    if not 1 <= to <= len(job.mounts):
        what = f"there is no place {to}: the job has {len(job.mounts)} mount points"
        raise FastenError(what, where="place", fix=f"write 1 to {len(job.mounts)}")
    others = [one for one in job.mounts if one is not mount]
    others.insert(to - 1, mount)
    return replace(job, mounts=tuple(others))


def removed(job: Job, name: str, tables: Tables) -> tuple[Job, tuple[str, ...]]:
    """The job without a mount point, run, section, hole, cable or cover, and a sentence for each thing that named it.

    Raises: FastenError if it has none of this name.
    """
    run = find_run(job, name)
    if named(job, name) is None and run is not None:
        return without_run(job, run.name), ()
    found = find_recorded(job, name) if named(job, name) is None else None
    if found is not None:
        gone, through = without(job, found, tables)
        return gone, tuple(f"{one} goes through it no more" for one in through)
    if (cover := _cover(job, name)) is not None:
        under = (one.name for one in job.under_covers.get(one_name(cover.name), ()))
        return without_cover(job, cover), tuple(f"{one} is under it no more" for one in under)
    left = without_mount(job, name)
    namers = ", ".join(_namers(left, name))
    return left, (f"still named by {namers}",) if namers else ()


def _cover(job: Job, name: str) -> Cover | None:
    """The cover of the car of this name; None where a mount point has it, or there is none."""
    cover = find_cover(job, name) if named(job, name) is None else None
    return cover if cover in job.covers else None


def _namers(job: Job, name: str) -> Iterator[str]:
    ends = (run.name for run in job.runs if same_name(name) in (run.begins_at, run.ends_at))
    on_it = (one.name for one in job.mounts if same_name(dict(one.said).get(BOARD.name, "")) == same_name(name))
    yield from ends
    yield from on_it
