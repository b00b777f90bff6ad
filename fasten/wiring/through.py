"""What a hole of a job goes through, as people write it.

through = material and thickness or gauge, or body steel and its place   steel 0.9 mm, 20 ga steel, steel floor
        | door boot | rubber boot | door plug                            what is there already, without a grommet
"""

from fasten.catalog.materials import PLACES
from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.question.read_onto import read_onto
from fasten.record import record
from fasten.text.names import folded
from fasten.text.shown import shown

PLUG = "plug"  # one that sits where a door turns
_BOOTS = frozenset({"door", "tailgate", "boot", "rubber", "bellows", "gaiter", "hinge", PLUG})
_PASSABLE = frozenset({"boot", "rubber", "bellows", "gaiter"})  # what is said of a hinge line without a plug
_METAL = "sheet"


@record
class Through:
    """What a hole goes through: a door, or how thick a sheet or board; None where that is not known.

    `has_plug` is whether a plug of the car sits in the hinge line of the door; None where neither that nor a boot is
    said.
    """

    is_door: bool
    has_plug: bool | None
    is_metal: bool
    thickness_mm: float | None


def read_through(text: str, tables: Tables, where: str) -> Through:
    """What a hole goes through; sheet of which nothing is known where nothing is said.

    Raises: FastenError if it is neither a material, thick enough to say, nor the boot of a door.
    """
    words = folded(text).split()
    if not words:
        return Through(is_door=False, has_plug=False, is_metal=True, thickness_mm=None)
    if _BOOTS.issuperset(words):
        has_plug = None if _PASSABLE.isdisjoint(words) and PLUG not in words else PLUG in words
        return Through(is_door=True, has_plug=has_plug, is_metal=False, thickness_mm=None)
    try:
        key, thickness_mm, place, _ = read_onto(text, tables, where)
    except FastenError as error:
        fix = "write a material and how thick it is, such as steel 0.9 mm, or door boot"
        raise FastenError(
            f"{shown(text)} is nothing that a hole goes through: {error.what}", where=where, fix=fix
        ) from error
    thickest_mm = None if place is None else tables.need(PLACES, place).max_mm
    is_metal = material(tables, key).family == _METAL
    return Through(is_door=False, has_plug=False, is_metal=is_metal, thickness_mm=thickness_mm or thickest_mm)
