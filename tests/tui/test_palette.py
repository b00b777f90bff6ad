"""Every look can be read: contrast of text from the palette and from the cells as they are painted, by role alone."""

import re
from pathlib import Path

import pytest
from rich.segment import Segment
from textual.pilot import Pilot

from fasten.tui.palette import DARK, LIGHT, LOOKS, PLAIN, SIXTEEN, colours, look_of, next_look

from .pilot import AMPLIFIER, app_of, do, drive, press, say, settle, strips_of

LEAST, LEAST_DRAWN = 4.5, 2.9
TEXT = ("ink", "quiet", "accent", "good", "open", "bad")
DRAWN = ("screw", "receiver", "sheet", "item", "board", "plastic", "soft", "behind", "jacket")
TOUCHING = (("screw", "receiver"), ("receiver", "sheet"), ("screw", "sheet"), ("jacket", "screw"))
FOLDER = Path(__file__).parents[2] / "fasten" / "tui"
MARKS = re.compile(r"[\w%]")  # what is read; blocks, lines and hatches are drawn


def luminance(colour: str) -> float:
    """Of an sRGB colour, as WCAG 2.2 has it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Of two colours, from 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def painted(pilot: Pilot[None]) -> list[Segment]:
    """Every run of cells as it goes to the terminal."""
    app = app_of(pilot)
    background = app.screen.background_colors[0]
    strips = [list(strip) for strip in strips_of(app)]
    for filter_ in app.get_line_filters():
        strips = [filter_.apply(segments, background) for segments in strips]
    return [segment for segments in strips for segment in segments]


def test_the_contrast_is_calculated_as_the_standard_has_it() -> None:
    assert contrast("#ffffff", "#000000") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("look", [DARK, LIGHT])
def test_text_can_be_read_on_paper_and_on_raised_and_parts_are_seen(look: str) -> None:
    of = colours(look)
    for ground in ("paper", "raised"):
        assert {role: contrast(of[role], of[ground]) for role in TEXT if contrast(of[role], of[ground]) < LEAST} == {}
    assert {role for role in DRAWN if contrast(of[role], of["paper"]) < LEAST_DRAWN} == set()
    for one, other in TOUCHING:
        assert contrast(of[one], of[other]) > 1.4, (one, other)


def test_sixteen_colours_are_the_terminals_own_numbers_and_plain_has_none() -> None:
    own = colours(SIXTEEN)
    assert all(colour.startswith("ansi_") for colour in own.values())
    assert own["paper"] not in {own[role] for role in (*TEXT, *DRAWN)}
    assert set(colours(PLAIN).values()) == {"ansi_default"}


def test_the_look_is_what_the_terminal_can_show() -> None:
    assert look_of({"TERM": "xterm-256color"}) == look_of({"TERM": "x", "COLORTERM": "truecolor"}) == DARK
    assert look_of({"TERM": "linux"}) == look_of({}) == SIXTEEN
    assert look_of({"TERM": "xterm-256color", "NO_COLOR": ""}) == PLAIN
    assert [next_look(look) for look in (*LOOKS, PLAIN)] == [LIGHT, SIXTEEN, DARK, PLAIN]


def test_no_module_but_the_palette_and_no_style_names_a_colour() -> None:
    named = re.compile(
        r"#[0-9a-fA-F]{6}\b|\bansi_(?!color\b)\w+|\brgb\(|\$(primary|text|foreground|surface|background|panel)\b"
    )
    for path in (*FOLDER.rglob("*.py"), FOLDER / "style.tcss"):
        if path.name != "palette.py":
            assert not named.search(path.read_text(encoding="utf-8")), path.name


@pytest.mark.parametrize("look", [DARK, LIGHT])
def test_every_cell_that_is_painted_can_be_read(look: str) -> None:
    async def told(pilot: Pilot[None]) -> None:
        app_of(pilot).look_in(look)
        await say(pilot, *AMPLIFIER)
        for keys in ("", "w", "r", "b", "s", "mc"):
            await do(pilot, *keys)
            faint = {text: round(found, 1) for text, found in contrasts(pilot).items() if found < LEAST}
            assert faint == {}, keys

    drive((80, 24), told)


def contrasts(pilot: Pilot[None]) -> dict[str, float]:
    """The contrast of every text on the screen."""
    found = {}
    for text, style, _ in painted(pilot):
        if style is not None and style.color is not None and style.bgcolor is not None and MARKS.search(text):
            fore, back = ("#{:02x}{:02x}{:02x}".format(*c.get_truecolor()) for c in (style.color, style.bgcolor))
            found[text] = contrast(fore, back)
    return found


def test_without_colour_nothing_is_coloured_and_what_is_filled_is_reversed(monkeypatch: pytest.MonkeyPatch) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        cells = [segment for segment in painted(pilot) if segment.style is not None]
        assert all(c is None or c.is_default for _, style, _ in cells if style for c in (style.color, style.bgcolor))
        assert any(style.reverse for _, style, _ in cells if style)
        await act_look(pilot)
        assert app_of(pilot).current_theme.name == PLAIN

    monkeypatch.setenv("NO_COLOR", "1")
    drive((44, 30), told)


async def act_look(pilot: Pilot[None]) -> None:
    """Go on to the next look, by its key."""
    await press(pilot, ";")
    await press(pilot, "z")
    await settle(pilot)


def test_sixteen_colours_are_sent_by_number() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await act_look(pilot)
        await act_look(pilot)
        numbers = {c.number for _, style, _ in painted(pilot) if style for c in (style.color, style.bgcolor) if c}
        assert 0 in numbers
        assert 15 in numbers
        assert all(number is not None and number < 16 for number in numbers)

    drive((44, 30), told)
