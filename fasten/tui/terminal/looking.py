"""A screen in one of the looks of the palette."""

import os

from textual.app import App

from fasten.tui.palette import PLAIN, theme


class Looking(App[None]):
    """A screen that begins in a look, and may go on to another; where no colour is wanted it has no other."""

    def __init__(self, look: str) -> None:
        first = theme(PLAIN if "NO_COLOR" in os.environ else look)
        # By this Textual sends the terminal's own numbers, and takes colours out instead of making greys of them.
        super().__init__(ansi_color=first.ansi or None)
        self.register_theme(first)
        self.set_reactive(App.theme, first.name)
        self.stylesheet.set_variables(self.get_css_variables())  # it has those of another look by now

    def look_in(self, look: str) -> None:
        """Take on another look, made when it is first wanted."""
        self.register_theme(theme(look))
        self.ansi_color = None if look != PLAIN else True  # as the look says
        self.theme = look
