"""What a line of a shelf comes to."""

from fasten.job.words import ShelfPart
from fasten.model.line import Part, Sort
from fasten.record import record


@record
class ReadPart:
    """A part with its count; `assumed` is what was taken without being said."""

    entry: ShelfPart
    assumed: tuple[str, ...] = ()


@record
class ReadNames:
    """Bits, tools or consumables by their names; `assumed` as before, and what of the line is not kept."""

    sort: Sort
    names: tuple[str, ...]
    assumed: tuple[str, ...] = ()


@record
class Asked:
    """A line that is kept but not counted: the one question that it leaves, and the nearest two things it may be.

    `count` is how many it says there are.
    """

    line: str
    question: str
    nearest: tuple[Part | str, ...] = ()
    count: int | None = None


Read = ReadPart | ReadNames | Asked
