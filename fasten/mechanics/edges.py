"""Least distances in sheet: hole centre to edge, and centre to centre."""

from fasten.require import positive


def screw_edge_min_mm(*, major_mm: float) -> float:
    """Least distance of a tapping screw from an edge, 1.5 d.

    major_mm: major diameter of the screw [mm]
    Returns: hole centre to edge [mm]
    Raises: ValueError for a diameter not above 0.
    Source: AISI S100 chapter E4, older editions
    """
    positive(major_mm=major_mm)
    return 1.5 * major_mm


def screw_spacing_min_mm(*, major_mm: float) -> float:
    """Least centre distance of two tapping screws, 3 d.

    major_mm: major diameter of the screw [mm]
    Returns: centre to centre [mm]
    Raises: ValueError for a diameter not above 0.
    Source: AISI S100 chapter E4, older editions; EN 1993-1-3 table 8.2
    """
    positive(major_mm=major_mm)
    return 3 * major_mm


def screw_end_min_en_mm(*, major_mm: float) -> float:
    """Least distance of a tapping screw from an edge that the force points to, 3 d; the bearing formulas rest on it.

    major_mm: major diameter of the screw [mm]
    Returns: hole centre to edge [mm]
    Raises: ValueError for a diameter not above 0.
    Source: EN 1993-1-3 table 8.2, e1
    """
    positive(major_mm=major_mm)
    return 3 * major_mm


def rivet_edge_min_mm(*, hole_mm: float) -> float:
    """Least distance of a rivet, or a rivet nut, from an edge, 2 D.

    hole_mm: hole diameter D [mm]
    Returns: hole centre to edge [mm]
    Raises: ValueError for a diameter not above 0.
    Source: FAA AC 43.13-1B rivet rule; for rivet nuts common practice
    """
    positive(hole_mm=hole_mm)
    return 2 * hole_mm


def rivet_spacing_min_mm(*, hole_mm: float) -> float:
    """Least centre distance of two rivets, or rivet nuts, 3 D.

    hole_mm: hole diameter D [mm]
    Returns: centre to centre [mm]
    Raises: ValueError for a diameter not above 0.
    Source: FAA AC 43.13-1B rivet rule; for rivet nuts common practice
    """
    positive(hole_mm=hole_mm)
    return 3 * hole_mm
