"""Row types of how it is done: tightening, loads, factors, rated removals, words, steps, tools, cautions, weights."""

from fasten.catalog.job_parts import TOOL_KINDS
from fasten.catalog.rows import Row, TableOf
from fasten.model import Phase
from fasten.record import record
from fasten.text.figures import figure, mm

# In place of a method: the rows of all of them; what a job needs whatever its methods; the work on a run of cable.
EVERY, JOB, RUN = "every", "job", "cable_run"


@record
class Tightening(Row):
    """A way to tighten and the scatter of preload it leaves, as a fraction either side."""

    key = ("way",)
    way: str
    scatter: float


TIGHTENING = TableOf(Tightening, "tightening")


@record
class MeasuringTool(Row):
    """What distances are read with: the standard error of a reading, and the steps in which it is read."""

    key = ("tool",)
    tool: str
    error_mm: float
    step_mm: float


MEASURING_TOOLS = TableOf(MeasuringTool, "measuring-tools")


@record
class LoadCase(Row):
    """One acceleration of a load case, in g: x fore (+) and aft, y sideways, z up (+) and down."""

    key = ("case", "name_")
    signed = frozenset({"x_g", "y_g", "z_g"})
    case: str
    name_: str
    kind: str
    x_g: float
    y_g: float
    z_g: float


LOAD_CASES = TableOf(LoadCase, "load-cases")


@record
class Factor(Row):
    """The factor of a load case on a family of failure modes; where there is none, `because` says why."""

    key = ("kind", "family")
    kind: str
    family: str
    factor: float | None
    because: str


FACTORS = TableOf(Factor, "factors")


@record
class RemovalCount(Row):
    """Removals over ten years."""

    key = ("removed",)
    zero_ok = frozenset({"count"})
    removed: str
    count: int


REMOVALS = TableOf(RemovalCount, "removals")


@record
class MethodWords(Row):
    """A method's title, what it is rated for and what wears out.

    `rated` is removals before the substrate or the fixed receiver suffers; `replace` is what is renewed meanwhile,
    `renews` the keys of the parts among it, and `replace_every` at how many removals (0: nothing wears).
    """

    key = ("method",)
    zero_ok = frozenset({"rated", "replace_every"})
    method: str
    title: str
    rated: int
    replace: str
    renews: tuple[str, ...]
    replace_every: int
    operations: int
    setting_tool: str


METHOD_WORDS = TableOf(MethodWords, "methods")


@record
class Step(Row):
    """One step of the work of a method, or of `every`; a method's own replaces that of every for its phase and step.

    The order is by phase, then step. `only_if` names conditions that must all hold (`fasten.advice.conditions`), one
    after `not` must not; `{bit}`, `{hole}`, `{torque}` … in the text are filled by the answer.
    """

    key = ("method", "phase", "step", "only_if")
    zero_ok = frozenset({"step"})  # before the first
    words = {"phase": tuple(phase.value for phase in Phase)}
    method: str
    phase: str
    step: int
    only_if: tuple[str, ...]
    text: str


STEPS = TableOf(Step, "steps")


@record
class StepTick(Row):
    """What is ticked of a step: once or at each hole, the figure it is made to, and what is said once it is made.

    A row without a `step` is for the whole phase. `figure` is a name of `fasten.advice.made_to`, empty where there is
    none; `{n}` in `done` is the number of the hole.
    """

    key = ("method", "phase", "step")
    zero_ok = frozenset({"step"})
    words = {"phase": tuple(phase.value for phase in Phase), "at": ("once", "hole")}
    method: str
    phase: str
    step: int | None
    at: str
    figure: str
    label: str
    done: str


STEP_TICKS = TableOf(StepTick, "step-ticks")


@record
class Tool(Row):
    """A tool or consumable that a method needs, or `every`, or a whole `job`; a method's own replaces that of every.

    `tool-kinds` says what it is called and whether it is a tool. `size_mm` is of a bit; a hole may need a smaller one.
    `only_if` is as in a step.
    """

    key = ("method", "tool", "only_if")
    refs = {"tool": TOOL_KINDS}
    method: str
    tool: str
    size_mm: float | None
    only_if: tuple[str, ...]


TOOLS = TableOf(Tool, "tools")


@record
class Caution(Row):
    """A caution of a method, or of `every`, in the order of telling; `only_if` and the blanks of `text` as in a step.

    One of every method without a condition is for all work.
    """

    key = ("caution",)
    caution: str
    method: str
    only_if: tuple[str, ...]
    text: str

    @property
    def for_all(self) -> bool:
        """Whether it is for all work."""
        return self.method == EVERY and not self.only_if


CAUTIONS = TableOf(Caution, "cautions")


@record
class Weight(Row):
    """A ranking weight: points for each unit of what it counts; lower totals rank first."""

    key = ("name_",)
    zero_ok = frozenset({"points"})
    name_: str
    points: float
    why: str


WEIGHTS = TableOf(Weight, "weights")


@record
class Rail(Row):
    """A square tube that carries an item from one line of support to the other."""

    key = ("side_mm", "wall_mm")
    order = ("side_mm", "wall_mm")
    side_mm: float
    wall_mm: float

    @property
    def tube(self) -> str:
        """Its sides and wall, as a list says them."""
        return f"{figure(self.side_mm)} x {figure(self.side_mm)} x {mm(self.wall_mm)}"


RAILS = TableOf(Rail, "rails")


@record
class StockSheet(Row):
    """A thickness of sheet that a doubler is cut from."""

    key = ("thickness_mm",)
    order = ("thickness_mm",)
    thickness_mm: float


STOCK_SHEETS = TableOf(StockSheet, "stock-sheets")


@record
class DoubledBay(Row):
    """Stiffness of a bay with a square doubler in its middle, over D of the sheet and the short side squared."""

    key = ("side_ratio", "rigidity_ratio")
    order = ("side_ratio", "rigidity_ratio")
    side_ratio: float
    rigidity_ratio: float
    point: float
    four: float


DOUBLED_BAYS = TableOf(DoubledBay, "doublers")


@record
class ClampedBay(Row):
    """How much stiffer a bay is with clamped edges than with simply supported ones, under four fixings in a square.

    `aspect` is long side over short side, `pitch_ratio` the side of the square over the short side.
    """

    key = ("aspect", "pitch_ratio")
    order = ("aspect", "pitch_ratio")
    zero_ok = frozenset({"pitch_ratio"})
    aspect: float
    pitch_ratio: float
    bounce: float
    tilt_short: float
    tilt_long: float


CLAMPED_BAYS = TableOf(ClampedBay, "clamped-bays")


@record
class Rule(Row):
    """A single figure that decides: a limit or practice with its source, by name."""

    key = ("rule",)
    zero_ok = frozenset({"value"})
    rule: str
    value: float
    unit: str
    text: str


RULES = TableOf(Rule, "rules")
