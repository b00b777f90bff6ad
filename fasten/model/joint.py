"""One sized candidate and its parts: geometry only."""

from dataclasses import dataclass

from fasten.model.words import JointKind


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

    A field that is None is not reckoned with. What each is taken for:

    `part` is what it goes by everywhere, `series` what tells it from others of its part and thread.
    `length_mm` is the part before it is set: of a nut its height, which `layers` is given too (the layer `nut`), for a
    part that lies behind the substrate.
    `grip_mm` is checked against the joint's own `grip_mm`, thinnest and thickest; None makes neither check.
    `flange_mm` is the width the section draws: of the layer `nut` where there is one; with `flange_thickness_mm` of a
    flange on the near side of the substrate; without it of a plate behind. In a joint without a screw it bears on the
    item.
    `bulge_mm` is the width that bears behind, by which the substrate is pulled or punched through.
    `body_mm` is the outside of what sits in the hole, where that is not the hole's own size.
    `thread_proof_n` is what the thread bears, of a part rated as a whole what its box says; `shear_n` of a rivet.
    `breaking_nm` and `spin_out_nm` cap the torque, `spin_out_nm` as tested in sheet of `spin_out_sheet_mm`, and a body
    that can turn must outlast threadlocker. `torque_nm` is what its box says it is tightened to, and then caps alone.
    `prevailing_nm` is what it takes to turn the screw in it. `closed` is a body that a screw can bottom in.
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
