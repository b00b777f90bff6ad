"""Readings to holes: what they show, what is missing of them, and which of them cannot be right."""

from functools import lru_cache
from itertools import combinations
from math import dist, sqrt

from fasten.geometry.survey import chance
from fasten.geometry.survey.network import Fit, Reading, Readings, Sure, chi2_of, fitted, sureness
from fasten.geometry.survey.placing import Pair, order_of, pair_of, placed, unread
from fasten.geometry.survey.row import in_row, unknown_across_mm
from fasten.record import record, replace
from fasten.require import Points

_FEW, _LIKELY = 6, 40.0  # shapes that are always fitted; the chi-square at the start up to which all are
_SAME = 4.0  # shapes that differ by fewer errors of a reading than this are one
_EXACT = 1e-3  # chi-square where nothing is to spare
_SPARE_TO_NAME = 3


@record
class Shows:
    """The holes as the readings show them, about their middle; `in_line` where they were taken as a row.

    `radii_mm` holds 95 % of each hole's error. `noticed_mm` is the error of each reading that the others would have
    shown, 99 times in a hundred; None where nothing checks it.
    """

    points_mm: Points
    readings: Readings
    radii_mm: tuple[float, ...]
    noticed_mm: tuple[float | None, ...]
    spare: int
    chi2: float
    limit: float
    in_line: bool


@record
class TooFew:
    """Not all holes are fixed: any of these pairs, not read yet, fixes them further."""

    pairs: tuple[Pair, ...]
    more: int


@record
class TwoShapes:
    """More than one shape fits: the distance between these two decides, and what it is in each shape."""

    pair: Pair
    apart_mm: tuple[float, ...]


@record
class Suspect:
    """A reading without which the others agree, and what it would have to be."""

    reading: Reading
    fits_mm: float
    chi2: float

    @property
    def off_mm(self) -> float:
        """How far the reading is off that."""
        return max(self.fits_mm - self.reading.mm, self.reading.mm - self.fits_mm)


@record
class Misread:
    """The readings contradict one another: those that may be wrong, the likeliest first; `named` where only one is."""

    suspects: tuple[Suspect, ...]
    named: bool
    chi2: float
    limit: float
    spare: int


@record
class AllOff:
    """The readings agree once each is changed by as much: measured edge to edge, or with a hook that is worn."""

    by_mm: float
    chi2: float
    limit: float
    spare: int


Surveyed = Shows | TooFew | TwoShapes | Misread | AllOff


@lru_cache(maxsize=64)
def surveyed(count: int, readings: Readings) -> Surveyed:
    """What distances between holes show of them.

    count: number of holes, two or more [-]
    readings: distances read [-]
    Returns: the holes, or what keeps them from being known [-]
    Source: least squares and a test of chi-square at 1 %; textbooks on surveying
    """
    missing = unread(count, readings)
    spare = len(readings) - (2 * count - 3)
    order = order_of(count, readings)
    if missing:
        return TooFew(missing, max(1, -spare))
    if len(order) < count:  # fixed, but by no two readings at a time: one more makes it plain
        known, read = set(order), {pair_of(reading) for reading in readings}
        pairs = (pair for pair in combinations(range(count), 2) if len(known & set(pair)) == 1)
        return TooFew(tuple(pair for pair in pairs if pair not in read), 1)
    fits = _fits(order, readings)
    most = chance.limit(spare)
    if fits[0].chi2 > max(most, _EXACT):
        row = in_row(fits[0].points_mm, readings)
        if row is None:
            return _wrong(fits[0], readings, spare)
        return _shown(row, readings, spare, in_line=True)
    row = in_row(fits[0].points_mm, readings)
    if row is not None:
        return _shown(fits[0], readings, spare, in_line=True)
    return _other_shape(fits, readings, most) or _shown(fits[0], readings, spare, in_line=False)


def _fits(order: list[int], readings: Readings) -> list[Fit]:
    """Every shape fitted, the best first."""
    starts = placed(order, readings)
    likely = [start for place, start in enumerate(starts) if place < _FEW or chi2_of(start, readings) < _LIKELY]
    return sorted((fitted(start, readings) for start in likely), key=lambda fit: fit.chi2)


def _other_shape(fits: list[Fit], readings: Readings, most: float) -> TwoShapes | None:
    """The other shapes that fit as well, by the distance not read in which they differ most."""
    error_mm = max(reading.error_mm for reading in readings)
    shapes = [fits[0].points_mm]
    for fit in fits[1:]:
        known = any(_differ_mm(fit.points_mm, shape) < _SAME * error_mm for shape in shapes)
        if fit.chi2 <= max(most, _EXACT) and not known:
            shapes.append(fit.points_mm)
    if len(shapes) == 1:
        return None
    read = {pair_of(reading) for reading in readings}
    pairs = [pair for pair in combinations(range(len(shapes[0])), 2) if pair not in read]
    if not pairs:
        return None
    apart = {pair: sorted({round(dist(shape[pair[0]], shape[pair[1]]), 1) for shape in shapes}) for pair in pairs}
    pair = max(pairs, key=lambda pair: apart[pair][-1] - apart[pair][0])
    return TwoShapes(pair, tuple(apart[pair]))


def _differ_mm(one: Points, other: Points) -> float:
    pairs = combinations(range(len(one)), 2)
    return max(abs(dist(one[a], one[b]) - dist(other[a], other[b])) for a, b in pairs)


def _shown(fit: Fit, readings: Readings, spare: int, *, in_line: bool) -> Shows:
    sure = sureness(fit.points_mm, readings)
    points = middled(fit.points_mm)
    if sure is None:
        across = unknown_across_mm(fit.points_mm, readings)
        sure = Sure(across, (0.0,) * len(readings))
    noticed = tuple(
        _noticed_mm(fit, readings, place, share, spare) for place, share in enumerate(sure.checked)
    )  # fmt: skip
    return Shows(points, readings, sure.radii_mm, noticed, spare, fit.chi2, chance.limit(spare), in_line)


def middled(points_mm: Points) -> Points:
    """The same holes about their middle.

    points_mm: the holes [mm]
    Returns: the holes [mm]
    Source: geometry
    """
    count = len(points_mm)
    cx, cy = sum(x for x, _ in points_mm) / count, sum(y for _, y in points_mm) / count
    return tuple((x - cx, y - cy) for x, y in points_mm)


_LEAST_CHECKED, _PLAIN, _TRIES = 1e-6, 0.5, 4


def _noticed_mm(fit: Fit, readings: Readings, place: int, checked: float, spare: int) -> float | None:
    """The error of one reading that would have been noticed; what others hardly check is tried by refits."""
    if spare < 1 or checked < _LEAST_CHECKED:
        return None
    wanted = chance.noticed(spare)
    off_mm = sqrt(wanted / checked) * readings[place].error_mm
    if checked > _PLAIN:
        return off_mm
    exact = tuple(replace(r, mm=dist(fit.points_mm[r.first], fit.points_mm[r.second])) for r in readings)
    for _ in range(_TRIES):
        least = min(_lifted(fit, exact, place, way * off_mm) for way in (1, -1))
        if least >= wanted * 0.998:
            return off_mm
        if least <= 0:
            return None
        off_mm *= sqrt(wanted / least)
    return off_mm


def _lifted(fit: Fit, exact: Readings, place: int, off_mm: float) -> float:
    """The chi-square of exact readings of which one is off."""
    wrong = replace(exact[place], mm=max(exact[place].mm + off_mm, 0.0))
    return fitted(fit.points_mm, (*exact[:place], wrong, *exact[place + 1 :])).chi2


# -- what cannot be right ----------------------------------------------------------------------------------------------


def _wrong(fit: Fit, readings: Readings, spare: int) -> Misread | AllOff:
    most, left = chance.limit(spare), chance.limit(spare - 1)
    every = (_without(fit, readings, place) for place in range(len(readings)))
    without = tuple(sorted(every, key=lambda one: (round(one.chi2, 6), one.off_mm)))
    by_mm, chi2 = _all_off(fit, readings)
    if spare > 1 and chi2 <= left and chi2 < without[0].chi2:
        return AllOff(by_mm, fit.chi2, most, spare)
    ahead = without[1].chi2 - without[0].chi2 >= chance.AHEAD
    if spare >= _SPARE_TO_NAME and ahead and without[0].chi2 <= left:
        return Misread(without[:1], True, fit.chi2, most, spare)
    could = tuple(one for one in without if one.chi2 <= max(left, _EXACT))
    return Misread(could, False, fit.chi2, most, spare)


def _without(fit: Fit, readings: Readings, place: int) -> Suspect:
    """A reading with what the others say instead: of shapes that fit them alike, the one that is nearest to it."""
    reading, others = readings[place], (*readings[:place], *readings[place + 1 :])
    found = _all_fits(fit, others)
    least = min(other.chi2 for other in found)
    suspects = (
        Suspect(reading, dist(other.points_mm[reading.first], other.points_mm[reading.second]), other.chi2)
        for other in found if other.chi2 <= least + _EXACT
    )  # fmt: skip
    return min(suspects, key=lambda one: one.off_mm)


def _best(fit: Fit, readings: Readings) -> Fit:
    """The best fit of other readings of the same holes."""
    return min(_all_fits(fit, readings), key=lambda found: found.chi2)


def _all_fits(fit: Fit, readings: Readings) -> list[Fit]:
    """The fits of fewer readings, from the fit of all and, where they place the holes anew, from there."""
    count = len(fit.points_mm)
    order = order_of(count, readings)
    starts = [fit.points_mm, *(placed(order, readings)[:2] if len(order) == count else [])]
    return [fitted(start, readings) for start in starts]


def _all_off(fit: Fit, readings: Readings) -> tuple[float, float]:
    """By how much all readings are off alike, and the chi-square then: the offset that leaves the least."""

    def chi2(by_mm: float) -> float:
        return _best(fit, tuple(replace(r, mm=max(r.mm - by_mm, 0.0)) for r in readings)).chi2

    reach = 0.4 * min(reading.mm for reading in readings)
    steps = [reach * step / 8 for step in range(-8, 9)]
    at = min(steps, key=chi2)
    low, high = at - reach / 8, at + reach / 8
    for _ in range(20):
        one, other = low + 0.382 * (high - low), low + 0.618 * (high - low)
        low, high = (low, other) if chi2(one) < chi2(other) else (one, high)
    by_mm = (low + high) / 2
    return by_mm, chi2(by_mm)
