"""Hatches of a section by family of material, distinct without colour; metals next to each other lean both ways."""

from fasten.catalog.materials import MATERIALS
from fasten.catalog.tables import builtin
from fasten.model import Layer
from fasten.report.svg import BLACK, WHITE, line, tag

METAL, LEFT, PART = "metal", "metal-left", "part"
_FAMILIES = {"sheet": METAL, "board": "board", "wood": "wood", "plastic": "plastic", "laminate": "laminate"}
_LINE = 0.13
_MM = 2.0  # of a square of a hatch


def hatch_of(layer: Layer, before: list[str]) -> str:
    """The hatch of a layer under the hatches before it; a metal leans the other way than the last metal."""
    if layer.role == "soft":
        return "soft"
    row = builtin().find(MATERIALS, layer.material)
    hatch = "other" if row is None else _FAMILIES.get(row.family, "other")
    metals = [name for name in before if name in {METAL, LEFT}]
    return LEFT if hatch == METAL and metals[-1:] == [METAL] else hatch


def definitions(mark: str, used: set[str]) -> str:
    """The patterns of the hatches that are used, their names begun with `mark`."""
    found = (_pattern(f"{mark}-{name}", *_HATCHES[name]) for name in sorted(used) if name in _HATCHES)
    return tag("defs", "".join(found))


def filled(mark: str, hatch: str) -> str:
    """What a shape of that hatch is filled with."""
    return f"url(#{mark}-{hatch})"


def _pattern(name: str, size: float, turn: float, inside: str) -> str:
    turned = f"rotate({turn:g})" if turn else None
    ground = tag("rect", width=size, height=size, fill=WHITE)
    return tag("pattern", ground, inside, id=name, width=size, height=size, patternUnits="userSpaceOnUse",
               patternTransform=turned)  # fmt: skip


def _rule(x1: float, y1: float, x2: float, y2: float) -> str:
    return line(x1, y1, x2, y2, stroke_width=_LINE)


def _dot(x: float, y: float, radius: float, **more: str | float | None) -> str:
    return tag("circle", cx=x, cy=y, r=radius, **({"fill": BLACK} | more))


_ONE_WAY = _rule(0.0, _MM / 2, _MM, _MM / 2)
_HATCHES = {
    METAL: (_MM, 45.0, _ONE_WAY),
    LEFT: (_MM, -45.0, _ONE_WAY),
    PART: (_MM / 2, -45.0, _rule(0.0, _MM / 4, _MM / 2, _MM / 4)),
    "plastic": (_MM, 45.0, _ONE_WAY + _rule(_MM / 2, 0.0, _MM / 2, _MM)),
    "board": (_MM, 30.0, _dot(0.5, 0.5, 0.12) + _dot(1.5, 1.2, 0.12) + _rule(0.9, 0.4, 1.5, 0.4)),
    "wood": (_MM, 0.0, _rule(0.4, 0.0, 0.4, _MM) + _rule(1.1, 0.2, 1.1, 1.5) + _rule(1.7, 0.8, 1.7, 1.9)),
    "laminate": (_MM, 0.0, _rule(0.5, 0.0, 0.5, _MM) + _dot(1.5, 0.5, 0.15) + _dot(1.5, 1.5, 0.15)),
    "soft": (_MM, 0.0, _dot(0.5, 0.5, 0.3, fill="none", stroke=BLACK, stroke_width=_LINE)
             + _dot(1.5, 1.5, 0.3, fill="none", stroke=BLACK, stroke_width=_LINE)),
    "other": (_MM, 0.0, _dot(0.5, 0.5, 0.1) + _dot(1.5, 1.5, 0.1)),
    "behind": (_MM, 45.0, _rule(0.0, 0.5, _MM, 0.5) + _rule(0.0, 1.0, _MM, 1.0)),
}  # fmt: skip
