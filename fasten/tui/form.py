"""The question form: one row a field, what was understood beside it, and why not beneath it."""

from rich.cells import cell_len, set_cell_size
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import DescendantFocus, Resize
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, Static

from fasten.question import fields
from fasten.tui.button import Button
from fasten.tui.outcome import Outcome, Reading
from fasten.tui.text_fields import SizeField

_INPUT = "input-"  # begins what such a widget goes by
_LABEL_COLUMNS = 15  # as in the stylesheet
_FIRST = tuple(ask for ask in fields.FORM if ask.name in fields.NEEDED)
_MORE = tuple(ask for ask in fields.FORM if ask.name not in fields.NEEDED)


def on_button(text: str) -> Content:
    """The label of a button, which is seen to be one without colours too."""
    return Content(f"[ {text} ]")


def clipped(text: str, columns: int) -> str:
    """The text, or as much of it as there are columns for and a sign that there is more."""
    return text if cell_len(text) <= columns else f"{set_cell_size(text, max(columns - 1, 0)).rstrip()}…"


def _begun(text: str, columns: int) -> str:
    """As many whole words of a hint as there are columns for, and a sign that there is more to it."""
    if cell_len(text) <= columns:
        return text
    words = text.split()
    while len(words) > 1 and cell_len(" ".join(words)) + 2 > columns:
        words.pop()
    return f"{' '.join(words).rstrip(',:')} …"


def _instead(ask: fields.Field, outcome: Outcome) -> str:
    """What stands in the answer for a field that was not said."""
    if outcome.good is None:
        return ""
    from fasten.tui.entry import filled

    return filled(ask, outcome.good.advice.mount)


def field_of(widget: Widget) -> str:
    """The name of the field that a widget is where something is typed into one; else empty."""
    return (widget.id or "").removeprefix(_INPUT) if (widget.id or "").startswith(_INPUT) else ""


class Field(Vertical):
    """A field: label, what is typed, what is understood of it, and why it is not."""

    class Grown(Message):
        """The field has another height: it may have to be brought into view again."""

    def __init__(self, ask: fields.Field, text: str = "", *, blink: bool) -> None:
        super().__init__(id=f"field-{ask.name}")
        self.ask = ask
        self.input = SizeField(text, f"({ask.hint})", id_=f"{_INPUT}{ask.name}", blink=blink)
        self._shown: tuple[Reading | None, str] = (None, "")
        self._noted = "", ""
        self._line = Horizontal(Static(ask.label, classes="label", markup=False), self.input)
        self._beside = Static(classes="beside", markup=False)
        self._beneath = Static(classes="beneath", markup=False)

    def compose(self) -> ComposeResult:
        yield self._line

    def show(self, reading: Reading | None, instead: str) -> None:
        """Show what is understood of the field, or why it is not, or what stands in for it where it is empty."""
        self._shown = reading, instead
        self.set_class(reading is not None and bool(reading.why), "-misread")
        if not self.size:
            return  # it has no room yet; once it has, this comes again
        if reading is None:
            self._show_instead(instead)
        elif reading.why:
            self._note("", f"! {reading.why}")
        else:
            understood = f"= {reading.understood}"
            fits = cell_len(self.input.value) + cell_len(understood) + 1 <= self._room()
            self._note(understood, "") if fits else self._note("", understood)

    def on_resize(self, _event: Resize) -> None:
        self.show(*self._shown)
        self.post_message(self.Grown())

    def on_descendant_focus(self) -> None:
        self._mark_in_hand()

    def on_descendant_blur(self) -> None:
        self._mark_in_hand()

    def _mark_in_hand(self) -> None:
        self.set_class(self.input.has_focus, "-in-hand")
        self.show(*self._shown)

    def _show_instead(self, instead: str) -> None:
        """In brackets where a text would be typed; beneath where that is too narrow, an example only in hand."""
        text = instead or self.ask.hint
        fits = cell_len(text) + 2 <= self._room()
        self.input.placeholder = f"({_begun(text if fits else self.ask.hint, self._room() - 2)})"
        wanted = bool(instead) or self.input.has_focus
        self._note("", f"({text})" if wanted and not fits else "")

    def _note(self, beside: str, beneath: str) -> None:
        if (beside, beneath) == self._noted:
            return
        self._noted = beside, beneath
        if not self._beside.parent:
            self._line.mount(self._beside)
            self.mount(self._beneath)
        self._beside.update(Content(beside))
        self._beneath.update(Content(beneath))
        self._beneath.display = bool(beneath)

    def _room(self) -> int:
        """Columns for what is typed and what is understood of it, less one for the cursor."""
        return self.size.width - _LABEL_COLUMNS - 1


class Form(Vertical):
    """The fields; those beyond the first three are folded until they are wanted."""

    def __init__(self, *, blink: bool) -> None:
        super().__init__(id="form")
        self._blink = blink
        self._outcome = Outcome()
        self._more = Button(on_button("More questions"), compact=True, id="more")
        self._fields = [Field(ask, blink=blink) for ask in _FIRST]
        self._last: Input | None = None
        self._waiting: dict[str, str] = {}  # what was said in fields that have not been unfolded yet
        self._folded = Vertical(id="folded")

    @property
    def is_open(self) -> bool:
        return bool(self._folded.display)

    def compose(self) -> ComposeResult:
        yield from self._fields
        yield self._more
        yield self._folded

    def on_mount(self) -> None:
        self._folded.display = False

    def said(self) -> dict[str, str]:
        """Every field as typed, folded or not yet made."""
        return {**self._waiting, **{field.ask.name: field.input.value for field in self._fields}}

    def show(self, outcome: Outcome) -> None:
        """Show beside each field what came of it."""
        self._outcome = outcome
        for field in self._fields:
            field.show(outcome.readings.get(field.ask.name), _instead(field.ask, outcome))
        self._name_button()
        self.call_after_refresh(self._keep_in_view)

    def fill(self, said: dict[str, str]) -> None:
        """Put a whole question into the fields; nothing of it counts as typed."""
        self._waiting = {name: text for name, text in said.items() if name not in fields.NEEDED}
        with self.prevent(Input.Changed):
            for field in self._fields:
                field.input.value = said.get(field.ask.name, "")
        self._last = None

    async def unfold(self) -> None:
        """Open the folded fields, or fold them again; what was said in them stays said."""
        if not self._folded.children:
            more = [Field(ask, self._waiting.get(ask.name, ""), blink=self._blink) for ask in _MORE]
            self._fields += more
            await self._folded.mount_all(more)
        self._folded.display = not self.is_open
        self.show(self._outcome)
        # Not `focus()`, which leaves it for later: what is typed next must find the focus moved.
        self.screen.set_focus(self._folded.query(Input).first() if self.is_open else self._more)
        if self.is_open and self.screen.has_class("-short"):
            self.call_after_refresh(self._show_unfolded)

    def _show_unfolded(self) -> None:
        """As many of the folded fields as a short screen has room for, however soon they stand there."""
        self.scroll_to_widget(self._folded, animate=False, top=True)

    def resume(self) -> None:
        """Go back to the field that was last in hand, or to the first, past what stands in it."""
        field = self._last or self.query(Input).first()
        field.cursor_position = len(field.value)
        self.screen.set_focus(field)

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        if isinstance(event.widget, Input):
            self._last = event.widget
        self.call_after_refresh(self._keep_in_view)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._keep_in_view)

    def _name_button(self) -> None:
        """Say how much is folded away, and whether any of it must be put right."""
        names = [ask.name for ask in _MORE]
        said = sum(name in self._outcome.readings for name in names)
        wrong = sum(name in self._outcome.misread for name in names)
        note = f" ({wrong} to put right)" if wrong else f" ({said} said)" if said else ""
        self._more.label = on_button("Fewer questions" if self.is_open else f"More questions{note}")

    def on_field_grown(self) -> None:
        self._keep_in_view()

    def _keep_in_view(self) -> None:
        """The field in hand, with the reason beneath it."""
        focused = self.screen.focused
        if focused is not None and self in focused.ancestors:
            field = next((node for node in focused.ancestors if isinstance(node, Field)), focused)
            taller = field.size.height > self.size.height  # then its label, where it begins, and not its end
            self.scroll_to_widget(field, animate=False, top=taller)
