"""The work on a run: its steps and cautions, from their rows."""

from collections.abc import Iterator

from fasten.advice.steps import ids_of, in_order
from fasten.advice.tasks import label_of, rows_of
from fasten.catalog.practice import RUN
from fasten.catalog.wiring_work import RUN_CAUTIONS, RUN_STEPS, RunStep
from fasten.model import Caution, Phase, Task, WorkStep
from fasten.text.blanks import blanks
from fasten.text.names import capital
from fasten.wiring.blanks import Filled
from fasten.wiring.conditions import Done, applies
from fasten.wiring.made_to import RUN_FIGURES, made_of

_CABLE = "size"


def steps_of(done: Done, held: frozenset[str]) -> tuple[WorkStep, ...]:
    """The steps in the order of work, their blanks filled; `held` are the conditions that hold."""
    filled, rows = Filled(done), _rows_of(done, held)
    ids = ids_of([("run", row.phase, str(row.step)) for row in rows], [row.only_if for row in rows])
    return in_order(
        WorkStep(Phase(row.phase), row.step, row.text.format_map(filled), id_)
        for row, id_ in zip(rows, ids, strict=True)
    )


def _rows_of(done: Done, held: frozenset[str]) -> list[RunStep]:
    return [row for row in done.tables.rows(RUN_STEPS) if applies(row.only_if, held)]


def tasks_of(done: Done, held: frozenset[str]) -> tuple[Task, ...]:
    """The steps as they are ticked, each with the figure that it is made to where there is one for all of it."""
    rows, texts = rows_of(RUN, done.tables), {(row.phase, row.step): row.text for row in _rows_of(done, held)}

    def task(step: WorkStep) -> Task:
        row = rows.of(step)
        names_own = row.method == RUN
        made_to = RUN_FIGURES[row.figure](done) if names_own and row.figure else None
        is_named = names_own and row.label and (made_to is not None or not row.figure)
        label = capital(row.label) if is_named else label_of(step.phase)
        return Task(step, label, made_to, (), row.done, _made_of(done, step.phase, texts[step.phase.value, step.step]))

    return tuple(map(task, steps_of(done, held)))


def _made_of(done: Done, phase: Phase, text: str) -> str:
    """What a tick of a step keeps; what comes before a cable is at hand is of none, such as that a battery is off."""
    named = tuple(blanks(text))
    return made_of(done, named, on_cable=phase is not Phase.LOOK or _CABLE in named)


def cautions_of(done: Done, held: frozenset[str]) -> Iterator[Caution]:
    """The cautions; one without a condition is for all work on cable."""
    filled = Filled(done)
    for row in done.tables.rows(RUN_CAUTIONS):
        if applies(row.only_if, held):
            yield Caution(row.caution, row.text.format_map(filled), for_all=False)
