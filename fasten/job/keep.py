"""Which answer of a mount point of a job is held: by its hardware, so that it stays whatever ranks before it later."""

from fasten.advice.advise import advise
from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.boards import placed
from fasten.job.edit import find_mount, with_mount
from fasten.job.entries import with_own_runs
from fasten.job.pins import pin_of
from fasten.job.words import Job
from fasten.model import Advice
from fasten.record import replace
from fasten.text.figures import counted
from fasten.text.shown import shown


def advice_of(job: Job, name: str, tables: Tables, owned: Owned | None = None) -> Advice:
    """The answers of a mount point in its job, ranked as if none of them was held.

    Raises: FastenError if the job has no such mount point, or its question cannot be read.
    """
    asked = find_mount(job, name)
    whole = with_own_runs(job, tables)
    return advise(placed(find_mount(whole, asked.name), whole, tables), tables, owned)


def kept(job: Job, name: str, number: str, tables: Tables, owned: Owned | None = None) -> tuple[Job, str]:
    """The job with an answer held by its hardware, and what that is; raises FastenError if there is no such answer."""
    answers = advice_of(job, name, tables, owned).answers
    if not number.isdecimal() or not 1 <= int(number) <= len(answers):
        what = f"there is no answer {shown(number)}: {counted(len(answers), 'answer')}"
        raise FastenError(what, where="answer", fix=f"write 1 to {len(answers)}" if answers else "nothing fits there")
    answer, mount = answers[int(number) - 1], find_mount(job, name)
    return with_mount(job, replace(mount, pin=pin_of(answer)), instead_of=mount.name), answer.title


def let_go(job: Job, name: str) -> Job:
    """The job with nothing held for a mount point; raises FastenError if it has no such one."""
    mount = find_mount(job, name)
    return with_mount(job, replace(mount, pin=None), instead_of=mount.name)
