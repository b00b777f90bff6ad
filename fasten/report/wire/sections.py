"""The sections of a run's answer: its ends, its list, the steps, tools and cautions."""

from fasten.model.plan import Plan
from fasten.report.forms.document import Column, Section
from fasten.text.figures import counted
from fasten.text.names import capital
from fasten.text.rounding import rounded_up
from fasten.wiring.blanks import metres, turn_text
from fasten.wiring.ends import EndFit
from fasten.wiring.lines import RunLine, lines_of
from fasten.wiring.parts import part_words
from fasten.wiring.wired import Wired

_ENDS = tuple(Column(title) for title in ("Where", "Part", "Strip", "Shrink", "Pull", "Torque"))


_WIRING = (
    Column("In the box"), Column("Needed", True), Column("Spare", True), Column("Trial", True), Column("Cut", True),
    Column("Confirm"),
)  # fmt: skip


def sections(answer: Wired, plan: Plan) -> tuple[Section, ...]:
    """Ends, list, steps, tools and cautions; those that say nothing left out."""
    ends = answer.done.made.ends
    listed = lines_of(plan, ends, answer.done.tables)
    found = (
        ends_section(answer),
        Section("Wiring", _WIRING, tuple(map(_cells, listed)), lines=tuple(map(_line, listed))),
        Section("Steps", notes=tuple(step.text for step in plan.steps), numbered=True),
        Section("Tools", notes=tuple(capital(need.name) for need in plan.tools)),
        Section("Cautions", notes=tuple(caution.text for caution in plan.cautions)),
    )  # fmt: skip
    return tuple(section for section in found if section.rows or section.notes)


def ends_section(answer: Wired) -> Section:
    """Every end: where, its part, and how it is made."""
    ends = answer.done.made.ends
    return Section("Ends", _ENDS, tuple(map(_end, ends)), notes=_note(ends))


def to_accept(answer: Wired) -> tuple[Section, ...]:
    """What can be accepted, each by its id, and how; what was and is not open any more. None where there is neither."""
    left = tuple(f"{one.title}: {one.id}" for one in answer.confirms if not one.accepted)
    how = ("Measure it or look, then add --accept with its id, or all.",) if left else ()
    found = (
        Section("To accept", notes=(*how, *left)),
        Section("Accepted before, but not open now", notes=answer.lapsed),
    )
    return tuple(section for section in found if section.notes)


def _note(ends: tuple[EndFit, ...]) -> tuple[str, ...]:
    """Whose torque comes before a figure of ours."""
    known = any(end.turn.least_nm is not None and end.turn.target_nm is None for end in ends)
    return ("The torque that battery or device asks for comes first.",) if known else ()


def _end(end: EndFit) -> tuple[str, ...]:
    shrink = end.shrink
    return (
        end.label, _fitted(end),
        "" if end.strip_mm is None else f"{rounded_up(end.strip_mm, 0)} mm",
        "none" if shrink is None else f"{shrink.row.size} {rounded_up(shrink.cut_mm, 0)} mm",
        "" if end.pull_n is None else f"{rounded_up(end.pull_n, 0)} N", turn_text(end.turn),
    )  # fmt: skip


def _fitted(end: EndFit) -> str:
    """The part of an end, else what its strand comes to."""
    return part_words(end.part) if end.part is not None else "" if end.bare is None else end.bare.value


def _cells(line: RunLine) -> tuple[str, ...]:
    """The same in columns."""
    counts = ("" if count is None else str(count) for count in (line.needed, line.spare, line.trial))
    cut = "" if line.cut_m is None else metres(line.cut_m * 1000)
    return (_line_name(line), *counts, cut, "; ".join(line.why))


def _line_name(line: RunLine) -> str:
    """How much of what."""
    if line.pack_m is not None:
        return f"{metres(line.pack_m * 1000)} {capital(line.part)} {line.type_}"
    said = ", ".join(filter(None, (f"{line.size} {line.stud}".strip(), line.type_, line.colour)))
    name = f"{capital(line.part)} {said}".rstrip()
    if line.needed is None:
        return name
    return f"{line.needed + (line.spare or 0) + (line.trial or 0)} {name}"


def _line(line: RunLine) -> tuple[str, ...]:
    """How much of what, how that comes about, and what is still to be confirmed."""
    why = tuple(f"confirm: {text}" for text in line.why)
    if line.cut_m is not None:
        return (_line_name(line), f"{metres(line.cut_m * 1000)} cut", *why)
    if line.needed is None:
        return (_line_name(line), *why)
    spare = f", {line.spare} spare" if line.spare else ""
    trial = f", {counted(line.trial, 'trial crimp')}" if line.trial else ""
    return (_line_name(line), f"{line.needed} needed{spare}{trial}", *why)
