"""`fasten pick ITEM --onto …`: a proven fastening for one mount point, or why nothing fits."""

import argparse
from typing import TYPE_CHECKING

from fasten.question.fields import FIELDS, ITEM, NAMES

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.shelf.owned import Owned
    from fasten.model import Advice, Beside, Remedy


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(ITEM.name, nargs="?", default="", metavar="ITEM", help=ITEM.help)
    for field in FIELDS:
        if field is not ITEM:
            parser.add_argument(f"--{field.name}", default="", metavar="…", help=field.help)
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is owned: it is preferred")
    parser.add_argument("--into-job", default="", metavar="JOB", help="keep the question in the file of this job")
    parser.add_argument("--name", default="", metavar="…", help="what the mount point is called there: 'left amp'")
    parser.add_argument("--replace", action="store_true", help="in place of the mount point of that name")
    parser.add_argument("--take", default="", metavar="…", help="a change that the answer names, such as rails")
    parser.add_argument(
        "--brief", action="store_true", help="print hole, bit, hardware, torque and what is not checked"
    )
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print the advice, and keep the question in a job if asked to; 0 where something fits, 1 where nothing does.

    Raises:
        FastenError: what was asked cannot be understood, something that decides was not said, or it cannot be kept.
    """
    from fasten.advice.advise import advise
    from fasten.commands._tables import open_tables
    from fasten.question.read import read_question
    from fasten.question.resolve import resolve

    tables = open_tables()
    said = {name: getattr(args, name.replace("-", "_")) for name in NAMES}
    owned = _owned(args, tables)
    advice = advise(resolve(read_question(said, tables), tables), tables, owned)
    beside = None
    if args.take:
        taken = _taken(args.take, advice)
        said, beside = said | dict(taken.said), taken.beside
        advice = advise(resolve(read_question(said, tables), tables), tables, owned)
    _keep(args, said, tables, beside)
    if args.json:
        from fasten.report.answer.as_json import advice_json
        from fasten.report.plain import json_text

        print(json_text(advice_json(advice)))
    else:
        from fasten.commands._documents import text_width
        from fasten.report.answer.as_text import advice_text, brief_text

        print((brief_text if args.brief else advice_text)(advice, text_width()), end="")
    return 0 if advice.answers else 1


def _taken(name: str, advice: "Advice") -> "Remedy":
    """The change of this name, among those that the answer names.

    Raises:
        FastenError: there is none.
    """
    from fasten.errors import FastenError
    from fasten.text.names import unknown

    known = [one.name for one in advice.remedies if one.said]
    if not known:
        raise FastenError("the answer names no change to take", where="take", fix="leave it out")
    found = next((one for one in advice.remedies if one.name == name and one.said), None)
    if found is None:
        raise unknown(name, "a change that the answer names", known, "take")
    return found


def _owned(args: argparse.Namespace, tables: "Tables") -> "Owned | None":
    """What the shelf holds; None where none was named.

    Raises:
        FastenError: it cannot be read or is no shelf.
    """
    if not args.shelf:
        return None
    from fasten.commands._documents import read_shelf
    from fasten.job.shelf.owned import owned_of

    return owned_of(read_shelf(args, tables), tables)


def _keep(args: argparse.Namespace, said: dict[str, str], tables: "Tables", beside: "Beside | None") -> None:
    """Save the question in the job that was named, and what goes with it; nothing where none was.

    Raises:
        FastenError: no name was said, or another mount point has it, or the job cannot be opened or saved.
    """
    from fasten.errors import FastenError

    if not args.into_job:
        if args.name or args.replace:
            raise FastenError("a name is for a job, and none is said", where="name", fix="add --into-job JOB.toml")
        return
    if not args.name.strip():
        what = "the mount point has no name in the job, nothing was saved"
        raise FastenError(what, where="name", fix="add --name 'left amp'")
    name = args.name.strip()
    _save(args, name, tuple((field, text.strip()) for field, text in said.items() if text.strip()), tables)
    if beside is not None:
        for number in range(1, 1 + beside.count):
            _save(args, f"{name} {beside.name} {number}", beside.said, tables)


def _save(args: argparse.Namespace, name: str, said: tuple[tuple[str, str], ...], tables: "Tables") -> None:
    from pathlib import Path

    from fasten.commands._jobs import change_job, with_question
    from fasten.commands._streams import say
    from fasten.job.edit import named
    from fasten.job.words import Job

    path = Path(args.into_job)

    def asked(job: "Job") -> "Job":
        return with_question(job, name, said, replace_it=args.replace)

    was, _ = change_job(path, tables, asked, Job(path.stem, "", "", ()))
    before = named(was, name)
    name = before.name if before is not None else name
    say(f"{name} is {'saved anew' if before is not None else 'saved'} in {path}")
    if before is not None and before.pin is not None and before.said != said:
        say("what was pinned for it is pinned no more: the question is another")
