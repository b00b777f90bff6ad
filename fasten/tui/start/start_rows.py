"""What somebody is fitting, as it is typed: the mount points that it makes, and what each will ask. No widgets here."""

from collections.abc import Iterator, Sequence

from fasten.catalog.installs import INSTALLS
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.edit import free_name
from fasten.job.start.ask import order
from fasten.job.start.start import started
from fasten.job.start.wanted import read_wanted
from fasten.job.words import Job, Mount
from fasten.question.fields import ITEM, ONTO, REMOVED
from fasten.record import record, replace
from fasten.report.safe import safe
from fasten.text.figures import counted, words
from fasten.tui.drawn.rows import Row, State
from fasten.tui.mounts.entry import read_one

_COMMA = ","


@record
class Made:
    """The job with all that is understood, its new mount points in rows, and why the rest is not understood."""

    job: Job
    rows: tuple[Row, ...]
    why: str = ""


def made_of(text: str, job: Job, tables: Tables) -> Made:
    """What a text makes of a job: typical installs, and any other item as a mount point of its own."""
    was, why = len(job.mounts), ""
    for part in filter(str.strip, text.split(_COMMA)):
        try:
            job = _with(part.strip(), job, tables)
        except FastenError as error:
            why = why or safe(str(replace_where(error)))
    return Made(job, tuple(_rows(job.mounts[was:], tables)), why)


def examples(tables: Tables) -> tuple[tuple[str, Row], ...]:
    """Every typical install: the words to type for it, and its row."""
    return tuple(
        (row.said_as[0], Row("", row.said_as[0], State("+", "", "accent", 0), (row.title,)))
        for row in tables.rows(INSTALLS)
    )


def replace_where(error: FastenError) -> FastenError:
    """The same without its place, which is the one field there is."""
    return FastenError(error.what, fix=error.fix)


def _with(part: str, job: Job, tables: Tables) -> Job:
    try:
        return started(job, read_wanted(part, tables), tables)
    except FastenError:
        item = read_one(ITEM.name, part, tables)
        if item.why:
            raise
        name = free_name(job, item.understood)
        return replace(job, mounts=(*job.mounts, Mount(name, ((ITEM.name, item.taken),))))


def _rows(mounts: Sequence[Mount], tables: Tables) -> Iterator[Row]:
    first: dict[str, str] = {}  # of each twin the one that is asked
    for number, mount in enumerate(mounts, 1):
        asked = first.setdefault(mount.twin, mount.name) if mount.twin else mount.name
        if asked != mount.name:
            yield Row(str(number), mount.name, State("·", "twin", "quiet", 0), (f"as {asked}",))
        else:
            state = State("·", f"asks {_asks(mount, tables)}", "quiet", 0)
            yield Row(str(number), mount.name, state, (_beneath(mount),))


def _asks(mount: Mount, tables: Tables) -> int:
    """How many questions its install asks first; of an item by itself, how many are usual for it."""
    install = tables.find(INSTALLS, mount.install)
    asked = order(mount, None, install, tables)
    return len(asked) if install is None else len([name for name in asked if name in (*install.ask, *install.measure)])


def _beneath(mount: Mount) -> str:
    said = dict(mount.said)
    if ONTO.name not in said:
        return "nothing is proposed for it"
    more = len(mount.preset) - 2
    rest = f", {counted(more, 'preset')} more" if more > 0 else ""
    return f"{words(said[ONTO.name])} proposed, off {said[REMOVED.name]}{rest}"
