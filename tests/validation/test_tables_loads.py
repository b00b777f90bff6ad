"""Printed loads against stress area times stress, each standard rounding in its own way."""

import pytest

from fasten.catalog.rows import (
    INCH_GRADES,
    INCH_LOADS,
    METRIC_LOADS,
    PROPERTY_CLASSES,
    UNIFIED_THREADS,
)
from fasten.catalog.tables import builtin
from fasten.geometry import threads

# ISO 898-1 prints three figures. Where it is not the nearest, the print is here beside area times stress.
METRIC_OFF = {
    ("M3", "10.9", "proof"): (4180, 4174.9),
    ("M3.5", "8.8", "proof"): (3940, 3932.4),
    ("M4", "8.8", "proof"): (5100, 5092.4),
    ("M5", "8.8", "proof"): (8230, 8236.0),
    ("M6", "8.8", "proof"): (11600, 11658.0),
    ("M6", "5.8", "tensile"): (10400, 10452.0),
    ("M8", "4.8", "proof"): (11400, 11346.0),
    ("M8", "8.8", "tensile"): (29200, 29280.0),
    ("M8", "12.9", "tensile"): (44600, 44652.0),
    ("M10", "8.8", "proof"): (33700, 33640.0),
    ("M16", "8.8", "proof"): (91000, 91060.0),
    ("M16", "6.8", "tensile"): (94000, 94200.0),
    ("M16", "8.8", "tensile"): (125000, 125600.0),
}
# SAE J429 prints fifties under 10 000 lbf and hundreds above.
INCH_OFF = {("5/16-24", "5", "proof"): (4900, 4935.6), ("3/8-24", "2", "proof"): (4800, 4830.6)}


def _metric_unit(load_n: float) -> float:
    return next(unit for limit, unit in ((10_000, 10), (100_000, 100), (1_000_000, 1000)) if load_n < limit)


def test_every_iso_898_1_load() -> None:
    """ISO 898-1 load tables against As x Sp and As x Rm: the nearest of three figures but for the prints listed."""
    classes = {row.class_: row for row in builtin().rows(PROPERTY_CLASSES)}
    off = {}
    for row in builtin().rows(METRIC_LOADS):
        thread, grade = threads.metric_thread(builtin(), row.thread), classes[row.class_]
        area = threads.stress_area_mm2(thread.major_mm, thread.pitch_mm)
        assert grade.proof_mpa is not None
        for kind, load, stress in (
            ("proof", row.proof_n, grade.proof_mpa),
            ("tensile", row.tensile_n, grade.tensile_mpa),
        ):
            if not -0.501 <= (load - area * stress) / _metric_unit(load) <= 0.501:
                off[row.thread, row.class_, kind] = (load, round(area * stress, 1))
    assert off == METRIC_OFF


def test_every_j429_load() -> None:
    """SAE J429 load table against At x stress: the nearest fifty or hundred but for the prints listed."""
    grades = {row.grade: row for row in builtin().rows(INCH_GRADES)}
    off = {}
    for row in builtin().rows(INCH_LOADS):
        thread, grade = threads.unified_thread(builtin(), row.thread), grades[row.grade]
        area = threads.unified_stress_area_in2(thread.major_in, thread.threads_per_in)
        for kind, load, stress in (
            ("proof", row.proof_lbf, grade.proof_psi),
            ("tensile", row.tensile_lbf, grade.tensile_psi),
        ):
            unit = 50 if load < 10_000 else 100
            if not -0.501 <= (load - area * stress) / unit <= 0.501:
                off[row.thread, row.grade, kind] = (load, round(area * stress, 1))
    assert off == INCH_OFF


def test_every_size_and_class_has_its_loads() -> None:
    """ISO 898-1 prints eleven coarse sizes from M3 to M16 in nine classes; SAE J429 ten threads in three grades."""
    sizes = ["M3", "M3.5", "M4", "M5", "M6", "M7", "M8", "M10", "M12", "M14", "M16"]
    classes = ["4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9"]
    metric = [(row.thread, row.class_) for row in builtin().rows(METRIC_LOADS)]
    assert sorted(metric) == sorted((size, class_) for size in sizes for class_ in classes)
    inch = [(row.thread, row.grade) for row in builtin().rows(INCH_LOADS)]
    inch_threads = [
        row.designation
        for size in ("1/4", "5/16", "3/8", "7/16", "1/2")
        for row in builtin().rows(UNIFIED_THREADS)
        if row.size == size
    ]
    assert sorted(inch) == sorted((thread, grade) for thread in inch_threads for grade in ("2", "5", "8"))


@pytest.mark.parametrize("size", ["M3", "M5", "M6", "M8", "M12"])
def test_loads_as_printed(size: str) -> None:
    """ISO 898-1 class 8.8 and 10.9 proof and tensile loads from memory, typed apart from the table."""
    expected = {
        "M3": (2920, 4020, 4180, 5230),
        "M5": (8230, 11350, 11800, 14800),
        "M6": (11600, 16100, 16700, 20900),
        "M8": (21200, 29200, 30400, 38100),
        "M12": (48900, 67400, 70000, 87700),
    }
    loads = {(row.thread, row.class_): (row.proof_n, row.tensile_n) for row in builtin().rows(METRIC_LOADS)}
    assert loads[size, "8.8"] + loads[size, "10.9"] == expected[size]


def test_classes_rise() -> None:
    """ISO 898-1: proof under yield under tensile; a class's name is tensile/100 and yield over tensile, near enough."""
    for row in builtin().rows(PROPERTY_CLASSES):
        assert row.yield_mpa is not None
        assert row.yield_mpa < row.tensile_mpa
        if row.standard == "ISO 898-1":
            strength, ratio = row.class_.split(".")
            assert row.proof_mpa is not None
            assert row.proof_mpa < row.yield_mpa
            assert row.tensile_mpa == pytest.approx(100 * int(strength), rel=0.05)
            assert row.yield_mpa / row.tensile_mpa == pytest.approx(int(ratio) / 10, abs=0.015)


def test_steel_classes_as_printed() -> None:
    """ISO 898-1 table 3, least tensile strength, least yield and proof stress in MPa, from memory, typed apart."""
    expected = {
        "4.6": (400, 240, 225),
        "4.8": (420, 340, 310),
        "5.6": (500, 300, 280),
        "5.8": (520, 420, 380),
        "6.8": (600, 480, 440),
        "8.8": (800, 640, 580),
        "9.8": (900, 720, 650),
        "10.9": (1040, 940, 830),
        "12.9": (1220, 1100, 970),
    }
    rows = builtin().rows(PROPERTY_CLASSES)
    ours = {row.class_: (row.tensile_mpa, row.yield_mpa, row.proof_mpa) for row in rows if row.standard == "ISO 898-1"}
    assert ours == expected


def test_stainless_classes_as_printed() -> None:
    """ISO 3506-1: the number after the steel is a tenth of its tensile strength; no proof stress is given."""
    stainless = {row.class_: row for row in builtin().rows(PROPERTY_CLASSES) if row.standard == "ISO 3506-1"}
    assert {name: row.tensile_mpa for name, row in stainless.items()} == {
        name: 10.0 * int(name[3:]) for name in stainless
    }
    assert {row.yield_mpa for name, row in stainless.items() if name.endswith("70")} == {450.0}
    assert all(row.proof_mpa is None for row in stainless.values())


def test_no_grade_below_a_quarter_inch() -> None:
    """SAE J429 starts at 1/4 in; its grades as printed, psi."""
    grades = {
        row.grade: (row.tensile_psi, row.yield_psi, row.proof_psi, row.from_size_in, row.to_size_in)
        for row in builtin().rows(INCH_GRADES)
    }
    assert grades == {
        "2": (74_000, 57_000, 55_000, 0.25, 0.75),
        "5": (120_000, 92_000, 85_000, 0.25, 1.0),
        "8": (150_000, 130_000, 120_000, 0.25, 1.5),
    }
