"""The words of the house as frozen dataclasses and enums; no logic.

Field names are the keys of the JSON output; a trailing underscore is dropped there (`class_` is `class`, `from_` is
`from`). Lengths are mm, loads N, torques N·m, stresses MPa, masses kg.
"""

from dataclasses import dataclass
from enum import Enum


class Removal(Enum):
    """How often the item comes off."""

    NEVER = "never"
    RARELY = "rarely"
    YEARLY = "yearly"
    MONTHLY = "monthly"
    WEEKLY = "weekly"


class Panel(Enum):
    """Which way the panel faces, so which way a stop pulls on it."""

    FLOOR = "floor"
    SEAT_BACK = "seat-back"
    SIDE = "side"
    ROOF = "roof"
    DOOR = "door"
    UNKNOWN = "unknown"


class Reach(Enum):
    """Which sides of the substrate a hand can reach."""

    ONE_SIDE = "one-side"
    BOTH_SIDES = "both-sides"


class Into(Enum):
    """Whether the fastener goes into the face or the edge of a board."""

    FACE = "face"
    EDGE = "edge"


class Where(Enum):
    """Where in the vehicle the mount lives: decides heat, wet and what corrodes."""

    CABIN = "cabin"
    DOOR = "door"
    UNDERFLOOR = "underfloor"


class Visible(Enum):
    """Whether the screw heads are seen."""

    YES = "yes"
    NO = "no"


class Origin(Enum):
    """Where a field of a mount point comes from."""

    GIVEN = "given"
    PRESET = "preset"
    ASSUMED = "assumed"


class Status(Enum):
    """What a check found."""

    HOLDS = "holds"
    FAILS = "fails"
    NOT_CHECKED = "not_checked"


class JointKind(Enum):
    """Clamped: hard layers keep preload. Located: soft layers do not, and load goes in bearing."""

    CLAMPED = "clamped"
    LOCATED = "located"


@dataclass(frozen=True)
class Between:
    """A soft layer between item and substrate: its material (foam, carpet, mat) and free thickness."""

    material: str
    thickness_mm: float


@dataclass(frozen=True)
class Pattern:
    """Where the fixings sit: `circle`, `rectangle` or `row`; `b_mm` is the second side of a rectangle."""

    kind: str
    a_mm: float
    b_mm: float | None


@dataclass(frozen=True)
class Boss:
    """A boss on the substrate: outer diameter, and how deep it can be drilled, panel included (None: nobody said)."""

    outer_mm: float
    depth_mm: float | None


@dataclass(frozen=True)
class ThreadThere:
    """A thread that is there already: its designation, and whether it is `tapped` (weld nut or boss) or a `stud`."""

    thread: str
    kind: str


@dataclass(frozen=True)
class Carried:
    """One thing an item carries: its name (None: a mere mass), its mass, how far its centre stands off the panel.

    In a question None is what was not said; in a mount point mass and height are always known.
    """

    name: str | None
    mass_kg: float | None
    cg_mm: float | None


@dataclass(frozen=True)
class Question:
    """What the user said, in canonical units; None is what was not said."""

    item: str
    material: str
    thickness_mm: float | None = None
    place: str | None = None
    removed: Removal | None = None
    mass_kg: float | None = None
    fixings: int | None = None
    pattern: Pattern | None = None
    item_thickness_mm: float | None = None
    item_hole_mm: float | None = None
    item_material: str | None = None
    cg_mm: float | None = None
    panel: Panel | None = None
    between: Between | None = None
    behind_mm: float | None = None
    edge_mm: float | None = None
    boss: Boss | None = None
    into: Into | None = None
    reach: Reach | None = None
    where: Where | None = None
    visible: Visible | None = None
    grade: str | None = None
    body_mm: float | None = None
    hole_there_mm: float | None = None
    thread_there: ThreadThere | None = None
    case: str | None = None
    carries: tuple[Carried, ...] | None = None
    run_mm: float | None = None
    ring: str | None = None
    rings: int | None = None
    cable_mm2: float | None = None
    current_a: float | None = None


@dataclass(frozen=True)
class MountPoint:
    """A question with every gap filled; `origins` says for each field whether it was given, preset or assumed.

    `thickness_min_mm` and `thickness_max_mm` are equal unless the thickness came from a named place. `behind_mm` and
    `edge_mm` stay None where nobody said: they cannot honestly be assumed. Without a `boss` there is none,
    as far as anybody said.

    `mass_kg` and `cg_mm` are of all that hangs on the fixings: the item with what it `carries`; `item_mass_kg` and
    `item_cg_mm` are the item's own. `run_mm` is of a cable in clamps; `ring`, the stud that a ring terminal is for,
    `rings`, `cable_mm2` and `current_a` are of a ground lug.
    """

    item: str
    material: str
    thickness_min_mm: float
    thickness_max_mm: float
    place: str | None
    removed: Removal
    mass_kg: float
    fixings: int
    pattern: Pattern | None
    item_thickness_mm: float
    item_hole_mm: float
    item_material: str
    cg_mm: float
    panel: Panel
    between: Between | None
    behind_mm: float | None
    edge_mm: float | None
    boss: Boss | None
    into: Into
    reach: Reach
    where: Where
    visible: Visible
    grade: str
    body_mm: float | None
    hole_there_mm: float | None
    thread_there: ThreadThere | None
    case: str | None
    carries: tuple[Carried, ...] | None
    item_mass_kg: float
    item_cg_mm: float
    run_mm: float | None
    ring: str | None
    rings: int | None
    cable_mm2: float | None
    current_a: float | None
    origins: tuple[tuple[str, Origin], ...]


@dataclass(frozen=True)
class Span:
    """A least and a greatest value."""

    min: float
    max: float


@dataclass(frozen=True)
class Tolerance:
    """How far a size may be under and over."""

    minus: float
    plus: float


@dataclass(frozen=True)
class BitChoice:
    """The bit to drill with and how far it is from the wanted hole."""

    name: str
    diameter_mm: float
    deviation_mm: float
    holds: bool


@dataclass(frozen=True)
class Hole:
    """The hole in the substrate. `depth_mm` is None for a hole that goes through."""

    diameter_mm: float
    tolerance_mm: Tolerance
    depth_mm: float | None
    bit: BitChoice
    shape: str = "round"


@dataclass(frozen=True)
class Layer:
    """One layer of the joint from the head down: `role` is washer, item, soft, patch, substrate or nut."""

    role: str
    material: str
    thickness_mm: float


@dataclass(frozen=True)
class WasherPart:
    """A washer of the joint: where it goes (`head`, `between` or `nut`); or, at `stop`, the sleeve that stops foam."""

    standard: str
    size: str
    place: str
    hole_mm: float
    outer_mm: float
    thickness_mm: float


@dataclass(frozen=True)
class Receiver:
    """The part that stays in the substrate and carries the thread, with the strength its table gives.

    `torque_nm` is what its box says it is tightened to, where it does.
    """

    part: str
    series: str
    thread: str
    length_mm: float
    grip_mm: Span | None
    material: str
    flange_mm: float | None
    flange_thickness_mm: float | None
    body_mm: float | None
    bulge_mm: float | None
    thread_proof_n: float | None
    shear_n: float | None
    breaking_nm: float | None
    spin_out_nm: float | None
    spin_out_sheet_mm: float | None
    prevailing_nm: float | None
    from_: str
    closed: bool = False
    torque_nm: float | None = None


@dataclass(frozen=True)
class Screw:
    """The screw, bolt or rivet. `head_mm` is what bears under the head without a washer."""

    thread: str
    length_mm: float
    head: str
    standard: str
    class_: str
    finish: str
    drive: str
    diameter_mm: float
    pitch_mm: float
    head_mm: float
    head_height_mm: float | None
    engagement_mm: float
    protrusion_mm: float


@dataclass(frozen=True)
class Patch:
    """What holds by its face at one fixing: strip, magnet, tape or the foot of a stud; round where both sides are one.

    `thickness_mm` is what it adds to the stack; `bond` the adhesive that keeps it there, None where its own grip does.
    """

    part: str
    series: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    shape: str
    from_: str
    bond: str | None = None


@dataclass(frozen=True)
class Joint:
    """One sized candidate: the layers in order, hole, receiver, screw, washers. Geometry only.

    `hole` and `screw` are None where the joint holds by a face; then there is a `patch`.

    `sheet_mm` is the substrate at its thinnest, where strength is reckoned; `sheet_max_mm` at its thickest.
    `behind_set_mm` is the space needed behind before setting, `behind_done_mm` the space the finished joint takes.
    """

    method: str
    kind: JointKind
    layers: tuple[Layer, ...]
    hole: Hole | None
    receiver: Receiver | None
    screw: Screw | None
    washers: tuple[WasherPart, ...]
    grip_mm: float
    sheet_mm: float
    sheet_max_mm: float
    behind_set_mm: float
    behind_done_mm: float
    lock: str
    from_: tuple[str, ...]
    patch: Patch | None = None


@dataclass(frozen=True)
class Demand:
    """What one load of a case asks of the worst fixing: `panel` and `load` say which way and which one."""

    case: str
    kind: str
    load: str
    panel: Panel
    shear_n: float
    tension_n: float
    inputs: tuple["Input", ...]
    from_: str


@dataclass(frozen=True)
class Behind:
    """Space behind the substrate: needed and available (None where nobody said)."""

    needed_mm: float
    available_mm: float | None


@dataclass(frozen=True)
class Input:
    """One input of a check, with its unit."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True)
class Check:
    """One line of proof. `needs` says what is needed to check it where it is not checked."""

    id: str
    title: str
    status: Status
    demand: float | None
    allowable: float | None
    unit: str
    utilisation: float | None
    factor: float | None
    load_case: str | None
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]
    needs: str | None = None


@dataclass(frozen=True)
class Torque:
    """How tight: target and window, and what limits the upper end. `target_nm` is None for a rivet or by-feel joint."""

    target_nm: float
    min_nm: float
    max_nm: float
    target_inlbf: float
    limited_by: str
    nut_factor: Span
    tool: str
    from_: tuple[str, ...]


@dataclass(frozen=True)
class Removals:
    """How often it comes off in ten years, how often it may, and what is replaced when."""

    wanted: int
    rated: int
    replace: tuple[str, ...]


@dataclass(frozen=True)
class ScorePart:
    """One contribution to the ranking: what, points, why."""

    name: str
    points: float
    why: str


@dataclass(frozen=True)
class Score:
    """The sum of the contributions; lower ranks first."""

    total: float
    parts: tuple[ScorePart, ...]


@dataclass(frozen=True)
class Figure:
    """A figure of a refusal: what was there, what was needed."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True)
class Refusal:
    """Why a method does not fit, with figures.

    `change` names the small changes that would turn it, if there are any; `check` the worst of
    the `fails` checks that failed, where one did.
    """

    method: str
    because: str
    figures: tuple[Figure, ...]
    change: str | None = None
    check: str | None = None
    fails: int = 1
    title: str = ""


@dataclass(frozen=True)
class Proposal:
    """A joint with its proof. `proven` is False while any check is not checked."""

    method: str
    joint: Joint
    proven: bool
    checks: tuple[Check, ...]
    torque: Torque | None
    removals: Removals


@dataclass(frozen=True)
class Answer:
    """A proposal ranked and made into work: what the person reads."""

    rank: int
    method: str
    title: str
    proposal: Proposal
    score: Score
    steps: tuple[str, ...]
    tools: tuple[str, ...]
    consumables: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class SourceNote:
    """A source as answers cite it."""

    id: str
    basis: str
    text: str


@dataclass(frozen=True)
class GroundJoint:
    """What a ground joint must come to, measured once it is made: nothing that is reckoned beforehand can prove it.

    `max_resistance_mohm` is the allowed drop over the full current, None where the current was not said.
    """

    stud: str
    rings: int
    cable_mm2: float | None
    current_a: float | None
    drop_mv: float
    max_resistance_mohm: float | None
    from_: tuple[str, ...]


@dataclass(frozen=True)
class Advice:
    """The whole answer to one question: what was understood, what fits in order, what does not and why."""

    mount: MountPoint
    answers: tuple[Answer, ...]
    refusals: tuple[Refusal, ...]
    sources: tuple[SourceNote, ...]
    ground: GroundJoint | None = None
