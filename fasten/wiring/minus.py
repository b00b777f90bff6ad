"""What leads from the minus of a battery to the body carry: all that the runs from its plus bring back there.

Leads of which nothing is said share it alike. What is said of leads stays, and is judged by what comes back.
"""

from collections.abc import Callable, Iterator, Mapping

from fasten.record import record, replace
from fasten.wiring.feeding import Feeding, Load
from fasten.wiring.fuse import is_battery, is_body, is_minus_lead
from fasten.wiring.sizing import Sized, Sizing
from fasten.wiring.words import Branches, Comes, End, Run

_OfEnd = Callable[[Run], tuple[End, str]]


@record
class Minus:
    """The leads to the body of one battery, by its name; that of a battery that is nothing of the job is empty."""

    feeding: Feeding
    battery: str

    @property
    def leads(self) -> tuple[str, ...]:
        """Its leads to the body, in the order of the job."""
        legs = self.feeding.legs
        return tuple(
            name for name, leg in legs.items() if is_minus_lead(leg.run) and battery_of(leg.run) == self.battery
        )

    @property
    def _unsaid(self) -> tuple[str, ...]:
        return tuple(name for name in self.leads if not self.feeding.legs[name].loaded)

    def comes(self) -> Load:
        """What comes back to it: what begins at its plus, or what charges it where that is more."""
        feeds, charges = (
            sum((self.feeding.load(name) for name in self._at(of_end)), Load()) for of_end in (_start, _end)
        )
        full_a, floor_a = max(feeds.full_a, charges.full_a), max(feeds.floor_a, charges.floor_a)
        return Load(full_a, floor_a, (*feeds.unknown, *charges.unknown))

    def fuses_a(self, found: Mapping[str, Sized]) -> float:
        """The fuses before it together; of a run that has none the least that it may be [A]."""
        return max(sum(self._fuse_a(name, found.get(name)) for name in self._at(of_end)) for of_end in (_start, _end))

    def _fuse_a(self, name: str, got: Sized | None) -> float:
        if isinstance(got, Sizing) and got.fuse is not None:
            return got.fuse.rating_a
        return self.feeding.load(name).floor_a

    def _at(self, of_end: _OfEnd) -> Iterator[str]:
        """The runs of which this end is at the plus of the battery."""
        for name in self.feeding.branches:
            end, at = of_end(self.feeding.legs[name].run)
            if is_battery(end) and at == self.battery:
                yield name

    def lead(self, name: str, found: Mapping[str, Sized]) -> Run | None:
        """A lead with what it carries and the fuses before it; None where nothing is known of what comes back."""
        leg, load = self.feeding.legs[name], self.comes()
        if leg.loaded:
            return self._said(name, load, found)
        if not load.full_a:
            return None
        alike = len(self._unsaid)
        return replace(
            leg.run, carries=Branches(load.full_a / alike, load.floor_a / alike), unloaded=load.unknown,
            upstream_fuse_a=self.fuses_a(found) / alike, unlike=self._unlike(leg.run),
        )  # fmt: skip

    def _said(self, name: str, load: Load, found: Mapping[str, Sized]) -> Run:
        """A lead of which it is said what it carries: that is its share, unless another takes the rest."""
        run = replace(self.feeding.legs[name].run, unloaded=load.unknown)
        if self._unsaid:
            return run
        own_a = self.feeding.own_load(name).full_a
        said_a = sum(self.feeding.own_load(one).full_a for one in self.leads)
        comes = Comes(round(load.full_a, 1), said_a, self.leads)  # as it is said: to a tenth of an ampere
        return replace(run, comes=comes, upstream_fuse_a=self.fuses_a(found) * own_a / said_a or None)

    def _unlike(self, run: Run) -> tuple[str, ...]:
        """The leads beside one that are not like it, so that they do not share alike."""
        beside = ((name, self.feeding.legs[name].run) for name in self._unsaid)
        return tuple(name for name, other in beside if _like(other) != _like(run))


def battery_of(run: Run) -> str:
    """The name of the battery that a lead begins or ends at."""
    return run.to_name if is_body(run.from_) else run.from_name


def _start(run: Run) -> tuple[End, str]:
    return run.from_, run.from_name


def _end(run: Run) -> tuple[End, str]:
    return run.to, run.to_name


def _like(run: Run) -> tuple[object, ...]:
    """What the resistance of a lead depends on."""
    return run.length_mm, run.material, run.chosen
