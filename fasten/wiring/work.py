"""The work on a run: its steps and cautions, from their rows."""

from collections.abc import Iterator

from fasten.advice.steps import ids_of, in_order
from fasten.catalog.wiring_work import RUN_CAUTIONS, RUN_STEPS
from fasten.model import Caution, Phase, WorkStep
from fasten.wiring.blanks import Filled
from fasten.wiring.conditions import Done, applies


def steps_of(done: Done, held: frozenset[str]) -> tuple[WorkStep, ...]:
    """The steps in the order of work, their blanks filled; `held` are the conditions that hold."""
    filled = Filled(done)
    rows = [row for row in done.tables.rows(RUN_STEPS) if applies(row.only_if, held)]
    ids = ids_of([("run", row.phase, str(row.step)) for row in rows], [row.only_if for row in rows])
    return in_order(
        WorkStep(Phase(row.phase), row.step, row.text.format_map(filled), id_)
        for row, id_ in zip(rows, ids, strict=True)
    )


def cautions_of(done: Done, held: frozenset[str]) -> Iterator[Caution]:
    """The cautions; one without a condition is for all work on cable."""
    filled = Filled(done)
    for row in done.tables.rows(RUN_CAUTIONS):
        if applies(row.only_if, held):
            yield Caution(row.caution, row.text.format_map(filled), for_all=False)
