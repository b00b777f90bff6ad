"""The proof as text: for each check what it found, how much is used as a small bar and in figures, what it rests on."""

from collections.abc import Iterator

from fasten.model import Check, Exemption, SourceNote, Status
from fasten.report.look_text import MARKS
from fasten.report.wrap import wrapped
from fasten.text.exceeded import percent
from fasten.text.figures import figure, with_unit, words
from fasten.text.units import number

_BAR_CELLS = 8
_BESIDE = 19  # columns of sign, bar and share
_ONE_LINE = 60  # columns from which a check stands beside its bar
_EIGHTHS = " ▏▎▍▌▋▊▉█"
_UNSOURCED = "?"
_SIGNS = {
    Status.HOLDS: ("+", ""), Status.MARGINAL: ("~", "MARGINAL: "), Status.FAILS: ("!", "FAILS: "),
}  # fmt: skip


def proof(checks: tuple[Check, ...], sources: tuple[SourceNote, ...], width: int) -> Iterator[str]:
    """What the marks mean, and every check: on one line where there is room, its bar before it; else on two."""
    bases = {source.id: source.basis for source in sources}
    yield from _legend({mark(check.from_, bases) for check in checks}, width)
    for check in checks:
        yield from _check(check, mark(check.from_, bases), width)


def exempt(entries: tuple[Exemption, ...], width: int) -> Iterator[str]:
    """What no check examines, each with its reason."""
    for entry in entries:
        yield from wrapped(f"- No check of {entry.subject}: {entry.because}.", width, rest="    ")


def mark(from_: tuple[str, ...], bases: dict[str, str]) -> str:
    """The mark of the weakest basis among the sources; none without sources, ? for a source without a description."""
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
    sign, status = _SIGNS[check.status]
    said, used = f"{status}{check.title}", _used(check)
    if width >= _ONE_LINE:
        yield from wrapped(f"{said}: {_figures(check)}{marked}", width, first=f"{sign} {used}", rest=" " * _BESIDE)
    else:
        yield from wrapped(f"{said}{marked}", width, first=f"{sign} ", rest="    ")
        yield from wrapped(_figures(check), width, first=f"  {used}", rest="    ")


def _used(check: Check) -> str:
    """The bar and the share in per cent, always as wide."""
    used = check.utilisation
    shown = "" if used is None else f"{bar(used):{_BAR_CELLS + 1}}{percent(used):>6}"
    return f"{shown:{_BESIDE - 2}}"


def _figures(check: Check) -> str:
    share = []
    if check.demand is not None and check.allowable is not None:
        share.append(f"{figure(check.demand)} of {with_unit(check.allowable, check.unit)}")
    if check.factor is not None:
        share.append(f"factor {number(check.factor, 2)}")
    if check.load_case is not None:
        share.append(words(check.load_case))
    if check.status is Status.HOLDS and check.needs:
        share.append(check.needs)  # it holds by the word of the user
    return ", ".join(share)


def _legend(used: set[str], width: int) -> Iterator[str]:
    meanings = [f"[{letter}] {basis}" for basis, letter in MARKS.items() if letter in used]
    if _UNSOURCED in used:
        meanings.append(f"[{_UNSOURCED}] source not stated")
    if meanings:
        yield from wrapped(f"Weakest source of each: {', '.join(meanings)}", width, rest="  ")
    if used:
        yield from wrapped("+ holds, ~ marginal, ! fails, ? not checked", width)
