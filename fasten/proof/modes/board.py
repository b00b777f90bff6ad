"""Failure modes in board and wood: screw or insert pulled out, pressed sideways, and board crushed from behind.

Withdrawals are mean ultimate loads and side loads estimates; `proof` divides both by the factor of the load case, which
for the weight that stays is the largest.
"""

from functools import lru_cache

from fasten.catalog.materials import BOARD_KINDS, MATERIALS, BoardKind
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled, flange_behind_mm, outside_mm, screw_of
from fasten.mechanics import board
from fasten.mechanics.bearing import bearing_load_n
from fasten.model import Input, Into, Joint, MountPoint, Position, Removal
from fasten.model.kinds import Bears, Holds
from fasten.proof.modes import families
from fasten.proof.modes.common import formula
from fasten.proof.modes.mode import SUBSTRATE_SHEAR, SUBSTRATE_TENSION, Capacity, Mode, Needed

COMPOSITE = "composite"
PANEL = "board"  # of boards that are no composite: plywood


def kind(tables: Tables, mount: MountPoint) -> BoardKind:
    """How the mount's board or wood takes a screw."""
    return _kind_of(mount.material, tables)


def _kind_of(name: str, tables: Tables) -> BoardKind:
    return tables.need(BOARD_KINDS, name)


def outer_mm(joint: Joint) -> float:
    """What is threaded into the board or presses on it sideways: the insert, else the screw."""
    if joint.receiver is not None and joint.receiver.kind.bears is Bears.BODY:
        return outside_mm(joint.receiver)
    return screw_of(joint).diameter_mm


def depth_mm(joint: Joint) -> float:
    """How deep it holds: the insert's length, the screw's thread in the board, or the whole board."""
    if joint.receiver is None:
        return screw_of(joint).engagement_mm
    return joint.receiver.length_mm if joint.receiver.kind.holds is Holds.OWN_LENGTH else joint.sheet_mm


def _density(tables: Tables, name: str) -> tuple[Input, str]:
    row = material(tables, name)
    assert row.density_g_cm3 is not None
    return Input(f"density of {name}", row.density_g_cm3, "g/cm³"), tables.source_id(MATERIALS, row)


def _into(inserted: bool, outer_mm: float, depth_mm: float) -> tuple[Input, Input]:
    part = "insert" if inserted else "screw"
    return Input(f"diameter of the {part}", outer_mm, "mm"), Input("depth in the board", depth_mm, "mm")


def _withdrawal(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity | Needed:
    inserted, edge = joint.receiver is not None, mount.into is Into.EDGE
    again = not inserted and mount.removed is not Removal.NEVER  # an insert stays where it is
    return _withdrawn(tables, mount.material, inserted, outer_mm(joint), depth_mm(joint), edge, again)


@lru_cache(maxsize=256)
def _withdrawn(
    tables: Tables, name: str, inserted: bool, outer_mm: float, depth_mm: float, edge: bool, again: bool
) -> Capacity | Needed:
    """By the equation of the board's kind; what is driven again into the same hole holds less."""
    row, (density, source) = _kind_of(name, tables), _density(tables, name)
    diameter, depth = _into(inserted, outer_mm, depth_mm)
    if row.form == COMPOSITE:
        equation = board.screw_withdrawal_edge_n if edge else board.screw_withdrawal_face_n
        penetration_mm = depth.value + (diameter.value / 3 if inserted else 0.0)  # it has no point, which holds nothing
        load_n = equation(major_mm=diameter.value, penetration_mm=penetration_mm, density_g_cm3=density.value)
        part = "board-insert-withdrawal" if inserted else "board-withdrawal"
        expression, formula_source = formula(tables, f"{part}-{(Into.EDGE if edge else Into.FACE).value}")
        shares: tuple[Input, ...] = ()
    else:
        load_n = board.wood_screw_withdrawal_n(
            shank_mm=diameter.value, penetration_mm=depth.value, density_g_cm3=density.value
        )
        expression, formula_source = formula(tables, "wood-withdrawal")
        if edge and row.edge_share is None:
            return Needed("the share of its hold that an edge leaves", expression, (formula_source, source))
        shares = (Input("edge over face", row.edge_share if edge and row.edge_share is not None else 1.0, "-"),)
    kept, kept_source = _kept(tables) if again else ((), ())
    for share in (*shares, *kept):
        load_n *= share.value
    expression += " x share kept" if kept else ""
    sources = (formula_source, source, tables.source_id(BOARD_KINDS, row), *kept_source)
    return Capacity(load_n, (diameter, depth, density, *shares, *kept), expression, sources, kept)


def _kept(tables: Tables) -> tuple[tuple[Input, ...], tuple[str, ...]]:
    """The share of withdrawal left to a screw that comes out and goes in again."""
    share, source = rule_value(tables, Rules.REDRIVEN_SHARE)
    return (Input("share kept after driving again", share, "-"),), (source,)


def embedment_mpa(
    name: str, diameter: Input, depth: Input, tables: Tables
) -> tuple[str, float, tuple[Input, ...], str]:
    """The form that fits, what the board bears under the shank, what that follows from beside them, its source."""
    density, source = _density(tables, name)
    if _kind_of(name, tables).form == COMPOSITE:
        return "board", board.embedment_board_mpa(screw_mm=diameter.value, board_mm=depth.value), (), source
    kg_m3 = density.value * 1000
    if material(tables, name).family == PANEL:
        found = board.embedment_plywood_mpa(screw_mm=diameter.value, density_kg_m3=kg_m3)
        return "plywood", found, (density,), source
    found = board.embedment_wood_mpa(screw_mm=diameter.value, density_kg_m3=kg_m3)
    return "wood", found, (density,), source


def _lateral(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """By the thin-plate form, as an estimate."""
    inserted, edge = joint.receiver is not None, mount.into is Into.EDGE
    return _sideways(tables, mount.material, inserted, outer_mm(joint), depth_mm(joint), edge)


@lru_cache(maxsize=256)
def _sideways(tables: Tables, name: str, inserted: bool, outer_mm: float, depth_mm: float, edge: bool) -> Capacity:
    diameter, depth = _into(inserted, outer_mm, depth_mm)
    form, strength_mpa, more, source = embedment_mpa(name, diameter, depth, tables)
    load_n = board.lateral_ec5_n(embedment_mpa=strength_mpa, depth_mm=depth.value, screw_mm=diameter.value)
    expression, formula_source = formula(tables, f"{form}-lateral")
    inputs = (diameter, depth, *more)
    if not edge:
        return Capacity(load_n, inputs, expression, (formula_source, source))
    share, share_source = rule_value(tables, Rules.EDGE_LATERAL_SHARE)
    inputs = (*inputs, Input("edge over face", share, "-"))
    return Capacity(load_n * share, inputs, f"{expression} x edge share", (formula_source, source, share_source))


def lateral(mount: MountPoint) -> Mode:
    """Pressed sideways: a face gives way under the shank slowly, an edge splits."""
    return LATERAL_EDGE if mount.into is Into.EDGE else LATERAL


def _bolt_lateral(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """By the hole form, as an estimate: head, nut and their washers keep a bolt upright, as they do in the item."""
    return _bolt_upright(tables, mount.material, screw_of(joint).diameter_mm, joint.sheet_mm)


@lru_cache(maxsize=256)
def _bolt_upright(tables: Tables, name: str, bolt_mm: float, board_mm: float) -> Capacity:
    return upright(name, Input("diameter of the bolt", bolt_mm, "mm"), Input("board", board_mm, "mm"), tables)


def upright(name: str, shank: Input, whole: Input, tables: Tables) -> Capacity:
    """What presses long the hole of a shank that is held upright: all of the depth bears up to where it would bend."""
    ratio, ratio_source = rule_value(tables, Rules.ITEM_DEPTH_MOST)
    depth = Input("depth that bears", min(whole.value, ratio * shank.value), "mm")
    form, strength_mpa, more, source = embedment_mpa(name, shank, depth, tables)
    expression, formula_source = formula(tables, f"{form}-hole")
    load = board.hole_bearing_n(embedment_mpa=strength_mpa, depth_mm=depth.value, screw_mm=shank.value)
    inputs = (whole, shank, Input("most depth over diameter", ratio, "-"), *more)
    return Capacity(load, inputs, expression, (formula_source, source, ratio_source))


def back_mm(joint: Joint) -> float:
    """What bears on the back of the board: the washer under the nut, or the flange of a tee nut."""
    washers = [washer.outer_mm for washer in joint.washers if washer.place == Position.NUT]
    return max([flange_behind_mm(joint.receiver), *washers])


def _back_pressure(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity:
    """What the board bears under the washer or flange behind it: a limit on pressure, not a strength."""
    hole_mm = drilled(joint).diameter_mm + drilled(joint).tolerance_mm.plus
    return _pressed_behind(tables, back_mm(joint), hole_mm, joint.from_)


@lru_cache(maxsize=256)
def _pressed_behind(tables: Tables, outer_mm: float, hole_mm: float, from_: tuple[str, ...]) -> Capacity:
    limit, source = rule_value(tables, Rules.BOARD_BEARING)
    expression, formula_source = formula(tables, "pressure")
    load_n = bearing_load_n(washer_mm=outer_mm, hole_mm=hole_mm, pressure_mpa=limit)
    inputs = (
        Input("diameter behind the board", outer_mm, "mm"), Input("hole in the board", hole_mm, "mm"),
        Input("pressure", limit, "MPa"),
    )  # fmt: skip
    return Capacity(load_n, inputs, expression, (formula_source, source, *from_))


SCREW_WITHDRAWAL = Mode(
    "withdrawal", "Screw pulled out of the board", families.BOARD, "tension", _withdrawal, SUBSTRATE_TENSION
)
INSERT_WITHDRAWAL = Mode(
    "insert-withdrawal", "Insert pulled out, extrapolated from screws (estimate)", families.BOARD, "tension",
    _withdrawal, SUBSTRATE_TENSION, estimate=True,
)  # fmt: skip
_SIDEWAYS = "Pressed sideways in the board (estimate)"
LATERAL = Mode(
    "board-lateral", _SIDEWAYS, families.BOARD_BEARING, "shear", _lateral, SUBSTRATE_SHEAR, estimate=True,
)  # fmt: skip
LATERAL_EDGE = Mode(
    "board-lateral-edge", _SIDEWAYS, families.BOARD, "shear", _lateral, SUBSTRATE_SHEAR, estimate=True,
)  # fmt: skip
BOLT_LATERAL = Mode(
    "board-bolt", "Board's hole elongated by the bolt (estimate)", families.BOARD_BEARING, "shear", _bolt_lateral,
    SUBSTRATE_SHEAR, estimate=True, by_screw=True,
)  # fmt: skip
BACK_PRESSURE = Mode(
    "board-back", "Washer behind pulled through the board", families.ITEM_SOFT, "tension", _back_pressure,
    SUBSTRATE_TENSION,
)  # fmt: skip
FLANGE_PULL = Mode(
    "flange-pull", "Tee-nut flange pulled through the board", families.ITEM_SOFT, "tension", _back_pressure,
    SUBSTRATE_TENSION,
)  # fmt: skip
