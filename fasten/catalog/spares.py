"""How many more of a part go in the box beside those that are fitted."""

from math import ceil

from fasten.catalog.job_parts import SPARES
from fasten.catalog.tables import Tables
from fasten.model.kinds import Spares
from fasten.record import record

_DUST = 1e-9


@record
class Extra:
    """Spares of a part, and how many are used up in trying."""

    spare: int
    trial: int


def extra_of(spares: Spares, size: str, needed: int, tables: Tables) -> Extra:
    """What goes in beside so many of a part, by the first rule that is for its kind and size; none beside none."""
    if needed:
        for row in tables.rows(SPARES):
            if row.kind in {spares.value, Spares.ANY.value} and _is_size(size, row.up_to_mm):
                return Extra(max(row.least, ceil(row.share * needed - _DUST)), row.trial)
    return Extra(0, 0)


def _is_size(size: str, up_to_mm: float | None) -> bool:
    return up_to_mm is None or size_mm(size) <= up_to_mm


def size_mm(size: str) -> float:
    """Diameter that a size names: M5, ST4.2, 4 mm; none where it names no such."""
    digits = size.upper().removeprefix("ST").removeprefix("M").split("X")[0].removesuffix("MM").strip()
    return float(digits) if digits.replace(".", "", 1).isdecimal() else float("inf")
