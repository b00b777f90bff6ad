"""What is known of a mount point, run or job by now, what of it is preset, and what is asked next."""

from collections.abc import Iterator
from typing import Any

from fasten.catalog.tables import Tables
from fasten.job.change import find_cover, find_run
from fasten.job.choices import Choice, choice
from fasten.job.entries import with_own_runs
from fasten.job.start.ask import asked_next
from fasten.job.start.same import twins
from fasten.job.start.start import unconfirmed
from fasten.job.store.covers_toml import cover_said
from fasten.job.wiring.recorded import find_recorded
from fasten.job.words import Job, Mount
from fasten.question.fields import ONTO, field_named
from fasten.record import record
from fasten.report.wrap import wrapped
from fasten.text.figures import counted
from fasten.text.names import capital

FORMAT = 1
NAMED = 3  # mount points that are named one by one
NEXT = 4  # questions that are shown: after these the answer is in place or nearly so


@record
class Known:
    """What was set: a mount point with its answer and what is asked next, or something of the job without these.

    `said` is what is said of a run, section, hole, cable or cover by now.
    """

    job: Job
    name: str
    found: Choice | None
    ask: tuple[str, ...]
    twins: tuple[str, ...]
    said: tuple[tuple[str, str], ...] = ()


def known_of(job: Job, name: str, mount: Mount | None, tables: Tables) -> Known:
    """What is known of a mount point of the job; without one, of what goes by the name."""
    if mount is None:
        return Known(job, name, None, (), (), tuple(_said_of(job, name)))
    whole = with_own_runs(job, tables)
    found = choice(next(one for one in whole.mounts if one.name == mount.name), tables, None, whole)
    return Known(job, mount.name, found.of(mount), asked_next(found.of(mount), job, tables),
                 tuple(one.name for one in twins(job, mount)))  # fmt: skip


def _said_of(job: Job, name: str) -> Iterator[tuple[str, str]]:
    """What is said of a run, section, hole, cable or cover."""
    run, found = find_run(job, name), find_recorded(job, name)
    if run is not None:
        yield from run.said
        yield from ((key, ", ".join(ways)) for key, ways in (("sections", run.sections), ("holes", run.holes)) if ways)
    elif found is not None and found.entry is not None:
        yield from found.entry.said
    elif (cover := find_cover(job, name)) is not None:
        yield from cover_said(cover).items()


def known_text(known: Known, width: int) -> str:
    """What is said, what gets fastened by it, and what to ask next, in lines."""
    return "\n".join(_lines(known, width)) + "\n"


def known_json(known: Known) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    mount = None if known.found is None else known.found.mount
    answer = None if known.found is None else known.found.answer
    return {
        "format": FORMAT, "title": known.job.title, "vehicle": known.job.vehicle, "note": known.job.note,
        "name": known.name,
        "said": dict(known.said) or None if mount is None else dict(mount.said),
        "preset": None if mount is None else list(mount.preset),
        "answer": None if answer is None else answer.title,
        "reason": None if known.found is None or answer is not None else known.found.reason,
        "ask": list(known.ask), "twins": list(known.twins),
        "unconfirmed": [one.name for one in unconfirmed(known.job)],
    }  # fmt: skip


def _lines(known: Known, width: int) -> Iterator[str]:
    if known.found is None:
        yield from wrapped(known.name or _head(known.job), width)
        for name, text in known.said:
            yield from wrapped(f"{name}: {text}", width, first="- ", rest="  ")
    else:
        yield from _mount(known, known.found, width)
    left = unconfirmed(known.job)
    if left:
        more = f" and {len(left) - NAMED} more" if len(left) > NAMED else ""
        names = ", ".join(one.name for one in left[:NAMED])
        what = f"What it is fastened to is only proposed at {counted(len(left), 'mount point')}: {names}{more}"
        yield from wrapped(what, width, first="! ", rest="  ")


def _head(job: Job) -> str:
    said = (job.title, job.vehicle, job.note, *(f"{name} {text}" for name, text in job.electrics))
    return f"Saved: {', '.join(text for text in said if text)}"


def _mount(known: Known, found: Choice, width: int) -> Iterator[str]:
    mount = found.mount
    yield from wrapped(mount.name, width)
    for name, text in mount.said:
        state = "" if name not in mount.preset else ", proposed" if name == ONTO.name else ", preset"
        yield from wrapped(f"{field_named(name).label.lower()}: {text}{state}", width, first="- ", rest="  ")
    answer = found.answer
    yield from wrapped(f"First answer: {capital(answer.title)}" if answer else capital(found.reason), width)
    if known.twins:
        yield from wrapped(f"Alike: {', '.join(known.twins)}", width, rest="  ")
    if known.ask:
        yield "Asked next:"
    for name in known.ask[:NEXT]:
        field = field_named(name)
        yield from wrapped(f"{name}={_example(field.hint)}: {field.help}", width, first="- ", rest="  ")


def _example(hint: str) -> str:
    is_one = hint.startswith("e.g. ") and ";" not in hint
    return f"'{hint.removeprefix('e.g. ').partition(',')[0]}'" if is_one else "…"
