"""Clamps along a cable run."""

from math import ceil

from fasten.require import not_negative, positive

_ROUND_OFF = 1e-9  # a span that fills its spacing exactly needs no further clamp


def clamp_count(*, run_mm: float, spacing_mm: float, end_mm: float) -> int:
    """Fewest clamps that hold a run: one near each end, the rest no further apart than the spacing.

    run_mm: length of the run between its ends [mm]
    spacing_mm: greatest distance between clamps, 300 in vehicles [mm]
    end_mm: greatest distance from an end to its first clamp, 120 from a connector [mm]
    Returns: number of clamps, at least one [-]
    Raises: ValueError for a run or spacing not above 0, or an end distance below 0.
    Source: arithmetic; distances from a harness design note, two copies
    """
    positive(run_mm=run_mm, spacing_mm=spacing_mm)
    not_negative(end_mm=end_mm)
    between = run_mm - 2 * end_mm
    return 1 + max(0, ceil(between / spacing_mm - _ROUND_OFF))
