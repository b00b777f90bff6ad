"""What a run gets, as lines: its verdict, its figures, the run to scale, and what is beneath them."""

from collections.abc import Iterator, Sequence

from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.model import Check, Status
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.wire.as_text import chain, headline, open_titles
from fasten.report.wire.sections import ends_section
from fasten.report.wrap import wrapped
from fasten.text.exceeded import exceeded, percent
from fasten.text.figures import counted, figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.tui.drawn.figures import Large, large_lines
from fasten.tui.drawn.rows import NO_FIT, TO_SAY, State
from fasten.tui.drawn.run import Lie, run_lines
from fasten.tui.drawn.runs import Line, padded
from fasten.tui.drawn.verdict import Verdict
from fasten.wiring.fields import CABLE
from fasten.wiring.pieces import in_block
from fasten.wiring.sizing import Sizing, title_of
from fasten.wiring.wired import Wired

HOLDS, FAILS = State("●", "holds", "good", 3), State("╳", "fails", "bad", 0)
_LABEL = 9


@record
class Shown:
    """What of a run is drawn: its answer, the sections it lies in, and the room there is."""

    choice: RunChoice
    sections: tuple[Lie, ...]
    width: int
    rows: int
    tones: str


def state_of(choice: RunChoice) -> State:
    """How a run stands, in a word."""
    answer = choice.answer
    if answer is None:
        return NO_FIT if choice.is_said else TO_SAY
    if answer.fails:
        return FAILS
    return State("◐", f"needs {len(answer.needs)}", "open", 2) if answer.needs else HOLDS


def beneath_of(choice: RunChoice) -> str:
    """What a run gets, in a line; or why it gets nothing."""
    answer = choice.answer
    if answer is None:
        return choice.reason
    return ", ".join(filter(None, (title_of(answer.sizing), _drop(answer.sizing))))


def verdict_of(choice: RunChoice) -> Verdict:
    """The verdict on a run, and what to say of it first."""
    answer = choice.answer
    if answer is None:
        words, role = ("NO FIT", "bad") if choice.is_said else ("STILL TO SAY", "open")
        return Verdict(False, words, (choice.reason,), role)
    if answer.fails:
        failing = tuple(exceeded(check) for check in answer.checks if check.status is Status.FAILS)
        enough = answer.sizing.enough
        return Verdict(False, "DOES NOT HOLD", (*failing, *((f"{enough.name} would do",) if enough else ())), "bad")
    if answer.needs:
        return Verdict(False, "NOT PROVEN", (f"measure or confirm {len(answer.needs)}", *open_titles(answer)))
    return Verdict(True, "HOLDS", (*_tightest(answer.checks), counted(len(answer.checks), "check")))


def verdict_of_way(way: WayChoice) -> Verdict:
    """The verdict on a hole or section, and what to say of it first."""
    plan = way.plan
    if plan is None:
        return Verdict(False, "STILL TO SAY", (way.reason,))
    if plan.failing:
        return Verdict(False, "DOES NOT HOLD", plan.failing, "bad")
    if not plan.proven:
        first, *more = plan.unresolved or ("something is not checked",)
        return Verdict(False, "NOT PROVEN", (f"needs {first}", *more))
    return Verdict(True, "HOLDS", (*_tightest(plan.checks), counted(len(plan.checks), "check")))


def top_lines(shown: Shown) -> Iterator[Line]:
    """Figures, what they are of, and the run to scale."""
    answer = shown.choice.answer
    if answer is None:
        return
    sizing = answer.sizing
    yield from large_lines(_figures(sizing), shown.width, solid=not (answer.fails or answer.needs))
    yield from (((text, "bold ink"),) for text in wrapped(capital(headline(sizing)), shown.width))
    yield ()
    made, holes = answer.done.made, shown.choice.run.holes
    yield from run_lines(made, shown.sections, shown.width, shown.rows, shown.tones, holes)


def chain_lines(answer: Wired, width: int) -> Iterator[Line]:
    """Each step of the calculation: a label and what it comes to."""
    for label, text in chain(answer.sizing):
        for at, line in enumerate(wrapped(text, width, first=f"{label:{_LABEL}}", rest=" " * _LABEL)):
            yield ((line[:_LABEL], "quiet"), (line[_LABEL:], "ink")) if at == 0 else ((line, "ink"),)


def end_lines(answer: Wired, width: int) -> Iterator[Line]:
    """Every end: where, with which part, and beneath how it is made."""
    found = ends_section(answer)
    titles = [column.title.lower() for column in found.columns[2:]]
    for where, part, *cells in found.rows:
        yield padded(((f"{safe(where)}  ", "bold ink"), (part or "not known", "ink" if part else "open")), width)
        said = [f"{title} {cell}" for title, cell in zip(titles, cells, strict=True) if cell and cell != "none"]
        yield from (((text, "quiet"),) for text in wrapped(", ".join(said), width, first="  ", rest="  ") if said)
    yield from (((text, "quiet"),) for note in found.notes for text in wrapped(note, width))


def piece_lines(answer: Wired) -> Iterator[Line]:
    """Every piece of cable to cut: how long, of which colour, and from where to where."""
    for piece in answer.done.made.pieces:
        cut = f"{rounded_up(piece.cut_mm / 1000, 2)} m"
        way = f"{safe(piece.from_)} to {safe(piece.to)}"
        yield ((f"{cut:>8}  ", "bold ink"), (f"{piece.colour}  ", "ink"), (way, "quiet"))


def _figures(sizing: Sizing) -> list[Large]:
    size, run = sizing.size, sizing.run
    name, unit = size.name.split(" ", 1)
    of = run.material.value if sizing.conductor is None else f"{run.material.value}, {figure(run.insulation_c)} °C"
    found = [Large(CABLE.label.lower(), name, unit, size.name, of)]
    fuse = sizing.fuse
    if fuse is not None:
        at = "in the block" if in_block(run) else f"within {figure(fuse.within_mm)} mm"
        count = f"{fuse.count} of them, " if fuse.count > 1 else ""
        rating, beneath = figure(fuse.rating_a), f"{count}{fuse.family.family}, {at}"
        found.append(Large("fuse", rating, "A", f"{rating} A", beneath))
    if sizing.lead is not None:
        whole, of = (sizing.lead, "") if sizing.path is None else (sizing.path, ", whole path")
        loss = rounded_up(whole.loss_db, 2)
        share = f"{rounded_up(whole.share_of_z_pct, 1)} % of the impedance{of}"
        found.append(Large("quieter", loss, "dB", f"{loss} dB", share))
    elif sizing.conductor is not None:
        drop = rounded_up(sizing.conductor.drop_v, 3)
        found.append(Large("drop", drop, "V", f"{drop} V", f"limit {rounded_down(sizing.conductor.limit_v, 3)} V"))
    return found


def _drop(sizing: Sizing) -> str:
    found = sizing.conductor
    if found is None or sizing.lead is not None:
        return ""
    return f"{rounded_up(found.drop_v, 3)} V"


def _tightest(checks: Sequence[Check]) -> tuple[str, ...]:
    used = [check for check in checks if check.utilisation is not None]
    if not used:
        return ()
    most = max(used, key=lambda check: check.utilisation or 0.0)
    return (f"tightest {percent(most.utilisation or 0.0)}, {most.title[0].lower()}{most.title[1:]}",)
