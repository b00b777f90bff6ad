"""Six mount points and eight runs from nothing to one list with every end equipped, by keys alone and by commands."""

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import OptionList

from fasten.__main__ import main
from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.store.storage import load_job
from fasten.job.wiring.runs import run_choices
from fasten.job.words import Job
from fasten.tui.drawn.sentence import MORE

from .pilot import TABLES, app_of, drive, press, wide_or_narrow

pytestmark = pytest.mark.slow

Keys = Callable[..., Awaitable[None]]
MOST_KEYS, MOUNTS, RUNS = 300, 6, 8
TABS = {"loudspeaker": "tab 6.3x0.8", "tweeter": "tweeter, tab 6.3x0.8"}
SAID = (
    ("amp", "mdf 18 mm", "y"), ("sig", "mdf 18 mm", "y"), ("ground-", "steel 1.2 mm", "r"), ("cross", "mdf 18 mm", "y"),
    ("speaker-a", "steel 0.7 mm", "y"), ("twe", "steel 0.7 mm", "y"),
)  # fmt: skip


def every_end_is_equipped(job: Job) -> bool:
    """Whether each end of each run has a part, or is known to be bare, and the list has them all."""
    found = run_choices(job, TABLES)
    if len(job.mounts) < MOUNTS or len(found) < RUNS or any(one.answer is None for one in found):
        return False
    ends = [end for one in found if one.answer is not None for end in one.answer.done.made.ends]
    listed = hardware(job, entries(job, TABLES), None, TABLES)
    assert {"Cable lug", "lug", "fuse"} & {line.part.kind for line in listed.parts}
    return all(end.part is not None or end.bare is not None for end in ends)


@wide_or_narrow
def test_by_keys_alone_in_three_hundred_at_most(size: tuple[int, int], tmp_path: Path) -> None:
    pressed = 0

    async def told(pilot: Pilot[None]) -> None:
        nonlocal pressed

        async def keys(*found: str) -> None:
            nonlocal pressed
            pressed += len(found)
            await press(pilot, *found)

        for at, (item, onto, removed) in enumerate(SAID):
            await keys(*((";", "n") if at else ()), *item, "enter", *onto, "enter", *removed)
            if not at:
                await go_to(pilot, keys, MORE, "down")
                await keys(*"power", "enter", *"400 w class d")
                await go_to(pilot, keys, "outputs", "down")
                await keys(*"2 x 100 W 4 ohm")
        await keys(
            ";", "r", "down", "enter", *"battery stud M8", "enter", *"5m", "enter", *"4m", "enter", *"3m", "enter"
        )
        while pressed <= MOST_KEYS and await at_a_terminal(pilot, keys):
            await keys("enter", *",s", ";", "r")
        app_of(pilot).save()

    drive(size, told, tmp_path, tmp_path / "job.toml")
    job = load_job(tmp_path / "job.toml", TABLES).value
    assert every_end_is_equipped(job), [run.said for run in job.runs]
    assert pressed <= MOST_KEYS, pressed


async def go_to(pilot: Pilot[None], keys: Keys, word: str, key: str) -> None:
    """Take a word of the question in hand by one key, as often as it takes."""
    for _ in range(60):
        if app_of(pilot).mounts.form.current == word:
            return
        await keys(key)
    raise AssertionError(word)


async def at_a_terminal(pilot: Pilot[None], keys: Keys) -> bool:
    """Go down to the next end whose terminal is to be said; whether there is one."""
    found = app_of(pilot).focused
    assert isinstance(found, OptionList)
    lines = [str(option.prompt) for option in found.options]
    wanted = [at for at, line in enumerate(lines) if "Terminal" in line]
    if not wanted or found.highlighted is None:
        return False
    for _ in range(wanted[0]):
        if "Terminal" in lines[found.highlighted]:
            return True
        await keys("down")
    return "Terminal" in lines[found.highlighted]


def test_by_commands(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = str(tmp_path / "job.toml")
    whole = {"amp": "amplifier", "sig": "signal-processor", "ground-": "ground-lug", "cross": "crossover",
             "speaker-a": "speaker-adapter", "twe": "tweeter", "y": "yearly", "r": "rarely"}  # fmt: skip
    for at, (item, onto, removed) in enumerate(SAID):
        own = ("--power", "400 W class D", "--outputs", "2 x 100 W 4 ohm") if not at else ()
        assert main(["pick", whole[item], "--onto", onto, "--removed", whole[removed], *own,
                     "--into-job", path, "--name", whole[item]]) == 0  # fmt: skip
    assert main(["runs", path, "--battery", "battery stud M8", "--to-amplifiers", "5m", "--to-dash", "4m",
                 "--to-doors", "3m", "--take", "all"]) == 0  # fmt: skip
    capsys.readouterr()
    for run in load_job(Path(path), TABLES).value.runs:
        said = {name: text for name, text in run.said if name != "carries"}
        load = dict(run.said).get("carries", "")
        ends = {name: f"{text}, set screw" if text in ("amplifier", "signal-processor", "crossover") else text
                for name, text in said.items() if name in ("from", "to")}  # fmt: skip
        ends = {name: TABS.get(text, text) for name, text in ends.items()}
        options = [text for name, value in (said | ends).items() for text in (f"--{name}", value)]
        assert (
            main(["wire", *([load] if load else []), *options, "--into-job", path, "--name", run.name, "--replace"])
            == 0
        )
    assert every_end_is_equipped(load_job(Path(path), TABLES).value)
    assert main(["hardware", path]) == 0
    assert "lug" in capsys.readouterr().out.casefold()
