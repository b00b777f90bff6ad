"""A signal may come at any moment, from before the screen stands: the terminal is left as it was found."""

import signal
import termios
from pathlib import Path

import pytest
from built.few import sample

from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job

from .terminal import ENTER_ALTERNATE, Terminal

pytestmark = pytest.mark.slow

DRIVER = "import fasten.tui.terminal.driver as at; "
# In the order in which they come; the signal falls as the first of these is called.
MOMENTS = {
    "before anything is done": "import fasten.tui as at; hook(at, 'run')",
    "before the loop": "import fasten.tui.app as at; hook(at.FastenApp, '__init__')",
    "as signals are minded": "import fasten.tui.terminal.endings as at; hook(at.Ending, 'on_load')",
    "as the terminal is found": DRIVER + "hook(at.LastingDriver, '__init__')",
    "before the other screen": DRIVER + "hook(at.LinuxDriver, 'start_application_mode')",
    "right after the switch": DRIVER + "hook(at.LinuxDriver, '_enable_mouse_support')",
    "as keys are first read": DRIVER + "hook(at.LastingDriver, 'run_input_thread')",
    "before anything stands": "import fasten.tui.frame as at; hook(at.Frame, 'compose')",
    "as the job is shown": "import fasten.tui.mounts.mounts as at; hook(at.MountsPlace, 'show')",
    "as it is first drawn": "import textual._compositor as at; hook(at.Compositor, 'render_update')",
    "as the answer is readied": "import fasten.tui.preload as at; hook(at, 'ready')",
}
HOOK = """
import functools, os, signal

def hook(owner, name):
    whole = getattr(owner, name)

    @functools.wraps(whole)
    def hooked(*given, **named):
        number = os.environ.pop("SIGNAL", "")
        if number:
            os.kill(os.getpid(), int(number))
        return whole(*given, **named)

    setattr(owner, name, hooked)

"""
MINDED = list(MOMENTS).index("as the terminal is found")  # from here on a signal is minded


def started(folder: Path, moment: str, number: signal.Signals) -> Terminal:
    """The program, which gets a signal at a moment of its start."""
    planted = folder / "planted"
    planted.mkdir(exist_ok=True)
    (planted / "sitecustomize.py").write_text(f"{HOOK}{MOMENTS[moment]}\n")
    return Terminal(folder, PYTHONPATH=str(planted), SIGNAL=str(int(number)))


ENDS = (signal.SIGTERM, signal.SIGHUP, signal.SIGINT)
EACH = [(moment, ENDS[at % len(ENDS)]) for at, moment in enumerate(MOMENTS)]  # tests/benchmarks/signals.py has them all
TRIED = sample(EACH, 4)


def ends_well(folder: Path, moment: str, number: signal.Signals) -> None:
    """Give the signal to end at a moment of the start, and look at what it leaves."""
    with started(folder, moment, number) as terminal:
        code, is_minded = terminal.ended(), list(MOMENTS).index(moment) >= MINDED
        assert b"Traceback" not in terminal.raw
        if is_minded or ENTER_ALTERNATE in terminal.raw:
            assert terminal.is_sane()
        else:
            assert termios.tcgetattr(terminal.slave) == terminal.before
        if is_minded:
            assert (code, terminal.last_words()) == (0, "")


@pytest.mark.parametrize(("moment", "number"), TRIED, ids=[f"{number.name} {moment}" for moment, number in TRIED])
def test_a_signal_to_end_at_a_moment_of_the_start_leaves_the_terminal_as_it_was(
    moment: str, number: signal.Signals, tmp_path: Path
) -> None:
    ends_well(tmp_path, moment, number)


def go_on(terminal: Terminal) -> None:
    """Once the program stands still, use its terminal as a shell does, have it go on, and read until it is done."""
    terminal.until(terminal.stands_still, "the program to stand still")
    termios.tcsetattr(terminal.slave, termios.TCSANOW, terminal.before)
    at = len(terminal.raw)
    terminal.process.send_signal(signal.SIGCONT)
    wanted = (ENTER_ALTERNATE, b"Fasten", b"helf")
    terminal.until(lambda: all(word in terminal.raw[at:] for word in wanted), "the screen again")
    terminal.rest()


def goes_on_well(folder: Path, moment: str, number: signal.Signals) -> None:
    """Have it stand still at a moment of the start and go on; then it takes every key and ends as ever."""
    with started(folder, moment, number) as terminal:
        go_on(terminal)
        terminal.say("amplifier", "steel 0.8 mm")
        terminal.keys("yearly")
        terminal.shows("Fasten amplifier to steel 0.8 mm, off yearly")
        terminal.keys("\x03")
        assert terminal.ended() == 0
        assert terminal.is_sane()


STILL = [("right after the switch", signal.SIGTSTP), ("as it is first drawn", signal.SIGSTOP)]


@pytest.mark.parametrize(("moment", "number"), sample(STILL, 1))
def test_a_program_that_was_made_to_stand_still_goes_on_with_the_screen_and_every_key(
    moment: str, number: signal.Signals, tmp_path: Path
) -> None:
    goes_on_well(tmp_path, moment, number)


def test_a_screen_that_stood_still_is_drawn_anew_and_takes_every_key_once(tmp_path: Path) -> None:
    """Others may have written on the terminal meanwhile, and changed how it takes keys."""
    with Terminal(tmp_path, ["van.toml"]) as terminal:
        terminal.shows("Fasten", "Mounts")
        for number in (signal.SIGTSTP, signal.SIGSTOP):
            terminal.process.send_signal(number)
            go_on(terminal)
        terminal.keys("amplifier\rsteel 0.8 mm\ryearly;tl\u00e9ft\r\r\r\r")
        terminal.shows("amplifierl\u00e9ft  ‹ 1 of 1 ›")
        terminal.keys("\x03")
        assert terminal.ended() == 0
        assert terminal.is_sane()
    assert [mount.name for mount in load_job(tmp_path / "van.toml", builtin()).value.mounts] == ["amplifierl\u00e9ft"]
