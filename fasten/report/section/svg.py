"""Section of a joint to scale as an SVG drawing for paper: numbered parts, hatches, dimensions, words under it."""

from collections.abc import Iterator
from functools import lru_cache
from zlib import crc32

from fasten.geometry.joint import PANEL
from fasten.model import Joint
from fasten.model.known import Body
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.section import shapes
from fasten.report.section.figures import figures, mm, thread_end_mm
from fasten.report.section.hatch import PART, definitions, filled
from fasten.report.section.layout import View, body_radius_mm, needed_mm, viewed
from fasten.report.section.page import Shank, body_of, is_rivet, stacked
from fasten.report.svg import (
    BLACK,
    GREY,
    WHITE,
    document,
    label,
    line,
    line_height_mm,
    path,
    tag,
    text_lines,
    text_width_mm,
)
from fasten.text.figures import words
from fasten.text.names import capital
from fasten.text.rounding import rounded_up
from fasten.text.units import number

_LEAST_WIDTH_MM = 80.0
_TITLE_MM, _BALLOONS_MM = 6.0, 10.0  # room over the drawing
_SIZE, _TITLE = 3.0, 3.6
_BALLOON_MM, _ROW_MM, _SIDE_MM = 2.3, 6.0, 6.0
_SWATCH_MM = (8.0, 4.0)
_COLUMN_MM = 85.0
_MARK, _MOST_KEPT = "s--------", 200  # a mark that no text holds, and different drawings that are kept


@record
class _Part:
    """A part of the drawing: its words, what it is filled with, and the place that its number points to."""

    text: str
    fill: str
    x: float
    y: float


def section_svg(joint: Joint, behind_mm: float | None, width_mm: float = 180.0, name: str = "") -> str:
    """The joint drawn to scale, so wide, with its figures, the names of its parts and notes on the drawing.

    `behind_mm` is the space behind the substrate; None where it is not given. Drawings of the same joint on one
    page each have a `name`.

    Raises: ValueError for a width too small to draw in, or a joint of no layers.
    """
    if not width_mm >= _LEAST_WIDTH_MM:
        raise ValueError(f"width_mm {width_mm}: at least {_LEAST_WIDTH_MM} mm are needed to draw a joint")
    if not joint.layers:
        raise ValueError("joint.layers is empty: there is nothing to draw")
    # A page may hold many sections: what one defines must not be taken for another's.
    drawn, begun = _drawn_once(joint, behind_mm, width_mm)
    return drawn.replace(_MARK, f"s{crc32(_bytes(f'{name!r})'), begun):08x}")


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "backslashreplace")


@lru_cache(_MOST_KEPT)
def _drawn_once(joint: Joint, behind_mm: float | None, width_mm: float) -> tuple[str, int]:
    """The drawing with `_MARK` in place of its own mark, and the sum of what is drawn, which the mark begins with."""
    return _whole(joint, behind_mm, width_mm, _MARK), crc32(_bytes(f"({joint!r}, {behind_mm!r}, {width_mm!r}, "))


def _whole(joint: Joint, behind_mm: float | None, width_mm: float, mark: str) -> str:
    view = viewed(joint, behind_mm, width_mm, _TITLE_MM + _BALLOONS_MM)
    parts, title = _parts(view, mark, behind_mm), f"Section of the joint, {_ratio(view.scale)}"
    notes = _notes(view, behind_mm, width_mm)
    measured, below = _measured(view, behind_mm, width_mm)
    listed, end = _legend(parts, below + 3.0, width_mm)
    noted, bottom = _noted(notes, end + 2.0, width_mm)
    drawn = (
        definitions(mark, {*(band.hatch for band in view.bands), PART, "behind"}),
        label(_SIDE_MM, _TITLE_MM - 1.0, title, _TITLE, font_weight="bold"),
        *_drawing(view, mark, behind_mm), *_balloons(parts, width_mm), *measured, *listed, *noted,
    )  # fmt: skip
    described = "; ".join([*(part.text for part in parts), *(text for _, _, text in _figures(view, behind_mm)), *notes])
    return document(width_mm, bottom + 2.0, f"{title}: {words(joint.method)}", described, *drawn)


def _ratio(scale: float) -> str:
    return f"{number(scale, 2)} : 1" if scale >= 1 else f"1 : {number(1 / scale, 2)}"


def _drawing(view: View, mark: str, behind_mm: float | None) -> Iterator[str]:
    yield from shapes.wall(view, mark, behind_mm)
    yield from shapes.layers(view, mark)
    yield from shapes.limiter(view)
    yield from shapes.before_setting(view)
    yield from shapes.receiver(view, mark, _thread_end_mm(view))
    yield from shapes.screw(view)
    yield shapes.axis(view)


def _thread_end_mm(view: View) -> float:
    return thread_end_mm(stacked(view.joint)) if view.shank else 0.0


# -- parts and their numbers ------------------------------------------------------------------------------------------


def _parts(view: View, mark: str, behind_mm: float | None) -> list[_Part]:
    """Every part from the head to what is behind, in the order of the drawing."""
    found = [] if view.shank is None else [_head_part(view, view.shank)]
    for band in view.bands:
        fill = BLACK if band.is_solid else filled(mark, band.hatch)
        out = view.reach - 4.0 if band.slab.radius_mm is None else band.slab.radius_mm * view.scale - 0.8
        text = f"{words(band.slab.name)} {mm(band.slab.thickness_mm)}{_hole_text(view, band.slab.role)}"
        found.append(_Part(text, fill, (band.x0 + band.x1) / 2, view.axis - out))
    found.extend(_receiver_part(view, mark))
    if view.wall is not None and behind_mm is not None:
        found.append(_Part("what is behind", filled(mark, "behind"), view.wall + 1.5, view.axis - view.reach + 4.0))
    return found


def _head_part(view: View, shank: Shank) -> _Part:
    kind = view.joint.screw.head if view.joint.screw else ""
    named = "" if not kind or "rivet" in kind else f", {words(safe(kind))} head"
    x = view.x0 + 1.0 if shank.sunk else (view.x0 + view.at(-(shank.head_mm or 3.0))) / 2
    return _Part(f"{shank.name}{named}", WHITE, x, view.axis - 0.45 * shank.head_radius_mm * view.scale)


def _hole_text(view: View, role: str) -> str:
    hole = view.joint.hole
    if role not in PANEL or hole is None:
        return ""
    shape = "" if hole.shape == "round" else f"{words(hole.shape)} "
    deep = "" if hole.depth_mm is None else f", {mm(hole.depth_mm)} deep"
    return f", {shape}hole {mm(hole.diameter_mm)}{deep}"


def _receiver_part(view: View, mark: str) -> Iterator[_Part]:
    """The receiver where it sits in the substrate; its flange is a layer and has a number of its own."""
    body, shank = body_of(view.joint), view.shank
    radius = body_radius_mm(view.joint, shank) if shank else None
    if body is None or shank is None or radius is None:
        return
    inside = _thread_end_mm(view)
    size = f", {mm(body.body.outside_mm)} outside" if isinstance(body.body, Body) else ""
    y = view.axis - (0.4 * radius + 0.6 * shank.radius_mm) * view.scale
    x = view.at(inside - 0.15 * min(body.length_mm, inside))
    yield _Part(f"{words(safe(body.part))} {safe(body.thread)}{size}", filled(mark, PART), x, y)


def _balloons(parts: list[_Part], width_mm: float) -> Iterator[str]:
    """A number in a circle over the drawing for each part, with a line down to it."""
    y = _TITLE_MM + 3.5
    for count, (part, x) in enumerate(zip(parts, _spread([part.x for part in parts], width_mm), strict=True), start=1):
        yield line(x, y + _BALLOON_MM, part.x, part.y, stroke_width=0.15)
        yield tag("circle", cx=part.x, cy=part.y, r=0.5, fill=BLACK, stroke=WHITE, stroke_width=0.15)
        yield from _balloon(x, y, count)


def _balloon(x: float, y: float, count: int) -> Iterator[str]:
    yield tag("circle", cx=x, cy=y, r=_BALLOON_MM, fill=WHITE, stroke=BLACK, stroke_width=0.2)
    yield label(x, y + 0.36 * _SIZE, str(count), _SIZE, text_anchor="middle", data_balloon=str(count))


def _spread(wanted: list[float], width_mm: float) -> list[float]:
    """Places as near as can be to those wanted, in their order, so that circles stand apart and inside."""
    apart = 2 * _BALLOON_MM + 1.2
    places = list(wanted)
    order = sorted(range(len(wanted)), key=lambda index: wanted[index])
    low = _SIDE_MM
    for index in order:
        low = places[index] = max(places[index], low)
        low += apart
    high = width_mm - _SIDE_MM
    for index in reversed(order):
        high = places[index] = min(places[index], high)
        high -= apart
    return places


# -- dimensions -------------------------------------------------------------------------------------------------------


def _figures(view: View, behind_mm: float | None) -> list[tuple[float, float, str]]:
    """Each figure of the joint that is not nothing: from and to under the head, and its words."""
    if view.shank is not None:
        found = figures(stacked(view.joint), behind_mm)
        return [(start_mm, end_mm, text) for start_mm, end_mm, text in found if end_mm - start_mm > 0.005]
    back, needed = view.back.end_mm, needed_mm(view.joint)
    found = [(0.0, view.bands[-1].end_mm, f"together {mm(view.bands[-1].end_mm)}")]
    found += [(back, back + needed, f"needs {rounded_up(needed, 1)} mm behind")] if needed > 0 else []
    return [*found, *([(back, back + behind_mm, f"{mm(behind_mm)} behind")] if behind_mm is not None else [])]


def _measured(view: View, behind_mm: float | None, width_mm: float) -> tuple[list[str], float]:
    """A dimension line a figure, one under the other, and where they end."""
    top = view.axis + view.reach + 2.0
    found: list[str] = []
    over: list[str] = []
    y = top
    for start_mm, end_mm, text in _figures(view, behind_mm):
        y += _ROW_MM
        start, end = (_inside(view, place) for place in (start_mm, end_mm))
        for place, x in ((start_mm, start), (end_mm, end)):
            found.append(line(x, _from(view, place), x, y + 1.0, stroke_width=0.1, stroke=GREY))
        over.extend(_dimension(start, end, y, text, width_mm))
    return [*found, *over], y + 2.0


def _inside(view: View, place_mm: float) -> float:
    """Where a place is drawn, no further than the wall that stands for what is further off."""
    x = view.at(place_mm)
    return min(x, view.wall) if view.wall is not None and view.further else x


def _from(view: View, place_mm: float) -> float:
    """Where the thin line to a dimension begins: under the layers, or under what stands out behind them."""
    if view.shank is None or place_mm <= view.bands[-1].end_mm + 0.005 or place_mm > view.shank.end_mm + 0.005:
        return view.axis + view.reach + 1.0
    return view.axis + view.shank.radius_mm * view.scale + 1.0


def _dimension(start: float, end: float, y: float, text: str, width_mm: float) -> Iterator[str]:
    """A line with an arrow at each end; its words over it where they fit, else right or left of it."""
    yield line(start, y, end, y, stroke_width=0.2, data_dimension=text)
    long, wide = end - start, text_width_mm(text, _SIZE)
    for x, way in ((start, 1.0), (end, -1.0)):
        out = way if long > 5.0 else -way
        yield path(((x, y), (x + out * 1.8, y - 0.45), (x + out * 1.8, y + 0.45)), fill=BLACK, stroke="none")
    if wide + 3.0 <= long:
        x, base, anchor = (start + end) / 2, y - 0.7, "middle"
    elif end + 3.0 + wide <= width_mm - 1.0:
        x, base, anchor = end + 3.0, y + 0.35 * _SIZE, None
    else:
        x, base, anchor = max(start - 3.0, wide + 1.0), y + 0.35 * _SIZE, "end"
    left = x - wide / 2 if anchor == "middle" else (x - wide if anchor == "end" else x)
    yield tag("rect", x=left - 0.3, y=base - 0.8 * _SIZE, width=wide + 0.6, height=_SIZE, fill=WHITE)
    yield label(x, base, text, _SIZE, text_anchor=anchor, data_figure=text)


# -- words under the drawing ------------------------------------------------------------------------------------------


def _legend(parts: list[_Part], y: float, width_mm: float) -> tuple[list[str], float]:
    """Every part by its number, its look and its words, in columns, and where they end."""
    columns = max(1, int((width_mm - _SIDE_MM) // _COLUMN_MM))
    wide = (width_mm - 2 * _SIDE_MM) / columns
    found, rows = [], -(-len(parts) // columns)
    tops = [y] * columns
    for count, part in enumerate(parts):
        column = count // rows
        drawn, tops[column] = _entry(part, count + 1, _SIDE_MM + column * wide, tops[column], wide - 3.0)
        found.extend(drawn)
    return found, max(tops)


def _entry(part: _Part, count: int, x: float, y: float, wide: float) -> tuple[list[str], float]:
    (box_x, box_y), text_x = _SWATCH_MM, x + 2 * _BALLOON_MM + _SWATCH_MM[0] + 4.0
    lines = text_lines(part.text, wide - (text_x - x), _SIZE, 3)
    drawn = [*_balloon(x + _BALLOON_MM, y + _BALLOON_MM, count)]
    drawn.append(tag("rect", x=x + 2 * _BALLOON_MM + 2.0, y=y + 0.3, width=box_x, height=box_y, fill=part.fill,
                     stroke=BLACK, stroke_width=0.25))  # fmt: skip
    step = line_height_mm(_SIZE)
    drawn += [label(text_x, y + 3.3 + place * step, text, _SIZE) for place, text in enumerate(lines)]
    return drawn, y + max(2 * _BALLOON_MM + 1.4, step * len(lines) + 1.4)


def _noted(notes: list[str], y: float, width_mm: float) -> tuple[list[str], float]:
    found = []
    for note in notes:
        for text in text_lines(note, width_mm - 2 * _SIDE_MM, _SIZE, 4):
            y += line_height_mm(_SIZE)
            found.append(label(_SIDE_MM, y, text, _SIZE))
    return found, y


def _notes(view: View, behind_mm: float | None, width_mm: float) -> list[str]:
    joint, shank, needed = view.joint, view.shank, needed_mm(view.joint)
    notes = [f"To scale, {_ratio(view.scale)} where this is {mm(width_mm)} wide."]
    notes[0] += " Held by its face: no screw." if shank is None else " Head, thread and bulge in outline only."
    notes += [f"{capital(words(band.slab.name))} {mm(band.slab.thickness_mm)} is widened to be seen."
              for band in view.bands if band.widened]  # fmt: skip
    if shank is not None and not is_rivet(joint):
        notes.append("The hole in the item is drawn a little wider than the screw; its own size is not known.")
    if shank is not None and shank.head_mm is None:
        notes.append("The height of the head is not known.")
    if shank is not None and is_rivet(joint):
        notes.append("How wide the rivet is once set is not known.")
    if shapes.has_plate(view):
        notes.append("How thick the plate behind is, drawn black, is not known.")
    if shapes.is_unset_longer(view):
        notes.append("Dashed: before it is set.")
    return [*notes, *_behind_notes(view, behind_mm, needed)]


def _behind_notes(view: View, behind_mm: float | None, needed: float) -> Iterator[str]:
    if needed <= 0:
        yield "Nothing comes out behind."
    elif behind_mm is None:
        yield f"The space behind is not known; the dashed line marks the {mm(needed)} it needs."
    elif behind_mm < needed:
        yield f"The space behind is SHORT by {mm(needed - behind_mm)}."
    if view.further:
        yield "What is behind lies further off than drawn."
