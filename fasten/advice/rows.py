"""Which rows of the work are for a method: its own, and those of every method that it does not replace."""

from collections.abc import Callable, Hashable, Iterable
from functools import lru_cache
from typing import Protocol, TypeVar

from fasten.catalog import practice
from fasten.catalog.tables import Tables
from fasten.model import Hole

PILOT = "pilot"  # the tool that drills the first hole
_MOST = 100  # methods and tables of which the rows are kept


class _OfMethod(Protocol):
    @property
    def method(self) -> str: ...


RowT = TypeVar("RowT", bound=_OfMethod)


@lru_cache(_MOST)
def steps_of_method(method: str, tables: Tables) -> tuple[practice.Step, ...]:
    """The steps of a method; one of its own replaces those of every method for its phase and place."""
    return _of_method(method, tables.rows(practice.STEPS), lambda row: (row.phase, row.step))


@lru_cache(_MOST)
def tools_of_method(method: str, tables: Tables) -> tuple[practice.Tool, ...]:
    """The tools and consumables of a method; a row of its own replaces those of every method for that tool."""
    return _of_method(method, tables.rows(practice.TOOLS), lambda row: row.tool)


@lru_cache(_MOST)
def cautions_of_method(method: str, tables: Tables) -> tuple[practice.Caution, ...]:
    """The cautions of a method and of every one, in the order of the table."""
    return tuple(row for row in tables.rows(practice.CAUTIONS) if row.method in {method, practice.EVERY})


def _of_method(method: str, rows: Iterable[RowT], place: Callable[[RowT], Hashable]) -> tuple[RowT, ...]:
    found = [row for row in rows if row.method in {method, practice.EVERY}]
    own = {place(row) for row in found if row.method == method}
    return tuple(row for row in found if row.method == method or place(row) not in own)


def sized_mm(row: practice.Tool, hole: Hole | None) -> float | None:
    """The size of a bit that goes before the hole: no larger than the hole itself."""
    return row.size_mm if row.size_mm is None or hole is None else min(row.size_mm, hole.diameter_mm)


def pilot_mm(method: str, hole: Hole | None, tables: Tables) -> float | None:
    """How wide the first hole of a method is, where it drills one: the space behind is probed through it."""
    sizes = (sized_mm(row, hole) for row in tools_of_method(method, tables) if row.tool == PILOT)
    return next(sizes, None) if hole is not None else None
