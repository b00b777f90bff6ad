"""The runs of a job as a document and as plain data for JSON."""

from typing import Any

from fasten.job.proposals import Proposal
from fasten.job.runs import RunChoice
from fasten.job.settle import ToSettle, to_settle
from fasten.job.words import Job
from fasten.report.forms.document import Column, Document, Section
from fasten.report.wire.as_json import FORMAT, wire_json
from fasten.text.figures import counted, figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.wiring.pieces import end_text, in_block
from fasten.wiring.wired import Wired
from fasten.wiring.words import Run

_RUNS = tuple(Column(title) for title in ("Run", "From", "To", "Cable", "Fuse", "Drop", "Still open"))
_WHY = (Column("Run"), Column("Why"))
_LAPSED = (Column("Run"), Column("Id"))
_SETTLE = (Column("What"), Column("Needs"), Column("Runs"), Column("Id"))


def runs_document(job: Job, found: tuple[RunChoice, ...], offered: tuple[Proposal, ...] = ()) -> Document:
    """Every run with its cable, fuse and what is still open; those that get nothing, and what is proposed."""
    answered = [(one, one.answer) for one in found if one.answer is not None]
    unfit = tuple((one.name, capital(one.reason)) for one in found if one.answer is None)
    lapsed = tuple((one.name, ", ".join(answer.lapsed)) for one, answer in answered if answer.lapsed)
    sections = (
        Section("Runs", _RUNS, tuple(_row(one, answer) for one, answer in answered)),
        Section("Nothing fits", _WHY, unfit),
        Section("To measure, look at or say: what changes most first", _SETTLE, tuple(map(_thing, _open(found)))),
        Section("Accepted before, but not open now", _LAPSED, lapsed),
        Section("Proposed, take them with --take", notes=tuple(one.text for one in offered), numbered=True),
    )
    title = f"Runs of cable: {job.title}" if job.title else "Runs of cable"
    lead: tuple[str, ...] = (f"{counted(len(found), 'run')}.",) if found else ("The job has no runs yet.",)
    if any(not one.accepted for _, answer in answered for one in answer.confirms):
        lead = (
            *lead,
            "Settle what is still open: fasten runs JOB RUN --accept takes an id, once it was measured or seen.",
        )
    return Document(title, lead, tuple(section for section in sections if section.rows or section.notes))


def runs_json(found: tuple[RunChoice, ...], offered: tuple[Proposal, ...] = ()) -> dict[str, Any]:
    """Every run by its name with its answer, as `fasten wire` gives it."""
    return {
        "format": FORMAT,
        "runs": [{"name": one.name, **_answer(one)} for one in found],
        "to_settle": [
            {
                "id": one.id or None,
                "title": one.title,
                "needs": one.needs,
                "runs": list(one.runs),
                "field": one.word or None,
            }
            for one in _open(found)
        ],
        "proposals": [{"text": one.text, "name": one.run.name, "asks": list(one.asks)} for one in offered],
    }


def _open(found: tuple[RunChoice, ...]) -> tuple[ToSettle, ...]:
    return tuple(one for one in to_settle(found) if not one.accepted)


def _thing(one: ToSettle) -> tuple[str, ...]:
    return one.title, one.needs, ", ".join(one.runs), one.id


def _answer(one: RunChoice) -> dict[str, Any]:
    if one.answer is not None:
        return wire_json(one.answer)
    return {"format": FORMAT, "fits": False, "because": one.reason, "fix": None}


def _row(one: RunChoice, answer: Wired) -> tuple[str, ...]:
    sizing, fuse = answer.sizing, answer.sizing.fuse
    found = sizing.conductor
    block = " in the block" if in_block(sizing.run) else ""
    drop = "" if found is None or sizing.lead is not None else (
        f"{rounded_up(found.drop_v, 3)} of {rounded_down(found.limit_v, 3)} V"
    )  # fmt: skip
    failing = "DOES NOT HOLD, " if answer.fails else ""
    return (
        one.name, _at(sizing.run.from_name, sizing.run, first=True), _at(sizing.run.to_name, sizing.run, first=False),
        sizing.size.name, "" if fuse is None else f"{figure(fuse.rating_a)} A{block}", drop,
        failing + ", ".join(title[0].lower() + title[1:] for title in answer.to_measure),
    )  # fmt: skip


def _at(name: str, run: Run, *, first: bool) -> str:
    return name or end_text(run.from_ if first else run.to)
