"""`fasten set JOB MOUNT FIELD=VALUE …`: say or take back what is known of a mount point, a run or the job itself."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fasten.catalog.tables import Tables
    from fasten.errors import FastenError
    from fasten.job.change import Changed
    from fasten.job.words import Job, Mount


_AS_PROPOSED = "as proposed"  # of --onto without a value


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    of = (
        "a mount point, run or install, then FIELD=VALUE …, such as mass=6kg; 'section sill', 'hole bulkhead', "
        "'cable 4 AWG' or 'cover door card' add or change one; FIELD=VALUE alone is of the job; a name alone shows it"
    )
    parser.add_argument("settings", nargs="*", metavar="WORD", help=of)
    onto = "what it is fastened to; without a value confirm what is proposed, of an install too"
    parser.add_argument("--onto", nargs="?", const=_AS_PROPOSED, default=None, metavar="…", help=onto)
    both = parser.add_mutually_exclusive_group()
    both.add_argument("--both", action="store_true", help="the same at its twins, but for what is measured")
    both.add_argument("--only", action="store_true", help="of this one alone")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Save what is set, and print the mount point with what is asked next.

    Raises:
        FastenError: a name, field or value is not known, a twin is there and it is not given whether it is the same
            there, or the job cannot be read or saved.
    """
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.commands._tables import open_tables

    tables = open_tables()
    name, words = _name(args.settings)
    if not name and not words:
        from fasten.errors import FastenError

        raise FastenError("nothing is set", where="set", fix="write a mount point and FIELD=VALUE, or title=…")
    if name and not words and args.onto is None:
        from fasten.commands._documents import read_job

        return _show(args, _has(read_job(args, tables), name), name, tables)
    _, saved = change_job(Path(args.job), tables, lambda job: _changed(args, job, name, words, tables))
    return _show(args, saved, name, tables)


def _name(words: list[str]) -> tuple[str, list[str]]:
    """The name that is set something of, empty for the job itself, and the settings."""
    return ("", words) if not words or "=" in words[0] else (words[0], words[1:])


def _changed(args: argparse.Namespace, job: "Job", name: str, words: list[str], tables: "Tables") -> "Job":
    from fasten.commands._streams import say
    from fasten.job.change import (
        find_cover,
        find_run,
        read_settings,
        with_cover_fields,
        with_fields,
        with_head,
        with_run_fields,
    )
    from fasten.job.edit import named
    from fasten.job.start.start import install_named, with_onto_confirmed
    from fasten.job.wiring.recorded import find_recorded, with_settings
    from fasten.question.fields import ONTO

    settings = read_settings(words)
    if not name:
        return with_head(job, settings, tables)
    if named(job, name) is None:
        run_ = find_run(job, name)
        if run_ is not None and args.onto is None:
            return with_run_fields(job, run_, settings, tables)
        found = find_recorded(job, name)
        if found is not None and args.onto is None:
            return with_settings(job, found, settings, tables)
        cover = find_cover(job, name)
        if cover is not None and args.onto is None:
            return with_cover_fields(job, cover, settings, tables)
        install = install_named(name, job, tables)
        if install is not None and args.onto == _AS_PROPOSED and not settings:
            return with_onto_confirmed(job, install.install)
        if (run_, found, cover) == (None, None, None):
            raise _unknown(job, name)
    if args.onto is not None:
        settings = {**settings, ONTO.name: _onto(args.onto, settings.get(ONTO.name, ""), job, name)}
    both = True if args.both else False if args.only else None
    done: Changed = with_fields(job, name, settings, tables, both)
    if args.both:
        say(_at_twins(done, settings))
    if done.was.pin is not None and done.now.pin is None:
        say("what was held for it is held no more: the question is another")
    return done.job


def _at_twins(done: "Changed", settings: "Iterable[str]") -> str:
    """What of the settings stands at the twins too, and what does not, since it is found at each place by itself."""
    from fasten.job.edit import find_mount
    from fasten.job.start.same import ALIKE, twins

    there = [one.name for one in twins(done.job, done.now)]
    if not there:
        return f"{done.now.name} has no twin: nothing else is set"
    said = [dict(find_mount(done.job, name).said) for name in there]
    both, now = [], dict(done.now.said)
    for name in settings:
        if name in ALIKE and all(one.get(name) == now.get(name) for one in said):
            both.append(name)
    apart, at = [name for name in settings if name not in both], ", ".join(there)
    same = f"the same at {at}: {', '.join(both)}" if both else ""
    left = f"left as it is at {at}, to be measured or set there: {', '.join(apart)}" if apart else ""
    return "; ".join(filter(None, (same, left)))


def _onto(option: str, setting: str, job: "Job", name: str) -> str:
    """What a mount point is fastened to: by the option, else by onto=… beside it, else by now, which is confirmed.

    Raises:
        FastenError: there is no such mount point, nothing is said of it, or two things are.
    """
    from fasten.errors import FastenError
    from fasten.job.edit import find_mount
    from fasten.question.fields import ONTO
    from fasten.text.shown import shown

    if option != _AS_PROPOSED:
        if setting not in ("", option):
            what = f"{shown(setting)} and {shown(option)} are said"
            raise FastenError(what, where=ONTO.name, fix="say it once")
        return option
    if setting:
        return setting
    said = dict(find_mount(job, name).said).get(ONTO.name, "")
    if not said:
        raise FastenError(
            "nothing is proposed that could be confirmed", where=ONTO.name, fix="add what it is fastened to"
        )
    return said


def _unknown(job: "Job", name: str) -> "FastenError":
    """The refusal of a name that is of nothing in the job, with the nearest of all that there is."""
    from fasten.errors import FastenError
    from fasten.job.store.covers_toml import COVER
    from fasten.job.store.runs_toml import RECORDED
    from fasten.text.names import unknown
    from fasten.text.shown import shown

    if name.strip().casefold() in (*RECORDED, COVER):
        what = f"{shown(name)} alone names nothing"
        return FastenError(what, where="name", fix="write which one too, such as 'section sill' or 'cable 4 AWG'")
    there = [one.name for one in (*job.sections, *job.holes, *job.cables)]
    there = [*(one.name for one in job.mounts), *(one.name for one in job.runs), *there]
    there += [one.name for one in job.covers]
    if not there:
        return FastenError(
            f"the job has no {shown(name)}", where="name", fix="it has nothing yet: fasten start adds to it"
        )
    return unknown(name, "a name in this job", there, "name")


def _has(job: "Job", name: str) -> "Job":
    """The job; raises FastenError where nothing of it goes by the name."""
    from fasten.job.change import find_cover, find_run
    from fasten.job.edit import named
    from fasten.job.wiring.recorded import find_recorded

    found, cover = find_recorded(job, name), find_cover(job, name)
    is_there = find_run(job, name) is not None or (found is not None and found.entry is not None)
    if not is_there and cover not in job.covers and named(job, name) is None:
        raise _unknown(job, name)
    return job


def _show(args: argparse.Namespace, job: "Job", name: str, tables: "Tables") -> int:
    """Print what is known of what was set, and what is asked next."""
    from fasten.commands._documents import text_width
    from fasten.job.edit import named
    from fasten.report.job.known import known_json, known_of, known_text
    from fasten.report.plain import json_text

    mount: Mount | None = named(job, name) if name else None
    found = known_of(job, name, mount, tables)
    print(json_text(known_json(found)) if args.json else known_text(found, text_width()), end="\n" if args.json else "")
    return 0
