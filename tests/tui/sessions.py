"""Sessions of the screen put together at random, and what must hold after each step of one.

Jobs are opened, begun, changed, taken back and changed by another program on every page, with panels half done. No step
may write into the file of a job that is not in hand, and where the top line says "saved" the file holds what is shown.
"""

import os
from collections.abc import Awaitable, Callable
from dataclasses import replace
from pathlib import Path
from random import Random

from textual.message import Message
from textual.pilot import Pilot
from textual.widget import Widget
from textual.widgets import OptionList

from fasten.job.store.storage import job_text, load_job, load_shelf, save_job
from fasten.job.words import Job, Mount
from fasten.tui.app import FastenApp
from fasten.tui.box.box import BoxPlace
from fasten.tui.mounts.entry import read_one
from fasten.tui.mounts.mount_list import MountList
from fasten.tui.state.open_job import EMPTY, OpenJob
from fasten.tui.state.open_shelf import NONE
from fasten.tui.widgets.panels import Panel

from .pilot import SIZES, TABLES, app_of, do, drive, press, settle

AMP = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
BOARD = (("item", "speaker"), ("onto", "mdf 18 mm"), ("removed", "never"))
JOBS = {
    "front": Job("Front", "", "", (Mount("left amp", AMP), Mount("right amp", BOARD))),
    "hatch": Job("Hatchback", "", "", (Mount("hatch amp", AMP), Mount("hatch horn", BOARD), Mount("hatch fan", AMP))),
}
TEXTS = ("amp", "speaker", "steel 1 mm", "mdf 18 mm", "yearly", "never", "zzz", "12 mm", "40", "[M8]", "")
PLACES = "mlbs"
Kept = dict[Path, bytes]


class Session:
    """One session: the screen, the files as they were after the step before, and the steps so far."""

    def __init__(self, pilot: Pilot[None], folder: Path, random: Random) -> None:
        self.pilot, self.folder, self.random = pilot, folder, random
        self.steps: list[str] = []
        self._late: list[tuple[Widget, Message]] = []  # what was under way while something else was shown
        self._theirs: tuple[OpenJob, Path] | None = None  # in hand while another program changed its file
        self._kept = self._files()

    @property
    def app(self) -> FastenApp:
        return app_of(self.pilot)

    async def go_on(self) -> None:
        """One step, and the look at what came of it."""
        step = self.random.choice(STEPS)
        self.steps.append(step.__name__)
        held = self.app.open_job
        before, was_saved, job = held.path, held.is_saved and not isinstance(self.app.screen, Panel), held.job
        may = await step(self)
        await settle(self.pilot)
        if not self.app.is_running:
            return
        self.app.save()
        await settle(self.pilot)
        in_hand = {path for path in (before, self.app.open_job.path) if path is not None}
        self._look_at_files(may | (set() if step in QUIET and was_saved else in_hand))
        self._look_at_change(step, job)
        self._look_at_title()
        self._look_at_pages()

    # -- what must hold ------------------------------------------------------------------------------------------------

    def _files(self) -> Kept:
        return {path: path.read_bytes() for path in self.folder.rglob("*.toml")}

    def _look_at_files(self, may: set[Path]) -> None:
        """Nothing was written but what the step may write."""
        was, self._kept = self._kept, self._files()
        written = {path for path in was | self._kept if was.get(path) != self._kept.get(path)}
        assert written <= may, f"{self.steps}: written {written - may}"

    def _look_at_change(self, step: "Step", before: Job) -> None:
        now = self.app.open_job.job
        if step is tick:
            assert replace(now, packed=()) == replace(before, packed=()), f"{self.steps}: a tick changed more"
            assert len(set(now.packed) ^ set(before.packed)) <= 2, f"{self.steps}: one tick, several lines"
        if step is a_late_message:
            assert now == before, f"{self.steps}: what was shown of another state changed this one"

    def _look_at_title(self) -> None:
        """Where it says saved, every field is in the job and the job is in its file."""
        title, open_job = str(self.app._title.content), self.app.open_job
        assert (open_job.job.title or "job") in title or not open_job.job.title.isascii(), f"{self.steps}: {title!r}"
        if "  saved" not in title or self._theirs == (open_job, open_job.path):
            return
        assert open_job.path is not None
        on_disk = load_job(open_job.path, TABLES).value if open_job.path.exists() else EMPTY
        assert on_disk == open_job.job, f"{self.steps}: {title!r}, and the file holds another job"
        typed = {name: text.strip() for name, text in self.app.mounts.form.said().items() if text.strip()}
        shown, held = ({name: read_one(name, text, TABLES).taken for name, text in said.items()}
                       for said in (typed, open_job.said))  # fmt: skip
        assert shown == held, f"{self.steps}: {title!r}, and the fields say something else"

    def _look_at_pages(self) -> None:
        """Every page shows the job in hand, and the shelf as it is kept."""
        app = self.app
        assert app.shown == app.open_job.revision
        assert app.mounts.hand == app.open_job.hand
        if app.place == "box" and (box := app.query_one(BoxPlace).box) is not None:
            assert box.asked == app.open_job.job, f"{self.steps}: the box is of another job"
            assert app.query_one(BoxPlace).seen == app.open_job.revision
        path = app.open_shelf.path
        assert (load_shelf(path).value if path.exists() else NONE) == app.open_shelf.shelf, self.steps

    # -- for the steps -------------------------------------------------------------------------------------------------

    async def keys(self, *keys: str) -> None:
        """Keys as long as the screen is there: some leave it."""
        if self.app.is_running:
            await press(self.pilot, *keys)

    def theirs(self) -> Path | None:
        """The file of the job in hand, which another program is about to change."""
        path = self.app.open_job.path
        if path is None or not path.exists():
            return None
        self._theirs = self.app.open_job, path
        return path

    def keep_late(self) -> None:
        """Keep what would come late if the screen were slow: a tap, a tick, a line that was picked."""
        app = self.app
        if app.open_job.job.mounts:
            self._late.append((app.mounts.mount_list, MountList.Picked(0, app.open_job.revision)))
        for place in app.query(BoxPlace):
            rows = place.query_one(OptionList)
            if place.in_hand is not None and place.in_hand.thing is not None and rows.highlighted is not None:
                self._late.append((place, BoxPlace.Ticked(place.in_hand.thing, place.seen)))
                at = rows.highlighted
                self._late.append((rows, OptionList.OptionSelected(rows, rows.get_option_at_index(at), at)))

    def take_late(self) -> tuple[Widget, Message] | None:
        """One of these, of a state that is no more."""
        now = self.app.open_job.revision
        stale = [late for late in self._late if getattr(late[1], "seen", None) not in (None, now)]
        return self.random.choice(stale) if stale else None


Step = Callable[[Session], Awaitable[set[Path]]]


# -- steps: each gives back what else it may write ---------------------------------------------------------------------


async def go(session: Session) -> set[Path]:
    await session.keys(";", session.random.choice(PLACES))
    return set()


async def type_text(session: Session) -> set[Path]:
    await session.keys("end", *["backspace"] * session.random.randrange(14), *session.random.choice(TEXTS))
    return shelf(session)  # where nothing is typed into, a letter does what it stands for


async def on(session: Session) -> set[Path]:
    await session.keys(*session.random.choices(("enter", "tab", "down", "up", "shift+tab", "home"), k=3))
    return shelf(session)


async def new_mount(session: Session) -> set[Path]:
    await session.keys(";", "n", *"amp", "enter", *"mdf 18 mm", "enter", *"rarely", "enter")
    return set()


async def other_mount(session: Session) -> set[Path]:
    await session.keys(";", "a", *session.random.choice(("1", "2", "new", "")), "enter")
    return set()


async def delete(session: Session) -> set[Path]:
    await session.keys(";", "d")
    return shelf(session)


async def undo(session: Session) -> set[Path]:
    await session.keys(";", "u")
    return shelf(session)


async def redo(session: Session) -> set[Path]:
    await session.keys(";", "y")
    return shelf(session)


async def tick(session: Session) -> set[Path]:
    if session.app.place == "box" and not isinstance(session.app.screen, Panel):
        await session.keys("home", *["down"] * session.random.randrange(8), session.random.choice(("k", "enter")))
    return set()


async def have(session: Session) -> set[Path]:
    await session.keys(";", "b", "down", "h")
    return shelf(session)


async def own(session: Session) -> set[Path]:
    await session.keys(";", "s", "h", *"bit", "enter", *session.random.choice(("5 mm", "#7", "zzz")), "enter", "enter")
    return shelf(session)


async def change_shelf(session: Session) -> set[Path]:
    await session.keys(";", "s", "home", "enter", "end", "backspace", *"4", *["enter"] * session.random.randrange(10))
    return shelf(session)


async def open_panel(session: Session) -> set[Path]:
    await session.keys(";", session.random.choice("twcifxa"))
    return set()


async def fill_panel(session: Session) -> set[Path]:
    if isinstance(session.app.screen, Panel):
        keys = ("enter", "tab", "down", *"x1", "end", "backspace")
        await session.keys(*session.random.choices(keys, k=6))
    return shelf(session)


async def close_panel(session: Session) -> set[Path]:
    if isinstance(session.app.screen, Panel):
        await session.keys("escape")
    return set()


async def other_job(session: Session) -> set[Path]:
    await close_panel(session)
    await session.keys(";", "j", *session.random.choice(("front", "hatch", "start a new", "in hand")), "enter")
    return set()


async def name_job(session: Session) -> set[Path]:
    await close_panel(session)
    await session.keys(";", "j", *"name the", "enter", *session.random.choice(("x", "y")), "enter", "enter", "enter")
    return set()


async def answer_unsaved(session: Session) -> set[Path]:
    """Where it asks what to do with a job that cannot be saved: anything, and a copy is another file."""
    if not isinstance(session.app.screen, Panel) or "not saved" not in session.app.screen._heading:
        return set()
    before = set(session.folder.glob("*.toml"))
    await session.keys(*session.random.choice(("stay", "another file", "lose")), "enter")
    return set(session.folder.glob("*.toml")) - before


async def under_it(session: Session) -> set[Path]:
    """Another job is opened, whatever is in front."""
    path = session.folder / f"{session.random.choice(list(JOBS))}.toml"
    if path.exists() and session.app.open_job.is_saved and not session.app.mounts.unkept:
        session.app.take_up(session.app.job_files.open(path))
    return set()


async def theirs(session: Session) -> set[Path]:
    """Another program changes the file of the job in hand, takes it away, or writes the one that was there."""
    path = session.theirs()
    if path is None:
        return set()
    if session.random.random() < 0.2:
        path.unlink()
    else:
        path.write_text(job_text(replace(JOBS["hatch"], title="Theirs", note=str(session.random.random()))))
    return {path}


async def a_late_message(session: Session) -> set[Path]:
    session.keep_late()
    late = session.take_late()
    if late is not None and late[0].is_attached:
        late[0].post_message(late[1])
    return set()


def shelf(session: Session) -> set[Path]:
    return {session.app.open_shelf.path}


QUIET: tuple[Step, ...] = (go, other_job, under_it, open_panel, close_panel, a_late_message)
STEPS: tuple[Step, ...] = (
    go, go, type_text, type_text, on, new_mount, other_mount, delete, undo, undo, redo, tick, tick, tick, have, own,
    change_shelf, open_panel, open_panel, fill_panel, fill_panel, close_panel, close_panel, other_job, other_job,
    other_job, name_job, answer_unsaved, under_it, theirs, a_late_message, a_late_message,
)  # fmt: skip


def run_session(seed: int, steps: int, folder: Path) -> list[str]:
    """A session of so many steps at a size of its own; which they were. What does not hold is an AssertionError."""
    random = Random(seed)
    for number, (name, job) in enumerate(JOBS.items()):
        save_job(job, folder / f"{name}.toml")
        os.utime(folder / f"{name}.toml", (1_000 + number, 1_000 + number))
    done: list[str] = []

    async def told(pilot: Pilot[None]) -> None:
        session = Session(pilot, folder, random)
        session.steps = done
        await do(pilot, random.choice(PLACES))
        for _ in range(steps):
            if not pilot.app.is_running:
                return
            await session.go_on()

    drive(random.choice(SIZES), told, folder)
    return done
