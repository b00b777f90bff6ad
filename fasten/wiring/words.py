"""The words of a run of cable as frozen dataclasses and enums; no logic."""

from enum import Enum

from fasten.record import record


@record
class Amps:
    """A load by its current, in A."""

    full_a: float


@record
class Amplifier:
    """A load by its power into its loudspeakers, all channels together, and its class; its voltage where given."""

    power_w: float
    class_: str
    load_v: int | None


@record
class Loudspeaker:
    """A loudspeaker lead: power into it, and its nominal impedance."""

    power_w: float
    impedance_ohm: float


class Unsized(Enum):
    """What carries next to no current, so that no size is calculated for it."""

    REMOTE = "remote"
    SIGNAL = "signal"
    DATA = "data"


Carries = Amps | Amplifier | Loudspeaker | Unsized


class Pole(Enum):
    """A pole of a battery."""

    PLUS = "+"
    MINUS = "-"


@record
class BatteryPost:
    """The post of a battery, which takes a clamp with outputs; + and - differ."""

    pole: Pole


@record
class StudEnd:
    """A stud that takes a ring or lug; `at` says what it is on."""

    stud: str | None
    at: "StudAt"


class StudAt(Enum):
    """What a stud is on."""

    BATTERY = "battery"
    BODY = "body"
    DEVICE = "device"


class Terminal(Enum):
    """How a device takes a cable that has no ring."""

    SET_SCREW = "set screw"
    CLAMP_PLATE = "clamp plate"
    PUSH_IN = "push-in"
    TAB = "tab"
    BARE = "bare"
    PLUG = "plug"


@record
class TerminalEnd:
    """A terminal of a device: its bore or the largest cable it takes, the size of its tab or of the plug."""

    terminal: Terminal
    bore_mm: float | None = None
    takes_mm2: float | None = None
    tab: str | None = None


class Splice(Enum):
    """How two cables are joined."""

    BUTT = "butt"
    LAP = "lap"
    CONNECTOR = "connector"


@record
class SpliceEnd:
    """A joint to another cable."""

    splice: Splice


@record
class NamedEnd:
    """An end at something of the job, by its name."""

    name: str


End = BatteryPost | StudEnd | TerminalEnd | SpliceEnd | NamedEnd


class Series(Enum):
    """By which measure cable is sold."""

    AWG = "awg"
    METRIC = "mm2"


class Material(Enum):
    """What the conductor is of."""

    COPPER = "copper"
    CLAD = "copper-clad"


class RunWhere(Enum):
    """Where a run lies, as far as it decides what it carries."""

    CABIN = "cabin"
    UNDERFLOOR = "underfloor"
    ENGINE_BAY = "engine-bay"
    EXHAUST = "exhaust"


@record
class Limit:
    """The voltage drop by which a size is proposed: in V, or in % of the running voltage."""

    value: float
    percent: bool


@record
class Size:
    """A size of cable: what it is called, the area of its conductor, and its resistance at 20 °C."""

    name: str
    series: Series
    area_mm2: float
    resistance_mohm_per_m: float
    from_: tuple[str, ...]


@record
class Question:
    """A run as it was asked for; None where something was not given. `system_v` is 12 or 24."""

    name: str
    carries: Carries
    from_: End
    to: End
    length_mm: float
    straight: bool
    ground_mm: float | None
    material: Material | None
    cable: Size | None
    insulation_c: float | None
    limit: Limit | None
    holder: str | None
    own_fuses_a: tuple[float, ...]
    series: Series | None
    where: RunWhere | None
    through: StudEnd | None
    system_v: int


@record
class Run:
    """A run with every gap filled: what is calculated stands on this.

    `length_mm` is along the route; `chosen` is the cable that was asked for. `before_v` is lost in what lies before it,
    `bundled` are the well loaded conductors that it lies with, itself among them. The outside and the bare conductor of
    its cable are as measured.
    """

    name: str
    carries: Carries
    from_: End
    to: End
    length_mm: float
    ground_mm: float
    material: Material
    chosen: Size | None
    insulation_c: float
    marked: bool
    limit_v: float
    stop_v: float
    holder: str | None
    own_fuses_a: tuple[float, ...]
    series: Series
    where: RunWhere
    through: StudEnd | None
    supply_v: float
    from_sources: tuple[str, ...]
    before_v: float = 0.0
    bundled: int = 1
    outside_mm: float | None = None
    conductor_mm: float | None = None
