"""What follows from the demands of a mount point alone: worked out once, and the same for every joint of it."""

from functools import cached_property

from fasten.model import Demand
from fasten.model.check import LOAD_KINDS
from fasten.record import record

DIRECTIONS = ("shear", "tension")


def driving_n(demand: Demand, load: str) -> float:
    """What of a demand drives what fails by shear, or by tension."""
    return demand.shear_n if load == "shear" else demand.tension_n


def case_name(demand: Demand) -> str:
    """The load and its case in words."""
    return f"{demand.case}: {demand.load}, on {demand.panel.value}"


@record
class OfKind:
    """The loads of a kind, so ordered that of several alike the first decides; the worst of each direction, named."""

    kind: str
    loads: tuple[Demand, ...]
    worst: dict[str, Demand]
    cases: dict[str, str]


class Loads(tuple[Demand, ...]):
    """Demands, with what follows from them."""

    @cached_property
    def kinds(self) -> tuple[OfKind, ...]:
        """Those of each kind that there are any of."""
        by_kind = ((kind, [demand for demand in self if demand.kind == kind]) for kind in LOAD_KINDS)
        return tuple(_of_kind(kind, loads) for kind, loads in by_kind if loads)

    @cached_property
    def service(self) -> tuple[Demand, ...]:
        """Those of service, in the order of their kind."""
        return next((one.loads for one in self.kinds if one.kind == "service"), ())

    @cached_property
    def clamped(self) -> dict[tuple[float, ...], tuple[float, Demand, float]]:
        """The clamp that service needs, for each friction and each of the factors that it was asked for with."""
        return {}

    @cached_property
    def most(self) -> dict[tuple[str, str], tuple[tuple[float, float], ...]]:
        """The worst load of each kind and the factor on it, for each family and direction that was asked for."""
        return {}


def loads_of(demands: tuple[Demand, ...]) -> Loads:
    """The same demands, with what follows from them."""
    return demands if isinstance(demands, Loads) else Loads(demands)


def _of_kind(kind: str, found: list[Demand]) -> OfKind:
    loads = tuple(sorted(found, key=lambda demand: (demand.load, demand.panel.value), reverse=True))
    worst = {load: max(loads, key=lambda demand, load=load: driving_n(demand, load)) for load in DIRECTIONS}  # type: ignore[misc]
    return OfKind(kind, loads, worst, {load: case_name(demand) for load, demand in worst.items()})
