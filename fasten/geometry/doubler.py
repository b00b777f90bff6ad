"""The rivets of a doubler: which, how many and how far apart."""

from math import ceil

from fasten.catalog.parts import BLIND_RIVETS, BlindRivet
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Doubler

SIZES = ("4.0", "4.8", "3.2")  # the usual one first


def rivet_of(doubler: Doubler, sheet_mm: float, tables: Tables) -> BlindRivet | None:
    """The rivet that grips sheet and doubler.

    doubler: the doubler [-]
    sheet_mm: thickness of the sheet [mm]
    tables: the tables to look in [-]
    Returns: its row, None where none grips both [-]
    Source: grip ranges of blind rivets.
    """
    both_mm = sheet_mm + doubler.thickness_mm
    rows = [row for row in tables.rows(BLIND_RIVETS) if row.grip_min_mm <= both_mm <= row.grip_max_mm]
    return min((row for row in rows if row.size in SIZES), key=lambda row: SIZES.index(row.size), default=None)


def rivet_count(doubler: Doubler, tables: Tables) -> int:
    """How many rivets go round a doubler, one at each corner.

    doubler: the doubler [-]
    tables: the tables to look in [-]
    Returns: the count [-]
    Source: the greatest pitch of common practice.
    """
    edge_mm, most_mm = (rule(tables, name).value for name in (Rules.DOUBLER_RIVET_EDGE, Rules.DOUBLER_PITCH))
    return 4 * max(ceil((doubler.side_mm - 2 * edge_mm) / most_mm - 1e-9), 1)
