"""The parts of a joint as they are painted: the slabs of the section in text, in tones, under one scale each way."""

from collections.abc import Iterable, Iterator
from itertools import groupby
from math import ceil

from fasten.geometry.joint import drilled, limiter_of
from fasten.model import Joint
from fasten.model.kinds import End, Thread
from fasten.model.known import FarEnd, Plate
from fasten.record import record
from fasten.report.section.figures import thread_end_mm
from fasten.report.section.hatch import hatch_of
from fasten.report.section.heads import head_of
from fasten.report.section.layout import bores, needed_mm
from fasten.report.section.page import (
    FACE_SCALE,
    MARGIN,
    NEAR,
    SOLID,
    STRETCH,
    Page,
    Placed,
    Shank,
    at_scale,
    body_of,
    bulge_mm,
    columns,
    fitted,
    is_rivet,
    shank_or_none,
    stands_on,
    widest_mm,
)
from fasten.tui.drawn.across import Across, across_of
from fasten.tui.drawn.cells import ALONG, Part

_BEYOND = 1.2  # how far layers are drawn beyond the widest part, as a share of it
_FILLED = 0.6  # of the width, from which a joint is drawn under one scale though a longer one would fit
_LITTLE = 1.25  # times longer, up to which it is not worth another scale
_FAR_MM = 1e6
_TONES = {"board": "board", "wood": "board", "plastic": "plastic", "laminate": "plastic"}  # by hatch; else metal
_SET_WIDE, _SET_END = 1.35, 0.9  # radii of the set end of a rivet, as shares of its shank, as drawn: none is known
_BULGED = 0.6  # of the length of a bulge, over which it is as wide as it is
_CORE = 0.6134  # of the pitch, from the outside of a thread to its core: ISO 68-1
_WALL, _STEPS = 2, 4  # columns of what is behind; slices of a cone
_PLATE = 3  # dots of a plate whose thickness is not known
_SLICE = 2  # dots of a slice of a head
_THIN = 3.0  # rows, under which a screw is drawn in an even number of rows
_LEAST_ROWS = 5
_ROOMY, _GOES_ON = 60, 20  # columns from which, and in which, it is said that what is behind is further off
_OFF_MM = 0.005


@record
class Ghost:
    """What needs the space behind before the joint is made: from and to under the head, and its words."""

    start_mm: float
    end_mm: float
    words: str


@record
class Drawing:
    """A joint laid out: its page, how many rows it takes and how many a millimetre, its parts, what is behind it.

    `widened` names what is drawn wider across than it is.
    """

    page: Page
    rows: int
    per_mm: float
    parts: tuple[Part, ...]
    behind_mm: float | None
    wall: int | None
    ghost: Ghost | None
    widened: tuple[str, ...]

    @property
    def stretched(self) -> float:
        """How many times longer than thick it is drawn: a row is two columns high."""
        return self.page.scale / (2 * self.per_mm)


def laid_out(joint: Joint, behind_mm: float | None, width: int, rows: int) -> Drawing:
    """The joint in so many columns and at most so many rows; `behind_mm` is None where it is not given.

    One scale along and across where so many rows allow it; else it is drawn longer than it is thick.
    """
    page, per_mm = _scaled(joint, behind_mm, width, rows)
    used = min(rows, max(ceil(2 * _BEYOND * widest_mm(joint) * per_mm), _LEAST_ROWS))
    if page.shank is not None and 2 * page.shank.radius_mm * per_mm < _THIN and used % 2:
        if used == rows:
            return laid_out(joint, behind_mm, width, rows - 1)  # its axis falls between two rows
        used += 1
    wall, ghost, bored = _wall(page, behind_mm, width), _ghost(page), tuple(bores(joint, page.shank))
    across = across_of(page, bored, per_mm)
    parts = (
        *_unset(page, ghost, across), *_layers(page, bored, across), *_receiver(page, across),
        *_shank(page, across), *_touched(page, bored, across), *_behind(wall, behind_mm),
    )  # fmt: skip
    return Drawing(page, used, per_mm, parts, behind_mm, wall, ghost, across.widened)


def _scaled(joint: Joint, behind_mm: float | None, width: int, rows: int) -> tuple[Page, float]:
    """The page, and rows a millimetre."""
    most = rows / 2 / (_BEYOND * widest_mm(joint))
    is_further = behind_mm is not None and behind_mm > NEAR * needed_mm(joint) > 0 and width >= _ROOMY
    if shank_or_none(joint) is None:
        return fitted(joint, behind_mm, width, FACE_SCALE), most
    stretched = fitted(joint, behind_mm, width - _GOES_ON * is_further, STRETCH * most)
    if stretched.scale <= 2 * most:
        return stretched, stretched.scale / 2
    true = at_scale(joint, 2 * most)
    is_true = columns(true, behind_mm) >= _FILLED * width or stretched.scale < _LITTLE * true.scale
    return (true if is_true else stretched), most


def _dots(page: Page, mm: float) -> int:
    return round(ALONG * page.column(mm))


def _back(page: Page) -> int:
    """The far face of the substrate."""
    return ALONG * page.back.column + page.back.eighths


# -- layers -----------------------------------------------------------------------------------------------------------


def _layers(page: Page, bored: Iterable[float], across: Across) -> Iterator[Part]:
    before: list[str] = []
    layers = iter(page.joint.layers)
    for band, bore_mm in zip(page.placed, bored, strict=True):
        layer = None if band.slab.role == "flange" else next(layers)
        turned = layer is None or band.slab.role == "nut"
        tone = "receiver" if turned or layer is None else _tone(band, hatch_of(layer, before))
        outer_mm = _FAR_MM if band.slab.radius_mm is None else across.of(band.slab.radius_mm)
        start, end, inner_mm = _near(band), ALONG * band.column + band.eighths, across.of(bore_mm)
        bottom = _bottom(page, band, end)
        inner_mm = max(inner_mm, across.of(across.body_mm)) if layer is None else inner_mm
        yield Part(tone, start, bottom, inner_mm, outer_mm)
        if bottom < end:
            yield Part(tone, bottom, end, 0.0, outer_mm)
        limiter = limiter_of(page.joint)
        if limiter is not None and band.slab.role == "soft":
            yield Part("receiver", start, end, inner_mm, across.of(limiter.outer_mm / 2))


def _near(band: Placed) -> int:
    """Where a layer begins: a washer leaves a seam before it, as it may be as bright as the head on it."""
    seam = band.slab.role == "washer" and band.eighths > _PLATE
    return ALONG * band.column + seam


def _bottom(page: Page, band: Placed, end: int) -> int:
    """Where the hole ends: inside the substrate where it does not go through."""
    hole = page.joint.hole
    if band is not page.back or hole is None or hole.depth_mm is None:
        return end
    return min(_dots(page, band.start_mm + hole.depth_mm), end)


def _tone(band: Placed, hatch: str) -> str:
    """By what it is of: metal plain as a sheet or washer and textured as a plate; an item has a texture of its own."""
    if band.slab.role in {"soft", "patch"}:
        return "soft"
    if band.slab.role == "item":
        return f"item-{_TONES[hatch]}" if hatch in _TONES else "item"
    return _TONES.get(hatch, "sheet" if band.slab.char == SOLID else "plate")


# -- receiver ---------------------------------------------------------------------------------------------------------


def _receiver(page: Page, across: Across) -> Iterator[Part]:
    """The body of a receiver through the hole, its closed end, its bulge or its plate behind the sheet."""
    part, behind = body_of(page.joint), _back(page)
    if part is None:
        return
    body_mm = across.of(across.body_mm)
    inside_mm = thread_end_mm(page)
    flange = next((ALONG * band.column for band in page.placed if band.slab.role == "flange"), None)
    start = max(ALONG * page.front.column, _dots(page, inside_mm - part.length_mm)) if flange is None else flange
    end = max(_dots(page, inside_mm), start + ALONG)
    yield Part("receiver", start, end, 0.0, body_mm)
    yield Part("paper", start, end, 0.0, _core_mm(page, across))  # what of its thread no screw fills is hollow
    if part.end is FarEnd.CLOSED:
        shut = max(_dots(page, page.back.end_mm + page.joint.behind_done_mm), end + _PLATE)
        yield Part("receiver", end, shut, 0.0, body_mm)
    if bulge_mm(page.joint) > 0:
        wide_mm, long = across.of(bulge_mm(page.joint) / 2), max((end - behind) // 3, ALONG)
        full = behind + max(round(_BULGED * long), ALONG // 2)
        yield Part("receiver", behind, full, body_mm, wide_mm)
        yield from _cone("receiver", full, behind + long, wide_mm, body_mm, inner_mm=body_mm)
    if isinstance(part.flange, Plate):
        yield Part("receiver", behind, behind + _PLATE, body_mm, across.of(part.flange.across_mm / 2))


def has_plate(joint: Joint) -> bool:
    """Whether the receiver bears by a plate behind whose thickness no table gives."""
    part = body_of(joint)
    return part is not None and isinstance(part.flange, Plate)


def _ghost(page: Page) -> Ghost | None:
    """What stands out behind before the joint is made, where it then takes more room; the bit where nothing is set."""
    joint, back_mm = page.joint, page.back.end_mm
    if page.shank is None or joint.behind_set_mm <= joint.behind_done_mm + _OFF_MM:
        return None
    words = "the bit to its stop" if joint.receiver is None and not is_rivet(joint) else "before it is set"
    return Ghost(back_mm, back_mm + joint.behind_set_mm, words)


def _unset(page: Page, ghost: Ghost | None, across: Across) -> Iterator[Part]:
    if ghost is not None:
        radius_mm = across.of(across.body_mm or drilled(page.joint).diameter_mm / 2)
        yield Part("ghost", _back(page), max(_dots(page, ghost.end_mm), _back(page) + ALONG), 0.0, radius_mm)


# -- screw ------------------------------------------------------------------------------------------------------------


def _shank(page: Page, across: Across) -> Iterator[Part]:
    """Head and shank with its thread; a screw ends in a chamfer, or in a point where it has one."""
    shank, joint = page.shank, page.joint
    if shank is None:
        return
    under = ALONG * (MARGIN + page.head_cells)
    end = max(_dots(page, shank.end_mm), under + ALONG)
    if is_rivet(joint) and not stands_on(joint):
        behind = _back(page)
        shut = max(end, behind + ALONG)
        full, wide_mm = (behind + shut) // 2, across.of(_SET_WIDE * shank.radius_mm)
        yield Part("screw", behind, full, 0.0, wide_mm)
        yield from _cone("screw", full, shut, wide_mm, across.of(shank.radius_mm) * _SET_END)
    head_mm, shank_mm = across.of(shank.head_radius_mm), across.of(shank.radius_mm)
    if shank.sunk:
        yield from _cone("screw", under, under + round(ALONG * _sunk_mm(shank) * page.scale), head_mm, shank_mm)
    else:
        yield from _head(joint, under, head_mm, shank_mm)
    yield from _body(page, shank, under, end, across)


def _head(joint: Joint, under: int, head_mm: float, shank_mm: float) -> Iterator[Part]:
    """The head in its profile, in slices of one radius each; never narrower than the shank."""
    head, start = head_of(joint, is_nut=stands_on(joint)), ALONG * MARGIN

    def radius_mm(at: int) -> float:
        return max(head.radius((under - at - _SLICE / 2) / (under - start)) * head_mm, shank_mm)

    for radius, slices in groupby(range(start, under, _SLICE), key=radius_mm):
        found = tuple(slices)
        yield Part("screw", found[0], found[-1] + _SLICE, 0.0, radius)


def _touched(page: Page, bored: Iterable[float], across: Across) -> Iterator[Part]:
    """The rim of the screw where plain sheet lies close round it: lit, it would be as bright as the sheet."""
    shank = page.shank
    for band, bore_mm in zip(page.placed, bored, strict=True):
        if shank is not None and band.slab.char == SOLID and across.of(bore_mm) <= across.of(shank.radius_mm):
            outer_mm = across.of(shank.radius_mm)
            inner_mm = max(outer_mm - 1.0 / across.per_mm, 0.0)
            yield Part("screw", _near(band), _near(band) + band.eighths, inner_mm, outer_mm, lit=False)


def _sunk_mm(shank: Shank) -> float:
    return shank.head_mm or shank.head_radius_mm - shank.radius_mm


def _body(page: Page, shank: Shank, under: int, end: int, across: Across) -> Iterator[Part]:
    shank_mm = across.of(shank.radius_mm)
    screw = page.joint.screw
    pitch_mm = screw.pitch_mm if screw is not None and screw.kind.thread is not Thread.NONE else 0.0
    if screw is None or not pitch_mm:
        yield Part("screw", under, end, 0.0, shank_mm)
        return
    is_pointed = screw.kind.end is End.POINTED
    step = ALONG * pitch_mm * page.scale
    tip = round(ALONG * page.scale * (1.8 * shank.radius_mm if is_pointed else pitch_mm / 2))
    cut, begun = max(end - tip, under), min(under + round(2 * step), end)
    yield Part("screw", under, cut, 0.0, shank_mm)
    yield Part("screw", begun, cut, 0.0, shank_mm, step)
    core_mm = _core_mm(page, across)
    yield from _cone("screw", cut, end, shank_mm, 0.12 * shank_mm if is_pointed else core_mm)


def _core_mm(page: Page, across: Across) -> float:
    """The radius of the core of the thread as drawn; that of the screw where it has none."""
    shank, screw = page.shank, page.joint.screw
    if shank is None:
        return 0.0
    pitch_mm = 0.0 if screw is None else screw.pitch_mm
    return across.of(shank.radius_mm) * max(1.0 - _CORE * pitch_mm / shank.radius_mm, 0.6)


def _cone(
    tone: str, start: int, end: int, first_mm: float, last_mm: float, *, inner_mm: float = 0.0
) -> Iterator[Part]:  # fmt: skip
    """A cone in slices, from one radius to the other."""
    for at in range(_STEPS):
        near, far = (start + (end - start) * number // _STEPS for number in (at, at + 1))
        yield Part(tone, near, far, inner_mm, first_mm + (last_mm - first_mm) * (at + 0.5) / _STEPS)


# -- what is behind ---------------------------------------------------------------------------------------------------


def _wall(page: Page, behind_mm: float | None, width: int) -> int | None:
    """The column of what is behind: at its true place, at the edge where it is not known, None where it is further."""
    if page.needed_mm <= 0 and (behind_mm is None or page.shank is None):
        return None
    if behind_mm is None:
        end_mm = max(page.end_mm, page.back.end_mm + page.needed_mm)
        return min(round(page.column(end_mm)) + 1, width - 1)
    there = round(page.column(page.back.end_mm + behind_mm))
    return there if there < width else None


def _behind(wall: int | None, behind_mm: float | None) -> Iterator[Part]:
    if wall is not None:
        tone, wide = ("unknown", 1) if behind_mm is None else ("behind", _WALL)
        yield Part(tone, ALONG * wall, ALONG * (wall + wide), 0.0, _FAR_MM)
