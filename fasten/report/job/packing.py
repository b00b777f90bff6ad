"""Every line of a hardware list by its id, and whether it is packed."""

from fasten.job.list.lists import HardwareList
from fasten.job.list.ticks import is_packed, lines_of
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.hardware import line_name

_COLUMNS = (Column("Id"), Column("Packed"), Column("What"))


def packing_document(listed: HardwareList) -> Document:
    """The list in short: id, packed or not, and what it is."""
    rows = tuple((line.id.text, "yes" if is_packed(line) else "no", line_name(line)) for line in lines_of(listed))
    lead = () if rows else ("The list has no lines yet.",)
    return Document(f"Packing: {listed.title}", lead, (Section("Lines", _COLUMNS, rows),) if rows else ())
