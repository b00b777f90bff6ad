"""Loudspeaker leads in series, from the amplifier through crossovers to the loudspeaker: what they lose adds up.

A lead goes on in those that begin where it ends. Of several that come to one crossover it is not known which of them
feeds which that goes on: the one along which most is lost counts for all.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from graphlib import TopologicalSorter

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Status
from fasten.model.check import worst
from fasten.record import record, replace
from fasten.wiring.copper import Step, Steps, ways_alone, ways_of
from fasten.wiring.feeding import Things, circles_of, feeders_of
from fasten.wiring.sizing import NoSize, Sized, Sizing, in_circle, lead_options, on_path
from fasten.wiring.words import Joined, Loudspeaker, Run

_NONE = Joined()


def leads_together(
    runs: Mapping[str, Run], things: Things, sized: Callable[[Run], Sized], tables: Tables
) -> dict[str, Sized]:
    """What every lead gets, by its name, with those in series with it; `sized` gives what one gets behind others."""
    leads, steps = _Leads(runs, things), _steps(runs, sized, tables)
    ways = ways_of(steps, leads.behind_each)
    found: dict[str, Sized] = {name: in_circle(runs[name], through) for name, through in leads.circles.items()}
    for name in leads.order:
        before = leads.before(name, found)
        each = ways(name, None) if leads.behind_each[name] else ways_alone(steps(name, None))
        least_mm2 = next((way.size.area_mm2 for way in each if way.spare >= before.share_pct), 0.0)
        found[name] = sized(replace(runs[name], leads_before=before, least_mm2=least_mm2))
    for name in reversed(leads.order):
        one, behind = found[name], leads.behind(name, found)
        if isinstance(one, Sizing) and behind != _NONE:
            found[name] = on_path(one, behind, tables)
    return found


def _steps(runs: Mapping[str, Run], sized: Callable[[Run], Sized], tables: Tables) -> Steps:
    """The sizes that do for a lead by itself, each with what is known of the cable of that size."""
    most_pct, _ = rule_figure(tables, WiringRules.LOOP_SHARE)

    def steps(name: str, _: float | None) -> Iterator[Step]:
        run = runs[name]
        assert isinstance(run.carries, Loudspeaker)
        for size in (found.size for found, _ in lead_options(run.carries, run, tables)):
            one = sized(replace(run, chosen=size)) if run.chosen in (None, size) else None
            if isinstance(one, Sizing) and one.lead is not None and worst(one.checks) is Status.HOLDS:
                yield Step(size, 2 * size.area_mm2 * run.length_mm, one.lead.share_of_z_pct, most_pct, None)

    return steps


@record
class _Leads:
    """The leads of a vehicle by their names, each from the amplifier to the loudspeaker."""

    runs: Mapping[str, Run]
    things: Things

    @cached_property
    def _turned(self) -> frozenset[str]:
        """The leads that are said from the loudspeaker to the amplifier."""
        active = self.things.active
        turned = {name for name, run in self.runs.items() if run.to_name in active and run.from_name not in active}
        while more := set(self._coming_back(turned)):
            turned |= more
        return frozenset(turned)

    def _coming_back(self, turned: set[str]) -> Iterator[str]:
        """Those said to end where an amplifier's lead comes to, and where none goes on."""
        ways = {name: _ends(run, turned=name in turned) for name, run in self.runs.items()}
        begun, fed = {from_ for from_, _ in ways.values()}, self.things.active
        while more := {to for from_, to in ways.values() if from_ in fed and to} - fed:
            fed |= more
        for name, (from_, to) in ways.items():
            if name not in turned and from_ not in fed and to in fed and to not in begun:
                yield name

    @cached_property
    def _ways(self) -> Mapping[str, tuple[str, str]]:
        """What of the job each lead begins and ends at; empty where it is nothing of the job."""
        return {name: _ends(run, turned=name in self._turned) for name, run in self.runs.items()}

    @cached_property
    def branches(self) -> Mapping[str, tuple[str, ...]]:
        """The leads that go on where each ends: none does through what drives loudspeakers itself."""
        beginning: dict[str, list[str]] = {}
        for name, (from_, _) in self._ways.items():
            beginning.setdefault(from_, []).append(name)
        return {
            name: tuple(beginning.get(to, ())) if to and to not in self.things.active else ()
            for name, (_, to) in self._ways.items()
        }

    @cached_property
    def _feeders(self) -> Mapping[str, tuple[str, ...]]:
        return feeders_of(self.branches)

    @cached_property
    def circles(self) -> Mapping[str, tuple[str, ...]]:
        """Each lead that comes back to where it begins, with all that it comes through."""
        return circles_of(self.branches)

    @cached_property
    def order(self) -> tuple[str, ...]:
        """The leads that are in no circle, each after all that feed it."""
        after = {name: [one for one in self._feeders.get(name, ()) if one not in self.circles]
                 for name in self.branches if name not in self.circles}  # fmt: skip
        return tuple(TopologicalSorter(after).static_order())

    @cached_property
    def behind_each(self) -> Mapping[str, tuple[str, ...]]:
        """The leads behind each, those left out that are in a circle."""
        return {name: tuple(one for one in self.branches[name] if one not in self.circles) for name in self.order}

    def before(self, name: str, found: Mapping[str, Sized]) -> Joined:
        """The leads from the amplifier to this one, which are sized."""
        return self._joined(self._ways[name][0], self._feeders.get(name, ()), found, lambda run: run.leads_before)

    def behind(self, name: str, found: Mapping[str, Sized]) -> Joined:
        """The leads from this one to the loudspeaker, which are sized with what is behind them."""
        return self._joined(self._ways[name][1], self.branches[name], found, lambda run: run.leads_behind)

    def _joined(
        self, at: str, names: tuple[str, ...], found: Mapping[str, Sized], onward: Callable[[Run], Joined]
    ) -> Joined:
        """The worst of the ways on from where a lead begins or ends; what of any of them is not known."""
        if not names:
            return Joined(gaps=(at,)) if at in self.things.crossovers else _NONE
        known = [_with(one, onward(one.run)) for name in names if isinstance(one := found[name], Sizing)]
        without = [name for name in names if isinstance(found[name], NoSize)]
        return replace(
            max(known, key=lambda one: one.share_pct, default=_NONE),
            unknown=_each([*without, *(name for one in known for name in one.unknown)]),
            gaps=_each(gap for one in known for gap in one.gaps),
        )


def _with(one: Sizing, onward: Joined) -> Joined:
    """A lead with those on from it."""
    if one.lead is None:  # a lead that has its size has its loop
        return onward
    share_pct, ohm = onward.share_pct + one.lead.share_of_z_pct, onward.loop_ohm + one.lead.loop_ohm
    return replace(onward, names=(one.run.name, *onward.names), loop_ohm=ohm, share_pct=share_pct)


def _each(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(names))


def _ends(run: Run, *, turned: bool) -> tuple[str, str]:
    return (run.to_name, run.from_name) if turned else (run.from_name, run.to_name)
