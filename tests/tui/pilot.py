"""Driving the screen with keys alone, and reading what stands on it."""

import asyncio
from collections.abc import Awaitable, Callable, Hashable, Iterator
from contextlib import contextmanager, nullcontext
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch
from zlib import crc32

import pytest
from built.few import ALL
from textual._compositor import Compositor
from textual._context import visible_screen_stack
from textual._queue import Queue
from textual.app import App
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.events import Key
from textual.keys import _character_to_key
from textual.message_pump import MessagePump
from textual.pilot import Pilot
from textual.screen import Screen
from textual.strip import Strip
from textual.widgets import Input

from fasten.catalog.tables import Tables, shipped_folder
from fasten.tui.app import FastenApp
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_shelf import OpenShelf

SIZES = ((120, 40), (80, 24), (44, 30), (44, 15))
TABLES = Tables(shipped_folder())
AMPLIFIER = ("amp", "steel 0.8 mm", "y")

_DRAWN_S = 0.1  # between two times that the screen is laid out by itself
_REST_S = 0.02  # without a change, after which the rail is calculated: every test waits for it
_QUIET = 3  # times in a row that nothing is on its way
_LATE, _LATE_S = 20, 0.05  # how often, and how long each time, what is not drawn as it was kept is waited for

_read_rules: Callable[..., list[RuleSet]] = Stylesheet._parse_rules
_rules: dict[Hashable, list[RuleSet]] = {}

Told = Callable[[Pilot[None]], Awaitable[None]]
Test = Callable[..., None]


def at_sizes(*sizes: tuple[int, int]) -> Callable[[Test], Test]:
    """A test tried at these sizes of the screen."""
    return pytest.mark.parametrize("size", sizes, ids=lambda size: f"{size[0]}x{size[1]}")


def every_size(test: Test) -> Test:
    """A test tried at every size of the screen by hand; in the set at one, each test at another in turn."""
    return at_sizes(*SIZES if ALL else [SIZES[crc32(test.__name__.encode()) % len(SIZES)]])(test)


wide_or_narrow = at_sizes(*((120, 40), (44, 30)) if ALL else SIZES[2:3])  # for what does not differ by size but in room
least_room = at_sizes(*SIZES if ALL else SIZES[-1:])  # the same, in the set at the size where it is hardest


def drive(
    size: tuple[int, int], told: Told, folder: Path | None = None, job: Path | None = None, *, is_drawn: bool = False,
    is_first: bool = False, tables: Tables = TABLES,
) -> None:  # fmt: skip
    """Run the screen at a size, with a still cursor, as `told` drives it; its jobs are kept in `folder`.

    What is read is drawn when it is read, with `is_drawn` every change as well, as in a terminal.
    """

    async def driven() -> None:
        with TemporaryDirectory() as own:
            await shown(folder or Path(own))

    async def shown(jobs: Path) -> None:
        shelf = OpenShelf(jobs / "shelf" / "shelf.toml")
        app = FastenApp(tables, JobFiles(jobs, tables), shelf, job, blink=False, is_first=is_first)
        async with app.run_test(size=size, notifications=True) as pilot:
            await settle(pilot)
            await told(pilot)

    with nullcontext() if is_drawn else _seldom_drawn(), _soon_ready():
        asyncio.run(driven())


@contextmanager
def _soon_ready() -> Iterator[None]:
    """Read the style sheets once for all screens of a process, and wait less for a rest in what is typed.

    A rule is its own hash as before, but without a call into Python for each of the millions that are asked for.
    """
    with (
        patch.object(Stylesheet, "_parse_rules", _read_once), patch.object(RuleSet, "__hash__", object.__hash__),
        patch("fasten.tui.app._REST_S", _REST_S),
    ):  # fmt: skip
        yield


def _read_once(sheet: Stylesheet, css: str, *where: Hashable, **kind: Hashable) -> list[RuleSet]:
    """The rules of a sheet, the same for every screen that has the same colours."""
    key = css, where, *kind.items(), *sheet._variables.items()
    if key not in _rules:
        _rules[key] = _read_rules(sheet, css, *where, **kind)
    return _rules[key]


@contextmanager
def _seldom_drawn() -> Iterator[None]:
    """Lay the screen out when it is waited for, and draw it when it is read."""
    with patch.object(Compositor, "render_update", _not_drawn), patch("textual.screen.UPDATE_PERIOD", _DRAWN_S):
        yield


def _not_drawn(compositor: Compositor, screen_stack: list[Screen[object]] | None = None) -> None:
    """Keep what is to be drawn for whoever reads the screen: without a terminal nothing else looks at it."""
    visible_screen_stack.set(screen_stack or [])
    compositor._dirty_regions.clear()


def app_of(pilot: Pilot[None]) -> FastenApp:
    """The screen that is driven."""
    assert isinstance(pilot.app, FastenApp)
    return pilot.app


async def press(pilot: Pilot[None], *keys: str) -> None:
    """Press keys as fast as they come, and wait until all is answered."""
    hit(pilot, *keys)
    await settle(pilot)


def hit(pilot: Pilot[None], *keys: str) -> None:
    """Press keys as fast as they come, and wait for nothing."""
    for key in keys:
        # Pilot.press waits for an idle screen after every key, as nobody who types does.
        character = key if len(key) == 1 else None
        pilot.app.post_message(Key(_character_to_key(key) if character else key, character))


async def type_text(pilot: Pilot[None], text: str) -> None:
    """Type a text, one key a character, and wait until it has been answered."""
    await press(pilot, *text)


async def do(pilot: Pilot[None], *letters: str) -> None:
    """Do what each letter stands for, with the leader before it, as works everywhere."""
    for letter in letters:
        await press(pilot, ";")
        await press(pilot, letter)


async def act(pilot: Pilot[None], name: str) -> None:
    """Do what an action is named, as by its key, which others press."""
    await pilot.app.run_action(name)
    await settle(pilot)


async def take(pilot: Pilot[None], name: str) -> None:
    """Take a word of the question in hand by the name of its field, as by a tap."""
    app_of(pilot).take_word(name)
    await settle(pilot)


async def to_built(pilot: Pilot[None], name: str = "") -> None:
    """Go to what was used, and take a word of it in hand, as by a tap."""
    await act(pilot, "as_built")
    if name:
        app_of(pilot).built_page.take(name)
        await settle(pilot)


async def write_down(pilot: Pilot[None], **said: str) -> None:
    """Say what was used, field by field, and keep it."""
    await to_built(pilot)
    for name, text in said.items():
        app_of(pilot).built_page.take(name)
        await settle(pilot)
        await press(pilot, *(text or ["backspace"] * 40))
    await do(pilot, "k")


async def say(pilot: Pilot[None], *answers: str) -> None:
    """Type an answer in the field in hand and go on with Enter, for each."""
    for answer in answers:
        await press(pilot, *answer, "enter")


async def fill(pilot: Pilot[None], *answers: str | None) -> None:
    """Fill the fields of a panel one after the other, leaving alone what is None, and go on with Enter from each."""
    for answer in answers:
        if answer is not None:
            field = pilot.app.focused
            assert isinstance(field, Input)
            await press(pilot, "end", *["backspace"] * len(field.value), *answer)
        await press(pilot, "enter")


async def settle(pilot: Pilot[None]) -> None:
    """Wait until what was typed is answered, what is calculated beside it is done, and the screen stands."""
    app, quiet = app_of(pilot), 0
    for _ in range(10_000):
        await asyncio.sleep(0.001)
        if not app.is_running:
            return
        quiet += 1
        if _is_at_work(app):
            quiet = 0
        elif _is_laid_out_anew(app):  # once for all that came together, as for whoever types fast
            app.screen._on_timer_update()
            quiet = 0
        elif _is_awaited(app):
            quiet = 0
        if quiet == _QUIET:
            return
    raise AssertionError(f"it never came to rest:\n{seen(pilot)}")


async def until(pilot: Pilot[None], is_so: Callable[[], bool]) -> None:
    """Wait until it is so, whatever else goes on meanwhile."""
    for _ in range(3000):
        await pilot.pause(0.02)
        if is_so():
            return
    raise AssertionError(f"waited in vain:\n{seen(pilot)}")


async def stood(pilot: Pilot[None], shown: Callable[[], str], kept: str) -> str:
    """What is shown once it is as it was kept, or at last: a busy machine may draw late what was settled."""
    for _ in range(_LATE):
        if shown() == kept:
            break
        await pilot.pause(_LATE_S)
    return shown()


def _is_at_work(app: FastenApp) -> bool:
    """Whether any part of the screen has a message, or is not back yet from what one made it do."""
    return any(_has_message(node) for node in (app, *app.screen_stack, *app.screen.walk_children()))


def _has_message(node: MessagePump) -> bool:
    # Textual has no public way to ask.
    queue: Queue[object] = node._message_queue
    return not node._closed and bool(queue.values or not queue.ready_event._waiters)


def _is_awaited(app: FastenApp) -> bool:
    """Whether an answer waits for more keys, or work goes on in a thread."""
    is_typed = app.mounts.is_waiting or app.is_run_waiting or app.is_built_waiting
    return is_typed or app.rail_timer is not None or any(not worker.is_finished for worker in app.workers)


def _is_laid_out_anew(app: FastenApp) -> bool:
    """Whether what is to stand on the screen does not stand there yet: it is drawn some 60 times a second at most."""
    # Textual has no public way to ask.
    screen = app.screen
    return bool(screen._layout_required or screen._layout_widgets or screen._dirty_widgets or screen._callbacks)


def lines(pilot: Pilot[None]) -> list[str]:
    """The screen as it is seen, line by line."""
    return [strip.text.rstrip() for strip in strips_of(pilot.app)]


def strips_of(app: App[None]) -> list[Strip]:
    """The screen as it is drawn, with what lies behind a panel, whoever drew last."""
    # Textual has no public way to read the screen; to draw uses up the list of what lies behind.
    visible_screen_stack.set(app._background_screens)
    return app.screen._compositor.render_strips()


def seen(pilot: Pilot[None]) -> str:
    """The screen as one text."""
    return "\n".join(lines(pilot))


def flat(pilot: Pilot[None]) -> str:
    """The screen as one line, whatever was wrapped; frames of panels left out."""
    return " ".join(seen(pilot).replace("│", " ").split())


def notices(pilot: Pilot[None]) -> str:
    """What was said since the last key, though a panel may stand over it."""
    return "\n".join(text for text, _ in app_of(pilot).said)
