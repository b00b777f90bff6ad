"""What a run takes in the box: terminals, sleeves, fuses, cable, heat-shrink, markers and tools."""

from collections.abc import Iterator

from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import RUN_TOOLS
from fasten.model import end_kinds
from fasten.model.end_kinds import EndKind
from fasten.model.line import LineId, Part, Sort
from fasten.model.plan import ConsumableNeed, PartNeed, ToolNeed
from fasten.text.figures import figure, id_size, words
from fasten.text.names import plain_name
from fasten.wiring.conditions import Done, applies
from fasten.wiring.covers import Shrink
from fasten.wiring.ends import EndPart
from fasten.wiring.pieces import PAIR, Piece, end_text, in_block
from fasten.wiring.words import Unsized

CABLE, SHRINK, MARKER, SOLDER = "cable", "heat-shrink", "wire marker", "solder"
OTHER = "other"  # the heading of tools that set, tap and drive nothing


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
        yield _need(part, count)
    fuse = done.sizing.fuse
    if fuse is not None:
        size = f"{figure(fuse.rating_a)} A"
        yield _need(EndPart(end_kinds.FUSE, size, "", fuse.family.family, ""), fuse.count)
        if not in_block(done.sizing.run):
            yield _need(EndPart(end_kinds.FUSE_HOLDER, "", "", fuse.family.family, ""), fuse.count)


def sizes_of(part: EndPart) -> tuple[str, str, str, str]:
    """What the line of a part is found again by, beside its kind."""
    return part.size, part.stud, part.type_, part.colour


def _need(part: EndPart, count: int) -> PartNeed:
    kind: EndKind = part.kind
    sizes = sizes_of(part)
    size = f"{part.size} {part.stud}".strip()
    listed = Part(kind.line, size, words(part.type_), part.colour, None)
    return PartNeed(LineId(Sort.PART, kind.key, sizes), listed, "", kind.listed, kind.spares, count, 0)


def consumable_needs(done: Done) -> Iterator[ConsumableNeed]:
    """Cable by colour, heat-shrink by size, and markers."""
    yield from _cables(done)
    yield from _shrinks(done)
    count = float(len(markers_of(done)))
    yield ConsumableNeed(LineId(Sort.CONSUMABLE, MARKER), (MARKER,), "", None, count, "piece", 0.0, 0.0,
                         shared=False)  # fmt: skip


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
    step, _ = rule_figure(done.tables, WiringRules.PACK_STEP)
    run = done.sizing.run
    for colour in dict.fromkeys(piece.colour for piece in done.made.pieces):
        said = (done.sizing.size.name, run.material.value, id_size(run.insulation_c) if run.marked else "", colour)
        cut_mm = sum(piece.cut_mm for piece in pieces_of(done, colour))
        yield ConsumableNeed(
            LineId(Sort.CONSUMABLE, CABLE, said), (CABLE,), cable_detail(done, colour), None, cut_mm, "mm", 0.0,
            more / 100, shared=False, waste_least=least, step=step,
        )  # fmt: skip


def _shrinks(done: Done) -> Iterator[ConsumableNeed]:
    more, _ = rule_figure(done.tables, WiringRules.SHRINK_SPARE)
    step, _ = rule_figure(done.tables, WiringRules.PACK_STEP)
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
    crimping = (end.tool for end in done.made.ends if end.tool is not None)
    others = (row.tool for row in done.tables.rows(RUN_TOOLS) if applies(row.only_if, held))
    for name in dict.fromkeys((*crimping, *others)):
        yield ToolNeed(LineId(Sort.TOOL, name), OTHER, name, name, "", frozenset({plain_name(name)}))
