"""What was used, word by word on the screen: kept at one key as advised, judged as it is typed, asked of a slip."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.after.verdict import Verdict
from fasten.job.store.storage import load_job
from fasten.job.store.tests_toml import read_tests
from fasten.job.words import FITTED, Visit
from fasten.tui.built.built import BuiltPlace

from .pilot import TABLES, act, app_of, do, drive, every_size, flat, lines, press, seen, settle, to_built, write_down
from .test_work import job_in, tap_word

pytestmark = pytest.mark.slow


def visits(folder: Path) -> tuple[Visit, ...]:
    return load_job(folder / "front.toml", TABLES).value.mounts[0].visits


def page(pilot: Pilot[None]) -> BuiltPlace:
    return app_of(pilot).built_page


def verdict(pilot: Pilot[None]) -> Verdict | None:
    found = page(pilot)._verdict
    return None if found is None else found.verdict


async def to_first(pilot: Pilot[None], name: str = "") -> None:
    await do(pilot, "a")
    await press(pilot, "1", "enter")
    await to_built(pilot, name)


@every_size
def test_what_was_planned_is_kept_only_as_it_is_confirmed_word_by_word(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        assert "AS PLANNED" in flat(pilot)
        assert "HOLDS" not in flat(pilot)
        await press(pilot, "enter")
        assert (visits(tmp_path), page(pilot)._word) == ((), "hole"), "one Enter stores nothing unmeasured"
        while page(pilot)._word is not None:
            await press(pilot, "enter")
        assert "HOLDS as it was built" in flat(pilot)
        await press(pilot, "enter")
        assert app_of(pilot).place == "work"
        (visit,) = visits(tmp_path)
        assert (visit.kind, visit.hole, visit.torque) == (FITTED, "7 mm", "1 N·m")
        await press(pilot, "u")
        assert visits(tmp_path) == ()

    drive(size, told, tmp_path, job_in(tmp_path))


@every_size
def test_all_is_kept_as_planned_by_a_tap_that_says_so(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        await tap_word(pilot, "keep all as planned: measured")
        (visit,) = visits(tmp_path)
        assert (visit.kind, visit.hole, visit.torque) == (FITTED, "7 mm", "1 N·m")

    drive(size, told, tmp_path, job_in(tmp_path), is_drawn=True)


@every_size
def test_by_taps_a_word_is_said_and_all_is_kept(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        if size[0] < 60:
            await pilot.click(offset=(4, 1))
            await settle(pilot)
            await tap_word(pilot, "Torque")
        else:
            await tap_word(pilot, "1 N·m")
        await press(pilot, *"0.9 N.m")
        await tap_word(pilot, "keep this as built")
        assert [visit.torque for visit in visits(tmp_path)] == ["0.9 N.m"]
        assert app_of(pilot).place == "work"

    drive(size, told, tmp_path, job_in(tmp_path), is_drawn=True)


@pytest.mark.parametrize(
    ("said", "found", "band"),
    [
        ({"torque": "0.9 N·m"}, Verdict.HOLDS, "HOLDS"),
        ({"sheet": "0.73 mm", "torque": "0.9 N·m"}, Verdict.LESS, "HOLDS WITH LESS"),
        ({"hole": "7.2 mm"}, Verdict.OPEN, "NOT PROVEN"),
        ({"torque": "2.4 N·m"}, Verdict.FAILS, "DOES NOT HOLD"),
        ({"hole": "7 mm, 7 mm, 8.2 mm, 7 mm"}, Verdict.FAILS, "DOES NOT HOLD"),
    ],
)
def test_each_of_the_four_verdicts_stands_in_the_band_as_it_is_typed(
    said: dict[str, str], found: Verdict, band: str, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        for name, text in said.items():
            await to_first(pilot, name)
            await press(pilot, *text)
        assert verdict(pilot) is found
        row = next(line for line in lines(pilot) if band in line)
        assert ("▞▞▞" in row) is (found in (Verdict.OPEN, Verdict.FAILS)), "what does not hold is hatched"

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_a_figure_that_may_be_a_slip_is_asked_for_once_and_then_kept(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot, "hole")
        await press(pilot, *"30 mm")
        await do(pilot, "k")
        assert "may be a slip" in flat(pilot)
        assert "--sure" not in flat(pilot), "it names no option of a command"
        assert visits(tmp_path) == ()
        assert "keep it all the same: it is so" in seen(pilot)
        await press(pilot, "k")
        assert [visit.hole for visit in visits(tmp_path)] == ["30 mm"]

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_what_is_not_understood_is_put_right_before_anything_is_kept(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot, "torque")
        await press(pilot, *"tight")
        assert "NOT WRITTEN DOWN" in seen(pilot)
        assert "put it right first" in seen(pilot)
        await do(pilot, "k")
        assert visits(tmp_path) == ()
        await press(pilot, *["backspace"] * 5, *"1, 2 N·m")
        await press(pilot, "enter", "enter", "k")
        assert visits(tmp_path) == ()

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_only_what_concerns_the_joint_is_asked(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        names = [word.name for word in page(pilot).rows()]
        assert "drop" not in names
        assert "turning" not in names
        assert {"drive", "strip"}.isdisjoint(names), "an M5 nut forms no thread"
        assert {"spin_out", "retorque"} <= set(names)
        assert {
            "hole",
            "sheet",
            "hardware",
            "length",
            "torque",
            "held",
            "tool",
            "renewed",
            "by",
            "kind",
            "photos",
        } <= set(names)

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_readings_of_test_pieces_are_said_there_too_and_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "own"))

    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        page(pilot).take("spin_out")
        await press(pilot, *"2.1 2.2 2.3", "enter")
        page(pilot).take("tool")
        await press(pilot, *"same wrench")
        page(pilot).take(None)
        await press(pilot, "enter")
        assert "readings kept in" in flat(pilot)

    drive((120, 40), told, tmp_path, job_in(tmp_path))
    assert [visit.spin_out for visit in visits(tmp_path)] == ["2.1 2.2 2.3"]
    assert [(test.readings, test.error) for test in read_tests(tmp_path / "own" / "tests.toml")] == [
        ((2.1, 2.2, 2.3), 0.0)
    ]


def test_enter_walks_the_words_and_after_the_last_keeps_all(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        await press(pilot, "down", "down")
        assert page(pilot)._word == "hole"
        await press(pilot, *"7.1 mm")
        for _ in range(12):
            if page(pilot)._word is None:
                break
            await press(pilot, "enter")
        assert "keep this as built" in seen(pilot)
        await press(pilot, "enter")
        assert [visit.hole for visit in visits(tmp_path)] == ["7.1 mm"]

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_a_later_visit_is_added_and_those_before_stay_in_view(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_first(pilot)
        await write_down(pilot, torque="0.9 N·m")
        await act(pilot, "as_built")
        assert "WRITTEN DOWN BEFORE" in seen(pilot)
        assert "HOLDS" in seen(pilot), "of what is there now"
        await press(pilot, "k")
        assert page(pilot).is_asking, "nothing is said yet, so it is asked"
        page(pilot).take("kind")
        await press(pilot, *"checked", ";", "k")
        assert [visit.kind for visit in visits(tmp_path)] == [FITTED, "checked"]

    drive((80, 24), told, tmp_path, job_in(tmp_path))
