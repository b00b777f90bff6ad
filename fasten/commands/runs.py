"""`fasten runs JOB [RUN]`: the runs of cable of a job, or one of them in full."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.wiring.proposals import Proposal
    from fasten.job.wiring.runs import RunChoice
    from fasten.job.wiring.ways import WayChoice
    from fasten.job.words import Job, Shelf


ASKED = {"battery": "battery stud M8", "to-amplifiers": "5m", "to-dash": "4m", "to-doors": "3m"}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("run", nargs="?", default="", metavar="RUN", help="only this run, section or hole, in full")
    parser.add_argument(
        "--shelf", default="", metavar="FILE", help="what is at hand: measured reels, and torques of mount points"
    )
    parser.add_argument("--take", default="", metavar="…", help="make the runs that are proposed: all, or '1,3'")
    for name, example in ASKED.items():
        parser.add_argument(f"--{name}", default="", metavar="…", help=f"kept in the job, for proposals: '{example}'")
    parser.add_argument("--accept", default="", metavar="…", help="ids of what was measured or seen of RUN; all, none")
    parser.add_argument(
        "--format",
        choices=("text", "csv", "md", "html"),
        default="",
        help="how it is written; else as the file that --out names ends",
    )
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print the runs, or one of them, with why where nothing does for one; for one the exit code is that of `wire`.

    Raises:
        FastenError: the job cannot be read, has no such run, or the list cannot be written.
    """
    from fasten.commands._documents import document_name, form_of, put, read_job, read_shelf
    from fasten.commands._tables import open_tables
    from fasten.job.shelf.reels import with_reels
    from fasten.job.wiring.proposals import proposals
    from fasten.job.wiring.runs import named_run, run_choices
    from fasten.job.wiring.ways import named_way, way_choices, ways_of, with_holes

    form, tables = form_of(args), open_tables()
    shelf = read_shelf(args, tables)
    _change(args, shelf, tables)
    job = read_job(args, tables)
    measured = with_reels(job, shelf, tables)
    found = run_choices(measured, tables)
    offered, ways = proposals(job, found, tables), way_choices(measured, found, tables)
    found = with_holes(found, ways)
    if args.run and (way := named_way(ways, args.run)) is not None:
        _print_way(form, args, way, job)
        return 1 if way.plan is None or way.plan.failing else 0
    if args.run:
        found, offered = (named_run(found, args.run),), ()
        ways = ways_of(found[0].run, ways)
    found = _on_studs(found, job, shelf, tables)
    name = document_name(args, job, "runs")
    if form == "json":
        from fasten.report.plain import json_text
        from fasten.report.wire.runs import runs_json

        put(f"{json_text(runs_json(found, offered, ways))}\n", args, name, "json")
    else:
        put(_text(form, args, job, found, offered, ways), args, name, form)
    return 1 if args.run and not _does(found[0]) else 0


def _does(one: "RunChoice") -> bool:
    """Whether a run that was asked for has an answer of which nothing fails; the list of all is a document."""
    return one.answer is not None and not one.answer.fails


def _on_studs(
    found: "tuple[RunChoice, ...]", job: "Job", shelf: "Shelf | None", tables: "Tables"
) -> "tuple[RunChoice, ...]":
    """The runs at body studs that are mount points of the job as these are answered."""
    from fasten.job.entries import runs_on_studs
    from fasten.job.shelf.owned import owned_of

    return runs_on_studs(found, job, tables, owned_of(shelf, tables))


def _change(args: argparse.Namespace, shelf: "Shelf | None", tables: "Tables") -> None:
    """Save what was said of the vehicle, what is accepted of a run, and the runs that are taken.

    Raises:
        FastenError: a proposal is not there, or must be asked for first, what is accepted is not open, or the job
            cannot be saved.
    """
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.commands._streams import say
    from fasten.errors import FastenError
    from fasten.job.shelf.owned import owned_of
    from fasten.job.shelf.reels import with_reels
    from fasten.job.wiring.accept import with_accepted
    from fasten.job.wiring.recorded import with_electrics
    from fasten.record import replace
    from fasten.text.figures import counted
    from fasten.text.shown import shown

    said = {name: getattr(args, name.replace("-", "_")) for name in ASKED}
    if args.accept and not args.run:
        raise FastenError("no run is said", where="accept", fix="write the name of the run after the job")
    if not (args.take or args.accept or any(said.values())):
        return

    def changed(seen: "Job") -> "Job":
        job = with_electrics(seen, said, tables)
        if args.accept:
            measured = with_reels(job, shelf, tables)
            accepted = with_accepted(measured, args.run, args.accept, tables, owned_of(shelf, tables))
            job = replace(accepted, cables=job.cables)
        return _with_taken(job, seen, args.take, tables) if args.take else job

    was, now = change_job(Path(args.job), tables, changed)
    added = "".join(f", new mount point {shown(mount.name)}" for mount in now.mounts[len(was.mounts) :])
    taken = f"{counted(len(now.runs) - len(was.runs), 'run')} taken{added}, " if args.take else ""
    say(f"{taken}saved in {args.job}")


def _with_taken(job: "Job", seen: "Job", wanted: str, tables: "Tables") -> "Job":
    """The job with what is wanted of its proposals; numbers are those of the job as it was seen.

    Raises:
        FastenError: a proposal is not there or must be asked for first, or by what was said others are proposed now.
    """
    from fasten.errors import FastenError
    from fasten.job.wiring.proposals import proposals, take
    from fasten.job.wiring.runs import run_choices

    offered = proposals(job, run_choices(job, tables), tables)
    if wanted.strip().casefold() != "all" and job != seen:
        before = proposals(seen, run_choices(seen, tables), tables)
        if [one.run.name for one in before] != [one.run.name for one in offered]:
            what = "by what is said now other runs are proposed, nothing was taken"
            raise FastenError(what, where="take", fix="say it without --take first, and take by the new numbers")
    return take(job, offered, wanted)


def _print_way(form: str, args: argparse.Namespace, way: "WayChoice", job: "Job") -> None:
    """Print a section or hole."""
    from fasten.commands._documents import document_name, put, text_width
    from fasten.job.names import file_name
    from fasten.report.forms.written import written
    from fasten.report.plain import json_text
    from fasten.report.wire.as_json import FORMAT, ways_json
    from fasten.report.wire.runs import way_document

    name = document_name(args, job, file_name(way.name))
    if form == "json":
        put(f"{json_text({'format': FORMAT, **ways_json((way,))})}\n", args, name, "json")
    else:
        put(written(way_document(way), form, text_width()), args, name, form)


def _text(
    form: str, args: argparse.Namespace, job: "Job", found: "tuple[RunChoice, ...]", offered: "tuple[Proposal, ...]",
    ways: "tuple[WayChoice, ...]",
) -> str:  # fmt: skip
    from fasten.commands._documents import text_width
    from fasten.report.forms.written import written
    from fasten.report.wire.as_text import wire_text
    from fasten.report.wire.runs import runs_document

    if args.run and found[0].answer is not None and form == "text":
        return wire_text(found[0].answer, text_width())
    return written(runs_document(job, found, offered, ways), form, text_width())
