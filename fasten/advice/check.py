"""Whether the tables of the work hold together: every method, condition and blank that a row names is known."""

from collections.abc import Iterable, Iterator
from string import Formatter

from fasten.advice.blanks import BLANKS
from fasten.advice.conditions import CONDITIONS, NOT
from fasten.advice.steps import PLACES
from fasten.catalog import practice
from fasten.catalog.check import place
from fasten.catalog.tables import Tables
from fasten.errors import CatalogError
from fasten.model import Phase


def problems(tables: Tables) -> Iterator[CatalogError]:
    """What a row names that nothing knows, and where the order of work falls."""
    rows = tables.rows(practice.Step, "steps")
    methods = {practice.EVERY, *(row.method for row in tables.rows(practice.MethodWords, "methods"))}
    before: tuple[int, int, int] | None = None
    groups: dict[str, int] = {}
    for number, row in enumerate(rows, 1):
        at = place("steps.toml", number, row)
        order = groups.setdefault(row.method, number), PLACES[Phase(row.phase)], row.step
        if before is not None and order < before:
            yield CatalogError("the row is out of order", where=at, fix="keep a method together, by phase, then step")
        before = order
        yield from _unknown("method", [row.method], methods, at)
        yield from _unknown("condition", (name.removeprefix(NOT) for name in row.only_if), CONDITIONS, at)
        yield from _unknown("blank", _blanks(row.text), BLANKS, at)


def _unknown(what: str, names: Iterable[str], known: Iterable[str], where: str) -> Iterator[CatalogError]:
    for name in names:
        if name not in known:
            fix = f"write one of {', '.join(sorted(known))}"
            yield CatalogError(f"there is no {what} '{name}'", where=where, fix=fix)


def _blanks(text: str) -> list[str]:
    return [name for _, name, _, _ in Formatter().parse(text) if name is not None]
