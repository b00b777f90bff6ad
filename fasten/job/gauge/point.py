"""One mount point of a measuring pass: its answer where all is found as it is hoped, and what it needs for it."""

from collections.abc import Iterator, Mapping

from fasten.advice.advise import first_advice
from fasten.advice.item_hole import is_preset, with_item_hole
from fasten.advice.owned import Owned
from fasten.advice.panel_ways import Way, ways
from fasten.catalog.tables import Tables
from fasten.job.gauge.first import ROOM, Field, field_of, is_open, known_mm, roomy, with_room
from fasten.job.gauge.holes import HoleRange, hole_range
from fasten.job.gauge.needs import Need, breakpoints, need, same_as
from fasten.job.words import Pin
from fasten.model import Asks, MountPoint, Proposal, Status
from fasten.model.check import needed
from fasten.record import record, replace

LEAST_MM = 1.0  # room where nothing needs any
SHAKY = "its answer changes where there is more room than it needs: measure the room itself"


@record
class Point:
    """A mount point with room enough: its first answer there, what it needs of each room, how its panel is settled.

    `measured` are the rooms that are still open, each with what is known of it at least.
    `open` is what no measurement settles: nothing of it is measured then.
    """

    roomy: MountPoint
    measured: tuple[tuple[Asks, float], ...]
    field: Field
    answer: Proposal | None
    needs: tuple[Need, ...]
    ways: tuple[Way, ...]
    hole: HoleRange | None
    open: tuple[str, ...]


def examined(
    point: MountPoint, pin: Pin | None, tables: Tables, owned: Owned | None = None, *, with_hole: bool = True
) -> Point:
    """What a mount point needs measured for its proven answer; with the item's holes opened where nothing fits them."""
    found = ways(point, tables)
    settled = replace(point, support=found[0].support) if found else point
    with_room_ = roomy(settled, tables)
    measured = tuple((asks, known_mm(point, asks)) for asks in ROOM if is_open(point, asks))
    field = field_of(with_room_, pin, tables, owned, is_open=bool(measured))
    answer = field.first(with_room_)
    opened = _opened(point, tables, owned) if answer is None and pin is None else point
    if opened is not point:
        return examined(opened, pin, tables, owned, with_hole=with_hole)
    if answer is None or answer.status is not Status.HOLDS:
        open_ = (field.why_none(with_room_),) if answer is None else needed(answer.checks)
        return Point(with_room_, measured, field, answer, (), (), None, open_)
    needs = ((need(with_room_, asks, field), known) for asks, known in measured)
    short = tuple(one for one, known in needs if one is not None and one.least_mm > known)
    is_through = answer.joint.screw is not None or answer.joint.hole is not None
    hole = hole_range(answer, with_room_, pin, tables, owned) if with_hole and is_through else None
    return Point(with_room_, measured, field, answer, short, found, hole, ())


def _opened(point: MountPoint, tables: Tables, owned: Owned | None) -> MountPoint:
    """The mount point with the item's holes as its answer has them where there is room."""
    if not is_preset(point):
        return point
    answered = first_advice(roomy(point, tables), tables, owned).mount
    return point if is_preset(answered) else with_item_hole(point, answered.item_hole_mm)


def stands(point: Point, gauges: Mapping[Asks, float]) -> bool:
    """Whether verdict and answer stay the same at these gauges, and wherever something begins to fit beyond one."""
    wanted = same_as(point.answer)
    least = {asks: gauges.get(asks, max(known, LEAST_MM)) for asks, known in point.measured}
    return all(same_as(point.field.first(one)) == wanted for one in _beyond(point, least))


def _beyond(point: Point, least: Mapping[Asks, float]) -> Iterator[MountPoint]:
    at_gauges = point.roomy
    for asks, length_mm in least.items():
        at_gauges = with_room(at_gauges, asks, length_mm)
    yield at_gauges
    for asks in least:
        for length_mm in breakpoints(point.field.proposals, point.roomy):
            if length_mm > least[asks]:
                yield with_room(at_gauges, asks, length_mm)
