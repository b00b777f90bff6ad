"""The words of a measuring pass: what is cut, what is tried with it at each mount point, and what stays unresolved."""

from enum import Enum

from fasten.record import record


class Tool(Enum):
    """What a mark is tried with.

    A probe goes in behind, a strip from the mark to the edge; on a board that is cut for the job the strip is a
    margin to keep. A feeler is a piece of sheet under a straightedge on a panel that is pushed; a push is by feel. A
    bay strip must not fit between the lines of support. Of two shanks the thinner goes into the item's hole and the
    thicker does not.
    """

    PROBE = "probe"
    STRIP = "strip"
    MARGIN = "margin"
    FEELER = "feeler"
    PUSH = "push"
    BAY = "bay"
    SHANKS = "shanks"


@record
class Mark:
    """One thing to try at one mount point.

    `field` is what of its question it settles and `said` what is kept of it once it went as it should. `needs_mm` is
    the mount point's own limit, `gauge_mm` what it is tried with, `below` what the mount point gets where that does not
    go, proven down to `below_mm`; under `unproven_mm` nothing is. `force_n` is of a push, `stops_mm` the shank that
    must not go in.
    """

    mount: str
    field: str
    tool: Tool
    needs_mm: float
    gauge_mm: float
    said: str
    below: str = ""
    force_n: float | None = None
    stops_mm: float | None = None
    below_mm: float | None = None
    unproven_mm: float | None = None


@record
class Gauge:
    """A gauge to cut, and the mount points that are tried with it."""

    tool: Tool
    size_mm: float
    mounts: tuple[str, ...]


@record
class Measured:
    """A mount point with what it gets where everything is found as it is hoped, and what is tried for that.

    Of several marks of one field any one does. `open` is what no measurement settles; it has no marks then.
    """

    mount: str
    title: str
    marks: tuple[Mark, ...]
    open: tuple[str, ...]


@record
class MeasuringPass:
    """The measuring pass of a job: the gauges, then each mount point that is not settled yet."""

    title: str
    vehicle: str
    gauges: tuple[Gauge, ...]
    mounts: tuple[Measured, ...]
    settled: tuple[str, ...]

    @property
    def unresolved(self) -> tuple[Measured, ...]:
        """The mount points that no measurement brings to a proven answer."""
        return tuple(one for one in self.mounts if one.open)
