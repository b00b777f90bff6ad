"""The proof as text: for each check what it found, how much is used as a small bar and in figures, what it rests on."""

from collections.abc import Iterator
from math import isfinite

from fasten.model import Check, SourceNote, Status
from fasten.report.figures import figure, with_unit, words
from fasten.report.look_text import MARKS
from fasten.report.wrap import wrapped
from fasten.units import number

_BAR_CELLS = 8
_EIGHTHS = " ▏▎▍▌▋▊▉█"
_UNSOURCED = "?"


def proof(checks: tuple[Check, ...], sources: tuple[SourceNote, ...], width: int) -> Iterator[str]:
    """Every check on a line or two, and what the marks mean."""
    bases = {source.id: source.basis for source in sources}
    for check in checks:
        yield from _check(check, mark(check.from_, bases), width)
    yield from _legend({mark(check.from_, bases) for check in checks}, width)


def mark(from_: tuple[str, ...], bases: dict[str, str]) -> str:
    """The mark of the weakest basis among the sources; none without sources, ? for a source nobody describes."""
    order = list(MARKS)
    known = [bases[source] for source in from_ if bases.get(source) in MARKS]
    if len(known) < len(from_):
        return _UNSOURCED
    return MARKS[max(known, key=order.index)] if known else ""


def bar(utilisation: float) -> str:
    """How much is used, in eight cells; a part of one is drawn, and > says that it is more than all."""
    if utilisation > 1:
        return "█" * _BAR_CELLS + ">"
    eighths = round(utilisation * _BAR_CELLS * 8)
    cells = "█" * (eighths // 8) + _EIGHTHS[eighths % 8 or (1 if eighths == 0 and utilisation > 0 else 0)].strip()
    return f"{cells:░<{_BAR_CELLS}}"


def _check(check: Check, basis: str, width: int) -> Iterator[str]:
    marked = f" [{basis}]" if basis else ""
    if check.status is Status.NOT_CHECKED:
        yield from wrapped(f"? {check.title}: not checked, {check.needs or 'not known'}{marked}", width, rest="    ")
        return
    status = "FAILS: " if check.status is Status.FAILS else ""
    yield from wrapped(f"{'!' if status else '+'} {status}{check.title}{marked}", width, rest="    ")
    yield from wrapped(_figures(check), width, first="  ", rest="    ")


def _figures(check: Check) -> str:
    used = check.utilisation
    share = [f"{bar(used)} {percent(used)}"] if used is not None else []
    if check.demand is not None and check.allowable is not None:
        share.append(f"{figure(check.demand)} of {with_unit(check.allowable, check.unit)}")
    if check.factor is not None:
        share.append(f"factor {number(check.factor, 2)}")
    if check.load_case is not None:
        share.append(words(check.load_case))
    return " ".join(share[:1]) + (" " if share[1:] else "") + ", ".join(share[1:])


def percent(utilisation: float) -> str:
    """The share in per cent; with a decimal next to the limit, where 100 % alone would not say on which side."""
    if not isfinite(utilisation):
        return "over"
    return f"{number(utilisation * 100, 1 if 0.99 < utilisation < 1.01 else 0)} %"


def _legend(used: set[str], width: int) -> Iterator[str]:
    meanings = [f"[{letter}] {basis}" for basis, letter in MARKS.items() if letter in used]
    if _UNSOURCED in used:
        meanings.append(f"[{_UNSOURCED}] source not stated")
    if meanings:
        yield from wrapped(f"Weakest source of each: {', '.join(meanings)}", width, rest="  ")
    if used:
        yield from wrapped("+ holds, ! fails, ? not checked", width)
