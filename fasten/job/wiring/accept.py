"""What the user measured or accepted of a run, section or hole of a job, taken by ids."""

from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.job.entries import runs_on_studs
from fasten.job.wiring.runs import named_run, run_choices
from fasten.job.wiring.runs import with_accepted as of_run
from fasten.job.wiring.ways import named_way, way_choices
from fasten.job.words import Job, Recorded
from fasten.record import replace
from fasten.wiring.accepted import with_accepted as add_accepted


def with_accepted(job: Job, name: str, text: str, tables: Tables, owned: Owned | None = None) -> Job:
    """The job with what a text accepts, by ids, of the run, section or hole of this name.

    A run is answered at its body studs as these are, of what is `owned` if anything.

    Raises: FastenError where there is none, or an id is not open there.
    """
    found = run_choices(job, tables)
    way = named_way(way_choices(job, found, tables), name)
    if way is None:
        (one,) = runs_on_studs((named_run(found, name),), job, tables, owned)
        return of_run(job, one, text)
    accepted = add_accepted(way.way.accepted, text, way.confirms)

    def changed(entries: tuple[Recorded, ...]) -> tuple[Recorded, ...]:
        return tuple(replace(one, accepted=accepted) if one is way.way else one for one in entries)

    return replace(job, sections=changed(job.sections), holes=changed(job.holes))
