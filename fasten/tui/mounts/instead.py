"""What does instead of a missing screw length at one mount point, for the screen."""

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.entries import mount_choice
from fasten.job.pins import pin_of
from fasten.job.shelf.owned import owned_of
from fasten.job.shelf.substitute import Candidate, instead, missing_screw, on_shelf, others_on_shelf
from fasten.job.words import Job, Mount, Pin, Shelf
from fasten.model import Answer
from fasten.record import record
from fasten.report.forms.document import Document
from fasten.report.job.instead import Instead, instead_document
from fasten.text import units
from fasten.text.units import Dimension


@record
class Tried:
    """What was found, and the pin of the first that does and is there in number."""

    document: Document
    pin: Pin | None


def tried(mount: Mount, job: Job, length: str, shelf: Shelf | None, tables: Tables) -> Tried:
    """Try one length, or without one all that are on the shelf.

    Raises: FastenError if the length cannot be read, or there is neither a length nor a shelf.
    """
    asked = mount_choice(mount, job, tables, owned_of(shelf, tables))
    if length:
        candidates: tuple[Candidate, ...] = (Candidate(units.read(length, Dimension.LENGTH, "length")),)
    elif shelf is not None:
        candidates = on_shelf(asked, shelf, tables)
    else:
        raise FastenError("there is no shelf to look through", where="length", fix="type the length at hand: 25 mm")
    found = instead(asked, candidates, tables)
    others = () if shelf is None or length else others_on_shelf(asked, shelf, tables)
    title = "" if asked.answer is None else asked.answer.title
    behind_mm = None if asked.point is None else asked.point.behind_mm
    report = Instead(mount.name, title, missing_screw(asked, tables), behind_mm, found, others, asked.reason)
    good = [entry.verdict for entry in found if entry.does and entry.enough]
    return Tried(instead_document(report), pin_of(good[0]) if good and isinstance(good[0], Answer) else None)
