"""What is changed of a job by name: fields, names and what goes by them, order, what is taken out and what is held."""

from dataclasses import replace
from pathlib import Path

import pytest

from fasten.errors import FastenError
from fasten.job.change import (
    moved,
    read_place,
    read_settings,
    removed,
    renamed,
    with_fields,
    with_head,
    with_run_fields,
)
from fasten.job.edit import find_mount
from fasten.job.keep import advice_of, kept, let_go
from fasten.job.pins import pin_of, pin_of_joint
from fasten.job.start.start import started
from fasten.job.start.wanted import read_wanted
from fasten.job.store.files import PREVIOUS
from fasten.job.store.storage import load_job, save_job
from fasten.job.store.undo import taken_back
from fasten.job.words import Job, Mount

from .test_runs import TABLES

JOB = started(Job("", "", "", ()), read_wanted("board with one amplifier, power", TABLES), TABLES)
NAMES = [mount.name for mount in JOB.mounts]


def test_a_rename_goes_for_all_that_names_it() -> None:
    job = renamed(renamed(JOB, "board amplifier", "sub amp", TABLES), "BOARD", "rear board", TABLES)
    ends = {dict(run.said)[end] for run in job.runs for end in ("from", "to")}
    assert "sub amp" in ends
    assert "board amplifier" not in ends
    assert dict(find_mount(job, "sub amp").said)["on-board"] == "rear board"


def test_a_rename_is_refused_where_the_name_is_taken_but_not_for_its_own_letters() -> None:
    assert find_mount(renamed(JOB, "board", "Board", TABLES), "board").name == "Board"
    for taken in ("fuse holder", "board amplifier power"):
        with pytest.raises(FastenError, match="already"):
            renamed(JOB, "board", taken, TABLES)


def test_a_run_is_renamed_and_removed_by_its_name() -> None:
    job = renamed(JOB, "board amplifier power", "main power", TABLES)
    assert "main power" in {run.name for run in job.runs}
    left, namers = removed(job, "main power", TABLES)
    assert (len(left.runs), namers) == (len(JOB.runs) - 1, ())


def test_what_still_names_a_mount_point_that_is_removed_is_named() -> None:
    left, notes = removed(JOB, "board amplifier", TABLES)
    assert "board amplifier" not in {mount.name for mount in left.mounts}
    namers = {run.name for run in JOB.runs if "board amplifier" in dict(run.said).values()}
    assert [all(name in note for name in namers) for note in notes] == [True]
    assert "board amplifier" in removed(JOB, "board", TABLES)[1][0]
    with pytest.raises(FastenError, match="no mount point"):
        removed(JOB, "kayak", TABLES)


def test_a_mount_point_is_moved_to_a_place_that_is_there() -> None:
    for place in (1, 2, len(NAMES)):
        assert [mount.name for mount in moved(JOB, "fuse holder", place).mounts].index("fuse holder") == place - 1
    for place in (0, len(NAMES) + 1):
        with pytest.raises(FastenError, match="no place"):
            moved(JOB, "board", place)
    for text in ("first", "-1", "1.5", "9" * 50, ""):
        with pytest.raises(FastenError, match="no place"):
            read_place(text)


def test_settings_are_fields_with_values_each_once() -> None:
    assert read_settings(["mass=6 kg", "--pattern=row 50 mm", "note=a=b", "edge="]) == {
        "mass": "6 kg", "pattern": "row 50 mm", "note": "a=b", "edge": "",
    }  # fmt: skip
    for wrong in (["mass"], ["=6 kg"], ["mass=1 kg", "mass=2 kg"]):
        with pytest.raises(FastenError):
            read_settings(wrong)


def test_a_question_that_could_be_answered_is_not_made_one_that_cannot() -> None:
    with pytest.raises(FastenError, match="usual pattern"):
        with_fields(JOB, "fuse holder", {"fixings": "5"}, TABLES, None)
    unfinished = Job("", "", "", (Mount("amp", (("item", "amplifier"),)),))
    assert dict(with_fields(unfinished, "amp", {"mass": "6 kg"}, TABLES, None).now.said)["mass"] == "6 kg"


def test_what_is_held_goes_with_the_question_it_was_held_for() -> None:
    held = kept(JOB, "fuse holder", "1", TABLES)[0]
    assert with_fields(held, "fuse holder", {"note": "beside it"}, TABLES, None).now.pin is not None
    assert with_fields(held, "fuse holder", {"mass": "0.3 kg"}, TABLES, None).now.pin is None


def test_an_answer_is_held_by_its_hardware_and_not_by_its_number() -> None:
    answers = advice_of(JOB, "fuse holder", TABLES).answers
    job, title = kept(JOB, "fuse holder", "2", TABLES)
    pin = find_mount(job, "fuse holder").pin
    assert (pin, title) == (pin_of(answers[1]), answers[1].title)
    assert pin == pin_of_joint(answers[1].proposal.joint)
    assert find_mount(let_go(job, "fuse holder"), "fuse holder").pin is None
    for number in ("0", str(len(answers) + 1), "one", ""):
        with pytest.raises(FastenError, match="no answer"):
            kept(JOB, "fuse holder", number, TABLES)


def test_the_head_of_a_job_and_its_wiring_are_set_and_taken_back() -> None:
    job = with_head(JOB, {"title": "Rear", "vehicle": "an estate", "note": "soon", "to-dash": ""}, TABLES)
    assert (job.title, job.vehicle, job.note) == ("Rear", "an estate", "soon")
    assert "to-dash" not in dict(job.electrics)
    assert "to-dash" not in job.preset
    with pytest.raises(FastenError, match="not an entry of a job"):
        with_head(JOB, {"colour": "red"}, TABLES)


def test_fields_of_a_run_are_set_and_what_it_goes_through() -> None:
    run = JOB.runs[0]
    job = with_run_fields(JOB, run, {"length": "4 m", "sections": " power cable,", "note": "x"}, TABLES)
    now = job.runs[0]
    assert (dict(now.said)["length"], now.sections, now.note) == ("4 m", ("power cable",), "x")
    for wrong in ({"length": "far"}, {"colour": "red"}, {"sections": "sill"}, {"holes": "bulkhead"}):
        with pytest.raises(FastenError):
            with_run_fields(JOB, run, wrong, TABLES)


def test_the_last_change_is_taken_back_by_the_copy_beside_the_file_and_made_again(tmp_path: Path) -> None:
    path = tmp_path / "car.toml"
    first = save_job(JOB, path)
    with pytest.raises(FastenError, match="no change of the file is kept"):
        taken_back(load_job(path, TABLES), TABLES)
    second = replace(JOB, title="second")
    save_job(second, path, first.stamp)
    assert taken_back(load_job(path, TABLES), TABLES).title == JOB.title
    assert load_job(path, TABLES).value == JOB
    assert taken_back(load_job(path, TABLES), TABLES).title == "second"
    path.with_name(path.name + PREVIOUS).write_text("broken", encoding="utf-8")
    with pytest.raises(FastenError):
        taken_back(load_job(path, TABLES), TABLES)
    assert load_job(path, TABLES).value.title == "second"


@pytest.mark.parametrize("to", ["amplifier, banane", "nowhere", "amplifier, processor"])
def test_an_end_that_cannot_be_read_is_refused_when_it_is_set(to: str) -> None:
    job = started(Job("", "", "", ()), read_wanted("amplifier, processor, power", TABLES), TABLES)
    run = job.runs[0]
    with pytest.raises(FastenError, match="is no end of a run"):
        with_run_fields(job, run, {"to": to}, TABLES)
    assert dict(with_run_fields(job, run, {"to": "amplifier, set screw"}, TABLES).runs[0].said)["to"].endswith("screw")
    with pytest.raises(FastenError, match="xyz"):
        with_head(job, {"battery": "xyz"}, TABLES)


def test_the_note_of_a_proposed_length_goes_with_the_proposal() -> None:
    job = started(Job("", "", "", ()), read_wanted("amplifier, power", TABLES), TABLES)
    run = next(one for one in job.runs if one.name == "amplifier ground")
    assert "measure" in run.note
    kept = with_run_fields(job, run, {"to": "main ground"}, TABLES)
    assert next(one for one in kept.runs if one.name == run.name).note == run.note
    said = with_run_fields(job, run, {"length": "0.5 m"}, TABLES)
    assert next(one for one in said.runs if one.name == run.name).note == ""
