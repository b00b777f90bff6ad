"""What is left of corroded sheet or soft board: how much must be, and that it must be known first."""

from collections.abc import Iterator

from fasten.after.case import Case
from fasten.after.damage import CORRODED
from fasten.catalog.named import material
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.model import Check, Figure, Refusal
from fasten.proof.checks import waits

ELSEWHERE = frozenset({"shift", "leave out"})  # which leave the place
OVER = frozenset({"cover"})  # whose rivets sit outside it
_NEEDS = {
    "sheet": "needs the sheet that is left, measured at three places: corroded 0.7 mm",
    "board": "needs the hard board that is left, measured: corroded 15 mm; soft 10 mm from the hole, it is scrap",
}
_FAMILIES = {"sheet": "sheet", "board": "board", "wood": "board"}  # plastic and laminate do not rot: their screws do


def too_little(route: RepairRoute, case: Case, tables: Tables) -> Refusal | None:
    """Why nothing is repaired in what is left; None where that is enough, or the route leaves the place."""
    left_mm, whole_mm = case.damage.size_mm, case.group.thickness_min_mm
    if case.damage.what != CORRODED or left_mm is None or route.proof in ELSEWHERE | OVER:
        return None
    kind = _FAMILIES.get(material(tables, case.group.material).family)
    share, _ = rule_value(tables, Rules.REPAIR_LEFT)
    if kind is None or left_mm >= share * whole_mm - 1e-9:
        return None
    figures = (Figure(f"{kind} left", left_mm, "mm"), Figure("least", share * whole_mm, "mm"))
    first = "the body is repaired first" if kind == "sheet" else "it is scrap"
    return Refusal(case.joint.method, f"too little of the {kind} is left: {first}", figures, check=f"{kind}-left")


def unmeasured(route: RepairRoute, case: Case, tables: Tables) -> Iterator[Check]:
    """What is left must be known, of what stays in it or beside it."""
    kind = _FAMILIES.get(material(tables, case.group.material).family)
    is_open = case.damage.what == CORRODED and case.damage.size_mm is None and route.proof not in ELSEWHERE
    if is_open and kind is not None:
        yield waits(f"{kind}-left", f"What is left of the {kind}", "mm", None, _NEEDS[kind], (), "-", ())
