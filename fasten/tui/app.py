"""The first screen: the questions, and beside or beneath them the answer to what is typed."""

import os
from typing import ClassVar

from textual import on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.timer import Timer
from textual.widgets import Button, Input, Static

from fasten.catalog.tables import Tables
from fasten.report.safe import safe
from fasten.tui.answer import AnswerPanel
from fasten.tui.entry import Outcome, consider
from fasten.tui.form import Form, on_button

PAUSE_S = 0.05  # of typing, before the answer is worked out anew
_READ, _BACK = "Read answer", "Back to questions"


class FastenApp(App[None]):
    """One question and its answer. Nothing is kept when it closes."""

    TITLE = "fasten"
    CSS_PATH = "style.tcss"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (20, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [
        # Taken here, before any widget: a key typed fast after one of these must reach the field that it moved to.
        Binding("tab", "step(1)", "On", priority=True),
        Binding("shift+tab", "step(-1)", "Back", priority=True),
        Binding("down", "arrow(1)", "Next field", priority=True),
        Binding("up", "arrow(-1)", "Field before", priority=True),
        Binding("enter", "onward", "Next field, or press", priority=True),
        Binding("pageup", "page(-1)", "Answer up"),
        Binding("pagedown", "page(1)", "Answer down"),
        Binding("ctrl+c", "quit", "Quit", show=False, priority=True),
    ]

    def __init__(self, tables: Tables, *, blink: bool = True) -> None:
        super().__init__()
        self._tables = tables
        self._form = Form(blink=blink)
        self._answer = AnswerPanel(tuple(f"Your own table is left out: {safe(str(p))}" for p in tables.problems))
        self._pause: Timer | None = None

    def compose(self) -> ComposeResult:
        yield Static("fasten: audio gear in vehicles", id="title", markup=False)
        with Horizontal(id="places"):
            yield self._form
            yield self._answer
        with Horizontal(id="bar"):
            yield Button(on_button(_READ), compact=True, id="read")
            yield Button(on_button("Quit"), compact=True, id="quit")
            yield Static("Page Up and Page Down scroll the answer", id="hint", markup=False)

    def on_mount(self) -> None:
        self._form.resume()

    @on(Input.Changed)
    def _typed(self) -> None:
        if self._pause is not None:
            self._pause.stop()
        self._pause = self.set_timer(PAUSE_S, self._work_out)

    def _work_out(self) -> None:
        outcome = self._considered()
        self._form.show(outcome)
        self._answer.show(outcome)

    def _considered(self) -> Outcome:
        try:
            return consider(self._form.said(), self._tables)
        except Exception as error:
            # What was typed must outlive a fault in working out one answer.
            if os.environ.get("FASTEN_DEBUG"):
                raise
            return Outcome(trouble=safe(f"a fault of the program, not yours: {type(error).__name__}: {error}"))

    @on(Button.Pressed)
    async def _pressed(self, event: Button.Pressed) -> None:
        await self._press(event.button)

    async def _press(self, button: Button) -> None:
        if button.id == "more":
            await self._form.unfold()
        elif button.id == "read":
            self._read()
        else:
            self.exit()

    def _read(self) -> None:
        """Give the answer the whole of a small screen, or go back to the field that was in hand."""
        reading = not self.screen.has_class("-reading")
        self.screen.set_class(reading, "-reading")
        self.query_one("#read", Button).label = on_button(_BACK if reading else _READ)
        if reading:
            self._answer.read()
        else:
            self._form.resume()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Arrow keys scroll where something is being read; Tab leaves it."""
        if action in {"onward", "arrow"}:
            return isinstance(self.focused, Input | Button)
        return super().check_action(action, parameters)

    def action_step(self, steps: int) -> None:
        """Go to the field or button after or before."""
        (self.screen.focus_next if steps > 0 else self.screen.focus_previous)()

    def action_arrow(self, steps: int) -> None:
        """The same by an arrow key, where it does not scroll."""
        self.action_step(steps)

    async def action_onward(self) -> None:
        """Go on to the next field, or press the button in hand."""
        if isinstance(self.focused, Button):
            await self._press(self.focused)
        else:
            self.screen.focus_next()

    def action_page(self, pages: int) -> None:
        """Scroll the answer."""
        self._answer.page(pages)
