"""Every reason why the box is not ready is a row, the same beside the question and in the box, and a tap goes to it."""

import pytest
from textual.pilot import Pilot

from fasten.tui.box.box import BoxPlace

from .pilot import AMPLIFIER, app_of, do, drive, lines, say, seen, settle, type_text, wide_or_narrow

pytestmark = pytest.mark.slow


async def tap_row(pilot: Pilot[None], mark: str) -> None:
    """Tap the row that begins with a mark and a count."""
    row = next(at for at, line in enumerate(lines(pilot)) if line.strip().startswith(mark))
    await pilot.click(offset=(lines(pilot)[row].index(mark) + 3, row))
    await settle(pilot)


def test_reasons_are_rows_and_a_tap_goes_to_what_is_not_ready() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "n")
        await say(pilot, *AMPLIFIER)
        await type_text(pilot, "1 mm")
        shown = seen(pilot)
        for reason in ("╳ 1 no fit  amplifier 2", "◐ 1 needs  amplifier", " missing  "):
            assert reason in shown, shown
        await tap_row(pilot, "◐ 1 needs")
        assert app_of(pilot).open_job.at == 0
        await tap_row(pilot, "╳ 1 no fit")
        assert app_of(pilot).open_job.at == 1
        await tap_row(pilot, "◇ 2")
        assert app_of(pilot).place == "box"
        line = app_of(pilot).query_one(BoxPlace).in_hand
        assert line is not None
        assert line.row is not None
        assert line.row.state.mark == "◇"
        await tap_row(pilot, "◐ 1 needs")
        assert (app_of(pilot).place, app_of(pilot).open_job.at) == ("mounts", 0)

    drive((120, 40), told)


@wide_or_narrow
def test_the_run_that_a_reason_names_is_come_to_by_it(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r", "n")
        await say(pilot, "1000 W class D")
        await do(pilot, "n")
        await say(pilot, "500 W class D", "battery stud M8")
        (run, _) = app_of(pilot).open_job.job.runs
        await do(pilot, "b")
        await tap_row(pilot, "· 2 to say")
        assert (app_of(pilot).place, app_of(pilot).runs.name_in_hand) == ("runs", run.name)
        assert not app_of(pilot).runs.is_listing

    drive(size, told)
