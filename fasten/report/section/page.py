"""Where everything in the section of a joint goes: along the axis of the screw, under the largest scale that fits.

Every layer starts on a cell of its own so that each is seen, and is as wide as the scale says: thin metal in eighths of
a cell, anything else in whole cells.
"""

from collections.abc import Iterator
from math import ceil

from fasten.geometry.joint import PANEL, drilled, limiter_of, outside_mm
from fasten.geometry.joint import bulge_mm as receiver_bulge_mm
from fasten.model import Joint, Layer, Patch, Position, Receiver, Screw, StackPart
from fasten.model.kinds import Set, Thread
from fasten.model.known import Absent, Body, Flange
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.section.heads import head_of_form
from fasten.text.figures import words
from fasten.text.units import number

SOLID, HEAD, SHANK, RECEIVER, ITEM, BOARD, SOFT = "█", "▓", "▓", "▒", "╱", "╲", "░"
MARGIN, REACH = 1, 5
"""Empty columns on the left; rows on either side of the axis."""

_SHEET_BELOW_MM = 3.0  # metal up to here is drawn solid, as a sheet; above, hatched as a plate or board is
_PLAIN_HEAD_MM = 3.0  # drawn, and noted, where the height of a head is not known
_LEAST_EIGHTHS = 2  # one eighth of a cell is lost on a bright screen
NEAR = 1.4  # of the space needed, up to which what is behind is drawn at its place
FACE_SCALE = 4.0  # columns a millimetre at most where nothing goes through: layers of tape and sheet are all there is
_LEAST_HEAD_MM = 1.0  # radius of the head of what has none
STRETCH = 3.6  # columns a millimetre over rows a millimetre at most; 2 keeps the shape, as a cell is twice as high
_WALL_COLUMNS = 3  # a blank, the mark of a break, the wall


@record
class Slab:
    """A layer along the axis: what it is called, its look, how far out it goes (None: beyond the drawing)."""

    name: str
    thickness_mm: float
    char: str
    radius_mm: float | None
    role: str


@record
class Placed:
    """A slab on the page, from `start_mm` under the head and from `column` on; `widened` to be seen at all."""

    slab: Slab
    start_mm: float
    column: int
    eighths: int
    widened: bool

    @property
    def cells(self) -> int:
        """Cells it takes, the last perhaps in part."""
        return ceil(self.eighths / 8)

    @property
    def end_mm(self) -> float:
        """Where it ends under the head."""
        return self.start_mm + self.slab.thickness_mm


@record
class Shank:
    """What goes through the layers, screw or rivet. `head_mm` is the height of its head, None where not known."""

    name: str
    end_mm: float
    radius_mm: float
    head_radius_mm: float
    head_mm: float | None
    sunk: bool


@record
class Page:
    """The placed slabs of a joint under one scale, in columns a millimetre; no shank where it holds by a face."""

    joint: Joint
    shank: Shank | None
    scale: float
    head_cells: int
    placed: tuple[Placed, ...]

    def column(self, mm: float) -> float:
        """Column at which a place so far under the head is drawn."""
        for band in self.placed:
            if mm < band.end_mm - 1e-9:
                return band.column + (mm - band.start_mm) / band.slab.thickness_mm * band.eighths / 8
        last = self.placed[-1]
        return last.column + last.cells + (mm - last.end_mm) * self.scale

    @property
    def back(self) -> Placed:
        """The substrate: what is behind is measured from its far face."""
        return next((band for band in reversed(self.placed) if band.slab.role == "substrate"), self.placed[-1])

    @property
    def front(self) -> Placed:
        """Where the panel begins: its doubler, else the substrate; what stays in the panel is drawn from there."""
        return next((band for band in self.placed if band.slab.role in PANEL), self.back)

    @property
    def end_mm(self) -> float:
        """Where what goes through ends under the head; 0 where nothing does."""
        return 0.0 if self.shank is None else self.shank.end_mm

    @property
    def needed_mm(self) -> float:
        """Space needed behind, before setting or after."""
        return max(self.joint.behind_set_mm, self.joint.behind_done_mm)

    def rows(self, radius_mm: float) -> int:
        """Rows a radius takes, the axis being the first; larger than the shank is always seen to be larger."""
        shank_mm = 0.0 if self.shank is None else self.shank.radius_mm
        least = round_up(shank_mm * self._rows_per_mm)
        larger = radius_mm > shank_mm
        return min(REACH, max(round_up(radius_mm * self._rows_per_mm), least + 1 if larger else 1))

    @property
    def _rows_per_mm(self) -> float:
        return _rows_per_mm(self.joint, self.shank)


def round_up(value: float) -> int:
    """The nearest whole number from 1 up."""
    return max(1, round(value))


def bulge_mm(joint: Joint) -> float:
    """Diameter of the receiver's bulge behind the sheet, or 0 where it has none."""
    return receiver_bulge_mm(joint.receiver)


def is_rivet(joint: Joint) -> bool:
    """Whether the joint is riveted: no thread, and one part that is both screw and receiver."""
    return joint.screw is None or joint.screw.kind.thread is Thread.NONE


def stands_on(joint: Joint) -> bool:
    """Whether a stud stands on the panel, welded to it or on a base that is bonded on, and nothing goes through it."""
    return joint.hole is None and joint.receiver is not None and (joint.screw is None or joint.patch is not None)


def body_of(joint: Joint) -> Receiver | None:
    """The receiver, where it sits in the substrate and a screw goes into it."""
    sits = not is_rivet(joint) and not stands_on(joint) and not any(layer.role == "nut" for layer in joint.layers)
    return joint.receiver if sits else None


def fitted(joint: Joint, behind_mm: float | None, width: int, most: float | None = None) -> Page:
    """The page at the largest scale at which the joint and the space it needs behind fit in the width.

    `most` is the largest scale along, in columns a millimetre; None for that of the section in text.
    """
    shank = shank_or_none(joint)
    scale = FACE_SCALE if shank is None else STRETCH * _rows_per_mm(joint, shank)
    scale = scale if most is None else min(most, FACE_SCALE) if shank is None else most
    page = _page(joint, shank, scale)
    while columns(page, behind_mm) > width and scale > 0.01:
        scale *= 0.97
        page = _page(joint, shank, scale)
    return page


def at_scale(joint: Joint, scale: float) -> Page:
    """The page at exactly this scale, in columns a millimetre."""
    return _page(joint, shank_or_none(joint), scale)


def stacked(joint: Joint) -> Page:
    """The slabs with where each begins and ends in mm, for a drawing that has no columns."""
    return _page(joint, shank_or_none(joint), 1.0)


def wall_column(page: Page, behind_mm: float | None, width: int) -> int:
    """Where what limits the space behind is drawn: at its place where that is on the page, otherwise at the edge."""
    edge = min(width, columns(page, None)) - 1
    if behind_mm is None:
        return edge
    there = round(page.column(page.back.end_mm + behind_mm))
    return there if there <= width - 1 else edge


def widest_mm(joint: Joint) -> float:
    """Radius of the widest part that ends inside the drawing."""
    head_mm = head_radius_mm(shank_or_none(joint))
    radii = (slab.radius_mm or 0.0 for slab in slabs(joint, head_mm))
    return max([*radii, bulge_mm(joint) / 2, head_mm])


def _rows_per_mm(joint: Joint, shank: Shank | None) -> float:
    widest = REACH / widest_mm(joint)
    return widest if shank is None else min(widest, 2 / shank.radius_mm)


def head_radius_mm(shank: Shank | None) -> float:
    """Of the head, for what a table does not describe."""
    return _LEAST_HEAD_MM if shank is None else shank.head_radius_mm


def shank_or_none(joint: Joint) -> Shank | None:
    """What goes through the layers; None for a joint that holds by a face."""
    part = joint.receiver
    if joint.screw is None and (part is None or (joint.hole is None and isinstance(part.body, Absent))):
        return None
    return shank_of(joint)


def shank_of(joint: Joint) -> Shank:
    """What goes through the layers.

    Raises: ValueError for a joint of neither screw nor receiver.
    """
    if joint.screw is not None:
        return _bonded_stud(joint, joint.screw) if stands_on(joint) else _screw(joint.screw)
    if joint.receiver is None:
        raise ValueError("joint has neither screw nor receiver: there is nothing to draw")
    if joint.hole is None:
        return _stud(joint, joint.receiver)
    part = joint.receiver
    diameter = part.body.outside_mm if isinstance(part.body, Body) else drilled(joint).diameter_mm
    end_mm = sum(layer.thickness_mm for layer in joint.layers) + joint.behind_done_mm
    thick_mm = part.flange.thickness_mm if isinstance(part.flange, Flange) else None
    return Shank(safe(part.part), end_mm, diameter / 2, _head_mm(part, diameter) / 2, thick_mm, sunk=False)


def _head_mm(part: Receiver, diameter_mm: float) -> float:
    """The width of its flange or flats; twice its own where it has none."""
    return 2 * diameter_mm if isinstance(part.flange, Absent) else part.flange.across_mm


def _stud(joint: Joint, nut: Receiver) -> Shank:
    """A stud that stands on the substrate, its nut for a head."""
    across = outside_mm(nut)
    on_panel = (layer.thickness_mm for layer in joint.layers if layer.role not in PANEL)
    head = _head_mm(nut, across)
    return Shank(f"stud, {safe(nut.part)}", sum(on_panel), across / 2, head / 2, nut.length_mm, sunk=False)


def _bonded_stud(joint: Joint, stud: Screw) -> Shank:
    """A stud on its base, its nut for a head."""
    name = f"stud {safe(stud.thread)} x {number(stud.length_mm, 2)}, its nut"
    on_panel = (layer.thickness_mm for layer in joint.layers if layer.role not in PANEL)
    return Shank(name, sum(on_panel), stud.diameter_mm / 2, stud.head_mm / 2, stud.head_height_mm, sunk=False)


def _screw(screw: Screw) -> Shank:
    what = screw.kind.name if screw.kind.set is Set.ONCE else "screw"
    name = f"{what} {safe(screw.thread)} x {number(screw.length_mm, 2)}"
    sunk = head_of_form(screw.head).is_sunk
    return Shank(name, screw.length_mm, screw.diameter_mm / 2, screw.head_mm / 2, screw.head_height_mm, sunk)


def slabs(joint: Joint, head_radius_mm: float) -> Iterator[Slab]:
    """The layers from the head down, with the receiver's flange where it lies: on the substrate or its doubler.

    A washer that no table describes is as wide as the head.
    """
    washers = iter([washer for washer in joint.washers if washer.place != Position.LIMITER])
    front = next((layer for layer in joint.layers if layer.role in PANEL), None)
    for layer in joint.layers:
        if layer is front:
            yield from _flange(joint)
        washer = next(washers, None) if layer.role == "washer" else None
        if layer.role == "patch" and joint.patch is not None:
            yield _patch(joint.patch, layer)
        else:
            yield _slab(joint, layer, head_radius_mm) if washer is None else _washer(layer, washer)


def _washer(layer: Layer, washer: StackPart) -> Slab:
    """A washer or a plate, as wide as it is."""
    what, wide_mm = (layer.role, washer.outer_mm) if washer.side_mm is None else ("plate", washer.side_mm)
    return Slab(f"{what}, {safe(words(layer.material))}", layer.thickness_mm, _char(layer), wide_mm / 2, layer.role)


def _patch(patch: Patch, layer: Layer) -> Slab:
    """What holds by its face, cut across its narrower side."""
    sides = number(patch.length_mm, 2) if patch.shape == "round" else _sides(patch)
    name = f"{safe(words(layer.material))} {sides} mm,"
    return Slab(name, layer.thickness_mm, RECEIVER, min(patch.length_mm, patch.width_mm) / 2, layer.role)


def _sides(patch: Patch) -> str:
    return f"{number(patch.length_mm, 2)} x {number(patch.width_mm, 2)}"


def _slab(joint: Joint, layer: Layer, radius_mm: float) -> Slab:
    if layer.role == "nut":
        part = joint.receiver
        nut_mm = 2 * radius_mm if part is None else _head_mm(part, radius_mm)
        return Slab(safe(part.part) if part else "nut", layer.thickness_mm, RECEIVER, nut_mm / 2, layer.role)
    name = f"{'' if layer.role == 'substrate' else safe(layer.role) + ', '}{safe(words(layer.material))}"
    if layer.role == "soft" and limiter_of(joint) is not None:
        name += " with its limiter"
    return Slab(name, layer.thickness_mm, _char(layer), radius_mm if layer.role == "washer" else None, layer.role)


def _char(layer: Layer) -> str:
    if layer.role == "washer" or (layer.role in PANEL and layer.thickness_mm <= _SHEET_BELOW_MM):
        return SOLID
    return {"soft": SOFT, "substrate": BOARD}.get(layer.role, ITEM)


def _flange(joint: Joint) -> Iterator[Slab]:
    body = body_of(joint)
    if body is not None and isinstance(body.flange, Flange):
        near = body.flange
        yield Slab(f"{safe(body.part)}, flange", near.thickness_mm, RECEIVER, near.across_mm / 2, "flange")


def _page(joint: Joint, shank: Shank | None, scale: float) -> Page:
    head_cells = 0 if shank is None or shank.sunk else round_up((shank.head_mm or _PLAIN_HEAD_MM) * scale)
    column, start_mm = MARGIN + head_cells, 0.0
    placed: list[Placed] = []
    for slab in slabs(joint, head_radius_mm(shank)):
        placed.append(_place(slab, start_mm, column, scale))
        column += placed[-1].cells
        start_mm += slab.thickness_mm
    return Page(joint, shank, scale, head_cells, tuple(placed))


def _place(slab: Slab, start_mm: float, column: int, scale: float) -> Placed:
    true = slab.thickness_mm * scale * 8
    if slab.char != SOLID:
        return Placed(slab, start_mm, column, 8 * round_up(true / 8), widened=true < 8)
    eighths = max(_LEAST_EIGHTHS, round(true))
    # A full last cell would run into the next solid layer; an eighth less leaves the seam to be seen.
    return Placed(slab, start_mm, column, eighths - (eighths % 8 == 0), widened=true < _LEAST_EIGHTHS)


def columns(page: Page, behind_mm: float | None) -> int:
    """Columns up to the end of the joint and of the space it needs, and to the wall where that is near."""
    near = behind_mm is not None and page.needed_mm < behind_mm <= NEAR * page.needed_mm
    behind = behind_mm if near and behind_mm is not None else page.needed_mm
    end_mm = max(page.end_mm, page.placed[-1].end_mm, page.back.end_mm + behind)
    return ceil(page.column(end_mm)) + _WALL_COLUMNS
