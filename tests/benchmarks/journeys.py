"""How many keys three journeys take on the screen, and how many of them are wrong turns. Run by hand:

    python tests/benchmarks/journeys.py

Each is done by somebody who sees the screen for the first time: a wrong turn is a key that looks right by what stands
there and does not bring what it was pressed for, and turning pages until a thing to be read is seen is counted apart.
Typing counts each letter. What they took on the screen before it was drawn anew stands in `BEFORE`; one that takes more
is marked, and ends the run with 1.
"""

import asyncio
import shutil
import sys
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))
from textual.pilot import Pilot
from textual.widgets import Input
from tui.pilot import SIZES, TABLES, app_of, flat, press, seen, settle

from fasten.commands.demo import demo_folder
from fasten.job.list.ticks import Stray
from fasten.tui.app import FastenApp
from fasten.tui.box import BoxPlace
from fasten.tui.drawn.figures import figures
from fasten.tui.job_files import JobFiles
from fasten.tui.open_shelf import OpenShelf

MOST_PAGES = 30
BEFORE = {  # keys, pages, wrong turns, by size of the screen; no step or hole could be ticked, they were read alone
    "a proven amplifier from nothing": ((55, 3, 4), (60, 8, 4), (60, 8, 4), (68, 16, 4)),
    "twelve mount points packed and built": ((360, 39, 1), (391, 70, 1), (400, 79, 1), (539, 218, 1)),
    "a missing length": ((29, 0, 1),) * 4,
}


@dataclass
class Counted:
    """Keys that were pressed, pages that were turned to read, and keys that did not bring what they looked like."""

    keys: int = 0
    pages: int = 0
    wrong: int = 0

    def __str__(self) -> str:
        return f"{self.keys:5} {self.pages:5} {self.wrong:5}"


class Person:
    """Somebody at the screen whose keys are counted."""

    def __init__(self, pilot: Pilot[None]) -> None:
        self.pilot, self.counted = pilot, Counted()

    async def press(self, *keys: str) -> None:
        self.counted.keys += len(keys)
        await press(self.pilot, *keys)

    async def wrong(self, *keys: str, unlike: str) -> None:
        """Press what looks right, and see that it does not bring this."""
        self.counted.wrong += len(keys)
        await self.press(*keys)
        assert unlike not in flat(self.pilot), f"{keys} is no wrong turn any more"

    async def read(self, words: str) -> None:
        """Turn pages until the words are seen."""
        for _ in range(MOST_PAGES):
            if words in flat(self.pilot):
                return
            self.counted.pages += 1
            await self.press("pagedown")
        raise AssertionError(f"never seen: {words}\n{seen(self.pilot)}")


async def amplifier(person: Person) -> None:
    """From nothing to an amplifier that is proven: hole, screw, torque and first step read."""
    await person.press(*"amplifier", "enter", *"steel 0.8 mm", "enter", *"yearly", "enter")
    await person.read("NOT PROVEN")
    await person.wrong(*"15.4", unlike="= 15.4 mm")  # a button has the focus, and no field takes what is typed
    await person.press("enter", *"40 mm", "enter", *"40 mm", "enter", *"firm", "enter")
    await person.read("HOLDS")
    answer = app_of(person.pilot).mounts.first_answer()
    assert answer is not None
    for figure in figures(answer):
        await person.read(figure.text)
    await person.read("Look behind")


async def twelve(person: Person) -> None:
    """Twelve mount points: all of the box packed, the steps of each read to the last, each written down as built."""
    app = app_of(person.pilot)
    await person.press(";", "b")
    box = app.query_one(BoxPlace)
    assert box.box is not None
    things = [line for line in box.box.lines if line.thing is not None and not isinstance(line.thing, Stray)]
    await person.press("enter", *["down", "enter"] * (len(things) - 1))
    await person.press("m")
    for number in range(1, len(app.open_job.job.mounts) + 1):
        await person.press(";", "a", *str(number), "enter")
        answer = app.mounts.first_answer()
        if answer is not None:
            await person.read("STEPS")
            await person.read(f" {len(answer.steps)}. ")
        if number == 1:
            await person.wrong("w", unlike="As built:")  # a letter is typed into a field, and acts only after ;
            await person.press("backspace")
        await person.press(";", "w")
        if app.open_job.mount is not None and app.open_job.mount.built is not None:
            await person.press(";")
            continue
        fields = len(app.screen.query(Input))
        await person.press(*["enter"] * fields)
        if app.screen.is_modal:  # where nothing fits, nothing was used: the panel says what is lacking, and is left
            await person.press("tab", "tab", "enter")
        assert not app.screen.is_modal, seen(person.pilot)
    await person.press(";", "b")


async def length(person: Person) -> None:
    """A screw length that is missing: what is there does, and it is held."""
    await person.press(";", "a", *"left amplifier", "enter")
    await person.wrong("i", unlike="A screw is missing")
    await person.press("backspace", ";", "i", *"12 mm", "enter")
    await person.read("12 mm")
    await person.press("tab", "enter")
    mount = app_of(person.pilot).open_job.mount
    assert mount is not None
    assert mount.pin is not None, seen(person.pilot)


JOURNEYS: dict[str, Callable[[Person], Awaitable[None]]] = {
    "a proven amplifier from nothing": amplifier,
    "twelve mount points packed and built": twelve,
    "a missing length": length,
}


async def walked(walk: Callable[[Person], Awaitable[None]], size: tuple[int, int]) -> Counted:
    """The journey at a size of the screen, on the example job but for the first, which begins with nothing."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(demo_folder(), folder / "example")
        job = None if walk is amplifier else folder / "example" / "job.toml"
        app = FastenApp(
            TABLES, JobFiles(folder, TABLES), OpenShelf(folder / "example" / "shelf.toml"), job, blink=False
        )
        async with app.run_test(size=size, notifications=True) as pilot:
            await settle(pilot)
            person = Person(pilot)
            await walk(person)
            return person.counted


def main() -> int:
    """Print the table; 1 where anything takes more than it did."""
    is_more = False
    print(f"{'journey':38} {'size':>7} {'keys':>5} {'pages':>5} {'wrong':>5}   before")
    for name, walk in JOURNEYS.items():
        for size, before in zip(SIZES, BEFORE[name], strict=True):
            counted = asyncio.run(walked(walk, size))
            more = any(now > was for now, was in zip(vars(counted).values(), before, strict=True))
            is_more |= more
            print(f"{name:38} {size[0]:3}x{size[1]:<3} {counted}   {Counted(*before)}{'  more' * more}", flush=True)
    return int(is_more)


if __name__ == "__main__":
    sys.exit(main())
