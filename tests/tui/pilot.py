"""Driving the screen with keys alone, and reading what stands on it."""

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from tempfile import TemporaryDirectory

from textual.events import Key
from textual.keys import _character_to_key
from textual.pilot import Pilot

from fasten.catalog.tables import Tables, shipped_folder
from fasten.tui.app import FastenApp
from fasten.tui.keeping import Keeper
from fasten.tui.mounts import PAUSE_S
from fasten.tui.shelf_desk import ShelfDesk

SIZES = ((120, 40), (80, 24), (44, 30), (44, 15))
TABLES = Tables(shipped_folder())
AMPLIFIER = ("amp", "steel 0.8 mm", "y")

Told = Callable[[Pilot[None]], Awaitable[None]]


def drive(size: tuple[int, int], told: Told, folder: Path | None = None) -> None:
    """Run the screen at a size, with a still cursor, as `told` drives it; its jobs are kept in `folder`."""

    async def driven() -> None:
        with TemporaryDirectory() as own:
            await shown(folder or Path(own))

    async def shown(jobs: Path) -> None:
        app = FastenApp(TABLES, Keeper(jobs, TABLES), ShelfDesk(jobs / "shelf" / "shelf.toml"), blink=False)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await told(pilot)

    asyncio.run(driven())


async def type_text(pilot: Pilot[None], text: str) -> None:
    """Type a text, one key a character as fast as they come, and wait until it has been answered."""
    for character in text:
        # Pilot.press waits for an idle screen after every key, as nobody who types does.
        pilot.app.post_message(Key(_character_to_key(character), character))
    await settle(pilot)


async def settle(pilot: Pilot[None]) -> None:
    await pilot.pause(PAUSE_S * 2)
    await pilot.pause()


async def say(pilot: Pilot[None], *answers: str) -> None:
    """Type an answer in the field in hand and go on with Enter, for each."""
    for answer in answers:
        await type_text(pilot, answer)
        await pilot.press("enter")
    await settle(pilot)


def lines(pilot: Pilot[None]) -> list[str]:
    """The screen as it is seen, line by line."""
    # Textual has no public way to read the screen as text.
    strips = pilot.app.screen._compositor.render_strips()
    return [strip.text.rstrip() for strip in strips]


def seen(pilot: Pilot[None]) -> str:
    """The screen as one text."""
    return "\n".join(lines(pilot))
