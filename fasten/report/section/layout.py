"""Where everything in the drawn section of a joint goes: axis along the width, head left, one scale both ways."""

from collections.abc import Iterator

from fasten.geometry.joint import PANEL, flange_behind_mm
from fasten.model import Joint, StackPart
from fasten.model.known import Body
from fasten.record import record
from fasten.report.section.hatch import PART, hatch_of
from fasten.report.section.page import Shank, Slab, body_of, bulge_mm, is_rivet, shank_or_none, slabs, stands_on

LEAST_MM, SOLID_MM = 0.7, 1.3  # drawn: what is thinner is widened; what is thinner than the second is filled black
PLAIN_HEAD_MM = 3.0  # where the height of a head is not known
_SCALES = (10.0, 8.0, 6.0, 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.2, 1.0, 0.8, 0.6, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15, 0.1)
_SMALLER = 0.8
_SIDE_MM, _WALL_MM, _TALLEST_MM, _LOWEST_MM = 6.0, 9.0, 84.0, 28.0
_ROUND = 1.3  # how far the layers are drawn beyond the widest part, as a share of it
_METRIC_DEPTH = 0.6134  # of the pitch: 17/24 of the height of a 60 degree triangle, as ISO 68-1 has it
_CLEARANCE = 0.06  # of the diameter: the item's hole, which the joint does not hold, is drawn so much larger


@record
class Band:
    """A slab as drawn: from where to where, the radius of the hole through it, its hatch."""

    slab: Slab
    hatch: str
    bore_mm: float
    start_mm: float
    x0: float
    x1: float
    widened: bool

    @property
    def end_mm(self) -> float:
        """Where it ends under the head."""
        return self.start_mm + self.slab.thickness_mm

    @property
    def is_solid(self) -> bool:
        """Whether it is too thin for a hatch to be seen."""
        return self.x1 - self.x0 < SOLID_MM


@record
class View:
    """A joint under one scale. `x0` is under the head, `axis` the height of the axis, `reach` what is drawn of layers.

    `wall` is where what limits the space behind is drawn, None where nothing is; `further` whether it lies further off.
    """

    joint: Joint
    shank: Shank | None
    scale: float
    x0: float
    axis: float
    reach: float
    bands: tuple[Band, ...]
    wall: float | None
    further: bool

    def at(self, mm: float) -> float:
        """Where a place so far under the head is drawn."""
        for band in self.bands:
            if mm < band.end_mm and mm >= band.start_mm:
                return band.x0 + (mm - band.start_mm) / band.slab.thickness_mm * (band.x1 - band.x0)
        last = self.bands[-1]
        return self.x0 + mm * self.scale if mm < 0 else last.x1 + (mm - last.end_mm) * self.scale

    def point(self, mm: float, radius_mm: float) -> tuple[float, float]:
        """A place so far under the head and so far above the axis; below it for less than 0."""
        return self.at(mm), self.axis - radius_mm * self.scale

    @property
    def front(self) -> Band:
        """Where the panel begins: its doubler, else the substrate."""
        return next((band for band in self.bands if band.slab.role in PANEL), self.back)

    @property
    def back(self) -> Band:
        """The substrate: what is behind is measured from its far face."""
        return next((band for band in reversed(self.bands) if band.slab.role == "substrate"), self.bands[-1])


def needed_mm(joint: Joint) -> float:
    """Space needed behind, before setting or after."""
    return max(joint.behind_set_mm, joint.behind_done_mm)


def hole_radius_mm(joint: Joint, shank: Shank | None) -> float:
    """Of the hole in the substrate: as wide as what goes through where none is drilled."""
    if joint.hole is not None:
        return joint.hole.diameter_mm / 2
    return shank.radius_mm if shank else 0.0


def root_radius_mm(joint: Joint, shank: Shank) -> float:
    """Of the core of the thread as drawn; a coarse thread is drawn no deeper than its screw stands."""
    pitch = joint.screw.pitch_mm if joint.screw else 0.0
    return shank.radius_mm - min(_METRIC_DEPTH * pitch, 0.35 * shank.radius_mm)


def body_radius_mm(joint: Joint, shank: Shank) -> float | None:
    """Of the receiver in the substrate, None where there is none; the hole's where a table does not give it."""
    body = body_of(joint)
    if body is None:
        return None
    if isinstance(body.body, Body):
        return body.body.outside_mm / 2
    return max(hole_radius_mm(joint, shank), 1.15 * shank.radius_mm)


def viewed(joint: Joint, behind_mm: float | None, width_mm: float, top_mm: float) -> View:
    """The joint at the largest scale at which it and the space it needs behind fit."""
    shank = shank_or_none(joint)
    for scale in _scales():
        view = _view(joint, shank, behind_mm, scale, top_mm)
        if view.reach <= _TALLEST_MM / 2 and _right(view, behind_mm) <= width_mm - _SIDE_MM:
            return view
    raise AssertionError("every drawing becomes small enough")


def _scales() -> Iterator[float]:
    yield from _SCALES
    scale = _SCALES[-1]
    while scale > 1e-9:
        scale *= _SMALLER
        yield scale


def _view(joint: Joint, shank: Shank | None, behind_mm: float | None, scale: float, top_mm: float) -> View:
    head_mm = 0.0 if shank is None or shank.sunk else shank.head_mm or PLAIN_HEAD_MM
    x0, reach = _SIDE_MM + head_mm * scale, max(_ROUND * _widest_mm(joint, shank) * scale, _LOWEST_MM / 2)
    view = View(joint, shank, scale, x0, top_mm + reach, reach, _bands(joint, shank, scale, x0), None, False)
    if behind_mm is None and needed_mm(joint) <= 0:
        return view
    needed, given = view.at(view.back.end_mm + needed_mm(joint)), behind_mm is not None
    true = view.at(view.back.end_mm + (behind_mm if behind_mm is not None else needed_mm(joint)))
    ends = max(needed, view.at(max(shank.end_mm if shank else 0.0, view.bands[-1].end_mm)))
    near = true <= needed + 0.4 * max(needed - view.at(view.back.end_mm), 10.0)
    wall = true if near or not given else ends + _WALL_MM
    return View(joint, shank, scale, x0, top_mm + reach, reach, view.bands, wall, further=not near and given)


def _right(view: View, behind_mm: float | None) -> float:
    end_mm = max(view.shank.end_mm if view.shank else 0.0, view.bands[-1].end_mm)
    return max(view.at(end_mm), view.wall + 4.0 if view.wall is not None else 0.0)


def _widest_mm(joint: Joint, shank: Shank | None) -> float:
    """Radius of the widest part that ends inside the drawing."""
    found = [slab.radius_mm or 0.0 for slab in slabs(joint, _head_mm(shank))]
    patch = [max(joint.patch.length_mm, joint.patch.width_mm) / 2] if joint.patch else []
    part = [flange_behind_mm(joint.receiver) / 2] if joint.receiver else []
    return max([*found, *patch, *part, bulge_mm(joint) / 2, _head_mm(shank), hole_radius_mm(joint, shank), 1.0])


def _head_mm(shank: Shank | None) -> float:
    return shank.head_radius_mm if shank else 1.0


def _bands(joint: Joint, shank: Shank | None, scale: float, x0: float) -> tuple[Band, ...]:
    layers = iter(joint.layers)
    found: list[Band] = []
    x, start_mm = x0, 0.0
    for slab, bore_mm in zip(slabs(joint, _head_mm(shank)), bores(joint, shank), strict=True):
        layer = None if slab.role == "flange" else next(layers)
        hatch = PART if layer is None or slab.role == "nut" else hatch_of(layer, [band.hatch for band in found])
        drawn = max(slab.thickness_mm * scale, LEAST_MM)
        widened = slab.thickness_mm * scale < LEAST_MM
        found.append(Band(slab, hatch, bore_mm, start_mm, x, x + drawn, widened))
        x, start_mm = x + drawn, start_mm + slab.thickness_mm
    return tuple(found)


def bores(joint: Joint, shank: Shank | None) -> Iterator[float]:
    """Radius of the hole through each slab, from the head down."""
    washers = iter(joint.washers)
    for slab in slabs(joint, _head_mm(shank)):
        washer = next(washers, None) if slab.role == "washer" else None
        yield _bore_mm(joint, shank, slab, washer)


def _bore_mm(joint: Joint, shank: Shank | None, slab: Slab, washer: StackPart | None) -> float:
    if shank is None or (slab.role in PANEL and stands_on(joint)):
        return 0.0
    if washer is not None:
        return max(washer.hole_mm / 2, shank.radius_mm)
    if slab.role in PANEL or is_rivet(joint):
        return hole_radius_mm(joint, shank)
    if slab.role in {"nut", "flange"}:
        return root_radius_mm(joint, shank)
    return shank.radius_mm * (1.0 + 2 * _CLEARANCE)
