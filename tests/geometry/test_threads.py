"""Thread limits, areas, percent and engagement against printed figures and against what must always be true."""

from collections.abc import Callable
from math import inf, nan

import pytest

from fasten.catalog.rows import METRIC_THREADS, UNIFIED_THREADS, MetricThread
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry import threads
from fasten.geometry.threads import Range

METRIC = [row.designation for row in builtin().rows(METRIC_THREADS)]
UNIFIED = [row.designation for row in builtin().rows(UNIFIED_THREADS)]


def test_m6_as_iso_965_2_prints_it() -> None:
    """M6, 6H and 6g, as printed in ISO 965-2 tables; the bare formula gives 5.141 for the greatest minor diameter."""
    limits = threads.metric_limits(builtin(), "M6")
    assert (limits.basic.major_mm, limits.basic.pitch_mm, limits.basic.minor_mm) == (6.0, 5.350, 4.917)
    assert limits.internal == threads.Internal("6H", Range(4.917, 5.153), Range(5.350, 5.500))
    assert limits.external == threads.External("6g", Range(5.794, 5.974), Range(5.212, 5.324))


@pytest.mark.parametrize(
    ("designation", "minor", "pitch", "major"),
    [
        ("#10-32", Range(0.156, 0.164), Range(0.1697, 0.1736), Range(0.1831, 0.1891)),
        ("#10-24", Range(0.145, 0.156), Range(0.1629, 0.1672), Range(0.1818, 0.1890)),
        ("1/4-20", Range(0.196, 0.207), Range(0.2175, 0.2224), Range(0.2408, 0.2489)),
        ("5/16-18", Range(0.252, 0.265), Range(0.2764, 0.2817), Range(0.3026, 0.3113)),
    ],
)
def test_unified_as_b1_1_prints_it(designation: str, minor: Range, pitch: Range, major: Range) -> None:
    """2B and 2A limits printed in ASME B1.1; rounding in one step misses the print of #10-24 and 1/4-20."""
    limits = threads.unified_limits(builtin(), designation)
    assert (limits.internal.minor_in, limits.internal.pitch_in) == (minor, pitch)
    assert limits.external.major_in == major
    assert limits.internal.minor_mm.min == pytest.approx(minor.min * 25.4, abs=1e-9)


@pytest.mark.parametrize(
    ("major_mm", "pitch_mm", "printed_mm2"),
    [(3, 0.5, 5.03), (5, 0.8, 14.2), (6, 1, 20.1), (8, 1.25, 36.6), (8, 1, 39.2), (12, 1.75, 84.3), (16, 2, 157)],
)
def test_stress_area_as_printed(major_mm: float, pitch_mm: float, printed_mm2: float) -> None:
    """ISO 898-1 prints As,nom to three significant figures."""
    assert threads.stress_area_mm2(major_mm, pitch_mm) == printed_mm2


@pytest.mark.parametrize(
    ("major_in", "per_in", "printed_in2"), [(0.19, 32, 0.0200), (0.25, 20, 0.0318), (0.5, 13, 0.1419)]
)
def test_unified_stress_area(major_in: float, per_in: int, printed_in2: float) -> None:
    """ASME B1.1 appendix B prints four decimals."""
    assert round(threads.unified_stress_area_in2(major_in, per_in), 4) == printed_in2
    assert threads.unified_stress_area_mm2(major_in, per_in) == pytest.approx(printed_in2 * 645.16, rel=2e-3)


def test_percent_thread() -> None:
    """Printed tap drill charts give about 77 % for M6 at 5.0 and for #10-32 at #21 (0.159 in) 76 %."""
    assert threads.thread_percent(6.0, 5.0, 1.0) == pytest.approx(77.0, abs=0.05)
    assert threads.thread_percent(0.190, 0.159, 1 / 32) == pytest.approx(76.0, abs=0.5)


@pytest.mark.parametrize("designation", METRIC)
def test_metric_screw_enters_its_nut(designation: str) -> None:
    """At every limit 6g goes into 6H, and each range rises."""
    limits = threads.metric_limits(builtin(), designation)
    assert limits.external.pitch_mm.max < limits.internal.pitch_mm.min
    assert limits.external.major_mm.max < limits.basic.major_mm
    assert limits.internal.minor_mm.max < limits.external.major_mm.min
    for limit in (limits.internal.minor_mm, limits.internal.pitch_mm, limits.external.major_mm):
        assert limit.min < limit.max


@pytest.mark.parametrize("designation", UNIFIED)
def test_unified_screw_enters_its_nut(designation: str) -> None:
    """At every limit 2A goes into 2B."""
    limits = threads.unified_limits(builtin(), designation)
    assert limits.external.pitch_mm.max < limits.internal.pitch_mm.min
    assert limits.external.major_mm.max < limits.basic.major_mm
    assert limits.internal.minor_mm.max < limits.external.major_mm.min


def test_unknown_threads_are_refused_by_name() -> None:
    with pytest.raises(FastenError, match="M99"):
        threads.metric_limits(builtin(), "M99")
    with pytest.raises(FastenError, match="#99-1"):
        threads.unified_limits(builtin(), "#99-1")
    odd = MetricThread(from_="x", designation="M6x0.9", series="fine", major_mm=6.0, pitch_mm=0.9)
    with pytest.raises(FastenError, match=r"M6x0\.9.*0\.9 mm"):
        threads.metric_tolerances(builtin(), odd)


@pytest.mark.parametrize("bad", [0.0, -1.0, nan, inf])
def test_what_is_no_length_is_refused(bad: float) -> None:
    """Neither zero, negative, nor endless lengths are calculated with."""
    calls: tuple[Callable[[], float], ...] = (
        lambda: threads.stress_area_mm2(bad, 1.0),
        lambda: threads.thread_percent(6.0, bad, 1.0),
        lambda: threads.pitch_diameter(6.0, bad),
        lambda: threads.unified_stress_area_in2(bad, 20),
    )
    for call in calls:
        with pytest.raises(ValueError, match="must be"):
            call()


def test_a_hole_as_wide_as_the_screw_is_refused() -> None:
    with pytest.raises(ValueError, match=r"drill is 6\.0; it must be below major 6\.0"):
        threads.thread_percent(6.0, 6.0, 1.0)
