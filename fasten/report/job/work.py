"""A work sheet as a document: what comes first, a page for each entry, what comes last, labels."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import Any, TypeVar

from fasten.after.judge import Judged
from fasten.job.after.built import said_by
from fasten.job.assumed import is_mass_assumed
from fasten.job.choices import NOTHING, Choice, why_not
from fasten.job.gauge.words import MeasuringPass
from fasten.job.list.parts import part_text
from fasten.job.ticked import StepState
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.words import Visit
from fasten.job.work import Bagged, WorkEntry, WorkSheet, marker_names
from fasten.model import Answer, MountPoint, Proposal, Refusal, Status
from fasten.model.kinds import Locks
from fasten.model.plan import Label, OddFixing, Plan
from fasten.progress import Step, stepped, unseen
from fasten.record import replace
from fasten.report.answer.headline import parts
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.built import verdict_lines
from fasten.report.job.gauge import gauge_lead, gauge_sections
from fasten.report.job.hardware import READ_FIRST, entries_text, hardware_document
from fasten.report.job.ticked import ticked_text
from fasten.report.job.unfit import heading_of
from fasten.report.job.work_cable import cable_blanks, cable_lead
from fasten.report.paper.letters import bag_letter
from fasten.report.section.lines import section
from fasten.report.section.svg import section_svg
from fasten.text.figures import counted, figure, words
from fasten.text.names import capital
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits
from fasten.text.units import number

Kind = TypeVar("Kind")
Made = TypeVar("Made")

BLANK = "_" * 24
# What is written down at the car, the date last.
FIELDS = (("Size of the hole", "hole"), ("Hardware", "hardware"), ("Torque", "torque"), ("Date", "date"))
NONE, NO_HOLE, NO_FIGURE = "none", "no hole", "no figure"
TORQUE = "Torque"
# A blank hangs on its label, so that no line is broken between them.
_BLANKS = (" ".join(f"{label}:{BLANK}" for label, _ in FIELDS),)
_WHAT = (Column("What"), Column("Size"))
_SECTION_MM = 110.0  # so that a mount point finds room on one page of paper


def work_document(
    sheet: WorkSheet, width: int, step: Step = unseen, measuring: MeasuringPass | None = None
) -> Document:
    """The whole sheet; `width` in columns is that of the sections drawn as text.

    `step` is called for each entry and may raise Stopped.
    """
    return Document(work_title(sheet), tuple(work_lead(sheet)), tuple(work_sections(sheet, width, step, measuring)))


def work_title(sheet: WorkSheet) -> str:
    """What stands over the sheet."""
    return f"Work sheet: {sheet.title}" if sheet.title else "Work sheet"


def work_sections(
    sheet: WorkSheet, width: int, step: Step = unseen, measuring: MeasuringPass | None = None
) -> Iterator[Section]:
    """The sections of the sheet, each made as it is asked for.

    What is still to be measured comes first, on a page of its own. `step` is called for each entry and may raise
    Stopped.
    """
    return (one for one in _sections(sheet, width, step, measuring) if one.notes or one.rows or one.drawing or one.page)


def _sections(sheet: WorkSheet, width: int, step: Step, measuring: MeasuringPass | None) -> Iterator[Section]:
    yield from _measuring(measuring)
    yield Section("Before everything", notes=tuple(map(ticked_text, sheet.first)), numbered=True)
    yield Section("Cautions for all of it", notes=tuple(caution.text for caution in sheet.cautions))
    yield from hardware_document(replace(sheet.box, parts=(), unfit=(), remarks=())).sections
    once = _Once()
    for place, entry in enumerate(stepped(sheet.entries, step), start=1):
        yield from _entry(entry, f"{place} of {len(sheet.entries)}: {entry.name}", once, width)
    yield Section("After everything", notes=tuple(map(ticked_text, sheet.last)), numbered=True, page=True)
    yield _labels(sheet)
    yield _markers(sheet)


def _measuring(found: MeasuringPass | None) -> Iterator[Section]:
    """The measuring pass, where something is left to measure."""
    if found is not None and any(one.marks for one in found.mounts):
        first, *rest = gauge_sections(found)
        yield replace(first, heading="Measure first", page=True, notes=(*gauge_lead(found), *first.notes))
        yield from (replace(section_, level=3) for section_ in rest)


def work_lead(sheet: WorkSheet) -> Iterator[str]:
    """What is said first: of how many entries it is, and at which of them nothing is drilled yet."""
    points = entries_text(sheet.box)
    yield f"{sheet.vehicle}, {points}." if sheet.vehicle else f"{points}."
    if sheet.note:
        yield f"Note: {sheet.note}"
    unplanned = [entry for entry in sheet.entries if entry.plan is None]
    if unfit := ", ".join(entry.name for entry in unplanned if entry.source.is_said):
        yield f"NOTHING FITS at {unfit}: drill nothing there."
    if unsaid := ", ".join(entry.name for entry in unplanned if not entry.source.is_said):
        yield f"STILL TO SAY at {unsaid}: drill nothing there."
    built = [entry.name for entry in sheet.entries if entry.verdict and not entry.verdict.verdict.stands]
    if built:
        yield f"AS BUILT IT DOES NOT HOLD, or is not proven, at {', '.join(built)}: its page says what to do."
    open_ = [entry for entry in sheet.entries if entry.plan and not entry.plan.proven]
    if open_:
        yield f"NOT PROVEN at {', '.join(entry.name for entry in open_)}: measure first what each page says."
    marginal = [entry.name for entry in open_ if entry.plan and entry.plan.status is Status.MARGINAL]
    if marginal:
        yield f"MARGINAL at {', '.join(marginal)}: do not build it before a test piece holds."


# -- an entry ---------------------------------------------------------------------------------------------------------


class _Once:
    """Words that are made once of what entries share: those that ask the same share steps, answer and refusals."""

    def __init__(self) -> None:
        self._made: dict[tuple[int, object], tuple[Any, ...]] = {}

    def of(self, it: Kind, made: Callable[[Kind], Iterable[Made]]) -> tuple[Made, ...]:
        """What is made of it, which the sheet keeps, so that no other goes by its id meanwhile."""
        key = id(it), made
        if key not in self._made:
            self._made[key] = tuple(made(it))
        return self._made[key]


def _entry(entry: WorkEntry, heading: str, once: _Once, width: int) -> Iterator[Section]:
    """The page of one entry."""
    mount = entry.source if isinstance(entry.source, Choice) else None
    cable = entry.source if isinstance(entry.source, RunChoice | WayChoice) else None
    lead = (*(() if mount is None else (_mounted(mount.point),)), *(() if cable is None else cable_lead(cable)))
    note = (f"Note: {entry.note}",) if entry.note else ()
    yield Section(heading, notes=(*lead, *note), page=True)
    yield from _built(entry.built, entry.verdict)
    if entry.plan is None:
        yield from _unfit(entry, () if mount is None else once.of(mount.refusals, _refused))
        return
    if entry.plan.remarks:
        yield Section(READ_FIRST, notes=tuple(f"{text}." for text in entry.plan.remarks), level=3, loud=True)
    yield from _open(entry.plan)
    yield from () if mount is None else _joint(mount, entry.name, once, width)
    yield Section("Steps", notes=once.of(entry.steps, _said), numbered=True, level=3)
    yield Section("Cautions", notes=tuple(caution.text for caution in entry.cautions), level=3)
    blanks = _BLANKS if cable is None else tuple(cable_blanks(cable, BLANK))
    yield Section("As built, to be filled in", notes=blanks, level=3)


def _said(steps: tuple[StepState, ...]) -> Iterator[str]:
    return map(ticked_text, steps)


def _joint(mount: Choice, name: str, once: _Once, width: int) -> Iterator[Section]:
    """What is fitted at a mount point: its parts and sizes, drawn to scale, and how tight."""
    if mount.answer is None or mount.point is None:
        return
    yield Section(capital(mount.answer.title), _WHAT, once.of(mount.answer, _rows), level=3)
    yield _drawn(mount.answer.proposal, mount.point, name, width)
    yield Section(TORQUE, notes=once.of(mount.answer.proposal, _torque), level=3)


def _rows(answer: Answer) -> Iterator[tuple[str, ...]]:
    """Its parts and sizes, but for its torque."""
    return (row for row in parts(answer) if row[0] != TORQUE)


def _mounted(point: MountPoint | None) -> str:
    """What is mounted, on what and with how many fixings."""
    if point is None:
        return "Its question could not be read."
    thick = dict.fromkeys(figure(mm) for mm in (point.thickness_min_mm, point.thickness_max_mm))
    onto = f"{words(point.material)} {' to '.join(thick)} mm"
    item = words(point.item).replace("-", " ")
    assumed = " assumed" if is_mass_assumed(point) else ""
    return f"{capital(item)}, {figure(point.mass_kg)} kg{assumed}, on {onto}; {_fixings(point)}."


def _fixings(point: MountPoint) -> str:
    count = counted(point.fixings, "fixing")
    if point.pattern is None or point.fixings == 1:
        return count
    sides = " x ".join(figure(side) for side in (point.pattern.a_mm, point.pattern.b_mm) if side is not None)
    return f"{count}, {point.pattern.kind} {sides} mm"


def _built(built: Visit | None, verdict: Judged | None) -> Iterator[Section]:
    """What is there already, for the next person who opens the panel."""
    if built is None:
        return
    texts = dict(said_by(built))
    said = [f"{label}: {texts[field]}" for label, field in FIELDS[:-1] if field in texts]
    note = (f"Note: {built.note}",) if built.note else ()
    heading = f"As built{f' on {built.date}' if built.date else ''}: what is in there now"
    written = (*said, *note) or ("It was built; nothing was written down.",)
    yield Section(heading, notes=(*written, *verdict_lines(verdict)), level=3, loud=True)


def _open(plan: Plan) -> Iterator[Section]:
    """What must be measured before any work where the plan is not proven, and what does not hold."""
    if plan.failing:
        yield Section("Does not hold: do not build this", notes=plan.failing, level=3, loud=True)
    elif not plan.proven:
        wanted = tuple(capital(need) for need in plan.unresolved) or ("Something is not checked.",)
        marginal = plan.status is Status.MARGINAL
        heading = "Marginal, not proven: prove it first" if marginal else "Not proven: measure first"
        yield Section(heading, notes=wanted, level=3, loud=True)


def _unfit(entry: WorkEntry, refused: tuple[str, ...]) -> Iterator[Section]:
    heading = heading_of(is_said=entry.source.is_said)
    yield Section(f"{heading}: do not drill here", notes=(_reason(entry.reason),), level=3, loud=True)
    yield Section("What was refused, and why", notes=refused, level=3)


def _reason(reason: str) -> str:
    """Why it gets nothing; what came nearest where every method was refused."""
    _, general, nearest = reason.partition(NOTHING)
    return f"Came nearest: {nearest}" if general else capital(reason)


def _refused(refusals: tuple[Refusal, ...]) -> Iterable[str]:
    """Every refusal once; methods that are refused for the same reason share a line."""
    shared: dict[str, list[str]] = {}
    for refusal in refusals:
        shared.setdefault(why_not(refusal), []).append(refusal.title or words(refusal.method))
    return (f"{capital(', '.join(dict.fromkeys(titles)))}: {reason}" for reason, titles in shared.items())


def _drawn(proposal: Proposal, point: MountPoint, name: str, width: int) -> Section:
    joint, behind = proposal.joint, point.behind_mm
    return Section(
        "Section to scale", level=3, drawing=section(joint, behind, width),
        svg=partial(section_svg, joint, behind, _SECTION_MM, name),
    )  # fmt: skip


def _torque(proposal: Proposal) -> Iterator[str]:
    """Target and window, rounded to the safe side; what a nut takes by itself comes on top."""
    torque = proposal.torque
    if torque is None:
        yield "No figure: as the steps say, by feel or until it is set."
        return
    digits = torque_digits(torque)
    target, most = (rounded_down(nm, digits) for nm in (torque.target_nm, torque.max_nm))
    yield f"Target {target} N·m, {rounded_down(torque.target_inlbf, 1)} in·lbf{past_driving(torque)}."
    limit = f", limited by {words(torque.limited_by)}" if torque.limited_by else ""
    yield f"At least {rounded_up(torque.min_nm, digits)} N·m, at most {most} N·m{limit}."
    if proposal.joint.lock.how is Locks.NUT:
        yield "Add to each what the nut takes to turn before it seats."
    if torque.tool:
        low, high = (number(factor, 3) for factor in (torque.nut_factor.min, torque.nut_factor.max))
        yield f"With {words(torque.tool)}; nut factor {low} to {high}."


# -- labels -----------------------------------------------------------------------------------------------------------


def _labels(sheet: WorkSheet) -> Section:
    """A label for the bag of every entry that something goes into."""
    columns = (Column("Bag"), Column("For"), Column("In it"), Column("Bit"), Column("Torque"))
    rows = tuple(
        _label(entry, entry.plan.label, _bag_of(place, sheet), sheet.vehicle or sheet.title)
        for place, entry in enumerate(sheet.entries, start=1)
        if entry.plan is not None
    )
    lines = tuple(
        (f"{name}, {for_}", *bag.split("; "),
         f"{NO_HOLE if bit == NONE else f'bit {bit}'}{f', torque {torque}' if torque else ''}")
        for name, for_, bag, bit, torque in rows
    )  # fmt: skip
    return Section("Bag labels", columns, rows, cards=True, lines=lines)


def _markers(sheet: WorkSheet) -> Section:
    """The wire markers of every run, each by the number of its page and a letter."""
    rows = tuple(
        (marker, entry.name, capital(where))
        for place, entry in enumerate(sheet.entries, start=1) if entry.plan is not None
        for marker, where in marker_names(place, entry.plan)
    )  # fmt: skip
    lines = tuple((f"{number}  {name}", where) for number, name, where in rows)
    return Section("Wire markers", (Column("Marker"), Column("Run"), Column("At")), rows, cards=True, lines=lines)


def _bag_of(place: int, sheet: WorkSheet) -> str:
    """The letter that the bag has on the work sheet, and its place among all."""
    return f"bag {bag_letter(place)}, {place} of {len(sheet.entries)}"


def _label(entry: WorkEntry, label: Label, place: str, vehicle: str) -> tuple[str, ...]:
    bag = "; ".join(map(_bagged, entry.bag)) or label.held_by or "nothing of its own"
    bit = NONE if label.bit is None else label.bit
    bag = "; ".join((bag, *map(odd_text, label.odd)))
    tight = label.turns if isinstance(entry.source, RunChoice | WayChoice) else _how_tight(label)
    return entry.name, f"{vehicle}, {place}" if vehicle else place, bag, bit, tight


def odd_text(odd: OddFixing) -> str:
    """What a label says of a fixing that a repair made unlike the others."""
    torque = "" if odd.target_nm is None else f", {rounded_down(odd.target_nm, 2)} N·m"
    return f"fixing {odd.number}: {odd.said}{torque}"


def _how_tight(label: Label) -> str:
    no_figure = NO_FIGURE if label.by_feel else NONE
    target = no_figure if label.target_nm is None else f"{rounded_down(label.target_nm, 2)} N·m"
    return f"{target} over what the nut takes to turn" if label.past_driving else target


def _bagged(entry: Bagged) -> str:
    text = f"{entry.count} x {part_text(entry.part)}"
    return f"{text} ({entry.form})" if entry.form else text
