"""The choice with the fewest different sizes beside what stood before, as a document and as plain data for JSON."""

from typing import Any

from fasten.job.sizes.cables import CABLE_KINDS, FewerCables
from fasten.job.sizes.standard import Change, Standard
from fasten.report.forms.document import Column, Document, Section
from fasten.report.job.unfit import unfit_sections
from fasten.report.plain import to_plain
from fasten.text.figures import counted
from fasten.text.names import capital
from fasten.text.units import number

_Sizes = tuple[tuple[str, str], ...]
FORMAT = 1
FOUND = "Best found, not proven smallest: the search was stopped."
PROVEN = "Proven: nothing that holds costs less by these weights."


def fewest_document(found: Standard, runs: FewerCables | None = None) -> Document:
    """How many sizes there were and are, which they are, and what changes at which mount point."""
    before, after = set(found.before), set(found.after)
    sections = (
        _sizes(found),
        _changed(found.changes),
        *unfit_sections(found.unfit),
        *(_runs(runs) if runs is not None else ()),
    )
    lead = (
        f"{counted(len(before), 'different size')} before, {len(after)} after; "
        f"{counted(round(found.before_cost, 2), 'point')} before, "
        f"{number(found.cost, 2)} after.",
        PROVEN if found.proven else FOUND,
        *(_of_runs(runs) if runs is not None else ()),
    )
    return Document("Fewest different sizes", lead, tuple(section for section in sections if section.rows))


def _of_runs(runs: FewerCables) -> tuple[str, ...]:
    """How many cables, terminals and heat-shrinks there are among the runs, and how much copper that takes."""
    if not runs.before:
        return ()
    more = f", {number(runs.copper_mm2_m, 1)} mm² m of copper more" if runs.changes else ""
    things = counted(len(runs.before), "different cable, terminal and heat-shrink")
    return (f"Of runs {things.removesuffix('s')} before, {len(runs.after)} after{more}.",)


def _runs(runs: FewerCables) -> tuple[Section, ...]:
    """The cables, terminals and heat-shrinks that go and stay, and which runs take another cable."""
    gone, new = ([one for one in sizes if one not in others] for sizes, others in (
        (runs.before, runs.after), (runs.after, runs.before),
    ))  # fmt: skip
    rows = tuple((capital(kind), _named(tuple(gone), kind), _named(tuple(new), kind)) for kind in CABLE_KINDS)
    changes = tuple((one.run, one.before, one.after) for one in runs.changes)
    columns = (Column("Run"), Column("Before"), Column("After"))
    sizes = (Column("Kind"), Column("Gone"), Column("New"))
    return (
        Section("Cable, terminals and heat-shrink", sizes, tuple(row for row in rows if row[1] or row[2])),
        Section("Runs that take another cable", columns, changes),
    )


def fewest_json(found: Standard, runs: FewerCables | None = None) -> dict[str, Any]:
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
        "runs": None if runs is None else _runs_json(runs),
    }


def _runs_json(runs: FewerCables) -> dict[str, Any]:
    return {
        "before": [{"kind": kind, "name": name} for kind, name in runs.before],
        "after": [{"kind": kind, "name": name} for kind, name in runs.after],
        "before_cost": runs.before_cost, "cost": runs.cost, "copper_mm2_m": runs.copper_mm2_m,
        "changes": to_plain(runs.changes), "proven": runs.is_all,
    }  # fmt: skip


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
