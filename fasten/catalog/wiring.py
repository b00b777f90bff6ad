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


@record
class AwgConductor(Row):
    """Resistance of a copper conductor of a gauge at 20 °C; these are the sizes that are proposed."""

    key = ("awg",)
    refs = {"awg": CABLE_AMPACITY}
    awg: str
    resistance_mohm_per_m: float


AWG_CONDUCTORS = TableOf(AwgConductor, "awg-conductors")


@record
class MetricConductor(Row):
    """Resistance of a copper conductor of an area at 20 °C; these are the sizes that are proposed."""

    key = ("area_mm2",)
    order = ("area_mm2",)
    area_mm2: float
    resistance_mohm_per_m: float


METRIC_CONDUCTORS = TableOf(MetricConductor, "metric-conductors")


@record
class AmplifierClass(Row):
    """Share of its current that a class of amplifier makes into sound at full output."""

    key = ("class_",)
    class_: str
    efficiency_share: float


AMPLIFIER_CLASSES = TableOf(AmplifierClass, "amplifier-classes")


@record
class EngineBayFactor(Row):
    """What is left in the engine bay of what a cable carries, by the temperature of its insulation."""

    key = ("insulation_c",)
    order = ("insulation_c",)
    insulation_c: float
    factor_share: float


ENGINE_BAY_FACTORS = TableOf(EngineBayFactor, "engine-bay-factors")


@record
class BundleFactor(Row):
    """What is left of what each cable carries, from so many well loaded conductors side by side."""

    key = ("conductors",)
    order = ("conductors",)
    conductors: int
    factor_share: float


BUNDLE_FACTORS = TableOf(BundleFactor, "bundle-factors")


@record
class FuseFamily(Row):
    """A kind of fuse: its series of ratings, the cable it is proposed for, and what its holder's ends take.

    Without a least and most cable it is taken only where it is asked for. `ends` is a stud, a set screw, or a splice
    onto the leads of the holder, which have that area as a rule; `up_to_a` is the highest rating that is proposed.
    """

    key = ("family",)
    words = {"ends": ("stud", "set screw", "splice")}
    rising = (("cable_least_mm2", "cable_most_mm2"), ("lead_least_mm2", "lead_most_mm2"))
    family: str
    title: str
    standard: str
    cable_least_mm2: float | None
    cable_most_mm2: float | None
    up_to_a: float
    ends: str
    stud: str | None
    lead_least_mm2: float | None
    lead_most_mm2: float | None
    ratings_a: tuple[float, ...]


FUSE_FAMILIES = TableOf(FuseFamily, "fuse-families")


@record
class WiringRule(Row):
    """A single figure that decides on runs of cable, with its source, by name."""

    key = ("rule",)
    rule: str
    value: float
    unit: str
    text: str


WIRING_RULES = TableOf(WiringRule, "wiring-rules")
