"""The demand of each load case on one fixing: the panel turns accelerations into shear, pull and tilting.

Calculated once for a mount point; every method is proved against the same demands.
"""

from functools import lru_cache
from math import hypot, inf
from operator import attrgetter

from fasten.catalog.practice import LOAD_CASES, LoadCase
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.mechanics.group import tilting_moment_nm, tipping_lever_mm
from fasten.model import Demand, Input, MountPoint, OnFrame, Panel
from fasten.proof.loads import Loads
from fasten.record import lean, record

GRAVITY_M_S2 = 9.80665
ALWAYS = ("road", "standing")
DEFAULT_CASE = "hard-stop"
ALL_PANELS = (Panel.FLOOR, Panel.SEAT_BACK, Panel.SIDE, Panel.ROOF)

_NORMALS = {
    Panel.FLOOR: (0.0, 0.0, 1.0),
    Panel.ROOF: (0.0, 0.0, -1.0),
    Panel.SEAT_BACK: (1.0, 0.0, 0.0),
    Panel.SIDE: (0.0, 1.0, 0.0),
    Panel.DOOR: (0.0, 1.0, 0.0),
}
_ACROSS = {
    panel: attrgetter(*(name for name, along in zip(("x_g", "y_g", "z_g"), normal, strict=True) if along == 0))
    for panel, normal in _NORMALS.items()
}


@lru_cache(maxsize=64)
def demands(mount: MountPoint, tables: Tables) -> tuple[Demand, ...]:
    """The demands that decide, out of every load of each case and each panel that the mount may be on.

    The load goes through the centre of gravity, `cg_mm` off the panel and over the centroid of the fixings. The item is
    taken to tip about that centroid, the safer option beside the compression edge, whichever way is worst for one
    fixing, since how it lies in the vehicle is not asked.
    """
    points = positions_mm(mount.pattern, mount.fixings)
    lever_mm = tipping_lever_mm(points_mm=points, foot_mm=foot_mm(mount, tables))
    even = 1 / mount.fixings
    share = Carried(even, even, 1 / lever_mm, even)
    return _decisive(mount, tables, share, _greatest(tables, mount.case, mount.panel))


@record
class Carried:
    """What one fixing carries of a shear, of a pull, of a moment that tips the item [1/mm], and of what slips."""

    shear: float
    tension: float
    tipping_per_mm: float
    slips: float


def demands_as(mount: MountPoint, tables: Tables, share: Carried) -> tuple[Demand, ...]:
    """The demands that decide on a fixing that carries these shares, whatever they are."""
    return _decisive(mount, tables, share, _accelerations(tables, mount.case, mount.panel))


def _decisive(
    mount: MountPoint, tables: Tables, share: Carried, accelerations: "tuple[_Acceleration, ...]"
) -> tuple[Demand, ...]:
    found = [(one, _load(mount, one, share)) for one in accelerations]
    return Loads(_demand(mount, one, load, share, tables) for one, load in _governing(found))


@lean
class _Acceleration:
    """What a load case brings on a panel, across the fixings and pulling on them."""

    row: LoadCase
    panel: Panel
    across_g: float
    along_g: float


@lru_cache(maxsize=64)
def _accelerations(tables: Tables, case: str | None, panel: Panel) -> tuple[_Acceleration, ...]:
    """All that a mount point on a panel is proved for; of an unknown one, on each that it may be."""
    cases = (*ALWAYS, DEFAULT_CASE if case is None else case)
    panels = ALL_PANELS if panel is Panel.UNKNOWN else (panel,)
    rows = [row for row in tables.rows(LOAD_CASES) if row.case in cases]
    return tuple(_acceleration(row, on) for row in rows for on in panels)


@lru_cache(maxsize=64)
def _greatest(tables: Tables, case: str | None, panel: Panel) -> tuple[_Acceleration, ...]:
    """Those of them that can decide on a fixing that carries an even share, whatever the item is.

    Shear grows with what goes across, pull with that and with what pulls: the load of an acceleration that another of
    its kind exceeds in both is exceeded in both as well.
    """
    found = _accelerations(tables, case, panel)
    return tuple(one for one, _ in _governing([(one, _Load(one.across_g, one.along_g)) for one in found]))


def _acceleration(row: LoadCase, panel: Panel) -> _Acceleration:
    (x, y, z), across = _NORMALS[panel], _ACROSS[panel]
    along_g = max(0.0 + row.x_g * x + row.y_g * y + row.z_g * z, 0.0)  # never less than nothing, nor minus nothing
    return _Acceleration(row, panel, hypot(*across(row)), along_g)


@lean
class _Load:
    """One load on one fixing."""

    shear_n: float
    tension_n: float


_Found = tuple[_Acceleration, _Load]


def _governing(found: list[_Found]) -> list[_Found]:
    """The loads that no other of their kind exceeds in both shear and tension: only they can decide.

    From the greatest shear on, a load stands that pulls more than any before it; of two alike, the first.
    """
    most_n: dict[str, float] = {}
    stands = set()
    for place, (one, load) in sorted(enumerate(found), key=lambda at: (-at[1][1].shear_n, -at[1][1].tension_n)):
        if load.tension_n > most_n.get(one.row.kind, -inf):
            most_n[one.row.kind] = load.tension_n
            stands.add(place)
    return [load for place, load in enumerate(found) if place in stands]


def _load(mount: MountPoint, one: _Acceleration, share: Carried) -> _Load:
    weight_n, on_frame = mount.mass_kg * GRAVITY_M_S2, _carrying_share(mount)
    moment_nm = tilting_moment_nm(force_n=weight_n * one.across_g, height_mm=mount.cg_mm)
    tension_n = one.along_g * weight_n * share.tension + moment_nm * 1000 * share.tipping_per_mm
    return _Load(on_frame * weight_n * one.across_g * share.shear, on_frame * tension_n)


def _carrying_share(mount: MountPoint) -> float:
    """How much more a fixing bears where only some of them go through a frame: those carry, the others locate."""
    carrying = mount.support.fixings if isinstance(mount.support, OnFrame) else None
    return 1.0 if carrying is None else mount.fixings / carrying


def _demand(mount: MountPoint, one: _Acceleration, load: _Load, share: Carried, tables: Tables) -> Demand:
    row, panel = one.row, one.panel
    inputs: tuple[Input, ...] = (
        Input("mass", mount.mass_kg, "kg"),
        Input("fixings", float(mount.fixings), "-"),
        Input("acceleration across the fixings", one.across_g, "g"),
        Input("acceleration pulling", one.along_g, "g"),
        Input("centre of gravity off the panel", mount.cg_mm, "mm"),
        Input("lever of the pattern", 1 / share.tipping_per_mm, "mm"),
    )
    if (on_frame := _carrying_share(mount)) > 1:
        inputs = (*inputs, Input("fixings over those on the frame", on_frame, "-"))
    even, source, shared_n = 1 / mount.fixings, tables.source_id(LOAD_CASES, row), None
    if share.shear != even or share.tension != even:
        inputs = (
            *inputs, Input("shear over an even share", share.shear / even, "-"),
            Input("pull over an even share", share.tension / even, "-"),
        )  # fmt: skip
        shared_n = load.shear_n * share.slips / share.shear if share.shear else 0.0
    return Demand(row.case, row.kind, row.name_, panel, load.shear_n, load.tension_n, inputs, source, shared_n)


def foot_mm(mount: MountPoint, tables: Tables) -> float:
    """How far an item stands on the panel beside a fixing."""
    return rule(tables, Rules.ITEM_FOOT).value * mount.item_hole_mm
