"""The steps of the work, from the rows of every method and of the proposal's own."""

from collections.abc import Iterable

from fasten.advice.blanks import Filled
from fasten.advice.conditions import applies
from fasten.catalog import practice
from fasten.catalog.tables import Tables
from fasten.model import MountPoint, Phase, Proposal, WorkStep

PLACES = {phase: place for place, phase in enumerate(Phase)}


def steps_of(proposal: Proposal, mount: MountPoint, tables: Tables, held: frozenset[str]) -> tuple[WorkStep, ...]:
    """The steps of a proposal in the order of work, their blanks filled; `held` are the conditions that hold."""
    filled = Filled(proposal, mount, tables)
    rows = [row for row in rows_of(proposal.method, tables) if applies(row.only_if, held)]
    return in_order(WorkStep(Phase(row.phase), row.step, row.text.format_map(filled)) for row in rows)


def in_order(steps: Iterable[WorkStep]) -> tuple[WorkStep, ...]:
    """Steps in the order of work: by phase, then by their place within it."""
    return tuple(sorted(steps, key=lambda step: (PLACES[step.phase], step.step)))


def rows_of(method: str, tables: Tables) -> list[practice.Step]:
    """A method's own rows, and those of every method for whose phase and step it has none."""
    rows = tables.rows(practice.Step, "steps")
    own = {_place(row) for row in rows if row.method == method}
    return [row for row in rows if row.method == method or (row.method == practice.EVERY and _place(row) not in own)]


def _place(row: practice.Step) -> tuple[str, int]:
    return row.phase, row.step
