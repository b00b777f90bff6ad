"""`fasten built JOB MOUNT`: write down at a mount point what was done there and what was measured."""

import argparse
from typing import TYPE_CHECKING

from fasten.job.after.said import FIELDS, PHOTO

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.words import Job
    from fasten.model import OwnTest


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    for name, summary in FIELDS.items():
        parser.add_argument(f"--{name}", default="", metavar="…", help=summary)
    parser.add_argument("--photo", action="append", default=[], metavar="FILE", help=PHOTO)
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

    from fasten.commands._jobs import change_job
    from fasten.commands._own_tests import keep_tests
    from fasten.commands._streams import say
    from fasten.commands._tables import open_tables
    from fasten.job.after.built import NEVER_REPLACED
    from fasten.job.after.judged import Said, judged, planned_of, readings_of, wear, with_built
    from fasten.job.after.own_tests import NOTHING_TO_KEEP
    from fasten.job.choices import Choice
    from fasten.job.edit import check_no_cable, find_mount
    from fasten.report.job.built import built_json, built_text
    from fasten.report.plain import json_text

    if args.replace:
        raise NEVER_REPLACED
    said = {field.replace("-", "_"): getattr(args, field.replace("-", "_")) for field in FIELDS}
    tables, seen = open_tables(), list[Choice]()

    def with_record(job: "Job") -> "Job":
        check_no_cable(job, args.mount)
        planned = planned_of(job, find_mount(job, args.mount), tables)
        seen[:] = [planned]
        today, photos = date.today().isoformat(), tuple(args.photo)
        now = with_built(job, planned, Said(said, photos, args.sure), today, tables)
        done = planned.of(find_mount(now, planned.name))
        if args.keep_test and not readings_of(done, tables, is_sure=True).tests:
            raise NOTHING_TO_KEEP
        return now

    _, saved = change_job(Path(args.job), tables, with_record)
    kept = find_mount(saved, args.mount)
    say(f"written down in {args.job}")
    there = seen[0].of(kept)
    read, kept_in = readings_of(there, tables, is_sure=True), ""
    if args.keep_test:
        kept_in = f"kept for every joint of this hardware, sheet and hole in {keep_tests(read.tests)}"
        kept_in += _not_reached(read.tests, kept.name, saved, tables)
    verdict, worn = judged(there, tables), wear(there, tables)
    if args.json:
        print(json_text(built_json(kept, verdict, worn, read.effects)))
    else:
        print(built_text(kept, verdict, worn, read.effects), end="")
        say(kept_in)
    if verdict is None and there.answer is None:
        say(f"not proven: nothing is planned there that it could be judged by: {there.reason}")
        return 1
    return 0 if verdict is None or verdict.verdict.stands else 1


def _not_reached(tests: "tuple[OwnTest, ...]", name: str, job: "Job", tables: "Tables") -> str:
    """The other mount points of the job with the part that was tested, which do not go by the tests."""
    from fasten.after.own_tests import out_of_reach
    from fasten.job.choices import choices

    names = ", ".join(
        one.name for one in choices(job, tables)
        if one.answer is not None and one.point is not None and one.name != name
        and out_of_reach(tests, one.answer.proposal.joint, one.point)
    )  # fmt: skip
    return f"; not for {names}, of the same part in another sheet or hole: test that too" if names else ""
