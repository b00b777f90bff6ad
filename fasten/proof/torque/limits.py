"""What caps the torque of a joint: screw, receiver, what is pressed, and what a method adds."""

from collections.abc import Callable
from functools import lru_cache

from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.rows import TAPPING_TORSION
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import behind_mm, screw_of
from fasten.mechanics.sheet import spin_out_nm
from fasten.mechanics.torque import preload_target_n, torque_ceiling_nm, torque_nm
from fasten.model import Input, Joint, MountPoint, Position, Read
from fasten.model.kinds import Core, Holds, Locks
from fasten.model.known import MostTorque, Needed, SpinOut, Stated
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as modes
from fasten.proof.modes import item as item_modes
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes import tested
from fasten.proof.modes.mode import Capacity
from fasten.proof.torque import ring
from fasten.record import lean, record

IN_SHEET, ON_ITEM = "thread in the sheet", "pressure under the head"
SPIN_OUT = "spin-out x min(sheet, most) / tested"


@record
class Shown:
    """What a torque follows from: which figures, by which formula, and their sources."""

    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]


@lean
class Limit:
    """One upper limit of the torque: what it is, and how much. What it follows from is asked of the least alone."""

    name: str
    torque_nm: float
    shown: Callable[[], Shown]

    @property
    def inputs(self) -> tuple[Input, ...]:
        """From which figures."""
        return self.shown().inputs


def by_torque(limit: Limit) -> tuple[float, str]:
    """By which the least of several is found: the lowest torque, and of two alike the first by name."""
    return limit.torque_nm, limit.name


@record
class Turns:
    """The torque that turns a body in its hole: from which figures, by which formula, and sources besides its table."""

    torque_nm: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]


def upper_limits(
    joint: Joint, mount: MountPoint, nut_factor: float, scatter: float, tables: Tables
) -> tuple[Limit, ...]:
    """Every upper limit that applies to the joint."""
    found = [
        less_prevailing(screw_limit(joint, mount, nut_factor, tables), joint),
        *_receiver_limits(joint, mount, tables),
    ]
    found.extend(item_limit(joint, mount, nut_factor, scatter, tables))
    lug = ring.lug(mount, tables)
    if lug is not None:
        borne = ring.pressed(lug, mount, ring.MOST, tables)
        found.append(pressure_limit("pressure on the ring", joint, borne, nut_factor, scatter))
    found.extend(_behind_limits(joint, mount, nut_factor, scatter, tables))
    return tuple(found)


def screw_limit(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> Limit:
    """What the screw itself bears: half its breaking torque where it forms its thread, else of its proof load."""
    screw = screw_of(joint)
    if screw.kind.core is Core.BREAKING_TORQUE:
        torsion = tables.need(TAPPING_TORSION, screw.thread)
        return share_of_torque("breaking torque of the screw", torsion.breaking_nm, Rules.TAPPING_TORQUE_SHARE, tables,
                                (tables.source_id(TAPPING_TORSION, torsion),))  # fmt: skip
    proof = modes.SCREW_PROOF.capacity(joint, mount, tables)
    return share_of_load("proof load of the screw", joint, proof, Rules.PRELOAD_SHARE, nut_factor, tables)


def prevailing(joint: Joint) -> Input:
    """The most that a new nut takes to turn before it clamps anything."""
    takes = None if joint.receiver is None else joint.receiver.prevailing
    return Input("greatest prevailing torque", takes.torque_nm if isinstance(takes, MostTorque) else 0.0, "N·m")


def less_prevailing(limit: Limit, joint: Joint) -> Limit:
    """What is left to clamp with where a nut's own torque reaches the same part."""
    running = prevailing(joint)
    return moved(limit, -running.value, running, "{} - prevailing torque") if running.value else limit


def moved(limit: Limit, by_nm: float, because: Input, formula: str) -> Limit:
    """The limit so much higher or lower, by which input; what its formula becomes."""

    def shown() -> Shown:
        of = limit.shown()
        return Shown((*of.inputs, because), formula.format(of.formula), of.from_)

    return Limit(limit.name, limit.torque_nm + by_nm, shown)


def locker_breaks(joint: Joint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """The torque that breaks low-strength threadlocker on the screw, from what and by which source."""
    return _breakaway(tables, screw_of(joint).diameter_mm)


@lru_cache(maxsize=64)
def _breakaway(tables: Tables, diameter_mm: float) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    at_m10 = rule(tables, Rules.LOCKER_BREAKAWAY_M10)
    inputs = (Input("breakaway at M10", at_m10.value, "N·m"), Input("screw diameter", diameter_mm, "mm"))
    return at_m10.value * (diameter_mm / 10) ** 3, inputs, (tables.source_id(RULES, at_m10),)


def _loosening(joint: Joint, turns: Turns, tables: Tables) -> Limit:
    """A screw is undone against its own torque and its locker: the body must not turn then either."""
    breaks_nm, inputs, sources = locker_breaks(joint, tables)
    share = rule(tables, Rules.LOOSENING_SHARE)

    def shown() -> Shown:
        given = (*turns.inputs, *inputs, Input("loosening share", share.value, "-"))
        formula = f"{turns.formula} - breakaway(M10) x (d/10)^3 / loosening share"
        return Shown(given, formula, (*sources, tables.source_id(RULES, share), *turns.from_))

    return Limit("loosening with threadlocker", turns.torque_nm - breaks_nm / share.value, shown)


def _spinning(turns: Turns, own: tuple[str, ...], tables: Tables) -> Limit:
    """The share of what turns the body in its hole that may reach it."""
    share = rule(tables, Rules.SPIN_OUT_SHARE)

    def shown() -> Shown:
        sources = (*own, tables.source_id(RULES, share), *turns.from_)
        return Shown((*turns.inputs, Input("share", share.value, "-")), f"share x {turns.formula}", sources)

    return Limit("spin-out of the body", turns.torque_nm * share.value, shown)


def _receiver_limits(joint: Joint, mount: MountPoint, tables: Tables) -> list[Limit]:
    receiver = joint.receiver
    if receiver is None:
        return []
    if isinstance(receiver.box_torque, MostTorque):
        boxed = Input("torque by its box", receiver.box_torque.torque_nm, "N·m")
        shown = Shown((boxed,), "value of its box", (receiver.from_,))
        return [Limit("the torque of its box", boxed.value, lambda: shown)]
    own, found = (receiver.from_,), list[Limit]()
    if isinstance(receiver.breaking, MostTorque):
        breaking = "breaking torque of the thread"
        found.append(share_of_torque(breaking, receiver.breaking.torque_nm, Rules.BREAKING_SHARE, tables, own))
    turns = body_turns(joint, mount, tables)
    if turns is not None:
        found.append(_spinning(turns, own, tables))
        if joint.lock.how is Locks.LOCKER:
            found.append(_loosening(joint, turns, tables))
    return found


def body_turns(joint: Joint, mount: MountPoint, tables: Tables) -> Turns | None:
    """What turns the receiver in its hole, by its table or own test pieces; None where neither says."""
    tabled = joint.receiver.spin_out if joint.receiver is not None else None
    read = tested.found(Read.SPIN_OUT, joint, mount, tables) if mount.tests else None
    if isinstance(tabled, SpinOut):
        by_table = _by_table(tabled, joint.sheet_mm)
        own_nm = None if read is None else read.instead(by_table.torque_nm, tabled.of)
        if read is None or own_nm is None:
            return by_table
        return Turns(own_nm, read.inputs, tested.formula(tabled.of), read.from_)
    own_nm = None if read is None or not isinstance(tabled, Needed) else read.instead(None, Stated.LEAST)
    if read is None or own_nm is None:
        return None
    return Turns(own_nm, read.inputs, tested.formula(Stated.LEAST), read.from_)


@lru_cache(maxsize=64)
def _by_table(tabled: SpinOut, sheet_mm: float) -> Turns:
    """Torque that turns the receiver in this sheet: its tested figure by the sheet, and what is left in its metal."""
    torque_nm = tabled.in_metal * spin_out_nm(
        tested_nm=tabled.torque_nm, tested_sheet_mm=tabled.sheet_mm, most_sheet_mm=tabled.most_sheet_mm,
        sheet_mm=sheet_mm,
    )  # fmt: skip
    inputs = (
        Input("spin-out as tested", tabled.torque_nm, "N·m"),
        Input("sheet it was tested in", tabled.sheet_mm, "mm"), Input("sheet", sheet_mm, "mm"),
        Input("no more in sheet over", tabled.most_sheet_mm, "mm"),
        *((Input("share in aluminium", tabled.in_metal, "-"),) if tabled.in_metal < 1 else ()),
    )  # fmt: skip
    return Turns(torque_nm, inputs, SPIN_OUT, ())


def share_of_torque(name: str, torque: float, part: Rules, tables: Tables, from_: tuple[str, ...]) -> Limit:
    """A share of a torque that breaks, turns or strips something."""
    share = rule(tables, part)

    def shown() -> Shown:
        inputs = (Input(name, torque, "N·m"), Input("share", share.value, "-"))
        return Shown(inputs, f"share x {name}", (*from_, tables.source_id(RULES, share)))

    return Limit(name, torque_ceiling_nm(failure_nm=torque, fraction=share.value), shown)


def share_of_load(name: str, joint: Joint, held: Capacity, part: Rules, nut_factor: float, tables: Tables) -> Limit:
    """The torque of a share of the load that something bears."""
    share = rule(tables, part)
    preload = preload_target_n(proof_n=held.load_n, fraction=share.value)

    def shown() -> Shown:
        inputs = (*held.inputs, Input("share", share.value, "-"), *_by_nut_factor(joint, nut_factor))
        return Shown(inputs, f"K d x share x ({held.formula})", (*held.from_, tables.source_id(RULES, share)))

    limit = torque_nm(nut_factor=nut_factor, diameter_mm=screw_of(joint).diameter_mm, preload_n=preload)
    return Limit(name, limit, shown)


def pressure_limit(name: str, joint: Joint, held: Capacity, nut_factor: float, scatter: float) -> Limit:
    """The torque at which what a head, washer or flange rests on reaches its pressure, scatter against it."""
    most_n = held.load_n / (1 + scatter)

    def shown() -> Shown:
        inputs = (*held.inputs, Input("scatter", scatter, "-"), *_by_nut_factor(joint, nut_factor))
        return Shown(inputs, f"K d ({held.formula}) / (1 + scatter)", held.from_)

    limit = torque_nm(nut_factor=nut_factor, diameter_mm=screw_of(joint).diameter_mm, preload_n=most_n)
    return Limit(name, limit, shown)


def item_limit(joint: Joint, mount: MountPoint, nut_factor: float, scatter: float, tables: Tables) -> list[Limit]:
    """Bearing under the head, and at the limiter that the clamp goes through, on board, plastic or laminate."""
    pressed = limiter_fit.pressed(joint, mount, tables)
    if material(tables, mount.item_material).family in item_modes.SOFT:
        pressed.append((ON_ITEM, item_modes.PRESSURE.capacity(joint, mount, tables)))
    return [pressure_limit(name, joint, held, nut_factor, scatter) for name, held in pressed]


def _behind_limits(joint: Joint, mount: MountPoint, nut_factor: float, scatter: float, tables: Tables) -> list[Limit]:
    """What is behind presses on board, plastic or laminate; an insert sits in them and has a limit of its own."""
    inserted = joint.receiver is not None and joint.receiver.kind.holds is Holds.OWN_LENGTH
    if inserted or joint.hole is None:
        return []
    if material(tables, mount.material).family in {"board", "wood"}:
        held = board_modes.BACK_PRESSURE.capacity(joint, mount, tables)
        return [pressure_limit("pressure behind the board", joint, held, nut_factor, scatter)]
    if not plastic_modes.is_plastic(mount, tables) or not behind_mm(joint):
        return []
    held = plastic_modes.BACK_PRESSURE.capacity(joint, mount, tables)
    washer = any(washer.place == Position.NUT for washer in joint.washers)
    name = "pressure of the washer behind" if washer else "pressure of the bulge behind"
    return [pressure_limit(name, joint, held, nut_factor, scatter)]


# -- what a method caps its torque by beyond that ---------------------------------------------------------------------


def no_more_limits(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
    """`limits` of a method whose torque is capped by nothing of its own."""
    return ()


def strip_limit(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
    """A thread cut in the plate strips."""
    strip = modes.TAPPED_THREAD.capacity(joint, mount, tables)
    return (share_of_load("stripping of the tapped thread", joint, strip, Rules.STRIP_SHARE, nut_factor, tables),)


def pull_out_limit(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
    """Half of what pulls the screw out of the sheet, turned into torque: an estimate of the strip torque."""
    held = modes.PULL_OUT.capacity(joint, mount, tables)
    return (share_of_load(IN_SHEET, joint, held, Rules.TAPPING_TORQUE_SHARE, nut_factor, tables),)


def sunk_insert_limit(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
    """An insert sunk in board carries the clamp as withdrawal."""
    held = board_modes.INSERT_WITHDRAWAL.capacity(joint, mount, tables)
    return (share_of_load("withdrawal of the sunk insert", joint, held, Rules.SUNK_INSERT_SHARE, nut_factor, tables),)


def boss_insert_limit(joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
    """An insert in plastic carries the clamp as pull-out from its boss."""
    held = plastic_modes.PULL_OUT.capacity(joint, mount, tables)
    return (share_of_load("pull-out of the insert", joint, held, Rules.PLASTIC_STRIP_SHARE, nut_factor, tables),)


def _by_nut_factor(joint: Joint, nut_factor: float) -> tuple[Input, Input]:
    return Input("nut factor", nut_factor, "-"), Input("screw diameter", screw_of(joint).diameter_mm, "mm")
