"""A row of the page of repair where it is listed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content
from textual.widgets.option_list import Option

if TYPE_CHECKING:
    from fasten.after.routes import Route
    from fasten.tui.repair.repair_story import Offer


class RepairOption(Option):
    """A row with what it says or which route it is; None for a heading."""

    def __init__(self, prompt: Content, is_for: Offer | Route | None) -> None:
        super().__init__(prompt, disabled=is_for is None)
        self.is_for = is_for
