"""`fasten demo`: an example job and shelf, in a vehicle that does not exist, to try everything on."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

FILES = ("job.toml", "shelf.toml")
JOB, SHELF = FILES


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("--copy", default="", metavar="DIR", help="copy job and shelf into this folder")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Say what the example is, and copy it where that is asked.

    Raises:
        FastenError: a file of its name is there already, or it cannot be written.
    """
    from pathlib import Path

    from fasten.commands._tables import open_tables
    from fasten.job.store.storage import load_job

    tables, folder = open_tables(), demo_folder()
    job = load_job(folder / JOB, tables).value
    where = _copied(folder, Path(args.copy)) if args.copy else folder
    if args.json:
        from fasten.report.demo_text import demo_json
        from fasten.report.plain import json_text

        print(json_text(demo_json(job, *(str(where / name) for name in FILES))))
    else:
        from fasten.report.demo_text import demo_text

        print(demo_text(job, *(str(where / name) for name in FILES), copied=bool(args.copy)), end="")
    return 0


def demo_folder() -> "Path":
    """Where the example is kept."""
    from pathlib import Path

    import fasten

    return Path(fasten.__file__).with_name("demo")


def _copied(folder: "Path", into: "Path") -> "Path":
    """Both files written into a folder, which is made where it is not there; neither where one is there already."""
    import os
    from contextlib import suppress

    from fasten.errors import FastenError
    from fasten.job.store.files import label, make_folder, write_file

    if there := [name for name in FILES if os.path.lexists(into / name)]:
        what = f"{' and '.join(there)} {'are' if len(there) > 1 else 'is'} there already, nothing was copied"
        raise FastenError(what, where=label(into), fix="name an empty folder")
    make_folder(into)
    for name in FILES:
        try:
            write_file(into / name, (folder / name).read_bytes(), None)
        except FastenError:
            for half in FILES[: FILES.index(name)]:  # half an example is none, and would bar the way to another try
                with suppress(OSError):
                    (into / half).unlink()
            raise
    return into
