"""Test pieces from their step: a line with kind and tool filled in, readings typed, old and new figures shown."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.job.store.tests_toml import KeptTests, read_tests
from fasten.model import Phase

from .pilot import TABLES, app_of, do, drive, every_size, flat, press, settle, type_text, until
from .test_work import job_in, kept, page, tap, to_work, work

pytestmark = pytest.mark.slow

READ = "2.1 2.2 2.3"


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "own"))
    return tmp_path / "own" / "tests.toml"


async def to_test_piece(pilot: Pilot[None]) -> None:
    await to_work(pilot)
    while not page(pilot).is_at_test_piece:
        await press(pilot, "down")


@every_size
def test_readings_are_typed_at_the_step_and_kept_in_few_keys(
    size: tuple[int, int], tmp_path: Path, own_folder: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_test_piece(pilot)
        assert "Type what test pieces bore" in flat(pilot)
        assert len(READ) + 2 < 60
        await type_text(pilot, READ)
        assert f"same wrench: {READ}" in flat(pilot)
        await press(pilot, "enter")
        await settle(pilot)
        shown = flat(pilot).replace("│ ", "")
        assert "torque that turns the body 2 N·m by the tables, 1.81 N·m with your readings" in shown
        assert "one more like these would make it 1.84 N·m" in shown
        await press(pilot, ";")
        spot = page(pilot).spot
        assert spot is not None
        assert work(pilot).state(spot).step.phase is Phase.TEST_PIECE
        await until(pilot, lambda: bool(kept(tmp_path).mounts[0].visits))

    drive(size, told, tmp_path, job_in(tmp_path))
    visit = kept(tmp_path).mounts[0].visits[-1]
    assert (visit.kind, visit.spin_out, visit.tool) == ("checked", READ, "same wrench")
    assert [(test.read, test.readings, test.error) for test in read_tests(own_folder)] == [
        ("spin-out", (2.1, 2.2, 2.3), 0.0)
    ]


def test_what_may_be_a_slip_is_asked_about_once_and_what_is_none_is_said(tmp_path: Path, own_folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_test_piece(pilot)
        await tap(pilot, "readings:0")
        await press(pilot, "enter")
        assert "nothing was read" in flat(pilot)
        await type_text(pilot, "22")
        await press(pilot, "enter")
        assert "which may be a slip" in flat(pilot)
        assert not own_folder.exists()
        await press(pilot, "enter")
        await settle(pilot)
        assert "n = 1" in flat(pilot)

    drive((80, 24), told, tmp_path, job_in(tmp_path))
    assert own_folder.exists()


def test_what_is_kept_counts_at_once_at_every_other_mount_point(tmp_path: Path, own_folder: Path) -> None:
    """The right amplifier has the same nut, sheet and hole: its torque is lower as soon as the left one's is."""

    async def told(pilot: Pilot[None]) -> None:
        await to_work(pilot)
        await do(pilot, "a")
        await press(pilot, "2", "enter")
        before = torque_nm(pilot)
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        await do(pilot, "w")
        while not page(pilot).is_at_test_piece:
            await press(pilot, "down")
        await type_text(pilot, READ)
        await press(pilot, "enter")
        await settle(pilot)
        assert "goes by it from now on" in flat(pilot).replace("│ ", "")
        await press(pilot, ";")
        await do(pilot, "a")
        await press(pilot, "2", "enter")
        assert torque_nm(pilot) == pytest.approx(before - (2 - 1.815), abs=0.005), "0.8 T + locker <= 0.8 spin-out"

    drive((120, 40), told, tmp_path, job_in(tmp_path), tables=TABLES.with_kept(KeptTests(own_folder, ())))


def torque_nm(pilot: Pilot[None]) -> float:
    good = app_of(pilot).mounts.outcome.good
    assert good is not None
    torque = good.advice.answers[0].proposal.torque
    assert torque is not None
    return torque.max_nm
