"""Lines that are written just as a hardware list has them: read as they stand, before any word of them is looked at."""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from fasten.catalog.tables import Tables
from fasten.job.list.parts import part_text
from fasten.job.list.stock import stock
from fasten.job.shelf.lines.words import Asked, Read, ReadNames, ReadPart
from fasten.job.words import ShelfPart
from fasten.model import end_kinds
from fasten.model.line import Part, Sort
from fasten.text.figures import figure
from fasten.text.values import number
from fasten.wiring.words import Unsized

_COUNTED = re.compile(r"(?:(?P<n>[0-9]+) (?:x )?)?(?P<rest>\S.*)")
_LEAD = re.compile(r"lead with plugs (?P<long>[0-9]+(?:\.[0-9]+)?) m, (?P<of>[a-z]+)")
_DIES = " with dies for "  # before what a press has dies for; the cable follows


def as_listed(line: str, tables: Tables) -> Read | None:
    """A lead with its plugs, a part fitted to cable, or a press with its dies; None for any other line."""
    found = _COUNTED.fullmatch(" ".join(line.split()).casefold())
    if found is None:
        return None
    count, text = int(found["n"] or 0), found["rest"]
    part = _lead(text) or _parts(tables).get(text)
    if part is not None and count:
        return ReadPart(ShelfPart(part, count), ())
    return next((_press(line, text, name) for name in _presses(tables) if _is_press(text, name)), None)


def _lead(text: str) -> Part | None:
    found = _LEAD.fullmatch(text)
    if found is None or found["of"] not in {one.value for one in Unsized}:
        return None
    return Part(end_kinds.PLUGGED_LEAD.line, f"{figure(number(found['long']))} m", found["of"], "", None)


@lru_cache(4)
def _parts(tables: Tables) -> Mapping[str, Part]:
    """The parts that are fitted to cable, by what a list says of them."""
    lines = {kind.line for kind in end_kinds.ALL}
    return {part_text(part).casefold(): part for part in stock(tables).parts.values() if part.kind in lines}


def _presses(tables: Tables) -> Iterator[str]:
    return (name.casefold() for name in stock(tables).tools if _DIES in name)


def _press(line: str, text: str, name: str) -> Read:
    """A press with the cable that its dies are for, which is asked where it is not said."""
    if text == name:
        return Asked(line, "with dies for which cable?", (f"{name}, 4 AWG", f"{name}, 25 mm²"))
    return ReadNames(Sort.TOOL, (text.replace("awg", "AWG").replace("mm2", "mm²"),), ())


def _is_press(text: str, name: str) -> bool:
    """Whether a text is a press by its name, with the cable that its dies are for or without."""
    return text == name or re.fullmatch(rf"{re.escape(name)}, [0-9/.]+ (?:awg|mm²|mm2)", text) is not None
