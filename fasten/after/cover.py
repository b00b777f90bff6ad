"""A plate over a bad hole: the receiver in the plate, and four rivets round the hole that hold the plate."""

from collections.abc import Iterator
from math import hypot, sqrt

from fasten.advice.advise import method_by
from fasten.advice.method import Method, gates, joints
from fasten.after.before import Plate, rivet_circle_mm
from fasten.after.case import Case, Found, crack_checks, figures_of, least, loads_of, miss, thinnest
from fasten.after.damage import CRACKED
from fasten.after.edges import to_edge
from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled, drilled_mm
from fasten.mechanics.cover import strip_bending_mpa
from fasten.model import (
    Check,
    Demand,
    Input,
    Joint,
    MountPoint,
    OnFrame,
    Pattern,
    Proposal,
    Refusal,
    Removal,
    Status,
)
from fasten.proof.checks import at_most
from fasten.proof.loads import case_name
from fasten.proof.prove import prove
from fasten.record import replace
from fasten.text.figures import figure, mm

THICKNESSES_MM = (1.5, 2.0)
RIVETS = 4
_STEP_MM = 2.0
SHARES = {"service": Rules.COVER_SERVICE, "sustained": Rules.COVER_SERVICE, "hard_stop": Rules.COVER_HARD_STOP}


def covered(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The best receiver in the thinnest plate that does, with the proof of its rivets and of its bending."""
    case = without_plate(case)
    return thinnest(route, THICKNESSES_MM, lambda thick_mm, method: _in_plate(thick_mm, method, case, tables))


def without_plate(case: Case) -> Case:
    """The same with a plate of a repair before taken off: its rivet holes are within what nothing holds in."""
    if case.own is None or case.own.plate is None or not case.own.is_in_plate:
        return case
    bad_mm = max(case.left_mm or 0.0, rivet_circle_mm(case.own.plate))
    return replace(case, joint=case.planned, mount=case.group, left_mm=bad_mm)


def _in_plate(thick_mm: float, riveting: Method, case: Case, tables: Tables) -> Found:
    plates = list(_plates(thick_mm, riveting, case, tables))
    if not plates:
        because = f"no rivet grips the plate and the {case.mount.thickness_max_mm:g} mm under it"
        return Found(Refusal(riveting.NAME, because, ()), (), case.mount)
    found = [_proved(plate, at, riveting, case, tables) for plate, at in plates]
    return next((one for one in found if not isinstance(one.proof, Refusal)), min(found, key=miss))


def _plates(
    thick_mm: float, riveting: Method, case: Case, tables: Tables
) -> Iterator[tuple[Plate, MountPoint]]:  # fmt: skip
    """A plate for each rivet that grips plate and sheet, as wide as rivets keep from its edges and the old rim."""
    hole_mm = _cut_mm(case)
    under = _under(case.mount, thick_mm)
    edge, _ = rule_value(tables, Rules.COVER_RIVET_EDGE)
    least_mm, _ = rule_value(tables, Rules.COVER_PLATE_LEAST)
    for item_hole_mm in (4.1, 4.9, 3.3):
        for rivet in riveting.joints(replace(under, item_hole_mm=item_hole_mm), tables):
            diameter = drilled(rivet).diameter_mm
            corner = hole_mm / 2 + edge * diameter  # from the middle to a rivet
            pitch_mm = _up(corner * sqrt(2))
            side_mm = max(least_mm, _up(pitch_mm + 2 * edge * diameter), _past_crack_mm(case, tables))
            at = replace(
                under, item_hole_mm=item_hole_mm, edge_mm=edge * diameter,
                pattern=Pattern("rectangle", pitch_mm, pitch_mm),
            )  # fmt: skip
            yield Plate(case.mount.material, thick_mm, side_mm, pitch_mm, RIVETS, rivet, over=True), at


def _cut_mm(case: Case) -> float:
    """The hole in the sheet under the plate: the bad one, and at least room for the new receiver through it."""
    hole = case.joint.hole
    return max(case.bad_mm, hole.diameter_mm if hole is not None else 0.0)


def _past_crack_mm(case: Case, tables: Tables) -> float:
    """How wide a plate is over a crack: it reaches past its end."""
    past, _ = rule_value(tables, Rules.COVER_CRACK_PAST)
    return _up(case.bad_mm + 2 * past) if case.damage.what == CRACKED else 0.0


def _up(length_mm: float) -> float:
    return _STEP_MM * -(-length_mm // _STEP_MM)


def _proved(plate: Plate, at: MountPoint, riveting: Method, case: Case, tables: Tables) -> Found:
    edge = _rivets_to_edge(plate, case.mount, tables)
    if edge.status is Status.FAILS:
        because = "the rivets of its plate come too near the edge of the panel"
        return Found(Refusal(riveting.NAME, because, figures_of(edge), check=edge.id), (), case.mount)
    loads = loads_of(case.mount, case, tables)
    rivets = prove(rivet_of(plate), at, riveting, _per_rivet(loads, plate), tables)
    if isinstance(rivets, Refusal):
        return Found(replace(rivets, because=f"rivets of the plate: {rivets.because}"), (), case.mount)
    point = replace(
        case.mount, edge_mm=plate.side_mm / 2, edge_bound=None, existing_hole_mm=None, existing_holes_mm=None
    )
    own = method_by(case.joint)
    in_plate = replace(point, thickness_min_mm=plate.thickness_mm, thickness_max_mm=plate.thickness_mm)
    refused = gates(own, in_plate, tables)
    if refused is not None:
        return Found(refused, (), case.mount)
    tried = [prove(joint, point, own, loads, tables) for joint in joints(own, in_plate, tables)]
    proof = least(tried, point, own.NAME, tables)
    if isinstance(proof, Refusal):
        return Found(proof, (), case.mount)
    more = (
        *_of_rivets(rivets), *_bends(plate, proof, loads, case.mount, tables), *crack_checks(case), edge,
    )  # fmt: skip
    failed = next((check for check in more if check.utilisation is not None and check.utilisation > 1), None)
    if failed is not None and failed.id.startswith("plate-bends"):
        because = f"a plate of {plate.thickness_mm:g} mm bends too far"
        return Found(Refusal(own.NAME, because, figures_of(failed), check=failed.id), (), case.mount)
    return Found(proof, more, point, _in_words(plate), plate=plate)


def _rivets_to_edge(plate: Plate, mount: MountPoint, tables: Tables) -> Check:
    """The rivets in the sheet under the plate, half their pitch nearer an edge than the hole."""
    ratio, source = rule_value(tables, Rules.COVER_RIVET_EDGE)
    diameter = drilled(rivet_of(plate)).diameter_mm
    inputs = (
        Input("pitch of the rivets", plate.pitch_mm, "mm"), Input("diameters apart", ratio, "-"),
        Input("diameter", diameter, "mm"),
    )  # fmt: skip
    formula = "pitch / 2 + diameters apart x diameter <= edge distance"
    return to_edge(plate.pitch_mm / 2 + ratio * diameter, mount, inputs, formula, (source,))


def kept(case: Case, proof: Proposal, tables: Tables) -> tuple[Check, ...] | Refusal:
    """The plate of a repair before under what is in it now: its rivets, their distance to its hole, its bending."""
    plate = case.own.plate if case.own is not None else None
    if plate is None or not plate.over:
        return ()
    loads, rivet, hole_mm = loads_of(case.group, case, tables), rivet_of(plate), drilled_mm(proof.joint)
    edge, source = rule_value(tables, Rules.COVER_RIVET_EDGE)
    through_mm = drilled(rivet).diameter_mm
    at = replace(
        _under(case.group, plate.thickness_mm), item_hole_mm=through_mm, edge_mm=edge * through_mm,
        pattern=Pattern("rectangle", plate.pitch_mm, plate.pitch_mm),
    )  # fmt: skip
    rivets = prove(rivet, at, method_by(rivet), _per_rivet(loads, plate), tables)
    if isinstance(rivets, Refusal):
        return replace(rivets, because=f"rivets of the plate: {rivets.because}")
    inputs = (
        Input("diameters apart", edge, "-"), Input("diameter", through_mm, "mm"),
        Input("pitch of the rivets", plate.pitch_mm, "mm"), Input("hole", hole_mm, "mm"),
    )  # fmt: skip
    far_mm = hypot(plate.pitch_mm, plate.pitch_mm) / 2 - hole_mm / 2
    formula = "diameters apart x diameter <= pitch / sqrt(2) - hole / 2"
    rim = at_most("plate-rim", "Rivets of the plate to its hole", edge * through_mm, far_mm, "mm", inputs, formula,
                  (source,))  # fmt: skip
    return (
        rim,
        _rivets_to_edge(plate, case.group, tables),
        *_bends(plate, proof, loads, case.group, tables),
        *_of_rivets(rivets),
    )


def _of_rivets(rivets: Proposal) -> Iterator[Check]:
    for check in rivets.checks:
        yield replace(check, id=f"plate-rivets/{check.id}", title=f"Rivets of the plate: {check.title}")


def _under(mount: MountPoint, thick_mm: float) -> MountPoint:
    """The mount point as the rivets of a plate have it: the plate is what they hold."""
    return replace(
        mount, item_thickness_mm=thick_mm, item_material=mount.material, removed=Removal.NEVER, between=None,
        existing_hole_mm=None, existing_holes_mm=None, holes_at=None, support=OnFrame(None), doubler=None, spread=None,
        fixings=RIVETS, existing_thread=None,
    )  # fmt: skip


def rivet_of(plate: Plate) -> Joint:
    """The joint of what holds a plate."""
    assert plate.rivet is not None, "a cover plate is riveted"
    return plate.rivet


def _in_words(plate: Plate) -> tuple[str, ...]:
    screw = plate.rivet.screw if plate.rivet is not None else None
    size = f"{figure(plate.side_mm)} x {figure(plate.side_mm)} x {mm(plate.thickness_mm)}"
    rivet = "rivets" if screw is None else f"{screw.thread} rivets"
    return (
        f"Plate {size}, {RIVETS} {rivet} at {figure(plate.pitch_mm)} x {mm(plate.pitch_mm)}, primed and bonded",
        f"Shim every other fixing by {mm(plate.thickness_mm)}; no rivet head under the item's foot",
    )


def _per_rivet(loads: tuple[Demand, ...], plate: Plate) -> tuple[Demand, ...]:
    """What a rivet carries: its share of shear and pull, and of what the shear tips by the plate's thickness."""
    tips = plate.thickness_mm / (plate.pitch_mm * RIVETS / 2)
    more = (
        Input("rivets", float(RIVETS), "-"), Input("plate", plate.thickness_mm, "mm"),
        Input("pitch of the rivets", plate.pitch_mm, "mm"),
    )  # fmt: skip
    return tuple(
        replace(
            load, shear_n=load.shear_n / RIVETS, tension_n=load.tension_n / RIVETS + load.shear_n * tips,
            inputs=(*load.inputs, *more),
        )
        for load in loads
    )  # fmt: skip


def _bends(
    plate: Plate, proof: Proposal, loads: tuple[Demand, ...], mount: MountPoint, tables: Tables
) -> Iterator[Check]:
    """The plate as a beam from rivet row to rivet row, its width less the receiver's hole, for each kind of load."""
    row, hole_mm = material(tables, mount.material), drilled_mm(proof.joint)
    assert row.yield_mpa is not None, "sheet has a yield strength"
    width_mm = plate.side_mm - hole_mm
    for kind in dict.fromkeys(load.kind for load in loads):
        worst = max((load for load in loads if load.kind == kind), key=lambda load: load.tension_n)
        factor, source = rule_value(tables, SHARES.get(kind, Rules.COVER_SERVICE))
        stress = strip_bending_mpa(
            force_n=worst.tension_n, span_mm=plate.pitch_mm, width_mm=width_mm, thickness_mm=plate.thickness_mm
        )
        inputs = (
            *worst.inputs, Input("pull", worst.tension_n, "N"), Input("span", plate.pitch_mm, "mm"),
            Input("width less hole", width_mm, "mm"), Input("plate", plate.thickness_mm, "mm"),
            Input("yield strength", row.yield_mpa, "MPa"), Input("factor", factor, "-"),
        )  # fmt: skip
        yield at_most(
            f"plate-bends.{kind}", "Plate bends between its rivets", stress, row.yield_mpa / factor, "MPa", inputs,
            "1.5 F span / (width t^2)", (source, tables.source_id(MATERIALS, row)), factor=factor,
            load_case=case_name(worst),
        )  # fmt: skip
