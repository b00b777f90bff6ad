"""The torque window, recalculated from the inputs of its check."""

from collections.abc import Callable
from math import pi

from recalculation.capacities import (
    aisi_pull_out,
    aluminium_pull_out,
    plastic_pull_out,
    proof,
    ring,
    spin_out,
    thread_strip,
    torsion_of_base,
    withdrawal,
)
from recalculation.reading import Line


def torque_nm(line: Line, preload_n: float) -> float:
    """Torque that leaves a preload. Source: T = K d F, handbooks of machine design; K of the finish, nominal."""
    return line.one("nut factor") * line.one("screw diameter") * preload_n / 1000


def lower_nm(line: Line) -> float:
    """The least that is tight enough.

    A clamped joint neither slips nor parts in service after the scatter of tightening and the settling that follows:
    F (1 − u) kept ≥ 1.2 T + S V/µ, S 1.8 where nothing but the clamp keeps the screw from turning, else 1.2. One that
    forms its thread gets 1.2 of what drives it. One that is only seated
    carries the pull, and what pushes the foam under it back, 0.028 MPa over its strip. A ground lug is pressed on its
    ring with 10 MPa where that is more.
    Source: NASA TM-106943, Pmin and its separation factor; Coulomb; resin makers' guides; gasket makers' pages.
    """
    if line.has("least pressure on the ring"):
        return torque_nm(line, _on_the_ring(line, "least pressure on the ring") / (1 - line.one("scatter")))
    if line.has("driving ratio"):
        return line.one("driving ratio") * line.one("torque that seats it", "driving torque")
    wanted_n = line.one("factor on separation") * line.one("tension in service")
    if line.has("shear in service"):
        wanted_n += line.one("factor on slip") * line.one("shear in service") / line.one("face friction")
    if line.has("foam a fixing"):
        wanted_n += line.one("push of soft foam") * line.one("width of the foam") * line.one("foam a fixing")
    return torque_nm(line, wanted_n / ((1 - line.one("scatter")) * line.maybe("preload kept", 1.0)))


def upper_nm(line: Line) -> float:
    """The most, by what the check says limits it: each its own end, told apart by the inputs that are there."""
    found = [end(line) for told, end in _ENDS if line.has(told)]
    assert len(found) == 1, f"{len(found)} upper ends fit {line.names()}"
    return found[0] - (line.maybe("greatest prevailing torque", 0.0) if line.has("stress area") else 0.0)


def _pressure(line: Line) -> float:
    """Bearing under a head or washer at the high end of the scatter. Source: 10 MPa that stays, common practice."""
    return line.maybe("torque that seats it", 0.0) + torque_nm(line, ring(line) / (1 + line.one("scatter")))


def _on_the_ring(line: Line, pressure: str) -> float:
    """Clamp that presses the palm of a lug outside its hole. Source: area of a ring; pressures from memory."""
    return line.one(pressure) * pi / 4 * (line.one("palm of the lug") ** 2 - line.one("hole of the ring") ** 2)


def _of(capacity: Callable[[Line], float]) -> Callable[[Line], float]:
    """A share of what fails. Source: 0.75 of proof load, 0.65 of a thread that goes first, half of board or plastic.

    What only seats a screw presses on nothing yet and comes on top.
    """
    return lambda line: line.maybe("torque that seats it", 0.0) + torque_nm(line, line.one("share") * capacity(line))


def _sheet(line: Line) -> float:
    """Source: AISI S100 E4.4.1 and EN 1999-1-4."""
    t_mm, d_mm, fu_mpa = line.one("sheet"), line.one("major diameter"), line.one("strength of")
    steel = aisi_pull_out(t_mm, d_mm, fu_mpa)
    return min(steel, aluminium_pull_out(t_mm, d_mm, fu_mpa)) if line.has("strength of aluminium") else steel


def _base(line: Line) -> float:
    """Source: torsion of a round section, less what the nut takes to turn (ISO 2320)."""
    return torsion_of_base(line) / line.one("factor on the bond") - line.one("greatest prevailing torque")


def _turns(line: Line) -> float:
    """0.65 of spin-out, or what leaves 0.8 of it to 0.8 of the torque and the locker. Source: common practice."""
    if not line.has("loosening share"):
        return line.one("share") * spin_out(line)
    breaks_nm = line.one("breakaway at M10") * (line.one("screw diameter") / 10) ** 3
    return (0.8 * spin_out(line) - breaks_nm) / 0.8


_ENDS: tuple[tuple[str, Callable[[Line], float]], ...] = (
    (
        "most pressure on the ring",
        lambda line: torque_nm(line, _on_the_ring(line, "most pressure on the ring") / (1 + line.one("scatter"))),
    ),
    ("pressure", _pressure),
    ("stress area", _of(proof)),
    ("engagement", _of(thread_strip)),
    ("major diameter", _of(_sheet)),
    ("depth in the board", _of(withdrawal)),
    ("length that holds", _of(plastic_pull_out)),
    ("spin-out as tested", _turns),
    ("geometric mean of own tests", _turns),
    ("diameter of the base", _base),
    ("breaking torque", lambda line: line.one("share") * line.one("breaking torque")),
    ("strip torque", lambda line: line.one("share") * line.one("strip torque")),
)
