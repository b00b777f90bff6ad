"""Does the item lie on the existing holes: by how much its own holes miss them, against the play of a screw."""

from math import hypot

from fasten.catalog.rows import METRIC_THREADS
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.geometry.stack import threads_for_hole
from fasten.model import Check, Input, Joint, MountPoint, Pattern
from fasten.model.holes import OnHoles
from fasten.proof.checks import at_most, waits

LINED_UP = "holes-line-up"
_TITLE = "Item's holes over the existing ones"
SIZES = ("M4", "M5", "M6", "M8", "M10")
_FORMULA = "greatest miss <= (item hole - screw) / 2"


def lies(joint: Joint, mount: MountPoint, tables: Tables) -> OnHoles | None:
    """How the item lies on the holes with this joint; None where none were given, or nothing goes through the item."""
    through_mm = _through_mm(joint, tables)
    return None if through_mm is None else _lies(mount, through_mm)


def lies_with_largest(mount: MountPoint, tables: Tables) -> OnHoles | None:
    """The same with the largest screw that passes the item's hole, where no joint fits."""
    passing = threads_for_hole(tables, mount.item_hole_mm, SIZES)
    through_mm = max((thread.major_mm for thread in passing), default=mount.item_hole_mm)
    return _lies(mount, through_mm)


def _lies(mount: MountPoint, through_mm: float) -> OnHoles | None:
    if mount.holes_at is None:
        return None
    from fasten.geometry.survey.on_holes import on_holes  # slow to load, and few have holes there already

    item_mm = positions_mm(mount.pattern, mount.fixings)
    play_mm = max((mount.item_hole_mm - through_mm) / 2, 0.0)
    error_mm = hypot(_error_mm(mount.holes_at), _error_mm(mount.pattern))
    return on_holes(item_mm, positions_mm(mount.holes_at, mount.fixings), play_mm, error_mm)


def _error_mm(pattern: Pattern | None) -> float:
    survey = None if pattern is None else pattern.survey
    return 0.0 if survey is None else max(survey.radii_mm)


def _through_mm(joint: Joint, tables: Tables) -> float | None:
    """What goes through the item's hole: the screw, or the stud of a part that has one."""
    if joint.screw is not None:
        return joint.screw.diameter_mm
    thread = None if joint.receiver is None else tables.find(METRIC_THREADS, joint.receiver.thread)
    return None if thread is None else thread.major_mm


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """One line where the existing holes were given; open where the survey cannot tell."""
    found = lies(joint, mount, tables)
    if found is None:
        return ()
    miss_mm, inputs = found.given.greatest_mm, _inputs(found, joint, mount, tables)
    if abs(miss_mm - found.play_mm) < found.error_mm:
        needs = "needs the item laid on the holes: its miss and the play differ by less than the survey's error"
        return (waits(LINED_UP, _TITLE, "mm", miss_mm, needs, inputs, _FORMULA, joint.from_),)
    return (at_most(LINED_UP, _TITLE, miss_mm, found.play_mm, "mm", inputs, _FORMULA, joint.from_),)


def _inputs(found: OnHoles, joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Input, ...]:
    return (
        Input("greatest miss", found.given.greatest_mm, "mm"), Input("item hole", mount.item_hole_mm, "mm"),
        Input("screw", _through_mm(joint, tables) or 0.0, "mm"), Input("error of the holes", found.error_mm, "mm"),
    )  # fmt: skip
