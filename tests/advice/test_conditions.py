"""The language of the tables of the work: conditions, blanks, and which row stands where."""

import re
from functools import cache
from pathlib import Path
from shutil import copytree

import pytest

from fasten.advice import conditions
from fasten.advice.check import problems
from fasten.advice.conditions import CONDITIONS, NOT, Condition, Holding, applies
from fasten.advice.rows import pilot_mm, steps_of_method
from fasten.catalog import practice
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.model import BitChoice, Hole, Tolerance

from .asked import answered
from .test_work import AMPLIFIER, asked

CONDITIONED = ("steps", "tools", "consumables", "cautions")  # tables with a column `only_if`


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    copytree(shipped_folder(), tmp_path / "catalogs")
    return tmp_path / "catalogs"


@pytest.mark.parametrize(
    ("only_if", "held", "does"),
    [
        ((), set(), True),
        (("board",), {"board"}, True),
        (("board",), {"sheet"}, False),
        (("board", "hole"), {"board"}, False),
        (("not board",), {"sheet"}, True),
        (("not board", "hole"), {"board", "hole"}, False),
    ],
)
def test_all_conditions_must_hold_and_not_reverses_one(
    only_if: tuple[str, ...], held: set[str], does: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    advice = asked(AMPLIFIER)  # which is kept, and so by the conditions that there are
    known = {name: Condition("", lambda *_, name=name: name in held) for name in ("board", "sheet", "hole")}
    monkeypatch.setattr(conditions, "CONDITIONS", known)
    assert applies(only_if, Holding(advice.answers[0].proposal, advice.mount, builtin())) == does


@cache
def held_by_answers() -> frozenset[frozenset[str]]:
    """What holds together for some answer."""
    return frozenset(
        frozenset(filter(Holding(answer.proposal, mount, builtin()).__getitem__, CONDITIONS))
        for _, mount, answers in answered()
        for answer in answers
    )


@pytest.mark.slow
@pytest.mark.parametrize("name", CONDITIONS)
def test_every_condition_is_named_by_a_row_and_holds_for_some_answers_alone(name: str) -> None:
    only_if = (text for table in CONDITIONED for row in builtin().table(table).rows for text in vars(row)["only_if"])
    assert name in {text.removeprefix(NOT) for text in only_if}, f"no row asks for {name}"
    assert {name in held for held in held_by_answers()} == {True, False}


def test_a_row_of_a_method_replaces_that_of_every_method_for_its_phase_and_step() -> None:
    rivet_nut = [row for row in steps_of_method("rivet_nut", builtin()) if (row.phase, row.step) == ("open up", 1)]
    clip_nut = [row for row in steps_of_method("clip_nut", builtin()) if (row.phase, row.step) == ("open up", 1)]
    assert {row.method for row in rivet_nut} == {"rivet_nut"}
    assert {row.method for row in clip_nut} == {practice.EVERY}


@pytest.mark.parametrize(("method", "hole_mm", "first_mm"), [
    ("rivet_nut", 7.1, 3.0), ("tapping_screw", 2.6, 2.6), ("self_drilling_screw", 3.0, 2.0), ("adhesive", None, None),
])  # fmt: skip
def test_the_pilot_is_that_of_the_method_and_no_larger_than_the_hole(
    method: str, hole_mm: float | None, first_mm: float | None
) -> None:
    """3 mm, common practice; 2 mm where the point of the screw itself drills on."""
    bit = BitChoice("any", 0.0, 0.0, True)
    hole = None if hole_mm is None else Hole(hole_mm, Tolerance(0, 0), None, bit)
    assert pilot_mm(method, hole, builtin()) == first_mm


@pytest.mark.slow
def test_no_step_of_an_answer_keeps_a_blank_and_no_two_share_a_place() -> None:
    for words, _, answers in answered():
        for answer in answers:
            places = [(step.phase, step.step) for step in answer.steps]
            assert len(places) == len(set(places)), (words, answer.method)
            assert not any(re.search(r"[{}]|(^| )-( |,|$)", step.text) for step in answer.steps), (words, answer.steps)


def test_the_shipped_tables_name_nothing_that_is_not_known() -> None:
    assert list(problems(builtin())) == []


@pytest.mark.parametrize(
    ("table", "was", "becomes", "told"),
    [
        ("steps", '"not ground lug"', '"not ground lugs"', "there is no condition 'ground lugs'"),
        ("steps", "{refinish}", "{repaint}", "there is no blank 'repaint'"),
        ("steps", '"rivet_nut", ', '"pop_nut", ', "there is no method 'pop_nut'"),
        ("steps", '"every",                "verify", ', '"every",                "look", ', "the row is out of order"),
        ("tools", '"square hole"', '"triangular hole"', "there is no condition 'triangular hole'"),
        ("tools", '"ball_stud", ', '"ball_studs", ', "there is no method 'ball_studs'"),
        ("tool-kinds", "{across}", "{width}", "there is no blank 'width'"),
        ("cautions", "{panel_eaten}", "{panel_gone}", "there is no blank 'panel_gone'"),
        ("cautions", '"magnet_and_plate"', '"magnets"', "there is no method 'magnets'"),
        ("consumables", '"stud base"', '"stud bases"', "there is no condition 'stud bases'"),
    ],
)
def test_a_name_that_is_not_known_and_a_row_out_of_order_are_told(
    folder: Path, table: str, was: str, becomes: str, told: str
) -> None:
    path = folder / f"{table}.toml"
    text = path.read_text(encoding="utf-8")
    assert was in text
    path.write_text(text.replace(was, becomes), encoding="utf-8")
    found = [str(problem) for problem in problems(Tables(folder))]
    assert found
    assert all(told in text and f"{table}.toml, row " in text for text in found)
