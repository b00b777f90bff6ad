"""Cable and its terminals in the look-up box: a cable, a current, a stud or tab, a grommet, a heat-shrink."""

import re
from collections.abc import Callable, Iterator

from fasten.catalog.ampacity import cable_ampacity
from fasten.catalog.materials import RING_LUGS
from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables
from fasten.catalog.wiring import (
    AWG_CONDUCTORS,
    CABLE_AMPACITY,
    FUSE_FAMILIES,
    METRIC_AMPACITY,
    METRIC_CONDUCTORS,
)
from fasten.catalog.wiring_ends import (
    AWG_SLEEVES,
    CABLE_OUTSIDES,
    CRIMP_PULL,
    CRIMP_TERMINALS,
    HEAT_SHRINK,
    LUG_BARRELS,
    TAB_RECEPTACLES,
    THIN_WALL_SHRINK,
    WIRE_END_SLEEVES,
    HeatShrink,
)
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import GROMMETS
from fasten.record import record
from fasten.text.figures import figure
from fasten.text.units import MM_PER_INCH

_AWG = r"([1-9]/0|[0-9]{1,2}(?= ?awg))(?: ?awg)?"  # 1/0 is a size of cable and of nothing else
_AREA = r"([0-9]+(?:\.[0-9]+)?) ?mm(?:2|²)"
_AMPS = r"([0-9]+(?:\.[0-9]+)?) ?(?:a|amps?)(?: fuse)?"
_TAB = r"(?:tab )?([0-9]+\.[0-9]+)(?: ?x ?([0-9.]+))?(?: ?mm)?(?: tab| receptacle)?"
_RING = r"(m[0-9]+) (?:ring|lug)"
_GROMMET = r"([0-9]+(?:\.[0-9]+)?) ?(?:mm )?grommet"
_SHRINK = r"(?:([0-9]+)/([1-9][0-9]*)|([0-9]+(?:\.[0-9]+)?)) ?(?:mm|in)? ?(?:heat-?)?shrink"
_SAME = 1.001


@record
class Fact:
    """One line of what is known of a thing of wiring."""

    from_: tuple[str, ...]
    what: str
    text: str


@record
class WiringEntry:
    """A thing of wiring with what the tables say of it."""

    kind: str
    name: str
    facts: tuple[Fact, ...]
    notes: tuple[str, ...]


def wiring_entry(text: str, tables: Tables) -> WiringEntry | None:
    """What a text of wiring names, in the plain form of a look-up; None where it names nothing of it."""
    for pattern, entry in _ENTRIES:
        if found := re.fullmatch(pattern, text):
            made = entry(found, tables)
            if made is not None and made.facts:
                return made
    return None


def _cable(found: re.Match[str], tables: Tables) -> WiringEntry | None:
    name = f"{found[1]} AWG" if _is_gauge(found[0]) else f"{figure(float(found[1]))} mm²"
    area = _area(found, tables)
    return None if area is None else WiringEntry("cable_size", name, tuple(_of_cable(name, area, tables)), ())


def _is_gauge(text: str) -> bool:
    """Whether a text names a gauge and no area."""
    return text.endswith(("awg", "/0"))


def _area(found: re.Match[str], tables: Tables) -> float | None:
    if not _is_gauge(found[0]):
        return float(found[1])
    row = tables.find(CABLE_AMPACITY, found[1])
    return None if row is None else row.area_mm2


def _of_cable(name: str, area: float, tables: Tables) -> Iterator[Fact]:
    gauge = tables.find(AWG_CONDUCTORS, name.removesuffix(" AWG"))
    metric = tables.find(METRIC_CONDUCTORS, area)
    if gauge is not None and name.endswith("AWG"):
        text = f"{figure(area)} mm², {figure(gauge.resistance_mohm_per_m)} mΩ/m"
        yield _fact(AWG_CONDUCTORS, gauge, "conductor", text, tables)
    elif metric is not None:
        text = f"{figure(metric.resistance_mohm_per_m)} mΩ/m at 20 °C"
        yield _fact(METRIC_CONDUCTORS, metric, "conductor", text, tables)
    for insulation in (75, 105):
        carried = cable_ampacity(area, insulation, tables)
        if carried is not None:
            text = f"{figure(carried.amps_a)} A in free air, row {carried.row}"
            yield Fact(carried.from_, f"at {insulation} °C", text)
    outside, lug = tables.find(CABLE_OUTSIDES, name), tables.find(LUG_BARRELS, name)
    if outside is not None:
        least = "" if outside.least_mm is None else f"{figure(outside.least_mm)} to "
        text = f"{least}{figure(outside.most_mm)} mm as sold: measure it"
        yield _fact(CABLE_OUTSIDES, outside, "outside", text, tables)
    if lug is not None:
        text = f"barrel {figure(lug.barrel_mm)} mm, for {', '.join(lug.studs)}"
        yield _fact(LUG_BARRELS, lug, "lug", text, tables)
    coloured = next((row for row in tables.rows(CRIMP_TERMINALS) if area <= row.most_mm2 * _SAME), None)
    if coloured is not None:
        text = f"{coloured.colour}, for {', '.join(coloured.studs)}, strip {figure(coloured.strip_mm)} mm"
        yield _fact(CRIMP_TERMINALS, coloured, "insulated ring", text, tables)
    yield from _sleeve(name, area, tables)
    pulls = [row for row in tables.rows(CRIMP_PULL) if row.area_mm2 <= area * _SAME]
    if pulls and area <= tables.rows(CRIMP_PULL)[-1].area_mm2 * _SAME:
        yield _fact(CRIMP_PULL, pulls[-1], "crimp holds", f"{figure(pulls[-1].pull_n)} N", tables)


def _sleeve(name: str, area: float, tables: Tables) -> Iterator[Fact]:
    mapped = tables.find(AWG_SLEEVES, name)
    row = tables.find(WIRE_END_SLEEVES, area if mapped is None else mapped.sleeve_mm2)
    if row is not None:
        text = f"{figure(row.area_mm2)} mm², {row.colour}, {figure(row.outside_mm)} mm outside"
        yield _fact(WIRE_END_SLEEVES, row, "wire-end sleeve", text, tables)


def _current(found: re.Match[str], tables: Tables) -> WiringEntry:
    amps = float(found[1])
    facts = [
        _fact(FUSE_FAMILIES, row, "fuse", f"{row.title}, {row.standard}", tables)
        for row in tables.rows(FUSE_FAMILIES) if amps in row.ratings_a
    ]  # fmt: skip
    sold = (row for row in tables.rows(CABLE_AMPACITY) if tables.find(AWG_CONDUCTORS, row.awg) is not None)
    carrying = next((row for row in sold if row.at_105_a >= amps), None)
    metric = next((row for row in tables.rows(METRIC_AMPACITY) if row.at_105_a >= amps), None)
    if carrying is not None:
        text = f"{carrying.awg} AWG, {figure(carrying.at_105_a)} A at 105 °C in free air"
        facts.append(_fact(CABLE_AMPACITY, carrying, "thinnest cable", text, tables))
    if metric is not None:
        text = f"{figure(metric.area_mm2)} mm², {figure(metric.at_105_a)} A at 105 °C in free air"
        facts.append(_fact(METRIC_AMPACITY, metric, "thinnest metric cable", text, tables))
    return WiringEntry("fuse_rating", f"{figure(amps)} A", tuple(facts), ())


def _tab(found: re.Match[str], tables: Tables) -> WiringEntry | None:
    if "tab" not in found[0] and "receptacle" not in found[0]:
        return None
    facts = tuple(
        _fact(TAB_RECEPTACLES, row, row.tab, f"cable {figure(row.least_mm2)} to {figure(row.most_mm2)} mm²", tables)
        for row in tables.rows(TAB_RECEPTACLES)
        if row.tab.startswith(f"{found[1]}x") and (found[2] is None or row.tab == f"{found[1]}x{found[2]}")
    )
    return WiringEntry("tab", f"tab {found[1]} mm", facts, ("measure the tab, wide and thick",))


def _ring(found: re.Match[str], tables: Tables) -> WiringEntry:
    stud = found[1].upper()
    sold = [row for row in tables.rows(LUG_BARRELS) if stud in row.studs]
    facts = [_fact(LUG_BARRELS, row, f"lug {row.cable}", f"barrel {figure(row.barrel_mm)} mm", tables) for row in sold]
    facts += [
        _fact(CRIMP_TERMINALS, row, f"{row.colour} insulated ring", f"cable to {figure(row.most_mm2)} mm²", tables)
        for row in tables.rows(CRIMP_TERMINALS) if stud in row.studs
    ]  # fmt: skip
    facts += [
        _fact(RING_LUGS, row, f"{row.kind} to {figure(row.cable_mm2)} mm²", f"palm {figure(row.palm_mm)} mm", tables)
        for row in tables.rows(RING_LUGS) if row.stud == stud
    ]  # fmt: skip
    return WiringEntry("ring_lug", f"{stud} ring", tuple(facts), ("measure the palm against the space at the stud",))


def _grommet(found: re.Match[str], tables: Tables) -> WiringEntry:
    size = float(found[1])
    rows = [row for row in tables.rows(GROMMETS) if size in (row.inside_mm, row.hole_mm)]
    facts = tuple(
        _fact(GROMMETS, row, f"{figure(row.inside_mm)} mm inside", f"hole {figure(row.hole_mm)} mm", tables)
        for row in rows
    )
    return WiringEntry("grommet", f"{figure(size)} mm grommet", facts, ("by its inside, and by the hole it sits in",))


def _shrink(found: re.Match[str], tables: Tables) -> WiringEntry:
    named = f"{found[1]}/{found[2]}" if found[1] else ""
    rows = [row for row in tables.rows(HEAT_SHRINK) if row.size == named]
    over_mm = float(found[3]) if found[3] else float(found[1]) / float(found[2]) * MM_PER_INCH
    spans = [(row, *_over(row, tables)) for row in rows or tables.rows(HEAT_SHRINK)]
    facts = tuple(
        _fact(HEAT_SHRINK, row, f"{row.size} mm, {row.ratio}", f"over {figure(least)} to {figure(most)} mm", tables)
        for row, least, most in spans if rows or least <= over_mm <= most
    )  # fmt: skip
    thin = tables.find(THIN_WALL_SHRINK, named)
    if thin is not None:
        text = f"{figure(thin.supplied_mm)} mm inside, {figure(thin.recovered_mm)} mm once shrunk; no adhesive"
        facts = (_fact(THIN_WALL_SHRINK, thin, f"{named} in, 2:1, thin wall", text, tables), *facts)
    return WiringEntry("heat_shrink", f"{named or figure(over_mm)} shrink", facts, ())


def _over(row: HeatShrink, tables: Tables) -> tuple[float, float]:
    """The thinnest that a heat-shrink grips and the thickest that it passes, as a run has it [mm]."""
    passes, _ = rule_figure(tables, WiringRules.SHRINK_PASS)
    grips, _ = rule_figure(tables, WiringRules.SHRINK_GRIP)
    return row.recovered_mm / grips, passes * row.supplied_mm


def _fact(table: TableOf[Row], row: Row, what: str, text: str, tables: Tables) -> Fact:
    return Fact((tables.source_id(table, row),), what, text)


_ENTRIES: tuple[tuple[str, Callable[[re.Match[str], Tables], WiringEntry | None]], ...] = (
    (_AWG, _cable), (_AREA, _cable), (_AMPS, _current), (_RING, _ring), (_GROMMET, _grommet), (_SHRINK, _shrink),
    (_TAB, _tab),
)  # fmt: skip
