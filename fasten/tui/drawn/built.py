"""The verdict on what was built as a band, with all that it needs, all that is to be done, and all that is less."""

from fasten.after.judge import Judged
from fasten.after.verdict import Verdict
from fasten.report.job.as_built import less_lines
from fasten.tui.drawn.band import band
from fasten.tui.drawn.runs import Line


def built_band(found: Judged | None, trouble: str, width: int, *, is_planned: bool = False) -> list[Line]:
    """One of the four verdicts; or what is in the way of one, or that all that is said is only planned."""
    if trouble:
        row, more = band(False, "NOT WRITTEN DOWN", (trouble,), width)
    elif is_planned:
        row, more = band(False, "AS PLANNED", ("measure it: nothing of it is built by that",), width)
    elif found is None:
        row, more = band(False, "NO VERDICT", ("nothing is said that could be proved",), width)
    else:
        needs = tuple(f"{'' if at else 'needs '}{need}" for at, need in enumerate(found.needs))
        reasons = (*found.do, *needs, *less_lines(found.less))
        role = "bad" if found.verdict is Verdict.FAILS else "open"
        row, more = band(found.verdict.stands, found.verdict.upper(), reasons or ("as it was built",), width, role)
    return [row, *more]
