"""A doubler of plywood on a board, glued and screwed: the fixing anew in it, its own screws carry what it carries."""

from collections.abc import Iterator

from fasten.advice.advise import method_by, method_of
from fasten.advice.method import Method, gates, joints
from fasten.after.before import Plate
from fasten.after.case import Case, Found, least, loads_of, miss
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.model import Demand, Figure, Input, Into, OnFrame, Pattern, Proposal, Refusal, Removal
from fasten.proof import panel
from fasten.proof.prove import prove
from fasten.record import replace
from fasten.text.figures import figure, mm

WOOD = "birch_plywood"
THICKNESSES_MM = (12.0, 15.0, 18.0)
SCREWS = 4
_ITEM_HOLES_MM = (3.4, 3.9, 4.4, 4.9)  # that the doubler's own screws pass


def doubled(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The joint anew in the thinnest doubler that does, with the proof of the screws that hold it."""
    found = [
        _in_doubler(thick_mm, method, case, tables)
        for thick_mm in THICKNESSES_MM for name in route.methods if (method := method_of(name)) is not None
    ]  # fmt: skip
    return next((one for one in found if not isinstance(one.proof, Refusal)), min(found, key=miss))


def _in_doubler(thick_mm: float, screwing: Method, case: Case, tables: Tables) -> Found:
    mount, loads = case.mount, loads_of(case.mount, case, tables)
    past, _ = rule_value(tables, Rules.REPAIR_DOUBLER_PAST)
    in_edge, _ = rule_value(tables, Rules.REPAIR_DOUBLER_EDGE)
    side_mm = case.bad_mm + 2 * past
    pitch_mm = side_mm - 2 * in_edge
    point = replace(
        mount, material=WOOD, thickness_min_mm=thick_mm, thickness_max_mm=thick_mm, into=Into.FACE,
        edge_mm=side_mm / 2, edge_bound=None, support=OnFrame(None), existing_hole_mm=None, existing_holes_mm=None,
        existing_thread=None, spread=None,
    )  # fmt: skip
    own = method_by(case.joint)
    refused = gates(own, point, tables)
    if refused is not None:
        return Found(refused, (), mount)
    proof = least(
        [prove(one, point, own, loads, tables) for one in joints(own, point, tables)], point, own.NAME, tables
    )
    if isinstance(proof, Refusal):
        return Found(proof, (), mount)
    if case.mount.edge_mm is not None and case.mount.edge_mm <= pitch_mm / 2:
        because = "the screws of a doubler would be past the edge of the board"
        figures = (Figure("pitch / 2", pitch_mm / 2, "mm"), Figure("edge distance", case.mount.edge_mm, "mm"))
        return Found(Refusal(screwing.NAME, because, figures, check="plate-edge"), (), mount)
    held = list(_held(thick_mm, side_mm, pitch_mm, in_edge, screwing, loads, case, tables))
    if not held:
        because = f"no screw holds a doubler of {figure(thick_mm)} mm on this board"
        return Found(Refusal(screwing.NAME, because, ()), (), mount)
    good = next((one for one in held if not isinstance(one[1], Refusal)), None)
    if good is None:
        refusal = held[0][1]
        assert isinstance(refusal, Refusal)
        return Found(replace(refusal, because=f"screws of the doubler: {refusal.because}"), (), mount)
    plate, screws = good
    assert not isinstance(screws, Refusal)
    more = tuple(
        replace(check, id=f"plate-rivets/{check.id}", title=f"Screws of the doubler: {check.title}")
        for check in screws.checks
    )  # fmt: skip
    stiff = () if isinstance(mount.support, OnFrame) else (panel.stiffness(mount, tables),)
    point = replace(point, support=mount.support)
    return Found(proof, (*more, *stiff), point, _in_words(plate), plate=plate)


def _held(
    thick_mm: float, side_mm: float, pitch_mm: float, in_edge: float, screwing: Method, loads: tuple[Demand, ...],
    case: Case, tables: Tables,
) -> Iterator[tuple[Plate, Proposal | Refusal]]:  # fmt: skip
    """Each screw that may hold the doubler in the good board round the old hole, proved with its share."""
    under = replace(
        case.mount, item_thickness_mm=thick_mm, item_material=WOOD, removed=Removal.NEVER, between=None,
        existing_hole_mm=None, existing_holes_mm=None, holes_at=None, existing_thread=None, support=OnFrame(None),
        spread=None, fixings=SCREWS, pattern=Pattern("rectangle", pitch_mm, pitch_mm),
        edge_mm=None if case.mount.edge_mm is None else case.mount.edge_mm - pitch_mm / 2,
    )  # fmt: skip
    for hole_mm in _ITEM_HOLES_MM:
        at = replace(under, item_hole_mm=hole_mm)
        if gates(screwing, at, tables) is not None:
            continue
        for joint in joints(screwing, at, tables):
            plate = Plate(WOOD, thick_mm, side_mm, pitch_mm, SCREWS, joint)
            yield plate, prove(joint, at, screwing, _per_screw(loads, plate), tables)


def _per_screw(loads: tuple[Demand, ...], plate: Plate) -> tuple[Demand, ...]:
    """What a screw of the doubler carries: its share of shear and pull, and of what the shear tips by the thickness."""
    tips = plate.thickness_mm / (plate.pitch_mm * SCREWS / 2)
    more = (
        Input("rivets", float(SCREWS), "-"), Input("plate", plate.thickness_mm, "mm"),
        Input("pitch of the rivets", plate.pitch_mm, "mm"),
    )  # fmt: skip
    return tuple(
        replace(load, shear_n=load.shear_n / SCREWS, tension_n=load.tension_n / SCREWS + load.shear_n * tips,
                shared_n=None, inputs=(*load.inputs, *more))
        for load in loads
    )  # fmt: skip


def _in_words(plate: Plate) -> tuple[str, ...]:
    size = f"{figure(plate.side_mm)} x {figure(plate.side_mm)} x {mm(plate.thickness_mm)}"
    screw = plate.rivet.screw if plate.rivet is not None else None
    said = "screws" if screw is None else f"{screw.thread} x {figure(screw.length_mm)} screws"
    return (
        f"Doubler {size} of birch plywood, glued, with {SCREWS} {said} at {figure(plate.pitch_mm)} x "
        f"{mm(plate.pitch_mm)} in the good board",
        f"Pack every other fixing by {mm(plate.thickness_mm)}",
    )
