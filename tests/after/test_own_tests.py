"""Test pieces of the user's own: what they make of a figure, of exactly which joint, and what they never do.

The nut and its figures are of the demo's left amplifier: a closed M5 nut in 7 mm, whose least torque turns it at 2 N·m.
The worked cases are those of `tests/mechanics/test_own_readings.py`, laid on a joint.
"""

from dataclasses import replace
from functools import cache
from math import exp, sqrt
from pathlib import Path
from typing import Any

import pytest

import fasten
from fasten.advice.advise import advise, method_by
from fasten.after import own_tests
from fasten.after.measured import read_readings
from fasten.after.verdict import Verdict
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.lines import tested_line as line_of
from fasten.job.after.built import recorded
from fasten.job.after.judged import judged, readings_of
from fasten.job.choices import Choice, choices
from fasten.job.store.job_toml import job_text, read_job
from fasten.model import Joint, MountPoint, OwnTest, Proposal, Read
from fasten.proof.demands import demands
from fasten.proof.modes import tested
from fasten.proof.modes.capacity import Capacity
from fasten.proof.prove import prove
from fasten.proof.torque.forming import forming
from fasten.proof.torque.limits import body_turns
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
DAY = "2026-11-29"
AMP = "left amplifier"


@cache
def planned() -> dict[str, Choice]:
    demo = Path(fasten.__file__).parent / "demo" / "job.toml"
    job, _ = read_job(demo.read_bytes(), "job.toml", TABLES)
    return {choice.name: choice for choice in choices(job, TABLES)}


def nut() -> tuple[Joint, MountPoint]:
    choice = planned()[AMP]
    assert choice.answer is not None
    assert choice.point is not None
    return choice.answer.proposal.joint, choice.point


def own(joint: Joint, mount: MountPoint, read: Read, *readings: float, error: float = 0.0, **other: Any) -> OwnTest:
    line, hole = line_of(joint), joint.hole
    assert line is not None
    assert hole is not None
    test = OwnTest(read, line.text, mount.material, joint.sheet_mm, hole.diameter_mm, readings, error, "same", DAY)
    return replace(test, **other)


def turns(*tests: OwnTest) -> float:
    joint, mount = nut()
    found = body_turns(joint, replace(mount, tests=tests), TABLES)
    assert found is not None
    return found.torque_nm


def test_three_that_agree_take_the_place_of_a_least_figure_either_way() -> None:
    """A least figure gives way to what one in twenty falls under, 0.825 of three equal readings at s' = 0.10."""
    joint, mount = nut()
    assert turns() == pytest.approx(2.0, abs=0.01)
    assert turns(own(joint, mount, Read.SPIN_OUT, 3.0, 3.0, 3.0)) == pytest.approx(3.0 * 0.8295, rel=2e-3)
    assert turns(own(joint, mount, Read.SPIN_OUT, 2.1, 2.2, 2.3)) < 2.0


@pytest.mark.parametrize("readings", [(3.6,), (3.6, 3.5), (2.9, 3.6, 4.5)])
def test_few_or_scattered_readings_never_raise_a_figure(readings: tuple[float, ...]) -> None:
    joint, mount = nut()
    assert turns(own(joint, mount, Read.SPIN_OUT, *readings)) == turns()


@pytest.mark.parametrize("readings", [(1.5,), (1.5, 1.6), (1.2, 1.8, 2.4)])
def test_few_or_scattered_readings_lower_it(readings: tuple[float, ...]) -> None:
    joint, mount = nut()
    assert turns(own(joint, mount, Read.SPIN_OUT, *readings)) < turns()


@pytest.mark.parametrize(
    "other",
    [
        {"part": "part:rivet_nut/M6/other/steel"},
        {"material": "aluminium"},
        {"sheet_mm": 0.9},
        {"sheet_mm": 0.8053},
        {"hole_mm": 7.4},
    ],
)
def test_they_are_of_exactly_this_hardware_sheet_and_hole(other: dict[str, Any]) -> None:
    joint, mount = nut()
    assert turns(own(joint, mount, Read.SPIN_OUT, 1.0, 1.0, 1.0, **other)) == turns()


def test_the_instrument_divides_unless_the_same_tool_sets_it() -> None:
    joint, mount = nut()
    same = turns(own(joint, mount, Read.SPIN_OUT, 3.0, 3.0, 3.0))
    assert turns(own(joint, mount, Read.SPIN_OUT, 3.0, 3.0, 3.0, error=0.06)) == pytest.approx(same / 1.06)
    found = [own_tests.error_of(read, tool, greatest, TABLES) for read, tool, greatest in (
        (Read.SPIN_OUT, "same wrench", 3.0), (Read.SPIN_OUT, "the same screwdriver", 3.0),
        (Read.SPIN_OUT, "another", 3.0), (Read.SPIN_OUT, "another", 25.0), (Read.PULL_OUT, "luggage scale", 900.0),
        (Read.PULL_OUT, "scale with peak hold", 900.0), (Read.PULL_OUT, "same scale without peak hold", 900.0),
    )]  # fmt: skip
    assert found == [0.0, 0.0, 0.06, 0.04, 0.05, 0.02, 0.05]


def test_readings_of_several_days_count_together_and_each_once() -> None:
    joint, mount = nut()
    first, second = own(joint, mount, Read.SPIN_OUT, 3.0, 3.1), own(joint, mount, Read.SPIN_OUT, 3.05)
    point = replace(mount, tests=own_tests.joined((first,), (first, second)))
    result = tested.found(Read.SPIN_OUT, joint, point, TABLES)
    assert result is not None
    assert (result.count, result.counts) == (3, True)
    assert TABLES.source(result.from_[0]).text == f"own test, spin-out, n = 3, {DAY}"


def by_method(mount: MountPoint, method: str) -> Joint:
    return next(one.proposal.joint for one in advise(mount, TABLES, changes=False).answers if one.method == method)


def test_a_board_goes_by_the_mean_and_heat_and_driving_again_are_taken_off() -> None:
    """The worked case of an insert in birch: 1450, 1520 and 1390 N on a scale that is 5 % off come to 1332.2 N."""
    said = {"item": "bracket", "onto": "plywood 18 mm", "removed": "yearly", "mass": "1 kg", "fixings": "2",
            "pattern": "row 60", "item-thickness": "3 mm", "item-hole": "5.5 mm", "edge": "60 mm",
            "panel": "floor"}  # fmt: skip
    mount = resolve(read_question(said, TABLES), TABLES)
    insert = by_method(mount, "screw_in_insert")
    test = own(insert, mount, Read.PULL_OUT, 1450.0, 1520.0, 1390.0, error=0.05)
    point = replace(mount, tests=(test,))
    mode = next(m for m in method_by(insert).modes(point, TABLES) if m.id == "insert-withdrawal")
    assert mode.capacity(insert, point, TABLES).load_n == pytest.approx(1332.2292, rel=1e-5)
    rarely = resolve(read_question({**said, "removed": "rarely"}, TABLES), TABLES)
    screw = by_method(rarely, "screw_into_board")
    driven = replace(rarely, tests=(own(screw, rarely, Read.PULL_OUT, 1450.0, 1520.0, 1390.0, error=0.05),))
    mode = next(m for m in method_by(screw).modes(driven, TABLES) if m.id == "withdrawal")
    bare = mode.find(screw, rarely, TABLES)
    assert isinstance(bare, Capacity)
    kept = bare.kept[0].value
    assert kept < 1
    assert mode.capacity(screw, driven, TABLES).load_n == pytest.approx(1332.2292 * kept, rel=1e-5)


def test_a_line_that_rests_on_readings_follows_from_its_own_inputs() -> None:
    """The formula it names, typed again: m exp(-t s sqrt(1 + 1/n)) / (1 + e), times exp(1.645 s') for a mean."""
    said = {"item": "bracket", "onto": "plywood 18 mm", "removed": "yearly", "mass": "1 kg", "fixings": "2",
            "pattern": "row 60", "item-thickness": "3 mm", "item-hole": "5.5 mm", "edge": "60 mm",
            "panel": "floor"}  # fmt: skip
    mount = resolve(read_question(said, TABLES), TABLES)
    insert = by_method(mount, "screw_in_insert")
    point = replace(mount, tests=(own(insert, mount, Read.PULL_OUT, 1450.0, 1520.0, 1390.0, error=0.05),))
    checks = [one for one in proof(insert, point).checks if one.id.startswith("insert-withdrawal.")]
    assert {one.id.rpartition(".")[2] for one in checks} == {"service", "sustained", "hard_stop"}
    for check in checks:
        given = {one.name: one.value for one in check.inputs}
        low = given["geometric mean of own tests"] / (1 + given["instrument error"]) * exp(
            -given["t at 95 %"] * given["deviation of their logarithms"] * sqrt(1 + 1 / given["own tests"])
        )  # fmt: skip
        assert check.formula.endswith("exp(1.645 s')")
        mean = low * exp(1.645 * given["scatter that the factor holds"])
        assert check.allowable == pytest.approx(mean / given["factor"])


@cache
def boss() -> tuple[Joint, MountPoint]:
    said = {"item": "bracket", "onto": "abs 3 mm", "boss": "10x25", "removed": "rarely", "mass": "0.3 kg",
            "fixings": "4", "pattern": "rectangle 60x40", "item-thickness": "2 mm", "item-hole": "4.5 mm"}  # fmt: skip
    mount = resolve(read_question(said, TABLES), TABLES)
    found = next(one for one in advise(mount, TABLES, changes=False).answers if one.method == "thread_forming_screw")
    return found.proposal.joint, mount


def proof(joint: Joint, mount: MountPoint) -> Proposal:
    found = prove(joint, mount, method_by(joint), demands(mount, TABLES), TABLES)
    assert isinstance(found, Proposal)
    return found


def test_a_forming_screw_is_set_in_the_middle_of_what_drives_and_what_strips_it() -> None:
    """The worked case of a boss in ABS: lower 0.5629, upper 0.8117, target 0.6873; driven by feel before."""
    joint, mount = boss()
    assert proof(joint, mount).torque is None
    tests = (own(joint, mount, Read.DRIVE, 0.42, 0.45, 0.40), own(joint, mount, Read.STRIP, 1.55, 1.70, 1.62))
    point = replace(mount, tests=tests)
    window = forming(joint, point, TABLES)
    assert window is not None
    assert (window.lower_nm, window.upper.torque_nm) == pytest.approx((0.5629, 0.8117), abs=5e-5)
    torque = proof(joint, point).torque
    assert torque is not None
    assert torque.target_nm == pytest.approx(0.6873, abs=5e-5)


def test_two_readings_of_each_leave_it_by_feel_and_a_shut_window_is_refused() -> None:
    joint, mount = boss()
    few = (own(joint, mount, Read.DRIVE, 0.42, 0.45), own(joint, mount, Read.STRIP, 1.55, 1.70))
    assert proof(joint, replace(mount, tests=few)).torque is None
    shut = (own(joint, mount, Read.DRIVE, 0.8, 0.8, 0.8), own(joint, mount, Read.STRIP, 1.6, 1.6, 1.6))
    found = prove(joint, replace(mount, tests=shut), method_by(joint), demands(mount, TABLES), TABLES)
    assert not isinstance(found, Proposal)
    assert found.check == "torque-window"


def test_what_moved_it_again_may_lower_what_is_kept_and_never_raise_it() -> None:
    joint, mount = nut()
    least = [proof(joint, replace(mount, tests=tests)).torque for tests in (
        (), (own(joint, mount, Read.KEPT, 0.4),), (own(joint, mount, Read.KEPT, 0.9),),
    )]  # fmt: skip
    lows = [torque.min_nm for torque in least if torque is not None]
    assert lows[1] == pytest.approx(lows[0] * 0.5 / 0.4)
    assert lows[2] == lows[0]


def test_a_visit_counts_for_what_is_there_and_a_change_of_hardware_leaves_it_behind() -> None:
    choice = planned()[AMP]
    said = {"spin_out": "2.9 3.1 3.0", "tool": "same wrench", "torque": "1.1 N·m"}
    mount = recorded(choice.mount, said, DAY)
    found = judged(choice.of(mount), TABLES)
    assert found is not None
    assert found.verdict is Verdict.HOLDS
    assert isinstance(found.proved, Proposal)
    assert found.proved.torque is not None
    assert found.planned.torque is not None
    assert found.proved.torque.max_nm > found.planned.torque.max_nm
    other = recorded(mount, {"hardware": "M6 rivet nut; M6x16", "torque": "1 N·m"}, DAY)
    assert TABLES.tests == ()
    assert readings_of(choice.of(other), TABLES, is_sure=True).tests == ()


def test_what_is_read_is_written_to_the_file_of_the_job_and_read_back() -> None:
    demo = Path(fasten.__file__).parent / "demo" / "job.toml"
    job, _ = read_job(demo.read_bytes(), "job.toml", TABLES)
    done = recorded(job.mounts[0], {"spin_out": "2.9 3.1", "pull_out": "140 kg", "retorque": "1 N·m"}, DAY)
    again, _ = read_job(job_text(replace(job, mounts=(done,))).encode(), "job.toml", TABLES)
    assert again.mounts[0].visits[-1] == done.visits[-1]


@pytest.mark.parametrize(
    ("text", "name", "wanted"),
    [
        ("2.9 3.1 3.4", "spin_out", (2.9, 3.1, 3.4)),
        ("2,9 3,1", "spin_out", (2.9, 3.1)),
        ("2.9, 3.1; 3.4 N·m", "spin_out", (2.9, 3.1, 3.4)),
        ("26 27 in·lbf", "strip", (26 * 0.112985, 27 * 0.112985)),
        ("1450 1520", "pull_out", (1450.0, 1520.0)),
        ("140 150 kg", "pull_out", (140 * 9.80665, 150 * 9.80665)),
    ],
)
def test_readings_are_read_as_they_are_written(text: str, name: str, wanted: tuple[float, ...]) -> None:
    assert read_readings(text, name) == pytest.approx(wanted, rel=1e-5)


@pytest.mark.parametrize(
    ("said", "because"),
    [
        ({"spin_out": "2.9 x"}, "no known unit"),
        ({"spin_out": "big"}, "no row of readings"),
        ({"spin_out": "-2"}, "no row of readings"),
        ({"pull_out": "140 kg 150"}, "has no unit"),
        ({"pull_out": "3 N·m"}, "wanted a force"),
        ({"spin_out": "2 " * 31}, "31 readings are too many"),
        ({"drive": "0.4"}, "its screw forms no thread"),
        ({"retorque": "1 N·m"}, "what it was tightened to is not known"),
        ({"spin_out": "29 31"}, "which may be a slip"),
        ({"spin_out": "2.1 2.2 2.15 3.4"}, "stands apart from the other readings"),
    ],
)
def test_what_cannot_be_read_is_said_in_a_sentence(said: dict[str, str], because: str) -> None:
    choice = planned()[AMP]
    with pytest.raises(FastenError) as error:
        readings_of(choice.of(recorded(choice.mount, said, DAY)), TABLES, is_sure=False)
    assert because in error.value.what
    assert error.value.fix


def test_of_three_readings_none_is_asked_about() -> None:
    choice = planned()[AMP]
    done = recorded(choice.mount, {"spin_out": "2.1 2.1 3.4", "tool": "same"}, DAY)
    assert readings_of(choice.of(done), TABLES, is_sure=False).effects[0].counts is False
