"""Lines that are made as they come into view, shown as if all had been."""

import asyncio
from collections.abc import Awaitable, Callable

import pytest
from rich.style import Style
from textual.app import App, ComposeResult
from textual.containers import VerticalScroll
from textual.geometry import Offset, Region
from textual.pilot import Pilot
from textual.selection import Selection
from textual.strip import Strip
from textual.visual import Visual

from fasten.tui.drawn.runs import Line
from fasten.tui.palette import DARK, LIGHT, theme
from fasten.tui.widgets.content import content
from fasten.tui.widgets.lines import Lines

HIGH = 10
LONG: list[Line] = [((f"row {n} ", "bold ink"), ("of many", "quiet")) for n in range(500)]


class Reader(App[None]):
    """Lines in a part of the screen that scrolls, and nothing else."""

    def compose(self) -> ComposeResult:
        self.lines = Lines("a start", "words")
        yield VerticalScroll(self.lines)

    def on_mount(self) -> None:
        for look in (DARK, LIGHT):
            self.register_theme(theme(look))
        self.theme = DARK


def shown(app: Reader) -> list[str]:
    return [strip.text[:-2].rstrip() for strip in app.screen._compositor.render_strips()]


def with_lines(columns: int, told: Callable[[Reader, Pilot[None]], Awaitable[None]]) -> None:
    async def run() -> None:
        app = Reader()
        async with app.run_test(size=(columns, HIGH)) as pilot:
            assert shown(app)[0] == "a start"
            app.lines.draw(LONG)
            await pilot.pause()
            await told(app, pilot)

    asyncio.run(run())


def test_only_what_comes_into_view_is_made_and_what_stays_the_same_is_kept() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        assert shown(app) == [f"row {n} of many" for n in range(HIGH)]
        assert len(app.lines._kept) == HIGH
        first = app.lines._kept[LONG[0]]
        app.lines.draw([*LONG[:2], (("another", "ink"),), *LONG[3:]])
        await pilot.pause()
        assert shown(app)[1:4] == ["row 1 of many", "another", "row 3 of many"]
        assert app.lines._kept[LONG[0]] is first
        app.lines.parent.scroll_end(animate=False)  # type: ignore[union-attr]
        await pilot.pause()
        assert shown(app)[-1] == "row 499 of many"
        assert len(app.lines._kept) < 3 * HIGH

    with_lines(40, told)


def test_the_rest_is_made_on_the_next_frame_and_nothing_moves_until_then() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        asked = []
        rest = (asked.append(n) or ((f"new {n}", "ink"),) for n in range(3, 300))  # type: ignore[func-returns-value]
        first: list[Line] = [((f"new {n}", "ink"),) for n in range(3)]
        app.lines.draw(first, rest)
        assert not asked
        assert app.lines._lines == (*first, *LONG[3:])
        assert app.lines.get_content_height(app.size, app.size, app.lines.size.width) == len(LONG)
        await pilot.pause()
        await pilot.pause()
        assert (len(asked), app.lines.size.height) == (297, 300)
        assert shown(app) == [f"new {n}" for n in range(HIGH)]
        app.lines.draw(LONG[:1], iter(LONG[1:]))
        app.lines.draw(LONG[:1], iter(LONG[1:20]))
        await pilot.pause()
        await pilot.pause()
        assert app.lines.size.height == 20
        app.lines.draw(LONG[:HIGH], iter(()))
        await pilot.pause()
        await pilot.pause()
        assert app.lines.size.height == HIGH

    with_lines(40, told)


def test_only_rows_that_are_others_are_drawn() -> None:
    async def told(app: Reader, _pilot: Pilot[None]) -> None:
        app.lines._exchange_repaint_regions()
        another: Line = (("another", "ink"),)
        app.lines.draw([*LONG[:2], another, another, *LONG[4:7], another, *LONG[8:]])
        assert sorted(app.lines._repaint_regions) == [Region(0, 2, 38, 2), Region(0, 7, 38, 1)]

    with_lines(40, told)


@pytest.mark.parametrize("line", [LONG[0], (), (("☐ wide 漢字", "on accent"), ("  ", ""), ("u", "underline@hole:2"))])
def test_a_line_looks_as_textual_would_make_it(line: Line) -> None:
    async def told(app: Reader, _pilot: Pilot[None]) -> None:
        lines = app.lines
        ours = lines._strip(line).apply_offsets(0, 3)
        (theirs,) = Visual.to_strips(lines, content([line]), 38, 1, lines.visual_style)
        assert ours.cell_length == theirs.cell_length
        assert cells(ours) == cells(theirs.apply_offsets(0, 3))

    with_lines(40, told)


def cells(strip: Strip) -> list[tuple[str, Style | None]]:
    return [(letter, segment.style) for segment in strip if segment.text for letter in segment.text]


def test_a_change_of_look_makes_every_line_anew() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        dark = [segment.style for segment in app.screen._compositor.render_strips()[0]]
        app.theme = LIGHT
        await pilot.pause()
        assert [segment.style for segment in app.screen._compositor.render_strips()[0]] != dark

    with_lines(40, told)


def test_fewer_lines_take_fewer_rows_and_a_text_takes_their_place() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        app.lines.draw(LONG[:2])
        await pilot.pause()
        assert (shown(app)[1:3], app.lines.size.height) == (["row 1 of many", ""], 2)
        app.lines.write("nothing more")
        await pilot.pause()
        assert (shown(app)[:2], app.lines.size.height) == (["nothing more", ""], 1)

    with_lines(40, told)


def test_where_they_do_not_fit_they_are_wrapped() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        app.lines.draw([(("what is too wide for it", "ink"),), *LONG])
        await pilot.pause()
        assert shown(app)[:4] == ["what is too", "wide for it", "row 0 of", "many"]

    with_lines(14, told)


def test_what_is_selected_is_marked_and_can_be_copied() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        plain = [segment.style for segment in app.screen._compositor.render_strips()[1]]
        app.screen.selections = {app.lines: Selection(Offset(0, 1), Offset(5, 2))}
        await pilot.pause()
        assert app.screen.get_selected_text() == "row 1 of many\nrow 2"
        assert [segment.style for segment in app.screen._compositor.render_strips()[1]] != plain

    with_lines(40, told)


def test_what_begins_stands_in_the_place_of_as_many_lines_until_all_are_drawn() -> None:
    async def told(app: Reader, pilot: Pilot[None]) -> None:
        app.lines.begin([(("new", "ink"),)])
        await pilot.pause()
        assert shown(app)[:2] == ["new", "row 1 of many"]
        app.lines.draw(LONG[:2])
        await pilot.pause()
        assert shown(app)[:3] == ["row 0 of many", "row 1 of many", ""]

    with_lines(40, told)
