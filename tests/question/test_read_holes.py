"""Holes where they really are, as people write them; what is asked for where the readings do not suffice."""

from math import dist, sqrt

import pytest

from fasten.model import Pattern

from .asking import ask, check_message, refusal

SIX = "1-2 240, 2-3 181, 3-4 239, 4-1 180, 1-3 300, 2-4 301"


def pattern(text: str) -> Pattern:
    found = ask(pattern=text).pattern
    assert found is not None
    return found


def test_points_stand_as_they_were_written() -> None:
    found = pattern("points 0,0 240,0 238,181 1,180")
    assert found == Pattern("points", 240.0, 181.0, ((0.0, 0.0), (240.0, 0.0), (238.0, 181.0), (1.0, 180.0)))


@pytest.mark.parametrize("written", [f"rule {SIX}", f"Rule {SIX.replace(', ', ',')}", f"rule {SIX.replace(',', ';')}"])
def test_readings_are_read_in_every_spelling(written: str) -> None:
    found = pattern(written)
    assert dist(found.points_mm[1], found.points_mm[3]) == pytest.approx(300.7, abs=0.01)
    assert found.survey is not None
    assert found.survey.radii_mm == pytest.approx([0.71] * 4, abs=0.005)


def test_a_tape_is_less_sure_than_a_rule_and_a_calliper_surer() -> None:
    text = "1-2 240, 2-3 180, 3-4 240, 4-1 180, 1-3 300, 2-4 300"
    radii = [pattern(f"{tool} {text}").survey for tool in ("calliper", "rule", "tape")]
    errors = [survey.radii_mm[0] for survey in radii if survey is not None]
    # Half the step either side adds its variance, step² / 12.
    of_tool = [sqrt(error**2 + step**2 / 12) for error, step in ((0.2, 0.1), (0.5, 0.5), (1.0, 1.0))]
    assert [errors[0] / of_tool[0]] * 3 == pytest.approx([e / o for e, o in zip(errors, of_tool, strict=True)])


def test_inside_adds_the_hole_to_each_reading() -> None:
    inside = pattern("rule inside 6.6 mm 1-2 233.4, 2-3 173.4, 1-3 293.4")
    middle = pattern("rule 1-2 240, 2-3 180, 1-3 300")
    assert inside.points_mm == middle.points_mm


def test_the_way_the_numbers_run_mirrors_the_holes() -> None:
    one, other = (pattern(f"tape {way} {SIX}").points_mm for way in ("clockwise", "anticlockwise"))
    assert one == tuple((x, -y) for x, y in other)
    assert other[2][1] > 0
    assert pattern(f"tape {SIX}").points_mm == other, "taken as anticlockwise, and the answer asks"


def test_a_row_lies_on_one_line() -> None:
    found = pattern("rule 1-2 150, 2-3 150.5, 1-3 300")
    assert found.survey is not None
    assert found.survey.in_line
    assert {y for _, y in found.points_mm} == {0.0}
    assert [round(x, 1) for x, _ in found.points_mm][0::2] == pytest.approx([0.0, 300.0], abs=0.3)


@pytest.mark.parametrize(
    ("text", "what", "fix"),
    [
        ("tape 1-2 240, 2-3 181, 3-4 239, 4-1 180", "one more reading", "1-3 or 2-4"),
        ("tape 1-2 240, 2-3 181, 3-4 239, 4-1 180, 1-3 300", "more than one shape", "2-4 too: 82.6 or 299.8 mm"),
        ("rule 1-2 240, 2-3 180, 3-4 240, 4-1 180, 1-3 300, 2-4 320", "contradict", "2-4 320 mm (300 would fit)"),
        ("rule 1-2 233.4, 2-3 173.4, 3-4 233.4, 4-1 173.4, 1-3 293.4, 2-4 293.4, 1-5 143.4, 2-5 143.4, 3-5 143.4, "
         "4-5 143.4", "6.6 mm too short", "inside 6.6 mm"),
        ("tape 1-2 240, 1-4 180, 2-4 300", "no reading reaches hole 3", "number the holes"),
        ("tape inside 1-2 240", "how wide the holes are", "inside 6.6 mm"),
        ("tape 1-1 240", "no two holes", "number the holes"),
        ("tape 1-2 240 kg", "", ""),
        ("tape", "no distance", "1-2 240"),
        ("points 0,0", "from 2 to 20 points", "x,y"),
        ("points 0,0 0,0", "two of the points are one", "measure again"),
        ("points 0,0 240,b", "from 2 to 20 points", "x,y"),
    ],
)  # fmt: skip
def test_what_does_not_suffice_is_said_with_what_to_do(text: str, what: str, fix: str) -> None:
    error = refusal(pattern=text)
    check_message(error)
    assert what in error.what
    assert fix in error.fix


def test_the_count_of_the_fixings_follows_from_the_holes() -> None:
    from fasten.catalog.tables import builtin
    from fasten.question.resolve import resolve

    mount = resolve(ask(pattern="points 0,0 100,0 50,80"), builtin())
    assert mount.fixings == 3
    assert "3 holes" in refusal(pattern="points 0,0 100,0 50,80", fixings="4").what
