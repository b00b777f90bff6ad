"""What the page of repair shows: rows to press, the plan to tap, the routes and their verdict. No widgets here."""

from collections.abc import Collection, Iterator, Sequence

from fasten.after.routes import STRUCTURE, Repaired, Route
from fasten.record import record
from fasten.report.template.sheet import sheet_for
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.tui.drawn.band import band
from fasten.tui.drawn.foot import Word
from fasten.tui.drawn.large import block
from fasten.tui.drawn.plan import places_given, plan_within
from fasten.tui.drawn.repair import routes_band, row_of
from fasten.tui.drawn.rows import Row, State, row_lines
from fasten.tui.drawn.runs import Line, heading
from fasten.tui.repair.repair_story import Ask, Offer, Story

_KEY = "k"
_PROVING = "Proving each route …"
_STOP = (
    "It is part of a structure, belt, seat or airbag, or you cannot see what is behind.",
    "Fasten nothing here, and take nothing more apart: it is work for the maker's repair or a body shop.",
)
_TAP_ROWS, _PLAN_ROWS = 3, 11
_CHOICE = State(" ", "", "accent", 0)
_HEADINGS = {Ask.WHAT: "WHAT HAPPENED", Ask.SIZE: "WHICH WAY", Ask.AT: "WHICH FIXING", Ask.SOUND: "IS IT SAFE"}


@record
class RepairRow:
    """The lines of a row, and what it says or which route it is; None for what is only read."""

    lines: list[Line]
    is_for: Offer | Route | None


def banded(story: Story, ask: Ask | None, found: Repaired | None, why: str, width: int) -> list[Line]:
    """The verdict: what is still to say, why there is no route, or how many of them hold."""
    if ask is None and found is not None and not why:
        return routes_band(found, width)
    if story.is_stopped:
        row, more = band(False, "STOP", (), width, "bad")
    elif why:
        row, more = band(False, "NO ROUTE", (why,), width)
    elif ask is None:
        row, more = band(False, "NO ANSWER YET", (_PROVING,), width)
    else:
        row, more = band(False, "STILL TO SAY", (story.label(ask).lower(),), width)
    return [row, *more]


def asked_rows(ask: Ask, offers: Sequence[Offer], width: int, *, is_held: bool) -> Iterator[RepairRow]:
    """What can be said of a word, each row as high as a thumb where the screen `is_held` in the hand."""
    if ask is Ask.SOUND:
        yield RepairRow([((line, "bold ink"),) for line in wrapped(f"{STRUCTURE}.", width)], None)
    elif offers:
        yield RepairRow([heading(_HEADINGS[ask], width)], None)
    for offer in offers:
        row = Row("", capital(offer.name), _CHOICE, (offer.beneath,) if offer.beneath else ())
        yield RepairRow(_tall(row_lines(row, width), is_held), offer)


def stop_rows(width: int) -> Iterator[RepairRow]:
    """That nothing is repaired here."""
    for text in _STOP:
        yield RepairRow([((line, "ink"),) for line in wrapped(text, width)], None)


def route_rows(
    found: Repaired, taken: Route | None, stocked: Collection[str], width: int, *, is_held: bool
) -> Iterator[RepairRow]:
    """The routes in their order, then those that do not do."""
    yield RepairRow([heading(f"ROUTES  {len(found.routes)}", width)], None)
    for number, route in enumerate(found.routes, 1):
        lines = row_lines(row_of(number, route, stocked, is_taken=route is taken), width)
        yield RepairRow(_tall(lines, is_held), route)
    if found.refused:
        yield RepairRow([heading("DOES NOT DO", width)], None)
    for route in found.refused:
        yield RepairRow(row_lines(row_of(0, route, ()), width), None)


def _tall(lines: list[Line], is_held: bool) -> list[Line]:
    return [*lines, *([()] * (_TAP_ROWS - len(lines)))] if is_held else lines


def plan_of(story: Story, width: int, rows: int) -> list[Line]:
    """The fixings to scale, each to tap."""
    choice, point = story.planned.choice, story.planned.point
    assert choice.answer is not None
    sheet = sheet_for(choice.answer, point, point.item)
    most = min(rows or _PLAN_ROWS, 2 * _PLAN_ROWS)
    return plan_within(sheet, width, most, (), story.at, is_given=places_given(point))


def pressed(
    found: Repaired | None, route: Route | None, taken: Route | None, width: int, rows: int
) -> tuple[Line, ...]:
    """What Enter does."""
    if taken is not None:
        return block(Word("taken: on to the work", "", ""), width, rows, filled=True)
    if route is None or found is None:
        return block(Word("mark a route that does", "", ""), width, rows, filled=False)
    return block(Word(f"take route {found.routes.index(route) + 1}", _KEY, ""), width, rows, filled=True)
