"""Everything that a run, section or hole may ask for, under the names that a hardware list gives it."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES
from fasten.catalog.wiring_ends import (
    CRIMP_TERMINALS,
    CRIMP_TOOLS,
    LUG_BARRELS,
    TAB_RECEPTACLES,
    WIRE_END_SLEEVES,
)
from fasten.catalog.wiring_work import GROMMETS, LINED_CLAMPS
from fasten.model.line import Part
from fasten.wiring import end_parts
from fasten.wiring.covers import LUG
from fasten.wiring.end_parts import EndPart
from fasten.wiring.needs import tool_keys
from fasten.wiring.parts import CABLE, MARKER, SHRINK, SOLDER
from fasten.wiring.sizes import sizes
from fasten.wiring.ways import TAPE, TIE, TUBE
from fasten.wiring.words import Pole, Series

CONSUMABLES = {CABLE: True, SHRINK: True, MARKER: False, SOLDER: False, TIE: True, TAPE: False, TUBE: True}
"""The consumables, and whether something more is said of each after its name."""


MOST_OUTPUTS = 12  # of a distribution block that a shelf knows


def parts(tables: Tables) -> Iterator[Part]:
    """Every part, once."""
    return (one.listed for one in dict.fromkeys(_parts(tables)))


def tools(tables: Tables) -> Iterator[tuple[str, bool]]:
    """Every tool, and whether the cable that it crimps on is said after its name: what its dies are for."""
    for row in tables.rows(CRIMP_TOOLS):
        yield row.tool, row.joint == LUG
    yield from ((key, False) for key in tool_keys(tables))


def _parts(tables: Tables) -> Iterator[EndPart]:
    cables = tuple(size for series in Series for size in sizes(series, tables))
    studs = tuple(dict.fromkeys(stud for row in tables.rows(LUG_BARRELS) for stud in row.studs))
    for size in cables:
        yield from (end_parts.tube_lug(size, stud) for stud in studs)
        yield from (end_parts.receptacle(row.tab, size) for row in tables.rows(TAB_RECEPTACLES))
        yield from (make(size) for make in _OF_CABLE)
    for colour in tables.rows(CRIMP_TERMINALS):
        yield from (end_parts.ring_terminal(colour, stud) for stud in studs)
        yield end_parts.butt_splice(colour)
    yield from map(end_parts.end_sleeve, tables.rows(WIRE_END_SLEEVES))
    yield from map(end_parts.battery_clamp, Pole)
    for family in tables.rows(FUSE_FAMILIES):
        yield end_parts.fuse_holder(family)
        yield from (end_parts.fuse(rating, family) for rating in family.ratings_a)
    for outputs in range(1, MOST_OUTPUTS + 1):
        yield from (end_parts.block(outputs, grounds=grounds) for grounds in (False, True))
    yield from map(end_parts.lined_clamp, tables.rows(LINED_CLAMPS))
    yield from map(end_parts.grommet, tables.rows(GROMMETS))


_OF_CABLE = (end_parts.reducing_pin, end_parts.butt_connector, end_parts.contact)
