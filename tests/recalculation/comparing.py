"""Checks that set one length, torque, count or heat against another: both sides again from the inputs.

Each entry gives (demand, allowable); nothing stands for a side that nobody told, and then it is not checked.
"""

import math
from collections.abc import Callable

from recalculation.capacities import spin_out, torsion_of_base
from recalculation.reading import Line

Sides = tuple[float | None, float | None]

REMOVALS = {"never": 0, "rarely": 5, "yearly": 10, "monthly": 120, "weekly": 520}  # in ten years


def _told(line: Line, name: str) -> float | None:
    return line.one(name) if line.has(name) else None


def _edge(line: Line) -> Sides:
    """Source: AISI S100 E4 1.5 d, AC 43.13-1B 2 d, trade guides for board; the larger of a least and a ratio."""
    least = line.maybe("least to an edge", 0.0)
    of = ("outer diameter", "diameter", "hole", "outside of the insert", "screw")
    sizes = [line.one(name) for name in of if line.has(name)]
    half = 0.5 if "/ 2" in line.formula else 1.0
    by_size = line.one("ratio") * sizes[0] * half if sizes else 0.0
    return max(least, by_size) or None, _told(line, "edge")


def _corner(line: Line) -> Sides:
    """Source: plane geometry: as far from both edges of a corner, the corner is √2 times as far."""
    edge_mm = _told(line, "edge")
    return line.one("least to a corner"), None if edge_mm is None else edge_mm * math.sqrt(2)


def _hole(line: Line) -> Sides:
    """Source: subtraction; a bit that is under the hole has its own limit."""
    over_mm = line.one("bit") - line.one("hole")
    return (over_mm, line.one("may be over")) if line.has("may be over") else (-over_mm, line.one("may be under"))


def _lock(line: Line) -> Sides:
    """Source: threadlocker breaks with the cube of the diameter (from memory), under 0.65 of spin-out."""
    breaks_nm = line.one("breakaway at M10") * (line.one("screw diameter") / 10) ** 3
    return breaks_nm, line.one("share") * spin_out(line)


def _run_on(line: Line) -> Sides:
    return line.one("greatest prevailing torque"), torsion_of_base(line) / line.one("factor on the bond")


def _board_behind(line: Line) -> Sides:
    depth_mm = line.one("screw in the board", "insert in the board")
    return depth_mm + line.one("board left behind"), line.one("board")


def _stop(line: Line) -> Sides:
    hole_mm = max(line.one("item hole"), line.one("hole under the limiter"))
    return hole_mm + line.one("margin"), line.one("outside of the limiter")


def _stud(line: Line) -> Sides:
    lies_mm, past_mm = line.one("what lies on the panel"), line.one("past the nut") * line.one("pitch")
    return lies_mm + line.one("nut") + past_mm, _told(line, "stud")


def _insert_wall(line: Line) -> Sides:
    outer_mm = line.one("outer diameter")
    return line.one("ratio") * outer_mm, (line.one("board") - outer_mm) / 2


def _two(demand: tuple[str, ...], allowable: tuple[str, ...]) -> Callable[[Line], Sides]:
    """One input against another; each may go by one of several names."""
    return lambda line: (line.one(*demand), line.one(*allowable))


# 33 CFR 183.425 table 5, 105 °C, outside the engine bay: area of the gauge in mm² by ASTM B258, A.
_CARRIES = (
    (0.823, 20), (1.31, 25), (2.08, 35), (3.31, 45), (5.26, 60), (8.37, 80), (13.3, 120), (21.15, 160), (26.7, 180),
    (33.6, 210), (42.4, 245), (53.5, 285), (67.4, 330), (85.0, 385), (107.2, 445),
)  # fmt: skip
# A table of metric boat cable for 105 °C, read once: it only lowers the row of the gauge.
_METRIC = {1: 20, 1.5: 25, 2.5: 35, 4: 45, 6: 60, 10: 80, 16: 110, 25: 145, 35: 180, 50: 230, 70: 290, 95: 350}


def _ampacity(line: Line) -> Sides:
    """The row of the largest gauge that is not above the area, and the metric row of a metric size."""
    if not line.has("cable") or not line.has("full current"):
        return _told(line, "full current"), None
    area_mm2 = line.one("cable")
    gauge_a = max(amps for area, amps in _CARRIES if area <= area_mm2 * 1.002)
    hot = 0.85 if line.has("engine bay") else 1.0  # 33 CFR 183.425 table 5, note
    return line.one("full current"), hot * min(gauge_a, _METRIC.get(area_mm2, gauge_a))


COMPARED: dict[str, Callable[[Line], Sides]] = {
    "barrel": _two(("barrel",), ("board",)),
    "board-behind": _board_behind,
    "boss": lambda line: (line.one("ratio") * line.one("outside of the insert", "screw"), line.one("boss")),
    "boss-depth": _two(("hole deep", "length that holds"), ("can be drilled", "plastic")),
    "clip-reach": _two(("edge",), ("reach of the clip",)),
    "corner-distance": _corner,
    "edge-distance": _edge,
    "face-edge": lambda line: (line.one("shorter side") / 2, _told(line, "edge")),
    "ground-ampacity": _ampacity,
    "ground-lug": lambda line: (10.0, None),  # nothing to recalculate: no table has such a lug
    "face-room": _two(("side that lies next to a neighbour",), ("centre of that neighbour",)),
    "grip-max": _two(("gripped at most",), ("greatest grip",)),
    "grip-min": _two(("least grip",), ("gripped at least",)),
    # Source: FMVSS 571.207 S4.2, twenty times the weight of a seat, by analogy.
    "hard-stop": lambda line: (20.0, None),
    "head-cover": lambda line: (line.one("item hole") + line.one("margin"), line.one("diameter on the item")),
    "heat-bond": _two(("reached",), ("limit",)),
    "heat-magnet": _two(("reached",), ("limit",)),
    "hole": _hole,
    "washer-covers": lambda line: (line.one("hole") + 2 * line.one("cover"), line.one("washer behind")),
    "holes-line-up": lambda line: (line.one("greatest miss"), (line.one("item hole") - line.one("screw")) / 2),
    "insert-wall": _insert_wall,
    "jacking-out": lambda line: (
        line.one("opening over") + line.one("margin"),
        line.one("flange", "outer diameter", "insert"),
    ),
    "lock-breakaway": _lock,
    "nut-run-on": _run_on,
    "removals": _two(("removals in ten years",), ("rated",)),
    "spacing": lambda line: (line.one("ratio") * line.one("diameter"), line.one("spacing")),
    "space-behind": lambda line: (max(line.all("needed")), _told(line, "space behind")),
    "stop-cover": _stop,
    # Source: beam built in at both ends, q L^4/(384 E I), as wide as the foam; foam seals from 25 % on (gasket makers).
    "rim-bends": lambda line: (
        line.one("push of soft foam")
        * line.one("gap between") ** 4
        / (32 * line.one("modulus of the rim") * line.one("thickness of the rim") ** 3),
        (1 - 0.6 - 0.25) * line.one("foam"),
    ),
    # Source: common practice: sealant lasts where it comes off never or rarely; a closed end opens nothing.
    "water-behind": lambda line: (
        line.one("removals that open it"),
        5.0 if line.one("removals that open it") <= 5 else None,
    ),
    # Source: moments about the edge of the spacer, V h = F D/2, 1.2 on top.
    "spacer-tips": lambda line: (
        2.4 * line.one("greatest shear") * line.one("height of the spacer") / line.one("clamp kept"),
        line.one("outside of the spacer"),
    ),
    "stud-length": _stud,
    "thread-depth": lambda line: (
        line.one("screw") - line.one("what lies on the panel"),
        _told(line, "depth of the thread"),
    ),
}
UNTOLD = (
    "rated-pull",
    "rated-shear",
    "rated-torque",
    "maker-load",
    "ground-shared",
    "stop-seated",
)  # nothing to recalculate: a figure of a box, of the vehicle's maker, or what is seen once it is tight
