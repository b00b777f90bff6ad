"""`fasten shelf SHELF`: what is owned; add lines or CSV, tick kits, answer what a line leaves open, drop a line."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from fasten.catalog.tables import Tables
    from fasten.job.shelf.lines.words import Read
    from fasten.job.words import Shelf

DOINGS = ("show", "add", "kit", "answer", "drop", "undo")


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("shelf", metavar="SHELF", help="the file of the shelf; it is begun where there is none")
    parser.add_argument(
        "do", nargs="?", default="show", choices=DOINGS, metavar="DO",
        help="add LINE …, kit [NAME …], answer N LINE, drop LINE …, undo; show where it is left out",
    )  # fmt: skip
    parser.add_argument(
        "words", nargs="*", metavar="LINE", help="a line such as '50 x M5 x 16 mm flange bolts'; - reads stdin"
    )
    parser.add_argument("--file", default="", metavar="FILE", help="lines to add, plain or CSV")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Change the shelf as it is asked and print it, or what was added.

    Raises:
        FastenError: the shelf cannot be read or saved, or an answer or kit names nothing.
    """
    from pathlib import Path

    from fasten.commands._tables import open_tables
    from fasten.errors import FastenError

    tables, path = open_tables(), Path(args.shelf)
    if args.do == "kit" and not args.words:
        return _list_kits(path, args, tables)
    if args.do == "show" and args.words:
        raise FastenError("a line is given and nothing to do with it", where="do", fix="write add before it")
    shelf, reads = _changed(path, args, tables)
    _tell(shelf, reads, args, tables)
    return 0


def _changed(path: "Path", args: argparse.Namespace, tables: "Tables") -> "tuple[Shelf, tuple[Read, ...]]":
    """The shelf as it is now, saved where it was changed, and what its new lines came to."""
    from fasten.commands._folders import written_folder
    from fasten.job.store.storage import save_shelf
    from fasten.job.store.written import Written

    shelf, stamp = _opened(path)
    if args.do == "show":
        return shelf, ()
    if args.do == "undo":
        return _undone(path), ()
    now, reads = _done(shelf, args, tables)
    save_shelf(now, path, stamp, Written(written_folder()))  # type: ignore[arg-type]
    return now, reads


def _undone(path: "Path") -> "Shelf":
    from fasten.commands._folders import written_folder
    from fasten.commands._streams import say
    from fasten.job.store.storage import load_shelf
    from fasten.job.store.undo import shelf_taken_back
    from fasten.job.store.written import Written

    now = shelf_taken_back(load_shelf(path, Written(written_folder())))
    say(f"the last change of {path} is taken back; undo once more makes it again")
    return now


def _opened(path: "Path") -> "tuple[Shelf, object]":
    import os

    from fasten.commands._folders import written_folder
    from fasten.commands._streams import say
    from fasten.job.store.storage import load_shelf
    from fasten.job.store.written import Written
    from fasten.job.words import Shelf

    if not os.path.lexists(path):
        return Shelf("", "", "", (), (), (), ()), None
    loaded = load_shelf(path, Written(written_folder()))
    say(loaded.why)
    return loaded.value, loaded.stamp


def _done(shelf: "Shelf", args: argparse.Namespace, tables: "Tables") -> "tuple[Shelf, tuple[Read, ...]]":
    from fasten.errors import FastenError
    from fasten.job.shelf.lines.add import added, added_text, answer, kit_reads

    if args.do == "kit":
        reads = tuple(read for name in args.words for read in kit_reads(name, tables))
        return added(shelf, reads), reads
    if args.do == "drop":
        return _dropped(shelf, args.words), ()
    if args.do == "answer":
        number, *line = args.words or [""]
        if not number.isdecimal() or not line:
            fix = "write the number of the question and its answer, such as answer 1 2, or answer 1 'M5x16 pan star 50'"
            raise FastenError("it is not said what is answered", where="answer", fix=fix)
        now, read = answer(shelf, int(number), " ".join(line), tables)
        return now, (read,)
    return added_text(shelf, _lines(args), tables)


def _dropped(shelf: "Shelf", lines: list[str]) -> "Shelf":
    from fasten.commands._streams import say
    from fasten.errors import FastenError
    from fasten.job.shelf.lines.drop import dropped

    if not lines:
        raise FastenError("no line is given", where="drop", fix="write one as the shelf is printed")
    for line in lines:
        shelf, name = dropped(shelf, line)
        say(f"{name} is off the shelf")
    return shelf


def _lines(args: argparse.Namespace) -> str:
    """The lines to add: those of the command line, of a file, of stdin where - is given or nothing else.

    Raises:
        FastenError: the file cannot be read, or is no text.
    """
    import sys
    from pathlib import Path

    from fasten.errors import FastenError
    from fasten.job.store.files import label, read_file

    lines = [sys.stdin.read() if word == "-" else word for word in args.words]
    if args.file:
        try:
            lines.append(read_file(Path(args.file))[0].decode("utf-8-sig"))
        except UnicodeDecodeError as error:
            raise FastenError("it is no text", where=label(Path(args.file)), fix="save it as UTF-8") from error
    if not lines:
        raise FastenError("no line is given", where="add", fix="write one, name a file by --file, or - for stdin")
    return "\n".join(lines)


def _tell(shelf: "Shelf", reads: "tuple[Read, ...]", args: argparse.Namespace, tables: "Tables") -> None:
    from fasten.commands._documents import text_width
    from fasten.report.forms.written import written
    from fasten.report.job.shelf import added_document, shelf_document, shelf_json
    from fasten.report.plain import json_text

    if args.json:
        print(json_text(shelf_json(shelf, reads, tables)))
    else:
        document = (
            added_document(shelf, reads, tables)
            if args.do not in ("show", "drop", "undo")
            else shelf_document(shelf, tables)
        )
        print(written(document, "text", text_width()), end="")


def _list_kits(path: "Path", args: argparse.Namespace, tables: "Tables") -> int:
    """Name the kits, with those that are on the shelf."""
    from fasten.commands._documents import text_width
    from fasten.report.forms.written import written
    from fasten.report.job.shelf import kits_document
    from fasten.report.plain import json_text

    shelf, _ = _opened(path)
    document = kits_document(shelf, tables)
    if args.json:
        rows = [{"kit": kit, "there": bool(there), "title": title} for kit, there, title in document.sections[0].rows]
        print(json_text({"format": 1, "kits": rows}))
    else:
        print(written(document, "text", text_width()), end="")
    return 0
