"""The question as it was asked, and the mount point it resolves to."""

from fasten.model.holes import Survey
from fasten.model.tested import OwnTest
from fasten.model.words import (
    Bound,
    FarSide,
    Into,
    Joined,
    Origin,
    Outline,
    Panel,
    Position,
    Reach,
    Removal,
    Visible,
    Where,
)
from fasten.record import lean, record


@record
class Between:
    """A soft layer between item and substrate: its material, such as carpet, and free thickness.

    `cut_out` says that it is taken out over the whole footprint of the item, which then stands on what is below.
    `under` is the layer below it, nearer the substrate.
    """

    material: str
    thickness_mm: float
    cut_out: bool = False
    under: "Between | None" = None


@record
class Pattern:
    """Where the fixings sit: `circle`, `rectangle`, `row` or `points`; `b_mm` is the second side of a rectangle.

    Of points, which stand in the order of their numbers, the sides are how far they spread along x and y. `survey` is
    how they were found, None where they were stated.
    """

    kind: str
    a_mm: float
    b_mm: float | None
    points_mm: tuple[tuple[float, float], ...] = ()
    survey: Survey | None = None


@record
class Boss:
    """A boss on the substrate: outer diameter, and how deep it can be drilled, panel included (None: not given)."""

    outer_mm: float
    depth_mm: float | None


@record
class ExistingThread:
    """An existing thread: its designation, and whether it is `tapped` (weld nut or boss), a `stud` or a `rivet nut`.

    `length_mm` is how far a stud stands out, None where that was not said.
    """

    thread: str
    kind: str
    length_mm: float | None = None


@record
class Carried:
    """One thing an item carries: its name (None: a mere mass), its mass, how far its centre stands off the panel.

    In a question None is what was not said; in a mount point mass and height are always known.
    """

    name: str | None
    mass_kg: float | None
    cg_mm: float | None


@record
class OnFrame:
    """Every fixing goes through a second skin, a cross-member or a folded edge; or `fixings` of them do and carry."""

    fixings: int | None
    kind: str = "frame"


@record
class Firm:
    """The heel of the hand, pushed as hard as 100 N, moves it less than 0.3 mm."""

    kind: str = "firm"


@record
class Ribs:
    """The item bridges two or more beads, this deep."""

    depth_mm: float
    kind: str = "ribs"


@record
class Push:
    """A push where the item goes, and how far it moved the panel."""

    force_n: float
    moved_mm: float


@record
class Pushed:
    """One push, or two with the larger last."""

    pushes: tuple[Push, ...]
    kind: str = "push"


@record
class Tapped:
    """How fast it sways with the item in place, measured."""

    frequency_hz: float
    kind: str = "tapped"


@record
class Bay:
    """The free bay that the item sits in the middle of, long side along long side.

    Where a strip did not fit between the lines of support the bay is at most so wide, and taken for a long one.
    """

    short_mm: float
    long_mm: float
    bound: Bound = Bound.EXACT
    kind: str = "bay"


@record
class FloorSpan:
    """How far apart the battens are that carry a board."""

    span_mm: float
    kind: str = "span"


Support = OnFrame | Firm | Ribs | Pushed | Tapped | Bay | FloorSpan
"""What stiffens the panel under the item."""


@record
class Doubler:
    """A square of the panel's metal joined to it under the item."""

    side_mm: float
    thickness_mm: float
    joined: Joined


@record
class Rails:
    """Square steel tubes from one line of support to the other, with a plate across them that the item sits on."""

    count: int
    side_mm: float
    wall_mm: float
    span_mm: float


@record
class Power:
    """What an amplifier gives, all channels together, its class, and the voltage it is made for where that is given."""

    power_w: float
    class_: str
    load_v: int | None


@record
class OwnFuses:
    """The fuses in an item itself, one by one."""

    ratings_a: tuple[float, ...]


@record
class Output:
    """So many outputs of an amplifier, each with its power into its loudspeaker."""

    count: int
    power_w: float
    impedance_ohm: float


@record
class Outputs:
    """The outputs of an amplifier."""

    each: tuple[Output, ...]


@record
class Question:
    """What the user said, in canonical units; None is what was not said."""

    item: str
    material: str
    thickness_mm: float | None = None
    place: str | None = None
    removed: Removal | None = None
    mass_kg: float | None = None
    fixings: int | None = None
    pattern: Pattern | None = None
    item_thickness_mm: float | None = None
    item_hole_mm: float | None = None
    item_material: str | None = None
    cg_mm: float | None = None
    panel: Panel | None = None
    between: Between | None = None
    behind_mm: float | None = None
    edge_mm: float | None = None
    behind_bound: Bound | None = None
    edge_bound: Bound | None = None
    outline: Outline | None = None
    boss: Boss | None = None
    into: Into | None = None
    reach: Reach | None = None
    where: Where | None = None
    visible: Visible | None = None
    grade: str | None = None
    body_mm: float | None = None
    body_thread: str | None = None
    existing_hole_mm: float | None = None
    existing_holes_mm: tuple[float, ...] | None = None
    holes_at: Pattern | None = None
    existing_thread: ExistingThread | None = None
    case: str | None = None
    carries: tuple[Carried, ...] | None = None
    run_mm: float | None = None
    ring: str | None = None
    rings: int | None = None
    cable_mm2: float | None = None
    current_a: float | None = None
    support: Support | None = None
    doubler: Doubler | None = None
    rails: Rails | None = None
    far_side: FarSide | None = None
    power: Power | None = None
    own_fuses: OwnFuses | None = None
    outputs: Outputs | None = None
    board: str | None = None


@lean
class Spread:
    """What lies in place of a large washer, by its form, and at which places of the stack.

    Under and behind the screws `but_for` nothing is tried, nor with receivers that are `too_long` to be set there, each
    by its series, thread and length.
    """

    form: str
    places: tuple[Position, ...]
    but_for: frozenset[str] = frozenset()
    too_long: frozenset[tuple[str, str, float]] = frozenset()


@lean
class MountPoint:
    """A question with every gap filled; `origins` says for each field whether it was given, preset or assumed.

    `thickness_min_mm` and `thickness_max_mm` are equal unless the thickness came from a named place. `behind_mm`,
    `edge_mm`, the `support` and an `outline` without corners stay None where they are not given, since they cannot
    honestly be assumed. Without a `boss` there is none. A bound says how space behind and edge were found.

    `mass_kg` and `cg_mm` are of all that hangs on the fixings: the item with what it `carries`; `item_mass_kg` and
    `item_cg_mm` are the item's own. `run_mm` is of a cable in clamps; `ring`, the stud that a ring terminal is for,
    `rings`, `cable_mm2` and `current_a` are of a ground lug. `spread` is never asked: it is what the advice tries under
    heads and behind where a large washer bears too little. `power`, `own_fuses` and `outputs` are for the cable to it.
    `existing_hole_mm`
    is the widest of existing holes, and `existing_holes_mm` each of them where they differ. `on_board` is what a job
    knows of the `board` it is on. `opens` is what a job knows of what has it off, itself first; `removed` is then
    the most frequent of these. `tests` are the user's own readings on test pieces of its material.
    """

    item: str
    material: str
    thickness_min_mm: float
    thickness_max_mm: float
    place: str | None
    removed: Removal
    mass_kg: float
    fixings: int
    pattern: Pattern | None
    item_thickness_mm: float
    item_hole_mm: float
    item_material: str
    cg_mm: float
    panel: Panel
    between: Between | None
    behind_mm: float | None
    edge_mm: float | None
    behind_bound: Bound | None
    edge_bound: Bound | None
    outline: Outline | None
    boss: Boss | None
    into: Into
    reach: Reach
    where: Where
    visible: Visible
    grade: str
    body_mm: float | None
    body_thread: str | None
    existing_hole_mm: float | None
    existing_holes_mm: tuple[float, ...] | None
    holes_at: Pattern | None
    existing_thread: ExistingThread | None
    case: str | None
    carries: tuple[Carried, ...] | None
    item_mass_kg: float
    item_cg_mm: float
    run_mm: float | None
    ring: str | None
    rings: int | None
    cable_mm2: float | None
    current_a: float | None
    support: Support | None
    doubler: Doubler | None
    rails: Rails | None
    board: str | None
    far_side: FarSide
    power: Power | None
    own_fuses: OwnFuses | None
    outputs: Outputs | None
    origins: tuple[tuple[str, Origin], ...]
    spread: Spread | None = None
    on_board: "OnBoard | None" = None
    opens: "tuple[Opens, ...]" = ()
    tests: tuple[OwnTest, ...] = ()


@lean
class Opens:
    """What has it off: itself or something under it, by name and how often that comes off; None where not known."""

    name: str
    removed: Removal | None


@record
class OnBoard:
    """The board that an item is on: what all on it weighs, the widest gap of its fixings, and how it is mounted."""

    mass_kg: float
    span_mm: float | None
    under: MountPoint


NOT_ASKED = frozenset({"origins", "spread", "on_board", "opens", "tests"})
"""The attributes of a mount point that no question fills."""
