"""How tight a screw goes that forms its own thread, by what drove and stripped it on own test pieces.

Its window lies between what drives it and what strips it; the target is in the middle.
"""

from fasten.catalog.materials import FINISHES
from fasten.catalog.practice import TIGHTENING
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import screw_of
from fasten.mechanics.torque import torque_ceiling_nm, torque_floor_nm
from fasten.model import Input, Joint, MountPoint, Read, Span
from fasten.model.kinds import Core, Thread
from fasten.proof.modes import tested
from fasten.proof.modes.tested import Tested
from fasten.proof.torque.limits import Limit, Shown, by_torque, item_limit, moved, screw_limit
from fasten.proof.torque.tightening import WAY, NotTightened, Torqued, Window, tool_error
from fasten.record import record, replace

STRIPS, DRIVES = "what stripped it on own test pieces", "what drove it on own test pieces"
_LOWER = "max(driving ratio x mean drive, m exp(t s sqrt(1 + 1/n)) of drive)"
_UPPER = "min(strip share x mean strip, m exp(-t s sqrt(1 + 1/n)) / (1 + e) of strip)"
FORMING = frozenset({Thread.FORMS_IN_SHEET, Thread.FORMS_IN_BOARD, Thread.FORMS_IN_PLASTIC})


@record
class Forming:
    """The window of a forming screw by own test pieces; `counts` says that it takes the place of any other."""

    lower_nm: float
    upper: Limit
    counts: bool
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]
    drive: Tested


def forming(joint: Joint, mount: MountPoint, tables: Tables) -> Forming | None:
    """What own test pieces say of a forming screw; None where nothing was both driven and stripped."""
    if not mount.tests or joint.screw is None or joint.screw.kind.thread not in FORMING:
        return None
    drive, strip = (tested.found(read, joint, mount, tables) for read in (Read.DRIVE, Read.STRIP))
    if drive is None or strip is None:
        return None
    ratio, share = rule(tables, Rules.DRIVING_RATIO), rule(tables, Rules.PLASTIC_STRIP_SHARE)
    mean_drive, mean_strip = (sum(one.readings) / one.count for one in (drive, strip))
    lower_nm = max(torque_floor_nm(driving_nm=mean_drive, margin=ratio.value), drive.over)
    upper_nm = min(torque_ceiling_nm(failure_nm=mean_strip, fraction=share.value), strip.as_least)
    shown = Shown(
        (Input("mean strip", mean_strip, "N·m"), Input("strip share", share.value, "-"),
         *_named(strip.inputs, "strip")), _UPPER, strip.from_,
    )  # fmt: skip
    upper = Limit(STRIPS, upper_nm, lambda: shown)
    inputs = (
        Input("mean drive", mean_drive, "N·m"), Input("driving ratio", ratio.value, "-"),
        *_named(drive.inputs, "drive"),
    )  # fmt: skip
    return Forming(lower_nm, upper, drive.counts and strip.counts, inputs, drive.from_, drive)


def _named(inputs: tuple[Input, ...], what: str) -> tuple[Input, ...]:
    return tuple(replace(one, name=f"{one.name}, {what}") for one in inputs)


def with_own(found: Torqued, joint: Joint, mount: MountPoint, tables: Tables) -> Torqued:
    """How tight, by own test pieces where they say so: they take the place of a window, or only narrow it."""
    own = None if isinstance(found, NotTightened) else forming(joint, mount, tables)
    if own is None:
        return found
    if own.counts:
        return _instead(found, own, joint, mount, tables)
    return _narrowed(found, own) if isinstance(found, Window) else found


def _instead(found: Torqued, own: Forming, joint: Joint, mount: MountPoint, tables: Tables) -> Window:
    finish, way = tables.need(FINISHES, screw_of(joint).finish), tables.need(TIGHTENING, WAY)
    least_drive = min(own.drive.readings)
    pressing = (_past(limit, least_drive) for limit in item_limit(joint, mount, finish.nut_factor, way.scatter, tables))
    known = screw_of(joint).kind.core in (Core.BREAKING_TORQUE, Core.CLASS)
    screw = (screw_limit(joint, mount, finish.nut_factor, tables),) if known else ()
    upper = min((own.upper, *screw, *pressing), key=by_torque)
    lower_nm, inputs, from_, lower_formula = own.lower_nm, own.inputs, own.from_, _LOWER
    clamps_nm = found.lower_nm if isinstance(found, Window) and found.preload_needed_n > 0 else 0.0
    if clamps_nm and isinstance(found, Window) and own.drive.over + clamps_nm > lower_nm:
        lower_nm, lower_formula = own.drive.over + clamps_nm, f"{_LOWER}, or what drives it + what clamps"
        inputs, from_ = (*inputs, Input("torque that clamps", clamps_nm, "N·m"), *found.inputs), (*from_, *found.from_)
    return Window(
        lower_nm, upper, found.preload_needed_n if isinstance(found, Window) else 0.0, lambda: (inputs, from_),
        Span(finish.nut_factor_min, finish.nut_factor_max), tool_error(upper.torque_nm, tables), forms=True,
        lower_formula=lower_formula,
    )  # fmt: skip


def _past(limit: Limit, drive_nm: float) -> Limit:
    """What drives the thread does not press on the item."""
    return moved(limit, drive_nm, Input("least that drove it", drive_nm, "N·m"), "least that drove it + {}")


def _narrowed(found: Window, own: Forming) -> Window:
    """The window, its ends moved inward where the readings say less."""
    if own.upper.torque_nm < found.upper.torque_nm:
        found = replace(found, upper=own.upper)
    if own.lower_nm > found.lower_nm:
        inputs, from_ = (*own.inputs, *found.inputs), (*own.from_, *found.from_)
        found = replace(found, lower_nm=own.lower_nm, shown=lambda: (inputs, from_), lower_formula=_LOWER)
    return found
