"""What the commands that make a document share: the job and shelf they read, how wide text is, where it is written."""

import os
import sys
from typing import TYPE_CHECKING

from fasten.commands._streams import say

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from fasten.catalog.tables import Tables
    from fasten.errors import FastenError
    from fasten.job.entry import Entry
    from fasten.job.store.storage import Stamp
    from fasten.job.words import Job, Shelf

MOST_LINES = 20  # of a shelf that are named one by one
NARROW, USUAL, WIDE = 44, 80, 120
ENDINGS = {
    "text": ".txt", "csv": ".csv", "md": ".md", "html": ".html", "json": ".json", "svg": ".svg", "dxf": ".dxf",
}  # fmt: skip
DOCUMENTS = ("text", "csv", "md", "html", "json")


def read_job(args: "argparse.Namespace", tables: "Tables") -> "Job":
    """The job that was named; what must be known of it is said on stderr.

    Raises:
        FastenError: it cannot be read or is no job.
    """
    from pathlib import Path

    from fasten.commands._folders import written_folder
    from fasten.job.store.storage import load_job
    from fasten.job.store.written import Written

    loaded = load_job(Path(args.job), tables, Written(written_folder()))
    say(loaded.why)
    return loaded.value


def read_shelf(args: "argparse.Namespace", tables: "Tables") -> "Shelf | None":
    """The shelf that was named; None where none was. Lines of it that match nothing are named on stderr.

    Raises:
        FastenError: it cannot be read or is no shelf.
    """
    if not args.shelf:
        return None
    from pathlib import Path

    from fasten.commands._folders import written_folder
    from fasten.job.shelf.check import troubles
    from fasten.job.store.storage import load_shelf
    from fasten.job.store.written import Written

    loaded = load_shelf(Path(args.shelf), Written(written_folder()))
    say(loaded.why)
    found = troubles(loaded.value, tables)
    for trouble in found[:MOST_LINES]:
        say(f"{loaded.path.name}, {trouble.error}")
    if (more := len(found) - MOST_LINES) > 0:
        say(f"{loaded.path.name}: {more} more lines are to be looked at, the shelf on the screen shows all")
    return loaded.value


def answered(job: "Job", shelf: "Shelf | None", tables: "Tables") -> "tuple[Entry, ...]":
    """What every mount point and run of the job gets; how far that is shows on a terminal."""
    from fasten.commands._progress import progress
    from fasten.job.entries import entries

    owned = None
    if shelf is not None:
        from fasten.job.shelf.owned import owned_of
        from fasten.job.shelf.reels import with_reels

        job, owned = with_reels(job, shelf, tables), owned_of(shelf, tables)
    with progress("finding answers") as step:
        return entries(job, tables, owned, step)


def text_width() -> int:
    """Columns of the terminal, no fewer than a phone has and no more than an eye follows; 80 where there is none."""
    try:
        columns = int(os.environ["COLUMNS"])
    except (KeyError, ValueError):
        try:
            columns = os.get_terminal_size(sys.stdout.fileno()).columns
        except (OSError, ValueError):
            columns = USUAL
    return min(max(columns, NARROW), WIDE)


def form_of(args: "argparse.Namespace", forms: tuple[str, ...] = DOCUMENTS) -> str:
    """How a document is written: as `--format` or `--json` says, else as its file's name ends, else the first way.

    Raises:
        FastenError: two of these say different things, or the name ends in what it is not written as.
    """
    from fasten.errors import FastenError

    ending = "" if not args.out or os.path.isdir(args.out) else os.path.splitext(args.out)[1].lower()
    named = next((form for form, end in ENDINGS.items() if end == ending), "")
    said = {"--json": "json" if getattr(args, "json", False) else "", f"--format {args.format}": args.format,
            f"a name that ends in {ending}": named}  # fmt: skip
    said = {words: form for words, form in said.items() if form}
    if ending and not (named or said):
        raise _no_ending(ending, forms)
    if len(set(said.values())) > 1:
        raise FastenError(f"{' and '.join(said)} do not go together", where="format", fix="leave one out")
    form = next(iter(said.values()), forms[0])
    if form not in forms:
        raise _no_ending(ending, forms)
    return form


def _no_ending(ending: str, forms: tuple[str, ...]) -> "FastenError":
    """The refusal of a file whose name ends in no way that we write."""
    from fasten.errors import FastenError
    from fasten.text.names import either

    what = f"{ending} is no way to write this, nothing was written"
    return FastenError(what, where="out", fix=f"let the name end in {either([ENDINGS[one] for one in forms])}")


def document_name(args: "argparse.Namespace", job: "Job", what: str) -> str:
    """What the file of a document of the job is called in a folder, without the ending."""
    from pathlib import Path

    from fasten.job.names import papers_of

    return f"{papers_of(job, Path(args.job).stem)}-{what}"


def put(text: str, args: "argparse.Namespace", name: str, kind: str) -> None:
    """Print the document, or write it where `--out` says: a file, or a folder in which it gets `name`.

    Raises:
        FastenError: a file is there already and `--force` was not said, or it cannot be written.
    """
    if not args.out:
        print(text, end="")
        return
    from pathlib import Path

    from fasten.job.store.files import write_file

    path = Path(args.out)
    if os.path.isdir(path):  # unlike that of a path, it raises nothing where it may not look
        path = _in_folder(path, f"{name}{ENDINGS[kind]}")
    # A spreadsheet takes a CSV for UTF-8 only where the mark of it stands first.
    content = text.encode("utf-8-sig" if kind == "csv" else "utf-8")
    write_file(path, content, _stamp(path, force=args.force))
    say(f"written to {path}")


def _in_folder(folder: "Path", name: str) -> "Path":
    """The path of a document that is named after a job, which never leads out of the folder.

    Raises:
        FastenError: the path is a link.
    """
    from fasten.errors import FastenError
    from fasten.job.store.files import label

    path = folder / name
    if path.is_symlink():
        what = "a link stands where the document should be, nothing was written"
        raise FastenError(what, where=label(path), fix="remove it, or name the file to write")
    return path


def _stamp(path: "Path", *, force: bool) -> "Stamp | None":
    """What is there and may be overwritten; None where nothing is.

    Raises:
        FastenError: something is there and may not be.
    """
    from fasten.errors import FastenError
    from fasten.job.store.files import label, read_file

    if not os.path.lexists(path):
        return None
    if not force:
        what = "a file is there already, nothing was written"
        raise FastenError(what, where=label(path), fix="name another, or add --force to replace it")
    if not os.path.isfile(path):
        what = "something stands there that is not a plain file, nothing was written"
        raise FastenError(what, where=label(path), fix="name another file")
    return read_file(path)[1]
