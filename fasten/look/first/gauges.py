"""Gauges of sheet and wire, areas and currents: a gauge without a word beside it may be either."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import AWG_CONDUCTORS, METRIC_CONDUCTORS
from fasten.errors import FastenError
from fasten.look.first.line import Answer, size
from fasten.look.first.wires import carried, of_current
from fasten.look.query import Query
from fasten.look.sheet import GaugeEntry, gauge_entry
from fasten.mechanics.grounding import awg_area_mm2
from fasten.text.figures import figure, words
from fasten.text.units import number
from fasten.text.values import Value, ValueSort

_FINEST_GAUGE = 36


def of_gauge(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for a gauge, an area of cable or a current."""
    if query.asks("amps") and value.sort is not ValueSort.AMPS:
        yield from carried(value, tables)
    if value.sort is ValueSort.AMPS:
        yield from of_current(value, tables)
    elif value.sort is ValueSort.AREA:
        yield _area(value.number, tables)
    elif value.sort is ValueSort.AWG or query.wire or query.of(ValueSort.AREA, ValueSort.AWG):
        yield from _wire(value, tables)
    else:
        yield from _sheet(value, query, tables)
        if not query.metals:
            yield from _wire(value, tables)


def _sheet(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    for metal in query.metals or (None,):
        try:
            entry = gauge_entry(int(value.first), metal, tables)
        except (FastenError, ValueError):
            continue
        yield from gauge_lines(entry)


def gauge_lines(entry: GaugeEntry) -> Iterator[Answer]:
    """A line for each metal of a gauge."""
    for item in entry.thickness:
        thick = f"{size(item.thickness_mm)} mm, {number(item.thickness_in, 4)} in"
        yield Answer("gauge", f"{entry.number} gauge {words(item.material)}: {thick}", item.from_)


def _wire(value: Value, tables: Tables) -> Iterator[Answer]:
    """The copper of a wire gauge by its standard, and the next metric cable above it."""
    gauge = number_of(value.first)
    if gauge > _FINEST_GAUGE:
        return
    area = awg_area_mm2(steps=gauge + 3)
    above = next((row for row in tables.rows(METRIC_CONDUCTORS) if row.area_mm2 >= area), None)
    metric = f"; next metric size {figure(above.area_mm2)} mm²" if above else ""
    row = tables.find(AWG_CONDUCTORS, value.first)
    resistance = f", {figure(row.resistance_mohm_per_m)} mΩ/m" if row else ""
    text = f"{value.first} AWG wire: {number(area, 2)} mm² of copper{metric}{resistance}"
    cited = [tables.source_id(METRIC_CONDUCTORS, above)] if above else []
    cited += [tables.source_id(AWG_CONDUCTORS, row)] if row else []
    yield Answer("wire", text, tuple(cited))


def _area(area_mm2: float, tables: Tables) -> Answer:
    """A metric cable, with the wire gauges that are sold on either side of it."""
    sold = [(number_of(row.awg), row) for row in tables.rows(AWG_CONDUCTORS)]
    thinner = [(gauge, row) for gauge, row in sold if awg_area_mm2(steps=gauge + 3) < area_mm2]
    thicker = [(gauge, row) for gauge, row in sold if awg_area_mm2(steps=gauge + 3) >= area_mm2]
    beside = [*thinner[-1:], *thicker[:1]]
    said = " and ".join(f"{row.awg} AWG ({number(awg_area_mm2(steps=gauge + 3), 2)} mm²)" for gauge, row in beside)
    row = tables.find(METRIC_CONDUCTORS, area_mm2)
    resistance = f", {figure(row.resistance_mohm_per_m)} mΩ/m at 20 °C" if row else ""
    cited = [tables.source_id(METRIC_CONDUCTORS, row)] if row else []
    cited += [tables.source_id(AWG_CONDUCTORS, near) for _, near in beside]
    text = f"{figure(area_mm2)} mm² wire{resistance}; next to {said}"
    return Answer("wire", text, tuple(dict.fromkeys(cited)))


def number_of(gauge: str) -> int:
    """A wire gauge as a number: 1/0 is 0, 4/0 is -3."""
    return 1 - int(gauge[0]) if "/0" in gauge else int(gauge)
