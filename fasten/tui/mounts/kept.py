"""What a job keeps of the mount point in hand that its answer shows: what is ticked, and what was built."""

from fasten.advice.tasks import tasks_of
from fasten.catalog.tables import Tables
from fasten.job.after.built import WHEN, said_by
from fasten.job.after.repair_steps import with_steps
from fasten.job.after.taken import Taken
from fasten.job.choices import Choice
from fasten.job.ticked import StepState, states
from fasten.job.words import Mount
from fasten.model import Advice
from fasten.text.names import capital
from fasten.tui.drawn.answer import NOTHING_KEPT, Kept


def kept_of(mount: Mount | None, advice: Advice | None, repairs: tuple[Taken, ...], tables: Tables) -> Kept:
    """Nothing where nothing was ticked or built yet."""
    if mount is None or not (mount.ticked or mount.built):
        return NOTHING_KEPT
    built = dict(said_by(mount.built))
    said = tuple(f"{capital(name)}: {text}" for name, text in built.items() if name != WHEN)
    return Kept(_steps(mount, advice, repairs, tables), built.get(WHEN, ""), said, _chosen(mount, advice), tables)


def _chosen(mount: Mount, advice: Advice | None) -> Choice | None:
    """What the mount point gets, where something was built by it; a repaired one is judged by its routes."""
    if advice is None or not advice.answers or mount.built is None or mount.repairs:
        return None
    return Choice(mount, advice.mount, advice.answers[0], None)


def _steps(
    mount: Mount, advice: Advice | None, repairs: tuple[Taken, ...], tables: Tables
) -> tuple[StepState, ...]:  # fmt: skip
    """The steps of the first answer with what is ticked of them, those of its repairs among them."""
    if advice is None or not advice.answers or not (mount.ticked or repairs):
        return ()
    tasks = with_steps(tasks_of(advice.answers[0], advice.mount, tables), repairs, tables)
    return states(mount.ticked, tasks, mount.built)
