"""Why a box is not ready: each reason a row to tap, with how many there are and what the first of them is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fasten.after.verdict import Verdict as Built
from fasten.record import record
from fasten.report.safe import safe
from fasten.tui.drawn.rows import BUY, NO_FIT, TO_SAY, State
from fasten.tui.drawn.runs import Line, padded

if TYPE_CHECKING:
    from fasten.job.list.lists import Verdict as Ready

_NEEDS = State("◐", "need", "open", 2)
_FAILS = State("╳", "as built does not hold", "bad", 0)
_BUY, _MISSING = State(BUY, "to buy", "open", 1), State(BUY, "missing", "open", 1)


@record
class Reason:
    """One reason: how it stands, how many there are, what the first is, and its entry; empty where it is of the box."""

    state: State
    count: int
    first: str
    entry: str = ""


def reasons_of(found: Ready) -> tuple[Reason, ...]:
    """All of them, what nothing can be done about here first."""
    short = _BUY if all(missing.known for missing in found.missing) else _MISSING
    open_ = [one.mount for one in found.as_built if one.verdict is Built.OPEN]
    made = (
        (NO_FIT, [unfit.mount for unfit in found.unfit if unfit.said], True),
        (_FAILS, [one.mount for one in found.as_built if one.verdict is Built.FAILS], True),
        (TO_SAY, [unfit.mount for unfit in found.unfit if not unfit.said], True),
        (short, [missing.thing for missing in found.missing], False),
        (_NEEDS, list(dict.fromkeys((*(one.mount for one in found.unproven), *open_))), True),
    )
    return tuple(
        Reason(state, len(names), names[0], names[0] if is_entry else "") for state, names, is_entry in made if names
    )


def reason_line(reason: Reason, width: int) -> Line:
    """The row: mark, how many, and which the first is."""
    state = reason.state
    word = f"{state.word}s" if state is _NEEDS and reason.count == 1 else state.word
    more = f" and {reason.count - 1} more" if reason.count > 1 else ""
    lead: Line = ((f"{state.mark} ", state.role), (f"{reason.count} {word}", "underline ink"))
    return padded((*lead, (f"  {safe(reason.first)}{more}", "quiet")), width)
