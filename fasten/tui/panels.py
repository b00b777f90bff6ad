"""What comes up over the screen: a list of things to do, a choice, a few fields to fill, a text to read.

Each closes by a key and by a button that can be tapped; none needs Esc, Ctrl, Alt or a function key.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, TypeVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Button, Input, OptionList, Static
from textual.widgets.option_list import Option

from fasten.report.safe import safe
from fasten.tui.actions import Action
from fasten.tui.form import on_button

Result = TypeVar("Result")
BACK = "Back"


def turn_page(lines: OptionList, pages: int) -> None:
    """Go so many pages on in a list."""
    if pages > 0:
        lines.action_page_down()  # type: ignore[no-untyped-call]
    else:
        lines.action_page_up()  # type: ignore[no-untyped-call]


class Panel(ModalScreen[Result]):
    """A panel over the screen; `x` closes it where nothing is being typed."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self._heading = title

    def head(self) -> Static:
        return Static(safe(self._heading), classes="panel-title", markup=False)

    @on(Button.Pressed, "#back")
    def _back(self) -> None:
        self.dismiss(None)

    def on_key(self, event: Key) -> None:
        if event.character == "x" and not isinstance(self.focused, Input):
            event.stop()
            self.dismiss(None)


class DoPanel(Panel[Action]):
    """Everything that can be done here, each by its key, by Enter or by a tap."""

    def __init__(self, actions: Sequence[Action]) -> None:
        super().__init__("What now? Press its letter")
        self._actions = actions

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel"):
            yield self.head()
            yield OptionList(*(Content(f"{a.key}  {a.label}: {a.about}") for a in self._actions), markup=False)
            yield Button(on_button(f"x {BACK}"), compact=True, id="back")

    def on_key(self, event: Key) -> None:
        # The key that closes is seen to by the class below: Textual calls its `on_key` as well as this one.
        found = next((action for action in self._actions if action.key == event.character), None)
        if found is not None:
            event.stop()
            self.dismiss(found)

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(self._actions[event.option_index])


@dataclass(frozen=True)
class Choice:
    """One of several: what it gives back and what it says."""

    key: str
    text: str


class PickPanel(Panel[str]):
    """Pick one by typing a few of its letters, by arrow keys and Enter, or by a tap."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "move(1)", show=False, priority=True), Binding("up", "move(-1)", show=False, priority=True),
        Binding("enter", "take", show=False, priority=True),
    ]  # fmt: skip

    def __init__(self, title: str, choices: Sequence[Choice]) -> None:
        super().__init__(title)
        self._choices = choices
        self._list = OptionList(markup=False)
        self._typed = Input(placeholder="(type a few letters)", compact=True, id="letters")

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel"):
            yield self.head()
            yield self._typed
            yield self._list
            with Horizontal(classes="panel-bar"):
                yield Button(on_button("Take"), compact=True, id="take")
                yield Button(on_button(BACK), compact=True, id="back")

    def on_mount(self) -> None:
        self._fill()
        self._typed.focus()

    @on(Input.Changed, "#letters")
    def _fill(self) -> None:
        wanted = self._typed.value.casefold().split()
        found = [c for c in self._choices if all(word in c.text.casefold() for word in wanted)]
        self._list.clear_options()
        self._list.add_options(
            [Option(Content(safe(choice.text)), id=f"choice-{self._choices.index(choice)}") for choice in found]
        )
        self._list.highlighted = 0 if found else None

    def action_move(self, steps: int) -> None:
        (self._list.action_cursor_down if steps > 0 else self._list.action_cursor_up)()

    @on(Button.Pressed, "#take")
    def action_take(self) -> None:
        """Take the one that is marked, or close by the button in hand."""
        if isinstance(self.focused, Button) and self.focused.id == "back":
            self.dismiss(None)
        elif self._list.highlighted is not None:
            self._give(self._list.get_option_at_index(self._list.highlighted))

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self._give(event.option)

    def _give(self, option: Option) -> None:
        assert option.id is not None
        self.dismiss(self._choices[int(option.id.removeprefix("choice-"))].key)


@dataclass(frozen=True)
class Blank:
    """One field to fill: its key, its label and what stands in it."""

    key: str
    label: str
    text: str = ""


class FillPanel(Panel[dict[str, str]]):
    """A few fields of free text; Enter goes on to the next and from the last one takes them all."""

    def __init__(self, title: str, blanks: Sequence[Blank], *, note: str = "") -> None:
        super().__init__(title)
        self._blanks, self._note = blanks, note

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel"):
            yield self.head()
            if self._note:
                yield Static(safe(self._note), classes="panel-note", markup=False)
            with VerticalScroll(classes="panel-fields"):
                for blank in self._blanks:
                    with Horizontal(classes="blank"):
                        yield Static(blank.label, classes="label", markup=False)
                        yield Input(value=blank.text, compact=True, select_on_focus=False, id=f"fill-{blank.key}")
            with Horizontal(classes="panel-bar"):
                yield Button(on_button("Take"), compact=True, id="take")
                yield Button(on_button(BACK), compact=True, id="back")

    def on_mount(self) -> None:
        self.query(Input).first().focus()

    @on(Input.Submitted)
    def _onward(self, event: Input.Submitted) -> None:
        inputs = list(self.query(Input))
        if event.input is inputs[-1]:
            self._take()
        else:
            inputs[inputs.index(event.input) + 1].focus()

    @on(Button.Pressed, "#take")
    def _take(self) -> None:
        self.dismiss({blank.key: self.query_one(f"#fill-{blank.key}", Input).value for blank in self._blanks})


class ReadPanel(Panel[str]):
    """A text to read, and buttons for what to do with it: each gives its own word back."""

    def __init__(self, title: str, text: str, offers: Sequence[Choice] = ()) -> None:
        super().__init__(title)
        self._text, self._offers = text, offers

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel -tall-panel"):
            yield self.head()
            with VerticalScroll(classes="panel-text"):
                yield Static(self._text, markup=False)
            with Horizontal(classes="panel-bar"):
                for number, offer in enumerate(self._offers):
                    yield Button(on_button(offer.text), compact=True, id=f"offer-{number}")
                yield Button(on_button(f"x {BACK}"), compact=True, id="back")

    def on_mount(self) -> None:
        self.query_one(".panel-text").focus()

    @on(Button.Pressed)
    def _offered(self, event: Button.Pressed) -> None:
        if event.button.id and event.button.id.startswith("offer-"):
            self.dismiss(self._offers[int(event.button.id.removeprefix("offer-"))].key)
