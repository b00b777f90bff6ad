"""Holes where they really are: what a survey found, and how an item lies on existing holes."""

from fasten.record import record


@record
class Noticed:
    """A reading between two holes, by their numbers, and the error of it that the others would have shown."""

    first: int
    second: int
    error_mm: float | None


@record
class Survey:
    """What distances between holes showed of them, hole by hole and reading by reading.

    `radii_mm` holds 95 % of each hole's error. `in_line` says that they were taken as a row, `clockwise` which way the
    numbers run, seen from the drill; None where that was not said: distances never show it.
    """

    radii_mm: tuple[float, ...]
    noticed: tuple[Noticed, ...]
    spare: int
    chi2: float
    limit: float
    in_line: bool
    clockwise: bool | None


@record
class Lies:
    """How an item lies on holes: by how much it misses each, x and y as the item's own, and the greatest miss.

    `turned_on` counts by how many its numbers are ahead of those of the panel. `mirrored` says that it is turned over,
    or that the numbers of the panel run the other way.
    """

    turned_on: int
    mirrored: bool
    miss_mm: tuple[tuple[float, float], ...]
    greatest_mm: float


@record
class Slot:
    """A hole of the item that becomes a slot: its number, how much longer than round, and which way it grows."""

    hole: int
    longer_mm: float
    direction_deg: float


@record
class OnHoles:
    """How an item lies on holes: the way asked for, the best with other numbers and mirrored, and what is slotted.

    `play_mm` is how far a screw may be off the middle of the item's hole, `error_mm` how far a hole may lie from where
    it was found. `alike` says that over half of the holes would be slots, and all are then made alike.
    """

    given: Lies
    numbered_on: Lies | None
    mirrored: Lies | None
    play_mm: float
    error_mm: float
    slots: tuple[Slot, ...]
    alike: bool
