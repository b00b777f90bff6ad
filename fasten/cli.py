"""The command line: reads it, calls one command, and leaves everything else to that command.

Next to nothing is imported here, and only the command that is named is imported at all: `--help` and the screen stay
quick. A new command is a line in `COMMANDS` and a module in `fasten.commands`.
"""

import os
from gc import set_threshold
from importlib import import_module

from fasten.errors import FastenError

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


def run(argv: list[str]) -> int:
    """Run one command line and return its exit code.

    Raises:
        FastenError: it names no command, or that command cannot do what is asked.
    """
    if not argv or _names_a_job(argv):
        return _screen(argv)
    _refuse_dashes(argv)
    _refuse_no_command(argv)
    from fasten.commands._parser import parsed

    args = parsed(argv, COMMANDS)
    if args.command is None:
        return _screen([])
    set_threshold(GARBAGE)
    return int(import_module(f"fasten.commands.{args.command}").run(args))


def _refuse_no_command(argv: list[str]) -> None:
    """Raise FastenError, with what comes nearest, where the first word is no command."""
    first = next((word for word in argv if not word.startswith("-")), None)
    if first is not None and first not in COMMANDS:
        from fasten.text.names import unknown

        raise unknown(first, "a command", COMMANDS, "")


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
