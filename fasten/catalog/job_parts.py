"""Row types of the tables that the hardware list of a whole job is made from."""

from fasten.catalog.rows import Row, TableOf
from fasten.model.kinds import Spares
from fasten.record import record


@record
class Consumable(Row):
    """How much of a consumable a mount point uses.

    `when` says what calls for it: `named` where the answer names it, `patch` where it is what holds, `always`; and of
    the conditions of `only_if` all must hold, as in a step. The first row of a consumable that applies decides. `per`
    is what `amount` is for: a screw, hole, fixing, mount point, substrate, mm of outline, mm of length, mm2 of face or
    of doubler; `part` where it is counted as a part or as a spare of one. `plus` is added once a mount point; `waste`
    is a share of all. `detail` names what else must be said of it: thread, substrate, layer, width.
    """

    key = ("consumable", "when", "only_if")
    zero_ok = frozenset({"plus", "waste"})
    words = {"when": ("named", "patch", "always")}
    consumable: str
    when: str
    only_if: tuple[str, ...]
    per: str
    amount: float | None
    unit: str
    plus: float
    waste: float
    detail: str


CONSUMABLES = TableOf(Consumable, "consumables")


@record
class Spare(Row):
    """Spares of a kind of part up to a size: a share of what is needed, how many at least, and `trial` to try with.

    `kind` is what `model/kinds.py` says of a part, `any` all of them. The first row that is for a part and whose size
    it does not pass decides. `up_to_mm` is of the thread or rivet.
    """

    key = ("kind", "up_to_mm")
    zero_ok = frozenset({"share", "least", "trial"})
    words = {"kind": tuple(kind.value for kind in Spares)}
    kind: str
    up_to_mm: float | None
    share: float
    least: int
    trial: int


SPARES = TableOf(Spare, "spares")


@record
class ToolKind(Row):
    """What a tool or consumable is called, under which heading a job lists it, and what its size is of.

    `text` is what an answer says, with blanks as in a step; `listed` what a list says beside the size, None where that
    is the same. `size_of` is `thread` (of receiver or screw), `nut` (across its flats), `hole` (to be mouthed), `bit`,
    `hexagon` (that it turns) or `drive` (the recess that it turns, which a list says after its name), `-` where it has
    none. `heading` is that of the list; bits have a list of their own, and consumables.
    """

    key = ("tool",)
    words = {
        "heading": ("setting tool", "tap", "driver", "countersink", "stop", "other", "bit", "consumable"),
        "size_of": ("thread", "nut", "hole", "bit", "hexagon", "drive", "-"),
    }
    tool: str
    text: str
    listed: str | None
    heading: str
    size_of: str

    @property
    def in_list(self) -> str:
        """What a list says of it."""
        return self.text if self.listed is None else self.listed


TOOL_KINDS = TableOf(ToolKind, "tool-kinds")


@record
class SafetyGear(Row):
    """A tool that is worn at the work."""

    key = ("tool",)
    refs = {"tool": TOOL_KINDS}
    tool: str


SAFETY_GEAR = TableOf(SafetyGear, "safety-gear")


@record
class SizeWeight(Row):
    """What a further distinct size of a kind costs a job, in points; the kind `rank` is for each point of rank lost."""

    key = ("kind",)
    kind: str
    points: float
    why: str


SIZE_WEIGHTS = TableOf(SizeWeight, "size-weights")


AT_WORK, AT_VISIT, AT_BATTERIES = "work", "visit", "batteries"


@record
class WorkOrder(Row):
    """What goes with the steps: done once `before` the whole job or `after` it, or at `each` mount point.

    Of `cable` is what is done where the job has runs of cable alone. `at` is whether it is done at the work, at a
    return visit, or at both; `batteries` is the work of a job that has a second battery.
    """

    key = ("when", "step")
    words = {"at": (AT_WORK, AT_VISIT, AT_BATTERIES, "both")}
    when: str
    step: int
    cable: bool
    at: str
    text: str


WORK_ORDER = TableOf(WorkOrder, "work-order")
