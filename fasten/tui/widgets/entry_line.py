"""The entry line: the word in hand, what is typed, and how it was understood."""

from collections.abc import Callable

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Key, Resize
from textual.geometry import Size
from textual.message import Message
from textual.reactive import Reactive
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from fasten.report.safe import safe
from fasten.tui.state.outcome import Reading
from fasten.tui.widgets.content import content
from fasten.tui.widgets.lines import Lines
from fasten.tui.widgets.text_fields import SizeField

_BAR = "▌"
_LEAST, _MOST = 10, 30  # columns of the field where something stands beside it


def begun(text: str, columns: int) -> str:
    """As many whole words of a hint as there are columns for, and a sign that there is more to it."""
    if cell_len(text) <= columns:
        return text
    words = text.split()
    while len(words) > 1 and cell_len(" ".join(words)) + 2 > columns:
        words.pop()
    return f"{' '.join(words).rstrip(',:')} …"


class EntryField(SizeField):
    """A field for one word after the other: what is typed replaces what stood there, and comes back as it is erased.

    `typed` is called once it has changed, before that is drawn: as a message it would come after.
    """

    virtual_size = Reactive(Size(0, 0), layout=False)  # it is as wide and high whatever it says

    def __init__(self, typed: Callable[[], object] | None = None, *, blink: bool) -> None:
        super().__init__(id_="entry", blink=blink)
        self._tell = typed
        self._was = ""
        self._is_replaced = self._is_arriving = False
        self._keys_to_come = 0

    def arrive(self, text: str) -> None:
        """Take another word in hand; none of it counts as typed."""
        self._is_arriving = True
        with self.prevent(Input.Changed):
            self.value = text
        self._is_arriving = False
        self._was, self._is_replaced = self.value, False
        self.selection = Selection(0, len(self.value))

    def watch_value(self) -> None:
        """Say that it has changed as soon as the key is done that changed it."""
        if self._tell is not None and not self._is_arriving:
            self.call_next(self._tell)

    @property
    def has_more(self) -> bool:
        """Whether more was typed than is in it yet."""
        return self._keys_to_come > 0 or self.app.message_queue_size > 0

    def post_message(self, message: Message) -> bool:
        """Count the keys that are still to come; who is called has no use for a message beside."""
        if self._tell is not None and isinstance(message, Input.Changed):
            return False
        is_posted = super().post_message(message)
        self._keys_to_come += is_posted and isinstance(message, Key)
        return is_posted

    def on_key(self) -> None:
        self._keys_to_come -= 1

    def replace(self, text: str, start: int, end: int) -> None:
        """What is typed first replaces all that stands there."""
        is_whole = bool(text and self.value) and (min(start, end), max(start, end)) == (0, len(self.value))
        self._is_replaced = self._is_replaced or is_whole
        super().replace(text, start, end)

    def action_delete_left(self) -> None:
        """Erase the last letter, also right after the word was taken in hand."""
        if self.selection == Selection(0, len(self.value)):
            self.selection = Selection.cursor(len(self.value))
        super().action_delete_left()
        if not self.value and self._is_replaced:
            self.value, self._is_replaced = self._was, False
            self.selection = Selection(0, len(self.value))


class EntryLine(Vertical):
    """Label, field and reading; the reading stands beneath where there is no room beside."""

    def __init__(self, typed: Callable[[], object] | None = None, *, blink: bool) -> None:
        super().__init__(id="entry-line")
        self.field = EntryField(typed, blink=blink)
        self._label = Static(id="entry-label", markup=False)
        self._beside = Lines("", "entry-beside")
        self._beneath = Static(id="entry-beneath", markup=False)
        self._shown: tuple[str, Reading | None, str, str] = ("", None, "", "")
        self._noted: tuple[str, str, str] | None = None  # what stands beside and beneath, in which role
        self._labelled = ""

    def compose(self) -> ComposeResult:
        with Horizontal():
            yield self._label
            yield self.field
            yield self._beside
        yield self._beneath

    def arrive(self, text: str) -> None:
        """Take another word in hand; what stood beneath of the last one goes."""
        self.field.arrive(text)
        self._beneath.set_class(False, "-said")

    def show(self, label: str, reading: Reading | None, means: str, hint: str) -> None:
        """Show what the word is called and what was understood of it, or why not, or what stands in for it."""
        self._shown = label, reading, means, hint
        if self.size.width:
            self._show()

    def on_resize(self, _event: Resize) -> None:
        self._show()

    def _show(self) -> None:
        label, reading, means, hint = self._shown
        lead = f"{_BAR}{label} "
        if label != self._labelled:
            self._labelled = label
            self._label.update(content([((lead, "bold accent"),)]))
            self._label.styles.width = cell_len(lead)
        room = self.size.width - cell_len(lead)
        if reading is None:
            self._hint(hint, room)
        elif reading.offer:
            self._read(reading.offer, "good", room)
        elif reading.why:
            self._read(f"? {reading.why}", "bad", room)
        else:
            self._read(f"= {safe(reading.understood)}{f', {means}' if means else ''}", "good", room)

    def _read(self, text: str, role: str, room: int) -> None:
        typed = max(cell_len(self.field.value) + 1, _LEAST)
        is_beside = typed + 1 + cell_len(text) <= room
        self._note(text if is_beside else "", "" if is_beside else text, role)
        self.field.styles.width = max(min(room - cell_len(text) - 1, _MOST), typed) if is_beside else room

    def _hint(self, hint: str, room: int) -> None:
        """In brackets in the field, as much as there is room for; all of it beneath where that is not all."""
        fits = cell_len(hint) + 3 <= room
        self.field.placeholder = f"({begun(hint, room - 3)})"
        self._note("", "" if fits else f"({hint})", "quiet")
        self.field.styles.width = room

    def _note(self, beside: str, beneath: str, role: str) -> None:
        was, self._noted = self._noted, (beside, beneath, role)
        if self._noted == was:
            return
        self._beside.draw([((f" {beside}", role),) if beside else ()])
        self._beneath.update(content([((beneath, role),)]) if beneath else Content(""),
                             layout=was is None or was[1] != beneath)  # fmt: skip
        if beneath:
            self._beneath.set_class(True, "-said")  # until another word is in hand: what is below must not jump
