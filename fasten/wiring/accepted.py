"""What of a run is to be measured or seen, the id each goes by, and what the user has measured or accepted of it.

An id names what was seen: the kind of check, the cable, the fuse or terminal, and the places. When one of these
changes the id is another one, so that what was accepted lapses by itself.
"""

from typing import Final

from fasten.errors import FastenError
from fasten.model import Check, SourceNote, Status
from fasten.record import lean, replace
from fasten.text.names import either
from fasten.text.shown import shown
from fasten.wiring.ends import EndFit
from fasten.wiring.pieces import Made, is_open
from fasten.wiring.places import slug
from fasten.wiring.sizing import NO_FUSE, Sizing

BY_YOU: Final = SourceNote("accepted", "user's own", "measured or accepted by you")
ALL, NONE = "all", "none"
# The checks of what counts until it is said, and of what is in no sum until then.
INSULATION, OWN_FUSES, GROUND_LEAD, PATH = "insulation", "own-fuses", "ground", "path"
MATERIAL, PROPOSED, BULKHEAD, PLUGS = "material", "proposed", "bulkhead", "plugs"
# The checks of what would be on no list: a body stud or fuse holder that is no mount point of the job.
GROUND_POINT, HOLDER_POINT = "ground-point", "holder-point"
DEVICE = "device"  # the check of a device on its way, which is on no list and no mount point either
RATED = "rated"  # the check of what such a device carries
SECTIONS_LENGTH = "sections"  # the check of sections that are longer than what lies in them
STACK = "stack"  # the check of lugs one on another
BATTERY_FUSE = "battery-fuse"  # the check of a battery that feeds a cable from its far end
UNLOADED, RIVALS, NOT_WHOLE, UNPLACED = "unloaded", "rivals", "not-whole", "where"
OUTPUT = "output"  # a lead that is said to carry what no output of its amplifier drives
IMPEDANCE = "impedance"  # a lead to what is said to take another load than an output is rated for
UNLIKE = "unlike"  # leads that share a current and are not alike
OUTSIDE = "outside"  # the check of how thick the cable is
# What no look settles: an end or heat-shrink that would be on no list, and a way along which nothing is known.
_NEVER = frozenset({UNLOADED, RIVALS, UNLIKE, OUTPUT, NOT_WHOLE, UNPLACED, "terminal", "shrink", "exhaust", NO_FUSE})
_OF_CABLE = frozenset({OUTSIDE, INSULATION, MATERIAL, "conductor", "pull"})  # wherever on the run it ends
# In the order of what they change: first what stops an end or changes every size, then what one part hangs on.
_ORDER = (
    UNLOADED, RIVALS, UNLIKE, OUTPUT, IMPEDANCE, NOT_WHOLE, UNPLACED, NO_FUSE, BATTERY_FUSE, "terminal", "exhaust",
    PATH, GROUND_LEAD, PROPOSED, BULKHEAD, INSULATION, MATERIAL, OWN_FUSES, "outside", "shrink", "bore", "conductor",
    "tab", PLUGS, "holder", "block", "grommet",
)  # fmt: skip
_OF_NO_CABLE = frozenset(
    {
        OWN_FUSES,
        GROUND_LEAD,
        GROUND_POINT,
        HOLDER_POINT,
        IMPEDANCE,
        PATH,
        PROPOSED,
        BULKHEAD,
        STACK,
        SECTIONS_LENGTH,
        DEVICE,
        RATED,
    }
)  # of whatever cable
_OF_FUSE = frozenset({"holder", "block"})


def rank(check: str) -> int:
    """The place of an open check, by its id, among others: what changes most comes first."""
    kind = check.partition(".")[0]
    return _ORDER.index(kind) if kind in _ORDER else len(_ORDER)


@lean
class Confirm:
    """A check that is to be measured or accepted: the id that it is accepted by, and whether it is."""

    id: str
    check: str
    title: str
    accepted: bool


def confirms_of(
    checks: tuple[Check, ...], made: Made, sizing: Sizing, accepted: tuple[str, ...]
) -> tuple[Confirm, ...]:
    """What of the open checks can be accepted, in their order."""
    found = ((check, _id(check, made, sizing)) for check in checks if _can_be_accepted(check, made))
    return tuple(Confirm(id_, check.id, check.title, id_ in accepted) for check, id_ in found)


def taken(check: Check, confirms: tuple[Confirm, ...]) -> Check:
    """The check, which holds where it was open and is accepted; it says by whom."""
    if not is_open(check) or not any(one.accepted and one.check == check.id for one in confirms):
        return check
    what = (check.needs or check.title).removeprefix("needs ")
    return replace(check, status=Status.HOLDS, from_=(*check.from_, BY_YOU.id), needs=f"{what}; {BY_YOU.text}")


def made_with(made: Made, confirms: tuple[Confirm, ...]) -> Made:
    """The ends with what of their checks is accepted."""
    ends = (replace(end, checks=tuple(taken(check, confirms) for check in end.checks)) for end in made.ends)
    return replace(made, ends=tuple(ends))


def with_accepted(before: tuple[str, ...], text: str, confirms: tuple[Confirm, ...]) -> tuple[str, ...]:
    """The ids that are accepted with those of a text: ids with commas, all that is open, or none; each once.

    Raises:
        FastenError: an id is none of those that are to be measured or accepted.
    """
    wanted = tuple(part.strip().casefold() for part in text.split(",") if part.strip())
    if wanted == (NONE,):
        return ()
    known = tuple(one.id for one in confirms)
    ids = known if wanted == (ALL,) else wanted
    missing = next((id_ for id_ in ids if id_ not in known), None)
    if missing is not None or not ids:
        what = f"nothing of it is accepted by the id {shown(missing or text)}"
        fix = f"write {either(list(known))}, with commas, or all" if known else "nothing of it is to be accepted"
        raise FastenError(what, where="accept", fix=fix)
    return tuple(dict.fromkeys((*before, *ids)))


def _kind(check: Check) -> str:
    return check.id.partition(".")[0]


def _at(check: Check, made: Made) -> tuple[EndFit, ...]:
    """The ends at which a check is open."""
    return made.open_at.get(check.id, ())


def _can_be_accepted(check: Check, made: Made) -> bool:
    """Whether a look or a measurement settles it. An outside for which there is no heat-shrink yet must be measured."""
    if not is_open(check) or _kind(check) in _NEVER:
        return False
    return _kind(check) != OUTSIDE or all(end.shrink is not None for end in _at(check, made))


def _id(check: Check, made: Made, sizing: Sizing) -> str:
    kind, _, of = check.id.partition(".")
    if kind in _OF_NO_CABLE:
        return f"{kind}:{slug(of)}"
    figure = "" if check.demand is None else f"{check.demand:g}"
    parts = (kind, slug(of), slug(sizing.size.name), figure, *_about(kind, check, made, sizing))
    return ":".join(filter(None, parts))


def _about(kind: str, check: Check, made: Made, sizing: Sizing) -> tuple[str, ...]:
    """What else it is about: the cable alone, the fuse, or the places where it is open."""
    if kind in _OF_CABLE:
        return (sizing.run.material.value,)
    if kind in _OF_FUSE and sizing.fuse is not None:
        return (slug(sizing.fuse.family.family), f"{sizing.fuse.rating_a:g}")
    return ("+".join(dict.fromkeys(end.place for end in _at(check, made))),)
