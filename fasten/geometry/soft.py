"""The soft layers between item and substrate: which of them stay, what holds them, how far off they keep the item."""

from fasten.catalog.materials import SOFT_LAYERS, SPACER_LENGTHS
from fasten.catalog.tables import Tables
from fasten.geometry.stack import FITS_HOLE
from fasten.model import Between, Holds, Taken
from fasten.record import replace
from fasten.text.figures import mm, words


def each(between: Between | None) -> tuple[Between, ...]:
    """Every soft layer that was given.

    between: what was given, or None [-]
    Returns: the layers from the item down [-]
    Source: geometry.
    """
    return () if between is None else (between, *each(between.under))


def taken(between: Between | None, how: Taken, tables: Tables) -> tuple[Between, ...]:
    """The soft layers that stay and are taken away this way at each fixing.

    between: what was given, or None [-]
    how: cut or scraped [-]
    tables: the tables [-]
    Returns: the layers from the item down [-]
    Source: common practice.
    """
    return tuple(layer for layer in staying(between) if tables.need(SOFT_LAYERS, layer.material).at_feet == how.value)


def staying(between: Between | None) -> tuple[Between, ...]:
    """The soft layers that are not cut out under the whole item.

    between: what was given, or None [-]
    Returns: the layers from the item down [-]
    Source: geometry.
    """
    return () if between is None else tuple(layer for layer in each(between) if not layer.cut_out)


def without(between: Between) -> Between:
    """The same, all of it cut out under the item.

    between: what was given [-]
    Returns: the layers, cut out [-]
    Source: geometry.
    """
    return replace(between, cut_out=True, under=None if between.under is None else without(between.under))


def named(layers: tuple[Between, ...]) -> str:
    """What soft layers are called together.

    layers: the layers [-]
    Returns: their names [-]
    Source: none, words.
    """
    return " and ".join(dict.fromkeys(words(layer.material) for layer in layers))


def held_by(between: Between | None, tables: Tables) -> Holds | None:
    """What holds the soft layers that stay: a compression limiter where one of them is pressed, else a spacer.

    between: what was given, or None [-]
    tables: the tables [-]
    Returns: what holds them, None where none stays [-]
    Source: common practice.
    """
    if between is None:
        return None
    found = {Holds(tables.need(SOFT_LAYERS, layer.material).held_by) for layer in staying(between)}
    return Holds.LIMITER if Holds.LIMITER in found else next(iter(found), None)


def pressed(between: Between | None, tables: Tables) -> Between | None:
    """The soft layer that is pressed between the faces and seals them, which is bought.

    between: what was given, or None [-]
    tables: the tables [-]
    Returns: the layer, None where none is [-]
    Source: common practice.
    """
    rows = ((layer, tables.need(SOFT_LAYERS, layer.material)) for layer in staying(between))
    return next((layer for layer, row in rows if Holds(row.held_by) is Holds.LIMITER), None)


def standoff_mm(between: Between | None, tables: Tables) -> float:
    """How far soft layers keep the item off: the height of their compression limiter, or the length of their spacer.

    between: what was given, or None [-]
    tables: the tables [-]
    Returns: height, 0 where none stays [mm]
    Raises: LookupError where no spacer is as long.
    Source: shares of the free thickness as tabulated; a spacer is of the next length that is sold.
    """
    if between is None:
        return 0
    rows = [(layer, tables.need(SOFT_LAYERS, layer.material)) for layer in staying(between)]
    pressed_mm = sum(layer.thickness_mm * row.stop_fraction for layer, row in rows)
    return _spacer_mm(pressed_mm, tables) if held_by(between, tables) is Holds.SPACER else pressed_mm


def _spacer_mm(least_mm: float, tables: Tables) -> float:
    lengths = [row.length_mm for row in tables.rows(SPACER_LENGTHS)]
    found = next((length for length in lengths if length >= least_mm - FITS_HOLE), None)
    if found is None:
        raise LookupError(f"{mm(least_mm)} asks for a longer spacer than the {mm(lengths[-1])} that are sold")
    return found
