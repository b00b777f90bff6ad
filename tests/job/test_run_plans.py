"""What the plans of runs of a job say at the car: cautions and steps."""

from dataclasses import replace

import pytest

from fasten.job.entries import entries
from fasten.job.wiring.runs import named_run, run_choices
from fasten.job.words import CableRun, Mount, Recorded
from fasten.job.work import work_sheet
from fasten.report.job.work import work_document
from fasten.report.wire.as_text import wire_text
from fasten.wiring.wired import Wired
from fasten.wiring.words import RunWhere

from .test_runs import JOB, TABLES, THROUGH, found


def test_two_grounds_at_one_stud_say_so_and_one_alone_does_not() -> None:
    """Common practice, no source: one power lug a stud."""
    texts = {name: [one.text for one in choice.plan.cautions] for name, choice in found().items() if choice.plan}
    assert not [text for one in texts.values() for text in one if "lugs end at" in text]
    both = replace(
        JOB, runs=(*JOB.runs, replace(next(run for run in JOB.runs if run.name == "mono ground"), name="second ground"))
    )
    plan = named_run(run_choices(both, TABLES), "second ground").plan
    assert plan is not None
    assert any(caution.text.startswith("2 lugs end at 'ground'") for caution in plan.cautions)


def shared(*runs: CableRun) -> dict[str, tuple[tuple[str, int], ...]]:
    """The studs that each run shares, in a vehicle with a second battery."""
    battery = Mount("spare", (("item", "second-battery"), ("onto", "steel 1 mm"), ("removed", "rarely")))
    choices = run_choices(replace(JOB, mounts=(*JOB.mounts, battery), runs=runs), TABLES)
    return {one.name: one.answer.sizing.run.at_studs for one in choices if one.answer is not None}


def cable(name: str, from_: str, carries: str, to: str = "set screw") -> CableRun:
    return CableRun(name, (("carries", carries), ("from", from_), ("to", to), ("length", "3 m")))


def test_a_power_lug_at_a_battery_stud_has_it_to_itself() -> None:
    """As at a ground lug: cable from 8 AWG up is power, and its lug shares the stud with none; light lugs may share."""
    stud, light = "battery stud M8", cable("light", "battery stud M8", "5 A")
    both = {"left": (("battery +", 2),), "right": (("battery +", 2),)}
    assert shared(cable("left", stud, "60 A"), cable("right", stud, "60 A")) == both
    assert shared(cable("left", stud, "60 A"), light)["light"] == (("battery +", 2),)
    assert shared(replace(light, name="other"), light) == {"other": (), "light": ()}
    assert shared(cable("left", stud, "60 A")) == {"left": ()}


def test_a_post_with_outputs_another_pole_and_another_battery_are_not_shared() -> None:
    post = "battery post +"
    assert not any(shared(cable("left", post, "60 A"), cable("right", post, "60 A")).values())
    one = cable("left", "battery stud M8", "60 A")
    assert not any(shared(one, cable("right", "battery stud M6", "60 A")).values())
    assert not any(shared(one, cable("ground", "battery stud M8 -", "60 A", to="body M8")).values())
    assert not any(shared(one, cable("far", "spare, battery stud M8", "60 A")).values())
    two = cable("far", "spare, battery stud M8", "60 A"), cable("farther", "spare, battery stud M8", "60 A")
    assert shared(*two) == dict.fromkeys(("far", "farther"), (("spare, battery +", 2),))


def test_every_loaded_run_has_a_line_for_its_millivolts() -> None:
    """Common practice: the drop is measured at full current along each lead, also where it has no fuse of its own."""
    for name, choice in found().items():
        assert choice.plan is not None
        assert choice.answer is not None
        steps = [step.text for step in choice.plan.steps if "mV: ______" in step.text]
        assert len(steps) == (choice.answer.sizing.conductor is not None and choice.answer.sizing.lead is None), name


def test_each_run_section_and_hole_has_a_page_with_its_name_and_what_it_is() -> None:
    sheet = work_sheet(THROUGH, entries(THROUGH, TABLES), None, TABLES)
    sections = {one.heading: one for one in work_document(sheet, 80).sections}
    pages = [one for one in sections.values() if one.page and " of " in one.heading]
    assert [one.heading.partition(": ")[2] for one in pages] == [one.name for one in sheet.entries]
    said = {one.heading.partition(": ")[2]: one.notes for one in pages}
    assert said["trunk"] == (
        "1/0 AWG copper, 175 A fuse: battery + to block, 5 m along the route.",
        "By Bonnet, bulkhead.",
    )
    assert said["bonnet"] == ("1 run, 5 lined clamps: trunk.",)
    assert all(notes for notes in said.values())


def test_the_main_fuse_goes_in_last_where_there_are_runs() -> None:
    last = work_sheet(THROUGH, entries(THROUGH, TABLES), None, TABLES).last
    assert ["fuse" in one.step.text for one in last] == [False, False, False, True, False]
    without = replace(THROUGH, runs=(), sections=(), holes=())
    assert len(work_sheet(without, entries(without, TABLES), None, TABLES).last) == 4


def test_the_hotter_place_counts_and_a_section_of_no_place_is_open() -> None:
    """Also where the run says another; nothing of a section without a place is taken for cool."""
    said = replace(THROUGH.runs[0], said=(*THROUGH.runs[0].said, ("where", "underfloor")))
    hot = named_run(run_choices(replace(THROUGH, runs=(said, *THROUGH.runs[1:])), TABLES), "trunk").answer
    assert hot is not None
    assert hot.sizing.run.where is RunWhere.ENGINE_BAY
    by_no_bulkhead = (replace(THROUGH.runs[0], holes=()), *THROUGH.runs[1:])
    nowhere = replace(THROUGH, sections=(Recorded("bonnet", (("length", "1.2 m"),)),), runs=by_no_bulkhead)
    answer = named_run(run_choices(nowhere, TABLES), "trunk").answer
    assert answer is not None
    assert "where" in [check.id for check in answer.checks]
    assert "where" not in [one.check for one in answer.confirms]
    plan = next(entry.plan for entry in entries(nowhere, TABLES) if entry.name == "bonnet")
    assert plan is not None
    assert any("where bonnet lies" in need for need in plan.unresolved)


def test_the_label_of_a_run_says_how_tight_its_ends_are_and_nothing_where_none_is_turned() -> None:
    """As its page does: a torque that is there is none that is not."""
    sheet = work_sheet(THROUGH, entries(THROUGH, TABLES), None, TABLES)
    labels = next(one for one in work_document(sheet, 80).sections if one.heading == "Bag labels")
    said = {row[0]: row[4] for row in labels.rows}
    assert "N·m" in said["mono ground"]
    assert said["bonnet"] == ""
    assert not [line for card in labels.lines for line in card if card[0].startswith("bonnet") and "torque" in line]


FAR = cable("far", "battery stud M8", "96.6 A")
UNDERFLOOR = Recorded("floor", (("where", "underfloor"), ("length", "3 m")))


def answer_of(said: CableRun, *sections: Recorded) -> tuple[Wired, str]:
    """What a run alone gets, and its cautions."""
    choice = named_run(run_choices(replace(JOB, sections=sections, runs=(said,)), TABLES), said.name)
    assert choice.answer is not None
    assert choice.plan is not None
    return choice.answer, " ".join(one.text for one in choice.plan.cautions)


def test_a_run_from_the_battery_says_that_the_cabin_is_assumed_and_what_the_engine_bay_would_take() -> None:
    """6.5 m of 2 AWG lose 0.41 V at 30 °C; at 50 °C they lose more than 0.414 V, and 1/0 AWG is wanted."""
    said = tuple((name, "6.5 m" if name == "length" else text) for name, text in FAR.said)
    far, (hot, _) = replace(FAR, said=said), answer_of(replace(FAR, said=(*said, ("where", "engine-bay"))))
    cool, text = answer_of(far)
    assert (cool.sizing.size.name, hot.sizing.size.name) == ("2 AWG", "1/0 AWG")
    assert "so it counts as in the cabin" in text
    assert f"there it wants {hot.sizing.size.name}" in text
    assert "there it wants the same cable and fuse" in answer_of(FAR)[1]
    assert "Assumed  cabin, 30 °C" in wire_text(cool, 80)


def test_where_the_place_is_said_or_there_is_no_battery_nothing_is_assumed() -> None:
    assert "in the cabin" not in answer_of(replace(FAR, said=(*FAR.said, ("where", "cabin"))))[1]
    assert "in the cabin" not in answer_of(replace(FAR, sections=("floor",)), UNDERFLOOR)[1]
    assert "in the cabin" not in answer_of(cable("far", "stud M6", "20 A"))[1]
    assert "in the cabin" not in answer_of(cable("far", "connector", "remote"))[1]


HOT_LUG = Mount("bay ground", (("item", "ground-lug"), ("onto", "steel 1 mm"), ("where", "engine-bay")))
HOT_HOLDER = Mount("main fuse", (("item", "fuse-holder"), ("onto", "steel engine-bay")))
BULKHEAD = Recorded("front bulkhead", (("through", "steel 1 mm"),))


@pytest.mark.parametrize(
    ("run", "mounts", "holes"),
    [
        (cable("minus", "battery stud M8 -", "96.6 A", "bay ground"), (HOT_LUG,), ()),
        (cable("far", "main fuse, stud M8", "96.6 A", "set screw"), (HOT_HOLDER,), ()),
        (cable("far", "battery stud M8", "96.6 A", "set screw"), (HOT_HOLDER,), ()),
        (replace(FAR, holes=("front bulkhead",)), (), (BULKHEAD,)),
    ],
)
def test_a_run_with_an_end_in_the_engine_bay_counts_as_there(
    run: CableRun, mounts: tuple[Mount, ...], holes: tuple[Recorded, ...]
) -> None:
    """At 50 °C, as where it is said, and it says that this is assumed; what the user says of the place counts first."""
    job = replace(JOB, mounts=(*mounts, *JOB.mounts), holes=holes, runs=(run,))
    answer = named_run(run_choices(job, TABLES), run.name).answer
    assert answer is not None
    assert answer.sizing.run.where is RunWhere.ENGINE_BAY
    assert "Assumed  engine-bay, 50 °C along all of it, as an end of it is there" in " ".join(
        wire_text(answer, 80).split("\n")
    )
    said = replace(run, said=(*run.said, ("where", "cabin")))
    told = named_run(run_choices(replace(job, runs=(said,)), TABLES), run.name).answer
    assert told is not None
    assert (told.sizing.run.where, told.sizing.run.place_assumed) == (RunWhere.CABIN, False)


def test_a_run_at_a_battery_that_lies_in_the_cabin_is_not_in_the_engine_bay() -> None:
    """A holder in the engine bay sits beside the battery there, not beside one that the job has elsewhere."""
    spare = Mount("spare", (("item", "second-battery"), ("onto", "steel 1 mm"), ("where", "cabin")))
    job = replace(JOB, mounts=(HOT_HOLDER, spare, *JOB.mounts), runs=(cable("far", "spare, battery stud M8", "50 A"),))
    answer = named_run(run_choices(job, TABLES), "far").answer
    assert answer is not None
    assert answer.sizing.run.where is RunWhere.CABIN
