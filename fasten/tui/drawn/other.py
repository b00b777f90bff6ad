"""Joints that are not the answer: the nearest that was refused, and what was built where that is another."""

from collections.abc import Iterator
from math import inf

from fasten.after.judge import Judged
from fasten.after.verdict import Verdict
from fasten.model import Advice, Refusal
from fasten.record import record
from fasten.report.job.built import verdict_lines
from fasten.report.wrap import wrapped
from fasten.text.figures import with_unit, words
from fasten.text.names import capital
from fasten.tui.drawn.runs import Line, heading
from fasten.tui.drawn.section import section_lines


@record
class Sheet:
    """The room for a drawing: columns, rows of it and of its dimensions, and how many tones."""

    width: int
    rows: int
    measures: int
    tones: str


def nearest_of(advice: Advice) -> Refusal | None:
    """The refusal that comes nearest of those with a joint: a small change cures it, few checks fail, by little."""
    return min((refused for refused in advice.refusals if refused.joint is not None), key=_far, default=None)


def nearest_lines(advice: Advice, sheet: Sheet) -> Iterator[Line]:
    """The nearest joint that was refused, and what fails written across it."""
    nearest = nearest_of(advice)
    if nearest is None or nearest.joint is None:
        return
    yield from ((), heading("NEAREST", sheet.width))
    yield from _said(f"{capital(nearest.title or words(nearest.method))}: refused, drill nothing", sheet, "bold ink")
    yield from section_lines(
        nearest.joint, advice.mount.behind_mm, sheet.width, sheet.rows, sheet.measures, sheet.tones,
        failed=_why(nearest),
    )  # fmt: skip


def built_lines(judged: Judged, behind_mm: float | None, sheet: Sheet) -> Iterator[Line]:
    """The verdict on what was built; the joint as it was built, where another is needed, with what differs."""
    role = "ink" if judged.verdict is Verdict.HOLDS else "bad" if judged.verdict is Verdict.FAILS else "open"
    for at, text in enumerate(verdict_lines(judged)):
        yield from _said(text, sheet, f"bold {role}" if at == 0 else "ink")
    if judged.proved.joint not in (None, judged.planned.joint):
        yield ()
        yield from joint_lines(judged, behind_mm, sheet)


def joint_lines(judged: Judged, behind_mm: float | None, sheet: Sheet) -> Iterator[Line]:
    """The joint as it was built, with what was planned where that is another, and what fails across it."""
    proved, planned = judged.proved, judged.planned.joint
    joint = proved.joint or planned
    failed = _why(proved) if isinstance(proved, Refusal) else ""
    yield from section_lines(
        joint, behind_mm, sheet.width, sheet.rows, sheet.measures, sheet.tones,
        wanted=None if joint == planned else planned, failed=failed,
    )  # fmt: skip


def _why(refused: Refusal) -> str:
    """What fails, with its figures."""
    check = refused.failed
    if check is None:
        return ", ".join(
            (refused.because, *(f"{one.name} {with_unit(one.value, one.unit)}" for one in refused.figures))
        )
    both = (("wants", check.demand), ("has", check.allowable))
    figures = ", ".join(f"{word} {with_unit(value, check.unit)}" for word, value in both if value is not None)
    return f"{check.title}: {figures}" if figures else check.title


def _said(text: str, sheet: Sheet, role: str) -> list[Line]:
    return [((line, role),) for line in wrapped(text, sheet.width, rest="  ")]


def _far(refused: Refusal) -> tuple[bool, int, float]:
    check = refused.failed
    if check is None or check.demand is None or not check.allowable:
        return not refused.change, refused.fails, inf
    return not refused.change, refused.fails, check.demand / check.allowable
