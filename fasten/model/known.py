"""What is known of a part, each a type of its own; what is not is `Needed` or `Absent`, never None."""

from fasten.model.words import Word
from fasten.record import record


@record
class Needed:
    """Not known yet: `what` must be found before anything that rests on it can be checked."""

    what: str


@record
class Absent:
    """There is none, and why."""

    why: str


@record
class Flange:
    """A flange or head on the near side, which the item rests on or is held by."""

    across_mm: float
    thickness_mm: float


@record
class Plate:
    """What bears with a width of its own and no known thickness: a flange behind, a nut across its flats."""

    across_mm: float


@record
class Body:
    """What sits in the hole or on the stud, by its outside."""

    outside_mm: float


@record
class Bulge:
    """What swells behind the substrate, by which it is pulled or punched through."""

    across_mm: float


@record
class EdgeReach:
    """How far from an edge a part that slides on may sit."""

    most_mm: float


@record
class Rating:
    """A load that a table or a box gives for the part as a whole or for its thread."""

    load_n: float


@record
class MostTorque:
    """A torque that breaks it, that its box allows, or that it takes to turn a screw in it."""

    torque_nm: float


class Stated(Word):
    """What a figure is, as its source states it: the mean of tests, the least of them, or a limit that is no test's."""

    MEAN = "mean"
    LEAST = "least"
    LIMIT = "limit"


@record
class SpinOut:
    """The torque that turned the body, in sheet of which thickness; what it grows up to, and is left in this metal."""

    torque_nm: float
    sheet_mm: float
    most_sheet_mm: float
    in_metal: float
    of: Stated


@record
class MakesGround:
    """A machine screw in a thread that stays, so that the joint is remade as it was; `by` is the rule."""

    by: str


Ground = MakesGround | Absent


class FarEnd(Word):
    """Whether a screw can bottom in it."""

    OPEN = "open"
    CLOSED = "closed"
