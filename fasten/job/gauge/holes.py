"""Between which holes of the item a mount point keeps its answer, where that hole is only a preset."""

from collections.abc import Callable

from fasten.advice.advise import method_by
from fasten.advice.contest import first_with
from fasten.advice.method import joints
from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.job.gauge.first import field_of
from fasten.job.gauge.needs import same_as
from fasten.job.words import Pin
from fasten.model import MountPoint, Origin, Proposal
from fasten.record import record, replace

_STEPS = 10  # a millimetre, as finely as bits are sold
_LEAST, _MOST = 10, 300  # holes that are tried at all, in these steps


@record
class HoleRange:
    """The least and the greatest hole of the item with which the answer stays, and the preset between them."""

    from_mm: float
    to_mm: float
    preset_mm: float


def hole_range(
    answer: Proposal, roomy: MountPoint, pin: Pin | None, tables: Tables, owned: Owned | None
) -> HoleRange | None:
    """The range about the preset hole; None where the hole was said, or is that of a ring for its stud."""
    if roomy.ring is not None or dict(roomy.origins).get("item_hole_mm") is not Origin.PRESET:
        return None
    preset = round(roomy.item_hole_mm * _STEPS)
    if preset != roomy.item_hole_mm * _STEPS:
        return None
    known: dict[int, bool] = {preset: True}
    method = method_by(answer.joint)
    # What a shelf replaces, and what has a wider part, is not as its method offers it.
    is_plain = pin is None and owned is None and answer.joint in joints(method, roomy, tables)

    def stays(steps: int) -> bool:
        if steps not in known:
            point = replace(roomy, item_hole_mm=steps / _STEPS)
            may_stay = not is_plain or answer.joint in joints(method, point, tables)
            known[steps] = may_stay and same_as(_first(point, pin, tables, owned)) == same_as(answer)
        return known[steps]

    least, most = _end(stays, preset, _LEAST - 1, -1), _end(stays, preset, _MOST + 1, 1)
    return HoleRange(least / _STEPS, most / _STEPS, preset / _STEPS)


def _first(point: MountPoint, pin: Pin | None, tables: Tables, owned: Owned | None) -> Proposal | None:
    return first_with(point, tables, owned) if pin is None else field_of(point, pin, tables, owned).first(point)


def _end(stays: Callable[[int], bool], preset: int, limit: int, way: int) -> int:
    """The last hole this way at which the answer stays: ever longer steps, then halved."""
    good, step = preset, 1
    while (bad := good + way * step) * way < limit * way and stays(bad):
        good, step = bad, step * 2
    bad = min(bad, limit) if way > 0 else max(bad, limit)
    while (bad - good) * way > 1:
        middle = good + way * ((bad - good) * way // 2)
        good, bad = (middle, bad) if stays(middle) else (good, middle)
    return good
