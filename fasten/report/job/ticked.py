"""Steps with what is ticked of them, in words: a box to tick by hand where it is not."""

from collections.abc import Iterable, Iterator
from typing import Any

from fasten.job.ticked import HoleState, StepState, differs

TO_DO, DONE = "□", "■"


def ticked_text(state: StepState) -> str:
    """A step with its mark, the mark of each hole where there are several, and what was made to another figure."""
    return " ".join((mark(done=state.is_done), state.text, *_more(state)))


def mark(*, done: bool) -> str:
    """The mark of a step or hole."""
    return DONE if done else TO_DO


def ticked_json(states: Iterable[StepState]) -> list[dict[str, Any]]:
    """The steps as plain data: what each is found again by, and what is ticked of it; null where there is no figure."""
    return [_json(state) for state in states]


def _more(state: StepState) -> Iterator[str]:
    if len(state.holes) > 1:
        yield f"Holes: {', '.join(_hole(hole, state.task.kept) for hole in state.holes)}."
    elif state.differing:
        yield f"({'; '.join(state.differing)})"


def _hole(hole: HoleState, wants: str) -> str:
    other = f" ({differs(hole.made, wants)})" if hole.made and not hole.is_done else ""
    return f"{mark(done=hole.is_done)} {hole.number}{other}"


def _json(state: StepState) -> dict[str, Any]:
    return {
        "id": state.step.id, "phase": state.step.phase.value, "text": state.text,
        "figure": state.task.kept or None, "done": state.is_done, "made_to": state.made or None,
        "holes": [{"hole": hole.number, "done": hole.is_done, "made_to": hole.made or None} for hole in state.holes],
    }  # fmt: skip
