"""The steps of the work, from the rows of every method and of the proposal's own."""

from collections.abc import Iterable

from fasten.advice.blanks import Filled
from fasten.advice.conditions import applies
from fasten.advice.rows import steps_of_method
from fasten.catalog.tables import Tables
from fasten.model import MountPoint, Phase, Proposal, WorkStep

PLACES = {phase: place for place, phase in enumerate(Phase)}


def steps_of(proposal: Proposal, mount: MountPoint, tables: Tables, held: frozenset[str]) -> tuple[WorkStep, ...]:
    """The steps of a proposal in the order of work, their blanks filled; `held` are the conditions that hold."""
    filled = Filled(proposal, mount, tables)
    rows = [row for row in steps_of_method(proposal.method, tables) if applies(row.only_if, held)]
    return in_order(WorkStep(Phase(row.phase), row.step, row.text.format_map(filled)) for row in rows)


def in_order(steps: Iterable[WorkStep]) -> tuple[WorkStep, ...]:
    """Steps in the order of work: by phase, then by their place within it."""
    return tuple(sorted(steps, key=lambda step: (PLACES[step.phase], step.step)))
