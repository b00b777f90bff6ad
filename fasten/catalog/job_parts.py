"""Row types of the tables that the hardware list of a whole job is made from."""

from fasten.catalog.rows import Row
from fasten.record import record


@record
class Consumable(Row):
    """How much of a consumable a mount point uses.

    `when` says what calls for it: `named` where the answer names it, `between foam` where that soft layer is left in,
    `item …` for an item of the presets, `patch` where it is what holds, `under …` where the answer names it and that is
    what holds; the first row of a name that applies decides. `per` is what `amount` is for: a screw, hole,
    fixing, mount point, substrate, mm of outline, mm of length or mm2 of face; `part` where it is counted as a part or
    as a spare of one. `plus` is added once a mount point; `waste` is a share of all. `detail` names what else must be
    said of it: thread, substrate, layer, width.
    """

    key = ("name_", "when")
    zero_ok = frozenset({"plus", "waste"})
    name_: str
    when: str
    per: str
    amount: float | None
    unit: str
    plus: float
    waste: float
    detail: str


@record
class Spare(Row):
    """Spares of a kind of part up to a size: a share of what is needed, and how many at least.

    The first row whose kind the part's kind is or ends with, and whose size is not passed, decides; the kind `part`
    is any. `up_to_mm` is of the thread or rivet.
    """

    key = ("kind", "up_to_mm")
    zero_ok = frozenset({"share", "least"})
    kind: str
    up_to_mm: float | None
    share: float
    least: int


@record
class ToolKind(Row):
    """A tool that comes in sizes: under which heading it is listed, and what its size is.

    `shown` is its name with the size left out. `size_of` is `thread` (of receiver or screw), `nut` (across its flats)
    or `hole` (to be mouthed), `-` where it has none.
    """

    key = ("name_",)
    name_: str
    shown: str
    heading: str
    size_of: str


@record
class SizeWeight(Row):
    """What a further distinct size of a kind costs a job, in points; the kind `rank` is for each point of rank lost."""

    key = ("kind",)
    kind: str
    points: float
    why: str


@record
class WorkOrder(Row):
    """What goes with the steps of every method: done once `before` the whole job or `after`, or at `each` mount point.

    Of `tool` the text is a tool that is always out, named as the methods name theirs.
    """

    key = ("when", "step")
    when: str
    step: int
    text: str
