"""What an entry of a job is made into: its checks, what it needs, the steps of its work and its cautions.

A plan does not say what kind of entry it is of: whatever gives one stands on the list, the work sheet and the labels.
"""

from collections.abc import Callable
from functools import cached_property
from math import ceil

from fasten.model.check import Check, needed, worst
from fasten.model.joint import Tolerance
from fasten.model.kinds import Listed, Spares
from fasten.model.line import LineId, Part
from fasten.model.words import Phase, Status
from fasten.record import lean, record

_DUST = 1e-9


@lean
class WorkStep:
    """One step of the work: the phase it belongs to, its place within the phase, and what a person reads.

    `id` finds it again: whose row it is, its phase and its place, never its words.
    """

    phase: Phase
    step: int
    text: str
    id: str


@lean
class MadeTo:
    """The figure that a step is made to: what is drawn large, its unit, and what else belongs to it."""

    value: str
    unit: str
    more: str = ""

    @property
    def text(self) -> str:
        """The whole figure, as a tick keeps it."""
        return ", ".join(part for part in (f"{self.value} {self.unit}".strip(), self.more) if part)


@lean
class Task:
    """A step as it is ticked: once, or at each of its `holes` by their numbers (none: once).

    `label` stands over its figure, or names the step where it has none; `done` is what is said once it is made.
    `made_of` is what decides whether it is still as wanted, where that is more than its figure, such as the cable.
    """

    step: WorkStep
    label: str
    figure: MadeTo | None
    holes: tuple[int, ...]
    done: str
    made_of: str = ""

    @property
    def kept(self) -> str:
        """What a tick of it keeps: the step is done as long as the plan wants the same; empty where nothing decides."""
        return self.made_of or ("" if self.figure is None else self.figure.text)

    def said(self, place: int) -> str:
        """What is said once it is made, at the hole of this number where it is made at each."""
        return self.done.format(n=place)


@lean
class Need:
    """A tool or consumable: the key that finds it in the tables, what a person reads, and its size where it has one."""

    key: str
    text: str
    size_mm: float | None = None


@lean
class Caution:
    """A caution: the key that finds it in the tables, what a person reads, and whether it is for all work."""

    key: str
    text: str
    for_all: bool


@lean
class PartNeed:
    """A part that an entry takes, and how many; `form` says what its standard leaves to be looked up.

    `renewed` more go in the box, since they are replaced within ten years; `spares` says how many of a line are added.
    """

    id: LineId
    part: Part
    form: str
    listed: Listed
    spares: Spares
    count: int
    renewed: int


@lean
class BitNeed:
    """A bit and what it drills; `ream` where it lies outside the hole's tolerance.

    `within` is how far another bit may be from the hole; None where the bit is wanted as it is.
    """

    name: str
    diameter_mm: float
    purpose: str
    hole_mm: float
    depth_mm: float | None
    count: int
    ream: bool
    within: Tolerance | None


@lean
class ToolNeed:
    """A tool under its heading, in its size; `names` are what it may go by on a shelf, `set_mm` what it is set to.

    `torque_nm` is the target of what it measures, None where it measures none.
    """

    id: LineId
    heading: str
    key: str
    name: str
    size: str
    names: frozenset[str]
    set_mm: float | None = None
    torque_nm: float | None = None


@lean
class ConsumableNeed:
    """A consumable and how much an entry uses, waste left out; None where that is not known.

    `names` are what it may go by on a shelf, the last of them what a list says. `plus` is in the
    amount, `waste` is not, and comes to `waste_least` at least; what is bought by the `step` is rounded up to it. Where
    it is `shared`, one amount is enough for all entries that ask for the same.
    """

    id: LineId
    names: tuple[str, ...]
    detail: str
    width_mm: float | None
    amount: float | None
    unit: str
    plus: float
    waste: float
    shared: bool
    waste_least: float = 0.0
    step: float = 0.0

    def in_the_box(self, used: float) -> float:
        """How much goes in the box where all entries together use so much."""
        whole = used + max(used * self.waste, self.waste_least)
        return ceil(whole / self.step - _DUST) * self.step if self.step else whole


@record
class OddFixing:
    """A fixing that a repair made unlike the others: its number, its parts and hole in words, and how tight it is.

    `target_nm` is None where there is no figure, or where it was left out.
    """

    number: int
    said: str
    target_nm: float | None


@record
class Label:
    """What the label of a bag says beside its parts: the bit of the hole, and how tight.

    `target_nm` is None where there is no figure; then `by_feel` says that something is tightened all the same.
    `least_nm` is what it must reach. `past_driving` says that what it takes to turn a nut comes on top. `held_by` says
    what holds where no part does. `odd` are fixings that a repair made unlike the others. `turns` says how tight the
    ends of a cable are.
    """

    bit: str | None
    target_nm: float | None
    least_nm: float | None
    by_feel: bool
    past_driving: bool
    held_by: str
    odd: tuple[OddFixing, ...] = ()
    turns: str = ""


class Work:
    """The work of a plan, made once somebody asks for its tasks: a list and a verdict do not."""

    def __init__(self, make: Callable[[], tuple[Task, ...]]) -> None:
        self._make = make

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        """The steps as they are ticked, in the order of work."""
        return self._make()

    def __eq__(self, other: object) -> bool:
        return self.tasks == other.tasks if isinstance(other, Work) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.tasks)


@lean
class Plan:
    """What an entry of a job results in. `name` is the entry's own, `title` what is fitted there.

    `markers` says where each of its wire markers goes; empty where there is no wire. `repaired` are the parts that each
    repair put there, by its number: they are among the others. Of cable nothing is recorded but what its note says.
    """

    name: str
    title: str
    checks: tuple[Check, ...]
    parts: tuple[PartNeed, ...]
    bits: tuple[BitNeed, ...]
    tools: tuple[ToolNeed, ...]
    consumables: tuple[ConsumableNeed, ...]
    work: Work
    cautions: tuple[Caution, ...]
    remarks: tuple[str, ...]
    label: Label
    markers: tuple[str, ...] = ()
    repaired: tuple[tuple[int, PartNeed], ...] = ()
    is_recorded: bool = True

    @property
    def tasks(self) -> tuple[Task, ...]:
        """The steps as they are ticked, in the order of work."""
        return self.work.tasks

    @property
    def steps(self) -> tuple[WorkStep, ...]:
        """The steps in the order of work."""
        return tuple(task.step for task in self.tasks)

    @property
    def status(self) -> Status:
        """What the proof comes to: the state of its worst check."""
        return worst(self.checks)

    @property
    def proven(self) -> bool:
        """Whether every check holds; a plan without any check proves nothing."""
        return bool(self.checks) and self.status is Status.HOLDS

    @property
    def unresolved(self) -> tuple[str, ...]:
        """What is needed to prove what is not checked yet or is marginal, without the word needs."""
        return needed(self.checks)

    @property
    def failing(self) -> tuple[str, ...]:
        """The titles of the checks that fail."""
        return tuple(check.title for check in self.checks if check.status is Status.FAILS)
