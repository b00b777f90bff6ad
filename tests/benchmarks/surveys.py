"""Surveys by the hundred: whether holes lie where they are said to, and misreadings are noticed as promised.

    .venv/bin/python tests/benchmarks/surveys.py [COUNT]

Prints what of 400 random patterns lies within its own radius, of rectangles to 3 : 1 within a millimetre, how many
misreadings of the promised size are noticed, how many are named wrongly, and the time of a survey of eight holes.
"""

import random
import sys
from math import dist
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[1]))
from built.surveys import RULE_MM, every, misses, strewn, within

from fasten.geometry.survey.holes import AllOff, Misread, Shows, surveyed
from fasten.geometry.survey.network import Reading, Readings
from fasten.require import Points


def patterns(count: int) -> None:
    """How many holes of random patterns lie within their own radius."""
    inside = total = refused = 0
    rng = random.Random(1)
    for _ in range(count):
        points = strewn(rng, rng.randint(3, 10))
        found = surveyed(len(points), every(points, rng))
        if not isinstance(found, Shows):
            refused += 1
            continue
        held = within(points, found)
        inside, total = inside + sum(held), total + len(held)
    print(f"random patterns: {100 * inside / total:.1f} % of {total} holes within their radius, {refused} refused")


def rectangles(count: int) -> None:
    """How many rectangles have all holes within a millimetre."""
    good = shown = 0
    rng = random.Random(2)
    for _ in range(count):
        a = rng.uniform(80, 400)
        b = a / rng.uniform(1, 3)
        points: Points = ((0.0, 0.0), (a, 0.0), (a, b), (0.0, b))
        found = surveyed(4, every(points, rng))
        if isinstance(found, Shows):
            shown += 1
            good += max(misses(points, found.points_mm)) <= 1.0
    print(f"rectangles to 3 : 1: {100 * good / shown:.1f} % of {shown} within 1 mm")


def misreadings(count: int) -> None:
    """How many readings that are off as far as promised are noticed, and how many right ones are named instead."""
    noticed = tried = named = wrongly = 0
    rng = random.Random(3)
    for _ in range(count):
        points = strewn(rng, rng.randint(4, 7))
        clean = surveyed(len(points), _exact(points))
        assert isinstance(clean, Shows)
        place = rng.randrange(len(clean.readings))
        off_mm = clean.noticed_mm[place]
        if off_mm is None or off_mm > 60:
            continue
        read = tuple(Reading(r.first, r.second, r.mm + rng.gauss(0, RULE_MM), RULE_MM) for r in clean.readings)
        wrong = read[place]
        sign = rng.choice((-1, 1)) if wrong.mm > off_mm + 10 else 1
        bad = Reading(wrong.first, wrong.second, wrong.mm + sign * off_mm, RULE_MM)
        found = surveyed(len(points), (*read[:place], bad, *read[place + 1 :]))
        tried += 1
        noticed += isinstance(found, Misread | AllOff)
        if isinstance(found, Misread) and found.named:
            named += 1
            wrongly += found.suspects[0].reading != bad
    print(f"misreadings: {100 * noticed / tried:.1f} % of {tried} noticed; {wrongly} of {named} named wrongly")


def _exact(points: Points) -> Readings:
    return tuple(
        Reading(a, b, dist(points[a], points[b]), RULE_MM) for b in range(len(points)) for a in range(b)
    )  # fmt: skip


def eight_holes() -> None:
    """The time of a survey of eight holes, each distance read."""
    rng = random.Random(4)
    started = perf_counter()
    for _ in range(5):
        points = strewn(rng, 8)
        surveyed(8, every(points, rng))
    print(f"eight holes: {(perf_counter() - started) / 5:.3f} s")


if __name__ == "__main__":
    COUNT = int(sys.argv[1]) if len(sys.argv) > 1 else 400
    patterns(COUNT)
    rectangles(COUNT)
    misreadings(COUNT)
    eight_holes()
