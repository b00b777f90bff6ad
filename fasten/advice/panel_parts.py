"""The parts that a mount point takes once, whatever its fixings: what makes the panel stiff under the item."""

from fasten.advice.parts import Fitted
from fasten.catalog.named import material
from fasten.catalog.parts import PLATE
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.doubler import rivet_count, rivet_of
from fasten.geometry.patterns import positions_mm
from fasten.model import Doubler, Joined, MountPoint, Rails, kinds
from fasten.model.line import LineId, Part, Sort
from fasten.text.figures import figure, id_size, mm, words


def panel_parts(mount: MountPoint, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    """The parts with how many of each: a doubler with its rivets, rails with the plate across them."""
    doubler = () if mount.doubler is None else _doubler(mount, mount.doubler, tables)
    return (*doubler, *(() if mount.rails is None else _rails(mount, mount.rails, tables)))


def rail_length_mm(rails: Rails, tables: Tables) -> float:
    """How long a rail is cut: its span, and what lies on what carries it."""
    return rails.span_mm + 2 * rule(tables, Rules.RAIL_LANDING).value


def rail_plate(mount: MountPoint, tables: Tables) -> str:
    """The size of the plate across the rails, past every fixing."""
    wide = [max(side) - min(side) for side in zip(*positions_mm(mount.pattern, mount.fixings), strict=True)]
    more_mm = 2 * rule(tables, Rules.RAIL_PLATE_EDGE).value
    sides = sorted((side + more_mm for side in wide), reverse=True)
    return f"{' x '.join(figure(side) for side in sides)} x {mm(mount.thickness_max_mm)}"


def rail_tube(rails: Rails) -> str:
    """The tube of a rail."""
    return f"{figure(rails.side_mm)} x {figure(rails.side_mm)} x {mm(rails.wall_mm)}"


def _rails(mount: MountPoint, rails: Rails, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    tube, plate, kind = rail_tube(rails), rail_plate(mount, tables), kinds.RAIL
    long_mm = rail_length_mm(rails, tables)
    rail = Part(kind.line, tube, "square steel tube", "", long_mm)
    across = Part(kinds.RAIL_PLATE.line, plate, PLATE, "", None)
    ids = (LineId(Sort.PART, kind.key, (tube, "", "", "", id_size(long_mm))),
           LineId(Sort.PART, kinds.RAIL_PLATE.key, (plate, PLATE, "", "", "")))  # fmt: skip
    return (Fitted(rail, kind, ids[0]), rails.count), (Fitted(across, kinds.RAIL_PLATE, ids[1]), 1)


def doubler_size(doubler: Doubler) -> str:
    """Both sides and the thickness of a doubler."""
    return f"{figure(doubler.side_mm)} x {figure(doubler.side_mm)} x {mm(doubler.thickness_mm)}"


def _doubler(mount: MountPoint, doubler: Doubler, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    metal, kind, size = material(tables, mount.material), kinds.DOUBLER, doubler_size(doubler)
    part = Part(kind.line, size, f"{metal.title} sheet", "", None)
    square = Fitted(part, kind, LineId(Sort.PART, kind.key, (size, metal.material, "", "", "")))
    row = rivet_of(doubler, mount.thickness_min_mm, tables) if doubler.joined is Joined.RIVETED else None
    if row is None:
        return ((square, 1),)
    rivet = kinds.RIVET
    of = Part(rivet.line, row.size, words(row.standard), words(row.material), row.length_mm)
    ids = (row.size, row.standard, row.material, "", id_size(row.length_mm))
    return (square, 1), (Fitted(of, rivet, LineId(Sort.PART, rivet.key, ids)), rivet_count(doubler, tables))
