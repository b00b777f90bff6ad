"""What loudspeaker leads of a job carry by the outputs of their amplifier, which are given there once."""

from collections.abc import Callable, Iterator

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.wiring.things import CROSSOVER, SPEAKERS
from fasten.job.words import CableRun, Job
from fasten.model import MountPoint
from fasten.question.item import item_of
from fasten.wiring.fields import CARRIES
from fasten.wiring.read import read_carries
from fasten.wiring.words import LOUDSPEAKER, Loudspeaker

Point = Callable[[str], MountPoint | None]
"""What gives the mount point of a name; None where there is none, or its question cannot be read."""


def load_of_lead(run: CableRun, job: Job, point: Point, tables: Tables) -> Loudspeaker | None:
    """What a lead carries of which that is not said; None for any other run, or where its outputs are not all alike."""
    loads = set(_unsaid(run, job, point, tables, frozenset()))
    return loads.pop() if len(loads) == 1 else None


def outputs_at(run: CableRun, point: Point) -> tuple[Loudspeaker, ...]:
    """The outputs of the amplifier that a run begins or ends at, each kind once."""
    return next(filter(None, (_outputs(at, point) for at in _ends(run))), ())


def _outputs(name: str, point: Point) -> tuple[Loudspeaker, ...]:
    found = point(name)
    if found is None or found.outputs is None:
        return ()
    return tuple(dict.fromkeys(Loudspeaker(one.power_w, one.impedance_ohm) for one in found.outputs.each))


def _unsaid(run: CableRun, job: Job, point: Point, tables: Tables, by: frozenset[str]) -> Iterator[Loudspeaker]:
    """What may come along a lead from its amplifier, or from the crossover that it begins at; `by` are on the way."""
    from_, to = _ends(run)
    for source, other in ((from_, to), (to, from_)):
        if _item(other, job) not in (CROSSOVER, *SPEAKERS) and other != LOUDSPEAKER:
            continue
        if outputs := _outputs(source, point):
            yield from outputs
            return
        if _item(source, job) == CROSSOVER and source not in by:
            for one in job.ending.get(source, ()):
                yield from _carried(one, job, point, tables, by | {source})
            return


def _carried(run: CableRun, job: Job, point: Point, tables: Tables, by: frozenset[str]) -> Iterator[Loudspeaker]:
    """What a lead is said to carry, or may carry where that is not said."""
    said = dict(run.said).get(CARRIES.name, "").strip()
    if not said:
        yield from _unsaid(run, job, point, tables, by)
        return
    try:
        load = read_carries(said, tables, CARRIES.name)
    except FastenError:
        return
    if isinstance(load, Loudspeaker):
        yield load


def _ends(run: CableRun) -> tuple[str, str]:
    """What of the job a run begins and ends at."""
    return run.begins_at, run.ends_at


def _item(name: str, job: Job) -> str:
    """The item of a mount point of the job, by its name as names are compared; empty where there is none."""
    return next((item_of(dict(mount.said)) for mount in job.named.get(name, ())[-1:]), "")
