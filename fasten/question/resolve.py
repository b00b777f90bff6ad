"""From what was said to a whole mount point: the one place where gaps are filled, and each filling is noted.

Origins are noted by attribute of the mount point. What stays None because it was not given and must not be
assumed has no origin: the fields that `fields` marks OPEN or ABSENT, the pattern of a single fixing, and what is of
another item.
"""

from collections.abc import Iterable
from functools import cache
from typing import Any, TypeVar

from fasten.catalog.materials import MATERIALS, PLACES, Item, Material, Place
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.soft import standoff_mm
from fasten.model import (
    Doubler,
    FarSide,
    Into,
    MountPoint,
    OnFrame,
    Origin,
    Panel,
    Pattern,
    Question,
    Reach,
    Removal,
    Visible,
    Where,
)
from fasten.model.asked import NOT_ASKED
from fasten.question.fields import (
    BETWEEN,
    BOARD,
    DOUBLER,
    EXISTING_HOLE,
    HOLES_AT,
    INTO,
    ITEM,
    LUG,
    ONTO,
    PATTERN,
    RAILS,
    REMOVED,
    SUPPORT,
    field_named,
    missing,
    preset_of,
)
from fasten.question.presets import carried, stud_of, suited, together
from fasten.question.read import check_count, values_of
from fasten.question.read_onto import check_thickness, find_item
from fasten.record import names_of, record, replace
from fasten.text.shown import shown

Value = TypeVar("Value")

ASSUMED_GRADE = "8.8"
LEAST_PLATE_MM = 3.0  # across rails


def resolve(question: Question, tables: Tables) -> MountPoint:
    """Fill every gap that may honestly be filled, from the item's preset or by assumption, and note where each is from.

    Raises: FastenError if removals, thickness or the places of the fixings are not said and do not follow.
    """
    item = suited(question, find_item(question.item, tables, ITEM.name), tables)
    place = _row(tables.find(PLACES, question.place), question.place, ONTO.name) if question.place else None
    notes = _Notes({}, question, {})
    notes.given("item", item.item)
    _substrate(notes, place, tables)
    _presets(notes, item, tables)
    _assumptions(notes, item, place, tables)
    _carries(notes, tables)
    _ground(notes, item, tables)
    _check_frame(notes)
    _check_holes(notes)
    names = _asked()
    for name in names:
        if name not in notes.values:  # nothing stands in for it: it is as it was said, or there is none
            notes.given(name, getattr(question, name))
    origins = tuple((name, notes.origins[name]) for name in names if name in notes.origins)
    tests = tuple(test for test in tables.tests if test.material == notes.values["material"])
    return MountPoint(**notes.values, origins=origins, tests=tests)


@cache
def _asked() -> tuple[str, ...]:
    """The fields of a mount point that a question fills."""
    return tuple(name for name in names_of(MountPoint) if name not in NOT_ASKED)


def as_preset(point: MountPoint, names: Iterable[str]) -> MountPoint:
    """The mount point with what these fields of its question fill marked as preset, where it was given."""
    filled = {attribute for name in names for attribute in _filled_by(name)}
    origins = tuple(
        (name, Origin.PRESET if name in filled and origin is Origin.GIVEN else origin) for name, origin in point.origins
    )
    return replace(point, origins=origins)


def _filled_by(name: str) -> tuple[str, ...]:
    """The attributes of a mount point that a field of its question fills."""
    names = field_named(name).fills
    if name == ONTO.name:
        return (*names, "thickness_min_mm", "thickness_max_mm")
    return (*names, *(f"item_{attribute}" for attribute in names))


@record
class _Notes:
    """Values of the mount point as they are settled, and where each is from."""

    values: dict[str, Any]
    question: Question
    origins: dict[str, Origin]

    def note(self, name: str, value: object, origin: Origin) -> None:
        self.values[name] = value
        if value is not None:
            self.origins[name] = origin

    def given(self, name: str, value: object) -> None:
        self.note(name, value, Origin.GIVEN)

    def filled(self, name: str, other: object, origin: Origin) -> None:
        """What the question says, or else `other`."""
        said = getattr(self.question, name)
        self.note(name, other if said is None else said, origin if said is None else Origin.GIVEN)


def _substrate(notes: _Notes, place: Place | None, tables: Tables) -> None:
    question = notes.question
    material = _row(tables.find(MATERIALS, question.material), question.material, ONTO.name)
    check_thickness(material, question.thickness_mm, place.place if place else None, ONTO.name)
    notes.given("material", material.material)
    notes.given("place", question.place)
    # check_thickness has seen to it that one of the two is there.
    least, most = (place.min_mm, place.max_mm) if place else (None, None)
    origin = Origin.ASSUMED if question.thickness_mm is None else Origin.GIVEN
    notes.note("thickness_min_mm", least if question.thickness_mm is None else question.thickness_mm, origin)
    notes.note("thickness_max_mm", most if question.thickness_mm is None else question.thickness_mm, origin)
    if isinstance(question.support, OnFrame) and material.family == "sheet":
        _backed_by_frame(notes, tables)
    if question.board is not None and material.family not in {"board", "wood"}:
        what = f"{material.title} is no board that a job has as a mount point"
        raise FastenError(what, where=BOARD.name, fix="leave it out, or say the board's material")
    if question.rails is not None:
        _check_rails(question, material)
    if question.doubler is not None:
        _doubled(notes, question.doubler, material)


def _backed_by_frame(notes: _Notes, tables: Tables) -> None:
    """Thin sheet on a frame: the first hole may turn out this much thicker, and the grip must take both."""
    thin, more = rule(tables, Rules.FRAME_SHEET).value, rule(tables, Rules.FRAME_MORE).value
    if notes.values["thickness_max_mm"] < thin:
        notes.note("thickness_max_mm", notes.values["thickness_max_mm"] + more, Origin.ASSUMED)


def _check_rails(question: Question, material: Material) -> None:
    """The item on rails sits on the plate across them, and nothing but the rails makes it stiff."""
    plate = material.family == "sheet" and (question.thickness_mm or 0.0) >= LEAST_PLATE_MM
    if not plate:
        what = "an item on rails sits on the steel plate across them"
        raise FastenError(what, where=ONTO.name, fix="say steel plate 3 mm")
    if question.support is not None or question.doubler is not None:
        fix = "leave them out, and ask for the rail ends by themselves"
        raise FastenError("the rails carry it, no support and no doubler", where=RAILS.name, fix=fix)


def _doubled(notes: _Notes, doubler: Doubler, material: Material) -> None:
    """The fixings go through sheet and doubler: the grip must take both, and the sheet alone must bear."""
    if material.family != "sheet":
        what = f"a doubler is of sheet metal on sheet metal, and {material.title} is none"
        raise FastenError(what, where=DOUBLER.name, fix="leave it out, or say the metal of the panel")
    notes.note("thickness_max_mm", notes.values["thickness_max_mm"] + doubler.thickness_mm, Origin.GIVEN)


def _presets(notes: _Notes, item: Item, tables: Tables) -> None:
    notes.filled("mass_kg", item.mass_kg, Origin.PRESET)
    said = notes.question.pattern
    if said is not None and said.points_mm and notes.question.fixings is None:
        notes.given("fixings", len(said.points_mm))
    else:
        notes.filled("fixings", item.fixings, Origin.PRESET)
    notes.filled("item_thickness_mm", item.thickness_mm, Origin.PRESET)
    notes.filled("item_hole_mm", _preset_hole_mm(notes.question, item), Origin.PRESET)
    notes.filled("item_material", item.material, Origin.PRESET)
    notes.filled("pattern", _preset_pattern(notes.question, item, tables), Origin.PRESET)
    if notes.values["pattern"] is not None:
        check_count(notes.values["pattern"], notes.values["fixings"])


def _preset_hole_mm(question: Question, item: Item) -> float:
    """The item's hole; as wide as an existing one where clips go through both."""
    there_mm = question.existing_hole_mm if item.clipped == "yes" else None
    return item.hole_mm if there_mm is None else there_mm


def _preset_pattern(question: Question, item: Item, tables: Tables) -> Pattern | None:
    count = item.fixings if question.fixings is None else question.fixings
    if question.pattern is not None or count == 1:
        return None
    if count != item.fixings:
        what = f"the usual pattern is for {item.fixings} fixings, not {count}"
        raise FastenError(what, where=PATTERN.name, fix=f"say where they sit, such as {_example(count)}")
    pattern: Pattern = values_of(PATTERN.name, item.pattern, tables)[PATTERN.fills[0]]
    return pattern


def _example(count: int) -> str:
    return "row 100 mm" if count == 2 else "circle 165 mm" if count % 2 else "rectangle 240x180"


def _assumptions(notes: _Notes, item: Item, place: Place | None, tables: Tables) -> None:
    _removed(notes, item, tables)
    least_cg_mm = rule(tables, Rules.MIN_CG).value
    off_mm = _off_mm(notes.question, tables)
    notes.filled("cg_mm", max(item.height_mm / 2, least_cg_mm) + off_mm, Origin.ASSUMED)
    notes.filled("panel", Panel(place.panel) if place else Panel.UNKNOWN, Origin.ASSUMED)
    _into(notes, tables)
    notes.filled("reach", Reach.ONE_SIDE, Origin.ASSUMED)
    damp = notes.values["panel"] is Panel.DOOR
    usual = Where.CABIN if place is None else Where(place.where)
    notes.filled("where", Where.DOOR if damp else usual, Origin.ASSUMED)
    _far_side(notes, place, tables)
    notes.filled("visible", Visible.NO, Origin.ASSUMED)
    notes.filled("grade", ASSUMED_GRADE, Origin.ASSUMED)


def _removed(notes: _Notes, item: Item, tables: Tables) -> None:
    """As it was said, else as the item has it; raises FastenError where neither says it."""
    usual = preset_of(REMOVED, item.item, tables)
    if usual is None and notes.question.removed is None:
        raise missing(REMOVED)
    notes.filled("removed", None if usual is None else Removal(usual), Origin.PRESET)


def _far_side(notes: _Notes, place: Place | None, tables: Tables) -> None:
    """Water gets behind body sheet where its back is outside, or in a door; what is thicker or no metal is no body."""
    material = _row(tables.find(MATERIALS, notes.question.material), notes.question.material, ONTO.name)
    body_mm = rule(tables, Rules.FRAME_SHEET).value
    is_body = material.family == "sheet" and notes.values["thickness_min_mm"] < body_mm
    panel, origin = notes.values["panel"], Origin.ASSUMED
    outside = panel in {Panel.FLOOR, Panel.DOOR} or notes.values["where"] is not Where.CABIN
    if place is not None:
        outside, origin = outside or FarSide(place.far_side) is FarSide.WET, Origin.PRESET
    elif is_body and outside:
        origin = Origin.PRESET
    notes.filled("far_side", FarSide.WET if is_body and outside else FarSide.DRY, origin)


def _off_mm(question: Question, tables: Tables) -> float:
    """How far soft layers keep the item off; raises FastenError where no spacer is as long."""
    try:
        return standoff_mm(question.between, tables)
    except LookupError as error:
        fix = "cut the soft layer out under the item, and write cut out behind it"
        raise FastenError(str(error), where=BETWEEN.name, fix=fix) from error


def _carries(notes: _Notes, tables: Tables) -> None:
    """The item by itself, and then with what it carries; what is only partly given is noted as the least sure of it."""
    for name in ("mass_kg", "cg_mm"):
        notes.note(f"item_{name}", notes.values[name], notes.origins[name])
    said = notes.question.carries
    if not said:
        notes.note("carries", None, Origin.GIVEN)
        return
    over_mm = notes.values["item_thickness_mm"] + _off_mm(notes.question, tables)
    found = carried(notes.question, over_mm, tables)
    mass_known, height_known = (
        all(getattr(thing, name) is not None for thing in said) for name in ("mass_kg", "cg_mm")
    )
    notes.note("carries", found, Origin.GIVEN if mass_known else Origin.PRESET)
    masses = [notes.values["mass_kg"], *(thing.mass_kg or 0.0 for thing in found)]
    mass_kg, cg_mm = together(masses, [notes.values["cg_mm"], *(thing.cg_mm or 0.0 for thing in found)])
    notes.note("mass_kg", mass_kg, notes.origins["mass_kg"] if mass_known else Origin.PRESET)
    notes.note("cg_mm", cg_mm, notes.origins["cg_mm"] if height_known else Origin.ASSUMED)


def _ground(notes: _Notes, item: Item, tables: Tables) -> None:
    """The stud of a ground lug and how many rings share it."""
    question, is_lug = notes.question, item.item == LUG
    notes.filled("ring", stud_of(question, item, tables) if is_lug else None, Origin.PRESET)
    notes.filled("rings", 1 if is_lug else None, Origin.ASSUMED)


def _check_frame(notes: _Notes) -> None:
    support, fixings = notes.question.support, notes.values["fixings"]
    if isinstance(support, OnFrame) and support.fixings is not None and support.fixings > fixings:
        what = f"{support.fixings} of {fixings} fixings cannot go through a frame"
        raise FastenError(what, where=SUPPORT.name, fix=f"say frame {fixings} of {fixings}, or fewer")


def _check_holes(notes: _Notes) -> None:
    there, fixings = notes.question.holes_at, notes.values["fixings"]
    each = notes.question.existing_holes_mm
    if each is not None and len(each) != fixings:
        what = f"{len(each)} existing holes are given, and the item has {fixings} fixings"
        raise FastenError(what, where=EXISTING_HOLE.name, fix="write one size for all, or one for each fixing")
    if there is not None and len(there.points_mm) != fixings:
        what = f"{len(there.points_mm)} holes are there, and the item has {fixings} fixings"
        raise FastenError(what, where=HOLES_AT.name, fix="say where one hole for each fixing is")


def _into(notes: _Notes, tables: Tables) -> None:
    notes.filled("into", Into.FACE, Origin.ASSUMED)
    material = _row(tables.find(MATERIALS, notes.question.material), notes.question.material, ONTO.name)
    if notes.values["into"] is Into.EDGE and material.family not in {"board", "wood"}:
        what = f"nothing goes into the edge of {material.title}"
        raise FastenError(what, where=INTO.name, fix="leave it out, or say a board or wood it goes into")


def _row(row: Value | None, name: str, where: str) -> Value:
    if row is None:
        raise FastenError(f"{shown(name)} is not in the tables", where=where, fix="ask with a name that is")
    return row
