"""What holds by its face: strips of hook-and-loop, bonds and tape, magnets on plates, and a bonded base that is turned.

Loads are of one place where the item is held, before the factor of the load case; peeling is not calculated.
"""

from math import pi

from fasten.require import at_most, positive


def strip_area_mm2(*, length_mm: float, width_mm: float) -> float:
    """Area of a strip.

    length_mm: longer side [mm]
    width_mm: shorter side [mm]
    Returns: area [mm²]
    Raises: ValueError for a side not above 0.
    Source: geometry
    """
    positive(length_mm=length_mm, width_mm=width_mm)
    return length_mm * width_mm


def disc_area_mm2(*, diameter_mm: float) -> float:
    """Area of a disc.

    diameter_mm: diameter [mm]
    Returns: area [mm²]
    Raises: ValueError for a diameter not above 0.
    Source: geometry
    """
    positive(diameter_mm=diameter_mm)
    return pi / 4 * diameter_mm**2


def hook_load_n(*, area_mm2: float, new_mpa: float, share: float) -> float:
    """Load that parts hook from loop after years of opening, A s share.

    area_mm2: area pressed together [mm²]
    new_mpa: load by area that parts a new pair, in shear or straight off [MPa]
    share: what opening and closing leave of it, 0.5 to 0.7 [-]
    Returns: load [N]
    Raises: ValueError for a value not above 0, or a share above 1.
    Source: load by area as the trade's test methods for shear and tension have it (memory)
    """
    positive(area_mm2=area_mm2, new_mpa=new_mpa, share=share)
    at_most(1.0, "wear adds no hooks", share=share)
    return area_mm2 * new_mpa * share


def hot_bond_mpa(*, cold_mpa: float, share: float) -> float:
    """Strength of a bond or tape in the heat where it lives.

    cold_mpa: shear or tension that parts it at room temperature [MPa]
    share: what the heat leaves of it, 1 where it stays cool [-]
    Returns: strength to calculate with [MPa]
    Raises: ValueError for a value not above 0, or a share above 1.
    Source: adhesive makers' curves of lap shear over temperature (memory)
    """
    positive(cold_mpa=cold_mpa, share=share)
    at_most(1.0, "heat strengthens no cured bond", share=share)
    return cold_mpa * share


def bond_load_n(*, area_mm2: float, strength_mpa: float) -> float:
    """Load of a bond or tape, A s, evenly stressed: it lets go sooner where it is peeled or levered.

    area_mm2: area bonded [mm²]
    strength_mpa: of the bond, or of the face under it where that is less [MPa]
    Returns: load [N]
    Raises: ValueError for a value not above 0.
    Source: mean stress over the bonded area, as lap-shear figures are given (memory)
    """
    positive(area_mm2=area_mm2, strength_mpa=strength_mpa)
    return area_mm2 * strength_mpa


def magnet_pull_n(*, pull_n: float, film: float, heat: float) -> float:
    """Pull of a pot magnet on its plate through paint and in heat, F film heat.

    pull_n: pull on thick bare steel at room temperature [N]
    film: share left by paint or film between pot and plate [-]
    heat: share left at the temperature where it lives [-]
    Returns: pull [N]
    Raises: ValueError for a value not above 0, or a share above 1.
    Source: common practice, no source
    """
    positive(pull_n=pull_n, film=film, heat=heat)
    at_most(1.0, "neither film nor heat adds to a magnet's pull", film=film, heat=heat)
    return pull_n * film * heat


def magnet_slip_n(*, pull_n: float, friction: float) -> float:
    """Shear at which a magnet slides on a flat plate, mu F.

    pull_n: pull that presses it on [N]
    friction: of the two faces [-]
    Returns: shear [N]
    Raises: ValueError for a value not above 0.
    Source: statics
    """
    positive(pull_n=pull_n, friction=friction)
    return friction * pull_n


def rim_load_n(*, diameter_mm: float, rim_mm: float, yield_mpa: float) -> float:
    """Shear that the rim of a plate bears on a pot that sits in it, on its projected area, d h Re.

    diameter_mm: pot [mm]
    rim_mm: height of the rim [mm]
    yield_mpa: yield strength of the plate [MPa]
    Returns: load [N]
    Raises: ValueError for a value not above 0.
    Source: projected area, common practice, no source
    """
    positive(diameter_mm=diameter_mm, rim_mm=rim_mm, yield_mpa=yield_mpa)
    return diameter_mm * rim_mm * yield_mpa


def base_torsion_nm(*, diameter_mm: float, shear_mpa: float, share: float) -> float:
    """Torque that turns a bonded round base off, share tau pi D^3 / 16: the rim of the bond reaches its shear first.

    diameter_mm: base [mm]
    shear_mpa: shear that parts the bond [MPa]
    share: of the base that is not holes [-]
    Returns: torque [N·m]
    Raises: ValueError for a value not above 0, or a share above 1.
    Source: torsion of a circular section, strength-of-materials textbooks; for a bond by analogy (memory)
    """
    positive(diameter_mm=diameter_mm, shear_mpa=shear_mpa, share=share)
    at_most(1.0, "a base has no more area than its disc", share=share)
    return share * shear_mpa * pi * diameter_mm**3 / 16 / 1000
