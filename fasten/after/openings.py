"""Routes that open the item instead of the panel: a slot, or a wider hole, which the clamp alone holds."""

from fasten.advice.advise import method_by
from fasten.advice.item_hole import with_item_hole
from fasten.advice.method import gates, joints
from fasten.after.case import Case, Found, figures_of, least, loads_of
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import head_mm
from fasten.model import Check, Figure, Input, Joint, MountPoint, Proposal, Refusal, Status
from fasten.proof.checks import at_most
from fasten.proof.prove import prove
from fasten.record import replace
from fasten.text.figures import mm

_LARGER = ("M4", "M5", "M6", "M8", "M10")


def thread_of(joint: Joint) -> str:
    """The thread of what is screwed in, or of what takes a screw; empty where there is none."""
    part = joint.screw or joint.receiver
    return part.thread if part is not None else ""


def series_of(joint: Joint) -> str:
    """The series of what stays in the substrate; empty where nothing does."""
    return joint.receiver.series if joint.receiver is not None else ""


def is_same(joint: Joint, case: Case) -> bool:
    """Whether a joint is of the same part and thread as the one that is repaired."""
    return thread_of(joint) == thread_of(case.joint) and series_of(joint) == series_of(case.joint)


def off_mm(case: Case) -> float:
    """How far a hole is off beyond the play of its screw in the item's hole."""
    assert case.damage.size_mm is not None
    through = case.joint.screw.diameter_mm if case.joint.screw is not None else case.mount.item_hole_mm
    return max(case.damage.size_mm - max((case.mount.item_hole_mm - through) / 2, 0.0), 0.0)


def slot(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """A slot longer by what the play does not give: covered as a hole of its length, the clamp alone along it."""
    slotted = 1 if case.alone else case.mount.fixings
    if slotted > 1 and slotted > case.mount.fixings / 2:
        figures = (Figure("slots", float(slotted), "-"), Figure("at most half of", float(case.mount.fixings), "-"))
        because = "all would be slotted the same way, so that nothing holds it along them: say which with --at"
        return Found(Refusal(case.joint.method, because, figures), (), case.mount)
    found = loosened(case, case.mount.item_hole_mm + off_mm(case), tables)
    share, _ = rule_value(tables, Rules.ITEM_EDGE)
    edge_mm = share * (case.joint.screw.diameter_mm if case.joint.screw is not None else case.mount.item_hole_mm)
    wide = f"{mm(case.mount.item_hole_mm)} wide, {mm(case.mount.item_hole_mm + off_mm(case))} long"
    notes = (f"Slot {wide}; leave {mm(edge_mm)} of the item beyond its end",)
    return replace(found, notes=notes, slot_mm=case.mount.item_hole_mm)


def loosened(case: Case, wide_mm: float, tables: Tables) -> Found:
    """The same joint over an opening of the item as wide, held by its clamp with the full factor on slip."""
    there_mm = None if case.own is None else case.left_mm
    mount = replace(with_item_hole(case.mount, wide_mm), existing_hole_mm=there_mm)
    method, loads = method_by(case.joint), loads_of(mount, case, tables)
    found: list[Proposal | Refusal] = []
    for joint in joints(method, mount, tables) if gates(method, mount, tables) is None else ():
        if is_same(joint, case):
            loose = replace(joint, oversize_mm=wide_mm - case.mount.item_hole_mm)
            found.append(_uncovered(loose, wide_mm, tables) or prove(loose, mount, method, loads, tables))
    proof = least(found, mount, method.NAME, tables)
    if isinstance(proof, Proposal) and proof.torque is not None and proof.torque.clamp_reserve is None:
        proof = Refusal(method.NAME, "along it friction alone counts, and this joint keeps no clamp", ())
    return Found(proof, (_cover(proof.joint, wide_mm, tables),) if isinstance(proof, Proposal) else (), mount)


def _cover(joint: Joint, wide_mm: float, tables: Tables) -> Check:
    """What bears on the item over an opening, all round."""
    cover_mm, source = rule_value(tables, Rules.OVERSIZE_COVER)
    inputs = (Input("opening", wide_mm, "mm"), Input("cover all round", cover_mm, "mm"))
    return at_most("opening-cover", "Head or washer covers the opening", wide_mm + 2 * cover_mm, head_mm(joint), "mm",
                   inputs, "opening + 2 x cover <= head or washer", (*joint.from_, source))  # fmt: skip


def _uncovered(joint: Joint, wide_mm: float, tables: Tables) -> Refusal | None:
    check = _cover(joint, wide_mm, tables)
    if check.status is Status.HOLDS:
        return None
    because = "no head or washer covers the opened hole"
    return Refusal(joint.method, because, figures_of(check), check="head-cover")


def wider(mount: MountPoint, tables: Tables) -> list[MountPoint]:
    """The mount point as it is, and with the item's holes opened for each larger screw."""
    rows = [row for size in _LARGER if (row := tables.find(METRIC_CLEARANCE, size)) is not None]
    return [mount, *(with_item_hole(mount, row.medium_mm) for row in rows if row.medium_mm > mount.item_hole_mm)]
