"""What can be done on the page of the measuring pass: keep that a gauge went as it should, or what was read."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual.screen import ModalScreen

from fasten.tui.frame import Frame
from fasten.tui.state.blank import Blank
from fasten.tui.widgets.panels import Filled, FillPanel

if TYPE_CHECKING:
    from fasten.job.gauge.words import Mark
    from fasten.tui.gauge.gauge import GaugePlace
    from fasten.tui.state.open_job import Revision

GAUGE = "gauge"


class GaugeActions(Frame):
    """Actions on the measuring pass."""

    @property
    def gauge_page(self) -> GaugePlace:
        """The page of the measuring pass."""
        from fasten.tui.gauge.gauge import GaugePlace

        return self.query_one(GaugePlace)

    async def action_gauge(self) -> None:
        """Go to the measuring pass; from there, find it anew."""
        is_there = self.place == GAUGE
        await self.action_go(GAUGE)
        if is_there:
            self.show_pass(anew=True)

    def show_pass(self, *, anew: bool = False) -> None:
        """Show the pass of the job as it stands."""
        place = self.gauge_page
        place.load(self.open_job.job, self.open_shelf.known(), self.open_job.revision, anew=anew)

    @property
    def has_try(self) -> bool:
        """Whether a trial is marked."""
        return self.place == GAUGE and self.gauge_page.marked is not None

    def action_try_mark(self) -> None:
        """The marked trial goes as it should."""
        place = self.gauge_page
        tried = place.marked
        if tried is not None:
            self.attempt(partial(self._keep_found, tried.mark, place.seen, {"read": ""}))
            self._found_kept(True)

    async def on_gauge_place_tried(self, message: GaugePlace.Tried) -> None:
        from fasten.report.job.gauge import trial

        if isinstance(self.screen, ModalScreen):
            return  # a second Enter came before the first had asked
        mark = message.tried.mark
        note = f"{trial(mark)}. Leave it empty where that is so; where it is not, write what was read."
        read = Blank("read", "Read", message.tried.kept if message.tried.kept != mark.said else "", "14 mm")
        keep = partial(self._keep_found, mark, message.seen)
        await self.push_screen(FillPanel(mark.mount, (read,), keep, note=note), self._found_kept)

    def _keep_found(self, mark: Mark, seen: Revision, filled: Filled) -> None:
        from fasten.job.gauge.ticks import kept, read_text

        read = filled["read"].strip()
        text = read_text(mark, read, self.tables) if read else mark.said
        self.open_job.measured(kept(self.open_job.job, mark, text), f"{mark.mount} measured", seen)
        self.save()

    def _found_kept(self, is_kept: bool | None) -> None:
        if self.place == GAUGE:
            self.show_pass()
            if is_kept:
                self.gauge_page.go_on()
