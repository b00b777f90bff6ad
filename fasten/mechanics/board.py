"""Screws and inserts in wood, MDF and particleboard. Withdrawals are mean ultimate loads; factors come above."""

from math import pow, sqrt

from fasten.require import above, at_most, positive

_FACE = 41.1
_EDGE = 31.8


def wood_screw_withdrawal_n(*, shank_mm: float, penetration_mm: float, density_g_cm3: float) -> float:
    """Withdrawal of a wood screw from side grain, 108.25 G² D L.

    shank_mm: shank diameter D [mm]
    penetration_mm: threaded length in the wood, L [mm]
    density_g_cm3: specific gravity G of the wood [g/cm³]
    Returns: mean ultimate withdrawal [N]
    Raises: ValueError for a value not above 0.
    Source: USDA Wood Handbook ch. 8 (memory; inch and metric forms agree)
    """
    positive(shank_mm=shank_mm, penetration_mm=penetration_mm, density_g_cm3=density_g_cm3)
    return 108.25 * density_g_cm3**2 * shank_mm * penetration_mm


def _board_withdrawal_n(hold: float, major_mm: float, penetration_mm: float, density_g_cm3: float) -> float:
    positive(major_mm=major_mm, density_g_cm3=density_g_cm3)
    above(major_mm / 3, "the first third of a diameter holds nothing", penetration_mm=penetration_mm)
    return hold * sqrt(major_mm) * pow(penetration_mm - major_mm / 3, 1.25) * density_g_cm3**2


def screw_withdrawal_face_n(*, major_mm: float, penetration_mm: float, density_g_cm3: float) -> float:
    """Withdrawal of a sheet-metal screw from the face of MDF or particleboard, 41.1 sqrt(D) (L - D/3)^1.25 G².

    major_mm: screw diameter D [mm]
    penetration_mm: length in the board, L [mm]
    density_g_cm3: specific gravity G of the board [g/cm³]
    Returns: mean ultimate withdrawal, within about a fifth of test data [N]
    Raises: ValueError for a value not above 0, or a penetration of a third of the diameter and under.
    Source: USDA Wood Handbook ch. 8 (memory; inch and metric forms agree)
    """
    return _board_withdrawal_n(_FACE, major_mm, penetration_mm, density_g_cm3)


def screw_withdrawal_edge_n(*, major_mm: float, penetration_mm: float, density_g_cm3: float) -> float:
    """Withdrawal of a sheet-metal screw from the edge of MDF or particleboard, 31.8 sqrt(D) (L - D/3)^1.25 G².

    major_mm: screw diameter D [mm]
    penetration_mm: length in the board, L [mm]
    density_g_cm3: specific gravity G of the board [g/cm³]
    Returns: mean ultimate withdrawal, within about a fifth of test data [N]
    Raises: ValueError for a value not above 0, or a penetration of a third of the diameter and under.
    Source: USDA Wood Handbook ch. 8 (memory; inch and metric forms agree)
    """
    return _board_withdrawal_n(_EDGE, major_mm, penetration_mm, density_g_cm3)


def embedment_board_mpa(*, screw_mm: float, board_mm: float) -> float:
    """Embedment strength of particleboard under a screw pushed sideways, 65 d^-0.7 t^0.1.

    screw_mm: diameter that presses on the board [mm]
    board_mm: depth of the screw in the board [mm]
    Returns: embedment strength [MPa]
    Raises: ValueError for a value not above 0.
    Source: EN 1995-1-1 8.3.1.3, particleboard (memory); MDF by analogy
    """
    positive(screw_mm=screw_mm, board_mm=board_mm)
    return 65 * pow(screw_mm, -0.7) * pow(board_mm, 0.1)


def embedment_wood_mpa(*, screw_mm: float, density_kg_m3: float) -> float:
    """Embedment strength of solid wood under a screw in a drilled hole, 0.082 (1 - 0.01 d) rho.

    screw_mm: diameter that presses on the wood [mm]
    density_kg_m3: density of the wood [kg/m³]
    Returns: embedment strength [MPa]
    Raises: ValueError for a value not above 0, or a diameter of 100 mm and up, where nothing would be left.
    Source: EN 1995-1-1 8.3.1.1 (memory)
    """
    positive(screw_mm=screw_mm, density_kg_m3=density_kg_m3)
    at_most(99.0, "the equation falls to nothing at 100 mm", screw_mm=screw_mm)
    return 0.082 * (1 - 0.01 * screw_mm) * density_kg_m3


def embedment_plywood_mpa(*, screw_mm: float, density_kg_m3: float) -> float:
    """Embedment strength of plywood under a screw, 0.11 rho d^-0.3.

    screw_mm: diameter that presses on the plywood [mm]
    density_kg_m3: density of the plywood [kg/m³]
    Returns: embedment strength [MPa]
    Raises: ValueError for a value not above 0.
    Source: EN 1995-1-1 8.3.1.3, plywood (memory)
    """
    positive(screw_mm=screw_mm, density_kg_m3=density_kg_m3)
    return 0.11 * density_kg_m3 * pow(screw_mm, -0.3)


def lateral_ec5_n(*, embedment_mpa: float, depth_mm: float, screw_mm: float) -> float:
    """Side load of a screw through a thin plate into board, 0.4 fh t d: an estimate.

    embedment_mpa: embedment strength of the board [MPa]
    depth_mm: depth of the screw in the board [mm]
    screw_mm: diameter that presses on the board [mm]
    Returns: estimated side load [N]
    Raises: ValueError for a value not above 0.
    Source: EN 1995-1-1 8.2.3, thin steel plate, first mode (memory)
    """
    positive(embedment_mpa=embedment_mpa, depth_mm=depth_mm, screw_mm=screw_mm)
    return 0.4 * embedment_mpa * depth_mm * screw_mm


def hole_bearing_n(*, embedment_mpa: float, depth_mm: float, screw_mm: float) -> float:
    """Side load that presses a hole in board long where the shank stays upright in it, fh t d: an estimate.

    embedment_mpa: embedment strength of the board [MPa]
    depth_mm: depth that bears [mm]
    screw_mm: diameter that presses on the board [mm]
    Returns: estimated side load [N]
    Raises: ValueError for a value not above 0.
    Source: EN 1995-1-1 8.2.2, first mode (memory)
    """
    positive(embedment_mpa=embedment_mpa, depth_mm=depth_mm, screw_mm=screw_mm)
    return embedment_mpa * depth_mm * screw_mm


def edge_screw_max_mm(*, board_mm: float) -> float:
    """Thickest screw into the edge of a board, a fifth of its thickness.

    board_mm: board thickness [mm]
    Returns: screw diameter [mm]
    Raises: ValueError for a thickness not above 0.
    Source: common practice, no source
    """
    positive(board_mm=board_mm)
    return board_mm / 5
