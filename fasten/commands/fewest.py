"""`fasten fewest JOB`: the same job with fewer different sizes, before and after; every joint in it is proved."""

import argparse

SECONDS = 10.0


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument("--seconds", default="", metavar="N", help="how long to look at most: 10")
    parser.add_argument("--keep", action="store_true", help="hold the choice in the job")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print both; 1 where a mount point of the job has no answer.

    Raises:
        FastenError: job or shelf cannot be read, the time is none, or the job cannot be saved.
    """
    from pathlib import Path
    from time import monotonic

    from fasten.commands._documents import read_shelf, text_width
    from fasten.commands._jobs import open_job, pin_mounts
    from fasten.commands._tables import open_tables
    from fasten.job.choices import choices
    from fasten.job.owned import owned_of
    from fasten.job.standard import standard

    tables, shelf = open_tables(), read_shelf(args)
    owned, loaded = owned_of(shelf, tables), open_job(Path(args.job), tables)
    ends = monotonic() + _seconds(args.seconds)
    found = standard(choices(loaded.value, tables, owned), tables, lambda: monotonic() < ends, owned)
    if args.keep and found.pins:
        pin_mounts(loaded, found.pins)
    if args.json:
        from fasten.report.fewest_document import fewest_json
        from fasten.report.plain import json_text

        print(json_text(fewest_json(found)))
    else:
        from fasten.report.document import written
        from fasten.report.fewest_document import fewest_document

        print(written(fewest_document(found), "text", text_width()), end="")
    return 1 if found.unfit else 0


def _seconds(text: str) -> float:
    """The time to look; raises FastenError unless it is a number of seconds up to an hour."""
    from fasten.errors import FastenError

    plain = text.replace(",", ".") or str(SECONDS)
    if not (plain.isascii() and plain.replace(".", "", 1).isdigit() and len(plain) < 8 and float(plain) <= 3600):
        raise FastenError(f"'{text[:20]}' is no number of seconds up to 3600", where="seconds", fix="write such as 10")
    return float(plain)
