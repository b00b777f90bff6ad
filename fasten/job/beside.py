"""The whole advice of one mount point as it is answered in its job: on its board, by its runs, in the job's series."""

from collections.abc import Iterable, Mapping

from fasten.advice.advise import advise, first_advice
from fasten.advice.owned import Owned
from fasten.advice.parts import series_of
from fasten.advice.series import first_in_series
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.boards import placed
from fasten.job.entries import with_own_runs
from fasten.job.series import Use, used_series
from fasten.job.words import Job, Mount
from fasten.model import Advice, MountPoint
from fasten.question.fields import BOARD, LUG
from fasten.question.item import item_of
from fasten.record import replace


def answered_beside(
    said: Mapping[str, str], name: str, others: Job, uses: Iterable[Use], tables: Tables, owned: Owned | None = None,
    *, only_first: bool = False,
) -> Advice:  # fmt: skip
    """What fits it, best first, beside the `others` of its job and the series that they use by themselves.

    The first answer alone is found in a fraction of the time.
    Raises: FastenError if its question cannot be read, or its board is not in the job.
    """
    mount = Mount(name, tuple(said.items()))
    job = replace(others, mounts=(*others.mounts, mount))
    job = with_own_runs(job, tables) if item_of(said) == LUG else job  # the others take nothing from a run here
    advice = (first_advice if only_first else advise)(_point(job.mounts[-1], job, tables), tables, owned)
    used = used_series((*uses, *_own_use(advice)), job.packed)
    return first_in_series(advice, used, tables, owned)


def _point(mount: Mount, job: Job, tables: Tables) -> MountPoint:
    """The mount point in its job; what is wrong with the question of another is not said of a field of this one."""
    try:
        return placed(mount, job, tables)
    except FastenError as error:
        where = error.where if error.where == BOARD.name else ""
        raise FastenError(error.what, where=where, fix=error.fix) from error


def _own_use(advice: Advice) -> tuple[Use, ...]:
    series = series_of(advice.answers[0].proposal.joint) if advice.answers else None
    return () if series is None else (Use(series, advice.mount.fixings, settled=False),)
