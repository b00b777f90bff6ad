"""Faults of `mutants.py` that change nothing anybody could see, each with its reason."""

_NOISE = "what is rounded has no more decimals than are kept: both cut off nothing but the noise of the last bit"
_TOLERANCE = "a tolerance on round-off: no size lies on it to the last bit"
_MEETS = "both branches give the same figure where they meet"
_FALSY = "only whether it is true is asked"
_THREADS = "fasten/geometry/threads.py"
_GROUP = "fasten/mechanics/group.py"
_DEMANDS = "fasten/proof/demands.py"
_SHEET = "fasten/mechanics/sheet.py"

EQUIVALENT: dict[str, str] = {
    "fasten/geometry/bits.py inch_bits: 6 -> 7 in round(row.diameter_in * MM_PER_INCH, 6)": _NOISE,
    "fasten/geometry/stack.py threads_for_hole: clearance.fine_mm <= hole_mm + FITS_HOLE"
    " -> clearance.fine_mm < hole_mm + FITS_HOLE": _TOLERANCE,
    "fasten/geometry/stack.py preferred_length_mm: row.length_mm >= least_mm - FITS_HOLE"
    " -> row.length_mm > least_mm - FITS_HOLE": _TOLERANCE,
    f"{_THREADS} unified_limits: 6 -> 7 in round(external_pitch_tolerance_in(major, per_in), 6)":
        "prints the same limits for each of the 22 threads of the table",
    f"{_THREADS} _minor_2b: 0.5 -> 0.55 in limit * 1000.0 + 0.5":
        "the limit has four decimals, a thousand of it one: .5 is the least that goes up, by either",
    f"{_THREADS} _upwards: 3 -> 4 in round(from_mm, 3)": _NOISE,
    f"{_THREADS} _upwards: 3 -> 4 in round(from_mm + tolerance_um / 1000.0, 3)": _NOISE,
    f"{_THREADS} _downwards: 3 -> 4 in round(from_mm - tolerance_um / 1000.0, 3)": _NOISE,
    f"{_THREADS} _downwards: 3 -> 4 in round(from_mm, 3)": _NOISE,
    f"{_THREADS} _below: 4 -> 5 in round(from_in, 4)": _NOISE,
    f"{_THREADS} _mm: 6 -> 7 in round(inches * MM_PER_INCH, 6)": _NOISE,
    "fasten/proof/fit/board.py _corner: mount.edge_mm * sqrt(2) < least -> mount.edge_mm * sqrt(2) <= least":
        "no floating-point number times the square root of two is the 25 mm of the table",
    "fasten/proof/checks.py up_mm: 6 -> 7 in round(value_mm * 10, 6)": _NOISE,
    f"{_DEMANDS} _governing: earlier < place -> earlier <= place": "a load never exceeds itself",
    f"{_DEMANDS} _exceeds: return False -> return None": _FALSY,
    f"{_DEMANDS} _exceeds: return False -> return None #2": _FALSY,
    f"{_SHEET} _between_sheets: ratio <= 1 -> ratio < 1": _MEETS,
    f"{_SHEET} _between_sheets: ratio >= _FULLY_UNLIKE -> ratio > _FULLY_UNLIKE": _MEETS,
}  # fmt: skip
