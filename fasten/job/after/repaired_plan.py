"""The plan of a mount point whose fixings were repaired: what each takes instead of what was planned for it."""

from collections import Counter
from collections.abc import Iterator

from fasten.advice.bits import HOLE, bits_of
from fasten.advice.parts import fitted_parts, form_of
from fasten.advice.plan import fixing_parts
from fasten.advice.tools import tools_of
from fasten.after.before import Plate
from fasten.after.routes import Route
from fasten.after.shims import lift_mm, on_shim
from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled
from fasten.job.after.repair_steps import with_steps
from fasten.job.after.taken import Taken, base_of, in_force, lift_of
from fasten.model import Answer, Joint, MountPoint, kinds
from fasten.model.line import LineId, Part, Sort
from fasten.model.plan import BitNeed, OddFixing, PartNeed, Plan, Work
from fasten.record import replace
from fasten.text.figures import figure, id_size, mm


def repaired_plan(
    plan: Plan, planned: Answer, point: MountPoint, found: tuple[Taken, ...], tables: Tables
) -> Plan:  # fmt: skip
    """The plan with what each repaired fixing takes instead of what was planned for it, and with the work on it."""
    before = plan.work
    plan = replace(plan, work=Work(lambda: with_steps(before.tasks, found, tables)))
    base, at = base_of(found, planned, point, tables)
    lift, own = lift_of(found), list[tuple[int, PartNeed]]()
    for one in in_force(found):
        if one.route is None:
            continue
        route = one.route if one.whole else _lying(one.route, lift, tables)
        if not one.whole:
            plan = _labelled(_with_odd(plan, base, one, route, tables), one, route)
        fixings = route.point.fixings if one.whole else 1
        plated = tuple(_of_plate(route, fixings, tables))
        plan = replace(plan, parts=_more(plan.parts, plated))
        own += [(one.number, need) for need in (*_of_joint(one, route, fixings, tables), *plated)]
    if lift:
        number = next(one.number for one in in_force(found) if one.route and lift_mm((one.route.placed.plate,)) == lift)
        shims = tuple(_shims(found, lift, at, tables))
        longer = _longer(base, planned, sum(need.count for need in shims), tables)
        plan = replace(plan, parts=_more(plan.parts, shims))
        own += [(number, need) for need in (*shims, *longer)]
    return replace(plan, repaired=tuple(own))


def _of_joint(one: Taken, route: Route, fixings: int, tables: Tables) -> Iterator[PartNeed]:
    """The parts of what a repair puts in."""
    if route.answer is not None and not one.leaves_out:
        alone = (replace(need, count=need.count * fixings) for need in fixing_parts(route.answer.proposal, tables))
        yield from alone


def _longer(base: Answer, planned: Answer, fixings: int, tables: Tables) -> Iterator[PartNeed]:
    """The longer screws that fixings take on their shims."""
    was = {need.id for need in fixing_parts(planned.proposal, tables)}
    for need in fixing_parts(base.proposal, tables):
        if need.id not in was:
            yield replace(need, count=need.count * fixings)


def _lying(route: Route, lift: float, tables: Tables) -> Route:
    """A route of one fixing with the screw that it takes on its shim, where a plate at another lifts the item."""
    own_mm = lift - lift_mm((route.placed.plate,))
    if route.answer is None or own_mm <= 0:
        return route
    proposal = route.answer.proposal
    for one in on_shim(proposal.joint, own_mm, route.point, tables):
        if isinstance(one, Joint):
            return replace(route, answer=replace(route.answer, proposal=replace(proposal, joint=one)))
    return route


def _shims(found: tuple[Taken, ...], lift: float, point: MountPoint, tables: Tables) -> Iterator[PartNeed]:
    """The shims that all fixings lie on but those with the plate that lifts the item, each as wide as that plate."""
    single = [one for one in in_force(found) if not one.whole and one.route is not None]
    plates = {one.repair.at: one.route.placed.plate for one in single if one.route is not None}
    out = {one.repair.at for one in single if one.leaves_out}
    most = next(plate for plate in plates.values() if plate is not None and plate.thickness_mm == lift)
    heights = Counter(
        lift - lift_mm((plates.get(number),)) for number in range(1, point.fixings + 1) if number not in out
    )  # fmt: skip
    for height_mm, count in heights.items():
        if height_mm > 0:
            yield _shim(replace(most, thickness_mm=height_mm), point.item_hole_mm, count, tables)


def _shim(plate: Plate, hole_mm: float, count: int, tables: Tables) -> PartNeed:
    need, kind = _plate_need(plate, count, tables), kinds.SHIM
    hole, size = f"hole {mm(hole_mm)}", need.part.size
    line = LineId(Sort.PART, kind.key, (size, plate.material, "", id_size(hole_mm), ""))
    part = Part(kind.line, size, f"{need.part.name}, {hole}", "", None)
    return PartNeed(line, part, "", kind.listed, kind.spares, count, 0)


def _of_plate(route: Route, fixings: int, tables: Tables) -> Iterator[PartNeed]:
    """The plate or doubler at each repaired fixing, and what holds it."""
    plate = route.placed.plate
    if plate is None:
        return
    yield _plate_need(plate, fixings, tables)
    for fitted, each in fitted_parts(plate.rivet, tables) if plate.rivet is not None else ():
        form = form_of(fitted.part, fitted.kind, tables)
        count = each * plate.rivets * fixings
        yield PartNeed(fitted.id, fitted.part, form, fitted.kind.listed, fitted.kind.spares, count, 0)


def _plate_need(plate: Plate, fixings: int, tables: Tables) -> PartNeed:
    size = f"{figure(plate.side_mm)} x {figure(plate.side_mm)} x {mm(plate.thickness_mm)}"
    kind, metal = kinds.DOUBLER, material(tables, plate.material)
    name = f"{metal.title} sheet" if metal.family == "sheet" else metal.title
    line = LineId(Sort.PART, kind.key, (size, plate.material, "", "", ""))
    return PartNeed(line, Part(kind.line, size, name, "", None), "", kind.listed, kind.spares, fixings, 0)


def _with_odd(plan: Plan, planned: Answer, one: Taken, route: Route, tables: Tables) -> Plan:
    """The plan with one fixing as its route has it; one without a joint of its own keeps its parts."""
    if one.leaves_out:
        return replace(plan, parts=_less(plan.parts, planned, tables), bits=_less_bits(plan.bits, planned))
    if route.answer is None:
        return plan
    alone = replace(route.point, fixings=1, pattern=None)
    parts = _more(_less(plan.parts, planned, tables), tuple(fixing_parts(route.answer.proposal, tables)))
    bits = dict.fromkeys((*_less_bits(plan.bits, planned), *bits_of(route.answer, alone, tables)))
    tools = dict.fromkeys((*plan.tools, *tools_of(route.answer, alone, tables)))
    return replace(plan, parts=parts, bits=tuple(bits), tools=tuple(tools))


def _less(parts: tuple[PartNeed, ...], planned: Answer, tables: Tables) -> tuple[PartNeed, ...]:
    """The parts without those of one fixing as it was planned."""
    away = {need.id: need for need in fixing_parts(planned.proposal, tables)}
    left = (
        need if need.id not in away else replace(
            need, count=need.count - away[need.id].count, renewed=max(need.renewed - away[need.id].renewed, 0)
        )
        for need in parts
    )  # fmt: skip
    return tuple(need for need in left if need.count > 0)


def _less_bits(bits: tuple[BitNeed, ...], planned: Answer) -> tuple[BitNeed, ...]:
    """The bits with one hole less as it was planned."""
    hole = planned.proposal.joint.hole
    return tuple(
        replace(need, count=need.count - 1)
        if hole is not None and need.purpose == HOLE and need.name == hole.bit.name and need.count > 1 else need
        for need in bits
    )  # fmt: skip


def _labelled(plan: Plan, one: Taken, route: Route) -> Plan:
    """The plan with what the label of its bag says of a fixing that is unlike the others."""
    assert one.repair.at is not None
    if one.leaves_out:
        return _with_label(plan, OddFixing(one.repair.at, "left out, its hole sealed", None))
    if route.answer is None:
        return _with_label(plan, OddFixing(one.repair.at, route.title, None))
    joint, torque = route.answer.proposal.joint, route.answer.proposal.torque
    said = [] if joint.screw is None else [f"{joint.screw.thread} x {figure(joint.screw.length_mm)}"]
    said += [] if joint.hole is None else [f"hole {mm(drilled(joint).diameter_mm)}"]
    said += [] if route.placed.slot_mm is None or route.opened_mm is None else [f"slot {mm(route.opened_mm)}"]
    target_nm = None if torque is None else torque.target_nm
    return _with_label(plan, OddFixing(one.repair.at, ", ".join([route.title, *said]), target_nm))


def _with_label(plan: Plan, odd: OddFixing) -> Plan:
    return replace(plan, label=replace(plan.label, odd=(*plan.label.odd, odd)))


def _more(parts: tuple[PartNeed, ...], added: tuple[PartNeed, ...]) -> tuple[PartNeed, ...]:
    """The parts with these as well, each once."""
    lines = {need.id: need for need in parts}
    for need in added:
        was = lines.get(need.id)
        both = need if was is None else replace(was, count=was.count + need.count, renewed=was.renewed + need.renewed)
        lines[need.id] = both
    return tuple(lines.values())
