"""Fields that are typed into: what a terminal would obey is shown in them as an escape, pasted or not."""

from textual.events import Paste
from textual.widgets import Input

from fasten.report.safe import safe
from fasten.text.letters import NARROW_SPACES
from fasten.tui.actions import LEADER

BREAK = "\u00b6"  # where a pasted line ends


class TextField(Input):
    """A field for free text."""

    def __init__(self, text: str = "", placeholder: str = "", *, id_: str, blink: bool = True) -> None:
        super().__init__(text, placeholder, compact=True, select_on_focus=False, id=id_)
        self.cursor_blink = blink

    def validate_value(self, value: str) -> str:
        """The text without any character that moves the cursor, clears the screen or turns a line round."""
        if value.isprintable():
            return value
        return "".join(char if char in NARROW_SPACES else safe(char) for char in value)


class LinesField(TextField):
    """A field that keeps every line that is pasted into it, a sign between them."""

    def _on_paste(self, event: Paste) -> None:
        lines = [line for line in event.text.splitlines() if line.strip()]
        self.insert_text_at_cursor(f" {BREAK} ".join(lines))
        event.stop()
        event.prevent_default()


class SizeField(TextField):
    """A field for sizes and names of things: it has no use for the leader key, which does what it does everywhere."""

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Every printable key but the leader is text."""
        return character != LEADER and super().check_consume_key(key, character)
