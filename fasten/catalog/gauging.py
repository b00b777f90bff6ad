"""The row type of what a measuring pass is done with."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record


@record
class Feeler(Row):
    """A thickness of sheet that is at hand as a feeler."""

    key = ("thickness_mm",)
    order = ("thickness_mm",)
    thickness_mm: float


FEELERS = TableOf(Feeler, "feelers")
