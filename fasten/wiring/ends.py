"""What each end of a run is fitted with: part, strip length, heat-shrink, crimp and torque; what must be confirmed."""

from enum import Enum
from functools import singledispatch

from fasten.catalog.materials import RING_LUGS
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import (
    AWG_SLEEVES,
    LUG_BARRELS,
    LUG_PALMS,
    STUD_TORQUES,
    TAB_RECEPTACLES,
    WIRE_END_SLEEVES,
    WireEndSleeve,
)
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Input
from fasten.proof.checks import at_most, waits
from fasten.record import lean, record
from fasten.text.figures import figure
from fasten.wiring.covers import (
    Outside,
    Shrink,
    outside_check,
    outside_of,
    shrink_checks,
    shrink_over,
    splice_shrink,
)
from fasten.wiring.crimps import SAME, coloured, crimp_tool, pull_check, pull_n
from fasten.wiring.end_parts import (
    EndPart,
    battery_clamp,
    butt_connector,
    butt_splice,
    contact,
    end_sleeve,
    receptacle,
    reducing_pin,
    ring_terminal,
    tube_lug,
)
from fasten.wiring.words import (
    BatteryPost,
    DeviceEnd,
    End,
    NamedEnd,
    Run,
    Size,
    Splice,
    SpliceEnd,
    StudAt,
    StudEnd,
    Terminal,
    TerminalEnd,
)

TUBE = "tube lug"  # the kind of such a lug in its table
HOLDERS, DEVICES, MOUNTS, NONE = "holder's figure", "device's figure", "see its mount point", "none"
OF_MOUNT = "its mount point's answer"  # whose torque a body stud goes by that is a mount point of the job


class Bare(Enum):
    """What an end comes to that no part is crimped on."""

    STRAND = "bare strand, never tinned"
    RETIGHTENED = "bare strand, retightened the next day, never tinned"
    CLAMPED = "bare into the clamp"
    PLUGGED = "its own plug"
    SOLDERED = "soldered side by side, tied on both sides"


@lean
class Turn:
    """The torque of an end: whose figure comes first, and what goes where that says none.

    `target_nm` is the figure itself where a mount point of the job has it: then it must reach `least_nm`, and where it
    is `past_turning` what turns the nut comes on top.
    """

    whose: str
    least_nm: float | None
    most_nm: float | None
    target_nm: float | None = None
    past_turning: bool = False


@lean
class EndFit:
    """An end with what it is fitted with; None where there is no such thing.

    `bare` says what the cable comes to where nothing is crimped on; `checks` are what must fit or be confirmed. `place`
    is the key of where on the run it is, `palm_mm` how wide the palm of its lug is, as far as that is known.
    """

    label: str
    part: EndPart | None
    bare: Bare | None
    strip_mm: float | None
    shrink: Shrink | None
    pull_n: float | None
    tool: str | None
    turn: Turn
    checks: tuple[Check, ...]
    place: str = ""
    palm_mm: float | None = None


@record
class _Cable:
    """The cable that ends are made on."""

    size: Size
    run: Run
    outside: Outside | None


_UNTURNED = Turn(NONE, None, None)


def fit(end: End, label: str, size: Size, run: Run, tables: Tables, whose: str = DEVICES) -> EndFit:
    """What an end of the run's cable is fitted with; `whose` figure its torque goes by, where it has one."""
    return _fit(end, label, whose, _Cable(size, run, outside_of(size, run, tables)), tables)


@singledispatch
def _fit(end: End, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    raise TypeError(f"{end!r} is no end")


@_fit.register
def _post(end: BatteryPost, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    """A clamp with outputs: what they take is seen on the clamp."""
    needs = f"needs what the outputs of the battery clamp take: {cable.size.name}"
    check = waits("battery-clamp", "Outputs of the battery clamp", "", None, needs, (), "", ())
    part = battery_clamp(end.pole)
    return EndFit(label, part, Bare.CLAMPED, None, None, None, None, Turn("clamp's figure", None, None), (check,))


@_fit.register
def _stud(end: StudEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    stud = end.stud or body_stud(cable.size, tables)
    turn = _stud_turn(end.at, stud, whose, tables)
    lug_from, _ = rule_figure(tables, WiringRules.LUG_FROM)
    if cable.size.area_mm2 < lug_from:
        return _ring(stud, label, turn, cable, tables)
    return _lug(stud, label, turn, cable, tables)


@_fit.register
def _terminal(end: TerminalEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    if end.terminal is Terminal.SET_SCREW:
        return _set_screw(end, label, whose, cable, tables)
    if end.terminal is Terminal.TAB:
        return _tab(end, label, cable, tables)
    if end.terminal is Terminal.PLUG:
        return EndFit(label, None, Bare.PLUGGED, None, None, None, None, _UNTURNED, ())
    turn = Turn(whose, None, None) if end.terminal is Terminal.CLAMP_PLATE else _UNTURNED
    return EndFit(label, None, Bare.STRAND, None, None, None, None, turn, ())


@_fit.register
def _splice(end: SpliceEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    if end.splice is Splice.BUTT:
        return _butt(label, cable, tables)
    if end.splice is Splice.CONNECTOR:
        return _connector(label, cable, tables)
    thick = _conductor_mm(cable, tables)
    shrink = shrink_over(cable.outside, None, 2 * _cover(cable.size, tables), None, tables)
    checks = _covered(shrink, None, cable, tables)
    strip = None if thick is None else 4 * thick
    return EndFit(label, None, Bare.SOLDERED, strip, shrink, None, None, _UNTURNED, checks)


@_fit.register
def _device(end: DeviceEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    """A device whose terminal is not said."""
    needs = f"needs {end.to_find(cable.size.name)}"
    check = waits(f"terminal.{end.name}", "Terminal", "", None, needs, (), "", ())
    return EndFit(label, None, None, None, None, None, None, _UNTURNED, (check,))


@_fit.register
def _named(end: NamedEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    raise TypeError(f"{end.name} is not resolved")  # `resolve` refuses what it does not know


# -- studs -------------------------------------------------------------------------------------------------------------


def _lug(stud: str, label: str, turn: Turn, cable: _Cable, tables: Tables) -> EndFit:
    size = cable.size
    row, (palm_mm, palm_from) = tables.find(LUG_BARRELS, size.name), _palm(size, stud, tables)
    barrel_mm = None if row is None else row.outside_mm
    covered = None if row is None else row.barrel_mm + _cover(size, tables)
    shrink = None if covered is None else shrink_over(cable.outside, barrel_mm, covered, palm_mm, tables)
    more, _ = rule_figure(tables, WiringRules.STRIP_MORE)
    sold = row is not None and stud in row.studs
    checks = (
        _palm_check(size, stud, palm_mm, palm_from), *(() if sold else (_not_sold(size, stud),)),
        *_covered(shrink, barrel_mm, cable, tables), *pull_check(size, tables),
    )  # fmt: skip
    strip = None if row is None else row.barrel_mm + more
    pull, press = pull_n(size, tables), _press(size, tables)
    return EndFit(label, tube_lug(size, stud), None, strip, shrink, pull, press, turn, checks, palm_mm=palm_mm)


def _press(size: Size, tables: Tables) -> str | None:
    """What presses a tube on the cable, with the dies for it."""
    tool, row = crimp_tool("lug", size, tables), tables.find(LUG_BARRELS, size.name)
    die = "" if row is None or row.die is None else f", die {row.die}"
    return tool and f"{tool}, {size.name}{die}"


def _palm(size: Size, stud: str, tables: Tables) -> tuple[float | None, tuple[str, ...]]:
    """How wide the palm of a tube lug is, with its source; None where no row is for it."""
    if (by_gauge := tables.find(LUG_PALMS, size.name, stud)) is not None:
        return by_gauge.palm_mm, (tables.source_id(LUG_PALMS, by_gauge),)
    row = tables.find(RING_LUGS, TUBE, size.area_mm2, stud)
    return (None, ()) if row is None else (row.palm_mm, (tables.source_id(RING_LUGS, row),))


def _palm_check(size: Size, stud: str, palm_mm: float | None, from_: tuple[str, ...]) -> Check:
    about = "" if palm_mm is None else f", about {figure(palm_mm)} mm wide,"
    needs = f"needs the palm of lug {size.name} {stud}{about} against the space at the stud"
    return waits(f"palm.{stud}", "Palm", "mm", palm_mm, needs, (), "", from_)


def _not_sold(size: Size, stud: str) -> Check:
    needs = f"needs a lug {size.name} {stud}: it is not among those usually sold"
    return waits(f"lug.{stud}", "Lug", "", None, needs, (), "", ())


def _ring(stud: str, label: str, turn: Turn, cable: _Cable, tables: Tables) -> EndFit:
    """An insulated ring terminal, by its colour; its own sleeve takes the place of heat-shrink."""
    row = coloured(cable.size, tables)
    sold = () if stud in row.studs else (_not_sold(cable.size, stud),)
    part = ring_terminal(row, stud)
    tool = crimp_tool("terminal", cable.size, tables)
    return EndFit(label, part, None, row.strip_mm, None, pull_n(cable.size, tables), tool, turn, sold)


def body_stud(size: Size, tables: Tables) -> str:
    """The body stud where no mount point says it."""
    large, _ = rule_figure(tables, WiringRules.BODY_STUD_LARGE_FROM)
    return "M8" if size.area_mm2 >= large else "M6"


def _stud_turn(at: StudAt, stud: str, whose: str, tables: Tables) -> Turn:
    if at is StudAt.BODY:
        return Turn(MOUNTS, None, None)
    if whose == HOLDERS:
        return Turn(HOLDERS, None, None)
    row = tables.find(STUD_TORQUES, at.value, stud)
    whose = "battery's figure" if at is StudAt.BATTERY else whose
    return Turn(whose, None, None) if row is None else Turn(whose, row.least_nm, row.most_nm)


# -- terminals of a device ---------------------------------------------------------------------------------------------


def _set_screw(end: TerminalEnd, label: str, whose: str, cable: _Cable, tables: Tables) -> EndFit:
    size, row = cable.size, _sleeve(cable, tables)
    turn = _screw_turn(size, whose, tables)
    thick = _conductor_mm(cable, tables)
    too_large = end.takes_mm2 is not None and size.area_mm2 > end.takes_mm2 * SAME
    if too_large or (end.bore_mm is not None and thick is not None and thick > end.bore_mm):
        return _pin(label, turn, cable, tables)
    if row is None:
        needs = f"needs a sleeve or ferrule for {size.name}: none is standard"
        open_ = waits("sleeve", "Sleeve", "", None, needs, (), "", ())
        return EndFit(label, None, Bare.RETIGHTENED, None, None, None, None, turn, (open_,))
    if end.bore_mm is not None and row.outside_mm > end.bore_mm:
        return EndFit(label, None, Bare.RETIGHTENED, None, None, None, None, turn, ())
    part = end_sleeve(row)
    checks = (*_bore_check(row, end, tables), *_rope_check(row, cable, tables))
    return EndFit(
        label, part, None, _sleeve_strip(row, tables), None, None, crimp_tool("sleeve", size, tables), turn, checks
    )


def _sleeve(cable: _Cable, tables: Tables) -> WireEndSleeve | None:
    """The smallest sleeve that the conductor enters: by gauge or area, or as measured."""
    mapped = tables.find(AWG_SLEEVES, cable.size.name)
    area = cable.size.area_mm2 if mapped is None else mapped.sleeve_mm2
    wanted = cable.run.conductor_mm or 0.0
    if mapped is None and "AWG" in cable.size.name:
        return None
    rows = tables.rows(WIRE_END_SLEEVES)
    return next((row for row in rows if row.area_mm2 >= area / SAME and row.inside_mm >= wanted), None)


def _sleeve_strip(row: WireEndSleeve, tables: Tables) -> float:
    large, _ = rule_figure(tables, WiringRules.STRIP_LARGE_OVER)
    more, _ = rule_figure(tables, WiringRules.STRIP_MORE_LARGE if row.area_mm2 > large else WiringRules.STRIP_MORE)
    return row.length_mm + more


def _bore_check(row: WireEndSleeve, end: TerminalEnd, tables: Tables) -> tuple[Check, ...]:
    source = (tables.source_id(WIRE_END_SLEEVES, row),)
    if end.bore_mm is None:
        needs = f"needs the bore of the set screw: the sleeve is {figure(row.outside_mm)} mm outside"
        return (waits("bore", "Bore of the set screw", "mm", row.outside_mm, needs, (), "", source),)
    inputs = (Input("sleeve", row.outside_mm, "mm"), Input("bore", end.bore_mm, "mm"))
    return (
        at_most("bore", "Sleeve, of the bore", row.outside_mm, end.bore_mm, "mm", inputs, "sleeve <= bore", source),
    )


def _rope_check(row: WireEndSleeve, cable: _Cable, tables: Tables) -> tuple[Check, ...]:
    """Rope strand may not enter the sleeve of its gauge."""
    small, source = rule_figure(tables, WiringRules.SMALL_ROPE)
    if cable.run.conductor_mm is not None or row.area_mm2 != small:
        return ()
    needs = f"needs the bare conductor of {cable.size.name}: over {figure(row.inside_mm)} mm it takes a larger sleeve"
    return (waits("conductor", "Bare conductor", "mm", None, needs, (), "", (source,)),)


def _pin(label: str, turn: Turn, cable: _Cable, tables: Tables) -> EndFit:
    needs = f"needs a reducing pin for {cable.size.name} that enters the terminal"
    check = waits("pin", "Reducing pin", "", None, needs, (), "", ())
    part = reducing_pin(cable.size)
    shrink = shrink_over(cable.outside, None, 2 * _cover(cable.size, tables), None, tables)
    tool, checks = _press(cable.size, tables), (check, *_covered(shrink, None, cable, tables))
    return EndFit(label, part, None, None, shrink, pull_n(cable.size, tables), tool, turn, checks)


def _screw_turn(size: Size, whose: str, tables: Tables) -> Turn:
    """The torque of a set screw by its cable: only of some is any known."""
    row = tables.find(STUD_TORQUES, Terminal.SET_SCREW.value, size.name)
    return Turn(whose, None, None) if row is None else Turn(whose, row.least_nm, row.most_nm)


def _tab(end: TerminalEnd, label: str, cable: _Cable, tables: Tables) -> EndFit:
    size, tab = cable.size, end.tab or ""
    row = tables.find(TAB_RECEPTACLES, tab)
    fits = row is not None and row.least_mm2 <= size.area_mm2 * SAME and size.area_mm2 <= row.most_mm2 * SAME
    needs = f"needs a receptacle for tab {tab} that takes {size.name}: no row is for both"
    check = () if fits else (waits(f"tab.{tab}", "Tab", "", None, needs, (), "", ()),)
    part = receptacle(tab, size)
    strip = coloured(size, tables).strip_mm if size.area_mm2 <= 6.0 * SAME else None
    return EndFit(
        label, part, None, strip, None, pull_n(size, tables), crimp_tool("receptacle", size, tables), _UNTURNED, check
    )


# -- joints ------------------------------------------------------------------------------------------------------------


def _butt(label: str, cable: _Cable, tables: Tables) -> EndFit:
    size, tool = cable.size, crimp_tool("terminal", cable.size, tables)
    lug_from, _ = rule_figure(tables, WiringRules.LUG_FROM)
    if size.area_mm2 < lug_from:
        row = coloured(size, tables)
        part = butt_splice(row)
        return EndFit(label, part, None, row.strip_mm, splice_shrink(tables), pull_n(size, tables), tool, _UNTURNED, ())
    needs = f"needs half the length of the butt connector of {size.name}: strip that and 2 mm"
    check = waits("butt", "Butt connector", "", None, needs, (), "", ())
    shrink = shrink_over(cable.outside, None, 2 * _cover(size, tables), None, tables)
    part = butt_connector(size)
    return EndFit(label, part, None, None, shrink, pull_n(size, tables), _press(size, tables), _UNTURNED,
                  (check, *_covered(shrink, None, cable, tables)))  # fmt: skip


def _connector(label: str, cable: _Cable, tables: Tables) -> EndFit:
    needs = f"needs the contact of the connector for {cable.size.name}, and its own tool"
    check = waits("connector", "Connector", "", None, needs, (), "", ())
    part = contact(cable.size)
    return EndFit(label, part, None, None, None, pull_n(cable.size, tables), None, _UNTURNED, (check,))


# -- what ends share ---------------------------------------------------------------------------------------------------


def _cover(size: Size, tables: Tables) -> float:
    """How much insulation a heat-shrink covers."""
    thin, _ = rule_figure(tables, WiringRules.END_MORE_THIN_BELOW)
    name = WiringRules.COVER if size.area_mm2 < thin else WiringRules.COVER_LARGE
    return rule_figure(tables, name)[0]


def _covered(shrink: Shrink | None, barrel_mm: float | None, cable: _Cable, tables: Tables) -> tuple[Check, ...]:
    """What of the heat-shrink over an end must be measured, or what it comes to once it is."""
    open_ = outside_check(cable.size, cable.outside, tables)
    if open_ is not None:
        return (open_,)
    if shrink is None or cable.outside is None:
        needs = f"needs a heat-shrink for {cable.size.name}: none of the series passes and grips"
        return (waits("shrink", "Heat-shrink", "", None, needs, (), "", ()),)
    return shrink_checks(shrink, cable.outside, barrel_mm, tables)


def _conductor_mm(cable: _Cable, tables: Tables) -> float | None:
    row = tables.find(AWG_SLEEVES, cable.size.name)
    return cable.run.conductor_mm or (None if row is None else row.conductor_mm)
