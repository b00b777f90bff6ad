"""A work sheet as a document: what comes first, a page for each mount point, what comes last, labels."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial

from fasten.job.built import said_by
from fasten.job.choices import NOTHING, why_not
from fasten.job.list.parts import part_text
from fasten.job.words import Built
from fasten.job.work import Bagged, WorkMount, WorkSheet
from fasten.model import Answer, MountPoint, Proposal, Refusal, Status
from fasten.model.kinds import Locks
from fasten.progress import Step, stepped, unseen
from fasten.proof.torque.tightening import past_driving
from fasten.report.answer.headline import needs, parts
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.hardware import READ_FIRST, hardware_document
from fasten.report.section.lines import section
from fasten.report.section.svg import section_svg
from fasten.text.figures import counted, figure, words
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up, torque_digits
from fasten.text.units import number

BLANK = "_" * 24
# What is written down at the car, the date last.
FIELDS = (("Size of the hole", "hole"), ("Hardware", "hardware"), ("Torque", "torque"), ("Date", "date"))
NONE, NO_HOLE, NO_FIGURE = "none", "no hole", "no figure"
TORQUE = "Torque"
# A blank hangs on its label, so that no line is broken between them.
_BLANKS = (" ".join(f"{label}:{BLANK}" for label, _ in FIELDS),)
_SECTION_MM = 110.0  # so that a mount point finds room on one page of paper


def work_document(sheet: WorkSheet, width: int, step: Step = unseen) -> Document:
    """The whole sheet; `width` in columns is that of the sections drawn as text.

    `step` is called for each mount point and may raise Stopped.
    """
    sections = [
        Section("Before everything", notes=sheet.first, numbered=True),
        Section("Cautions for all of it", notes=tuple(caution.text for caution in sheet.cautions)),
        *hardware_document(replace(sheet.box, parts=(), unfit=(), remarks=())).sections,
    ]
    for place, mount in enumerate(stepped(sheet.mounts, step), start=1):
        sections += _mount(mount, f"{place} of {len(sheet.mounts)}: {mount.name}", width)
    sections += [
        Section("After everything", notes=sheet.last, numbered=True, page=True),
        _labels(sheet),
    ]
    title = f"Work sheet: {sheet.title}" if sheet.title else "Work sheet"
    return Document(
        title, tuple(_lead(sheet)), tuple(entry for entry in sections if entry.notes or entry.rows or entry.drawing)
    )


def _lead(sheet: WorkSheet) -> Iterator[str]:
    count = len(sheet.mounts)
    points = counted(count, "mount point")
    yield f"{sheet.vehicle}, {points}." if sheet.vehicle else f"{points}."
    if sheet.note:
        yield f"Note: {sheet.note}"
    unfit = ", ".join(mount.name for mount in sheet.mounts if mount.answer is None)
    if unfit:
        yield f"NOTHING FITS at {unfit}: drill nothing there."
    unproven = ", ".join(mount.name for mount in sheet.mounts if mount.answer and not mount.answer.proposal.proven)
    if unproven:
        yield f"NOT PROVEN at {unproven}: measure first what each page says."


# -- a mount point ----------------------------------------------------------------------------------------------------


def _mount(mount: WorkMount, heading: str, width: int) -> Iterator[Section]:
    """The page of one mount point."""
    yield Section(heading, notes=tuple(_place(mount)), page=True)
    yield from _built(mount.built)
    if mount.answer is None or mount.point is None:
        yield from _unfit(mount)
        return
    if mount.answer.remarks:
        yield Section(READ_FIRST, notes=tuple(f"{text}." for text in mount.answer.remarks), level=3, loud=True)
    yield from _open(mount.answer)
    rows = tuple(row for row in parts(mount.answer) if row[0] != TORQUE)
    yield _below(Section(capital(mount.answer.title), (Column("What"), Column("Size")), rows))
    yield _drawn(mount.answer, mount.point, mount.name, width)
    yield _below(Section(TORQUE, notes=tuple(_torque(mount.answer.proposal))))
    yield _below(Section("Steps", notes=tuple(step.text for step in mount.steps), numbered=True))
    yield _below(Section("Cautions", notes=tuple(caution.text for caution in mount.cautions)))
    yield _below(Section("As built, to be filled in", notes=_BLANKS))


def _below(section_: Section) -> Section:
    return replace(section_, level=3)


def _place(mount: WorkMount) -> Iterator[str]:
    """What is mounted, on what and with how many fixings; the note of the mount point."""
    point = mount.point
    if point is not None:
        thick = dict.fromkeys(figure(mm) for mm in (point.thickness_min_mm, point.thickness_max_mm))
        onto = f"{words(point.material)} {' to '.join(thick)} mm"
        item = words(point.item).replace("-", " ")
        yield f"{capital(item)}, {figure(point.mass_kg)} kg, on {onto}; {_fixings(point)}."
    else:
        yield "Its question could not be read."
    if mount.note:
        yield f"Note: {mount.note}"


def _fixings(point: MountPoint) -> str:
    count = counted(point.fixings, "fixing")
    if point.pattern is None or point.fixings == 1:
        return count
    sides = " x ".join(figure(side) for side in (point.pattern.a_mm, point.pattern.b_mm) if side is not None)
    return f"{count}, {point.pattern.kind} {sides} mm"


def _built(built: Built | None) -> Iterator[Section]:
    """What is there already, for the next person who opens the panel."""
    if built is None:
        return
    texts = dict(said_by(built))
    said = [f"{label}: {texts[field]}" for label, field in FIELDS[:-1] if field in texts]
    note = (f"Note: {built.note}",) if built.note else ()
    heading = f"As built{f' on {built.date}' if built.date else ''}: what is in there now"
    notes = (*said, *note) or ("It was built; nothing was written down.",)
    yield Section(heading, notes=notes, level=3, loud=True)


def _open(answer: Answer) -> Iterator[Section]:
    """What must be measured before any work where the answer is not proven, and what does not hold."""
    failing = tuple(check.title for check in answer.proposal.checks if check.status is Status.FAILS)
    if failing:
        yield Section("Does not hold: do not build this", notes=failing, level=3, loud=True)
    elif not answer.proposal.proven:
        wanted = tuple(capital(need) for need in needs(answer)) or ("Something is not checked.",)
        yield Section("Not proven: measure first", notes=wanted, level=3, loud=True)


def _unfit(mount: WorkMount) -> Iterator[Section]:
    yield Section("Nothing fits: do not drill here", notes=(_reason(mount),), level=3, loud=True)
    yield _below(Section("What was refused, and why", notes=tuple(_refused(mount.refusals))))


def _reason(mount: WorkMount) -> str:
    """Why it gets nothing; what came nearest where every method was refused."""
    _, general, nearest = mount.reason.partition(NOTHING)
    return f"Came nearest: {nearest}" if general else capital(mount.reason)


def _refused(refusals: tuple[Refusal, ...]) -> Iterable[str]:
    """Every refusal once; methods that are refused for the same reason share a line."""
    shared: dict[str, list[str]] = {}
    for refusal in refusals:
        shared.setdefault(why_not(refusal), []).append(refusal.title or words(refusal.method))
    return (f"{capital(', '.join(dict.fromkeys(titles)))}: {reason}" for reason, titles in shared.items())


def _drawn(answer: Answer, point: MountPoint, name: str, width: int) -> Section:
    joint, behind = answer.proposal.joint, point.behind_mm
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
    """A label for the bag of every mount point that something goes into."""
    columns = (Column("Bag"), Column("For"), Column("In it"), Column("Bit"), Column("Torque"))
    rows = tuple(
        _label(mount, mount.answer, f"{place} of {len(sheet.mounts)}", sheet.vehicle or sheet.title)
        for place, mount in enumerate(sheet.mounts, start=1)
        if mount.answer is not None
    )
    lines = tuple(
        (f"{name}, {for_}", *bag.split("; "), f"{NO_HOLE if bit == NONE else f'bit {bit}'}, torque {torque}")
        for name, for_, bag, bit, torque in rows
    )
    return Section("Bag labels", columns, rows, cards=True, lines=lines)


def _label(mount: WorkMount, answer: Answer, place: str, vehicle: str) -> tuple[str, ...]:
    torque, hole = answer.proposal.torque, answer.proposal.joint.hole
    target = (
        (NO_FIGURE if answer.proposal.joint.screw else NONE)
        if torque is None
        else f"{rounded_down(torque.target_nm, 2)} N·m"
    )
    target += " over what the nut takes to turn" if answer.proposal.joint.lock.how is Locks.NUT else ""
    bag = "; ".join(map(_bagged, mount.bag)) or dict(parts(answer)).get("Hold by", "nothing of its own")
    bit = NONE if hole is None else hole.bit.name
    return mount.name, f"{vehicle}, {place}" if vehicle else place, bag, bit, target


def _bagged(entry: Bagged) -> str:
    text = f"{entry.count} x {part_text(entry.part)}"
    return f"{text} ({entry.form})" if entry.form else text
