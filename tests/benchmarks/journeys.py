"""How many keys and taps three journeys take on the screen, and how many of them are wrong turns. Run by hand:

    python tests/benchmarks/journeys.py

Each is done by keys alone, and again by a mouse or a finger alone, which types nothing but what is said. Somebody does
it who sees the screen for the first time: a wrong turn is a key that looks right by what stands there and does not
bring what it was pressed for, and turning pages until a thing to be read is seen is counted apart. Typing counts each
letter. What they took on the screen before it was drawn anew stands in `BEFORE`, by keys; one that takes more is
marked, and ends the run with 1.
"""

import asyncio
import shutil
import sys
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))
from textual.events import MouseScrollDown
from textual.pilot import Pilot
from textual.widget import Widget
from textual.widgets import Input, OptionList
from tui.pilot import SIZES, TABLES, app_of, flat, lines, press, seen, settle

from fasten.commands.demo import demo_folder
from fasten.job.list.ticks import Stray, is_packed
from fasten.question.fields import FORM
from fasten.tui.app import FastenApp
from fasten.tui.box.box import BoxPlace
from fasten.tui.drawn.figures import figures
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_shelf import OpenShelf
from fasten.tui.widgets.columns import ColumnList
from fasten.tui.work.work import WorkPlace

MOST_PAGES, MOST_TICKS = 40, 90
ALL_OF_IT = 10_000
RAIL = 100  # columns from which the mount points stand beside the question
PHONE = 60  # columns, under which a tap in the sentence opens its words as rows
BEFORE = {  # keys, pages, wrong turns, by size of the screen; no step or hole could be ticked, they were read alone
    "a proven amplifier from nothing": ((55, 3, 4), (60, 8, 4), (60, 8, 4), (68, 16, 4)),
    "twelve mount points packed and built": ((360, 39, 1), (391, 70, 1), (400, 79, 1), (539, 218, 1)),
    "a missing length": ((29, 0, 1),) * 4,
}


@dataclass
class Counted:
    """Keys and taps, pages that were turned to read, what did not bring what it looked like, and ticks of the work."""

    keys: int = 0
    pages: int = 0
    wrong: int = 0
    ticks: int = 0

    def __str__(self) -> str:
        return f"{self.keys:5} {self.pages:5} {self.wrong:5} {self.ticks:5}"


class Person:
    """Somebody at the screen whose keys and taps are counted; one with a finger presses no key but what is said."""

    def __init__(self, pilot: Pilot[None], *, taps: bool) -> None:
        self.pilot, self.counted, self.taps = pilot, Counted(), taps

    async def press(self, *keys: str) -> None:
        self.counted.keys += len(keys)
        await press(self.pilot, *keys)

    async def do(self, letter: str, word: str) -> None:
        """Do what a word of the foot stands for; where it has no room there, by what `;` opens."""
        if not self.taps:
            keys = (";", letter) if isinstance(self.pilot.app.focused, Input) else (letter,)
            if keys[0] == ";":
                assert lines(self.pilot)[-1].startswith(" ;  "), "what comes before a letter stands filled in the foot"
            await self.press(*keys)
        elif word in lines(self.pilot)[-1]:
            await self.tap(word, row=len(lines(self.pilot)) - 1)
        else:
            await self.tap(";", row=len(lines(self.pilot)) - 1)
            await self.tap(f"{letter}  {word}")

    async def tap(self, text: str, row: int | None = None) -> None:
        """Tap a text that stands on the screen, turning pages of the list in hand until it does."""
        for _ in range(MOST_PAGES):
            for at, line in enumerate(lines(self.pilot)):
                if text in line and row in (None, at):
                    await self.tap_at(line.index(text) + len(text) // 2, at)
                    return
            await self.turn()
        raise AssertionError(f"never seen: {text}\n{seen(self.pilot)}")

    async def tap_at(self, column: int, row: int) -> None:
        self.counted.keys += 1
        await self.pilot.click(offset=(column, row))
        await settle(self.pilot)

    async def tick(self, page: WorkPlace) -> None:
        """Tick the step or hole in hand; counted by itself, as the screen before could tick none."""
        keys = self.counted.keys
        if not self.taps:
            await self.press("k")
        elif page._do.display:
            region = page._do.region
            await self.tap_at(region.x + region.width // 2, region.y + region.height // 2)
        else:
            await self.tap("tick", row=len(lines(self.pilot)) - 1)
        self.counted.keys = keys
        self.counted.ticks += 1

    async def turn(self) -> None:
        """Turn a page of what is read."""
        self.counted.pages += 1
        if not self.taps:
            await self.press("pagedown")
            return
        self.counted.keys += 1
        app = self.pilot.app
        listed = [widget for widget in app.screen.query(OptionList) if widget.size.height]
        area: Widget = listed[0] if listed else app.query_one("#reading")
        for _ in range(max(area.size.height // 3, 1)):  # a wheel or a finger goes three lines at once
            area.post_message(MouseScrollDown(area, 1, 1, 0, 1, 0, False, False, False))
        await settle(self.pilot)

    async def read(self, words: str) -> None:
        """Turn pages until the words are seen."""
        for _ in range(MOST_PAGES):
            if words in flat(self.pilot):
                return
            await self.turn()
        raise AssertionError(f"never seen: {words}\n{seen(self.pilot)}")

    async def say(self, name: str, text: str) -> None:
        """Say a word of the question: the one in hand and on by Enter, or the one that is tapped."""
        form = app_of(self.pilot).mounts.form
        if self.taps and form.current != name:
            await self._tap_word(name)
        await self.press(*text, *([] if self.taps else ["enter"]))

    async def _tap_word(self, name: str) -> None:
        form = app_of(self.pilot).mounts.form
        found = [(x, y) for y, spans in enumerate(form.sentence.drawn.spans) for x, _, at in spans
                 if form.words()[at].name == name]  # fmt: skip
        column, row = found[0] if found else (0, 0)
        region = form.sentence.region
        await self.tap_at(region.x + column, region.y + row)
        if self.pilot.app.size.width < PHONE:
            await self.tap(next(ask.label for ask in FORM if ask.name == name))
        assert form.current == name, seen(self.pilot)


async def amplifier(person: Person) -> None:
    """From nothing to an amplifier that is proven: hole, screw, torque and first step read."""
    for name, text in (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly")):
        await person.say(name, text)
    await person.read("NOT PROVEN")
    for name, text in (("behind", "40 mm"), ("edge", "40 mm"), ("support", "firm")):
        await person.say(name, text)
    await person.read("HOLDS")
    answer = app_of(person.pilot).mounts.first_answer()
    assert answer is not None
    for figure in figures(answer):
        await person.read(figure.text)
    await person.read("Look behind")


async def pack(person: Person, most: int = ALL_OF_IT) -> None:
    """Tick every line of the box, or so many of the first."""
    box = app_of(person.pilot).query_one(BoxPlace)
    assert box.box is not None
    things = [line for line in box.box.lines if line.thing is not None and not isinstance(line.thing, Stray)]
    if not person.taps:
        await person.press("enter", *["down", "enter"] * (min(len(things), most) - 1))
        return
    listed = box.query_one("#box-lines", ColumnList)
    left = [line.key for line in box.box.lines
            if line.thing and not isinstance(line.thing, Stray) and not is_packed(line.thing)]  # fmt: skip
    for key in sorted(left, key=lambda key: _stands(listed, _place_of(box, key))[::-1])[:most]:
        while not await _tap_option(person, listed, _place_of(box, key)):
            await person.turn()


def _place_of(box: BoxPlace, key: str) -> int:
    """Where a thing stands in the list by now: rows come and go as others are ticked."""
    assert box.box is not None
    return next(at for at, line in enumerate(box.box.lines) if line.thing is not None and line.key == key)


def _stands(listed: ColumnList, at: int) -> tuple[int, int]:
    """In which column and line of all of a list a row begins; Textual has no public way to ask."""
    line, split = listed._index_to_line[at], listed._split
    is_right = listed._is_double and line >= split
    return (listed._column, line - split) if is_right else (0, line)


async def _tap_option(person: Person, listed: ColumnList, at: int) -> bool:
    """Whether a row was in view, and is tapped."""
    column, line = _stands(listed, at)
    start, region = line - listed.scroll_offset.y, listed.content_region
    if not 0 <= start < region.height:
        return False
    await person.tap_at(region.x + column + 8, region.y + start)
    return True


async def twelve(person: Person, mounts: int = ALL_OF_IT, things: int = ALL_OF_IT) -> None:
    """Twelve mount points: all of the box packed, every step and hole of each ticked, each written down as built.

    Or so many things of the box, and so many of the first mount points.
    """
    app = app_of(person.pilot)
    await person.do("b", "Box")
    await pack(person, things)
    await person.do("m", "Mounts")
    for at in [*range(len(app.open_job.job.mounts))][:mounts]:
        await _go_to(person, at)
        await person.do("w", "work")
        await work_through(person)
        if app.place == "built":  # the last step is the record
            await keep_record(person)
        await person.do("m", "Mounts")
    await person.do("b", "Box")


async def work_through(person: Person) -> None:
    """Tick what is in hand until it is asked what was used, or nothing is left."""
    app = app_of(person.pilot)
    page = app.query_one("#work", WorkPlace)
    for _ in range(MOST_TICKS):
        if app.place != "work" or page.spot is None:
            return
        await person.tick(page)
    raise AssertionError(f"the work comes to no end:\n{seen(person.pilot)}")


async def keep_record(person: Person) -> None:
    """Keep what was built, confirmed as it was advised; a record that is there stays."""
    app = app_of(person.pilot)
    mount = app.open_job.mount
    assert mount is not None
    if not mount.visits:
        if person.taps:
            await person.tap("keep all as planned: measured")
        else:
            await person.press("k")
        assert app.open_job.mount is not None
        assert app.open_job.mount.visits, seen(person.pilot)


async def _go_to(person: Person, at: int) -> None:
    """Take a mount point in hand: the next by a tap in the top line, or any by its number."""
    if app_of(person.pilot).open_job.at == at:
        return
    if person.taps:
        await person.tap("›", row=0)
    else:
        await person.do("a", "all mounts")
        await person.press(*str(at + 1), "enter")
    assert app_of(person.pilot).open_job.at == at, seen(person.pilot)


async def length(person: Person) -> None:
    """A screw length that is missing: what is there does, and it is held."""
    if not person.taps or person.pilot.app.size.width < RAIL:
        await person.do("a", "all mounts")
    await (person.tap("1 ● left amplifier") if person.taps else person.press(*"left amplifier", "enter"))
    await person.do("i", "instead")
    await person.press(*"12 mm", *([] if person.taps else ["enter"]))
    if person.taps:
        await person.tap("[ Try ]")
    await person.read("12 mm")
    await (person.tap("[ Hold the first ]") if person.taps else person.press("tab", "enter"))
    mount = app_of(person.pilot).open_job.mount
    assert mount is not None
    assert mount.pin is not None, seen(person.pilot)


JOURNEYS: dict[str, Callable[[Person], Awaitable[None]]] = {
    "a proven amplifier from nothing": amplifier,
    "twelve mount points packed and built": twelve,
    "a missing length": length,
}


async def walked(walk: Callable[[Person], Awaitable[None]], size: tuple[int, int], *, taps: bool = False) -> Counted:
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
            person = Person(pilot, taps=taps)
            await walk(person)
            return person.counted


def main() -> int:
    """Print the table; 1 where anything takes more by keys than it did."""
    is_more = False
    counts = f"{'keys':>5} {'pages':>5} {'wrong':>5} {'ticks':>5}"
    print(f"{'journey':38} {'size':>7} {counts}   {'before':23}   by taps")
    for name, walk in JOURNEYS.items():
        for size, before in zip(SIZES, BEFORE[name], strict=True):
            counted, tapped = (asyncio.run(walked(walk, size, taps=taps)) for taps in (False, True))
            more = any(now > was for now, was in zip(vars(counted).values(), before, strict=False))
            is_more |= more
            row = f"{name:38} {size[0]:3}x{size[1]:<3} {counted}   {Counted(*before)}   {tapped}"
            print(f"{row}{'  more' * more}", flush=True)
    return int(is_more)


if __name__ == "__main__":
    sys.exit(main())
