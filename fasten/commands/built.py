"""`fasten built JOB MOUNT`: write down at a mount point what was really used there."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.job.words import Job

FIELDS = {
    "hole": "the hole as drilled, a size: '7.1 mm'",
    "hardware": "what went in: 'M5 rivet nut, round; M5x16'",
    "torque": "how tight, a torque: '2.4 N·m'",
    "date": "the day, such as 2026-05-03; today where nothing is said",
    "note": "whatever else is worth knowing",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    for name, summary in FIELDS.items():
        parser.add_argument(f"--{name}", default="", metavar="…", help=summary)
    parser.add_argument("--replace", action="store_true", help="in place of the record that is there")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Save what was built and print it; a record that is there is replaced as a whole, and only where that is said.

    Raises:
        FastenError: nothing is said, or it is no size, torque or date; there is a record already; the job has no such
            mount point, or it cannot be read or saved.
    """
    from datetime import date
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.commands._streams import say
    from fasten.commands._tables import open_tables
    from fasten.job.built import recorded
    from fasten.job.edit import find_mount, with_mount
    from fasten.report.job.built import built_json, built_text
    from fasten.report.plain import json_text

    said = {name: getattr(args, name) for name in FIELDS}

    def with_record(job: "Job") -> "Job":
        mount = find_mount(job, args.mount)
        done = recorded(mount, said, date.today().isoformat(), replace_it=args.replace)
        return with_mount(job, done, instead_of=mount.name)

    _, saved = change_job(Path(args.job), open_tables(), with_record)
    kept = find_mount(saved, args.mount)
    say(f"written down in {args.job}")
    if args.json:
        print(json_text(built_json(kept)))
    else:
        print(built_text(kept), end="")
    return 0
