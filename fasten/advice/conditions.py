"""The conditions under which a row of steps, tools, consumables or cautions applies: their names in `only_if`."""

from collections.abc import Callable, Iterable, Mapping

from fasten.advice.bits import is_there, item_opened
from fasten.advice.corrosion import on_item, on_panel
from fasten.advice.drive import HEXAGON, drive_of
from fasten.advice.mass_slip import meant_kg
from fasten.advice.rows import pilot_mm
from fasten.advice.sag import sag_of
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.bits import IN_PLACE, OWN_POINT
from fasten.geometry.floor import mass_on_panel_kg
from fasten.geometry.joint import limiter_of, nut_is_there
from fasten.geometry.soft import each, held_by, taken
from fasten.geometry.stack import spreaders_of
from fasten.model import (
    Asks,
    FarSide,
    Holds,
    Hole,
    Joined,
    JointKind,
    MountPoint,
    Origin,
    Panel,
    Proposal,
    Reach,
    StackPart,
    Status,
    Taken,
    Where,
)
from fasten.model.check import RIM, SEALED, STIFFNESS
from fasten.model.kinds import Alone, Bond, Locks, Opens, Sticks
from fasten.model.known import FarEnd
from fasten.record import record

BOARD = frozenset({"board", "wood"})
NOT = "not "
DRIVER, SOCKET = "driver", "socket"
SHAPES = {"hexagon": "hexagon hole", "square": "square hole"}  # the condition of a hole's shape

Test = Callable[[Proposal, MountPoint, Tables], bool]


@record
class Condition:
    """What a condition means, and whether it holds for a proposal at a mount point."""

    meaning: str
    holds: Test


# fmt: off
CONDITIONS: Mapping[str, Condition] = {
    # what it is fastened to, and what lies between
    "sheet":          Condition("it is fastened to metal",               lambda p, m, t: _family(m, t) == "sheet"),
    "panel not checked": Condition("the panel's stiffness is not checked", lambda p, m, t: _is_open(p)),
    "board":          Condition("it is fastened to board or wood",       lambda p, m, t: _family(m, t) in BOARD),
    "plastic":        Condition("it is fastened to plastic",             lambda p, m, t: _family(m, t) == "plastic"),
    "laminate":       Condition("it is fastened to laminate",            lambda p, m, t: _family(m, t) == "laminate"),
    "ground lug":     Condition("the item is a ground lug",              lambda p, m, t: m.ring is not None),
    "wire clamp":     Condition("the item is a clamp on a run of cable", lambda p, m, t: m.item == "wire-clamp"),
    "second battery": Condition("the item is a battery in its tray",     lambda p, m, t: m.item == "second-battery"),
    "pressed between": Condition("foam lies between item and substrate", lambda p, m, t: _held(m, t) is Holds.LIMITER),
    "rim presses":    Condition("a stiff rim presses thin foam alone",   lambda p, m, t: _is_rim(p)),
    "spaced between": Condition("carpet or the like lies between them",  lambda p, m, t: _is_spaced(m, t)),
    "scraped between": Condition("what sticks lies between them",       lambda p, m, t: _is_taken(m, Taken.SCRAPED, t)),
    "cut out":        Condition("the soft layer is cut out",             lambda p, m, t: _is_cut_out(m)),
    "sheet in a range": Condition("it is as thick as panels there are",  lambda p, m, t: is_in_a_range(m)),
    "limiter":        Condition("a limiter or spacer goes through it", lambda p, m, t: limiter_of(p.joint) is not None),
    "on rails":        Condition("it stands on rails",           lambda p, m, t: m.rails is not None),
    "doubled":         Condition("a doubler lies under it",      lambda p, m, t: m.doubler is not None),
    "riveted doubler": Condition("it is riveted to the sheet",   lambda p, m, t: _joined(m) is Joined.RIVETED),
    "bonded doubler":  Condition("it is bonded to the sheet",    lambda p, m, t: _joined(m) is Joined.BONDED),
    # where it is, and what else is met there
    "floor":              Condition("the panel is a floor",          lambda p, m, t: m.panel is Panel.FLOOR),
    "seat back":          Condition("the panel is a seat back",      lambda p, m, t: m.panel is Panel.SEAT_BACK),
    "side panel":         Condition("the panel is at the side",      lambda p, m, t: m.panel is Panel.SIDE),
    "roof":               Condition("the panel is a roof",           lambda p, m, t: m.panel is Panel.ROOF),
    "door panel":         Condition("the panel is a door",           lambda p, m, t: m.panel is Panel.DOOR),
    "panel not said":     Condition("which way it faces is not given", lambda p, m, t: m.panel is Panel.UNKNOWN),
    "taken as dry":       Condition("its back only counts as dry",      lambda p, m, t: _is_taken_as_dry(m, t)),
    "water behind":       Condition("water is behind its hole",      lambda p, m, t: _is_wet(p)),
    "reached behind":     Condition("somebody reaches both sides",   lambda p, m, t: m.reach is Reach.BOTH_SIDES),
    "closed end":         Condition("its far end is closed",         lambda p, m, t: _is_closed(p)),
    "cabin":              Condition("it lives in the cabin",         lambda p, m, t: m.where is Where.CABIN),
    "in a door":          Condition("it lives in a door",            lambda p, m, t: m.where is Where.DOOR),
    "underfloor":         Condition("it lives under the floor",      lambda p, m, t: m.where is Where.UNDERFLOOR),
    "engine bay":         Condition("it lives in the engine bay",    lambda p, m, t: m.where is Where.ENGINE_BAY),
    "plastic met":        Condition("substrate or item is plastic",  lambda p, m, t: "plastic" in _met(m, t)),
    "board met":          Condition("substrate or item is board",    lambda p, m, t: "board" in _met(m, t)),
    "wood met":           Condition("substrate or item is wood",     lambda p, m, t: "wood" in _met(m, t)),
    "laminate met":       Condition("substrate or item is laminate", lambda p, m, t: "laminate" in _met(m, t)),
    "heavy on thin skin": Condition("more mass than skin carries",   lambda p, m, t: _is_on_skin(m, t)),
    "mass of a slip":     Condition("its mass may be in another unit", lambda p, m, t: _has(meant_kg(m, t))),
    "board sags":         Condition("the board sags in time",        lambda p, m, t: _is_sagging(m, t)),
    # the hole
    "hole":           Condition("it sits in a hole",                     lambda p, m, t: _is_hole(p)),
    "through hole":   Condition("its hole goes through",                 lambda p, m, t: _is_through(p)),
    "blind hole":     Condition("its hole has a depth",                  lambda p, m, t: _is_blind(p)),
    "drilled":        Condition("a bit drills the hole",                 lambda p, m, t: _is_drilled(p)),
    "hexagon hole":   Condition("its hole is a hexagon",                 lambda p, m, t: _shape(p) == "hexagon"),
    "square hole":    Condition("its hole is a square",                  lambda p, m, t: _shape(p) == "square"),
    "new hole":       Condition("the hole is yet to be drilled",         lambda p, m, t: _is_new(p, m)),
    "existing hole":  Condition("it goes into an existing hole",         lambda p, m, t: _is_old(p, m)),
    "existing nut":   Condition("it goes into an existing rivet nut",    lambda p, m, t: nut_is_there(m)),
    "oversize hole":  Condition("the existing hole is wider than it needs", lambda p, m, t: p.joint.oversize_mm > 0),
    "item opened":    Condition("the item's holes are opened for it",    lambda p, m, t: item_opened(m)),
    "pilot as wide":  Condition("its first hole is as wide",  lambda p, m, t: _is_new(p, m) and _is_its_pilot(p, t)),
    "wide enough":    Condition("the existing hole is wide enough",      lambda p, m, t: _is_wide(p, m)),
    # what holds
    "screw":          Condition("it has a screw, bolt or rivet",         lambda p, m, t: p.joint.screw is not None),
    "torque":         Condition("it is tightened to a torque",           lambda p, m, t: p.torque is not None),
    "clamped":        Condition("its torque clamps, and settles",        lambda p, m, t: _settles(p, m)),
    "by its face":    Condition("it holds by its face",                  lambda p, m, t: p.joint.patch is not None),
    "adhesive":       Condition("adhesive keeps it on its face",         lambda p, m, t: _bonded_by(p) == "adhesive"),
    "tape":           Condition("tape keeps it on its face",             lambda p, m, t: _bonded_by(p) == "tape"),
    "own grip":       Condition("its own grip keeps it on its face",     lambda p, m, t: _bonded_by(p) == "own grip"),
    "two halves":     Condition("a half on each side, which come apart", lambda p, m, t: _is_halves(p)),
    "stud base":      Condition("it is the base of a stud",              lambda p, m, t: _is_base(p)),
    "spreader":       Condition("a penny washer or plate spreads load",  lambda p, m, t: _has(_spread(p, t))),
    "plate":          Condition("a plate spreads its load",              lambda p, m, t: _has_plate(p)),
    # what turns it, and what measures the torque
    "driver":         Condition("a driver turns the screw",              lambda p, m, t: _turned_by(p) == DRIVER),
    "socket":         Condition("a socket turns the head or nut",        lambda p, m, t: _turned_by(p) == SOCKET),
    "torque wrench":      Condition("a wrench measures the torque",      lambda p, m, t: _tool(p) == "torque_wrench"),
    "torque screwdriver": Condition("a screwdriver measures it",   lambda p, m, t: _tool(p) == "torque_screwdriver"),
    # what goes first
    "last resort":         Condition("nothing but a bond holds it",  lambda p, m, t: p.last_resort),
    "class 12.9":          Condition("screws are of class 12.9",     lambda p, m, t: m.grade == "12.9"),
    "thread strips first": Condition("the plate before the screw",    lambda p, m, t: _strips_first(p)),
    "panel corrodes":      Condition("screw or substrate corrodes",  lambda p, m, t: _has(on_panel(p.joint, m, t))),
    "item corrodes":       Condition("screw or item corrodes",       lambda p, m, t: _has(on_item(p.joint, m, t))),
    # what keeps it from working loose
    "threadlocker":   Condition("threadlocker",                          lambda p, m, t: _locks(p) is Locks.LOCKER),
    "spring washer":  Condition("a spring washer",                       lambda p, m, t: _locks(p) is Locks.SPRING),
    "other lock":     Condition("anything else",                         lambda p, m, t: _is_other_lock(p)),
}
# fmt: on


class Holding(dict[str, bool]):
    """Whether conditions hold for a proposal at a mount point, each looked into when a row first asks for it."""

    def __init__(self, proposal: Proposal, mount: MountPoint, tables: Tables) -> None:
        super().__init__()
        self._of = proposal, mount, tables

    def __missing__(self, name: str) -> bool:
        """Whether the condition of this name holds, or after `not` does not; there are no others."""
        if name.startswith(NOT):
            found = not self[name.removeprefix(NOT)]
        else:
            found = name in CONDITIONS and CONDITIONS[name].holds(*self._of)
        self[name] = found
        return found


def applies(only_if: Iterable[str], held: Holding) -> bool:
    """Whether all of `only_if` hold; a name after `not` must not."""
    return all(map(held.__getitem__, only_if))


def is_in_a_range(mount: MountPoint) -> bool:
    """Whether the substrate is as thick as such panels are, and nobody has measured it."""
    return mount.place is not None or mount.thickness_min_mm < mount.thickness_max_mm


def _family(mount: MountPoint, tables: Tables) -> str:
    return material(tables, mount.material).family


def _met(mount: MountPoint, tables: Tables) -> set[str]:
    """The families of substrate and item."""
    return {material(tables, name).family for name in (mount.material, mount.item_material)}


def _settles(proposal: Proposal, mount: MountPoint) -> bool:
    """Whether it holds by clamp that is set by a torque; a ground joint is sealed at once and not touched again."""
    return proposal.torque is not None and proposal.joint.kind is JointKind.CLAMPED and mount.ring is None


def _is_open(proposal: Proposal) -> bool:
    """Whether how stiff the panel is remains to be found out there; which panel it is, is only to be said."""
    return any(
        check.id == STIFFNESS and check.status is Status.NOT_CHECKED and check.asks is not Asks.PANEL
        for check in proposal.checks
    )


def _is_on_skin(mount: MountPoint, tables: Tables) -> bool:
    """Whether more hangs on a thin skin than it carries where nothing supports it."""
    heavy = mount.support is None and mass_on_panel_kg(mount) > rule(tables, Rules.SKIN_MASS).value
    thin = mount.thickness_min_mm < rule(tables, Rules.UNSUPPORTED_SKIN_SHEET).value
    return heavy and thin and _family(mount, tables) == "sheet"


def _is_taken_as_dry(mount: MountPoint, tables: Tables) -> bool:
    """Whether the back of thin sheet counts as dry because nothing says what it is of."""
    thin = mount.thickness_min_mm < rule(tables, Rules.FRAME_SHEET).value and _family(mount, tables) == "sheet"
    taken_so = dict(mount.origins).get("far_side") is Origin.ASSUMED and mount.far_side is FarSide.DRY
    return thin and taken_so and mount.panel is Panel.UNKNOWN


def _is_sagging(mount: MountPoint, tables: Tables) -> bool:
    """Whether a board whose span is known sags further in time than it may."""
    sag = sag_of(mount, tables)
    return sag is not None and sag.in_time_mm > sag.most_mm


def _has(found: object | None) -> bool:
    return found is not None


def _strips_first(proposal: Proposal) -> bool:
    """Whether the plate strips before the screw breaks: 0.9 of its breaking load is what the tension check has."""
    loads = {
        check.id: check.allowable * check.factor
        for check in proposal.checks
        if check.allowable is not None and check.factor is not None
    }
    strip, breaks = loads.get("thread-strip.hard_stop"), loads.get("screw-tension.hard_stop")
    return strip is not None and breaks is not None and strip < breaks / 0.9


def _joined(mount: MountPoint) -> Joined | None:
    return None if mount.doubler is None else mount.doubler.joined


def _spread(proposal: Proposal, tables: Tables) -> StackPart | None:
    return next(iter(spreaders_of(proposal.joint, tables)), None)


def _has_plate(proposal: Proposal) -> bool:
    return any(part.side_mm is not None for part in proposal.joint.washers)


def _held(mount: MountPoint, tables: Tables) -> Holds | None:
    """What holds the soft layers that stay between."""
    return held_by(mount.between, tables)


def _is_wet(proposal: Proposal) -> bool:
    return any(check.id == SEALED for check in proposal.checks)


def _is_closed(proposal: Proposal) -> bool:
    receiver = proposal.joint.receiver
    return receiver is not None and receiver.end is FarEnd.CLOSED


def _is_rim(proposal: Proposal) -> bool:
    return any(check.id == RIM for check in proposal.checks)


def _is_spaced(mount: MountPoint, tables: Tables) -> bool:
    return _held(mount, tables) is Holds.SPACER and _is_taken(mount, Taken.CUT, tables)


def _is_taken(mount: MountPoint, how: Taken, tables: Tables) -> bool:
    return bool(taken(mount.between, how, tables))


def _is_cut_out(mount: MountPoint) -> bool:
    return any(layer.cut_out for layer in each(mount.between))


def _is_hole(proposal: Proposal) -> bool:
    return proposal.joint.hole is not None


def _is_through(proposal: Proposal) -> bool:
    hole = proposal.joint.hole
    return hole is not None and hole.depth_mm is None


def _is_blind(proposal: Proposal) -> bool:
    return _is_hole(proposal) and not _is_through(proposal)


def _shape(proposal: Proposal) -> str | None:
    hole: Hole | None = proposal.joint.hole
    return None if hole is None else hole.shape


def _is_drilled(proposal: Proposal) -> bool:
    hole = proposal.joint.hole
    return hole is not None and hole.bit.name not in {OWN_POINT, IN_PLACE}


def _is_new(proposal: Proposal, mount: MountPoint) -> bool:
    return _is_hole(proposal) and mount.existing_hole_mm is None and not nut_is_there(mount)


def _is_old(proposal: Proposal, mount: MountPoint) -> bool:
    """What holds by its face leaves an existing hole alone."""
    return _is_hole(proposal) and mount.existing_hole_mm is not None


def _is_wide(proposal: Proposal, mount: MountPoint) -> bool:
    hole = proposal.joint.hole
    return hole is not None and is_there(hole, mount)


def _is_its_pilot(proposal: Proposal, tables: Tables) -> bool:
    hole = proposal.joint.hole
    first_mm = pilot_mm(proposal.method, hole, tables)
    return hole is not None and first_mm is not None and first_mm >= hole.diameter_mm


def _bonded_by(proposal: Proposal) -> str | None:
    patch = proposal.joint.patch
    if patch is None:
        return None
    if patch.bond is None:
        return "own grip"
    return "tape" if patch.kind.bond is Bond.TAPE else "adhesive"


def _is_halves(proposal: Proposal) -> bool:
    patch = proposal.joint.patch
    return patch is not None and patch.kind.opens is Opens.YES and patch.kind.sticks is Sticks.BOTH_SIDES


def _is_base(proposal: Proposal) -> bool:
    patch = proposal.joint.patch
    return patch is not None and patch.kind.alone is Alone.BASE


def _turned_by(proposal: Proposal) -> str | None:
    drive = drive_of(proposal.joint)
    return None if drive is None else SOCKET if drive.kind == HEXAGON else DRIVER


def _tool(proposal: Proposal) -> str | None:
    return None if proposal.torque is None else proposal.torque.tool


def _locks(proposal: Proposal) -> Locks:
    return proposal.joint.lock.how


def _is_other_lock(proposal: Proposal) -> bool:
    """Neither a locker, a washer nor a nut: a step says it, where nothing else is put on."""
    return proposal.joint.patch is None and _locks(proposal) is Locks.ITSELF
