"""Torque and preload: what a wrench makes of a screw, and what a joint needs of it."""

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
