"""Figures three rows high: no two alike, filled only where they may be drilled to, and always in plain text too."""

from itertools import combinations
from typing import Any

import pytest

from fasten.advice.advise import advise
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.tui.drawn.digits import _OUTLINE, _SOLID, can_draw, large
from fasten.tui.drawn.figures import figure_lines, figures
from fasten.tui.drawn.runs import plain

from ..pilot import TABLES

KNOWN = {"behind": "40 mm", "edge": "40 mm", "support": "firm"}


def answered(**said: str) -> Advice:
    fields: dict[str, Any] = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", **said}
    return advise(resolve(read_question(fields, TABLES), TABLES), TABLES, changes=False)


@pytest.fixture(scope="module")
def proven() -> Advice:
    return answered(**KNOWN)


@pytest.mark.parametrize("solid", [True, False])
def test_no_two_characters_look_alike_and_all_are_three_rows(solid: bool) -> None:
    forms = {char: large(char, solid=solid) for char in _SOLID}
    assert set(_SOLID) == set(_OUTLINE)
    assert [pair for pair in combinations(forms, 2) if forms[pair[0]] == forms[pair[1]]] == []
    assert {len(form) for form in forms.values()} == {3}
    assert {len({len(row) for row in form}) for form in forms.values()} == {1}


def test_digits_that_are_misread_differ_in_more_than_a_dot() -> None:
    for one, other in ("80", "86", "89", "56", "79", "17", "38"):
        dots = zip(_SOLID[one], _SOLID[other], strict=False)
        assert sum(a != b for a, b in dots) >= 1, (one, other)
        rows = zip(large(one, solid=False), large(other, solid=False), strict=True)
        assert any(a != b for a, b in rows), (one, other)


def test_what_has_no_form_stays_text() -> None:
    assert can_draw("7.6")
    assert can_draw("M5×16")
    assert not can_draw("")
    assert not can_draw("B 12")


def test_the_torque_is_rounded_down_and_the_hole_has_its_tolerance_beneath(proven: Advice) -> None:
    hole, screw, torque = figures(proven.answers[0])
    assert (hole.label, hole.text, hole.beneath) == ("hole and bit", "7.6 mm", "-0 +0.1, through")
    assert (screw.value, screw.text) == ("M5×16", "M5 x 16 mm")
    exact = proven.answers[0].proposal.torque
    assert exact is not None
    assert float(torque.value) <= exact.target_nm < float(torque.value) + 0.01
    least, most = (float(text) for text in torque.beneath.partition(",")[0].split(" to "))
    assert exact.min_nm <= least < float(torque.value) < most <= exact.max_nm


@pytest.mark.parametrize("width", [42, 75])
def test_a_proven_answer_is_filled_and_another_in_outline_at_every_width(proven: Advice, width: int) -> None:
    for advice, solid in ((proven, True), (answered(), False)):
        lines = [plain(line) for line in figure_lines(advice.answers[0], width, solid=solid)]
        assert max(map(len, lines)) <= width
        assert bool(set("█▀▄") & set("".join(lines))) is solid
        assert bool(set("┌└╶") & set("".join(lines))) is not solid
        assert "hole and bit 7.6 mm" in lines[0]
        assert "torque 1.49 N·m" in lines[0]
        assert any("M5 x 16 mm" in line for line in lines)


def test_a_bit_that_is_not_the_hole_is_not_called_it() -> None:
    answer = answered(item="crossover", onto="plywood 18 mm", removed="rarely", edge="60 mm").answers[0]
    assert answer.proposal.joint.hole is not None
    hole = figures(answer)[0]
    assert (hole.label == "hole and bit") is (answer.proposal.joint.hole.bit.deviation_mm == 0)
