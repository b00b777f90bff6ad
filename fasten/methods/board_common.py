"""What the methods for board share: which boards, layers, lengths and washers, and whether a clamp is claimed."""

from collections.abc import Iterator

from fasten.catalog.named import material
from fasten.catalog.parts import PREFERRED_LENGTHS, WASHERS
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods.common import COVER_MM, kind_of, layers, needs_family, refuse
from fasten.model import Into, Joint, JointKind, Layer, MountPoint, Position, Refusal, StackPart
from fasten.proof.modes.board import kind
from fasten.record import replace
from fasten.text.figures import words

WASHER_SIZES = ("M3", "M4", "M5", "M6", "M8")


def is_board(mount: MountPoint, tables: Tables) -> bool:
    """Whether the substrate is board or wood."""
    return material(tables, mount.material).family in {"board", "wood"}


def needs_board(method: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse what is no board or wood, and an edge without a published figure."""
    wrong = needs_family(method, mount, tables, "board", "wood")
    if wrong is not None or mount.into is Into.FACE or kind(tables, mount).edge_share is not None:
        return wrong
    return refuse(
        method, f"no figure is known for what the edge of {words(mount.material)} holds", change="fasten into the face"
    )


def needs_face(method: str, mount: MountPoint) -> Refusal | None:
    """Refuse an edge where a bolt goes through."""
    if mount.into is Into.FACE:
        return None
    return refuse(method, "a bolt goes through the face of a board, not into its edge", change="go through the face")


def in_board(mount: MountPoint, tables: Tables, washers: tuple[StackPart, ...], deep_mm: float) -> tuple[Layer, ...]:
    """The layers from the head down; of a board met at its edge, as much as the hole is deep."""
    found = layers(mount, tables, washers, None)
    if mount.into is Into.FACE:
        return found
    return tuple(replace(layer, thickness_mm=deep_mm) if layer.role == "substrate" else layer for layer in found)


def kinds_of(mount: MountPoint, tables: Tables) -> tuple[JointKind, ...]:
    """Clamped where hard layers may keep preload, and located beside it: board seldom keeps enough against slip."""
    found = kind_of(mount, tables)
    return (found,) if found is JointKind.LOCATED else (found, JointKind.LOCATED)


def of_each_kind(mount: MountPoint, joint: Joint | None, tables: Tables) -> Iterator[Joint]:
    """The joint clamped and located; nothing where there is none."""
    if joint is not None:
        yield from (joint if joint.kind is found else replace(joint, kind=found) for found in kinds_of(mount, tables))


def lengths_mm(tables: Tables, family: str, least_mm: float, most_mm: float) -> list[tuple[float, str]]:
    """First-choice lengths of a family between two lengths, rising, each with its source."""
    return [
        (row.length_mm, tables.source_id(PREFERRED_LENGTHS, row))
        for row in tables.rows(PREFERRED_LENGTHS)
        if row.family == family and row.choice == "first"
        and least_mm - stack.FITS_HOLE <= row.length_mm <= most_mm + stack.FITS_HOLE
    ]  # fmt: skip


def washers_over(
    mount: MountPoint, diameter_mm: float, head_mm: float, tables: Tables
) -> Iterator[tuple[StackPart, ...]]:
    """None where none is needed, then each that passes the screw and covers the hole, smallest first, large on soft.

    A washer that is not needed still keeps a screw that is a little too long out of the back of thin board.
    """
    covers = mount.item_hole_mm + 2 * COVER_MM
    soft = material(tables, mount.item_material).family != "sheet"
    if not soft and head_mm >= covers:
        yield ()
    forms = ("large",) if soft else ("plain", "large")
    found = [stack.washer_for(tables, form, size, Position.HEAD) for size in WASHER_SIZES for form in forms]
    passing = [washer for washer in found if washer is not None and washer.hole_mm >= diameter_mm]
    covering = [washer for washer in passing if washer.outer_mm >= covers]
    yield from ((washer,) for washer in covering or passing[-1:])


def washer_sources(tables: Tables, washers: tuple[StackPart, ...]) -> tuple[str, ...]:
    """Where the washers' figures are from."""
    rows = [tables.find(WASHERS, washer.standard, washer.size) for washer in washers]
    return tuple(dict.fromkeys(tables.source_id(WASHERS, row) for row in rows if row is not None))
