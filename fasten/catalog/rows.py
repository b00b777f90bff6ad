"""Row types of the tables of threads, drills, sheets, screws and classes, each declared once.

A field is its column's name, then its unit: column `pitch` in `mm` is `pitch_mm`. An absent value is printed `-` and
read as None. `key` names a row, `order` must not fall from one row to the next, `refs` says which table a field points
into, `words` what else a text may be, `rising` which figures of a row must each be over the one before; a least figure
is never over the most by its name. `parts` marks the tables a user may overlay. A table is declared below its row type.
"""

from collections.abc import Iterable
from operator import attrgetter
from typing import Any, ClassVar, Generic, TypeVar

from fasten.record import record


@record
class Row:
    """What every row has: `from_` names a source block of its own table."""

    key: ClassVar[tuple[str, ...]] = ()
    order: ClassVar[tuple[str, ...]] = ()
    refs: ClassVar[dict[str, "TableOf[Any]"]] = {}
    words: ClassVar[dict[str, tuple[str, ...]]] = {}
    rising: ClassVar[tuple[tuple[str, str], ...]] = ()
    parts: ClassVar[bool] = False
    zero_ok: ClassVar[frozenset[str]] = frozenset()
    signed: ClassVar[frozenset[str]] = frozenset()

    from_: str

    def name(self) -> str:
        """The row's key as text, for messages and for naming the row."""
        return " ".join(str(getattr(self, field)) for field in self.key)

    def lacks(self) -> str:
        """The column that this row may not leave out, though others of its table may; empty where it has all."""
        return ""

    def key_value(self) -> tuple[Any, ...]:
        """The row's key as values, for finding and comparing rows."""
        return tuple(getattr(self, field) for field in self.key)


def by_key(kind: type[Row], rows: Iterable[Row]) -> dict[object, Row]:
    """The rows of one kind by their keys as values."""
    of_row = attrgetter(*kind.key)
    return {(of_row(row) if len(kind.key) > 1 else (of_row(row),)): row for row in rows}


RowT_co = TypeVar("RowT_co", bound=Row, covariant=True)


@record
class TableOf(Generic[RowT_co]):
    """What a table is called by everywhere: declared once, beside the type of its rows.

    Attributes:
        row_type: the type of its rows.
        name: the name of its file, which stands in sources and messages.
    """

    row_type: type[RowT_co]
    name: str


@record
class MetricThread(Row):
    """ISO 261 thread: what is primary; limits are computed."""

    key = ("designation",)
    order = ("major_mm",)
    designation: str
    series: str
    major_mm: float
    pitch_mm: float


METRIC_THREADS = TableOf(MetricThread, "metric-threads")


@record
class UnifiedThread(Row):
    """ASME B1.1 thread; `size` is shared by the coarse and the fine series."""

    key = ("designation",)
    order = ("major_in",)
    designation: str
    size: str
    series: str
    major_in: float
    threads_per_in: int


UNIFIED_THREADS = TableOf(UnifiedThread, "unified-threads")


@record
class PitchTolerance(Row):
    """ISO 965-1 grade 6 tolerances of minor and major diameter, and the G/g allowance, by pitch."""

    key = ("pitch_mm",)
    order = ("pitch_mm",)
    pitch_mm: float
    internal_minor_um: int
    external_major_um: int
    allowance_um: int


ISO_965_BY_PITCH = TableOf(PitchTolerance, "iso-965-by-pitch")


@record
class PitchDiameterTolerance(Row):
    """ISO 965-1 grade 6 tolerances of pitch diameter for a band of diameters and a pitch."""

    key = ("over_mm", "pitch_mm")
    order = ("over_mm", "pitch_mm")
    over_mm: float
    to_mm: float
    pitch_mm: float
    internal_um: int
    external_um: int


ISO_965_PITCH_DIAMETER = TableOf(PitchDiameterTolerance, "iso-965-pitch-diameter")


@record
class MetricTapDrill(Row):
    """Drill for tapping a metric thread."""

    key = ("thread",)
    refs = {"thread": METRIC_THREADS}
    thread: str
    drill_mm: float


METRIC_TAP_DRILLS = TableOf(MetricTapDrill, "metric-tap-drills")


@record
class UnifiedTapDrill(Row):
    """Drill for tapping a unified thread, by the drill's name."""

    key = ("thread",)
    refs = {"thread": UNIFIED_THREADS}
    thread: str
    drill: str


UNIFIED_TAP_DRILLS = TableOf(UnifiedTapDrill, "unified-tap-drills")


@record
class MetricClearance(Row):
    """ISO 273 clearance holes."""

    key = ("size",)
    order = ("fine_mm",)
    size: str
    fine_mm: float
    medium_mm: float
    coarse_mm: float


METRIC_CLEARANCE = TableOf(MetricClearance, "metric-clearance")


@record
class UnifiedClearance(Row):
    """ASME B18.2.8 clearance holes, by drill name."""

    key = ("size",)
    size: str
    close: str
    normal: str
    loose: str


UNIFIED_CLEARANCE = TableOf(UnifiedClearance, "unified-clearance")


@record
class InchDrill(Row):
    """A drill of a number, letter or fraction series."""

    key = ("name_",)
    order = ("diameter_in",)
    parts = True
    name_: str
    diameter_in: float


INCH_DRILLS = {series: TableOf(InchDrill, f"drills-{series}") for series in ("number", "letter", "fraction")}
"""By the series."""


@record
class MetricDrill(Row):
    """A drill of the metric series; its name is its diameter."""

    key = ("diameter_mm",)
    order = ("diameter_mm",)
    parts = True
    diameter_mm: float


DRILLS_METRIC = TableOf(MetricDrill, "drills-metric")


@record
class Gauge(Row):
    """Thickness of one gauge number in one metal, as printed: inches to four decimals."""

    key = ("number",)
    order = ("number",)
    number: int
    thickness_in: float


GAUGES = {
    metal: TableOf(Gauge, f"gauges-{metal.replace('_', '-')}")
    for metal in ("steel", "galvanised_steel", "stainless_steel", "aluminium")
}
"""By the metal's key: each has a table of its own."""


@record
class TappingThread(Row):
    """ISO 1478 tapping-screw thread; minor is its root."""

    key = ("designation",)
    order = ("major_max_mm",)
    designation: str
    number: str
    pitch_mm: float
    threads_per_in: int
    major_max_mm: float
    major_min_mm: float
    minor_max_mm: float
    minor_min_mm: float | None


TAPPING_THREADS = TableOf(TappingThread, "tapping-threads")


@record
class TappingHoleByStrength(Row):
    """DIN 7975 core hole at one sheet thickness, in sheet of 100, 300 and 500 MPa."""

    key = ("size", "sheet_mm")
    refs = {"size": TAPPING_THREADS}
    size: str
    sheet_mm: float
    rm_100_mm: float | None
    rm_300_mm: float | None
    rm_500_mm: float | None


TAPPING_HOLES_DIN_7975 = TableOf(TappingHoleByStrength, "tapping-holes-din-7975")


@record
class TappingHoleInThinSheet(Row):
    """Hole for a tapping screw in sheet over one thickness and up to another."""

    key = ("size", "over_mm")
    refs = {"size": TAPPING_THREADS}
    zero_ok = frozenset({"over_mm"})
    size: str
    over_mm: float
    to_mm: float
    steel_drilled_mm: float | None
    steel_punched_mm: float | None
    aluminium_drilled_mm: float | None
    aluminium_punched_mm: float | None


TAPPING_HOLES_THIN_SHEET = TableOf(TappingHoleInThinSheet, "tapping-holes-thin-sheet")


@record
class TappingClearance(Row):
    """Clearance hole in the fixed part for a tapping screw."""

    key = ("size",)
    refs = {"size": TAPPING_THREADS}
    size: str
    hole_mm: float


TAPPING_CLEARANCE = TableOf(TappingClearance, "tapping-clearance")


@record
class TappingTorsion(Row):
    """Least breaking torque of a tapping screw."""

    key = ("size",)
    refs = {"size": TAPPING_THREADS}
    size: str
    breaking_nm: float


TAPPING_TORSION = TableOf(TappingTorsion, "tapping-torsion")


@record
class SelfDrilling(Row):
    """Sheet that a self-drilling screw drills, all layers together."""

    key = ("size",)
    refs = {"size": TAPPING_THREADS}
    size: str
    min_mm: float
    max_mm: float
    max_stainless_mm: float | None
    breaking_nm: float | None


SELF_DRILLING = TableOf(SelfDrilling, "self-drilling")


@record
class PropertyClass(Row):
    """Strength of a metric screw class. `proof_mpa` is absent where the standard gives no proof stress."""

    key = ("class_",)
    standard: str
    class_: str
    tensile_mpa: float
    yield_mpa: float | None
    proof_mpa: float | None


PROPERTY_CLASSES = TableOf(PropertyClass, "property-classes")


@record
class InchGrade(Row):
    """Strength of an inch screw grade, valid from one diameter to another."""

    key = ("grade", "from_size_in")
    standard: str
    grade: str
    from_size_in: float
    to_size_in: float
    tensile_psi: float
    yield_psi: float | None
    proof_psi: float


INCH_GRADES = TableOf(InchGrade, "inch-grades")


@record
class MetricLoad(Row):
    """Loads of one size and class as the standard prints them, rounded one by one."""

    key = ("thread", "class_")
    refs = {"thread": METRIC_THREADS, "class_": PROPERTY_CLASSES}
    thread: str
    class_: str
    proof_n: float
    tensile_n: float


METRIC_LOADS = TableOf(MetricLoad, "metric-loads")


@record
class InchLoad(Row):
    """Loads of one thread and grade as the standard prints them."""

    key = ("thread", "grade")
    refs = {"thread": UNIFIED_THREADS}
    thread: str
    grade: str
    proof_lbf: float
    tensile_lbf: float


INCH_LOADS = TableOf(InchLoad, "inch-loads")


@record
class Formula(Row):
    """An equation the program uses: its short name, the expression as written, and where it comes from."""

    key = ("id",)
    id: str
    expression: str


FORMULAS = TableOf(Formula, "formulas")
STRENGTH_FORMULAS = TableOf(Formula, "strength-formulas")
