"""Whether the tables of the work hold together: every method, condition and blank that a row names is known."""

from collections.abc import Iterable, Iterator

from fasten.advice.blanks import BLANKS
from fasten.advice.conditions import CONDITIONS, NOT
from fasten.advice.made_to import FIGURES
from fasten.advice.steps import PLACES
from fasten.advice.tasks import HOLE
from fasten.catalog import practice
from fasten.catalog.check import place, unknown
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS
from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables
from fasten.errors import CatalogError
from fasten.model import Phase
from fasten.text.blanks import blanks

WORK: tuple[TableOf[Row], ...] = (practice.STEPS, practice.TOOLS, TOOL_KINDS, CONSUMABLES, practice.CAUTIONS)


def problems(tables: Tables) -> Iterator[CatalogError]:
    """What a row names that nothing knows, and where the steps fall out of the order of work."""
    methods = {row.method for row in tables.rows(practice.METHOD_WORDS)} | {practice.EVERY, practice.JOB}
    for table in WORK:
        for number, row in enumerate(tables.rows(table), 1):
            cells, at = vars(row), place(f"{table.name}.toml", number, row)
            conditions = (text.removeprefix(NOT) for text in cells.get("only_if", ()))
            yield from unknown("method", [cells["method"]] if "method" in cells else [], methods, at)
            yield from unknown("condition", conditions, CONDITIONS, at)
            yield from unknown("blank", blanks(cells.get("text", "")), BLANKS, at)
    yield from _out_of_order(tables)
    yield from _ticks(tables, methods | {practice.RUN})


def _ticks(tables: Tables, methods: Iterable[str]) -> Iterator[CatalogError]:
    """What a row of ticks names that nothing knows, and the phases that have no row for all methods."""
    rows = tables.rows(practice.STEP_TICKS)
    for number, row in enumerate(rows, 1):
        at = place("step-ticks.toml", number, row)
        yield from unknown("method", [row.method], methods, at)
        if row.method != practice.RUN:
            yield from unknown("figure", [row.figure] if row.figure else [], FIGURES, at)
        if (row.at == HOLE) != ("n" in blanks(row.done)):
            fix = "write {n} for its number, where the step is ticked at each hole, and nowhere else"
            yield CatalogError("'done' does not go with 'at'", where=at, fix=fix)
    known = {row.phase for row in rows if row.method == practice.EVERY and row.step is None}
    known |= {row.phase for row in rows if row.method == practice.JOB}
    for phase in (phase.value for phase in Phase if phase.value not in known):
        yield CatalogError(f"the phase '{phase}' has no row without a step", where="step-ticks.toml", fix="add one")


def _out_of_order(tables: Tables) -> Iterator[CatalogError]:
    before: tuple[int, int, int] | None = None
    groups: dict[str, int] = {}
    for number, row in enumerate(tables.rows(practice.STEPS), 1):
        order = groups.setdefault(row.method, number), PLACES[Phase(row.phase)], row.step
        if before is not None and order < before:
            fix = "keep a method together, by phase, then step"
            yield CatalogError("the row is out of order", where=place("steps.toml", number, row), fix=fix)
        before = order
