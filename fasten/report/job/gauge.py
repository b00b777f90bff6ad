"""A measuring pass as a document: what is cut, a line to tick for each mark, and what no measuring settles."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from fasten.job.gauge.words import Gauge, Mark, Measured, MeasuringPass, Tool
from fasten.report.forms.document import Column, Document, Section
from fasten.report.plain import to_plain
from fasten.text.figures import counted, figure, mm, with_unit
from fasten.text.names import capital
from fasten.text.rounding import rounded_down

FORMAT = 1
BOX = "[ ] "
OR = "or "
NOTHING_LEFT = "Nothing is left to measure."
_NAMES = {Tool.PROBE: "probe", Tool.STRIP: "strip", Tool.BAY: "bay strip"}
"""What is cut; the rest is at hand."""
_HOW = {
    Tool.PROBE: "A probe goes in behind with 10 mm left to what moves and 5 mm to the rest; a door's glass is all the "
    "way down.",
    Tool.STRIP: "A strip fits from the centre of the hole to the nearest edge.",
}
_FRAME = "; with a frame behind every fixing say frame instead"


def gauge_document(found: MeasuringPass) -> Document:
    """The whole pass: what to cut, what to try at each mount point, and what stays open."""
    title = f"Measuring pass: {found.title}" if found.title else "Measuring pass"
    return Document(title, tuple(gauge_lead(found)), gauge_sections(found))


def gauge_sections(found: MeasuringPass) -> tuple[Section, ...]:
    """The lines to tick and what is left; a page of the work sheet has the same."""
    marks = [(one, mark) for one in found.mounts for mark in one.marks]
    rows = tuple((one.mount, one.title, BOX.strip(), trial(mark), instead(mark)) for one, mark in marks)
    columns = tuple(map(Column, ("Mount point", "Gets", "Done", "Try", "Where it does not")))
    how = tuple(text for tool, text in _HOW.items() if any(mark.tool is tool for _, mark in marks))
    open_ = tuple((one.mount, "; ".join(one.open)) for one in found.unresolved)
    sections = (
        Section("Try at each mark", columns, rows, notes=how, lines=tuple(_lines(found))),
        Section("No measuring settles", (Column("Mount point"), Column("Needs")), open_, loud=True),
        Section("Nothing to measure", notes=tuple(found.settled)),
    )
    return tuple(section for section in sections if section.rows or section.notes)


def cut_text(found: MeasuringPass) -> str:
    """What is cut before the pass, in one sentence: a probe of 16 and one of 22 mm, a strip of 18."""
    said = [_sizes(name, [gauge for gauge in found.gauges if gauge.tool is tool]) for tool, name in _NAMES.items()]
    text = ", ".join(one for one in said if one)
    return f"Cut {text}." if text else ""


def gauge_json(found: MeasuringPass) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {
        "format": FORMAT,
        "title": found.title,
        "vehicle": found.vehicle,
        "gauges": to_plain(found.gauges),
        "mounts": to_plain(found.mounts),
        "settled": to_plain(found.settled),
    }


def gauge_lead(found: MeasuringPass) -> Iterator[str]:
    """What to cut and what to have at hand, and how many mount points stay open."""
    if cut := cut_text(found):
        yield cut
    shanks = sorted({size for one in found.mounts for mark in one.marks for size in _shanks(mark)})
    if shanks:
        yield f"Have bits of {_joined([figure(size) for size in shanks])} mm for their shanks."
    feelers = sorted({mark.gauge_mm for one in found.mounts for mark in one.marks if mark.tool is Tool.FEELER})
    if feelers:
        yield f"Have {_joined([mm(size) for size in feelers])} sheet for a feeler."
    if not any(one.marks for one in found.mounts):
        yield NOTHING_LEFT
    if found.unresolved:
        count = counted(len(found.unresolved), "mount point")
        yield f"{capital(count)} {'stays' if len(found.unresolved) == 1 else 'stay'} open, whatever is measured."


def _shanks(mark: Mark) -> tuple[float, ...]:
    if mark.tool is not Tool.SHANKS or mark.stops_mm is None:
        return ()
    return mark.gauge_mm, mark.stops_mm


def _sizes(name: str, gauges: list[Gauge]) -> str:
    """A probe of 16 and one of 22 mm."""
    sizes = [f"{'a ' + name if at == 0 else 'one'} of {figure(gauge.size_mm)}" for at, gauge in enumerate(gauges)]
    return f"{_joined(sizes)} mm" if sizes else ""


def _joined(parts: list[str]) -> str:
    return " and ".join(part for part in (", ".join(parts[:-1]), *parts[-1:]) if part)


def _heading(one: Measured) -> str:
    return f"{one.mount}: {one.title}"


def _lines(found: MeasuringPass) -> Iterator[tuple[str, ...]]:
    """A mount point with a line for each mark, and under it what it gets where that does not go."""
    for one in found.mounts:
        if one.marks:
            yield _heading(one), *(line for mark in one.marks for line in _mark_lines(mark))


def _mark_lines(mark: Mark) -> Iterator[str]:
    yield f"{BOX}{trial(mark)}"
    if other := instead(mark):
        yield f"    {other}"


def trial(mark: Mark) -> str:
    """What is tried at a mount point, with its own limit where the gauge asks for more."""
    return _TRIALS[mark.tool](mark)


def _room(what: str) -> Callable[[Mark], str]:
    def text(mark: Mark) -> str:
        own = "" if mark.needs_mm == mark.gauge_mm else f" (needs {figure(mark.needs_mm)})"
        return what.format(size=figure(mark.gauge_mm)) + own

    return text


def _feeler(mark: Mark) -> str:
    push, most = with_unit(mark.force_n or 0.0, "N"), rounded_down(mark.needs_mm, 2)
    return f"{push} pushes it less than a {mm(mark.gauge_mm)} feeler under a straightedge ({most} is the most)"


def _push(mark: Mark) -> str:
    push = with_unit(mark.force_n or 0.0, "N")
    return f"the heel of the hand, as hard as {push}, moves it less than {mm(mark.gauge_mm)}{_FRAME}"


def _shank(mark: Mark) -> str:
    return f"a {mm(mark.gauge_mm)} shank goes into its holes, one of {mm(mark.stops_mm or 0.0)} does not"


_TRIALS: Mapping[Tool, Callable[[Mark], str]] = {
    Tool.PROBE: _room("probe {size} goes in behind"),
    Tool.STRIP: _room("strip {size} fits from the mark to every edge"),
    Tool.MARGIN: _room("keep {size} mm from every edge"),
    Tool.FEELER: _feeler,
    Tool.PUSH: _push,
    Tool.BAY: _room(OR + "strip {size} does not fit between the lines of support"),
    Tool.SHANKS: _shank,
}


def instead(mark: Mark) -> str:
    """What the mount point gets with less than it needs, and down to where; nothing where it is no room."""
    if not mark.below:
        return ""
    other = mark.below_mm is not None and mark.below_mm != mark.unproven_mm
    down = f", down to {figure(mark.below_mm or 0.0)}" if other else ""
    end = "" if mark.unproven_mm is None else f"; under {figure(mark.unproven_mm)}: nothing proven"
    return f"under {figure(mark.needs_mm)}: {mark.below}{down}{end}"
