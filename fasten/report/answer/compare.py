"""The answers to one question side by side."""

from collections.abc import Iterator

from fasten.model import Advice, Answer, Status
from fasten.report.answer.headline import needs, parts
from fasten.report.forms.document import Column, Document, Section
from fasten.text.names import capital
from fasten.text.units import number

_TOGETHER = 3  # answers side by side: more are not compared, they are read


def compare_document(advice: Advice) -> Document:
    """Every answer in order of rank: hole, bit, hardware, torque, what is not checked, removals, points."""
    groups = [advice.answers[at : at + _TOGETHER] for at in range(0, len(advice.answers), _TOGETHER)]
    sections = tuple(_section(group) for group in groups)
    lead = () if sections else ("Nothing fits, so there is nothing to compare.",)
    return Document("Proposals side by side", lead, sections)


def _section(group: tuple[Answer, ...]) -> Section:
    each = [dict(_said(answer)) for answer in group]
    labels = list(dict.fromkeys(label for said in each for label in said))
    rows = tuple((label, *(said.get(label, "none") for said in each)) for label in labels)
    columns = (Column(""), *(Column(str(answer.rank)) for answer in group))
    ranks = f"{group[0].rank} to {group[-1].rank}" if len(group) > 1 else str(group[0].rank)
    return Section(f"Proposals {ranks}", columns, rows)


def _marginal(answer: Answer) -> str:
    return "marginal: " if answer.proposal.status is Status.MARGINAL else ""


def _said(answer: Answer) -> Iterator[tuple[str, str]]:
    """Label and text of everything a choice turns on."""
    yield "What", capital(answer.title)
    yield from _remarks(answer)
    yield "Proven", "yes" if answer.proposal.proven else f"{_marginal(answer)}needs {'; '.join(needs(answer))}"
    yield from _parts(answer)


def said_of(answer: Answer) -> Iterator[tuple[str, str]]:
    """The same without what it is and whether it is proven."""
    yield from _remarks(answer)
    yield from _parts(answer)


def _remarks(answer: Answer) -> Iterator[tuple[str, str]]:
    if answer.remarks:
        yield "Remarks", "; ".join(answer.remarks)


def _parts(answer: Answer) -> Iterator[tuple[str, str]]:
    yield from parts(answer)
    removals = answer.proposal.removals
    yield "Removals", f"{removals.wanted} of {removals.rated} in ten years"
    yield "Points", f"{number(answer.score.total, 1)}, fewer rank first"
