"""Holes where they really are, as people write them: by coordinates, or by distances read between them.

    points   = "points" x "," y {x "," y}                               points 0,0 240,0 238,181 1,180
    tape     = tool ["inside" size] [way] reading {"," reading}         tape 1-2 240, 2-3 181, 3-1 300
    tool     = "tape" | "rule" | "calliper": what they were read with
    reading  = number "-" number size, bare numbers in millimetres
    way      = "clockwise" | "anticlockwise": how the numbers run, seen from the drill

`inside` says that the near edges of holes of that size were measured, and adds the hole to each reading.
"""

import re
from math import atan2, cos, dist, sin, sqrt

from fasten.catalog.practice import MEASURING_TOOLS, MeasuringTool
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.survey.holes import AllOff, Misread, Shows, Suspect, TooFew, TwoShapes, surveyed
from fasten.geometry.survey.network import Reading, Readings
from fasten.model import Pattern
from fasten.model.holes import Noticed, Survey
from fasten.question.holes_said import POINTS, is_of_holes
from fasten.require import Points
from fasten.text import units
from fasten.text.figures import counted, mm
from fasten.text.names import choice
from fasten.text.shown import shown
from fasten.text.units import Dimension, number

MOST_HOLES = 20
_LONGEST = 4000
_LISTED = 12
_FARTHEST_MM = 100_000.0
_INSIDE = "inside"
_WAYS = {"clockwise": True, "anticlockwise": False, "counterclockwise": False}
_READING = r"([0-9]+) ?[-–] ?([0-9]+)[ :=]+(.+)"
_PARTS = r"[,;] ?(?=[0-9]+ ?[-–] ?[0-9]+[ :=])"
_NUMBER = r"[-+]?[0-9]+(?:\.[0-9]+)?"
_EXAMPLE = "tape 1-2 240, 2-3 181, 3-4 239, 4-1 180, 1-3 300, 2-4 301"
_POINTS_EXAMPLE = "points 0,0 240,0 238,181 1,180"


def read_holes(text: str, tables: Tables, where: str) -> Pattern:
    """The holes that a text says, "points 0,0 240,0 238,181" or "tape 1-2 240, …"; bare numbers are mm.

    Raises: FastenError if it says none, or its readings do not fix the holes or contradict one another.
    """
    plain = " ".join(text.split())
    kind, _, rest = plain.partition(" ")
    if len(plain) > _LONGEST or not is_of_holes(kind.casefold(), tables):
        what = f"{shown(text)} does not say where each hole is"
        raise FastenError(what, where=where, fix=f"write {_POINTS_EXAMPLE}, or {_EXAMPLE}")
    if kind.casefold() == POINTS:
        return _stated(rest, where)
    return _read(tables.need(MEASURING_TOOLS, kind.casefold()), rest, tables, where)


def _stated(text: str, where: str) -> Pattern:
    found = [re.fullmatch(f"({_NUMBER})[,;]({_NUMBER})", part) for part in text.split()]
    if len(found) < 2 or len(found) > MOST_HOLES or not all(found):
        what = f"{shown(text)} is not from 2 to {MOST_HOLES} points"
        raise FastenError(what, where=where, fix=f"write x,y of each in mm with blanks between: {_POINTS_EXAMPLE}")
    points = tuple((float(one[1]), float(one[2])) for one in found if one is not None)
    if len(set(points)) < len(points) or any(abs(side) > _FARTHEST_MM for point in points for side in point):
        raise FastenError("two of the points are one, or one is too far away", where=where, fix="measure again")
    return _pattern(points, None)


def _pattern(points: Points, survey: Survey | None) -> Pattern:
    wide, high = (max(side) - min(side) for side in zip(*points, strict=True))
    return Pattern(POINTS, wide, high, points, survey)


# -- distances read between holes --------------------------------------------------------------------------------------


def _read(tool: MeasuringTool, text: str, tables: Tables, where: str) -> Pattern:
    text, hole_mm = _taken_inside(text, where)
    text, clockwise = _taken_way(text, where)
    parts = re.split(_PARTS, text)
    readings = tuple(_reading(part, tool, hole_mm, where) for part in parts)
    count = 1 + max(max(reading.first, reading.second) for reading in readings)
    _check_numbers(count, readings, where)
    if count == 2:
        return _two(readings, clockwise)
    found = surveyed(count, readings)
    if not isinstance(found, Shows):
        raise _refusal(found, where)
    return _pattern(_laid(found.points_mm, clockwise, found.in_line), _survey(found, clockwise))


def _taken_inside(text: str, where: str) -> tuple[str, float]:
    """The text without the size of holes whose edges were measured, and that size."""
    word, _, rest = text.partition(" ")
    if word.casefold() != _INSIDE:
        return text, 0.0
    found = re.match(r"([0-9.]+ ?(?:mm)?) (?=[0-9a-z])", rest, re.IGNORECASE)
    if found is None or re.match(r"[0-9]+ ?[-–]", rest):
        what = "how wide the holes are is not said, and inside adds it to each reading"
        raise FastenError(what, where=where, fix="write inside 6.6 mm, then the readings")
    size = found[1].strip()
    hole_mm = units.read(size if size.endswith("mm") else f"{size} mm", Dimension.LENGTH, where)
    return rest[found.end() :].strip(), hole_mm


def _taken_way(text: str, where: str) -> tuple[str, bool | None]:
    word, _, rest = text.partition(" ")
    if not word.isalpha():
        return text, None
    return rest, choice(word, _WAYS, where)


def _reading(part: str, tool: MeasuringTool, hole_mm: float, where: str) -> Reading:
    found = re.fullmatch(_READING, part.strip(" ,;"))
    if found is None:
        what = f"{shown(part)} is no distance between two holes"
        raise FastenError(what, where=where, fix=f"write the two numbers and the distance: {_EXAMPLE}")
    first, second, size = int(found[1][:4]), int(found[2][:4]), found[3].strip()
    if first == second or not 1 <= min(first, second) <= max(first, second) <= MOST_HOLES:
        what = f"{first}-{second} are no two holes numbered from 1 to {MOST_HOLES}"
        raise FastenError(what, where=where, fix="number the holes from 1 on")
    bare = re.fullmatch(r"[0-9.,]+", size)
    read_mm = units.read(f"{size} mm" if bare else size, Dimension.LENGTH, where)
    error_mm = sqrt(tool.error_mm**2 + tool.step_mm**2 / 12)
    return Reading(first - 1, second - 1, read_mm + hole_mm, error_mm)


def _check_numbers(count: int, readings: Readings, where: str) -> None:
    named = {hole for reading in readings for hole in (reading.first, reading.second)}
    missing = [str(hole + 1) for hole in range(count) if hole not in named]
    if missing:
        what = f"no reading reaches hole {', '.join(missing)}"
        raise FastenError(what, where=where, fix="number the holes from 1 on, none left out")


def _two(readings: Readings, clockwise: bool | None) -> Pattern:
    """Two holes: the mean of what was read, and how sure that is."""
    apart_mm = sum(reading.mm for reading in readings) / len(readings)
    radius_mm = 1.96 * readings[0].error_mm / sqrt(len(readings)) / 2
    noticed = tuple(Noticed(1, 2, None) for _ in readings)
    survey = Survey((radius_mm, radius_mm), noticed, len(readings) - 1, 0.0, 0.0, True, clockwise)
    return _pattern(((-apart_mm / 2, 0.0), (apart_mm / 2, 0.0)), survey)


def _survey(found: Shows, clockwise: bool | None) -> Survey:
    noticed = tuple(
        Noticed(reading.first + 1, reading.second + 1, error_mm)
        for reading, error_mm in zip(found.readings, found.noticed_mm, strict=True)
    )
    return Survey(found.radii_mm, noticed, found.spare, found.chi2, found.limit, found.in_line, clockwise)


def _laid(points: Points, clockwise: bool | None, in_line: bool) -> Points:
    """The holes with 2 to the right of 1, numbered as was said, else anticlockwise; of a row all on one line."""
    (x1, y1), farthest = points[0], max(points[1:], key=lambda point: dist(point, points[0]))
    x2, y2 = farthest if in_line else points[1]
    turn = -atan2(y2 - y1, x2 - x1)
    turned = [
        ((x - x1) * cos(turn) - (y - y1) * sin(turn), (x - x1) * sin(turn) + (y - y1) * cos(turn)) for x, y in points
    ]
    if in_line:
        return tuple((round(x, 4), 0.0) for x, _ in turned)
    around = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(turned, turned[1:] + turned[:1], strict=True))
    way = 1.0 if (around < 0) == bool(clockwise) else -1.0
    return tuple((round(x, 4), round(way * y, 4)) for x, y in turned)


# -- what is wrong with them -------------------------------------------------------------------------------------------


def _refusal(found: TooFew | TwoShapes | Misread | AllOff, where: str) -> FastenError:
    if isinstance(found, TooFew):
        return _too_few(found, where)
    if isinstance(found, TwoShapes):
        pair = _pair(*found.pair)
        sizes = " or ".join((", ".join(number(size, 1) for size in found.apart_mm[:-1]), mm(found.apart_mm[-1])))
        return FastenError("more than one shape fits these readings", where=where, fix=f"measure {pair} too: {sizes}?")
    if isinstance(found, AllOff):
        short = "short" if found.by_mm < 0 else "long"
        what = f"the readings agree once each is taken as {mm(round(abs(found.by_mm), 1))} too {short}"
        edges = "near edges" if found.by_mm < 0 else "far edges"
        inside = "write inside and the size of the holes first, such as inside 6.6 mm" if found.by_mm < 0 else ""
        return FastenError(f"{what}: measured between the {edges} of the holes?", where=where,
                           fix=inside or "measure from middle to middle")  # fmt: skip
    return _misread(found, where)


def _too_few(found: TooFew, where: str) -> FastenError:
    listed = [_pair(*pair) for pair in found.pairs[:8]]
    some = listed[0] if len(listed) == 1 else f"{', '.join(listed[:-1])} or {listed[-1]}"
    one = "one more reading" if found.more == 1 else counted(found.more, "more reading")
    what = f"the readings do not fix all holes: {one} at least"
    return FastenError(what, where=where, fix=f"measure {some} too; what can be checked needs one beyond that")


def _misread(found: Misread, where: str) -> FastenError:
    if found.named:
        one = found.suspects[0]
        return FastenError(f"the reading {_suspect(one)} cannot be right", where=where, fix="measure it again")
    what = "the readings contradict one another"
    if not found.suspects:
        return FastenError(f"{what}, and no single one explains it", where=where, fix="measure all of them again")
    listed = "; ".join(_suspect(one) for one in found.suspects[:_LISTED])
    more = len(found.suspects) - _LISTED
    others = f" and {more} more" if more > 0 else ""
    return FastenError(what, where=where, fix=f"one of these is wrong, measure them again: {listed}{others}")


def _suspect(one: Suspect) -> str:
    reading = one.reading
    pair = _pair(reading.first, reading.second)
    return f"{pair} {mm(round(reading.mm, 1))} ({number(one.fits_mm, 1)} would fit)"


def _pair(first: int, second: int) -> str:
    return f"{first + 1}-{second + 1}"
