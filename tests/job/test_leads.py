"""Loudspeaker leads in series through crossovers: what is lost along the whole path counts; the rest is open."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import product
from math import log10

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready
from fasten.job.wiring.runs import RunChoice, check_circle, run_choices
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.model import Status
from fasten.report.forms.written import written
from fasten.report.wire.as_json import wire_json
from fasten.report.wire.runs import runs_document
from fasten.wiring.sizing import Sizing, lead_options
from fasten.wiring.words import Joined, Loudspeaker

TABLES = builtin()
ON = (("onto", "plywood 18 mm"), ("removed", "yearly"))
OHM_PER_1000_FT = {"18 AWG": 6.23, "16 AWG": 4.81, "14 AWG": 3.06, "12 AWG": 2.02, "10 AWG": 1.26}  # AC 43.13-1B, 11-9
AMPS_75 = {"18 AWG": 10, "16 AWG": 15, "14 AWG": 20, "12 AWG": 25, "10 AWG": 40}  # 33 CFR 183.425, Table 5


def mount(name: str, item: str, **said: str) -> Mount:
    return Mount(name, (("item", item), *ON, *said.items()))


AMPLIFIER, OTHER = mount("amp", "amplifier", power="4 x 100 W class D"), mount("mono", "amplifier")
CROSSOVER, SECOND = mount("filter", "crossover"), mount("second filter", "crossover")
MOUNTS = AMPLIFIER, OTHER, CROSSOVER, SECOND, mount("woofer", "speaker")


def lead(name: str, from_: str, to: str, length: str, load: str = "100 W 4 ohm", **said: str) -> CableRun:
    """A lead; a length of nothing is none."""
    ends = (("from", from_), ("to", to), *((("length", length),) if length else ()))
    return CableRun(name, (("carries", f"loudspeaker {load}"), *said.items(), *ends))


IN, OUT = lead("in", "amp", "filter", "2.8 m"), lead("out", "filter", "tab 6.3x0.8", "2.4 m")
TWEETER = lead("tweeter", "filter", "tab 2.8x0.8", "1 m")


def choices(*runs: CableRun, cables: Iterable[Recorded] = ()) -> dict[str, RunChoice]:
    job = Job("Car", "invented", "", MOUNTS, runs=runs, cables=tuple(cables))
    return {one.name: one for one in run_choices(job, TABLES)}


def sizing(one: RunChoice) -> Sizing:
    assert one.answer is not None, one.reason
    return one.answer.sizing


def loop(one: RunChoice) -> tuple[Status, float]:
    """The check of its resistance: how it stands, and how much of the impedance."""
    assert one.answer is not None
    check = next(check for check in one.answer.checks if check.id == "loop")
    assert check.demand is not None
    return check.status, check.demand


def open_of(*runs: CableRun) -> dict[str, list[str]]:
    """What of the sum of each lead is open."""
    return {
        name: [check.id for check in one.answer.checks if check.id.partition(".")[0] in {"path", "not-whole"}]
        for name, one in choices(*runs).items() if one.answer is not None
    }  # fmt: skip


def share(size: str, metres: float, amps: float = 5.0, ohms: float = 4.0) -> float:
    """What a lead takes of its impedance, in %, by print and arithmetic."""
    warm = 30 + 45 * (amps / AMPS_75[size]) ** 2
    return 200 * metres * OHM_PER_1000_FT[size] / 304.8 * (234.5 + warm) / 254.5 / ohms


# -- summed ------------------------------------------------------------------------------------------------------------


def test_the_limit_is_for_the_whole_path_at_least_copper() -> None:
    """18 AWG on both is 5.8 %; of the two, the longer must be 16 AWG, as with the shorter it would be 5.1 %."""
    assert share("18 AWG", 2.8) + share("18 AWG", 2.4) > 5
    assert share("18 AWG", 2.8) + share("16 AWG", 2.4) > 5
    found = choices(IN, OUT)
    assert {name: sizing(one).size.name for name, one in found.items()} == {"in": "16 AWG", "out": "18 AWG"}
    whole = share("16 AWG", 2.8) + share("18 AWG", 2.4)
    for one in found.values():
        status, demand = loop(one)
        assert status is Status.HOLDS
        assert demand == pytest.approx(whole, rel=0.002)
        path = sizing(one).path
        assert path is not None
        assert path.share_of_z_pct == pytest.approx(whole, rel=0.002)
        assert path.loop_ohm == pytest.approx(whole * 4 / 100, rel=0.002)
        assert path.loss_db == pytest.approx(20 * log10(1 + whole / 100), rel=0.002)


def test_no_sizes_with_less_copper_keep_every_path() -> None:
    """Through two crossovers, with two loudspeakers at the first: every combination of sizes, one by one."""
    runs = (
        lead("in", "amp", "filter", "3 m"), lead("on", "filter", "second filter", "1.2 m"),
        lead("low", "second filter", "tab 6.3x0.8", "1 m", "100 W 4 ohm"),
        lead("high", "filter", "tab 2.8x0.8", "2 m", "40 W 8 ohm"),
    )  # fmt: skip
    found = {name: sizing(one) for name, one in choices(*runs).items()}

    def options(one: Sizing) -> list[tuple[float, float]]:
        run = replace(one.run, leads_before=Joined(), leads_behind=Joined(), least_mm2=0.0)
        assert isinstance(run.carries, Loudspeaker)
        sizes = lead_options(run.carries, run, TABLES)
        return [(each.size.area_mm2 * run.length_mm, its.share_of_z_pct) for each, its in sizes]

    tried = product(*(options(found[run.name]) for run in runs))
    least = min(
        sum(mm3 for mm3, _ in (in_, on, low, high))
        for in_, on, low, high in tried
        if in_[1] + on[1] + low[1] <= 5 and in_[1] + high[1] <= 5
    )
    assert sum(one.size.area_mm2 * one.run.length_mm for one in found.values()) == pytest.approx(least)
    assert len({one.size.name for one in found.values()}) > 1


def test_each_output_of_a_crossover_is_a_path_of_its_own() -> None:
    found = choices(IN, OUT, TWEETER)
    sizes = {name: sizing(one).size.name for name, one in found.items()}
    whole = {
        name: share(sizes["in"], 2.8) + share(sizes[name], metres) for name, metres in (("out", 2.4), ("tweeter", 1))
    }
    for name, path in whole.items():
        assert loop(found[name])[1] == pytest.approx(path, rel=0.002)
    assert loop(found["in"])[1] == pytest.approx(max(whole.values()), rel=0.002), "the worst path through it"


def test_each_lead_counts_by_the_impedance_that_is_said_of_it() -> None:
    """Two loudspeakers of 4 Ω behind a lead of 2 Ω: it carries the current of both."""
    found = choices(lead("in", "amp", "filter", "1 m", "200 W 2 ohm"), lead("out", "filter", "woofer", "1 m"))
    sizes = {name: sizing(one).size.name for name, one in found.items()}
    assert loop(found["out"])[1] == pytest.approx(
        share(sizes["in"], 1, 10, 2) + share(sizes["out"], 1), rel=0.002
    )  # fmt: skip


def test_a_lead_alone_is_as_before() -> None:
    alone = choices(lead("out", "amp", "tab 6.3x0.8", "2.4 m"))["out"]
    assert sizing(alone).path is None
    assert alone.answer is not None
    assert wire_json(alone.answer)["path"] is None
    assert loop(alone)[1] == pytest.approx(share("18 AWG", 2.4), rel=0.002)


def test_the_names_go_from_the_amplifier_to_the_loudspeaker() -> None:
    runs = IN, lead("on", "filter", "second filter", "0.5 m"), lead("low", "second filter", "woofer", "0.5 m")
    for one in choices(*runs).values():
        assert one.answer is not None
        assert wire_json(one.answer)["path"]["leads"] == ["in", "on", "low"]


# -- chosen cable ------------------------------------------------------------------------------------------------------


def test_chosen_cable_that_misses_the_limit_in_sum_fails_as_one_alone_does() -> None:
    alone = choices(lead("out", "amp", "tab 6.3x0.8", "5 m", cable="18 AWG"))["out"]
    assert loop(alone)[0] is Status.FAILS
    found = choices(*(replace(one, said=(*one.said, ("cable", "18 AWG"))) for one in (IN, OUT)))
    for one in found.values():
        status, demand = loop(one)
        assert status is Status.FAILS
        assert demand == pytest.approx(share("18 AWG", 2.8) + share("18 AWG", 2.4), rel=0.002)
        assert one.answer is not None
        assert one.answer.fails
    assert sizing(found["in"]).enough is not None
    assert sizing(found["in"]).enough == sizing(choices(IN, OUT)["in"]).size


def test_behind_chosen_cable_the_rest_is_as_thick_as_the_sum_wants() -> None:
    found = choices(replace(IN, said=(*IN.said, ("cable", "18 AWG"))), OUT)
    assert {name: sizing(one).size.name for name, one in found.items()} == {"in": "18 AWG", "out": "14 AWG"}
    assert [loop(one)[0] for one in found.values()] == [Status.HOLDS] * 2
    before = choices(IN, replace(OUT, said=(*OUT.said, ("cable", "18 AWG"))))
    assert {name: sizing(one).size.name for name, one in before.items()} == {"in": "16 AWG", "out": "18 AWG"}


def test_where_chosen_cable_leaves_nothing_the_path_fails_and_no_lead_is_lost() -> None:
    found = choices(lead("in", "amp", "filter", "5 m", cable="18 AWG"), OUT)
    assert sizing(found["out"]).size.name == "18 AWG"
    assert [loop(one)[0] for one in found.values()] == [Status.FAILS] * 2
    behind = choices(IN, lead("out", "filter", "woofer", "5 m", cable="18 AWG"))
    assert sizing(behind["in"]).size.name == "18 AWG"
    assert [loop(one)[0] for one in behind.values()] == [Status.FAILS] * 2


def test_a_reel_of_copper_clad_counts_in_the_sum() -> None:
    """18 AWG of 2.2 + 2.0 m holds as copper; of copper-clad aluminium it has 1.6 times the resistance."""
    runs = lead("in", "amp", "filter", "2.2 m"), lead("out", "filter", "woofer", "2 m")
    assert {sizing(one).size.name for one in choices(*runs).values()} == {"18 AWG"}
    reel = Recorded("18 AWG", (("marked", "105 C"), ("material", "copper-clad")))
    found = choices(*runs, cables=[reel])
    assert {sizing(one).size.name for one in found.values()} == {"16 AWG"}, "no copper-clad pair does with less copper"
    for one in found.values():
        assert loop(one)[0] is Status.HOLDS
        assert loop(one)[1] == pytest.approx(share("16 AWG", 4.2), rel=0.002)
    chosen = (replace(one, said=(*one.said, ("cable", "18 AWG"))) for one in runs)
    assert [loop(one)[0] for one in choices(*chosen, cables=[reel]).values()] == [Status.FAILS] * 2


def test_leads_of_copper_clad_are_sized_up_together_and_alone() -> None:
    """Of 1.6 times the resistance: 18 AWG alone holds 4 m of copper and no 4 m of it; beside 16 AWG it holds 0.8 m."""
    reel = Recorded("18 AWG", (("marked", "105 C"), ("material", "copper-clad")))
    (alone,) = choices(lead("alone", "amp", "woofer", "4 m"), cables=[reel]).values()
    assert (sizing(alone).size.name, loop(alone)[0]) == ("16 AWG", Status.HOLDS)
    found = choices(lead("in", "amp", "filter", "0.8 m"), lead("out", "filter", "woofer", "3 m"), cables=[reel])
    assert {name: sizing(one).size.name for name, one in found.items()} == {"in": "18 AWG", "out": "16 AWG"}
    for one in found.values():
        status, demand = loop(one)
        assert status is Status.HOLDS
        assert demand > 1.6 * share("18 AWG", 0.8) + share("16 AWG", 3)


def test_a_run_that_fails_says_what_fails_where_runs_are_listed_and_in_the_verdict() -> None:
    job = Job("Car", "invented", "", MOUNTS, runs=(lead("in", "amp", "woofer", "8 m", cable="18 AWG"),))
    found = run_choices(job, TABLES)
    listed = written(runs_document(job, found), "text", 200)
    assert "DOES NOT HOLD: resistance of the lead " in listed
    both = entries(job, TABLES)
    (unproven,) = (one for one in ready(hardware(job, both, None, TABLES), both).unproven if one.mount == "in")
    assert any(need.startswith("another choice: resistance of the lead ") for need in unproven.needs)


# -- what is not known -------------------------------------------------------------------------------------------------


def test_a_crossover_that_no_lead_comes_to_or_goes_on_from_is_open() -> None:
    assert open_of(OUT, TWEETER) == {"out": ["path.filter"], "tweeter": ["path.filter"]}
    assert open_of(IN) == {"in": ["path.filter"]}
    assert open_of(IN, OUT) == {"in": [], "out": []}
    chain = lead("on", "filter", "second filter", "0.5 m")
    assert open_of(IN, chain) == {"in": ["path.second filter"], "on": ["path.second filter"]}
    assert open_of(chain, lead("low", "second filter", "woofer", "0.5 m"))["low"] == ["path.filter"]


def test_what_is_open_at_a_crossover_can_be_measured_and_accepted() -> None:
    found = choices(replace(OUT, said=(*OUT.said[:1], ("from", "filter, bare"), ("to", "bare"), OUT.said[-1])))["out"]
    assert found.answer is not None
    assert [one.id for one in found.answer.confirms] == ["path:filter"]


def test_a_lead_without_its_length_leaves_the_others_open() -> None:
    found = choices(lead("in", "amp", "filter", ""), OUT)
    assert found["in"].answer is None
    assert open_of(lead("in", "amp", "filter", ""), OUT) == {"out": ["path.filter"]}


def test_a_lead_that_no_size_does_for_leaves_the_others_open() -> None:
    far = lead("in", "amp", "filter", "20 m", "1000 W 0.1 ohm")
    found = choices(far, OUT)
    assert found["in"].answer is None
    assert open_of(far, OUT) == {"out": ["not-whole"]}
    behind = lead("out", "filter", "woofer", "20 m", "1000 W 0.1 ohm")
    assert open_of(IN, behind, TWEETER) == {"in": ["not-whole"], "tweeter": []}


# -- the graph ---------------------------------------------------------------------------------------------------------


def test_which_way_round_a_lead_is_said_makes_no_difference() -> None:
    as_said = {name: (sizing(one).size, loop(one)) for name, one in choices(IN, OUT, TWEETER).items()}
    turned = lead("in", "filter", "amp", "2.8 m"), lead("out", "tab 6.3x0.8", "filter", "2.4 m"), TWEETER
    assert {name: (sizing(one).size, loop(one)) for name, one in choices(*turned[:1], OUT, TWEETER).items()} == as_said
    both = lead("tweeter", "tab 2.8x0.8", "filter", "1 m")
    assert {name: (sizing(one).size, loop(one)) for name, one in choices(*turned[:2], both).items()} == as_said
    chain = (
        lead("low", "woofer", "second filter", "0.5 m"), lead("on", "second filter", "filter", "0.5 m"), turned[0],
    )  # fmt: skip
    forth = lead("low", "second filter", "woofer", "0.5 m"), lead("on", "filter", "second filter", "0.5 m"), IN
    assert {name: loop(one) for name, one in choices(*chain).items()} == {
        name: loop(one) for name, one in choices(*forth).items()
    }


def test_of_two_leads_to_one_crossover_the_worse_counts_for_all_behind() -> None:
    runs = IN, lead("other in", "mono", "filter", "1 m"), OUT, TWEETER
    found = choices(*runs)
    sizes = {name: sizing(one).size.name for name, one in found.items()}
    worst = max(share(sizes["in"], 2.8), share(sizes["other in"], 1))
    assert loop(found["out"])[1] == pytest.approx(worst + share(sizes["out"], 2.4), rel=0.002)
    assert loop(found["tweeter"])[1] == pytest.approx(worst + share(sizes["tweeter"], 1), rel=0.002)
    assert [loop(one)[0] for one in found.values()] == [Status.HOLDS] * 4


def test_no_lead_goes_on_through_an_amplifier() -> None:
    found = choices(lead("in", "amp", "mono", "3 m"), lead("out", "mono", "woofer", "3 m"))
    assert [sizing(one).path for one in found.values()] == [None, None]


def test_a_second_loudspeaker_behind_the_first_is_on_its_path() -> None:
    found = choices(lead("in", "amp", "woofer", "1 m"), lead("out", "woofer", "tab 2.8x0.8", "1 m"))
    assert loop(found["out"])[1] == pytest.approx(2 * share("18 AWG", 1), rel=0.002)


def test_leads_in_a_circle_are_refused_by_name() -> None:
    runs = lead("on", "filter", "second filter", "1 m"), lead("back", "second filter", "filter", "1 m")
    found = choices(*runs, IN)
    assert [found[name].answer for name in ("on", "back")] == [None, None]
    assert "back" in found["on"].reason
    assert open_of(*runs, IN) == {"in": ["not-whole"]}
    with pytest.raises(FastenError, match="circle"):
        check_circle(Job("Car", "invented", "", MOUNTS, runs=runs), "back", TABLES)


# -- by the outputs of the amplifier -----------------------------------------------------------------------------------


def by_outputs(outputs: str, *runs: CableRun) -> dict[str, RunChoice]:
    quad = mount("quad", "amplifier", outputs=outputs)
    job = Job("Car", "invented", "", (quad, CROSSOVER, mount("door", "speaker")), runs=runs)
    return {one.name: one for one in run_choices(job, TABLES)}


def plain(name: str, from_: str, to: str) -> CableRun:
    return CableRun(name, (("from", from_), ("to", to), ("length", "2 m")))


UNSAID = plain("in", "quad", "filter"), plain("out", "filter", "door"), plain("turned", "door", "quad")


def test_a_lead_of_which_no_load_is_said_takes_that_of_its_output_through_crossovers_too() -> None:
    """By hand: the root of 75 W by 4 ohm is 4.33 A, that of 150 W by 2 ohm is 8.66 A."""
    for outputs, load, full_a in (
        ("4 x 75 W 4 ohm", Loudspeaker(75.0, 4.0), 4.330),
        ("4 x 150 W 2 ohm", Loudspeaker(150.0, 2.0), 8.660),
    ):
        for one in by_outputs(outputs, *UNSAID).values():
            found = sizing(one)
            assert found.run.carries == load
            assert found.current is not None
            assert found.current.full_a == pytest.approx(full_a, rel=0.001)
            assert "output" not in open_ids(one)


def test_of_outputs_that_differ_none_is_taken() -> None:
    found = by_outputs("2 x 75 W 4 ohm, 1 x 300 W 2 ohm", *UNSAID[:2])
    assert all(one.answer is None and "what it carries" in one.reason for one in found.values())


def open_ids(one: RunChoice) -> list[str]:
    assert one.answer is not None, one.reason
    return [check.id for check in one.answer.checks if check.status is Status.NOT_CHECKED]


@pytest.mark.parametrize(
    ("load", "kind"), [("40 W 8 ohm", "impedance"), ("36 W 8 ohm", "output"), ("150 W 2 ohm", "output")]
)
def test_a_loudspeaker_of_more_impedance_is_accepted_where_it_takes_less(load: str, kind: str) -> None:
    """By hand: the root of 75 W by 4 ohm is 17.3 V, which drive 37.5 W through 8 ohm; 2 ohm are too few for it."""
    answer = by_outputs("4 x 75 W 4 ohm", lead("in", "quad", "door", "2 m", load))["in"].answer
    assert answer is not None
    open_ = [check.id.partition(".")[0] for check in answer.checks if check.status is Status.NOT_CHECKED]
    assert set(open_) & {"output", "impedance"} == {kind}
    accepted = [one.id for one in answer.confirms if one.check.startswith("impedance")]
    assert accepted == (["impedance:40-w-8-ohm-at-75-w-4-ohm"] if kind == "impedance" else [])


def test_a_load_that_no_output_of_the_amplifier_has_is_open_and_nothing_accepts_it() -> None:
    runs = lead("in", "quad", "filter", "2 m", "75 W 4 ohm"), lead("out", "filter", "door", "2 m", "40 W 8 ohm")
    assert "output" not in open_ids(by_outputs("4 x 75 W 4 ohm", *runs)["in"])
    assert "output" not in open_ids(by_outputs("2 x 20 W 4 ohm, 2 x 75 W 4 ohm", *runs)["in"])
    found = by_outputs("4 x 200 W 2 ohm", *runs)
    assert "output" in open_ids(found["in"])
    assert "output" not in open_ids(found["out"]), "what lies behind a crossover has an impedance of its own"
    assert found["in"].answer is not None
    assert "output" not in {confirm.check for confirm in found["in"].answer.confirms}
