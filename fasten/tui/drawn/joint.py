"""The parts of a joint as they are painted: the slabs of the section in text, in tones, under one scale each way."""

from collections.abc import Iterator

from fasten.geometry.joint import drilled, limiter_of
from fasten.model import Joint
from fasten.model.kinds import Thread
from fasten.model.known import Body
from fasten.record import record
from fasten.report.section.figures import thread_end_mm
from fasten.report.section.hatch import hatch_of
from fasten.report.section.layout import bores
from fasten.report.section.page import (
    MARGIN,
    SOLID,
    Page,
    Placed,
    Shank,
    body_of,
    bulge_mm,
    fitted,
    is_rivet,
    stands_on,
    widest_mm,
)
from fasten.tui.drawn.cells import ALONG, Part

_BEYOND = 1.2  # how far layers are drawn beyond the widest part, as a share of it
_FAR_MM = 1e6
_TONES = {"board": "board", "wood": "board", "plastic": "plastic", "laminate": "plastic"}  # by hatch; else metal
_SET_END = 1.6  # radius of the set end of a rivet, as a share of its shank, as drawn: none is known
_CORE = 0.6134  # of the pitch, from the outside of a thread to its core: ISO 68-1
_WALL, _STEPS = 2, 4  # columns of what is behind; slices of a cone
_THIN = 3.0  # rows, under which a screw is drawn in an even number of rows


@record
class Drawing:
    """A joint laid out: its page, how many rows it takes and how many a millimetre, its parts, what is behind it."""

    page: Page
    rows: int
    per_mm: float
    parts: tuple[Part, ...]
    behind_mm: float | None
    wall: int | None

    @property
    def stretched(self) -> float:
        """How many times longer than thick it is drawn: a row is two columns high."""
        return self.page.scale / (2 * self.per_mm)


def laid_out(joint: Joint, behind_mm: float | None, width: int, rows: int) -> Drawing:
    """The joint in so many columns and at most so many rows; `behind_mm` is None where it is not given."""
    per_mm = _per_mm(joint, rows)
    page = fitted(joint, behind_mm, width, per_mm)
    if page.shank is not None and 2 * page.shank.radius_mm * per_mm < _THIN and rows % 2:
        return laid_out(joint, behind_mm, width, rows - 1)  # its axis falls between two rows
    wall = _wall(page, behind_mm, width)
    parts = (*_layers(page), *_receiver(page), *_shank(page), *_behind(wall, behind_mm))
    return Drawing(page, rows, per_mm, parts, behind_mm, wall)


def _per_mm(joint: Joint, rows: int) -> float:
    return rows / 2 / (_BEYOND * widest_mm(joint))


def _dots(page: Page, mm: float) -> int:
    return round(ALONG * page.column(mm))


def _layers(page: Page) -> Iterator[Part]:
    before: list[str] = []
    layers = iter(page.joint.layers)
    for band, bore_mm in zip(page.placed, bores(page.joint, page.shank), strict=True):
        layer = None if band.slab.role == "flange" else next(layers)
        turned = layer is None or band.slab.role == "nut"
        tone = "receiver" if turned or layer is None else _tone(band, hatch_of(layer, before))
        outer_mm = _FAR_MM if band.slab.radius_mm is None else band.slab.radius_mm
        start = ALONG * band.column
        yield Part(tone, start, start + band.eighths, bore_mm, outer_mm)
        limiter = limiter_of(page.joint)
        if limiter is not None and band.slab.role == "soft":
            yield Part("receiver", start, start + band.eighths, bore_mm, limiter.outer_mm / 2)


def _tone(band: Placed, hatch: str) -> str:
    """By what it is of; metal is plain as a sheet, and textured as a plate or an item."""
    if band.slab.role in {"soft", "patch", "washer"}:
        return "screw" if band.slab.role == "washer" else "soft"
    return _TONES.get(hatch, "sheet" if band.slab.char == SOLID else "item")


def _receiver(page: Page) -> Iterator[Part]:
    """The body of a receiver through the hole, and its bulge behind the sheet."""
    body, back = body_of(page.joint), page.back
    if body is None:
        return
    across = body.body.outside_mm if isinstance(body.body, Body) else drilled(page.joint).diameter_mm
    start, behind = ALONG * page.front.column, ALONG * back.column + back.eighths
    end = max(_dots(page, thread_end_mm(page)), start + ALONG)
    yield Part("receiver", start, end, 0.0, across / 2)
    if bulge_mm(page.joint) > 0:
        yield Part("receiver", behind, behind + max((end - behind) // 3, ALONG), 0.0, bulge_mm(page.joint) / 2)


def _shank(page: Page) -> Iterator[Part]:
    """Head and shank with its thread; a screw ends in a chamfer, or in a point where it forms its own thread."""
    shank, joint = page.shank, page.joint
    if shank is None:
        return
    under = ALONG * (MARGIN + page.head_cells)
    end = max(_dots(page, shank.end_mm), under + ALONG)
    if is_rivet(joint) and not stands_on(joint):
        behind = ALONG * page.back.column + page.back.eighths
        yield Part("screw", behind, max(end, behind + ALONG), 0.0, _SET_END * shank.radius_mm)
    if shank.sunk:
        yield from _cone(
            under, under + round(ALONG * _sunk_mm(shank) * page.scale), shank.head_radius_mm, shank.radius_mm
        )
    else:
        yield Part("screw", ALONG * MARGIN, under, 0.0, shank.head_radius_mm)
    yield from _body(page, shank, under, end)


def _sunk_mm(shank: Shank) -> float:
    return shank.head_mm or shank.head_radius_mm - shank.radius_mm


def _body(page: Page, shank: Shank, under: int, end: int) -> Iterator[Part]:
    screw = page.joint.screw
    pitch_mm = screw.pitch_mm if screw is not None and screw.kind.thread is not Thread.NONE else 0.0
    if not pitch_mm:
        yield Part("screw", under, end, 0.0, shank.radius_mm)
        return
    is_point = page.joint.receiver is None and screw is not None and screw.kind.thread is not Thread.MACHINE
    step = ALONG * pitch_mm * page.scale
    tip = round(ALONG * page.scale * (1.5 * shank.radius_mm if is_point else pitch_mm / 2))
    cut, begun = max(end - tip, under), min(under + round(2 * step), end)
    yield Part("screw", under, cut, 0.0, shank.radius_mm)
    yield Part("screw", begun, cut, 0.0, shank.radius_mm, step)
    core_mm = max(shank.radius_mm - _CORE * pitch_mm, 0.6 * shank.radius_mm)
    if is_point:
        yield from _cone(cut, end, core_mm, 0.2 * shank.radius_mm)
    else:
        yield Part("screw", cut, end, 0.0, core_mm)


def _cone(start: int, end: int, first_mm: float, last_mm: float) -> Iterator[Part]:
    """A cone in slices, from one radius to the other."""
    for at in range(_STEPS):
        near, far = (start + (end - start) * number // _STEPS for number in (at, at + 1))
        yield Part("screw", near, far, 0.0, first_mm + (last_mm - first_mm) * (at + 0.5) / _STEPS)


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
        tone, columns = ("unknown", 1) if behind_mm is None else ("behind", _WALL)
        yield Part(tone, ALONG * wall, ALONG * (wall + columns), 0.0, _FAR_MM)
