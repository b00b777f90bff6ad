"""`fasten built`: what was really used is written down once, each field what it is for; a record is never lost."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from fasten.catalog.tables import builtin
from fasten.commands._jobs import change_job
from fasten.errors import FastenError
from fasten.job.after.built import read_visit, recorded
from fasten.job.edit import with_mount
from fasten.job.store.storage import load_job
from fasten.job.words import Job, Mount, Visit

from .conftest import Run


@pytest.fixture
def run(run: Run) -> Run:
    """The same with a job of one mount point in the folder."""
    asked = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
    run("pick", *asked, "--into-job", "job.toml", "--name", "amp")
    return run


def mounts() -> dict[str, Mount]:
    return {mount.name: mount for mount in load_job(Path("job.toml"), builtin()).value.mounts}


def is_one_sentence(error: str) -> bool:
    return error.startswith("fasten: ") and error.count("\n") == 1 and "Traceback" not in error


RECORD = (
    "--hole", "7.7 mm", "--hardware", "M5x16", "--torque", "2.4 N·m", "--date", "2024-05-03", "--note", "reamed",
)  # fmt: skip


def test_what_was_built_is_written_down_and_shown(run: Run) -> None:
    code, out, error = run("built", "job.toml", "AMP", *RECORD)
    assert (code, error) == (1, "fasten: written down in job.toml\n")
    assert "Verdict: does not hold" in out
    assert mounts()["amp"].built == Visit("2024-05-03", "7.7 mm", "M5x16", "2.4 N·m", "reamed", kind="fitted")
    assert out.splitlines()[0] == "As built: amp"
    assert "7.7 mm" in out


def test_a_second_visit_is_added_and_what_was_measured_before_stands(run: Run) -> None:
    run("built", "job.toml", "amp", *RECORD)
    _, out, _ = run("built", "job.toml", "amp", "--kind", "checked", "--torque", "1.4 N·m", "--json")
    first, second = mounts()["amp"].visits
    assert (first.torque, first.date, second.torque, second.kind) == ("2.4 N·m", "2024-05-03", "1.4 N·m", "checked")
    assert second.date == date.today().isoformat()
    assert (json.loads(out)["built"]["hole"], json.loads(out)["built"]["torque"]) == ("7.7 mm", "1.4 N·m")
    assert len(json.loads(out)["visits"]) == 2


def test_what_nothing_fits_at_is_not_proven(run: Run) -> None:
    tight = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "4mm", "--edge", "30mm")
    run("pick", *tight, "--into-job", "job.toml", "--name", "tight")
    code, _, error = run("built", "job.toml", "tight", "--torque", "1 N·m")
    assert code == 1
    assert "not proven: nothing is planned there" in error


def test_how_tight_it_was_does_not_stand_once_it_came_off(run: Run) -> None:
    run("built", "job.toml", "amp", *RECORD)
    assert run("built", "job.toml", "amp", "--kind", "off")[0] == 0
    built = mounts()["amp"].built
    assert built is not None
    assert (built.hole, built.hardware, built.torque) == ("7.7 mm", "M5x16", "")


def test_undo_takes_back_the_last_visit_alone(run: Run) -> None:
    run("built", "job.toml", "amp", *RECORD)
    run("built", "job.toml", "amp", "--kind", "off")
    assert run("undo", "job.toml")[0] == 0
    assert [visit.kind for visit in mounts()["amp"].visits] == ["fitted"]


def test_two_who_write_at_once_both_keep_their_visit(run: Run) -> None:
    """The second saves between the reading and the saving of the first, which is then done anew."""
    others = iter(["off"])

    def add(job: Job) -> Job:
        for kind in others:
            run("built", "job.toml", "amp", "--kind", kind)
        return with_mount(job, recorded(job.mounts[0], {"kind": "checked"}, "2026-05-04"), instead_of="amp")

    change_job(Path("job.toml"), builtin(), add)
    assert [visit.kind for visit in mounts()["amp"].visits] == ["off", "checked"]


def test_what_moved_a_screw_at_a_later_look_is_taken_of_what_it_was_tightened_to(run: Run) -> None:
    code, _, error = run("built", "job.toml", "amp", "--kind", "checked", "--retorque", "0.3 N·m")
    assert (code, "what it was tightened to is not known" in error) == (2, True)
    run("built", "job.toml", "amp", "--hole", "7.6 mm", "--torque", "1.5 N·m")
    _, out, _ = run("built", "job.toml", "amp", "--kind", "checked", "--retorque", "0.45 N·m")
    assert "Kept, n = 1: share of the clamp that stays 0.5 by the tables, so little with your readings" in out


def test_no_visit_is_ever_replaced(run: Run) -> None:
    run("built", "job.toml", "amp", *RECORD)
    before = Path("job.toml").read_bytes()
    code, out, error = run("built", "job.toml", "amp", "--torque", "2 N·m", "--replace")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert "never replaced" in error
    assert Path("job.toml").read_bytes() == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("amp",), "nothing is said"), (("ramp", "--hole", "7 mm"), "did you mean 'amp'"),
        (("amp", "--hardware", "x" * 300), "shorten it"), (("amp", "--date", "2024-05-03"), "nothing is said"),
        (("amp", "--hole", "wide"), "hole: wide is not a number and one unit"),
        (("amp", "--hole", "7.7"), "has no unit"), (("amp", "--hole", "2 N·m"), "is a torque, wanted a length"),
        (("amp", "--torque", "tight"), "torque: tight is not a number and one unit"),
        (("amp", "--torque", "7.7 mm"), "is a length, wanted a torque"),
        (("amp", "--hole", "7.7 mm", "--date", "yesterday"), "date: 'yesterday' is not a date"),
        (("amp", "--hole", "7.7 mm", "--date", "2026-02-29"), "is not a date"),
        (("amp", "--hole", "7.7 mm", "--date", "yesterday-ish"), "write year, month and day: 2026-05-03"),
        (("amp", "--kind", "lost"), "kind: "), (("amp", "--drop", "9 V"), "write mV and the current"),
        (("amp", "--drop", "9 mV at 60 A"), "only a ground joint drops anything"),
        (("amp", "--torque", "2 N·m, tight"), "torque: tight is not"),
        (("amp", "--hole", "7.7 mm", "--date", "03.05.2026"), "write year, month and day: 2026-05-03"),
    ],
)  # fmt: skip
def test_nothing_built_is_misuse(run: Run, words: tuple[str, ...], told: str) -> None:
    before = Path("job.toml").read_bytes()
    code, out, error = run("built", "job.toml", *words)
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert told in error
    assert Path("job.toml").read_bytes() == before


def test_a_day_to_come_is_no_day_of_a_record(run: Run) -> None:
    before, today = Path("job.toml").read_bytes(), date.today()
    code, out, error = run("built", "job.toml", "amp", "--hole", "7.7 mm", "--date", f"{today + timedelta(days=3)}")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert f"date: {today + timedelta(days=3)} is still to come" in error
    assert Path("job.toml").read_bytes() == before
    with pytest.raises(FastenError, match="write the day it was done, 2026-05-03 at the latest"):
        read_visit({"hole": "7 mm", "date": "2026-05-05"}, "2026-05-03")
    for day in ("2024-02-29", "2026-05-03", "2026-05-04"):  # the last is today where the sun is up already
        assert read_visit({"hole": "7 mm", "date": day}, "2026-05-03").date == day
    for now, day in (("2026-02-28", "2026-03-01"), ("2026-12-31", "2027-01-01")):
        assert read_visit({"hole": "7 mm", "date": day}, now).date == day


def test_what_was_built_is_on_the_work_sheet(run: Run) -> None:
    run("built", "job.toml", "amp", "--hole", "7.7 mm", "--note", "reamed")
    assert "reamed" in run("work", "job.toml")[1]


def test_the_drop_that_is_measured_once_all_is_on_takes_no_torque_away(run: Run) -> None:
    """A ground is tightened, then the battery is on, then it is measured: it did not come off for that."""
    asked = ("ground-lug", "--onto", "steel 1 mm", "--removed", "rarely", "--ring", "M8", "--cable", "4 AWG")
    place = ("--current", "80 A", "--edge", "30mm", "--behind", "40mm", "--reach", "both-sides", "--support", "firm")
    run("pick", *asked, *place, "--into-job", "job.toml", "--name", "ground")
    run("built", "job.toml", "ground", "--torque", "12 N·m", "--turning", "1 N·m", "--hole", "9 mm")
    out = run("built", "job.toml", "ground", "--drop", "9 mV at 60 A")[1]
    assert "Kind      checked" in out
    assert "needs the torque" not in out


READINGS = ("--spin-out", "3.1 3.2 3.0", "--tool", "same wrench", "--torque", "1 N·m")


def target(out: str) -> float:
    return float(json.loads(out)["answers"][0]["torque"]["target_nm"])


def test_readings_that_are_kept_count_wherever_the_same_joint_is_planned(run: Run) -> None:
    asked = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
    before = target(run("pick", *asked, "--json")[1])
    _, out, _ = run("built", "job.toml", "amp", *READINGS)
    assert "Spin-out, n = 3: torque that turns the body" in out
    assert target(run("pick", *asked, "--json")[1]) == before
    _, _, error = run("built", "job.toml", "amp", *READINGS, "--keep-test")
    assert "kept for every joint of this hardware, sheet and hole in" in error
    _, out, _ = run("pick", *asked, "--json")
    assert target(out) > before
    assert {"own test"} == {one["basis"] for one in json.loads(out)["sources"] if one["id"].startswith("own-test")}
    other = tuple("steel 0.9 mm" if text == "steel 0.8 mm" else text for text in asked)
    assert not [one for one in json.loads(run("pick", *other, "--json")[1])["sources"] if "own-test" in one["id"]]


def test_what_does_not_go_by_kept_readings_is_named(run: Run) -> None:
    """A sheet that measured 0.78 mm is none of 0.8 mm: what is only planned there keeps its tabled figure."""
    asked = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
    run("pick", *asked, "--into-job", "job.toml", "--name", "second")
    assert "not for" not in run("built", "job.toml", "amp", *READINGS, "--keep-test")[2]
    error = run("built", "job.toml", "amp", *READINGS, "--sheet", "0.78 mm", "--keep-test")[2]
    assert "; not for second, of the same part in another sheet or hole: test that too" in " ".join(error.split())


def test_readings_kept_twice_count_once(run: Run, tmp_path: Path) -> None:
    for _ in range(2):
        run("built", "job.toml", "amp", *READINGS, "--keep-test")
    kept = list(tmp_path.rglob("tests.toml"))
    assert len(kept) == 1
    assert kept[0].read_text(encoding="utf-8").count("[[test]]") == 1


@pytest.mark.parametrize("wrong", ["", "kind = 3", "[[test]]\nread = 1", '[[test]]\nread = "spin-out"\nreadings = [0]'])
def test_a_file_of_tests_that_is_broken_is_left_out_and_said(run: Run, tmp_path: Path, wrong: str) -> None:
    run("built", "job.toml", "amp", *READINGS, "--keep-test")
    path = next(tmp_path.rglob("tests.toml"))
    head = "" if not wrong or wrong.startswith("kind") else 'format = 1\nkind = "tests"\n'
    path.write_text(head + wrong, encoding="utf-8")
    code, _, error = run("ready", "job.toml")
    assert code in (0, 1)
    assert "your own test pieces are left out: " in error
    assert "Traceback" not in error


def test_nothing_read_is_nothing_to_keep(run: Run) -> None:
    code, out, error = run("built", "job.toml", "amp", "--torque", "1 N·m", "--keep-test")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
