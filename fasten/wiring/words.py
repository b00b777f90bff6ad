"""The words of a run of cable as frozen dataclasses and enums; no logic."""

from enum import Enum

from fasten.model import OwnFuses, Power
from fasten.record import lean, record


@record
class Amps:
    """A load by its current, in A; `load_v` is the system it is for, where that is said."""

    full_a: float
    load_v: int | None = None


@lean
class Loudspeaker:
    """A loudspeaker lead: power into it, and its nominal impedance."""

    power_w: float
    impedance_ohm: float


@lean
class Branches:
    """The loads of all branches of a trunk together: their full currents, and the least of their fuses, in A."""

    full_a: float
    floor_a: float


class Unsized(Enum):
    """What carries next to no current, so that no size is calculated for it."""

    REMOTE = "remote"
    SIGNAL = "signal"
    DATA = "data"


Carries = Amps | Power | Branches | Loudspeaker | Unsized


class Pole(Enum):
    """A pole of a battery."""

    PLUS = "+"
    MINUS = "-"


@record
class BatteryPost:
    """The post of a battery, which takes a clamp with outputs; + and - differ."""

    pole: Pole


@lean
class StudEnd:
    """A stud that takes a ring or lug; `at` says its place, `pole` which of a battery, `called` what a device is."""

    stud: str | None
    at: "StudAt"
    pole: Pole = Pole.PLUS
    called: str = ""


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


@lean
class TerminalEnd:
    """A terminal of a device: its bore or the largest cable it takes, the size of its tab or of the plug.

    `lead_mm` is the outside of the lead that comes with the plug.
    """

    terminal: Terminal
    bore_mm: float | None = None
    takes_mm2: float | None = None
    tab: str | None = None
    lead_mm: float | None = None

    @property
    def is_plug(self) -> bool:
        """Whether it is the plug that a cable comes with."""
        return self.terminal is Terminal.PLUG


class Splice(Enum):
    """How two cables are joined."""

    BUTT = "butt"
    LAP = "lap"
    CONNECTOR = "connector"


@lean
class SpliceEnd:
    """A joint to another cable."""

    splice: Splice


@record
class NamedEnd:
    """An end at something of the job, by its name; `terminal` is what it takes, where that is said after a comma."""

    name: str
    terminal: "End | None" = None


LOUDSPEAKER = "loudspeaker"  # an end that is known by what it is alone


@lean
class DeviceEnd:
    """An end at an item whose terminal is not said: a ring or a set screw is never chosen for it.

    `battery` where the item is one: it is a source. `speaker` where it is a loudspeaker, which has tabs or screws.
    """

    name: str
    battery: bool = False
    speaker: bool = False

    def to_find(self, size: str) -> str:
        """What is to be found out of how it takes a cable of this size, and how that is said."""
        if self.name == LOUDSPEAKER:
            return f"how the loudspeaker takes {size}: measure its tabs, or see that it has screws"
        looked = "measure its tabs, or see that it has screws; " if self.speaker else ""
        ways = ("tab 6.3x0.8", "set screw") if self.speaker else ("set screw", "stud M8")
        said = " or ".join(f"{self.name}, {way}" for way in ways)
        return f"how {self.name} takes {size}: {looked}write {said}"


End = BatteryPost | StudEnd | TerminalEnd | SpliceEnd | NamedEnd | DeviceEnd


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


@lean
class Size:
    """A size of cable: what it is called, the area of its conductor, and its resistance at 20 °C."""

    name: str
    series: Series
    area_mm2: float
    resistance_mohm_per_m: float
    from_: tuple[str, ...]


@lean
class Question:
    """A run as it was asked for; None where something was not given. `system_v` is 12 or 24.

    What a run of a job carries may follow from what is at its ends: then it is None until that is looked up.
    """

    name: str
    carries: Carries | None
    from_: End
    to: End
    length_mm: float
    straight: bool
    ground_mm: float | None
    body_mohm: float | None
    material: Material | None
    cable: Size | None
    insulation_c: float | None
    limit: Limit | None
    holder: str | None
    own_fuses: OwnFuses | None
    series: Series | None
    where: RunWhere | None
    through: StudEnd | None
    system_v: int


@record
class Joined:
    """The loudspeaker leads in series with one, on one side of it, where most of the impedance is lost along them.

    `unknown` are leads there of which it is not known what is lost, `gaps` the crossovers there that no lead comes to,
    or that none goes on from.
    """

    names: tuple[str, ...] = ()
    loop_ohm: float = 0.0
    share_pct: float = 0.0
    unknown: tuple[str, ...] = ()
    gaps: tuple[str, ...] = ()


@record
class Comes:
    """What comes back to the minus of a battery by the runs of the job, and what its leads are said to carry, in A."""

    full_a: float
    said_a: float
    leads: tuple[str, ...]


@lean
class Run:
    """A run with every gap filled: what is calculated stands on this.

    `length_mm` is along the route; `chosen` is the cable that was asked for. `before_v` is lost in what lies before it,
    `bundled` are the well loaded conductors that it lies with, itself among them. The outside and the bare conductor of
    its cable are as measured. `return_mm` is of ground lead that is a run of its own, `return_apart` where the cable of
    that was chosen: what is lost there is in `before_v`. `least_mm2` is the thinnest that may be taken. A branch out of
    a block has its fuse there, unless it carries the `upstream_fuse_a`. `from_name` and `to_name` are what of the job
    its ends are at, `holder_names` the fuse holders of the job on its way.
    `at_studs` are the studs at which it lies with others, power cable among them, each with how many runs end there.
    `unloaded` are the branches of a trunk of which it is not known what they carry, `onward` what goes on from the item
    that it feeds.

    It is `fed` by a run of the job; `unfed_at` is where the first of those begins that nothing feeds. `in_block` where
    its fuse sits in the block that it comes out of, `joins_ground` where it ends at a block of grounds, `from_holder`
    and `to_holder` where it begins or ends at a fuse holder of the job: the fuse of a run that ends there sits in it.

    `not_whole` are the runs before it, or in its ground, whose voltage drop is not known whole; `rivals` those that
    feed the same as it does. Up to `over_v` may be lost beyond the limit, where cable that was chosen lies before it.
    `body_mohm` is of the body as measured, 0 where it is not: then it is in no voltage drop; others lose
    `body_others_v` there, `body_unknown` are those of which it is not known what they carry. `material_said` where it
    is known what the cable is of. `unplaced` are the sections it goes through of which the place is not known,
    `proposed` what of it decides and was only proposed. `unpassed` where it lies on both sides of the bulkhead and goes
    through no hole. `place_assumed` where nothing says where it lies: it begins or ends at a battery, or counts as
    in the engine bay by an end there. `leads_before` and `leads_behind` are in series with a loudspeaker lead.
    `comes` is of a lead from battery minus to body of which it is said what it carries; `unlike` are those that
    share with it and are not alike. `marks_c` are the temperatures that are said to be printed on its cable, where
    they differ. `block_outputs` has the run that feeds a block, or that goes on from one of grounds: how many
    others end there. `outputs` are of the amplifier that it begins or ends at. `sections_mm` is how long the sections
    are together that it goes through, as far as that is said.
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
    return_mm: float = 0.0
    return_apart: bool = False
    least_mm2: float = 0.0
    upstream_fuse_a: float | None = None
    from_name: str = ""
    to_name: str = ""
    holder_names: tuple[str, ...] = ()
    at_studs: tuple[tuple[str, int], ...] = ()
    unloaded: tuple[str, ...] = ()
    onward: Branches | None = None
    fed: bool = False
    unfed_at: str = ""
    in_block: bool = False
    joins_ground: bool = False
    not_whole: tuple[str, ...] = ()
    rivals: tuple[str, ...] = ()
    over_v: float = 0.0
    body_mohm: float = 0.0
    body_others_v: float = 0.0
    body_unknown: tuple[str, ...] = ()
    material_said: bool = True
    unplaced: tuple[str, ...] = ()
    proposed: tuple[str, ...] = ()
    unpassed: bool = False
    from_holder: bool = False
    to_holder: bool = False
    place_assumed: bool = False
    leads_before: Joined = Joined()
    leads_behind: Joined = Joined()
    comes: Comes | None = None
    unlike: tuple[str, ...] = ()
    marks_c: tuple[float, ...] = ()
    block_outputs: int = 0
    outputs: tuple[Loudspeaker, ...] = ()
    sections_mm: float = 0.0
    clad_v: float = 0.0
    unsaid: tuple[str, ...] = ()

    @property
    def back_mm(self) -> float:
        """The ground lead that is taken to be of the cable of the run."""
        return self.ground_mm + (0.0 if self.return_apart else self.return_mm)
