"""The installed program in a real pseudo-terminal, with keys alone: a whole visit, and every way that it can end."""

import signal
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from built.few import sample

from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job
from fasten.job.words import Job

from .terminal import FASTEN, Terminal, own_environment

pytestmark = pytest.mark.slow

SAID = ("amplifier", "steel 0.8 mm", "yearly")


def job_in(folder: Path) -> Job:
    """The one job that was saved; it is whole, or it would not load."""
    (path,) = (folder / "data" / "jobs").glob("*.toml")
    return load_job(path, builtin()).value


def held(job: Job) -> list[tuple[str, ...]]:
    return [tuple(text for _, text in mount.said) for mount in job.mounts]


def ask(terminal: Terminal) -> None:
    """Say the three things that give an answer, the last of them not yet left, and read the answer."""
    terminal.shows("Fasten", "Mounts")
    terminal.say(*SAID[:2])
    terminal.keys(SAID[2])
    terminal.shows("Fasten amplifier to steel 0.8 mm, off yearly", "torque")


def test_a_visit_from_start_to_an_answer_and_back_to_it_another_day(tmp_path: Path) -> None:
    with Terminal(tmp_path) as terminal:
        ask(terminal)
        # Hole and torque as the command line prints them for the same question.
        told = subprocess.run(
            [FASTEN, "pick", SAID[0], "--onto", SAID[1], "--removed", SAID[2]],
            env=own_environment(tmp_path, {"COLUMNS": "80"}), capture_output=True, text=True, check=True,
        ).stdout.splitlines()  # fmt: skip
        for start, label in (("Hole", "hole and bit"), ("Torque", "torque")):
            figure, unit, *_ = next(line for line in told if line.startswith(start)).split()[1:]
            terminal.shows(f"{label} {figure} {unit.rstrip(',')}")
        terminal.keys(";")
        terminal.shows("What now?")
        terminal.keys("q")
        assert terminal.ended() == 0
        assert terminal.is_sane()
        assert terminal.last_words() == ""
    with Terminal(tmp_path) as terminal:
        shown = terminal.shows("1 of 1", "hole and bit", "torque")
        for text in SAID:
            assert text in shown
    assert held(job_in(tmp_path)) == [SAID]


def test_a_job_is_opened_by_its_file_which_need_not_be_there_yet(tmp_path: Path) -> None:
    with Terminal(tmp_path, ["van.toml"]) as terminal:
        ask(terminal)
        terminal.shows("van")
        terminal.keys("\x03")
        assert terminal.ended() == 0
    assert held(load_job(tmp_path / "van.toml", builtin()).value) == [SAID]
    assert not (tmp_path / "data" / "jobs").exists(), "no other job was begun"
    with Terminal(tmp_path, ["van.toml"]) as terminal:
        terminal.shows("1 of 1", "torque")


def test_a_file_that_is_no_job_is_refused_before_the_screen_opens(tmp_path: Path) -> None:
    (tmp_path / "van.toml").write_text("format = 1\nkind = ")
    with Terminal(tmp_path, ["van.toml"]) as terminal:
        assert terminal.ended() == 2
        assert terminal.raw.count(b"\n") == 1
        assert b"van.toml" in terminal.raw
        assert b"\x1b" not in terminal.raw


def send(name: str) -> Callable[[Terminal], None]:
    return lambda terminal: terminal.process.send_signal(getattr(signal, name))


ENDS: dict[str, Callable[[Terminal], None]] = {
    "ctrl+c": lambda terminal: terminal.keys("\x03"),
    "ctrl+q": lambda terminal: terminal.keys("\x11"),
    "SIGINT": send("SIGINT"),
    "SIGTERM": send("SIGTERM"),
    "SIGHUP": send("SIGHUP"),
}


@pytest.mark.parametrize("how", sample(list(ENDS), 2))
def test_every_way_out_saves_the_job_and_leaves_the_terminal_as_it_was(how: str, tmp_path: Path) -> None:
    with Terminal(tmp_path) as terminal:
        ask(terminal)
        ENDS[how](terminal)
        assert terminal.ended() == 0
        assert terminal.is_sane()
        assert terminal.last_words() == ""
    assert held(job_in(tmp_path)) == [SAID]


@pytest.mark.parametrize("keys", ["\x03", ";q"], ids=["ctrl+c", "; q"])
def test_what_is_typed_right_before_the_end_is_saved_too(keys: str, tmp_path: Path) -> None:
    """Typed or pasted faster than any answer is worked out."""
    with Terminal(tmp_path) as terminal:
        terminal.shows("What", "Mounts")
        terminal.say(*SAID[:2])
        terminal.keys(SAID[2] + keys)
        assert terminal.ended() == 0
    assert held(job_in(tmp_path)) == [SAID]


def test_keys_that_come_all_at_once_are_taken_in_their_order(tmp_path: Path) -> None:
    """As they do over a slow line: a size put right, a mount point named, and the one before it picked again."""
    with Terminal(tmp_path) as terminal:
        terminal.shows("What", "Mounts")
        terminal.keys(
            "amplifier\rsteel 0.9 mm" + "\x7f" * 4 + "8 mm\ryearly;t" + "\x7f" * 9 + "left\runder the seat\r\r\r"
        )
        terminal.shows("left  ‹ 1 of 1 ›", "Fasten amplifier to steel 0.8 mm, off yearly")
        terminal.keys(";nspeaker\rmdf 18 mm\rnever;aleft\r")
        terminal.shows("left  ‹ 1 of 2 ›", "Fasten amplifier to steel 0.8 mm, off yearly")
        terminal.keys("\x03")
        assert terminal.ended() == 0
    job = job_in(tmp_path)
    assert [(mount.name, mount.note) for mount in job.mounts] == [("left", "under the seat"), ("speaker", "")]
    assert held(job) == [SAID, ("speaker", "mdf 18 mm", "never")]


@pytest.mark.parametrize("controlling", [True, False], ids=["told by the system", "not told"])
def test_a_terminal_that_is_closed_ends_the_program_with_the_job_saved(controlling: bool, tmp_path: Path) -> None:
    with Terminal(tmp_path, controlling=controlling) as terminal:
        ask(terminal)
        assert terminal.hang_up() == 0
    assert held(job_in(tmp_path)) == [SAID]


def test_a_terminal_that_is_closed_while_the_screen_is_drawn_ends_the_program(tmp_path: Path) -> None:
    with Terminal(tmp_path) as terminal:
        terminal.shows("What", "Mounts")
        terminal.say(*SAID)
        for _ in range(20):
            terminal.keys(";;")  # a panel comes up and goes away again, and all of it must be drawn
        assert terminal.hang_up() == 0


def taken_away(folder: Path) -> None:
    """The file of the job in hand is another program's now."""
    (folder / "van.toml").write_text("theirs")


CUTS: dict[str, Callable[[Terminal], object]] = {
    "SIGTERM": ENDS["SIGTERM"], "its terminal is closed": Terminal.hang_up, "SIGHUP": ENDS["SIGHUP"],
}  # fmt: skip


@pytest.mark.parametrize("how", sample(list(CUTS), 2))
def test_cut_off_with_nobody_to_ask_it_keeps_beside_what_its_file_does_not_take(how: str, tmp_path: Path) -> None:
    with Terminal(tmp_path, ["van.toml"]) as terminal:
        ask(terminal)
        terminal.shows("van  amplifier", "  saved")
        taken_away(tmp_path)
        terminal.keys("\x7f" * 6 + "weekly")
        terminal.shows("Fasten amplifier to steel 0.8 mm, off weekly")
        CUTS[how](terminal)
        assert terminal.ended() == 2
        if how != "its terminal is closed":
            words = "".join(terminal.last_words().split("\r\n"))
            assert words.startswith("fasten: the job is saved as van-2.toml: ")
            assert "another program changed the file since it was read" in words
            assert terminal.is_sane()
    assert held(load_job(tmp_path / "van-2.toml", builtin()).value) == [(*SAID[:2], "weekly")]
    assert (tmp_path / "van.toml").read_text() == "theirs"


def test_cut_off_with_no_place_left_it_says_that_the_job_is_not_saved(tmp_path: Path) -> None:
    (tmp_path / "data").touch()
    with Terminal(tmp_path) as terminal:
        ask(terminal)
        terminal.shows("NOT SAVED")
        ENDS["SIGTERM"](terminal)
        assert terminal.ended() == 2
        assert terminal.last_words().startswith("fasten: the job is not saved: ")
        assert b"Traceback" not in terminal.raw


def test_a_fault_of_the_program_keeps_beside_what_its_file_does_not_take(tmp_path: Path) -> None:
    planted = tmp_path / "planted"
    planted.mkdir()
    code = f"def fault(*_, **__):\n    raise RuntimeError('deliberate')\n\n{FAULTS['beside it, in the box']}\n"
    (planted / "sitecustomize.py").write_text(code)
    with Terminal(tmp_path, ["van.toml"], PYTHONPATH=str(planted)) as terminal:
        ask(terminal)
        terminal.shows("van  amplifier", "  saved")
        taken_away(tmp_path)
        terminal.keys("\x7f" * 6 + "weekly;b")
        assert terminal.ended() == 3
        assert "the job is saved as van-2.toml: " in terminal.last_words().replace("\r\n", "")
    assert held(load_job(tmp_path / "van-2.toml", builtin()).value) == [(*SAID[:2], "weekly")]


UNFIT = {
    "dumb": ("TERM", "dumb", "this terminal cannot show a screen"),
    "ascii": ("PYTHONIOENCODING", "ascii", "this terminal takes ascii alone"),
    "latin": ("PYTHONIOENCODING", "latin-1", "this terminal takes iso8859-1 alone"),
}


@pytest.mark.parametrize(("name", "value", "why"), UNFIT.values(), ids=list(UNFIT))
def test_a_terminal_that_cannot_show_it_is_told_of_the_plain_commands(
    name: str, value: str, why: str, tmp_path: Path
) -> None:
    with Terminal(tmp_path, program=["env", f"{name}={value}", FASTEN]) as terminal:
        assert terminal.ended() == 2
        assert terminal.raw.count(b"\n") == 1
        assert terminal.raw.decode("ascii", "replace").startswith(f"fasten: {why}")
        assert b"fasten pick" in terminal.raw
        assert b"\x1b" not in terminal.raw


@pytest.mark.parametrize("size", sample([(0, 0), (1, 1), (0, 80), (24, 0)], 1), ids=str)
def test_a_terminal_of_no_size_loses_nothing(size: tuple[int, int], tmp_path: Path) -> None:
    with Terminal(tmp_path) as terminal:
        terminal.shows("What", "Mounts")
        terminal.resize(*size)
        terminal.say(*SAID)
        terminal.keys("\x03")
        assert terminal.ended() == 0
        assert terminal.is_sane()
    assert held(job_in(tmp_path)) == [SAID]


def test_without_a_home_no_job_is_begun_that_nobody_would_find(tmp_path: Path) -> None:
    planted = tmp_path / "planted"
    planted.mkdir()
    (planted / "sitecustomize.py").write_text("import pwd; pwd.getpwuid = {}.__getitem__")
    program = ["env", "-u", "HOME", "-u", "XDG_DATA_HOME", "-u", "XDG_CONFIG_HOME", FASTEN]
    with Terminal(tmp_path, program=program, FASTEN_DATA="", PYTHONPATH=str(planted)) as terminal:
        assert terminal.ended() == 2
        assert terminal.raw.startswith(b"fasten: FASTEN_DATA: no home folder is known in which to keep your jobs; set ")
        assert terminal.raw.count(b"\n") == 1
    assert not (tmp_path / "~").exists()


FAULTS = {
    "at the start": "import fasten.tui.mounts.mounts as at; at.MountsPlace.show = fault",
    "in the answer": "import fasten.tui.mounts.answer as at\n"
                     "at.AnswerPanel._write = lambda panel: panel._good and fault()",
    "in saving": "import fasten.tui.app as at; told = at.FastenApp.tell\n"
                 "at.FastenApp.tell = lambda app: fault() if app.open_job.job.mounts else told(app)",
    "beside it, in the box": "import fasten.tui.box.box as at; at.box_of = fault",
    "in reading the terminal": "import fasten.tui.terminal.driver as at; at.Typed.read = fault",
    "in drawing": "import textual._compositor as at; at.Compositor.render_update = fault",
}  # fmt: skip
DO_NOT_GET_SO_FAR = ("at the start", "in drawing")


@pytest.mark.parametrize("where", sample(list(FAULTS), 3))
def test_a_fault_of_the_program_is_one_sentence_and_3(where: str, tmp_path: Path) -> None:
    planted = tmp_path / "planted"
    planted.mkdir()
    code = f"def fault(*_, **__):\n    raise RuntimeError('deliberate')\n\n{FAULTS[where]}\n"
    (planted / "sitecustomize.py").write_text(code)
    with Terminal(tmp_path, PYTHONPATH=str(planted)) as terminal:
        if where not in DO_NOT_GET_SO_FAR:
            terminal.shows("What", "Mounts")
            terminal.say(*SAID)
            terminal.keys(";b")
        assert terminal.ended() == 3
        words = terminal.last_words()
        assert words.startswith("fasten: this is a fault of the program, not yours: "), words
        assert words.endswith("the job is saved"), words
        assert "\n" not in words
        assert b"Traceback" not in terminal.raw
        assert terminal.is_sane()
    if where == "beside it, in the box":
        assert held(job_in(tmp_path)) == [SAID]
