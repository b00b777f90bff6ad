"""Row types of the tables of wiring: conductors and what they carry, fuses, ends, and what covers and holds cable."""

from fasten.catalog.rows import Row, TableOf
from fasten.model import Phase
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
    onto the leads of the holder; `up_to_a` is the highest rating that is proposed.
    """

    key = ("family",)
    words = {"ends": ("stud", "set screw", "splice")}
    rising = (("cable_least_mm2", "cable_most_mm2"),)
    family: str
    title: str
    standard: str
    cable_least_mm2: float | None
    cable_most_mm2: float | None
    up_to_a: float
    ends: str
    stud: str | None
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


@record
class LugBarrel(Row):
    """A tube lug for a cable: its barrel, the die that is stamped on it, and the studs it is sold for."""

    key = ("cable",)
    parts = True
    cable: str
    barrel_mm: float
    outside_mm: float | None
    die: str | None
    studs: tuple[str, ...]


LUG_BARRELS = TableOf(LugBarrel, "lug-barrels")


@record
class LugPalm(Row):
    """How wide the palm of a tube lug is, by cable and stud."""

    key = ("cable", "stud")
    refs = {"cable": LUG_BARRELS}
    parts = True
    cable: str
    stud: str
    palm_mm: float


LUG_PALMS = TableOf(LugPalm, "lug-palms")


@record
class CrimpTerminal(Row):
    """An insulated crimp terminal or butt splice by colour: the largest cable, and how much is stripped."""

    key = ("colour",)
    order = ("most_mm2",)
    colour: str
    most_mm2: float
    strip_mm: float
    studs: tuple[str, ...]


CRIMP_TERMINALS = TableOf(CrimpTerminal, "crimp-terminals")


@record
class WireEndSleeve(Row):
    """A wire-end sleeve with collar, the shortest of its size."""

    key = ("area_mm2",)
    order = ("area_mm2",)
    rising = (("inside_mm", "outside_mm"),)
    area_mm2: float
    inside_mm: float
    outside_mm: float
    length_mm: float
    colour: str


WIRE_END_SLEEVES = TableOf(WireEndSleeve, "wire-end-sleeves")


@record
class AwgSleeve(Row):
    """The sleeve that cable of a gauge enters, and how thick its bare conductor is."""

    key = ("cable",)
    order = ("sleeve_mm2",)
    cable: str
    sleeve_mm2: float
    conductor_mm: float


AWG_SLEEVES = TableOf(AwgSleeve, "awg-sleeves")


@record
class TabReceptacle(Row):
    """A receptacle for a flat tab, and the cable it takes."""

    key = ("tab",)
    rising = (("least_mm2", "most_mm2"),)
    tab: str
    least_mm2: float
    most_mm2: float


TAB_RECEPTACLES = TableOf(TabReceptacle, "tab-receptacles")


@record
class CrimpPull(Row):
    """The least force that a crimp must hold, from an area up."""

    key = ("area_mm2",)
    order = ("area_mm2",)
    area_mm2: float
    pull_n: float


CRIMP_PULL = TableOf(CrimpPull, "crimp-pull")


@record
class HeatShrink(Row):
    """A heat-shrink by its inside before and after; `over` says what it is for."""

    key = ("size",)
    words = {"over": ("lug", "splice")}
    rising = (("recovered_mm", "supplied_mm"),)
    parts = True
    size: str
    ratio: str
    over: str
    supplied_mm: float
    recovered_mm: float


HEAT_SHRINK = TableOf(HeatShrink, "heat-shrink")


@record
class CableOutside(Row):
    """How thick cable of a size is outside, least and most of what is sold."""

    key = ("cable",)
    parts = True
    cable: str
    least_mm: float | None
    most_mm: float


CABLE_OUTSIDES = TableOf(CableOutside, "cable-outsides")


@record
class StudTorque(Row):
    """The torque of a power terminal whose maker says none."""

    key = ("at", "size")
    at: str
    size: str
    least_nm: float
    most_nm: float


STUD_TORQUES = TableOf(StudTorque, "stud-torques")


@record
class CrimpTool(Row):
    """What crimps a joint of an area."""

    key = ("joint", "least_mm2")
    rising = (("least_mm2", "most_mm2"),)
    joint: str
    least_mm2: float
    most_mm2: float
    tool: str


CRIMP_TOOLS = TableOf(CrimpTool, "crimp-tools")


@record
class RunStep(Row):
    """One step of the work on a run; the order is by phase, then step.

    `only_if` names conditions that must all hold (`fasten.wiring.conditions`), one after `not` must not; what stands in
    braces in the text is filled by the answer.
    """

    key = ("phase", "step")
    words = {"phase": tuple(phase.value for phase in Phase)}
    phase: str
    step: int
    only_if: tuple[str, ...]
    text: str


RUN_STEPS = TableOf(RunStep, "run-steps")


@record
class RunTool(Row):
    """A tool for runs of cable, beside those that crimp."""

    key = ("tool",)
    tool: str
    only_if: tuple[str, ...]


RUN_TOOLS = TableOf(RunTool, "run-tools")


@record
class RunCaution(Row):
    """A caution for runs of cable, in the order of telling."""

    key = ("caution",)
    caution: str
    only_if: tuple[str, ...]
    text: str


RUN_CAUTIONS = TableOf(RunCaution, "run-cautions")
