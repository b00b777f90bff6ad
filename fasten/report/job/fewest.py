"""The choice with the fewest different sizes beside what stood before, as a document and as plain data for JSON."""

from typing import Any

from fasten.job.sizes.standard import Change, Standard
from fasten.report.forms.document import Column, Document, Section
from fasten.report.plain import to_plain
from fasten.text.figures import counted
from fasten.text.names import capital
from fasten.text.units import number

_Sizes = tuple[tuple[str, str], ...]
FORMAT = 1
FOUND = "Best found, not proven smallest: the search was stopped."
PROVEN = "Proven: nothing that holds costs less by these weights."


def fewest_document(found: Standard) -> Document:
    """How many sizes there were and are, which they are, and what changes at which mount point."""
    before, after = set(found.before), set(found.after)
    sections = (
        _sizes(found),
        _changed(found.changes),
        Section(
            "Nothing fits", (Column("Mount point"), Column("Why")), tuple((u.mount, u.reason) for u in found.unfit)
        ),
    )
    lead = (
        f"{counted(len(before), 'different size')} before, {len(after)} after; "
        f"{counted(round(found.before_cost, 2), 'point')} before, "
        f"{number(found.cost, 2)} after.",
        PROVEN if found.proven else FOUND,
    )
    return Document("Fewest different sizes", lead, tuple(section for section in sections if section.rows))


def fewest_json(found: Standard) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {
        "format": FORMAT,
        "before": [{"kind": kind, "name": name} for kind, name in found.before],
        "after": [{"kind": kind, "name": name} for kind, name in found.after],
        "before_cost": found.before_cost,
        "cost": found.cost,
        "proven": found.proven,
        "changes": to_plain(found.changes),
        "unfit": to_plain(found.unfit),
    }


def _sizes(found: Standard) -> Section:
    """For each kind of thing the sizes that go, stay and come."""
    kinds = dict.fromkeys(kind for kind, _ in (*found.before, *found.after))
    rows = tuple((capital(kind), *(_named(sizes, kind) for sizes in _sorted(found))) for kind in kinds)
    lines = tuple(
        (kind, *(f"{word}: {cell}" for word, cell in zip(("gone", "new", "as before"), cells, strict=True) if cell))
        for kind, *cells in rows
    )
    return Section("Sizes", (Column("Kind"), Column("Gone"), Column("New"), Column("As before")), rows, lines=lines)


def _sorted(found: Standard) -> tuple[_Sizes, _Sizes, _Sizes]:
    gone = tuple(size for size in found.before if size not in found.after)
    new = tuple(size for size in found.after if size not in found.before)
    return gone, new, tuple(size for size in found.after if size in found.before)


def _named(sizes: _Sizes, wanted: str) -> str:
    return "; ".join(name for kind, name in sizes if kind == wanted)


def _changed(changes: tuple[Change, ...]) -> Section:
    rows = tuple((change.mount, change.before, change.after) for change in changes if change.changed)
    lines = tuple((mount, f"before: {before}", f"after: {after}") for mount, before, after in rows)
    return Section("What changes", (Column("Mount point"), Column("Before"), Column("After")), rows, lines=lines)
