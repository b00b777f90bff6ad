"""The fewest different sizes of the job in hand, for the screen."""

from dataclasses import dataclass

from fasten.catalog.tables import Tables
from fasten.job.choices import choices
from fasten.job.shelf.owned import owned_of
from fasten.job.sizes.standard import standard
from fasten.job.words import Job, Pin, Shelf
from fasten.progress import Step
from fasten.report.forms.document import Document
from fasten.report.job.fewest import fewest_document


@dataclass(frozen=True)
class Fewer:
    """Before and after, and the pins that hold the latter."""

    document: Document
    pins: dict[str, Pin]


def fewer(job: Job, shelf: Shelf | None, tables: Tables, step: Step) -> Fewer:
    """Look for it until it is found, or `step` raises Stopped."""
    owned = owned_of(shelf, tables)
    found = standard(choices(job, tables, owned), tables, owned, step)
    return Fewer(fewest_document(found), found.pins)
