"""What does instead of a screw length that is missing, as a document and as plain data for JSON."""

from typing import Any

from fasten.job.choices import why_not
from fasten.job.list.parts import part_text
from fasten.job.shelf.substitute import Substitute
from fasten.model import Answer, Refusal
from fasten.model.line import Part
from fasten.record import record
from fasten.report.answer.as_json import refusal_plain
from fasten.report.answer.headline import needs, standing
from fasten.report.forms.document import Column, Document, Section
from fasten.report.plain import to_plain
from fasten.text.figures import figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up

FORMAT = 1
_COLUMNS = (
    Column("Screw"), Column("At hand", True), Column("Will do"), Column("Engaged", True), Column("Past thread", True),
    Column("Behind", True), Column("Why"),
)  # fmt: skip


@record
class Instead:
    """The substitutes at one mount point: what is wanted, what was tried, what was not, or why nothing was."""

    mount: str
    title: str
    wanted: Part | None
    behind_mm: float | None
    found: tuple[Substitute, ...]
    others: tuple[Part, ...]
    reason: str


def instead_document(report: Instead) -> Document:
    """Every length that was tried, what does first, with what it engages, what stands out and what it needs behind."""
    wanted = part_text(report.wanted) if report.wanted is not None else "the screw"
    sections = (
        Section("Lengths", _COLUMNS, tuple(map(_row, report.found)), lines=tuple(map(_in_words, report.found))),
        Section("Not tried", notes=tuple(capital(part_text(part)) for part in report.others)),
    )
    return Document(
        f"Instead of {wanted}", tuple(_lead(report)), tuple(s for s in sections if s.rows or s.notes)
    )  # fmt: skip


def instead_json(report: Instead) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {
        "format": FORMAT,
        "mount": report.mount,
        "answer": report.title or None,
        "wanted": to_plain(report.wanted),
        "behind_available_mm": report.behind_mm,
        "substitutes": [_plain(entry) for entry in report.found],
        "not_tried": to_plain(report.others),
        "reason": report.reason or None,
    }


def _lead(report: Instead) -> list[str]:
    if report.reason:
        return [f"{report.mount}: {report.reason}."]
    behind = "" if report.behind_mm is None else f", {figure(report.behind_mm)} mm behind"
    found = [f"{report.mount}: {report.title}{behind}."]
    good = [(e.part, e.verdict) for e in report.found if isinstance(e.verdict, Answer) and e.enough]
    if good:
        found.append(_does(*good[0]))
    elif any(entry.does for entry in report.found):
        found.append("There are too few of what will do.")
    else:
        found.append("None of these will do." if report.found else "There is no other length of it.")
    if report.others:
        found.append("Other heads, standards and classes make another joint and are not tried.")
    return found


def _does(part: Part, answer: Answer) -> str:
    """That it does, and only if, where something of it could not be checked."""
    needed = f", but is {standing(answer).lower()}: it needs {'; '.join(needs(answer))}"
    return f"{capital(part_text(part))} will do{'' if answer.proposal.proven else needed}."


def _row(entry: Substitute) -> tuple[str, ...]:
    count = "" if entry.count is None else f"{entry.count} of {entry.needed}"
    return (
        _size(entry), count, "yes" if entry.does else "NO",
        f"{rounded_down(entry.engagement_mm, 2)} mm", _past(entry.protrusion_mm),
        f"{rounded_up(entry.behind_needed_mm, 1)} mm", _why(entry),
    )  # fmt: skip


def _in_words(entry: Substitute) -> tuple[str, ...]:
    have = "" if entry.count is None else f"{entry.count} at hand, {entry.needed} needed; "
    past = _past(entry.protrusion_mm)
    ends = f"ends {past} the thread" if entry.protrusion_mm < 0 else f"{past} past the thread"
    engaged, behind = rounded_down(entry.engagement_mm, 2), rounded_up(entry.behind_needed_mm, 1)
    fits = f"{have}{engaged} mm engaged, {ends}, {behind} mm behind"
    return f"{_size(entry)} {'will do' if entry.does else 'will NOT do'}", fits, _why(entry)


def _size(entry: Substitute) -> str:
    return f"{entry.part.size} x {figure(entry.part.length_mm or 0.0)} mm"


def _past(protrusion_mm: float) -> str:
    """How far the screw's end stands past the thread it is in, or ends within it."""
    return f"{figure(-protrusion_mm)} mm inside" if protrusion_mm < 0 else f"{figure(protrusion_mm)} mm"


def _why(entry: Substitute) -> str:
    if isinstance(entry.verdict, Refusal):
        return why_not(entry.verdict)
    if entry.verdict.proposal.proven:
        return "proven"
    return f"{standing(entry.verdict).lower()}: needs {'; '.join(needs(entry.verdict))}"


def _plain(entry: Substitute) -> dict[str, Any]:
    return {
        "part": to_plain(entry.part), "count": entry.count, "needed": entry.needed, "enough": entry.enough,
        "does": entry.does, "bottoms_out": entry.bottoms_out, "engagement_mm": entry.engagement_mm,
        "protrusion_mm": entry.protrusion_mm, "behind_needed_mm": entry.behind_needed_mm, **_verdict(entry.verdict),
    }  # fmt: skip


def _verdict(verdict: Answer | Refusal) -> dict[str, Any]:
    """What is proved of it, or the refusal; the other of the two is null."""
    if isinstance(verdict, Refusal):
        return {"proven": None, "needs": None, "torque": None, "refusal": refusal_plain(verdict)}
    torque = to_plain(verdict.proposal.torque)
    kept = None if torque is None else {key: torque[key] for key in ("target_nm", "min_nm", "max_nm", "limited_by")}
    return {"proven": verdict.proposal.proven, "needs": to_plain(needs(verdict)), "torque": kept, "refusal": None}
