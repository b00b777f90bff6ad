"""What a command line says, by argparse; loaded only where a command is called, as the screen has no use for it."""

import argparse
import os
from importlib import import_module

from fasten import __version__
from fasten.errors import FastenError

TYPE_CHECKING = False  # as in `fasten.__main__`: quick
if TYPE_CHECKING:
    from typing import NoReturn

    from _typeshed import SupportsWrite

CODES = (
    "exit codes: 0 done, or the document was written; 1 not ready, no fit, or a chosen cable is too small; 2 misuse; "
    "3 a fault of the program or the answer could not be written; 130 stopped by Ctrl-C"
)


class Parser(argparse.ArgumentParser):
    """An argument parser that refuses in one sentence."""

    def error(self, message: str) -> "NoReturn":
        raise FastenError(message, fix=f"see {self.prog} --help")

    def _print_message(self, message: str, file: "SupportsWrite[str] | None" = None) -> None:
        """Print help or version; argparse's own says nothing where that fails."""
        print(message, end="", file=file)


vars(argparse)["_"] = lambda text: text  # else it looks for a translation of its words; ours have none


class Formatter(argparse.HelpFormatter):
    """Help as wide as the terminal, found and filled without the imports that argparse makes for these."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=20, width=_columns())

    def _split_lines(self, text: str, width: int) -> list[str]:
        return _filled(text, width) or super()._split_lines(text, width)

    def _fill_text(self, text: str, width: int, indent: str) -> str:
        lines = _filled(text, width - len(indent))
        return "\n".join(indent + line for line in lines) if lines else super()._fill_text(text, width, indent)


def parsed(argv: list[str], commands: dict[str, str]) -> argparse.Namespace:
    """What the words say, of these commands; without a command its `command` is None.

    Raises:
        FastenError: a word is not understood.
    """
    args, unread = _parser(argv, commands).parse_known_args(argv)
    if unread and not _takes(args, unread):
        raise _not_understood(unread, args.command)
    return args


def _takes(args: argparse.Namespace, unread: list[str]) -> bool:
    """Whether words that stand after an option are more of those that the command takes any number of."""
    if args.command is None or any(word.startswith("-") for word in unread):
        return False
    for action in _actions(args.command):
        if not action.option_strings and action.nargs == "*":
            setattr(args, action.dest, [*getattr(args, action.dest), *unread])
            return True
    return False


def _not_understood(unread: list[str], command: str | None) -> FastenError:
    """All that a command did not take, in one refusal, each option with the nearest that there is."""
    from difflib import get_close_matches

    from fasten.text.shown import visible

    known = _options(command)
    options = [word.partition("=")[0] for word in unread if word.startswith("-")]
    said = []
    for word in options or unread:  # what stands after an option that is not known may have been its value
        near = get_close_matches(word, known, n=1) if options else []
        said.append(f"{visible(word)} ({near[0]}?)" if near else visible(word))
    verb = "is" if len(said) == 1 else "are"
    return FastenError(f"{', '.join(said)} {verb} not understood", fix=f"see {_prog(command)} --help")


def _prog(command: str | None) -> str:
    return f"fasten {command}" if command else "fasten"


def _options(command: str | None) -> list[str]:
    """The options of a command, or of the program alone."""
    return [option for action in _actions(command) for option in action.option_strings]


def _actions(command: str | None) -> list[argparse.Action]:
    """What a command takes, or the program alone."""
    parser = Parser(prog=_prog(command), formatter_class=Formatter)
    if command is None:
        parser.add_argument("--version")
    else:
        import_module(f"fasten.commands.{command}").arguments(parser)
    return parser._actions


def _parser(argv: list[str], commands: dict[str, str]) -> Parser:
    parser = Parser(
        prog="fasten", usage="fasten [-h] [--version] [JOB.toml | COMMAND ...]", epilog=CODES,
        description="How to fasten audio gear in vehicles. Alone, or with the file of a job, it opens the screen.",
        formatter_class=Formatter, allow_abbrev=False,
    )  # fmt: skip
    parser.add_argument("--version", action="version", version=f"fasten {__version__}")
    listed = parser.add_subparsers(prog="fasten", dest="command", metavar="COMMAND", title="commands")
    named = next((word for word in argv if not word.startswith("-")), None)
    for name, summary in commands.items():
        if name != named:  # it is listed: two dozen parsers would take as long as to import argparse
            listed._choices_actions.append(listed._ChoicesPseudoAction(name, (), summary))
            continue
        command = listed.add_parser(
            name, help=summary, description=f"{summary[0].upper()}{summary[1:]}.",
            formatter_class=Formatter, allow_abbrev=False,
        )  # fmt: skip
        import_module(f"fasten.commands.{name}").arguments(command)
    return parser


def _filled(text: str, width: int) -> list[str]:
    """The words of a text in lines of a width; none where one of them might have to be broken."""
    lines: list[str] = []
    for word in text.split():
        if len(word) > width or len(word.partition("-")[2]) > 1:
            return []
        if lines and len(lines[-1]) + 1 + len(word) <= width:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _columns() -> int:
    try:
        columns = int(os.environ["COLUMNS"])
    except (KeyError, ValueError):
        try:
            columns = os.get_terminal_size().columns
        except OSError:
            columns = 80
    return max(columns, 24) - 2
