"""The language of the tables of the work: conditions, blanks, and which row stands where."""

import re
from pathlib import Path
from shutil import copytree

import pytest

from fasten.advice.check import problems
from fasten.advice.conditions import CONDITIONS, NOT, applies, holding
from fasten.advice.steps import rows_of
from fasten.catalog import practice
from fasten.catalog.tables import Tables, builtin, shipped_folder

from .asked import answered

STEPS = builtin().rows(practice.Step, "steps")


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
def test_all_conditions_must_hold_and_not_reverses_one(only_if: tuple[str, ...], held: set[str], does: bool) -> None:
    assert applies(only_if, frozenset(held)) == does


@pytest.mark.parametrize("name", CONDITIONS)
def test_every_condition_is_named_by_a_row_and_holds_for_some_answers_alone(name: str) -> None:
    assert any(name in (text.removeprefix(NOT) for text in row.only_if) for row in STEPS), f"no row asks for {name}"
    found = {
        name in holding(answer.proposal, mount, builtin()) for _, mount, answers in answered() for answer in answers
    }
    assert found == {True, False}


def test_a_row_of_a_method_replaces_that_of_every_method_for_its_phase_and_step() -> None:
    rivet_nut = [row for row in rows_of("rivet_nut", builtin()) if (row.phase, row.step) == ("open up", 1)]
    clip_nut = [row for row in rows_of("clip_nut", builtin()) if (row.phase, row.step) == ("open up", 1)]
    assert {row.method for row in rivet_nut} == {"rivet_nut"}
    assert {row.method for row in clip_nut} == {practice.EVERY}


def test_no_step_of_an_answer_keeps_a_blank_and_no_two_share_a_place() -> None:
    for words, _, answers in answered():
        for answer in answers:
            places = [(step.phase, step.step) for step in answer.steps]
            assert len(places) == len(set(places)), (words, answer.method)
            assert not any(re.search(r"[{}]|(^| )-( |,|$)", step.text) for step in answer.steps), (words, answer.steps)


def test_the_shipped_tables_name_nothing_that_is_not_known() -> None:
    assert list(problems(builtin())) == []


@pytest.mark.parametrize(
    ("was", "becomes", "told"),
    [
        ('"not ground lug"', '"not ground lugs"', "there is no condition 'ground lugs'"),
        ("{refinish}", "{repaint}", "there is no blank 'repaint'"),
        ('"rivet_nut", ', '"pop_nut", ', "there is no method 'pop_nut'"),
        ('"every",                "verify", ', '"every",                "look", ', "the row is out of order"),
    ],
)
def test_a_name_that_is_not_known_and_a_row_out_of_order_are_told(
    folder: Path, was: str, becomes: str, told: str
) -> None:
    path = folder / "steps.toml"
    text = path.read_text(encoding="utf-8")
    assert was in text
    path.write_text(text.replace(was, becomes), encoding="utf-8")
    found = [str(problem) for problem in problems(Tables(folder))]
    assert found
    assert all(told in text and "steps.toml, row " in text for text in found)
