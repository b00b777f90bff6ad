"""Steps as they are ticked: once or at each hole, each with the figure that it is made to."""

from collections.abc import Iterable
from functools import lru_cache

from fasten.advice.made_to import FIGURES
from fasten.catalog import practice
from fasten.catalog.practice import EVERY, STEP_TICKS, StepTick
from fasten.catalog.tables import Tables
from fasten.model import Answer, MountPoint, Phase, Task, WorkStep
from fasten.text.names import capital

HOLE = "hole"
_MOST = 100  # methods and tables of which the rows are kept


def tasks_of(answer: Answer, mount: MountPoint, tables: Tables) -> tuple[Task, ...]:
    """The steps of an answer as they are ticked."""
    proposal = answer.proposal
    rows = rows_of(answer.method, tables)

    def task(step: WorkStep) -> Task:
        row = rows.of(step)
        figure = FIGURES[row.figure](proposal, mount, tables) if row.figure else None
        holes = tuple(range(1, mount.fixings + 1)) if row.at == HOLE else ()
        return Task(step, label_of(step.phase) if figure is None else capital(row.label), figure, holes, row.done)

    return tuple(map(task, answer.steps))


def once(steps: Iterable[WorkStep], tables: Tables, method: str = EVERY) -> tuple[Task, ...]:
    """Steps without a figure, each ticked once."""
    rows = rows_of(method, tables)
    return tuple(Task(step, label_of(step.phase), None, (), rows.of(step).done) for step in steps)


def label_of(phase: Phase) -> str:
    """What a step is called that has no figure."""
    return capital(phase.value)


class Rows:
    """What is ticked of the steps of a method: its own row before that of every, one of the step before the phase's."""

    def __init__(self, method: str, tables: Tables) -> None:
        found = [row for row in tables.rows(STEP_TICKS) if row.method in (method, EVERY)]
        self._rows: dict[tuple[str, str, int | None], StepTick] = {
            (row.method, row.phase, row.step): row for row in found
        }
        self._method = method
        self._of: dict[tuple[Phase, int], StepTick] = {}

    def of(self, step: WorkStep) -> StepTick:
        """The row of a step; every phase has one."""
        at = step.phase, step.step
        if at not in self._of:
            self._of[at] = self._found(step)
        return self._of[at]

    def _found(self, step: WorkStep) -> StepTick:
        places = ((method, at) for method in (self._method, practice.EVERY) for at in (step.step, None))
        keys = ((method, step.phase.value, at) for method, at in places)
        return next(self._rows[key] for key in keys if key in self._rows)


@lru_cache(_MOST)
def rows_of(method: str, tables: Tables) -> Rows:
    """The rows of a method, looked for once."""
    return Rows(method, tables)
