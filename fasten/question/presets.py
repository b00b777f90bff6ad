"""What an item carries, how its cable is clamped, on which stud its ring sits: presets suited to what was said.

What cannot go together, and what the rules of clamps and ground joints forbid, is refused here with its figure.
"""

from fasten.catalog.materials import RING_STUDS, Item
from fasten.catalog.rows import METRIC_CLEARANCE, MetricClearance
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.soft import named, staying
from fasten.mechanics.routing import clamp_count
from fasten.model import Carried, Question
from fasten.question import fields
from fasten.question.fields import CLAMP, LUG
from fasten.question.read_onto import find_item
from fasten.question.read_parts import MOST_FIXINGS
from fasten.record import replace
from fasten.text.figures import figure, mm
from fasten.text.units import Dimension, number, write

_ROUND_OFF_MM = 1e-6


def suited(question: Question, item: Item, tables: Tables) -> Item:
    """The item's preset, suited to the run that is clamped or to the ring on its stud.

    Raises: FastenError where a field is of another item, or a rule of clamps or of ground joints forbids it.
    """
    for field in fields.FIELDS:
        of = field.of
        if of is not None and item.item != of.item and any(getattr(question, name) is not None for name in field.fills):
            what = f"{of.what}, not of {item.title}"
            raise FastenError(what, where=field.name, fix=f"leave it out, or ask for a {of.item}")
    if question.carries is not None and item.item in (CLAMP, LUG):
        what = f"a {item.title} carries its cable only"
        raise FastenError(what, where=fields.CARRIES.name, fix="leave it out, and give the mass with the cable")
    if item.item == CLAMP:
        return _clamps(question, item, tables)
    return _lug(question, item, tables) if item.item == LUG else item


def stud_of(question: Question, item: Item, tables: Tables) -> str:
    """The stud of a ground lug: as said, else the largest that passes the hole said, else as its cable usually has."""
    if question.ring is not None:
        return question.ring
    if question.item_hole_mm is None and question.cable_mm2 is not None:
        return _stud_of_cable(question.cable_mm2, tables)
    hole_mm = item.hole_mm if question.item_hole_mm is None else question.item_hole_mm
    passing = [stud for stud in _studs(tables) if _holes(stud, tables).fine_mm <= hole_mm + _ROUND_OFF_MM]
    if not passing:
        least = _studs(tables)[0]
        what = f"no stud of a ring terminal passes a hole of {write(hole_mm, Dimension.LENGTH)}"
        fix = f"measure again: the least, {least}, has {mm(_holes(least, tables).fine_mm)}"
        raise FastenError(what, where=fields.ITEM_HOLE.name, fix=fix)
    return max(passing, key=_size_mm)


def _stud_of_cable(cable_mm2: float, tables: Tables) -> str:
    """The stud that practice gives a cable: one size for power cable from a rule's size up, the next smaller below."""
    from_mm2, large_mm = (rule(tables, name).value for name in (Rules.GROUND_M8_CABLE, Rules.GROUND_M8))
    smaller = [stud for stud in _studs(tables) if _size_mm(stud) < large_mm]
    large = [stud for stud in _studs(tables) if _size_mm(stud) >= large_mm]
    return large[0] if cable_mm2 >= from_mm2 else smaller[-1]


def _studs(tables: Tables) -> list[str]:
    """Every stud that rings are made for, by size."""
    return [row.stud for row in tables.rows(RING_STUDS)]


def carried(question: Question, top_mm: float, tables: Tables) -> tuple[Carried, ...]:
    """What the item carries, every mass and height filled: it stands on the item, its centre half its height over it.

    `top_mm` is how far the item's face stands off the panel. A height that is assumed is at least the rule's, as the
    item's own is.
    """
    least_mm = rule(tables, Rules.MIN_CG).value
    found = []
    for thing in question.carries or ():
        row = find_item(thing.name, tables, fields.CARRIES.name) if thing.name is not None else None
        over_mm = max(row.height_mm / 2 if row is not None else least_mm, least_mm)
        mass_kg = thing.mass_kg if thing.mass_kg is not None else row.mass_kg if row is not None else 0.0
        found.append(Carried(thing.name, mass_kg, top_mm + over_mm if thing.cg_mm is None else thing.cg_mm))
    return tuple(found)


def together(masses_kg: list[float], heights_mm: list[float]) -> tuple[float, float]:
    """Mass and height of the centre of gravity of things together, the height weighted by mass."""
    total_kg = sum(masses_kg)
    return total_kg, sum(m * h for m, h in zip(masses_kg, heights_mm, strict=True)) / total_kg


# -- clamps along a cable ---------------------------------------------------------------------------------------------


def _clamps(question: Question, item: Item, tables: Tables) -> Item:
    """As many clamps as the run asks for, in a row from the first to the last."""
    spacing_mm, end_mm = (rule(tables, name).value for name in (Rules.CLAMP_SPACING, Rules.CLAMP_FROM_END))
    pattern, count = question.pattern, question.fixings
    if pattern is not None and pattern.kind != "row":
        raise FastenError(
            "clamps sit in a row along their cable", where=fields.PATTERN.name, fix="write row 300 mm, or leave it out"
        )
    if pattern is not None and pattern.a_mm > spacing_mm + _ROUND_OFF_MM:
        what = f"clamps {mm(pattern.a_mm)} apart are too far: {mm(spacing_mm)} is the most"
        raise FastenError(what, where=fields.PATTERN.name, fix=f"write row {mm(spacing_mm)} or less, or leave it out")
    if question.run_mm is None:
        if count is not None and count > 1 and pattern is None:
            what = f"{count} clamps sit along a run of cable, and it is not said"
            raise FastenError(what, where=fields.RUN.name, fix="say how long it is, such as 1.2 m")
        return _in_a_row(item, count or 1, count or 1, spacing_mm)
    pitch_mm = spacing_mm if pattern is None else pattern.a_mm
    least = clamp_count(run_mm=question.run_mm, spacing_mm=pitch_mm, end_mm=end_mm)
    count = least if count is None else count
    _check_clamps(question.run_mm, count, least, f"{mm(pitch_mm)} apart and {mm(end_mm)} from each end at most")
    if pattern is not None and (count - 1) * pattern.a_mm > question.run_mm + _ROUND_OFF_MM:
        what = f"{count} clamps {mm(pattern.a_mm)} apart are longer than the run"
        raise FastenError(what, where=fields.PATTERN.name, fix="bring them closer or leave it out")
    # The preset weighs one clamp with the cable to the next: more clamps than asked for do not make the cable heavier.
    weighing = clamp_count(run_mm=question.run_mm, spacing_mm=spacing_mm, end_mm=end_mm)
    return _in_a_row(item, count, weighing, _pitch_mm(question.run_mm, count, end_mm))


def _check_clamps(run_mm: float, count: int, least: int, apart: str) -> None:
    """Refuse fewer clamps than the run asks for, and a run that asks for more than one mount point holds."""
    run = f"{number(run_mm / 1000, 3)} m of cable"
    if least > MOST_FIXINGS:
        what = f"{run} asks for {least} clamps, and one mount point has {MOST_FIXINGS} at most"
        raise FastenError(what, where=fields.RUN.name, fix="ask for it in parts")
    if count < least:
        few = "one clamp is" if count == 1 else f"{count} clamps are"
        what = f"{few} too few for {run}: {apart}, it takes {least}"
        raise FastenError(what, where=fields.FIXINGS.name, fix=f"say {least} or more, or leave it out")


def _pitch_mm(run_mm: float, count: int, end_mm: float) -> float:
    """Even spacing; the ends stand out half a spacing where that is less than the most that they may."""
    out_mm = min(end_mm, run_mm / (2 * count))
    return (run_mm - 2 * out_mm) / max(count - 1, 1)


def _in_a_row(item: Item, count: int, weighing: int, pitch_mm: float) -> Item:
    return replace(item, fixings=count, mass_kg=item.mass_kg * weighing, pattern=f"row {number(pitch_mm, 6)} mm")


# -- rings on a stud --------------------------------------------------------------------------------------------------


def _lug(question: Question, item: Item, tables: Tables) -> Item:
    """Rings one on another, with the hole of their stud."""
    stud = stud_of(question, item, tables)
    rings = 1 if question.rings is None else question.rings
    _check_stud(question, stud, tables)
    _check_rings(rings, tables)
    _check_lies_flat(question)
    return replace(
        item, mass_kg=item.mass_kg * rings, thickness_mm=item.thickness_mm * rings, hole_mm=_holes(stud, tables).fine_mm
    )


def _check_stud(question: Question, stud: str, tables: Tables) -> None:
    """The ring's hole passes its stud and no larger one."""
    holes, hole_mm = _holes(stud, tables), question.item_hole_mm
    if hole_mm is not None and not holes.fine_mm - _ROUND_OFF_MM <= hole_mm <= holes.coarse_mm + _ROUND_OFF_MM:
        what = f"a ring for {stud} has a hole of {figure(holes.fine_mm)} to {mm(holes.coarse_mm)}, not {mm(hole_mm)}"
        raise FastenError(what, where=fields.ITEM_HOLE.name, fix="leave it out, or say the ring that has it")


def _check_rings(rings: int, tables: Tables) -> None:
    most = rule(tables, Rules.GROUND_RINGS).value
    if rings > most:
        what = f"{rings} rings are too many for one stud: {figure(most)} are the most (AC 21-99)"
        raise FastenError(what, where=fields.RINGS.name, fix="give the rest a stud of their own")


def _check_lies_flat(question: Question) -> None:
    if question.fixings is not None and question.fixings > 1:
        what = f"a ground lug sits on one stud, not {question.fixings}"
        raise FastenError(what, where=fields.FIXINGS.name, fix="leave it out; several rings on it are rings")
    if soft := named(staying(question.between)):
        what = f"a ground lug lies on bare metal, with no {soft} between"
        raise FastenError(
            what, where=fields.BETWEEN.name, fix=f"take the {soft} away there, and write cut out behind it"
        )


def _size_mm(stud: str) -> float:
    return float(stud[1:])


def _holes(stud: str, tables: Tables) -> MetricClearance:
    row = tables.find(METRIC_CLEARANCE, stud)
    if row is None:
        raise FastenError(f"no clearance hole of {stud} is known", where=fields.RING.name, fix="take another ring")
    return row
