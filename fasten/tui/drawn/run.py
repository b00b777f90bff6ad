"""A run of cable to scale along its length: the jacket plain, its colour named; ends and fuses not to scale.

Over it what each end and stop is, beneath it how long each piece is, and the sections it lies in, in their order.
"""

from collections.abc import Callable, Sequence

from rich.cells import cell_len

from fasten.record import record
from fasten.report.safe import safe
from fasten.report.wrap import packed
from fasten.text.rounding import rounded_up
from fasten.text.units import number
from fasten.tui.drawn.cells import ALONG, Part, painted
from fasten.tui.drawn.runs import Line, Run, plain
from fasten.wiring.ends import EndFit
from fasten.wiring.pieces import Made, Piece

_END, _STOP, _GAP = 2, 3, 2  # columns of an end, of what sits on the way, and before a ground lead
_MOST_NAMES = 2
_FULL, _CABLE = 1.0, 0.5  # radii, of half the height
_METAL, _STRAND, _NOT_KNOWN, _DEVICE = "screw", "receiver", "unknown", "plastic"


@record
class Lie:
    """A section of the run: what is said of it, the longest first, and how long it is."""

    forms: tuple[str, ...]
    length_mm: float


@record
class _Block:
    """An end or a stop: what it is called, its tone, and its columns."""

    name: str
    tone: str
    start: int
    wide: int


@record
class _Stretch:
    """A piece of cable or a section as drawn: what may be written at it, the longest first, and its columns.

    `whole` is what is said of it beneath all, where none of that has room.
    """

    forms: tuple[str, ...]
    whole: str
    start: int
    end: int


def run_lines(
    made: Made, sections: Sequence[Lie], width: int, rows: int, tones: str, holes: Sequence[str] = (), *,
    is_cut: bool = False,
) -> list[Line]:  # fmt: skip
    """The run in so many columns, the cable drawn in so many rows, with the names of the holes that it goes through.

    At each piece stands how long its way is, or how long it `is_cut`.
    """
    words = _cut_words if is_cut else _piece_words
    laid = _laid(made, width, words)
    if laid is None:
        return [((text, "quiet"),) for text in packed([words(piece) for piece in made.pieces], width)]
    blocks, stretches, scale = laid
    parts = [Part("jacket", ALONG * one.start, ALONG * one.end, 0.0, _CABLE) for one in stretches]
    parts += [Part(one.tone, ALONG * one.start, ALONG * (one.start + one.wide), 0.0, _FULL) for one in blocks]
    drawn = painted(parts, width, rows, rows / 2, tones)
    along = _sections(sections, stretches, blocks, scale, width)
    names, left = _names(blocks, width)
    said = " ".join(map(plain, along))
    left += [safe(one.forms[0]) for one in sections if not any(safe(form) in said for form in one.forms)]
    lengths, bare = _measured(stretches, width, "accent")
    notes = [*_notes(scale, bool(along), holes), *((f"without room for its name: {'; '.join(left)}",) if left else ())]
    return [
        *names, *drawn, lengths, *(((text, "accent"),) for text in packed([one.whole for one in bare], width)), *along,
        *(((text, "quiet"),) for text in packed(notes, width)),
    ]  # fmt: skip


def _laid(made: Made, width: int, words: Callable[[Piece], str]) -> tuple[list[_Block], list[_Stretch], float] | None:
    """Every end, stop and piece in its columns, and the columns a mm; None where the screen is too narrow for it."""
    chains = _chains(made.pieces)
    fixed = sum(2 * _END + _STOP * (len(chain) - 1) for chain in chains) + _GAP * (len(chains) - 1)
    lengths = [_route(piece) for chain in chains for piece in chain]
    room = width - fixed
    if room < 2 * len(lengths) or not lengths:
        return None
    scale = (room - len(lengths)) / sum(lengths)  # the shortest piece still takes a column
    blocks: list[_Block] = []
    stretches: list[_Stretch] = []
    at = 0
    for number_, chain in enumerate(chains):
        at += _GAP if number_ else 0
        for place, piece in enumerate(chain):
            is_first, is_last = place == 0, place == len(chain) - 1
            if is_first:
                blocks.append(_Block(piece.from_, _tone(piece.from_, made.ends), at, _END))
                at += _END
            wide = max(1, round(_route(piece) * scale))
            said = words(piece)
            whole = f"{safe(piece.from_)} to {safe(piece.to)}: {said}"
            stretches.append(_Stretch((said, said.removesuffix(f" {piece.colour}")), whole, at, at + wide))
            at += wide
            blocks.append(_stop(piece, made.ends, at, is_last=is_last))
            at += blocks[-1].wide
    return blocks, stretches, scale


def _stop(piece: Piece, ends: Sequence[EndFit], at: int, *, is_last: bool) -> _Block:
    """What a piece ends at: the end of the run, or a fuse or device on its way with an end on either side."""
    if is_last:
        return _Block(piece.to, _tone(piece.to, ends), at, _END)
    return _Block(piece.to, _DEVICE, at, _STOP)


def _chains(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Pieces that go on where another ends, together; a ground lead begins anew."""
    chains: list[list[Piece]] = []
    for piece in pieces:
        if chains and chains[-1][-1].to == piece.from_:
            chains[-1].append(piece)
        else:
            chains.append([piece])
    return chains


def _route(piece: Piece) -> float:
    return piece.cut_mm if piece.route_mm is None else piece.route_mm


def _piece_words(piece: Piece) -> str:
    return f"{_metres(piece)} {piece.colour}"


def _cut_words(piece: Piece) -> str:
    about = "about " if piece.route_mm is None else ""
    return f"{about}{rounded_up(piece.cut_mm / 1000, 2)} m {piece.colour}"


def _metres(piece: Piece) -> str:
    about = "about " if piece.route_mm is None else ""
    return f"{about}{number(_route(piece) / 1000, 2)} m"


def _tone(name: str, ends: Sequence[EndFit]) -> str:
    """Metal where a part is crimped on, copper where it is bare, not known where its terminal is not said."""
    end = next((end for end in ends if end.label == name or end.label.startswith(f"{name} ")), None)
    if end is None or (end.part is None and end.bare is None):
        return _NOT_KNOWN
    return _METAL if end.part is not None else _STRAND


def _names(blocks: Sequence[_Block], width: int) -> tuple[list[Line], list[str]]:
    """The name of each end and stop over it, in two rows at most, and the names that found no room there.

    A name stands on the side of its mark that has more room.
    """
    rows: list[list[Run]] = [[] for _ in range(_MOST_NAMES)]
    left = []
    for block in blocks:
        if not any(_put(row, block, width) for row in reversed(rows)):
            left.append(safe(block.name))
    return [tuple(run for run in row if run[0]) for row in rows if row], left


def _put(row: list[Run], block: _Block, width: int) -> bool:
    """Put the name of a block into a row after what stands there; whether there was room."""
    used, at, name = sum(cell_len(text) for text, _ in row), block.start + block.wide // 2, safe(block.name)
    start = used + bool(row)
    fits = {"right": at >= start and at + 1 + cell_len(name) <= width, "left": at - cell_len(name) >= start}
    sides = ("left", "right") if at > width / 2 else ("right", "left")
    side = next((side for side in sides if fits[side]), "")
    if side == "right":
        row += [(" " * (at - used), ""), ("╷", "quiet"), (name, "quiet")]
    elif side:
        row += [(" " * (at - cell_len(name) - used), ""), (name, "quiet"), ("╷", "quiet")]
    return bool(side)


def _measured(stretches: Sequence[_Stretch], width: int, role: str) -> tuple[Line, list[_Stretch]]:
    """Each piece under itself: a line from end to end with its length in it, or beside it where that has room.

    And those of which nothing found room.
    """
    runs: list[Run] = []
    bare: list[_Stretch] = []
    used = 0
    for at, one in enumerate(stretches):
        limit = stretches[at + 1].start if at + 1 < len(stretches) else width
        if one.start < used:
            bare.append(one)
            continue
        text = _between(one, limit)
        bare += [] if any(form in text for form in one.forms) else [one]
        runs += [(" " * (one.start - used), ""), (text, role)]
        used = one.start + cell_len(text)
    return tuple(run for run in runs if run[0]), bare


def _between(one: _Stretch, limit: int) -> str:
    """The line of a stretch with the longest wording that fits in it, else beside it before what comes next."""
    inner = one.end - one.start - 2
    inside = next((form for form in one.forms if cell_len(form) + 2 <= inner), None)
    if inside is not None:
        return "├" + f" {inside} ".center(inner, "─") + "┤"
    text = "├" + "─" * inner + "┤" if inner >= 0 else "│"
    beside = next((form for form in one.forms if one.start + cell_len(text) + 1 + cell_len(form) < limit), None)
    return text if beside is None else f"{text} {beside}"


def _sections(
    sections: Sequence[Lie], stretches: Sequence[_Stretch], blocks: Sequence[_Block], scale: float, width: int
) -> list[Line]:
    """The sections in their order from where the run begins; where between them each lies is not said."""
    if not sections or not stretches:
        return []
    at, found = stretches[0].start, []
    for one in sections:
        end = min(at + max(1, round(one.length_mm * scale)), blocks[-1].start)
        if end > at:
            found.append(_Stretch(tuple(map(safe, one.forms)), "", at, end))
        at = end
    return [_measured(found, width, "quiet")[0]]


def _notes(scale: float, has_sections: bool, holes: Sequence[str]) -> list[str]:
    """The scale, and what the drawing does not show as it is."""
    bar = next(mm for mm in (100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000, 10**6) if mm * scale >= 4)
    ruler = f"scale ├{'─' * max(round(bar * scale) - 2, 0)}┤ {number(bar / 1000, 1)} m"
    order = ["sections in their order, not where they begin"] if has_sections else []
    through = [f"through {', '.join(map(safe, holes))}: where along it is not said"] if holes else []
    return [ruler, "ends not to scale", *order, *through]
