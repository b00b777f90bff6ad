"""What every layer needs to know of a part of a run of cable, by its kind: one row a kind, as in `kinds`."""

from fasten.model.kinds import Listed, Spares
from fasten.record import record


@record
class EndKind:
    """A kind of part of a run of cable; `key` as of a receiver, `line` what the hardware list calls it.

    `label` is what a table of ends calls it, which has little room.
    """

    key: str
    line: str
    label: str
    listed: Listed
    spares: Spares


# fmt: off
#                          key                line                        label             listed           spares
TUBE_LUG       = EndKind("tube_lug",        "lug",                      "lug",            Listed.TERMINAL, Spares.LUG)
RING_TERMINAL  = EndKind("ring_terminal",   "ring terminal",            "ring terminal",  Listed.TERMINAL, Spares.LUG)
END_SLEEVE     = EndKind("wire_end_sleeve", "wire-end sleeve",          "sleeve",         Listed.TERMINAL, Spares.END_SLEEVE)
REDUCING_PIN   = EndKind("reducing_pin",    "reducing pin",             "reducing pin",   Listed.TERMINAL, Spares.SPLICE)
RECEPTACLE     = EndKind("receptacle",      "receptacle",               "receptacle",     Listed.TERMINAL, Spares.RECEPTACLE)
BUTT_SPLICE    = EndKind("butt_splice",     "butt splice",              "butt splice",    Listed.TERMINAL, Spares.SPLICE)
BUTT_CONNECTOR = EndKind("butt_connector",  "tube butt connector",      "butt connector", Listed.TERMINAL, Spares.SPLICE)
CONTACT        = EndKind("contact",         "contact of the connector", "contact",        Listed.TERMINAL, Spares.RECEPTACLE)
PLUGGED_LEAD   = EndKind("plugged_lead",    "lead with plugs",          "lead",           Listed.TERMINAL, Spares.NONE)
BATTERY_CLAMP  = EndKind("battery_clamp",   "battery clamp",            "battery clamp",  Listed.TERMINAL, Spares.NONE)
FUSE           = EndKind("fuse",            "fuse",                     "fuse",           Listed.FUSE,     Spares.FUSE)
FUSE_HOLDER    = EndKind("fuse_holder",     "fuse holder",              "holder",         Listed.FUSE,     Spares.NONE)
BLOCK          = EndKind("block",           "distribution block",       "block",          Listed.FUSE,     Spares.NONE)
LINED_CLAMP    = EndKind("lined_clamp",     "lined clamp",              "lined clamp",    Listed.PASSAGE,  Spares.ANY)
GROMMET        = EndKind("grommet",         "grommet",                  "grommet",        Listed.PASSAGE,  Spares.GROMMET)
# fmt: on

ALL: tuple[EndKind, ...] = tuple(kind for kind in vars().copy().values() if isinstance(kind, EndKind))
