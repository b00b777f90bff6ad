"""What was measured at a fixing, read from the text that was written down: one size, or one for each fixing."""

import re
from collections.abc import Mapping

from fasten.errors import FastenError
from fasten.record import record
from fasten.text import units
from fasten.text.shown import shown
from fasten.text.units import Dimension

SIZES = {
    "hole": Dimension.LENGTH, "sheet": Dimension.LENGTH, "length": Dimension.LENGTH, "torque": Dimension.TORQUE,
    "turning": Dimension.TORQUE, "held": Dimension.TORQUE,
}  # fmt: skip
EACH = frozenset({"hole", "torque", "turning", "held"})  # of these there may be one for each fixing
DROP = "drop"
_BETWEEN = re.compile(r";\s*|,\s+")  # a comma without a space is a decimal one
_DROP = re.compile(r"(.+?)\s*mv\s+at\s+(.+)", re.IGNORECASE)
_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_MOST_MV = 15_000.0


@record
class Drop:
    """The drop across a ground joint, measured at a current."""

    millivolts: float
    at_a: float


@record
class Measured:
    """What was measured, in mm and N·m, in template order where there is one a fixing; empty, or None, if it was not.

    `turning_nm` is what turned a prevailing-torque nut before it seated, `held_nm` the torque a nut was held at without
    turning.
    """

    hole_mm: tuple[float, ...] = ()
    sheet_mm: float | None = None
    length_mm: float | None = None
    torque_nm: tuple[float, ...] = ()
    turning_nm: tuple[float, ...] = ()
    held_nm: tuple[float, ...] = ()
    drop: Drop | None = None


def read_measured(said: Mapping[str, str]) -> Measured:
    """What a visit measured; raises FastenError with the name of the field that cannot be read."""
    found = {name: read_sizes(said[name], name) for name in SIZES if said.get(name)}
    drop = read_drop(said[DROP]) if said.get(DROP) else None
    sheet_mm, length_mm = (next(iter(found.get(name, ())), None) for name in ("sheet", "length"))
    return Measured(
        found.get("hole", ()), sheet_mm, length_mm, found.get("torque", ()), found.get("turning", ()),
        found.get("held", ()), drop,
    )  # fmt: skip


def read_sizes(text: str, name: str) -> tuple[float, ...]:
    """The sizes of a field, one or one for each fixing; raises FastenError where it is none."""
    parts = _BETWEEN.split(text.strip()) if name in EACH else [text]
    return tuple(units.read(part, SIZES[name], name) for part in parts)


def read_drop(text: str) -> Drop:
    """A drop as it is measured: 9 mV at 60 A; raises FastenError where it is none."""
    found = _DROP.fullmatch(text.strip())
    if found is None or not _NUMBER.fullmatch(found[1]):
        raise FastenError(f"{shown(text)} is no drop", where=DROP, fix="write mV and the current: 9 mV at 60 A")
    millivolts = float(found[1].replace(",", "."))
    if millivolts > _MOST_MV:
        raise FastenError(f"{shown(text)} is over a whole battery", where=DROP, fix="read the meter's range again: mV")
    return Drop(millivolts, units.read(found[2], Dimension.CURRENT, DROP))
