"""The words of a hardware list and of the verdict on it, as frozen dataclasses; no logic. Field names are JSON keys."""

from fasten.after.verdict import Less
from fasten.after.verdict import Verdict as BuiltVerdict
from fasten.model.line import LineId, Part, Sort
from fasten.record import lean, record


@lean
class Place:
    """Where so many of a thing go."""

    mount: str
    count: int


@record
class PartLine:
    """One part of the whole job; `form` says what its standard leaves to be looked up: head, sizes of a washer.

    `total` is needed and spares together; what is on the shelf or packed is at hand, and the rest is to buy: in `packs`
    where a pack's content is known. `price` is of one and `cost` of what is to buy, whole packs where they are known.
    """

    id: LineId
    part: Part
    form: str
    needed: int
    spares: int
    total: int
    on_shelf: int
    to_buy: int
    pack: int | None
    packs: int | None
    price: float | None
    cost: float | None
    places: tuple[Place, ...]
    packed: int
    known: bool = False

    @property
    def at_hand(self) -> int:
        """How many are there: what is packed came from the shelf, so that the two do not add up."""
        return max(self.on_shelf, self.packed)


@lean
class Drilled:
    """Holes that a bit drills at one mount point; `ream` where the bit lies outside the hole's tolerance."""

    mount: str
    purpose: str
    hole_mm: float
    depth_mm: float | None
    count: int
    ream: bool


@record
class BitLine:
    """A bit, what it drills; `instead` names bits of the shelf that drill all of it within tolerance."""

    id: LineId
    name: str
    diameter_mm: float
    on_shelf: bool
    instead: tuple[str, ...]
    drills: tuple[Drilled, ...]
    packed: bool = False  # by the ticks of the job, once its list is made
    known: bool = False  # whether the shelf lists anything of its kind


@lean
class Setting:
    """A mount point that a tool is for, what it is set to there, where it is set, and the torque that it measures."""

    mount: str
    set_mm: float | None
    torque_nm: float | None = None


@record
class ToolLine:
    """A tool under its heading: setting tool, tap, driver, countersink, stop or other; `key` finds it in the tables.

    `beyond` is where none of those on the shelf reaches the torque.
    """

    id: LineId
    heading: str
    key: str
    name: str
    size: str
    on_shelf: bool
    used: tuple[Setting, ...]
    packed: bool = False
    known: bool = False
    beyond: tuple[Setting, ...] = ()


@lean
class Used:
    """How much of a consumable one mount point uses; None where it cannot be known."""

    mount: str
    amount: float | None


@record
class ConsumableLine:
    """A consumable with what all mount points use of it, `plus` and `waste` included.

    `amount` is None where no amount is known for it; `unknown` names the mount points whose share is not in it.
    `width_mm` is of a strip or tape, whose amount is an area; `key` finds it in the tables. `at_hand` is how much the
    shelf has of it, and `short` what that lacks; None where the shelf does not say, or says it in another unit.
    """

    id: LineId
    key: str
    name: str
    detail: str
    amount: float | None
    unit: str
    plus: float
    waste: float
    on_shelf: bool
    used: tuple[Used, ...]
    unknown: tuple[str, ...]
    width_mm: float | None = None
    packed: bool = False
    known: bool = False
    at_hand: float | None = None
    short: float | None = None


@record
class Unfit:
    """A mount point that gets nothing, and why; where `said` is False, what is said of it is not enough to tell."""

    mount: str
    reason: str
    said: bool = True


@record
class Remark:
    """What the answer of a mount point has to say of itself: what it sets aside, and what the shelf changed."""

    mount: str
    text: str


@record
class HardwareList:
    """Everything that has to be in the box; `unpriced` counts the lines to buy that no price is known for.

    `mounts` counts all entries, `runs` those of them that are runs of cable, `ways` their sections and holes.

    `apart` are ticks of the job that are of no line of it.
    """

    title: str
    vehicle: str
    shelf: bool
    currency: str
    mounts: int
    parts: tuple[PartLine, ...]
    bits: tuple[BitLine, ...]
    tools: tuple[ToolLine, ...]
    consumables: tuple[ConsumableLine, ...]
    unfit: tuple[Unfit, ...]
    cost: float | None
    unpriced: int
    remarks: tuple[Remark, ...]
    apart: tuple[str, ...] = ()
    runs: int = 0
    ways: int = 0


@record
class Missing:
    """A thing that is not at hand: how many are short, or how much in its unit, and which mount points that stops.

    `count` is None where a thing is only there or not; `stops` is empty where spares alone are short. Where the shelf
    lists nothing of its kind it is not `known` to be missing.
    """

    kind: Sort
    thing: str
    count: int | None
    stops: tuple[str, ...]
    known: bool
    short: float | None = None
    unit: str = ""


@lean
class Unproven:
    """A mount point whose answer is not proven, and what is needed to prove it."""

    mount: str
    needs: tuple[str, ...]


@record
class Assumed:
    """A mount point whose answer is proved with a mass that was not given, but is usual for its item."""

    mount: str
    mass_kg: float


@record
class AsBuilt:
    """A mount point whose record does not plainly hold: its verdict, and what it needs, what to do, what is less.

    One that holds with less keeps no job from being ready.
    """

    mount: str
    verdict: BuiltVerdict
    needs: tuple[str, ...]
    do: tuple[str, ...]
    less: tuple[Less, ...]


@record
class Verdict:
    """Whether the job can begin: all that is listed is at hand, every answer is proven, and what is built holds.

    `apart` are ticks of the job that are of nothing on its list; what is `assumed` stops nothing.
    """

    ready: bool
    title: str
    shelf: bool
    mounts: int
    missing: tuple[Missing, ...]
    unproven: tuple[Unproven, ...]
    unfit: tuple[Unfit, ...]
    remarks: tuple[Remark, ...]
    apart: tuple[str, ...] = ()
    runs: int = 0
    ways: int = 0
    assumed: tuple[Assumed, ...] = ()
    as_built: tuple[AsBuilt, ...] = ()
