"""What a copper cable carries: one governing row, found by its area and the temperature of its insulation."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import CABLE_AMPACITY, INSULATIONS_C, METRIC_AMPACITY
from fasten.record import lean
from fasten.text.figures import figure

_SAME = 1.001  # an area that is printed to three decimals, or calculated, is one and the same
_METRIC_C = 105  # the insulation that the metric rows are for


@lean
class Ampacity:
    """What a cable carries, in A: the gauge below its area, the temperature of the column, and the sources.

    `row` names what governs: that gauge, or the metric row of its own area.
    """

    amps_a: float
    awg: str
    insulation_c: int
    from_: tuple[str, ...]
    row: str


def cable_ampacity(area_mm2: float, insulation_c: float, tables: Tables) -> Ampacity | None:
    """What one copper cable of an area carries in free air at 30 °C; None where no row is for it.

    The row is that of the largest gauge not above the area, its column the warmest not above the insulation. A metric
    size at 105 °C carries no more than its own row says.
    """
    rows = [row for row in tables.rows(CABLE_AMPACITY) if row.area_mm2 <= area_mm2 * _SAME]
    columns = [column for column in INSULATIONS_C if column <= insulation_c]
    if not rows or not columns:
        return None
    row, column = rows[-1], columns[-1]
    amps, source = row.at_a(column), tables.source_id(CABLE_AMPACITY, row)
    metric = tables.find(METRIC_AMPACITY, area_mm2) if column == _METRIC_C else None
    if metric is not None and metric.at_105_a < amps:
        return Ampacity(metric.at_105_a, row.awg, column, (source, tables.source_id(METRIC_AMPACITY, metric)),
                        f"metric {figure(area_mm2)} mm²")  # fmt: skip
    return Ampacity(amps, row.awg, column, (source,), f"{row.awg} AWG")
