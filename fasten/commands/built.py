"""`fasten built JOB MOUNT`: write down at a mount point what was done there and what was measured."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.job.words import Job
    from fasten.model import OwnTest

_TRIES, _MOMENT_S = 40, 0.05  # how often, and how far apart, the file of tests is read again that others save

FIELDS = {
    "hole": "the hole as drilled, a size, or one for each fixing: '7.1 mm'",
    "sheet": "how thick it measured: '0.7 mm'",
    "hardware": "what went in: 'M5 rivet nut, round; M5x16'",
    "length": "how long its screw is: '16 mm'",
    "torque": "how tight, a torque, or one for each fixing: '2.4 N·m'",
    "turning": "what turned a prevailing-torque nut before it seated: '1.1 N·m'",
    "held": "what a nut was held at without turning: '2.1 N·m'",
    "drop": "the drop across a ground joint: '9 mV at 60 A'",
    "spin-out": "what turned the body on test pieces, one after the other: '2.9 3.1 3.4'",
    "pull-out": "what pulled it out of test pieces, in N, or kg on a scale: '1450 1520 1390'",
    "drive": "what drove a screw that forms its thread, on test pieces: '0.42 0.45 0.40'",
    "strip": "what stripped it there: '1.55 1.70 1.62'",
    "retorque": "what just moved a screw when it was tightened again, a torque, or one for each fixing",
    "tool": "what measured: 'same wrench' where it also sets the fixing, 'scale with peak hold'",
    "renewed": "which parts are new",
    "by": "who did it",
    "kind": "fitted (what is written down here by itself), off or checked",
    "date": "the day, such as 2026-05-03; today where nothing is said",
    "note": "whatever else is worth knowing",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    for name, summary in FIELDS.items():
        parser.add_argument(f"--{name}", default="", metavar="…", help=summary)
    parser.add_argument("--photo", action="append", default=[], metavar="FILE", help="the path of a photo, as text")
    parser.add_argument(
        "--keep-test",
        action="store_true",
        help="let every joint of the same hardware, sheet and hole go by the readings",
    )
    parser.add_argument("--sure", action="store_true", help="keep a measurement that is far off its plan")
    parser.add_argument("--replace", action="store_true", help=argparse.SUPPRESS)
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Add a visit to those of a mount point and print it with its verdict; 1 where it is not proven or does not hold.

    Raises:
        FastenError: nothing is said, or it is no size, torque or date, or far off its plan and nobody is sure of it;
            the job has no such mount point, or it cannot be read or saved.
    """
    from datetime import date
    from pathlib import Path

    from fasten.after.judge import Verdict
    from fasten.commands._jobs import change_job
    from fasten.commands._streams import say
    from fasten.commands._tables import open_tables
    from fasten.job.after.built import NEVER_REPLACED, recorded
    from fasten.job.after.judged import as_planned, check_said, judged, planned_of, readings_of, wear
    from fasten.job.after.own_tests import NOTHING_TO_KEEP
    from fasten.job.choices import Choice
    from fasten.job.edit import find_mount, with_mount
    from fasten.report.job.built import built_json, built_text
    from fasten.report.plain import json_text

    if args.replace:
        raise NEVER_REPLACED
    said = {field.replace("-", "_"): getattr(args, field.replace("-", "_")) for field in FIELDS}
    tables, seen = open_tables(), list[Choice]()

    def with_record(job: "Job") -> "Job":
        mount = find_mount(job, args.mount)
        done = recorded(mount, said, date.today().isoformat(), tuple(args.photo))
        planned = planned_of(job, mount, tables)
        check_said(done.visits[-1], planned, tables, is_sure=args.sure)
        read = readings_of(planned.of(done), tables, is_sure=args.sure)
        if args.keep_test and not read.tests:
            raise NOTHING_TO_KEEP
        seen[:] = [planned]
        return with_mount(job, as_planned(done, planned, job, tables), instead_of=mount.name)

    _, saved = change_job(Path(args.job), tables, with_record)
    kept = find_mount(saved, args.mount)
    say(f"written down in {args.job}")
    there = seen[0].of(kept)
    read, kept_in = readings_of(there, tables, is_sure=True), ""
    if args.keep_test:
        kept_in = _keep(read.tests)
    verdict, worn = judged(there, tables), wear(there, tables)
    if args.json:
        print(json_text(built_json(kept, verdict, worn, read.effects)))
    else:
        print(built_text(kept, verdict, worn, read.effects), end="")
        say(kept_in)
    return 0 if verdict is None or verdict.verdict in (Verdict.HOLDS, Verdict.LESS) else 1


def _keep(tests: "tuple[OwnTest, ...]") -> str:
    """Keep what was read on test pieces in the user's own folder, and say where."""
    from time import sleep

    from fasten.commands._folders import tests_path
    from fasten.errors import FastenError
    from fasten.job.store.files import OutdatedError
    from fasten.job.store.tests_toml import keep

    path = tests_path()
    if path is None:
        what = "no home folder is known in which to keep your test pieces; the visit has them"
        raise FastenError(what, where="keep-test", fix="set HOME, or FASTEN_DATA to a folder")
    for _ in range(_TRIES):
        try:
            keep(path, tests)
            break
        except OutdatedError:
            sleep(_MOMENT_S)
    else:
        keep(path, tests)
    return f"kept for every joint of this hardware, sheet and hole in {path}"
