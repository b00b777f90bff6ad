"""What every layer needs to know of a part, by its kind: one row a kind, and no answer is left out.

A new kind is a row here. There are no defaults: a kind that leaves a question unanswered does not type-check.
"""

from enum import auto

from fasten.model.words import Word
from fasten.record import record


class Bears(Word):
    """What presses on the side of its hole."""

    SCREW = auto()
    FILLED = auto()  # its body, which fills the hole
    BODY = auto()  # its outside, which is wider than what is drilled


class Spaced(Word):
    """The diameter that spacing and edge distances count from: the outside of what bears."""

    SCREW = auto()
    HOLE = auto()
    BODY = auto()


class Holds(Word):
    """Over what length it holds in the substrate."""

    THROUGH = auto()
    OWN_LENGTH = auto()


class Seat(Word):
    """How it lies in the substrate, which decides what a compression limiter stands on."""

    NEAR_FLANGE = auto()
    FLUSH = auto()  # metal, level with the face
    SUNK = auto()  # its mouth is as wide as its body
    BEHIND = auto()


class Strength(Word):
    """Where its strength comes from."""

    TABLE = auto()
    EQUATIONS = auto()  # of what it sits in, or of the screw that goes through it
    BOX = auto()


class Setting(Word):
    """How it is put in."""

    TOOL = auto()  # a mandrel, driver or press, with room for it behind
    BY_HAND = auto()
    LAID = auto()  # a nut, held from behind or run on


class Tightened(Word):
    """What limits the torque on it."""

    LIMITS = auto()  # the least of everything that would give way
    BOX = auto()
    NOT = auto()


class Opening(Word):
    """What of it must be wider than the opening over it, so that it is not pulled up through it."""

    FLANGE = auto()
    BODY = auto()
    NONE = auto()  # it lies behind, or nothing pulls it up


class Body(Word):
    """Whether its body can turn in its hole as the screw is tightened."""

    TURNS = auto()
    HELD = auto()


class Measured(Word):
    """Whether the body at hand is measured before its hole is drilled."""

    FIRST = auto()
    NO = auto()


class Titled(Word):
    """How its answer is titled."""

    BY_THREAD = auto()
    WITH_SERIES = auto()


class Water(Word):
    """How water gets through it."""

    BY_END = auto()  # open or closed, as its end is
    BY_WASHER = auto()  # sealed under its washer, anew at each removal, for both sides are reached
    NOT_JUDGED = auto()


class Bought(Word):
    """What sets it apart from others of its thread and series on a box."""

    BY_LENGTH = auto()
    BY_OUTSIDE = auto()
    BY_THREAD = auto()
    AS_ITS_SCREW = auto()  # a rivet, which is one thing


class Listed(Word):
    """Where it stands on the hardware list, in this order."""

    RIVET_NUT = auto()
    INSERT = auto()
    NUT = auto()
    RIVET = auto()
    SCREW = auto()
    WASHER = auto()
    LIMITER = auto()
    OTHER = auto()
    TERMINAL = auto()
    FUSE = auto()
    PASSAGE = auto()


class Spares(Word):
    """Which rows of `spares.toml` say how many more of it go in the box."""

    WASHER = "washer"
    SCREW = "screw"
    RIVET = "rivet"
    RIVET_NUT = "rivet_nut"
    INSERT = "insert"
    CLIP_NUT = "clip_nut"
    NUT = "nut"
    CLIP = "clip"
    LIMITER = "sleeve"
    STUD = "stud"
    SOCKET = "socket"
    MAGNET = "magnet"
    LUG = "lug"
    END_SLEEVE = "wire_end_sleeve"
    RECEPTACLE = "receptacle"
    SPLICE = "splice"
    FUSE = "fuse"
    GROMMET = "grommet"
    NONE = "none"
    ANY = "any"  # the last row, which is for every part that none before it is for


@record
class PartKind:
    """A kind of receiver: the part that stays in the substrate and takes a thread, stem or ball.

    `key` is what files and tables know it by and never changes; `name` is what people read.
    """

    __eq__, __hash__ = object.__eq__, object.__hash__  # each is one alone

    key: str
    name: str
    bears: Bears
    spaced: Spaced
    holds: Holds
    seat: Seat
    strength: Strength
    setting: Setting
    tightened: Tightened
    opening: Opening
    body: Body
    measured: Measured
    titled: Titled
    water: Water
    bought: Bought
    listed: Listed
    spares: Spares

    @property
    def line(self) -> str:
        """What the hardware list calls it."""
        return self.name


class Thread(Word):
    """What the thread of a screw is, which decides how the torque is limited and what of it is checked."""

    MACHINE = auto()
    FORMS_IN_SHEET = auto()
    FORMS_IN_BOARD = auto()
    FORMS_IN_PLASTIC = auto()
    NONE = auto()


class Core(Word):
    """Where the strength of a screw's core comes from."""

    CLASS = auto()
    BREAKING_TORQUE = auto()
    MILD_STEEL = auto()
    OF_ITS_PART = auto()  # the table or box of its receiver rates the pair
    OF_ITS_MAKER = auto()


class End(Word):
    """The end of a screw."""

    BLUNT = auto()
    POINTED = auto()


class Set(Word):
    """Whether a screw is tightened, or set once and for all."""

    TIGHTENED = auto()
    ONCE = auto()


@record
class ScrewKind:
    """A kind of screw, rivet or stud; `line` is what the hardware list calls it, `label` the headline.

    `key` is that of its line, which kinds share that are one and the same on a box. `grade` is what stands for a property class where a screw of this kind has none.
    """

    __eq__, __hash__ = object.__eq__, object.__hash__  # each is one alone

    key: str
    name: str
    line: str
    label: str
    grade: str
    thread: Thread
    core: Core
    end: End
    set: Set
    listed: Listed
    spares: Spares


class Sticks(Word):
    """What a patch is bonded to, where a bond keeps it."""

    BOTH_SIDES = auto()
    SUBSTRATE = auto()


class Opens(Word):
    """Whether its two halves come apart again by hand."""

    YES = auto()
    NO = auto()


class Heat(Word):
    """What of it has a limit of its own in heat, beside the bond."""

    MAGNET = auto()
    BACKING = auto()
    NOTHING = auto()


class Bond(Word):
    """What its bond is: tape by its own guide, an adhesive, or none where its own grip holds."""

    TAPE = auto()
    ADHESIVE = auto()


class Alone(Word):
    """Whether nothing but a bond holds the item: the last resort, but for a base laminated into laminate."""

    BOND = auto()
    BASE = auto()
    NO = auto()


@record
class PatchKind:
    """A kind of what holds by its face; `key` as of a receiver, and that of its rows in tables."""

    __eq__, __hash__ = object.__eq__, object.__hash__  # each is one alone

    key: str
    name: str
    sticks: Sticks
    opens: Opens
    heat: Heat
    bond: Bond
    alone: Alone
    listed: Listed
    spares: Spares

    @property
    def line(self) -> str:
        """What the hardware list calls it."""
        return self.name


@record
class WasherKind:
    """A kind of what lies in the stack; `key` as of a receiver, `line` what the hardware list calls it."""

    __eq__, __hash__ = object.__eq__, object.__hash__  # each is one alone

    key: str
    line: str
    listed: Listed
    spares: Spares


class Locks(Word):
    """What keeps a screw from working loose."""

    NOTHING = auto()
    LOCKER = auto()
    SPRING = auto()  # a washer
    NUT = auto()  # that takes a torque to turn
    ITSELF = auto()  # the part or the bond, with nothing put on beside it


@record
class LockKind:
    """A kind of lock: `key` is that of its row in `locks.toml`, where it has one, `name` what people read."""

    key: str
    name: str
    how: Locks


Kind = PartKind | ScrewKind | PatchKind | WasherKind


# fmt: off
#                          key                            name                           bears         spaced        holds             seat              strength            setting          tightened         opening         body        measured        titled              water             bought               listed            spares
RIVET_NUT       = PartKind("rivet_nut",                   "rivet nut",                   Bears.FILLED, Spaced.HOLE,  Holds.THROUGH,    Seat.NEAR_FLANGE, Strength.TABLE,     Setting.TOOL,    Tightened.LIMITS, Opening.FLANGE, Body.TURNS, Measured.FIRST, Titled.WITH_SERIES, Water.BY_END,     Bought.BY_LENGTH,    Listed.RIVET_NUT, Spares.RIVET_NUT)
CLIP_NUT        = PartKind("clip_nut",                    "clip nut",                    Bears.SCREW,  Spaced.HOLE,  Holds.THROUGH,    Seat.BEHIND,      Strength.BOX,       Setting.TOOL,    Tightened.BOX,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_THREAD,    Listed.NUT,       Spares.CLIP_NUT)
RUBBER_NUT      = PartKind("rubber_bodied_expanding_nut", "rubber-bodied expanding nut", Bears.SCREW,  Spaced.HOLE,  Holds.THROUGH,    Seat.NEAR_FLANGE, Strength.BOX,       Setting.TOOL,    Tightened.BOX,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.NUT,       Spares.NUT)
SQUARE_NUT      = PartKind("square_hole_plastic_nut",     "square-hole plastic nut",     Bears.SCREW,  Spaced.HOLE,  Holds.THROUGH,    Seat.NEAR_FLANGE, Strength.BOX,       Setting.TOOL,    Tightened.BOX,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.NUT,       Spares.NUT)
PUSH_IN_CLIP    = PartKind("push_in_clip",                "push-in clip",                Bears.FILLED, Spaced.HOLE,  Holds.THROUGH,    Seat.BEHIND,      Strength.BOX,       Setting.BY_HAND, Tightened.NOT,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.OTHER,     Spares.CLIP)
BALL_SOCKET     = PartKind("ball_socket",                 "ball socket",                 Bears.FILLED, Spaced.HOLE,  Holds.THROUGH,    Seat.BEHIND,      Strength.BOX,       Setting.BY_HAND, Tightened.NOT,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.OTHER,     Spares.SOCKET)
QUARTER_TURN    = PartKind("quarter_turn_receptacle",     "quarter-turn receptacle",     Bears.FILLED, Spaced.HOLE,  Holds.THROUGH,    Seat.NEAR_FLANGE, Strength.BOX,       Setting.TOOL,    Tightened.NOT,    Opening.FLANGE, Body.HELD,  Measured.FIRST, Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_THREAD,    Listed.OTHER,     Spares.SOCKET)
SCREW_IN_INSERT = PartKind("screw_in_insert",             "screw-in insert",             Bears.BODY,   Spaced.BODY,  Holds.OWN_LENGTH, Seat.SUNK,        Strength.EQUATIONS, Setting.TOOL,    Tightened.LIMITS, Opening.BODY,   Body.HELD,  Measured.NO,    Titled.WITH_SERIES, Water.NOT_JUDGED, Bought.BY_OUTSIDE,   Listed.INSERT,    Spares.INSERT)
HEAT_SET_INSERT = PartKind("heat_set_insert",             "heat-set insert",             Bears.BODY,   Spaced.BODY,  Holds.OWN_LENGTH, Seat.FLUSH,       Strength.EQUATIONS, Setting.TOOL,    Tightened.LIMITS, Opening.BODY,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.INSERT,    Spares.INSERT)
SELF_TAPPING    = PartKind("self_tapping_insert",         "self-tapping insert",         Bears.BODY,   Spaced.BODY,  Holds.OWN_LENGTH, Seat.FLUSH,       Strength.EQUATIONS, Setting.TOOL,    Tightened.LIMITS, Opening.BODY,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.INSERT,    Spares.INSERT)
TEE_NUT         = PartKind("tee_nut",                     "tee nut",                     Bears.SCREW,  Spaced.HOLE,  Holds.THROUGH,    Seat.BEHIND,      Strength.EQUATIONS, Setting.LAID,    Tightened.LIMITS, Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.BY_LENGTH,    Listed.NUT,       Spares.NUT)
LOCK_NUT        = PartKind("prevailing_torque_nut",       "prevailing-torque nut",       Bears.SCREW,  Spaced.SCREW, Holds.THROUGH,    Seat.BEHIND,      Strength.EQUATIONS, Setting.LAID,    Tightened.LIMITS, Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.BY_WASHER,  Bought.BY_THREAD,    Listed.NUT,       Spares.NUT)
HEXAGON_NUT     = PartKind("hexagon_nut",                 "hexagon nut",                 Bears.SCREW,  Spaced.SCREW, Holds.THROUGH,    Seat.BEHIND,      Strength.EQUATIONS, Setting.LAID,    Tightened.LIMITS, Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.BY_WASHER,  Bought.BY_THREAD,    Listed.NUT,       Spares.NUT)
BLIND_RIVET     = PartKind("blind_rivet",                 "blind rivet",                 Bears.SCREW,  Spaced.SCREW, Holds.THROUGH,    Seat.BEHIND,      Strength.TABLE,     Setting.TOOL,    Tightened.NOT,    Opening.NONE,   Body.HELD,  Measured.NO,    Titled.BY_THREAD,   Water.NOT_JUDGED, Bought.AS_ITS_SCREW, Listed.RIVET,     Spares.RIVET)

#                             key                    name                   line                   label    grade                    thread                   core                  end          set            listed        spares
MACHINE_SCREW     = ScrewKind("screw",               "machine screw",       "screw",               "Screw", "",                      Thread.MACHINE,          Core.CLASS,           End.BLUNT,   Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
TAPPING_SCREW     = ScrewKind("screw",               "tapping screw",       "screw",               "Screw", "case-hardened",         Thread.FORMS_IN_SHEET,   Core.BREAKING_TORQUE, End.POINTED, Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
SELF_DRILLING     = ScrewKind("self_drilling_screw", "self-drilling screw", "self-drilling screw", "Screw", "case-hardened",         Thread.FORMS_IN_SHEET,   Core.BREAKING_TORQUE, End.POINTED, Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
TAPPING_IN_NUT    = ScrewKind("screw",               "screw in a nut",      "screw",               "Screw", "case-hardened",         Thread.FORMS_IN_PLASTIC, Core.BREAKING_TORQUE, End.POINTED, Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
BOARD_SCREW       = ScrewKind("screw",               "board screw",         "screw",               "Screw", "case-hardened",         Thread.FORMS_IN_BOARD,   Core.BREAKING_TORQUE, End.POINTED, Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
WOOD_SCREW        = ScrewKind("screw",               "wood screw",          "screw",               "Screw", "case-hardened",         Thread.FORMS_IN_BOARD,   Core.MILD_STEEL,      End.POINTED, Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
PLASTIC_SCREW     = ScrewKind("screw",               "screw for plastic",   "screw",               "Screw", "hardened, for plastic", Thread.FORMS_IN_PLASTIC, Core.OF_ITS_MAKER,    End.BLUNT,   Set.TIGHTENED, Listed.SCREW, Spares.SCREW)
RIVET             = ScrewKind("blind_rivet",         "blind rivet",         "blind rivet",         "Rivet", "",                      Thread.NONE,             Core.OF_ITS_PART,     End.BLUNT,   Set.ONCE,      Listed.RIVET, Spares.RIVET)
BALL_STUD         = ScrewKind("ball_stud",           "ball stud",           "ball stud",           "Stud",  "steel",                 Thread.MACHINE,          Core.OF_ITS_PART,     End.BLUNT,   Set.ONCE,      Listed.OTHER, Spares.STUD)
QUARTER_TURN_STUD = ScrewKind("quarter_turn_stud",   "quarter-turn stud",   "quarter-turn stud",   "Stud",  "steel",                 Thread.MACHINE,          Core.OF_ITS_PART,     End.BLUNT,   Set.ONCE,      Listed.OTHER, Spares.STUD)
BONDED_STUD       = ScrewKind("bonded_in_stud",      "bonded-in stud",      "bonded-in stud",      "Screw", "",                      Thread.MACHINE,          Core.CLASS,           End.BLUNT,   Set.TIGHTENED, Listed.OTHER, Spares.STUD)

#                         key              name             sticks             opens      heat          bond           alone       listed        spares
HOOK_AND_LOOP = PatchKind("hook-and-loop", "hook-and-loop", Sticks.BOTH_SIDES, Opens.YES, Heat.BACKING, Bond.ADHESIVE, Alone.NO,   Listed.OTHER, Spares.ANY)
POT_MAGNET    = PatchKind("pot magnet",    "pot magnet",    Sticks.SUBSTRATE,  Opens.YES, Heat.MAGNET,  Bond.ADHESIVE, Alone.NO,   Listed.OTHER, Spares.MAGNET)
FOAM_TAPE     = PatchKind("foam tape",     "foam tape",     Sticks.BOTH_SIDES, Opens.NO,  Heat.NOTHING, Bond.TAPE,     Alone.BOND, Listed.OTHER, Spares.ANY)
ADHESIVE      = PatchKind("adhesive",      "adhesive",      Sticks.BOTH_SIDES, Opens.NO,  Heat.NOTHING, Bond.ADHESIVE, Alone.BOND, Listed.OTHER, Spares.ANY)
STUD_BASE     = PatchKind("stud base",     "stud base",     Sticks.SUBSTRATE,  Opens.NO,  Heat.NOTHING, Bond.ADHESIVE, Alone.BASE, Listed.OTHER, Spares.ANY)

#                          key              line                   listed          spares
WASHER        = WasherKind("washer",        "washer",              Listed.WASHER,  Spares.WASHER)
SPRING_WASHER = WasherKind("spring_washer", "spring washer",       Listed.WASHER,  Spares.WASHER)
PLATE         = WasherKind("plate",         "plate",               Listed.WASHER,  Spares.WASHER)
DOUBLER       = WasherKind("doubler_sheet", "doubler",             Listed.OTHER,   Spares.NONE)
SHIM          = WasherKind("shim",          "shim",                Listed.OTHER,   Spares.NONE)
RAIL          = WasherKind("rail",          "rail",                Listed.OTHER,   Spares.NONE)
RAIL_PLATE    = WasherKind("rail_plate",    "plate across rails",  Listed.OTHER,   Spares.NONE)
LIMITER       = WasherKind("stop_sleeve",   "compression limiter", Listed.LIMITER, Spares.LIMITER)

#                     key                      name                           how
NO_LOCK    = LockKind("none",                  "none",                        Locks.NOTHING)
LOCKER     = LockKind("threadlocker",          "low-strength threadlocker",   Locks.LOCKER)
SPRING     = LockKind("spring_washer",         "spring washer",               Locks.SPRING)
NUT_LOCKS  = LockKind("prevailing_torque_nut", "prevailing-torque nut",       Locks.NUT)
NUT_GRIPS  = LockKind("nut_grips",             "the nut grips its screw",     Locks.ITSELF)
SNAPS      = LockKind("snap",                  "the snap of its socket",      Locks.ITSELF)
BARBS      = LockKind("barbs",                 "its barbs hold it",           Locks.ITSELF)
OWN_THREAD = LockKind("own_thread",            "its own thread in the board", Locks.ITSELF)
# fmt: on

ALL: tuple[Kind, ...] = tuple(kind for kind in vars().copy().values() if isinstance(kind, Kind))
