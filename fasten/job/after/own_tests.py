"""What the visits of a mount point read on test pieces, and what of it is kept for every other with the same joint."""

from dataclasses import replace

from fasten.after import own_tests
from fasten.after.measured import READINGS, read_sizes
from fasten.after.own_tests import Effect
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.built import TEXTS
from fasten.job.words import Mount, Visit, standing
from fasten.model import Joint, MountPoint, OwnTest
from fasten.record import record
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
    """The test pieces of all visits with the hardware that is there now, which is that of the joint."""
    if not any(_reads(visit) for visit in mount.visits):
        return ()
    now, found = plain_name(standing(mount.visits).hardware), tuple[OwnTest, ...]()
    for number, visit in enumerate(mount.visits, 1):
        there = standing(mount.visits[:number])
        if _reads(visit) and plain_name(there.hardware) in (now, ""):
            found = own_tests.joined(found, of_visit(visit, there, joint, point, tables))
    return found


def of_visit(visit: Visit, there: Visit, joint: Joint, point: MountPoint, tables: Tables) -> tuple[OwnTest, ...]:
    """The test pieces of one visit, by what was there then; none where what it says cannot be read."""
    said = {name: getattr(visit, name) for name in TEXTS}
    try:
        sheet_mm = read_sizes(there.sheet, "sheet")[0] if there.sheet else joint.sheet_mm
        hole_mm = max(read_sizes(there.hole, "hole")) if there.hole else _drilled_mm(joint)
        return own_tests.read_tests(said, joint, sheet_mm, hole_mm, point, visit.date, tables)
    except FastenError:
        return ()


def _drilled_mm(joint: Joint) -> float:
    return 0.0 if joint.hole is None else joint.hole.diameter_mm


def _reads(visit: Visit) -> bool:
    return any(getattr(visit, name) for name in (*READINGS, own_tests.RETORQUE))


def newest(mount: Mount, joint: Joint, point: MountPoint, tables: Tables, *, is_sure: bool) -> Readings:
    """What the newest visit read on test pieces of this joint.

    Raises: FastenError where a joint has nothing of which that could be read, or one stands apart and nobody is sure.
    """
    visit = mount.visits[-1]
    if not _reads(visit):
        return Readings()
    own_tests.check_readings({name: getattr(visit, name) for name in TEXTS}, joint, words(joint.method), point, tables)
    own = of_visit(visit, standing(mount.visits), joint, point, tables)
    if not is_sure:
        own_tests.check_outlier(own, tables)
    return Readings(
        own, own_tests.effects(joint, with_tests(point, tests_of(mount, joint, point, tables)), own, tables)
    )


def with_tests(point: MountPoint, tests: tuple[OwnTest, ...]) -> MountPoint:
    """The mount point with these as well as what it knows already."""
    return replace(point, tests=own_tests.joined(point.tests, tests)) if tests else point
