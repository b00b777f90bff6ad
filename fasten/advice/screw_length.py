"""A joint with a screw of another length: what then engages, stands out and is needed behind; or why it will not do.

Each method says itself what it asks of a screw's end: `screw_end` in its module.
"""

from itertools import takewhile

from fasten.advice.advise import method_by
from fasten.catalog.parts import BOARD_SCREWS
from fasten.catalog.tables import Tables
from fasten.geometry.joint import PANEL, screw_of
from fasten.methods.plastic_insert import CHIPS_MM
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.thread_forming_screw import MOST_ENGAGED
from fasten.model import Figure, Hole, Joint, MountPoint, Refusal, Screw
from fasten.model.kinds import Seat, Thread
from fasten.model.known import Flange
from fasten.record import replace
from fasten.text.figures import mm

SAME_MM = 1e-6
BOTTOMS = "bottoms-out"  # the check of a refusal where the screw is too long for what it goes into


def with_length(joint: Joint, length_mm: float, mount: MountPoint, tables: Tables) -> Joint | Refusal:
    """The joint with a screw of this length, not yet proved; a refusal where its end does not reach or bottoms out."""
    changed, end = resized(joint, length_mm, mount, tables), screw_end_of(joint, mount, tables)
    if changed is None or end is None:
        return _refused(joint, length_mm, "its length belongs to the part and cannot be changed")
    if changed is joint:
        return joint
    return _reaches(changed, screw_of(changed), end) or changed


def screw_end_of(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """What the end of another screw must reach; None where the length is the part's own, or there is no screw."""
    return None if joint.screw is None else method_by(joint).screw_end(joint, mount, tables)


def resized(joint: Joint, length_mm: float, mount: MountPoint, tables: Tables) -> Joint | None:
    """The joint with a screw of this length, whether or not it does; None where the length is the part's own."""
    screw = joint.screw
    if screw is None or screw_end_of(joint, mount, tables) is None:
        return None
    return joint if same_length(screw.length_mm, length_mm) else _changed(joint, screw, length_mm, mount, tables)


def same_length(first_mm: float, second_mm: float) -> bool:
    """Whether two lengths are one."""
    return -SAME_MM < first_mm - second_mm < SAME_MM


def _changed(joint: Joint, screw: Screw, length_mm: float, mount: MountPoint, tables: Tables) -> Joint:
    more_mm = length_mm - screw.length_mm
    if joint.hole is not None and joint.hole.depth_mm is not None and joint.receiver is None:
        return _in_blind_hole(joint, screw, joint.hole, joint.hole.depth_mm + more_mm, length_mm, tables)
    past_mm = screw.protrusion_mm + more_mm
    longest_mm = screw.engagement_mm + max(0.0, -screw.protrusion_mm)
    longer = replace(screw, length_mm=length_mm, protrusion_mm=past_mm, engagement_mm=longest_mm - max(0.0, -past_mm))
    return _with_space(replace(joint, screw=longer, hole=_deeper(joint, past_mm)), joint, screw, more_mm)


def _in_blind_hole(joint: Joint, screw: Screw, hole: Hole, deep_mm: float, length_mm: float, tables: Tables) -> Joint:
    """A screw that forms its own thread: the hole goes as much deeper, and so much more of it holds as has thread."""
    most_mm = MOST_ENGAGED * screw.diameter_mm
    if screw.kind.thread is Thread.FORMS_IN_BOARD:
        row = next((row for row in tables.rows(BOARD_SCREWS) if row.size == screw.thread), None)
        most_mm = length_mm if row is None else row.thread_share * length_mm
    longer = replace(screw, length_mm=length_mm, engagement_mm=min(length_mm - joint.grip_mm, most_mm))
    return replace(joint, screw=longer, hole=replace(hole, depth_mm=deep_mm))


def _deeper(joint: Joint, past_mm: float) -> Hole | None:
    """A blind hole under an insert of plastic, as deep as the screw that comes out of it wants; others as they are."""
    hole, receiver = joint.hole, joint.receiver
    if hole is None or hole.depth_mm is None or receiver is None or receiver.kind.seat is Seat.SUNK:
        return hole
    return replace(hole, depth_mm=max(hole.depth_mm, receiver.length_mm + past_mm + CHIPS_MM))


def _with_space(changed: Joint, joint: Joint, screw: Screw, more_mm: float) -> Joint:
    """The space behind the finished joint: the screw's end, or the receiver's where that stands out further."""
    if joint.hole is not None and joint.hole.depth_mm is not None:
        return changed
    before_mm = _past_face_mm(joint, screw)
    receiver_mm = before_mm - screw.protrusion_mm if joint.receiver is not None else 0.0
    others_mm = max(receiver_mm, 0.0)
    if joint.behind_done_mm > max(before_mm, others_mm) + SAME_MM:  # what else stands there stays
        others_mm = joint.behind_done_mm
    done_mm = max(before_mm + more_mm, others_mm)
    set_mm = done_mm if same_length(joint.behind_set_mm, joint.behind_done_mm) else joint.behind_set_mm
    return replace(changed, behind_done_mm=done_mm, behind_set_mm=set_mm)


def _past_face_mm(joint: Joint, screw: Screw) -> float:
    """How far the screw's end stands past the far face of the thinnest substrate."""
    over = takewhile(lambda layer: layer.role not in PANEL, joint.layers)
    over_mm = sum(layer.thickness_mm for layer in over)
    near = joint.receiver.flange if joint.receiver is not None else None
    flange_mm = near.thickness_mm if isinstance(near, Flange) else 0.0
    return screw.length_mm - over_mm - flange_mm - joint.sheet_mm


def _reaches(joint: Joint, screw: Screw, end: ScrewEnd) -> Refusal | None:
    length_mm = screw.length_mm
    if screw.engagement_mm < end.engaged_mm - SAME_MM:
        figures = (Figure("engaged", screw.engagement_mm, "mm"), Figure("wanted", end.engaged_mm, "mm"))
        return _refused(joint, length_mm, "too little of its thread holds", figures)
    if screw.protrusion_mm < end.past_min_mm - SAME_MM:
        figures = (Figure("past", screw.protrusion_mm, "mm"), Figure("wanted", end.past_min_mm, "mm"))
        return _refused(joint, length_mm, "its end does not reach far enough", figures)
    if screw.protrusion_mm > end.past_max_mm + SAME_MM:
        figures = (Figure("past", screw.protrusion_mm, "mm"), Figure("most", end.past_max_mm, "mm"))
        return replace(_refused(joint, length_mm, "it bottoms out before it clamps", figures), check=BOTTOMS)
    return None


def _refused(joint: Joint, length_mm: float, why: str, figures: tuple[Figure, ...] = ()) -> Refusal:
    thread = joint.screw.thread if joint.screw is not None else "a screw"
    return Refusal(joint.method, f"{thread} x {mm(length_mm)}: {why}", figures, check="screw-length", joint=joint)
