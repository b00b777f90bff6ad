"""Figures in JSON text: six significant ones, whole numbers whole, in the same order, the same on every Python."""

import json
from math import inf, nextafter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.report.answer.as_json import advice_json
from fasten.report.plain import json_text

from .sample import PROVEN

FIGURES = st.floats(-1e9, 1e9)


def read(plain: object) -> Any:
    return json.loads(json_text(plain))


@pytest.mark.parametrize(
    ("value", "told"),
    [(0.90718474, 0.907185), (20.22459130000001, 20.2246), (1170.9999999, 1171.0), (123456.7, 123457.0), (-0.0, 0.0)],
)
def test_six_significant_figures(value: float, told: float) -> None:
    assert json_text(value) == json.dumps(told)
    assert read({"a": [value, {"b": value}]}) == {"a": [told, {"b": told}]}


@pytest.mark.parametrize("value", [True, None, 1234567, "0.90718474", "1e9"])
def test_what_is_no_figure_stays_as_it_is(value: object) -> None:
    assert json_text(value) == json.dumps(value)


@given(FIGURES, FIGURES)
def test_what_holds_still_holds(less: float, more: float) -> None:
    less, more = sorted((less, more))
    assert read(less) <= read(more)


@given(st.floats(0.001, 1e6))
def test_a_figure_is_within_half_of_its_sixth_digit(value: float) -> None:
    assert read(value) == pytest.approx(value, rel=5.1e-6)


def test_the_last_digit_of_a_float_is_not_told() -> None:
    """0.1 + 0.2, which one Python adds to 0.3 and another does not."""
    assert json_text(0.1 + 0.2) == json_text(0.3) == json_text(nextafter(0.3, 1)) == "0.3"


def test_no_figure_of_an_answer_has_more() -> None:
    figures = _floats(json.loads(json_text(advice_json(PROVEN))))
    assert len(figures) > 50
    assert [value for value in figures if value != float(f"{value:.6g}")] == []


def _floats(plain: object) -> list[float]:
    if isinstance(plain, float):
        return [plain]
    inner = plain.values() if isinstance(plain, dict) else plain if isinstance(plain, list) else ()
    return [value for part in inner for value in _floats(part)]


@pytest.mark.parametrize("value", [inf, -inf, float("nan")])
def test_an_endless_figure_has_no_place(value: float) -> None:
    with pytest.raises(ValueError, match="JSON"):
        json_text([value])
