"""Rank what fits: removals, tools and bits, the smallest hole, what is seen, the fewest operations.

Each contribution has a weight in the tables and is shown; lower totals rank first. Stronger than needed is not better.
"""

from collections.abc import Set as AbstractSet
from functools import lru_cache
from typing import TypeGuard

from fasten.advice.bits import is_there
from fasten.advice.owned import Owned, complete, drills, received, sets, shapes
from fasten.advice.parts import series_of
from fasten.catalog.opened import times_of
from fasten.catalog.practice import METHOD_WORDS, WEIGHTS, MethodWords
from fasten.catalog.rows import METRIC_CLEARANCE, TAPPING_CLEARANCE
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import holds_alone, is_clamp_base, nut_is_there, patch_of
from fasten.methods.common import Always
from fasten.model import Hole, Joint, JointKind, MountPoint, Proposal, Removal, Score, ScorePart, Status, Visible
from fasten.model.check import SEALED
from fasten.model.kinds import Opens, PatchKind, Thread, Water
from fasten.model.known import FarEnd

ENOUGH = 0.7
_ON_SHELF = {"parts_there": -1.0, "receiver_there": -1.0, "bit_there": -1.0}
_ROUNDED = 1e-6  # more than rounding takes off the points of a place
POOR = frozenset({"last_resort", "seldom_by_face"})
_WAITS = POOR | {"not_checked"}


def method_words(tables: Tables, method: str) -> MethodWords:
    """The row of a method's title, rating and operations."""
    return tables.need(METHOD_WORDS, method)


Place = tuple[int, float, str, str, str]
"""Where a proposal ranks: whether it holds, its points, then names."""


def order(scored: Score, proposal: Proposal) -> Place:
    """What holds, what must still be found out, what is marginal; within each by points, then by names."""
    return _ordered(scored.total, {part.name for part in scored.parts}, proposal)


def place_of(proposal: Proposal, mount: MountPoint, tables: Tables, owned: Owned | None = None) -> Place:
    """The same of a proposal whose points are not shown."""
    counts, points = _counted(proposal, mount, tables, owned), _points(tables)
    return _ordered(sum([points[name] * count for name, count in counts.items()]), counts.keys(), proposal)


def _ordered(total: float, counted: AbstractSet[str], proposal: Proposal) -> Place:
    receiver = proposal.joint.receiver
    series = receiver.series if receiver else ""
    return _standing(counted, proposal.status), round(total, 6), proposal.method, size(proposal.joint), series


def _standing(counted: AbstractSet[str], status: Status) -> int:
    """0 for what holds, 1 for what waits, 2 for what is marginal.

    What only the question leaves open counts as holding: it is the same mount point for every answer. A last resort
    that holds, or a strip where a screw belongs, does not come before a part whose rating its box gives.
    """
    return 2 if status is Status.MARGINAL else int(not _WAITS.isdisjoint(counted))


def size(joint: Joint) -> str:
    """What a joint goes by among those of its method: its thread, else the part that holds."""
    if joint.screw is not None:
        return joint.screw.thread
    if joint.receiver is not None:
        return joint.receiver.thread
    return patch_of(joint).series


def among_rivals(
    place: Place,
    proposal: Proposal,
    mount: MountPoint,
    tables: Tables,
    owned: Owned | None = None,
    used: frozenset[str] = frozenset(),
) -> Place:
    """Where it ranks among those of its thread: the series on the shelf wins, or one that the job has `used` already.

    Before answers of another method or thread that counts not.
    """
    there = owned is not None and received(proposal.joint, mount.fixings, owned)
    if not there and (not used or series_of(proposal.joint) not in used):
        return place
    standing, points, method, thread, series = place
    return standing, points - tables.need(WEIGHTS, "receiver_there").points, method, thread, series


def rivals(joint: Joint) -> str:
    """What the best of a method is kept of: one a thread; clips of all holes stand in for each other."""
    return joint.receiver.part if joint.screw is None and joint.receiver is not None else size(joint)


def score(proposal: Proposal, mount: MountPoint, tables: Tables, owned: Owned | None = None) -> Score:
    """The points of a proposal. What is on a shelf counts for it; what is not on it never counts against it.

    A shelf need not list all there is: one bit entered does not mean that nothing else is there.
    """
    counts = _counted(proposal, mount, tables, owned)
    weights = ((tables.need(WEIGHTS, name), count) for name, count in counts.items())
    parts = tuple(ScorePart(row.name_, row.points * count, row.why) for row, count in weights)
    return Score(sum(part.points for part in parts), parts)


@lru_cache(maxsize=2)  # who reads tables anew lets go of the old ones
def _points(tables: Tables) -> dict[str, float]:
    """The points of each weight, by its name."""
    return {row.name_: row.points for row in tables.rows(WEIGHTS)}


def _counted(proposal: Proposal, mount: MountPoint, tables: Tables, owned: Owned | None) -> dict[str, float]:
    """How often each weight counts, where it does."""
    words = method_words(tables, proposal.method)
    removals, joint, hole, patch = proposal.removals, proposal.joint, proposal.joint.hole, proposal.joint.patch
    is_complete = owned is not None and complete(joint, mount.fixings, owned, tables)
    tool_there = words.setting_tool == "-" or (owned is not None and sets(joint, owned, tables))
    counts = {
        "removals_margin": _used_up(removals.wanted, removals.rated),
        "tool_needed": 0.0 if tool_there else 1.0,
        "bit_needed": float(hole is not None and not hole.bit.holds),
        "parts_there": -float(is_complete),
        "bit_there": -float(is_complete and _bit_there(hole, mount, owned)),
        "hole_size": 0.0 if hole is None else hole.diameter_mm,
        "operation": float(words.operations + _shaped(hole)),
        "shaped_hole": float(_shaped(hole) and not (owned is not None and shapes(joint, owned, tables))),
        "visible_finish": float(mount.visible is Visible.YES and _hexagon_head(proposal.joint)),
        "not_checked": float(len(_needs(proposal))),
        "hole_there": _reuse(proposal.joint, mount),
        "drilled": float(hole is not None and _is_to_drill(mount)),
        "loose_hole": _loose_mm(proposal.joint, mount, tables),
        "wrong_end": _wrong_end(proposal),
        "tight_margin": _over_margin(proposal),
        "bears": float(proposal.joint.kind is JointKind.LOCATED),
        "seldom_by_face": float(patch is not None and _seldom_by_face(patch.kind, mount)),
        "last_resort": float(proposal.last_resort),
        "clamp_base": float(patch is not None and is_clamp_base(patch.kind, mount, tables)),
    }
    return {name: count for name, count in counts.items() if count}


def least_place(method: str, always: Always, mount: MountPoint, tables: Tables, owned: Owned | None) -> Place:
    """A place that no joint of a method comes before, whatever it is: what counts alike for all of them."""
    words, patches = method_words(tables, method), always.patches
    counts = {"removals_margin": _used_up(times_of(mount, tables).once, words.rated), "operation": words.operations}
    if words.setting_tool != "-" and owned is None:
        counts["tool_needed"] = 1.0
    if always.in_hole and _is_to_drill(mount):
        counts["drilled"] = 1.0
    if patches and all(_seldom_by_face(kind, mount) for kind in patches):
        counts["seldom_by_face"] = 1.0
    if patches and all(holds_alone(kind, mount, tables) for kind in patches):
        counts["last_resort"] = 1.0
    if owned is not None:
        counts |= _ON_SHELF
    points, waits = _points(tables), not POOR.isdisjoint(counts)
    return int(waits), sum([points[name] * count for name, count in counts.items()]) - _ROUNDED, method, "", ""


def _is_to_drill(mount: MountPoint) -> bool:
    """Whether a hole is yet to be drilled for what sits in one."""
    return mount.existing_hole_mm is None and not nut_is_there(mount)


def _used_up(wanted: int, rated: int) -> float:
    """How much of the removals that a joint is rated for is wanted; none of one that is never taken off."""
    return wanted / rated if rated else 0.0


def _needs(proposal: Proposal) -> set[str | None]:
    """What no answer to the question settles: one figure may settle more than one check."""
    return {check.needs for check in proposal.checks if check.status is Status.NOT_CHECKED and check.asks is None}


def _bit_there(hole: Hole | None, mount: MountPoint, owned: Owned | None) -> bool:
    """Whether what drills the hole is there, or nothing has to be drilled."""
    return hole is None or is_there(hole, mount) or (owned is not None and drills(hole, owned))


def _shaped(hole: Hole | None) -> TypeGuard[Hole]:
    """Whether the hole is a hexagon or a square: one more pass over it, with a file or a punch."""
    return hole is not None and hole.shape != "round"


def _seldom_by_face(kind: PatchKind, mount: MountPoint) -> bool:
    """Whether it holds by hook-and-loop or magnets although it does not come off every week."""
    return kind.opens is Opens.YES and mount.removed is not Removal.WEEKLY


def _hexagon_head(joint: Joint) -> bool:
    return joint.screw is not None and joint.screw.head.startswith("hexagon")


def _reuse(joint: Joint, mount: MountPoint) -> float:
    """How many millimetres the existing hole must be opened up."""
    if mount.existing_hole_mm is None or joint.hole is None:
        return 0.0
    return max(joint.hole.diameter_mm - mount.existing_hole_mm, 0.0)


def _over_margin(proposal: Proposal) -> float:
    """How far the tightest load or torque check is used beyond 0.7; below that, stronger is not better."""
    loaded = [check for check in proposal.checks if check.load_case is not None or check.unit == "N·m"]
    return max([0.0, *(check.utilisation - ENOUGH for check in loaded if check.utilisation is not None)])


def _loose_mm(joint: Joint, mount: MountPoint, tables: Tables) -> float:
    """How much wider the item's hole is than what goes through it wants: a loose screw locates nothing."""
    return max(mount.item_hole_mm - _wanted_mm(joint, mount, tables), 0.0)


def _wanted_mm(joint: Joint, mount: MountPoint, tables: Tables) -> float:
    """The item's hole that suits: the clearance hole of its screw, that of its own for a rivet or a stem that fills it.

    A screw that no table of clearance holes has wants the usual play.
    """
    metric = tables.find(METRIC_CLEARANCE, size(joint))
    if metric is not None:
        return metric.medium_mm
    tapping = tables.find(TAPPING_CLEARANCE, size(joint))
    if tapping is not None and tapping.hole_mm is not None:
        return tapping.hole_mm
    if joint.hole is not None and (joint.screw is None or joint.screw.kind.thread is Thread.NONE):
        return joint.hole.diameter_mm
    return mount.item_hole_mm if joint.screw is None else joint.screw.diameter_mm + rule(tables, Rules.STOP_PLAY).value


def _wrong_end(proposal: Proposal) -> float:
    """An open end lets in water that is behind; a closed one costs space for nothing where it is dry there."""
    receiver = proposal.joint.receiver
    if receiver is None or receiver.kind.water is not Water.BY_END:
        return 0.0
    is_wet = any(check.id == SEALED for check in proposal.checks)
    return float(is_wet != (receiver.end is FarEnd.CLOSED))
