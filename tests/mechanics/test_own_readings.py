"""Statistics of a few test pieces against printed tables and worked cases.

Student's t: NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.2. Grubbs' limits, both ends at 5 %: the table of
Grubbs and Beck 1972, to three decimals from memory. What one in twenty falls under is integrated over the posterior of
the scatter besides (JCSS Probabilistic Model Code part 3 annex A, ISO 2394).
"""

from math import erf, exp, log, sqrt
from typing import Any

import pytest

from fasten.mechanics import test_pieces as pieces

STUDENT = {1: 6.314, 2: 2.920, 3: 2.353, 4: 2.132, 5: 2.015, 7: 1.895, 10: 1.812, 11: 1.796, 12: 1.782, 30: 1.697}
GRUBBS = {3: 1.154, 4: 1.481, 5: 1.715, 6: 1.887, 8: 2.127, 10: 2.290, 20: 2.708, 30: 2.908}


@pytest.mark.parametrize(("freedom", "printed"), STUDENT.items())
def test_students_t_is_as_printed(freedom: int, printed: float) -> None:
    assert pieces.student_quantile(over=0.05, freedom=freedom) == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize(("count", "printed"), GRUBBS.items())
def test_the_limit_of_an_outlier_is_as_printed(count: int, printed: float) -> None:
    assert pieces.outlier_limit(count=count) == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize(
    ("readings", "prior", "error", "mean", "deviation", "low", "as_mean"),
    [
        ((3.6,), 0.10, 0.0, 3.6, 0.1, 2.786, 3.2842),
        ((2.1, 2.6), 0.10, 0.06, 2.3367, 0.10566, 1.7473, 2.0597),
        ((1450.0, 1520.0, 1390.0), 0.15, 0.05, 1452.364, 0.13814, 1040.9186, 1332.2292),
    ],
)
def test_a_few_readings_come_to_what_was_worked_by_hand(
    readings: tuple[float, ...], prior: float, error: float, mean: float, deviation: float, low: float, as_mean: float
) -> None:
    found = pieces.log_mean(readings=readings)
    spread = pieces.log_deviation(readings=readings, prior=prior, prior_readings=10)
    student = pieces.student_quantile(over=0.05, freedom=9 + len(readings))
    least = pieces.characteristic(mean=found, deviation=spread, student=student, count=len(readings), error=error)
    assert (found, spread, least) == pytest.approx((mean, deviation, low), rel=5e-5)
    assert pieces.mean_equivalent(characteristic=least, prior=prior) == pytest.approx(as_mean, rel=5e-5)


@pytest.mark.parametrize("readings", [(3.6,), (2.1, 2.6), (1450.0, 1520.0, 1390.0), (1.0, 1.3, 0.8, 1.1, 0.9)])
def test_one_in_twenty_falls_under_it_over_all_that_the_scatter_may_be(readings: tuple[float, ...]) -> None:
    """Its square is a scaled inverse chi-square: the normal law averaged over it, in steps of its logarithm."""
    count, freedom = len(readings), 9 + len(readings)
    mean = pieces.log_mean(readings=readings)
    spread = pieces.log_deviation(readings=readings, prior=0.1, prior_readings=10)
    student = pieces.student_quantile(over=0.05, freedom=freedom)
    low = pieces.characteristic(mean=mean, deviation=spread, student=student, count=count, error=0.0)
    total = under = 0.0
    for step in range(-4000, 4001):
        scatter = spread * exp(step / 1000)
        weight = scatter**-freedom * exp(-freedom * spread**2 / (2 * scatter**2))
        total += weight
        under += weight * (1 + erf(log(low / mean) / (scatter * sqrt(2 * (1 + 1 / count))))) / 2
    assert under / total == pytest.approx(0.05, rel=1e-4)


@pytest.mark.parametrize(("count", "share"), [(1, 0.91), (3, 0.98)])
def test_readings_that_are_all_alike_stand_for_a_little_less_than_their_mean(count: int, share: float) -> None:
    """n = 1 gives 0.91 of the mean and n = 3 gives 0.98, at s' = 0.10."""
    student = pieces.student_quantile(over=0.05, freedom=9 + count)
    spread = pieces.log_deviation(readings=(1.0,) * count, prior=0.1, prior_readings=10)
    low = pieces.characteristic(mean=1.0, deviation=spread, student=student, count=count, error=0.0)
    assert pieces.mean_equivalent(characteristic=low, prior=0.1) == pytest.approx(share, abs=0.005)


def test_without_a_prior_it_is_the_rule_of_an_unknown_scatter() -> None:
    """EN 1990 table D.1, scatter unknown: k_n is 3.37 at three tests and 2.33 at five."""
    for count, factor in ((3, 3.37), (5, 2.33)):
        student = pieces.student_quantile(over=0.05, freedom=count - 1)
        low = pieces.characteristic(mean=1.0, deviation=0.01, student=student, count=count, error=0.0)
        assert low == pytest.approx(exp(-factor * 0.01), rel=1e-4)


def test_what_one_in_twenty_goes_over_mirrors_what_it_falls_under() -> None:
    under = pieces.characteristic(mean=2.0, deviation=0.1, student=1.8, count=3, error=0.0)
    assert pieces.upper_characteristic(mean=2.0, deviation=0.1, student=1.8, count=3) * under == pytest.approx(4.0)


def test_of_three_two_that_are_alike_always_make_the_third_stand_apart() -> None:
    """Why nothing is asked below four readings: the ratio is then 2/sqrt(3) whatever they are."""
    assert pieces.outlier_ratio(readings=(2.0, 2.0, 2.1)) == pytest.approx(1.1547, abs=1e-4)
    assert pieces.outlier_ratio(readings=(2.0, 2.0, 9.0)) == pytest.approx(1.1547, abs=1e-4)


@pytest.mark.parametrize("over", [0.0, 0.5, -1.0, float("nan")])
def test_only_the_upper_half_has_a_quantile(over: float) -> None:
    with pytest.raises(ValueError, match=r"over is"):
        pieces.student_quantile(over=over, freedom=3)


def test_what_is_no_reading_is_refused() -> None:
    for readings in ((), (1.0, 0.0), (1.0, float("nan"))):
        with pytest.raises(ValueError, match=r"count is|reading is"):
            pieces.log_mean(readings=readings)
    with pytest.raises(ValueError, match=r"count is 2"):
        pieces.outlier_ratio(readings=(1.0, 2.0))


@pytest.mark.parametrize("wrong", [{"mean": 0.0}, {"deviation": -0.1}, {"student": -1.8}, {"count": 0}])
def test_no_impossible_figure_has_a_characteristic_value(wrong: dict[str, float]) -> None:
    given: dict[str, Any] = {"mean": 2.0, "deviation": 0.1, "student": 1.8, "count": 3, **wrong}
    (name,) = wrong
    with pytest.raises(ValueError, match=f"{name} is"):
        pieces.characteristic(**given, error=0.0)
    with pytest.raises(ValueError, match=f"{name} is"):
        pieces.upper_characteristic(**given)


def test_no_instrument_is_off_by_less_than_nothing() -> None:
    with pytest.raises(ValueError, match=r"error is"):
        pieces.characteristic(mean=2.0, deviation=0.1, student=1.8, count=3, error=-0.05)


@pytest.mark.parametrize(
    ("wrong", "name"), [({"readings": ()}, "count"), ({"readings": (1.0, 0.0)}, "reading"), ({"prior": 0.0}, "prior"),
                        ({"prior_readings": 0.0}, "prior_readings")],
)  # fmt: skip
def test_no_impossible_figure_has_a_deviation(wrong: dict[str, Any], name: str) -> None:
    with pytest.raises(ValueError, match=f"{name} is"):
        pieces.log_deviation(**{"readings": (1.0, 1.1), "prior": 0.1, "prior_readings": 10.0, **wrong})


@pytest.mark.parametrize("wrong", [{"characteristic": 0.0}, {"prior": -0.1}])
def test_no_impossible_figure_stands_for_a_mean(wrong: dict[str, float]) -> None:
    (name,) = wrong
    with pytest.raises(ValueError, match=f"{name} is"):
        pieces.mean_equivalent(**{"characteristic": 2.0, "prior": 0.1, **wrong})
