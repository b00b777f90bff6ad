"""What was looked up as text: 44 columns, a mark on each line for what it rests on, and a legend of the marks."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from fasten.record import record
from fasten.report.safe import safe
from fasten.text.figures import words
from fasten.text.units import number

if TYPE_CHECKING:
    from fasten.catalog.load import Source
    from fasten.geometry.threads import Range
    from fasten.look import Findings
    from fasten.look.bit import BitEntry, Neighbour
    from fasten.look.cable import WiringEntry
    from fasten.look.sheet import GaugeEntry, Length
    from fasten.look.strength import Strength
    from fasten.look.tapping import Hole, Tapping
    from fasten.look.thread import Thread

WIDTH = 44
LABEL = 16
# From the firmest to the weakest: a line that rests on several carries the weakest of them.
MARKS = {
    "standard": "s", "handbook": "h", "own test": "t", "common practice": "p", "from memory": "m", "user's own": "u",
}  # fmt: skip
TABLES = {"tapping-holes-din-7975": "DIN 7975", "tapping-holes-thin-sheet": "thin-sheet table"}


@record
class Line:
    """A line of an entry: label and value with what they rest on; without a value it is a heading or a note."""

    label: str
    value: str = ""
    from_: tuple[str, ...] = ()


def look_text(findings: "Findings", width: int = WIDTH, *, brief: bool = False) -> str:
    """The findings as text: the answers, a block an entry unless brief, and a legend of the marks that were used."""
    bases = {source.id: source.basis for source in findings.sources}
    blocks = ["\n".join(_answers(findings, bases, width))]
    blocks += [] if brief else ["\n".join(_entry(entry, bases, width)) for entry in findings.found]
    cited = {source for answer in findings.answers for source in answer.from_}
    sources = [source for source in findings.sources if not brief or source.id in cited]
    legend = ["\n".join(_legend(sources, width))] if sources else []
    return "\n\n".join(blocks + legend) + "\n"


def _answers(findings: "Findings", bases: dict[str, str], width: int) -> Iterator[str]:
    for answer in findings.answers:
        yield from _written(Line(answer.text, from_=answer.from_), bases, width)
    for note in findings.notes:
        yield from wrapped(f"note: {note}", width, "", "    ")


def _entry(entry: Any, bases: dict[str, str], width: int) -> Iterator[str]:
    for line in _LINES[entry.kind](entry):
        yield from _written(line, bases, width)
    for note in entry.notes:
        yield from wrapped(f"note: {note}", width, "  ", "    ")


def _written(line: Line, bases: dict[str, str], width: int) -> Iterator[str]:
    """The line, filled to the width so that the marks stand in one column."""
    text = f"{line.label:{LABEL}} {line.value}" if line.value else line.label
    if not line.from_:
        yield from wrapped(text, width, "", "    ")
        return
    mark = f"[{MARKS[max((bases[source] for source in line.from_), key=list(MARKS).index)]}]"
    *before, last = wrapped(text, width - len(mark) - 1, "", " " * 4)
    yield from before
    yield f"{last:{width - len(mark)}}{mark}"


def wrapped(text: str, width: int, first: str, later: str) -> Iterator[str]:
    """The text in lines of at most `width`, broken at spaces, or anywhere in a word that is wider."""
    line = first + safe(text)
    while len(line) > width:
        cut = line.rfind(" ", len(later) + 1, width + 1)
        cut = cut if cut > 0 else width
        yield line[:cut].rstrip()
        line = later + line[cut:].lstrip()
    yield line


def _legend(sources: "Sequence[Source]", width: int) -> Iterator[str]:
    used = [basis for basis in MARKS if any(source.basis == basis for source in sources)]
    yield from wrapped("  ".join(f"[{MARKS[basis]}] {basis}" for basis in used), width, "", "")


def _thread(entry: "Thread") -> Iterator[Line]:
    per_in = f", {entry.threads_per_in} to the inch" if entry.threads_per_in else ""
    yield Line(f"{entry.designation} thread, {entry.series}{per_in}", from_=entry.from_)
    yield Line("  pitch", _both(entry.pitch_mm, entry.pitch_in), entry.from_)
    for label, basic_mm, basic_in in (
        ("  basic major", entry.basic.major_mm, entry.basic.major_in),
        ("  basic pitch", entry.basic.pitch_mm, entry.basic.pitch_in),
        ("  basic minor", entry.basic.minor_mm, entry.basic.minor_in),
    ):
        yield Line(label, _both(basic_mm, basic_in), entry.from_)
    hole, screw = entry.internal, entry.external
    yield from _limits(f"  {hole.class_} minor", hole.minor_mm, hole.minor_in, entry.from_)
    yield from _limits(f"  {hole.class_} pitch", hole.pitch_mm, hole.pitch_in, entry.from_)
    yield from _limits(f"  {screw.class_} major", screw.major_mm, screw.major_in, entry.from_)
    yield from _limits(f"  {screw.class_} pitch", screw.pitch_mm, screw.pitch_in, entry.from_)
    yield Line("  stress area", f"{number(entry.stress_area_mm2, 2)} mm²", entry.from_)
    if entry.stress_area_in2 is not None:
        yield Line("", f"{number(entry.stress_area_in2, 4)} in²", entry.from_)
    yield from _holes_of_thread(entry)


def _holes_of_thread(entry: "Thread") -> Iterator[Line]:
    if drill := entry.tap_drill:
        yield Line("  tap drill", _named(drill.name, drill.diameter_mm), drill.from_)
        yield Line("  thread left", f"{number(drill.thread_percent, 0)} % of 1.299038 P", drill.from_)
    else:
        yield Line("  tap drill", "none tabled")
    for hole in entry.clearance:
        yield Line(f"  clear {hole.fit}", _named(hole.name, hole.diameter_mm), hole.from_)
    for load in entry.proof_loads:
        lbf = "" if load.load_lbf is None else f", {number(load.load_lbf, 0)} lbf"
        yield Line(f"  proof {load.class_}", f"{number(load.load_n, 0)} N{lbf}", load.from_)


def _both(mm: float, inch: float | None) -> str:
    return f"{number(mm, 3)} mm" if inch is None else f"{number(mm, 3)} mm, {number(inch, 4)} in"


def _limits(label: str, mm: "Range", inch: "Range | None", from_: tuple[str, ...]) -> Iterator[Line]:
    if inch is not None:
        yield Line(label, f"{inch.min:.4f} to {inch.max:.4f} in", from_)
        label = ""
    yield Line(label, f"{mm.min:.3f} to {mm.max:.3f} mm", from_)


def _named(name: str, diameter_mm: float) -> str:
    return name if name.endswith("mm") else f"{name} ({number(diameter_mm, 3)} mm)"


def _tapping(entry: "Tapping") -> Iterator[Line]:
    yield Line(f"{entry.designation} tapping screw, {entry.number}", from_=entry.from_)
    yield Line("  major, at most", f"{number(entry.major_mm, 3)} mm", entry.from_)
    yield Line("  root, at most", f"{number(entry.root_mm, 3)} mm", entry.from_)
    yield Line("  pitch", f"{number(entry.pitch_mm, 3)} mm, {entry.threads_per_in} to the inch", entry.from_)
    if drills := entry.self_drilling_mm:
        yield Line("  self-drilling", f"{_span(drills.min, drills.max)} of steel", drills.from_)
    if clear := entry.clearance:
        yield Line("  clears at", f"{number(clear.hole_mm, 2)} mm", clear.from_)
    if breaking := entry.breaking:
        yield Line("  breaks over", f"{number(breaking.torque_nm, 2)} N·m", breaking.from_)
    yield from _sheet_holes(entry.holes, _by_sheet)


def _sheet_holes(holes: "Iterable[Hole]", row: Callable[["Hole"], str]) -> Iterator[Line]:
    """Holes under a heading for each table, material and way of making them; `row` names a line."""
    heading = ""
    for hole in holes:
        new = f"  holes {hole.made}, {_material(hole.material)}, {TABLES.get(hole.table, hole.table)}"
        if new != heading:
            yield Line(new)
        heading = new
        yield Line(f"    {row(hole):16}", f"{number(hole.hole_mm, 2)} mm hole", hole.from_)


def _by_sheet(hole: "Hole") -> str:
    return _span(hole.sheet_mm.min, hole.sheet_mm.max)


def _by_size(hole: "Hole") -> str:
    return hole.size


def _material(name: str) -> str:
    return f"{name[6:9]} MPa sheet" if name.startswith("sheet_") else words(name)


def _span(low: float, high: float) -> str:
    return f"{number(low, 2)} mm" if low == high else f"{number(low, 2)} to {number(high, 2)} mm"


def _bit(entry: "BitEntry") -> Iterator[Line]:
    yield Line(f"{entry.name} bit, {entry.series}", from_=entry.from_)
    yield Line("  diameter", _both(entry.diameter_mm, entry.diameter_in), entry.from_)
    for tap in entry.taps:
        listed = f", chart {tap.listed_drill}" if tap.listed_drill not in (None, entry.name) else ""
        yield Line(f"  taps {tap.thread}", f"{number(tap.thread_percent, 0)} %{listed}", tap.from_)
    for clear in entry.clears:
        over = f", {_signed(clear.deviation_mm)} mm" if clear.deviation_mm else ""
        yield Line(f"  clears {clear.size}", f"{clear.fit}{over}", clear.from_)
    for pilot in entry.pilots:
        sheet = f"{_material(pilot.material)} {_span(pilot.sheet_mm.min, pilot.sheet_mm.max)}"
        yield Line(f"  pilots {pilot.size}", sheet, pilot.from_)
    for what, found in (("taps", entry.taps), ("clears", entry.clears), ("pilots", entry.pilots)):
        if not found:
            yield Line(f"  {what}", "nothing tabled")
    yield from _neighbours(entry.neighbours)


def _neighbours(found: "Iterable[Neighbour]") -> Iterator[Line]:
    """The bits nearby; a series that has none within a tenth is passed over."""
    label = "  near it"
    for other in found:
        if -0.1 <= other.deviation_mm / other.diameter_mm <= 0.1:
            how = f"{_signed(other.deviation_mm)} mm" if other.deviation_mm else "exactly"
            yield Line(label, f"{other.name}  {how}", other.from_)
            label = ""


def _signed(mm: float) -> str:
    return "0" if mm == 0 else f"{'+' if mm > 0 else '-'}{number(abs(mm), 3)}"


def _gauge(entry: "GaugeEntry") -> Iterator[Line]:
    yield Line(f"{entry.number} gauge sheet")
    for item in entry.thickness:
        label = f"  {_short(item.material)}"
        yield Line(label, f"{item.thickness_in:.4f} in, {item.thickness_mm:.3f} mm", item.from_)


def _short(material: str) -> str:
    return material.removesuffix("_steel")


def _length(entry: "Length") -> Iterator[Line]:
    """A length as all that it may be the measure of: a screw across its thread, a hole, a sheet."""
    yield Line(f"{number(entry.length_mm, 4)} mm as a length, {number(entry.length_in, 4)} in")
    yield from _read_as("a screw, across its thread", _across(entry))
    yield from _read_as("a hole", _neighbours(entry.bits))
    yield from _read_as("a sheet, this thick", _sheet(entry))


def _read_as(what: str, lines: Iterable[Line]) -> Iterator[Line]:
    found = list(lines)
    return iter([Line(f"read as {what}:"), *found] if found else [])


def _across(entry: "Length") -> Iterator[Line]:
    for screw in entry.screws:
        span = _span(screw.major_mm.min, screw.major_mm.max)
        yield Line(f"  screw {screw.designation}", span, screw.from_)


def _sheet(entry: "Length") -> Iterator[Line]:
    for near in entry.gauges:
        value = f"{near.number} ga, {near.thickness_mm:.3f} ({_signed(near.deviation_mm)})"
        yield Line(f"  {_short(near.material)}", value, near.from_)
    for drilling in entry.self_drilling:
        yield Line(f"  {drilling.size} drills", _span(drilling.min_mm, drilling.max_mm), drilling.from_)
    yield from _sheet_holes(entry.sheet_holes, _by_size)


def _strength(entry: "Strength") -> Iterator[Line]:
    kind = "class " if entry.kind == "property_class" else ""  # a grade is called so in its name
    yield Line(f"{entry.standard} {kind}{entry.class_}", from_=entry.from_)
    if entry.from_size_in is not None and entry.to_size_in is not None:
        yield Line("  sizes", f"{number(entry.from_size_in, 4)} to {number(entry.to_size_in, 4)} in", entry.from_)
    for label, mpa, psi in (
        ("  tensile", entry.tensile_mpa, entry.tensile_psi),
        ("  yield", entry.yield_mpa, entry.yield_psi),
        ("  proof", entry.proof_mpa, entry.proof_psi),
    ):
        if mpa is not None:
            yield Line(label, f"{number(mpa, 0)} MPa" + ("" if psi is None else f", {number(psi, 0)} psi"), entry.from_)


def _wiring(entry: "WiringEntry") -> Iterator[Line]:
    yield Line(entry.name)
    for fact in entry.facts:
        yield Line(f"  {fact.what}", fact.text, fact.from_)


_LINES: dict[str, Callable[[Any], Iterator[Line]]] = {
    "thread": _thread,
    "tapping_thread": _tapping,
    "bit": _bit,
    "gauge": _gauge,
    "length": _length,
    **dict.fromkeys(("cable_size", "fuse_rating", "tab", "ring_lug", "grommet", "heat_shrink"), _wiring),
    "property_class": _strength,
    "grade": _strength,
}
