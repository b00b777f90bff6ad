"""Threads: every limit and stress area that is printed, from what the tables store."""

from collections.abc import Callable

import pytest

from fasten.catalog.rows import (
    DRILLS_METRIC,
    ISO_965_BY_PITCH,
    ISO_965_PITCH_DIAMETER,
    METRIC_TAP_DRILLS,
    METRIC_THREADS,
    UNIFIED_TAP_DRILLS,
    UNIFIED_THREADS,
)
from fasten.catalog.tables import builtin
from fasten.geometry import threads
from fasten.geometry.threads import Limits, Range

Printed = Callable[[str], list[dict[str, str]]]


def _differences(rows: list[dict[str, str]], ours: Callable[[str], dict[str, float]]) -> dict[tuple[str, str], object]:
    """Where our figure is not the printed one: (thread, column) -> (ours, printed)."""
    found: dict[tuple[str, str], object] = {}
    for row in rows:
        for column, value in ours(row["thread"]).items():
            if value != float(row[column]):
                found[row["thread"], column] = (value, float(row[column]))
    return found


def _metric(designation: str) -> dict[str, float]:
    limits = threads.metric_limits(builtin(), designation)
    thread = threads.metric_thread(builtin(), designation)
    return {
        "basic_pitch": limits.basic.pitch_mm,
        "basic_minor": limits.basic.minor_mm,
        "root": round(threads.root_diameter(thread.major_mm, thread.pitch_mm), 3),
        **_pair("minor", "6h", limits.internal.minor_mm),
        **_pair("pitch", "6h", limits.internal.pitch_mm),
        **_pair("major", "6g", limits.external.major_mm),
        **_pair("pitch", "6g", limits.external.pitch_mm),
    }


def _unified(designation: str) -> dict[str, float]:
    limits = threads.unified_limits(builtin(), designation)
    return {"basic_pitch": limits.basic.pitch_in or 0.0, "basic_minor": limits.basic.minor_in or 0.0, **_inch(limits)}


def _inch(limits: Limits) -> dict[str, float]:
    found: dict[str, float] = {}
    for name, class_, limit in (
        ("minor", "2b", limits.internal.minor_in),
        ("pitch", "2b", limits.internal.pitch_in),
        ("major", "2a", limits.external.major_in),
        ("pitch", "2a", limits.external.pitch_in),
    ):
        assert limit is not None
        found |= _pair(name, class_, limit)
    return found


def _pair(name: str, class_: str, limit: Range) -> dict[str, float]:
    return {f"{name}_min_{class_}": limit.min, f"{name}_max_{class_}": limit.max}


def test_every_iso_965_limit(printed: Printed) -> None:
    """ISO 724 and ISO 965-2, 6H and 6g, as printed in handbooks and in ASME B1.13M: all eleven figures a thread."""
    rows = printed("metric_limits.csv")
    assert {row["thread"] for row in rows} == {row.designation for row in builtin().rows(METRIC_THREADS)}
    assert _differences(rows, _metric) == {}


def test_every_b1_1_limit(printed: Printed) -> None:
    """ASME B1.1, 2B and 2A, as printed in handbooks: all ten figures a thread."""
    rows = printed("unified_limits.csv")
    names = {row.designation for row in builtin().rows(UNIFIED_THREADS)}
    assert {row["thread"] for row in rows} == names
    assert _differences(rows, _unified) == {}


@pytest.mark.parametrize(
    ("designation", "by_formula_mm", "printed_mm"),
    [("M3", 2.594, 2.599), ("M6", 5.147, 5.153), ("M8", 6.916, 6.912), ("M10", 8.681, 8.676)],
)
def test_the_tolerance_is_the_table_not_the_formula(designation: str, by_formula_mm: float, printed_mm: float) -> None:
    """ISO 965-1 gives TD1 = 433 P - 190 P^1.22 under 1 mm, 230 P^0.7 from 1 mm, and prints another figure here."""
    pitch = threads.metric_thread(builtin(), designation).pitch_mm
    limits = threads.metric_limits(builtin(), designation)
    tolerance_um = 230 * pitch**0.7 if pitch >= 1 else 433 * pitch - 190 * pitch**1.22
    assert round(limits.basic.minor_mm + tolerance_um / 1000, 3) == by_formula_mm
    assert limits.internal.minor_mm.max == printed_mm


def test_every_iso_898_1_stress_area(printed: Printed) -> None:
    """ISO 898-1 prints the nominal area to three figures."""
    wrong = {}
    rows = [row for row in printed("stress_areas.csv") if row["unit"] == "mm2"]
    for row in rows:
        thread = threads.metric_thread(builtin(), row["thread"])
        ours = threads.stress_area_mm2(thread.major_mm, thread.pitch_mm)
        if ours != float(row["area"]):
            wrong[row["thread"]] = (ours, float(row["area"]))
    assert len(rows) == 21
    assert wrong == {}


def test_every_b1_1_stress_area(printed: Printed) -> None:
    """ASME B1.1 appendix B. Its print is not always its formula rounded; the print is then one unit away."""
    off: dict[str, float] = {}
    rows = [row for row in printed("stress_areas.csv") if row["unit"] == "in2"]
    for row in rows:
        thread = threads.unified_thread(builtin(), row["thread"])
        ours = threads.unified_stress_area_in2(thread.major_in, thread.threads_per_in)
        places = len(row["area"].split(".")[1])
        units = round((float(row["area"]) - round(ours, places)) * 10**places)
        if units:
            off[row["thread"]] = units
    assert len(rows) == len(builtin().rows(UNIFIED_THREADS))
    assert off == {
        "#4-40": 1,  # printed 0.00604, the formula 0.006033
        "#4-48": 1,  # printed 0.00661, the formula 0.006601
        "#5-44": -1,  # printed 0.00830, the formula 0.008306
        "#6-40": 1,  # printed 0.01015, the formula 0.010138
        "#8-36": 1,  # printed 0.01474, the formula 0.014733
        "5/16-24": -1,  # printed 0.0580, the formula 0.058068
        "1/2-20": -1,  # printed 0.1599, the formula 0.159953
    }


def test_every_metric_tap_drill_leaves_a_minor_diameter_within_6h() -> None:
    """ISO 2306 drills against the ISO 965-2 limits, both ends; every thread has its drill."""
    rows = builtin().rows(METRIC_TAP_DRILLS)
    assert {row.thread for row in rows} == {row.designation for row in builtin().rows(METRIC_THREADS)}
    for row in rows:
        minor = threads.metric_limits(builtin(), row.thread).internal.minor_mm
        assert minor.min <= row.drill_mm <= minor.max, row.thread


def test_every_unified_tap_drill_leaves_a_minor_diameter_within_2b(inch_drills: dict[str, float]) -> None:
    """Handbook drills against the ASME B1.1 limits, both ends; every thread has its drill."""
    rows = builtin().rows(UNIFIED_TAP_DRILLS)
    assert {row.thread for row in rows} == {row.designation for row in builtin().rows(UNIFIED_THREADS)}
    for row in rows:
        minor = threads.unified_limits(builtin(), row.thread).internal.minor_in
        assert minor is not None
        assert minor.min <= inch_drills[row.drill] <= minor.max, row.thread


def test_percent_of_thread_is_what_the_charts_say(inch_drills: dict[str, float]) -> None:
    """Tap drill charts printed in handbooks: percent of thread on the 1.299 P basis, rounded to a whole number."""
    chart = {
        "#4-40": 71, "#6-32": 78, "#8-32": 69, "#10-24": 75, "#10-32": 76, "1/4-20": 75, "1/4-28": 80,
        "5/16-18": 77, "5/16-24": 75, "3/8-16": 77, "3/8-24": 79, "7/16-14": 75, "7/16-20": 72, "1/2-13": 78,
        "1/2-20": 72,
    }  # fmt: skip
    drills = {row.thread: inch_drills[row.drill] for row in builtin().rows(UNIFIED_TAP_DRILLS)}
    for designation, percent in chart.items():
        thread = threads.unified_thread(builtin(), designation)
        ours = threads.thread_percent(thread.major_in, drills[designation], 1 / thread.threads_per_in)
        assert round(ours) == percent, designation


def test_iso_965_tolerances_are_preferred_numbers() -> None:
    """ISO 965-1 rounds every tolerance to the R40 series of ISO 3 (memory): a slip of a digit leaves the series."""
    decade = (
        100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
        315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
    )  # fmt: skip
    r40 = {*decade, *(value // 10 for value in decade if value % 10 == 0)}
    by_pitch = builtin().rows(ISO_965_BY_PITCH)
    by_diameter = builtin().rows(ISO_965_PITCH_DIAMETER)
    found = [value for row in by_pitch for value in (row.internal_minor_um, row.external_major_um)]
    found += [value for row in by_diameter for value in (row.internal_um, row.external_um)]
    assert [value for value in found if value not in r40] == []


def test_iso_965_bands_and_allowances() -> None:
    """ISO 965-1 bands of diameter (memory); es = -(15 + 11 P) µm for position g, kept by its print within 1.3."""
    bands = {(row.over_mm, row.to_mm) for row in builtin().rows(ISO_965_PITCH_DIAMETER)}
    assert bands == {(1.4, 2.8), (2.8, 5.6), (5.6, 11.2), (11.2, 22.4)}
    for row in builtin().rows(ISO_965_BY_PITCH):
        assert row.allowance_um == pytest.approx(15 + 11 * row.pitch_mm, abs=1.3), row.pitch_mm


def test_every_metric_tap_drill_is_a_metric_drill() -> None:
    """ISO 2306 names drills that exist: each stands in the metric series."""
    drills = {row.diameter_mm for row in builtin().rows(DRILLS_METRIC)}
    assert [row.thread for row in builtin().rows(METRIC_TAP_DRILLS) if row.drill_mm not in drills] == []
