"""What gets nothing: nothing fits there, or not enough is said to tell."""

from collections.abc import Iterable, Iterator

from fasten.job.list.lists import Unfit
from fasten.report.forms.document import Column, Section
from fasten.text.figures import counted

_COLUMNS = (Column("Mount point"), Column("Why"))


def heading_of(*, is_said: bool) -> str:
    """What stands over an entry that gets nothing."""
    return "Nothing fits" if is_said else "Still to say"


def unfit_sections(unfit: Iterable[Unfit]) -> Iterator[Section]:
    """A section for each of the two; one without rows where there is none."""
    found = tuple(unfit)
    for is_said in (True, False):
        rows = tuple((entry.mount, entry.reason) for entry in found if entry.said is is_said)
        yield Section(heading_of(is_said=is_said), _COLUMNS, rows)


def left_out(unfit: Iterable[Unfit]) -> Iterator[str]:
    """How many a list leaves out, and why."""
    found = tuple(unfit)
    unsaid = sum(not entry.said for entry in found)
    for count, why in ((len(found) - unsaid, "nothing fits there as it stands"), (unsaid, "not enough is said yet")):
        if count:
            yield f"{counted(count, 'mount point')} not on this list: {why}."
