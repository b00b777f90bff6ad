"""Everything that an answer may ask for, under the names that a hardware list gives it: a shelf is read against this.

Parts are what the methods say that they may ask for; `tests/test_every_method.py` holds this to every method.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import ceil

from fasten.advice.advise import METHODS
from fasten.advice.consumables import COUNTED
from fasten.advice.drive import HEXAGON
from fasten.advice.needs import CONSUMABLE
from fasten.catalog.face_parts import ADHESIVES
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS
from fasten.catalog.parts import HEADS, PLATE, PLATES, WASHERS
from fasten.catalog.practice import RAILS
from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.tables import Tables
from fasten.job.list.needs import HEADINGS
from fasten.job.list.parts import same_part
from fasten.methods.stocked import ANY_MM, Stocked
from fasten.model import end_kinds, kinds
from fasten.model.line import Part
from fasten.record import replace
from fasten.text.figures import words
from fasten.text.names import plain_name
from fasten.wiring import stocked as wiring
from fasten.wiring.needs import OTHER
from fasten.wiring.parts import CABLE

_SQUARE = r"[0-9.]+ ?x ?[0-9.]+ ?x ?[0-9.]+ ?mm"
_METRES = r"[0-9]+(\.[0-9]+)?m"
_OUTSIDE = r"[0-9]+(\.[0-9]+)? mm outside"


@dataclass(frozen=True, eq=False)
class Stock:
    """What may be asked for: parts, by the one spelling that each is compared by, and names of tools and consumables.

    A part whose length is sized to its joint has the length `ANY_MM`. `tools` says of each what its size is of, `-`
    where it has none, `headings` under which a list has it; `consumables` of each whether something else may be said of
    it after its name.
    """

    parts: dict[Part, Part]
    tools: dict[str, str]
    headings: dict[str, str]
    consumables: dict[str, bool]

    def holds(self, part: Part) -> bool:
        """Whether an answer may take this part."""
        plain = same_part(part)
        any_length = replace(plain, length_mm=ANY_MM)
        known = plain in self.parts or (plain.length_mm is not None and any_length in self.parts)
        return known or self._limits(plain) or _is_cut(plain)

    def _limits(self, plain: Part) -> bool:
        """Whether a part is a compression limiter: cut from tube to fit its joint, so that no row gives its sizes."""
        is_one = plain.kind == plain_name(kinds.LIMITER.key) and re.fullmatch(_OUTSIDE, plain.name) is not None
        return is_one and plain.length_mm is not None and any(part.size == plain.size for part in self.parts)


def _is_cut(plain: Part) -> bool:
    """Whether a part is made to fit: a doubler, a shim, the plate across rails, a lead with plugs of any length."""
    cut = {plain_name(kind.key) for kind in (kinds.DOUBLER, kinds.SHIM, kinds.RAIL_PLATE)}
    is_lead = plain.kind == plain_name(end_kinds.PLUGGED_LEAD.key) and re.fullmatch(_METRES, plain.size) is not None
    return is_lead or (
        plain.kind in cut and plain.length_mm is None and re.fullmatch(_SQUARE, plain.size, re.IGNORECASE) is not None
    )


@lru_cache(maxsize=2)  # who reads tables anew lets go of the old ones
def stock(tables: Tables) -> Stock:
    """What may be asked for by these tables."""
    parts = {
        same_part(part): part
        for part in (
            *_of_methods(tables),
            *_washers(tables),
            *_plates(tables),
            *_rails(tables),
            *_limiters(tables),
            *wiring.parts(tables),
        )
    }
    tools = list(_tools(tables))
    sizes, headings = ({name: size_of for name, size_of, _ in tools}, {name: heading for name, _, heading in tools})
    return Stock(parts, sizes, headings, dict(_consumables(tables)))


# -- parts ------------------------------------------------------------------------------------------------------------


def _of_methods(tables: Tables) -> Iterator[Part]:
    """What each method may ask for, once."""
    return map(_part, dict.fromkeys(part for method in METHODS for part in method.stocked(tables)))


def _part(one: Stocked) -> Part:
    return Part(one.kind.line, one.size, words(one.series), words(one.grade), one.length_mm)


def _washers(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(WASHERS):
        kind = kinds.SPRING_WASHER if row.form == "spring" else kinds.WASHER
        yield Part(kind.line, row.size, row.standard, "", None)


def _plates(tables: Tables) -> Iterator[Part]:
    """The plates that lie under a head or behind a panel."""
    for row in tables.rows(PLATES):
        yield Part(kinds.PLATE.line, row.size, PLATE, "", None)


def _rails(tables: Tables) -> Iterator[Part]:
    """The tubes of rails, of any length."""
    for row in tables.rows(RAILS):
        yield Part(kinds.RAIL.line, row.tube, "square steel tube", "", ANY_MM)


def _limiters(tables: Tables) -> Iterator[Part]:
    """One compression limiter of each size, for an example: each joint has its own, of any outside and height."""
    for row in tables.rows(METRIC_CLEARANCE):
        yield Part(kinds.LIMITER.line, row.size, f"{ceil(2 * row.coarse_mm)} mm outside", "", ANY_MM)


# -- tools and consumables --------------------------------------------------------------------------------------------

NO_SIZE, DRIVE = "-", "drive"


def _tools(tables: Tables) -> Iterator[tuple[str, str, str]]:
    """Each tool as a list says it and by its key, what its size is of, and its heading; drivers by their recess."""
    yield from ((name, CABLE if has_die else NO_SIZE, OTHER) for name, has_die in wiring.tools(tables))
    for kind in tables.rows(TOOL_KINDS):
        if kind.heading in HEADINGS:
            recesses = _recesses(tables) if kind.size_of == DRIVE else (("", kind.size_of),)
            for recess, size_of in recesses:
                names = (f"{name} {recess}".strip() for name in (kind.in_list, kind.tool))
                yield from ((name, size_of, kind.heading) for name in names)


def _recesses(tables: Tables) -> Iterator[tuple[str, str]]:
    """What drivers turn, and whether it comes in sizes; a hexagon is turned by a socket."""
    for drive in _drives(tables):
        kind, _, size = words(drive).rpartition(" ")
        if kind != HEXAGON:
            yield kind or size, DRIVE if kind else NO_SIZE


def _drives(tables: Tables) -> Iterator[str]:
    yield from (f"{head.drive} {head.drive_size}" for head in tables.rows(HEADS))
    yield from (part.drive for method in METHODS for part in method.stocked(tables) if part.drive)


def _consumables(tables: Tables) -> Iterator[tuple[str, bool]]:
    """All but what is counted as a part or as a spare of one, and listed there: as a list says it, and by its key."""
    rows = tables.rows(CONSUMABLES)
    counted = {row.consumable for row in rows if row.per == COUNTED}
    detailed = {row.consumable for row in rows if row.detail != NO_SIZE}
    for kind in tables.rows(TOOL_KINDS):
        if kind.heading == CONSUMABLE and kind.tool not in counted:
            yield from ((name, kind.tool in detailed) for name in (kind.in_list, kind.tool))
    yield from ((row.adhesive, row.adhesive in detailed) for row in tables.rows(ADHESIVES))
    yield from wiring.CONSUMABLES.items()
