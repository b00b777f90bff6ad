"""Row types of the tables of hardware: what is bought and fitted."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record
from fasten.text.figures import figure, mm

_SAME_BODY_MM = 0.05


@record
class Head(Row):
    """A screw head by standard and size: outer diameter, height, drive."""

    key = ("standard", "size")
    parts = True
    standard: str
    form: str
    size: str
    diameter_max_mm: float
    diameter_min_mm: float | None
    height_max_mm: float | None
    drive: str
    drive_size: str


HEADS = TableOf(Head, "heads")


@record
class Washer(Row):
    """A washer by standard and size; a spring washer is as thick as it is pressed flat."""

    key = ("standard", "size")
    parts = True
    standard: str
    form: str
    size: str
    hole_mm: float
    outer_mm: float
    thickness_mm: float


WASHERS = TableOf(Washer, "washers")


@record
class Plate(Row):
    """A square steel plate that lies under a washer; its hole is drilled to the screw."""

    key = ("plate",)
    order = ("side_mm",)
    plate: str
    side_mm: float
    thickness_mm: float

    @property
    def size(self) -> str:
        """Its sides and thickness, as a list says them."""
        return f"{figure(self.side_mm)} x {figure(self.side_mm)} x {mm(self.thickness_mm)}"


PLATES = TableOf(Plate, "plates")
PLATE = "steel plate"  # what all of them go by


@record
class Nut(Row):
    """A nut by standard and size; `thread_height_mm` is the least height of full thread."""

    key = ("standard", "size")
    parts = True
    standard: str
    form: str
    size: str
    across_flats_mm: float | None
    height_max_mm: float
    thread_height_mm: float | None


NUTS = TableOf(Nut, "nuts")


@record
class PreferredLength(Row):
    """A nominal screw length that is made, first or second choice."""

    key = ("family", "length_mm")
    parts = True
    family: str
    length_mm: float
    choice: str


PREFERRED_LENGTHS = TableOf(PreferredLength, "preferred-lengths")


@record
class LengthRange(Row):
    """Shortest and longest screw usually stocked of one standard and size."""

    key = ("standard", "size")
    parts = True
    standard: str
    size: str
    min_mm: float
    max_mm: float


LENGTH_RANGES = TableOf(LengthRange, "length-ranges")


@record
class RivetNut(Row):
    """A rivet nut of one series, thread and length: hole and grip belong to the series, not the thread.

    `hole_mm` of a hexagon body is across its flats. `thread_proof_n` and `breaking_nm` are least values of the thread,
    `spin_out_nm` the torque that turned the body in sheet of `spin_out_sheet_mm`, as `spin_out_of` says the average of
    tests, which thicker sheet raises, or the least. `length_mm` is unset, under the
    flange to the end. `note` says why a thread has one length only.
    """

    key = ("series", "thread", "length_mm")
    parts = True
    words = {"spin_out_of": ("average", "least")}
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
    spin_out_of: str
    note: str

    def has_body(self, measured_mm: float) -> bool:
        """Whether a measured body is this one, which is given to a tenth of a millimetre."""
        return self.body_mm is not None and abs(self.body_mm - measured_mm) < _SAME_BODY_MM


RIVET_NUTS = TableOf(RivetNut, "rivet-nuts")


@record
class RivetNutShear(Row):
    """What the body of a set rivet nut of a material and thread bears sideways in thick plate, at least."""

    key = ("material", "thread")
    parts = True
    material: str
    thread: str
    shear_n: float


RIVET_NUT_SHEAR = TableOf(RivetNutShear, "rivet-nut-shear")


@record
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


BLIND_RIVETS = TableOf(BlindRivet, "blind-rivets")


@record
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


BOARD_SCREWS = TableOf(BoardScrew, "board-screws")


@record
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


SCREW_IN_INSERTS = TableOf(ScrewInInsert, "screw-in-inserts")


@record
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


TEE_NUTS = TableOf(TeeNut, "tee-nuts")


@record
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


PLASTIC_SCREWS = TableOf(PlasticScrew, "plastic-screws")


@record
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


PLASTIC_INSERTS = TableOf(PlasticInsert, "plastic-inserts")


@record
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


CLIP_NUTS = TableOf(ClipNut, "clip-nuts")


@record
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


EXPANDING_NUTS = TableOf(ExpandingNut, "expanding-nuts")


@record
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


PUSH_IN_CLIPS = TableOf(PushInClip, "push-in-clips")


@record
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


BALL_STUDS = TableOf(BallStud, "ball-studs")


@record
class Lock(Row):
    """What keeps a screw from working loose, which parts it is by their keys, and at how many removals it
    is renewed (0: never)."""

    key = ("lock",)
    zero_ok = frozenset({"renew_every"})
    lock: str
    renews: tuple[str, ...]
    renew_every: int


LOCKS = TableOf(Lock, "locks")
