"""A ground lug whose stud was not said: on the stud its cable usually has, or on a smaller one that holds plainly."""

from collections.abc import Callable

from fasten.advice import remark
from fasten.advice.ranking import order
from fasten.model import Advice, Joint, MountPoint
from fasten.record import replace


def or_smaller(found: Advice, smaller: MountPoint | None, again: Callable[[MountPoint], Advice | None]) -> Advice:
    """The advice on the next `smaller` stud, where it holds in a round hole and what was found does not; else as found.

    A hexagon hole is one more pass with a file or a punch, and a torque window that is shut holds nothing.
    """
    other = None if smaller is None or _is_plain(found) else again(smaller)
    if other is None or not _is_plain(other):
        return found
    first, *others = other.answers
    why = remark.smaller_stud(other.mount, found.mount)
    return replace(other, answers=(replace(first, remarks=(why, *first.remarks)), *others))


def _is_plain(advice: Advice) -> bool:
    """Whether the first answer holds, or waits for what the question leaves open alone, in a round hole or none."""
    if not advice.answers:
        return False
    first = advice.answers[0]
    return is_plain(order(first.score, first.proposal)[0], first.proposal.joint)


def is_plain(standing: int, joint: Joint) -> bool:
    """Whether a joint of this standing holds in a round hole or none: no smaller stud is tried then."""
    return standing == 0 and (joint.hole is None or joint.hole.shape == "round")
