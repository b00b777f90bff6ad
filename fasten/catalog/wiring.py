"""Row types of the tables of wiring: conductors and what they carry, fuses, ends, and what covers and holds cable."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record


@record
class CableAmpacity(Row):
    """What a copper conductor of a gauge carries at each temperature its insulation is made for."""

    key = ("awg",)
    order = ("area_mm2",)
    rising = (
        ("at_60_a", "at_80_a"), ("at_75_a", "at_90_a"), ("at_80_a", "at_105_a"), ("at_90_a", "at_125_a"),
        ("at_105_a", "at_200_a"),
    )  # fmt: skip
    awg: str
    area_mm2: float
    at_60_a: float
    at_75_a: float
    at_80_a: float
    at_90_a: float
    at_105_a: float
    at_125_a: float
    at_200_a: float

    def at_a(self, insulation_c: int) -> float:
        """What it carries with insulation for one of `INSULATIONS_C`, in A."""
        carried: float = getattr(self, f"at_{insulation_c}_a")
        return carried


CABLE_AMPACITY = TableOf(CableAmpacity, "cable-ampacity")
INSULATIONS_C = (60, 75, 80, 90, 105, 125, 200)


@record
class MetricAmpacity(Row):
    """What metric cable for 105 °C carries: it lowers what the gauge below its area gives, and never raises it."""

    key = ("area_mm2",)
    order = ("area_mm2",)
    area_mm2: float
    at_105_a: float


METRIC_AMPACITY = TableOf(MetricAmpacity, "metric-ampacity")
