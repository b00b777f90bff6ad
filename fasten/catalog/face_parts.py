"""Row types of the tables of what holds by its face: hook-and-loop, magnets, adhesives and bonded studs."""

from fasten.catalog.materials import MATERIALS
from fasten.catalog.rows import PROPERTY_CLASSES, Row, TableOf
from fasten.model import Removal
from fasten.record import record


@record
class HookStrip(Row):
    """Hook-and-loop: what parts a new pair by area. `bond` holds it on, or its own backing up to `backing_limit_c`."""

    key = ("series",)
    parts = True
    series: str
    shear_mpa: float
    tension_mpa: float
    thickness_mm: float
    backing_limit_c: float | None
    bond: str


HOOK_AND_LOOP = TableOf(HookStrip, "hook-and-loop")


@record
class PotMagnet(Row):
    """A pot magnet, screwed to the item, and the steel plate it sits on: `pull_n` on thick bare steel.

    `rim_mm` stands round the pot where the plate has one; sheet steel of `plate_mm` and up takes the place of a flat
    plate.
    """

    key = ("series",)
    parts = True
    series: str
    diameter_mm: float
    height_mm: float
    thread: str
    pull_n: float
    plate_diameter_mm: float
    plate_mm: float
    rim_mm: float | None
    bond: str


POT_MAGNETS = TableOf(PotMagnet, "pot-magnets")


@record
class Adhesive(Row):
    """An adhesive or tape: `kind` is tape or paste, `use` what it is for: face, any or laminate.

    `removed` is how often the item may come off at most, `standing_mpa` what may stay on a tape for years, `hot_share`
    what a parked car leaves of its strength, `set_h` when the item may be let go and `cure_h` when it may be loaded.
    """

    key = ("adhesive",)
    parts = True
    zero_ok = frozenset({"set_h"})
    words = {
        "kind": ("tape", "paste"),
        "use": ("face", "any", "laminate"),
        "removed": tuple(member.value for member in Removal),
    }
    adhesive: str
    kind: str
    use: str
    removed: str
    shear_mpa: float
    tension_mpa: float
    standing_mpa: float | None
    hot_share: float
    heat_limit_c: float
    thickness_mm: float
    set_h: float
    cure_h: float

    def lacks(self) -> str:
        """A tape needs what may stay on it."""
        return "standing" if self.kind == "tape" and self.standing_mpa is None else ""


ADHESIVES = TableOf(Adhesive, "adhesives")


@record
class BondFace(Row):
    """What the face of a material itself bears before any bond on it does; 0 where nothing sticks to it."""

    key = ("material",)
    refs = {"material": MATERIALS}
    zero_ok = frozenset({"bears_mpa"})
    material: str
    bears_mpa: float


BOND_FACES = TableOf(BondFace, "bond-faces")


@record
class FaceSize(Row):
    """A size that strips, tape or pads of adhesive are cut or laid to."""

    key = ("part", "length_mm", "width_mm")
    parts = True
    part: str
    length_mm: float
    width_mm: float


FACE_SIZES = TableOf(FaceSize, "face-sizes")


@record
class BondedStud(Row):
    """A stud on a perforated round base; `length_mm` stands above the base."""

    key = ("thread", "length_mm")
    parts = True
    refs = {"class_": PROPERTY_CLASSES}
    words = {"thread": ("M4", "M5", "M6", "M8", "M10")}  # of whose nuts the prevailing torque is known
    thread: str
    length_mm: float
    base_mm: float
    base_thickness_mm: float
    class_: str


BONDED_STUDS = TableOf(BondedStud, "bonded-studs")
