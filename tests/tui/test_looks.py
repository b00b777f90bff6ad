"""The screen in each look at each size, letter by letter and with what each is painted in, as it was found good.

    FASTEN_SNAPSHOTS=write .venv/bin/python -m pytest -q tests/tui/test_looks.py

writes them anew; read what has changed before it is committed. The dark look is that of `test_snapshots`.
"""

from pathlib import Path
from string import ascii_letters

import pytest
from built.few import ALL
from rich.segment import Segment
from textual.pilot import Pilot

from fasten.tui.palette import LIGHT, PLAIN, SIXTEEN

from .pilot import AMPLIFIER, SIZES, app_of, do, drive, press, say, settle
from .test_palette import painted
from .test_snapshots import ENDS, IS_WRITING, still

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent / "looks"
RUN = ("1000 W class D", "battery stud M8", "amplifier, set screw", "5 m", "0.45 m")
SHOWN = [(look, size) for look in (LIGHT, SIXTEEN, PLAIN) for size in (SIZES if ALL or IS_WRITING else ENDS)]


def cells_of(segment: Segment) -> tuple[str, str]:
    """A run of text, and what it is painted in."""
    text, style, _ = segment
    if style is None:
        return text, ""
    colours = " on ".join(colour.name for colour in (style.color, style.bgcolor) if colour is not None)
    weights = [name for name in ("bold", "underline", "reverse") if getattr(style, name)]
    return text, " ".join((colours, *weights))


async def work(pilot: Pilot[None]) -> None:
    await do(pilot, "w")


async def box(pilot: Pilot[None]) -> None:
    await do(pilot, "b")


async def run(pilot: Pilot[None]) -> None:
    await do(pilot, "r")
    await press(pilot, "n")
    await say(pilot, *RUN)
    app_of(pilot).save()


PAGES = {"work": work, "box": box, "run": run}  # at the largest size alone


async def compared(pilot: Pilot[None], name: str, size: tuple[int, int]) -> str:
    """What a page is now, where it is not as it was found good."""
    app_of(pilot).clear_said()
    await settle(pilot)
    path, shown = FOLDER / f"{name}-{size[0]}x{size[1]}.txt", page(pilot)
    if IS_WRITING:
        FOLDER.mkdir(exist_ok=True)
        path.write_text(shown, encoding="utf-8")
    return "" if path.read_text(encoding="utf-8") == shown else f"{path.name} is now:\n{shown}"


def page(pilot: Pilot[None]) -> str:
    """The screen as text, the same with a letter for what each cell is painted in, and what the letters stand for."""
    width = pilot.app.size.width
    runs = [cells_of(segment) for segment in painted(pilot)]
    text = "".join(text for text, _ in runs)
    said = {style: ascii_letters[at] for at, style in enumerate(dict.fromkeys(style for _, style in runs))}
    paint = "".join(said[style] * len(text) for text, style in runs)
    rows = [text[at : at + width].rstrip() for at in range(0, len(text), width)]
    marks = [paint[at : at + width] for at in range(0, len(paint), width)]
    return "\n".join((*rows, *marks, *(f"{letter} {style}" for style, letter in said.items()), ""))


@pytest.mark.parametrize(("look", "size"), SHOWN)
def test_a_look_stands_as_it_was_found_good(look: str, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch) -> None:
    async def told(pilot: Pilot[None]) -> None:
        if look != PLAIN:
            app_of(pilot).look_in(look)
        await say(pilot, *AMPLIFIER, "40 mm", "40 mm")
        differ = [await compared(pilot, look, size)]
        for name, go in PAGES.items() if size == SIZES[0] else ():
            await go(pilot)
            differ.append(await compared(pilot, f"{look}-{name}", size))
        assert not any(differ), "\n".join(differ)

    still(monkeypatch)
    if look == PLAIN:
        monkeypatch.setenv("NO_COLOR", "1")
    drive(size, told)
