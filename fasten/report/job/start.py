"""The installs that a job can be started from, and what starting put in a job, as text and as plain data."""

from collections.abc import Iterator, Mapping
from shlex import quote as quoted
from typing import Any

from fasten.catalog.installs import INSTALL_MOUNTS, INSTALLS, Install
from fasten.catalog.tables import Tables
from fasten.job.entries import mount_choices
from fasten.job.preset import proposed_onto
from fasten.job.words import CableRun, Job, Mount
from fasten.question.fields import ITEM, ONTO, field_named
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.text.figures import counted
from fasten.text.names import capital

FORMAT = 1
_EXAMPLE = "fasten start car.toml --with 'two amplifiers, four door speakers, sub box'"


@record
class Started:
    """What starting put in a job: the job as it is now, and what of it is new.

    `answers` is the first answer of each new mount point as it is preset, by its name; empty where nothing fits yet.
    """

    job: Job
    path: str
    mounts: tuple[Mount, ...]
    runs: tuple[CableRun, ...]
    installs: tuple[Install, ...]
    answers: Mapping[str, str]


def started(before: Job, now: Job, path: str, tables: Tables) -> Started:
    """What is in the job now and was not before, with the first answers."""
    mounts = now.mounts[len(before.mounts) :]
    of = {mount.install for mount in mounts}
    rows = tuple(row for row in tables.rows(INSTALLS) if row.install in of)
    names = {mount.name for mount in mounts}
    found = (one for one in mount_choices(now, tables) if one.name in names)
    answers = {one.name: one.answer.title if one.answer is not None else "" for one in found}
    return Started(now, path, mounts, now.runs[len(before.runs) :], rows, answers)


def installs_text(tables: Tables, width: int) -> str:
    """Every install by its title, with the words it goes by and its mount points."""
    lines = ["What are you fitting? Say it with --with, things apart by commas, in any number:"]
    for row in tables.rows(INSTALLS):
        lines += ["", *wrapped(capital(row.title), width)]
        lines += wrapped(f"words: {', '.join(row.said_as)}", width, first="  ", rest="    ")
        lines += wrapped(f"mount points: {', '.join(_mount_names(row, tables))}", width, first="  ", rest="    ")
        lines += wrapped(_counts(row), width, first="  ", rest="    ")
    lines += ["", *wrapped(f"Such as: {_EXAMPLE}", width, rest="  ")]
    return "\n".join(lines) + "\n"


def installs_json(tables: Tables) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {"format": FORMAT, "installs": [_install_json(row, tables) for row in tables.rows(INSTALLS)]}


def started_text(made: Started, width: int) -> str:
    """What is new in the job, what is to be confirmed, and what is asked first."""
    lines = wrapped(_lead(made), width)
    lines = (*lines, "", *(line for mount in made.mounts for line in _mount_lines(mount, made, width)))
    if made.runs:
        named = f"runs of cable, all preset: {', '.join(run.name for run in made.runs)}"
        lines = (*lines, *wrapped(named, width, first="- ", rest="  "))
    return "\n".join([*lines, *_notes(made, width), *_confirm(made, width), *_asked_first(made, width)]) + "\n"


def started_json(made: Started) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {
        "format": FORMAT, "title": made.job.title, "job": made.path,
        "mounts": [_mount_json(mount, made.answers[mount.name]) for mount in made.mounts],
        "runs": [{"name": run.name, "preset": list(run.preset)} for run in made.runs],
        "installs": [
            {"install": row.install, "title": row.title, "ask": list(row.ask), "measure": list(row.measure),
             "note": row.note} for row in made.installs
        ],
    }  # fmt: skip


def _lead(made: Started) -> str:
    there = "" if len(made.mounts) == len(made.job.mounts) else f", {len(made.job.mounts)} in all"
    return (
        f"{counted(len(made.mounts), 'mount point')} added to {made.path}{there}. Every value is preset, and nothing "
        "is ready until what each is fastened to is confirmed."
    )


def _mount_lines(mount: Mount, made: Started, width: int) -> Iterator[str]:
    said = dict(mount.said)
    note = f"; {mount.note}" if mount.note else ""
    onto = f" on {proposed_onto(mount)}, proposed" if ONTO.name in said else "; say what it goes onto"
    text = f"{mount.name}: {said[ITEM.name].replace('-', ' ')}{onto}{note}"
    yield from wrapped(text, width, first="- ", rest="  ")
    if ONTO.name not in said:
        return
    answer = made.answers[mount.name]
    first = f"first answer {answer}" if answer else "nothing fits as it is preset"
    yield from wrapped(first, width, first="    ", rest="    ")


def _notes(made: Started, width: int) -> Iterator[str]:
    notes = [row.note for row in made.installs if row.note]
    if notes:
        yield ""
    for note in notes:
        yield from wrapped(note, width, first="! ", rest="  ")


def _confirm(made: Started, width: int) -> Iterator[str]:
    yield ""
    yield from wrapped("Look at each, then confirm what it is fastened to, an install at a time or one by one:", width)
    for row in made.installs:
        ontos = dict.fromkeys(proposed_onto(mount) for mount in made.mounts if mount.install == row.install)
        yield safe(f"  fasten set {quoted(made.path)} {row.install} --onto")
        yield from wrapped(f"{', '.join(ontos)}", width, first="      ", rest="      ")
    yield safe(f"  fasten set {quoted(made.path)} 'a mount point' --onto 'steel 1 mm'")


def _asked_first(made: Started, width: int) -> Iterator[str]:
    yield ""
    yield "What decides most, asked first:"
    for row in made.installs:
        asked = ", ".join(field_named(name).label.lower() for name in row.ask)
        yield from wrapped(f"{row.title}: {asked}", width, first="- ", rest="  ")
    yield safe(f"Then: fasten hardware {quoted(made.path)}")


def _counts(row: Install) -> str:
    places = f", called {' and '.join(row.places)} where there are two" if row.places else ""
    pieces = f"counted in pieces, {row.pieces} to a pair; " if row.pieces > 1 else ""
    return f"{pieces}{row.most} at most{places}"


def _mount_names(row: Install, tables: Tables) -> Iterator[str]:
    for mount in tables.rows(INSTALL_MOUNTS):
        if mount.install == row.install:
            name = " ".join(mount.mount.replace("{side}", "left and right").replace("{n}", "").split())
            yield f"{mount.count} {name}" if mount.count > 1 else name


def _install_json(row: Install, tables: Tables) -> dict[str, Any]:
    return {
        "install": row.install, "title": row.title, "words": list(row.said_as), "pieces": row.pieces,
        "most": row.most, "twin": row.twin, "places": list(row.places), "ask": list(row.ask),
        "measure": list(row.measure), "leave": list(row.leave), "note": row.note,
        "mounts": [
            {"mount": one.mount, "count": one.count, ITEM.name: one.mounted, ONTO.name: one.onto}
            for one in tables.rows(INSTALL_MOUNTS) if one.install == row.install
        ],
    }  # fmt: skip


def _mount_json(mount: Mount, answer: str) -> dict[str, Any]:
    said = dict(mount.said)
    return {
        "name": mount.name, "install": mount.install, ITEM.name: said[ITEM.name], ONTO.name: said.get(ONTO.name),
        "onto_proposed": bool(proposed_onto(mount)), "preset": list(mount.preset), "twin": mount.twin,
        "note": mount.note, "answer": answer or None,
    }  # fmt: skip
