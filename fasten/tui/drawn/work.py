"""The work at a mount point: the step in hand with its figure and the holes, and all steps in a list."""

from collections.abc import Iterator

from rich.cells import cell_len

from fasten.job.after.built import said_by
from fasten.job.after.repairs import fixing_of, is_of_repair
from fasten.job.choices import Choice
from fasten.job.ticked import HoleState, StepState, made_as_wanted, made_otherwise
from fasten.job.wiring.runs import RunChoice
from fasten.model import Phase, WorkStep
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.template.sheet import sheet_for
from fasten.report.wrap import wrapped
from fasten.tui.drawn.cells import NONE
from fasten.tui.drawn.digits import can_draw, large
from fasten.tui.drawn.plan import MADE, OTHERWISE, TO_MAKE, places_given, plan_within
from fasten.tui.drawn.rows import DONE, HERE
from fasten.tui.drawn.run import run_lines
from fasten.tui.drawn.runs import Line, Run, clipped, heading, padded
from fasten.tui.state.worked import Spot, Work

READINGS = "readings"
_BORE = "Type what test pieces bore: 2.9 3.1 3.4"
_NOW = "▸"
_MORE: Run = ("…", "quiet")  # where there are more steps than columns
_LEAST_CELLS = 8  # that a long name leaves for them
_LEAST_PLAN = 6  # rows, under which the holes stand in one row
_SEVERAL, _CABLE_ROWS = 2, 2


@record
class Sight:
    """The work with the spot in hand; `solid` where its answer holds, else no figure of it is filled.

    `tones` are those that a run is drawn in.
    """

    work: Work
    spot: Spot | None
    solid: bool
    tones: str = NONE


def head_lines(sight: Sight, width: int) -> list[Line]:
    """Which step it is of how many; each can be tapped."""
    return [] if sight.spot is None else [_progress(sight.work, sight.spot, width)]


def _progress(work: Work, spot: Spot, width: int) -> Line:
    group, number = work.group(spot)
    said = f"{group.title or 'step'}{', ' if group.title else ' '}{number} of {len(group.states)}  "
    if work.name:
        room = width - cell_len(said) - min(_LEAST_CELLS, len(group.states)) - 2
        said = f"{clipped(safe(work.name), room)}: {said}"
    first = next(at for at, (_, state) in enumerate(work.steps) if state is group.states[0])
    cells = [
        (_NOW if at == number else DONE if state.is_done else HERE, f"bold accent @step:{first + at - 1}")
        for at, state in enumerate(group.states, 1)
    ]
    return ((said, "ink"), *_within(cells, number - 1, max(width - cell_len(said), 0)))


def _within(cells: list[Run], at: int, room: int) -> list[Run]:
    """As many of the cells as there is room for, with the one in hand among them; a sign where there are more."""
    if len(cells) <= room:
        return cells
    first = min(max(at - room // 2, 0), len(cells) - room)
    shown = cells[first : first + room]
    begins = [_MORE] if first else shown[:1]
    ends = [_MORE] if first + room < len(cells) else shown[-1:]
    return [*begins, *shown[1:-1], *ends]


def now_lines(sight: Sight, width: int, rows: int) -> list[Line]:
    """The step in hand: its figure three rows high, what it says, and the holes to scale as far as there are rows."""
    work, spot = sight.work, sight.spot
    if not work.groups:
        return _reason(work, width)
    if spot is None:
        return _finished(work, width)
    state = work.state(spot)
    lines = [*_figure(sight, state, width), *_said(work, state, width)]
    plan = list(_plan(sight, state, width, rows - len(lines)))
    return [*lines, *([()] if plan and len(plan) < rows - len(lines) else []), *plan]


def _reason(work: Work, width: int) -> list[Line]:
    said = wrapped(work.choice.reason, width)
    return [(("Nothing fits here: drill nothing", "bold bad"),), *(((text, "ink"),) for text in said)]


def _finished(work: Work, width: int) -> list[Line]:
    """All that is done before the car is driven is ticked."""
    built = work.choice.built
    said = ["All of it is ticked."]
    said += [] if built is None else [f"As built: {'; '.join(f'{name} {safe(text)}' for name, text in said_by(built))}"]
    return [((text, "ink"),) for part in said for text in wrapped(part, width)]


def _figure(sight: Sight, state: StepState, width: int) -> Iterator[Line]:
    """What it is made to; outlined where the answer does not hold, as people drill to a figure this large."""
    figure, solid = state.task.figure, sight.solid
    if state.step.phase in (Phase.BEFORE, Phase.AFTER):
        return  # its group is named over it
    is_large = figure is not None and can_draw(figure.value)
    yield ((state.task.label, "bold ink"), ("" if figure is None or is_large else f" {figure.text}", "bold ink"))
    if figure is None or not can_draw(figure.value):
        return
    style = "bold ink" if solid else "quiet"
    *upper, foot = large(figure.value, solid=solid)
    if len(foot) + len(figure.unit) >= width:
        yield ((figure.text, "bold ink"),)
        return
    yield from (((row, style),) for row in upper)
    more = f", {figure.more}" if figure.more else ""
    yield ((foot, style), (f" {figure.unit}{more}", style))


def is_read(step: WorkStep) -> bool:
    """Whether a step is a test piece whose readings count for the joint; one fixing's own joint has none that do."""
    return step.phase is Phase.TEST_PIECE and not is_of_repair(step.id)


def _said(work: Work, state: StepState, width: int) -> Iterator[Line]:
    for text in state.differing:
        yield from (((line, "bold open"),) for line in wrapped(text, width))
    yield from (((line, "ink"),) for line in wrapped(state.text, width))
    if state.step.phase is Phase.MARK and work.markers:
        said = ", ".join(f"{marker} at {safe(where)}" for marker, where in work.markers)
        yield from (((line, "bold ink"),) for line in wrapped(said, width))
    if is_read(state.step) and not state.is_done:
        yield from (((line, f"accent @{READINGS}:0"),) for line in wrapped(_BORE, width))


def _plan(sight: Sight, state: StepState, width: int, rows: int) -> Iterator[Line]:
    """The holes to scale, or in one row where there is no room; nothing where neither matters."""
    work, spot = sight.work, sight.spot
    if isinstance(work.choice, RunChoice):
        yield from _run(work.choice, state.step.phase, width, rows, sight.tones)
    if not isinstance(work.choice, Choice):
        return
    answer, point = work.choice.answer, work.choice.point
    if answer is None or point is None or spot is None:
        return
    states = [one for _, one in work.steps]
    made, otherwise = made_as_wanted(states), made_otherwise(states)
    if rows >= _LEAST_PLAN and point.fixings >= _SEVERAL:
        sheet = sheet_for(answer, point, point.item)
        is_given = places_given(point)
        at = spot.hole or fixing_of(work.choice.mount, spot.id)
        yield from plan_within(sheet, width, rows - 1, made, at, is_given=is_given, otherwise=otherwise)
    elif state.holes and rows >= 1:
        yield _row_of_holes(state, spot)


def _run(choice: RunChoice, phase: Phase, width: int, rows: int, tones: str) -> Iterator[Line]:
    """The run to scale, where there is room for it."""
    if choice.answer is not None:
        made, holes, is_cut = choice.answer.done.made, choice.run.holes, phase is Phase.CUT
        found = run_lines(made, (), width, _CABLE_ROWS, tones, holes, is_cut=is_cut)
        yield from found if len(found) <= rows else ()


def _mark(hole: HoleState) -> str:
    return MADE if hole.is_done else OTHERWISE if hole.made else TO_MAKE


def _row_of_holes(state: StepState, spot: Spot) -> Line:
    marks = ((hole.number, _mark(hole)) for hole in state.holes)
    return tuple(
        (f" {mark}{number} ", f"bold{' reverse accent' if number == spot.hole else ' ink'} @hole:{number}")
        for number, mark in marks
    )


def list_lines(sight: Sight, width: int) -> tuple[list[Line], int]:
    """All steps in their groups, and the row of the one in hand."""
    work, at, row = sight.work, 0, 0
    lines: list[Line] = []
    for group in work.groups:
        title = (group.title or f"steps at {safe(work.name or work.choice.name)}").upper()
        lines += [*([()] if lines else []), padded(heading(title, width), width)]
        for number, state in enumerate(group.states, 1):
            is_now = sight.spot is not None and sight.spot.id == state.step.id
            row = len(lines) if is_now else row
            lines += _row(state, number, at, width, is_now=is_now)
            at += 1
    return lines, row


def _row(state: StepState, number: int, at: int, width: int, *, is_now: bool) -> list[Line]:
    tap, ink = f" @step:{at}", "bold ink on raised" if is_now else "quiet" if state.is_done else "ink"
    holes = "".join(f" {_mark(hole)}{hole.number}" for hole in state.holes)
    said = (f"{state.text}{'  ' if holes else ''}{holes.strip()}", *state.differing)
    texts = [text for part in said for text in wrapped(part, width - 6)]
    mark = (f"{DONE if state.is_done else HERE} ", f"{'good' if state.is_done else 'accent'}{tap}")
    figure = (f"{number:>2}", f"{'bold reverse accent' if is_now else 'quiet'}{tap}")
    first: Line = (mark, figure, ("  ", tap.strip()), *padded(((texts[0], f"{ink}{tap}"),), width - 6, f"{ink}{tap}"))
    return [
        first,
        *((("      ", tap.strip()), *padded(((text, f"{ink}{tap}"),), width - 6, f"{ink}{tap}")) for text in texts[1:]),
    ]
