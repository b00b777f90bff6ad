"""Ground joints: which methods make one, on what, and what it must measure.

One gate, applied before those of every method, and again of every joint that is to be proved: a joint that was pinned
comes to its proof past the methods' gates.
"""

from typing import Protocol

from fasten.catalog.materials import Material
from fasten.catalog.named import material
from fasten.catalog.practice import RULES, Rule
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.grounding import joint_resistance_mohm
from fasten.model import Check, GroundJoint, Input, Joint, MountPoint, Refusal
from fasten.model.known import Ground, MakesGround
from fasten.proof.checks import waits
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
    return None if isinstance(method.GROUND, MakesGround) else Refusal(method.NAME, method.GROUND.why, (), check=BARE)


def not_grounded(joint: Joint, mount: MountPoint, method: Grounding, tables: Tables) -> Refusal | None:
    """A refusal of a joint that is no ground joint, or of another thread than the ring's; None for other items."""
    return gate(method, mount, tables) or (None if on_its_stud(joint, mount) else no_stud(joint.method, mount))


def on_its_stud(joint: Joint, mount: MountPoint) -> bool:
    """Whether the joint has the thread that the ring is for; always so for what has no ring."""
    part = joint.screw or joint.receiver
    return mount.ring is None or (part is not None and part.thread == mount.ring)


def no_stud(method: str, mount: MountPoint) -> Refusal:
    """The refusal of a method that has no joint of the ring's thread here."""
    return Refusal(method, f"the ring is for {mount.ring}, and no {mount.ring} of this kind suits here", ())


def checks(mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What the rules need of a cable that is not given: its stud, and that a power cable shares none; else no line.

    A given cable has passed both as it was read: what breaks them is refused there.
    """
    if mount.ring is None or mount.rings is None or mount.cable_mm2 is not None:
        return ()
    least = rule(tables, Rules.GROUND_M8)
    stud = _stud(mount.ring, least, tables) if float(mount.ring[1:]) < least.value else ()
    return (*stud, *(_shared(tables) if mount.rings > 1 else ()))


def _stud(ring: str, least: Rule, tables: Tables) -> tuple[Check, ...]:
    large = rule(tables, Rules.GROUND_M8_CABLE)
    needs = f"needs its cable: from {figure(large.value)} mm² up it takes an M{figure(least.value)} stud at least"
    inputs = Input("stud", float(ring[1:]), "mm"), Input("large from", large.value, "mm²")
    sources = (tables.source_id(RULES, large), tables.source_id(RULES, least))
    return (waits("ground-stud", "Stud large enough for its cable", "mm", least.value, needs, inputs,
                  "least stud of a large cable <= stud", sources),)  # fmt: skip


def _shared(tables: Tables) -> tuple[Check, ...]:
    power = rule(tables, Rules.GROUND_POWER_CABLE)
    needs = f"needs each cable: from {figure(power.value)} mm² up it takes a stud of its own"
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
    return GroundJoint(mount.ring, mount.rings, mount.cable_mm2, current_a, drop_mv, most, sources)


def _no_metal(substrate: Material) -> str:
    return f"a ground lug lies on bare body metal, and {substrate.title} is not: run the cable to body metal"
