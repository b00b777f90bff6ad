"""What each way to fail can bear, before any factor: from the inputs of its check and a published equation alone.

First the equations, of numbers alone and each with its source; then what takes their numbers out of a check.
"""

import math
from collections.abc import Callable

from recalculation.reading import Line

ALUMINIUM = "strength of aluminium"


def bolt_in_sheet(t_mm: float, d_mm: float, edge_mm: float, fu_mpa: float) -> float:
    """Sheet pressed by a shank [N]. Source: EN 1993-1-3 table 8.4, 2.5 αb kt fu d t (from memory)."""
    alpha = min(1.0, edge_mm / (3 * d_mm))
    kt = (0.8 * t_mm + 1.5) / 2.5 if t_mm < 1.25 else 1.0
    return 2.5 * alpha * kt * fu_mpa * d_mm * t_mm


def aluminium_bearing(t_mm: float, d_mm: float, fu_mpa: float) -> float:
    """Aluminium sheet pressed by a shank [N]. Source: EN 1999-1-4, 2.5 fu √(t³ d), at most 1.5 fu t d (from memory)."""
    return min(2.5 * fu_mpa * math.sqrt(t_mm**3 * d_mm), 1.5 * fu_mpa * t_mm * d_mm)


def tapping_bearing(t_mm: float, other_mm: float, d_mm: float, fu_mpa: float) -> float:
    """Thinner of two sheets pressed by a tapping screw [N].

    Source: EN 1993-1-3 table 8.2, α fu d t, α = 3.2 √(t/d) up to 2.1; from 1 mm up it grows to 2.1 where the other
    sheet is 2.5 times as thick, linear between.
    """
    alpha = min(3.2 * math.sqrt(t_mm / d_mm), 2.1)
    if t_mm >= 1.0:
        alpha += (2.1 - alpha) * min((other_mm / t_mm - 1) / 1.5, 1.0)
    return alpha * fu_mpa * d_mm * t_mm


def tapping_bearing_aluminium(t_mm: float, other_mm: float, d_mm: float, fu_mpa: float) -> float:
    """Thinner of two sheets, one of them aluminium, pressed by a tapping screw [N].

    Source: EN 1999-1-4, 2.5 fu √(t³ d) up to 1.5 fu t d for equal sheets, 1.5 fu t d where the other is 2.5 times as
    thick, linear between (from memory).
    """
    equal, most = aluminium_bearing(t_mm, d_mm, fu_mpa), 1.5 * fu_mpa * t_mm * d_mm
    return equal + (most - equal) * min((other_mm / t_mm - 1) / 1.5, 1.0)


def rivet_bearing(t_mm: float, other_mm: float, d_mm: float, edge_mm: float, fu_mpa: float) -> float:
    """Sheet pressed by a blind rivet [N].

    Source: EN 1993-1-3 table 8.1, α fu d t, α = 3.6 √(t/d) up to 2.1 for equal sheets, 2.1 where the other is 2.5
    times as thick, linear between; at most fu e t/1.2 towards an edge (from memory).
    """
    equal = min(3.6 * math.sqrt(t_mm / d_mm), 2.1)
    alpha = equal + (2.1 - equal) * min((other_mm / t_mm - 1) / 1.5, 1.0)
    return min(alpha * d_mm, edge_mm / 1.2) * fu_mpa * t_mm


def aisi_shear(t1_mm: float, t2_mm: float, d_mm: float, fu1_mpa: float, fu2_mpa: float) -> float:
    """Screw in two sheets, 1 under the head [N]. Source: AISI S100 chapter E4.3.1, editions before 2016."""
    bearing = min(2.7 * t1_mm * d_mm * fu1_mpa, 2.7 * t2_mm * d_mm * fu2_mpa)
    tilting = min(4.2 * math.sqrt(t2_mm**3 * d_mm) * fu2_mpa, bearing)
    ratio = t2_mm / t1_mm
    if ratio <= 1:
        return tilting
    return bearing if ratio >= 2.5 else tilting + (bearing - tilting) * (ratio - 1) / 1.5


def aisi_pull_out(t_mm: float, d_mm: float, fu_mpa: float) -> float:
    """Screw out of a sheet [N]. Source: AISI S100 chapter E4.4.1, 0.85 tc d Fu2."""
    return 0.85 * t_mm * d_mm * fu_mpa


def en_pull_out(t_mm: float, d_mm: float, pitch_mm: float, fu_mpa: float) -> float:
    """Screw out of a sheet [N]. Source: EN 1993-1-3 table 8.2, 0.65 d t fu, 0.45 where t < pitch (from memory)."""
    return (0.45 if t_mm < pitch_mm else 0.65) * d_mm * t_mm * fu_mpa


def aluminium_pull_out(t_mm: float, d_mm: float, fu_mpa: float) -> float:
    """Screw out of aluminium [N]. Source: EN 1999-1-4, 0.95 fu √(t³ d) (from memory)."""
    return 0.95 * fu_mpa * math.sqrt(t_mm**3 * d_mm)


def strip_of_internal(engaged_mm: float, pitch_mm: float, d_least: float, d2_most: float, shear_mpa: float) -> float:
    """The nut's thread stripped along the screw's major diameter [N].

    Source: FED-STD-H28/2 appendix B (also Machinery's Handbook), ASn = π (Le/P) dmin [P/2 + 0.57735 (dmin − D2max)].
    """
    return shear_mpa * math.pi * engaged_mm / pitch_mm * d_least * (pitch_mm / 2 + 0.57735 * (d_least - d2_most))


def strip_of_external(engaged_mm: float, pitch_mm: float, d1_most: float, d2_least: float, shear_mpa: float) -> float:
    """The screw's own thread stripped along the nut's minor diameter [N].

    Source: FED-STD-H28/2 appendix B, ASs = π (Le/P) D1max [P/2 + 0.57735 (d2min − D1max)].
    """
    return shear_mpa * math.pi * engaged_mm / pitch_mm * d1_most * (pitch_mm / 2 + 0.57735 * (d2_least - d1_most))


def board_withdrawal(d_mm: float, depth_mm: float, density: float, *, edge: bool) -> float:
    """Screw out of MDF or particleboard, the mean [N].

    Source: USDA Wood Handbook chapter 8 in metric form, 41.1 (31.8 in the edge) √D (L − D/3)^1.25 G² (from memory).
    """
    return float((31.8 if edge else 41.1) * math.sqrt(d_mm) * (depth_mm - d_mm / 3) ** 1.25 * density**2)


def wood_withdrawal(d_mm: float, depth_mm: float, density: float, edge_share: float) -> float:
    """Screw out of wood, the mean [N]. Source: USDA Wood Handbook chapter 8, 108.25 G² D L (from memory)."""
    return 108.25 * density**2 * d_mm * depth_mm * edge_share


def embedment(formula: str, d_mm: float, depth_mm: float, density: float) -> float:
    """Strength of board or wood under a shank [MPa].

    Source: EN 1995-1-1 8.3.1 (from memory): wood drilled 0.082 (1 − 0.01 d) ρ; plywood 0.11 ρ d^−0.3; particleboard
    65 d^−0.7 t^0.1; ρ in kg/m³.
    """
    if "65 d" in formula:
        return float(65 * d_mm**-0.7 * depth_mm**0.1)
    if "0.11" in formula:
        return float(0.11 * 1000 * density * d_mm**-0.3)
    assert "0.082 (1 − 0.01 d) ρ" in formula
    return 0.082 * (1 - 0.01 * d_mm) * 1000 * density


def ring_pressure(outer_mm: float, hole_mm: float, pressure_mpa: float) -> float:
    """What a washer's ring bears [N]. Source: pressure times area; 10 MPa that stays is common practice."""
    return pressure_mpa * math.pi / 4 * (outer_mm**2 - hole_mm**2)


def shear_cylinder(d_mm: float, length_mm: float, yield_mpa: float) -> float:
    """A cylinder sheared out of plastic [N]. Source: von Mises, τ = σ/√3, over π D L (standard practice)."""
    return math.pi * d_mm * length_mm * yield_mpa / math.sqrt(3)


def face_area(line: Line) -> float:
    """Area that a patch holds with [mm²], holes taken off. Source: plane geometry."""
    if line.has("diameter of the face"):
        area = math.pi / 4 * line.one("diameter of the face") ** 2
    else:
        area = line.one("length of the face") * line.one("width of the face")
    return area * line.maybe("share of the base", 1.0)


def torsion_of_base(line: Line) -> float:
    """What turns a round bonded base off [N·m]. Source: torsion of a round section, τ π D³/16; holes taken off."""
    strength_mpa = line.one("shear of the bond") * line.maybe("share of the base", 1.0)
    return strength_mpa * math.pi * line.one("diameter of the base") ** 3 / 16 / 1000


def spin_out(line: Line) -> float:
    """What turns the body of a rivet nut [N·m]: in proportion to the sheet, up to one; less in aluminium. Practice.

    Readings of one's own instead: what one in twenty falls under, as a mean where the tabled one was a mean.
    Source: JCSS Probabilistic Model Code part 3 annex A, log-normal.
    """
    if line.has("geometric mean of own tests"):
        count, student = line.one("own tests"), line.one("t at 95 %")
        under = math.exp(-student * line.one("deviation of their logarithms") * math.sqrt(1 + 1 / count))
        low = line.one("geometric mean of own tests") * under / (1 + line.one("instrument error"))
        mean = "exp(1.645 s')" in line.formula
        return low * math.exp(1.645 * line.one("scatter that the factor holds")) if mean else low
    counted_mm = min(line.one("sheet"), line.one("no more in sheet over"))
    left = line.maybe("share in aluminium", 1.0)
    return left * line.one("spin-out as tested") * counted_mm / line.one("sheet it was tested in")


def plastic_mpa(line: Line) -> float:
    """Strength of a plastic or laminate [MPa]; half in a parked car where it is said. Source: practice."""
    return line.one("low-end strength of") * line.maybe("share left in heat", 1.0)


def bonded(line: Line) -> float:
    """A bond by its mean stress, no more than what lies under it bears [N]. Source: as lap-shear figures are given."""
    stress_mpa = line.one("shear of the bond", "pull of the bond", "stress that may stay on the tape")
    return face_area(line) * min([stress_mpa * line.maybe("share left in heat", 1.0), *line.all("what the face of")])


def withdrawal(line: Line) -> float:
    """Screw or insert out of board or wood [N]; a screw that is driven again keeps about two thirds.

    Source: the two equations above; an insert is taken for a screw of its outer diameter, an extrapolation.
    """
    d_mm, depth_mm = line.one("diameter of the screw", "diameter of the insert"), line.one("depth in the board")
    kept, density = line.maybe("share kept after driving again", 1.0), line.one("density of")
    if line.has("edge over face"):
        return kept * wood_withdrawal(d_mm, depth_mm, density, line.one("edge over face"))
    point_mm = d_mm / 3 if line.has("diameter of the insert") else 0.0  # an insert has no point that holds nothing
    return kept * board_withdrawal(d_mm, depth_mm + point_mm, density, edge="31.8" in line.formula)


def _sheet_bearing(line: Line) -> float:
    t_mm, d_mm = line.one("sheet", "item thickness"), line.one("diameter that bears", "diameter through the item")
    edge_mm, fu_mpa = line.one("edge distance", "edge of the item"), line.one("strength of")
    steel = bolt_in_sheet(t_mm, d_mm, edge_mm, fu_mpa)
    return min(steel, aluminium_bearing(t_mm, d_mm, fu_mpa)) if line.has(ALUMINIUM) else steel


def _tapping_bearing(line: Line) -> float:
    t_mm, other_mm = line.one("thinner sheet"), line.one("thicker sheet")
    d_mm, fu_mpa = line.one("major diameter"), line.one("strength of")
    steel = tapping_bearing(t_mm, other_mm, d_mm, fu_mpa)
    return min(steel, tapping_bearing_aluminium(t_mm, other_mm, d_mm, fu_mpa)) if line.has(ALUMINIUM) else steel


def _pull_out(line: Line) -> float:
    t_mm, d_mm, fu_mpa = line.one("sheet"), line.one("major diameter"), line.one("strength of")
    if line.has("pitch"):
        steel = en_pull_out(t_mm, d_mm, line.one("pitch"), fu_mpa)
    else:
        steel = aisi_pull_out(t_mm, d_mm, fu_mpa)
    return min(steel, aluminium_pull_out(t_mm, d_mm, fu_mpa)) if line.has(ALUMINIUM) else steel


def _aisi_shear(line: Line) -> float:
    fu1_mpa, fu2_mpa = line.all("strength of")
    return aisi_shear(line.one("item thickness"), line.one("sheet"), line.one("major diameter"), fu1_mpa, fu2_mpa)


def _rivet_bearing(line: Line) -> float:
    t_mm, other_mm, d_mm = line.one("thinner sheet"), line.one("thicker sheet"), line.one("diameter that bears")
    return rivet_bearing(t_mm, other_mm, d_mm, line.one("edge distance"), line.one("strength of"))


def thread_strip(line: Line) -> float:
    engaged_mm = line.one("engagement") - line.one("lead-in") * line.one("pitch")
    d_least, d2_most = line.one("least major diameter of the screw"), line.one("greatest pitch diameter of the thread")
    shear_mpa = line.one("shear over tensile") * line.one("strength of")
    return strip_of_internal(engaged_mm, line.one("pitch"), d_least, d2_most, shear_mpa)


def _board_lateral(line: Line) -> float:
    """Source: EN 1995-1-1 8.2.3, thin plate, first mode, 0.4 fh t d as an estimate (from memory)."""
    d_mm, depth_mm = line.one("diameter of the screw", "diameter of the insert"), line.one("depth in the board")
    fh_mpa = embedment(line.formula, d_mm, depth_mm, line.maybe("density of", math.nan))
    return 0.4 * fh_mpa * depth_mm * d_mm * line.maybe("edge over face", 1.0)


def _board_hole(line: Line) -> float:
    """Source: EN 1995-1-1 8.2.2, first mode, fh t d, no deeper than the shank stays straight (from memory)."""
    d_mm = line.one("diameter through the item", "diameter of the bolt")
    depth_mm = min(line.one("item thickness", "board"), line.maybe("most depth over diameter", math.inf) * d_mm)
    return embedment(line.formula, d_mm, depth_mm, line.maybe("density of", math.nan)) * depth_mm * d_mm


def ring(line: Line) -> float:
    """What lies under a washer, a flange or a stop bears [N]: 10 MPa that stays, or its own strength if less."""
    pressure_mpa = line.one("pressure")
    if line.has("low-end strength of"):
        pressure_mpa = min(pressure_mpa, plastic_mpa(line))
    outer_mm = line.one("diameter on the item", "diameter behind", "outside of the limiter")
    return ring_pressure(outer_mm, line.one("hole"), pressure_mpa)


def _pull_through(line: Line) -> float:
    """Source: EN 1993-1-3 table 8.2, pull-through dw t fu."""
    width_mm = line.one("diameter behind the sheet", "diameter on the item")
    return width_mm * line.one("sheet", "item thickness") * line.one("strength of")


def _plastic_bearing(line: Line) -> float:
    """Source: stress times projected area (common practice)."""
    d_mm = line.one("diameter that bears", "diameter through the item")
    return d_mm * line.one("depth that bears", "item thickness") * plastic_mpa(line)


def plastic_pull_out(line: Line) -> float:
    d_mm = line.one("mean of screw", "outside of the insert")
    return shear_cylinder(d_mm, line.one("length that holds"), plastic_mpa(line))


def _plastic_punch(line: Line) -> float:
    return shear_cylinder(line.one("diameter behind"), line.one("thickness"), plastic_mpa(line))


def _screw_tension(line: Line) -> float:
    """Source: EN 1993-1-8 table 3.4, 0.9 fub As (from memory)."""
    return 0.9 * line.one("stress area") * line.one("screw strength")


def _screw_shear(line: Line) -> float:
    """Source: EN 1993-1-8 table 3.4, αv fub As (from memory)."""
    return line.one("shear share") * line.one("stress area") * line.one("screw strength")


def proof(line: Line) -> float:
    """Source: ISO 898-1, proof load As Sp."""
    return line.one("stress area") * line.one("proof stress")


def _hook(line: Line) -> float:
    """Source: load by area, as ASTM D5169 gives shear; half is left by use (from memory)."""
    return face_area(line) * line.one("shear of a new pair", "pull of a new pair") * line.one("share left by opening")


def _magnet_pull(line: Line) -> float:
    """Source: common practice; paint and heat take their share of the rated pull."""
    return line.one("pull on thick bare") * line.one("share left by paint") * line.one("share left in heat")


def _magnet_slip(line: Line) -> float:
    """A rim yields under its pot, or without one friction holds. Source: projected area; Coulomb."""
    if line.has("pot"):
        return line.one("pot") * line.one("height of the rim") * line.one("yield of the plate")
    return _magnet_pull(line) * line.one("face friction")


def _of_its_table(line: Line) -> float:
    return line.one("axial load of its table", "shear of its table", "tension of its table", "shear of its body")


def _core_shear(line: Line) -> float:
    """A torque T that breaks a round core plastically is 2 pi τ r³/3. Source: strength of materials; EN 1993-1-8."""
    if line.has("area of the core"):
        return line.one("shear share") * line.one("strength of mild steel") * line.one("area of the core")
    radius = line.one("core") / 2
    tau = 1000 * line.one("breaking torque of the screw") / (2 * math.pi * radius**3 / 3)
    return tau * math.pi * radius**2


def _core_tension(line: Line) -> float:
    """Von Mises: √3 times the shear strength. Source: strength of materials; EN 1993-1-8 table 3.4 for mild steel."""
    if line.has("area of the core"):
        return 0.9 * line.one("strength of mild steel") * line.one("area of the core")
    return math.sqrt(3) * _core_shear(line)


def _blind_head(line: Line) -> float:
    """Source: EN 1993-1-3 table 8.2, dw t fu, on a blind head as wide as remembered."""
    return (
        line.one("blind head over body") * line.one("body of the rivet") * line.one("sheet") * line.one("strength of")
    )


def _dent(line: Line) -> float:
    """Source: Hopkins and Prager 1953, plastic collapse of a plate under a load on a small circle, 6 pi m (Tresca)."""
    moment = line.one("yield") * line.one("sheet") ** 2 / 4
    return 6 * math.pi * moment / (3 - 2 * line.one("radius of what bears") / line.one("nothing holds it within"))


CAPACITY: dict[str, Callable[[Line], float]] = {
    "bearing-en": _tapping_bearing,
    "board-back": ring,
    "board-bolt": _board_hole,
    "board-lateral": _board_lateral,
    "board-lateral-edge": _board_lateral,
    "blind-head": _blind_head,
    "bond-pull": bonded,
    "bond-shear": bonded,
    "core-shear": _core_shear,
    "core-tension": _core_tension,
    "dent": _dent,
    "flange-pull": ring,
    "hook-pull": _hook,
    "hook-shear": _hook,
    "insert-withdrawal": withdrawal,
    "item-bearing": _sheet_bearing,
    "item-bearing-board": _board_hole,
    "item-bearing-plastic": _plastic_bearing,
    "item-pressure": ring,
    "item-pull-over": _pull_through,
    "magnet-pull": _magnet_pull,
    "magnet-slip": _magnet_slip,
    "plastic-back": ring,
    "plastic-bearing": _plastic_bearing,
    "plastic-pull-out": plastic_pull_out,
    "plastic-punch": _plastic_punch,
    "pull-out": _pull_out,
    "pull-out-en": _pull_out,
    "pull-through": _pull_through,
    "receiver-thread": _of_its_table,
    "rivet-bearing": _rivet_bearing,
    "rivet-shear": _of_its_table,
    "nut-shear": _of_its_table,
    "rivet-tension": _of_its_table,
    "screw-proof": proof,
    "screw-shear": _screw_shear,
    "screw-tension": _screw_tension,
    "sheet-bearing": _sheet_bearing,
    "sheet-shear": _aisi_shear,
    "tape-creep": bonded,
    "tape-hangs": bonded,
    "tape-pull": bonded,
    "tape-shear": bonded,
    "thread-strip": thread_strip,
    "withdrawal": withdrawal,
}
