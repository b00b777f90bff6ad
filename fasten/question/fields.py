"""Every field of a question, once: what it is called, read by, asked as, and what stands in where it is not said.

The command line, the form, the job file, the reader and the answer all read this table. A new field is a row here.
Nothing here loads what reads: the form and `--help` stand before any table is open.
"""

from __future__ import annotations

from enum import Enum, auto
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.errors import FastenError
    from fasten.question import read_common as common
    from fasten.question import read_electric as electric
    from fasten.question import read_holes as holes
    from fasten.question import read_onto as onto
    from fasten.question import read_parts as parts
    from fasten.question import read_support as support
    from fasten.question.read_common import Names, Reader
else:

    class _Later:
        """A module's functions, each looked up when it is first called."""

        def __init__(self, module: str, name: str = "") -> None:
            self._module, self._name = module, name

        def __getattr__(self, name: str) -> _Later:
            return _Later(self._module, name)

        def __call__(self, *values: object) -> object:
            return getattr(import_module(self._module), self._name)(*values)

    common, electric, holes, onto, parts, support = (
        _Later(f"fasten.question.read_{name}") for name in ("common", "electric", "holes", "onto", "parts", "support")
    )

CLAMP, LUG, BATTERY = "wire-clamp", "ground-lug", "second-battery"
UNITS = {"_mm": "mm", "_kg": "kg", "_mm2": "mm²", "_a": "A"}
"""The unit of a value, by how the name of its attribute ends."""


class Unsaid(Enum):
    """What a field comes to where it is not given."""

    FILLED = auto()  # the item's preset or an assumption stands in, and is marked
    OPEN = auto()  # it may not be assumed: a check stays open without it
    ABSENT = auto()  # there is none


class Needed(NamedTuple):
    """There is no question without it: how it is asked for, and which column of the item's row may say it instead."""

    what: str
    fix: str
    column: str = ""


class Of(NamedTuple):
    """The only item that a field is of, and what it is there."""

    item: str
    what: str


class Field(NamedTuple):
    """A field of a question.

    Attributes:
        name: the option of the command line, the key of the job file, and what a message names.
        fills: the attributes of `Question` that it fills; their ends say the units.
        reader: makes of a text what it fills.
        names: of a field that takes one of few words, all that they are called by; the form completes these.
        unsaid: what it comes to where it is not given.
        turn: when the form asks it; those of one turn in the order of this table.
        label: what the form calls it.
        example: what stands in the empty field of the form.
        title: what an answer calls it; empty where it fills several attributes, each of which goes by its own name.
        of: the only item that has it, if it is of one.
        help: what its option says.
    """

    name: str
    fills: tuple[str, ...]
    reader: Reader
    names: Names | None
    unsaid: Unsaid | Needed
    turn: int
    label: str
    example: str
    title: str
    of: Of | None
    help: str

    @property
    def hint(self) -> str:
        """What stands in the empty field: the choices, or an example that nobody takes for a value."""
        return self.example if self.names else f"e.g. {self.example}"

    @property
    def such_as(self) -> str:
        """A text that it reads: its example, without what goes on or explains it."""
        return such_as(self.example)

    def read(self, text: str, tables: Tables) -> dict[str, Any]:
        """What it fills of a question, by attribute; raises FastenError, its `where` the field."""
        from fasten.errors import SizeError
        from fasten.text.letters import unjoined

        try:
            value = self.reader(unjoined(text), tables, self.name)
        except SizeError as error:
            raise error.such_as(self.such_as) from None
        return dict(
            zip(self.fills, value if isinstance(value, tuple) and len(self.fills) > 1 else (value,), strict=True)
        )


def such_as(example: str) -> str:
    """The part of an example that can be written as it stands."""
    return example.rpartition(";")[2].partition(":")[0].partition(",")[0].strip()


_SUBSTRATE = ("material", "thickness_mm", "place", "outline")
_EXISTING = ("existing_hole_mm", "existing_thread", "existing_holes_mm")
_NO_ITEM = Needed("nothing is said to be mounted", "say what it is, such as amplifier")
_NO_ONTO = Needed("nothing is said to mount it on", "say material and thickness, such as steel 0.8 mm")
_NO_REMOVED = Needed(
    "nothing is said", "say how often it comes off: never, rarely, yearly, monthly or weekly", "comes_off"
)
_OF_RUN = Of(CLAMP, "a run is of a cable in wire clamps")
_OF_RING = Of(LUG, "a ring terminal is of a ground lug")
_OF_RINGS = Of(LUG, "rings on a stud are of a ground lug")
_OF_CABLE = Of(LUG, "a cable's size is of a ground lug")
_OF_CURRENT = Of(LUG, "a full current is of a ground lug")

# fmt: off
#                      name              fills                              reader                 names            unsaid         turn label             example                                   title                of           help
ITEM           = Field("item",           ("item",),                         onto.read_item,        onto.item_names, _NO_ITEM,      1,   "What",           "amplifier, speaker …",                   "item",              None,        "what is mounted: amplifier, enclosure …")
ONTO           = Field("onto",           _SUBSTRATE,                        onto.read_onto,        None,            _NO_ONTO,      1,   "Onto what",      "steel 0.8 mm",                           "",                  None,        "what it is fastened to: 'steel 0.8 mm', 'steel 20 ga', 'steel floor', 'MDF ring 18 mm'")
REMOVED        = Field("removed",        ("removed",),                      common.removal,        common.removals, _NO_REMOVED,   1,   "How often off",  "never, rarely, yearly, monthly, weekly", "removed",           None,        "how often it comes off: never, rarely, yearly, monthly, weekly")
MASS           = Field("mass",           ("mass_kg",),                      common.mass,           None,            Unsaid.FILLED, 3,   "Its mass",       "6 kg",                                   "mass",              None,        "mass of the item: 6kg")
FIXINGS        = Field("fixings",        ("fixings",),                      parts.read_fixings,    None,            Unsaid.FILLED, 3,   "Fixings",        "4",                                      "fixings",           None,        "how many fixings")
PATTERN        = Field("pattern",        ("pattern",),                      parts.read_pattern,    None,            Unsaid.FILLED, 3,   "Where they sit", "rectangle 240x180, circle 165",          "pattern",           None,        "where they sit: over all, 'rectangle 240x180' or 'circle 165 mm'; hole to hole, 'row 100 mm'; each one, 'points 0,0 240,0 238,181' or as read with rule, tape or calliper, 'tape 1-2 240, 2-3 181, 1-3 300'")
ITEM_THICKNESS = Field("item-thickness", ("item_thickness_mm",),            common.length,         None,            Unsaid.FILLED, 3,   "Its thickness",  "3 mm",                                   "item thickness",    None,        "thickness of the item where the screw goes through: 3mm")
ITEM_HOLE      = Field("item-hole",      ("item_hole_mm",),                 parts.read_item_hole,  None,            Unsaid.FILLED, 3,   "Its holes",      "5.5 mm",                                 "item hole",         None,        "hole in the item: 5.5mm")
ITEM_MATERIAL  = Field("item-material",  ("item_material",),                onto.read_material,    None,            Unsaid.FILLED, 7,   "It is made of",  "aluminium",                              "item material",     None,        "what the item is made of there")
CG             = Field("cg",             ("cg_mm",),                        common.length,         None,            Unsaid.FILLED, 7,   "Centre of mass", "30 mm, off the panel",                   "centre of gravity", None,        "how far the centre of gravity stands off the panel: 30mm")
PANEL          = Field("panel",          ("panel",),                        common.panel,          common.panels,   Unsaid.FILLED, 5,   "Which panel",    "floor, seat-back, side, roof or door",   "panel",             None,        "floor, seat-back, side, roof or door")
BETWEEN        = Field("between",        ("between",),                      onto.read_between,     None,            Unsaid.ABSENT, 5,   "In between",     "carpet 12 mm, butyl 2 mm",               "between",           None,        "soft layers between, from the item down: 'foam 3 mm', 'carpet 12 mm' on spacers, 'carpet 12 mm cut out, deadener 2 mm'")
BEHIND         = Field("behind",         ("behind_mm", "behind_bound"),     common.clear_behind,   None,            Unsaid.OPEN,   2,   "Space behind",   "40 mm",                                  "behind",            None,        "space behind the panel, less 10 mm to what moves and 5 mm to the rest: 40mm, 'at least 16 mm'")
EDGE           = Field("edge",           ("edge_mm", "edge_bound"),         common.clear_edge,     None,            Unsaid.OPEN,   2,   "Edge",           "20 mm",                                  "edge",              None,        "distance from a hole to the nearest edge: 20mm, 'at least 18 mm'")
SUPPORT        = Field("support",        ("support",),                      support.read_support,  None,            Unsaid.OPEN,   2,   "Support",        "firm; push 100 N 0.4 mm",              "support",           None,        "what stiffens the panel there: frame, firm, 'ribs 8 mm', 'push 100 N 0.4 mm', 'tapped 31 Hz', 'bay 300x450', 'span 600 mm'")
DOUBLER        = Field("doubler",        ("doubler",),                      support.read_doubler,  None,            Unsaid.ABSENT, 7,   "Doubler",        "200x1.6 mm bonded, or riveted",          "doubler",           None,        "a square sheet of the panel's metal under the item: '200x1.6 mm bonded' or riveted")
RAILS          = Field("rails",          ("rails",),                        support.read_rails,    None,            Unsaid.ABSENT, 7,   "Rails",          "2 of 20x1.5 mm over 400 mm",             "rails",             None,        "square steel tubes that carry it from one line of support to the other, a plate across them: '2 of 20x1.5 mm over 400 mm'")
BOARD          = Field("on-board",          ("board",),                        parts.read_name,       None,            Unsaid.ABSENT, 7,   "On which board", "rear board: a mount of the job",         "board",             None,        "the mount point of the job whose board it is on: what stands on one board adds up")
BOSS           = Field("boss",           ("boss",),                         parts.read_boss,       None,            Unsaid.ABSENT, 4,   "Boss",           "8x14 mm: across, deep",                  "boss",              None,        "a boss on the plastic, outer diameter and depth it can be drilled to: '8x14 mm'")
INTO           = Field("into",           ("into",),                         common.into,           common.intos,    Unsaid.FILLED, 4,   "Into",           "face or edge of a board",                "into",              None,        "face or edge of a board")
REACH          = Field("reach",          ("reach",),                        common.reach,          common.reaches,  Unsaid.FILLED, 4,   "Reach",          "one-side or both-sides",                 "reach",             None,        "one-side or both-sides")
WHERE          = Field("where",          ("where",),                        common.where,          common.wheres,   Unsaid.FILLED, 6,   "Where",          "cabin, door, underfloor or engine-bay",              "where",             None,        "cabin, door, underfloor or engine-bay")
FAR_SIDE       = Field("far-side",       ("far_side",),                     common.far_side,       common.far_sides, Unsaid.FILLED, 6,  "Far side",       "wet or dry, behind the panel",           "far side",          None,        "whether water gets behind the panel: wet or dry; a floor, wheel arch and door are wet there")
VISIBLE        = Field("visible",        ("visible",),                      common.visible,        common.visibles, Unsaid.FILLED, 6,   "Heads seen",     "yes or no",                              "visible",           None,        "whether the heads are seen: yes or no")
GRADE          = Field("grade",          ("grade",),                        parts.read_grade,      None,            Unsaid.FILLED, 7,   "Screw class",    "8.8",                                    "grade",             None,        "property class of the screw: 8.8")
BODY           = Field("body",           ("body_mm", "body_thread"),         parts.read_body,       None,            Unsaid.ABSENT, 7,   "Nut body",       "M5 7.1 mm, measured",                    "body",              None,        "body of the rivet nut at hand, measured, and its thread: 7.1mm, 'M5 6.9 mm'")
EXISTING_HOLE  = Field("hole-there",     _EXISTING,                         parts.read_existing,   None,            Unsaid.ABSENT, 6,   "Existing hole",  "6.2 mm, or M6 thread, M6 stud",          "",                  None,        "an existing hole, thread or nut: 6.2mm, M6, 'M6 stud 20 mm', 'M6 rivet nut'; holes that differ in the order of the template: '7.6 mm, 7.6 mm, 8.2 mm, 7.6 mm'")
HOLES_AT       = Field("holes-at",       ("holes_at",),                     holes.read_holes,      None,            Unsaid.ABSENT, 6,   "They are at",    "tape 1-2 240, 2-3 181, 1-3 300", "holes at",  None, "where the existing holes are, one for each of the item: 'points 0,0 240,0 238,181', or as read: 'tape 1-2 240, 2-3 181, 1-3 300'")
CASE           = Field("case",           ("case",),                         parts.read_case,       None,            Unsaid.ABSENT, 7,   "Load case",      "hard-stop",                              "case",              None,        "another load case, by name")
CARRIES        = Field("carries",        ("carries",),                      parts.read_carries,    None,            Unsaid.ABSENT, 7,   "It carries",     "amplifier 5 kg, crossover",              "carries",           None,        "what the item carries: 'amplifier 5 kg, signal-processor', '2 kg at 80 mm' off the panel")
RUN            = Field("run",            ("run_mm",),                       common.length,         None,            Unsaid.ABSENT, 7,   "Cable run",      "2 m, of wire clamps",                    "run",               _OF_RUN,     "length of the cable in wire clamps: 2m")
RING           = Field("ring",           ("ring",),                         parts.read_ring,       None,            Unsaid.FILLED, 7,   "Ring for",       "M8, of a ground lug",                    "ring for",          _OF_RING,    "the stud that the ring of a ground lug is for: M8")
RINGS          = Field("rings",          ("rings",),                        parts.read_rings,      None,            Unsaid.FILLED, 7,   "Rings on it",    "1 to 4",                                 "rings",             _OF_RINGS,   "how many rings share the stud: 1 to 4")
CABLE          = Field("cable",          ("cable_mm2",),                    parts.read_cable,      None,            Unsaid.ABSENT, 7,   "Its cable",      "50 mm2, or 4 AWG",                       "cable",             _OF_CABLE,   "cable of the ground lug: '50 mm2', '4 AWG'")
CURRENT        = Field("current",        ("current_a",),                    common.current,        None,            Unsaid.ABSENT, 7,   "Full current",   "200 A",                                  "full current",      _OF_CURRENT, "full current of the ground lug: 200A")
POWER          = Field("power",          ("power",),                        electric.read_power,     None,          Unsaid.ABSENT, 7,   "Its power",      "1000 W class D",                         "power",             None,        "power and class of an amplifier, for its cable: '1000 W class D'")
OWN_FUSES      = Field("own-fuses",      ("own_fuses",),                    electric.read_own_fuses, None,          Unsaid.ABSENT, 7,   "Its own fuses",  "3 x 35 A",                               "own fuses",         None,        "fuses in the item itself, for its cable: '3 x 35 A'")
OUTPUTS        = Field("outputs",        ("outputs",),                      electric.read_outputs,   None,          Unsaid.ABSENT, 7,   "Its outputs",    "4 x 75 W 4 ohm",                         "outputs",           None,        "outputs of an amplifier, for its leads: '4 x 75 W 4 ohm'")
# fmt: on

FIELDS = tuple(value for value in list(globals().values()) if isinstance(value, Field))
"""All of them, in the order of the job file and of `--help`."""
NAMES = tuple(field.name for field in FIELDS)
FORM = tuple(sorted(FIELDS, key=lambda field: field.turn))
"""All of them, in the order in which the form asks them."""
NEEDED = tuple(field.name for field in FIELDS if isinstance(field.unsaid, Needed))
"""Those that already give an answer."""
_BY_NAME = {field.name: field for field in FIELDS}


def field_named(name: str) -> Field:
    """The field of this name; raises FastenError with the nearest names."""
    if name not in _BY_NAME:
        from fasten.errors import FastenError
        from fasten.text.names import either, unknown
        from fasten.text.shown import shown

        if meant := _MEANT.get(name.casefold()):
            fix = f"did you mean {either([field.name for field in meant])}?"
            raise FastenError(f"{shown(name)} is not a field of a question", where="field", fix=fix)
        raise unknown(name, "a field of a question", NAMES, "field")
    return _BY_NAME[name]


_MEANT = {
    "weight": (MASS,), "thickness": (ITEM_THICKNESS, ONTO), "material": (ITEM_MATERIAL, ONTO),
    "hole": (ITEM_HOLE, EXISTING_HOLE), "screws": (FIXINGS,), "bolts": (FIXINGS,), "depth": (BEHIND,), "space": (BEHIND,),
    "location": (PANEL, WHERE), "place": (PANEL, WHERE), "fuse": (OWN_FUSES,), "fuses": (OWN_FUSES,),
}  # fmt: skip
"""Fields by other words for them that are not spelled alike."""


def missing(field: Field) -> FastenError:
    """The refusal of a question in which a field is not said that it needs."""
    from fasten.errors import FastenError

    assert isinstance(field.unsaid, Needed), f"{field.name} may be left out"
    return FastenError(field.unsaid.what, where=field.name, fix=field.unsaid.fix)


def preset_of(field: Field, item: str | None, tables: Tables) -> str | None:
    """What the row of the item says of a field that is needed; None where it has to be said."""
    from fasten.catalog.materials import ITEMS, SAY

    column = field.unsaid.column if isinstance(field.unsaid, Needed) else ""
    row = tables.find(ITEMS, item) if column and item else None
    text = SAY if row is None else str(getattr(row, column))
    return None if text == SAY else text


def bound_of(attribute: str) -> str:
    """The attribute that says how the figure of another was found, where it has one."""
    return f"{attribute.removesuffix('_mm')}_bound"


def unit_of(attribute: str) -> str:
    """The unit of an attribute of a question or mount point; empty where it is no size."""
    return next((unit for end, unit in UNITS.items() if attribute.endswith(end)), "")
