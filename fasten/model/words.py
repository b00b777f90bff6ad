"""What a person chooses from, and what is found: the enums of the house."""

from enum import Enum


class Word(Enum):
    """An enum whose members hash as objects do: mount points and joints hold many, and are hashed often."""

    __hash__ = object.__hash__  # not that of `Enum`, which is a call of its own


class Removal(Word):
    """How often the item comes off."""

    NEVER = "never"
    RARELY = "rarely"
    YEARLY = "yearly"
    MONTHLY = "monthly"
    WEEKLY = "weekly"


class Panel(Word):
    """Which way the panel faces, so which way a hard stop pulls on it."""

    FLOOR = "floor"
    SEAT_BACK = "seat-back"
    SIDE = "side"
    ROOF = "roof"
    DOOR = "door"
    UNKNOWN = "unknown"


class Reach(Word):
    """Which sides of the substrate a hand can reach."""

    ONE_SIDE = "one-side"
    BOTH_SIDES = "both-sides"


class Into(Word):
    """Whether the fastener goes into the face or the edge of a board."""

    FACE = "face"
    EDGE = "edge"


class Outline(Word):
    """What the outline of the substrate is known to be: a round ring has edges and no corner."""

    RING = "ring"


class Where(Word):
    """Where in the vehicle the mount lives: decides heat, wet and what corrodes."""

    CABIN = "cabin"
    DOOR = "door"
    UNDERFLOOR = "underfloor"
    ENGINE_BAY = "engine-bay"


class FarSide(Word):
    """What is on the far side of a panel: water, as under a floor or in a door, or a dry space."""

    WET = "wet"
    DRY = "dry"


class Visible(Word):
    """Whether the screw heads are seen."""

    YES = "yes"
    NO = "no"


class Origin(Word):
    """Where a field of a mount point comes from."""

    GIVEN = "given"
    PRESET = "preset"
    ASSUMED = "assumed"


class Bound(Word):
    """How a figure was found: measured, or by a gauge that went in, or did not, so that there may be more, or less."""

    EXACT = "exact"
    AT_LEAST = "at least"
    AT_MOST = "at most"


class Status(Word):
    """What a check found. `MARGINAL` is a strength on an estimated formula that is missed by a little: not proven."""

    HOLDS = "holds"
    MARGINAL = "marginal"
    FAILS = "fails"
    NOT_CHECKED = "not_checked"


class Asks(Word):
    """What about the mount point settles a check that is open only because it was not said; its key in a question.

    `EXISTING_HOLE` is all that must be known of an existing thread.
    """

    PANEL = "panel"
    SUPPORT = "support"
    BEHIND = "behind"
    EDGE = "edge"
    EXISTING_HOLE = "hole-there"
    CURRENT = "current"


class Subject(Word):
    """What of a joint a failure mode examines: every joint has a check of each, or a reason why not."""

    HOLDS_TENSION = "what holds it, in tension"
    HOLDS_SHEAR = "what holds it, in shear"
    ITEM = "the item under the head"
    SUBSTRATE_TENSION = "the substrate, in tension"
    SUBSTRATE_SHEAR = "the substrate, in shear"


class JointKind(Word):
    """Clamped: hard layers keep preload. Located: soft layers do not, and load goes in bearing."""

    CLAMPED = "clamped"
    LOCATED = "located"


class Holds(Word):
    """What goes through a soft layer that stays: a compression limiter that stops it, or a spacer that is clamped."""

    LIMITER = "limiter"
    SPACER = "spacer"


class Taken(Word):
    """How a soft layer is taken away at each fixing: a hole is cut in it, or what sticks is scraped off."""

    CUT = "cut"
    SCRAPED = "scraped"


class Position(Word):
    """Where a part lies in the stack: under the head, between item and substrate, behind; or through a soft layer."""

    HEAD = "head"
    BETWEEN = "between"
    NUT = "nut"
    LIMITER = "stop"


class Joined(Word):
    """How a doubler is joined to the sheet: by rivets it bends by itself, bonded over its whole face with it."""

    RIVETED = "riveted"
    BONDED = "bonded"


class Phase(Word):
    """A part of the work at a mount point or on a run of cable; they follow one another in this order."""

    BEFORE = "before"
    LOOK = "look"
    CUT = "cut"
    MARK = "mark"
    PILOT = "pilot"
    PROBE = "probe"
    OPEN_UP = "open up"
    DEBURR = "deburr"
    PROTECT = "protect"
    SLIDE_ON = "slide on"
    STRIP = "strip"
    PULL = "pull"
    CRIMP = "crimp"
    SHRINK = "shrink"
    ROUTE = "route"
    PASS = "pass"
    TEST_PIECE = "test piece"
    SET = "set"
    LOCK = "lock"
    FIT = "fit"
    TIGHTEN = "tighten"
    VERIFY = "verify"
    SEAL = "seal"
    RECORD = "record"
    LATER = "later"
    AFTER = "after"
