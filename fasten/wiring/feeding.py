"""Which run of a vehicle feeds which: trunks with their branches through any tree of blocks, and grounds that join.

A trunk ends where branches begin. Grounds join at a block from which a ground run alone goes on.
"""

from collections.abc import Iterable, Mapping
from functools import cached_property

from fasten.catalog.tables import Tables
from fasten.model import Power
from fasten.record import lean, record, replace
from fasten.wiring.current import current_of
from fasten.wiring.fuse import is_battery, is_ground, is_grounded
from fasten.wiring.words import Amps, Branches, Run, Unsized


@lean
class Leg:
    """A run among others. Its load is that of its run, or None where it follows from what is at its ends."""

    run: Run
    loaded: bool


@lean
class Load:
    """What a run carries, or its branches do, in A; `unknown` are the runs of which that is not known."""

    full_a: float = 0.0
    floor_a: float = 0.0
    unknown: tuple[str, ...] = ()

    def __add__(self, other: "Load") -> "Load":
        """Both together."""
        return Load(self.full_a + other.full_a, self.floor_a + other.floor_a, (*self.unknown, *other.unknown))


def feeders_of(branches: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    """The runs of which each is a branch."""
    return _by((one, name) for name, behind in branches.items() for one in behind)


def circles_of(branches: Mapping[str, tuple[str, ...]]) -> Mapping[str, tuple[str, ...]]:
    """Each run that comes back to where it begins, with all that it comes through."""
    reached = {name: _reached(name, branches) for name in branches}
    return {
        name: tuple(one for one in branches if one in behind and name in reached[one])
        for name, behind in reached.items() if name in behind
    }  # fmt: skip


def _reached(name: str, branches: Mapping[str, tuple[str, ...]]) -> set[str]:
    found: set[str] = set()
    more = list(branches[name])
    while more:
        if (one := more.pop()) not in found:
            found.add(one)
            more += branches[one]
    return found


@record
class Things:
    """What of the job a run may end at, by its names.

    `blocks` divide a run into branches, `holders` are its fuse holders. `active` is what drives loudspeakers or takes
    their signal, so that no lead goes on through it; `crossovers` lie between leads.
    """

    blocks: frozenset[str] = frozenset()
    holders: frozenset[str] = frozenset()
    active: frozenset[str] = frozenset()
    crossovers: frozenset[str] = frozenset()


def _by(named: Iterable[tuple[str, str]]) -> Mapping[str, tuple[str, ...]]:
    """What stands beside each name, in its order."""
    found: dict[str, list[str]] = {}
    for name, one in named:
        found.setdefault(name, []).append(one)
    return {name: tuple(ones) for name, ones in found.items()}


@record
class Feeding:
    """The runs of a vehicle by their names.

    `blocks` are what of the job divides a run into branches, `holders` its fuse holders.
    """

    legs: Mapping[str, Leg]
    blocks: frozenset[str]
    holders: frozenset[str]
    tables: Tables

    @cached_property
    def _starting(self) -> Mapping[str, tuple[str, ...]]:
        """The runs under load that begin at what of the job; what begins at a battery is fed by none."""
        return _by(
            (leg.run.from_name, name) for name, leg in self.legs.items()
            if leg.run.from_name and isinstance(leg.run.carries, Amps | Power | Branches)
            and not is_battery(leg.run.from_)
        )  # fmt: skip

    @cached_property
    def grounds(self) -> frozenset[str]:
        """The ground runs: those at the body or a minus, and those to a block from which only grounds go on."""
        found = {name for name, leg in self.legs.items() if is_ground(leg.run)}
        rest = [name for name, leg in self.legs.items() if leg.run.to_name in self.blocks and name not in found]
        while joined := {name for name in rest if name not in found and self._joins(name, found)}:
            found |= joined
        return frozenset(found)

    def _joins(self, name: str, grounds: set[str]) -> bool:
        run = self.legs[name].run
        goes_on = any(self._grounded(one) == run.to_name for one in grounds)
        return goes_on and grounds.issuperset(self._starting.get(run.to_name, ())) and not is_battery(run.from_)

    @cached_property
    def branches(self) -> Mapping[str, tuple[str, ...]]:
        """The runs that begin where each run ends, grounds and what carries next to nothing left out."""
        return {
            name: tuple(one for one in self._starting.get(leg.run.to_name, ()) if one not in self.grounds)
            for name, leg in self.legs.items() if self._feeds(name)
        }  # fmt: skip

    def _feeds(self, name: str) -> bool:
        return name not in self.grounds and isinstance(self.legs[name].run.carries, Amps | Power | Branches)

    @cached_property
    def feeders(self) -> Mapping[str, tuple[str, ...]]:
        """The runs that end where each run begins, of those that feed it."""
        return feeders_of(self.branches)

    def rivals(self, name: str) -> tuple[str, ...]:
        """The runs that feed the same as a run does, or that feed it beside another."""
        beside = {one for branch in self.branches[name] for one in self.feeders[branch]} - {name}
        feeders = self.feeders.get(name, ())
        return (*sorted(beside), *(feeders if len(feeders) > 1 else ()))

    @cached_property
    def circles(self) -> Mapping[str, tuple[str, ...]]:
        """Each run that comes back to where it begins, with all that it comes through."""
        return circles_of(self.branches)

    def own_load(self, name: str) -> Load:
        """What is said of a run, or of the item that it ends at."""
        leg = self.legs[name]
        if not leg.loaded or isinstance(leg.run.carries, Unsized):
            return Load(unknown=(name,))
        found = current_of(leg.run.carries, leg.run, self.tables)
        return Load(found.full_a, found.fuse_floor_a or 0.0)

    def load(self, name: str) -> Load:
        """What a run carries with all that is behind it."""
        behind = self.behind(name)
        if not self.legs[name].loaded:
            is_known = bool(self.branches[name]) and self._passes_on(name)
            return behind if is_known else behind + Load(unknown=(name,))
        own = self.own_load(name)
        if self.legs[name].run.to_name not in self.blocks:
            return own + behind
        more = Load(max(own.full_a, behind.full_a), max(own.floor_a, behind.floor_a), behind.unknown)
        return own if (more.full_a, more.floor_a) == (own.full_a, own.floor_a) else more

    def _passes_on(self, name: str) -> bool:
        """Whether what a run ends at takes nothing itself: a block, or a fuse holder."""
        return self.legs[name].run.to_name in self.blocks | self.holders

    def behind(self, name: str) -> Load:
        """What the branches of a run carry together."""
        if name in self.circles:
            return Load(unknown=self.branches[name])
        return sum(map(self.load, self.branches[name]), Load())

    def carrying(self, name: str) -> Run | None:
        """A run with what it carries; None where nothing is known of it."""
        leg, load = self.legs[name], self.load(name)
        if not leg.loaded:
            carries = Branches(load.full_a, load.floor_a)
            return replace(leg.run, carries=carries, unloaded=load.unknown) if load.full_a else None
        if not self.branches[name]:
            return leg.run
        if leg.run.to_name in self.blocks:
            return replace(leg.run, carries=Branches(load.full_a, load.floor_a), unloaded=load.unknown)
        behind = self.behind(name)
        return replace(leg.run, onward=Branches(behind.full_a, behind.floor_a), unloaded=behind.unknown)

    def items(self, name: str) -> frozenset[str]:
        """What of the job a run feeds, by itself or through what is behind it."""
        run = self.legs[name].run
        own = {run.to_name} if run.to_name and run.to_name not in self.blocks and self.legs[name].loaded else set()
        return frozenset(own).union(*(self.items(one) for one in self.branches[name] if name not in self.circles))

    # -- grounds -------------------------------------------------------------------------------------------------------

    def ground_of(self, item: str) -> str | None:
        """The ground run of something of the job; None where it has none."""
        return next(iter(self._grounds_at.get(item, ())), None) if item else None

    @cached_property
    def _grounds_at(self) -> Mapping[str, tuple[str, ...]]:
        """The ground runs that begin at each thing of the job, or end there and begin at the body."""
        return _by((self._grounded(name), name) for name in self.legs if name in self.grounds)

    def _grounded(self, name: str) -> str:
        """What of the job a ground run grounds."""
        run = self.legs[name].run
        return run.to_name if is_grounded(run.from_) and not is_grounded(run.to) else run.from_name

    def next_ground(self, name: str) -> str | None:
        """The ground run that goes on from the block that a ground run ends at; None where it ends at the body."""
        run = self.legs[name].run
        joins = run.to_name in self.blocks and not is_ground(run)
        return self.ground_of(run.to_name) if joins else None

    def grounded_items(self, name: str) -> frozenset[str]:
        """What of the job a ground run grounds, by itself or through the grounds that join it."""
        item = self._grounded(name)
        if item not in self.blocks:
            return frozenset({item} if item else ())
        joining = (one for one in self.joining(name) if one != name)
        return frozenset().union(*map(self.grounded_items, joining))

    def joining(self, name: str) -> tuple[str, ...]:
        """The ground runs that a ground run goes on from."""
        return self._joining.get(name, ())

    @cached_property
    def _joining(self) -> Mapping[str, tuple[str, ...]]:
        onward = ((self.next_ground(one), one) for one in self.grounds)
        return _by((name, one) for name, one in onward if name is not None)

    def ground_load(self, name: str) -> Load:
        """What a ground run carries: what feeds each item does, once."""
        return sum(map(self.item_load, sorted(self.grounded_items(name))), Load())

    def item_load(self, item: str) -> Load:
        """What something of the job takes: by its power once, or all that the runs that feed it are said to carry."""
        fed = self.fed_by(item)
        if not fed:
            return Load(unknown=(item,))
        loads = [self.own_load(name) for name in fed]
        said = [load for name, load in zip(fed, loads, strict=True) if isinstance(self.legs[name].run.carries, Amps)]
        each = (sum(said, Load()), *loads)
        unknown = tuple(dict.fromkeys(name for load in loads for name in load.unknown))
        return Load(max(load.full_a for load in each), max(load.floor_a for load in each), unknown)

    def fed_by(self, item: str) -> tuple[str, ...]:
        """The runs that feed something of the job with a load of its own."""
        return self._fed_by.get(item, ())

    @cached_property
    def _fed_by(self) -> Mapping[str, tuple[str, ...]]:
        return _by((self.legs[name].run.to_name, name) for name in self.branches if self.is_load(name))

    def is_load(self, name: str) -> bool:
        """Whether a run feeds a load of its own, and not a block."""
        return self.legs[name].loaded and self.legs[name].run.to_name not in self.blocks
