"""The runs of a vehicle together: what a trunk carries, what lies before a branch, and the ground lead of a load.

A trunk ends where branches begin; of all sizes that keep the limit over the whole path, those that take the least
copper are chosen.
"""

from collections.abc import Mapping
from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.model import Power
from fasten.record import record
from fasten.wiring.current import Current, current_of
from fasten.wiring.fuse import is_grounded
from fasten.wiring.sizes import sizes
from fasten.wiring.sizing import NoSize, Sizing, option, sized
from fasten.wiring.words import Amps, Branches, Loudspeaker, Run, Size, Unsized

Sized = Sizing | NoSize


@record
class Leg:
    """A run among others. Its load is that of its run, or None where it follows from what is at its ends."""

    run: Run
    loaded: bool


def sized_together(legs: tuple[Leg, ...], tables: Tables) -> Mapping[str, Sized]:
    """What every run gets, by its name; where nothing is said of what one carries there is nothing for it."""
    runs = {leg.run.name: leg.run for leg in legs}
    loads = {leg.run.name for leg in legs if leg.loaded}
    trunks = {name for name in runs if name not in loads and _branches(runs[name], runs)}
    found: dict[str, Sized] = {}
    for name in trunks:
        branches = _branches(runs[name], runs)
        trunk = replace(runs[name], unloaded=tuple(branch for branch in branches if branch not in loads))
        found |= _trunk(trunk, [runs[branch] for branch in branches if branch in loads], runs, tables)
    alone = {name: run for name, run in runs.items() if name in loads and name not in found}
    found |= {name: sized(_with_ground(run, runs), tables) for name, run in alone.items() if not _is_ground(run)}
    for run in runs.values():
        if _is_ground(run):
            by_load = _ground(run, found, tables)
            found |= by_load or ({run.name: sized(run, tables)} if run.name in loads else {})
    return found


def _branches(trunk: Run, runs: Mapping[str, Run]) -> list[str]:
    """The runs that begin where a run ends, ground runs and what carries next to nothing left out."""
    return [
        name for name, run in runs.items()
        if trunk.to_name and run.from_name == trunk.to_name and not _is_ground(run) and name != trunk.name
        and isinstance(run.carries, Amps | Power | Branches)
    ]  # fmt: skip


def _is_ground(run: Run) -> bool:
    return is_grounded(run.to) or is_grounded(run.from_)


def _with_ground(run: Run, runs: Mapping[str, Run]) -> Run:
    """A run with the length of the ground run of its load, where that is a run of its own."""
    if isinstance(run.carries, Unsized | Loudspeaker) or not run.to_name or run.ground_mm or _is_ground(run):
        return run
    grounds = (one for one in runs.values() if _is_ground(one) and one.from_name == run.to_name)
    ground = next(grounds, None)
    return run if ground is None else replace(run, return_mm=ground.length_mm)


def _trunk(trunk: Run, branches: list[Run], runs: Mapping[str, Run], tables: Tables) -> dict[str, Sized]:
    """A trunk with its branches, in the sizes that take the least copper."""
    branches = [_with_ground(branch, runs) for branch in branches]
    currents = [_current(branch, tables) for branch in branches]
    load = Branches(sum(one.full_a for one in currents), sum(one.fuse_floor_a or 0.0 for one in currents))
    trunk = replace(trunk, carries=load)
    tried = (trunk.chosen,) if trunk.chosen is not None else sizes(trunk.series, tables)
    best: tuple[float, dict[str, Sized]] | None = None
    for size in tried:
        found = _tried(size, trunk, branches, tables)
        if found is not None and (best is None or found[0] < best[0]):
            best = found
    if best is not None:
        return best[1]
    alone = sized(trunk, tables)
    before_v = 0.0 if isinstance(alone, NoSize) or alone.conductor is None else alone.conductor.drop_v
    return {trunk.name: alone} | {branch.name: sized(replace(branch, before_v=before_v), tables) for branch in branches}


def _tried(size: Size, trunk: Run, branches: list[Run], tables: Tables) -> tuple[float, dict[str, Sized]] | None:
    """The copper of a trunk of this size with its branches, in mm³; None where it does not do."""
    one = option(size, _current(trunk, tables), trunk, tables)
    if one is None or one.fuse is None or not one.fits:
        return None
    found: dict[str, Sized] = {trunk.name: sized(replace(trunk, least_mm2=size.area_mm2), tables)}
    copper = size.area_mm2 * trunk.length_mm
    for branch in branches:
        behind = replace(branch, before_v=one.conductor.drop_v, upstream_fuse_a=one.fuse.rating_a)
        got = sized(behind, tables)
        if isinstance(got, NoSize):
            return None
        found[branch.name] = got
        copper += got.size.area_mm2 * (branch.length_mm + branch.ground_mm + branch.return_mm)
    return copper, found


def _current(run: Run, tables: Tables) -> Current:
    load = run.carries
    assert not isinstance(load, Unsized)  # branches are of what is loaded
    return current_of(load, run, tables)


def _ground(ground: Run, found: Mapping[str, Sized], tables: Tables) -> dict[str, Sized]:
    """A ground run carries what the run to its load carries, in a cable that is no thinner; none without such a run."""
    for other in found.values():
        run = other.run
        if isinstance(other, Sizing) and run.to_name and run.to_name == ground.from_name and other.current is not None:
            load = Branches(other.current.full_a, other.current.fuse_floor_a or other.current.full_a)
            return {ground.name: sized(replace(ground, carries=load, least_mm2=other.size.area_mm2), tables)}
    return {}
