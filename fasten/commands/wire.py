"""`fasten wire WHAT --from … --to … --length …`: cable, fuse and ends of one run, or why nothing does."""

import argparse

from fasten.wiring.fields import CARRIES, FIELDS, NAMES


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument(CARRIES.name, nargs="?", default="", metavar="WHAT", help=CARRIES.help.replace("%", "%%"))
    for field in FIELDS:
        if field is not CARRIES:
            parser.add_argument(f"--{field.name}", default="", metavar="…", help=field.help.replace("%", "%%"))
    parser.add_argument("--system", default="12 V", metavar="…", help="of the vehicle: 12 V or 24 V")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print the answer; 0 where something does, 1 where nothing does or the chosen cable is too small.

    Raises:
        FastenError: what was asked cannot be understood, or it is work for a licence.
    """
    from fasten.commands._tables import open_tables
    from fasten.wiring.fields import read_run
    from fasten.wiring.read import read_system
    from fasten.wiring.resolve import resolve
    from fasten.wiring.sizing import NoSize
    from fasten.wiring.wired import wired

    tables = open_tables()
    said = {name: getattr(args, name.replace("-", "_")) for name in NAMES}
    answer = wired(resolve(read_run(said, tables, read_system(args.system, "system")), tables), tables)
    if args.json:
        from fasten.report.plain import json_text
        from fasten.report.wire.as_json import wire_json

        print(json_text(wire_json(answer)))
    else:
        from fasten.commands._documents import text_width
        from fasten.report.wire.as_text import wire_text

        print(wire_text(answer, text_width()), end="")
    return 1 if isinstance(answer, NoSize) or answer.fails else 0
