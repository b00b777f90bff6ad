"""The rows that a mount point or a joint names: what was resolved or sized is there."""

from fasten.catalog.face_parts import ADHESIVES, Adhesive
from fasten.catalog.materials import MATERIALS, Material
from fasten.catalog.tables import Tables


def material(tables: Tables, name: str) -> Material:
    """The row of a material that a resolved mount names."""
    return tables.need(MATERIALS, name)


def adhesive(tables: Tables, name: str) -> Adhesive:
    """The row of an adhesive or tape that a joint names."""
    return tables.need(ADHESIVES, name)
