"""The lines of the page of runs: of the list, and of what one run gets. No widgets here.

Each line says what pressing it does, and to what: by names and ids, never by the text that is shown.
"""

from collections.abc import Iterable, Iterator, Sequence
from enum import Enum

from fasten.catalog.tables import Tables
from fasten.job.shelf.reels import with_reels
from fasten.job.store.job_toml import same_name
from fasten.job.ticked import StepState
from fasten.job.wiring.proposals import Proposal, proposals
from fasten.job.wiring.runs import WHERE, RunChoice, run_choices
from fasten.job.wiring.settle import ToSettle, to_settle
from fasten.job.wiring.ways import WayChoice, way_choices, ways_of, with_holes
from fasten.job.words import Job, Recorded, Shelf
from fasten.job.work import states_of
from fasten.model.end_kinds import GROMMET
from fasten.model.plan import Plan
from fasten.record import record
from fasten.report.answer.proof import proof
from fasten.report.safe import safe
from fasten.report.wire.sections import sections
from fasten.report.wrap import wrapped
from fasten.text import units
from fasten.text.names import capital
from fasten.text.units import Dimension
from fasten.tui.drawn.band import band
from fasten.tui.drawn.rows import BUY, DONE, HERE, NUMBER, Row, State, row_lines
from fasten.tui.drawn.run import Lie
from fasten.tui.drawn.run_answer import (
    Shown,
    beneath_of,
    chain_lines,
    end_lines,
    piece_lines,
    state_of,
    top_lines,
    verdict_of,
)
from fasten.tui.drawn.runs import Line, heading, padded
from fasten.wiring.wired import Wired


class Does(Enum):
    """What pressing a line does."""

    NOTHING = ""
    RUN = "take a run in hand"
    TAKE = "make a run that is proposed"
    TAKE_ALL = "make all of them"
    STEP = "tick a step, or not any more"
    ACCEPT = "measured or seen, or not after all"
    SECTION = "change a section"
    HOLE = "change a hole"
    CABLE = "change what is measured of a cable"
    VEHICLE = "say what is said once of the vehicle"


@record
class RunLine:
    """A line: what pressing it does and to what, what is shown, and the word that a run is taken in hand with."""

    does: Does
    of: str
    shown: tuple[Line, ...]
    is_heading: bool = False
    word: str = ""

    @property
    def key(self) -> tuple[Does, str, str]:
        """What the line is found again by: a run and what is to be said of it are two lines."""
        return self.does, self.of, self.word


@record
class Known:
    """What is known of the runs of a job: what each gets, what is proposed, and its sections and holes."""

    job: Job
    found: tuple[RunChoice, ...]
    offered: tuple[Proposal, ...]
    ways: tuple[WayChoice, ...]


@record
class Place:
    """How wide the lines of an answer are and its verdict band, in how many rows a run is drawn, and in which tones."""

    width: int
    band_width: int
    rows: int
    tones: str


def known_of(job: Job, shelf: Shelf | None, tables: Tables) -> Known:
    """The same of a job, with what reels of a shelf say of its cable."""
    measured = with_reels(job, shelf, tables)
    found = run_choices(measured, tables)
    ways = way_choices(measured, found, tables)
    return Known(job, with_holes(found, ways), proposals(job, found, tables), ways)


_TAKE, _SEEN, _LOOK = State(BUY, "take", "accent", 1), State(DONE, "seen", "good", 3), State(HERE, "look", "open", 0)
_SAY, _ADD = State(HERE, "say", "open", 0), State("+", "", "accent", 4)
_KEPT, _NEEDS = State("●", "holds", "good", 3), State("◐", "needs", "open", 2)
_NEW, _INSET = "", 6
_START = "Say what the run carries, from where to where, and how long it is. What it gets appears here as you type."


def list_lines(known: Known, in_hand: str | None, width: int) -> Iterator[RunLine]:
    """Runs, what is proposed, what is to be settled, and what the job knows of ways, cables and the vehicle."""
    job = known.job
    yield _heading(_counts(known.found), width)
    for at, choice in enumerate(known.found, 1):
        yield _run(at, choice, width, current=in_hand is not None and same_name(choice.name) == same_name(in_hand))
    if not known.found:
        yield _text("No run yet: n asks for one, and what the mount points lack is proposed below.", width)
    if known.offered:
        yield from _proposals(known, width)
    if things := to_settle(known.found, known.ways):
        yield _heading("TO MEASURE, LOOK AT OR SAY: WHAT CHANGES MOST FIRST", width)
        yield from (_thing(thing, width) for thing in things)
    yield _heading("SECTIONS AND HOLES", width)
    yield from (_way(way, width) for way in known.ways)
    yield _line(Does.SECTION, _NEW, Row("", "another section", _ADD), width)
    yield _line(Does.HOLE, _NEW, Row("", "another hole", _ADD), width)
    yield _heading("CABLE, AS MEASURED", width)
    yield from (_line(Does.CABLE, one.name, Row("", one.name, _KEPT, (_said(one),)), width) for one in job.cables)
    yield _line(Does.CABLE, _NEW, Row("", "another cable", _ADD), width)
    yield _heading("THE VEHICLE", width)
    said = ", ".join(f"{name} {text}" for name, text in job.electrics) or "12 V; nothing is said of its lengths yet"
    yield _line(Does.VEHICLE, _NEW, Row("", said, _ADD), width)


def answer_lines(
    choice: RunChoice | None, known: Known, misread: str, place: Place, tables: Tables
) -> tuple[Line, list[RunLine]]:
    """The verdict band of a run, or of a new one, and the lines beneath; `misread` is a word that is not understood."""
    if choice is None:
        row, _ = band(False, "STILL TO SAY", ("all of it",), place.band_width)
        return row, [RunLine(Does.NOTHING, "start", (((_START, "ink"),),))]
    verdict = verdict_of(choice)
    row, more = band(
        verdict.stands, verdict.words, verdict.reasons, place.band_width, verdict.role, beneath=place.width
    )
    if misread:
        row, more = band(False, "NOT CURRENT", (f"put right: {misread}",), place.band_width)
    reasons = (RunLine(Does.NOTHING, "reasons", tuple(more)),) if more else ()
    return row, [*reasons, *_run_rows(choice, known, place, tables)]


def _run_rows(choice: RunChoice, known: Known, place: Place, tables: Tables) -> Iterator[RunLine]:
    """All that is said of one run beneath its verdict."""
    width = place.width
    answer, plan = choice.answer, choice.plan
    if answer is None or plan is None:
        return  # its verdict says why
    lies = tuple(_lies(choice, known.job))
    yield RunLine(Does.NOTHING, "figures", tuple(top_lines(Shown(choice, lies, width, place.rows, place.tones))))
    things = to_settle((choice,), ways_of(choice.run, known.ways))
    if things:
        yield _heading("TO MEASURE, LOOK AT OR SAY", width)
        yield from (_thing(thing, width) for thing in things)
    yield from _chapter("ENDS", end_lines(answer, width), width)
    yield from _chapter("PIECES TO CUT", piece_lines(answer), width)
    yield from _steps(states_of(choice.ticked, plan, choice.built, tables), width)
    yield from _texts("CAUTIONS", (caution.text for caution in plan.cautions), width)
    yield from _chapter("CALCULATED", chain_lines(answer, width), width)
    yield from _listed(answer, plan, width)
    yield from _texts("TOOLS", (capital(need.name) for need in plan.tools), width)
    yield from _proof(answer, width)


def _run(at: int, choice: RunChoice, width: int, *, current: bool) -> RunLine:
    first, *rest = row_lines(Row(str(at), safe(choice.name), state_of(choice)), width)
    rest.append(padded(((" " * _INSET, ""), (safe(beneath_of(choice)), "quiet")), width))
    if current:
        (count, _), *others = first
        first = ((count[:NUMBER], "bold reverse accent"), (count[NUMBER:], "quiet"), *others)
    return RunLine(Does.RUN, choice.name, (first, *rest))


def _proposals(known: Known, width: int) -> Iterator[RunLine]:
    yield _heading(f"PROPOSED: {len(known.offered)}", width)
    yield _line(Does.TAKE_ALL, "all", Row("", "take all of them", _TAKE), width)
    for one in known.offered:
        asks = (f"asks first: {', '.join(name.replace('-', ' ') for name in one.asks)}",) if one.asks else ()
        yield _line(Does.TAKE, one.run.name, Row("", safe(one.text), _TAKE, asks), width)


def _thing(thing: ToSettle, width: int) -> RunLine:
    state = _SEEN if thing.accepted else _LOOK if thing.id else _SAY
    beneath = tuple(filter(None, (safe(thing.needs), safe(", ".join(thing.runs)))))
    row = Row("", thing.title, state, beneath)
    if thing.id:
        return _line(Does.ACCEPT, thing.id, row, width)
    if not thing.is_of_run:
        return _line(Does.NOTHING, f"{thing.title} {thing.runs[0]}", row, width)
    return RunLine(Does.RUN, thing.runs[0], tuple(row_lines(row, width)), word=thing.word)


def _way(way: WayChoice, width: int) -> RunLine:
    plan = way.plan
    beneath = (safe(way.reason),) if plan is None else tuple(map(safe, (plan.title, *made_of(plan), *plan.unresolved)))
    state = _NEEDS if plan is None or not plan.proven else _KEPT
    return _line(Does.HOLE if way.is_hole else Does.SECTION, way.name, Row("", safe(way.name), state, beneath), width)


def made_of(plan: Plan) -> Iterator[str]:
    """What of a hole is made and seated: grommet, hole and bit; nothing of a section."""
    seated = [need.part for need in plan.parts if need.id.key == GROMMET.key]
    if seated or plan.bits:
        parts = (f"{one.kind} {one.size}, {one.name}" for one in seated)
        bits = ", ".join(bit.name for bit in plan.bits)
        yield "; ".join((*parts, *((f"bit {bits}",) if bits else ())))


def _lies(choice: RunChoice, job: Job) -> Iterator[Lie]:
    """The sections of a run that have a length, in its order."""
    for name in choice.run.sections:
        said = next((dict(one.said) for one in job.sections if same_name(one.name) == same_name(name)), {})
        if said.get("length"):
            sized = f"{name} {said['length']}"
            full = ", ".join(filter(None, (sized, said.get(WHERE, ""), said.get("cover", ""))))
            yield Lie((full, sized, name), units.read(said["length"], Dimension.LENGTH, "length"))


def _steps(states: Sequence[StepState], width: int) -> Iterator[RunLine]:
    """Each step to tick; one that was made to another figure than is wanted by now says so."""
    done = sum(state.is_done for state in states)
    yield _heading(f"STEPS  {done} of {len(states)} done", width)
    for at, state in enumerate(states, 1):
        mark = State(DONE if state.is_done else HERE, "", "good" if state.is_done else "ink", 0)
        lines = row_lines(Row(str(at), safe(state.text), mark, tuple(map(safe, state.differing))), width)
        yield RunLine(Does.STEP, state.task.step.id, tuple(lines))


def _listed(answer: Wired, plan: Plan, width: int) -> Iterator[RunLine]:
    found = next((one for one in sections(answer, plan) if one.lines), None)
    if found is not None:
        lines = (text for first, *more in found.lines for text in (first, *(f"  {one}" for one in more)))
        yield from _texts("IN THE BOX", lines, width)


def _proof(answer: Wired, width: int) -> Iterator[RunLine]:
    yield from _texts("PROOF", proof(answer.checks, answer.sources, width), width)


def _said(one: Recorded) -> str:
    return ", ".join(f"{name} {safe(text)}" for name, text in one.said)


def _counts(found: Sequence[RunChoice]) -> str:
    words = [state_of(choice).word.partition(" ")[0] for choice in found]
    named = {"holds": "hold", "needs": "need", "no": "no fit", "fails": "fail", "to": "to say"}
    counts = [f"{words.count(word)} {said}" for word, said in named.items() if word in words]
    return f"{len(found)} RUN{'S' if len(found) != 1 else ''}  {', '.join(counts)}".rstrip()


def _heading(text: str, width: int) -> RunLine:
    return RunLine(Does.NOTHING, text, (heading(text, width),), is_heading=True)


def _line(does: Does, of: str, row: Row, width: int) -> RunLine:
    return RunLine(does, of, tuple(row_lines(row, width)))


def _text(text: str, width: int) -> RunLine:
    return RunLine(Does.NOTHING, text, tuple(((line, "ink"),) for line in wrapped(text, width)))


def _chapter(title: str, lines: Iterable[Line], width: int) -> Iterator[RunLine]:
    found = [RunLine(Does.NOTHING, f"{title} {at}", (line,)) for at, line in enumerate(lines)]
    yield from (_heading(title, width), *found) if found else ()


def _texts(title: str, texts: Iterable[str], width: int) -> Iterator[RunLine]:
    found = [_text(text, width) for text in texts if text.strip()]
    yield from (_heading(title, width), *found) if found else ()
