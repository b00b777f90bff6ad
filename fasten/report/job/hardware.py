"""A hardware list as a document, and the verdict on a job as another."""

from collections.abc import Iterable, Iterator
from typing import assert_never

from fasten.after.verdict import Verdict as Built
from fasten.job.list.lists import (
    Assumed,
    BitLine,
    ConsumableLine,
    Drilled,
    HardwareList,
    Missing,
    PartLine,
    Place,
    Remark,
    Setting,
    ToolLine,
    Verdict,
)
from fasten.job.list.needs import HEADINGS
from fasten.job.list.parts import part_text
from fasten.job.list.ticks import Line, tick_text
from fasten.model.line import Sort
from fasten.record import replace
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.as_built import as_built_section, with_less
from fasten.report.job.unfit import left_out, unfit_sections
from fasten.text.figures import counted, figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.text.units import number

_POINT = "mount point"
_NOT_STANDING = tuple(how for how in Built if not how.stands)
READ_FIRST = "Read first"  # over what was set aside of what was given, and what the shelf changed
HAVE, PACKED, LACK, UNKNOWN = "yes", "packed", "no", "not known"
_PARTS = (
    Column("Part"), Column("Needed", True), Column("Spares", True), Column("Total", True), Column("On shelf", True),
    Column("To buy", True), Column("Packs", True), Column("Each", True), Column("Cost", True), Column("Where"),
)  # fmt: skip
PARTS, BITS, CONSUMABLES = "Parts", "Bits", "Consumables"
TOOLS = {
    "setting tool": "Setting tools", "tap": "Taps", "driver": "Drivers", "countersink": "Countersinks",
    "stop": "Drill stops", "other": "Other tools",
}  # fmt: skip


def hardware_document(listed: HardwareList) -> Document:
    """The list with a section for parts, bits, each heading of tools, consumables and what is left out."""
    sections = (
        _parts(listed), _bits(listed), *(_tools(listed, heading) for heading in HEADINGS), _consumables(listed),
        *unfit_sections(listed.unfit), _remarks(listed.remarks), _apart(listed.apart),
    )  # fmt: skip
    return Document(_titled("Hardware list", listed.title), _lead(listed), tuple(s for s in sections if s.rows))


def with_ids(document: Document) -> Document:
    """The list with the id of each line that can be packed."""
    return replace(document, sections=tuple(_with_ids(section) for section in document.sections))


def _with_ids(section: Section) -> Section:
    if not section.keys:
        return section
    lines = tuple((*line, key) for line, key in zip(section.lines, section.keys, strict=False))
    rows = tuple((*row, key) for row, key in zip(section.rows, section.keys, strict=True))
    return replace(section, columns=(*section.columns, Column("Id")), rows=rows, lines=lines)


def ready_document(verdict: Verdict) -> Document:
    """The verdict, what is missing by kind, what is not proven and what nothing fits."""
    sections = [_missing(verdict, kind) for kind in Sort]
    unproven = ((entry.mount, "; ".join(entry.needs)) for entry in verdict.unproven)
    sections.append(Section("Not proven", (Column("Mount point"), Column("Needs")), tuple(unproven)))
    sections += [as_built_section(verdict.as_built), *unfit_sections(verdict.unfit), _remarks(verdict.remarks)]
    sections += [_apart(verdict.apart), _assumed(verdict.assumed)]
    title = _titled("READY" if verdict.ready else "NOT READY", verdict.title)
    return Document(title, _verdict_lead(verdict), tuple(section for section in sections if section.rows))


def _assumed(found: tuple[Assumed, ...]) -> Section:
    """The masses that proofs hang on and nobody gave."""
    columns = (Column("Mount point"), Column("Mass"))
    rows = tuple((one.mount, f"{figure(one.mass_kg)} kg") for one in found)
    return Section("Mass assumed, as it was not given", columns, rows)


def _titled(what: str, title: str) -> str:
    return f"{what}: {title}" if title else what


def entries_text(listed: HardwareList | Verdict) -> str:
    """How many mount points there are, and how many runs of cable with their sections and holes."""
    count = listed.mounts - listed.runs - listed.ways
    points = counted(count, "mount point") if count or not listed.mounts else ""
    runs = f"{counted(listed.runs, 'run')} of cable" if listed.runs else ""
    ways = f"{listed.ways} of their sections and holes" if listed.ways else ""
    return ", ".join(filter(None, (points, runs, ways)))


def _lead(listed: HardwareList) -> tuple[str, ...]:
    points = entries_text(listed)
    found = [f"{listed.vehicle}, {points}." if listed.vehicle else f"{points}."]
    if not listed.shelf:
        parts = sum(bool(line.to_buy) for line in listed.parts)
        bits = sum(not (line.packed or line.instead) for line in listed.bits)
        counts = [counted(count, what) for count, what in ((parts, "part"), (bits, "bit")) if count]
        found.append(f"No shelf was given, to buy: {', '.join(counts) or 'nothing, all is packed'}.")
    if listed.cost is not None:
        open_ = f", without {counted(listed.unpriced, 'line')} of unknown price" if listed.unpriced else ""
        found.append(f"To buy: {_money(listed.cost)} {listed.currency}".rstrip() + f"{open_}.")
    found += left_out(listed.unfit)
    found.append("Spares and consumables follow common practice, rough and rounded up.")
    return tuple(found)


def _verdict_lead(verdict: Verdict) -> tuple[str, ...]:
    if not verdict.mounts:
        return ("The job has no mount points yet.",)
    if verdict.ready:
        need = "need" if verdict.mounts > 1 else "needs"
        less = with_less(verdict.as_built)
        return (f"All that {entries_text(verdict)} {need} is at hand, and every answer is proven.{less}",)
    first = f"{capital(', '.join(reasons(verdict)))}."
    return (first,) if verdict.shelf else (first, _beside(verdict))


def reasons(verdict: Verdict) -> tuple[str, ...]:
    """Why a job is not ready, each reason with how many there are; none where it is."""
    buy = () if verdict.shelf else tuple(_bought(verdict))
    things = 0 if buy else len(verdict.missing)
    counts = (
        (things, "thing", "missing"), (len(verdict.unproven), _POINT, "not proven"),
        (len(verdict.unfit), _POINT, "without an answer"),
        *((sum(one.verdict is how for one in verdict.as_built), _POINT, f"as built {how}") for how in _NOT_STANDING),
    )  # fmt: skip
    return buy + tuple(
        f"{counted(count, what)}{_also(what, count, verdict)} {how}" for count, what, how in counts if count
    )


def _also(what: str, count: int, verdict: Verdict) -> str:
    """What else is counted among mount points, where the job has runs."""
    if what != _POINT or not verdict.runs:
        return ""
    return " or run" if count == 1 else " or runs"


def _bought(verdict: Verdict) -> Iterator[str]:
    """Without a shelf, what is bought for the job: its parts and bits."""
    counts = _counts(verdict, Sort.PART, Sort.BIT)
    if counts:
        yield f"to buy: {', '.join(counts)}"


def _beside(verdict: Verdict) -> str:
    """Why all that the job takes counts as missing, and what of it there is beside what is bought."""
    counts = _counts(verdict, Sort.TOOL, Sort.CONSUMABLE)
    more = f", {' and '.join(counts)} with it" if counts else ""
    return f"No shelf was given, so all that is not packed counts as missing{more}."


def _counts(verdict: Verdict, *kinds: Sort) -> list[str]:
    found = ((kind, sum(entry.kind is kind for entry in verdict.missing)) for kind in kinds)
    return [counted(count, kind.value) for kind, count in found if count]


def _parts(listed: HardwareList) -> Section:
    lines = tuple(_part_lines(line, listed) for line in listed.parts)
    rows = tuple(_part(line, shelf=listed.shelf) for line in listed.parts)
    return Section(PARTS, _PARTS, rows, lines=lines, keys=_keys(listed.parts))


def _keys(lines: Iterable[Line]) -> tuple[str, ...]:
    return tuple(line.id.text for line in lines)


def line_name(line: Line) -> str:
    """What a line of the list is called."""
    if isinstance(line, PartLine):
        text = capital(part_text(line.part))
        return f"{text} ({line.form})" if line.form else text
    if isinstance(line, BitLine):
        is_named = number(line.diameter_mm, 2) in line.name
        return line.name if is_named else f"{line.name} ({number(line.diameter_mm, 3)} mm)"
    if isinstance(line, ToolLine):
        return capital(f"{line.name} {line.size}".strip())
    return capital(f"{line.name}, {line.detail}" if line.detail else line.name)


def _part(line: PartLine, *, shelf: bool) -> tuple[str, ...]:
    return (
        line_name(line), str(line.needed), str(line.spares), str(line.total), _on_shelf(line) if shelf else "",
        str(line.to_buy) if shelf or line.packed else "", _packs(line), _each(line.price),
        "" if line.cost is None or not line.to_buy else _money(line.cost), _places(line.places),
    )  # fmt: skip


def _part_lines(line: PartLine, listed: HardwareList) -> tuple[str, ...]:
    """How many of what, then how that comes about, then what is still to be bought."""
    spare = f" and {line.spares} spare" if line.spares else ""
    how = f"{line.needed} needed{spare}{_there(line, listed)}: {_places(line.places)}"
    return (f"{line.total} {line_name(line)}", how, *_to_buy(line, listed))


def _there(line: PartLine, listed: HardwareList) -> str:
    """How many are on the shelf, where it lists any of the kind, and how many are packed."""
    packed = f", {line.packed} packed" if line.packed else ""
    if listed.shelf and line.known:
        return f", {line.on_shelf} on the shelf{packed}"
    return packed or (", not known to be here" if listed.shelf else "")


def _on_shelf(line: PartLine) -> str:
    return str(line.on_shelf) if line.known else UNKNOWN


def _to_buy(line: PartLine, listed: HardwareList) -> tuple[str, ...]:
    if not ((listed.shelf or line.packed) and line.to_buy):
        return ()
    packs = f", {counted(line.packs, 'pack')} of {line.pack}" if line.packs else ""
    cost = f", {_money(line.cost)} {listed.currency}".rstrip() if line.cost is not None else ""
    return (f"buy {line.to_buy}{packs}{cost}",)


def _packs(line: PartLine) -> str:
    return f"{line.packs} of {line.pack}" if line.packs else ""


def _places(places: Iterable[Place]) -> str:
    return ", ".join(f"{place.mount} {place.count}" for place in places)


def _bits(listed: HardwareList) -> Section:
    columns = (Column("Bit"), Column("On shelf"), Column("Drills"))
    return Section(
        BITS, columns, tuple(_bit(line, shelf=listed.shelf) for line in listed.bits), keys=_keys(listed.bits)
    )


def _bit(line: BitLine, *, shelf: bool) -> tuple[str, str, str]:
    have = f"{' and '.join(line.instead)} will do" if line.instead else _have(line, shelf=shelf)
    return line_name(line), have, "; ".join(map(_drills, line.drills))


def _have(line: BitLine | ToolLine | ConsumableLine, *, shelf: bool) -> str:
    """Whether a thing is there, packed or on the shelf; of a kind that no shelf lists it is not known."""
    if line.packed:
        return PACKED
    return "" if not shelf else HAVE if line.on_shelf else LACK if line.known else UNKNOWN


def _drills(work: Drilled) -> str:
    size = f"{number(work.hole_mm, 2)} mm {work.purpose}"
    deep = "" if work.depth_mm is None else f", {figure(work.depth_mm)} mm deep"
    return f"{work.mount}: {work.count} x {size}{deep}{', under size: ream' if work.ream else ''}"


def _tools(listed: HardwareList, heading: str) -> Section:
    columns = (Column("Tool"), Column("On shelf"), Column("Where"))
    lines = [line for line in listed.tools if line.heading == heading]
    return Section(TOOLS[heading], columns, tuple(_tool(line, listed) for line in lines), keys=_keys(lines))


def _tool(line: ToolLine, listed: HardwareList) -> tuple[str, str, str]:
    names = dict.fromkeys(use.mount for use in line.used)
    where = ", ".join(_set(use.mount, use.set_mm) for use in line.used)
    if line.beyond:
        where += f"; none there reaches {', '.join(map(_torque, line.beyond))}"
    elif len(names) == listed.mounts - len(listed.unfit) > 1 and all(use.set_mm is None for use in line.used):
        where = "everywhere"
    return line_name(line), _have(line, shelf=listed.shelf), where


def _torque(use: Setting) -> str:
    return "" if use.torque_nm is None else f"{number(use.torque_nm, 2)} N·m at {use.mount}"


def _set(mount: str, set_mm: float | None) -> str:
    return mount if set_mm is None else f"{mount} at {number(set_mm, 1)} mm"


def _consumables(listed: HardwareList) -> Section:
    columns = (Column("Consumable"), Column("Amount", True), Column("On shelf"), Column("Allowance"), Column("Where"))
    rows = tuple(_consumable(line, listed) for line in listed.consumables)
    return Section(CONSUMABLES, columns, rows, keys=_keys(listed.consumables))


def _consumable(line: ConsumableLine, listed: HardwareList) -> tuple[str, ...]:
    names = dict.fromkeys(use.mount for use in line.used)
    whole = len(names) == listed.mounts - len(listed.unfit) > 1
    have, where = _amount_there(line, shelf=listed.shelf), "everywhere" if whole else ", ".join(names)
    return line_name(line), amount_text(line), have, _allowance(line), where


def _amount_there(line: ConsumableLine, *, shelf: bool) -> str:
    """How much of it is on the shelf, and what that lacks."""
    if line.packed or line.at_hand is None:
        return _have(line, shelf=shelf)
    lacks = "" if not line.short else f", short {used_text(line.short, line.unit, line.width_mm)}"
    return f"{left_text(line.at_hand, line.unit, line.width_mm)}{lacks}"


def left_text(amount: float, unit: str, width_mm: float | None = None) -> str:
    """An amount that is there, rounded down, in the unit a person buys by."""
    if unit in ("mm", "mm2"):
        metres = amount / (width_mm or 1.0) / 1000 if unit == "mm" or width_mm else None
        return f"{rounded_down(amount / 100, 0)} cm²" if metres is None else f"{rounded_down(metres, 2)} m"
    return f"{rounded_down(amount, 1)} {unit}{'s' * (amount != 1 and unit in {'drop', 'piece'})}"


def amount_text(line: ConsumableLine) -> str:
    """How much of a consumable is needed."""
    return used_text(line.amount, line.unit, line.width_mm)


def used_text(amount: float | None, unit: str, width_mm: float | None = None) -> str:
    """An amount rounded up, in the unit a person buys by."""
    if amount is None:
        return ""
    if unit == "mm2" and width_mm is not None:
        return f"{rounded_up(amount / width_mm / 1000, 1)} m"
    if unit == "mm2":
        return f"{rounded_up(amount / 100, 0)} cm²"
    if unit == "mm":
        return f"{rounded_up(amount / 1000, 2)} m"
    rounded = rounded_up(amount, 1)
    return f"{rounded} {unit}{'s' * (rounded != '1' and unit in {'drop', 'piece', 'hole edge'})}"


def _allowance(line: ConsumableLine) -> str:
    said = [
        f"{number(line.plus, 1)} {line.unit} overlap each" if line.plus else "",
        f"{number(line.waste * 100, 1)} % waste" if line.waste else "",
        f"without {', '.join(line.unknown)}: measure there" if line.unknown and line.amount is not None else "",
        "as needed" if line.amount is None and not line.unit else "",
        "not known: measure" if line.amount is None and line.unit else "",
    ]
    return ", ".join(text for text in said if text)


def _remarks(remarks: Iterable[Remark]) -> Section:
    rows = tuple((entry.mount, f"{entry.text}.") for entry in remarks)
    return Section(READ_FIRST, (Column("Mount point"), Column("Remark")), rows)


def _apart(apart: tuple[str, ...]) -> Section:
    """What was ticked and is on the list no more, or was ticked in words that name nothing on it."""
    rows = tuple((capital(tick_text(tick)),) for tick in apart)
    return Section("Packed, but not on this list", (Column("Tick"),), rows, keys=tuple(apart))


def _missing(verdict: Verdict, kind: Sort) -> Section:
    lines = [entry for entry in verdict.missing if entry.kind == kind]
    columns = (Column("Missing"), Column("Short", True), Column("Stops"))
    return Section(f"Missing: {_sort(kind)}", columns, tuple(_stops(entry, verdict) for entry in lines))


def _sort(kind: Sort) -> str:
    match kind:
        case Sort.PART:
            return "parts"
        case Sort.BIT:
            return "bits"
        case Sort.TOOL:
            return "tools"
        case Sort.CONSUMABLE:
            return "consumables"
        case _:
            assert_never(kind)


def _stops(entry: Missing, verdict: Verdict) -> tuple[str, str, str]:
    everywhere = len(entry.stops) == verdict.mounts - len(verdict.unfit) > 1
    stops = "everything" if everywhere else ", ".join(entry.stops) or "nothing yet, spares only"
    known = "" if entry.known or not verdict.shelf else ", not known to be here"
    short = "" if not entry.short else used_text(entry.short, entry.unit)
    return f"{capital(entry.thing)}{known}", short if entry.count is None else str(entry.count), stops


def _money(amount: float) -> str:
    return f"{amount:.2f}"


def _each(price: float | None) -> str:
    """A price of one, which may be less than the smallest coin."""
    if price is None:
        return ""
    return _money(price) if round(price, 2) == price else number(price, 4)
