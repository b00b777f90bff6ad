"""Routes of repair, each proved at its mount point: what holds, what is open, what does not do and by which figures."""

from collections.abc import Iterator

from fasten.advice.ranking import score
from fasten.advice.work import answer as worded
from fasten.after import again, corroded, edits, elsewhere, mixed, shims
from fasten.after.before import NOTHING_BEFORE, Before, Fixing, OldHole, Plate, Point
from fasten.after.case import Case, Found, case_of, left_of, own_odd
from fasten.after.damage import CRACKED, OVERSIZE, SPUN, Damage, possible
from fasten.after.judge import has_body, inside_mm
from fasten.catalog.named import material
from fasten.catalog.repairs import REPAIR_ROUTES, REPAIR_SUBSTRATES, REPAIRS, RepairRoute
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.shift import Move
from fasten.model import Answer, Check, Joint, MountPoint, Proposal, Reach, Refusal, Status
from fasten.progress import Step, stepped, unseen
from fasten.proof.checks import waits
from fasten.record import record, replace
from fasten.text.figures import mm

MOST = 4
OTHERS, FIXING = "other-fixings", "fixing-"
ROUTE, OUT = "route", "out"


@record
class OutStep:
    """How the old part comes out, or why it is time to stop."""

    route: str
    title: str
    text: str
    why: str
    bits: str | None
    danger: str | None


@record
class Placed:
    """Where the hole of a repaired fixing is and what is over it, about the middle of those that were planned.

    `moved_mm` is where it is, None where it was planned, and `new_place` that it is another hole. `shift` is how the
    whole pattern moves, `old` are all holes left behind by then, about the middle of the pattern as it is then.
    """

    moved_mm: Point | None
    new_place: bool
    shift: Move | None
    plate: Plate | None
    slot_mm: float | None
    old: tuple[OldHole, ...]


@record
class Route:
    """A route with its proof: the answer it comes to, None where it is no joint of its own, or why it is refused.

    `checks` are all that were made, those of the other fixings among them where one alone is repaired; `needs` is what
    is open, empty where it is proven. `point` is the mount point as it is then, and `opened_mm` what the
    item is opened to, None where it stays. `placed` says where its hole is and what is over it. `also` is what a route
    for all fixings comes to at each that a repair before made unlike the rest.
    """

    route: str
    title: str
    text: str
    why: str
    bits: str | None
    hardware: str | None
    danger: str | None
    new_hole: bool
    order: int
    answer: Answer | None
    checks: tuple[Check, ...]
    needs: tuple[str, ...]
    refused: Refusal | None
    point: MountPoint
    opened_mm: float | None
    notes: tuple[str, ...]
    placed: Placed
    also: tuple[tuple[int, "Route"], ...] = ()

    @property
    def proven(self) -> bool:
        """Whether every check holds."""
        return self.refused is None and not self.needs


@record
class Repaired:
    """What can be done about damage: how the old part comes out, at most four routes, the rest with why they do not do.

    `left_mm` is how wide the hole is that is left. `asks` is the question that comes first, empty where there is none.
    """

    damage: Damage
    at: int | None
    means: str | None
    out: tuple[OutStep, ...]
    routes: tuple[Route, ...]
    refused: tuple[Route, ...]
    danger: str | None
    never: tuple[str, ...]
    left_mm: float | None
    asks: str


STRUCTURE = "Is it part of a structure, belt, seat or airbag, or can you not see what is behind? Then stop"


def asks_first(damage: Damage, at: int | None, fixings: int) -> str:
    """The question before any route: of a crack, of rust, and of a whole row of nuts that spin."""
    row = damage.what == SPUN and at is None and fixings > 1
    return STRUCTURE if row or damage.what in edits.ASKED_FIRST else ""


def substrate_of(mount: MountPoint, tables: Tables) -> str:
    """Which substrate of the tables of repairs a mount point is on."""
    family = material(tables, mount.material).family
    if family == "sheet":
        if mount.thickness_min_mm >= rule(tables, Rules.TAPPED_PLATE).value:
            return "plate3"
        return "floor12" if mount.reach is Reach.BOTH_SIDES else "skin08"
    if family == "plastic":
        return "abs3" if mount.boss is None else "absboss"
    return {"laminate": "grp4", "wood": "birch12"}.get(family, "birch12" if "ply" in mount.material else "mdf18")


def fixing_of(route: Route, case: Case, tables: Tables) -> Fixing:
    """A fixing as a route leaves it; what was glued on or put behind comes off where it is repaired once more."""
    assert case.at is not None
    row, plate, own = tables.need(REPAIR_ROUTES, route.route), route.placed.plate, case.own
    odd, group = edits.odd_of(row, case, tables), replace(case.group, existing_hole_mm=None, existing_holes_mm=None)
    if plate is not None and not plate.over:
        return Fixing(case.at, case.planned, group, odd, plate, case.bad_mm)
    stays = own is not None and row.proof not in again.LEAVES
    if plate is None and own is not None and stays and own.is_in_plate:
        plate = own.plate
    joint = case.joint if route.answer is None else route.answer.proposal.joint
    mount = replace(route.point, existing_hole_mm=None, existing_holes_mm=None)
    if plate is not None:
        mount = replace(mount, thickness_min_mm=plate.thickness_mm, thickness_max_mm=plate.thickness_mm)
    bad_mm = own.bad_mm if own is not None and stays and route.answer is None else 0.0
    return Fixing(case.at, joint, mount, odd, plate, bad_mm)


def repaired(
    joint: Joint, mount: MountPoint, damage: Damage, at: int | None, tables: Tables, step: Step = unseen,
    before: Before = NOTHING_BEFORE,
) -> Repaired:  # fmt: skip
    """Every route for damage to a joint, proved, at one fixing numbered from 1 or at all of them.

    A fixing that a repair before made unlike the rest is repaired as it is now. `step` is called for each route and may
    raise Stopped.
    """
    case, substrate = case_of(joint, mount, damage, at, before), substrate_of(mount, tables)
    row = tables.need(REPAIRS, substrate, damage.what)
    found = []
    listed = tuple(enumerate(zip(row.routes, row.why, strict=True)))
    for order, (key, why) in stepped(listed, step):
        route = tables.need(REPAIR_ROUTES, key)
        if route.sort == ROUTE:
            found.append(_route(route, why, order, case, tables))
    kept = sorted((one for one in found if one.refused is None), key=_rank)
    refused = tuple(one for one in found if one.refused is not None)
    never = tables.need(REPAIR_SUBSTRATES, substrate).never
    return Repaired(
        damage, at, row.means, out_steps(mount, damage, tables), tuple(kept[:MOST]), refused, row.danger, never,
        case.left_mm, asks_first(damage, at, mount.fixings),
    )  # fmt: skip


def out_steps(mount: MountPoint, damage: Damage, tables: Tables) -> tuple[OutStep, ...]:
    """How the old part comes out of a mount point, in order."""
    row = tables.need(REPAIRS, substrate_of(mount, tables), damage.what)
    listed = ((tables.need(REPAIR_ROUTES, key), why) for key, why in zip(row.routes, row.why, strict=True))
    return tuple(
        OutStep(route.route, route.title, route.do, why, route.bits, route.danger)
        for route, why in listed if route.sort != ROUTE
    )  # fmt: skip


def route_of(key: str, case: Case, tables: Tables) -> Route | None:
    """One route for damage, proved beside fixings that are unlike the rest already; None where the tables have none of
    this key for it.
    """
    row = tables.find(REPAIRS, substrate_of(case.group, tables), case.damage.what)
    route = tables.find(REPAIR_ROUTES, key)
    if row is None or route is None or route.sort != ROUTE or key not in row.routes:
        return None
    order = row.routes.index(key)
    return _route(route, row.why[order], order, case, tables)


def _rank(route: Route) -> tuple[bool, bool, int]:
    """Proven first, then what drills no new hole, then the trade's order; a shelf changes none of it."""
    return not route.proven, route.new_hole, route.order


def _route(route: RepairRoute, why: str, order: int, case: Case, tables: Tables) -> Route:
    found = edits.best(route, case, tables)
    point = found.point
    opened_mm = point.item_hole_mm if point.item_hole_mm != case.group.item_hole_mm else None
    also, notes = list[tuple[int, Route]](), (*again.off_first(case, found), *found.notes)

    def made(answer: Answer | None, checks: tuple[Check, ...], refused: Refusal | None) -> Route:
        needs = tuple(dict.fromkeys(_left_open(check) for check in checks if check.status is not Status.HOLDS))
        return Route(
            route.route, route.title, route.do, why, route.bits, route.hardware, route.danger, route.new_hole == "yes",
            order, answer, checks, needs, refused, point, opened_mm, notes,
            _placed(route, found, case, tables), tuple(also),
        )  # fmt: skip

    if isinstance(found.proof, Refusal):
        return made(None, (), found.proof)
    own_checks = () if found.proof is None else found.proof.checks
    checks = (
        *own_checks, *found.more, *_cracked(case), *corroded.unmeasured(route, case, tables),
        *again.beside_plates(route, case), *_too_wide(case, tables),
    )  # fmt: skip
    left = again.by_what_is_left(route, found, case, tables)
    if isinstance(left, Refusal):
        return made(None, (), left)
    checks = (*checks, *left)
    if case.alone and route.proof not in again.WHOLE:
        others = _others(case, route, found, tables)
        if isinstance(others, Refusal):
            return made(None, (), others)
        if others is not None:
            checks, notes = (*checks, *_of_others(others)), (*notes, *_lying(others, case))
    for number in _odd_too(route, case):
        own = _route(route, why, order, at_one(case, number), tables)
        if own.refused is not None:
            because = f"fixing {number}, which was repaired before, does not take it: {own.refused.because}"
            return made(None, (), replace(own.refused, because=because))
        also.append((number, own))
        checks = (*checks, *(_of_fixing(number, check) for check in own.checks if _is_own(check)))
    if found.proof is None:
        return made(None, checks, None)
    proposal = replace(found.proof, proven=all(check.status is Status.HOLDS for check in checks), checks=checks)
    return made(worded(1, score(proposal, point, tables), proposal, point, tables), checks, None)


def at_one(case: Case, number: int) -> Case:
    """The same damage at one fixing."""
    return case_of(case.planned, case.group, case.damage, number, case.before)


def _odd_too(route: RepairRoute, case: Case) -> tuple[int, ...]:
    """The fixings that a repair before made unlike the rest and that a route for all is done at as well: all that the
    damage can be of.
    """
    if case.at is not None or route.proof in again.WHOLE:
        return ()
    return tuple(sorted(one.number for one in case.before.fixings if is_damaged(case.damage, one)))


def is_damaged(damage: Damage, one: Fixing) -> bool:
    """Whether damage to all can be of a fixing as a repair left it: one made wider was not found as wide."""
    if one.is_left_out or damage.what not in possible(one.joint):
        return False
    return damage.what != OVERSIZE or (damage.size_mm or 0.0) > one.hole_mm


def _of_fixing(number: int, check: Check) -> Check:
    return replace(check, id=f"{FIXING}{number}/{check.id}", title=f"Fixing {number}: {check.title}")


def is_of_fixing(check: Check) -> bool:
    """Whether a check of a route for all is of one fixing that was unlike the rest."""
    return check.id.startswith(FIXING)


def _is_own(check: Check) -> bool:
    return not check.id.startswith(f"{OTHERS}/")


def _placed(route: RepairRoute, found: Found, case: Case, tables: Tables) -> Placed:
    beside = elsewhere.moved_beside(case, tables) if route.proof == edits.BESIDE else None
    moved_mm = own_odd(case, beside).moved_mm if case.alone else None
    return Placed(
        moved_mm,
        route.proof == edits.BESIDE,
        found.shift,
        found.plate,
        found.slot_mm,
        tuple(again.old_after(route, found, case, tables)),
    )


def _left_open(check: Check) -> str:
    text = check.needs or check.title
    return text.removeprefix("needs ")


def _others(case: Case, route: RepairRoute, found: Found, tables: Tables) -> Proposal | Refusal | None:
    """The fixings that stay as they are, where the repaired one is softer or stiffer than they are, and where it is."""
    left = left_of(case)
    if not left:
        return None
    torque = found.proof.torque if isinstance(found.proof, Proposal) else None
    moved_mm = elsewhere.moved_beside(case, tables) if route.proof == edits.BESIDE else None
    own = replace(own_odd(case, moved_mm), clamps=torque is not None and torque.clamp_reserve is not None)
    loads = mixed.loads_at(case.group, (own, *case.others), left, tables)
    proof = shims.shimmed(case.planned, again.lift_mm(route, found, case), case.group, loads, tables)
    if isinstance(proof, Refusal):
        whom = " and those repaired before" if case.others else ""
        because = f"the other fixings do not hold what this one{whom} may leave to them: {proof.because}"
        return replace(proof, because=because)
    return proof


def _of_others(proof: Proposal) -> Iterator[Check]:
    for check in proof.checks:
        yield replace(check, id=f"{OTHERS}/{check.id}", title=f"The other fixings: {check.title}")


def _lying(proof: Proposal, case: Case) -> tuple[str, ...]:
    """The longer screw that the other fixings take on their shims."""
    now, was = proof.joint.screw, case.planned.screw
    if now is None or was is None or now.length_mm == was.length_mm:
        return ()
    return (f"The other fixings take {now.thread} x {mm(now.length_mm)} through their shims",)


def _too_wide(case: Case, tables: Tables) -> tuple[Check, ...]:
    """The fixings that stay as they are hold what was planned only in the holes that were planned."""
    hole, most_mm = case.planned.hole, inside_mm(case.planned, tables)[1]
    wide = [at + 1 for at in left_of(case) if case.before.wide_mm(at + 1) > most_mm] if case.alone else []
    if hole is None or not wide or not has_body(case.planned):
        return ()
    widest_mm, numbers = max(map(case.before.wide_mm, wide)), ", ".join(map(str, wide))
    others = f"other fixing{'s' if len(wide) > 1 else ''} {numbers}"
    needs = f"needs the {others} repaired as oversize: {mm(widest_mm)} measured, {mm(most_mm)} at most"
    return (waits("repair-other-holes", "Holes of the other fixings", "mm", most_mm, needs, (),
                  "hole <= most", case.planned.from_),)  # fmt: skip


def _cracked(case: Case) -> tuple[Check, ...]:
    """A crack came from somewhere: nothing over it is proven before it is known how stiff the panel is."""
    if case.damage.what != CRACKED or case.mount.support is not None:
        return ()
    needs = "needs the support of the panel: the crack came from somewhere"
    return (waits("crack-support", "Panel that cracked", "-", None, needs, (), "-", ()),)
