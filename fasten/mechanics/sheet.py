"""Fixings in thin sheet: what the sheet carries round a tapping screw, a bolt, a rivet nut or a rivet.

AISI functions give nominal (ultimate) strengths, the EN ones design resistances with the partial factor passed in.
Editions that differ stand side by side; which one is used is said above this layer.
"""

from math import sqrt

from fasten.require import above, at_least, not_negative, partial_factor, positive

_AISI_HEAD_CAP_MM = 12.7
_AISI_NEWER_HEAD_CAP_MM = 19.05
_ALUMINIUM_ULTIMATE_CAP_MPA = 260.0
_MM_PER_INCH = 25.4
_FULLY_UNLIKE = 2.5  # thickness ratio from which the thicker sheet keeps the fixing from tilting


def pull_out_aisi_n(*, sheet_mm: float, major_mm: float, sheet_ultimate_mpa: float) -> float:
    """Pull-out of a tapping screw, 0.85 t d Fu.

    sheet_mm: sheet that holds the thread, or the depth of thread in it if less [mm]
    major_mm: major diameter of the screw [mm]
    sheet_ultimate_mpa: tensile strength of that sheet [MPa]
    Returns: nominal strength [N]
    Raises: ValueError for a value not above 0.
    Source: AISI S100 E4.4.1, older editions (safety factor 3 on it)
    """
    positive(sheet_mm=sheet_mm, major_mm=major_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    return 0.85 * sheet_mm * major_mm * sheet_ultimate_mpa


def shear_aisi_n(
    *,
    head_sheet_mm: float,
    thread_sheet_mm: float,
    major_mm: float,
    head_ultimate_mpa: float,
    thread_ultimate_mpa: float,
) -> float:
    """Shear of a tapping screw joining two sheets: tilting or bearing up to t2/t1 = 1, bearing alone from 2.5 up.

    In between it is linear in the ratio of the sheets, which lets a thicker sheet under the head cost a few percent
    where tilting governs: the standard's own kink.

    head_sheet_mm: sheet under the head, t1 [mm]
    thread_sheet_mm: sheet that holds the thread, t2 [mm]
    major_mm: major diameter of the screw [mm]
    head_ultimate_mpa: tensile strength of the sheet under the head [MPa]
    thread_ultimate_mpa: tensile strength of the sheet that holds the thread [MPa]
    Returns: nominal strength [N]
    Raises: ValueError for a value not above 0.
    Source: AISI S100 E4.3.1, older editions (safety factor 3 on it)
    """
    positive(head_sheet_mm=head_sheet_mm, thread_sheet_mm=thread_sheet_mm, major_mm=major_mm)
    positive(head_ultimate_mpa=head_ultimate_mpa, thread_ultimate_mpa=thread_ultimate_mpa)
    bearing = 2.7 * major_mm * min(head_sheet_mm * head_ultimate_mpa, thread_sheet_mm * thread_ultimate_mpa)
    tilting = 4.2 * sqrt(thread_sheet_mm**3 * major_mm) * thread_ultimate_mpa
    return _between_sheets(thread_sheet_mm / head_sheet_mm, min(tilting, bearing), bearing)


def _between_sheets(ratio: float, alike: float, unlike: float) -> float:
    """Linear from sheets alike to sheets so unlike that the thicker one holds the fixing upright."""
    if ratio <= 1:
        return alike
    if ratio >= _FULLY_UNLIKE:
        return unlike
    return alike + (unlike - alike) * (ratio - 1) / (_FULLY_UNLIKE - 1)


def _bearing_factor(thinner_mm: float, thicker_mm: float, alike: float, unlike: float) -> float:
    at_least(thinner_mm, "the thicker sheet is the other one", thicker_mm=thicker_mm)
    return _between_sheets(thicker_mm / thinner_mm, min(alike, unlike), unlike)


def bearing_tapping_en_n(
    *, thinner_mm: float, thicker_mm: float, major_mm: float, sheet_ultimate_mpa: float, gamma: float
) -> float:
    """Bearing of sheet on a tapping screw, alpha fu d t / gamma with alpha = 3.2 sqrt(t/d) up to 2.1.

    A far thicker second sheet lifts alpha to 2.1, only from 1.0 mm up. For screws of 3 to 8 mm, end distance 3 d.

    thinner_mm: thinner of the two sheets, t [mm]
    thicker_mm: thicker of the two, t1 [mm]
    major_mm: major diameter of the screw [mm]
    sheet_ultimate_mpa: tensile strength of the thinner sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, a thicker sheet thinner than the thinner, or a partial factor below 1.
    Source: EN 1993-1-3 table 8.2, read in an open transcription
    """
    positive(thinner_mm=thinner_mm, major_mm=major_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    partial_factor(gamma)
    alike = min(3.2 * sqrt(thinner_mm / major_mm), 2.1)
    alpha = _bearing_factor(thinner_mm, thicker_mm, alike, alike if thinner_mm < 1.0 else 2.1)
    return alpha * sheet_ultimate_mpa * major_mm * thinner_mm / gamma


def pull_out_en_n(
    *, sheet_mm: float, major_mm: float, pitch_mm: float, sheet_ultimate_mpa: float, gamma: float
) -> float:
    """Pull-out of a tapping screw, 0.65 d t fu / gamma, 0.45 in a sheet thinner than one pitch.

    sheet_mm: sheet that holds the thread [mm]
    major_mm: major diameter of the screw [mm]
    pitch_mm: thread pitch [mm]
    sheet_ultimate_mpa: tensile strength of that sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, or a partial factor below 1.
    Source: EN 1993-1-3 table 8.2; 0.65 read in the ENV text, 0.45 from memory
    """
    positive(sheet_mm=sheet_mm, major_mm=major_mm, pitch_mm=pitch_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    partial_factor(gamma)
    hold = 0.45 if sheet_mm < pitch_mm else 0.65
    return hold * major_mm * sheet_mm * sheet_ultimate_mpa / gamma


def pull_through_en_n(*, sheet_mm: float, head_mm: float, sheet_ultimate_mpa: float, gamma: float) -> float:
    """Pull of a head, washer, flange or bulge through its sheet under static load, dw t fu / gamma.

    sheet_mm: sheet it bears on [mm]
    head_mm: diameter of what bears: head, washer, a rivet nut's flange or its bulge [mm]
    sheet_ultimate_mpa: tensile strength of that sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, or a partial factor below 1.
    Source: EN 1993-1-3 table 8.2; flanges and bulges by analogy
    """
    positive(sheet_mm=sheet_mm, head_mm=head_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    partial_factor(gamma)
    return head_mm * sheet_mm * sheet_ultimate_mpa / gamma


def thin_sheet_factor(*, sheet_mm: float) -> float:
    """Reduction kt of bolt bearing in thin sheet, (0.8 t + 1.5) / 2.5 under 1.25 mm, 1 from there up.

    The source starts at 0.75 mm; below it the line is carried straight on, an extrapolation to the low side.

    sheet_mm: sheet [mm]
    Returns: factor kt [-]
    Raises: ValueError for a sheet not above 0.
    Source: EN 1993-1-3 table 8.4 (memory)
    """
    positive(sheet_mm=sheet_mm)
    return min((0.8 * sheet_mm + 1.5) / 2.5, 1.0)


def bearing_bolt_en_n(
    *, sheet_mm: float, bolt_mm: float, edge_mm: float, sheet_ultimate_mpa: float, gamma: float
) -> float:
    """Bearing of sheet on a bolt or a rivet nut's body, 2.5 alpha kt fu d t / gamma, alpha = e1 / 3d up to 1.

    sheet_mm: sheet [mm]
    bolt_mm: diameter that bears on it [mm]
    edge_mm: hole centre to edge, in the direction of the force [mm]
    sheet_ultimate_mpa: tensile strength of the sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, an edge inside the hole, or a partial factor below 1.
    Source: EN 1993-1-3 table 8.4 (memory); rivet nuts by analogy
    """
    positive(bolt_mm=bolt_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    above(bolt_mm / 2, "the hole would break out of the edge", edge_mm=edge_mm)
    partial_factor(gamma)
    alpha = min(edge_mm / (3 * bolt_mm), 1.0)
    return 2.5 * alpha * thin_sheet_factor(sheet_mm=sheet_mm) * sheet_ultimate_mpa * bolt_mm * sheet_mm / gamma


def bearing_rivet_en_n(
    *, thinner_mm: float, thicker_mm: float, rivet_mm: float, edge_mm: float, sheet_ultimate_mpa: float, gamma: float
) -> float:
    """Bearing of sheet on a blind rivet, alpha fu d t / gamma with alpha = 3.6 sqrt(t/d) up to 2.1.

    A far thicker second sheet lifts alpha to 2.1; never more than fu e1 t / (1.2 gamma). For rivets of 2.6 to 6.4 mm.

    thinner_mm: thinner of the two sheets, t [mm]
    thicker_mm: thicker of the two, t1 [mm]
    rivet_mm: rivet diameter [mm]
    edge_mm: hole centre to edge, in the direction of the force [mm]
    sheet_ultimate_mpa: tensile strength of the thinner sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, a thicker sheet thinner than the thinner, an edge inside the hole, or a
        partial factor below 1.
    Source: EN 1993-1-3 table 8.1 (memory)
    """
    positive(thinner_mm=thinner_mm, rivet_mm=rivet_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    above(rivet_mm / 2, "the hole would break out of the edge", edge_mm=edge_mm)
    partial_factor(gamma)
    alpha = _bearing_factor(thinner_mm, thicker_mm, 3.6 * sqrt(thinner_mm / rivet_mm), 2.1)
    return min(alpha * rivet_mm, edge_mm / 1.2) * sheet_ultimate_mpa * thinner_mm / gamma


def sheet_interaction(*, shear_n: float, shear_capacity_n: float, tension_n: float, tension_capacity_n: float) -> float:
    """How far the sheet round a fixing is used by shear and tension together, V/Va + T/Ta; it holds up to 1.

    shear_n: shear on the fixing [N]
    shear_capacity_n: shear the sheet may carry alone [N]
    tension_n: tension on the fixing [N]
    tension_capacity_n: tension the sheet may carry alone [N]
    Returns: utilisation [-]
    Raises: ValueError for a load below 0 or a capacity not above 0.
    Source: EN 1993-1-3 8.3 (memory)
    """
    not_negative(shear_n=shear_n, tension_n=tension_n)
    positive(shear_capacity_n=shear_capacity_n, tension_capacity_n=tension_capacity_n)
    return shear_n / shear_capacity_n + tension_n / tension_capacity_n


def bearing_aluminium_n(
    *, thinner_mm: float, thicker_mm: float, major_mm: float, sheet_ultimate_mpa: float, gamma: float
) -> float:
    """Bearing of aluminium sheet on a tapping screw, 2.5 fu sqrt(t³ d) / gamma, never over 1.5 fu t d / gamma.

    A second sheet 2.5 times as thick gives the upper value. At most 260 MPa of strength count; for screws from 5.5 mm.

    thinner_mm: thinner of the two sheets, t [mm]
    thicker_mm: thicker of the two, the one that holds the thread [mm]
    major_mm: major diameter of the screw [mm]
    sheet_ultimate_mpa: lower tensile strength of the two sheets [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, a thicker sheet thinner than the thinner, or a partial factor below 1.
    Source: EN 1999-1-4, read in an open transcription
    """
    positive(thinner_mm=thinner_mm, major_mm=major_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    partial_factor(gamma)
    alpha = _bearing_factor(thinner_mm, thicker_mm, 2.5 * sqrt(thinner_mm / major_mm), 1.5)
    return alpha * min(sheet_ultimate_mpa, _ALUMINIUM_ULTIMATE_CAP_MPA) * major_mm * thinner_mm / gamma


def pull_out_aluminium_n(*, sheet_mm: float, major_mm: float, sheet_ultimate_mpa: float, gamma: float) -> float:
    """Pull-out of a tapping screw from aluminium sheet, 0.95 fu sqrt(t³ d) / gamma.

    sheet_mm: sheet that holds the thread [mm]
    major_mm: major diameter of the screw [mm]
    sheet_ultimate_mpa: tensile strength of that sheet [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, or a partial factor below 1.
    Source: EN 1999-1-4 (memory)
    """
    positive(sheet_mm=sheet_mm, major_mm=major_mm, sheet_ultimate_mpa=sheet_ultimate_mpa)
    partial_factor(gamma)
    return 0.95 * sheet_ultimate_mpa * sqrt(sheet_mm**3 * major_mm) / gamma


def spin_out_nm(*, tested_nm: float, tested_sheet_mm: float, most_sheet_mm: float, sheet_mm: float) -> float:
    """Torque that turns a rivet nut in its sheet: in proportion to the sheet, up to one that it is no more in.

    tested_nm: spin-out torque in the tested sheet [N·m]
    tested_sheet_mm: tested sheet [mm]
    most_sheet_mm: sheet up to which it grows; the tested one where the figure is the least of many [mm]
    sheet_mm: sheet in question [mm]
    Returns: spin-out torque to calculate with [N·m]
    Raises: ValueError for a value not above 0.
    Source: common practice, no source
    """
    positive(tested_nm=tested_nm, tested_sheet_mm=tested_sheet_mm, most_sheet_mm=most_sheet_mm, sheet_mm=sheet_mm)
    return tested_nm * min(sheet_mm, most_sheet_mm) / tested_sheet_mm
