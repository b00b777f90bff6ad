"""The row type of the words that a line of a shelf is written with."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record

SORTS = (
    "end", "shrink", "tube", "reel",
    "kind", "board", "tapping", "nut", "insert", "thin", "head", "drive", "series", "open", "class", "bit", "other",
    "driver", "sized", "threaded", "threadless", "tool", "layered", "consumable", "unlike", "vague", "hole", "grip",
    "column", "filler",
)  # fmt: skip


@record
class ShelfWord(Row):
    """Words that people use for one thing, parted by "|", what sort of thing it is and what a list calls it."""

    key = ("written",)
    words = {"sort": SORTS}
    written: str
    sort: str
    names: str | None


SHELF_WORDS = TableOf(ShelfWord, "shelf-words")


@record
class KitLine(Row):
    """A line of a kit, read as if it were typed."""

    key = ("kit", "line")
    kit: str
    title: str
    line: str


KITS = TableOf(KitLine, "kits")
