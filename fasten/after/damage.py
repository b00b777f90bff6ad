"""What happened to a fixing, as people write it, and whether it can have happened there."""

import re

from fasten.catalog.repairs import DAMAGES
from fasten.errors import FastenError
from fasten.geometry.joint import drilled_mm, outside_mm
from fasten.model import Joint
from fasten.model.kinds import Body, Holds, Set
from fasten.model.known import Body as Known
from fasten.record import record
from fasten.text import units
from fasten.text.names import choice
from fasten.text.units import Dimension

SPUN, STRIPPED, OVERSIZE, OFF, SNAPPED, CROSSED, CRACKED, CORRODED = DAMAGES
WHERE = "what"
WAYS = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
"""Which way a hole is off, as seen from the side that is drilled, and as on the template: x to the right, y up."""

_WHAT_DID = re.compile(r"^(?:the )?(?:drill|bit|hole|nut|screw|thread) (?:is |has )?(?=\S)")  # before what happened
_AS_SAID = {
    "slipped": OFF, "wandered": OFF, "walked": OFF, "wide": OVERSIZE, "overdrilled": OVERSIZE, "spins": SPUN,
    "spinning": SPUN, "turns": SPUN, "broke": SNAPPED, "broken": SNAPPED, "rusted": CORRODED, "rusty": CORRODED,
    "split": CRACKED,
}  # fmt: skip
"""What happened in other words of the trade."""
_SIZED = {OVERSIZE: "oversize 8.2 mm", OFF: "off 3 mm right"}


@record
class Damage:
    """What happened: `size_mm` is how wide a hole is, how far off it is, how long a crack is or how much of a corroded
    sheet is left; None where not said.
    """

    what: str
    size_mm: float | None = None
    way: str | None = None


def damage_text(damage: Damage) -> str:
    """What happened, as it may be typed again: every digit of its size."""
    size = "" if damage.size_mm is None else f" {damage.size_mm:g} mm"
    return f"{damage.what}{size}{'' if damage.way is None else f' {damage.way}'}"


def read_damage(text: str) -> Damage:
    """What a text says happened, "spun", "oversize 8.2 mm", "off 3 mm right".

    Raises: FastenError if it is none of these, or its size is missing.
    """
    plain = " ".join(text.casefold().split()).replace("cross threaded", CROSSED)
    word, _, rest = _WHAT_DID.sub("", plain).partition(" ")
    what = choice(_AS_SAID.get(word, word), {name: name for name in DAMAGES}, WHERE)
    if what in (CRACKED, CORRODED) and rest:
        return Damage(what, units.read(rest, Dimension.LENGTH, WHERE))
    if what not in _SIZED:
        if rest:
            raise FastenError(f"{what} takes no size", where=WHERE, fix=f"write {what} alone")
        return Damage(what)
    found = re.fullmatch(rf"(.+?)(?: ({'|'.join(WAYS)}))?", rest)
    if found is None or not rest:
        how = "wide it is" if what == OVERSIZE else "far off it is"
        raise FastenError(f"how {how} is not said", where=WHERE, fix=f"write {_SIZED[what]}")
    return Damage(what, units.read(found[1], Dimension.LENGTH, WHERE), found[2] if what == OFF else None)


def possible(joint: Joint) -> tuple[str, ...]:
    """What can happen to a joint."""
    screwed = joint.screw is not None and joint.screw.kind.set is Set.TIGHTENED
    found = {
        SPUN: _can_spin(joint), STRIPPED: screwed, OVERSIZE: joint.hole is not None, OFF: joint.hole is not None,
        SNAPPED: screwed, CROSSED: screwed, CRACKED: True, CORRODED: True,
    }  # fmt: skip
    return tuple(what for what in DAMAGES if found[what])


def is_possible(damage: Damage, joint: Joint) -> bool:
    """Whether a joint can be damaged like this."""
    return damage.what in possible(joint) and not _is_within(damage, joint)


def _is_within(damage: Damage, joint: Joint) -> bool:
    """Whether a hole is found no wider than it was drilled."""
    return damage.what == OVERSIZE and damage.size_mm is not None and damage.size_mm <= drilled_mm(joint)


def check_possible(damage: Damage, joint: Joint, title: str) -> None:
    """Raises FastenError where a joint cannot be damaged like this, with what can happen there."""
    can = possible(joint)
    if damage.what not in can:
        why = "nothing in it can turn" if damage.what == SPUN else "it has no such part"
        what = f"{title} cannot be {damage.what}: {why}"
        raise FastenError(what, where=WHERE, fix=f"what can happen there: {', '.join(can)}")
    if damage.size_mm is not None and _is_within(damage, joint):
        now, planned = (units.write(size, Dimension.LENGTH, 2) for size in (damage.size_mm, drilled_mm(joint)))
        raise FastenError(f"{now} is not over its hole", where=WHERE, fix=f"it is drilled {planned}: measure again")


def _can_spin(joint: Joint) -> bool:
    """A body that turns in its hole, or an insert that turns in what it was screwed or pressed into."""
    part = joint.receiver
    return part is not None and (part.kind.body is Body.TURNS or part.kind.holds is Holds.OWN_LENGTH)


def hole_left_mm(damage: Damage, joint: Joint) -> float | None:
    """How wide the hole is that is left: a stripped screw or spun insert leaves one of its outside, not its pilot."""
    if damage.what == OVERSIZE:
        return damage.size_mm
    if damage.what == SPUN and joint.receiver is not None and isinstance(joint.receiver.body, Known):
        own = outside_mm(joint.receiver) if joint.receiver.kind.holds is Holds.OWN_LENGTH else 0.0
        return max(own, joint.hole.diameter_mm if joint.hole is not None else 0.0)
    if damage.what == STRIPPED and joint.receiver is None and joint.screw is not None and joint.hole is not None:
        return max(joint.screw.diameter_mm, joint.hole.diameter_mm)
    return joint.hole.diameter_mm if joint.hole is not None else None
