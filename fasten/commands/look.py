"""`fasten look ANYTHING`: one box for every size."""

import argparse


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.quoting import QUOTING

    parser.add_argument("words", nargs="*", metavar="ANYTHING", help="what to look up; several words are one size")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.epilog = f"{QUOTING[0].upper()}{QUOTING[1:]}."


def run(args: argparse.Namespace) -> int:
    """Print what was found.

    Raises:
        FastenError: the words name nothing known.
    """
    from fasten.commands._tables import open_tables
    from fasten.look import look

    findings = look(" ".join(args.words), open_tables())
    if args.json:
        from fasten.report.plain import to_json

        print(to_json(findings))
    else:
        from fasten.report.look_text import look_text

        print(look_text(findings), end="")
    return 0
