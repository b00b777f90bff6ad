"""Inputs of a check that follow from the question, from the answer's own parts or from a printed table."""

from collections.abc import Callable, Mapping
from typing import Any

from recalculation import printed
from recalculation.comparing import REMOVALS
from recalculation.loads import Group
from recalculation.reading import Line

# What is expected of an input; nothing where it does not follow for this answer.
Expected = Callable[[Line, dict[str, Any], dict[str, Any], Group], float | None]


def _said(name: str) -> Expected:
    return lambda line, answer, mount, group: mount[name]["value"]


def _always(value: float) -> Expected:
    return lambda line, answer, mount, group: value


def _of_thread(table: Mapping[str, float]) -> Expected:
    return lambda line, answer, mount, group: table.get((answer["screw"] or {}).get("thread", ""))


def _of_class(table: Mapping[str, float]) -> Expected:
    return lambda line, answer, mount, group: table.get((answer["screw"] or {}).get("class", ""))


def _patch(side: str) -> Expected:
    return lambda line, answer, mount, group: answer["patch"][side]


def _pitch(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    part = answer["screw"] or answer["receiver"]
    return (printed.PITCH | printed.TAPPING_PITCH).get(part["thread"])


def _screw_diameter(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    thread = (answer["screw"] or answer["receiver"])["thread"]
    return float(thread[1:]) if thread in printed.PITCH else None


def _edge_distance(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    """Where no distance is given, the one that the answer then asks for is what it is checked with."""
    edge_mm = mount["edge_mm"]["value"]
    asked_mm = next(check["demand"] for check in answer["checks"] if check["id"] == "edge-distance")
    return float(asked_mm if edge_mm is None else edge_mm)


def _bears(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    """What fills the hole bears on it: the body of a rivet nut, the shank of a bolt."""
    if answer["method"] == "rivet_nut" and line.stem == "sheet-bearing":
        return float(answer["hole"]["diameter_mm"])
    return _screw_diameter(line, answer, mount, group) if answer["method"] == "through_bolt" else None


def _through(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    """What goes through the item: the screw by its major diameter; one for board goes by its name, ST3.5 by 3.5 mm."""
    thread = (answer["screw"] or {}).get("thread", "")
    if answer["method"] == "screw_into_board":
        return float(thread.removeprefix("ST").removesuffix(" mm"))
    return printed.TAPPING_MAJOR.get(thread) or (float(thread[1:]) if thread in printed.PITCH else None)


def _on_the_item(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    """The widest washer under the head; a bare head's width is the screw's own and not told."""
    washers = [washer["outer_mm"] for washer in answer["washers"] if washer["place"] == "head"]
    return max(washers) if washers else None


def _foam(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
    """The strip of foam along the outline, shared out."""
    pattern = mount["pattern"]["value"]
    if not pattern or pattern["kind"] != "rectangle":
        return None
    return float(2 * (pattern["a_mm"] + pattern["b_mm"]) / group.fixings)


def _window_load(*, shear: bool) -> Expected:
    """The load in service that asks for most clamp: 1.2 T + S V/µ, the worst of every case and panel."""

    def found(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float | None:
        friction = line.one("face friction") if line.has("face friction") else float("inf")
        slips = _slip(line, answer, mount, group)
        worst = max(group.loads("service"), key=lambda load: 1.2 * load.tension_n + slips * load.shear_n / friction)
        return worst.shear_n if shear else worst.tension_n

    return found


def _slip(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float:
    """VDI 2230 R12 as remembered: 1.8 where nothing but the clamp keeps the screw from turning, else 1.2."""
    hole = answer["hole"]
    loose = answer["method"] == "through_bolt" and hole["diameter_mm"] > printed.CLEARANCE[answer["screw"]["thread"]]
    return 1.8 if loose or answer["lock"] in {"none", "spring washer"} else 1.2


def _kept(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float:
    """What creep and settling leave, the lowest of what applies. Source: common practice."""
    soft = {mount["material"]["value"], mount["item_material"]["value"]} & {"mdf", "plywood", "particleboard", "pine"}
    metal = {"steel", "structural_steel", "galvanised_steel", "stainless_steel", "aluminium", "tinned_copper"}
    both_metal = {mount["material"]["value"], mount["item_material"]["value"]} <= metal
    of_faces = 0.6 if both_metal else line.one("preload kept") if not soft else min(line.one("preload kept"), 0.5)
    return min(of_faces, 0.5 if "threadlocker" in answer["lock"] else 1.0)


def _clamp_kept(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float:
    """F = T (1 - u) kept/(K d), of the torque that the tool is set to. Source: as for the window."""
    window = Line(next(check for check in answer["checks"] if check["id"] == "torque-window"))
    least_n = answer["torque"]["target_nm"] * 1000 * (1 - window.one("scatter"))
    return float(least_n * window.one("preload kept") / (window.one("nut factor") * window.one("screw diameter")))


def _opens(line: Line, answer: dict[str, Any], mount: dict[str, Any], group: Group) -> float:
    """What is closed opens nothing, and what is reached from both sides is sealed anew each time."""
    closed = "closed end" in (answer["receiver"] or {}).get("series", "") or answer["method"] == "through_bolt"
    return 0.0 if closed else float(REMOVALS[mount["removed"]["value"]])


def _spacer(part: int) -> Expected:
    return lambda line, answer, mount, group: group.spacer_mm[part] if group.spacer_mm else None


EXPECTED: dict[str, Expected] = {
    "mass": lambda line, answer, mount, group: group.mass_kg,
    "fixings": lambda line, answer, mount, group: group.fixings,
    "centre of gravity off the panel": lambda line, answer, mount, group: group.cg_mm,
    "lever of the pattern": lambda line, answer, mount, group: group.lever_mm,
    "greatest shear in service": lambda line, answer, mount, group: max(
        load.shear_n for load in group.loads("service")
    ),
    "removals that open it": _opens,
    "height of the spacer": _spacer(0),
    "outside of the spacer": _spacer(1),
    "clamp kept": _clamp_kept,
    "spacing": lambda line, answer, mount, group: group.spacing_mm,
    "edge": _said("edge_mm"),
    "space behind": _said("behind_mm"),
    "item hole": _said("item_hole_mm"),
    "item thickness": _said("item_thickness_mm"),
    "sheet": _said("thickness_min_mm"),  # strength is that where the sheet is thinnest
    "removals in ten years": lambda line, answer, mount, group: REMOVALS[mount["removed"]["value"]],
    "rated": lambda line, answer, mount, group: answer["removals"]["rated"],
    "hole": lambda line, answer, mount, group: answer["hole"]["diameter_mm"] if line.stem == "hole" else None,
    "bit": lambda line, answer, mount, group: answer["hole"]["bit"]["diameter_mm"],
    "may be over": lambda line, answer, mount, group: answer["hole"]["tolerance_mm"]["plus"],
    "may be under": lambda line, answer, mount, group: answer["hole"]["tolerance_mm"]["minus"],
    "stress area": _of_thread(printed.STRESS_AREA),
    "proof stress": _of_class(printed.PROOF),
    "screw strength": _of_class(printed.STRENGTH),
    "shear share": _of_class(printed.SHEAR_SHARE),
    "major diameter": _of_thread(printed.TAPPING_MAJOR),
    "pitch": _pitch,
    "least major diameter of the screw": _of_thread(printed.MAJOR_LEAST),
    "greatest pitch diameter of the thread": _of_thread(printed.PITCH_MOST),
    "screw diameter": _screw_diameter,
    "edge distance": _edge_distance,
    "diameter that bears": _bears,
    "diameter through the item": _through,
    "diameter of the bolt": _through,
    "diameter on the item": _on_the_item,
    # Nobody is asked for it: AISI S100 E4 wants 1.5 diameters at least.
    "edge of the item, assumed": lambda line, answer, mount, group: 1.5 * line.one("diameter through the item"),
    "length of the face": _patch("length_mm"),
    "width of the face": _patch("width_mm"),
    "engagement": lambda line, answer, mount, group: answer["screw"]["engagement_mm"],
    "gripped at most": lambda line, answer, mount, group: answer["grip_mm"],
    "foam a fixing": _foam,
    "shear in service": _window_load(shear=True),
    "tension in service": _window_load(shear=False),
    "factor on slip": _slip,
    "preload kept": _kept,
    "tool error": lambda line, answer, mount, group: 0.06 if answer["torque"]["max_nm"] <= 10.6 else 0.04,  # ISO 6789
    "factor on separation": _always(1.2),  # NASA TM-106943
    "margin": _always(1.0),  # common practice
    # Common practice: half of the low-end strength of plastic in a parked car.
    "share left in heat": lambda line, answer, mount, group: 0.5 if line.has("low-end strength") else None,
    "share left by opening it": _always(0.5),  # from memory
    "most depth over diameter": _always(2.5),  # EN 1995-1-1 8.2.3, second mode, from memory
    "lead-in": _always(1.0),  # pitches, common practice
    "shear over tensile": _always(0.577),  # von Mises
}
