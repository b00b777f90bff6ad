"""How far the board under an item sags in time: it holds, and is a caution."""

from fasten.catalog.materials import BOARD_CREEP
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.floor import floor_of, mass_on_panel_kg
from fasten.mechanics.plate import floor_n_per_mm
from fasten.model import MountPoint
from fasten.record import record

_GRAVITY_M_S2 = 9.80665


@record
class Sag:
    """How far a board floor sags in time under what is on it, at most, and how far it may."""

    in_time_mm: float
    most_mm: float


def sag_of(mount: MountPoint, tables: Tables) -> Sag | None:
    """The sag of a board whose span is known, under the item as a point at its middle; None elsewhere.

    By beam theory on two battens, and EN 1995-1-1 table 3.2 for what it sags further in time (from memory).
    """
    floor, row = floor_of(mount), material(tables, mount.material)
    creep = tables.find(BOARD_CREEP, mount.material)
    if floor is None or creep is None or row.youngs_mpa is None:
        return None
    stiffness = floor_n_per_mm(
        youngs_mpa=row.youngs_mpa, thickness_mm=mount.thickness_min_mm, width_mm=floor.span_mm, span_mm=floor.span_mm
    )
    at_once_mm = mass_on_panel_kg(mount) * _GRAVITY_M_S2 / stiffness
    return Sag(at_once_mm * (1 + creep.further), floor.span_mm / rule(tables, Rules.BOARD_SAG).value)
