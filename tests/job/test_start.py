"""A job from a few words: what is made, that all of it is preset, and that each row of the tables has an answer."""

from dataclasses import replace
from time import perf_counter

import pytest

from fasten.catalog.installs import INSTALL_MOUNTS, INSTALL_RUNS, INSTALLS, InstallMount, said_of
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import choice
from fasten.job.entries import entries, listed_choices
from fasten.job.list.hardware import hardware
from fasten.job.preset import PROPOSED, proposed_onto
from fasten.job.ready import ready
from fasten.job.start.same import twins
from fasten.job.start.start import NEVER, check_new, install_named, started, unconfirmed, with_onto_confirmed
from fasten.job.start.wanted import read_wanted
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import run_choices
from fasten.job.words import Job, Mount, Recorded
from fasten.model import Origin
from fasten.question.fields import NAMES, field_named

TABLES = builtin()
EMPTY = Job("", "", "", ())
MOUNTS = TABLES.rows(INSTALL_MOUNTS)


def start(text: str, job: Job = EMPTY) -> Job:
    return started(job, read_wanted(text, TABLES), TABLES)


def made(row: InstallMount) -> Mount:
    """The mount point of a row, the first of it."""
    job = start(TABLES.need(INSTALLS, row.install).said_as[0])
    return next(mount for mount in job.mounts if mount.said[:2] == (("item", row.mounted), ("onto", row.onto)))


@pytest.mark.parametrize("row", MOUNTS, ids=lambda row: row.name())
def test_every_row_has_a_first_answer(row: InstallMount) -> None:
    """Somebody who starts with it has something to buy before anything is measured."""
    found = choice(made(row), TABLES)
    assert found.answer is not None, found.reason


@pytest.mark.parametrize("row", MOUNTS, ids=lambda row: row.name())
def test_every_row_says_fields_that_read_and_none_that_is_found_at_the_vehicle(row: InstallMount) -> None:
    said = said_of(row.said)
    assert not set(said) & {*NEVER, "item", "onto", "removed"}
    for name, text in said.items():
        field_named(name).read(text, TABLES)


def test_every_row_asks_for_fields_that_are_there_and_leaves_out_none_that_it_asks() -> None:
    for row in TABLES.rows(INSTALLS):
        assert {*row.ask, *row.measure, *row.leave} <= set(NAMES), row.install
        assert not set(row.leave) & {*row.ask, *row.measure}, row.install
        assert set(row.measure) <= set(NEVER), row.install
        assert "onto" in row.ask, row.install
        assert any(mount.install == row.install for mount in MOUNTS), row.install


def test_pairs_are_left_and_right_at_front_and_rear() -> None:
    names = [mount.name for mount in start("four door speakers, two amplifiers").mounts]
    assert names == [
        "front left door adapter", "front right door adapter", "front left door driver", "front right door driver",
        "rear left door adapter", "rear right door adapter", "rear left door driver", "rear right door driver",
        "left amplifier", "right amplifier",
    ]  # fmt: skip


def test_names_that_are_taken_get_a_number_and_stay_apart() -> None:
    job = start("amplifier, box", start("amplifier, box, board"))
    names = [mount.name for mount in job.mounts]
    assert names[-2:] == ["amplifier 2", "enclosure 2"]
    assert len(set(names)) == len(names)


def test_left_and_right_are_twins_and_so_are_brackets_but_not_front_and_rear() -> None:
    job = start("four doors, false floor, two amps")
    linked = {mount.name: {one.name for one in twins(job, mount)} for mount in job.mounts}
    assert linked["front left door driver"] == {"front right door driver"}
    assert linked["frame bracket 1"] == {"frame bracket 2", "frame bracket 3", "frame bracket 4"}
    assert linked["left amplifier"] == set()


def test_what_stands_on_a_board_names_the_board_it_was_made_with() -> None:
    job = start("two boards with one amplifier and processor")
    boards = {mount.name: dict(mount.said).get("on-board") for mount in job.mounts}
    assert boards["left board amplifier"] == "left board"
    assert boards["right board processor"] == "right board"


def test_every_value_of_an_install_is_preset_in_the_file_and_in_the_answer() -> None:
    job = start("amplifier")
    (mount,) = job.mounts
    assert mount.preset == ("onto", "removed", "panel")
    kept, _ = read_job(job_text(job).encode(), "car.toml", TABLES)
    assert kept.mounts == job.mounts
    found = choice(mount, TABLES)
    assert found.point is not None
    origins = dict(found.point.origins)
    assert {origins[name] for name in ("material", "place", "removed", "panel")} == {Origin.PRESET}
    assert origins["item"] is Origin.GIVEN


def test_the_job_is_not_ready_until_every_substrate_is_confirmed() -> None:
    job = start("two amplifiers, ground")
    found = entries(job, TABLES)
    verdict = ready(hardware(job, found, None, TABLES), found)
    assert {entry.mount for entry in verdict.unproven} == {mount.name for mount in job.mounts}
    assert all(any("steel floor is only proposed" in need for need in entry.needs) for entry in verdict.unproven)
    first = with_onto_confirmed(job, "seat-amplifier")
    assert [mount.name for mount in unconfirmed(first)] == ["main ground"]
    whole = with_onto_confirmed(job)
    assert not unconfirmed(whole)
    checks = {check.id for entry in entries(whole, TABLES) if entry.plan for check in entry.plan.checks}
    assert PROPOSED not in checks


def test_power_makes_fuse_holder_clamps_and_ground_and_the_runs_that_are_lacking() -> None:
    job = start("power, two amplifiers")  # said before what it feeds: the runs come last all the same
    assert {mount.name for mount in job.mounts} >= {"fuse holder", "power cable clamps", "main ground"}
    names = {run.name for run in job.runs}
    assert names >= {"left amplifier power", "right amplifier ground", "left amplifier remote"}
    assert all(run.preset for run in job.runs)
    assert set(job.preset) == {name for name, _ in job.electrics} != set()
    (section,) = job.sections
    assert {run.name for run in job.runs if section.name in run.sections} == {"distribution block trunk"}
    assert job.mounts[-1] == Mount("distribution block", (("item", "distribution-block"),)), "onto what is not known"
    kept, _ = read_job(job_text(job).encode(), "car.toml", TABLES)
    assert (kept.runs, kept.sections, kept.electrics, kept.preset) == (
        job.runs, job.sections, job.electrics, job.preset
    )  # fmt: skip


def test_what_is_added_to_a_job_that_has_its_power_cable_gets_its_runs_and_nothing_else_does() -> None:
    job = start("power, amplifier")
    kept = tuple(run for run in job.runs if run.name != "amplifier remote")  # it was taken out on purpose
    more = start("box, left amp", replace(job, runs=kept))
    names = {run.name for run in more.runs}
    assert {"left amplifier power", "left amplifier ground", "left amplifier remote"} <= names
    assert "amplifier remote" not in names
    assert len(more.sections) == 1
    assert "left amplifier power" in {run.name for run in more.runs if run.sections}


def test_amplifiers_that_are_added_get_a_block_of_their_own_and_what_has_no_run_on_purpose_gets_none() -> None:
    job = start("power, amplifier")
    kept = tuple(run for run in job.runs if run.name not in ("amplifier power", "amplifier ground"))
    more = start("two amplifiers", replace(job, runs=kept))
    ends = {run.name: (dict(run.said)["from"], dict(run.said)["to"]) for run in more.runs}
    block = more.mounts[-1].name
    assert ends["distribution block trunk"] == ("battery stud M8", block)
    assert {name for name, (from_, _) in ends.items() if from_ == block} == {
        "left amplifier power", "right amplifier power",
    }  # fmt: skip
    assert "amplifier ground" not in ends


def test_the_clamps_of_the_cable_are_those_of_its_section() -> None:
    """The section counts the clamps, and the mount point of its name says what they are screwed to."""
    job = start("amplifier, power")
    powered = tuple(
        replace(mount, said=(*mount.said, ("power", "600 W class D"))) if mount.name == "amplifier" else mount
        for mount in job.mounts
    )
    plans = {entry.name: entry.plan for entry in entries(replace(job, mounts=powered), TABLES)}
    section = plans["power cable"]
    assert section is not None
    assert not [check for check in section.checks if check.id == "clamps"]
    assert plans["amplifier power"] is not None


def test_the_cable_of_a_run_takes_the_place_of_the_preset_one_at_its_ground_lug() -> None:
    job = start("amplifier, power")
    powered = tuple(
        replace(mount, said=(*mount.said, ("power", "1500 W class D"))) if mount.name == "amplifier" else mount
        for mount in job.mounts
    )
    whole = with_runs(replace(job, mounts=powered), run_choices(replace(job, mounts=powered), TABLES))
    lug = next(mount for mount in whole.mounts if mount.name == "main ground")
    assert dict(lug.said)["cable"] != "25 mm2"
    assert "cable" not in lug.preset


def test_installs_say_lengths_that_read() -> None:
    for row in TABLES.rows(INSTALL_RUNS):
        job = start(TABLES.need(INSTALLS, row.install).said_as[0])
        kept, _ = read_job(job_text(job).encode(), "car.toml", TABLES)
        assert kept.electrics == job.electrics


def test_a_job_that_is_there_is_added_to_only_where_that_is_said() -> None:
    check_new(EMPTY, add=False)
    job = start("amplifier")
    check_new(job, add=True)
    with pytest.raises(FastenError, match="1 mount points already"):
        check_new(job, add=False)


def test_an_install_of_the_job_goes_by_any_of_its_words() -> None:
    job = start("two amplifiers")
    for name in ("seat-amplifier", "Seat Amplifier", "amp"):
        found = install_named(name, job, TABLES)
        assert found is not None
        assert found.install == "seat-amplifier"
    assert install_named("sub box", job, TABLES) is None


def test_a_proposed_substrate_is_one_only_as_long_as_it_is_not_said() -> None:
    (mount,) = start("amplifier").mounts
    assert proposed_onto(mount) == "steel floor"
    assert proposed_onto(replace(mount, preset=("removed",))) == ""


def test_twelve_mount_points_start_in_under_a_third_of_a_second() -> None:
    start("amplifier")  # what is read once has been
    begun = perf_counter()
    job = start("two amplifiers, four door speakers, sub box, ground")
    job_text(job)
    assert len(job.mounts) == 12
    assert perf_counter() - begun < 0.3


def test_the_clamps_of_a_section_follow_its_length_and_are_left_out_in_a_channel() -> None:
    """One way to hold a cable: clamps as many as the section says, or ties alone, with a sentence for what is not."""
    job = start("amplifier, power")
    section = job.sections[0]

    def found(**said: str) -> tuple[dict[str, int], list[str]]:
        now = replace(section, said=tuple((dict(section.said) | said).items()), preset=())
        changed = replace(job, sections=(now,))
        all_ = entries(changed, TABLES)
        plans = {one.name: one.plan for one in all_ if one.plan is not None}
        counts = {name: plan.parts[0].count for name, plan in plans.items() if name == "power cable clamps"}
        return counts, [one.text for one in hardware(changed, all_, None, TABLES).remarks if "clamps" in one.text]

    assert found(length="5 m") == ({"power cable clamps": 17}, [])
    assert found(length="3 m") == ({"power cable clamps": 11}, [])
    counts, (said,) = found(where="channel")
    assert not counts
    assert said.startswith("power cable clamps is left out")
    tied = replace(job, sections=(replace(section, said=(("where", "channel"), ("length", "5 m"))),))
    assert {one.name for one in unconfirmed(job)} - {one.name for one in unconfirmed(tied)} == {"power cable clamps"}


def test_a_run_from_the_engine_bay_to_elsewhere_is_asked_how_it_passes_the_bulkhead() -> None:
    """Until a hole is given or it is accepted; with the battery in the boot there is nothing to ask."""
    job = start("amplifier, processor, power")

    def asked(job: Job) -> list[str]:
        found = ((one.name, one.answer) for one in run_choices(job, TABLES))
        return [
            name for name, answer in found if answer is not None and "Way through the bulkhead" in answer.to_measure
        ]

    def of_feed(holes: tuple[str, ...] = (), accepted: tuple[str, ...] = ()) -> Job:
        hole = Recorded("bulkhead", (("through", "steel 0.8 mm"),))
        changed = (replace(run, holes=holes, accepted=accepted) if run.name == "processor feed" else run
                   for run in job.runs)  # fmt: skip
        return replace(job, holes=(hole,), runs=tuple(changed))

    def with_holder_on(onto: str) -> Job:
        return replace(job, mounts=tuple(
            replace(one, said=tuple((dict(one.said) | {"onto": onto}).items())) if one.name == "fuse holder" else one
            for one in job.mounts
        ))  # fmt: skip

    assert asked(job) == ["processor feed"]
    assert asked(of_feed(holes=("bulkhead",))) == []
    assert asked(of_feed(accepted=("bulkhead:processor-feed",))) == []
    assert asked(with_holder_on("steel floor")) == []
    section = Recorded("bonnet", (("where", "engine-bay"), ("length", "1 m")))
    cold = replace(with_holder_on("steel floor"), sections=(section,))
    by_section = replace(cold, runs=tuple(replace(run, sections=("bonnet",)) for run in cold.runs))
    assert "processor feed" in asked(by_section)


def test_a_signal_lead_is_bought_made_up_and_goes_from_the_processor_to_the_amplifier() -> None:
    """Common practice: screened leads with their plugs; of cable only where a terminal of bare wire is said."""
    job = start("amplifier, processor, power")
    signal = next(run for run in job.runs if run.name == "amplifier signal")
    assert (dict(signal.said)["from"], dict(signal.said)["to"]) == ("processor", "amplifier")

    def listed(job: Job) -> tuple[list[str], tuple[str, ...]]:
        one = next(one for one in run_choices(job, TABLES) if one.name == "amplifier signal")
        assert one.answer is not None
        assert one.plan is not None
        return [need.part.kind for need in one.plan.parts], one.answer.to_measure

    parts, open_ = listed(job)
    assert parts == ["lead with plugs"]
    assert "Plugs of the lead" in open_
    assert "Terminal" not in open_
    wired = replace(signal, said=tuple((dict(signal.said) | {"to": "amplifier, set screw"}).items()))
    made_up = replace(job, runs=tuple(wired if run is signal else run for run in job.runs))
    assert "lead with plugs" not in listed(made_up)[0]


def test_clamps_that_are_left_out_decide_no_size() -> None:
    job = start("amplifier, power")
    tied = replace(job, sections=(replace(job.sections[0], said=(("where", "channel"), ("length", "5 m"))),))
    names = [{one.name for one in listed_choices(each, TABLES)} for each in (job, tied)]
    assert names[0] - names[1] == {"power cable clamps"}
