"""What the visits of a mount point read on test pieces, and what of it is kept for every other with the same joint."""

from fasten.after import own_tests
from fasten.after.case import repair_part
from fasten.after.edits import BY_TESTS
from fasten.after.measured import READINGS, read_sizes
from fasten.after.own_tests import Effect
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.joint import drilled_mm
from fasten.geometry.lines import tested_line
from fasten.job.after.built import TEXTS
from fasten.job.words import REPAIRED, Mount, Repair, Visit, standing
from fasten.model import Joint, MountPoint, OwnTest, Read
from fasten.record import record, replace
from fasten.text.figures import words
from fasten.text.names import plain_name

NOTHING_TO_KEEP = FastenError(
    "no readings of a test piece are said, so there are none to keep", where="keep-test",
    fix="add --spin-out, --pull-out, --drive with --strip, or --retorque",
)  # fmt: skip


@record
class Readings:
    """What the newest visit read on test pieces, and what that makes of the figures of its joint."""

    tests: tuple[OwnTest, ...] = ()
    effects: tuple[Effect, ...] = ()


def tests_of(mount: Mount, joint: Joint, point: MountPoint, tables: Tables) -> tuple[OwnTest, ...]:
    """The test pieces of all visits with the hardware that is there now, which is that of the joint.

    A repair of every fixing puts another joint there: what was read before is left behind. What was read after a repair
    that only test pieces prove is of that: `repaired_tests` has it.
    """
    now, found = plain_name(standing(mount.visits).hardware) if mount.visits else "", tuple[OwnTest, ...]()
    for number, (visit, repair) in enumerate(zip(mount.visits, _last_repairs(mount), strict=True), 1):
        there = standing(mount.visits[:number])
        if visit.kind == REPAIRED and repair is not None and repair.at is None:
            found = ()
        elif _reads(visit) and not _is_tested(repair, tables) and plain_name(there.hardware) in (now, ""):
            found = own_tests.joined(found, of_visit(visit, there, joint, point, tables))
    return found


def repaired_tests(mount: Mount, joint: Joint, point: MountPoint, tables: Tables) -> tuple[OwnTest, ...]:
    """The test pieces of repairs that only these prove: what was read after each, of the joint as it was planned."""
    found = tuple[OwnTest, ...]()
    for visit, repair in zip(mount.visits, _last_repairs(mount), strict=True):
        if repair is not None and _is_tested(repair, tables) and (_reads(visit) or visit.held):
            found = own_tests.joined(found, of_repair(repair.route, visit, joint, point, tables))
    return found


def _last_repairs(mount: Mount) -> list[Repair | None]:
    """The repair that was done last at each visit; None before any."""
    found, done = list[Repair | None](), 0
    for visit in mount.visits:
        done += visit.kind == REPAIRED
        found.append(mount.repairs[done - 1] if 0 < done <= len(mount.repairs) else None)
    return found


def _is_tested(repair: Repair | None, tables: Tables) -> bool:
    """Whether a repair is proved by nothing but test pieces, or by what a screw was held at."""
    route = None if repair is None else tables.find(REPAIR_ROUTES, repair.route)
    return route is not None and route.proof in BY_TESTS


def of_repair(route: str, visit: Visit, joint: Joint, point: MountPoint, tables: Tables) -> tuple[OwnTest, ...]:
    """What a visit read on test pieces of a repair, or held its screws at; none where it cannot be read."""
    line = tested_line(joint)
    if line is None:
        return ()
    read = of_visit(visit, replace(visit, hole="", sheet=""), joint, point, tables)
    try:
        held = read_sizes(visit.held, "held") if visit.held else ()
    except FastenError:
        held = ()
    if held:
        test = OwnTest(
            Read.HELD,
            line.text,
            point.material,
            joint.sheet_mm,
            drilled_mm(joint),
            held,
            0.0,
            visit.tool,
            visit.date,
            point.into,
        )
        read = (*read, test)
    return tuple(replace(test, part=repair_part(route, line.text)) for test in read)


def of_visit(visit: Visit, there: Visit, joint: Joint, point: MountPoint, tables: Tables) -> tuple[OwnTest, ...]:
    """The test pieces of one visit, by what was there then; none where what it says cannot be read."""
    said = _said(visit, there)
    try:
        sheet_mm = read_sizes(there.sheet, "sheet")[0] if there.sheet else joint.sheet_mm
        hole_mm = max(read_sizes(there.hole, "hole")) if there.hole else drilled_mm(joint)
        return own_tests.read_tests(said, joint, sheet_mm, hole_mm, point, visit.date, tables)
    except FastenError:
        return ()


def _said(visit: Visit, there: Visit) -> dict[str, str]:
    """What a visit says, with how tight it was by then where it does not say so itself."""
    return {**{name: getattr(visit, name) for name in TEXTS}, "torque": visit.torque or there.torque}


def _reads(visit: Visit) -> bool:
    return any(getattr(visit, name) for name in (*READINGS, own_tests.RETORQUE))


def newest(mount: Mount, joint: Joint, point: MountPoint, tables: Tables, *, is_sure: bool) -> Readings:
    """What the newest visit read on test pieces of this joint.

    Raises: FastenError where a joint has nothing of which that could be read, or one stands apart and nobody is sure.
    """
    visit = mount.visits[-1]
    if not _reads(visit):
        return Readings()
    said = _said(visit, standing(mount.visits))
    own_tests.check_readings(said, joint, words(joint.method), point, tables)
    repair = _last_repairs(mount)[-1]
    if repair is not None and _is_tested(repair, tables):
        return Readings(of_repair(repair.route, visit, joint, point, tables))
    own = of_visit(visit, standing(mount.visits), joint, point, tables)
    if not is_sure:
        own_tests.check_outlier(own, tables)
    return Readings(
        own, own_tests.effects(joint, with_tests(point, tests_of(mount, joint, point, tables)), own, tables)
    )


def with_tests(point: MountPoint, tests: tuple[OwnTest, ...]) -> MountPoint:
    """The mount point with these as well as what it knows already."""
    return replace(point, tests=own_tests.joined(point.tests, tests)) if tests else point
