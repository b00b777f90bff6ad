"""What stiffens the panel under the item, as people type it.

frame | frame 4 of 6             every fixing through a second skin, or so many of all
firm                             100 N move it less than 0.3 mm
ribs 8 mm                        the item bridges two or more beads that deep
push 100 N 0.4 mm                a push and how far it moved the panel; two with a comma between
tapped 31 Hz                     how fast it sways with the item in place
bay 300x450                      the free bay; bare numbers are millimetres
bay under 280 mm                 a strip of that length does not fit between the lines of support
span 600 mm                      how far apart the battens under a board are

A doubler is its side, its thickness and how it is joined: 200x1.6 mm bonded, or riveted.
Rails are how many, side and wall of the tube, and how far they span: 2 of 20x1.5 mm over 400 mm.
"""

import re
from collections.abc import Callable

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.model import (
    Bay,
    Bound,
    Doubler,
    Firm,
    FloorSpan,
    Joined,
    OnFrame,
    Push,
    Pushed,
    Rails,
    Ribs,
    Support,
    Tapped,
)
from fasten.text import units
from fasten.text.names import unknown
from fasten.text.shown import shown
from fasten.text.units import Dimension

_LONGEST_TEXT = 100
_MOST_PUSHES = 2
_MOST_FIXINGS = 100
_UNDER = "under "
_LONG = 4  # times its width: a bay that is longer still is no softer
_HZ = r"(?P<value>[0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(?:hz|hertz)"
_WAYS = {
    "frame": "frame", "firm": "firm", "ribs": "ribs 8 mm", "push": "push 100 N 0.4 mm", "tapped": "tapped 31 Hz",
    "bay": "bay 300x450", "span": "span 600 mm",
}  # fmt: skip


def read_support(text: str, _tables: Tables, where: str) -> Support:
    """What stiffens the panel; raises FastenError if it is none of the ways above."""
    word, _, rest = " ".join(text.split()).partition(" ")
    read = _READERS.get(word.lower())
    if len(text) > _LONGEST_TEXT or read is None:
        raise unknown(word, "a support", _WAYS.values(), where, among=_WAYS)
    return read(rest, where)


def _frame(rest: str, where: str) -> Support:
    if not rest:
        return OnFrame(None)
    found = re.fullmatch(r"([0-9]{1,3})(?: of ([0-9]{1,3}))?", rest)
    if found is None or not 1 <= int(found[1]) <= _MOST_FIXINGS or (found[2] and int(found[1]) > int(found[2])):
        raise _wrong(rest, where, "write frame, or frame 4 of 6 where only some fixings go through it")
    return OnFrame(int(found[1]))


def _firm(rest: str, where: str) -> Support:
    if rest:
        raise _wrong(rest, where, "write firm alone, or push 100 N 0.4 mm with what was read")
    return Firm()


def _ribs(rest: str, where: str) -> Support:
    return Ribs(units.read(rest.removesuffix(" deep"), Dimension.LENGTH, where))


def _push(rest: str, where: str) -> Support:
    texts = re.split(r",(?![0-9])|(?<![0-9]),", rest)
    if not 1 <= len(texts) <= _MOST_PUSHES:
        raise _wrong(rest, where, "write one push or two, such as push 60 N 0.4 mm, 150 N 0.85 mm")
    pushes = tuple(_one_push(text.strip(), where) for text in texts)
    if len(pushes) > 1 and not (pushes[0].force_n < pushes[1].force_n and pushes[0].moved_mm < pushes[1].moved_mm):
        raise _wrong(rest, where, "give the larger push last; it moves the panel further")
    return Pushed(pushes)


def _one_push(text: str, where: str) -> Push:
    found = re.fullmatch(r"(?P<force>[0-9.,]+ ?[a-zA-Z]+) (?:moves it )?(?P<moved>.+)", text)
    if found is None:
        raise _wrong(text, where, "write force and movement, such as push 100 N 0.4 mm")
    return Push(
        units.read(found["force"], Dimension.FORCE, where),
        units.read(found["moved"], Dimension.LENGTH, where, allow_zero=True),
    )


def _tapped(rest: str, where: str) -> Support:
    found = re.fullmatch(_HZ, rest.lower())
    value = float(found["value"].replace(",", ".")) if found else 0.0
    if not value > 0:
        raise _wrong(rest, where, "write the frequency, such as tapped 31 Hz")
    return Tapped(value)


def _bay(rest: str, where: str) -> Support:
    if rest.lower().startswith(_UNDER):
        return bay_under(units.read(rest[len(_UNDER) :], Dimension.LENGTH, where))
    if len(re.split(" ?[xX×] ?", rest)) != 2:
        raise _wrong(rest, where, "write both sides of the free bay, such as bay 300x450")
    lengths = _sides(rest, where)
    return Bay(min(lengths), max(lengths))


def bay_under(width_mm: float) -> Bay:
    """The bay where only how wide it is at most is known: a long one of that width, the softest it can be."""
    return Bay(width_mm, _LONG * width_mm, Bound.AT_MOST)


def _span(rest: str, where: str) -> Support:
    return FloorSpan(units.read(rest, Dimension.LENGTH, where))


def read_doubler(text: str, _tables: Tables, where: str) -> Doubler:
    """A square doubler: side, thickness and how it is joined; raises FastenError if it is not written so."""
    sizes, _, word = " ".join(text.split()).rpartition(" ")
    fix = "write side, thickness and how it is joined, such as 200x1.6 mm bonded, or riveted"
    joined = next((one for one in Joined if one.value == word.lower()), None)
    if len(text) > _LONGEST_TEXT or joined is None or len(re.split("[xX×]", sizes)) != 2:
        raise _wrong(text, where, fix)
    sides = _sides(sizes, where)
    return Doubler(max(sides), min(sides), joined)


def read_rails(text: str, _tables: Tables, where: str) -> Rails:
    """Rails: how many, side and wall of the tube, span; raises FastenError if they are not written so."""
    found = re.fullmatch(r"([1-9]) of (.+?) over (.+)", " ".join(text.split()))
    if len(text) > _LONGEST_TEXT or found is None or len(re.split("[xX×]", found[2])) != 2:
        raise _wrong(text, where, "write how many, the tube and the span, such as 2 of 20x1.5 mm over 400 mm")
    side_mm, wall_mm = sorted(_sides(found[2], where), reverse=True)
    if 2 * wall_mm >= side_mm:
        raise _wrong(text, where, "the wall of a tube is less than half its side")
    return Rails(int(found[1]), side_mm, wall_mm, units.read(found[3], Dimension.LENGTH, where))


def _sides(text: str, where: str) -> list[float]:
    """Sizes with a cross between; bare numbers have the unit of the others, else they are millimetres."""
    sides = re.split(" ?[xX×] ?", text)
    unit = next(filter(None, (re.sub("[0-9., ]", "", side) for side in reversed(sides))), "mm")
    return [
        units.read(side if re.search("[a-zA-Z'\"]", side) else f"{side} {unit}", Dimension.LENGTH, where)
        for side in sides
    ]


def _wrong(text: str, where: str, fix: str) -> FastenError:
    return FastenError(f"{shown(text)} is not understood", where=where, fix=fix)


_READERS: dict[str, Callable[[str, str], Support]] = {
    "frame": _frame, "firm": _firm, "ribs": _ribs, "push": _push, "tapped": _tapped, "bay": _bay, "span": _span,
}  # fmt: skip
