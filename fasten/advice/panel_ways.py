"""How a panel that nothing was said of is shown to be stiff enough: with a feeler, by feel, or with a strip."""

from collections.abc import Iterator

from fasten.catalog.gauging import FEELERS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.model import Firm, MountPoint, Push, Pushed, Status, Support
from fasten.proof.panel import push_limit, stiffness
from fasten.question.read_support import bay_under
from fasten.record import record, replace

_LEAST_BAY_MM, _MOST_BAY_MM, _STEP_MM = 50, 2000, 10


@record
class Feel:
    """A push under which no more than a feeler goes between straightedge and panel, and the most that may."""

    force_n: float
    most_mm: float
    feeler_mm: float

    @property
    def support(self) -> Support:
        """What it says of the panel."""
        return Pushed((Push(self.force_n, self.feeler_mm),))


@record
class Narrow:
    """A bay: the widest there may be between the lines of support."""

    most_mm: float

    @property
    def support(self) -> Support:
        """What it says of the panel."""
        return bay_under(self.most_mm)


@record
class ByFeel:
    """The heel of the hand, pushed so hard, moves it less than so far."""

    force_n: float
    moved_mm: float

    @property
    def support(self) -> Support:
        """What it says of the panel."""
        return Firm()


Way = Feel | ByFeel | Narrow


def ways(point: MountPoint, tables: Tables) -> tuple[Way, ...]:
    """Each way that settles the panel of a mount point, easiest first; none where it is settled, or none settles it."""
    if point.support is not None or _holds(point, tables):
        return ()
    return tuple(way for way in _ways(point, tables) if _holds(replace(point, support=way.support), tables))


def _ways(point: MountPoint, tables: Tables) -> Iterator[Way]:
    """A feeler where the least of them can be read, else by feel, or as a strip between the lines of support."""
    limit = push_limit(point, tables)
    feelers = [row.thickness_mm for row in tables.rows(FEELERS) if limit and row.thickness_mm <= limit.moved_mm]
    if limit is not None and feelers:
        yield Feel(limit.force_n, limit.moved_mm, max(feelers))
        return
    yield ByFeel(rule(tables, Rules.FIRM_PUSH).value, rule(tables, Rules.FIRM_MOVED).value)
    widest = _widest_bay_mm(point, tables)
    if widest is not None:
        yield Narrow(widest)


def _widest_bay_mm(point: MountPoint, tables: Tables) -> float | None:
    """The widest bay that is stiff enough with the pattern of the fixings inside it."""
    sides = [max(side) - min(side) for side in zip(*positions_mm(point.pattern, point.fixings), strict=True)]
    inside = min(sides) / rule(tables, Rules.BAY_SHARE).value
    least = max(_LEAST_BAY_MM, -int(-inside // _STEP_MM) * _STEP_MM)
    if not _holds_in(least, point, tables):
        return None
    step = _STEP_MM
    while least + step <= _MOST_BAY_MM and _holds_in(least + step, point, tables):
        step *= 2
    low, high = least + (step // 2 if step > _STEP_MM else 0), least + step
    while high - low > _STEP_MM:
        middle = low + (high - low) // (2 * _STEP_MM) * _STEP_MM
        low, high = (middle, high) if _holds_in(middle, point, tables) else (low, middle)
    return float(low)


def _holds_in(width_mm: int, point: MountPoint, tables: Tables) -> bool:
    return _holds(replace(point, support=bay_under(width_mm)), tables)


def _holds(point: MountPoint, tables: Tables) -> bool:
    return stiffness(point, tables).status is Status.HOLDS
