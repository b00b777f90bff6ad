"""What is crimped on a cable of an area: the colour of its terminals, the force it must hold, and the tool."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import CRIMP_PULL, CRIMP_TERMINALS, CRIMP_TOOLS, CrimpTerminal
from fasten.model import Check
from fasten.proof.checks import waits
from fasten.text.figures import figure
from fasten.wiring.words import Size

SAME = 1.001  # an area that is printed to three decimals is one with another
_ABOVE_LAST = 1.05  # so far over the last row it still goes by it


def coloured(size: Size, tables: Tables) -> CrimpTerminal:
    """The colour of the insulated terminals that take a cable."""
    rows = tables.rows(CRIMP_TERMINALS)
    return next((row for row in rows if size.area_mm2 <= row.most_mm2 * SAME), rows[-1])


def colour_range(row: CrimpTerminal) -> str:
    """The cable that terminals of a colour take."""
    return f"to {figure(row.most_mm2)} mm²"


def pull_n(size: Size, tables: Tables) -> float | None:
    """The least force a crimp must hold; None where none is published."""
    rows = [row for row in tables.rows(CRIMP_PULL) if row.area_mm2 <= size.area_mm2 * SAME]
    last = tables.rows(CRIMP_PULL)[-1]
    return rows[-1].pull_n if rows and size.area_mm2 <= last.area_mm2 * _ABOVE_LAST else None


def pull_check(size: Size, tables: Tables) -> Iterator[Check]:
    """What stands open where no force is published."""
    if pull_n(size, tables) is None:
        needs = f"needs the force that a crimp on {size.name} must hold, from the lug's maker: none is published"
        yield waits("pull", "Crimp", "N", None, needs, (), "", ())


def crimp_tool(joint: str, size: Size, tables: Tables) -> str | None:
    """What crimps a joint on the cable; None where no row is for it."""
    for row in tables.rows(CRIMP_TOOLS):
        if row.joint == joint and row.least_mm2 <= size.area_mm2 <= row.most_mm2 * SAME:
            return row.tool
    return None
