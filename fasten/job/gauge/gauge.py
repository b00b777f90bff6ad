"""The measuring pass of a job: what each mount point needs, then the fewest gauges that serve all of them."""

from collections.abc import Iterable, Iterator, Mapping

from fasten.advice.owned import Owned
from fasten.advice.panel_ways import Feel, Narrow, Way
from fasten.advice.work import title_of
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.boards import context, placed
from fasten.job.entries import with_own_runs
from fasten.job.gauge.first import ROOM, with_room
from fasten.job.gauge.groups import Interval, fewest, serving
from fasten.job.gauge.needs import Need
from fasten.job.gauge.point import SHAKY, Point, examined, stands
from fasten.job.gauge.words import Gauge, Mark, Measured, MeasuringPass, Tool
from fasten.job.wiring.ways import left_out
from fasten.job.words import Job, Mount, Pin
from fasten.model import Asks, Proposal, Status
from fasten.model.check import needed
from fasten.progress import Step, stepped, unseen
from fasten.question.fields import ITEM_HOLE, SUPPORT, field_named
from fasten.record import record, replace
from fasten.text.figures import figure, mm, with_unit

_BOARDS = frozenset({"board", "wood"})
_STEP_MM = 0.1  # between the shank that goes in last and the next


@record
class Within:
    """How much more than it needs a mount point may be asked for, so that one gauge serves several."""

    behind_mm: float
    edge_mm: float
    bay_mm: float


@record
class _Gauges:
    """The sizes that were chosen: of probes, strips, bay strips, and of both shanks."""

    rooms: Mapping[Asks, tuple[float, ...]]
    bays: tuple[float, ...]
    goes: tuple[float, ...]
    stops: tuple[float, ...]


def usual_within(tables: Tables) -> Within:
    """What practice allows."""
    behind, edge, bay = (rule(tables, name).value for name in (Rules.GAUGE_BEHIND, Rules.GAUGE_EDGE, Rules.GAUGE_BAY))
    return Within(behind, edge, bay)


def measuring_pass(
    job: Job, tables: Tables, owned: Owned | None = None, within: Within | None = None, step: Step = unseen,
    *, with_holes: bool = True,
) -> MeasuringPass:  # fmt: skip
    """What must be cut and tried so that every mount point keeps its proven answer; equal ones are examined once.

    `step` is called for each mount and may raise Stopped.
    """
    within, job = within or usual_within(tables), with_own_runs(job, tables)
    job = replace(job, mounts=tuple(mount for mount in job.mounts if left_out(mount, job) is None))
    found = tuple(_points(job, tables, owned, step, with_holes=with_holes))
    points = tuple(point for _, point in found if isinstance(point, Point))
    chosen = _chosen(points, within)
    measured = tuple(_measured(mount, point, chosen, within, tables) for mount, point in found)
    left = tuple(one for one in measured if one.marks or one.open)
    settled = tuple(one.mount for one in measured if one not in left)
    return MeasuringPass(job.title, job.vehicle, tuple(_gauges(left)), left, settled)


def _points(
    job: Job, tables: Tables, owned: Owned | None, step: Step, *, with_holes: bool
) -> Iterator[tuple[Mount, Point | str]]:
    """Each mount point with what it needs, or why its question could not be read."""
    known: dict[tuple[tuple[tuple[str, str], ...], Pin | None, tuple[Mount, ...]], Point | str] = {}
    for mount in stepped(job.mounts, step):
        asked = (mount.said, mount.pin, context(mount, job))
        if asked not in known:
            known[asked] = _point(mount, job, tables, owned, with_holes=with_holes)
        yield mount, known[asked]


def _point(mount: Mount, job: Job, tables: Tables, owned: Owned | None, *, with_holes: bool) -> Point | str:
    try:
        point = placed(mount, job, tables)
    except FastenError as error:
        return str(error)
    return examined(point, mount.pin, tables, owned, with_hole=with_holes)


# -- the fewest -------------------------------------------------------------------------------------------------------


def _chosen(points: Iterable[Point], within: Within) -> _Gauges:
    rooms: dict[Asks, list[Interval]] = {asks: [] for asks in ROOM}
    bays: list[Interval] = []
    goes: list[Interval] = []
    stops: list[Interval] = []
    for point in points:
        for need in point.needs:
            rooms[need.asks].append(_room_interval(need.asks, need.least_mm, within))
        bays += [_bay_interval(way, within) for way in point.ways if isinstance(way, Narrow)]
        if point.hole is not None:
            goes.append((point.hole.from_mm, point.hole.preset_mm))
            stops.append(_stop_interval(point))
    return _Gauges({asks: fewest(needs) for asks, needs in rooms.items()}, fewest(bays), fewest(goes), fewest(stops))


def _room_interval(asks: Asks, least_mm: float, within: Within) -> Interval:
    return least_mm, least_mm + (within.behind_mm if asks is Asks.BEHIND else within.edge_mm)


def _bay_interval(way: Narrow, within: Within) -> Interval:
    """Turned round: a strip that must not fit serves where it is no longer than the widest bay there may be."""
    return -way.most_mm, within.bay_mm - way.most_mm


def _stop_interval(point: Point) -> Interval:
    """Turned round too: the shank that must not go in is over the preset hole, and at most the first hole too wide."""
    assert point.hole is not None
    return -_over(point.hole.to_mm), -_over(point.hole.preset_mm)


def _over(hole_mm: float) -> float:
    return round(hole_mm + _STEP_MM, 1)


# -- each mount point -------------------------------------------------------------------------------------------------


def _measured(mount: Mount, point: Point | str, chosen: _Gauges, within: Within, tables: Tables) -> Measured:
    if isinstance(point, str):
        return Measured(mount.name, "", (), (point,))
    title = "" if point.answer is None else title_of(point.answer, tables)
    if point.open:
        return Measured(mount.name, title, (), point.open)
    gauges = {need.asks: _serving(_room_interval(need.asks, need.least_mm, within), chosen.rooms[need.asks])
              for need in point.needs}  # fmt: skip
    if not stands(point, gauges):
        return Measured(mount.name, title, (), (SHAKY,))
    marks = (
        *_rooms(mount, point, gauges, tables),
        *_support(mount, point, chosen, within),
        *_hole(mount, point, chosen),
    )
    return Measured(mount.name, title, marks, ())


def _serving(interval: Interval, gauges: tuple[float, ...]) -> float:
    found = serving(interval, gauges)
    assert found is not None, "every need has a gauge"
    return found


def _rooms(mount: Mount, point: Point, gauges: Mapping[Asks, float], tables: Tables) -> Iterator[Mark]:
    on_board = material(tables, point.roomy.material).family in _BOARDS and point.roomy.place is None
    for need in point.needs:
        tool = Tool.PROBE if need.asks is Asks.BEHIND else Tool.MARGIN if on_board else Tool.STRIP
        gauge, (below_mm, unproven_mm) = gauges[need.asks], _proven_to(need, point, tables)
        yield Mark(
            mount=mount.name, field=field_named(need.asks.value).name, tool=tool, needs_mm=need.least_mm,
            gauge_mm=gauge, said=f"at least {mm(gauge)}", below=_below(need.below, point.answer, tables),
            below_mm=below_mm, unproven_mm=unproven_mm,
        )  # fmt: skip


def _proven_to(need: Need, point: Point, tables: Tables) -> tuple[float | None, float | None]:
    """Down to which room a mount point keeps what it gets with too little, and under which nothing is proven."""
    if need.below is None or need.below.status is not Status.HOLDS:
        return None, None
    title, kept_mm = title_of(need.below, tables), None
    for length_mm in range(need.least_mm - 1, 0, -1):
        found = point.field.first(with_room(point.roomy, need.asks, length_mm))
        if found is None or found.status is not Status.HOLDS:
            return kept_mm or length_mm + 1.0, length_mm + 1.0
        if kept_mm is None and title_of(found, tables) != title:
            kept_mm = length_mm + 1.0
    return kept_mm, None


def _below(found: Proposal | None, answer: Proposal | None, tables: Tables) -> str:
    """What a mount point gets with less room than it needs."""
    if found is None or answer is None:
        return "nothing fits"
    open_ = "" if found.status is Status.HOLDS else f", not proven: needs {'; '.join(needed(found.checks))}"
    same = title_of(found, tables) == title_of(answer, tables)
    return f"{'the same' if same else title_of(found, tables)}{open_}{_shorter(found, answer) if same else ''}"


def _shorter(found: Proposal, answer: Proposal) -> str:
    """How the same hardware differs, where it holds: by the length of its screw, or its torque."""
    if found.status is not Status.HOLDS:
        return ""
    screw, was = found.joint.screw, answer.joint.screw
    if screw is not None and was is not None and screw.length_mm != was.length_mm:
        return f" with a screw {figure(screw.length_mm)} long"
    return " at another torque" if found.joint == answer.joint else " with other parts"


def _support(mount: Mount, point: Point, chosen: _Gauges, within: Within) -> Iterator[Mark]:
    for way in point.ways:
        yield _way(mount, way, chosen, within)


def _way(mount: Mount, way: Way, chosen: _Gauges, within: Within) -> Mark:
    if isinstance(way, Narrow):
        strip = -_serving(_bay_interval(way, within), chosen.bays)
        return Mark(mount.name, SUPPORT.name, Tool.BAY, way.most_mm, strip, f"bay under {mm(strip)}")
    push = with_unit(way.force_n, "N")
    if isinstance(way, Feel):
        said = f"push {push} {mm(way.feeler_mm)}"
        return Mark(mount.name, SUPPORT.name, Tool.FEELER, way.most_mm, way.feeler_mm, said, force_n=way.force_n)
    return Mark(mount.name, SUPPORT.name, Tool.PUSH, way.moved_mm, way.moved_mm, "firm", force_n=way.force_n)


def _hole(mount: Mount, point: Point, chosen: _Gauges) -> Iterator[Mark]:
    if point.hole is None:
        return
    goes = _serving((point.hole.from_mm, point.hole.preset_mm), chosen.goes)
    stops = -_serving(_stop_interval(point), chosen.stops)
    yield Mark(
        mount=mount.name, field=ITEM_HOLE.name, tool=Tool.SHANKS, needs_mm=point.hole.from_mm, gauge_mm=goes,
        said=mm(point.hole.preset_mm), stops_mm=stops,
    )  # fmt: skip


# -- what is cut ------------------------------------------------------------------------------------------------------


def _gauges(measured: tuple[Measured, ...]) -> Iterator[Gauge]:
    """Each gauge once with the mount points that are tried with it; what serves as a margin alone is not cut."""
    for tool in Tool:
        sizes = sorted({mark.gauge_mm for one in measured for mark in one.marks if mark.tool is tool})
        for size in sizes:
            at = (mark.mount for one in measured for mark in one.marks if mark.tool is tool and mark.gauge_mm == size)
            yield Gauge(tool, size, tuple(dict.fromkeys(at)))
