"""What each section and hole of a job gets, from the runs that go through it."""

from collections.abc import Callable, Iterable, Iterator, Mapping

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.choices import Choice
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.runs import WHERE, RunChoice, point_of
from fasten.job.words import CableRun, Job, Mount, Recorded, Visit
from fasten.model import Check, MountPoint, end_kinds
from fasten.model.plan import PartNeed, Plan
from fasten.question.fields import CLAMP, RUN
from fasten.question.item import item_of
from fasten.record import record, replace
from fasten.text.names import folded
from fasten.text.shown import shown
from fasten.wiring.accepted import OUTSIDE, Confirm
from fasten.wiring.fields import LENGTH
from fasten.wiring.holes import hole_plan, inside_mm
from fasten.wiring.passing import Passage
from fasten.wiring.sizing import Sizing
from fasten.wiring.way_accepted import still_open, way_confirms, with_accepted
from fasten.wiring.ways import Lies, section_plan, too_short
from fasten.wiring.wired import Wired

NOTE = "note"
UNSIZED_CLAMP = "wire clamp"  # among the consumables of a mount point


@record
class WayChoice:
    """A section or hole of a job with what it gets: a plan, or the reason why there is none.

    `confirms` is what of it can be accepted, `runs` are those that go through it; `inside_mm` is how wide a hole is
    inside its grommet, None where that is not known.
    """

    way: Recorded
    plan: Plan | None
    reason: str = ""
    built: Visit | None = None
    confirms: tuple[Confirm, ...] = ()
    is_hole: bool = False
    runs: tuple[str, ...] = ()
    inside_mm: float | None = None

    @property
    def name(self) -> str:
        """The name of the section or hole."""
        return self.way.name

    @property
    def ticked(self) -> tuple[str, ...]:
        """The steps that are done."""
        return self.way.ticked

    @property
    def note(self) -> str:
        """What the user noted of it."""
        return dict(self.way.said).get(NOTE, "")

    @property
    def is_said(self) -> bool:
        """Whether all is said of it that its plan needs."""
        return self.plan is not None

    def explained(self, tables: Tables) -> "WayChoice":
        """The same: its reason says all there is."""
        return self


def way_choices(job: Job, found: tuple[RunChoice, ...], tables: Tables) -> tuple[WayChoice, ...]:
    """What every section and hole of the job gets, in the job's order."""
    seen = frozenset(one.name for one in found if one.answer is not None and _is_outside_seen(one.answer))

    def section(way: Recorded, runs: tuple[Sizing, ...]) -> Plan:
        plan = section_plan(way.name, dict(way.said), runs, clamps=_clamps(way, job, tables), tables=tables, seen=seen)
        return replace(plan, checks=(*plan.checks, *_too_short(way, job, tables)))

    def hole(way: Recorded, runs: tuple[Sizing, ...]) -> Plan:
        return hole_plan(way.name, dict(way.said), runs, tables, seen)

    lying, passing = _by_way(found, lambda run: run.sections), _by_way(found, lambda run: run.holes)
    sections = (
        _without_clamps(_choice(way, _through(there), section, _without(there), is_hole=False), job)
        for way in job.sections for there in (lying.get(same_name(way.name), ()),)
    )  # fmt: skip
    holes = (
        replace(
            _choice(way, through := _through(there), hole, _without(there), is_hole=True),
            inside_mm=inside_mm(dict(way.said), through, tables, seen),
        )
        for way in job.holes for there in (passing.get(same_name(way.name), ()),)
    )  # fmt: skip
    return (*sections, *holes)


def _by_way(found: Iterable[RunChoice], ways: Callable[[CableRun], tuple[str, ...]]) -> Mapping[str, list[RunChoice]]:
    """The runs that name each section or hole, by its name as names are compared."""
    there: dict[str, list[RunChoice]] = {}
    for one in found:
        for name in dict.fromkeys(map(same_name, ways(one.run))):
            there.setdefault(name, []).append(one)
    return there


def named_way(ways: tuple[WayChoice, ...], name: str) -> WayChoice | None:
    """The section or hole of this name, whatever its case; None where there is none."""
    return next((way for way in ways if same_name(way.name) == same_name(name)), None)


def ways_of(run: CableRun, ways: tuple[WayChoice, ...]) -> tuple[WayChoice, ...]:
    """The sections and holes that a run names, in their order."""
    names = {same_name(name) for name in (*run.sections, *run.holes)}
    return tuple(way for way in ways if same_name(way.name) in names)


def with_holes(found: tuple[RunChoice, ...], ways: tuple[WayChoice, ...]) -> tuple[RunChoice, ...]:
    """The runs with the holes that they go through, which their work is done in the order of."""
    holes = {same_name(way.name): Passage(way.name, way.inside_mm) for way in ways if way.is_hole}
    return tuple(_with_holes(one, holes) for one in found)


def _with_holes(one: RunChoice, holes: Mapping[str, Passage]) -> RunChoice:
    named = tuple(holes[same_name(name)] for name in one.run.holes if same_name(name) in holes)
    if one.answer is None or not named:
        return one
    return replace(one, answer=replace(one.answer, done=replace(one.answer.done, through=named)))


def _is_outside_seen(answer: Wired) -> bool:
    """Whether the user saw that the cable of a run is no thicker than it is sold."""
    return any(one.accepted and one.check == OUTSIDE for one in answer.confirms)


def _choice(
    way: Recorded,
    runs: tuple[Sizing, ...],
    made: Callable[[Recorded, tuple[Sizing, ...]], Plan],
    without: tuple[str, ...],
    *,
    is_hole: bool,
) -> WayChoice:
    names = tuple(one.run.name for one in runs)
    try:
        plan = made(way, runs)
    except FastenError as error:
        return WayChoice(way, None, str(error), runs=names, is_hole=is_hole)
    plan = replace(plan, checks=(*plan.checks, *still_open(without, _proposed(way))))
    confirms = way_confirms(plan, way.accepted)
    return WayChoice(way, with_accepted(plan, confirms), confirms=confirms, runs=names, is_hole=is_hole)


def _without(there: Iterable[RunChoice]) -> tuple[str, ...]:
    """The runs of a section or hole that have no answer, so that it is not known how thick they are."""
    return tuple(one.name for one in there if one.answer is None)


def _proposed(way: Recorded) -> str:
    """What of a section or hole was only proposed."""
    return ", ".join(f"{name} {text}" for name, text in way.said if name in way.preset)


def _through(there: Iterable[RunChoice]) -> tuple[Sizing, ...]:
    """The sizes of the runs of a section or hole, those without an answer left out."""
    answered = ((one.name, one.answer.sizing) for one in there if one.answer is not None)
    return tuple(replace(sizing, run=replace(sizing.run, name=name)) for name, sizing in answered)


def _clamps(way: Recorded, job: Job, tables: Tables) -> int | None:
    """How many clamps of a section mount points of the job have; None where none has any."""
    found = _clamp_points(way, job, tables)
    return sum(1 if point is None else point.fixings for point in found) if found else None


def _clamp_points(way: Recorded, job: Job, tables: Tables) -> list[MountPoint | None]:
    """The mount points that have the clamps of a section; None for one that cannot be read."""
    return [point_of(with_run_of_section(mount, job), tables) for mount in _clamp_mounts(way, job)]


def _too_short(way: Recorded, job: Job, tables: Tables) -> tuple[Check, ...]:
    """That the clamps of a section are for less cable than lies in it."""
    lengths = [None if point is None else point.run_mm for point in _clamp_points(way, job, tables)]
    known = [length for length in lengths if length is not None]
    if _is_tied(way) or not lengths or len(known) < len(lengths):
        return ()
    names = tuple(mount.name for mount in _clamp_mounts(way, job))
    return too_short(dict(way.said), names, sum(known))


def _clamp_mounts(way: Recorded, job: Job) -> Iterator[Mount]:
    """The mount points that have the clamps of a section."""
    return (mount for mount in job.of_item.get(CLAMP, ()) if _is_called_by(mount, way))


def _sections_of(mount: Mount, job: Job) -> Iterator[Recorded]:
    """The sections that a mount point has the clamps of."""
    is_clamp = item_of(dict(mount.said)) == CLAMP
    return (way for way in job.sections if _is_called_by(mount, way)) if is_clamp else iter(())


def _is_called_by(clamps: Mount, way: Recorded) -> bool:
    """Whether wire clamps go by the name of a section."""
    return same_name(way.name) in same_name(clamps.name)


def left_out(mount: Mount, job: Job) -> Recorded | None:
    """The section of a mount point whose clamps are not drilled: ties hold its cable; what is begun stays."""
    is_begun = mount.built is not None or mount.ticked != () or mount.repairs != ()
    return None if is_begun else next(filter(_is_tied, _sections_of(mount, job)), None)


def left_out_at(name: str) -> FastenError:
    """The error of what is asked of a mount point that is left out."""
    what = f"{shown(name)} is left out: in a channel ties hold the cable"
    return FastenError(what, where="mount", fix="look at its section, or say that this lies elsewhere")


def _is_tied(way: Recorded) -> bool:
    return folded(dict(way.said).get(WHERE, "")) == Lies.CHANNEL.value


def _without_clamps(found: WayChoice, job: Job) -> WayChoice:
    """The same, which says of the clamps that its section has and does not need that they are left out."""
    names = [mount.name for mount in _clamp_mounts(found.way, job) if left_out(mount, job) == found.way]
    if found.plan is None or not names:
        return found
    said = f"{', '.join(names)} {'is' if len(names) == 1 else 'are'} left out: in a channel ties hold the cable"
    return replace(found, plan=replace(found.plan, remarks=(*found.plan.remarks, f"{said}, and no clamp is drilled")))


def with_clamps_of_sections(mounts: tuple[Choice, ...], ways: tuple[WayChoice, ...], job: Job) -> tuple[Choice, ...]:
    """The mount points without those that ties replace, and without the clamps that a section lists by its bundle."""
    sized = {way.way for way in ways if way.plan is not None and any(map(_is_clamp, way.plan.parts))}
    kept = (one for one in mounts if left_out(one.mount, job) is None)
    return tuple(one if sized.isdisjoint(_sections_of(one.mount, job)) else _sized(one) for one in kept)


def with_run_of_section(mount: Mount, job: Job) -> Mount:
    """The wire clamps of a section with its length as their run of cable, where the user gave none of their own."""
    way = next(_sections_of(mount, job), None)
    length = "" if way is None else dict(way.said).get(LENGTH.name, "")
    if way is None or not length or RUN.name not in mount.preset:
        return mount
    said = tuple((name, length if name == RUN.name else text) for name, text in mount.said)
    preset = tuple(name for name in mount.preset if name != RUN.name or LENGTH.name in way.preset)
    return replace(mount, said=said, preset=preset)


def _is_clamp(need: PartNeed) -> bool:
    return need.id.key == end_kinds.LINED_CLAMP.key


def _sized(one: Choice) -> Choice:
    plan = one.plan
    if plan is None:
        return one
    kept = tuple(need for need in plan.consumables if need.id.key != UNSIZED_CLAMP)
    return replace(one, plan=replace(plan, consumables=kept))
