"""Radii as they are drawn: what is wider than what it is round is seen to be wider, by half a row at least."""

from math import ceil

from fasten.geometry.joint import drilled
from fasten.model.known import Body
from fasten.record import record
from fasten.report.section.page import Page, body_of, is_rivet

_ALIKE_MM = 0.12  # what differs by less is fitted into what it is round
_SAID = 1.25  # times as wide as it is, from which it is said
_ROUND = "the gap round the screw"


@record
class Across:
    """Radii with how they are drawn, from the axis out; any other stands outside of those that are under it.

    `body_mm` is the radius of what sits in the hole, 0 where nothing does; `widened` what is drawn wider than it is.
    """

    nested: tuple[tuple[float, float], ...]
    body_mm: float
    per_mm: float
    widened: tuple[str, ...]

    def of(self, radius_mm: float) -> float:
        """How far out a radius is drawn."""
        under = 0.0
        for true, drawn in self.nested:
            if abs(true - radius_mm) < _ALIKE_MM:
                return drawn
            under = drawn if true < radius_mm else under
        return 0.0 if radius_mm == 0 else max(radius_mm, _next(under, self.per_mm))


def across_of(page: Page, bored: tuple[float, ...], per_mm: float) -> Across:
    """Of a joint with holes of these radii through its layers, under so many rows a millimetre."""
    body, shank_mm = body_of(page.joint), 0.0 if page.shank is None else page.shank.radius_mm
    body_mm = 0.0
    if body is not None:
        # A table that does not give the body gives the hole, which the body fills.
        body_mm = (body.body.outside_mm if isinstance(body.body, Body) else drilled(page.joint).diameter_mm) / 2
    elif is_rivet(page.joint):
        body_mm = shank_mm
    nested: list[tuple[float, float]] = []
    for radius_mm in sorted({shank_mm, body_mm, *(bore for bore in bored if bore >= shank_mm)} - {0.0}):
        if not nested or radius_mm - nested[-1][0] >= _ALIKE_MM:
            nested.append((radius_mm, max(radius_mm, _next(nested[-1][1] if nested else 0.0, per_mm))))
    return Across(tuple(nested), body_mm, per_mm, tuple(_widened(nested, shank_mm, bored, per_mm)))


def _widened(nested: list[tuple[float, float]], shank_mm: float, bored: tuple[float, ...], per_mm: float) -> list[str]:
    drawn = dict(nested)
    gaps = [bore for bore in bored if bore in drawn and shank_mm in drawn and bore - shank_mm >= _ALIKE_MM]
    gap_mm = min(gaps, default=0.0) - shank_mm
    found = [] if drawn.get(shank_mm, 0.0) <= _SAID * shank_mm else ["the screw"]
    if gaps and _seen_mm(drawn[shank_mm], drawn[min(gaps)], per_mm) > _SAID * gap_mm:
        found.append(_ROUND)
    return found


def _seen_mm(inner_mm: float, outer_mm: float, per_mm: float) -> float:
    """How wide the half rows are that are painted between two radii."""
    first, last = (ceil(2 * radius * per_mm - 0.5) for radius in (inner_mm, outer_mm))
    return (last - first) / 2 / per_mm


def _next(radius_mm: float, per_mm: float) -> float:
    """The least radius that paints one more half row: these are painted where their middle lies inside."""
    return (ceil(2 * radius_mm * per_mm - 0.5) + 0.5 + 0.02) / 2 / per_mm
