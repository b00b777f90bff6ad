"""Torque and preload: what a wrench makes of a screw, and what a joint asks of it."""

from math import pi, sqrt

from fasten.require import at_least, at_most, below, not_negative, positive, refuse

REUSABLE_FRACTION = 0.75
PERMANENT_FRACTION = 0.90


def torque_nm(*, nut_factor: float, diameter_mm: float, preload_n: float) -> float:
    """Tightening torque for a wanted preload, T = K d F.

    nut_factor: K of finish and lubrication [-]
    diameter_mm: nominal thread diameter [mm]
    preload_n: wanted preload [N]
    Returns: torque, without any prevailing torque [N·m]
    Raises: ValueError for a factor or diameter not above 0, or a preload below 0.
    Source: NASA TM-106943; Shigley, Mechanical Engineering Design
    """
    positive(nut_factor=nut_factor, diameter_mm=diameter_mm)
    not_negative(preload_n=preload_n)
    return nut_factor * diameter_mm * preload_n / 1000


def preload_n(*, torque_nm: float, nut_factor: float, diameter_mm: float) -> float:
    """Nominal preload a torque makes, F = T / (K d).

    torque_nm: torque that clamps, prevailing torque taken off [N·m]
    nut_factor: K of finish and lubrication [-]
    diameter_mm: nominal thread diameter [mm]
    Returns: nominal preload [N]
    Raises: ValueError for a factor or diameter not above 0, or a torque below 0.
    Source: NASA TM-106943; Shigley, Mechanical Engineering Design
    """
    positive(nut_factor=nut_factor, diameter_mm=diameter_mm)
    not_negative(torque_nm=torque_nm)
    return torque_nm * 1000 / (nut_factor * diameter_mm)


def bearing_diameter_mm(*, head_mm: float, hole_mm: float) -> float:
    """Mean diameter Dkm on which friction under the head acts.

    head_mm: outer diameter of the bearing face, dw [mm]
    hole_mm: clearance hole under it [mm]
    Returns: mean friction diameter [mm]
    Raises: ValueError for a size not above 0, or a hole the head falls through.
    Source: VDI 2230, Dkm = (dw + dh) / 2
    """
    positive(head_mm=head_mm, hole_mm=hole_mm)
    below(head_mm, "the head would fall through its hole", hole_mm=hole_mm)
    return (head_mm + hole_mm) / 2


def torque_vdi_nm(
    *,
    preload_n: float,
    pitch_mm: float,
    pitch_diameter_mm: float,
    thread_friction: float,
    bearing_mm: float,
    head_friction: float,
) -> float:
    """Tightening torque from pitch and the two frictions, M = F (0.16 P + 0.58 d2 µG + Dkm µK / 2).

    preload_n: wanted preload [N]
    pitch_mm: thread pitch P [mm]
    pitch_diameter_mm: pitch diameter d2 [mm]
    thread_friction: µG in the thread [-]
    bearing_mm: mean friction diameter under the head, Dkm [mm]
    head_friction: µK under the head [-]
    Returns: torque, without any prevailing torque [N·m]
    Raises: ValueError for a size not above 0, or a preload or friction below 0.
    Source: VDI 2230, 60 degree thread
    """
    positive(pitch_mm=pitch_mm, pitch_diameter_mm=pitch_diameter_mm, bearing_mm=bearing_mm)
    not_negative(preload_n=preload_n, thread_friction=thread_friction, head_friction=head_friction)
    thread = 0.16 * pitch_mm + 0.58 * pitch_diameter_mm * thread_friction
    return preload_n * (thread + bearing_mm * head_friction / 2) / 1000


def preload_at_yield_n(
    *,
    stress_area_mm2: float,
    yield_mpa: float,
    utilisation: float,
    pitch_mm: float,
    pitch_diameter_mm: float,
    stress_diameter_mm: float,
    thread_friction: float,
    torsion_factor: float,
) -> float:
    """Preload at which tension and thread torsion together use a share of the yield strength.

    stress_area_mm2: tensile stress area As [mm²]
    yield_mpa: 0.2 % yield strength [MPa]
    utilisation: share of yield used, 0.9 in the tables [-]
    pitch_mm: thread pitch P [mm]
    pitch_diameter_mm: pitch diameter d2 [mm]
    stress_diameter_mm: diameter d0 of the stress area, (d2 + d3) / 2 [mm]
    thread_friction: µG in the thread [-]
    torsion_factor: 1.5 with the section fully plastic (2003 on), 2.0 elastic (older editions) [-]
    Returns: preload [N]
    Raises: ValueError for a size, strength or factor not above 0, a friction below 0, or a utilisation above 1.
    Source: VDI 2230 (memory; the tables of both editions recomputed with it)
    """
    positive(stress_area_mm2=stress_area_mm2, yield_mpa=yield_mpa, utilisation=utilisation, pitch_mm=pitch_mm)
    positive(pitch_diameter_mm=pitch_diameter_mm, stress_diameter_mm=stress_diameter_mm, torsion_factor=torsion_factor)
    not_negative(thread_friction=thread_friction)
    at_most(1.0, "past the yield strength the formula no longer holds", utilisation=utilisation)
    slope = pitch_mm / (pi * pitch_diameter_mm) + 1.155 * thread_friction
    torsion = torsion_factor * pitch_diameter_mm / stress_diameter_mm * slope
    return stress_area_mm2 * utilisation * yield_mpa / sqrt(1 + 3 * torsion**2)


def preload_target_n(*, proof_n: float, fraction: float) -> float:
    """Preload to aim at, as a fraction of the proof load.

    proof_n: proof load of the screw [N]
    fraction: `REUSABLE_FRACTION` 0.75 for a joint that is undone, `PERMANENT_FRACTION` 0.90 for one that is not [-]
    Returns: target preload [N]
    Raises: ValueError for a proof load or fraction not above 0, or a fraction above 1.
    Source: Shigley, Mechanical Engineering Design, preload rule; printed on several public pages
    """
    positive(proof_n=proof_n, fraction=fraction)
    at_most(1.0, "a preload above the proof load stretches the screw for good", fraction=fraction)
    return fraction * proof_n


def preload_max_n(*, nominal_n: float, uncertainty: float) -> float:
    """Highest preload a tightening may reach.

    nominal_n: preload of the mean nut factor [N]
    uncertainty: spread of the tightening method, 0.25 lubricated, 0.35 dry [-]
    Returns: highest preload [N]
    Raises: ValueError for a preload or spread below 0.
    Source: NASA TM-106943, Pmax = T/(K d) (1 + u)
    """
    not_negative(nominal_n=nominal_n, uncertainty=uncertainty)
    return nominal_n * (1 + uncertainty)


def preload_min_n(*, nominal_n: float, uncertainty: float, relaxation: float) -> float:
    """Lowest preload left in a metal joint after spread and relaxation.

    nominal_n: preload of the mean nut factor [N]
    uncertainty: spread of the tightening method, 0.25 lubricated, 0.35 dry [-]
    relaxation: loss counted on the minimum, 0.05 in the source [-]
    Returns: lowest preload [N]
    Raises: ValueError for a value below 0 or a spread of 1 and up, which leaves nothing.
    Source: NASA TM-106943, Pmin = T/(K d) (1 - u) / 1.05
    """
    not_negative(nominal_n=nominal_n, uncertainty=uncertainty, relaxation=relaxation)
    below(1.0, "such a spread leaves no preload to count on", uncertainty=uncertainty)
    return nominal_n * (1 - uncertainty) / (1 + relaxation)


def preload_kept_n(*, nominal_n: float, uncertainty: float, kept_fraction: float) -> float:
    """Preload left in the long run where the clamped layers creep: lowest tightening times the fraction kept.

    nominal_n: preload of the mean nut factor [N]
    uncertainty: spread of the tightening method [-]
    kept_fraction: fraction the layers keep, 0.95 metal, 0.5 board, 0.4 ABS, 0 soft [-]
    Returns: preload kept [N]
    Raises: ValueError for a value below 0, a spread of 1 and up, or a fraction above 1.
    Source: common practice, no source for the fractions
    """
    not_negative(kept_fraction=kept_fraction)
    at_most(1.0, "a joint does not gain preload by creeping", kept_fraction=kept_fraction)
    return preload_min_n(nominal_n=nominal_n, uncertainty=uncertainty, relaxation=0.0) * kept_fraction


def clamping_torque_nm(*, wrench_nm: float, prevailing_nm: float) -> float:
    """What is left of the wrench setting to clamp with, once the prevailing torque is overcome.

    wrench_nm: torque set on the wrench [N·m]
    prevailing_nm: torque that turns the locking element alone [N·m]
    Returns: torque that clamps [N·m]
    Raises: ValueError for a torque below 0 or a prevailing torque above the wrench setting: the nut never seats.
    Source: NASA TM-106943; prevailing torque is taken off before T = K d F
    """
    not_negative(wrench_nm=wrench_nm, prevailing_nm=prevailing_nm)
    at_most(wrench_nm, "the wrench lets go before the nut seats", prevailing_nm=prevailing_nm)
    return wrench_nm - prevailing_nm


def wrench_torque_nm(*, clamping_nm: float, prevailing_nm: float) -> float:
    """Wrench setting for a wanted clamping torque over a locking element.

    clamping_nm: torque that clamps [N·m]
    prevailing_nm: torque that turns the locking element alone [N·m]
    Returns: torque to set on the wrench [N·m]
    Raises: ValueError for a torque below 0.
    Source: NASA TM-106943; prevailing torque is added to the wrench setting
    """
    not_negative(clamping_nm=clamping_nm, prevailing_nm=prevailing_nm)
    return clamping_nm + prevailing_nm


def torque_ceiling_nm(*, failure_nm: float, fraction: float) -> float:
    """Highest torque to use where a torque is known at which something strips, breaks or turns.

    failure_nm: torque at which it fails [N·m]
    fraction: 0.5 of a boss's, a board's or a tapping screw's, 0.65 of a rivet nut's spin-out [-]
    Returns: highest torque [N·m]
    Raises: ValueError for a value not above 0, or a fraction of 1 and up.
    Source: DIN 7975 for tapping screws (0.5); elsewhere common practice, no source
    """
    positive(failure_nm=failure_nm, fraction=fraction)
    below(1.0, "tightening up to the failure torque leaves nothing in hand", fraction=fraction)
    return fraction * failure_nm


def torque_floor_nm(*, driving_nm: float, margin: float) -> float:
    """Lowest torque that surely seats a screw which forms its own thread.

    driving_nm: torque that drives it through its thread [N·m]
    margin: 1.2 in resin makers' guides [-]
    Returns: lowest torque [N·m]
    Raises: ValueError for a torque below 0 or a margin below 1: the head would not reach its seat.
    Source: resin makers' joining guides (memory)
    """
    not_negative(driving_nm=driving_nm)
    at_least(1.0, "under the driving torque the head does not reach its seat", margin=margin)
    return margin * driving_nm


def separation_load_n(*, preload_n: float, load_share: float) -> float:
    """Pull on one fixing at which the clamped faces part, Pmin / (1 - n phi).

    preload_n: lowest preload kept [N]
    load_share: n phi, the share of an outer pull that the fastener takes while clamped; 0 is the safe side [-]
    Returns: pull at separation [N]
    Raises: ValueError for a preload below 0, or a share outside 0 up to but not 1.
    Source: NASA TM-106943
    """
    not_negative(preload_n=preload_n)
    return preload_n / (1 - _share(load_share))


def preload_against_separation_n(*, pull_n: float, load_share: float, factor: float) -> float:
    """Preload one fixing must keep for its faces to stay together under a pull.

    pull_n: pull on the fixing [N]
    load_share: n phi, the share of an outer pull that the fastener takes while clamped; 0 is the safe side [-]
    factor: factor on the pull, 1.2 structural in the source [-]
    Returns: preload to keep [N]
    Raises: ValueError for a pull below 0, a factor not above 0, or a share outside 0 up to but not 1.
    Source: NASA TM-106943
    """
    not_negative(pull_n=pull_n)
    positive(factor=factor)
    return factor * pull_n * (1 - _share(load_share))


def _share(load_share: float) -> float:
    if not 0 <= load_share < 1:
        raise refuse("load_share", load_share, "from 0 up to but not 1", "the clamped parts take some of every pull")
    return load_share


def slip_load_n(*, preload_n: float, friction: float, fixings: int) -> float:
    """Load in the plane that friction holds, µ n Pmin.

    preload_n: lowest preload kept in each fixing [N]
    friction: friction of the joint faces, 0.15 painted [-]
    fixings: number of fixings [-]
    Returns: load at slip [N]
    Raises: ValueError for a preload or friction below 0, or fewer than one fixing.
    Source: NASA TM-106943; friction of painted faces common practice
    """
    not_negative(preload_n=preload_n, friction=friction)
    at_least(1, "slip is held by at least one fixing", fixings=fixings)
    return friction * fixings * preload_n


def preload_against_slip_n(*, shear_n: float, friction: float, factor: float) -> float:
    """Clamp one fixing must keep for friction alone to hold its share of a load in the plane.

    A pull on the same fixing lifts the faces and is to be added.

    shear_n: force in the plane on the fixing [N]
    friction: friction of the joint faces, 0.15 painted [-]
    factor: factor on the force [-]
    Returns: clamp to keep [N]
    Raises: ValueError for a force below 0, or a friction or factor not above 0.
    Source: NASA TM-106943; friction of painted faces common practice
    """
    not_negative(shear_n=shear_n)
    positive(friction=friction, factor=factor)
    return factor * shear_n / friction
