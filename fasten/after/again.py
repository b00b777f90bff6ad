"""A repair where one was done before: what that left, what of it stays, and how near this one comes to it."""

from collections.abc import Iterator

from fasten.after import cover, edits, elsewhere, shims
from fasten.after.before import Fixing, OldHole, Plate, places_of, rivet_holes
from fasten.after.case import Case, Found, figures_of, left_of, own_odd
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.tables import Tables
from fasten.model import Check, Proposal, Refusal, Status
from fasten.proof.checks import waits
from fasten.record import replace
from fasten.require import Points

WHOLE = frozenset({edits.SHIFT, edits.LEAVE_OUT})  # these prove the others themselves
LEAVES = frozenset({edits.BESIDE, edits.LEAVE_OUT})  # after these the old hole is empty


def by_what_is_left(route: RepairRoute, found: Found, case: Case, tables: Tables) -> tuple[Check, ...] | Refusal:
    """What repairs before left against this one: the plate that it stays in, and old holes, each of them an edge."""
    proof = found.proof
    if not isinstance(proof, Proposal) or route.proof in WHOLE:
        return ()
    stays = found.plate is None and route.proof not in LEAVES
    plate = cover.kept(case, proof, tables) if stays else ()
    if isinstance(plate, Refusal):
        return plate
    refused = _on_shims(route, found, case, tables)
    if refused is not None:
        return refused
    checks = (*plate, *elsewhere.clear_of_old(case, proof.joint, _places(route, case, tables), tables))
    failed = next((check for check in checks if check.status is Status.FAILS), None)
    if failed is None:
        return checks
    because = f"it does not do beside what a repair before left: {failed.title[0].lower()}{failed.title[1:]}"
    return Refusal(proof.joint.method, because, figures_of(failed), check=failed.id)


def _places(route: RepairRoute, case: Case, tables: Tables) -> Points:
    """Where the holes are that a route is done at, about the middle of those that were planned."""
    if case.alone:
        beside = elsewhere.moved_beside(case, tables) if route.proof == edits.BESIDE else None
        return (own_odd(case, beside).moved_mm or case.place_mm,)
    if case.group.fixings == 1:
        return ((elsewhere.clear_mm_of(case, tables) if route.proof == edits.BESIDE else 0.0, 0.0),)
    places = places_of(case.group, case.before)
    return tuple(places[at] for at in left_of(case))


def plate_after(route: RepairRoute, found: Found, case: Case) -> Plate | None:
    """The plate at the fixing that is repaired: the one that it gets, or the one that it stays in."""
    stays = case.own is not None and case.own.is_in_plate and route.proof not in (*WHOLE, *LEAVES)
    return found.plate or (case.own.plate if stays and case.own is not None else None)


def lift_mm(route: RepairRoute, found: Found, case: Case) -> float:
    """How far plates lift the item once a route is taken."""
    others = (one.plate for one in case.before.fixings if one.number != case.at)
    return shims.lift_mm((*others, plate_after(route, found, case)))


def _on_shims(route: RepairRoute, found: Found, case: Case, tables: Tables) -> Refusal | None:
    """Why a fixing that is unlike the rest cannot lie on the shim that it then wants, the one in hand among them."""
    lift, proof = lift_mm(route, found, case), found.proof
    if not case.alone or not lift or not isinstance(proof, Proposal):
        return None
    mine = Fixing(case.at or 1, proof.joint, found.point, own_odd(case), plate_after(route, found, case), 0.0)
    for one in (*(one for one in case.before.fixings if one.number != case.at), mine):
        own_mm = lift - shims.lift_mm((one.plate,))
        tried = [] if one.is_left_out or own_mm <= 0 else shims.on_shim(one.joint, own_mm, one.mount, tables)
        refused = [each for each in tried if isinstance(each, Refusal)]
        if tried and len(refused) == len(tried):
            because = f"fixing {one.number}, which is repaired, does not do on its shim: {refused[-1].because}"
            return replace(refused[-1], because=because)
    return None


def old_after(route: RepairRoute, found: Found, case: Case, tables: Tables) -> Iterator[OldHole]:
    """The holes that are left behind once a route is taken."""
    if found.shift is not None:
        yield from elsewhere.left_behind(case, found.shift)
        return
    back_mm = elsewhere.clear_mm_of(case, tables) if route.proof == edits.BESIDE and not case.alone else 0.0
    for hole in case.before.old:  # of one fixing alone, the middle is where it is now
        yield replace(hole, centre_mm=(hole.centre_mm[0] - back_mm, hole.centre_mm[1]))
    x, y = case.hole_at_mm if case.at is not None else (0.0, 0.0)
    if route.proof in LEAVES and case.left_mm is not None:
        yield OldHole((x - back_mm, y), case.left_mm)
    if case.own is not None and case.own.plate is not None and (route.proof in LEAVES or found.plate is not None):
        yield from rivet_holes(case.own.plate, (x - back_mm, y))


def off_first(case: Case, found: Found) -> tuple[str, ...]:
    """What a repair before put over or behind the hole, and what this one takes off first."""
    own = case.own
    if own is None or found.shift is not None:
        return ()
    if own.is_in_plate and found.plate is not None:
        return ("Drill the rivets of the plate that is there and take it off first",)
    glued = own.plate is not None and not own.is_in_plate
    return ("Take off first what the repair before glued on or put behind",) if glued else ()


def beside_plates(route: RepairRoute, case: Case) -> tuple[Check, ...]:
    """A plate at every fixing: what one of them leaves to the others is not proved for their plates."""
    if case.before.plate is None or route.proof == edits.SHIFT:
        return ()
    needs = "needs the plates of all fixings taken back first: what this leaves to them is not proved"
    return (waits("plates-before", "Plates of the other fixings", "-", None, needs, (), "-", ()),)
