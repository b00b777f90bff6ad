"""The sizes of cable that are known, thinnest first."""

from functools import lru_cache

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import AWG_CONDUCTORS, CABLE_AMPACITY, METRIC_CONDUCTORS
from fasten.text.units import number
from fasten.wiring.words import Series, Size

_SAME = 0.001  # a share by which a calculated area may differ from a printed one


@lru_cache(maxsize=8)
def sizes(series: Series, tables: Tables) -> tuple[Size, ...]:
    """The sizes of a series that are proposed."""
    return _gauges(tables) if series is Series.AWG else _areas(tables)


def size_of(area_mm2: float, series: Series, tables: Tables) -> Size | None:
    """The size of a series with this area; None where nothing is known of it."""
    return next((size for size in sizes(series, tables) if _is_same(size.area_mm2, area_mm2)), None)


def _is_same(printed: float, area_mm2: float) -> bool:
    return -_SAME < area_mm2 / printed - 1 < _SAME


def _gauges(tables: Tables) -> tuple[Size, ...]:
    found = []
    for row in tables.rows(AWG_CONDUCTORS):
        area = tables.need(CABLE_AMPACITY, row.awg)
        sources = (tables.source_id(AWG_CONDUCTORS, row), tables.source_id(CABLE_AMPACITY, area))
        found.append(Size(f"{row.awg} AWG", Series.AWG, area.area_mm2, row.resistance_mohm_per_m, sources))
    return tuple(found)


def _areas(tables: Tables) -> tuple[Size, ...]:
    return tuple(
        Size(f"{number(row.area_mm2, 2)} mm²", Series.METRIC, row.area_mm2, row.resistance_mohm_per_m,
             (tables.source_id(METRIC_CONDUCTORS, row),))
        for row in tables.rows(METRIC_CONDUCTORS)
    )  # fmt: skip
