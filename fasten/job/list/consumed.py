"""How much of each consumable a job uses: by screw, hole, fixing, outline or face, as the table of them says."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, fsum, pi

from fasten.advice.conditions import applies, holding
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS, Consumable
from fasten.catalog.tables import Tables
from fasten.job.list.lists import ConsumableLine, Used
from fasten.job.list.needs import Fit
from fasten.job.shelf.view import ShelfView
from fasten.model import Pattern
from fasten.model.line import LineId, Sort
from fasten.text.figures import words
from fasten.text.units import number

NAMED, PATCH, COUNTED = "named", "patch", "part"
LAYER, SUBSTRATE, WIDTH, THREAD = "layer", "substrate", "width", "thread"
WHOLE = frozenset({"piece", "drop"})
_DUST = 1e-9  # 0.25 x 8 pieces are 2, and no third one for the rounding of the machine


@dataclass
class _Line:
    row: Consumable | None
    detail: str
    width_mm: float | None
    used: list[Used]


def outline_mm(pattern: Pattern | None) -> float | None:
    """Length of the outline on which the fixings of a pattern sit; None where nobody told of any.

    A circle by its circumference, a rectangle by its four sides; a row has no outline to run tape along.

    pattern: where the fixings sit [-]
    Returns: the length [mm]
    Source: geometry.
    """
    if pattern is None or pattern.kind == "row":
        return None
    if pattern.kind == "circle":
        return pi * pattern.a_mm
    assert pattern.b_mm is not None
    return 2 * (pattern.a_mm + pattern.b_mm)


def consumables(fits: tuple[Fit, ...], shelf: ShelfView, tables: Tables) -> tuple[ConsumableLine, ...]:
    """Every consumable of the job, those with an amount in the order of the table, then the others by name."""
    found: dict[LineId, _Line] = {}
    for fit in fits:
        for key, row, amount in _of(fit, tables):
            sizes = () if row is None else _sizes(row, fit)
            line_id = LineId(Sort.CONSUMABLE, key, sizes)
            # One piece is enough for all that goes into the same substrate.
            again = row is not None and row.per == "substrate" and line_id in found
            line = found.setdefault(line_id, _Line(row, _detail(row, sizes), _width_mm(row, fit), []))
            line.used.append(Used(fit.name, 0.0 if again else amount))
    rows = tables.rows(CONSUMABLES)
    places = {row.consumable: place for place, row in reversed(list(enumerate(rows)))}
    ordered = sorted(found, key=lambda at: (places.get(at.key, len(places)), at.key, at.sizes))
    return tuple(_listed(line_id, found[line_id], shelf, tables) for line_id in ordered)


def _of(fit: Fit, tables: Tables) -> Iterator[tuple[str, Consumable | None, float | None]]:
    """What one mount point uses: key, its row where there is one, and how much without waste."""
    rows = _rows(fit, tables)
    for row in rows:
        if row.per != COUNTED:
            yield row.consumable, row, _amount(row, fit)
    known = {row.consumable for row in rows}
    yield from ((need.key, None, None) for need in fit.answer.consumables if need.key not in known)


def _rows(fit: Fit, tables: Tables) -> list[Consumable]:
    """The rows that a mount point calls for, each consumable once."""
    found: dict[str, Consumable] = {}
    held = holding(fit.answer.proposal, fit.point, tables)
    for row in tables.rows(CONSUMABLES):
        if row.consumable not in found and _called_for(row, fit) and applies(row.only_if, held):
            found[row.consumable] = row
    return list(found.values())


def _called_for(row: Consumable, fit: Fit) -> bool:
    if row.when == NAMED:
        return row.consumable in (need.key for need in fit.answer.consumables)
    patch = fit.joint.patch
    return row.when != PATCH or (patch is not None and patch.kind.key == row.consumable)


def _sizes(row: Consumable, fit: Fit) -> tuple[str, ...]:
    """What must be said of it beside its name, as keys and sizes."""
    point, joint = fit.point, fit.joint
    if row.detail == LAYER and point.between is not None:
        return point.between.material, number(point.between.thickness_mm, 2)
    if row.detail == SUBSTRATE:
        return point.material, *dict.fromkeys(number(mm, 2) for mm in (point.thickness_min_mm, point.thickness_max_mm))
    if width_mm := _width_mm(row, fit):
        return (number(width_mm, 1),)
    if row.detail == THREAD and joint.screw is not None:
        return (joint.screw.thread,)
    return ()


def _detail(row: Consumable | None, sizes: tuple[str, ...]) -> str:
    """The same in words."""
    if row is None or not sizes:
        return ""
    if row.detail in {LAYER, SUBSTRATE}:
        return f"{words(sizes[0])} {' to '.join(sizes[1:])} mm"
    return f"{sizes[0]} mm wide" if row.detail == WIDTH else sizes[0]


def _width_mm(row: Consumable | None, fit: Fit) -> float | None:
    """How wide a strip or tape is, which is bought by its length; None for all else."""
    patch = fit.joint.patch
    return patch.width_mm if row is not None and row.detail == WIDTH and patch is not None else None


def _amount(row: Consumable, fit: Fit) -> float | None:
    """The table's amount times what it is for, and what is added once; None where that is not known."""
    measure = _measure(row.per, fit)
    if row.amount is None or measure is None:
        return None
    return row.amount * measure + row.plus if measure else 0.0


def _measure(per: str, fit: Fit) -> float | None:
    joint, count = fit.joint, float(fit.point.fixings)
    if per == "outline":
        return outline_mm(fit.point.pattern)
    if per == "area":
        return joint.patch.length_mm * joint.patch.width_mm * count if joint.patch is not None else 0.0
    if per == "screw":
        return count if joint.screw is not None else 0.0
    if per == "hole":
        return count if joint.hole is not None else 0.0
    return count if per == "fixing" else 1.0


def consumable_names(key: str, tables: Tables) -> tuple[str, ...]:
    """What a consumable may go by on a shelf: its key, and last what a list says; of the user's own tables the key."""
    kind = tables.find(TOOL_KINDS, key)
    return (key,) if kind is None else (key, kind.in_list)


def _listed(line_id: LineId, line: _Line, shelf: ShelfView, tables: Tables) -> ConsumableLine:
    names, row, used = consumable_names(line_id.key, tables), line.row, line.used
    unknown = tuple(entry.mount for entry in used if entry.amount is None)
    known = [entry.amount for entry in used if entry.amount is not None]
    amount = None if row is None or not known else _whole(fsum(known) * (1 + row.waste), row.unit)
    return ConsumableLine(
        line_id, line_id.key, names[-1], line.detail, amount, row.unit if row is not None else "",
        row.plus if row is not None else 0.0, row.waste if row is not None else 0.0,
        shelf.has_consumable(names, line.detail), tuple(used), unknown, line.width_mm,
    )  # fmt: skip


def _whole(amount: float, unit: str) -> float:
    return float(ceil(amount - _DUST)) if unit in WHOLE else amount
