"""The pin that holds a joint, and a pin in words."""

from fasten.job.words import Pin
from fasten.model import Answer, Joint
from fasten.text.figures import words
from fasten.text.units import number


def pin_of(answer: Answer) -> Pin:
    """The pin that holds this answer."""
    return pin_of_joint(answer.proposal.joint)


def pin_of_joint(joint: Joint) -> Pin:
    """The pin that holds this joint."""
    receiver, screw, patch = joint.receiver, joint.screw, joint.patch
    series = receiver.series if receiver is not None else patch.series if patch is not None else ""
    thread = screw.thread if screw is not None else receiver.thread if receiver is not None else ""
    return Pin(
        method=joint.method, thread=thread, series=series,
        receiver_length_mm=receiver.length_mm if receiver is not None else None,
        screw_length_mm=screw.length_mm if screw is not None else None,
    )  # fmt: skip


def pin_text(pin: Pin) -> str:
    """A pin in words."""
    lengths = [
        f"{number(length, 2)} mm {what}"
        for length, what in ((pin.receiver_length_mm, "long"), (pin.screw_length_mm, "screw"))
        if length is not None
    ]
    said = [f"{words(pin.method)} {pin.thread}".strip(), words(pin.series), *lengths]
    return ", ".join(text for text in said if text)
