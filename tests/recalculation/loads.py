"""Loads of one fixing, recalculated slowly: every case, every panel, every direction.

Written from the published equations and from what the advice says of itself in JSON; nothing of the program is asked.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

G = 9.80665  # standard gravity [m/s²], 3rd CGPM (1901)

# Accelerations in g: fore, sideways, up. Weight of 1 g down, 1 g braking or cornering and a 3 g bump or rebound act
# together (common practice); 20 g fore and aft by analogy with FMVSS 207, 10 g the other ways (common practice).
CASES: dict[str, dict[str, tuple[float, float, float]]] = {
    "road": {
        "braking on a bump": (1, 0, -1 - 3),
        "braking on the rebound": (1, 0, -1 + 3),
        "pulling away on a bump": (-1, 0, -1 - 3),
        "pulling away on the rebound": (-1, 0, -1 + 3),
        "cornering left on a bump": (0, 1, -1 - 3),
        "cornering left on the rebound": (0, 1, -1 + 3),
        "cornering right on a bump": (0, -1, -1 - 3),
        "cornering right on the rebound": (0, -1, -1 + 3),
    },
    "hard-stop": {
        "forward": (20, 0, 0),
        "rearward": (-20, 0, 0),
        "to one side": (0, 10, 0),
        "to the other side": (0, -10, 0),
        "up": (0, 0, 10),
        "down": (0, 0, -10),
    },
    "standing": {"weight": (0, 0, -1)},
    # EN 1789, from memory: 10 g forward, rearward, sideways and vertical.
    "ambulance": {
        "forward": (10, 0, 0),
        "rearward": (-10, 0, 0),
        "to one side": (0, 10, 0),
        "to the other side": (0, -10, 0),
        "up": (0, 0, 10),
        "down": (0, 0, -10),
    },
}
KIND = {"road": "service", "hard-stop": "hard_stop", "ambulance": "hard_stop", "standing": "sustained"}
PANELS = ("floor", "seat-back", "side", "roof", "door")


@dataclass(frozen=True)
class Load:
    """What one load asks of the worst fixing."""

    name: str
    shear_n: float
    tension_n: float
    across_g: float
    pulling_g: float


def split(panel: str, thrown_g: tuple[float, float, float]) -> tuple[float, float]:
    """Parts of an acceleration along the panel and off it, in g.

    An item lies on a floor and hangs under a roof; a panel that stands may face either way, so any throw along its
    normal pulls. What presses the item on pulls nothing.
    Source: resolving a vector; 20 g forward is shear on a floor and pull on a seat back.
    """
    fore, side, up = thrown_g
    if panel == "floor":
        return math.hypot(fore, side), max(up, 0.0)
    if panel == "roof":
        return math.hypot(fore, side), max(-up, 0.0)
    if panel == "seat-back":
        return math.hypot(side, up), max(fore, -fore)
    return math.hypot(fore, up), max(side, -side)


def places(kind: str, a_mm: float, b_mm: float | None, count: int) -> list[tuple[float, float]]:
    """Where the fixings sit about their centroid.

    A row is told by the distance between neighbours, a rectangle by its sides, a circle by its diameter. Six in a
    rectangle are its corners and the middles of its long sides, eight in a square its corners and middles.
    Source: plane geometry.
    """
    if kind == "row":
        return [(a_mm * (at - (count - 1) / 2), 0.0) for at in range(count)]
    if kind == "circle":
        turns = [2 * math.pi * at / count for at in range(count)]
        return [(a_mm / 2 * math.cos(turn), a_mm / 2 * math.sin(turn)) for turn in turns]
    assert kind == "rectangle"
    assert b_mm is not None
    corners = [(x * a_mm / 2, y * b_mm / 2) for x in (-1, 1) for y in (-1, 1)]
    along_a, along_b = [(0.0, -b_mm / 2), (0.0, b_mm / 2)], [(-a_mm / 2, 0.0), (a_mm / 2, 0.0)]
    if count == 4:
        return corners
    if count == 6:
        return corners + (along_a if a_mm >= b_mm else along_b)
    assert count == 8
    assert a_mm == b_mm
    return corners + along_a + along_b


def lever(points: list[tuple[float, float]], foot_mm: float) -> float:
    """What divides the tilting moment to give the pull on the worst fixing, whichever way the moment turns [mm].

    The group tilts about its centroid, Ti = M yi/Σy², in two directions at once, and the moment is turned through a
    whole circle in small steps; fixings in one line have each the foot of the item beside them.
    Source: elastic group, as textbooks of machine design print it (bolts in tension under an overturning moment).
    """
    about_x = sum(y * y for _, y in points)
    about_y = sum(x * x for x, _ in points)
    worst = 0.0
    for step in range(7200):
        turn = 2 * math.pi * step / 7200
        for x, y in points:
            by_y = math.sin(turn) * (y / about_x if about_x > 1e-6 else 1 / (len(points) * foot_mm))
            by_x = math.cos(turn) * (x / about_y if about_y > 1e-6 else 1 / (len(points) * foot_mm))
            worst = max(worst, by_x + by_y)
    return 1 / worst


def spacing(points: list[tuple[float, float]]) -> float:
    """Least distance between two fixings [mm]. Source: plane geometry."""
    return min(math.dist(p, q) for at, p in enumerate(points) for q in points[:at])


@dataclass(frozen=True)
class Group:
    """The fixings of a mount point and what hangs on them, as the JSON says."""

    mass_kg: float
    fixings: int
    cg_mm: float
    lever_mm: float
    spacing_mm: float | None
    panels: tuple[str, ...]
    chosen: str | None
    spacer_mm: tuple[float, float] | None = None
    clamped: bool = False

    def pulled(self, kind: str) -> Iterator[Load]:
        """The same, with what the screw pulls where it keeps its spacer from tipping.

        V h = T D/2 about the edge of the spacer; on the road a clamp that is kept does it.
        Source: moments about a point.
        """
        for load in self.loads(kind):
            if self.spacer_mm is None or (self.clamped and kind != "hard_stop"):
                yield load
            else:
                height_mm, outside_mm = self.spacer_mm
                yield replace(load, tension_n=load.tension_n + 2 * load.shear_n * height_mm / outside_mm)

    def loads(self, kind: str) -> Iterator[Load]:
        """Every load of a kind on every panel it may be.

        V = m a/n; T = m a/n + m a h/lever, h the centre of gravity's height.
        Source: elastic group as above; Newton's second law.
        """
        for case, throws in CASES.items():
            if KIND[case] != kind or case != self.case(kind):
                continue
            for name, thrown_g in throws.items():
                for panel in self.panels:
                    across_g, pulling_g = split(panel, thrown_g)
                    across_n, pulling_n = (self.mass_kg * G * g for g in (across_g, pulling_g))
                    tension_n = pulling_n / self.fixings + across_n * self.cg_mm / self.lever_mm
                    label = f"{case}: {name}, on {panel}"
                    yield Load(label, across_n / self.fixings, tension_n, across_g, pulling_g)

    def case(self, kind: str) -> str:
        """The case of a kind: one that was chosen by name stands in for the usual one of its kind."""
        usual = {"service": "road", "hard_stop": "hard-stop", "sustained": "standing"}[kind]
        return self.chosen if self.chosen and KIND[self.chosen] == kind else usual


_LEVERS: dict[tuple[Any, ...], tuple[float, float | None]] = {}


def group(mount: dict[str, Any]) -> Group:
    """The group of a mount point in JSON."""
    said = {name: entry["value"] for name, entry in mount.items()}
    pattern, count = said["pattern"], said["fixings"]
    foot_mm = 2 * said["item_hole_mm"]  # AC 43.13-1B edge rule, 2 D: the item stands on that much at least
    key = (pattern and (pattern["kind"], pattern["a_mm"], pattern["b_mm"]), count, foot_mm)
    if key not in _LEVERS:
        points = places(pattern["kind"], pattern["a_mm"], pattern["b_mm"], count) if count > 1 else [(0.0, 0.0)]
        _LEVERS[key] = (lever(points, foot_mm), spacing(points)) if count > 1 else (foot_mm, None)
    lever_mm, spacing_mm = _LEVERS[key]
    panels = PANELS if said["panel"] == "unknown" else (said["panel"],)
    return Group(said["mass_kg"], count, said["cg_mm"], lever_mm, spacing_mm, panels, said["case"])


# Carpet to three quarters, a mat to eight tenths, rubber and what sticks not at all, as common practice has it; foam
# has a limiter and tips nothing.
LEFT = {"carpet": 0.75, "mat": 0.8, "rubber": 1.0, "deadener": 1.0, "butyl": 1.0}
SPACERS_MM = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30)  # hardware catalogues, from memory


def spacer_mm(mount: dict[str, Any]) -> float | None:
    """How long a spacer the soft layers of a mount point ask for. Source: as above."""
    layers, layer = [], mount["between"]["value"]
    while layer is not None:
        layers += [] if layer["cut_out"] else [layer]
        layer = layer["under"]
    if not layers or any(layer["material"] == "foam" for layer in layers):
        return None
    least_mm = sum(LEFT[layer["material"]] * layer["thickness_mm"] for layer in layers)
    return float(next(length for length in SPACERS_MM if length >= least_mm - 1e-9))


def with_spacer(group: Group, answer: dict[str, Any], mount: dict[str, Any]) -> Group:
    """The group with the spacer of an answer, its length from the question; clamped where its torque clamps."""
    height_mm = spacer_mm(mount)
    if height_mm is None or not any(part["place"] == "stop" for part in answer["washers"]):
        return group
    outside_mm = next(part["outer_mm"] for part in answer["washers"] if part["place"] == "stop")
    clamped = answer["joint_kind"] == "clamped" and answer["torque"] is not None
    return replace(group, spacer_mm=(height_mm, outside_mm), clamped=clamped)
