"""Row types of what is there and what is mounted: materials, kinds of board and plastic, faces, places, items."""

from fasten.catalog.rows import METRIC_THREADS, Row, TableOf
from fasten.model import FarSide, Holds, Removal, Taken
from fasten.record import record


@record
class Material(Row):
    """A material of a substrate or an item. `family` is sheet, board, wood, plastic, laminate or soft.

    `other_names` are what people call it, split by `|`. `anodic` names the row of the galvanic table it corrodes as.
    `youngs_mpa` and `poisson` are of bending in its plane; without them a panel of it is pushed, never calculated.
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
    youngs_mpa: float | None
    poisson: float | None


MATERIALS = TableOf(Material, "materials")


@record
class RefusedMaterial(Row):
    """A material that nothing is fastened to: why, and what to do instead. `other_names` as those of a material."""

    key = ("material",)
    material: str
    other_names: str
    because: str
    instead: str


REFUSED_MATERIALS = TableOf(RefusedMaterial, "refused-materials")


@record
class BoardKind(Row):
    """How a board or wood takes a screw: equation of withdrawal, pilot as a share of the root, which insert hole.

    `edge_share` is what an edge holds of the face beside the equation's own edge constant; without one, no edge.
    """

    key = ("material",)
    refs = {"material": MATERIALS}
    material: str
    form: str
    pilot_min: float
    pilot_max: float
    insert_hole: str
    edge_share: float | None


BOARD_KINDS = TableOf(BoardKind, "board-kinds")


@record
class BoardCreep(Row):
    """How much `further` a board sags in time, as a share of what it sags at once."""

    key = ("material",)
    refs = {"material": MATERIALS}
    material: str
    further: float


BOARD_CREEP = TableOf(BoardCreep, "board-creep")


@record
class PlasticKind(Row):
    """How a plastic takes a thread-forming screw: hole, boss and engagement as ratios of its major diameter."""

    key = ("material",)
    refs = {"material": MATERIALS}
    material: str
    hole_over_d: float
    boss_over_d: float
    engagement_over_d: float


PLASTIC_KINDS = TableOf(PlasticKind, "plastic-kinds")


@record
class SoftLayer(Row):
    """A soft layer between item and substrate and the fraction of its free thickness that what holds it leaves it.

    `held_by` is limiter or spacer; `at_feet` is how the layer is taken away where that stands. `other_names` as those
    of a material.
    """

    key = ("material",)
    words = {"held_by": tuple(holds.value for holds in Holds), "at_feet": tuple(taken.value for taken in Taken)}
    zero_ok = frozenset({"kept_preload"})
    material: str
    other_names: str
    held_by: str
    at_feet: str
    stop_fraction: float
    kept_preload: float


SOFT_LAYERS = TableOf(SoftLayer, "soft-layers")


@record
class SpacerLength(Row):
    """A length that spacers are sold in."""

    key = ("length_mm",)
    order = ("length_mm",)
    parts = True
    length_mm: float


SPACER_LENGTHS = TableOf(SpacerLength, "spacer-lengths")


@record
class Place(Row):
    """A named place of the body: which panel it is, what its sheet usually measures, where that lives.

    `far_side` says whether water gets behind it.
    """

    key = ("place",)
    words = {"far_side": tuple(side.value for side in FarSide)}
    place: str
    panel: str
    min_mm: float
    max_mm: float
    where: str
    far_side: str


PLACES = TableOf(Place, "places")


SAY = "-"
"""In place of a preset that practice does not give: it must be said."""


@record
class Item(Row):
    """An item preset. `pattern` is as a person writes it; every value is overridable and marked as preset.

    `sort` says what it may hang by: gear, box, trim, clamp, speaker or ground; `opening` whether it sits as a ring
    round an opening of its own, which stiffens the panel there: yes or no. `riveted` says whether a blind rivet may
    hold it: yes or no. `comes_off` is how often it does where practice leaves no doubt, else `-`: it must be said.
    `clipped` says whether its holes are those of the clips that the vehicle's own holes take: yes or no.
    `asks` are the questions that change its answer most often, in that order.
    """

    key = ("item",)
    words = {"comes_off": (SAY, *(removal.value for removal in Removal)), "clipped": ("yes", "no")}
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
    opening: str
    riveted: str
    comes_off: str
    clipped: str
    asks: tuple[str, ...]


ITEMS = TableOf(Item, "items")


@record
class RingStud(Row):
    """A stud that ring terminals are made for; the ring's hole passes it as a fine clearance hole does."""

    key = ("stud",)
    refs = {"stud": METRIC_THREADS}
    parts = True
    stud: str


RING_STUDS = TableOf(RingStud, "ring-studs")


@record
class RingLug(Row):
    """A ring lug: the largest cable it is crimped on, the stud its hole is for, and the width of its palm."""

    key = ("kind", "cable_mm2", "stud")
    refs = {"stud": RING_STUDS}
    parts = True
    kind: str
    cable_mm2: float
    stud: str
    palm_mm: float


RING_LUGS = TableOf(RingLug, "ring-lugs")


@record
class Finish(Row):
    """A screw finish: nut factor, its range, and whether it counts as lubricated for scatter."""

    key = ("finish",)
    finish: str
    nut_factor: float
    nut_factor_min: float
    nut_factor_max: float


FINISHES = TableOf(Finish, "finishes")


@record
class Face(Row):
    """Friction of a pair of joint faces, the safe low end, and the preload such a joint keeps."""

    key = ("faces",)
    faces: str
    friction: float
    kept_preload: float


FACES = TableOf(Face, "faces")


@record
class Anodic(Row):
    """Anodic index of a metal or plating."""

    key = ("metal",)
    zero_ok = frozenset({"index_v"})
    metal: str
    index_v: float


ANODIC_INDEX = TableOf(Anodic, "anodic-index")
