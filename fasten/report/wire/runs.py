"""The runs of a job as a document and as plain data for JSON."""

from typing import Any

from fasten.job.list.parts import part_text
from fasten.job.wiring.proposals import Proposal
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.settle import ToSettle, to_settle
from fasten.job.wiring.ways import WayChoice, ways_of
from fasten.job.words import Job
from fasten.model import Status
from fasten.model.plan import ConsumableNeed
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.hardware import used_text
from fasten.report.wire.as_json import FORMAT, ways_json, wire_json
from fasten.report.wire.as_text import open_titles
from fasten.text.exceeded import exceeded
from fasten.text.figures import counted, figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.wiring.pieces import end_text, in_block
from fasten.wiring.wired import Wired
from fasten.wiring.words import Run

_RUNS = tuple(Column(title) for title in ("Run", "From", "To", "Cable", "Fuse", "Drop", "Still open"))
_WHY = (Column("Run"), Column("Why"))
_LAPSED = (Column("Run"), Column("Id"))
_WAYS = tuple(Column(title) for title in ("Where", "Runs", "Gets", "Still open"))
_SETTLE = (Column("What"), Column("Needs"), Column("Runs"), Column("Id"))


def runs_document(
    job: Job, found: tuple[RunChoice, ...], offered: tuple[Proposal, ...] = (), ways: tuple[WayChoice, ...] = ()
) -> Document:
    """Every run with its cable, fuse and what is still open; those that get nothing, and what is proposed."""
    answered = [(one, one.answer) for one in found if one.answer is not None]
    nothing = [one for one in found if one.answer is None]
    unfit, unsaid = (
        tuple((one.name, capital(one.reason)) for one in nothing if one.is_said is is_said) for is_said in (True, False)
    )
    lapsed = tuple((one.name, ", ".join(answer.lapsed)) for one, answer in answered if answer.lapsed)
    sections = (
        Section("Runs", _RUNS, tuple(_row(one, answer) for one, answer in answered)),
        Section("Nothing fits", _WHY, unfit),
        Section("Still to say", _WHY, unsaid),
        Section("To measure, look at or say: what changes most first", _SETTLE, _things(_open(found, ways))),
        Section("Sections and holes", _WAYS, tuple(map(_way, ways))),
        Section("Accepted before, but not open now", _LAPSED, lapsed),
        Section("Proposed, take them with --take", notes=tuple(one.text for one in offered), numbered=True),
    )
    title = f"Runs of cable: {job.title}" if job.title else "Runs of cable"
    lead: tuple[str, ...] = (f"{counted(len(found), 'run')}.",) if found else ("The job has no runs yet.",)
    confirms = (*(answer.confirms for _, answer in answered), *(way.confirms for way in ways))
    if any(not one.accepted for found_there in confirms for one in found_there):
        lead = (
            *lead,
            "Settle what is still open: fasten runs JOB RUN --accept takes an id, once it was measured or seen.",
        )
    return Document(title, lead, tuple(section for section in sections if section.rows or section.notes))


def way_document(way: WayChoice) -> Document:
    """A section or hole in full: what it gets, its steps, and what is still to be looked at, each by its id."""
    plan = way.plan
    of = f"{'Hole' if way.is_hole else 'Section'}: {way.name}"
    if plan is None:
        return Document(of, (f"{capital(way.reason)}.",), ())
    lead = "Every check holds." if plan.proven else "NOT PROVEN: settle what is still open."
    left = tuple(f"{one.title}: {one.id}" for one in way.confirms if not one.accepted)
    found = (
        Section("Runs", notes=way.runs),
        Section("Still open", notes=plan.unresolved),
        Section("To accept, once it was measured or seen", notes=left),
        Section("Steps", notes=tuple(step.text for step in plan.steps), numbered=True),
        Section(
            "In the box",
            notes=(*(f"{need.count} x {part_text(need.part)}" for need in plan.parts), *map(_used, plan.consumables)),
        ),
        Section("Bits", notes=tuple(f"{need.name}, {need.purpose}" for need in plan.bits)),
    )
    return Document(of, (capital(f"{plan.title}."), lead), tuple(one for one in found if one.notes))


def _used(need: ConsumableNeed) -> str:
    """A consumable with how much goes in the box."""
    amount = "" if need.amount is None else f"{used_text(need.in_the_box(need.amount), need.unit)} "
    return f"{amount}{', '.join(filter(None, (need.names[-1], need.detail)))}"


def runs_json(
    found: tuple[RunChoice, ...], offered: tuple[Proposal, ...] = (), ways: tuple[WayChoice, ...] = ()
) -> dict[str, Any]:
    """Every run by its name with its answer, as `fasten wire` gives it, then sections and holes."""
    return {
        "format": FORMAT,
        "runs": [{"name": one.name, **_answer(one, ways)} for one in found],
        **ways_json(ways),
        "to_settle": [
            {
                "id": one.id or None,
                "title": one.title,
                "needs": one.needs,
                "runs": list(one.runs),
                "field": one.word or None,
            }
            for one in _open(found, ways)
        ],
        "proposals": [
            {
                "text": one.text,
                "name": one.run.name,
                "asks": list(one.asks),
                "mounts": [mount.name for mount in one.mounts],
            }
            for one in offered
        ],
    }


def _open(found: tuple[RunChoice, ...], ways: tuple[WayChoice, ...]) -> tuple[ToSettle, ...]:
    return tuple(one for one in to_settle(found, ways) if not one.accepted)


def _way(way: WayChoice) -> tuple[str, ...]:
    if way.plan is None:
        return way.name, ", ".join(way.runs), capital(way.reason), ""
    return way.name, ", ".join(way.runs), way.plan.title, "; ".join(way.plan.unresolved)


def _things(open_: tuple[ToSettle, ...]) -> tuple[tuple[str, ...], ...]:
    """What is to settle, each once with all the runs it is of."""
    runs: dict[tuple[str, str, str], list[str]] = {}
    for one in open_:
        runs.setdefault((one.title, one.needs, one.id), []).extend(one.runs)
    return tuple((title, needs, ", ".join(names), id_) for (title, needs, id_), names in runs.items())


def _answer(one: RunChoice, ways: tuple[WayChoice, ...]) -> dict[str, Any]:
    if one.answer is not None:
        return wire_json(one.answer, ways_of(one.run, ways))
    return {"format": FORMAT, "fits": False, "because": one.reason, "fix": None}


def _row(one: RunChoice, answer: Wired) -> tuple[str, ...]:
    sizing, fuse = answer.sizing, answer.sizing.fuse
    found = sizing.conductor
    block = " in the block" if in_block(sizing.run) else ""
    drop = "" if found is None or sizing.lead is not None else (
        f"{rounded_up(found.drop_v, 3)} of {rounded_down(found.limit_v, 3)} V"
    )  # fmt: skip
    failing = ", ".join(exceeded(check) for check in answer.checks if check.status is Status.FAILS)
    return (
        one.name, _at(sizing.run.from_name, sizing.run, first=True), _at(sizing.run.to_name, sizing.run, first=False),
        sizing.size.name, "" if fuse is None else f"{figure(fuse.rating_a)} A{block}", drop,
        "; ".join(filter(None, (failing and f"DOES NOT HOLD: {failing}", ", ".join(open_titles(answer))))),
    )  # fmt: skip


def _at(name: str, run: Run, *, first: bool) -> str:
    return name or end_text(run.from_ if first else run.to)
