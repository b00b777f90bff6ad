"""One sized candidate and its parts: geometry only."""

from fasten.model.kinds import LockKind, PartKind, PatchKind, ScrewKind
from fasten.model.known import (
    Absent,
    Body,
    Bulge,
    EdgeReach,
    FarEnd,
    Flange,
    MostTorque,
    Needed,
    Plate,
    Rating,
    SpinOut,
)
from fasten.model.words import JointKind, Position
from fasten.record import lean, record


@lean
class Span:
    """A least and a greatest value."""

    min: float
    max: float


@lean
class Tolerance:
    """How far a size may be under and over."""

    minus: float
    plus: float


@lean
class BitChoice:
    """The bit to drill with and how far it is from the wanted hole."""

    name: str
    diameter_mm: float
    deviation_mm: float
    holds: bool


@lean
class Hole:
    """The hole in the substrate. `depth_mm` is None for a hole that goes through."""

    diameter_mm: float
    tolerance_mm: Tolerance
    depth_mm: float | None
    bit: BitChoice
    shape: str = "round"


@lean
class Layer:
    """One layer of the joint from the head down: `role` is washer, item, soft, patch, doubler, substrate or nut."""

    role: str
    material: str
    thickness_mm: float


@lean
class StackPart:
    """What lies in the stack beside item and substrate, and where: a washer, a plate, a compression limiter.

    `outer_mm` is what of it bears. A square plate has a `side_mm`, and less of it bears than there is: it bends.
    """

    standard: str
    size: str
    place: Position
    hole_mm: float
    outer_mm: float
    thickness_mm: float
    side_mm: float | None = None


@lean
class Receiver:
    """The part that stays in the substrate and carries the thread, with what its table or its box gives.

    `kind` says what every layer needs to know of it, `series` sets it apart from others of its kind and thread.
    `length_mm` is the part before it is set: of a nut its height. `grip` is checked against the joint's own, thinnest
    and thickest. `pull` is what its thread bears; of a part rated as a whole what its box says. `breaking` and
    `spin_out` cap the torque, and a body that can turn must outlast threadlocker; `box_torque` caps alone.
    `prevailing` is what it takes to turn the screw in it.
    """

    kind: PartKind
    series: str
    thread: str
    length_mm: float
    material: str
    grip: Span | Absent
    flange: Flange | Plate | Absent
    body: Body | Absent
    bulge: Bulge | Absent
    edge: EdgeReach | Absent
    pull: Rating | Needed | Absent
    shear: Rating | Needed | Absent
    breaking: MostTorque | Absent
    box_torque: MostTorque | Needed | Absent
    spin_out: SpinOut | Needed | Absent
    prevailing: MostTorque | Absent
    end: FarEnd
    from_: str

    @property
    def part(self) -> str:
        """What it goes by on paper and in JSON."""
        return self.kind.name


@lean
class Screw:
    """The screw, bolt or rivet. `head_mm` is what bears under the head without a washer."""

    kind: ScrewKind
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


@record
class Patch:
    """What holds by its face at one fixing: strip, magnet, tape or the foot of a stud; round where both sides are one.

    `thickness_mm` is what it adds to the stack; `bond` the adhesive that keeps it there, None where its own grip does.
    """

    kind: PatchKind
    series: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    shape: str
    from_: str
    bond: str | None = None

    @property
    def part(self) -> str:
        """What it goes by on paper and in JSON."""
        return self.kind.name


@lean
class Joint:
    """One sized candidate: the layers in order, hole, receiver, screw, washers. Geometry only.

    `hole` and `screw` are None where the joint holds by a face; then there is a `patch`.

    `sheet_mm` is the substrate at its thinnest, where strength is calculated; `sheet_max_mm` at its thickest.
    `oversize_mm` is how much wider an existing hole is than its screw needs: washers cover it, and until it has slipped
    friction alone holds it. `behind_set_mm` is the space needed behind before setting, `behind_done_mm` the space the
    finished joint takes.
    """

    method: str
    kind: JointKind
    layers: tuple[Layer, ...]
    hole: Hole | None
    receiver: Receiver | None
    screw: Screw | None
    washers: tuple[StackPart, ...]
    grip_mm: float
    sheet_mm: float
    sheet_max_mm: float
    behind_set_mm: float
    behind_done_mm: float
    lock: LockKind
    from_: tuple[str, ...]
    patch: Patch | None = None
    oversize_mm: float = 0.0
