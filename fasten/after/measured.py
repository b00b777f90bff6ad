"""What was measured at a fixing, read from the text that was written down: one size, or one for each fixing."""

import re
from collections.abc import Mapping

from fasten.errors import FastenError
from fasten.proof.demands import GRAVITY_M_S2
from fasten.record import record
from fasten.text import units
from fasten.text.shown import shown
from fasten.text.units import Dimension

SIZES = {
    "hole": Dimension.LENGTH, "sheet": Dimension.LENGTH, "length": Dimension.LENGTH, "torque": Dimension.TORQUE,
    "turning": Dimension.TORQUE, "held": Dimension.TORQUE, "retorque": Dimension.TORQUE,
}  # fmt: skip
EACH = frozenset({"hole", "torque", "turning", "held", "retorque"})  # of these there may be one for each fixing
READINGS = {
    "spin_out": Dimension.TORQUE, "pull_out": Dimension.FORCE, "drive": Dimension.TORQUE, "strip": Dimension.TORQUE,
}  # fmt: skip
DROP = "drop"
_BETWEEN = re.compile(r";\s*|,\s+")  # a comma without a space is a decimal one
_DROP = re.compile(r"(.+?)\s*mv\s+at\s+(.+)", re.IGNORECASE)
_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_MOST_MV = 15_000.0
_READING = re.compile(r"([0-9]+(?:[.,][0-9]+)?)[ \t]*([^\W\d_][^\s,;]*)?")
_READINGS = re.compile(rf"(?:{_READING.pattern}(?:[ \t]*[,;][ \t]*|[ \t]+|$))+")
_ROW = "write them one after the other: 2.9 3.1 3.4, with a unit at the end if it is not N·m or N"
_MOST_READINGS = 30
_SCALE_UNITS = frozenset({"kg", "lb", "lbs"})  # what a scale shows of a pull


@record
class Drop:
    """The drop across a ground joint, measured at a current; it may be higher by what its last digit was rounded by."""

    millivolts: float
    at_a: float
    rounded_mv: float = 0.0


@record
class Measured:
    """What was measured, in mm and N·m, in template order where there is one a fixing; empty, or None, if it was not.

    `turning_nm` is what turned a prevailing-torque nut before it seated, `held_nm` the torque a nut was held at without
    turning, `retorque_nm` what just moved a screw when it was tightened again. `at` are the numbers of the fixings that
    they are of; empty where that is each, from 1 on.
    """

    hole_mm: tuple[float, ...] = ()
    sheet_mm: float | None = None
    length_mm: float | None = None
    torque_nm: tuple[float, ...] = ()
    turning_nm: tuple[float, ...] = ()
    held_nm: tuple[float, ...] = ()
    drop: Drop | None = None
    retorque_nm: tuple[float, ...] = ()
    at: tuple[int, ...] = ()


def read_measured(said: Mapping[str, str]) -> Measured:
    """What a visit measured; raises FastenError with the name of the field that cannot be read."""
    found = {name: read_sizes(said[name], name) for name in SIZES if said.get(name)}
    drop = read_drop(said[DROP]) if said.get(DROP) else None
    sheet_mm, length_mm = (next(iter(found.get(name, ())), None) for name in ("sheet", "length"))
    return Measured(
        found.get("hole", ()), sheet_mm, length_mm, found.get("torque", ()), found.get("turning", ()),
        found.get("held", ()), drop, found.get("retorque", ()),
    )  # fmt: skip


def read_sizes(text: str, name: str) -> tuple[float, ...]:
    """The sizes of a field, one or one for each fixing; raises FastenError where it is none."""
    parts = _BETWEEN.split(text.strip()) if name in EACH else [text]
    return tuple(units.read(part, SIZES[name], name) for part in parts)


def read_readings(text: str, name: str) -> tuple[float, ...]:
    """What was read on test pieces, 2.9 3.1 3.4: torques in N·m and pulls in N where no unit is said; a scale's kg too.

    A unit is that of all before it that have none. Raises FastenError where it is none of that.
    """
    if not _READINGS.fullmatch(text.strip()):
        raise FastenError(f"{shown(text)} is no row of readings", where=field_name(name), fix=_ROW)
    pull = READINGS[name] is Dimension.FORCE
    unit, found, pairs = "N" if pull else "N·m", list[float](), _READING.findall(text)
    if not pairs[-1][1] and any(own for _, own in pairs):
        raise FastenError(f"the last of {shown(text)} has no unit", where=field_name(name), fix=_ROW)
    for figure, own in reversed(pairs):
        unit = own or unit
        found.append(_pulled(figure, unit, name) if pull else _turned(figure, unit, name))
    if len(found) > _MOST_READINGS:
        raise FastenError(f"{len(found)} readings are too many", where=field_name(name), fix="give 30 at most")
    return tuple(reversed(found))


def field_name(name: str) -> str:
    """How a field of a visit is written in files and on the command line."""
    return name.replace("_", "-")


def _turned(figure: str, unit: str, name: str) -> float:
    return units.read(f"{figure} {unit}", Dimension.TORQUE, field_name(name))


def _pulled(figure: str, unit: str, name: str) -> float:
    """A pull, by what a scale shows where it is a mass."""
    if unit.casefold() in _SCALE_UNITS:
        return units.read(f"{figure} {unit}", Dimension.MASS, field_name(name)) * GRAVITY_M_S2
    return units.read(f"{figure} {unit}", Dimension.FORCE, field_name(name))


def read_drop(text: str) -> Drop:
    """A drop as it is measured: 9 mV at 60 A; raises FastenError where it is none."""
    found = _DROP.fullmatch(text.strip())
    if found is None or not _NUMBER.fullmatch(found[1]):
        raise FastenError(f"{shown(text)} is no drop", where=DROP, fix="write mV and the current: 9 mV at 60 A")
    millivolts = float(found[1].replace(",", "."))
    if millivolts > _MOST_MV:
        raise FastenError(f"{shown(text)} is over a whole battery", where=DROP, fix="read the meter's range again: mV")
    decimals = len(found[1].replace(",", ".").partition(".")[2])
    return Drop(millivolts, units.read(found[2], Dimension.CURRENT, DROP), 0.5 / 10**decimals)
