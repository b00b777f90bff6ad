"""What each run of a job gets: its load and ends from what is at them, its size among all runs, and its plan."""

from collections.abc import Iterator, Mapping
from functools import cached_property, lru_cache

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.bulkhead import Bay
from fasten.job.wiring.holders import holders_of
from fasten.job.wiring.leads import plugged
from fasten.job.wiring.measured import with_cable
from fasten.job.wiring.outputs import load_of_lead, outputs_at
from fasten.job.wiring.studs import with_studs
from fasten.job.wiring.terminals import Place, as_said, kind_of, said_terminals
from fasten.job.wiring.things import SPEAKERS, things_of
from fasten.job.words import CableRun, Job, Mount, Recorded, Visit
from fasten.model import MountPoint
from fasten.model.plan import Plan
from fasten.question.fields import BATTERY, LUG
from fasten.question.item import item_of
from fasten.question.read import read_question
from fasten.question.resolve import resolve as resolve_mount
from fasten.record import record, replace
from fasten.text.names import either
from fasten.text.shown import shown
from fasten.wiring.accepted import with_accepted as add_accepted
from fasten.wiring.feeding import Leg
from fasten.wiring.fields import CARRIES, FROM, GROUND, LENGTH, NEEDED, TO, read_run
from fasten.wiring.fuse import is_grounded
from fasten.wiring.plan import plan_of
from fasten.wiring.read import read_system, unknown_end
from fasten.wiring.resolve import resolve
from fasten.wiring.sizing import MOST_KEPT, NoSize, Sized, Sizing
from fasten.wiring.system import sized_together
from fasten.wiring.ways import loaded_over_half, read_length_of
from fasten.wiring.wired import Wired, answered
from fasten.wiring.words import (
    BatteryPost,
    DeviceEnd,
    End,
    NamedEnd,
    Pole,
    Question,
    Run,
    RunWhere,
    StudAt,
    StudEnd,
    Unsized,
)

SYSTEM, WHERE = "system", "where"
_LIGHT = {"", *(one.value for one in Unsized)}  # what carries next to nothing is no figure
_BATTERY = "battery "  # how an end at a battery begins
_NO_LOAD = "nothing is said of what it carries"


@record
class RunChoice:
    """A run of a job with what it gets: an answer, or the reason why there is none."""

    run: CableRun
    answer: Wired | None
    reason: str = ""
    built: Visit | None = None
    refused: NoSize | None = None

    @cached_property
    def plan(self) -> Plan | None:
        """The plan of the answer, made when it is first wanted: a list of runs shows none."""
        return None if self.answer is None else plan_of(self.run.name, self.answer)

    @property
    def name(self) -> str:
        """The name of the run."""
        return self.run.name

    @property
    def note(self) -> str:
        """What the user noted of it."""
        return self.run.note

    @property
    def ticked(self) -> tuple[str, ...]:
        """The steps that are done."""
        return self.run.ticked

    @property
    def is_said(self) -> bool:
        """Whether all is said that its cable is sized by."""
        return self.answer is not None or self.refused is not None

    def explained(self, tables: Tables) -> "RunChoice":
        """The same: its reason says all there is."""
        return self


def run_choices(job: Job, tables: Tables) -> tuple[RunChoice, ...]:
    """What every run of the job gets, in the job's order."""
    points, said, things = _Points(job, tables), said_terminals(job, tables), things_of(job)
    legs: dict[str, Leg] = {}
    reasons: dict[str, str] = {}
    for run in job.runs:
        try:
            legs[run.name] = _leg(run, job, points, said, tables)
        except FastenError as error:
            reasons[run.name] = str(error)

    said_of = {run.name: run.said for run in job.runs}

    def together(legs: Mapping[str, Leg]) -> Mapping[str, Sized]:
        return sized_together(
            tuple(legs.values()), tables, things, lambda one: with_cable(one, job.cables, said_of, tables)
        )

    sized = together(legs)
    if (bundled := _bundled(legs, sized, job)) != legs:
        sized = together(bundled)
    sized = _with_holders(sized, job)
    sized = with_studs(sized, tables)
    return tuple(_choice(run, sized.get(run.name), reasons.get(run.name), tables) for run in job.runs)


def _with_holders(sized: Mapping[str, Sized], job: Job) -> dict[str, Sized]:
    """The sizes of the runs, each with the fuse holders of the job that it adopts."""
    found = holders_of(job, {run.name: one for run in job.runs if isinstance(one := sized.get(run.name), Sizing)})
    return {
        name: replace(one, run=replace(one.run, holder_names=found[name]))
        if isinstance(one, Sizing) and name in found else one
        for name, one in sized.items()
    }  # fmt: skip


def _bundled(legs: dict[str, Leg], sized: Mapping[str, Sized], job: Job) -> dict[str, Leg]:
    """The runs with how many well loaded conductors they lie with, in the fullest of their sections."""
    together: dict[str, list[CableRun]] = {}
    for run in job.runs:
        for section in run.sections:
            together.setdefault(same_name(section), []).append(run)
    counts: dict[str, int] = {}
    for runs in together.values():
        got = tuple(one for run in runs if isinstance(one := sized.get(run.name), Sizing))
        counts |= {run.name: max(counts.get(run.name, 1), loaded_over_half(got)) for run in runs}
    return {
        name: Leg(replace(leg.run, bundled=counts[name]), leg.loaded) if counts.get(name, 1) > 1 else leg
        for name, leg in legs.items()
    }  # fmt: skip


def check_run(run: CableRun, job: Job, tables: Tables) -> None:
    """Check that a run can be read as one of this job; raises FastenError, its `where` the field."""
    _leg(run, job, _Points(job, tables), said_terminals(job, tables), tables)


def check_circle(job: Job, name: str, tables: Tables) -> None:
    """Raises FastenError with the names where a run of the job feeds itself through others."""
    refused = named_run(run_choices(job, tables), name).refused
    if refused is not None and refused.in_circle:
        raise FastenError(f"{refused.because}, nothing was saved", where=TO.name, fix=refused.fix)


def answer_of(job: Job, name: str, tables: Tables) -> Wired | NoSize:
    """The answer to one run of a job; raises FastenError where nothing is said of what it carries."""
    one = named_run(run_choices(job, tables), name)
    if one.answer is not None:
        return one.answer
    if one.refused is None:
        raise FastenError(one.reason, where=CARRIES.name, fix="it is kept in the job as it is")
    return one.refused


def with_accepted(job: Job, one: RunChoice, text: str) -> Job:
    """The job with what a text accepts of one run, by ids; raises FastenError where one is not open there."""
    if one.answer is None:
        raise FastenError(f"nothing of {shown(one.name)} can be accepted: {one.reason}", where="accept", fix="")
    accepted = add_accepted(one.run.accepted, text, one.answer.confirms)
    return replace(job, runs=tuple(replace(run, accepted=accepted) if run == one.run else run for run in job.runs))


def named_run(found: tuple[RunChoice, ...], name: str) -> RunChoice:
    """The run of this name, whatever its case; raises FastenError with the names there are."""
    for one in found:
        if same_name(one.name) == same_name(name):
            return one
    fix = f"write {either([one.name for one in found])}" if found else "it has none yet: add one"
    raise FastenError(f"the job has no run {shown(name)}", where="run", fix=fix)


class _Points:
    """The mount points and sections of a job by their names as names are compared, and what is known of its engine bay.

    Each mount point is read when a run first asks for it.
    """

    def __init__(self, job: Job, tables: Tables) -> None:
        self._mounts = {same_name(mount.name): mount for mount in job.mounts}
        self._tables = tables
        self._read: dict[tuple[tuple[str, str], ...], MountPoint | None] = {}  # by what is said of it
        self.bay = Bay(job)
        self._sections = job.sections
        self._places: dict[str, list[int]] = {}
        for place, way in enumerate(job.sections):
            self._places.setdefault(same_name(way.name), []).append(place)

    def mount(self, name: str) -> Mount | None:
        """The mount of a name, where there is one."""
        return self._mounts.get(same_name(name))

    def point(self, name: str) -> MountPoint | None:
        """The mount point of a name; None where there is none, or its question cannot be read."""
        mount = self.mount(name)
        if mount is None:
            return None
        if mount.said not in self._read:
            self._read[mount.said] = point_of(mount, self._tables)
        return self._read[mount.said]

    def sections(self, run: CableRun) -> tuple[Recorded, ...]:
        """The sections that a run goes through, in the job's order."""
        places = {place for name in run.sections for place in self._places.get(same_name(name), ())}
        return tuple(self._sections[place] for place in sorted(places))


def point_of(mount: Mount, tables: Tables) -> MountPoint | None:
    """The mount point of a question; None where it cannot be read."""
    try:
        return resolve_mount(read_question(dict(mount.said), tables), tables)
    except FastenError:
        return None


def _leg(run: CableRun, job: Job, points: _Points, terminals: Mapping[Place, End], tables: Tables) -> Leg:
    check_ways(run, job)
    said, electrics = dict(run.said), dict(job.electrics)
    system_v = read_system(electrics.get(SYSTEM, "12 V"), SYSTEM)
    asked, kind = _asked(run.said, system_v, tables), kind_of(said)
    (from_, from_name), (to, to_name) = (
        _end(end, Place("", kind, where), job, points, terminals) for where, end in _ends(asked)
    )
    from_, to = (
        _at_battery(end, at, points, field, is_minus=is_grounded(other))
        for end, at, other, field in ((from_, from_name, to, FROM.name), (to, to_name, from_, TO.name))
    )
    load = _load(asked, to_name if not is_grounded(to) else from_name, points)
    if load.carries is None:
        load = replace(load, carries=load_of_lead(run, job, points.point, tables))
    from_, to = plugged(load.carries, from_, to)
    whole = _resolved(replace(load, from_=from_, to=to), tables)
    ends = (from_, from_name), (to, to_name)
    sections, at = points.sections(run), tuple(filter(None, (points.mount(name) for _, name in ends if name)))
    through_bay = _in_engine_bay(sections) and whole.where is not RunWhere.EXHAUST
    from_bay = not through_bay and asked.where is None and points.bay.begins(run, ends, at)
    hot = through_bay or from_bay
    unplaced = () if hot or asked.where is not None else _unplaced(sections)
    named = replace(whole, name=run.name, from_name=from_name, to_name=to_name, unplaced=unplaced,
                    proposed=tuple(_proposed(run)),
                    where=RunWhere.ENGINE_BAY if hot else whole.where,
                    place_assumed=from_bay or (whole.place_assumed and not run.sections),
                    outputs=outputs_at(run, points.point),
                    unpassed=points.bay.is_unpassed(run, sections, ends, at),
                    sections_mm=sum(map(_length_mm, sections)))  # fmt: skip
    return Leg(named, loaded=load.carries is not None)


@lru_cache(MOST_KEPT)
def _asked(said: tuple[tuple[str, str], ...], system_v: int, tables: Tables) -> Question:
    """What was said of a run without a name: of many runs few say something else, and from key to key one does."""
    return read_run(
        dict(said), tables, system_v, needed={field: NEEDED[field] for field in NEEDED if field != CARRIES.name}
    )


@lru_cache(MOST_KEPT)
def _resolved(asked: Question, tables: Tables) -> Run:
    """The same with every gap filled."""
    return resolve(asked, tables)


def _at_battery(end: End, name: str, points: _Points, field: str, *, is_minus: bool) -> End:
    """An end at a battery of the job is at one of its poles, however it was said; raises FastenError for a terminal."""
    mount = points.mount(name)
    if mount is None or item_of(dict(mount.said)) != BATTERY or isinstance(end, DeviceEnd | BatteryPost):
        return end
    if isinstance(end, StudEnd):
        at_pole = end.at is StudAt.BATTERY
        return end if at_pole else replace(end, at=StudAt.BATTERY, pole=Pole.MINUS if is_minus else Pole.PLUS)
    fix = f"write {name}, battery stud M8 or {name}, battery post +"
    raise FastenError(f"{shown(name)} is a battery, which has posts or studs", where=field, fix=fix)


def check_ways(run: CableRun, job: Job) -> None:
    """Raises FastenError where a run goes through a section or hole that the job does not have."""
    for what, named, there in (("section", run.sections, job.sections), ("hole", run.holes, job.holes)):
        if not named:
            continue
        known = {same_name(one.name) for one in there}
        for name in named:
            if same_name(name) not in known:
                have = either([one.name for one in there]) if there else f'add it: fasten set JOB "{what} {name}"'
                fix = f"write {have}" if there else have
                raise FastenError(f"the job has no {what} {shown(name)}", where=f"{what}s", fix=fix)


def _in_engine_bay(sections: tuple[Recorded, ...]) -> bool:
    """Whether one of these sections lies in the engine bay."""
    return any(dict(way.said).get(WHERE) == RunWhere.ENGINE_BAY.value for way in sections)


def _length_mm(way: Recorded) -> float:
    try:
        return read_length_of(dict(way.said), LENGTH.name, LENGTH.name)
    except FastenError:
        return 0.0  # its section says so


def _proposed(run: CableRun) -> Iterator[str]:
    """What of a run decides its sizes or its ends and was only proposed, each with its text."""
    said = {name: text.strip() for name, text in run.said if name in run.preset}
    figures = ((name, said.get(name, "")) for name in (CARRIES.name, FROM.name, LENGTH.name, GROUND.name))
    return (f"{name} {text}" for name, text in figures
            if text not in _LIGHT and (name != FROM.name or text.startswith(_BATTERY)))  # fmt: skip


def _unplaced(sections: tuple[Recorded, ...]) -> tuple[str, ...]:
    """Those of these sections of which it is not said where they lie."""
    return tuple(way.name for way in sections if not dict(way.said).get(WHERE))


def _ends(asked: Question) -> tuple[tuple[str, End], tuple[str, End]]:
    return ("from", asked.from_), ("to", asked.to)


def _end(end: End, at: Place, job: Job, points: _Points, terminals: Mapping[Place, End]) -> tuple[End, str]:
    """What an end is, and the name of what of the job it is at; raises FastenError where the job has no such thing."""
    if not isinstance(end, NamedEnd):
        return end, ""
    mount = points.mount(end.name)
    if mount is None:
        raise unknown_end(end, tuple(mount.name for mount in job.mounts), at.end)
    point = points.point(mount.name)
    if point is not None and point.ring is not None:
        return StudEnd(point.ring, StudAt.BODY), mount.name
    if point is None and item_of(dict(mount.said)) == LUG:
        return StudEnd(None, StudAt.BODY), mount.name  # of a lug that is not asked to its end only the stud is open
    item = item_of(dict(mount.said))
    if item == BATTERY:  # of its two poles neither says how the other takes a cable
        return end.terminal or DeviceEnd(mount.name, battery=True), mount.name
    said = end.terminal or as_said(replace(at, name=same_name(mount.name)), terminals)
    return said or DeviceEnd(mount.name, speaker=item in SPEAKERS), mount.name


def _load(asked: Question, at: str, points: _Points) -> Question:
    """The question with the load of the item that it feeds, where it says none of its own."""
    point = points.point(at) if at else None
    if asked.carries is not None or point is None or point.power is None:
        return asked
    return replace(asked, carries=point.power, own_fuses=asked.own_fuses or point.own_fuses)


def _choice(run: CableRun, sized: Sized | None, reason: str | None, tables: Tables) -> RunChoice:
    if sized is None:
        fix = "give the power of the item it feeds, or what it carries"
        return RunChoice(run, None, reason or f"{_NO_LOAD}: {fix}")
    if isinstance(sized, NoSize):
        return RunChoice(run, None, f"{sized.because}: {sized.fix}", refused=sized)
    return RunChoice(run, answered(sized, tables, run.accepted))
