"""A cable in clamps: how many a run asks for, how they sit, and what holds one in board, steel and plastic."""

from itertools import pairwise

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.patterns import row as in_a_row
from fasten.model import Advice, MountPoint, Origin, Pattern
from fasten.question.read import read_question
from fasten.question.resolve import resolve

LEAST = {"item": "wire-clamp", "onto": "steel 0.8 mm", "removed": "never"}
SPACING_MM, END_MM = 300.0, 120.0  # a harness design note, two language copies


def mount(**said: str) -> MountPoint:
    fields = LEAST | {name.replace("_", "-"): text for name, text in said.items()}
    return resolve(read_question(fields, builtin()), builtin())


def refusal(**said: str) -> FastenError:
    with pytest.raises(FastenError) as caught:
        mount(**said)
    assert caught.value.fix
    return caught.value


def advised(**said: str) -> Advice:
    return advise(mount(**said), builtin())


def test_without_a_run_it_is_one_clamp() -> None:
    point = mount()
    assert (point.fixings, point.pattern, point.run_mm) == (1, None, None)
    assert point.mass_kg == 0.2  # preset


@pytest.mark.parametrize("run", ["100 mm", "240 mm", "241 mm", "0.5 m", "1.2 m", "2 m", "2040 mm", "7 ft", "20 m"])
@pytest.mark.parametrize("more", [0, 1, 5])
def test_clamps_are_never_too_far_apart_nor_too_far_from_an_end(run: str, more: int) -> None:
    least = mount(run=run).fixings
    point = mount(run=run, fixings=str(least + more))
    assert point.run_mm is not None
    points = in_a_row(point.fixings, point.pattern.a_mm) if point.pattern is not None else ((0.0, 0.0),)
    along = [x for x, _ in points]
    assert (point.run_mm - (along[-1] - along[0])) / 2 <= END_MM + 1e-3
    assert along[-1] - along[0] < point.run_mm
    assert all(second - first <= SPACING_MM + 1e-3 for first, second in pairwise(along))


def test_two_metres_by_hand() -> None:
    """2000 less 2 x 120 is 1760 between the end clamps: six spaces of 293.3 mm, seven clamps of 0.2 kg."""
    point = mount(run="2 m")
    assert point.fixings == 7
    assert point.pattern == Pattern("row", pytest.approx(1760 / 6, abs=1e-3), None)  # type: ignore[arg-type]
    assert point.mass_kg == pytest.approx(1.4)
    origins = dict(point.origins)
    assert {origins[name] for name in ("fixings", "pattern", "mass_kg")} == {Origin.PRESET}
    assert origins["run_mm"] is Origin.GIVEN


def test_more_clamps_do_not_make_the_cable_heavier() -> None:
    assert mount(run="2 m", fixings="12").mass_kg == mount(run="2 m").mass_kg
    assert mount(run="2 m", pattern="row 200").mass_kg == mount(run="2 m").mass_kg


def test_too_few_clamps_are_refused_with_the_count_it_takes() -> None:
    error = refusal(run="2 m", fixings="6")
    assert error.where == "fixings"
    assert "6 clamps are too few for 2 m of cable" in error.what
    assert "it takes 7" in error.what
    assert "one clamp is too few" in refusal(run="0.3 m", fixings="1").what


@pytest.mark.parametrize(
    ("said", "where", "what"),
    [
        ({"fixings": "3"}, "run", "3 clamps sit along a run of cable"),
        ({"fixings": "3", "pattern": "row 301"}, "pattern", "301 mm apart are too far: 300 mm is the most"),
        ({"run": "2 m", "pattern": "row 400"}, "pattern", "400 mm apart are too far"),
        ({"run": "2 m", "pattern": "circle 165"}, "pattern", "in a row"),
        ({"run": "1 m", "pattern": "row 200", "fixings": "7"}, "pattern", "longer than the run"),
        ({"run": "2 m", "pattern": "row 200", "fixings": "7"}, "fixings", "it takes 10"),
        ({"run": "20 m", "pattern": "row 150"}, "run", "133 clamps"),
        ({"run": "30 m"}, "run", "20000 mm"),
        ({"run": "2"}, "run", "no unit"),
        ({"run": "0 m"}, "run", "zero"),
        ({"item": "amplifier", "run": "2 m"}, "run", "of a cable in wire clamps, not of amplifier"),
    ],
)
def test_what_does_not_go_together_is_refused(said: dict[str, str], where: str, what: str) -> None:
    error = refusal(**said)
    assert error.where == where
    assert what in error.what


def test_a_pattern_that_is_said_decides_the_count() -> None:
    """1760 mm in spaces of at most 200: nine spaces, ten clamps."""
    point = mount(run="2 m", pattern="row 200 mm")
    assert (point.fixings, point.pattern) == (10, Pattern("row", 200.0, None))
    assert mount(fixings="3", pattern="row 250").fixings == 3


@pytest.mark.parametrize("run", ["", "2 m"])
def test_into_mdf_never_removed_it_is_a_screw_with_a_pilot_of_85_to_95_percent_of_its_root(run: str) -> None:
    """The pilot: an MDF industry guide, and trade-body text; the roots: ISO 1478, from a published copy."""
    roots_mm = {"ST2.9": 2.18, "ST3.5": 2.64, "ST3.9": 2.92, "ST4.2": 3.10, "ST4.8": 3.58, "ST5.5": 4.17}
    answer = advised(onto="MDF 18 mm", run=run).answers[0]
    assert answer.method == "screw_into_board"
    joint = answer.proposal.joint
    assert joint.screw is not None
    assert joint.hole is not None
    assert 0.85 <= joint.hole.diameter_mm / roots_mm[joint.screw.thread] <= 0.95
    assert joint.hole.bit.holds


def test_in_thin_abs_without_a_boss_screws_and_inserts_say_which_boss_they_need() -> None:
    advice = advised(onto="ABS 3 mm", behind="40 mm")
    refused = {refusal.method: refusal for refusal in advice.refusals}
    for method in ("thread_forming_screw", "heat_set_insert", "self_tapping_insert"):
        figures = {figure.name: figure.value for figure in refused[method].figures}
        assert figures["boss across"] > 0
        assert figures["boss deep"] > 3.0
    assert advice.answers, "something that works without a boss is offered"


def test_more_clamps_are_offered_in_words_that_can_be_asked_with() -> None:
    advice = advised(run="2 m", mass="60 kg", behind="40 mm")
    offered = [refusal.change for refusal in advice.refusals if refusal.change and "fixings" in refusal.change]
    assert all("pattern" not in text for text in offered), "the run makes its own pattern"
