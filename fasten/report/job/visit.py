"""A return visit as a document and as plain data for JSON."""

from collections.abc import Iterator
from typing import Any

from fasten.after.verdict import Verdict
from fasten.job.after.visit import Due, Off, ToBuy, VisitSheet
from fasten.job.list.parts import part_text
from fasten.model import Torque
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.as_built import as_built_lines
from fasten.report.job.work import odd_text
from fasten.report.plain import to_plain
from fasten.text.figures import counted
from fasten.text.rounding import rounded_down, rounded_up, torque_digits

FORMAT = 1
_COLUMNS = (Column("Part"), *(Column(title, figures=True) for title in ("Needed", "On the shelf", "To buy")))
_OF_THE_CAR = "as the vehicle maker says"


def visit_document(sheet: VisitSheet) -> Document:
    """What comes off first, what is renewed and bought, and how tight each is refitted, the last off first."""
    off = tuple(_off(one) for one in sheet.off)
    renew = tuple(text for one in sheet.off for text in _renew(one))
    sections = (
        Section("Before anything comes off", notes=sheet.first, numbered=True),
        Section("Comes off, in this order", notes=off, numbered=True),
        Section("Renew at this visit", notes=renew or ("Nothing is due.",)),
        Section("To buy", _COLUMNS, tuple(map(_bought, sheet.buy))),
        Section("Goes on again, in this order", notes=tuple(map(_refit, reversed(sheet.off))), numbered=True),
        Section("Once all is on again", notes=sheet.last, numbered=True),
        Section("As built", notes=tuple(text for one in sheet.off for text in _as_built(one))),
        Section("Not known", notes=tuple(f"{one.name}: {one.needs}." for one in sheet.off if one.needs)),
    )  # fmt: skip
    title = f"Visit: {sheet.title}" if sheet.title else "Visit"
    lead = (f"{sheet.vehicle}, {counted(len(sheet.off), 'thing')} off." if sheet.vehicle
            else f"{counted(len(sheet.off), 'thing')} off.",)  # fmt: skip
    return Document(title, lead, tuple(one for one in sections if one.notes or one.rows))


def _as_built(one: Off) -> Iterator[str]:
    if one.as_built is not None:
        yield f"{one.name}: {'; '.join((str(one.as_built.verdict), *as_built_lines(one.as_built)))}."


def _off(one: Off) -> str:
    held = f"{counted(one.fixings, 'fixing')}" if one.fixings is not None else ""
    said = ", ".join(text for text in (held, one.title) if text)
    return f"{one.name}: {said}." if said else f"{one.name}."


def _renew(one: Off) -> Iterator[str]:
    for due in one.renew:
        yield f"{one.name}: {_due(due)}."
    if one.cover and one.renew:
        yield f"Write down that its fixings are new with --renewed and its name, {one.name}."


def _due(due: Due) -> str:
    what = due.part if due.count is None else f"{due.count} x {due.part}"
    return f"{what}, every {due.every}; {counted(due.since, 'removal')} since new, and this one"


def _bought(one: ToBuy) -> tuple[str, ...]:
    return part_text(one.part), str(one.count), str(one.on_shelf), str(one.to_buy)


def _refit(one: Off) -> str:
    odd = "".join(f"; {odd_text(fixing)}" for fixing in one.odd)
    first = "first what stands under as built; then " if _fails(one) and one.torque is not None else ""
    return f"{one.name}: {first}{_OF_THE_CAR if one.cover else _how_tight(one)}{odd}."


def _fails(one: Off) -> bool:
    """Whether what was built does not hold, so that it is mended before it goes on again."""
    return one.as_built is not None and one.as_built.verdict is Verdict.FAILS


def _how_tight(one: Off) -> str:
    if one.torque is None:
        return "no figure: see what is not known" if one.needs else "no figure: as its steps say, by feel"
    more = ", over what the nut takes to turn" if one.past_driving else ""
    return f"{_window(one.torque)}{more}"


def _window(torque: Torque) -> str:
    digits = torque_digits(torque)
    target, most = (rounded_down(nm, digits) for nm in (torque.target_nm, torque.max_nm))
    return f"{target} N·m, at least {rounded_up(torque.min_nm, digits)}, at most {most}"


def visit_json(sheet: VisitSheet) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {"format": FORMAT, **to_plain(sheet)}
