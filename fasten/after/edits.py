"""Edits of a joint and its mount point that are routes of repair; each result is proved as any joint is."""

from collections.abc import Callable, Iterator, Mapping

from fasten.advice.advise import method_by, method_of
from fasten.advice.method import Method, existing_hole_refusal, gates, joints
from fasten.after import behind, corroded, cover, doubler, elsewhere, keeps, left_out, mixed
from fasten.after.case import Case, Found, least, loads_of, miss_of, own_odd, repair_part
from fasten.after.damage import CORRODED, CRACKED, OFF
from fasten.after.mixed import Odd
from fasten.after.openings import is_same, loosened, off_mm, slot, thread_of, wider
from fasten.catalog.named import material
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled
from fasten.geometry.lines import tested_line
from fasten.model import (
    Check,
    Demand,
    Figure,
    Input,
    Joint,
    MountPoint,
    OwnTest,
    Proposal,
    Read,
    Refusal,
    Status,
)
from fasten.model.kinds import Thread
from fasten.model.known import MostTorque
from fasten.proof.checks import at_most, waits
from fasten.proof.modes import tested
from fasten.proof.modes.plastic import FAMILIES
from fasten.proof.prove import prove
from fasten.record import replace
from fasten.text.figures import mm

ASKED_FIRST = frozenset({CRACKED, CORRODED})
SHIFT, BESIDE, LEAVE_OUT = "shift", "beside", "leave out"
TESTED, HELD, NEXT_SCREW = BY_TESTS = ("tested", "held", "next screw")  # what only test pieces prove, or a hold test


Keep = Callable[[Joint, Case], bool]


def best(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The best that a route comes to; nothing where too little is left of what it is in."""
    refused = corroded.too_little(route, case, tables)
    return _EDITS[route.proof](route, case, tables) if refused is None else Found(refused, (), case.mount)


# -- which joints are tried -------------------------------------------------------------------------------------------


def _with_hole(case: Case) -> MountPoint:
    return replace(case.mount, existing_hole_mm=case.left_mm, existing_holes_mm=None)


def _tried(method: Method, keep: Keep, case: Case, mount: MountPoint, tables: Tables) -> Iterator[Proposal | Refusal]:
    refused = gates(method, mount, tables)
    if refused is not None:
        yield refused
        return
    loads = loads_of(mount, case, tables)
    for joint in joints(method, mount, tables):
        if keep(joint, case):
            yield existing_hole_refusal(joint, mount) or prove(joint, mount, method, loads, tables)


def _search(keep: Keep, case: Case, mounts: list[MountPoint], methods: list[Method], tables: Tables) -> Found:
    """The best of the joints of these methods that are kept, at each of these mount points."""
    found = [
        Found(least(list(_tried(method, keep, case, mount, tables)), mount, method.NAME, tables), (), mount)
        for mount in mounts for method in methods
    ]  # fmt: skip
    return min(found, key=_rank)


def _rank(found: Found) -> tuple[bool, bool, float]:
    proof = found.proof
    if isinstance(proof, Proposal):
        return False, not proof.proven, 0.0
    return True, True, miss_of(proof) if proof is not None else 0.0


def _own(case: Case) -> list[Method]:
    return [method_by(case.joint)]


def _opened(case: Case, tables: Tables) -> list[MountPoint]:
    """The mount point as it is, and with the item's holes opened for each larger screw."""
    return wider(_with_hole(case), tables)


# -- the edits --------------------------------------------------------------------------------------------------------


def _same_again(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The same part in its hole: the joint as it is, where the hole is still inside its tolerance."""
    mount = _with_hole(case)
    refused = existing_hole_refusal(case.joint, mount)
    proof = refused or prove(case.joint, mount, method_by(case.joint), loads_of(mount, case, tables), tables)
    return Found(proof, () if case.damage.size_mm is not None else _measure(case), mount)


def _measure(case: Case) -> tuple[Check, ...]:
    hole = case.joint.hole
    if hole is None:
        return ()
    most = hole.diameter_mm + hole.tolerance_mm.plus
    needs = f"needs the hole measured once the part is out: {mm(most)} at most"
    return (waits("repair-hole", "Hole still inside its tolerance", "mm", hole.diameter_mm, needs, (), "hole <= most",
                  case.joint.from_),)  # fmt: skip


def _of(keep: Keep) -> Callable[[RepairRoute, Case, Tables], Found]:
    def edit(route: RepairRoute, case: Case, tables: Tables) -> Found:
        return _search(keep, case, [_with_hole(case)], _own(case), tables)

    return edit


def _series_of(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """Another series of the same thread whose body is larger than what the hole was for.

    Of the route's methods where the joint has no such part: of its thread, of any where its screw cuts its own.
    """
    if case.joint.method in route.methods:
        return _larger_body(case, tables)
    cuts = case.joint.screw is not None and case.joint.screw.kind.thread is not Thread.MACHINE
    return _search(keeps.whichever if cuts else keeps.same_thread, case, _opened(case, tables), _methods(route), tables)


def _larger_body(case: Case, tables: Tables) -> Found:
    """A part never goes into the hole of one of its size that turned or tore there."""
    mount, method, was = _with_hole(case), method_by(case.joint), case.joint.hole
    tried = joints(method, mount, tables) if gates(method, mount, tables) is None else ()
    others = [one.hole.diameter_mm for one in tried if one.hole is not None and keeps.other_series(one, case)]
    largest_mm = max(others, default=0.0)
    if was is None or not others or largest_mm > was.diameter_mm:
        return _search(keeps.has_larger_body, case, [mount], [method], tables)
    because = f"no other {thread_of(case.joint)} body is larger than the {mm(was.diameter_mm)} hole of this one"
    figures = (Figure("hole of this one", was.diameter_mm, "mm"), Figure("largest of another", largest_mm, "mm"))
    return Found(Refusal(method.NAME, because, figures), (), mount)


def _tapped(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The next thread, tapped in the same place."""
    return _search(keeps.is_larger, case, _opened(case, tables), _methods(route), tables)


def _methods(route: RepairRoute) -> list[Method]:
    return [method for name in route.methods if (method := method_of(name)) is not None]


def _next_thread(route: RepairRoute, case: Case, tables: Tables) -> Found:
    return _search(keeps.is_larger, case, _opened(case, tables), _own(case), tables)


def _hexagons(route: RepairRoute, case: Case, tables: Tables) -> Found:
    return _search(keeps.hexagon, case, _opened(case, tables), _own(case), tables)


def _of_methods(route: RepairRoute, case: Case, tables: Tables) -> Found:
    return _search(keeps.whichever, case, [_with_hole(case)], _methods(route), tables)


def _as_planned(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The joint as it was planned, anew in its place, or in what is left of its board."""
    if case.own is None and case.mount.thickness_min_mm < case.group.thickness_min_mm:
        return _search(is_same, case, [case.mount], _own(case), tables)
    loads = loads_of(case.group, case, tables)
    return Found(prove(case.planned, case.group, method_by(case.planned), loads, tables), (), case.group)


def _next_screw(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """A larger screw counts only the thread beyond the old one's outside, and waits for a test pull."""
    old_mm, mount = case.left_mm or 0.0, case.mount
    if case.joint.receiver is not None:
        because = "its screw turns in a part, and cuts no thread that a larger one could count on"
        figures = (Figure("thread that it cut", 0.0, "mm"), Figure("hole that is left", old_mm, "mm"))
        return Found(Refusal(case.joint.method, because, figures), (), mount)
    method, found = method_by(case.joint), list[Found]()
    for place in wider(mount, tables):
        for joint in joints(method, place, tables) if gates(method, place, tables) is None else ():
            share = _share_left(joint, old_mm) if _is_next(joint, case, tables) else 0.0
            if share <= 0:
                continue
            loads = _on_share(loads_of(place, case, tables), share)
            found.append(Found(prove(joint, place, method, loads, tables), (), place))
    if (own := tests_of(route, case)) and (pulled := _next_tested(own, case, tables)) is not None:
        return pulled
    needs = "needs three test pulls of the larger screw: only its thread beyond the old outside counts"
    test = waits("repair-test", "Thread beyond the old outside", "N", None, needs, (), "(D - D_old) / (D - root)", ())
    if not found:
        largest = max((joint.screw.diameter_mm for place in wider(mount, tables)
                       for joint in joints(method, place, tables) if joint.screw is not None), default=0.0)  # fmt: skip
        figures = (Figure("hole that is left", old_mm, "mm"), Figure("largest screw", largest, "mm"))
        return Found(Refusal(method.NAME, "no larger screw of the tables goes here", figures), (), mount)
    best_ = min(found, key=_rank)
    return replace(best_, more=(test,))


def _is_next(joint: Joint, case: Case, tables: Tables) -> bool:
    """Whether a screw is the larger one that a stripped hole takes: in board and wood it is thicker by a whole step."""
    now, was = joint.screw, case.joint.screw
    if now is None or was is None or now.kind.thread is not Thread.FORMS_IN_BOARD:
        return keeps.is_larger(joint, case)
    return now.diameter_mm >= was.diameter_mm + rule_value(tables, Rules.REPAIR_THICKER)[0] - 1e-9


def _on_share(loads: tuple[Demand, ...], share: float) -> tuple[Demand, ...]:
    """The demands where so much of a thread holds."""
    more = Input("share of thread", share, "-")
    return tuple(replace(load, tension_n=load.tension_n / share, inputs=(*load.inputs, more)) for load in loads)


def _share_left(joint: Joint, old_mm: float) -> float:
    """How much of its thread a larger screw cuts beyond the old one's outside; nothing where it has no thread there."""
    screw = joint.screw
    if screw is None or screw.diameter_mm <= old_mm:
        return 0.0
    root_mm = drilled(joint).diameter_mm
    return min((screw.diameter_mm - old_mm) / (screw.diameter_mm - root_mm), 1.0) if root_mm < screw.diameter_mm else 0


def _next_tested(own: tuple[OwnTest, ...], case: Case, tables: Tables) -> Found | None:
    """The next larger screw by what it was pulled out at, where three pulls agree; None where they do not count."""
    method = method_by(case.joint)
    larger = [
        (place, one) for place in wider(case.mount, tables) for one in joints(method, place, tables)
        if _is_next(one, case, tables)
    ]  # fmt: skip
    place, joint = min(
        larger, key=lambda one: one[1].screw.diameter_mm if one[1].screw is not None else 0.0,
        default=(case.mount, None),
    )  # fmt: skip
    line = tested_line(joint) if joint is not None else None
    if joint is None or line is None or joint.hole is None:
        return None
    moved = tuple(replace(test, part=line.text, hole_mm=joint.hole.diameter_mm) for test in own)
    mount = replace(place, tests=moved)
    read = tested.found(Read.PULL_OUT, joint, mount, tables)
    if read is None or not read.counts:
        return None
    return Found(prove(joint, mount, method, loads_of(mount, case, tables), tables), (), mount)


def _needs(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """What no calculation here decides stays open until it is tested or measured."""
    assert route.needs is not None
    return Found(None, (waits("repair-test", route.do.split(":")[0].split(";")[0], "-", None, f"needs {route.needs}",
                              (), "-", ()),), case.mount)  # fmt: skip


def _sheet_left(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The same parts in what is left of a corroded sheet, where that is enough to repair in."""
    if case.damage.size_mm is None:
        return Found(None, (), case.mount)  # that it must be measured is said of every route there
    return _search(is_same, case, [_with_hole(case)], _own(case), tables)


def _as_left(case: Case, tables: Tables) -> Joint | Refusal:
    """The joint that is there, in what is left of its sheet."""
    if case.mount.thickness_min_mm == case.group.thickness_min_mm or case.own is not None:
        return case.joint
    method = method_by(case.joint)
    refused = gates(method, case.mount, tables)
    found = (one for one in joints(method, case.mount, tables) if is_same(one, case)) if refused is None else ()
    nothing = Refusal(case.joint.method, "no such joint goes into what is left of the sheet",
                      (Figure("sheet left", case.mount.thickness_min_mm, "mm"),))  # fmt: skip
    return refused or next(iter(found), nothing)


def _crack(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """A plate over all of the crack: riveted on metal, and behind plastic, where no rivet goes near it."""
    riveted, behind_it = (replace(route, methods=names) for names in (route.methods[:1], route.methods[1:]))
    if material(tables, case.mount.material).family in FAMILIES:
        return behind.behind(behind_it, case, tables)
    return cover.covered(riveted, case, tables)


def tests_of(route: RepairRoute, case: Case) -> tuple[OwnTest, ...]:
    """The test pieces of this repair of this joint, as tests of the joint itself."""
    line, hole = tested_line(case.joint), case.joint.hole
    if line is None or hole is None:
        return ()
    part = repair_part(route.route, line.text)
    return tuple(
        replace(test, part=line.text, hole_mm=hole.diameter_mm) for test in case.mount.tests
        if test.part == part and test.material == case.mount.material
    )  # fmt: skip


def _tested(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The joint that is there, in what the repair put there: it holds what test pulls of that say."""
    own = tests_of(route, case)
    mount = replace(case.mount, tests=own)
    read = tested.found(Read.PULL_OUT, case.joint, mount, tables)
    proof = prove(case.joint, mount, method_by(case.joint), loads_of(mount, case, tables), tables)
    open_ = () if read is not None and read.counts else _needs(route, case, tables).more
    return Found(proof, open_, mount)


def _held(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The joint that is there, in its old thread: a screw must have held more than its target in it."""
    part = case.joint.receiver
    if part is not None and isinstance(part.prevailing, MostTorque):
        because = "its nut locks by its thread, which a tap takes away: fit a new nut"
        locks = (Figure("torque by which it locks", part.prevailing.torque_nm, "N·m"),)
        return Found(Refusal(case.joint.method, because, locks), (), case.mount)
    chased, _ = rule_value(tables, Rules.REPAIR_CHASED)
    loads, joint = _on_share(loads_of(case.mount, case, tables), chased), _as_left(case, tables)
    if isinstance(joint, Refusal):
        return Found(joint, (), case.mount)
    found = Found(prove(joint, case.mount, method_by(joint), loads, tables), (), case.mount)
    target = found.proof.torque if isinstance(found.proof, Proposal) else None
    readings = [one for test in tests_of(route, case) if test.read is Read.HELD for one in test.readings]
    if target is None or not readings:
        return replace(found, more=_needs(route, case, tables).more)
    share, source = rule_value(tables, Rules.BUILT_HELD)
    inputs = (Input("share", share, "-"), Input("target torque", target.target_nm, "N·m"))
    check = at_most("repair-held", "Chased thread held", share * target.target_nm, min(readings), "N·m", inputs,
                    "share x target <= held", (source,))  # fmt: skip
    if check.status is Status.FAILS:
        because = "the chased thread was not held at what it must: renew the part"
        figures = (Figure("held", min(readings), "N·m"), Figure("wanted", share * target.target_nm, "N·m"))
        return Found(Refusal(case.joint.method, because, figures, check="repair-held"), (), case.mount)
    return replace(found, more=(check,))


def _wider_item(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The item's hole opened round, twice what the play does not give; the clamp alone holds it then."""
    if case.damage.what != OFF:
        return _search(is_same, case, _opened(case, tables)[1:] or [_with_hole(case)], _own(case), tables)
    return loosened(case, case.mount.item_hole_mm + 2 * off_mm(case), tables)


def odd_of(route: RepairRoute, case: Case, tables: Tables) -> Odd:
    """What a repair by a route makes of its fixing, beside others that are repaired as well."""
    if route.proof == LEAVE_OUT:
        return replace(own_odd(case), stiffnesses=mixed.LEFT_OUT, clamps=False)
    return replace(own_odd(case, elsewhere.moved_beside(case, tables) if route.proof == BESIDE else None), clamps=False)


_EDITS: Mapping[str, Callable[[RepairRoute, Case, Tables], Found]] = {
    "same": _same_again,
    "series": _series_of,
    "tapped": _tapped,
    "thread": _next_thread,
    "hexagon": _hexagons,
    "washer": _of(keeps.washered),
    "item hole": _wider_item,
    "slot": slot,
    BESIDE: elsewhere.beside,
    SHIFT: elsewhere.shifted,
    LEAVE_OUT: left_out.left_out,
    NEXT_SCREW: _next_screw,
    "methods": _of_methods,
    "planned": _as_planned,
    "needs": _needs,
    "cover": cover.covered,
    "crack": _crack,
    "plate behind": behind.behind,
    "doubler on board": doubler.doubled,
    TESTED: _tested,
    HELD: _held,
    "sheet left": _sheet_left,
}
