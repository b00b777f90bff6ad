"""Drawing of what has changed alone: a key changes a few lines of a few widgets."""

from itertools import pairwise

from textual._compositor import ChopsUpdate, Compositor
from textual.geometry import Region
from textual.strip import Strip


class SparingCompositor(Compositor):
    """Has each widget make those lines alone that are drawn anew and that nothing in front of it covers.

    The usual one has every widget make all of its lines, and every container behind others.
    """

    def render_partial_update(self) -> ChopsUpdate | None:
        """What has changed since the last update; None where nothing has."""
        spans = list(self._regions_to_spans(self._dirty_regions))
        self._dirty_regions.clear()
        if not spans:
            return None
        cuts = self.cuts
        chops: list[dict[int, Strip | None]] = [dict.fromkeys(line[:-1]) for line in cuts]
        self._fill(chops, spans)
        return ChopsUpdate(chops, spans, [line[1:] for line in cuts])

    def _fill(self, chops: list[dict[int, Strip | None]], spans: list[tuple[int, int, int]]) -> None:
        """Fill the cells of these spans, each by the first widget that has it, front to back."""
        left_open: dict[int, set[int]] = {}  # of each line, where the cells begin that nothing has filled yet
        for y, left, right in spans:
            cells = pairwise(self.cuts[y])
            left_open.setdefault(y, set()).update(at for at, end in cells if at < right and end > left)
        for widget, (region, clip) in self.visible_widgets.items():
            shown = region.intersection(clip)
            columns = range(*shown.column_span)
            lines = [y for y in shown.line_range if any(at in columns for at in left_open.get(y, ()))]
            if not lines:
                continue
            top, bottom = lines[0], lines[-1] + 1
            strips = widget.render_lines(Region(shown.x - region.x, top - region.y, shown.width, bottom - top))
            for y in lines:
                ends = [at for at in self.cuts[y] if columns.start <= at <= columns.stop]
                parts = strips[y - top].divide([end - columns.start for end in ends[1:]])
                chops[y].update((at, part) for at, part in zip(ends, parts, strict=False) if at in left_open[y])
                left_open[y].difference_update(ends[:-1])
