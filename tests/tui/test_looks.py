"""Every page in each look at each size, letter by letter and with what each is painted in, as it was found good.

    FASTEN_SNAPSHOTS=write .venv/bin/python -m pytest -q tests/tui/test_looks.py

writes them anew; read what has changed before it is committed. The dark look is kept whole: its rows, how many cells of
each row are painted alike, and what each letter stands for. Of another look only what differs from that is kept.
"""

from collections.abc import Awaitable, Callable
from itertools import groupby
from pathlib import Path
from string import ascii_letters

import pytest
from built.few import ALL
from rich.segment import Segment
from textual.pilot import Pilot

from fasten.tui.palette import DARK, LIGHT, PLAIN, SIXTEEN

from .pilot import AMPLIFIER, SIZES, act, app_of, do, drive, press, say, settle, stood
from .test_palette import LEAST, contrasts, painted
from .test_snapshots import IS_WRITING, Day, still

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent / "looks"
LOOKS = (DARK, LIGHT, SIXTEEN, PLAIN)
RUN = ("1000 W class D", "battery stud M8", "amplifier, set screw", "5 m", "0.45 m")
PAIRS = [(look, size) for look in LOOKS for size in SIZES] if ALL or IS_WRITING else [*zip(LOOKS, SIZES, strict=True)]

Go = Callable[[Pilot[None]], Awaitable[None]]


async def start(pilot: Pilot[None]) -> None:
    """Nothing is asked yet."""


async def mount(pilot: Pilot[None]) -> None:
    await say(pilot, *AMPLIFIER, "40 mm", "40 mm")


async def work(pilot: Pilot[None]) -> None:
    await do(pilot, "w")


async def built(pilot: Pilot[None]) -> None:
    await act(pilot, "as_built")


async def repair(pilot: Pilot[None]) -> None:
    await act(pilot, "repair")
    await press(pilot, *"spun", "enter", "3", "enter")


async def box(pilot: Pilot[None]) -> None:
    await do(pilot, "b")


async def run(pilot: Pilot[None]) -> None:
    await do(pilot, "r")
    await press(pilot, "n")
    await say(pilot, *RUN)
    app_of(pilot).save()


async def runs(pilot: Pilot[None]) -> None:
    await do(pilot, "r")


async def gauge(pilot: Pilot[None]) -> None:
    await do(pilot, "g")


async def look(pilot: Pilot[None]) -> None:
    await do(pilot, "l")
    await press(pilot, *"#10-32")


async def shelf(pilot: Pilot[None]) -> None:
    await do(pilot, "s")
    await press(pilot, "h", *"20 x M5 x 16 mm flange bolts", "enter")


PAGES: tuple[Go, ...] = (start, mount, work, built, repair, box, run, runs, gauge, look, shelf)


def style_of(segment: Segment) -> str:
    """What a run of cells is painted in."""
    style = segment.style
    if style is None:
        return ""
    colours = " on ".join(colour.name for colour in (style.color, style.bgcolor) if colour is not None)
    return " ".join((colours, *(name for name in ("bold", "underline", "reverse") if getattr(style, name))))


def rows_of(pilot: Pilot[None]) -> list[str]:
    """The screen row by row; then of each row how many cells are painted alike, and what the letters stand for."""
    width = pilot.app.size.width
    cells = [(letter, style_of(segment)) for segment in painted(pilot) for letter in segment.text]
    letters = {style: ascii_letters[at] for at, style in enumerate(dict.fromkeys(style for _, style in cells))}
    rows = [cells[at : at + width] for at in range(0, len(cells), width)]
    shown = ["".join(letter for letter, _ in row).rstrip() for row in rows]
    paint = [" ".join(f"{letters[style]}{len(list(run))}" for style, run in groupby(row, lambda cell: cell[1]))
             for row in rows]  # fmt: skip
    return [*shown, *paint, *(f"{letter} {style}" for style, letter in letters.items())]


def unlike(rows: list[str], dark: list[str]) -> list[str]:
    """Each row that is not as in the dark look, with its number."""
    return [f"{at} {row}" for at, row in enumerate(rows) if dark[at : at + 1] != [row]]


async def compared(pilot: Pilot[None], name: str, look: str, size: tuple[int, int]) -> str:
    """What a page is now, where it is not as it was found good."""
    app_of(pilot).clear_said()
    await settle(pilot)
    stem = f"{name}-{size[0]}x{size[1]}"
    dark, path = FOLDER / f"{stem}.txt", FOLDER / (f"{stem}.txt" if look == DARK else f"{stem}-{look}.txt")

    def shown() -> str:
        rows = rows_of(pilot)
        kept = rows if look == DARK else unlike(rows, dark.read_text(encoding="utf-8").splitlines())
        return "".join(f"{row}\n" for row in kept)

    found = await stood(pilot, shown, path.read_text(encoding="utf-8") if path.exists() else "")
    if IS_WRITING:
        FOLDER.mkdir(exist_ok=True)
        path.write_text(found, encoding="utf-8")
    return "" if path.read_text(encoding="utf-8") == found else "\n".join((f"{path.name} is now:", *rows_of(pilot)))


@pytest.mark.parametrize(("look", "size"), PAIRS)
def test_a_look_stands_as_it_was_found_good(
    look: str, size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        if look not in (DARK, PLAIN):
            app_of(pilot).look_in(look)
        differ = []
        for go in PAGES:
            await go(pilot)
            differ.append(await compared(pilot, go.__name__, look, size))
            if look in (DARK, LIGHT):
                assert min(contrasts(pilot).values()) >= LEAST, go.__name__
        assert not any(differ), "\n".join(differ)

    still(monkeypatch)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("fasten.tui.app.date", Day)
    if look == PLAIN:
        monkeypatch.setenv("NO_COLOR", "1")
    drive(size, told, Path("car"))
