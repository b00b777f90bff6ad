"""A drilling template in the format that is asked for; each format is loaded only when it is drawn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.report.template.sheet import TemplateSheet

SVG = "svg"


def _svg(sheet: TemplateSheet) -> str:
    from fasten.report.template.svg import template_svg

    return template_svg(sheet)


def _tiles(sheet: TemplateSheet) -> str:
    from fasten.report.template.tiles import template_html

    return template_html(sheet)


def _dxf(sheet: TemplateSheet) -> str:
    from fasten.report.template.dxf import template_dxf

    return template_dxf(sheet)


_DRAWN: Mapping[str, Callable[[TemplateSheet], str]] = {SVG: _svg, "html": _tiles, "dxf": _dxf}
FORMATS = tuple(_DRAWN)


def written(sheet: TemplateSheet, format_: str) -> str:
    """The template in one of FORMATS; raises ValueError for another."""
    if format_ not in _DRAWN:
        raise ValueError(f"format {format_!r} is none of {', '.join(FORMATS)}")
    return _DRAWN[format_](sheet)
