"""Row types of the tables of parts, materials, loads, factors and words that the advice is made from."""

from dataclasses import dataclass

from fasten.catalog.rows import Row


@dataclass(frozen=True)
class RivetNut(Row):
    """A rivet nut of one series, thread and length: hole and grip belong to the series, not the thread.

    `hole_mm` of a hexagon body is across its flats. `thread_proof_n` and `breaking_nm` are least values of the thread,
    `spin_out_nm` the torque that turned the body in sheet of `spin_out_sheet_mm`. `length_mm` is unset, under the
    flange to the end. `note` says why a thread has one length only.
    """

    key = ("series", "thread", "length_mm")
    parts = True
    series: str
    thread: str
    body: str
    end: str
    material: str
    length_mm: float
    grip_min_mm: float
    grip_max_mm: float
    hole_mm: float
    hole_plus_mm: float
    body_mm: float | None
    flange_mm: float
    flange_thickness_mm: float
    bulge_mm: float
    thread_proof_n: float
    breaking_nm: float
    spin_out_nm: float
    spin_out_sheet_mm: float
    note: str


@dataclass(frozen=True)
class BlindRivet(Row):
    """A blind rivet: diameter, length, grip range, hole, head, least shear and tension of the set rivet."""

    key = ("standard", "size", "length_mm")
    parts = True
    zero_ok = frozenset({"grip_min_mm"})
    standard: str
    size: str
    material: str
    diameter_mm: float
    length_mm: float
    grip_min_mm: float
    grip_max_mm: float
    hole_mm: float
    hole_plus_mm: float
    head_mm: float
    head_height_mm: float
    shear_n: float
    tension_n: float


@dataclass(frozen=True)
class BoardScrew(Row):
    """A screw for board or wood: `thread_share` of its length is threaded, `family` names its preferred lengths."""

    key = ("series", "size")
    parts = True
    series: str
    size: str
    diameter_mm: float
    root_mm: float
    pitch_mm: float
    head_mm: float
    drive: str
    standard: str
    thread_share: float
    family: str
    length_min_mm: float
    length_max_mm: float


@dataclass(frozen=True)
class ScrewInInsert(Row):
    """A screw-in insert by series, thread and outer diameter, with a hole for each kind of wood it is for."""

    key = ("series", "thread", "outer_mm")
    parts = True
    series: str
    outside: str
    thread: str
    outer_mm: float
    length_mm: float
    hole_softwood_mm: float | None
    hole_board_mm: float | None
    hole_hardwood_mm: float | None
    drive: str


@dataclass(frozen=True)
class TeeNut(Row):
    """A tee nut: barrel, its length, flange, and the range of its hole."""

    key = ("thread", "barrel_mm")
    parts = True
    rising = (("hole_max_mm", "flange_mm"),)
    thread: str
    barrel_mm: float
    length_mm: float
    flange_mm: float
    hole_min_mm: float
    hole_max_mm: float
    prongs: int


@dataclass(frozen=True)
class BoardKind(Row):
    """How a board or wood takes a screw: equation of withdrawal, pilot as a share of the root, which insert hole.

    `edge_share` is what an edge holds of the face beside the equation's own edge constant; without one, no edge.
    """

    key = ("material",)
    refs = {"material": "materials"}
    material: str
    form: str
    pilot_min: float
    pilot_max: float
    insert_hole: str
    edge_share: float | None


@dataclass(frozen=True)
class PlasticKind(Row):
    """How a plastic takes a thread-forming screw: hole, boss and engagement as ratios of its major diameter."""

    key = ("material",)
    refs = {"material": "materials"}
    material: str
    hole_over_d: float
    boss_over_d: float
    engagement_over_d: float


@dataclass(frozen=True)
class PlasticScrew(Row):
    """A thread-forming screw for plastic and the lengths it is kept in."""

    key = ("size",)
    order = ("diameter_mm",)
    parts = True
    size: str
    diameter_mm: float
    pitch_mm: float
    head_mm: float
    head_height_mm: float
    drive: str
    length_min_mm: float
    length_max_mm: float


@dataclass(frozen=True)
class PlasticInsert(Row):
    """An insert for a thermoplastic boss: `outer_mm` over its knurl or outside thread, `deep_mm` of a blind hole."""

    key = ("series", "thread")
    parts = True
    series: str
    thread: str
    outer_mm: float
    length_mm: float
    hole_min_mm: float
    hole_max_mm: float
    deep_mm: float


@dataclass(frozen=True)
class ClipNut(Row):
    """A clip nut: `reach_mm` from edge to thread, `behind_mm` behind it; `rated_n` and `torque_nm` are of its box."""

    key = ("thread",)
    parts = True
    thread: str
    sheet_min_mm: float
    sheet_max_mm: float
    reach_mm: float
    hole_mm: float
    hole_plus_mm: float
    behind_mm: float
    rated_n: float | None
    torque_nm: float | None


@dataclass(frozen=True)
class ExpandingNut(Row):
    """An expanding nut: hole, length, grip and flange belong to the series; `rated_n` and `torque_nm` of its box."""

    key = ("series", "thread")
    parts = True
    series: str
    thread: str
    hole_mm: float
    hole_plus_mm: float
    shape: str
    length_mm: float
    grip_min_mm: float
    grip_max_mm: float
    flange_mm: float
    flange_thickness_mm: float
    rated_n: float | None
    torque_nm: float | None


@dataclass(frozen=True)
class PushInClip(Row):
    """A push-in clip by its hole: `grip_*_mm` is all that lies under its head, `rated_n` the pull of its box."""

    key = ("hole_mm",)
    order = ("hole_mm",)
    parts = True
    hole_mm: float
    hole_plus_mm: float
    grip_min_mm: float
    grip_max_mm: float
    length_mm: float
    head_mm: float
    head_height_mm: float
    rated_n: float | None


@dataclass(frozen=True)
class BallStud(Row):
    """A ball stud and the socket it snaps into: hole, sheet, length and flange are the socket's.

    `thread_length_mm` is what the item and the stud's own nut may take, `reach_mm` the stud from the back of the item
    to the end of its ball, `rated_n` the pull that the box of the pair gives.
    """

    key = ("thread", "ball_mm")
    order = ("ball_mm",)
    parts = True
    thread: str
    ball_mm: float
    thread_length_mm: float
    reach_mm: float
    hole_mm: float
    hole_plus_mm: float
    sheet_min_mm: float
    sheet_max_mm: float
    length_mm: float
    flange_mm: float
    flange_thickness_mm: float
    rated_n: float | None


@dataclass(frozen=True)
class Material(Row):
    """A material of a substrate or an item. `family` is sheet, board, wood, plastic, laminate or soft.

    `other_names` are what people call it, split by `|`. `anodic` names the row of the galvanic table it corrodes as.
    """

    key = ("material",)
    material: str
    title: str
    family: str
    other_names: str
    ultimate_mpa: float | None
    yield_mpa: float | None
    density_g_cm3: float | None
    heat_limit_c: float | None
    anodic: str


@dataclass(frozen=True)
class SoftLayer(Row):
    """A soft layer between item and substrate and the fraction of its free thickness at which it is stopped."""

    key = ("material",)
    zero_ok = frozenset({"kept_preload"})
    material: str
    stop_fraction: float
    kept_preload: float
    step: str


@dataclass(frozen=True)
class Place(Row):
    """A named place of the body: which panel it is and what its sheet usually measures."""

    key = ("place",)
    place: str
    panel: str
    min_mm: float
    max_mm: float


@dataclass(frozen=True)
class Item(Row):
    """An item preset. `pattern` is as a person writes it; every value is overridable and marked as preset.

    `sort` says what it may hang by: gear, box, trim, clamp, speaker or ground.
    """

    key = ("item",)
    item: str
    title: str
    other_names: str
    mass_kg: float
    fixings: int
    pattern: str
    thickness_mm: float
    hole_mm: float
    material: str
    height_mm: float
    sort: str


@dataclass(frozen=True)
class RingStud(Row):
    """A stud that ring terminals are made for; the ring's hole passes it as a fine clearance hole does."""

    key = ("stud",)
    refs = {"stud": "metric-threads"}
    parts = True
    stud: str


@dataclass(frozen=True)
class Finish(Row):
    """A screw finish: nut factor, its range, and whether it counts as lubricated for scatter."""

    key = ("finish",)
    finish: str
    nut_factor: float
    nut_factor_min: float
    nut_factor_max: float


@dataclass(frozen=True)
class Tightening(Row):
    """A way to tighten and the scatter of preload it leaves, as a fraction either side."""

    key = ("way",)
    way: str
    scatter: float


@dataclass(frozen=True)
class Face(Row):
    """Friction of a pair of joint faces, the safe low end, and the preload such a joint keeps."""

    key = ("faces",)
    faces: str
    friction: float
    kept_preload: float


@dataclass(frozen=True)
class LoadCase(Row):
    """One acceleration of a load case, in g: x fore (+) and aft, y sideways, z up (+) and down."""

    key = ("case", "name_")
    signed = frozenset({"x_g", "y_g", "z_g"})
    case: str
    name_: str
    kind: str
    x_g: float
    y_g: float
    z_g: float


@dataclass(frozen=True)
class Factor(Row):
    """The factor a load case asks of a family of failure modes."""

    key = ("kind", "family")
    kind: str
    family: str
    factor: float


@dataclass(frozen=True)
class RemovalCount(Row):
    """Removals over ten years."""

    key = ("removed",)
    zero_ok = frozenset({"count"})
    removed: str
    count: int


@dataclass(frozen=True)
class Anodic(Row):
    """Anodic index of a metal or plating."""

    key = ("metal",)
    zero_ok = frozenset({"index_v"})
    metal: str
    index_v: float


@dataclass(frozen=True)
class MethodWords(Row):
    """A method's title, what it is rated for and what wears out.

    `rated` is removals before the substrate or the fixed receiver suffers; `replace` is what is renewed meanwhile, and
    `replace_every` at how many removals (0: nothing wears).
    """

    key = ("method",)
    zero_ok = frozenset({"rated", "replace_every"})
    method: str
    title: str
    rated: int
    replace: str
    replace_every: int
    operations: int
    setting_tool: str


@dataclass(frozen=True)
class Lock(Row):
    """What keeps a screw from working loose, its step, and at how many removals it is renewed (0: never)."""

    key = ("lock",)
    zero_ok = frozenset({"renew_every"})
    lock: str
    step: str
    renew_every: int


@dataclass(frozen=True)
class Step(Row):
    """One step of a method's work, in order. `{bit}`, `{hole}`, `{torque}` … are filled by the answer."""

    key = ("method", "step")
    method: str
    step: int
    text: str


@dataclass(frozen=True)
class Tool(Row):
    """A tool or consumable a method needs; `kind` is tool or consumable."""

    key = ("method", "name_")
    method: str
    name_: str
    kind: str


@dataclass(frozen=True)
class Caution(Row):
    """A caution and where it applies: `all`, a panel, a family or a where."""

    key = ("applies", "text")
    applies: str
    text: str


@dataclass(frozen=True)
class Weight(Row):
    """A ranking weight: points for each unit of what it counts; lower totals rank first."""

    key = ("name_",)
    zero_ok = frozenset({"points"})
    name_: str
    points: float
    why: str


@dataclass(frozen=True)
class Rule(Row):
    """A single figure that decides: a limit or practice with its source, by name."""

    key = ("rule",)
    zero_ok = frozenset({"value"})
    rule: str
    value: float
    unit: str
    text: str
