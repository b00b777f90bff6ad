"""A list that is longer than the screen stands in two columns on a wide one; keys and taps go on as in one column."""

import asyncio
from collections.abc import Awaitable, Callable
from functools import partial

import pytest
from textual.app import App, ComposeResult
from textual.content import Content
from textual.pilot import Pilot
from textual.widgets import OptionList

from fasten.tui.widgets.columns import WIDE, ColumnList, Written

HEIGHT = 10


def row(text: str, width: int) -> Content:
    """Two lines, of which the first ends where the row ends."""
    return Content(f"{text:.<{width - 1}}|\n  beneath")


class Listing(App[None]):
    """A list of so many rows of two lines, with headings at these places."""

    CSS = "ColumnList { height: 1fr; border: none; padding: 0; scrollbar-gutter: stable; }"

    def __init__(self, count: int, headings: frozenset[int]) -> None:
        super().__init__()
        self._count, self._headings = count, headings
        self.picked: list[int] = []
        self.list = ColumnList("rows")

    def compose(self) -> ComposeResult:
        yield self.list

    def on_mount(self) -> None:
        rows = [Written(partial(row, f"row {at} "), disabled=at in self._headings) for at in range(self._count)]
        self.list.fill(rows)
        self.list.focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.picked.append(event.option_index)


Told = Callable[[Listing, Pilot[None]], Awaitable[None]]


def drive(told: Told, count: int, width: int = WIDE, headings: frozenset[int] = frozenset()) -> None:
    async def driven() -> None:
        app = Listing(count, headings)
        async with app.run_test(size=(width, HEIGHT)) as pilot:
            await pilot.pause()
            await told(app, pilot)

    asyncio.run(driven())


def shown(app: Listing) -> list[str]:
    return [strip.text.rstrip() for strip in app.screen._compositor.render_strips()]


def columns(app: Listing) -> list[list[str]]:
    """What begins each row of each line, in either column."""
    return [[part.strip(" .") for part in line.split("|") if part.strip(" .")] for line in shown(app)[::2]]


@pytest.mark.parametrize(
    ("count", "width", "double"),
    [(5, WIDE, False), (6, WIDE, True), (6, WIDE - 1, False)],
    ids=["room for all", "one column is full", "a narrower screen"],
)
def test_two_columns_only_where_one_is_full_and_the_screen_is_wide(count: int, width: int, *, double: bool) -> None:
    async def told(app: Listing, _: Pilot[None]) -> None:
        expected = [["row 0", "row 3"], ["row 1", "row 4"], ["row 2", "row 5"]] if double else [["row 0"], ["row 1"]]
        assert columns(app)[: len(expected)] == expected

    drive(told, count, width)


def test_down_goes_on_at_the_top_of_the_right_column_and_enter_takes_what_is_marked() -> None:
    async def told(app: Listing, pilot: Pilot[None]) -> None:
        await pilot.press("home")
        for at in range(8):
            assert app.list.highlighted == at
            await pilot.press("enter", "down")
        assert app.picked == list(range(8))

    drive(told, 8)


def test_a_tap_takes_the_row_that_it_is_on_in_either_column() -> None:
    async def told(app: Listing, pilot: Pilot[None]) -> None:
        for at in (0, 5, 3, 7):
            line = next(y for y, text in enumerate(shown(app)) if f"row {at} " in text)
            column = shown(app)[line].index(f"row {at} ")
            assert (column > WIDE // 3) == (at >= 4)
            await pilot.click(offset=(column + 2, line + 1))
            await pilot.pause()
        assert app.picked == [0, 5, 3, 7]

    drive(told, 8)


def test_the_marked_row_is_seen_wherever_it_is_and_every_row_is_reached_by_pages() -> None:
    async def told(app: Listing, pilot: Pilot[None]) -> None:
        await pilot.press("home")
        for at in range(30):
            assert app.list.highlighted == at
            assert f"row {at} " in "\n".join(shown(app))
            await pilot.press("down")
        await pilot.press("home")
        reached = ""
        for _ in range(30):
            reached += "\n".join(shown(app))
            await pilot.press("pagedown")
        assert all(f"row {at} " in reached for at in range(30))

    drive(told, 30)


def test_no_heading_ends_the_left_column() -> None:
    async def told(app: Listing, _: Pilot[None]) -> None:
        assert columns(app)[0] == ["row 0", "row 3"], "not after the fourth of eight, where they would be even"

    drive(told, 8, headings=frozenset({3}))


def test_rows_go_into_one_column_again_on_a_narrower_screen_and_the_marked_one_stays_marked() -> None:
    async def told(app: Listing, pilot: Pilot[None]) -> None:
        await pilot.press("home", *["down"] * 7)
        await pilot.resize_terminal(60, HEIGHT)
        await pilot.pause()
        assert all(len(line) <= 1 for line in columns(app))
        assert app.list.highlighted == 7
        assert "row 7 " in "\n".join(shown(app))
        await pilot.resize_terminal(WIDE, HEIGHT)
        await pilot.pause()
        assert ["row 3", "row 7"] in columns(app)

    drive(told, 8)
