"""Screw threads: basic diameters, limits, stress area, percent thread and engagement.

The equations come first and take plain numbers; `metric_limits` and `unified_limits` look up what they need.
"""

from functools import lru_cache
from math import cbrt, floor, log10, pi, sqrt

from fasten.catalog.rows import (
    ISO_965_BY_PITCH,
    ISO_965_PITCH_DIAMETER,
    METRIC_THREADS,
    UNIFIED_THREADS,
    MetricThread,
    PitchDiameterTolerance,
    PitchTolerance,
    UnifiedThread,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.record import record
from fasten.require import positive, refuse

MM_PER_INCH = 25.4
UNIFIED_CLASSES = ("2B", "2A")
METRIC_CLASSES = ("6H", "6g")
SIZE_6_IN = 0.138
PERCENT_BASIS = "handbook: depth of 1.299038 P is 100 %"


@record
class Range:
    """From one limit to the other, in the unit of the field that holds it."""

    min: float
    max: float


@record
class Basic:
    """Basic diameters; inches stand beside for a thread that is defined in inches."""

    major_mm: float
    pitch_mm: float
    minor_mm: float
    major_in: float | None = None
    pitch_in: float | None = None
    minor_in: float | None = None


@record
class Internal:
    """Limits of the thread in the hole; no upper limit of its major diameter is specified."""

    class_: str
    minor_mm: Range
    pitch_mm: Range
    minor_in: Range | None = None
    pitch_in: Range | None = None


@record
class External:
    """Limits of the thread on the screw, before plating."""

    class_: str
    major_mm: Range
    pitch_mm: Range
    major_in: Range | None = None
    pitch_in: Range | None = None


@record
class Limits:
    """What a thread's gauges allow, hole and screw."""

    basic: Basic
    internal: Internal
    external: External


def pitch_diameter(major: float, pitch: float) -> float:
    """Basic pitch diameter of a 60° thread, in the unit of both arguments.

    major: basic major diameter, same unit as the pitch [-]
    pitch: pitch [-]
    Returns: basic pitch diameter, same unit [-]
    Raises ValueError where a length is not above zero.
    Source: ISO 68-1 / ISO 724; ASME B1.1 has the same profile.
    """
    positive(major=major, pitch=pitch)
    return major - 3.0 * sqrt(3.0) / 8.0 * pitch


def minor_diameter(major: float, pitch: float) -> float:
    """Basic minor diameter of the internal 60° thread, in the unit of both arguments.

    major: basic major diameter, same unit as the pitch [-]
    pitch: pitch [-]
    Returns: basic minor diameter, same unit [-]
    Raises ValueError where a length is not above zero.
    Source: ISO 68-1 / ISO 724; ASME B1.1 has the same profile.
    """
    positive(major=major, pitch=pitch)
    return major - 5.0 * sqrt(3.0) / 8.0 * pitch


def root_diameter(major: float, pitch: float) -> float:
    """Root diameter of the external 60° thread with its rounded root, in the unit of both arguments.

    major: basic major diameter, same unit as the pitch [-]
    pitch: pitch [-]
    Returns: root diameter d3, same unit [-]
    Raises ValueError where a length is not above zero.
    Source: ISO 68-1 / ISO 898-1, d3 = d1 - H/6.
    """
    positive(major=major, pitch=pitch)
    return major - 17.0 * sqrt(3.0) / 24.0 * pitch


def stress_area_mm2(major_mm: float, pitch_mm: float) -> float:
    """Nominal stress area of a metric thread, to the three significant figures the standard prints.

    major_mm: basic major diameter [mm]
    pitch_mm: pitch [mm]
    Returns: nominal stress area As,nom [mm²]
    Raises ValueError where a length is not above zero.
    Source: ISO 898-1, As = (pi/4) ((d2 + d3)/2)².
    """
    mean_mm = (pitch_diameter(major_mm, pitch_mm) + root_diameter(major_mm, pitch_mm)) / 2.0
    area_mm2 = pi / 4.0 * mean_mm**2
    return round(area_mm2, 2 - floor(log10(area_mm2)))


def unified_stress_area_in2(major_in: float, threads_per_in: int) -> float:
    """Tensile stress area of a unified thread.

    major_in: basic major diameter [in]
    threads_per_in: threads to the inch [1/in]
    Returns: tensile stress area At [in²]
    Raises ValueError where an argument is not above zero.
    Source: ASME B1.1 App. B, At = 0.7854 (D - 0.9743/n)².
    """
    positive(major_in=major_in, threads_per_in=threads_per_in)
    return 0.7854 * (major_in - 0.9743 / threads_per_in) ** 2


def unified_stress_area_mm2(major_in: float, threads_per_in: int) -> float:
    """Tensile stress area of a unified thread, in square millimetres.

    major_in: basic major diameter [in]
    threads_per_in: threads to the inch [1/in]
    Returns: tensile stress area At [mm²]
    Raises ValueError where an argument is not above zero.
    Source: ASME B1.1 App. B, At = 0.7854 (D - 0.9743/n)².
    """
    return unified_stress_area_in2(major_in, threads_per_in) * MM_PER_INCH**2


def thread_percent(major: float, drill: float, pitch: float) -> float:
    """Percent of thread that a tap leaves in a drilled hole, on the handbook basis; any one unit of length.

    major: basic major diameter [-]
    drill: diameter of the drilled hole, same unit [-]
    pitch: pitch, same unit [-]
    Returns: percent of the full thread, 100 at a depth of 1.299038 P [-]
    Raises ValueError where a length is not above zero or the drill is not below the major diameter.
    Source: handbook practice, 100 (D - drill)/(1.299038 P).
    """
    positive(major=major, drill=drill, pitch=pitch)
    if drill >= major:
        raise refuse("drill", drill, f"below major {major!r}", "a hole as wide as the screw leaves no thread")
    return 100.0 * (major - drill) / (1.299038 * pitch)


def external_pitch_tolerance_in(major_in: float, threads_per_in: int) -> float:
    """Tolerance of pitch diameter, class 2A, for an engagement of one diameter.

    major_in: basic major diameter [in]
    threads_per_in: threads to the inch [1/in]
    Returns: tolerance Td2 [in]
    Raises ValueError where an argument is not above zero.
    Source: ASME B1.1, 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3), LE = D.
    """
    positive(major_in=major_in, threads_per_in=threads_per_in)
    return 0.0015 * cbrt(major_in) + 0.0015 * sqrt(major_in) + 0.015 * cbrt(1.0 / threads_per_in) ** 2


def external_major_tolerance_in(threads_per_in: int) -> float:
    """Tolerance of major diameter, class 2A.

    threads_per_in: threads to the inch [1/in]
    Returns: tolerance Td [in]
    Raises ValueError where the argument is not above zero.
    Source: ASME B1.1, 0.060 P^(2/3).
    """
    positive(threads_per_in=threads_per_in)
    return 0.060 * cbrt(1.0 / threads_per_in) ** 2


def internal_minor_tolerance_in(major_in: float, threads_per_in: int) -> float:
    """Tolerance of minor diameter, class 2B.

    major_in: basic major diameter [in]
    threads_per_in: threads to the inch [1/in]
    Returns: tolerance TD1 [in]
    Raises ValueError where an argument is not above zero.
    Source: ASME B1.1, 0.25 P - 0.40 P²; under 1/4 in 0.05 P^(2/3) + 0.03 P/D - 0.002 between that and 0.394 P.
    """
    positive(major_in=major_in, threads_per_in=threads_per_in)
    pitch_in = 1.0 / threads_per_in
    least_in = 0.25 * pitch_in - 0.40 * pitch_in**2
    if major_in >= 0.25:
        return least_in
    small_in = 0.05 * cbrt(pitch_in) ** 2 + 0.03 * pitch_in / major_in - 0.002
    return min(max(small_in, least_in), 0.394 * pitch_in)


@lru_cache(maxsize=256)
def metric_limits(tables: Tables, designation: str) -> Limits:
    """Limits of a metric thread, 6H in the hole and 6g on the screw, rounded to the three decimals that are printed.

    tables: the tables to look in [-]
    designation: the thread as the table names it, `M6` or `M6x0.75` [-]
    Returns: basic diameters and limits [mm]
    Raises FastenError where the thread or its tolerances are not in the tables.
    Source: ISO 965-1, tolerances from its tables; ISO 724 for the basic diameters.
    """
    thread = metric_thread(tables, designation)
    by_pitch, by_diameter = metric_tolerances(tables, thread)
    basic = _basic_metric(thread)
    top_mm, shift = basic.major_mm - by_pitch.allowance_um / 1000.0, by_pitch.allowance_um
    hole, screw = METRIC_CLASSES
    return Limits(
        basic,
        Internal(
            hole,
            minor_mm=_upwards(basic.minor_mm, by_pitch.internal_minor_um),
            pitch_mm=_upwards(basic.pitch_mm, by_diameter.internal_um),
        ),
        External(
            screw,
            major_mm=_downwards(top_mm, by_pitch.external_major_um),
            pitch_mm=_downwards(basic.pitch_mm - shift / 1000.0, by_diameter.external_um),
        ),
    )


def metric_thread(tables: Tables, designation: str) -> MetricThread:
    """The metric thread of a designation.

    tables: the tables to look in [-]
    designation: the thread as the table names it [-]
    Returns: the table's row [-]
    Raises FastenError where there is no such thread.
    Source: ISO 261.
    """
    thread = tables.find(METRIC_THREADS, designation)
    if thread is None:
        raise FastenError(f"{designation!r} is not a metric thread of the tables", fix="name one such as M6 or M8x1")
    return thread


def metric_tolerances(tables: Tables, thread: MetricThread) -> tuple[PitchTolerance, PitchDiameterTolerance]:
    """The two rows of tolerances that a metric thread's limits are made of.

    tables: the tables to look in [-]
    thread: the thread [-]
    Returns: the row of its pitch, and the row of its diameter and pitch [µm]
    Raises FastenError where ISO 965-1 gives none for that diameter and pitch.
    Source: ISO 965-1, tolerance grade 6.
    """
    by_pitch = tables.find(ISO_965_BY_PITCH, thread.pitch_mm)
    for row in tables.rows(ISO_965_PITCH_DIAMETER):
        fits = row.over_mm < thread.major_mm <= row.to_mm and row.pitch_mm == thread.pitch_mm
        if fits and by_pitch is not None:
            return by_pitch, row
    raise FastenError(
        f"no ISO 965-1 tolerances are tabled for {thread.designation} with a pitch of {thread.pitch_mm} mm",
        fix="use a thread of the standard series",
    )


def unified_limits(tables: Tables, designation: str) -> Limits:
    """Limits of a unified thread, 2B in the hole and 2A on the screw, rounded as printed in inches; mm follow.

    tables: the tables to look in [-]
    designation: the thread as the table names it, `#10-32` or `1/4-20` [-]
    Returns: basic diameters and limits [in]
    Raises FastenError where there is no such thread.
    Source: ASME B1.1, limits to 4 decimals, 2B minor diameter to 3 from #6 up.
    """
    thread = unified_thread(tables, designation)
    major, per_in = thread.major_in, thread.threads_per_in
    pitch = 1.0 / per_in
    # The printed limits follow from rounded steps: diameters and allowance to 4 decimals, tolerances to 6.
    mean, minor = round(pitch_diameter(major, pitch), 4), minor_diameter(major, pitch)
    td2 = round(external_pitch_tolerance_in(major, per_in), 6)
    allowance = round(0.300 * td2, 4)
    return _limits_in(
        _basic_unified(major, pitch),
        hole_minor=_minor_2b(major, minor, internal_minor_tolerance_in(major, per_in)),
        hole_pitch=Range(mean, round(mean + 1.30 * td2, 4)),
        screw_major=_below(major - allowance, external_major_tolerance_in(per_in)),
        screw_pitch=_below(mean - allowance, td2),
    )


def unified_thread(tables: Tables, designation: str) -> UnifiedThread:
    """The unified thread of a designation.

    tables: the tables to look in [-]
    designation: the thread as the table names it [-]
    Returns: the table's row [-]
    Raises FastenError where there is no such thread.
    Source: ASME B1.1.
    """
    thread = tables.find(UNIFIED_THREADS, designation)
    if thread is None:
        raise FastenError(
            f"{designation!r} is not a unified thread of the tables", fix="name one such as #10-32 or 1/4-20"
        )
    return thread


def _basic_metric(thread: MetricThread) -> Basic:
    return Basic(
        thread.major_mm,
        round(pitch_diameter(thread.major_mm, thread.pitch_mm), 3),
        round(minor_diameter(thread.major_mm, thread.pitch_mm), 3),
    )


def _basic_unified(major_in: float, pitch_in: float) -> Basic:
    mean, minor = round(pitch_diameter(major_in, pitch_in), 4), round(minor_diameter(major_in, pitch_in), 4)
    return Basic(_mm(major_in), _mm(mean), _mm(minor), major_in, mean, minor)


def _minor_2b(major_in: float, minor_in: float, tolerance_in: float) -> Range:
    """Rounded to four decimals, then from #6 up once more to three, halves up: so B1.1 prints #10-24 as 0.156."""
    limits = (round(minor_in, 4), round(minor_in + tolerance_in, 4))
    if major_in < SIZE_6_IN:
        return Range(*limits)
    return Range(*(floor(limit * 1000.0 + 0.5 + 1e-9) / 1000.0 for limit in limits))


def _limits_in(basic: Basic, hole_minor: Range, hole_pitch: Range, screw_major: Range, screw_pitch: Range) -> Limits:
    hole, screw = UNIFIED_CLASSES
    return Limits(
        basic,
        Internal(hole, _range_mm(hole_minor), _range_mm(hole_pitch), hole_minor, hole_pitch),
        External(screw, _range_mm(screw_major), _range_mm(screw_pitch), screw_major, screw_pitch),
    )


def _upwards(from_mm: float, tolerance_um: int) -> Range:
    return Range(round(from_mm, 3), round(from_mm + tolerance_um / 1000.0, 3))


def _downwards(from_mm: float, tolerance_um: int) -> Range:
    return Range(round(from_mm - tolerance_um / 1000.0, 3), round(from_mm, 3))


def _below(from_in: float, tolerance_in: float) -> Range:
    return Range(round(from_in - tolerance_in, 4), round(from_in, 4))


def _mm(inches: float) -> float:
    # Four decimals of an inch are exact here to a tenth of a micrometre; what is beyond is noise of the product.
    return round(inches * MM_PER_INCH, 6)


def _range_mm(inches: Range) -> Range:
    return Range(_mm(inches.min), _mm(inches.max))
