"""Every field of a run, once: what it is called, read by, asked as, and in which key of the file it stands.

The option of the command line, the key of the job's file, the form and the messages go by its name.
"""

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.question.read_electric import read_own_fuses
from fasten.text.letters import unjoined
from fasten.wiring import read
from fasten.wiring.words import Question

Reader = Callable[[str, Tables, str], Any]


class RunField(NamedTuple):
    """A field of a run: its name, the attribute of `Question` that it fills, and what reads it.

    Attributes:
        name: the option of the command line, the key of the job file, and what a message names.
        fills: the attribute of `Question`.
        reader: makes of a text what it fills.
        label: what a form calls it.
        example: what stands in the empty field of a form.
        help: what its option says.
    """

    name: str
    fills: str
    reader: Reader
    label: str
    example: str
    help: str


# fmt: off
CARRIES    = RunField("carries",        "carries",      read.read_carries,    "Carries",        "1000 W class D; 72 A; loudspeaker 100 W 4 ohm", "what it carries: '1000 W class D', '72 A', 'loudspeaker 100 W 4 ohm', remote, signal, data")
FROM       = RunField("from",           "from_",        read.read_end,        "From",           "battery stud M8",      "where it begins: 'battery stud M8', 'battery post +', 'set screw', 'tab 6.3x0.8', body …")
TO         = RunField("to",             "to",           read.read_end,        "To",             "set screw",            "where it ends, in the same words")
LENGTH     = RunField("length",         "length_mm",    read.read_length,     "Length",         "5 m along the route",  "its length along the route: 5m")
GROUND     = RunField("ground",         "ground_mm",    read.read_length,     "Ground lead",    "0.45 m",               "length of the ground lead beside it: 0.45m")
BODY_PATH  = RunField("body",           "body_mohm",    read.read_body,       "Body measured",  "1.2 mohm",             "resistance measured from its ground point to the battery minus: '1.2 mohm'")
CABLE      = RunField("cable",          "cable",        read.read_size,       "Cable",          "4 AWG, 25 mm2",        "the cable that is chosen or at hand: '4 AWG', '25 mm2'")
INSULATION = RunField("insulation",     "insulation_c", read.read_insulation, "Marked",         "105 C",                "temperature printed on that cable: '105 C'; without it 75 °C")
LIMIT      = RunField("limit",          "limit",        read.read_limit,      "Drop limit",     "3 %, 0.5 V",           "voltage drop to size by: '3 %', '0.5 V'; at most 10 %")
HOLDER     = RunField("holder",         "holder",       read.read_holder,     "Fuse",           "blade, wafer, SF51",   "kind of fuse: blade, wafer, SF51, SF30, 'large blade', 'single bolt'")
OWN_FUSES  = RunField("own-fuses",      "own_fuses",    read_own_fuses,       "Its own fuses",  "3 x 35 A",             "fuses in the amplifier itself: '3 x 35 A'")
FIELDS: tuple[RunField, ...] = (
    CARRIES, FROM, TO, LENGTH,
    RunField("measured",       "straight",     read.read_measured,   "Measured",       "route or straight",    "route or straight: a straight line gets a fifth more"),
    GROUND,
    BODY_PATH,
    RunField("material",       "material",     read.read_material,   "Conductor of",   "copper or copper-clad", "copper or copper-clad (aluminium)"),
    CABLE,
    INSULATION,
    LIMIT,
    HOLDER,
    OWN_FUSES,
    RunField("series",         "series",       read.read_series,     "Cable series",   "awg or mm2",           "by which measure cable is sold: awg or mm2"),
    RunField("where",          "where",        read.read_where,      "Where",          "cabin, underfloor, engine-bay, exhaust", "cabin, underfloor, engine-bay, or exhaust: within 150 mm of it"),
    RunField("through-device", "through",      read.read_through,    "By way of",      "isolator stud M8",     "a device that it goes through: 'isolator stud M8'"),
)
# fmt: on
NAMES = tuple(field.name for field in FIELDS)
NEEDED = {
    CARRIES.name: "write 72 A, 1000 W class D, loudspeaker 100 W 4 ohm, remote, signal or data",
    FROM.name: "write battery stud M8, or another end",
    TO.name: "write set screw, stud M8, or another end",
    LENGTH.name: "write its length along the route, such as 5m",
}


def read_run(
    said: Mapping[str, str], tables: Tables, system_v: int = 12, name: str = "", needed: Mapping[str, str] = NEEDED
) -> Question:
    """Read a run from what was said of each field; `needed` says how each is asked for that must be given.

    Raises:
        FastenError: a field cannot be read, or one without which there is no run is not given; its `where` the field.
    """
    found: dict[str, Any] = {field.fills: None for field in FIELDS} | {"straight": False}
    for field in FIELDS:
        text = unjoined(said.get(field.name, "")).strip()
        if text:
            found[field.fills] = field.reader(text, tables, field.name)
        elif field.name in needed:
            raise FastenError("nothing is said", where=field.name, fix=needed[field.name])
    return Question(name=name, system_v=system_v, **found)
