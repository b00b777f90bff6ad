"""Sections of a job: what holds, covers and protects the cables that lie together; how a way of cable is planned.

where  = engine-bay | underfloor | open | channel
cover  = tube | tape | none
"""

from collections.abc import Iterator, Mapping
from enum import Enum
from math import ceil

from fasten.advice.steps import PLACES, ids_of, in_order
from fasten.advice.tasks import once
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import (
    CABLE_TIES,
    CONVOLUTED_TUBES,
    LINED_CLAMPS,
    WAY_STEPS,
    CableTie,
)
from fasten.errors import FastenError
from fasten.mechanics.routing import clamp_count
from fasten.mechanics.wiring import tape_mm, tie_count
from fasten.model import Check, Input, MadeTo, Phase, Task, WorkStep
from fasten.model.line import LineId, Sort
from fasten.model.plan import BitNeed, ConsumableNeed, Label, PartNeed, Plan, ToolNeed, Work
from fasten.proof.checks import at_most, waits
from fasten.record import record, replace
from fasten.text import units
from fasten.text.figures import counted, figure, id_size
from fasten.text.names import choice
from fasten.text.shown import shown
from fasten.text.units import Dimension, number
from fasten.wiring.bundle import Bundle, bundle_check, bundle_of
from fasten.wiring.conditions import applies
from fasten.wiring.end_parts import lined_clamp, need_of
from fasten.wiring.sizing import Sizing
from fasten.wiring.words import Loudspeaker, Unsized

SECTION, HOLE = "section", "hole"
TIE, TAPE, TUBE = "cable tie", "harness tape", "convoluted tube"
MM = "mm"
SLACK_MM = 1.0  # by which two lengths that are said of the same cable may differ
_SEATMM = 0.5  # by which a hole may differ from that of its grommet


class Lies(Enum):
    """Where a section lies."""

    ENGINE_BAY = "engine-bay"
    UNDERFLOOR = "underfloor"
    OPEN = "open"
    CHANNEL = "channel"


class Cover(Enum):
    """What covers a section."""

    TUBE = "tube"
    TAPE = "tape"
    NONE = "none"


@record
class Way:
    """A section or hole as it is answered: its parts, checks and what its steps say; `made_mm` is the hole it makes."""

    title: str
    checks: tuple[Check, ...]
    parts: tuple[PartNeed, ...]
    consumables: tuple[ConsumableNeed, ...]
    held: frozenset[str]
    blanks: Mapping[str, str]
    bits: tuple[BitNeed, ...] = ()
    made_mm: float | None = None
    tools: tuple[ToolNeed, ...] = ()


def read_length_of(said: Mapping[str, str], name: str, where: str) -> float:
    """A length that a section or hole cannot do without; raises FastenError where it is not said."""
    if not said.get(name, "").strip():
        raise FastenError("nothing is said", where=where, fix="write it, such as 1.2 m")
    return units.read(said[name], Dimension.LENGTH, where)


def section_plan(
    name: str,
    said: Mapping[str, str],
    runs: tuple[Sizing, ...],
    *,
    clamps: int | None,
    tables: Tables,
    seen: frozenset[str] = frozenset(),
) -> Plan:
    """The plan of a section; `clamps` is how many a mount point of the job has, None where none has them.

    `seen` is as of its bundle.

    Raises: FastenError where its place or length is not said, or is none.
    """
    lies = choice(said.get("where", "") or Lies.OPEN.value, {one.value: one for one in Lies}, "where")
    cover = choice(said.get("cover", "") or Cover.NONE.value, {one.value: one for one in Cover}, "cover")
    length_mm = read_length_of(said, "length", "length")
    bundle = bundle_of(runs, tables, seen)
    tied = lies is Lies.CHANNEL
    held_by = _tied(length_mm, bundle, tables) if tied else _clamped(lies, length_mm, bundle, clamps, tables)
    unplaced = () if said.get("where", "").strip() else (_unplaced(name),)
    lacking = () if tied or clamps is not None else (_no_clamps(name, length_mm, held_by),)
    checks = (*bundled(bundle, name), *held_by.checks, *_mixed(runs), *lacking, *unplaced)
    covered = _covered(cover, length_mm, bundle, tables)
    way = Way(
        title=f"{counted(len(runs), 'run')}, {held_by.title}", checks=(*checks, *covered.checks),
        parts=held_by.parts, consumables=(*held_by.consumables, *covered.consumables),
        held=held_by.held | covered.held | ({"mixed"} if _mixed(runs) else set()),
        blanks={**held_by.blanks, **covered.blanks, **named_in(name, runs), "length": figure(length_mm)},
    )  # fmt: skip
    return plan_of_way(name, SECTION, way, tables)


def loaded_over_half(runs: tuple[Sizing, ...]) -> int:
    """How many conductors carry more than half of what they may in free air: these warm one another.

    A loudspeaker lead is two of them, as its current goes back beside itself.
    """
    return sum(
        2 if isinstance(one.run.carries, Loudspeaker) else 1 for one in runs
        if one.current is not None and one.conductor is not None and one.current.full_a > one.conductor.free_a / 2
    )  # fmt: skip


def plan_of_way(name: str, of: str, way: Way, tables: Tables) -> Plan:
    """The plan of a section or hole, `of` which the steps are that apply."""
    return Plan(
        name=name, title=way.title, checks=way.checks, parts=way.parts, bits=way.bits, tools=way.tools,
        consumables=way.consumables, work=Work(lambda: _tasks_of(of, way, tables)), cautions=(), remarks=(),
        label=Label(bit=None, target_nm=None, least_nm=None, by_feel=False, past_driving=False, held_by=""),
        is_recorded=False,
    )  # fmt: skip


def _tasks_of(of: str, way: Way, tables: Tables) -> tuple[Task, ...]:
    """The steps of a way as they are ticked, in the order of work."""
    rows = [row for row in tables.rows(WAY_STEPS) if row.of == of and applies(row.only_if, way.held)]
    ids = ids_of([(of, row.phase, str(row.step)) for row in rows], [row.only_if for row in rows])
    texts = ((row, row.text.format_map(way.blanks), id_) for row, id_ in zip(rows, ids, strict=True))
    steps = in_order(WorkStep(Phase(row.phase), row.step, text, id_) for row, text, id_ in texts)
    return tuple(_made_to(task, way.made_mm) for task in once(steps, tables))


def _made_to(task: Task, hole_mm: float | None) -> Task:
    """The same with the figure that a hole is opened up to, by which its tick and all that is done in it stand."""
    if hole_mm is None or PLACES[task.step.phase] < PLACES[Phase.OPEN_UP]:
        return task
    to = MadeTo(number(hole_mm, 2), MM)
    if task.step.phase is Phase.OPEN_UP:
        return replace(task, label="Open up to", figure=to)
    return replace(task, made_of=to.text)


def is_once_laid(phase: Phase) -> bool:
    """Whether a step of a section or hole comes only once the runs are made that go through it."""
    return PLACES[phase] >= PLACES[Phase.ROUTE]


def bundled(bundle: Bundle, name: str) -> tuple[Check, ...]:
    """What is known of the bundle: open where a cable is not measured, or none goes there."""
    if bundle.diameter_mm is None and not bundle.open_:
        needs = f"needs the runs that go through {name}: none names it"
        return (waits("bundle", "Bundle", MM, None, needs, (), "", ()),)
    return (bundle_check(bundle),) if bundle.open_ else ()


def _clamped(lies: Lies, length_mm: float, bundle: Bundle, clamps: int | None, tables: Tables) -> Way:
    """Held by lined clamps: as many as a mount point has, else as many as it would have."""
    hidden = lies in (Lies.ENGINE_BAY, Lies.UNDERFLOOR)
    spacing, _ = rule_figure(tables, WiringRules.CLAMP_HIDDEN if hidden else WiringRules.CLAMP_OPEN)
    end_mm = rule(tables, Rules.CLAMP_FROM_END).value
    count = clamps or clamp_count(run_mm=length_mm, spacing_mm=spacing, end_mm=end_mm)
    thick = bundle.diameter_mm
    row = None if thick is None else next(
        (row for row in tables.rows(LINED_CLAMPS) if row.least_mm <= thick <= row.most_mm), None
    )  # fmt: skip
    checks: tuple[Check, ...] = ()
    if thick is not None and row is None:
        needs = f"needs a lined clamp for {figure(thick)} mm: no size of the table holds it"
        checks = (waits("clamp", "Clamp", MM, thick, needs, (), "", ()),)
    elif thick is not None and row is not None and not bundle.open_:
        inputs = Input("least", row.least_mm, MM), Input("bundle", thick, MM)
        source = (tables.source_id(LINED_CLAMPS, row),)
        checks = (at_most("clamp", "Bundle, of what the clamp holds", thick, row.most_mm, MM, inputs,
                          "least <= bundle <= most", source),)  # fmt: skip
    parts = () if row is None else (need_of(lined_clamp(row), count),)
    clamp = "of its size" if row is None else row.size
    blanks = {"count": str(count), "clamp": clamp, "spacing": figure(spacing)}
    return Way(f"{count} lined clamps", checks, parts, (), frozenset({"clamped"}), blanks)


def _tied(length_mm: float, bundle: Bundle, tables: Tables) -> Way:
    spacing, _ = rule_figure(tables, WiringRules.TIE_CHANNEL)
    more, _ = rule_figure(tables, WiringRules.TIE_SPARE)
    bag, _ = rule_figure(tables, WiringRules.TIE_BAG)
    count = tie_count(length_mm=length_mm, spacing_mm=spacing)
    thick = bundle.diameter_mm or 0.0
    row = next((row for row in tables.rows(CABLE_TIES) if thick <= row.bundle_mm), tables.rows(CABLE_TIES)[-1])
    names = (*_longer(row, tables), TIE)
    need = ConsumableNeed(
        LineId(Sort.CONSUMABLE, TIE, (row.tie,)), names, row.tie, None, float(count), "piece", 0.0,
        more / 100, shared=False, step=bag,
    )  # fmt: skip
    inputs, source = (Input("bundle", thick, MM),), (tables.source_id(CABLE_TIES, row),)
    held = at_most(
        "tie", "Bundle, of what the tie goes round", thick, row.bundle_mm, MM, inputs, "bundle <= tie", source
    )
    blanks = {"count": str(count), "tie": row.tie, "spacing": figure(spacing)}
    checks = () if bundle.diameter_mm is None or bundle.open_ else (held,)
    return Way(f"{count} ties", checks, (), (need,), frozenset({"tied"}), blanks)


def _longer(row: CableTie, tables: Tables) -> Iterator[str]:
    """What a tie goes by that is as long or longer, and does as well: by its size or its length alone."""
    for tie in tables.rows(CABLE_TIES):
        if tie.bundle_mm >= row.bundle_mm:
            yield f"{TIE} {tie.tie.partition(' ')[0]} mm"
            if tie != row:
                yield from (f"{TIE} {tie.tie}", f"{TIE}, {tie.tie}")


def _covered(cover: Cover, length_mm: float, bundle: Bundle, tables: Tables) -> Way:
    thick, empty = bundle.diameter_mm, Way("", (), (), (), frozenset(), {})
    if cover is Cover.NONE or thick is None:
        return empty
    if cover is Cover.TAPE:
        more, _ = rule_figure(tables, WiringRules.TAPE_SPARE)
        wound = _wound_mm(thick, length_mm, tables)
        need = ConsumableNeed(LineId(Sort.CONSUMABLE, TAPE), (TAPE,), "", None, wound, MM, 0.0,
                              more / 100, shared=False)  # fmt: skip
        return Way("", (), (), (need,), frozenset({"tape"}), {})
    fill, _ = rule_figure(tables, WiringRules.TUBE_FILL)
    row = next((row for row in tables.rows(CONVOLUTED_TUBES) if thick <= fill * row.inside_mm), None)
    if row is None:
        needs = f"needs a tube for {figure(thick)} mm: none of the table is wide enough"
        return Way("", (waits("tube", "Tube", MM, thick, needs, (), "", ()),), (), (), frozenset(), {})
    inside = figure(row.inside_mm)
    need = ConsumableNeed(LineId(Sort.CONSUMABLE, TUBE, (id_size(row.inside_mm),)), (TUBE,),
                          f"{inside} mm inside", None, length_mm, MM, 0.0, 0.1, shared=False)  # fmt: skip
    return Way("", (), (), (need,), frozenset({"tube"}), {"tube": inside})


def _wound_mm(thick: float, length_mm: float, tables: Tables) -> float:
    width, _ = rule_figure(tables, WiringRules.TAPE_WIDTH)
    thickness, _ = rule_figure(tables, WiringRules.TAPE_THICKNESS)
    overlap, _ = rule_figure(tables, WiringRules.TAPE_OVERLAP)
    return tape_mm(bundle_mm=thick, width_mm=width, thickness_mm=thickness, overlap_share=overlap, length_mm=length_mm)


def _unplaced(name: str) -> Check:
    needs = f"needs where {name} lies: {', '.join(one.value for one in Lies)}"
    return waits("where", "Place of the section", "", None, needs, (), "", ())


def _no_clamps(name: str, length_mm: float, held_by: Way) -> Check:
    what = f"item wire-clamp, run {figure(ceil(length_mm))} mm"
    needs = f'needs a mount point for its {held_by.title}: name it "{name} clamps", {what}'
    return waits("clamps", "Clamps of the section", "", None, needs, (), "", ())


def too_short(said: Mapping[str, str], names: tuple[str, ...], clamped_mm: float) -> tuple[Check, ...]:
    """That the clamps of these mount points are for less cable than lies in the section; empty where they are not.

    Raises: FastenError where the length of the section is not said, or is none.
    """
    length_mm = read_length_of(said, "length", "length")
    if clamped_mm >= length_mm - SLACK_MM:
        return ()
    clamped = f"{', '.join(map(shown, names))} {'is' if len(names) == 1 else 'are'} for {figure(clamped_mm)} mm"
    needs = f"needs clamps for {figure(length_mm)} mm: {clamped}; say its run or the length of the section anew"
    inputs = Input("clamped", clamped_mm, MM), Input("section", length_mm, MM)
    return (waits("clamps", "Clamps of the section", "", None, needs, inputs, "", ()),)


def _mixed(runs: tuple[Sizing, ...]) -> tuple[Check, ...]:
    """Signal and data lie apart from power."""
    carried = {one.run.carries for one in runs if isinstance(one.run.carries, Unsized)}
    if not carried & {Unsized.SIGNAL, Unsized.DATA} or all(isinstance(one.run.carries, Unsized) for one in runs):
        return ()
    needs = "needs signal and data in a section of their own, 150 mm from power"
    return (waits("separation", "Signal beside power", MM, None, needs, (), "", ()),)


def named_in(name: str, runs: tuple[Sizing, ...]) -> dict[str, str]:
    """The names in its steps: its own, and of the runs that go there."""
    return {"name": name, "runs": ", ".join(one.run.name for one in runs) or "its cables"}
