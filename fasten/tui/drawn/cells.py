"""Dots to cells: each gets the glyph and the two tones by which the fewest of its dots are wrong.

A cell is 8 dots along the axis by 2 across. What is drawn are parts: a tone from place to place along, between two
radii, painted one over the other. Turned parts are lit from above in three tones; a thread is drawn as its roots.
"""

from collections.abc import Sequence
from functools import lru_cache

from fasten.record import record
from fasten.tui.drawn.runs import Line, Run, joined

ALONG = 8
"""Dots of a cell along the axis."""

FULL, SIXTEEN, NONE = "full", "sixteen", "none"
"""How many tones the screen has: as many as wanted, the terminal's own sixteen, none but its text."""

_TURNED = ("screw", "receiver")
_TONES = (
    "paper", "screw", "screw-lit", "screw-shade", "screw-root", "receiver", "receiver-lit", "receiver-shade",
    "sheet", "item", "item-board", "item-plastic", "plate", "board", "plastic", "soft", "behind", "unknown", "jacket",
    "ghost",
)  # fmt: skip
_CODE = {tone: code for code, tone in enumerate(_TONES)}
_TEXTURE = {
    "item": "╱", "item-board": "╱", "item-plastic": "╱", "plate": "╲", "board": "╲", "plastic": "·", "soft": "░",
    "behind": "#",
}  # fmt: skip
_OF = {"item-board": "board", "item-plastic": "plastic", "plate": "item", "unknown": "open"}  # the roles of these tones
_LETTERS = {"unknown": ("?", "bold open"), "ghost": (":", "quiet")}  # what is drawn as text on paper
_HATCH = {"paper": " ", "screw": "▓", "receiver": "▒", "sheet": "█", "jacket": "="} | _TEXTURE
_HATCH |= {tone: letter for tone, (letter, _) in _LETTERS.items()}
_PAPER, _SHEET, _GHOST, _SIDE = _CODE["paper"], _CODE["sheet"], _CODE["ghost"], 2 * ALONG
_EIGHTHS = " ▏▎▍▌▋▊▉█"
_QUARTERS = {"▘": 1, "▝": 2, "▖": 4, "▗": 8, "▀": 3, "▛": 7, "▜": 11, "▙": 13, "▟": 14, "▚": 9, "▞": 6}
_MASKS = {
    glyph: tuple(dot % ALONG < count for dot in range(_SIDE)) for count, glyph in enumerate(_EIGHTHS) if 0 < count < 8
}
_MASKS |= {
    glyph: tuple(bool(quarters >> (dot // ALONG * 2 + dot % ALONG // 4) & 1) for dot in range(_SIDE))
    for glyph, quarters in _QUARTERS.items()
}
_LIT = -0.8, -0.15  # of the radius, above the axis for less than 0
_SHADE = {"screw": 0.45, "receiver": 0.0}  # the same, from where on; a receiver is dark wherever the dark of a screw is
_LEAST_STEP = 12  # dots a pitch, from which a thread is drawn
_ROOT = 0.55  # of a pitch, where its root begins


@record
class Part:
    """A tone from dot to dot along the axis, between two radii; `step` is the pitch of its thread in dots, or 0.

    A turned part that is not `lit` has one tone at any height.
    """

    tone: str
    start: int
    end: int
    inner_mm: float
    outer_mm: float
    step: float = 0.0
    lit: bool = True


def painted(parts: Sequence[Part], width: int, rows: int, per_mm: float, tones: str) -> list[Line]:
    """The parts in so many columns and rows, `per_mm` rows a millimetre, the axis in the middle."""
    lines = []
    for row in range(rows):
        centre = (row + 0.5 - rows / 2) / per_mm
        upper, lower = (_half(parts, width, centre, centre + side / per_mm, per_mm) for side in (-0.25, 0.25))
        starts = range(0, ALONG * width, ALONG)
        lines.append(joined(_shown(upper[at : at + ALONG] + lower[at : at + ALONG], tones) for at in starts))
    return lines


def _half(parts: Sequence[Part], width: int, centre: float, height: float, per_mm: float) -> bytes:
    """The tones of a half row, at its height over the axis; the light falls on whole rows, by their centre."""
    dots = bytearray([_PAPER]) * (ALONG * width)
    for part in parts:
        if not part.inner_mm <= abs(height) < part.outer_mm:
            continue
        start, end = max(part.start, 0), min(part.end, len(dots))
        if end > start:
            tone = _lit(part.tone, centre / part.outer_mm) if part.lit else part.tone
            dots[start:end] = bytes([_CODE[tone]]) * (end - start)
            # A cell split across cannot be split along too: roots are drawn in whole rows.
            if part.step >= _LEAST_STEP and abs(centre) + 0.25 / per_mm < part.outer_mm:
                _cut_roots(dots, start, end, part.step)
    return bytes(dots)


def _cut_roots(dots: bytearray, start: int, end: int, step: float) -> None:
    for turn in range(int((end - start) / step)):
        first, last = start + round((turn + _ROOT) * step), start + round((turn + 1) * step)
        dots[first:last] = bytes([_CODE["screw-root"]]) * (last - first)


def _lit(tone: str, height: float) -> str:
    if tone not in _TURNED:
        return tone
    return f"{tone}-lit" if _LIT[0] < height < _LIT[1] else f"{tone}-shade" if height > _SHADE[tone] else tone


@lru_cache(16384)
def _shown(dots: bytes, tones: str) -> Run:
    """A cell as it is shown: its glyph, and its tones as roles."""
    if tones == NONE:
        return _hatched(dots), ""
    glyph, fore_code, back_code = cell(dots if _GHOST not in dots else _without_ghost(dots))
    fore, back = _TONES[fore_code], _TONES[back_code]
    return _filled(fore, tones) if glyph == " " else (glyph, f"{_role(fore)} on {_role(back)}")


def _without_ghost(dots: bytes) -> bytes:
    """Of a ghost that fills half a cell on paper all of it; of a part and its ghost the part."""
    is_seen = dots.count(_GHOST) + dots.count(_PAPER) == _SIDE and dots.count(_GHOST) >= ALONG
    return bytes([_GHOST]) * _SIDE if is_seen else dots.replace(bytes([_GHOST]), bytes([_PAPER]))


def _filled(tone: str, tones: str) -> Run:
    """A cell of one tone."""
    if tone == "paper":
        return " ", ""
    if tones == SIXTEEN and tone.startswith("receiver"):
        return _HATCH["receiver"], "receiver on paper"
    if tone in _LETTERS:
        return _LETTERS[tone]
    return (_TEXTURE[tone], f"{_role(tone)}-mark on {_role(tone)}") if tone in _TEXTURE else ("█", tone)


def _role(tone: str) -> str:
    return _OF.get(tone, tone)


@lru_cache(16384)
def cell(dots: bytes) -> tuple[str, int, int]:
    """The glyph nearest to 16 dots, upper half first, and the tones before and behind; ties go to the eighths."""
    if dots.count(dots[0]) == _SIDE:
        return " ", dots[0], dots[0]
    plain = _most(dots)
    best = _SIDE - dots.count(plain), " ", plain, plain
    for glyph, mask in _MASKS.items():
        inside, outside = (bytes(d for d, m in zip(dots, mask, strict=True) if m is side) for side in (True, False))
        fore, back = _most(inside), _most(outside)
        wrong = _SIDE - inside.count(fore) - outside.count(back)
        if wrong < best[0]:
            best = wrong, glyph, fore, back
    return best[1:]


def _most(dots: bytes) -> int:
    return max(sorted(set(dots)), key=dots.count)


def _hatched(dots: bytes) -> str:
    """Without tones each part has a hatch of its own, and a sheet keeps its eighths."""
    if set(dots) == {_SHEET, _PAPER}:
        return _EIGHTHS[max(dots[:ALONG].count(_SHEET), dots[ALONG:].count(_SHEET))]
    dots = _without_ghost(dots) if _GHOST in dots else dots
    parts = bytes(_CODE[_TONES[dot].partition("-")[0]] for dot in dots)
    return _HATCH[_TONES[max(sorted(set(parts), reverse=True), key=parts.count)]]  # half a cell counts as a part
