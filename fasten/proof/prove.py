"""prove(joint, ...): the one place where a joint becomes a proposal or a refusal, the same for every method."""

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property, lru_cache
from math import inf
from typing import Protocol

from fasten.catalog.opened import times_of
from fasten.catalog.parts import LOCKS
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import Tables
from fasten.geometry.joint import is_spaced_by_screw
from fasten.model import (
    Check,
    Cure,
    Demand,
    Figure,
    Joint,
    JointKind,
    MoreBehind,
    MountPoint,
    Position,
    Proposal,
    Refusal,
    Removals,
    Status,
    Subject,
    ThickerBoard,
)
from fasten.model.kinds import Locks
from fasten.proof import bounds, panel, spacer
from fasten.proof import ground as grounds
from fasten.proof.fit import water
from fasten.proof.fit.every import Alike, behind_checks, cannot_be_set, fit_checks, is_in_the_way, other_checks
from fasten.proof.loads import loads_of
from fasten.proof.modes.faces import last_resort
from fasten.proof.modes.mode import UNDER_HEAD, Mode
from fasten.proof.opened import removals_hold
from fasten.proof.strength import Asked, Found, asked, exemptions, overloads, strength_checks, strength_failures
from fasten.proof.torque import forming, tightening
from fasten.proof.torque.limits import ON_ITEM, Limit
from fasten.proof.torque.tightening import Limits, Torqued, Window
from fasten.record import lean

# Where these fail, no strength can be calculated.
EDGE = "edge-distance"
DECIDES_ALONE = {EDGE, "head-cover", "board-behind", "barrel", "edge-screw", "insert-wall", "washer-covers"}


class Proved(grounds.Grounding, Protocol):
    """What a proof needs of the method whose joint it checks."""

    EXEMPT: Mapping[Subject, str]

    def modes(self, mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
        """The failure modes that may apply."""

    def fit(self, joint: Joint, mount: MountPoint, tables: Tables) -> Iterable[Check]:
        """What the joint must fit beyond what every joint must, one after the other."""

    def limits(self, joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
        """What caps the torque beyond what caps every torque."""

    def torque(
        self, joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
    ) -> Torqued:
        """How it is tightened: a window, by feel, or not at all."""


# What these need, where there is too little of it.
CURES: Mapping[str, Callable[[float], Cure]] = {
    "space-behind": MoreBehind, "board-behind": ThickerBoard, "barrel": ThickerBoard,
}  # fmt: skip


def prove(
    joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal:
    """Check one joint in every way that applies; what fails refuses it with its figures.

    What fails by a figure that is known at least may hold by what is really there: it is not checked yet.
    """
    found = prove_within(inf, joint, mount, method, demands, tables)
    assert found is not None, "any number of checks may fail"
    return found


def prove_within(
    most: float, joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal | None:
    """What `prove` says of a joint; None as soon as more than `most` of its checks fail, without looking at the rest.

    What costs little and fails often is looked at first, whatever comes first in the proof.
    """
    return Proving(mount, method, demands, tables).within(most, joint)


class Proving:
    """The proofs of a method's joints at a mount point, with what is the same for all of them."""

    def __init__(self, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables) -> None:
        self._mount, self._method, self._loads, self._tables = mount, method, loads_of(demands), tables
        self._under_heads = set[tuple[object, ...]]()
        self._refused_by_torque = False

    def within(self, most: float, joint: Joint) -> Proposal | Refusal | None:
        """What `prove_within` says of a joint."""
        found = self._within(most, joint)
        if isinstance(found, Proposal):
            return bounds.with_both(found, self._mount)
        for opened in self._opened:
            other = opened._within(0, joint)
            if isinstance(other, Proposal):
                return bounds.with_both(other, self._mount)
        return found

    def fits(self, joint: Joint) -> bool:
        """Whether no check of fit fails; a quick look before a whole proof."""
        checks = fit_checks(joint, self._mount, self._method, self._alike, self._tables)
        return all(check.status is not Status.FAILS for check in checks)

    def fails_by_screw(self, joint: Joint) -> bool:
        """Whether it fails by what follows from its screw and the mount point alone: no part of its stack mends it."""
        return all(one._fails_by_screw(joint) for one in (self, *self._opened))

    def sinks_in(self, joint: Joint) -> bool:
        """Whether its head is known to sink into what it rests on, as one did that differs by what is behind alone."""
        return all(one._sinks_in(joint) for one in (self, *self._opened))

    def is_too_long(self, joint: Joint) -> bool:
        """Whether the space behind is too short to set its receiver, whatever lies over it."""
        return all(cannot_be_set(joint, one._mount) for one in (self, *self._opened))

    def _fails_by_screw(self, joint: Joint) -> bool:
        mount, tables = self._mount, self._tables
        modes = (one for one in self._asked if one.mode.by_screw and one.mode.applies(joint))
        if any(overloads(one, one.mode.found(joint, mount, tables), tables) for one in modes):
            return True
        return is_spaced_by_screw(joint) and any(
            check.id == EDGE for check in _failed(self._method.fit(joint, mount, tables))
        )

    @cached_property
    def _opened(self) -> tuple["Proving", ...]:
        """The same as if what is known at least were not said."""
        found = bounds.opened(self._mount)
        return tuple(Proving(mount, self._method, self._loads, self._tables) for mount in found)

    @cached_property
    def _gate(self) -> Refusal | None:
        return grounds.gate(self._method, self._mount, self._tables)

    @cached_property
    def _alike(self) -> Alike:
        return Alike(self._mount, self._tables)

    @cached_property
    def _stiff(self) -> Check | None:
        return panel.stiff(self._mount, self._tables)

    @cached_property
    def _asked(self) -> tuple[Asked, ...]:
        modes = self._method.modes(self._mount, self._tables)
        return tuple(asked(mode, self._loads, self._tables) for mode in modes)

    def _within(self, most: float, joint: Joint) -> Proposal | Refusal | None:
        """Where none may fail, what decides is looked at by its figures, before the lines of all that fits are made."""
        mount, tables = self._mount, self._tables
        refused = self._gate or grounds.off_its_stud(joint, mount) or _loose(joint)
        if refused is not None:
            return _counted(refused, most)
        quick = most < 1
        if quick and (is_in_the_way(joint, mount, tables) or self._sinks_in(joint)):
            return None
        own = _until(self._method.fit(joint, mount, tables), 0 if quick else inf)
        held = self._held(joint, most) if quick and not _failed(own) else None
        if quick and held is None:
            return None
        fits = (*behind_checks(joint, mount, tables), *own, *other_checks(joint, mount, self._alike, tables))
        failed = _failed(fits)
        decisive = [check for check in failed if check.id in DECIDES_ALONE]
        if decisive:
            return _counted(_refusal(joint, decisive), most)
        if len(failed) > most:
            return None
        held = held or self._held(joint, most - len(failed))
        return None if held is None else self._loaded(most, fits, len(failed), joint, held)

    def _held(self, joint: Joint, most: float) -> "_Held | None":
        """What the joint bears, and how tight it may be; None where more of them fail than may.

        What refused the joint before is looked at first: mostly it refuses the next as well. What a spacer adds later
        only adds to the load.
        """
        by_torque = self._refused_by_torque and most < 1
        window = self._window(joint) if by_torque else None
        if window is not None and self._is_shut(window, joint):
            return None
        found, over = list[Found](), 0
        for one in self._asked:
            if one.mode.applies(joint):
                capacity = one.mode.found(joint, self._mount, self._tables)
                over += overloads(one, capacity, self._tables)
                if over > most:
                    self._refused_by_torque = False
                    self._keep_in_mind(joint, under_head=one.mode.subjects == UNDER_HEAD)
                    return None
                found.append((one.mode, capacity))
        window = window if by_torque else self._window(joint)
        if over + 1 > most and window is not None and self._is_shut(window, joint):
            return None
        return _Held(found, over > 0, window)

    def _window(self, joint: Joint) -> Window | None:
        """How tight it may be; None where it has no torque."""
        mount, method, tables = self._mount, self._method, self._tables
        tightened = method.torque(joint, mount, self._loads, method.limits, tables)
        tightened = forming.with_own(tightened, joint, mount, tables)
        return tightened if isinstance(tightened, Window) else None

    def _is_shut(self, window: Window, joint: Joint) -> bool:
        """Whether no torque does, which is kept in mind."""
        if window.holds:
            return False
        self._refused_by_torque = True
        self._keep_in_mind(joint, under_head=window.upper.name == ON_ITEM)
        return True

    def _loaded(
        self, most: float, fits: tuple[Check, ...], failing: int, joint: Joint, held: "_Held"
    ) -> Proposal | Refusal | None:
        """The proof of a joint that fits: how tight it may be, the panel under it, and its strength.

        Of what is surely refused only the lines that fail are made.
        """
        mount, loads, method, tables, window = self._mount, self._loads, self._method, self._tables, held.window
        pulled = spacer.tipped(joint, mount, loads, window, tables)
        around = (
            *spacer.checks(joint, mount, loads, window, tables),
            *(() if window is None else tightening.checks(joint, window, tables)),
            *panel.checks(joint, mount, pulled, self._stiff, tables),
        )  # fmt: skip
        failing += len(_failed(around))
        if failing > most:
            return None
        if failing or held.is_over:
            over = _until(strength_failures(held.found, pulled, tables), most - failing)
            return _counted(_refusal(joint, _failed((*fits, *over, *around))), most)
        modes = tuple([mode for mode, _ in held.found])
        strength = _until(strength_checks(joint, modes, held.found, method.EXEMPT, pulled, tables), most)
        checks = (*fits, *strength, *around)
        failed = _failed(strength)
        if failed:
            return _counted(_refusal(joint, failed), most)
        return Proposal(
            joint.method, joint, proven=all(check.status is Status.HOLDS for check in checks), checks=checks,
            torque=window.torque() if window else None, removals=removals(joint, mount, tables),
            exempt=exemptions(joint, modes, method.EXEMPT), last_resort=last_resort(joint, mount, tables),
            ground=grounds.ground_joint(mount, tables),
        )  # fmt: skip

    def _sinks_in(self, joint: Joint) -> bool:
        """Whether what the head rests on gives way, as it did under one that differs by what lies behind alone."""
        return bool(self._under_heads) and _but_for_behind(joint) in self._under_heads

    def _keep_in_mind(self, joint: Joint, *, under_head: bool) -> None:
        """That what the head rests on gives way, as it does whatever lies behind: no such joint is tried again.

        Own test pieces may be of one part alone.
        """
        if under_head and not self._mount.tests:
            self._under_heads.add(_but_for_behind(joint))


def _but_for_behind(joint: Joint) -> tuple[object, ...]:
    """What decides whether its head sinks into what it rests on, at the torque that its clamp needs."""
    screw, receiver = joint.screw, joint.receiver
    return (
        None if screw is None else (screw.thread, screw.class_, screw.finish, screw.head_mm),
        None if receiver is None else (receiver.thread, receiver.series, receiver.length_mm), joint.kind,
        joint.lock.key, joint.oversize_mm, tuple([part for part in joint.washers if part.place is Position.HEAD]),
    )  # fmt: skip


@lean
class _Held:
    """What a joint bears in each way that it may fail, whether one of them surely does, and its window of torque."""

    found: list[Found]
    is_over: bool
    window: Window | None


def unproved(joint: Joint, mount: MountPoint, tables: Tables) -> Proposal:
    """What is known of a joint before its proof: nothing that is found out by one makes it rank before that."""
    return Proposal(
        joint.method, joint, proven=False, checks=water.checks(joint, mount, tables), torque=None,
        removals=removals(joint, mount, tables), exempt=(), last_resort=last_resort(joint, mount, tables), ground=None,
    )  # fmt: skip


def fails_whatever_joint(mount: MountPoint, method: Proved, tables: Tables) -> bool:
    """Whether a check fails that is the same for every joint of a method: its removals, or how the panel sways."""
    stiff = panel.stiff(mount, tables)
    panel_fails = stiff is not None and stiff.status is Status.FAILS
    return panel_fails or removals_hold(method.NAME, mount, tables).status is Status.FAILS


def _loose(joint: Joint) -> Refusal | None:
    if joint.kind is JointKind.LOCATED and joint.screw is not None and joint.lock.how is Locks.NOTHING:
        return Refusal(joint.method, "nothing here stops a screw without clamp load from working loose", ())
    return None


def _counted(refused: Refusal, most: float) -> Refusal | None:
    return refused if refused.fails <= most else None


def _failed(checks: Iterable[Check]) -> list[Check]:
    return [check for check in checks if check.status is Status.FAILS]


def _until(checks: Iterable[Check], most: float) -> tuple[Check, ...]:
    """The checks up to the one with which more than `most` fail."""
    found, failed = list[Check](), 0
    for check in checks:
        found.append(check)
        failed += check.status is Status.FAILS
        if failed > most:
            break
    return tuple(found)


def removals(joint: Joint, mount: MountPoint, tables: Tables) -> Removals:
    """How often the item comes off in ten years against what the method bears, and what is renewed meanwhile."""
    return _removals(tables, joint.method, joint.lock.key, joint.lock.name, times_of(mount, tables).once)


@lru_cache(maxsize=256)
def _removals(tables: Tables, method: str, lock_key: str, lock_name: str, wanted: int) -> Removals:
    words = tables.need(METHOD_WORDS, method)
    lock = tables.find(LOCKS, lock_key)
    all_of_it = [(words.replace, words.renews, words.replace_every)]
    if lock is not None:
        all_of_it.append((lock_name, lock.renews, lock.renew_every))
    renewed = [entry for entry in all_of_it if 0 < entry[2] < wanted]
    replaced = tuple(f"{what} at {_each(often)}" for what, _, often in renewed)
    return Removals(wanted, words.rated, replaced, tuple(key for _, keys, _ in renewed for key in keys))


def _each(often: int) -> str:
    return "each removal" if often == 1 else f"every {often} removals"


def _refusal(joint: Joint, failed: list[Check]) -> Refusal:
    """The worst failed check with its figures; what else fails is named beside it, loads before torque."""
    ordered = sorted(failed, key=lambda check: (check.id == "torque-window", -(check.utilisation or inf), check.id))
    worst = ordered[0]
    case = f" ({worst.load_case})" if worst.load_case else ""
    thread = f"{joint.screw.thread}: " if joint.screw else ""
    others = "; ".join(check.title[0].lower() + check.title[1:] for check in ordered[1:3])
    because = f"{thread}{worst.title[0].lower()}{worst.title[1:]}{case}{'; also ' if others else ''}{others}"
    both = (("demand", worst.demand), ("capacity", worst.allowable))
    figures = tuple(Figure(name, value, worst.unit) for name, value in both if value is not None)
    cure = CURES[worst.id](worst.demand) if worst.id in CURES and worst.demand is not None else None
    return Refusal(
        joint.method, because, figures, check=worst.id, fails=len(failed), cure=cure, joint=joint, failed=worst,
    )  # fmt: skip
