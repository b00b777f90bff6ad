"""What the first answer has to say of itself before its work: what it leaves aside, and what put it first."""

from collections.abc import Iterable

from fasten.advice.item_hole import is_preset
from fasten.geometry.joint import nut_is_there
from fasten.methods import factory_thread
from fasten.model import Answer, MountPoint, Refusal
from fasten.text.figures import with_unit
from fasten.text.units import Dimension, write

_KINDS = {"tapped": "tapped thread"}
ITEM_HOLE = "item-hole"  # the check of a refusal where what is there does not fit through the item


def set_aside(mount: MountPoint, answers: tuple[Answer, ...], refusals: Iterable[Refusal]) -> tuple[str, ...]:
    """That the first answer does not use the existing thread, and why; a preset that decided it is named."""
    there = mount.existing_thread
    if there is None or not is_set_aside(mount, answers):
        return ()
    named = f"{there.thread} {'stud' if there.kind == 'stud' else 'thread'}"
    used = next((answer.rank for answer in answers if answer.method == factory_thread.NAME), None)
    if used is not None:
        return (f"Your {named} is answer {used}",)
    why = next((refusal for refusal in refusals if refusal.method == factory_thread.NAME), None)
    if why is None:
        return ()
    if why.check == ITEM_HOLE and is_preset(mount):
        hole, wanted = (write(figure.value, Dimension.LENGTH, 2) for figure in why.figures[:2])
        return (f"NOT USED: your {named} needs {wanted} in the item; {hole} is preset, so give its holes",)
    is_proof = why.check is not None and why.check != ITEM_HOLE
    figures = ", ".join(f"{figure.name} {with_unit(figure.value, figure.unit)}" for figure in why.figures)
    return (f"NOT USED: your {named}: {why.because}{f' ({figures})' if is_proof and figures else ''}",)


def is_set_aside(mount: MountPoint, answers: tuple[Answer, ...]) -> bool:
    """Whether there is an existing thread, and the first answer does not use it."""
    if mount.existing_thread is None or nut_is_there(mount):
        return False
    return not answers or answers[0].method != factory_thread.NAME


def item_opened(opened: MountPoint, asked: MountPoint) -> str:
    """Which item hole would take what exists already, and that the answer counts on it."""
    wanted, preset = (write(mount.item_hole_mm, Dimension.LENGTH, 2) for mount in (opened, asked))
    there = asked.existing_thread
    found = _holes(asked) if there is None else f"existing {there.thread} {_KINDS.get(there.kind, there.kind)}"
    return f"OPEN THE ITEM'S HOLES to {wanted} for the {found}; {preset} is only preset, so measure them"


def item_opened_instead(opened: MountPoint, asked: MountPoint, screw: str) -> str:
    """Which item hole the answer counts on, since nothing fits the one that was only preset."""
    wanted, preset = (write(mount.item_hole_mm, Dimension.LENGTH, 2) for mount in (opened, asked))
    for_ = f" for {screw}" if screw else ""
    return f"OPEN THE ITEM'S HOLES to {wanted}{for_}: nothing fits the preset {preset}"


def item_opened_for(opened: MountPoint, screw: str) -> str:
    """Which item hole an answer that is held counts on."""
    wanted = write(opened.item_hole_mm, Dimension.LENGTH, 2)
    return f"OPEN THE ITEM'S HOLES to {wanted}{f' for {screw}' if screw else ''}: nobody gave them, so measure them"


def item_left(asked: MountPoint, more: str) -> str:
    """What fits without opening the item's holes: more fixings."""
    return f"Or, at {write(asked.item_hole_mm, Dimension.LENGTH, 2)}, {more}"


def _holes(mount: MountPoint) -> str:
    assert mount.existing_hole_mm is not None
    return f"existing {write(mount.existing_hole_mm, Dimension.LENGTH, 2)} hole"


def without_shelf(title: str) -> str:
    """That the shelf put an answer first, and which would be first without it."""
    return f"First because of your shelf; without it: {title}"


def as_in_job(title: str) -> str:
    """That the job put another series first, and which would be first by itself."""
    return f"In the series that this job uses already; by itself: {title}"


def smaller_stud(mount: MountPoint, asked: MountPoint) -> str:
    """That the ground lug is on a smaller stud than its cable usually has, and why."""
    return f"{mount.ring} instead of {asked.ring}: no round hole holds {asked.ring} here. Crimp a lug for {mount.ring}"
