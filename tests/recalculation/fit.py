"""Hole, length, engagement, what stands out and what is needed behind: from the layers and a part's own length."""

from collections.abc import Callable
from typing import Any

from recalculation.printed import CLEARANCE, MINOR, NUT_HEIGHT, NUT_THREAD, ROOT, TAP_DRILL

MANDREL_MM, DRILL_STOP_MM = 2.5, 3.0  # common practice: 2 to 3 mm, the point goes 3 mm past the sheet
SET_MM = 2.0  # common practice: a set rivet nut is shorter by its unused grip and 2 mm
SUNK_MM, HOLE_PAST_INSERT_MM, PILOT_PAST_MM = 1.0, 2.0, 1.0  # common practice; MDF guide

Figures = dict[str, float]


class Stack:
    """The layers of an answer by their role. Lengths in mm."""

    def __init__(self, answer: dict[str, Any], mount: dict[str, Any]) -> None:
        layers = answer["layers"]
        at = [layer["role"] for layer in layers].index("substrate")
        over, under = layers[:at], layers[at:]
        self.above = _sum(over, "washer", "item", "soft")
        self.patch = _sum(over, "patch")
        self.substrate = _sum(under, "substrate")
        self.washers_below = _sum(under, "washer")
        self.nut = _sum(under, "nut")
        self.material: str = mount["material"]["value"]
        self.thin: float = mount["thickness_min_mm"]["value"]
        self.thick: float = mount["thickness_max_mm"]["value"]
        self.screw: dict[str, Any] = answer["screw"] or {}
        self.receiver: dict[str, Any] = answer["receiver"] or {}
        self.thread: str = self.screw.get("thread", "")
        self.part: float = self.receiver.get("length_mm") or 0.0
        self.hole: float = (answer["hole"] or {}).get("diameter_mm") or 0.0
        self.there: float = mount["hole_there_mm"]["value"] or 0.0
        self.below: float = (self.screw.get("length_mm") or 0.0) - self.above  # of the screw, under the item


def _sum(layers: list[dict[str, Any]], *roles: str) -> float:
    return float(sum(layer["thickness_mm"] for layer in layers if layer["role"] in roles))


def expected(method: str, stack: Stack) -> Figures:
    """What the answer's figures must be: those that follow. Source: addition; gaps and ends as named above."""
    assert method in _METHODS, f"write the figures of {method} into _METHODS of tests/recalculation/fit.py, from print"
    return _METHODS[method](stack)


def _through_bolt(s: Stack) -> Figures:
    """Source: ISO 273 medium and ISO 7040 for hole and nut; a wider hole stays as it is."""
    behind = max(s.below - s.thin, s.washers_below + s.nut)
    out = s.below - s.substrate - s.washers_below - s.nut
    hole = CLEARANCE[s.thread] if s.there <= CLEARANCE[s.thread] + 0.3 else s.there
    figures = {"hole": hole, "engagement": NUT_THREAD[s.thread], "nut": NUT_HEIGHT[s.thread]}
    return figures | {
        "protrusion": out,
        "set": behind,
        "done": behind,
        "grip": s.above + s.substrate + s.washers_below,
    }


def _rivet_nut(s: Stack) -> Figures:
    """The flange's thickness is the one figure JSON does not tell: taken back from what stands out, then used."""
    grip = s.substrate + s.washers_below
    left = s.part - (s.receiver["grip_mm"]["max"] - grip) - SET_MM
    flange = s.below - left - s.screw["protrusion_mm"]
    return {
        "engagement": min(left - grip, s.below - flange - grip),
        "set": s.part + MANDREL_MM,
        "done": max(left - s.thick, s.below - flange - s.thin),
        "grip": grip,
        "flange": flange,
    }


def _tapping(s: Stack) -> Figures:
    out = s.below - s.thin
    return {"engagement": s.thin, "protrusion": out, "set": DRILL_STOP_MM, "done": out, "grip": s.above}


def _tapped(s: Stack) -> Figures:
    """Source: ISO 2306 for the drill, ISO 965-2 for what the hole may be."""
    least, most = MINOR[s.thread]
    drill = TAP_DRILL[s.thread]
    return _tapping(s) | {"hole": drill, "minus": drill - least, "plus": most - drill}


def _board_screw(s: Stack) -> Figures:
    """Source: the pilot in fibreboard is 85 to 95 % of the screw's root (MDF industry guide)."""
    figures = {"depth": s.below + PILOT_PAST_MM, "engagement_most": s.below, "protrusion": 0.0, "grip": s.above}
    if s.material in ("mdf", "particleboard") and s.thread in ROOT:
        root_mm = ROOT[s.thread]
        figures |= {"minus": s.hole - 0.85 * root_mm, "plus": 0.95 * root_mm - s.hole}
    return figures


def _board_insert(s: Stack) -> Figures:
    return {
        "depth": s.part + HOLE_PAST_INSERT_MM,
        "engagement": min(s.below - SUNK_MM, s.part),
        "protrusion": s.below - SUNK_MM - s.part,
        "grip": s.above,
    }


def _tee_nut(s: Stack) -> Figures:
    out = s.below - s.substrate
    figures = {"engagement": s.part + min(out, 0.0), "protrusion": out, "set": s.part, "done": max(out, 0.0)}
    return figures | {"grip": s.above + s.substrate}


def _expanding(s: Stack) -> Figures:
    return {"set": s.part - s.thin, "grip": s.substrate + s.washers_below}


def _clip_nut(s: Stack) -> Figures:
    figures = {"engagement": s.part, "protrusion": s.below - s.thick - s.part, "set": s.part}
    return figures | {"done": s.below - s.thin, "grip": s.substrate}


def _rivet(s: Stack) -> Figures:
    figures = {"protrusion": s.below - s.thick, "set": s.below - s.thin + MANDREL_MM, "done": s.below - s.thin}
    return figures | {"grip": s.above + s.substrate}


def _push_in(s: Stack) -> Figures:
    behind = s.part - s.above - s.thin
    return {"set": behind, "done": behind, "grip": s.above + s.substrate}


def _ball_stud(s: Stack) -> Figures:
    return {"set": s.part - s.thin, "done": s.part - s.thin, "grip": s.substrate}


def _plastic_insert(s: Stack) -> Figures:
    return {"engagement": min(s.below, s.part), "protrusion": s.below - s.part, "grip": s.above}


def _forming(s: Stack) -> Figures:
    """Source: resin makers' guides, 2.0 to 2.5 diameters engaged, no more counts."""
    return {"engagement": min(s.below, 2.5 * float(s.thread.removesuffix(" mm"))), "grip": s.above}


def _bonded(s: Stack) -> Figures:
    figures = {"engagement": NUT_THREAD[s.thread], "protrusion": s.below - s.nut - s.part}
    return figures | {"behind": 0.0, "grip": s.above}


def _factory(s: Stack) -> Figures:
    return {"grip": s.above}


def _face(s: Stack) -> Figures:
    return {"behind": 0.0, "grip": s.above + s.patch}


_METHODS: dict[str, Callable[[Stack], Figures]] = {
    "through_bolt": _through_bolt,
    "rivet_nut": _rivet_nut,
    "tapping_screw": _tapping,
    "self_drilling_screw": _tapping,
    "tapped_hole": _tapped,
    "screw_into_board": _board_screw,
    "screw_in_insert": _board_insert,
    "tee_nut": _tee_nut,
    "expanding_nut": _expanding,
    "clip_nut": _clip_nut,
    "blind_rivet": _rivet,
    "push_in_clip": _push_in,
    "ball_stud": _ball_stud,
    "quarter_turn": _ball_stud,  # its receptacle lies in the sheet as a socket does
    "heat_set_insert": _plastic_insert,
    "self_tapping_insert": _plastic_insert,
    "thread_forming_screw": _forming,
    "bonded_stud": _bonded,
    "factory_thread": _factory,
    "hook_and_loop": _face,
    "magnet_and_plate": _face,
    "adhesive": _face,
}


def shown(answer: dict[str, Any]) -> Figures:
    """The same figures as the answer shows them."""
    screw, hole, part = answer["screw"] or {}, answer["hole"] or {}, answer["receiver"] or {}
    lines = [check["inputs"] for check in answer["checks"] if check["id"] == "space-behind"]
    needed = {entry["name"]: entry["value"] for inputs in lines for entry in inputs}
    figures = {
        "hole": hole.get("diameter_mm"),
        "depth": hole.get("depth_mm"),
        "minus": hole.get("tolerance_mm", {}).get("minus"),
        "plus": hole.get("tolerance_mm", {}).get("plus"),
        "engagement": screw.get("engagement_mm"),
        "engagement_most": screw.get("engagement_mm"),
        "protrusion": screw.get("protrusion_mm"),
        "set": needed.get("needed to set"),
        "done": needed.get("needed when done"),
        "behind": answer["behind"]["needed_mm"],
        "grip": answer["grip_mm"],
        "nut": part.get("length_mm"),
    }
    return {name: value for name, value in figures.items() if value is not None}
