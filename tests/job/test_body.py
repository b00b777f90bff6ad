"""The way back through the body, where it is measured: it carries what all loads send through it."""

import pytest

from fasten.catalog.tables import builtin
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job, Mount
from fasten.report.wire.as_text import wire_text
from fasten.wiring.sizing import Sizing

TABLES = builtin()
ON = (("onto", "plywood 18 mm"), ("removed", "yearly"))
AMPS_A, AMPS_B = 1000 / 0.75 / 13.8, 300 / 0.6 / 13.8
MOUNTS = (
    Mount("mono", (("item", "amplifier"), *ON, ("power", "1000 W class D"))),
    Mount("four", (("item", "amplifier"), *ON, ("power", "300 W class AB"))),
    Mount("lug", (("item", "ground-lug"), ("onto", "steel 1.2 mm"), ("removed", "rarely"))),
    Mount("front", (("item", "distribution-block"), *ON)), Mount("minus", (("item", "distribution-block"), *ON)),
)  # fmt: skip


def run(name: str, from_: str, to: str, *more: tuple[str, str]) -> CableRun:
    return CableRun(name, (("from", from_), ("to", to), ("length", "0.4 m"), *more))


def body(mohm: float) -> tuple[str, str]:
    return "body", f"{mohm} mohm"


POWER_A, POWER_B = run("a", "battery stud M8", "mono"), run("b", "battery stud M8", "four")
GROUND_A, GROUND_B = run("a ground", "mono", "lug", body(1.2)), run("b ground", "four", "lug", body(1.2))


def sizings(*runs: CableRun) -> dict[str, Sizing]:
    choices = run_choices(Job("Car", "invented", "", MOUNTS, runs=runs), TABLES)
    return {one.name: one.answer.sizing for one in choices if one.answer is not None}


def in_body_v(one: Sizing) -> float:
    """What is lost in the body, of all that is lost: the rest is cable."""
    assert one.conductor is not None
    assert one.current is not None
    cable_mm = one.run.length_mm + one.run.ground_mm + one.run.return_mm
    along_v = one.current.full_a * one.conductor.resistance_mohm_per_m * cable_mm / 1e6
    return one.conductor.drop_v - one.run.before_v - along_v


def open_of(*runs: CableRun) -> dict[str, list[str]]:
    choices = run_choices(Job("Car", "invented", "", MOUNTS, runs=runs), TABLES)
    return {
        one.name: [check.id for check in one.answer.checks if check.id == "unloaded.body"]
        for one in choices if one.answer is not None
    }  # fmt: skip


def test_one_load_alone_loses_by_its_own_current() -> None:
    found = sizings(POWER_A, GROUND_A)
    assert in_body_v(found["a"]) == pytest.approx(AMPS_A * 1.2e-3)
    assert in_body_v(found["a ground"]) == pytest.approx(AMPS_A * 1.2e-3)


def test_two_loads_at_one_ground_point_lose_by_the_sum_of_their_currents() -> None:
    """(96.6 + 36.2) A through 1.2 mΩ: 0.159 V for each, and for each ground run."""
    for one in sizings(POWER_A, POWER_B, GROUND_A, GROUND_B).values():
        assert in_body_v(one) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3), one.run.name


def test_of_two_ways_no_more_than_the_shorter_may_be_shared() -> None:
    far = run("b ground", "four", "body M8", body(2.0))
    found = sizings(POWER_A, POWER_B, GROUND_A, far)
    assert in_body_v(found["a"]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)
    assert in_body_v(found["b"]) == pytest.approx(AMPS_B * 2e-3 + AMPS_A * 1.2e-3)


def test_a_way_that_is_not_measured_may_be_all_of_one_that_is() -> None:
    unmeasured = run("b ground", "four", "body M8")
    found = sizings(POWER_A, POWER_B, GROUND_A, unmeasured)
    assert in_body_v(found["a"]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)
    assert in_body_v(found["b"]) == pytest.approx(0, abs=1e-12), "the body is in no drop until it is measured"


def test_a_ground_lead_beside_the_run_goes_back_through_the_body_too() -> None:
    beside = run("b", "battery stud M8", "four", ("ground", "0.4 m"), body(1.2))
    found = sizings(POWER_A, GROUND_A, beside)
    for name in ("a", "b"):
        assert in_body_v(found[name]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)


def test_a_load_that_is_grounded_at_the_minus_shares_nothing() -> None:
    at_minus = run("b ground", "four", "battery stud M8 -")
    found = sizings(POWER_A, POWER_B, GROUND_A, at_minus)
    assert in_body_v(found["a"]) == pytest.approx(AMPS_A * 1.2e-3)
    said = sizings(POWER_A, run("b", "battery stud M8", "four", body(1.2)), GROUND_A, at_minus)
    assert in_body_v(said["b"]) == pytest.approx(AMPS_B * 1.2e-3)


def test_grounds_that_join_are_counted_once() -> None:
    """The run from their block carries both through the body; so it does where the way is said of a branch or trunk."""
    joined = run("a ground", "mono", "minus"), run("b ground", "four", "minus"), run("main", "minus", "lug", body(1.2))
    main = sizings(POWER_A, POWER_B, *joined)
    assert in_body_v(main["main"]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)
    assert main["a"].run.body_others_v == 0
    trunk = (run("trunk", "battery stud M8", "front", body(1.2)), run("a", "front", "mono"), run("b", "front", "four"),
             run("a ground", "mono", "lug"), run("b ground", "four", "lug"))  # fmt: skip
    assert in_body_v(sizings(*trunk)["trunk"]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)
    branch = (run("trunk", "battery stud M8", "front"), run("a", "front", "mono", body(1.2)), *trunk[2:])
    assert in_body_v(sizings(*branch)["a"]) == pytest.approx((AMPS_A + AMPS_B) * 1.2e-3)


def test_the_cable_from_the_minus_to_the_body_is_no_load() -> None:
    cable = run("minus to body", "battery stud M8 -", "body M8", ("carries", "96.6 A"))
    assert in_body_v(sizings(POWER_A, GROUND_A, cable)["a"]) == pytest.approx(AMPS_A * 1.2e-3)


def test_a_ground_run_of_nothing_of_the_job_is_another_load_unless_it_may_be_its_own() -> None:
    bare = run("b ground", "set screw", "body M8", ("carries", "30 A"))
    assert in_body_v(sizings(POWER_A, GROUND_A, bare)["a"]) == pytest.approx((AMPS_A + 30) * 1.2e-3)
    said = run("a", "battery stud M8", "mono", body(1.2))
    assert in_body_v(sizings(said, bare)["a"]) == pytest.approx(AMPS_A * 1.2e-3)


def test_a_load_of_which_the_current_is_not_known_leaves_the_drop_open() -> None:
    assert open_of(POWER_A, GROUND_A, run("b ground", "four", "body M8"))["a"] == ["unloaded.body"]
    assert open_of(POWER_A, POWER_B, GROUND_A, GROUND_B)["a"] == []


def test_the_text_says_what_others_lose_there() -> None:
    choices = run_choices(Job("Car", "invented", "", MOUNTS, runs=(POWER_A, POWER_B, GROUND_A, GROUND_B)), TABLES)
    assert choices[0].answer is not None
    text = " ".join(wire_text(choices[0].answer, 80).split())
    assert "body 1.2 mΩ, 0.044 V of it by others in the body" in text
