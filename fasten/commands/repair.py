"""`fasten repair JOB MOUNT WHAT`: what to do about a spun nut or a hole too wide, each route proved."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.after.routes import Repaired
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.model import Joint, MountPoint


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help="the name of the mount point in it")
    parser.add_argument(
        "what", metavar="WHAT",
        help="spun, stripped, 'oversize 8.2 mm', 'off 3 mm right', snapped, cross-threaded, cracked or corroded",
    )  # fmt: skip
    parser.add_argument("--at", default="", metavar="N", help="the fixing, numbered as on the template; else all")
    parser.add_argument(
        "--sound", action="store_true", help="it is no structure, belt, seat or airbag part, and you see behind"
    )
    parser.add_argument("--shelf", default="", metavar="FILE", help="mark the routes that it has all parts for")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print each route with its proof; 0 where one is proven or open, 1 where none is or a question comes first.

    Raises:
        FastenError: the job or shelf cannot be read, it has no such mount point or that has no answer, or what is said
            cannot have happened there.
    """
    from dataclasses import replace
    from pathlib import Path

    from fasten.after.damage import check_possible, read_damage
    from fasten.after.routes import repaired
    from fasten.commands._documents import text_width
    from fasten.commands._jobs import open_job
    from fasten.commands._tables import open_tables
    from fasten.job.choices import choice
    from fasten.job.edit import find_mount
    from fasten.report.forms.written import written
    from fasten.report.job.repair import repair_document, repair_json
    from fasten.report.plain import json_text

    tables = open_tables()
    damage = read_damage(args.what)
    loaded = open_job(Path(args.job), tables)
    asked = choice(find_mount(loaded.value, args.mount), tables, None, loaded.value)
    joint, point = _joint(asked)
    assert asked.answer is not None
    check_possible(damage, joint, asked.answer.title)
    found = repaired(joint, point, damage, _at(args.at, point.fixings), tables)
    found = replace(found, asks="") if args.sound else found
    stocked = _stocked(args, found, tables)
    if args.json:
        print(json_text(repair_json(asked.name, found, stocked)))
    else:
        print(written(repair_document(asked.name, found, stocked), "text", text_width()), end="")
    return 0 if found.routes and not found.asks else 1


def _joint(asked: "Choice") -> "tuple[Joint, MountPoint]":
    from fasten.errors import FastenError

    if asked.answer is None or asked.point is None:
        what = f"{asked.name} has no answer, so there is no joint to repair: {asked.reason}"
        raise FastenError(what, where="mount", fix="see what would make it fit with fasten pick")
    return asked.answer.proposal.joint, asked.point


def _at(text: str, fixings: int) -> int | None:
    from fasten.errors import FastenError

    if not text:
        return 1 if fixings == 1 else None
    if not text.isdigit() or not 1 <= int(text) <= fixings:
        what = f"there is no fixing {text!r}"
        raise FastenError(what, where="at", fix=f"say one from 1 to {fixings}, numbered as on the template")
    return int(text)


def _stocked(args: argparse.Namespace, found: "Repaired", tables: "Tables") -> frozenset[str]:
    """The routes that the shelf has all parts for."""
    from fasten.advice.owned import complete
    from fasten.commands._documents import read_shelf
    from fasten.job.shelf.owned import owned_of

    shelf = read_shelf(args, tables)
    if shelf is None:
        return frozenset()
    owned = owned_of(shelf, tables)
    assert owned is not None
    return frozenset(
        route.route for route in found.routes
        if route.answer is not None and complete(
            route.answer.proposal.joint, 1 if found.at is not None else route.point.fixings, owned, tables
        )
    )  # fmt: skip
