"""`fasten instead JOB MOUNT`: a screw length is missing; which other will do, proved in that mount point's joint."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.shelf.substitute import Candidate
    from fasten.job.words import Shelf
    from fasten.report.job.instead import Instead


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    parser.add_argument("--shelf", default="", metavar="FILE", help="try every length that is there")
    parser.add_argument("--length", default="", metavar="…", help="try this length: 25mm")
    parser.add_argument("--pin", action="store_true", help="hold the first that does in the job")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print each length with its proof; 0 where one does and is there in number, 1 where none does.

    Raises:
        FastenError: job, shelf or length cannot be read, the job has no such mount point, or it cannot be saved.
    """
    from pathlib import Path

    from fasten.commands._documents import read_shelf, text_width
    from fasten.commands._jobs import open_job, pin_mounts
    from fasten.commands._tables import open_tables
    from fasten.job.edit import find_mount
    from fasten.job.entries import mount_choice
    from fasten.job.pins import pin_of
    from fasten.job.shelf.owned import owned_of
    from fasten.model import Answer

    tables = open_tables()
    shelf = read_shelf(args, tables)
    loaded = open_job(Path(args.job), tables)
    asked = mount_choice(find_mount(loaded.value, args.mount), loaded.value, tables, owned_of(shelf, tables))
    found = _report(asked, _candidates(args, asked, shelf, tables), shelf, tables)
    good = [entry.verdict for entry in found.found if isinstance(entry.verdict, Answer) and entry.enough]
    if args.pin and good:
        pin_mounts(loaded, {asked.name: pin_of(good[0])})
    if args.json:
        from fasten.report.job.instead import instead_json
        from fasten.report.plain import json_text

        print(json_text(instead_json(found)))
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.instead import instead_document

        print(written(instead_document(found), "text", text_width()), end="")
    return 0 if good else 1


def _candidates(
    args: argparse.Namespace, asked: "Choice", shelf: "Shelf | None", tables: "Tables"
) -> "tuple[Candidate, ...]":
    from fasten.errors import FastenError
    from fasten.job.shelf.substitute import Candidate, on_shelf
    from fasten.text import units
    from fasten.text.units import Dimension

    if bool(args.length) == (shelf is not None):
        what = "both a shelf and a length are said" if args.length else "nothing is said to try instead"
        raise FastenError(what, where="instead", fix="say --length 25mm, or --shelf FILE to try all that is there")
    if shelf is not None:
        return on_shelf(asked, shelf, tables)
    return (Candidate(units.read(args.length, Dimension.LENGTH, "length")),)


def _report(asked: "Choice", candidates: "tuple[Candidate, ...]", shelf: "Shelf | None", tables: "Tables") -> "Instead":
    from fasten.job.shelf.substitute import instead, missing_screw, others_on_shelf
    from fasten.report.job.instead import Instead

    wanted, found = missing_screw(asked, tables), instead(asked, candidates, tables)
    reason = "" if wanted is not None else asked.reason or "its joint has no screw that comes in lengths"
    return Instead(
        mount=asked.name, title=asked.answer.title if asked.answer is not None else "", wanted=wanted,
        behind_mm=asked.point.behind_mm if asked.point is not None else None, found=found,
        others=others_on_shelf(asked, shelf, tables) if shelf is not None else (), reason=reason,
    )  # fmt: skip
