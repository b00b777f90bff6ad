"""What a fixing bears in one mode, or what is needed to find it."""

from fasten.model import Asks, Input
from fasten.record import lean, record


@lean
class Capacity:
    """What a fixing bears in one mode before any factor, the inputs that gave it, the formula and the sources.

    `kept` are the inputs that are shares which a test piece, fresh and cold, does not show: heat, a screw driven again.
    """

    load_n: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]
    kept: tuple[Input, ...] = ()


@record
class Needed:
    """What must be known before a capacity can be found, and how it would be found."""

    what: str
    formula: str
    from_: tuple[str, ...]
    asks: Asks | None = None
