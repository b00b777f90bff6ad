"""The rail at a desk: each mount point with its state and what it gets, then the verdict on the box."""

from collections.abc import Sequence
from typing import assert_never

from rich.cells import cell_len

from fasten.after.judge import Judged
from fasten.after.verdict import Verdict
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled
from fasten.job.after.judged import judged
from fasten.job.choices import Choice
from fasten.job.preset import waiting_answer
from fasten.model import Answer, Status
from fasten.model.check import needed
from fasten.record import record
from fasten.report.safe import safe
from fasten.text.units import number
from fasten.tui.drawn.rows import NO_FIT, TO_SAY, Row, State
from fasten.tui.drawn.runs import Line, heading, padded

HOLDS = State("●", "holds", "good", 3)
BUILT = State("■", "built", "ink", 4)
BUILT_LESS = State("■", "with less", "ink", 4)
FAILS = State("╳", "does not hold", "bad", 0)
_UNKNOWN = State("·", "", "quiet", 5)
_COUNTED = (
    (HOLDS, "hold"), (BUILT, "built"), (BUILT_LESS, "with less"), (FAILS, "not holding"), (NO_FIT, "no fit"),
    (TO_SAY, "to say"),
)  # fmt: skip
_INSET = 6  # columns before a name


@record
class Standing:
    """How a mount point stands, and what it gets or why it gets nothing."""

    state: State
    beneath: str


def standing_of(choice: Choice, tables: Tables) -> Standing:
    """Of what a mount point gets; what was built stays built, whatever its answer is now, as far as it holds."""
    answer = None if choice.answer is None else waiting_answer(choice.answer, choice.mount)
    beneath = _gets(answer) if answer is not None else choice.reason
    if choice.built is not None:
        return Standing(_state_built(judged(choice, tables)), beneath)
    if answer is None:
        return Standing(NO_FIT if choice.is_said else TO_SAY, beneath)
    return Standing(state_of(answer), beneath)


def _state_built(found: Judged | None) -> State:
    """How what was built stands by its record; built is all that is known of what is not judged."""
    if found is None:
        return BUILT
    match found.verdict:
        case Verdict.HOLDS:
            return BUILT
        case Verdict.LESS:
            return BUILT_LESS
        case Verdict.OPEN:
            return State("◐", f"needs {len(found.needs)}", "open", 2)
        case Verdict.FAILS:
            return FAILS
        case _:
            assert_never(found.verdict)


def state_of(answer: Answer) -> State:
    """How an answer stands by its proof."""
    if answer.proposal.proven:
        return HOLDS
    if answer.proposal.status is Status.MARGINAL:
        return State("◑", "marginal", "open", 1)
    return State("◐", f"needs {len(needed(answer.proposal.checks))}", "open", 2)


def row_of(at: int, name: str, standing: Standing | None) -> Row:
    """A mount point as a row of a list."""
    state = _UNKNOWN if standing is None else standing.state
    return Row(str(at), safe(name), state, () if standing is None else (safe(standing.beneath),))


def _gets(answer: Answer) -> str:
    joint = answer.proposal.joint
    hole = "" if joint.hole is None else f"hole {number(drilled(joint).diameter_mm, 2)}, "
    return f"{hole}{answer.title}"


def mounts_heading(standings: Sequence[Standing | None], width: int) -> Line:
    """How many there are, and how many of them stand how."""
    words = [found.state.word for found in standings if found is not None]
    counts = [f"{words.count(state.word)} {word}" for state, word in _COUNTED if state.word in words]
    left = len(words) - sum(words.count(state.word) for state, _ in _COUNTED)
    counts += [f"{left} need"] if left else []
    said, named = ", ".join(counts), f"{len(standings)} MOUNTS"
    text = f"{named}  {said}".rstrip()
    # Where there is no room for both, how they stand says more than what they are.
    return padded(heading(text if cell_len(text) < width else f"{len(standings)}  {said}", width), width)


def mount_lines(at: int, name: str, standing: Standing | None, width: int, rows: int, *, current: bool) -> list[Line]:
    """A mount point in one or two rows: its number, mark, name and state, and beneath what it gets."""
    on = " on raised" if current else ""
    state = _UNKNOWN if standing is None else standing.state
    figure = f"{at:>3}"
    lead: Line = ((figure, "bold reverse accent" if current else "quiet"), (f" {state.mark} ", f"{state.role}{on}"))
    room = width - _INSET - len(state.word) - 1
    named = padded(((safe(name), f"bold ink{on}" if current else "ink"),), max(room, 1), on.strip())
    first: Line = (*lead, *named, (f" {state.word}", f"{state.role}{on}"))
    beneath = "" if standing is None else safe(standing.beneath)
    second: Line = ((" " * _INSET, on.strip()), *padded(((beneath, f"quiet{on}"),), width - _INSET, on.strip()))
    return [first, second][:rows]
