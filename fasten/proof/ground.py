"""Ground joints: which methods make one, on what, and what it must measure.

One gate, applied before those of every method, and again of every joint that is to be proved: a joint that was pinned
comes to its proof past the methods' gates.
"""

from typing import Protocol

from fasten.catalog.materials import RING_STUDS, Material
from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.grounding import joint_resistance_mohm
from fasten.model import Check, Figure, GroundJoint, Input, Joint, MountPoint, Origin, Refusal, Status
from fasten.model.known import Ground, MakesGround
from fasten.proof import ampacity
from fasten.proof.checks import waits
from fasten.proof.torque.ring import lug
from fasten.record import replace
from fasten.text.figures import figure

BARE = "ground-metal"
_RULES = (
    Rules.GROUND_DROP,
    Rules.GROUND_RINGS,
    Rules.GROUND_M8_CABLE,
    Rules.GROUND_POWER_CABLE,
    Rules.GROUND_BARE,
    Rules.GROUND_REFINISH,
)


class Grounding(Protocol):
    """What a method must say where a ground lug is fastened."""

    NAME: str
    GROUND: Ground


def gate(method: Grounding, mount: MountPoint, tables: Tables) -> Refusal | None:
    """A refusal where a ground lug is on no bare metal, or the method makes no ground joint; None for other items."""
    if mount.ring is None:
        return None
    substrate = material(tables, mount.material)
    if substrate.family != "sheet":
        return Refusal(method.NAME, _no_metal(substrate), (), check=BARE)
    if not isinstance(method.GROUND, MakesGround):
        return Refusal(method.NAME, method.GROUND.why, (), check=BARE)
    carries = ampacity.check(mount, tables)
    return _too_thin(method.NAME, carries, mount, tables) if carries.status is Status.FAILS else None


def _too_thin(method: str, carries: Check, mount: MountPoint, tables: Tables) -> Refusal:
    """The refusal of a cable that carries less than its full current, with the least that would carry it."""
    demand_a, capacity_a = carries.demand or 0, carries.allowable or 0
    enough = ampacity.enough(demand_a, mount, tables)
    figures = (Figure("demand", demand_a, "A"), Figure("capacity", capacity_a, "A"))
    return Refusal(method, f"the cable is too thin: {enough}", figures, check=carries.id)


def off_its_stud(joint: Joint, mount: MountPoint) -> Refusal | None:
    """A refusal of a joint of another thread than the ring's; None for what has no ring."""
    return None if on_its_stud(joint, mount) else no_stud(joint.method, mount)


def on_its_stud(joint: Joint, mount: MountPoint) -> bool:
    """Whether the joint has the thread that the ring is for; always so for what has no ring."""
    part = joint.screw or joint.receiver
    return mount.ring is None or (part is not None and part.thread == mount.ring)


def no_stud(method: str, mount: MountPoint) -> Refusal:
    """The refusal of a method that has no joint of the ring's thread here."""
    return Refusal(method, f"the ring is for {mount.ring}, and no {mount.ring} of this kind suits here", ())


def with_stud(mount: MountPoint, stud: str, tables: Tables) -> MountPoint:
    """The same ground lug with the ring of another stud, where its stud was not said; else as it is.

    Stud and hole are both presets then, and nothing else depends on them.
    """
    hole = tables.find(METRIC_CLEARANCE, stud)
    origins = dict(mount.origins)
    preset = all(origins.get(name) is Origin.PRESET for name in ("ring", "item_hole_mm"))
    if mount.ring is None or hole is None or not preset or tables.find(RING_STUDS, stud) is None:
        return mount
    return replace(mount, ring=stud, item_hole_mm=hole.fine_mm)


def smaller_stud(mount: MountPoint, tables: Tables) -> MountPoint | None:
    """The same ground lug on the next smaller stud, where its stud was not said."""
    if mount.ring is None:
        return None
    studs = [row.stud for row in tables.rows(RING_STUDS)]
    at = studs.index(mount.ring)
    other = with_stud(mount, studs[at - 1], tables) if at else mount
    return None if other is mount else other


def checks(mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What its cable carries, that a lug of it is known, and that a power cable shares no stud; else no line."""
    if mount.ring is None or mount.rings is None:
        return ()
    carries = ampacity.check(mount, tables)
    unknown_lug = () if lug(mount, tables) is not None else (_no_lug(mount, carries, tables),)
    return (carries, *unknown_lug, *(_shared(mount, mount.rings, tables) if mount.rings > 1 else ()))


def _no_lug(mount: MountPoint, carries: Check, tables: Tables) -> Check:
    """Such a lug may be on sale; its palm, and with it the pressure on it, is not known. Without a cable no lug is."""
    least, most = (rule(tables, name) for name in (Rules.RING_PRESSURE_LEAST, Rules.RING_PRESSURE_MOST))
    needs = carries.needs or ""
    if mount.cable_mm2 is not None:
        needs = f"needs its lug: the palm of one for {figure(mount.cable_mm2)} mm² and {mount.ring} is in no table"
    inputs = Input("pressure on the ring at least", least.value, "MPa"), Input("at most", most.value, "MPa")
    return waits("ground-lug", "Pressure on the ring of its lug", "MPa", least.value, needs, inputs,
                 "least <= pressure on the ring <= most", (tables.source_id(RULES, least),))  # fmt: skip


def _shared(mount: MountPoint, rings: int, tables: Tables) -> tuple[Check, ...]:
    """Common practice alone, so it refuses nothing: where power cable shares a stud it is not proven."""
    power = rule(tables, Rules.GROUND_POWER_CABLE)
    needs = f"needs each cable: from {figure(power.value)} mm² up it takes a stud of its own"
    if mount.cable_mm2 is not None:
        if mount.cable_mm2 < power.value:
            return ()
        needs = (
            f"needs a stud of its own for each power cable, from {figure(power.value)} mm² up: {rings} rings are on it"
        )
    return (waits("ground-shared", "No power cable on a shared stud", "mm²", None, needs,
                  (Input("power from", power.value, "mm²"),), "cable < power from",
                  (tables.source_id(RULES, power),)),)  # fmt: skip


def ground_joint(mount: MountPoint, tables: Tables) -> GroundJoint | None:
    """What the joint of a ground lug must come to; None for other items.

    It is shown, not checked: it can only be measured once the joint is made, and a check that never holds
    beforehand would leave every ground joint unproven, however good its bolt.
    """
    if mount.ring is None:
        return None
    assert mount.rings is not None
    drop_mv = rule(tables, Rules.GROUND_DROP).value
    current_a = mount.current_a
    most = None if current_a is None else joint_resistance_mohm(drop_mv=drop_mv, current_a=current_a)
    sources = tuple(dict.fromkeys(tables.source_id(RULES, rule(tables, name)) for name in _RULES))
    known = lug(mount, tables)
    palm_mm = None if known is None else known.palm_mm
    return GroundJoint(mount.ring, mount.rings, mount.cable_mm2, current_a, drop_mv, most, palm_mm, sources)


def _no_metal(substrate: Material) -> str:
    return f"a ground lug lies on bare body metal, and {substrate.title} is not: run the cable to body metal"
