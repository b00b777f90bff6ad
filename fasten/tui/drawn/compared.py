"""Proposals as rows to compare: how each stands, and beneath it everything that a choice between them turns on."""

from fasten.model import Advice, Answer
from fasten.report.answer.compare import said_of
from fasten.report.answer.headline import needs
from fasten.report.safe import safe
from fasten.text.names import capital
from fasten.tui.drawn.rail import state_of
from fasten.tui.drawn.rows import Row

_LABEL = 9


def compared_rows(advice: Advice) -> list[Row]:
    """Every answer in order of rank."""
    return [_row(answer) for answer in advice.answers]


def _row(answer: Answer) -> Row:
    open_ = () if answer.proposal.proven else (f"{'needs':{_LABEL}}{'; '.join(needs(answer))}",)
    said = tuple(f"{label.lower():{_LABEL}}{safe(text)}" for label, text in said_of(answer))
    return Row(str(answer.rank), safe(capital(answer.title)), state_of(answer), (*open_, *said), _LABEL)
