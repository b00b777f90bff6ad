"""Row types of the installs that a job is started from: what is said for them, their mount points and their cable."""

from fasten.catalog.materials import ITEMS
from fasten.catalog.rows import Row, TableOf
from fasten.record import record

FIELD_IS = " = "  # between a field and its value where a row says several


def said_of(texts: tuple[str, ...]) -> dict[str, str]:
    """What a row says, by field; each is written as `field = value`."""
    pairs = (text.partition(FIELD_IS) for text in texts)
    return {name: value for name, _, value in pairs}


@record
class Install(Row):
    """A typical install.

    `said_as` are the words it goes by. `pieces` of it make one: a count is of pieces, and two door speakers are one
    pair. `twin` is how its mount points are alike: `side` for left and right, `corner` for all of a name, or none.
    More than one of it are called by `places`, in their order, then by number; `most` are as many as one vehicle takes.
    `ask` is what is asked first, in order; `measure` is what is measured at the vehicle; `leave` is never asked. `note`
    is said once where it is taken, empty where there is nothing to say.
    """

    key = ("install",)
    words = {"twin": ("none", "side", "corner")}
    install: str
    title: str
    said_as: tuple[str, ...]
    pieces: int
    most: int
    twin: str
    places: tuple[str, ...]
    ask: tuple[str, ...]
    measure: tuple[str, ...]
    leave: tuple[str, ...]
    note: str


INSTALLS = TableOf(Install, "installs")


@record
class InstallMount(Row):
    """A mount point of an install, or `count` of them: in its name {n} counts, and {side} is left and right.

    `mounted` is an item, `onto` is only proposed; `said` are its other fields. One of the words of `alone` by itself
    asks for this mount point alone; those of `counted` say in a count how many of it the install has, as in a board
    with two amplifiers. It is `under` another of the same install, which comes off first; empty where it is not.
    """

    key = ("install", "mount")
    refs = {"install": INSTALLS, "mounted": ITEMS}
    install: str
    mount: str
    count: int
    mounted: str
    onto: str
    removed: str
    said: tuple[str, ...]
    alone: tuple[str, ...]
    counted: tuple[str, ...]
    under: str
    note: str


INSTALL_MOUNTS = TableOf(InstallMount, "install-mounts")


@record
class InstallRun(Row):
    """What an install says of the cable of its vehicle: of its `system` as a whole, or of a `section`, by its name.

    The runs themselves are those that its mount points lack; a section takes those of them whose names end as `takes`
    says.
    """

    key = ("install", "of", "called")
    refs = {"install": INSTALLS}
    words = {"of": ("system", "section")}
    install: str
    of: str
    called: str
    said: tuple[str, ...]
    takes: tuple[str, ...]


INSTALL_RUNS = TableOf(InstallRun, "install-runs")
