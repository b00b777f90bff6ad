"""A field whose text has no use for the leader key, so that the key does what it does everywhere."""

from textual.widgets import Input

from fasten.tui.actions import LEADER


class Say(Input):
    """A field for sizes and names of things: the leader key goes past it."""

    def __init__(self, text: str, placeholder: str, *, id_: str, blink: bool) -> None:
        super().__init__(text, placeholder, compact=True, select_on_focus=False, id=id_)
        self.cursor_blink = blink

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Every printable key but the leader is text."""
        return character != LEADER and super().check_consume_key(key, character)
