"""Thread stripping: the cylinder a thread shears along, and how much engagement a load needs.

Areas are calculated at the limits of the tolerance, never at basic size: that is where threads strip.
"""

from math import pi

from fasten.require import above, not_negative, positive, refuse

_TAN_30 = 0.57735


def external_shear_area_mm2(
    *, engagement_mm: float, pitch_mm: float, internal_minor_max_mm: float, external_pitch_min_mm: float
) -> float:
    """Area over which the screw's own thread shears.

    engagement_mm: effective engagement, lead-in taken off [mm]
    pitch_mm: thread pitch P [mm]
    internal_minor_max_mm: largest minor diameter D1 of the nut thread [mm]
    external_pitch_min_mm: smallest pitch diameter d2 of the screw thread [mm]
    Returns: shear area [mm²]
    Raises: ValueError for a size not above 0, or threads too far apart to meet.
    Source: FED-STD-H28; Machinery's Handbook, pi (Le/P) D1max [P/2 + 0.57735 (d2min - D1max)]
    """
    positive(engagement_mm=engagement_mm, pitch_mm=pitch_mm)
    positive(internal_minor_max_mm=internal_minor_max_mm, external_pitch_min_mm=external_pitch_min_mm)
    width = pitch_mm / 2 + _TAN_30 * (external_pitch_min_mm - internal_minor_max_mm)
    return (
        pi
        * engagement_mm
        / pitch_mm
        * internal_minor_max_mm
        * _meeting("internal_minor_max_mm", internal_minor_max_mm, width)
    )


def internal_shear_area_mm2(
    *, engagement_mm: float, pitch_mm: float, external_major_min_mm: float, internal_pitch_max_mm: float
) -> float:
    """Area over which the nut's, or the tapped hole's, thread shears.

    engagement_mm: effective engagement, lead-in taken off [mm]
    pitch_mm: thread pitch P [mm]
    external_major_min_mm: smallest major diameter d of the screw thread [mm]
    internal_pitch_max_mm: largest pitch diameter D2 of the nut thread [mm]
    Returns: shear area [mm²]
    Raises: ValueError for a size not above 0, or threads too far apart to meet.
    Source: FED-STD-H28; Machinery's Handbook, pi (Le/P) dmin [P/2 + 0.57735 (dmin - D2max)]
    """
    positive(engagement_mm=engagement_mm, pitch_mm=pitch_mm)
    positive(external_major_min_mm=external_major_min_mm, internal_pitch_max_mm=internal_pitch_max_mm)
    width = pitch_mm / 2 + _TAN_30 * (external_major_min_mm - internal_pitch_max_mm)
    return (
        pi
        * engagement_mm
        / pitch_mm
        * external_major_min_mm
        * _meeting("internal_pitch_max_mm", internal_pitch_max_mm, width)
    )


def _meeting(name: str, value: float, width_mm: float) -> float:
    if width_mm <= 0:
        raise refuse(name, value, "small enough for the threads to meet", "there is no thread flank left to shear")
    return width_mm


def effective_engagement_mm(*, engagement_mm: float, pitch_mm: float, lead_in_pitches: float) -> float:
    """Engagement that carries, once chamfers and the screw's incomplete first threads are taken off.

    engagement_mm: threaded length the screw passes through [mm]
    pitch_mm: thread pitch P [mm]
    lead_in_pitches: pitches that do not carry, one to two [-]
    Returns: effective engagement [mm]
    Raises: ValueError for a size not above 0, a lead-in below 0, or an engagement of nothing but lead-in.
    Source: common practice, one to two pitches
    """
    positive(pitch_mm=pitch_mm)
    not_negative(lead_in_pitches=lead_in_pitches)
    lead_in = lead_in_pitches * pitch_mm
    above(lead_in, "the whole engagement is lead-in and no full thread is left", engagement_mm=engagement_mm)
    return engagement_mm - lead_in


def shear_strength_mpa(*, ultimate_mpa: float, ratio: float) -> float:
    """Shear strength of a metal from its tensile strength.

    ultimate_mpa: tensile strength Rm [MPa]
    ratio: 0.577 (von Mises) to 0.6 for steel [-]
    Returns: shear strength [MPa]
    Raises: ValueError for a value not above 0.
    Source: Machinery's Handbook; von Mises criterion
    """
    positive(ultimate_mpa=ultimate_mpa, ratio=ratio)
    return ratio * ultimate_mpa


def strip_load_n(*, shear_area_mm2: float, shear_strength_mpa: float) -> float:
    """Pull that strips a thread.

    shear_area_mm2: area of the thread that goes first [mm²]
    shear_strength_mpa: shear strength of its material [MPa]
    Returns: strip load [N]
    Raises: ValueError for a value not above 0.
    Source: FED-STD-H28; Machinery's Handbook
    """
    positive(shear_area_mm2=shear_area_mm2, shear_strength_mpa=shear_strength_mpa)
    return shear_area_mm2 * shear_strength_mpa
