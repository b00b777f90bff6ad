"""The fewest different sizes of the job in hand, for the screen."""

from fasten.catalog.tables import Tables
from fasten.job.entries import listed_choices
from fasten.job.shelf.owned import owned_of
from fasten.job.shelf.reels import with_reels
from fasten.job.sizes.cables import fewer_cables, with_changes
from fasten.job.sizes.offers import fewest_sizes
from fasten.job.words import CableRun, Job, Pin, Shelf
from fasten.record import record
from fasten.report.forms.document import Document
from fasten.report.job.fewest import fewest_document
from fasten.tui.state.long_work import LongWork


@record
class Fewer:
    """Before and after, and what holds the latter: the pins of mount points, and the runs with other cable."""

    document: Document
    pins: dict[str, Pin]
    runs: tuple[CableRun, ...]


def fewer(job: Job, shelf: Shelf | None, tables: Tables, work: LongWork) -> Fewer:
    """Look for it until it is found or the work is stopped: then it is the best that was found.

    Raises: Stopped if by then not every mount point has its answer.
    """
    owned = owned_of(shelf, tables)
    answered = listed_choices(job, tables, owned, work.steps("Answers"))
    found = fewest_sizes(answered, tables, owned, work.steps("Fewest sizes"))
    measured = with_reels(job, shelf, tables)
    cables = fewer_cables(measured, tables)
    return Fewer(fewest_document(found, cables), found.pins, with_changes(measured, cables, tables).runs)
