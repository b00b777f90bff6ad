"""`fasten look ANYTHING`: one box for every size."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.look import Findings


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.text.quoting import QUOTING

    parser.add_argument("words", nargs="*", metavar="ANYTHING", help="what to look up; several words are one size")
    parser.add_argument("--brief", action="store_true", help="print the answer alone, without all that is known")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.epilog = f"{QUOTING[0].upper()}{QUOTING[1:]}."


def run(args: argparse.Namespace) -> int:
    """Print what was found.

    Raises:
        FastenError: the words name nothing known.
    """
    findings = _found(" ".join(args.words))
    if args.json:
        from fasten.report.plain import to_json

        print(to_json(findings))
    else:
        from fasten.report.look_text import look_text

        print(look_text(findings, brief=args.brief), end="")
    return 0


def _found(text: str) -> "Findings":
    """What is found for the text; where the look-up says how to write a size, the shell's quotes are said too."""
    from fasten.commands._tables import open_tables
    from fasten.errors import FastenError
    from fasten.look import look
    from fasten.text.quoting import QUOTING, WRITING

    try:
        return look(text, open_tables(proves=False))
    except FastenError as error:
        if error.fix != WRITING:
            raise
        raise FastenError(error.what, where=error.where, fix=QUOTING) from error
