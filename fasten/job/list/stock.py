"""Everything that an answer may ask for, under the names that a hardware list gives it: a shelf is read against this.

Parts come from the same rows as the methods take them from; `tests/test_every_method.py` holds this to every method.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil

from fasten.advice.drive import HEXAGON
from fasten.advice.needs import CONSUMABLE
from fasten.catalog.face_parts import Adhesive, BondedStud, PotMagnet
from fasten.catalog.job_parts import Consumable, ToolKind
from fasten.catalog.parts import (
    BallStud,
    BlindRivet,
    BoardScrew,
    ClipNut,
    ExpandingNut,
    PlasticInsert,
    PlasticScrew,
    PushInClip,
    RivetNut,
    ScrewInInsert,
    TeeNut,
)
from fasten.catalog.rows import Head, LengthRange, MetricClearance, Nut, PropertyClass, SelfDrilling, Washer
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.job.list.consumed import COUNTED
from fasten.job.list.needs import HEADINGS
from fasten.job.list.parts import plain_name, same_part
from fasten.job.words import Part
from fasten.methods import expanding_nut, plastic_insert, tapping_screw
from fasten.model import Visible, kinds
from fasten.question.resolve import ASSUMED_GRADE
from fasten.text.figures import mm, words

SCREW, WASHER, SPRING, SLEEVE = (
    kinds.MACHINE_SCREW.line, kinds.WASHER.line, kinds.SPRING_WASHER.line, kinds.STOP_SLEEVE.line,
)  # fmt: skip
STEEL, PLASTIC = "steel", "plastic"
NUTS = {"prevailing_torque": kinds.LOCK_NUT, "prevailing_torque_thin": kinds.LOCK_NUT, "hexagon": kinds.HEXAGON_NUT}
_OUTSIDE = r"[0-9]+(\.[0-9]+)? mm outside"
ANY_MM = -1.0  # stands for a length that is sized to the joint: every one may do, and one has to be said


@dataclass(frozen=True, eq=False)
class Stock:
    """What may be asked for: parts, by the one spelling that each is compared by, and names of tools and consumables.

    A part whose length is sized to its joint has the length `ANY_MM`. `tools` tells of each what its size is of, `-`
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
        return plain in self.parts or (plain.length_mm is not None and any_length in self.parts) or self._sleeve(plain)

    def _sleeve(self, plain: Part) -> bool:
        """Whether a part is a stop for foam: cut from tube to what its joint asks, so that no row tells its sizes."""
        is_one = plain.kind == plain_name(kinds.STOP_SLEEVE.key) and re.fullmatch(_OUTSIDE, plain.name) is not None
        return is_one and plain.length_mm is not None and any(part.size == plain.size for part in self.parts)


@lru_cache(maxsize=2)  # whoever reads tables anew lets go of the old ones
def stock(tables: Tables) -> Stock:
    """What may be asked for by these tables."""
    parts = {same_part(part): part for listed in _PARTS for part in listed(tables)}
    tools = list(_tools(tables))
    sizes, headings = ({name: size_of for name, size_of, _ in tools}, {name: heading for name, _, heading in tools})
    return Stock(parts, sizes, headings, dict(_consumables(tables)))


# -- parts ------------------------------------------------------------------------------------------------------------


def _machine_screws(tables: Tables) -> Iterator[Part]:
    """The heads that are taken for each size, seen or not, in every class; the usual one first, as an example."""
    sizes = dict.fromkeys(row.size for row in tables.rows(Head, "heads") if row.size.startswith("M"))
    classes = dict.fromkeys((ASSUMED_GRADE, *(row.class_ for row in tables.rows(PropertyClass, "property-classes"))))
    for size in sizes:
        heads = [head for seen in (Visible.NO, Visible.YES) if (head := stack.head_for(tables, size, seen)) is not None]
        for standard in dict.fromkeys(head.standard for head in heads):
            yield from (Part(SCREW, size, standard, class_, ANY_MM) for class_ in classes)


def _tapping_screws(tables: Tables) -> Iterator[Part]:
    ranges = [row for row in tables.rows(LengthRange, "length-ranges") if row.standard == tapping_screw.STANDARD]
    for row in ranges:
        yield Part(SCREW, row.size, row.standard, kinds.TAPPING_SCREW.grade, ANY_MM)
    drilling = {row.size for row in tables.rows(SelfDrilling, "self-drilling")}
    for row in ranges:
        if row.size in drilling:
            drills = kinds.SELF_DRILLING
            yield Part(drills.line, row.size, row.standard, drills.grade, ANY_MM)


def _board_screws(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(BoardScrew, "board-screws"):
        for grade in (kinds.BOARD_SCREW.grade, kinds.WOOD_SCREW.grade):
            yield Part(SCREW, row.size, row.standard, grade, ANY_MM)


def _plastic_screws(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(PlasticScrew, "plastic-screws"):
        yield Part(SCREW, row.size, "30 degree thread", kinds.PLASTIC_SCREW.grade, ANY_MM)


def _rivets(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(BlindRivet, "blind-rivets"):
        yield Part(kinds.RIVET.line, row.size, row.standard, row.material, row.length_mm)


def _studs(tables: Tables) -> Iterator[Part]:
    for ball in tables.rows(BallStud, "ball-studs"):
        yield Part(kinds.BALL_STUD.line, ball.thread, "with its own nut", STEEL, ANY_MM)
        yield Part(kinds.BALL_SOCKET.name, mm(ball.ball_mm), f"{mm(ball.flange_mm)} flange", PLASTIC, ball.length_mm)
    for bonded in tables.rows(BondedStud, "bonded-studs"):
        base = f"{mm(bonded.base_mm)} perforated base"
        yield Part(kinds.BONDED_STUD.line, bonded.thread, base, bonded.class_, bonded.length_mm)


def _nuts(tables: Tables) -> Iterator[Part]:
    for nut in tables.rows(Nut, "nuts"):
        if nut.form in NUTS:
            yield Part(NUTS[nut.form].name, nut.size, nut.standard, STEEL, None)
    for rivet in tables.rows(RivetNut, "rivet-nuts"):
        yield Part(kinds.RIVET_NUT.name, rivet.thread, rivet.series, rivet.material, rivet.length_mm)
    for tee in tables.rows(TeeNut, "tee-nuts"):
        yield Part(kinds.TEE_NUT.name, tee.thread, f"{tee.prongs} prongs", STEEL, tee.length_mm)
    for clip in tables.rows(ClipNut, "clip-nuts"):
        yield Part(kinds.CLIP_NUT.name, clip.thread, f"{mm(clip.reach_mm)} from edge to thread", "spring steel", None)


def _expanding(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(ExpandingNut, "expanding-nuts"):
        grade = "rubber" if row.series == expanding_nut.RUBBER else PLASTIC
        if (kind := expanding_nut.KINDS.get(row.series)) is not None:
            yield Part(kind.name, row.thread, f"{mm(row.flange_mm)} flange", grade, row.length_mm)
    for clip in tables.rows(PushInClip, "push-in-clips"):
        yield Part(kinds.PUSH_IN_CLIP.name, mm(clip.hole_mm), "barbed stem", PLASTIC, clip.length_mm)


def _inserts(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(ScrewInInsert, "screw-in-inserts"):
        yield Part(
            kinds.SCREW_IN_INSERT.name, row.thread, f"{row.series}, {mm(row.outer_mm)} outside", STEEL, row.length_mm
        )
    for insert in tables.rows(PlasticInsert, "plastic-inserts"):
        if (kind := plastic_insert.KINDS.get(insert.series)) is not None:
            yield Part(kind.name, insert.thread, insert.series, "brass", insert.length_mm)


def _washers(tables: Tables) -> Iterator[Part]:
    for row in tables.rows(Washer, "washers"):
        yield Part(SPRING if row.form == "spring" else WASHER, row.size, row.standard, "", None)


def _magnets(tables: Tables) -> Iterator[Part]:
    """A magnet goes by its plate, and by itself where the sheet takes the place of that."""
    for row in tables.rows(PotMagnet, "pot-magnets"):
        for across_mm in (row.diameter_mm, row.plate_diameter_mm):
            yield Part(kinds.POT_MAGNET.name, mm(across_mm), row.series, "", None)


def _sleeves(tables: Tables) -> Iterator[Part]:
    """One stop for foam of each size, for an example: each joint has its own, of any outside and height."""
    for row in tables.rows(MetricClearance, "metric-clearance"):
        yield Part(SLEEVE, row.size, f"{ceil(2 * row.coarse_mm)} mm outside", "", ANY_MM)


_PARTS: tuple[Callable[[Tables], Iterable[Part]], ...] = (
    _machine_screws, _tapping_screws, _board_screws, _plastic_screws, _rivets, _studs, _nuts, _expanding, _inserts,
    _washers, _magnets, _sleeves,
)  # fmt: skip


# -- tools and consumables --------------------------------------------------------------------------------------------

NO_SIZE, DRIVE = "-", "drive"


def _tools(tables: Tables) -> Iterator[tuple[str, str, str]]:
    """Each tool as a list says it and by its key, what its size is of, and its heading; drivers by their recess."""
    for kind in tables.rows(ToolKind, "tool-kinds"):
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
    yield from (f"{head.drive} {head.drive_size}" for head in tables.rows(Head, "heads"))
    yield from (screw.drive for screw in tables.rows(BoardScrew, "board-screws"))
    yield from (f"hexalobular {screw.drive}" for screw in tables.rows(PlasticScrew, "plastic-screws"))


def _consumables(tables: Tables) -> Iterator[tuple[str, bool]]:
    """All but what is counted as a part or as a spare of one, and listed there: as a list says it, and by its key."""
    rows = tables.rows(Consumable, "consumables")
    counted = {row.consumable for row in rows if row.per == COUNTED}
    detailed = {row.consumable for row in rows if row.detail != NO_SIZE}
    for kind in tables.rows(ToolKind, "tool-kinds"):
        if kind.heading == CONSUMABLE and kind.tool not in counted:
            yield from ((name, kind.tool in detailed) for name in (kind.in_list, kind.tool))
    yield from ((row.adhesive, row.adhesive in detailed) for row in tables.rows(Adhesive, "adhesives"))
