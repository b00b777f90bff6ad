"""What a run takes in the box: terminals, sleeves, fuses, cable, heat-shrink, markers and tools."""

from collections.abc import Iterator
from math import ceil

from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model.line import LineId, Sort
from fasten.model.plan import ConsumableNeed, PartNeed, ToolNeed
from fasten.text.figures import figure, id_size
from fasten.wiring.conditions import Done, is_ready_made
from fasten.wiring.covers import Shrink
from fasten.wiring.end_parts import EndPart, block, fuse_holder, need_of, plugged_lead
from fasten.wiring.end_parts import fuse as fuse_of
from fasten.wiring.ends import Bare
from fasten.wiring.fuse import is_ground
from fasten.wiring.needs import needs_of, tool
from fasten.wiring.pieces import PAIR, Piece, end_text, in_block
from fasten.wiring.words import Unsized

CABLE, SHRINK, MARKER, SOLDER = "cable", "heat-shrink", "wire marker", "solder"
_DUST = 1e-9  # a route of 3 m takes a lead of 3 m, and none that is longer for the rounding of the machine
RUN = "wire"  # whose rows of tools and consumables these are


def part_words(part: EndPart) -> str:
    """A part of an end in a few words."""
    said = (part.kind.label, part.size, part.stud, part.colour)
    return " ".join(text for text in said if text)


def part_needs(done: Done) -> Iterator[PartNeed]:
    """Terminals, sleeves, fuses and holders, each once with how many are fitted."""
    counts: dict[EndPart, int] = {}
    for end in done.made.ends:
        if end.part is not None:
            counts[end.part] = counts.get(end.part, 0) + 1
    for part, count in counts.items():
        yield need_of(part, count)
    if outputs := done.sizing.run.block_outputs:
        yield need_of(block(outputs, grounds=is_ground(done.sizing.run)), 1)
    carries, step = done.sizing.run.carries, _step(done)
    if is_ready_made(done) and isinstance(carries, Unsized):
        yield need_of(plugged_lead(carries, ceil(done.sizing.run.length_mm / step - _DUST) * step), 1)
    fuse = done.sizing.fuse
    if fuse is not None:
        yield need_of(fuse_of(fuse.rating_a, fuse.family), fuse.count)
        if not in_block(done.sizing.run):
            yield need_of(fuse_holder(fuse.family), fuse.count)


def consumable_needs(done: Done, held: frozenset[str]) -> Iterator[ConsumableNeed]:
    """Cable by colour, heat-shrink by size, markers, solder and what protects the joint."""
    yield from () if is_ready_made(done) else _cables(done)
    yield from _shrinks(done)
    count = float(len(markers_of(done)))
    yield ConsumableNeed(LineId(Sort.CONSUMABLE, MARKER), (MARKER,), "", None, count, "piece", 0.0, 0.0,
                         shared=False)  # fmt: skip
    if any(end.bare is Bare.SOLDERED for end in done.made.ends):
        yield ConsumableNeed(LineId(Sort.CONSUMABLE, SOLDER), (SOLDER,), "", None, None, "", 0.0, 0.0, shared=True)
    yield from needs_of(RUN, held, done.tables)[1]


def _step(done: Done) -> float:
    return rule_figure(done.tables, WiringRules.PACK_STEP)[0]


def cable_detail(done: Done, colour: str) -> str:
    """What must be said of cable to buy it."""
    run = done.sizing.run
    marked = f"marked {figure(run.insulation_c)} °C" if run.marked else "as at hand"
    pair = "two conductors" if colour == PAIR else ""
    asked = () if isinstance(run.carries, Unsized) else ("fine strand", marked)
    return ", ".join(filter(None, (done.sizing.size.name, run.material.value, pair, *asked, "" if pair else colour)))


def pieces_of(done: Done, colour: str) -> list[Piece]:
    """The pieces of one colour."""
    return [piece for piece in done.made.pieces if piece.colour == colour]


def _cables(done: Done) -> Iterator[ConsumableNeed]:
    more, _ = rule_figure(done.tables, WiringRules.PACK_MORE)
    least, _ = rule_figure(done.tables, WiringRules.PACK_LEAST)
    step, run = _step(done), done.sizing.run
    for colour in dict.fromkeys(piece.colour for piece in done.made.pieces):
        said = (done.sizing.size.name, run.material.value, id_size(run.insulation_c) if run.marked else "", colour)
        cut_mm = sum(piece.cut_mm for piece in pieces_of(done, colour))
        yield ConsumableNeed(
            LineId(Sort.CONSUMABLE, CABLE, said), (CABLE,), cable_detail(done, colour), None, cut_mm, "mm", 0.0,
            more / 100, shared=False, waste_least=least, step=step,
        )  # fmt: skip


def _shrinks(done: Done) -> Iterator[ConsumableNeed]:
    more, _ = rule_figure(done.tables, WiringRules.SHRINK_SPARE)
    step = _step(done)
    found: dict[str, list[Shrink]] = {}
    for end in done.made.ends:
        if end.shrink is not None:
            found.setdefault(end.shrink.row.size, []).append(end.shrink)
    for size, shrinks in found.items():
        ratio = shrinks[0].row.ratio
        yield ConsumableNeed(
            LineId(Sort.CONSUMABLE, SHRINK, (size, ratio)), (SHRINK,), f"{size} mm, {ratio}, adhesive", None,
            sum(shrink.cut_mm for shrink in shrinks), "mm", 0.0, more / 100, shared=False, step=step,
        )  # fmt: skip


def markers_of(done: Done) -> tuple[str, ...]:
    """Where the markers of a run go: at its two ends, and a third in the middle of a long one."""
    over, _ = rule_figure(done.tables, WiringRules.MARKER_OVER)
    run = done.sizing.run
    ends = run.from_name or end_text(run.from_), run.to_name or end_text(run.to)
    return (*ends, *(("the middle",) if run.length_mm > over else ()))


def tool_needs(done: Done, held: frozenset[str]) -> Iterator[ToolNeed]:
    """What crimps, and what else the work takes."""
    crimping = dict.fromkeys(end.tool for end in done.made.ends if end.tool is not None)
    tools, _ = needs_of(RUN, held, done.tables)
    yield from (tool(key, done.tables) for key in crimping)
    yield from (one for one in tools if one.key not in crimping)
