"""Each line of a proof from the inputs that it tells, by equations typed from the sources that its formula names.

EN 1993-1-3, EN 1993-1-8, AISI S100 E4, FED-STD-H28, statics; nothing is taken from the program.
"""

from collections.abc import Callable
from math import pi, sqrt
from typing import Any

Given = dict[str, float]
BEARING = "diameter that bears"
Pair = tuple[float, float]


def strength(given: Given, of: int = 0) -> float:
    return [value for name, value in given.items() if name.startswith("strength of ")][of]


def bearing_n(given: Given) -> float:
    t, d = given["sheet"], given[BEARING]
    thin = (0.8 * t + 1.5) / 2.5 if t < 1.25 else 1.0
    steel_n = 2.5 * min(1.0, given["edge distance"] / (3 * d)) * thin * strength(given) * d * t
    return lower_in_aluminium(given, steel_n, t, t, d)


def item_bearing_n(given: Given) -> float:
    """The bolt clause of EN 1993-1-3 again, on the item."""
    own = {"sheet": given["item thickness"], BEARING: given["diameter through the item"]}
    return bearing_n(given | own | {"edge distance": given["edge of the item, assumed"]})


def item_board_n(given: Given) -> float:
    """EN 1995-1-1 8.2.2 first mode, fh t d; 8.3.1 for fh of particleboard, of wood, and of plywood as a wood."""
    d = given["diameter through the item"]
    deep = min(given["item thickness"], given["most depth over diameter"] * d)
    densities = {name: value * 1000 for name, value in given.items() if name.startswith("density of ")}
    wood = next((0.082 * (1 - 0.01 * d) * density for density in densities.values()), 65 * d**-0.7 * deep**0.1)
    fh = 0.11 * densities["density of plywood"] * d**-0.3 if "density of plywood" in densities else wood
    return float(fh * deep * d)


def item_plastic_n(given: Given) -> float:
    low = next(value for name, value in given.items() if name.startswith("low-end strength of "))
    return given["item thickness"] * given["diameter through the item"] * low * given.get("share left in heat", 1.0)


def strip_n(given: Given) -> float:
    p, d = given["pitch"], given["least major diameter of the screw"]
    flank = p / 2 + 0.57735 * (d - given["greatest pitch diameter of the thread"])
    engaged = given["engagement"] - given["lead-in"] * p
    return given["shear over tensile"] * strength(given) * pi * engaged / p * d * flank


def tapping_shear_n(given: Given) -> float:
    """Where item and sheet are of one metal its strength is told once."""
    t1, t2, d = given["item thickness"], given["sheet"], given["major diameter"]
    fu1, fu2 = strength(given), strength(given, -1)
    bearing = 2.7 * d * min(t1 * fu1, t2 * fu2)
    alike = min(4.2 * sqrt(t2**3 * d) * fu2, bearing)
    ratio = min(max(t2 / t1, 1.0), 2.5)
    return alike + (bearing - alike) * (ratio - 1) / 1.5


def tapping_bearing_n(given: Given) -> float:
    t, t1, d = given["thinner sheet"], given["thicker sheet"], given["major diameter"]
    alike = min(3.2 * sqrt(t / d), 2.1)
    ratio = min(t1 / t, 2.5)
    alpha = alike if t < 1.0 else alike + (2.1 - alike) * (ratio - 1) / 1.5
    return lower_in_aluminium(given, alpha * strength(given) * d * t, t, t1, d)


PUSH_MPA = 0.028  # 4 psi, soft foam at 25 %: a gasket maker's page
ALUMINIUM = "strength of aluminium"


def lower_in_aluminium(given: Given, steel_n: float, t: float, t1: float, d: float) -> float:
    """EN 1999-1-4 beside the steel clause, 2.5 fu sqrt(t^3 d) up to 1.5 fu t d, at most 260 MPa; the lower counts."""
    if ALUMINIUM not in given:
        return steel_n
    alike = min(2.5 * sqrt(t / d), 1.5)
    alpha = alike + (1.5 - alike) * (min(t1 / t, 2.5) - 1) / 1.5
    return min(steel_n, alpha * min(given[ALUMINIUM], 260.0) * d * t)


def lower_pull_out(given: Given, steel_n: float) -> float:
    if ALUMINIUM not in given:
        return steel_n
    return min(steel_n, 0.95 * given[ALUMINIUM] * sqrt(given["sheet"] ** 3 * given["major diameter"]))


def rivet_bearing_n(given: Given) -> float:
    t, t1, d = given["thinner sheet"], given["thicker sheet"], given["diameter that bears"]
    alike = min(3.6 * sqrt(t / d), 2.1)
    alpha = alike + (2.1 - alike) * (min(t1 / t, 2.5) - 1) / 1.5
    return min(alpha * d, given["edge distance"] / 1.2) * strength(given) * t


def pull_out_en_n(given: Given) -> float:
    hold = 0.45 if given["sheet"] < given["pitch"] else 0.65
    return lower_pull_out(given, hold * given["major diameter"] * given["sheet"] * strength(given))


def pull_out_n(given: Given) -> float:
    return lower_pull_out(given, 0.85 * given["sheet"] * given["major diameter"] * strength(given))


def proof_n(given: Given) -> float:
    return given["stress area"] * given["proof stress"]


def pressure_n(given: Given) -> float:
    return given["pressure"] * pi / 4 * (given["diameter on the item"] ** 2 - given["hole in the item"] ** 2)


def at_stop_n(given: Given) -> float:
    return given["pressure"] * pi / 4 * (given["outside of the limiter"] ** 2 - given["hole at the limiter"] ** 2)


def face_mm2(given: Given) -> float:
    whole = given.get("length of the face", 0.0) * given.get("width of the face", 0.0)
    whole = whole or pi / 4 * given["diameter of the face"] ** 2
    return whole * given.get("share of the base that is not holes", 1.0)


def bonded_n(given: Given, strength: str) -> float:
    bears = [value for name, value in given.items() if name.startswith("what the face of ")]
    return face_mm2(given) * min([given[strength] * given.get("share left in heat", 1.0), *bears])


def hooked_n(given: Given, new: str) -> float:
    return face_mm2(given) * given[new] * given["share left by opening it"]


def magnet_n(given: Given) -> float:
    return given["pull on thick bare steel"] * given["share left by paint"] * given.get("share left in heat", 1.0)


def slip_n(given: Given) -> float:
    if "height of the rim" in given:
        return given["pot"] * given["height of the rim"] * given["yield of the plate"]
    return given["face friction"] * magnet_n(given)


def base_nm(given: Given) -> float:
    """Torsion of a circular section, tau pi d^3 / 16, for what of it is bonded; over the factor on a bond."""
    solid, across = given["share of the base that is not holes"], given["diameter of the base"]
    return solid * given["shear of the bond"] * pi * across**3 / 16000 / given["factor on the bond"]


def core_n(given: Given) -> float:
    """A core's shear strength by fully plastic torsion, 12 T/(pi d^3), over its area; a wood screw's as mild steel."""
    if "area of the core" in given:
        return 0.6 * given["strength of mild steel"] * given["area of the core"]
    d = given["core"]
    return 12000 * given["breaking torque of the screw"] / (pi * d**3) * pi * d**2 / 4


def core_pull_n(given: Given) -> float:
    """By von Mises, sqrt 3 of it; EN 1993-1-8 table 3.4 for mild steel."""
    if "area of the core" in given:
        return 0.9 * given["strength of mild steel"] * given["area of the core"]
    return sqrt(3) * core_n(given)


def dent_n(given: Given) -> float:
    """Limit load of a plate under a ring, by Tresca; Hopkins and Prager."""
    moment = given["yield"] * given["sheet"] ** 2 / 4
    return 6 * pi * moment / (3 - 2 * given["radius of what bears"] / given["nothing holds it within"])


CAPACITY: dict[str, Callable[[Given], float]] = {
    "sheet-bearing": bearing_n,
    "pull-through": lambda given: given["diameter behind the sheet"] * given["sheet"] * strength(given),
    "item-pull-over": lambda given: given["diameter on the item"] * given["item thickness"] * strength(given),
    "item-pressure": pressure_n,
    "item-bearing": item_bearing_n,
    "item-bearing-board": item_board_n,
    "item-bearing-plastic": item_plastic_n,
    "screw-proof": proof_n,
    "screw-tension": lambda given: 0.9 * given["screw strength"] * given["stress area"],
    "screw-shear": lambda given: given["shear share"] * given["screw strength"] * given["stress area"],
    "receiver-thread": lambda given: given["axial load of its table"],
    "core-tension": core_pull_n,
    "dent": dent_n,
    "core-shear": core_n,
    "blind-head": lambda given: 1.25 * given["body of the rivet"] * given["sheet"] * strength(given),
    "rivet-tension": lambda given: given["tension of its table"],
    "rivet-shear": lambda given: given["shear of its table"],
    "nut-shear": lambda given: given["shear of its body"],
    "thread-strip": strip_n,
    "pull-out": pull_out_n,
    "pull-out-en": pull_out_en_n,
    "sheet-shear": tapping_shear_n,
    "bearing-en": tapping_bearing_n,
    "rivet-bearing": rivet_bearing_n,
    "hook-shear": lambda given: hooked_n(given, "shear of a new pair"),
    "hook-pull": lambda given: hooked_n(given, "pull of a new pair"),
    "bond-shear": lambda given: bonded_n(given, "shear of the bond"),
    "bond-pull": lambda given: bonded_n(given, "pull of the bond"),
    "tape-shear": lambda given: bonded_n(given, "shear of the bond"),
    "tape-pull": lambda given: bonded_n(given, "pull of the bond"),
    "tape-creep": lambda given: bonded_n(given, "stress that may stay on the tape"),
    "tape-hangs": lambda given: bonded_n(given, "stress that may stay on the tape"),
    "magnet-pull": magnet_n,
    "magnet-slip": slip_n,
}
SHEARED = {
    "sheet-bearing", "rivet-bearing", "screw-shear", "rivet-shear", "nut-shear", "sheet-shear", "bearing-en",
    "item-bearing",
    "item-bearing-board", "item-bearing-plastic", "hook-shear", "bond-shear", "tape-shear", "tape-creep", "magnet-slip",
    "core-shear",
}  # fmt: skip


def turned_nm(given: Given) -> float:
    in_sheet = min(given["sheet"], given["no more in sheet over"]) / given["sheet it was tested in"]
    return given["spin-out as tested"] * in_sheet * given.get("share in aluminium", 1.0)


def locker_nm(given: Given) -> float:
    return given["breakaway at M10"] * (given["screw diameter"] / 10) ** 3


def of_preload(given: Given, load_n: float) -> float:
    return given["nut factor"] * given["screw diameter"] * load_n / 1000


UPPER: dict[str, Callable[[Given], float]] = {
    "spin-out of the body": lambda given: given["share"] * turned_nm(given),
    "loosening with threadlocker": lambda given: turned_nm(given) - locker_nm(given) / given["loosening share"],
    "breaking torque of the thread": lambda given: given["share"] * given["breaking torque of the thread"],
    "breaking torque of the screw": lambda given: given["share"] * given["breaking torque of the screw"],
    "proof load of the screw": lambda given: of_preload(given, given["share"] * proof_n(given)),
    "stripping of the tapped thread": lambda given: of_preload(given, given["share"] * strip_n(given)),
    "thread in the sheet": lambda given: of_preload(given, given["share"] * pull_out_n(given)),
    "pressure under the head": lambda given: of_preload(given, pressure_n(given) / (1 + given["scatter"])),
    "pressure of the limiter on the item": lambda given: of_preload(given, at_stop_n(given) / (1 + given["scatter"])),
}


def window(given: Given, check: dict[str, Any]) -> Pair:
    upper = UPPER[check["title"].removeprefix("Torque window, limited by ")](given)
    upper -= given.get("greatest prevailing torque", 0.0)
    upper *= (1 - given["tool error"]) / (1 + given["tool error"])
    needed = given["factor on separation"] * given["tension in service"]
    if "preload kept" not in given:
        assert check["formula"].startswith("seated")
        assert ("push x width x foam" in check["formula"]) == ("foam a fixing" in given)
        needed += given.get("foam a fixing", 0.0) * given.get("width of the foam, assumed", 0.0) * PUSH_MPA
        return of_preload(given, needed / (1 - given["scatter"])), upper
    if "shear in service" in given:
        needed += given["factor on slip"] * given["shear in service"] / given["face friction"]
    return of_preload(given, needed / ((1 - given["scatter"]) * given["preload kept"])), upper


def together(given: Given, power: int) -> Pair:
    used = (given["shear"] / given["shear capacity"]) ** power + (given["tension"] / given["tension capacity"]) ** power
    return used, 1.0


def panel(given: Given) -> tuple[float, float | None]:
    """Mass against that of the practice rule, or 25 Hz against one push or what a tap counted; no bay is asked here."""
    if "mass of the rule" in given:
        most = given["mass of the rule"]
        if "bending stiffness" in given:
            plate = given["modulus"] * given["sheet"] ** 3 / (12 * (1 - given["Poisson's ratio"] ** 2))
            most = min(most * plate / given["that of the rule's sheet"], given["most"])
        mass = given["mass on the panel"]
        return mass, most if mass <= most else None
    moved = given["moved"] + given["error of the reading"]
    secant = (given["push"] - given["error of the push"]) / moved
    stiffness = secant / (1 + 1.43 * (moved / given["sheet"]) ** 2) if "sheet" in given else secant
    hertz = sqrt(1000 * stiffness / given["mass on the panel"]) / (2 * pi)
    hertz *= given.get("rocking over bounce", 1.0)
    return 25.0, hertz if hertz >= 25 else None


FITS: dict[str, Callable[[Given], tuple[float, float | None]]] = {
    "water-behind": lambda g: (
        g["removals that open it"],
        g["removals a seal lasts"] if g["removals that open it"] <= g["removals a seal lasts"] else None,
    ),
    "rim-bends": lambda g: (
        g["push of soft foam, assumed"]
        * g["gap between fixings"] ** 4
        / (32 * g["modulus of the rim"] * g["thickness of the rim"] ** 3),
        (1 - g["left at the fixings"] - g["least pressed"]) * g["foam"],
    ),
    "spacer-tips": lambda g: (
        g["factor"] * g["greatest shear in service"] * g["height of the spacer"] / g["clamp kept"],
        g["outside of the spacer"],
    ),
    "space-behind": lambda given: (max(given["needed to set"], given["needed when done"]), given.get("space behind")),
    "edge-distance": lambda given: (given["ratio"] * given["diameter"], given.get("edge")),
    "spacing": lambda given: (given["ratio"] * given["diameter"], given["spacing"]),
    "head-cover": lambda given: (given["item hole"] + given["margin"], given["diameter on the item"]),
    "washer-covers": lambda given: (given["hole"] + 2 * given["cover"], given["washer behind"]),
    "holes-line-up": lambda given: (given["greatest miss"], (given["item hole"] - given["screw"]) / 2),
    "stop-cover": lambda given: (
        max(given["item hole"], given["hole under the limiter"]) + given["margin"],
        given["outside of the limiter"],
    ),
    "jacking-out": lambda given: (given["opening over the flange"] + given["margin"], given["flange"]),
    "grip-min": lambda given: (given["least grip"], given["gripped at least"]),
    "grip-max": lambda given: (given["gripped at most"], given["greatest grip"]),
    "removals": lambda given: (given["removals in ten years"], given["rated"]),
    "lock-breakaway": lambda given: (locker_nm(given), given["share"] * turned_nm(given)),
    "thread-depth": lambda given: (given["screw"] - given["what lies on the panel"], None),
    "stud-length": lambda given: (
        given["what lies on the panel"] + given["nut"] + given["past the nut"] * given["pitch"],
        given.get("stud"),
    ),
    "heat-bond": lambda given: (given["reached"], given["limit"]),
    "heat-magnet": lambda given: (given["reached"], given["limit"]),
    "face-edge": lambda given: (given["shorter side"] / 2, given.get("edge")),
    "face-room": lambda given: (given["side that lies next to a neighbour"], given["centre of that neighbour"]),
    "nut-run-on": lambda given: (given["greatest prevailing torque"], base_nm(given)),
    "hook-together": lambda given: together(given, 1),
    "bond-together": lambda given: together(given, 1),
    "magnet-together": lambda given: together(given, 1),
    "sheet-together": lambda given: together(given, 1),
    "shank-together": lambda given: together(given, 2),
    "panel-stiffness": panel,
    "hole": lambda given: (
        (given["bit"] - given["hole"], given["may be over"])
        if "may be over" in given
        else (given["hole"] - given["bit"], given["may be under"])
    ),
}
