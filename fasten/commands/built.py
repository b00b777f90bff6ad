"""`fasten built JOB MOUNT`: write down at a mount point what was really used there."""

import argparse

FIELDS = {
    "hole": "the hole as drilled: '7.1 mm'",
    "hardware": "what went in: 'M5 rivet nut, round; M5x16'",
    "torque": "how tight: '2.4 N·m'",
    "date": "the day; today where nothing is said",
    "note": "whatever else is worth knowing",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    for name, summary in FIELDS.items():
        parser.add_argument(f"--{name}", default=None, metavar="…", help=summary)
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Save what was built and print it; what was written down before and is not said now stays.

    Raises:
        FastenError: nothing is said, the job has no such mount point, or it cannot be read or saved.
    """
    from dataclasses import replace
    from datetime import date
    from pathlib import Path

    from fasten.commands._jobs import open_job
    from fasten.commands._streams import say
    from fasten.commands._tables import open_tables
    from fasten.errors import FastenError
    from fasten.job.edit import find_mount, with_mount
    from fasten.job.storage import save_job
    from fasten.job.words import Built
    from fasten.report.built_text import built_json, built_text
    from fasten.report.plain import json_text

    said = {name: text.strip() for name in FIELDS if (text := getattr(args, name)) is not None}
    if not said:
        raise FastenError("nothing is said that was built", where="built", fix="add --hole, --hardware or --torque")
    loaded = open_job(Path(args.job), open_tables())
    mount = find_mount(loaded.value, args.mount)
    before = mount.built or Built("", "", "", "", "")
    built = replace(before, **({"date": date.today().isoformat()} | said))
    saved = save_job(
        with_mount(loaded.value, replace(mount, built=built), instead_of=mount.name), loaded.path, loaded.stamp
    )
    kept = find_mount(saved.value, mount.name)
    say(f"written down in {loaded.path}")
    if args.json:
        print(json_text(built_json(kept)))
    else:
        print(built_text(kept), end="")
    return 0
