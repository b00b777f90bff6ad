"""The shapes of a drawn section: layers cut open, the receiver in them, and the screw, which is not cut."""

from collections.abc import Callable, Iterator

from fasten.geometry.joint import PANEL, limiter_of
from fasten.model.kinds import End
from fasten.model.known import FarEnd, Plate
from fasten.report.section.hatch import PART, filled
from fasten.report.section.heads import head_of
from fasten.report.section.layout import PLAIN_HEAD_MM, Band, View, body_radius_mm, root_radius_mm
from fasten.report.section.page import Shank, body_of, bulge_mm, is_rivet, stands_on
from fasten.report.svg import BLACK, GREY, WHITE, line, path, tag
from fasten.text.units import number

Point = tuple[float, float]
THICK, THIN = 0.35, 0.15
_BREAK_MM = 1.2  # of the broken edge of a layer


def layers(view: View, mark: str) -> Iterator[str]:
    """Every layer, cut open above and below the axis."""
    for band in view.bands:
        fill = BLACK if band.is_solid else filled(mark, band.hatch)
        # Thin parts are black all over; a white edge keeps them apart.
        edge = WHITE if band.is_solid else BLACK
        for points in _cut(view, band):
            yield path(points, fill=fill, stroke=edge, stroke_width=THICK, stroke_linejoin="round",
                       data_layer=band.slab.role)  # fmt: skip


def limiter(view: View) -> Iterator[str]:
    """The compression limiter in the foam, cut open: black, as thin metal is, from its own hole out."""
    part = limiter_of(view.joint)
    for band in view.bands:
        if part is None or band.slab.role != "soft":
            continue
        inner, outer = (mm / 2 * view.scale for mm in (part.hole_mm, part.outer_mm))
        for side in (-1.0, 1.0):
            near, far = view.axis + side * inner, view.axis + side * min(outer, view.reach)
            yield path([(band.x0, near), (band.x0, far), (band.x1, far), (band.x1, near)], fill=BLACK, stroke=WHITE,
                       stroke_width=THICK, stroke_linejoin="round", data_layer="stop")  # fmt: skip


def _cut(view: View, band: Band) -> Iterator[list[Point]]:
    """The outline of each half of a layer, or of both as one where the hole ends inside."""
    deep = _blind_mm(view, band)
    bore, y = band.bore_mm * view.scale, view.axis
    for side in (-1.0, 1.0):
        outer = _outer(view, band, side)
        if deep is None and bore > 0:
            yield [(band.x0, y + side * bore), *outer, (band.x1, y + side * bore)]
    if deep is not None or bore == 0:
        end, tip = (band.x0, band.x0) if deep is None else deep
        inner = [(end, y + bore), (tip, y), (end, y - bore)] if bore > 0 else []
        start = [(band.x0, y + bore)] if bore > 0 else []
        yield [*_outer(view, band, -1.0), *reversed(_outer(view, band, 1.0)), *start, *inner,
               *([(band.x0, y - bore)] if bore > 0 else [])]  # fmt: skip


def _blind_mm(view: View, band: Band) -> tuple[float, float] | None:
    """Where the hole and its point end, as drawn, where that is inside of this layer."""
    hole = view.joint.hole
    if band is not view.back or hole is None or hole.depth_mm is None or hole.depth_mm >= band.slab.thickness_mm:
        return None
    end = view.at(band.start_mm + hole.depth_mm)
    return end, min(end + 0.6 * band.bore_mm * view.scale, band.x1)


def _outer(view: View, band: Band, side: float) -> list[Point]:
    """The outer end of a layer: straight where it ends there, broken where it goes on."""
    radius, x0, x1 = band.slab.radius_mm, band.x0, band.x1
    if radius is None and band.slab.role not in {"item", "soft", *PANEL} and view.joint.patch is not None:
        radius = min(view.joint.patch.length_mm, view.joint.patch.width_mm) / 2
    if radius is not None:
        y = view.axis + side * radius * view.scale
        return [(x0, y), (x1, y)]
    y, step = view.axis + side * view.reach, (x1 - x0) / 4
    return [(x0, y), (x0 + step, y - side * _BREAK_MM), (x1 - step, y), (x1, y - side * _BREAK_MM)]


# -- receiver ---------------------------------------------------------------------------------------------------------


def receiver(view: View, mark: str, thread_end_mm: float) -> Iterator[str]:
    """The body of the receiver through the hole with its bulge behind the sheet, and its plate where that is behind."""
    part, shank = body_of(view.joint), view.shank
    radius = body_radius_mm(view.joint, shank) if shank else None
    if part is None or shank is None or radius is None:
        return
    start = max(view.front.start_mm, thread_end_mm - part.length_mm)
    end = max(thread_end_mm, start + 0.5)
    bore = root_radius_mm(view.joint, shank)
    outline = [(start, radius), *_bulge(view, radius, end), (end, radius), (end, bore), (start, bore)]
    for side in (1.0, -1.0):
        points = [view.point(mm, side * out) for mm, out in outline]
        yield path(points, fill=filled(mark, PART), stroke_width=THICK, data_part="receiver")
    if part.end is FarEnd.CLOSED:
        shut = max(view.back.end_mm + view.joint.behind_done_mm, end + 0.8)
        corners = [view.point(mm, out) for mm, out in ((end, radius), (shut, radius), (shut, -radius), (end, -radius))]
        yield path(corners, fill=filled(mark, PART), stroke_width=THICK)
    if isinstance(part.flange, Plate):
        yield from _plate(view, part.flange.across_mm / 2, radius)


def _bulge(view: View, radius: float, end_mm: float) -> list[Point]:
    """What swells behind the sheet, over a third of what stands out there."""
    wide, back = bulge_mm(view.joint) / 2, view.back.end_mm
    if wide <= radius or end_mm <= back:
        return []
    long = (end_mm - back) / 3
    return [(back, radius), (back, wide), (back + 0.6 * long, wide), (back + long, radius)]


def has_plate(view: View) -> bool:
    """Whether the receiver has a plate behind whose thickness is not known."""
    part = body_of(view.joint)
    return part is not None and isinstance(part.flange, Plate)


def _plate(view: View, outer_mm: float, inner_mm: float) -> Iterator[str]:
    """A plate on the far face whose thickness is not known: a black stroke."""
    x = view.back.x1
    for side in (1.0, -1.0):
        (_, inner), (_, outer) = view.point(0.0, side * inner_mm), view.point(0.0, side * outer_mm)
        yield line(x - 0.4, inner, x - 0.4, outer, stroke_width=0.9)


def before_setting(view: View) -> Iterator[str]:
    """The receiver or rivet as it stands out before it is set, dashed, where it then takes more room."""
    joint, shank = view.joint, view.shank
    if shank is None or not is_unset_longer(view):
        return
    radius = body_radius_mm(joint, shank) or shank.radius_mm
    back, end = view.back.end_mm, view.back.end_mm + joint.behind_set_mm
    corners = [view.point(mm, out) for mm, out in ((back, radius), (end, radius), (end, -radius), (back, -radius))]
    yield path(corners, stroke=BLACK, stroke_width=THIN, stroke_dasharray="1.2 0.9")


def is_unset_longer(view: View) -> bool:
    """Whether what is set takes more room behind before than after."""
    joint = view.joint
    return (is_rivet(joint) or bulge_mm(joint) > 0) and joint.behind_set_mm > joint.behind_done_mm + 0.005


# -- screw ------------------------------------------------------------------------------------------------------------


def screw(view: View) -> Iterator[str]:
    """Head and shank of screw or rivet, in one outline; the thread where it is large enough to be seen."""
    shank = view.shank
    if shank is None:
        return
    rivet = is_rivet(view.joint)
    upper = list(_rivet_side(view, shank) if rivet else _side(view, shank, 0.0))
    lower = list(_rivet_side(view, shank) if rivet else _side(view, shank, 0.5))
    points = [view.point(mm, out) for mm, out in upper] + [view.point(mm, -out) for mm, out in reversed(lower)]
    yield path(points, fill=WHITE, stroke_width=THICK, stroke_linejoin="round", data_part="shank")
    if rivet:
        for side in (1.0, -1.0):
            ends = (view.point(mm, side * 0.5 * shank.radius_mm) for mm in (0.0, shank.end_mm))
            yield path(ends, closed=False, stroke_width=THIN)
    yield from _head(view, shank)


def _rivet_side(view: View, shank: Shank) -> Iterator[Point]:
    """A blind rivet once set: its far end wider than its shank, a third of it or so."""
    back, end, radius = view.back.end_mm, shank.end_mm, shank.radius_mm
    yield from ((0.0, radius), (min(back, end), radius))
    if end > back:
        long = end - back
        yield from (
            (back + 0.05 * long, 1.35 * radius),
            (back + 0.5 * long, 1.35 * radius),
            (back + long, 0.9 * radius),
        )


def _side(view: View, shank: Shank, shift: float) -> Iterator[Point]:
    """One side of a screw from the head to its end, the thread as teeth; `shift` of a pitch for the other side."""
    made = view.joint.screw
    pitch = made.pitch_mm if made else 0.0
    tip = _tip_mm(view, shank)
    root = root_radius_mm(view.joint, shank)
    yield 0.0, shank.radius_mm
    straight = shank.end_mm - tip
    if pitch * view.scale >= 1.0:
        yield from _teeth(straight, pitch, shift, shank.radius_mm, root)
    yield straight, shank.radius_mm if pitch * view.scale < 1.0 else root
    yield shank.end_mm, 0.12 * shank.radius_mm if _is_pointed(view) else root * 0.9


def _teeth(end_mm: float, pitch: float, shift: float, radius: float, root: float) -> Iterator[Point]:
    at = pitch * (0.5 + shift)
    while at + pitch < end_mm:
        yield from ((at, radius), (at + pitch / 2, root))
        at += pitch
    yield min(at, end_mm), radius


def _is_pointed(view: View) -> bool:
    return view.joint.screw is not None and view.joint.screw.kind.end is End.POINTED


def _tip_mm(view: View, shank: Shank) -> float:
    return min(1.8 * shank.radius_mm if _is_pointed(view) else 0.3 * shank.radius_mm, shank.end_mm / 3)


# -- heads ------------------------------------------------------------------------------------------------------------


def _head(view: View, shank: Shank) -> Iterator[str]:
    head = head_of(view.joint, is_nut=stands_on(view.joint))
    high, wide = (shank.head_mm or PLAIN_HEAD_MM) * view.scale, shank.head_radius_mm * view.scale
    if shank.sunk:
        yield _sunk(view, shank)
        return
    yield from (_BASED if head.base else _HEADS)[head.profile](view.x0, view.axis, high, wide)


def _sunk(view: View, shank: Shank) -> str:
    """A countersunk head: a cone in the layers, as deep as its height, else as deep as 90 degrees make it."""
    deep = shank.head_mm or shank.head_radius_mm - shank.radius_mm
    upper = [view.point(0.0, shank.head_radius_mm), view.point(deep, shank.radius_mm)]
    points = upper + [view.point(deep, -shank.radius_mm), view.point(0.0, -shank.head_radius_mm)]
    return path(points, fill=WHITE, stroke_width=THICK, data_part="head")


def _shape(d: str) -> str:
    return tag("path", d=d, fill=WHITE, stroke=BLACK, stroke_width=THICK, stroke_linejoin="round", data_part="head")


def _pan(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    """Flat on top with round shoulders."""
    bend = min(0.7 * high, 0.7 * wide)
    yield _shape(_d("M", x, y - wide, "L", x - high + bend, y - wide,
                    "Q", x - high, y - wide, x - high, y - wide + bend,
                    "L", x - high, y + wide - bend, "Q", x - high, y + wide, x - high + bend, y + wide,
                    "L", x, y + wide, "Z"))  # fmt: skip


def _dome(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    yield _shape(_d("M", x, y - wide, "Q", x - high, y - 0.9 * wide, x - high, y - 0.35 * wide,
                    "L", x - high, y + 0.35 * wide, "Q", x - high, y + 0.9 * wide, x, y + wide, "Z"))  # fmt: skip


def _cylinder(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    yield _shape(_d("M", x, y - wide, "L", x - high, y - wide, "L", x - high, y + wide, "L", x, y + wide, "Z"))


def _hexagon(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    """A hexagon with its top corners turned off, and the two edges that are seen."""
    cut = 0.15 * high
    yield _shape(_d("M", x, y - wide, "L", x - high + cut, y - wide, "L", x - high, y - 0.85 * wide,
                    "L", x - high, y + 0.85 * wide, "L", x - high + cut, y + wide, "L", x, y + wide, "Z"))  # fmt: skip
    for side in (-0.5, 0.5):
        yield line(x, y + side * wide, x - high + cut, y + side * wide, stroke_width=THIN)


def _hexagon_flange(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    """A hexagon on a flange, both of the width that a table gives for the whole."""
    base = 0.3 * high
    yield _shape(_d("M", x, y - wide, "L", x - 0.12 * high, y - wide, "L", x - base, y - 0.72 * wide,
                    "L", x - base, y + 0.72 * wide, "L", x - 0.12 * high, y + wide, "L", x, y + wide, "Z"))  # fmt: skip
    yield from _hexagon(x - base, y, high - base, 0.7 * wide)


def _collar(x: float, y: float, high: float, wide: float) -> Iterator[str]:
    yield from _cylinder(x, y, 0.25 * high, wide)
    yield from _dome(x - 0.25 * high, y, 0.75 * high, 0.8 * wide)


_Shape = Callable[[float, float, float, float], Iterator[str]]
_HEADS: dict[str, _Shape] = {"hexagon": _hexagon, "dome": _dome, "cylinder": _cylinder, "pan": _pan}
_BASED: dict[str, _Shape] = _HEADS | {"hexagon": _hexagon_flange, "dome": _collar}


def _d(*parts: str | float) -> str:
    return " ".join(part if isinstance(part, str) else number(part, 4) for part in parts)


# -- axis and what is behind ------------------------------------------------------------------------------------------


def axis(view: View) -> str:
    """The axis of the joint, beyond both its ends."""
    ends = [band.x1 for band in view.bands] + ([view.at(view.shank.end_mm)] if view.shank else [])
    return line(2.0, view.axis, max(ends) + 4.0, view.axis, stroke_width=THIN, stroke=GREY, stroke_dasharray="5 1 1 1")


def wall(view: View, mark: str, behind_mm: float | None) -> Iterator[str]:
    """What limits the space behind: hatched where it is given, dashed where only the need is known."""
    if view.wall is None:
        return
    top, bottom, x = view.axis - view.reach, view.axis + view.reach, view.wall
    if behind_mm is None:
        yield line(x, top, x, bottom, stroke_width=THICK, stroke_dasharray="2.5 1.5", data_part="needed")
        return
    yield tag("rect", x=x, y=top, width=3.0, height=bottom - top, fill=filled(mark, "behind"), stroke="none")
    yield line(x, top, x, bottom, stroke_width=2 * THICK, data_part="wall")
    if view.further:
        for away in (-4.5, -3.3):
            yield path(_zigzag(x + away, top, bottom), closed=False, stroke_width=THIN)


def _zigzag(x: float, top: float, bottom: float) -> list[Point]:
    y = (top + bottom) / 2
    return [(x, top), (x, y - 3.0), (x - 1.5, y - 1.0), (x + 1.5, y + 1.0), (x, y + 3.0), (x, bottom)]
