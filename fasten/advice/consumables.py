"""How much of each consumable an answer uses: by screw, hole, fixing, outline or face, as the table of them says."""

from collections.abc import Iterator
from math import pi

from fasten.advice.conditions import Holding, applies
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS, Consumable
from fasten.catalog.tables import Tables
from fasten.geometry import patterns
from fasten.geometry.soft import pressed
from fasten.model import Answer, Joint, MountPoint, Pattern
from fasten.model.line import LineId, Sort
from fasten.model.plan import ConsumableNeed
from fasten.text.figures import words
from fasten.text.units import number

NAMED, PATCH, COUNTED = "named", "patch", "part"
LAYER, SUBSTRATE, WIDTH, THREAD = "layer", "substrate", "width", "thread"


def consumables_of(answer: Answer, point: MountPoint, tables: Tables) -> Iterator[ConsumableNeed]:
    """What one mount point uses: what the table gives an amount of, then the rest that the answer names."""
    rows = _rows(answer, point, tables)
    joint = answer.proposal.joint
    for row in rows:
        if row.per != COUNTED:
            yield _counted(row, joint, point, tables)
    known = {row.consumable for row in rows}
    for need in answer.consumables:
        if need.key not in known:
            line_id, names = LineId(Sort.CONSUMABLE, need.key), consumable_names(need.key, tables)
            yield ConsumableNeed(line_id, names, "", None, None, "", 0.0, 0.0, shared=False)


def consumable_names(key: str, tables: Tables) -> tuple[str, ...]:
    """What a consumable may go by on a shelf: its key, and last what a list says; of the user's own tables the key."""
    kind = tables.find(TOOL_KINDS, key)
    return (key,) if kind is None else (key, kind.in_list)


def outline_mm(pattern: Pattern | None) -> float | None:
    """Length of the outline on which the fixings of a pattern sit; None where no pattern is given.

    A circle by its circumference, a rectangle by its four sides; a row has no outline to run tape along.

    pattern: where the fixings sit [-]
    Returns: the length [mm]
    Source: geometry.
    """
    if pattern is None:
        return None
    if pattern.points_mm:
        return patterns.outline_mm(pattern.points_mm)
    if pattern.kind == "circle":
        return pi * pattern.a_mm
    return None if pattern.b_mm is None else 2 * (pattern.a_mm + pattern.b_mm)


def _rows(answer: Answer, point: MountPoint, tables: Tables) -> list[Consumable]:
    """The rows that a mount point calls for, each consumable once."""
    found: dict[str, Consumable] = {}
    held, named = Holding(answer.proposal, point, tables), {need.key for need in answer.consumables}
    patch = answer.proposal.joint.patch
    held_by = "" if patch is None else patch.kind.key
    for row in tables.rows(CONSUMABLES):
        called_for = row.consumable in named if row.when == NAMED else row.when != PATCH or row.consumable == held_by
        if called_for and row.consumable not in found and applies(row.only_if, held):
            found[row.consumable] = row
    return list(found.values())


def _counted(row: Consumable, joint: Joint, point: MountPoint, tables: Tables) -> ConsumableNeed:
    sizes = _sizes(row, joint, point, tables)
    return ConsumableNeed(
        LineId(Sort.CONSUMABLE, row.consumable, sizes), consumable_names(row.consumable, tables), _detail(row, sizes),
        _width_mm(row, joint), _amount(row, joint, point), row.unit, row.plus, row.waste,
        shared=row.per == SUBSTRATE,
    )  # fmt: skip


def _sizes(row: Consumable, joint: Joint, point: MountPoint, tables: Tables) -> tuple[str, ...]:
    """What must be said of it beside its name, as keys and sizes."""
    if row.detail == LAYER and (layer := pressed(point.between, tables)) is not None:
        return layer.material, number(layer.thickness_mm, 2)
    if row.detail == SUBSTRATE:
        return point.material, *dict.fromkeys(number(mm, 2) for mm in (point.thickness_min_mm, point.thickness_max_mm))
    if width_mm := _width_mm(row, joint):
        return (number(width_mm, 1),)
    if row.detail == THREAD and joint.screw is not None:
        return (joint.screw.thread,)
    return ()


def _detail(row: Consumable, sizes: tuple[str, ...]) -> str:
    """The same in words."""
    if not sizes:
        return ""
    if row.detail in {LAYER, SUBSTRATE}:
        return f"{words(sizes[0])} {' to '.join(sizes[1:])} mm"
    return f"{sizes[0]} mm wide" if row.detail == WIDTH else sizes[0]


def _width_mm(row: Consumable, joint: Joint) -> float | None:
    """How wide a strip or tape is, which is bought by its length; None for all else."""
    return joint.patch.width_mm if row.detail == WIDTH and joint.patch is not None else None


def _amount(row: Consumable, joint: Joint, point: MountPoint) -> float | None:
    """The table's amount times what it is for, and what is added once; None where that is not known."""
    measure = _measure(row.per, joint, point)
    if row.amount is None or measure is None:
        return None
    return row.amount * measure + row.plus if measure else 0.0


def _measure(per: str, joint: Joint, point: MountPoint) -> float | None:
    count = float(point.fixings)
    if per == "outline":
        return outline_mm(point.pattern)
    if per == "area":
        return joint.patch.length_mm * joint.patch.width_mm * count if joint.patch is not None else 0.0
    if per == "doubler face":
        return 0.0 if point.doubler is None else point.doubler.side_mm**2
    if per == "screw":
        return count if joint.screw is not None else 0.0
    if per == "hole":
        return count if joint.hole is not None else 0.0
    return count if per == "fixing" else 1.0
