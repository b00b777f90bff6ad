"""Terminals, sleeves, fuses, grommets, heat-shrink and sheath, by what the tables of cable say of them."""

from collections.abc import Iterator

from fasten.catalog.materials import RING_LUGS, RING_STUDS
from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES
from fasten.catalog.wiring_ends import LUG_BARRELS, TAB_RECEPTACLES, WIRE_END_SLEEVES
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import CONVOLUTED_TUBES, GROMMETS
from fasten.errors import FastenError
from fasten.look.cable import WiringEntry, wiring_entry
from fasten.look.first.line import Answer, answer, size
from fasten.look.query import Part, Query
from fasten.text.values import Value, ValueSort

_CABLES = (ValueSort.AWG, ValueSort.GAUGE, ValueSort.AREA)
_SIZES = (ValueSort.LENGTH, ValueSort.FRACTION, ValueSort.BARE)
_FIRST = 2  # facts of an entry that its line says


def of_wiring(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for a part of cable.

    Raises:
        FastenError: nothing says of which size.
    """
    if part.table in (RING_LUGS.name, LUG_BARRELS.name):
        yield from _lugs(part, query, tables)
        return
    found = False
    if part.table == FUSE_FAMILIES.name and query.wire:
        for value in query.of(ValueSort.AMPS):
            yield from of_current(value, tables)
    if part.table == FUSE_FAMILIES.name and not query.of(ValueSort.AMPS):
        for value in query.of(*_CABLES):
            found = True
            yield from carried(value, tables, "; for its fuse see the run it is in")
    for text in _asked(part, query):
        entry = wiring_entry(text, tables)
        if entry is not None:
            found = True
            yield wiring_line(entry, part)
    if part.table == CONVOLUTED_TUBES.name:
        found = True
        yield from _sheath(part, query, tables)
    if not found:
        raise FastenError(
            f"{part.words} has no size with it",
            fix=f"write it beside, such as {_SUCH.get(part.table, '60 A')} {part.words}",
        )


_SUCH = {TAB_RECEPTACLES.name: "6.3", GROMMETS.name: "10 mm", WIRE_END_SLEEVES.name: "4 AWG", "heat-shrink": "19/6"}


def _asked(part: Part, query: Query) -> Iterator[str]:
    """What the look-up of cable is asked, in its own plain form."""
    if part.table == TAB_RECEPTACLES.name:
        yield from (f"{size(value.number)} tab" for value in query.of(*_SIZES))
    elif part.table == GROMMETS.name:
        yield from (f"{size(_mm(value))} mm grommet" for value in query.of(*_SIZES))
    elif part.table == "heat-shrink":
        yield from (f"{value.first} shrink" for value in query.of(*_SIZES))
    elif part.table == FUSE_FAMILIES.name:
        yield from (f"{value.first} a" for value in query.of(ValueSort.AMPS))
    elif part.table == WIRE_END_SLEEVES.name:
        yield from (_cable(value) for value in query.of(*_CABLES))


def _mm(value: Value) -> float:
    return value.mm


def _cable(value: Value) -> str:
    return f"{value.first} mm2" if value.sort is ValueSort.AREA else f"{value.first} awg"


def wiring_line(entry: WiringEntry, part: Part | None = None) -> Answer:
    """A thing of cable in one line: its first facts, of a cable with a sleeve asked for that of the sleeve."""
    facts = list(entry.facts)
    if part is not None and part.table == WIRE_END_SLEEVES.name:
        facts = [fact for fact in facts if fact.what == "wire-end sleeve"] or facts
    said = "; ".join(f"{fact.what} {fact.text}" for fact in facts[:_FIRST])
    cited = tuple(dict.fromkeys(source for fact in facts[:_FIRST] for source in fact.from_))
    return Answer(entry.kind, f"{entry.name}: {said}", cited)


def of_current(value: Value, tables: Tables) -> Iterator[Answer]:
    """A current: the thinnest cables that carry it, and the fuses of that rating."""
    entry = wiring_entry(f"{value.first} a", tables)
    if entry is not None:
        carried = [fact for fact in entry.facts if fact.what != "fuse"]
        fuses = list(dict.fromkeys(fact.text.partition(", ")[0] for fact in entry.facts if fact.what == "fuse"))
        said = "; ".join(f"{fact.what} {fact.text}" for fact in carried[:1])
        fused = f"; made as {', '.join(fuses)}" if fuses else ""
        yield Answer(
            "amperes", f"{entry.name}: {said}{fused}", tuple(source for fact in entry.facts for source in fact.from_)
        )


def carried(value: Value, tables: Tables, more: str = "") -> Iterator[Answer]:
    """What a cable carries, by the temperature of its insulation."""
    entry = wiring_entry(_cable(value), tables)
    facts = [] if entry is None else [fact for fact in entry.facts if fact.what.startswith("at ")]
    if entry is not None and facts:
        said = "; ".join(f"{fact.what} {fact.text}" for fact in facts)
        yield Answer("amperes", f"{entry.name} cable: {said}{more}", facts[0].from_)


def _lugs(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """A ring by its stud, with the hole that clears it; of a cable, the studs its lugs are sold for."""
    for value in query.of(ValueSort.METRIC):
        stud = f"M{size(value.number)}"
        hole = tables.find(METRIC_CLEARANCE, stud)
        if hole is not None and tables.find(RING_STUDS, stud) is not None:
            yield answer(f"{stud} ring: hole {size(hole.fine_mm)} mm", METRIC_CLEARANCE, [hole], tables)
    for value in query.of(*_CABLES):
        name = f"{value.first} mm²" if value.sort is ValueSort.AREA else f"{value.first} AWG"
        row = tables.find(LUG_BARRELS, name)
        if row is not None:
            text = f"{name} lug: for studs {', '.join(row.studs)}, barrel {size(row.barrel_mm)} mm long"
            yield answer(text, LUG_BARRELS, [row], tables)
    if not query.of(ValueSort.METRIC, *_CABLES):
        raise FastenError(f"{part.words} has no stud or cable with it", fix=f"write it beside, such as M8 {part.words}")


def _sheath(part: Part, query: Query, tables: Tables) -> Iterator[Answer]:
    """The tube whose inside is that wide, or the one that a bundle so wide fills by 70 % at most."""
    sizes = [_mm(value) for value in query.of(*_SIZES)]
    if not sizes:
        raise FastenError(
            f"{part.words} has no bundle with it", fix=f"write its width beside, such as 10 mm {part.words}"
        )
    filled, of_fill = rule_figure(tables, WiringRules.TUBE_FILL)
    row = next((row for row in tables.rows(CONVOLUTED_TUBES) if row.inside_mm * filled >= sizes[0]), None)
    if row is not None:
        text = f"{size(sizes[0])} mm bundle: convoluted tube {size(row.inside_mm)} mm inside"
        yield Answer("sheath", text, (tables.source_id(CONVOLUTED_TUBES, row), of_fill))
