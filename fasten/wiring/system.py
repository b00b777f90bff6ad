"""The runs of a vehicle together: what trunks carry, what is lost before a branch, and the ground of a load.

Of all sizes that keep the limit over the whole path, through any tree of blocks, those that take the least copper are
chosen.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from math import inf

from fasten.catalog.tables import Tables
from fasten.record import lean, record, replace
from fasten.wiring.body import Return, at_body, others_on, returns_of
from fasten.wiring.conductor import clad_more_v
from fasten.wiring.copper import Ways, power_steps, ways_of
from fasten.wiring.feeding import Feeding, Leg, Things
from fasten.wiring.fuse import is_minus_lead
from fasten.wiring.leads import leads_together
from fasten.wiring.minus import Minus, battery_of
from fasten.wiring.pieces import holder_end, unfed_at
from fasten.wiring.sizing import NoSize, Sized, Sizing, in_circle, sized
from fasten.wiring.words import Branches, DeviceEnd, End, Loudspeaker, Run, Unsized

Known = Callable[[Sized], Sized]


def sized_together(
    legs: tuple[Leg, ...],
    tables: Tables,
    things: Things = Things(),  # noqa: B008
    known: Known = lambda sizing: sizing,
) -> Mapping[str, Sized]:
    """What every run gets, by its name; where nothing is said of what one carries there is nothing for it.

    `known` puts in what was measured of the cable of a size.
    """
    feeding = Feeding({leg.run.name: leg for leg in legs}, things.blocks, things.holders, tables)
    vehicle = _Vehicle(feeding, known, tables)
    leads = {leg.run.name: leg.run for leg in legs if isinstance(leg.run.carries, Loudspeaker)}
    found = dict(vehicle.alone()) | leads_together(leads, things, vehicle.sized, tables)
    for name in vehicle.plus:
        if not any(feeder in vehicle.plus for feeder in vehicle.feeders(name)):
            found |= vehicle.down(name, _Before(not_whole=vehicle.feeders(name), fed=bool(vehicle.feeders(name))))
    return found | dict(vehicle.grounded(found))


@lean
class _Before:
    """What lies before a run: what is lost there, the fuse there, and the runs of which that is not known whole.

    `over_v` is what is lost there where chosen cable leaves nothing of the limit: then it does not count against it.
    `holder` is what the fuse holder takes that the run before ends at. `clad_v` more is lost there where the cable of
    those that are `unsaid` is copper-clad.
    """

    lost_v: float = 0.0
    fuse_a: float | None = None
    not_whole: tuple[str, ...] = ()
    fed: bool = False
    over_v: float = 0.0
    holder: End | None = None
    unfed_at: str = ""
    clad_v: float = 0.0
    unsaid: tuple[str, ...] = ()

    def on(self, run: Run) -> Run:
        """A run with what lies before it."""
        from_ = self.holder if self.holder is not None and isinstance(run.from_, DeviceEnd) else run.from_
        return replace(
            run, from_=from_, before_v=run.before_v + self.lost_v, upstream_fuse_a=self.fuse_a, fed=self.fed,
            unfed_at=self.unfed_at, not_whole=(*self.not_whole, *run.not_whole), over_v=self.over_v + run.over_v,
            clad_v=self.clad_v + run.clad_v, unsaid=(*self.unsaid, *run.unsaid),
        )  # fmt: skip

    def after(self, name: str, got: Sized | None, tables: Tables, holder: End | None = None) -> "_Before":
        """What lies behind a run that has this size, or none."""
        if not isinstance(got, Sizing) or got.conductor is None or got.current is None:
            return _Before(self.lost_v, None, (*self.not_whole, name), fed=True, unfed_at=self.unfed_at,
                           clad_v=self.clad_v, unsaid=self.unsaid)  # fmt: skip
        lost_v = got.conductor.drop_v - got.run.before_v
        not_whole = (*self.not_whole, *((name,) if got.run.unloaded or got.run.rivals else ()))
        fuse_a = self.fuse_a if got.fuse is None else got.fuse.rating_a
        over_v = self.lost_v + lost_v if got.over_limit_v and got.run.chosen is not None else self.over_v
        more_v = clad_more_v(got.conductor, got.current.full_a, got.run, tables)
        return _Before(self.lost_v + lost_v, fuse_a, not_whole, fed=True, over_v=over_v, holder=holder,
                       unfed_at=unfed_at(got.run), clad_v=self.clad_v + more_v,
                       unsaid=(*self.unsaid, name) if more_v else self.unsaid)  # fmt: skip


@record
class _Vehicle:
    """The runs of a vehicle while they are sized."""

    feeding: Feeding
    known: Known
    tables: Tables

    def sized(self, run: Run) -> Sized:
        """The size of a run, with what is known of its cable."""
        return self.known(sized(run, self.tables))

    def alone(self) -> Iterator[tuple[str, Sized]]:
        """What feeds nothing, and what comes back to where it begins, which is refused."""
        for name, leg in self.feeding.legs.items():
            if name in self.feeding.circles:
                yield name, in_circle(leg.run, self.feeding.circles[name])
            elif isinstance(leg.run.carries, Unsized) and name not in self.feeding.grounds:
                yield name, self.sized(leg.run)

    # -- plus ----------------------------------------------------------------------------------------------------------

    @cached_property
    def plus(self) -> Mapping[str, Run]:
        """The runs that feed something, each with its load and its ground."""
        loaded = ((name, self.feeding.carrying(name)) for name in self.feeding.branches)
        return {
            name: self._with_body(self._with_ground(replace(
                run, in_block=run.from_name in self.feeding.blocks, rivals=self.feeding.rivals(name),
                block_outputs=self._outputs(name),
                from_holder=run.from_name in self.feeding.holders, to_holder=run.to_name in self.feeding.holders,
            )))
            for name, run in loaded if run is not None and name not in self.feeding.circles
        }  # fmt: skip

    def _outputs(self, name: str) -> int:
        """How many runs begin at the block that a run feeds; of several that feed it the first has it."""
        behind = self.feeding.branches[name]
        is_first = bool(behind) and self.feeders(behind[0])[0] == name
        return len(behind) if is_first and self.feeding.legs[name].run.to_name in self.feeding.blocks else 0

    def feeders(self, name: str) -> tuple[str, ...]:
        """The runs that end where a run begins."""
        return self.feeding.feeders.get(name, ())

    @cached_property
    def _behind(self) -> Mapping[str, tuple[str, ...]]:
        return {name: tuple(one for one in self.feeding.branches[name] if one in self.plus) for name in self.plus}

    @cached_property
    def _ways(self) -> Ways:
        return ways_of(power_steps(self.plus, self.tables), self._behind)

    def down(self, name: str, before: _Before) -> dict[str, Sized]:
        """What a run gets behind what lies before it, and all that is behind it."""
        run, behind = self.plus[name], self._behind[name]
        ways = self._ways(name, before.fuse_a) if behind else ()
        least_mm2 = next((way.size.area_mm2 for way in ways if way.spare >= before.lost_v), 0.0)
        got = self.sized(replace(before.on(run), least_mm2=least_mm2))
        holder = None if isinstance(got, NoSize) or got.fuse is None or not run.to_holder else holder_end(got.fuse)
        found, after = {name: _at_holder(got, holder)}, before.after(name, got, self.tables, holder)
        for branch in behind:
            if next(feeder for feeder in self.feeders(branch) if feeder in self.plus) == name:
                found |= self.down(branch, after)
        return found

    # -- ground --------------------------------------------------------------------------------------------------------

    def _with_ground(self, run: Run) -> Run:
        """A run with the ground run of its load: its length, and what is lost where it goes on with others.

        What is lost in one of which the cable was chosen is of that cable, and not of the cable of the run.
        """
        ground = None if run.ground_mm else self.feeding.ground_of(run.to_name)
        if ground is None:
            return run
        own, onward, behind = self._chosen_ground(ground), self.feeding.next_ground(ground), _Before()
        behind = behind if own is None else behind.after(ground, own, self.tables)
        while onward is not None:
            behind = behind.after(onward, self._shared.get(onward), self.tables)
            onward = self.feeding.next_ground(onward)
        lead = self.feeding.legs[ground].run
        return replace(
            run, return_mm=lead.length_mm, return_apart=own is not None, body_mohm=run.body_mohm or lead.body_mohm,
            before_v=behind.lost_v, not_whole=behind.not_whole, over_v=behind.over_v, clad_v=behind.clad_v,
            unsaid=behind.unsaid,
        )  # fmt: skip

    def _chosen_ground(self, name: str) -> Sizing | None:
        """A ground run of which the cable was chosen, without the body behind it; None where nothing is known of it."""
        lead = self.feeding.legs[name].run
        run = None if lead.chosen is None or is_minus_lead(lead) else self._ground(name, {})
        got = None if run is None else self.sized(replace(run, body_mohm=0.0, body_others_v=0.0))
        return got if isinstance(got, Sizing) and got.conductor is not None else None

    @cached_property
    def _returns(self) -> tuple[Return, ...]:
        return returns_of(self.feeding)

    def _with_body(self, run: Run) -> Run:
        """A run of which the way back through the body is measured, with what others lose there."""
        ground = self.feeding.ground_of(run.to_name)
        while ground is not None and (onward := self.feeding.next_ground(ground)) is not None:
            ground = onward
        if not run.ground_mm and ground is not None and not at_body(self.feeding.legs[ground].run):
            return run
        return self._with_others(run, self.feeding.items(run.name) | {run.to_name or run.name})

    def _with_others(self, run: Run, of: frozenset[str]) -> Run:
        """A run whose way back through the body, where it is measured, is shared with all that is not of it."""
        if not run.body_mohm:
            return run
        others = others_on(run, of, self._returns)
        return replace(run, body_others_v=others.lost_v, body_unknown=others.unknown)

    @cached_property
    def _shared(self) -> Mapping[str, Sized]:
        """The ground runs that others join, as thick as what they carry wants."""
        named = {self.feeding.next_ground(name) for name in self.feeding.grounds}
        runs = ((name, self._ground(name, {})) for name in self.feeding.grounds if name in named)
        return {name: self.sized(run) for name, run in runs if run is not None}

    def _ground(self, name: str, found: Mapping[str, Sized]) -> Run | None:
        """A ground run with what it carries; None where nothing is known of that. `found` are the runs it is of."""
        leg = self.feeding.legs[name]
        if is_minus_lead(leg.run):
            lead = Minus(self.feeding, battery_of(leg.run)).lead(name, found)
            return (
                None
                if lead is None
                else self._with_others(lead, self.feeding.grounded_items(name) or frozenset({name}))
            )
        load = self.feeding.ground_load(name)
        joins = self.feeding.next_ground(name) is not None
        run = replace(leg.run, joins_ground=joins, block_outputs=self._joining(name))
        if at_body(run):
            run = self._with_others(run, self.feeding.grounded_items(name) or frozenset({name}))
        if load.full_a and not isinstance(run.carries, Unsized):
            return replace(run, carries=Branches(load.full_a, load.floor_a), unloaded=load.unknown)
        return run if leg.loaded else None

    def _joining(self, name: str) -> int:
        """How many grounds end at the block that a ground run goes on from."""
        if self.feeding.legs[name].run.from_name not in self.feeding.blocks:
            return 0
        return len(self.feeding.joining(name))

    def grounded(self, found: Mapping[str, Sized]) -> Iterator[tuple[str, Sized]]:
        """The ground runs, none thinner than the plus of what it grounds."""
        plus = [(one, self.feeding.items(name)) for name in self.plus if isinstance(one := found[name], Sizing)]
        for name in self.feeding.grounds:
            items, run = self.feeding.grounded_items(name), self._ground(name, found)
            of_it = (
                one.size.area_mm2 for one, fed in plus
                if one.run.to_name in items or (len(fed) > 1 and fed <= items)
            )  # fmt: skip
            if run is not None:
                before_a = run.upstream_fuse_a or self._fuse_before(items, plus)
                yield name, self.sized(replace(run, least_mm2=max(of_it, default=0.0), upstream_fuse_a=before_a))

    def _fuse_before(self, items: frozenset[str], plus: list[tuple[Sizing, frozenset[str]]]) -> float | None:
        """What may flow through the ground of these before a fuse blows [A]: all of their fuses, or one before all.

        None where nothing is known of the fuse of one of the runs that feed them.
        """
        feeds = [one for one, _ in plus if one.run.to_name in items]
        each = [one.run.upstream_fuse_a if one.fuse is None else one.fuse.rating_a for one in feeds]
        known = [fuse_a for fuse_a in each if fuse_a is not None]
        if not items or {one.run.to_name for one in feeds} != items or len(known) < len(each):
            return None
        names = {one.run.name for one in feeds}
        of_all = (
            one.fuse.rating_a for one, fed in plus
            if one.fuse is not None and items <= fed and names <= self._from(one.run.name)
        )  # fmt: skip
        return min(sum(known), min(of_all, default=inf))

    def _from(self, name: str) -> frozenset[str]:
        """A run and all that are behind it."""
        return frozenset({name}).union(*(self._from(one) for one in self._behind.get(name, ())))


def _at_holder(got: Sized, holder: End | None) -> Sized:
    """A run that ends at a fuse holder ends in what that takes, where it is not said."""
    if holder is None or isinstance(got, NoSize) or not isinstance(got.run.to, DeviceEnd):
        return got
    return replace(got, run=replace(got.run, to=holder))
