"""How the heads of screws are drawn, by their form."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record


@record
class HeadForm(Row):
    """How a section draws a head: its profile, the share of its crown in its width, of its base in its height."""

    key = ("form",)
    words = {"profile": ("dome", "pan", "cylinder", "cone", "hexagon")}
    zero_ok = frozenset({"base_share"})
    form: str
    profile: str
    crown_share: float
    base_share: float


HEAD_FORMS = TableOf(HeadForm, "head-forms")
