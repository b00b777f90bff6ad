"""Records of what was built that do not plainly hold, as a verdict on a job tells them, and what holds with less."""

from collections.abc import Iterator

from fasten.after.verdict import Less
from fasten.job.list.lists import AsBuilt
from fasten.report.forms.document import Column, Section
from fasten.text.figures import counted
from fasten.text.units import number


def as_built_lines(found: AsBuilt) -> Iterator[str]:
    """Why what was built does not plainly hold, without its verdict."""
    yield from (f"needs {need}" for need in found.needs)
    yield from found.do
    yield from less_lines(found.less)


def as_built_section(found: tuple[AsBuilt, ...]) -> Section:
    """The records of a job that do not plainly hold, each with its verdict and why."""
    rows = tuple((one.mount, str(one.verdict), "; ".join(as_built_lines(one))) for one in found)
    return Section("As built", (Column("Mount point"), Column("Verdict"), Column("Why")), rows)


def with_less(found: tuple[AsBuilt, ...]) -> str:
    """What is said of a job that is ready where something holds with less, after another sentence."""
    points = counted(len(found), "mount point")
    return f" As built, {points} hold{'s' * (len(found) == 1)} with less than planned." if found else ""


def less_lines(found: tuple[Less, ...]) -> Iterator[str]:
    """What is less than planned, both figures of each: the share that is used of a capacity, or a limit."""
    for less in found:
        unit = " of it used" if less.unit == "-" else f" {less.unit}"
        yield f"{less.title}: {number(less.planned, 2)}{unit} as planned, {number(less.built, 2)}{unit} as built"
