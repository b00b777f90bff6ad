"""Whether a pattern says where each hole is; how it says so is read by `read_holes`, which few need."""

from fasten.catalog.practice import MEASURING_TOOLS
from fasten.catalog.tables import Tables

POINTS = "points"


def is_of_holes(kind: str, tables: Tables) -> bool:
    """Whether a pattern of this kind says where each hole is."""
    return kind == POINTS or tables.find(MEASURING_TOOLS, kind) is not None
