"""What of the runs is to be measured, seen or said stands in the order of what it changes, and is accepted at once."""

from csv import DictReader
from dataclasses import replace
from io import StringIO

import pytest

from fasten.errors import FastenError
from fasten.job.edit import changed_run
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.wiring.accept import with_accepted
from fasten.job.wiring.runs import run_choices
from fasten.job.wiring.settle import settled, to_settle
from fasten.job.wiring.ways import way_choices
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.report.forms.as_csv import document_csv
from fasten.report.wire.runs import runs_document, runs_json

from .test_runs import JOB, ON, TABLES


def things(job: Job) -> list[tuple[str, str]]:
    return [(one.title, ", ".join(one.runs)) for one in to_settle(run_choices(job, TABLES))]


def test_what_stops_an_end_comes_first_then_what_changes_every_size() -> None:
    titles = [title for title, _ in things(JOB)]
    order = ["Terminal", "Own fuses of the amplifier", "Outside of the cable", "Bore of the set screw"]
    first = [titles.index(title) for title in order]
    assert first == sorted(first)


def test_one_cable_is_measured_once_for_all_runs_of_it() -> None:
    outside = [runs for title, runs in things(JOB) if title == "Outside of the cable"]
    assert len(outside) == len(set(outside)) > 0
    twice = replace(JOB, runs=(*JOB.runs, replace(JOB.runs[2], name="another ground")))
    assert any(
        "mono ground, another ground" in runs for title, runs in things(twice) if title == "Outside of the cable"
    )


def test_a_chosen_cable_without_a_mark_asks_for_what_is_printed_on_it() -> None:
    chosen = changed_run(JOB, "mono power", replace(JOB.runs[1], said=(*JOB.runs[1].said, ("cable", "4 AWG"))))
    asked = [one for one in to_settle(run_choices(replace(chosen, cables=()), TABLES)) if one.word == "insulation"]
    assert [one.runs for one in asked] == [("mono power",)]
    assert "75" in asked[0].needs


def test_what_is_accepted_is_accepted_in_every_run_and_taken_back_in_every_run() -> None:
    found = run_choices(JOB, TABLES)
    thing = next(one for one in to_settle(found) if one.id.startswith("bore"))
    accepted = settled(JOB, found, thing.id, accept=True)
    assert {run.name for run in accepted.runs if thing.id in run.accepted} == set(thing.runs)
    after = run_choices(accepted, TABLES)
    assert next(one for one in to_settle(after) if one.id == thing.id).accepted
    assert thing.id not in [one["id"] for one in runs_json(after)["to_settle"]]
    assert settled(accepted, after, thing.id, accept=False) == JOB


def test_a_terminal_is_said_in_the_question_and_by_no_look() -> None:
    job = replace(JOB, runs=(*JOB.runs, CableRun("feed", (("carries", "5 A"), ("from", "block"), ("to", "four, bare"),
                                                          ("length", "1 m")))))  # fmt: skip
    ends = [one for one in to_settle(run_choices(job, TABLES)) if one.title == "Terminal"]
    assert {one.id for one in ends} == {""}
    assert [one.word for one in ends if one.runs == ("feed",)] == ["from"]


def test_the_list_of_runs_says_what_changes_most_first() -> None:
    found = run_choices(JOB, TABLES)
    section = next(one for one in runs_document(JOB, found).sections if one.heading.startswith("To measure"))
    assert [row[0] for row in section.rows] == [one.title for one in to_settle(found)]


def test_a_device_that_takes_one_cable_by_a_screw_takes_the_other_so_too_and_is_not_asked_twice() -> None:
    ground = changed_run(JOB, "mono ground", replace(JOB.runs[2], said=(("from", "mono"), *JOB.runs[2].said[1:])))
    assert not any(title == "Terminal" and "mono ground" in runs for title, runs in things(ground))
    nowhere = changed_run(ground, "mono power", replace(JOB.runs[1], said=(("from", "block"), ("to", "mono"),
                                                                          ("length", "0.6 m"))))  # fmt: skip
    assert any(title == "Terminal" and "mono ground" in runs for title, runs in things(nowhere))
    assert any(title == "Terminal" and "remote" in runs for title, runs in things(JOB))  # a light lead has another one


def test_what_is_accepted_of_a_hole_stands_in_the_file_and_proves_it() -> None:
    hole = Recorded("bulkhead", (("through", "steel 0.9 mm"), ("existing", "20 mm")))
    trunk = replace(JOB.runs[0], holes=("bulkhead",))
    job = replace(JOB, holes=(hole,), runs=(trunk, *JOB.runs[1:]))
    accepted = with_accepted(job, "Bulkhead", "all", TABLES)
    assert [one.partition(":")[0] for one in accepted.holes[0].accepted] == ["grommet"]
    assert read_job(job_text(accepted).encode(), "job.toml", TABLES)[0] == accepted
    found = run_choices(accepted, TABLES)
    (way,) = way_choices(accepted, found, TABLES)
    assert way.plan is not None
    assert way.plan.proven
    listed = to_settle(found, (way,))
    assert [one.accepted for one in listed if one.runs == ("bulkhead",)] == [True]
    taken_back = settled(accepted, found, accepted.holes[0].accepted[0], accept=False, ways=(way,))
    assert taken_back == job
    with pytest.raises(FastenError, match="accepted by the id"):
        with_accepted(job, "bulkhead", "bore", TABLES)


def test_sections_and_holes_stand_in_the_json_of_the_runs_that_go_through_them() -> None:
    job = replace(
        JOB, sections=(Recorded("bonnet", (("length", "1.2 m"), ("where", "engine-bay"))),),
        holes=(Recorded("bulkhead", ()), Recorded("floor", ())),
        runs=(replace(JOB.runs[0], sections=("bonnet",), holes=("bulkhead",)), *JOB.runs[1:]),
    )  # fmt: skip
    found = run_choices(job, TABLES)
    plain = runs_json(found, (), way_choices(job, found, TABLES))
    assert [one["name"] for one in plain["holes"]] == ["bulkhead", "floor"]
    trunk = plain["runs"][0]
    assert [(one["name"], one["where"]) for one in trunk["sections"]] == [("bonnet", "engine-bay")]
    assert [one["name"] for one in trunk["holes"]] == ["bulkhead"]
    assert trunk["holes"][0]["bits_mm"] == [3.0, 20.0]
    assert (plain["runs"][1]["sections"], plain["runs"][1]["holes"]) == ([], [])


def test_how_a_loudspeaker_of_the_job_takes_a_cable_is_seen_at_its_tabs() -> None:
    driver = Mount("left door driver", (("item", "speaker"), *ON))
    run = CableRun(
        "x", (("carries", "loudspeaker 75 W 4 ohm"), ("from", "four"), ("to", driver.name), ("length", "3 m"))
    )
    job = replace(JOB, mounts=(*JOB.mounts, driver), runs=(run,))
    asked = [one.needs for one in to_settle(run_choices(job, TABLES)) if one.title == "Terminal"]
    assert any("left door driver" in needs and "measure its tabs" in needs for needs in asked)
    assert not any("stud" in needs for needs in asked if "left door driver" in needs)


def test_sections_and_holes_keep_their_names_in_a_spreadsheet() -> None:
    job = replace(
        JOB, sections=(Recorded("sill", (("length", "3 m"), ("where", "channel"))),), holes=(Recorded("bulkhead", ()),),
        runs=(replace(JOB.runs[0], sections=("sill",), holes=("bulkhead",)), *JOB.runs[1:]),
    )  # fmt: skip
    found = run_choices(job, TABLES)
    text = document_csv(runs_document(job, found, (), way_choices(job, found, TABLES)))
    rows = [row for row in DictReader(StringIO(text)) if row["Section"] == "Sections and holes"]
    assert [row["What"] for row in rows] == ["sill", "bulkhead"]
    assert [row["Gets"].partition(",")[0] for row in rows] == ["1 run", "1 run through sheet"]
