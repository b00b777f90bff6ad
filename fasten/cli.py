"""The command line: reads it, calls one command, and leaves everything else to that command.

Only argparse is imported here, and only the command that is named is imported at all: `--help` and `--version` stay
quick. A new command is a line in `COMMANDS` and a module in `fasten.commands`.
"""

import argparse
import os
from gc import set_threshold
from importlib import import_module

from fasten import __version__
from fasten.errors import FastenError

TYPE_CHECKING = False  # type checkers take it for true; importing typing itself would slow `--help` by a tenth
if TYPE_CHECKING:
    from typing import NoReturn

    from _typeshed import SupportsWrite

COMMANDS = {
    "start": "a job from a few words: 'two amplifiers, sub box'",
    "set": "say what is known of anything by its name, or confirm it",
    "copy": "the same mount point again, without what was measured there",
    "pair": "the mount point of the other side, left or right",
    "rename": "another name for a mount point, run, section, hole or cable",
    "move": "another place for a mount point in the order of the job",
    "remove": "take a mount point, run, section, hole or cable out",
    "keep": "hold one of the answers of a mount point",
    "pack": "tick lines of the hardware list as packed",
    "undo": "take back the last change of the file of a job",
    "pick": "how to fasten one item: hole, bit, hardware, torque and proof",
    "wire": "one run of cable: size, voltage drop, fuse and ends",
    "runs": "the runs of cable of a job, or one of them in full",
    "hardware": "everything a job needs in the box, each thing once",
    "ready": "whether a job can begin, or what is missing",
    "work": "the work sheet of a job, in order of work, with bag labels",
    "gauge": "one measuring pass: what to cut, and what to try where",
    "template": "drilling template of a mount point at 1:1: SVG, HTML tiles, DXF",
    "repair": "what to do about a spun nut or a hole too wide: proved routes",
    "instead": "what will do where a screw length is missing",
    "fewest": "the same job with fewer different sizes, before and after",
    "built": "write down what was really used at a mount point",
    "demo": "an example job to try everything on",
    "shelf": "what you own: add lines or CSV, tick kits, answer questions",
    "look": "look up any thread, bit, gauge, part, class or length",
    "tables": "the tables, or one of them: items, materials, grades, cases",
}
GARBAGE = 200_000  # objects made before their cycles are looked for: an answer is made of many, and ends soon
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


def run(argv: list[str]) -> int:
    """Run one command line and return its exit code.

    Raises:
        FastenError: it names no command, or that command cannot do what is asked.
    """
    if _names_a_job(argv):
        return _screen(argv)
    _refuse_dashes(argv)
    _refuse_no_command(argv)
    args, unread = _parser(argv).parse_known_args(argv)
    if unread and not _takes(args, unread):
        raise _not_understood(unread, args.command)
    if args.command is None:
        return _screen([])
    set_threshold(GARBAGE)
    return int(import_module(f"fasten.commands.{args.command}").run(args))


def _takes(args: argparse.Namespace, unread: list[str]) -> bool:
    """Whether words that stand after an option are more of those that the command takes any number of."""
    if args.command is None or any(word.startswith("-") for word in unread):
        return False
    for action in _actions(args.command):
        if not action.option_strings and action.nargs == "*":
            setattr(args, action.dest, [*getattr(args, action.dest), *unread])
            return True
    return False


def _refuse_no_command(argv: list[str]) -> None:
    """Raise FastenError, with what comes nearest, where the first word is no command."""
    first = next((word for word in argv if not word.startswith("-")), None)
    if first is not None and first not in COMMANDS:
        from fasten.text.names import unknown

        raise unknown(first, "a command", COMMANDS, "")


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


def _refuse_dashes(argv: list[str]) -> None:
    """Raise FastenError where `--` is given as the value of an option: Pythons differ in what they make of it."""
    for word in argv[: argv.index("--") if "--" in argv else None]:
        name, given, value = word.partition("=")
        if word.startswith("-") and given and value == "--":
            raise FastenError("'--' is no value", where=name, fix="write a value after the =, or leave the option out")


def _names_a_job(argv: list[str]) -> bool:
    """Whether the first word is a job to open rather than a command; a job need not be there yet."""
    first = argv[0] if argv else ""
    return first not in COMMANDS and (first.lower().endswith(".toml") or os.path.isfile(first))


def _screen(words: list[str]) -> int:
    """Open the screen on the job that is named, if any, where there is a terminal to show it on.

    Raises:
        FastenError: there is none, and it says which plain commands do the same; or more than a job is named.
    """
    from fasten.tui import not_a_terminal
    from fasten.tui import run as run_screen

    job = words[0] if words else None
    more = words[1:]
    if more:
        raise FastenError(f"{job} opens the screen, which takes no more words", fix="a command comes before the job")
    sentence = not_a_terminal(job)
    if sentence is not None:
        raise FastenError(sentence)
    return run_screen(job)


def _parser(argv: list[str]) -> Parser:
    parser = Parser(
        prog="fasten", usage="fasten [-h] [--version] [JOB.toml | COMMAND ...]", epilog=CODES,
        description="How to fasten audio gear in vehicles. Alone, or with the file of a job, it opens the screen.",
        formatter_class=Formatter, allow_abbrev=False,
    )  # fmt: skip
    parser.add_argument("--version", action="version", version=f"fasten {__version__}")
    commands = parser.add_subparsers(prog="fasten", dest="command", metavar="COMMAND", title="commands")
    named = next((word for word in argv if not word.startswith("-")), None)
    for name, summary in COMMANDS.items():
        if name != named:  # it is listed: two dozen parsers would take as long as to import argparse
            commands._choices_actions.append(commands._ChoicesPseudoAction(name, (), summary))
            continue
        command = commands.add_parser(
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
