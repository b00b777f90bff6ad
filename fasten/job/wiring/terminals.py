"""How something of a job takes a cable, as it was said of one run: another of the kind there ends in the same."""

from collections.abc import Mapping
from contextlib import suppress

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.words import Job
from fasten.question.fields import POWER
from fasten.record import lean, replace
from fasten.wiring.fields import CARRIES, FROM, TO
from fasten.wiring.read import read_end
from fasten.wiring.words import End, NamedEnd, TerminalEnd, Unsized

_LIGHT = frozenset(one.value for one in Unsized)


@lean
class Place:
    """Where a terminal was said: the thing of the job, what the cable is for, and which end of the run is there."""

    name: str
    kind: str
    end: str


def said_terminals(job: Job, tables: Tables) -> dict[Place, End]:
    """What was said of how something of the job takes a cable, by what it is, what the cable is for and which end."""
    found: dict[Place, End] = {}
    for run in job.runs:
        said = dict(run.said)
        for field in (FROM.name, TO.name):
            name, comma, _ = said.get(field, "").partition(",")
            if comma:
                with suppress(FastenError):
                    end = read_end(said[field], tables, field)
                    if isinstance(end, NamedEnd) and end.terminal is not None:
                        found.setdefault(Place(same_name(name), kind_of(said), field), end.terminal)
    return found


def as_said(at: Place, terminals: Mapping[Place, End]) -> End | None:
    """How the same thing takes another cable of the kind: as at the same end; at its other one in size not known."""
    if at in terminals:
        return terminals[at]
    other = terminals.get(replace(at, end=FROM.name if at.end == TO.name else TO.name))
    return replace(other, bore_mm=None, takes_mm2=None) if isinstance(other, TerminalEnd) else other


def kind_of(said: Mapping[str, str]) -> str:
    """What cable is for, as far as terminals of a device differ by it: a light lead, a loudspeaker, or power."""
    load = said.get(CARRIES.name, "").strip().casefold()
    if load in _LIGHT:
        return load
    return "loudspeaker" if "speaker" in load else POWER.name
