"""How far readings may miss by chance alone: limits of chi-square, and the bias that a test of it notices."""

from collections.abc import Callable
from functools import lru_cache
from math import exp, lgamma, log

RADIUS_95 = 2.4477468  # sqrt(5.99146): of two normal errors, 95 % lie within so many deviations
SURE, NOTICED = 0.99, 0.99
AHEAD = 10.83  # chi-square at 99.9 % with one degree of freedom


@lru_cache(maxsize=256)
def limit(spare: int) -> float:
    """The chi-square that right readings exceed once in a hundred times; nothing to spare tests nothing.

    spare: readings beyond those that fix the holes [-]
    Returns: limit of chi-square [-]
    Source: chi-square distribution at 99 %
    """
    if spare < 1:
        return 0.0
    return _root(lambda value: _below(spare, value) - SURE, 10.0 * spare + 20)


@lru_cache(maxsize=256)
def noticed(spare: int) -> float:
    """How far a wrong reading must lift the mean of chi-square, to be noticed 99 times in a hundred at the limit.

    spare: readings beyond those that fix the holes, one or more [-]
    Returns: non-centrality of chi-square [-]
    Source: non-central chi-square distribution, as a Poisson sum of central ones
    """
    most = limit(spare)
    return _root(lambda shift: 1 - NOTICED - _below_shifted(spare, shift, most), 20.0 * spare + 100)


def _root(rising: Callable[[float], float], high: float) -> float:
    low = 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2


def _below_shifted(spare: int, shift: float, value: float) -> float:
    """Chance that a non-central chi-square lies below a value."""
    total, term = 0.0, exp(-shift / 2)
    for step in range(400):
        total += term * _below(spare + 2 * step, value)
        term *= shift / 2 / (step + 1)
    return total


def _below(spare: int, value: float) -> float:
    """Chance that chi-square lies below a value: the incomplete gamma function, by its series."""
    half, x = spare / 2, value / 2
    if x <= 0:
        return 0.0
    term = total = 1 / half
    step = half
    while term > total * 1e-15:
        step += 1
        term *= x / step
        total += term
    return min(total * exp(half * log(x) - x - lgamma(half)), 1.0)
