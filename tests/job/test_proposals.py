"""What runs the mount points of a job lack, and those that are taken."""

from dataclasses import replace

import pytest

from fasten.errors import FastenError
from fasten.job.edit import with_run
from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.wiring.accept import with_accepted
from fasten.job.wiring.proposals import Proposal, proposals, take
from fasten.job.wiring.recorded import with_electrics
from fasten.job.wiring.runs import named_run, run_choices
from fasten.job.wiring.ways import way_choices
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.wiring.words import Loudspeaker

from .test_runs import JOB as WITH_RUNS
from .test_runs import ON, TABLES

SAID = {"battery": "battery stud M8", "to-amplifiers": "5 m", "to-dash": "4 m", "to-doors": "3 m"}
AMP = Mount("amp", (("item", "amplifier"), *ON, ("power", "1000 W class D"), ("outputs", "2 x 300 W 4 ohm")))
BARE = replace(WITH_RUNS, runs=())
LARGE = (("item", "amplifier"), *ON, ("power", "1000 W class D"))
NEW = Mount("distribution block", (("item", "distribution-block"),))
PAIR = with_electrics(
    replace(BARE, mounts=tuple(Mount(name, (*LARGE[:-1], ("power", "500 W class D"))) for name in ("left", "right"))),
    SAID, TABLES,
)  # fmt: skip


def offered(job: Job) -> tuple[Proposal, ...]:
    return proposals(job, run_choices(job, TABLES), TABLES)


def texts(job: Job) -> list[str]:
    return [one.text for one in offered(job)]


def test_an_amplifier_alone_lacks_power_ground_remote_signal_and_its_leads() -> None:
    alone = replace(BARE, mounts=(AMP,))
    assert texts(alone) == [
        "amp: no power run yet", "amp: no ground run yet", "amp: no remote run yet", "amp: no signal run yet",
        "amp: no lead 1 run yet", "amp: no lead 2 run yet",
    ]  # fmt: skip


def test_two_amplifiers_at_a_block_get_a_trunk_and_branches_and_the_ground_lug_that_is_there() -> None:
    taken = take(with_electrics(BARE, SAID, TABLES), offered(with_electrics(BARE, SAID, TABLES)), "all")
    runs = {run.name: dict(run.said) for run in taken.runs}
    assert (runs["block trunk"]["from"], runs["block trunk"]["length"]) == ("battery stud M8", "5 m")
    assert runs["mono power"]["from"] == "block"
    assert runs["mono ground"]["to"] == "ground"
    assert all(one.answer is not None for one in run_choices(taken, TABLES))
    assert "carries" not in runs["battery minus to body"], "it follows from all that is taken with it"
    assert runs["battery minus to body"]["from"] == "battery stud M8 -"
    assert texts(taken) == [], "nothing is asked for twice"


def test_no_lug_of_the_job_is_proposed_twice() -> None:
    """One power lug a stud: where lugs are fewer than grounds the rest go to the body, each to its own point."""
    job = with_electrics(BARE, SAID, TABLES)
    ends = [dict(one.run.said)["to"] for one in offered(job) if one.run.name.endswith("ground")]
    assert ends == ["ground", "body"]
    later = replace(
        job, runs=take(job, tuple(one for one in offered(job) if one.run.name == "mono ground"), "all").runs
    )
    assert [dict(one.run.said)["to"] for one in offered(later) if one.run.name.endswith("ground")] == ["body"]


def test_the_total_is_known_before_anything_is_said_of_battery_and_lengths() -> None:
    assert "battery minus: no lead to the body yet" in texts(BARE)
    assert "battery minus: no lead to the body yet" not in texts(replace(BARE, mounts=(AMP,)))


def test_a_processor_lacks_feed_ground_and_signal() -> None:
    alone = replace(BARE, mounts=(Mount("dsp", (("item", "signal-processor"), *ON)),))
    assert texts(alone) == ["dsp: no feed run yet", "dsp: no ground run yet", "dsp: no signal run yet"]


def test_runs_that_are_there_are_not_proposed() -> None:
    assert "mono: no power run yet" not in texts(WITH_RUNS)
    assert "mono: no ground run yet" not in texts(WITH_RUNS)
    assert "mono: no remote run yet" not in texts(WITH_RUNS)
    assert "four: no ground run yet" in texts(WITH_RUNS)
    far = replace(WITH_RUNS, runs=(CableRun("x", (("carries", "signal"), ("from", "connector"), ("to", "mono"))),))
    assert "mono: no power run yet" in texts(far), "a signal lead feeds nothing"


def test_some_are_taken_by_their_numbers() -> None:
    known = with_electrics(BARE, SAID, TABLES)
    assert [run.name for run in take(known, offered(known), "1, 3").runs] == ["block trunk", "mono ground"]
    note = take(known, offered(known), "3").runs[0].note
    assert note == "length proposed: measure it"


@pytest.mark.parametrize(
    ("wanted", "said"), [("all", "--battery"), ("99", "numbers from 1 to"), ("x", "no proposal x")]
)
def test_what_cannot_be_taken_is_refused(wanted: str, said: str) -> None:
    with pytest.raises(FastenError, match=said):
        take(BARE, offered(BARE), wanted)


def test_what_was_said_of_the_vehicle_is_asked_once() -> None:
    once = with_electrics(BARE, SAID, TABLES)
    assert dict(with_electrics(once, {"battery": "", "to-dash": "3 m"}, TABLES).electrics) == SAID | {"to-dash": "3 m"}


def test_a_ground_lead_beside_the_run_that_feeds_it_is_not_asked_for_again() -> None:
    said = (("from", "battery stud M8"), ("to", "amp, set screw"), ("length", "5 m"), ("ground", "0.45 m"))
    assert "amp: no ground run yet" not in texts(replace(BARE, mounts=(AMP,), runs=(CableRun("power", said),)))
    assert "amp: no ground run yet" in texts(replace(BARE, mounts=(AMP,), runs=(CableRun("power", said[:3]),)))


def test_a_second_battery_has_two_fuses_and_is_grounded_by_itself() -> None:
    said = (("carries", "60 A"), ("from", "battery stud M8"), ("to", "battery post +"), ("length", "4 m"))
    job = replace(BARE, mounts=(), runs=(CableRun("link", said),))
    (link,) = run_choices(job, TABLES)
    assert link.answer is not None
    assert link.answer.sizing.fuse is not None
    assert link.answer.sizing.fuse.count == 2
    assert texts(job) == ["link: no second ground run yet"]
    taken = take(job, offered(job), "all")
    assert dict(taken.runs[1].said) | {"length": ""} == {
        "carries": "60 A", "from": "battery post -", "to": "body M8", "length": "",
    }  # fmt: skip
    assert texts(taken) == []


@pytest.mark.parametrize("typed", ["amp", "power amplifier", "Amplifier", "amplifier"])
def test_an_item_is_known_by_any_of_its_names(typed: str) -> None:
    """What is typed stays in the file; proposals, adoption and the order of questions go by what it is."""
    job = Job("", "", "", (Mount("left", (("item", typed), ("onto", "steel 0.8 mm"), ("removed", "yearly"))),))
    assert [one.text for one in proposals(job, run_choices(job, TABLES), TABLES)][:2] == [
        "left: no power run yet", "left: no ground run yet",
    ]  # fmt: skip


def test_a_second_battery_gets_two_fuses_and_its_ground() -> None:
    """Common practice, no source: a cable between two batteries is fused at each of them."""
    battery = Mount("rear battery", (("item", "battery"), ("onto", "steel 1.5 mm"), ("removed", "yearly")))
    electrics = (("battery", "battery stud M8"), ("to-amplifiers", "4 m"))
    job = replace(Job("", "", "", (battery,)), electrics=electrics)
    job = take(job, proposals(job, run_choices(job, TABLES), TABLES), "all")
    assert [run.name for run in job.runs] == ["rear battery charge", "rear battery ground"]
    waiting = run_choices(job, TABLES)
    assert "what it carries" in waiting[0].reason, "what charges it is not invented"
    charge = replace(job.runs[0], said=(*job.runs[0].said, ("carries", "100 A")))
    job = replace(job, runs=(charge, job.runs[1]))
    found = run_choices(job, TABLES)
    sizings = [one.answer.sizing for one in found if one.answer is not None]
    assert sizings[0].fuse is not None
    assert (sizings[0].fuse.count, sizings[1].fuse) == (2, None)
    assert sizings[1].size.area_mm2 >= sizings[0].size.area_mm2
    assert proposals(job, found, TABLES) == ()


def test_each_that_wants_a_ground_gets_a_lug_of_its_own_by_its_name_or_in_order() -> None:
    lug = next(one for one in BARE.mounts if one.name == "ground")
    lugs = tuple(replace(lug, name=name) for name in ("rear ground", "right ground", "left ground"))
    amps = tuple(replace(AMP, name=name) for name in ("left amplifier", "right amplifier", "sub"))
    known = with_electrics(replace(BARE, mounts=(*amps, *lugs)), SAID, TABLES)
    taken = take(known, offered(known), "all")
    ends = {run.name: dict(run.said)["to"] for run in taken.runs if run.name.endswith(" ground")}
    assert ends == {"left amplifier ground": "left ground", "right amplifier ground": "right ground",
                    "sub ground": "rear ground"}  # fmt: skip


def test_a_ground_to_the_minus_of_the_battery_is_one() -> None:
    said = (("from", "amp"), ("to", "battery stud M8 -"), ("length", "0.4 m"))
    assert "amp: no ground run yet" not in texts(replace(BARE, mounts=(AMP,), runs=(CableRun("minus", said),)))


def test_a_ground_that_joins_others_at_a_block_is_there() -> None:
    minus = replace(next(one for one in BARE.mounts if one.name == "block"), name="minus")
    said = {"mono ground": ("mono", "minus"), "main ground": ("minus", "body")}
    runs = tuple(
        CableRun(name, (("from", ends[0]), ("to", ends[1]), ("length", "0.4 m"))) for name, ends in said.items()
    )
    job = replace(BARE, mounts=(minus, *BARE.mounts), runs=runs)
    assert "mono: no ground run yet" not in texts(job)
    assert "four: no ground run yet" in texts(job)
    assert "block: no trunk run yet" in texts(job), "the block of grounds is no block of a trunk"
    back = CableRun("back", (("from", "block"), ("to", "minus"), ("length", "1 m")))
    circle = replace(job, runs=(replace(back, name="there", said=(("from", "minus"), ("to", "block"))), back))
    assert "mono: no ground run yet" in texts(circle)


def test_what_is_only_proposed_of_a_run_is_open_until_it_is_said_or_accepted() -> None:
    """A length of 0.6 m and 5 A of a processor are guesses; what was said of the vehicle is none."""
    dsp = Mount("dsp", (("item", "signal-processor"), *ON))
    known = with_electrics(replace(BARE, mounts=(AMP, dsp)), SAID, TABLES)
    taken = take(known, offered(known), "all")
    proposed = {run.name: run.preset for run in taken.runs if run.preset}
    assert proposed == {
        "amp ground": ("length",), "dsp feed": ("carries",), "dsp ground": ("length",),
        "amp signal": ("length",), "battery minus to body": ("length",),
    }  # fmt: skip
    said = replace(next(run for run in taken.runs if run.name == "dsp feed"), preset=())
    accepted = with_accepted(taken, "dsp feed", "proposed:dsp-feed-carries-5-a", TABLES)
    for job, is_open in ((taken, True), (with_run(taken, said, replace_it=True), False), (accepted, False)):
        feed = named_run(run_choices(job, TABLES), "dsp feed").answer
        assert feed is not None
        assert any(need.endswith("which were only proposed: carries 5 A") for need in feed.needs) is is_open


FLOOR = Recorded("floor", (("where", "underfloor"), ("length", "5 m")))
THROUGH = replace(WITH_RUNS.runs[0], sections=("floor",))


def needs_of(job: Job) -> str:
    (found,) = way_choices(job, run_choices(job, TABLES), TABLES)
    assert found.plan is not None
    return "; ".join(found.plan.unresolved)


def test_what_an_install_says_of_a_section_is_open_until_it_is_confirmed() -> None:
    way = replace(FLOOR, preset=("where", "length"))
    job = replace(WITH_RUNS, sections=(way,), runs=(THROUGH, *WITH_RUNS.runs[1:]))
    assert "which were only proposed: where underfloor, length 5 m" in needs_of(job)
    assert "only proposed" not in needs_of(with_accepted(job, "floor", "proposed:floor", TABLES))


def test_a_run_that_gets_no_cable_leaves_its_section_open() -> None:
    lost = replace(THROUGH, name="lost", said=(("from", "block"), ("to", "stud M6"), ("length", "1 m")))
    job = replace(WITH_RUNS, sections=(FLOOR,), runs=(THROUGH, *WITH_RUNS.runs[1:], lost))
    assert "the cable of these, which go through as well: 'lost'" in needs_of(job)
    assert "go through as well" not in needs_of(replace(job, runs=job.runs[:-1]))


def test_the_block_that_several_amplifiers_lack_is_proposed_with_its_trunk_and_a_branch_to_each() -> None:
    assert texts(PAIR)[:6] == [
        "new distribution block: no trunk run yet",
        "left: no power run yet, from the new block", "left: no ground run yet", "left: no remote run yet",
        "left: no signal run yet", "right: no power run yet, from the new block",
    ]  # fmt: skip
    taken = take(PAIR, offered(PAIR), "all")
    assert taken.mounts[2:] == (NEW,)
    ends = {run.name: (dict(run.said)["from"], dict(run.said)["to"]) for run in taken.runs}
    assert ends["distribution block trunk"] == ("battery stud M8", "distribution block")
    assert ends["left power"] == ("distribution block", "left")
    assert all(one.answer is not None for one in run_choices(taken, TABLES))
    assert texts(taken) == []
    kept, _ = read_job(job_text(taken).encode(), "car.toml", TABLES)
    assert (kept.mounts, kept.runs) == (taken.mounts, taken.runs)


def test_the_new_block_is_a_mount_point_to_finish() -> None:
    taken = take(PAIR, offered(PAIR), "all")
    found = entries(taken, TABLES)
    listed = hardware(taken, found, None, TABLES)
    assert [one.mount for one in listed.unfit] == [NEW.name]
    assert not ready(listed, found).ready


@pytest.mark.parametrize("numbers", ["1", "2", "1,2", "6, 2"])
def test_any_run_of_the_new_block_brings_the_block_once_and_the_rest_goes_on_from_there(numbers: str) -> None:
    taken = take(PAIR, offered(PAIR), numbers)
    assert taken.mounts == (*PAIR.mounts, NEW)
    assert not any("new" in text for text in texts(taken))
    assert {run.name for run in take(taken, offered(taken), "all").runs} == {
        run.name for run in take(PAIR, offered(PAIR), "all").runs
    }


def test_what_does_not_end_at_the_new_block_brings_none() -> None:
    assert take(PAIR, offered(PAIR), "3").mounts == PAIR.mounts


def test_of_three_amplifiers_those_without_a_run_share_a_block_and_a_last_one_gets_a_run_of_its_own() -> None:
    def own(*names: str) -> list[str]:
        runs = tuple(
            CableRun(f"{name} cable", (("from", "battery stud M8"), ("to", name), ("length", "5 m"))) for name in names
        )
        job = replace(PAIR, mounts=(*PAIR.mounts, replace(AMP, name="sub")), runs=runs)
        return [dict(one.run.said)["from"] for one in offered(job) if one.run.name.endswith((" power", " trunk"))]

    assert own() == ["battery stud M8", *["distribution block"] * 3]
    assert own("sub") == ["battery stud M8", "distribution block", "distribution block"]
    assert own("left", "sub") == ["battery stud M8"]
    assert own("left", "right", "sub") == []


def test_amplifiers_that_no_trunk_can_feed_get_a_fused_run_each() -> None:
    """Four of 1000 W class D take 386 A of the 300 A that one run carries; three take 290 A, but not over 9 m."""
    four = tuple(replace(AMP, name=f"amp {at}", said=LARGE) for at in range(1, 5))
    block = next(one for one in BARE.mounts if one.name == "block")

    def sources(job: Job) -> set[str]:
        return {dict(one.run.said)["from"] for one in offered(job) if one.run.name.endswith((" power", " feed"))}

    dsp = Mount("dsp", (("item", "signal-processor"), *ON))
    assert sources(replace(PAIR, mounts=four[:3])) == {"distribution block"}
    for mounts in (four, (*four, dsp, block)):
        job = replace(PAIR, mounts=mounts)
        assert sources(job) == {"battery stud M8"}
        assert take(job, offered(job), "all").mounts == mounts
    branch = CableRun("branch", (("from", "block"), ("to", "amp 1"), ("length", "1 m")))
    branched = replace(PAIR, mounts=(*four, block), runs=(branch,))
    assert "block: no trunk run yet" in texts(branched), "it feeds something already"
    far = with_electrics(replace(PAIR, mounts=four[:3]), {"to-amplifiers": "9 m"}, TABLES)
    assert sources(far) == {"battery stud M8"}
    on_24_v = with_electrics(replace(PAIR, mounts=four), {"system": "24 V"}, TABLES)
    assert sources(on_24_v) == {"distribution block"}, "half the current"


def test_the_new_block_gets_a_name_that_is_free_and_one_of_grounds_is_no_block_of_a_trunk() -> None:
    board = Mount("Distribution Block", (("item", "equipment-board"), *ON))
    assert "new distribution block 2: no trunk run yet" in texts(replace(PAIR, mounts=(*PAIR.mounts, board)))
    grounds = replace(board, name="distribution block", said=(("item", "distribution-block"), *ON))
    ground = CableRun("ground", (("from", "distribution block"), ("to", "body"), ("length", "0.4 m")))
    job = replace(PAIR, mounts=(*PAIR.mounts, grounds), runs=(ground,))
    assert "new distribution block 2: no trunk run yet" in texts(job)
    trunk = CableRun("trunk", (("from", "battery stud M8"), ("to", "distribution block"), ("length", "5 m")))
    lost = replace(PAIR, runs=(trunk,))  # its block was deleted
    assert not any("trunk" in text for text in texts(lost))
    assert take(lost, offered(lost), "1").mounts == (*PAIR.mounts, NEW)


def test_a_processor_is_fed_from_the_block_and_a_head_unit_at_the_dash_is_not() -> None:
    more = (Mount("dsp", (("item", "signal-processor"), *ON)), Mount("head", (("item", "head-unit"), *ON)))
    job = replace(PAIR, mounts=(*PAIR.mounts, *more))
    said = {one.run.name: dict(one.run.said) for one in offered(job)}
    assert (said["dsp feed"]["from"], said["dsp feed"]["length"]) == ("distribution block", "0.6 m")
    assert (said["head feed"]["from"], said["head feed"]["length"]) == ("battery stud M8", "4 m")


def test_a_lead_goes_to_the_crossover_or_loudspeaker_of_its_side_that_has_none() -> None:
    outputs = ("outputs", "2 x 75 W 4 ohm")
    amps = tuple(Mount(f"{side} amplifier", (("item", "amplifier"), *ON, outputs)) for side in ("left", "right"))
    things = (
        ("left door driver", "speaker"), ("right door driver", "speaker"), ("right crossover", "crossover"),
        ("left rear driver", "speaker"),
    )  # fmt: skip
    mounts = (*amps, *(Mount(name, (("item", item), *ON)) for name, item in things))
    job = with_electrics(replace(BARE, mounts=mounts), SAID, TABLES)
    ends = {one.run.name: dict(one.run.said)["to"] for one in offered(job) if " lead " in one.run.name}
    assert ends == {
        "left amplifier lead 1": "left door driver", "left amplifier lead 2": "left rear driver",
        "right amplifier lead 1": "right crossover", "right amplifier lead 2": "loudspeaker",
    }  # fmt: skip
    assert "left amplifier: no lead 1 run yet, to left door driver" in texts(job)
    plain = replace(job, mounts=(replace(amps[0], name="front"), replace(amps[1], name="rear"), *mounts[2:]))
    to = [dict(one.run.said)["to"] for one in offered(plain) if " lead " in one.run.name]
    assert sorted(to) == ["left door driver", "left rear driver", "loudspeaker", "right crossover"]
    taken = take(job, offered(job), "all")
    assert not [one for one in texts(taken) if "lead" in one]


def grounds_offered(*named: tuple[str, str]) -> dict[str, str]:
    """Where each ground that is proposed ends, of a job of these names with their items."""
    job = replace(BARE, mounts=tuple(Mount(name, (("item", item), *ON)) for name, item in named))
    return {one.run.name: dict(one.run.said)["to"] for one in offered(job) if one.run.name.endswith(" ground")}


def test_a_ground_lug_is_taken_by_any_word_of_its_name() -> None:
    items = (("mono amp", "amplifier"), ("quad amp", "amplifier"), ("dsp", "signal-processor"),
             ("aux battery", "second-battery"))  # fmt: skip
    lugs = tuple((f"ground {of}", "ground-lug") for of in ("aux", "quad", "mono"))
    assert grounds_offered(*items, *lugs) == {
        "mono amp ground": "ground mono", "quad amp ground": "ground quad", "dsp ground": "body",
        "aux battery ground": "ground aux",
    }  # fmt: skip
    sides = tuple((f"{side} {what}", item) for side in ("left", "right")
                  for what, item in (("amp", "amplifier"), ("dsp", "signal-processor")))  # fmt: skip
    lugs = ("right ground", "ground-lug"), ("left ground", "ground-lug"), ("dsp ground point", "ground-lug")
    assert grounds_offered(*sides, *lugs) == {
        "left amp ground": "left ground", "right amp ground": "right ground", "left dsp ground": "dsp ground point",
        "right dsp ground": "body",
    }  # fmt: skip


def test_a_subwoofer_amplifier_leads_to_no_door_and_crossovers_lead_to_what_is_on_their_side() -> None:
    amps = tuple(Mount(name, (("item", "amplifier"), *ON, ("outputs", outputs)))
                 for name, outputs in (("mono amp", "1 x 1000 W 1 ohm"), ("quad amp", "4 x 75 W 4 ohm")))  # fmt: skip
    things = ("crossover", "crossover"), ("driver", "speaker"), ("tweeter", "tweeter")
    sides = ((f"{side} {what}", item) for side in ("left", "right") for what, item in things)
    doors = tuple(Mount(name, (("item", item), *ON)) for name, item in sides)
    job = with_electrics(replace(BARE, mounts=(*amps, *doors)), SAID, TABLES)
    leads = {one.run.name: dict(one.run.said) for one in offered(job) if " lead" in one.run.name}
    assert {name: (said["from"], said["to"]) for name, said in leads.items()} == {
        "mono amp lead 1": ("mono amp", "loudspeaker"),
        "quad amp lead 1": ("quad amp", "left crossover"), "quad amp lead 2": ("quad amp", "right crossover"),
        "quad amp lead 3": ("quad amp", "loudspeaker"), "quad amp lead 4": ("quad amp", "loudspeaker"),
        "left driver lead": ("left crossover", "left driver"), "left tweeter lead": ("left crossover", "left tweeter"),
        "right driver lead": ("right crossover", "right driver"),
        "right tweeter lead": ("right crossover", "right tweeter"),
    }  # fmt: skip
    job = take(job, offered(job), "all")
    assert not [one for one in texts(job) if "lead" in one], "nothing is asked for twice"
    driver = named_run(run_choices(job, TABLES), "left driver lead").answer
    assert driver is not None
    assert driver.sizing.run.carries == Loudspeaker(75.0, 4.0), "what comes through the crossover"
