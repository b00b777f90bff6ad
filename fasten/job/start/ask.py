"""What to ask next of a mount point: first what its first answer waits for, then its install, then what decides most.

Nothing is calculated for it: the orders stand in the tables. What is in none of them is asked only by who opens it.
"""

from collections.abc import Iterator

from fasten.catalog.installs import INSTALLS, Install
from fasten.catalog.materials import ITEMS
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.things import AMPLIFIER
from fasten.job.words import Job, Mount
from fasten.model import Proposal, Status
from fasten.question.fields import POWER, Field, field_named
from fasten.question.item import item_of
from fasten.wiring.fields import CARRIES, TO


def asked_next(choice: Choice, job: Job, tables: Tables) -> tuple[str, ...]:
    """The fields to ask of a mount point of a job that are not said yet or only preset, in order.

    The load of an item comes first where a run to it waits for that; of what its answer waits for, what is measured at
    the vehicle comes last.
    """
    return asked_of(choice.mount, None if choice.answer is None else choice.answer.proposal, job, tables)


def asked_of(mount: Mount, proposal: Proposal | None, job: Job, tables: Tables) -> tuple[str, ...]:
    """The same of a mount point with the proposal of its first answer, where it has one."""
    asked = order(mount, proposal, tables.find(INSTALLS, mount.install), tables)
    return (POWER.name, *(name for name in asked if name != POWER.name)) if _feeds(mount, job) else asked


def _feeds(mount: Mount, job: Job) -> bool:
    """Whether a run to an amplifier waits for its power."""
    said = dict(mount.said)
    runs = (dict(run.said) for run in job.runs)
    ends = any(CARRIES.name not in run and same_name(run.get(TO.name, "")) == same_name(mount.name) for run in runs)
    return item_of(said) == AMPLIFIER and POWER.name not in said and ends


def order(mount: Mount, proposal: Proposal | None, install: Install | None, tables: Tables) -> tuple[str, ...]:
    """The same by itself, of a mount point of an install."""
    measured = () if install is None else install.measure
    waiting = tuple(_waits_for(proposal))
    first = (*(name for name in waiting if name not in measured), *(name for name in waiting if name in measured))
    names = dict.fromkeys((*first, *(() if install is None else install.ask), *_usual(mount, tables)))
    left_out = () if install is None else install.leave
    return tuple(name for name in names if name not in left_out and _is_open(field_named(name), mount))


def _waits_for(proposal: Proposal | None) -> Iterator[str]:
    """The fields that settle the checks of a proposal that are open."""
    for check in () if proposal is None else proposal.checks:
        if check.status is Status.NOT_CHECKED and check.asks is not None:
            yield check.asks.value


def _usual(mount: Mount, tables: Tables) -> tuple[str, ...]:
    item = tables.find(ITEMS, item_of(dict(mount.said)))
    return () if item is None else item.asks


def _is_open(field: Field, mount: Mount) -> bool:
    """Whether a field is of this item, and is not given yet."""
    said = dict(mount.said)
    is_of_it = field.of is None or field.of.item == item_of(said)
    return is_of_it and (field.name not in said or field.name in mount.preset)
