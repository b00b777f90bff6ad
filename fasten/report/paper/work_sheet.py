"""The work sheet on two pages: what is done at each mount point, then bits, tools, consumables and what was built.

Between them is a page of cable where the job has runs, behind them one of gauges where something is cut to measure.

Torque is printed to the safe side: a target rounded down, the least rounded up.
"""

from collections.abc import Iterable, Iterator
from functools import partial
from itertools import groupby

from fasten.advice.bits import HOLE
from fasten.job.choices import NOTHING
from fasten.job.gauge.words import Mark, Measured, MeasuringPass
from fasten.job.list.lists import BitLine, ConsumableLine, Drilled, ToolLine
from fasten.job.ticked import StepState
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.work import Bagged, WorkEntry, WorkSheet
from fasten.model import Phase
from fasten.model.line import Part
from fasten.model.plan import BitNeed, Label, Plan
from fasten.report.job.gauge import cut_text, gauge_lead, instead, trial
from fasten.report.job.hardware import amount_text, entries_text
from fasten.report.job.unfit import heading_of
from fasten.report.job.work import odd_text
from fasten.report.paper.letters import bag_letter
from fasten.report.paper.page import box, page, table, text, ticks
from fasten.text.figures import figure
from fasten.text.rounding import rounded_down, rounded_up
from fasten.wiring.conditions import is_ready_made
from fasten.wiring.parts import CABLE
from fasten.wiring.pieces import end_text
from fasten.wiring.ways import is_once_laid
from fasten.wiring.wired import Wired

_ROW = (
    ("Bag", 4.5), ("Mount", 14), ("Holes, mm", 11.5), ("Bit", 5), ("Hardware", 36), ("Driver", 7), ("Torque, N·m", 8),
    ("hole", 3.5), ("part", 3.5), ("tight", 3.5), ("seen", 3.5),
)  # fmt: skip
_RUN = (
    ("Bag", 5), ("Run", 14), ("From, to", 17), ("Cut", 11), ("Hardware", 29), ("mV", 5.5), ("at A", 4.5), ("cut", 3.3),
    ("crimp", 4), ("laid", 3.3), ("tight", 3.4),
)  # fmt: skip
_WAY = (("Bag", 5.5), ("Hole or section", 16), ("Runs", 33), ("What", 37.1), ("made", 4.2), ("closed", 4.2))
_GAUGED = (
    ("Bag", 4.5), ("Mount", 15), ("Gets", 21), ("Try", 23), ("Where it does not", 22), ("goes", 4.5), ("read, mm", 10),
)  # fmt: skip
_BUILT = (("Bag", 6), ("Mount", 20), ("Sheet, mm", 10), ("Hole, mm", 10), ("Screw", 14), ("Torque, N·m", 11),
          ("mV or mΩ", 11), ("Note", 18))  # fmt: skip
_MOUNT_PHASES = ((Phase.PILOT, Phase.OPEN_UP), (Phase.SET, Phase.FIT), (Phase.TIGHTEN,), (Phase.VERIFY,))
_RUN_PHASES = ((Phase.CUT,), (Phase.CRIMP, Phase.PULL), (Phase.ROUTE, Phase.PASS), (Phase.TIGHTEN,))
_FIRST = "work"
_DRIVER, _OTHER = "driver", "other"
_SIGNED = ("Looked at after the first week", "Handed over")
_STOP = "Battery off, look behind, then drill."
_NEVER = "Never into seat, belt or pillar steel, airbag parts, tanks, lines or orange cables."
_REASON = 110  # characters of a reason
_MM_PER_M = 1000.0
_SMALL_NM = 1.0  # under this a tenth is too coarse a step


def work_sheet_html(sheet: WorkSheet, measuring: MeasuringPass | None = None) -> str:
    """The sheet as a page of HTML for paper: cable, and gauges where any are cut, have a page of their own."""
    title = sheet.title or sheet.vehicle or "Work sheet"
    foot = " · ".join(part for part in (sheet.title, sheet.vehicle) if part)
    letters = {entry.name: bag_letter(place) for place, entry in enumerate(sheet.entries, start=1)}
    gauges = _gauges(sheet, title, letters, measuring) if measuring is not None and cut_text(measuring) else ""
    pages = (_work(sheet, title, letters), _cable(sheet, title, letters), _box(sheet, title, letters), gauges)
    sections = filter(None, pages)
    return page(f"Work sheet: {title}", foot or "Work sheet", sections)


def _gauges(sheet: WorkSheet, title: str, letters: dict[str, str], found: MeasuringPass) -> str:
    """What is cut for the measuring pass, and a line to tick for each place where it is tried."""
    lead = " ".join(gauge_lead(found))
    rows = (_mark(one, mark, letters.get(one.mount, "")) for one in found.mounts for mark in one.marks)
    open_ = [f"<b>{text(one.mount)}</b> {text('; '.join(one.open))}" for one in found.unresolved]
    left = f"<h2>No measuring settles</h2>{ticks(open_)}" if open_ else ""
    head = _head(sheet, title, "measure first")
    return f'<section>{head}<p class="stop">{text(lead)}</p>{table(_GAUGED, rows)}{left}</section>'


def _mark(one: Measured, mark: Mark, letter: str) -> str:
    cells = "".join(f"<td>{text(cell)}</td>" for cell in (one.title, trial(mark), instead(mark)))
    ticked = f'<td class="tick">{box()}</td><td></td>'
    return f'<td class="bag">{letter}</td><th scope="row">{text(one.mount)}</th>{cells}{ticked}'


def _head(sheet: WorkSheet, title: str, of: str) -> str:
    under = sheet.vehicle if of != _FIRST else _said(sheet)
    blanks = "".join(f"<div><dt>{word}</dt><dd></dd></div>" for word in ("Date", "Who"))
    return f"<header><h1>{text(title)}: {of}<small>{text(under)}</small></h1><dl>{blanks}</dl></header>"


def _said(sheet: WorkSheet) -> str:
    """What the first page says under its title: the vehicle, how much there is to do, and the note."""
    count = entries_text(sheet.box)
    said = ", ".join(part for part in (sheet.vehicle, f"{count} in order of work") if part)
    return " · ".join(part for part in (said, sheet.note) if part)


# -- first page -------------------------------------------------------------------------------------------------------


def _work(sheet: WorkSheet, title: str, letters: dict[str, str]) -> str:
    rows = [_row(entry, letters[entry.name]) for entry in sheet.entries if not _is_of_cable(entry)]
    stop = f'<p class="stop"><b>{_STOP}</b> {_NEVER}</p>'
    first = ticks(map(_step, sheet.first), columns="two")
    return f"<section>{_head(sheet, title, _FIRST)}{stop}{first}{table(_ROW, rows)}</section>"


def _step(state: StepState) -> str:
    return f"{box(done=state.is_done)}{text(state.text)}"


def _why(entry: WorkEntry) -> str:
    return heading_of(is_said=entry.source.is_said)


def _row(entry: WorkEntry, letter: str) -> str:
    lead = f'<td class="bag">{letter}</td><th scope="row">{text(entry.name)}</th>'
    if entry.plan is None:
        return f'{lead}<td colspan="9"><b>{_why(entry)}: do not drill.</b> {text(_cut(entry.reason))}</td>'
    cells = (
        _holes(entry.plan), _bits(entry.plan), _hardware(entry.bag, entry.plan.label), _drivers(entry.plan),
        _torque(entry.plan.label),
    )  # fmt: skip
    boxes = "".join(f'<td class="tick">{box(done=done)}</td>' for done in _done(entry, _MOUNT_PHASES))
    return lead + "".join(f"<td>{cell}</td>" for cell in cells) + boxes + _standing(entry.plan, len(_ROW))


def _cut(reason: str) -> str:
    """The beginning of a reason: the rest stands on the page of the mount point."""
    reason = reason.removeprefix(NOTHING)
    return reason if len(reason) <= _REASON else f"{reason[:_REASON].rsplit(' ', 1)[0]} … (see its page)"


def _is_of_cable(entry: WorkEntry) -> bool:
    """Whether an entry is a run of cable, or a section or hole of one."""
    return isinstance(entry.source, RunChoice | WayChoice)


def _cable(sheet: WorkSheet, title: str, letters: dict[str, str]) -> str:
    """The runs, and the sections and holes they go through, on a page of their own; nothing where there are none."""
    found = [(entry, entry.source) for entry in sheet.entries]
    runs = [_run(entry, source, letters[entry.name]) for entry, source in found if isinstance(source, RunChoice)]
    ways = [_way(entry, source, letters[entry.name]) for entry, source in found if isinstance(source, WayChoice)]
    if not runs and not ways:
        return ""
    through = f"<h2>Holes and sections: first made, closed once the runs are in</h2>{table(_WAY, ways, 'runs')}"
    cable = f"<h2>Runs</h2>{table(_RUN, runs, 'runs')}"
    return f"<section>{_head(sheet, title, CABLE)}{through if ways else ''}{cable if runs else ''}</section>"


def _run(entry: WorkEntry, source: RunChoice, letter: str) -> str:
    """A run of cable: what it is cut to, what equips its ends, and what of its work is done."""
    lead = f'<td class="bag">{letter}</td><th scope="row">{text(entry.name)}</th>'
    if entry.plan is None or source.answer is None:
        return f'{lead}<td colspan="9"><b>{_why(entry)}: cut nothing.</b> {text(_cut(entry.reason))}</td>'
    run = source.answer.sizing.run
    ends = f"{text(run.from_name or end_text(run.from_))} → {text(run.to_name or end_text(run.to))}"
    ways = ", ".join((*source.run.sections, *source.run.holes))
    boxes = "".join(f'<td class="tick">{box(done=done)}</td>' for done in _done(entry, _RUN_PHASES))
    by = f"<small>by {text(ways)}</small>" if ways else ""
    cells = (f"{ends}{by}", _pieces(source.answer), _hardware(entry.bag, entry.plan.label), "", "")
    return f"{lead}{''.join(f'<td>{cell}</td>' for cell in cells)}{boxes}{_standing(entry.plan, len(_RUN))}"


def _pieces(answer: Wired) -> str:
    """How long each piece is cut, by colour."""
    done = answer.done
    if is_ready_made(done):
        return "<i>nothing</i>"
    found = groupby(done.made.pieces, key=lambda piece: piece.colour)
    cut = (f"<b>{' + '.join(rounded_up(one.cut_mm / _MM_PER_M, 2) for one in pieces)} m</b> {text(colour)}"
           for colour, pieces in found)  # fmt: skip
    return f"{'<br>'.join(cut)}<small>{text(answer.sizing.size.name)}</small>"


def _way(entry: WorkEntry, source: WayChoice, letter: str) -> str:
    lead = f'<td class="bag">{letter}</td><th scope="row">{text(entry.name)}</th>'
    if entry.plan is None:
        return f'{lead}<td colspan="4"><b>{_why(entry)}.</b> {text(_cut(entry.reason))}</td>'
    plan = entry.plan
    bits = "".join(f"; bit <b>{text(bit.name)}</b>" for bit in plan.bits)
    label = "" if not entry.bag else f"; {_hardware(entry.bag, plan.label)}"
    closing = [is_once_laid(state.step.phase) for state in entry.steps]
    done = (all(one.is_done for one, last in zip(entry.steps, closing, strict=True) if last is part)
            for part in (False, True))  # fmt: skip
    boxes = "".join(f'<td class="tick">{box(done=part)}</td>' for part in done)
    what = f"{text(plan.title)}{bits}{label}"
    cells = f"<td>{text(', '.join(source.runs))}</td><td>{what}</td>{boxes}"
    return f"{lead}{cells}{_standing(plan, len(_WAY))}"


def _standing(plan: Plan, columns: int) -> str:
    """What must be known before it is built, in a row of its own under it; nothing where the plan is proven."""
    if plan.proven:
        return ""
    why = f"NOT PROVEN: {text('; '.join(plan.unresolved) or 'see its page')}"
    said = "DOES NOT HOLD: do not build" if plan.failing else why
    return f'</tr><tr class="open"><td></td><td colspan="{columns - 1}"><b>{said}</b></td>'


def _holes(plan: Plan) -> str:
    """The holes that are made, pilots left out: how many, how wide, how deep."""
    widest = [bit for bit in plan.bits if bit.hole_mm == max(one.hole_mm for one in plan.bits)]
    made = [bit for bit in plan.bits if bit.purpose == HOLE and bit.count] if plan.label.odd else widest
    if not made:
        return "<i>none</i>"
    return "<br>".join(f"{bit.count} × <b>{figure(bit.hole_mm)}</b>{_deep(bit)}" for bit in made)


def _deep(bit: BitNeed) -> str:
    return "" if bit.depth_mm is None else f", {figure(bit.depth_mm)} deep"


def _bits(plan: Plan) -> str:
    return "<br>".join(dict.fromkeys(text(bit.name.removesuffix(" mm")) for bit in plan.bits)) or "–"


def _hardware(bag: tuple[Bagged, ...], label: Label) -> str:
    """What goes in by size in one run of words, and beneath it, small, by what standard or series it is bought."""
    odd = "".join(f"<small>{text(odd_text(one))}</small>" for one in label.odd)
    if not bag:
        return f"{text(label.held_by) or '–'}{odd}"
    sizes = "; ".join(f"<b>{one.count}</b> {text(_sized(one.part))}" for one in bag)
    bought = dict.fromkeys(" ".join(part for part in (one.part.name, one.part.grade) if part) for one in bag)
    return f"{sizes}<small>{text('; '.join(bought))}</small>{odd}"


def _sized(part: Part) -> str:
    length = "" if part.length_mm is None else f" × {figure(part.length_mm)}"
    return f"{part.kind} {part.size.removesuffix(' mm')}{length}"


def _drivers(plan: Plan) -> str:
    """The drivers of a plan by size: their names stand on the second page."""
    sizes = [tool.size or tool.name for tool in plan.tools if tool.heading == _DRIVER and tool.size]
    return "<br>".join(dict.fromkeys(map(text, sizes))) or "–"


def _torque(label: Label) -> str:
    if label.target_nm is None:
        return "by feel" if label.by_feel else "–"
    least = (
        "" if label.least_nm is None else f"<small>from {rounded_up(label.least_nm, _digits(label.least_nm))}</small>"
    )
    past = "<small>+ nut’s own</small>" if label.past_driving else ""
    return f"<b>{rounded_down(label.target_nm, _digits(label.target_nm))}</b>{least}{past}"


def _digits(nm: float) -> int:
    return 2 if nm < _SMALL_NM else 1


def _done(entry: WorkEntry, columns: tuple[tuple[Phase, ...], ...]) -> Iterator[bool]:
    """Whether everything of the phases of each column is ticked in the job; not where they have no step."""
    by_phase = {phase: [state.is_done for state in found] for phase, found in _by_phase(entry.steps)}
    for phases in columns:
        ticked = [done for phase in phases for done in by_phase.get(phase, ())]
        yield bool(ticked) and all(ticked)


def _by_phase(steps: Iterable[StepState]) -> Iterator[tuple[Phase, list[StepState]]]:
    ordered = sorted(steps, key=lambda state: state.step.phase.value)
    return ((phase, list(found)) for phase, found in groupby(ordered, key=lambda state: state.step.phase))


# -- second page ------------------------------------------------------------------------------------------------------


def _box(sheet: WorkSheet, title: str, letters: dict[str, str]) -> str:
    own = [line for line in sheet.box.tools if line.heading != _OTHER]
    always = [line.name for line in sheet.box.tools if line.heading == _OTHER]
    columns = (
        ("Bits: bag and how many", [_bit(line, letters) for line in sheet.box.bits]),
        ("Setters, drivers, stops", [_tool(line, letters) for line in own]),
        ("Consumables", [_consumable(line, letters) for line in sheet.box.consumables]),
    )
    lists = "".join(f"<h2>{heading}</h2>{ticks(found)}" for heading, found in columns if found)
    hand = f"<h2>At hand all day</h2><p>{text(', '.join(dict.fromkeys(always)))}</p>" if always else ""
    mounts = [entry for entry in sheet.entries if entry.plan is not None and not _is_of_cable(entry)]
    last = f"<h2>Before it goes out</h2>{ticks(map(_step, sheet.last), columns='two')}"
    built = table(_BUILT, map(partial(_blank, letters=letters), mounts), "write")
    sign = "".join(f"<span>{what}: date, initials</span>" for what in _SIGNED)
    head = _head(sheet, title, "bits, tools, as built")
    as_built = f'<h2>As built: write what differs</h2>{built}<p class="sign">{sign}</p>'
    return f'<section>{head}<div class="three">{lists}{hand}</div>{last}{as_built}</section>'


def _bags(names: Iterable[str], letters: dict[str, str]) -> str:
    return " ".join(f"<b>{letters[name]}</b>" for name in dict.fromkeys(names) if name in letters)


def _bit(line: BitLine, letters: dict[str, str]) -> str:
    drills = ", ".join(f"<b>{letters.get(one.mount, '')}</b> {_drilled(one)}" for one in line.drills)
    return f"{box(done=line.packed)}<b>{text(line.name)}</b> {drills}"


def _drilled(one: Drilled) -> str:
    deep = "" if one.depth_mm is None else f", {figure(one.depth_mm)} deep"
    purpose = "" if one.purpose == "hole" else f" {text(one.purpose)}"
    return f"{one.count}{purpose}{deep}"


def _tool(line: ToolLine, letters: dict[str, str]) -> str:
    name = f"{line.name} {line.size}".strip()
    return f"{box(done=line.packed)}{text(name)} {_bags((one.mount for one in line.used), letters)}"


def _consumable(line: ConsumableLine, letters: dict[str, str]) -> str:
    name = ", ".join(part for part in (line.name, line.detail) if part)
    bags = _bags((one.mount for one in line.used), letters)
    return f"{box(done=line.packed)}{text(name)} {text(amount_text(line))} {bags}"


def _blank(entry: WorkEntry, letters: dict[str, str]) -> str:
    lead = f'<td class="bag">{letters[entry.name]}</td><th scope="row">{text(entry.name)}</th>'
    return lead + "<td></td>" * (len(_BUILT) - 2)
