"""What a line of the hardware list is found again by: keys and sizes, and never words that may be reworded."""

from enum import Enum

from fasten.record import record
from fasten.text.units import number

_DIGITS = 4  # decimals of a millimetre to which two sizes are one
_SPELLED = str.maketrans({" ": "_", "%": "%25", "/": "%2F", "=": "%3D"})


class Sort(Enum):
    """What a line of the list is."""

    PART = "part"
    BIT = "bit"
    TOOL = "tool"
    CONSUMABLE = "consumable"


@record
class LineId:
    """The id of a line: its sort, the key of what it is, and the sizes and series that tell it from others of that key.

    Files keep its `text`, such as `part:rivet_nut/M5/round_body/steel/12.5`.
    """

    sort: Sort
    key: str
    sizes: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The stable form that goes into a file."""
        said = [word.translate(_SPELLED) or "-" for word in (self.key, *self.sizes)]
        while said[-1] == "-":
            said.pop()
        return f"{self.sort.value}:{'/'.join(said)}"


def sized(mm: float | None) -> str:
    """A size of an id, in mm without its unit; empty where there is none."""
    return "" if mm is None else number(mm, _DIGITS)
