"""Where the holes are, in lines: each with its error, what was noticed of the readings, how the item lies on them."""

from collections.abc import Iterator
from math import hypot

from fasten.model import MountPoint, Pattern
from fasten.model.holes import Lies, OnHoles, Survey
from fasten.report.wrap import wrapped
from fasten.text.figures import counted, mm
from fasten.text.rounding import rounded_up
from fasten.text.units import number

_SAME_MM = 0.05


def hole_lines(mount: MountPoint, on: OnHoles | None, width: int) -> Iterator[str]:
    """What is known of the places of the holes; nothing where they stand in a plain pattern."""
    for pattern, what in ((mount.pattern, "Fixings"), (mount.holes_at, "Existing holes")):
        if pattern is not None and pattern.points_mm:
            yield from wrapped(f"{what}, x and y in mm: {_points(pattern)}", width, first="- ", rest="  ")
            for text in () if pattern.survey is None else _survey(pattern.survey):
                yield from wrapped(text, width, first="- ", rest="  ")
    for text in () if on is None else _on(on):
        yield from wrapped(text, width, first="- ", rest="  ")


def _points(pattern: Pattern) -> str:
    radii = ("",) * len(pattern.points_mm)
    if pattern.survey is not None:
        radii = tuple(f" ± {rounded_up(radius, 1)}" for radius in pattern.survey.radii_mm)
    points = zip(pattern.points_mm, radii, strict=True)
    return "; ".join(
        f"{place} at {number(x, 1)}, {number(y, 1)}{error}" for place, ((x, y), error) in enumerate(points, 1)
    )


def _survey(survey: Survey) -> Iterator[str]:
    if survey.in_line and len(survey.radii_mm) > 2:
        yield "Nearly in line: taken as a row, for distances show next to nothing across the line"
    if survey.spare < 1:
        yield "No reading to spare: an error in one would not be noticed"
    else:
        found = [f"{one.first}-{one.second} {_error(one.error_mm)}" for one in survey.noticed]
        yield f"An error in one reading would have been noticed from: {', '.join(found)} mm"
    if survey.clockwise is None and not survey.in_line:
        yield "Do the numbers run clockwise seen from the drill? Distances never show it: taken as anticlockwise, " \
              "so write clockwise or anticlockwise before the readings"  # fmt: skip


def _error(error_mm: float | None) -> str:
    return "never" if error_mm is None else rounded_up(error_mm, 1)


def _on(on: OnHoles) -> Iterator[str]:
    missed = ", ".join(
        f"hole {place} by {mm(round(hypot(*miss), 2))}" for place, miss in enumerate(on.given.miss_mm, 1)
    )
    yield f"As it lies best, the item misses {missed}; a screw has {mm(round(on.play_mm, 2))} of play"
    yield from _slots(on)
    yield from _otherwise(on)


def _slots(on: OnHoles) -> Iterator[str]:
    if not on.slots:
        return
    if on.alike:
        longest = rounded_up(max(slot.longer_mm for slot in on.slots), 1)
        yield f"More than half of its holes would be slots: make all alike, {longest} mm wider each way they miss"
    for slot in on.slots:
        way = f"toward {number(slot.direction_deg, 0)}° from x, anticlockwise"
        yield f"Slot hole {slot.hole} longer by {rounded_up(slot.longer_mm, 1)} mm, {way}"


def _otherwise(on: OnHoles) -> Iterator[str]:
    """What lies better with other numbers or turned over; that the survey cannot tell where it cannot."""
    for other in (on.numbered_on, on.mirrored):
        if other is None or other.greatest_mm >= on.given.greatest_mm - _SAME_MM:
            continue
        better = on.given.greatest_mm - other.greatest_mm
        tell = "" if better > on.error_mm else ", closer than the survey's error: it cannot tell"
        yield f"{_way(other)} it would miss by {mm(round(other.greatest_mm, 2))} at most{tell}"


def _way(other: Lies) -> str:
    over = "Mirrored" if other.mirrored else ""
    on = f"with its numbers turned on by {counted(other.turned_on, 'place')}" if other.turned_on else ""
    return f"{over} {on}".strip().capitalize() if over else on.capitalize()
