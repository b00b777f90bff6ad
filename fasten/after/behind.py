"""A plate behind plastic or laminate that carries the receiver: the panel is only squeezed between item and plate."""

from collections.abc import Iterator

from fasten.advice.method import Method, gates, joints
from fasten.after.before import Plate
from fasten.after.case import Case, Found, crack_checks, figures_of, least, loads_of, thinnest
from fasten.after.cover import SHARES
from fasten.after.edges import to_edge
from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.practice import FACTORS, TIGHTENING
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import behind_mm, drilled, flange_behind_mm, screw_of
from fasten.mechanics.bearing import bearing_load_n
from fasten.mechanics.cover import strip_bending_mpa
from fasten.mechanics.plastic import punch_plastic_n
from fasten.model import Check, Demand, Input, MountPoint, OnFrame, Proposal, Refusal
from fasten.model.known import Flange
from fasten.proof import panel
from fasten.proof.checks import at_most
from fasten.proof.loads import case_name
from fasten.proof.modes.families import PLASTIC
from fasten.proof.modes.plastic import FAMILIES, strength_of_mpa
from fasten.proof.prove import prove
from fasten.proof.torque.tightening import WAY
from fasten.record import replace
from fasten.text.figures import figure, mm

METAL = "steel"
THICKNESSES_MM = (1.5, 2.0, 3.0)
_CLEAR_MM, _LEAST_ARM_MM = 0.5, 1.0  # round a flange in the panel's hole; of the ring that the plate bends over


def behind(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The best receiver in the thinnest plate that does."""
    return thinnest(route, THICKNESSES_MM, lambda thick_mm, method: _in_plate(thick_mm, method, case, tables))


def _in_plate(thick_mm: float, method: Method, case: Case, tables: Tables) -> Found:
    """The joints of a method in the plate, behind the panel as one more layer under the head."""
    mount = case.mount
    carried = replace(
        mount, material=METAL, thickness_min_mm=thick_mm, thickness_max_mm=thick_mm, place=None, boss=None,
        item_thickness_mm=mount.item_thickness_mm + mount.thickness_max_mm, item_material=_softer(mount, tables),
        support=OnFrame(None), doubler=None, rails=None, spread=None, existing_hole_mm=None, existing_holes_mm=None,
        holes_at=None, existing_thread=None,
    )  # fmt: skip
    refused = gates(method, carried, tables)
    if refused is not None:
        return Found(refused, (), mount)
    loads = loads_of(mount, case, tables)
    sized = [
        (joint, _plate_of(joint_flange_mm(joint), thick_mm, case, tables)) for joint in joints(method, carried, tables)
    ]  # fmt: skip
    tried = [
        prove(joint, replace(carried, edge_mm=plate.side_mm / 2, edge_bound=None), method, loads, tables)
        for joint, plate in sized
    ]
    proof = least(tried, carried, method.NAME, tables)
    if isinstance(proof, Refusal):
        return Found(proof, (), mount)
    plate = _plate_of(joint_flange_mm(proof.joint), thick_mm, case, tables)
    more = (*_squeezed(plate, proof, loads, case, tables), *crack_checks(case), _on_panel(plate, mount, tables))
    failed = next((check for check in more if check.utilisation is not None and check.utilisation > 1), None)
    if failed is not None:
        because = f"a plate of {figure(thick_mm)} mm behind does not do: {failed.title[0].lower()}{failed.title[1:]}"
        return Found(Refusal(method.NAME, because, figures_of(failed), check=failed.id), (), mount)
    stiff = () if isinstance(mount.support, OnFrame) else (panel.stiffness(mount, tables),)
    point = replace(carried, support=mount.support, edge_mm=plate.side_mm / 2, edge_bound=None)
    opened = max(case.left_mm or 0.0, joint_flange_mm(proof.joint) + _CLEAR_MM)
    return Found(proof, (*more, *stiff), point, _in_words(plate, opened), plate=plate)


def _on_panel(plate: Plate, mount: MountPoint, tables: Tables) -> Check:
    """All of the plate on the panel that it presses on."""
    lap, source = rule_value(tables, Rules.BEHIND_LAP)
    inputs = (Input("side of the plate", plate.side_mm, "mm"), Input("laps round the hole", lap, "mm"))
    return to_edge(plate.side_mm / 2, mount, inputs, "side / 2 <= edge distance", (source,))


def joint_flange_mm(joint: object) -> float:
    """How wide the flange is that lies in the panel's hole."""
    receiver = getattr(joint, "receiver", None)
    return receiver.flange.across_mm if receiver is not None and isinstance(receiver.flange, Flange) else 0.0


def _softer(mount: MountPoint, tables: Tables) -> str:
    """The softer of item and panel: what the head presses on, and what lets the clamp relax."""
    soft = [name for name in (mount.material, mount.item_material) if material(tables, name).family in FAMILIES]
    return min(soft, key=lambda name: strength_of_mpa(name, mount, tables)[0], default=mount.material)


def _plate_of(flange_mm: float, thick_mm: float, case: Case, tables: Tables) -> Plate:
    """Square, lapping all round the opened hole of the panel as far as it must."""
    lap, _ = rule_value(tables, Rules.BEHIND_LAP)
    least_mm, _ = rule_value(tables, Rules.COVER_PLATE_LEAST)
    hole_mm = max(case.bad_mm, flange_mm + _CLEAR_MM)
    return Plate(METAL, thick_mm, max(least_mm, hole_mm + 2 * lap), hole_mm, 0, None)


def _squeezed(
    plate: Plate, proof: Proposal, loads: tuple[Demand, ...], case: Case, tables: Tables
) -> Iterator[Check]:  # fmt: skip
    """The panel under the plate, pressed and punched, and the plate bent over the panel's hole."""
    mount, side = case.mount, plate.side_mm
    clamp = _clamp(proof, tables)
    limit, source = rule_value(tables, Rules.PLASTIC_BEARING)
    strength, strong, strong_from = strength_of_mpa(mount.material, mount, tables)
    pressure = min(limit, strength)
    borne = bearing_load_n(washer_mm=side, hole_mm=plate.pitch_mm, pressure_mpa=pressure)
    sizes = (Input("side of the plate", side, "mm"), Input("hole in the panel", plate.pitch_mm, "mm"))
    yield at_most(
        "plate-presses", "Plate presses on the back of the panel", clamp.value, borne, "N",
        (clamp, *sizes, Input("pressure", pressure, "MPa"), *strong), "clamp <= pi / 4 (side^2 - hole^2) pressure",
        (source, *strong_from),
    )  # fmt: skip
    punch = punch_plastic_n(washer_mm=side, sheet_mm=mount.thickness_min_mm, strength_mpa=strength)
    panel_mm = Input("thickness of the panel", mount.thickness_min_mm, "mm")
    for load in _worst_of_kinds(loads):
        row = tables.find(FACTORS, load.kind, PLASTIC.name)
        if row is not None and row.factor is not None:
            inputs = (*load.inputs, sizes[0], panel_mm, *strong, Input("factor", row.factor, "-"))
            yield at_most(
                f"plate-punched.{load.kind}", "Plate pulled through the panel", load.tension_n, punch / row.factor, "N",
                inputs, "pi side t strength / sqrt(3)", (*strong_from, tables.source_id(FACTORS, row)),
                factor=row.factor, load_case=case_name(load),
            )  # fmt: skip
        yield _bent(plate, proof, load, clamp, tables)


def _worst_of_kinds(loads: tuple[Demand, ...]) -> Iterator[Demand]:
    for kind in dict.fromkeys(load.kind for load in loads):
        yield max((load for load in loads if load.kind == kind), key=lambda load: load.tension_n)


def _clamp(proof: Proposal, tables: Tables) -> Input:
    """The greatest clamp that its torque gives, by the least nut factor and the scatter of the way it is tightened."""
    if proof.torque is None:
        return Input("greatest clamp", 0.0, "N")
    diameter = screw_of(proof.joint).diameter_mm
    scatter = tables.need(TIGHTENING, WAY).scatter
    most_n = proof.torque.max_nm * 1000 / (proof.torque.nut_factor.min * diameter) * (1 + scatter)
    return Input("greatest clamp", most_n, "N")


def _bent(plate: Plate, proof: Proposal, load: Demand, clamp: Input, tables: Tables) -> Check:
    """The plate over the panel's hole, loaded at the rim of what is behind it: by the clamp, or by a greater pull."""
    row = material(tables, METAL)
    assert row.yield_mpa is not None, "steel has a yield strength"
    factor, source = rule_value(tables, SHARES.get(load.kind, Rules.COVER_SERVICE))
    bears = max(behind_mm(proof.joint), flange_behind_mm(proof.joint.receiver), drilled(proof.joint).diameter_mm)
    arm = max(plate.pitch_mm - bears, _LEAST_ARM_MM)
    width, force = plate.side_mm - drilled(proof.joint).diameter_mm, max(load.tension_n, clamp.value)
    stress = strip_bending_mpa(force_n=force, span_mm=arm, width_mm=width, thickness_mm=plate.thickness_mm)
    inputs = (
        *load.inputs, Input("pull", force, "N"), Input("span", arm, "mm"), Input("width less hole", width, "mm"),
        Input("plate", plate.thickness_mm, "mm"), Input("yield strength", row.yield_mpa, "MPa"),
        Input("factor", factor, "-"),
    )  # fmt: skip
    return at_most(
        f"plate-bends.{load.kind}", "Plate bends over the panel's hole", stress, row.yield_mpa / factor, "MPa", inputs,
        "1.5 F (hole - what bears) / (width t^2)", (source, tables.source_id(MATERIALS, row)), factor=factor,
        load_case=case_name(load),
    )  # fmt: skip


def _in_words(plate: Plate, opened_mm: float) -> tuple[str, ...]:
    size = f"{figure(plate.side_mm)} x {figure(plate.side_mm)} x {mm(plate.thickness_mm)}"
    return (
        f"Plate {size} of {plate.material} behind, the nut set in it at the bench",
        f"Hole of the panel {mm(opened_mm)}, so that the flange lies in it",
        "The bond and its two countersunk rivets only hold it while you fit it",
    )
