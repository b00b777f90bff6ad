"""Whether an answer uses what exists already, or the preset of the item's holes may keep it from that."""

from fasten.advice import item_hole
from fasten.geometry.joint import nut_is_there
from fasten.methods import factory_thread
from fasten.model import Answer, MountPoint, kinds


def is_blocked(mount: MountPoint, answers: tuple[Answer, ...]) -> bool:
    """Whether what exists already is left unused, and the item's hole is a preset that may keep it from use."""
    exists = mount.existing_hole_mm is not None or mount.existing_thread is not None
    return exists and item_hole.is_preset(mount) and not (answers and uses(mount, answers[0]))


def uses(mount: MountPoint, answer: Answer) -> bool:
    """Whether an answer goes into the existing thread, nut or hole."""
    joint = answer.proposal.joint
    if nut_is_there(mount):
        return joint.receiver is not None and joint.receiver.kind is kinds.RIVET_NUT
    if mount.existing_thread is not None:
        return answer.method == factory_thread.NAME
    return joint.hole is not None
