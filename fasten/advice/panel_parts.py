"""The parts that a mount point takes once, whatever its fixings: what makes the panel stiff under the item."""

from fasten.advice.parts import Fitted
from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.geometry.doubler import rivet_count, rivet_of
from fasten.model import Doubler, Joined, MountPoint, kinds
from fasten.model.line import LineId, Part, Sort
from fasten.text.figures import figure, id_size, mm, words


def panel_parts(mount: MountPoint, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    """The parts with how many of each: a doubler, and its rivets where it has some."""
    return () if mount.doubler is None else _doubler(mount, mount.doubler, tables)


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
