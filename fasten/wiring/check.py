"""Whether the tables of the work on cable hold together: every condition and blank that a row names is known."""

from collections.abc import Iterator

from fasten.advice.steps import PLACES
from fasten.catalog.check import place, unknown
from fasten.catalog.practice import RUN, STEP_TICKS
from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_work import RUN_CAUTIONS, RUN_STEPS, RUN_TOOLS
from fasten.errors import CatalogError
from fasten.model import Phase
from fasten.text.blanks import blanks
from fasten.wiring.blanks import BLANKS
from fasten.wiring.conditions import CONDITIONS, NOT
from fasten.wiring.holes import CONDITIONS as OF_HOLES
from fasten.wiring.made_to import RUN_FIGURES
from fasten.wiring.ways import HOLE

WORK: tuple[TableOf[Row], ...] = (RUN_STEPS, RUN_TOOLS, RUN_CAUTIONS)


def problems(tables: Tables) -> Iterator[CatalogError]:
    """What a row names that nothing knows, and where the steps fall out of the order of work."""
    for table in WORK:
        for number, row in enumerate(tables.rows(table), 1):
            cells, at = vars(row), place(f"{table.name}.toml", number, row)
            known = OF_HOLES if cells.get("of") == HOLE else frozenset(CONDITIONS)
            yield from unknown("condition", (name.removeprefix(NOT) for name in cells["only_if"]), known, at)
            yield from unknown("blank", blanks(cells.get("text", "")), BLANKS, at)
    yield from _out_of_order(tables)
    for number, tick in enumerate(tables.rows(STEP_TICKS), 1):
        if tick.method == RUN and tick.figure:
            yield from unknown("figure", [tick.figure], RUN_FIGURES, place("step-ticks.toml", number, tick))


def _out_of_order(tables: Tables) -> Iterator[CatalogError]:
    before = (-1, 0)
    for number, row in enumerate(tables.rows(RUN_STEPS), 1):
        order = PLACES[Phase(row.phase)], row.step
        if order < before:
            at = place("run-steps.toml", number, row)
            yield CatalogError("the row is out of order", where=at, fix="sort by phase, then step")
        before = order
