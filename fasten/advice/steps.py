"""The steps of the work, from the rows of every method and of the proposal's own."""

from collections import Counter
from collections.abc import Iterable, Sequence

from fasten.advice.blanks import Filled
from fasten.advice.conditions import Holding, applies
from fasten.advice.rows import steps_of_method
from fasten.catalog.tables import Tables
from fasten.model import Phase, WorkStep

PLACES = {phase: place for place, phase in enumerate(Phase)}


def steps_of(method: str, held: Holding, filled: Filled, tables: Tables) -> tuple[WorkStep, ...]:
    """The steps of a method in the order of work, for what is `held` and with these blanks."""
    rows = [row for row in steps_of_method(method, tables) if applies(row.only_if, held)]
    ids = ids_of([(row.method, row.phase, str(row.step)) for row in rows], [row.only_if for row in rows])
    return in_order(
        WorkStep(Phase(row.phase), row.step, row.text.format_map(filled), id_)
        for row, id_ in zip(rows, ids, strict=True)
    )


def ids_of(keys: Sequence[tuple[str, ...]], only_if: Sequence[tuple[str, ...]]) -> list[str]:
    """What steps are found again by: their keys; of two that hold at once under one key, their conditions too."""
    twice = {key for key, count in Counter(keys).items() if count > 1}
    whole = ((*key, *held) if key in twice else key for key, held in zip(keys, only_if, strict=True))
    return ["/".join(parts).replace(" ", "_") for parts in whole]


def in_order(steps: Iterable[WorkStep]) -> tuple[WorkStep, ...]:
    """Steps in the order of work: by phase, then by their place within it."""
    return tuple(sorted(steps, key=lambda step: (PLACES[step.phase], step.step)))
