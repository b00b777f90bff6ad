"""A mount point is answered on the screen as the list has it: on its board, and in the series of its job."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.job.choices import choices
from fasten.job.store.job_toml import job_text
from fasten.job.words import Job, Mount
from fasten.report.answer.as_text import advice_text
from fasten.tui.mounts.entry import consider
from fasten.tui.standings import Standings
from fasten.tui.state.beside import Beside

from .pilot import TABLES, app_of, do, drive, seen, settle

BOARD = {
    "item": "equipment-board", "onto": "steel 1.2 mm", "removed": "rarely", "panel": "floor", "support": "frame",
    "mass": "4kg", "behind": "60mm", "edge": "60mm", "pattern": "rectangle 700x350", "fixings": "6",
    "item-thickness": "15mm",
}  # fmt: skip
ON_IT = {
    "item": "amplifier", "onto": "plywood 15 mm", "removed": "yearly", "panel": "floor", "mass": "6kg",
    "edge": "60mm", "behind": "60mm", "on-board": "rear board",
}  # fmt: skip
AT = {"removed": "yearly", "panel": "side", "far-side": "dry", "behind": "60mm", "edge": "60mm"}
AMP = {"item": "amplifier", "onto": "steel 1.2 mm", "mass": "5kg", "support": "firm"} | AT
BLOCK = {"item": "distribution-block", "onto": "steel 1 mm", "item-hole": "5.5mm"} | AT


def job(mounts: dict[str, dict[str, str]]) -> Job:
    return Job("car", "", "", tuple(Mount(name, tuple(said.items())) for name, said in mounts.items()))


BOARDED = job({"rear board": BOARD, "left": ON_IT, "right": ON_IT})
SERIES = job({"amp": AMP, "block": BLOCK})


def known(asked: Job) -> Standings:
    standings = Standings(TABLES)
    for mount in asked.mounts:
        standings.find(mount, asked, None)
    return standings


@pytest.mark.parametrize("asked", [BOARDED, SERIES], ids=["board", "series"])
def test_every_mount_point_in_hand_gets_the_answer_that_the_list_has(asked: Job) -> None:
    standings = known(asked)
    for at, one in enumerate(choices(asked, TABLES)):
        beside = standings.beside(asked, at, None)
        good = consider(dict(one.mount.said), TABLES, beside=beside).good
        assert good is not None
        assert good.advice.answers[0] == one.answer
        first = consider(dict(one.mount.said), TABLES, beside=beside, only_first=True).good
        assert first is not None
        assert (first.advice.answers, first.advice.mount) == ((one.answer,), one.point)
        assert good.advice.mount == one.point
        assert "its job" not in advice_text(good.advice, 80)


@pytest.mark.parametrize("onto", ["steel 0.7 mm", "aluminium 4 mm", "ABS 3 mm", "plywood 18 mm", "steel floor"])
@pytest.mark.parametrize("item", ["amplifier", "trim-panel", "speaker", "crossover"])
def test_what_is_shown_first_is_what_is_shown_with_the_rest(item: str, onto: str) -> None:
    said = {"item": item, "onto": onto, "removed": "yearly", "edge": "60 mm", "behind": "40 mm"}
    first, whole = (consider(said, TABLES, only_first=only_first) for only_first in (True, False))
    assert (first.good is None) == (whole.good is None)
    if first.good is not None and whole.good is not None:
        assert (first.good.entry, first.good.advice.mount) == (whole.good.entry, whole.good.advice.mount)
        assert first.good.advice.answers == whole.good.advice.answers[:1]


def test_the_rail_and_its_verdict_are_of_the_mount_points_together() -> None:
    standings = known(SERIES)
    assert standings.verdict(SERIES, None) is not None
    beneath = [one.beneath for one in standings.known(SERIES, None) if one is not None]
    titles = [one.answer.title for one in choices(SERIES, TABLES) if one.answer is not None]
    assert len(set(titles)) == 1
    assert all(titles[0] in text for text in beneath)


def test_a_board_that_is_not_in_the_job_is_said_at_its_field_and_a_fault_of_another_is_not() -> None:
    said = ON_IT | {"on-board": "front board"}
    assert consider(said, TABLES, beside=Beside("", BOARDED)).misread == ("on-board",)
    faulty = Job("car", "", "", (Mount("rear board", tuple((BOARD | {"mass": "heavy"}).items())),))
    outcome = consider(ON_IT, TABLES, beside=Beside("", faulty))
    assert outcome.good is None
    assert not outcome.misread
    assert "heavy" in outcome.trouble


def test_the_screen_adds_up_what_stands_on_the_board_of_the_open_job(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        for at in (1, 2):
            app_of(pilot).open_job.go_to(at, app_of(pilot).open_job.revision)
            app_of(pilot).tell()
            await settle(pilot)
            good = app_of(pilot).mounts.outcome.good
            assert good is not None
            board = good.advice.mount.on_board
            assert board is not None
            assert board.mass_kg == 12
            assert "needs its job" not in seen(pilot)
        await do(pilot, "d")  # the other amplifier on it
        app_of(pilot).open_job.go_to(1, app_of(pilot).open_job.revision)
        app_of(pilot).tell()
        await settle(pilot)
        good = app_of(pilot).mounts.outcome.good
        assert good is not None
        assert good.advice.mount.on_board is not None
        assert good.advice.mount.on_board.mass_kg == 6

    path = tmp_path / "job.toml"
    path.write_text(job_text(BOARDED), encoding="utf-8")
    drive((120, 40), told, tmp_path, path)
