"""What the visits before a repair measured of what it starts from: the sheet, each hole, and test pieces."""

from fasten.advice.advise import method_by
from fasten.advice.method import joints
from fasten.after.edits import LEAVE_OUT
from fasten.after.measured import read_sizes
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.own_tests import tests_of, with_tests
from fasten.job.words import REPAIRED, Mount, Repair, standing
from fasten.model import Joint, MountPoint
from fasten.record import replace


def before_repair(mount: Mount, number: int) -> Mount:
    """The mount point as it was before a repair of it, numbered from 1: with all of its visits where it has fewer."""
    done = [at for at, visit in enumerate(mount.visits) if visit.kind == REPAIRED]
    visits = mount.visits[: done[number - 1]] if number <= len(done) else mount.visits
    return replace(mount, visits=visits, repairs=mount.repairs[: number - 1])


def point_found(mount: Mount, joint: Joint, point: MountPoint, tables: Tables) -> MountPoint:
    """The mount point with its sheet as it was measured, and with what was read on test pieces of its joint."""
    if not mount.visits:
        return point
    sheet_mm = max(_sizes(standing(mount.visits).sheet, "sheet"), default=None)
    found = point if sheet_mm is None else replace(point, thickness_min_mm=sheet_mm, thickness_max_mm=sheet_mm)
    return with_tests(found, tests_of(mount, joint, point, tables))


def joint_found(joint: Joint, point: MountPoint, tables: Tables) -> Joint:
    """The joint in the sheet of a mount point; as it is where its part does not go into that, and its proof fails."""
    if joint.sheet_mm == point.thickness_min_mm and joint.sheet_max_mm == point.thickness_max_mm:
        return joint
    offered = [one for one in joints(method_by(joint), point, tables) if one.receiver == joint.receiver]
    return max(offered, key=lambda one: _alike(one, joint), default=joint)


def _alike(one: Joint, other: Joint) -> tuple[bool, bool]:
    return one.screw == other.screw, one.washers == other.washers


def holes_found_mm(mount: Mount, fixings: int, tables: Tables) -> tuple[float, ...]:
    """How wide each hole was measured since it was made, 0 where it was not; empty where none was."""
    found, left_out, repairs = (0.0,) * fixings, frozenset[int](), iter(mount.repairs)
    for visit in mount.visits:
        if visit.kind == REPAIRED and (repair := next(repairs, None)) is not None:
            found = tuple(0.0 if repair.at in (None, at) else size for at, size in enumerate(found, 1))
            left_out = _left_out_by(repair, fixings, tables) | (left_out if repair.at is not None else frozenset())
        if sizes := _sizes(visit.hole, "hole"):
            placed = at_places(sizes, fixings, left_out, unread=0.0)
            found = placed if len(placed) == fixings else (max(sizes),) * fixings
    return found if any(found) else ()


def _left_out_by(repair: Repair, fixings: int, tables: Tables) -> frozenset[int]:
    """The fixing that a repair leaves out, where it is of that kind and there is such a fixing."""
    route = tables.find(REPAIR_ROUTES, repair.route)
    if repair.at is None or repair.at > fixings or route is None or route.proof != LEAVE_OUT:
        return frozenset()
    return frozenset({repair.at})


def at_places(
    sizes: tuple[float, ...], fixings: int, left_out: frozenset[int], *, unread: float
) -> tuple[float, ...]:  # fmt: skip
    """What was measured at each fixing by its number, where those that were left out are not among it.

    One for all stays, and so do as many as there are fixings.
    """
    if not left_out or len(sizes) < 2 or len(sizes) != fixings - len(left_out):
        return sizes
    rest = iter(sizes)
    return tuple(unread if at in left_out else next(rest) for at in range(1, fixings + 1))


def _sizes(text: str, name: str) -> tuple[float, ...]:
    """The sizes of a field of a visit; none where it cannot be read, which the verdict on it says."""
    try:
        return read_sizes(text, name) if text else ()
    except FastenError:
        return ()
