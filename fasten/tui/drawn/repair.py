"""Routes of repair as rows, and one of them in full: figures, how the old part comes out, what follows, what never."""

from collections.abc import Collection, Iterator

from fasten.after.routes import Repaired, Route
from fasten.geometry.joint import drilled
from fasten.report.job.repair import route_sections, why_refused
from fasten.report.wrap import wrapped
from fasten.text.figures import figure, mm
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, torque_digits
from fasten.tui.drawn.band import band
from fasten.tui.drawn.figures import figures, large_lines
from fasten.tui.drawn.rail import HOLDS
from fasten.tui.drawn.rows import DONE, NO_FIT, Row, State
from fasten.tui.drawn.runs import Line, heading

_TAKEN = State(DONE, "taken", "ink", 0)


def state_of(route: Route) -> State:
    """How a route stands."""
    if route.refused is not None:
        return NO_FIT
    return HOLDS if route.proven else State("◐", f"needs {len(route.needs)}", "open", 2)


def row_of(number: int, route: Route, stocked: Collection[str], *, is_taken: bool = False) -> Row:
    """A route in a row: what it is called, how it stands, what it comes to, or why it does not do."""
    if route.refused is not None:
        return Row("", capital(route.title), NO_FIT, (why_refused(route),))
    needs = tuple(f"needs {need}" for need in route.needs)
    shelf = ("all parts on the shelf",) if route.route in stocked else ()
    state = _TAKEN if is_taken else state_of(route)
    return Row(str(number), capital(route.title), state, (*_comes_to(route), *needs, *shelf))


def _comes_to(route: Route) -> Iterator[str]:
    """The hole, the torque and the item's hole of a route, and its parts."""
    item = "" if route.opened_mm is None else f", item opened to {mm(route.opened_mm)}"
    if route.answer is None:
        if route.hardware or item:
            yield f"{route.hardware or ''}{item}".removeprefix(", ")
        return
    joint, torque = route.answer.proposal.joint, route.answer.proposal.torque
    hole = "" if joint.hole is None else f", hole {figure(drilled(joint).diameter_mm)} mm"
    tight = "" if torque is None else f", {rounded_down(torque.target_nm, torque_digits(torque))} N·m"
    yield f"{route.answer.title}{hole}{item}{tight}"


def route_lines(
    found: Repaired, route: Route, stocked: Collection[str], width: int, *, is_taken: bool
) -> list[Line]:  # fmt: skip
    """A route in full, in so many columns: its verdict, its figures, then all of the work on it."""
    words = "TAKEN" if is_taken and route.proven else "HOLDS" if route.proven else "NOT PROVEN"
    reasons = (f"{len(route.checks)} checks",) if route.proven else tuple(f"needs {need}" for need in route.needs)
    row, more = band(route.proven, words, reasons, width)
    lines = [row, *more, ((capital(route.title), "bold ink"),)]
    if route.answer is not None:
        lines += [
            *_text(route.answer.title, width, "ink"),
            *large_lines(figures(route.answer), width, solid=route.proven),
        ]
    for section in route_sections(found, route, route.route in stocked):
        lines += [(), heading(section.heading.upper(), width)]
        for number, note in enumerate(section.notes, 1):
            lead = f"{number}. " if section.numbered else ""
            lines += [((text, "ink"),) for text in wrapped(note, width, first=lead, rest=" " * len(lead))]
    return lines


def routes_band(found: Repaired, width: int) -> list[Line]:
    """How many routes there are, and how many of them hold."""
    hold, refused = sum(route.proven for route in found.routes), len(found.refused)
    open_ = len(found.routes) - hold
    words = f"{hold} ROUTE{'S' * (hold != 1)} HOLD{'S' * (hold == 1)}" if hold else "NO ROUTE IS PROVEN"
    counts = (f"{open_} not proven" if open_ else "", f"{refused} no fit" if refused else "")
    row, more = band(hold > 0, words, tuple(text for text in counts if text), width, "open" if open_ else "bad")
    return [row, *more]


def _text(text: str, width: int, role: str) -> list[Line]:
    return [((line, role),) for line in wrapped(capital(text), width)]
