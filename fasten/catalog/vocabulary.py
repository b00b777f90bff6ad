"""Row types of the words that a look-up understands, and of the standards that others replaced."""

from fasten.catalog.rows import Row, TableOf
from fasten.record import record

SORTS = ("part", "fact", "fit", "metal", "board", "tapping", "wire", "screw", "filler")


@record
class LookWord(Row):
    """Words that people use for one thing, parted by "|", and what they ask for.

    A `part` is looked for in the table `key`, in the rows of `form` where one is given; a `fact` is what is wanted of
    it; a `fit` is a column of the clearance holes; a `metal` is one that sheet gauges are printed for, or a sheet; a
    `board` is what an insert goes into.
    """

    key = ("written",)
    words = {"sort": SORTS}
    written: str
    sort: str
    names: str | None
    form: str | None


LOOK_WORDS = TableOf(LookWord, "look-words")


@record
class WithdrawnStandard(Row):
    """A standard that is withdrawn, what replaced it, and in what the two differ."""

    key = ("withdrawn",)
    withdrawn: str
    now: str
    differs: str | None


WITHDRAWN_STANDARDS = TableOf(WithdrawnStandard, "withdrawn-standards")
