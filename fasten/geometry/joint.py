"""What a joint is like, by its parts alone: what bears, what is drilled, what lies behind."""

from fasten.catalog.materials import ITEMS
from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.model import Hole, Joint, MountPoint, Patch, Position, Receiver, Screw, StackPart, kinds
from fasten.model.kinds import Alone, Bears, PatchKind, Spaced
from fasten.model.known import Absent, Body, Bulge, Flange, Plate

PANEL = (kinds.DOUBLER.line, "substrate")  # the roles of the layers that are drilled: the sheet with its doubler


def drilled(joint: Joint) -> Hole:
    """The hole of a joint that has one.

    joint: the joint [-]
    Returns: its hole [-]
    Raises: AssertionError for a joint that holds by a face.
    Source: geometry.
    """
    assert joint.hole is not None, f"{joint.method} drills no hole"
    return joint.hole


def drilled_mm(joint: Joint) -> float:
    """How wide a joint is drilled; 0 where it drills no hole.

    joint: the joint [-]
    Returns: diameter of its hole [mm]
    Source: geometry.
    """
    return joint.hole.diameter_mm if joint.hole is not None else 0.0


def bearing_diameter_mm(joint: Joint) -> float:
    """What bears on the sheet under shear: the receiver's body where there is one, else the screw.

    joint: the joint [-]
    Returns: diameter [mm]
    Source: geometry; which of them bears is said in `model/kinds.py`.
    """
    bears = Bears.SCREW if joint.receiver is None else joint.receiver.kind.bears
    if bears is Bears.FILLED:
        return drilled(joint).diameter_mm
    return shaft_mm(joint)


def spaced_mm(joint: Joint) -> float:
    """What spacing and edge distances count from: the outside of what bears, where that is wider than the screw.

    joint: the joint [-]
    Returns: diameter [mm]
    Source: geometry; what they count from is said in `model/kinds.py`.
    """
    if joint.receiver is None or is_spaced_by_screw(joint):
        return drilled(joint).diameter_mm if joint.oversize_mm else shaft_mm(joint)
    by_hole = joint.receiver.kind.spaced is Spaced.HOLE
    return drilled(joint).diameter_mm if by_hole else outside_mm(joint.receiver)


def is_spaced_by_screw(joint: Joint) -> bool:
    """Whether spacing and edge distances count from the screw, or the hole that it passes.

    joint: the joint [-]
    Returns: whether they do [-]
    Source: geometry; what they count from is said in `model/kinds.py`.
    """
    return joint.receiver is None or joint.receiver.kind.spaced is Spaced.SCREW


def shaft_mm(joint: Joint) -> float:
    """Nominal diameter of the screw or rivet; else the hole a part fills, the stud, or the patch at its longest.

    joint: the joint [-]
    Returns: diameter [mm]
    Raises: AssertionError for a joint that holds by nothing.
    Source: geometry.
    """
    if joint.screw is not None:
        return joint.screw.diameter_mm
    if joint.hole is not None:
        return joint.hole.diameter_mm
    if joint.receiver is not None:
        return outside_mm(joint.receiver)
    patch = patch_of(joint)
    return max(patch.length_mm, patch.width_mm)


def head_mm(joint: Joint) -> float:
    """What bears on the item: the washer on it, which a wider head overhangs; else the head, or a nut's flange.

    joint: the joint [-]
    Returns: diameter [mm]
    Source: geometry.
    """
    washers = [washer.outer_mm for washer in joint.washers if washer.place is Position.HEAD]
    if washers:
        return washers[-1]
    if joint.screw is not None:
        return joint.screw.head_mm
    return across_mm(receiver_of(joint))


def behind_mm(joint: Joint) -> float:
    """What bears on the back of the sheet: the washer behind, or the bulge of the receiver.

    joint: the joint [-]
    Returns: diameter, 0 where nothing bears there [mm]
    Source: geometry.
    """
    washers = [washer.outer_mm for washer in joint.washers if washer.place is Position.NUT]
    return max([bulge_mm(joint.receiver), *washers])


def limiter_of(joint: Joint) -> StackPart | None:
    """The compression limiter of a joint with foam in it.

    joint: the joint [-]
    Returns: the part, None where there is none [-]
    Source: geometry.
    """
    return next((washer for washer in joint.washers if washer.place is Position.LIMITER), None)


def receiver_of(joint: Joint) -> Receiver:
    """The receiver of a joint that has one.

    joint: the joint [-]
    Returns: its receiver [-]
    Raises: AssertionError for a joint without one.
    Source: geometry.
    """
    assert joint.receiver is not None, f"{joint.method} has no receiver"
    return joint.receiver


def patch_of(joint: Joint) -> Patch:
    """What a joint holds by, where that is a face.

    joint: the joint [-]
    Returns: its patch [-]
    Raises: AssertionError for a joint without one.
    Source: geometry.
    """
    assert joint.patch is not None, f"{joint.method} does not hold by a face"
    return joint.patch


def screw_of(joint: Joint) -> Screw:
    """The screw or rivet of a joint that has one.

    joint: the joint [-]
    Returns: its screw [-]
    Raises: AssertionError for a joint without one.
    Source: geometry.
    """
    assert joint.screw is not None, f"{joint.method} has no screw"
    return joint.screw


def outside_mm(receiver: Receiver) -> float:
    """Outside of what sits in the hole or on the stud.

    receiver: the part [-]
    Returns: diameter [mm]
    Raises: LookupError where nothing sits there.
    Source: geometry; the size is a row's.
    """
    if isinstance(receiver.body, Body):
        return receiver.body.outside_mm
    raise LookupError(f"a {receiver.part} has no body: {receiver.body.why}")


def across_mm(receiver: Receiver) -> float:
    """Width of its flange, plate or flats.

    receiver: the part [-]
    Returns: width [mm]
    Raises: LookupError where it has none.
    Source: geometry; the size is a row's.
    """
    if isinstance(receiver.flange, Flange | Plate):
        return receiver.flange.across_mm
    raise LookupError(f"a {receiver.part} has no flange: {receiver.flange.why}")


def bulge_mm(receiver: Receiver | None) -> float:
    """Width of what swells behind.

    receiver: the part, or None [-]
    Returns: width, 0 where nothing does [mm]
    Source: geometry; the size is a row's.
    """
    return receiver.bulge.across_mm if receiver is not None and isinstance(receiver.bulge, Bulge) else 0.0


def flange_behind_mm(receiver: Receiver | None) -> float:
    """Width of a flange that bears on the back.

    receiver: the part, or None [-]
    Returns: width, 0 where there is none [mm]
    Source: geometry; the size is a row's.
    """
    return 0.0 if receiver is None or isinstance(receiver.flange, Absent) else receiver.flange.across_mm


def nut_is_there(mount: MountPoint) -> bool:
    """Whether what exists already is a rivet nut.

    mount: what is mounted, and on what [-]
    Returns: whether it is [-]
    Source: as given.
    """
    return mount.existing_thread is not None and mount.existing_thread.kind == kinds.RIVET_NUT.name


def is_clamp_base(kind: PatchKind, mount: MountPoint, tables: Tables) -> bool:
    """Whether it is a bonded base under a clamp of a cable, on a panel: what saves a hole every 300 mm.

    kind: what holds by its face [-]
    mount: what is mounted, and on what [-]
    tables: the tables [-]
    Returns: whether it is [-]
    Source: common practice, which clamps cables to stuck-on bases where there is no stud.
    """
    on_panel = kind.alone is Alone.BASE and material(tables, mount.material).family in {"sheet", "plastic"}
    return on_panel and tables.need(ITEMS, mount.item).sort == "clamp"


def holds_alone(kind: PatchKind, mount: MountPoint, tables: Tables) -> bool:
    """Whether it holds by its bond and by nothing else; a base is at home in laminate, and under a cable clamp.

    kind: what holds by its face [-]
    mount: what is mounted, and on what [-]
    tables: the tables [-]
    Returns: whether it does [-]
    Source: common practice.
    """
    in_laminate = kind.alone is Alone.BASE and material(tables, mount.material).family == "laminate"
    return kind.alone is not Alone.NO and not in_laminate and not is_clamp_base(kind, mount, tables)
