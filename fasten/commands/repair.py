"""`fasten repair JOB MOUNT WHAT`: what to do about a spun nut or a hole too wide, each route proved; `--take` one."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.after.routes import Repaired
    from fasten.catalog.tables import Tables
    from fasten.job.after.damaged import Planned
    from fasten.job.words import Job


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
    parser.add_argument("--take", default="", metavar="N", help="write down that this route was taken, by its number")
    parser.add_argument("--shelf", default="", metavar="FILE", help="mark the routes that it has all parts for")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print each route with its proof; 0 where one is proven or open, 1 where none is or a question comes first.

    With `--take` one of them is written down instead; 1 where it is not proven.

    Raises:
        FastenError: the job or shelf cannot be read, it has no such mount point or that has no answer, what is said
            cannot have happened there, or the route that is taken is none of those that do.
    """
    from pathlib import Path

    from fasten.commands._documents import text_width
    from fasten.commands._jobs import open_job
    from fasten.commands._tables import open_tables
    from fasten.report.forms.written import written
    from fasten.report.job.repair import repair_document, repair_json
    from fasten.report.plain import json_text

    tables = open_tables()
    if args.take:
        return _take(args, tables)
    loaded = open_job(Path(args.job), tables)
    planned, found = _found(args, loaded.value, tables)
    stocked = _stocked(args, found, tables)
    if args.json:
        print(json_text(repair_json(planned.choice.name, found, stocked)))
    else:
        print(written(repair_document(planned.choice.name, found, stocked), "text", text_width()), end="")
    return 0 if found.routes and not found.asks else 1


def _found(args: argparse.Namespace, job: "Job", tables: "Tables") -> "tuple[Planned, Repaired]":
    """What the mount point gets as it was planned, and the routes there."""
    from fasten.after.damage import read_damage
    from fasten.job.after.damaged import planned_at, routes_at
    from fasten.record import replace

    damage, planned = read_damage(args.what), planned_at(args.mount, job, tables)
    found = routes_at(planned, damage, _at(args.at, planned.fixings), tables)
    return planned, replace(found, asks="") if args.sound else found


def _take(args: argparse.Namespace, tables: "Tables") -> int:
    """Write down that a route was taken, and say what of it is open."""
    from datetime import date
    from pathlib import Path

    from fasten.commands._changes import tell
    from fasten.commands._jobs import change_job
    from fasten.job.after.damaged import with_route
    from fasten.job.after.repairs import chosen, place_text
    from fasten.job.edit import find_mount
    from fasten.report.job.done import Done

    done: list[tuple[Done, bool]] = []

    def with_taken(job: "Job") -> "Job":
        planned, found = _found(args, job, tables)
        route = chosen(found, args.take)
        now = with_route(job, planned, found, route, date.today().isoformat(), tables)
        mount = find_mount(now, args.mount)
        place = place_text(mount.repairs[-1])
        text = f"written down: {place} of {mount.name} is repaired by {route.route}: {route.text}"
        notes = tuple(f"not proven: needs {need}" for need in route.needs)
        done[:] = [(Done(text, mount.name, notes=notes), route.proven)]
        return now

    change_job(Path(args.job), tables, with_taken)
    said, proven = done[0]
    tell(args, said)
    return 0 if proven else 1


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
    from fasten.commands._documents import read_shelf
    from fasten.job.after.damaged import on_shelf
    from fasten.job.shelf.owned import owned_of

    return on_shelf(found, owned_of(read_shelf(args, tables), tables), tables)
