"""Why a receiver has no such figure, said once for all kinds of which it is true; and the nut that locks itself."""

from functools import lru_cache

from fasten.catalog.parts import NUTS, Nut
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Receiver, kinds
from fasten.model.known import Absent, FarEnd, MostTorque, Needed, Rating

NO_GRIP = Absent("it is held from behind or sits in solid stuff, whatever the thickness")
NO_FLANGE = Absent("it lies level or behind")
NO_BODY = Absent("nothing of it sits in the hole")
NO_BULGE = Absent("nothing swells behind")
NO_EDGE = Absent("it is set in a hole, not slid on from an edge")
NOT_RATED = Absent("its strength follows from what it sits in and from its screw")
NO_SHEAR = Absent("its screw or its body takes the shear")
NO_BREAKING = Absent("the screw or what it sits in gives first")
NO_BOX_TORQUE = Absent("no table prints one: limits are calculated")
NOT_TIGHTENED = Absent("nothing is tightened in it")
HELD = Absent("its body cannot turn before what holds it gives")
RUNS_FREE = Absent("a screw turns in it by hand")


def box_pull(rated_n: float | None) -> Rating | Needed:
    """The pull that a box gives, or that it must be read."""
    return Needed("the pull its box gives") if rated_n is None else Rating(rated_n)


def box_torque(torque_nm: float | None) -> MostTorque | Needed:
    """The torque that a box gives, or that it must be read."""
    return Needed("the torque its box gives") if torque_nm is None else MostTorque(torque_nm)


def lock_nut(nut: Nut, tables: Tables) -> Receiver:
    """A prevailing-torque nut."""
    return _lock_nut(nut.standard, nut.size, tables)


@lru_cache(maxsize=64)  # every bolt of a mount point asks for it
def _lock_nut(standard: str, size: str, tables: Tables) -> Receiver:
    nut = tables.need(NUTS, standard, size)
    return Receiver(
        kind=kinds.LOCK_NUT, series=nut.standard, thread=size, length_mm=nut.height_max_mm, material="steel",
        grip=NO_GRIP, flange=NO_FLANGE, body=NO_BODY, bulge=NO_BULGE, edge=NO_EDGE, pull=NOT_RATED,
        shear=NO_SHEAR, breaking=NO_BREAKING, box_torque=NO_BOX_TORQUE, spin_out=HELD,
        prevailing=MostTorque(rule(tables, Rules(f"prevailing-torque-{size.lower()}")).value), end=FarEnd.OPEN,
        from_=tables.source_id(NUTS, nut),
    )  # fmt: skip
