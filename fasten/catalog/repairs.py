"""Row types of repairs: what happened to what, the routes in the trade's order, and what is never done."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record

DAMAGES = ("spun", "stripped", "oversize", "off", "snapped", "cross-threaded", "cracked", "corroded")
PROOFS = (
    "same", "series", "tapped", "thread", "hexagon", "washer", "item hole", "slot", "beside", "shift",
    "leave out", "next screw", "methods", "planned", "needs", "cover", "plate behind", "crack",
    "doubler on board", "tested", "held", "sheet left", "-",
)  # fmt: skip


@record
class RepairSubstrate(Row):
    """What is fastened to, as repairs tell it apart, and what is never done there."""

    key = ("substrate",)
    substrate: str
    title: str
    never: tuple[str, ...]


REPAIR_SUBSTRATES = TableOf(RepairSubstrate, "repair-substrates")


@record
class RepairRoute(Row):
    """A way `out` for the old part, a `route` of repair, or the reason to `stop`; `title` is what a list calls it.

    `proof` says by which edit of joint and mount point it is proved, with the joints of which `methods`; `needs` is
    what keeps a route unproven that no calculation decides. `new_hole` says that it drills one.
    """

    key = ("route",)
    words = {"sort": ("out", "route", "stop"), "proof": PROOFS, "new_hole": ("yes", "no")}
    route: str
    sort: str
    title: str
    do: str
    bits: str | None
    hardware: str | None
    danger: str | None
    proof: str
    methods: tuple[str, ...]
    needs: str | None
    new_hole: str


REPAIR_ROUTES = TableOf(RepairRoute, "repair-routes")


@record
class Repair(Row):
    """What happened to what: its routes in the trade's order, each with why it is taken."""

    key = ("substrate", "what")
    words = {"what": DAMAGES}
    refs = {"substrate": REPAIR_SUBSTRATES}
    substrate: str
    what: str
    means: str | None
    routes: tuple[str, ...]
    why: tuple[str, ...]
    danger: str | None


REPAIRS = TableOf(Repair, "repairs")
