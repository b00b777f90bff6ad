"""The torque window of a joint: what keeps it from slipping below, what would give first above.

Scatter is counted once: the nominal nut factor with the spread of the way it is tightened, then the share of preload
the joint keeps.
"""

from collections.abc import Callable

from fasten.catalog.materials import FACES, FINISHES
from fasten.catalog.named import material
from fasten.catalog.practice import FACTORS, RULES, TIGHTENING
from fasten.catalog.rows import TAPPING_TORSION
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import behind_mm, limiter_of, screw_of
from fasten.mechanics.sheet import spin_out_nm
from fasten.mechanics.torque import (
    preload_against_separation_n,
    preload_against_slip_n,
    preload_target_n,
    torque_ceiling_nm,
    torque_nm,
)
from fasten.model import Demand, Input, Joint, JointKind, MountPoint, Position, Span, Torque
from fasten.model.kinds import Core, Holds, Thread
from fasten.model.known import MostTorque, SpinOut
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as modes
from fasten.proof.modes import item as item_modes
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.mode import Capacity
from fasten.record import record
from fasten.text.units import nm_to_inlbf

WAY = "torque_wrench"
IN_SHEET = "thread in the sheet"


@record
class Limit:
    """One upper limit of the torque: what it is, how much, from which figures by which formula, and their sources."""

    name: str
    torque_nm: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]


@record
class Window:
    """The torque a joint may have. `preload_needed_n` is what service needs of one fixing, `lower_nm` what gives it.

    A located joint claims no preload: `lower_nm` seats it, when it is tightened, against what service pulls and what
    foam pushes back, and nothing counts on that afterwards.

    It is the torque that clamps: what a prevailing-torque nut takes to turn comes on top and is read on the wrench.
    Tables give only its greatest, and a worn nut tightened by that would crush what it clamps.
    """

    lower_nm: float
    upper: Limit
    preload_needed_n: float
    inputs: tuple[Input, ...]
    nut_factor: Span
    from_: tuple[str, ...]
    lower_formula: str | None = None

    def torque(self) -> Torque:
        """The window as an answer gives it; the target is its upper end, which already has its margins."""
        target = self.upper.torque_nm
        return Torque(
            target_nm=target, min_nm=self.lower_nm, max_nm=target, target_inlbf=nm_to_inlbf(target),
            limited_by=self.upper.name, nut_factor=self.nut_factor, tool=WAY, from_=(*self.from_, *self.upper.from_),
            past_driving=self.upper.name == IN_SHEET,
        )  # fmt: skip


@record
class ByFeel:
    """There is no torque to give, and why."""

    why: str


@record
class NotTightened:
    """Nothing is tightened, and why."""

    why: str


Torqued = Window | ByFeel | NotTightened
Limits = Callable[[Joint, MountPoint, float, Tables], tuple[Limit, ...]]


def window(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables) -> Window:
    """Torque window of a screwed joint, empty where `lower_nm` is above `upper.torque_nm`."""
    screw = screw_of(joint)
    finish, way = tables.need(FINISHES, screw.finish), tables.need(TIGHTENING, WAY)
    face = tables.need(FACES, faces(joint, mount, tables))
    service = [demand for demand in demands if demand.kind == "service"]
    (slip, slip_source), (separation, separation_source) = factor(tables, "slip"), factor(tables, "separation")
    needed_n, worst = max(
        ((_needed_n(joint, demand, face.friction, slip, separation), demand) for demand in service),
        key=lambda pair: (pair[0], pair[1].load, pair[1].panel.value),
    )
    clamped = joint.kind is JointKind.CLAMPED
    push_n, foam, foam_sources = limiter_fit.foam_push(joint, mount, tables)
    nominal_n = (needed_n + push_n) / ((1 - way.scatter) * (face.kept_preload if clamped else 1.0))
    diameter = screw.diameter_mm
    own = limits(joint, mount, finish.nut_factor, tables)
    common = upper_limits(joint, mount, finish.nut_factor, way.scatter, tables)
    upper = min((*common, *own), key=lambda limit: (limit.torque_nm, limit.name))
    lower_nm = torque_nm(nut_factor=finish.nut_factor, diameter_mm=diameter, preload_n=nominal_n)
    against_slip = (
        Input("shear in service", worst.shear_n, "N"), Input("face friction", face.friction, "-"),
        Input("factor on slip", slip, "-"),
    )  # fmt: skip
    against_pull = (
        Input("tension in service", worst.tension_n, "N"), Input("factor on separation", separation, "-"),
        Input("scatter", way.scatter, "-"), Input("nut factor", finish.nut_factor, "-"),
        Input("screw diameter", diameter, "mm"),
    )  # fmt: skip
    kept = (Input("preload kept", face.kept_preload, "-"),) if clamped else ()
    inputs = (*(() if bears_shear(joint) else against_slip), *against_pull, *kept, *foam)
    sources = (
        worst.from_,
        slip_source,
        separation_source,
        tables.source_id(FINISHES, finish),
        tables.source_id(TIGHTENING, way),
        *((tables.source_id(FACES, face),) if clamped else foam_sources),
    )
    span = Span(finish.nut_factor_min, finish.nut_factor_max)
    return Window(lower_nm, upper, needed_n, inputs, span, sources, None if clamped else _seated(joint))


def _seated(joint: Joint) -> str:
    """The formula of a torque that only seats: on the limiter where there is one."""
    if limiter_of(joint) is None:
        return "seated: K d x separation x T / (1 - scatter)"
    return "seated on the limiter: K d (separation x T + push x width x foam) / (1 - scatter)"


def factor(tables: Tables, family: str) -> tuple[float, str]:
    """The factor of service on the load itself, and its source."""
    row = tables.need(FACTORS, "service", family)
    assert row.factor is not None, f"{family} counts in service"
    return row.factor, tables.source_id(FACTORS, row)


def _needed_n(joint: Joint, demand: Demand, friction: float, slip: float, separation: float) -> float:
    """Preload that keeps one fixing from separating and, where it does not carry shear in bearing, from slipping."""
    against_pull = preload_against_separation_n(pull_n=demand.tension_n, load_share=0.0, factor=separation)
    if bears_shear(joint):
        return against_pull
    return against_pull + preload_against_slip_n(shear_n=demand.shear_n, friction=friction, factor=slip)


def bears_shear(joint: Joint) -> bool:
    """Whether shear goes in bearing: in a located joint, and, as AISI E4 has it, where the screw forms its thread."""
    return joint.kind is JointKind.LOCATED or _forms_in_sheet(joint)


def _forms_in_sheet(joint: Joint) -> bool:
    return joint.screw is not None and joint.screw.kind.thread is Thread.FORMS_IN_SHEET


def faces(joint: Joint, mount: MountPoint, tables: Tables) -> str:
    """Which pair of faces the joint clamps: the softer one decides."""
    families = {material(tables, name).family for name in (mount.item_material, mount.material)}
    if families & {"plastic", "laminate"}:
        return "metal_on_plastic"
    if families & {"board", "wood"}:
        return "metal_on_board"
    return "painted_metal"


def upper_limits(
    joint: Joint, mount: MountPoint, nut_factor: float, scatter: float, tables: Tables
) -> tuple[Limit, ...]:
    """Every upper limit that applies to the joint."""
    found = [screw_limit(joint, mount, nut_factor, tables), *_receiver_limits(joint, tables)]
    found.extend(item_limit(joint, mount, nut_factor, scatter, tables))
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


def _receiver_limits(joint: Joint, tables: Tables) -> list[Limit]:
    receiver = joint.receiver
    if receiver is None:
        return []
    if isinstance(receiver.box_torque, MostTorque):
        boxed = Input("torque by its box", receiver.box_torque.torque_nm, "N·m")
        return [Limit("the torque of its box", boxed.value, (boxed,), "value of its box", (receiver.from_,))]
    own, found = (receiver.from_,), list[Limit]()
    if isinstance(receiver.breaking, MostTorque):
        breaking = "breaking torque of the thread"
        found.append(share_of_torque(breaking, receiver.breaking.torque_nm, Rules.BREAKING_SHARE, tables, own))
    if isinstance(receiver.spin_out, SpinOut):
        share = rule(tables, Rules.SPIN_OUT_SHARE)
        inputs = (*spin_out_inputs(receiver.spin_out, joint), Input("share", share.value, "-"))
        sources = (*own, tables.source_id(RULES, share))
        found.append(Limit("spin-out of the body", held_spin_out_nm(receiver.spin_out, joint) * share.value, inputs,
                           "share x spin-out x min(sheet / tested, 1)", sources))  # fmt: skip
    return found


def held_spin_out_nm(tested: SpinOut, joint: Joint) -> float:
    """Torque that turns the receiver in this sheet: its tested figure, scaled down for thinner sheet only."""
    return spin_out_nm(tested_nm=tested.torque_nm, tested_sheet_mm=tested.sheet_mm, sheet_mm=joint.sheet_mm)


def spin_out_inputs(tested: SpinOut, joint: Joint) -> tuple[Input, ...]:
    """What the torque that turns the receiver follows from."""
    return (
        Input("spin-out as tested", tested.torque_nm, "N·m"),
        Input("sheet it was tested in", tested.sheet_mm, "mm"), Input("sheet", joint.sheet_mm, "mm"),
    )  # fmt: skip


def share_of_torque(name: str, torque: float, part: Rules, tables: Tables, from_: tuple[str, ...]) -> Limit:
    """A share of a torque that breaks, turns or strips something."""
    share = rule(tables, part)
    inputs = (Input(name, torque, "N·m"), Input("share", share.value, "-"))
    sources = (*from_, tables.source_id(RULES, share))
    limit = torque_ceiling_nm(failure_nm=torque, fraction=share.value)
    return Limit(name, limit, inputs, f"share x {name}", sources)


def share_of_load(name: str, joint: Joint, held: Capacity, part: Rules, nut_factor: float, tables: Tables) -> Limit:
    """The torque of a share of the load that something bears."""
    share = rule(tables, part)
    preload = preload_target_n(proof_n=held.load_n, fraction=share.value)
    limit = torque_nm(nut_factor=nut_factor, diameter_mm=screw_of(joint).diameter_mm, preload_n=preload)
    inputs = (*held.inputs, Input("share", share.value, "-"), *_by_nut_factor(joint, nut_factor))
    sources = (*held.from_, tables.source_id(RULES, share))
    return Limit(name, limit, inputs, f"K d x share x ({held.formula})", sources)


def pressure_limit(name: str, joint: Joint, held: Capacity, nut_factor: float, scatter: float) -> Limit:
    """The torque at which what a head, washer or flange rests on reaches its pressure, scatter against it."""
    most_n = held.load_n / (1 + scatter)
    limit = torque_nm(nut_factor=nut_factor, diameter_mm=screw_of(joint).diameter_mm, preload_n=most_n)
    formula = f"K d ({held.formula}) / (1 + scatter)"
    inputs = (*held.inputs, Input("scatter", scatter, "-"), *_by_nut_factor(joint, nut_factor))
    return Limit(name, limit, inputs, formula, held.from_)


def item_limit(joint: Joint, mount: MountPoint, nut_factor: float, scatter: float, tables: Tables) -> list[Limit]:
    """Bearing under the head, and at the limiter that the clamp goes through, on board, plastic or laminate."""
    pressed = limiter_fit.pressed(joint, mount, tables)
    if material(tables, mount.item_material).family in item_modes.SOFT:
        pressed.append(("pressure under the head", item_modes.PRESSURE.capacity(joint, mount, tables)))
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


# -- how it is tightened ----------------------------------------------------------------------------------------------


def by_box(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
) -> Window | ByFeel:
    """`torque` of a part whose box says how tight: the window once it has been read."""
    if joint.receiver is not None and isinstance(joint.receiver.box_torque, MostTorque):
        return window(joint, mount, demands, limits, tables)
    return ByFeel("its box has not been read")


def by_feel(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables) -> ByFeel:
    """`torque` of a screw where no figure is known for what strips it."""
    return ByFeel("no figure is known for what strips it there")


def not_tightened(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
) -> NotTightened:
    """`torque` of what is set, pressed in or stuck on."""
    return NotTightened("nothing is tightened")


def _by_nut_factor(joint: Joint, nut_factor: float) -> tuple[Input, Input]:
    return Input("nut factor", nut_factor, "-"), Input("screw diameter", screw_of(joint).diameter_mm, "mm")
