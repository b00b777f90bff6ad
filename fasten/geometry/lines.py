"""What the lines of screws and receivers are found again by: keys and sizes, never words."""

from fasten.geometry.joint import outside_mm
from fasten.model import Joint, Receiver, Screw
from fasten.model.kinds import Bought
from fasten.model.line import LineId, Sort
from fasten.text.figures import id_size


def screw_line(screw: Screw) -> LineId:
    """The id of the line of a screw, bolt or rivet.

    screw: the screw [-]
    Returns: its id [-]
    Source: the program's own ids.
    """
    sizes = (screw.thread, screw.standard, screw.class_, "", id_size(screw.length_mm))
    return LineId(Sort.PART, screw.kind.key, sizes)


def receiver_line(receiver: Receiver) -> LineId:
    """The id of the line of what stays in the substrate.

    receiver: the part [-]
    Returns: its id [-]
    Source: the program's own ids.
    """
    length = None if receiver.kind.bought is Bought.BY_THREAD else receiver.length_mm
    wide = outside_mm(receiver) if receiver.kind.bought is Bought.BY_OUTSIDE else None
    sizes = (receiver.thread, receiver.series, receiver.material, id_size(wide), id_size(length))
    return LineId(Sort.PART, receiver.kind.key, sizes)


def tested_line(joint: Joint) -> LineId | None:
    """The id of what test pieces of a joint are of: what stays in the substrate, else the screw; None without either.

    joint: the joint [-]
    Returns: the id of that line [-]
    Source: the program's own ids.
    """
    if joint.receiver is not None and joint.receiver.kind.bought is not Bought.AS_ITS_SCREW:
        return receiver_line(joint.receiver)
    return None if joint.screw is None else screw_line(joint.screw)
