"""`fasten wire WHAT --from … --to … --length …`: cable, fuse and ends of one run, or why nothing does."""

import argparse
from typing import TYPE_CHECKING

from fasten.wiring.fields import CARRIES, FIELDS, NAMES

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.wiring.ways import WayChoice
    from fasten.job.words import Job
    from fasten.wiring.sizing import NoSize
    from fasten.wiring.wired import Wired


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(CARRIES.name, nargs="?", default="", metavar="WHAT", help=CARRIES.help.replace("%", "%%"))
    for field in FIELDS:
        if field is not CARRIES:
            parser.add_argument(f"--{field.name}", default="", metavar="…", help=field.help.replace("%", "%%"))
    parser.add_argument("--system", default="", metavar="…", help="of the vehicle: 12 V or 24 V")
    parser.add_argument("--accept", default="", metavar="…", help="ids of what was measured or seen, with commas; all")
    parser.add_argument("--into-job", default="", metavar="JOB", help="keep the run in the file of this job")
    parser.add_argument("--name", default="", metavar="…", help="what the run is called there: 'main power'")
    parser.add_argument("--replace", action="store_true", help="in place of the run of that name")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print the answer, and keep the run in a job if asked to; 1 where nothing does or a chosen cable is too small.

    Raises:
        FastenError: what was asked cannot be understood, it is work for a licence, or it cannot be kept.
    """
    from fasten.commands._tables import open_tables
    from fasten.wiring.sizing import NoSize

    tables = open_tables()
    answer, ways = _kept(args, tables) if args.into_job else (_asked(args, tables), ())
    if args.json:
        from fasten.report.plain import json_text
        from fasten.report.wire.as_json import wire_json

        print(json_text(wire_json(answer, ways)))
    else:
        from fasten.commands._documents import text_width
        from fasten.report.wire.as_text import wire_text

        print(wire_text(answer, text_width()), end="")
    return 1 if isinstance(answer, NoSize) or answer.fails else 0


def _said(args: argparse.Namespace) -> dict[str, str]:
    return {name: getattr(args, name.replace("-", "_")).strip() for name in NAMES}


def _asked(args: argparse.Namespace, tables: "Tables") -> "Wired | NoSize":
    """The answer to the run by itself."""
    from fasten.errors import FastenError
    from fasten.wiring.accepted import with_accepted
    from fasten.wiring.fields import read_run
    from fasten.wiring.read import read_system
    from fasten.wiring.resolve import resolve
    from fasten.wiring.sizing import NoSize
    from fasten.wiring.wired import wired

    if args.name or args.replace:
        raise FastenError("a name is for a job, and none is said", where="name", fix="add --into-job JOB.toml")
    system_v = read_system(args.system or "12 V", "system")
    asked = resolve(read_run(_said(args), tables, system_v), tables)
    answer = wired(asked, tables)
    if not args.accept or isinstance(answer, NoSize):
        return answer
    return wired(asked, tables, with_accepted((), args.accept, answer.confirms))


def _kept(args: argparse.Namespace, tables: "Tables") -> "tuple[Wired | NoSize, tuple[WayChoice, ...]]":
    """The answer to the run among those of the job, which it is saved in, with its sections and holes.

    Raises:
        FastenError: no name was said, another run has it, it cannot be read, or the job cannot be opened or saved.
    """
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.commands._streams import say
    from fasten.errors import FastenError
    from fasten.job.edit import with_run
    from fasten.job.entries import runs_on_studs
    from fasten.job.wiring.accept import with_accepted
    from fasten.job.wiring.runs import answer_of, check_circle, check_run, named_run, run_choices
    from fasten.job.wiring.ways import way_choices, ways_of, with_holes
    from fasten.job.words import CableRun, Job

    name, path = args.name.strip(), Path(args.into_job)
    if not name:
        raise FastenError(
            "the run has no name in the job, nothing was saved", where="name", fix="add --name 'main power'"
        )
    if args.system:
        raise FastenError("the system stands in the job", where="system", fix='write system = "24 V" in its file')
    asked = CableRun(name, tuple((field, text) for field, text in _said(args).items() if text))

    def added(job: "Job") -> "Job":
        check_run(asked, job, tables)
        changed = with_run(job, asked, replace_it=args.replace)
        check_circle(changed, name, tables)
        return with_accepted(changed, name, args.accept, tables) if args.accept else changed

    _, job = change_job(path, tables, added, Job(path.stem, "", "", ()))
    say(f"{name} is saved in {path}")
    found = run_choices(job, tables)
    ways = way_choices(job, found, tables)
    (one,) = runs_on_studs((named_run(with_holes(found, ways), name),), job, tables)
    return one.answer or answer_of(job, name, tables), ways_of(one.run, ways)
