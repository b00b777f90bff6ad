"""Row types of the tables of the ends of cable: lugs, sleeves, receptacles, crimps, heat-shrink and torque."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record


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
    """A receptacle for a flat tab, the cable it takes, and what it carries.

    Every one carries `safe_a`, and none more than `up_to_a`: between them cable and maker decide.
    """

    key = ("tab",)
    rising = (("least_mm2", "most_mm2"),)
    tab: str
    least_mm2: float
    most_mm2: float
    safe_a: float
    up_to_a: float


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
class ThinWallShrink(Row):
    """A heat-shrink 2:1 by the inch size that it goes by; `wall_mm` is recovered."""

    key = ("size",)
    rising = (("recovered_mm", "supplied_mm"),)
    order = ("supplied_mm",)
    size: str
    supplied_mm: float
    recovered_mm: float
    wall_mm: float


THIN_WALL_SHRINK = TableOf(ThinWallShrink, "thin-wall-shrink")


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
class StudCurrent(Row):
    """What passes from lug to lug, or from lug to face, where a stud presses them together.

    A stud of brass does for `safe_a`; no part on such a stud is known for more than `up_to_a`.
    """

    key = ("stud",)
    order = ("safe_a", "up_to_a")
    stud: str
    safe_a: float
    up_to_a: float


STUD_CURRENTS = TableOf(StudCurrent, "stud-currents")


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
