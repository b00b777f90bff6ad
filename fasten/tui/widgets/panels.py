"""What comes up over the screen: a list of things to do, a choice, a few fields to fill, a text to read.

Each closes by a key and by a button that can be tapped; none needs Esc, Ctrl, Alt or a function key.
"""

from collections.abc import Callable, Sequence
from textwrap import wrap
from typing import ClassVar, TypeVar

from rich.cells import cell_len
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Key, Resize
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.input import Selection
from textual.widgets.option_list import Option

from fasten.errors import FastenError
from fasten.record import record
from fasten.report.safe import safe
from fasten.tui.actions import LEADER, Action
from fasten.tui.state.blank import Blank
from fasten.tui.widgets.button import Button, on_button
from fasten.tui.widgets.text_fields import LinesField, TextField

Result = TypeVar("Result")
BACK = "Back"
_LEAST_COLUMNS = 30  # of a text to read
OPTION_COLUMNS = 2  # columns that a list leaves free beside each of its lines
_SMALL = 60  # columns under which a line each is all there is room for
_LABEL = 12  # columns of the labels of a panel, at least
_INDENT = "   "  # of the lines after the first, past the key


def turn_page(lines: OptionList, pages: int) -> None:
    """Go so many pages on in a list."""
    if pages > 0:
        lines.action_page_down()  # type: ignore[no-untyped-call]
    else:
        lines.action_page_up()  # type: ignore[no-untyped-call]


class Panel(ModalScreen[Result]):
    """A panel over the screen; `;` closes it where nothing is being typed, and Escape, which nothing needs.

    Its own keys are given to `takes` by the screen it is over, so that what is typed next comes after them.
    """

    def __init__(self, title: str) -> None:
        super().__init__()
        self._heading = title

    def body(self) -> Vertical:
        """What all of it stands in."""
        return Vertical(classes="panel")

    def head(self) -> Static:
        return Static(safe(self._heading), classes="panel-title", markup=False)

    @on(Button.Pressed, "#back")
    def _back(self) -> None:
        self.close(None)

    def takes(self, key: Key) -> bool:
        """Do what a key of the panel's own stands for; whether it is one."""
        is_back = key.key == "escape" or (key.character == LEADER and not isinstance(self.focused, Input))
        if is_back:
            self.close(None)
        return is_back

    def close(self, result: Result | None) -> None:
        """Give a result back and go, once: a second tap may come before it is gone."""
        if self.is_current:
            self.dismiss(result)


class DoPanel(Panel[Action]):
    """Everything that can be done here, each by its key, by Enter or by a tap.

    The key of one of the `others` does it too: there is nothing to do it to, and it says so.
    """

    def __init__(self, actions: Sequence[Action], others: Sequence[Action] = ()) -> None:
        super().__init__("What now? Press its letter")
        self._actions, self._others = actions, others
        self._list = OptionList(*(action.label for action in actions), markup=False)

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel"):
            yield self.head()
            yield self._list
            yield Button(on_button(f"{LEADER} {BACK}"), compact=True, id="back")

    def takes(self, key: Key) -> bool:
        known = (*self._actions, *self._others)
        found = next((a for a in known if key.character and a.key == key.character.casefold()), None)
        if found is not None:
            self.close(found)
            return True
        taken = super().takes(key)
        if not taken and key.is_printable and key.character and not key.character.isspace():
            self._tell(f"Nothing here goes by {key.character}: a letter of these, or {LEADER} to go back")
        return taken

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        """Each action in its lines; on a small screen its label alone, and of the one that is marked all, on top."""
        short, columns = self._is_small, self._list.scrollable_content_region.width - OPTION_COLUMNS
        for at, action in enumerate(self._actions):
            text = action.label if short else f"{action.label}: {action.about}"
            lines = wrap(text, max(columns - len(_INDENT), 10))
            self._list.replace_option_prompt_at_index(at, Content(f"{action.key}  " + f"\n{_INDENT}".join(lines)))

    @on(OptionList.OptionHighlighted)
    def _marked(self, event: OptionList.OptionHighlighted) -> None:
        if self._is_small:
            self._tell(_sentence(self._actions[event.option_index].about))

    @property
    def _is_small(self) -> bool:
        return self.has_class("-short") or self.size.width < _SMALL

    def _tell(self, text: str) -> None:
        self.query_one(".panel-title", Static).update(Content(safe(text)))

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self.close(self._actions[event.option_index])


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


@record
class Choice:
    """One of several: what it gives back and what it says."""

    key: str
    text: str


_NONE = "none of them has these letters"


class PickPanel(Panel[str]):
    """Pick one by typing a few of its letters, by arrow keys and Enter, or by a tap.

    What is typed and is none of them is a choice of its own where there is an `other` for it.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "move(1)", show=False, priority=True), Binding("up", "move(-1)", show=False, priority=True),
    ]  # fmt: skip

    def __init__(
        self, title: str, choices: Sequence[Choice], other: Callable[[str], Choice] | None = None
    ) -> None:  # fmt: skip
        super().__init__(title)
        self._choices, self._other = choices, other
        self._found: Sequence[Choice] = choices
        self._list = OptionList(markup=False)
        self._typed = TextField(placeholder="(type a few letters)", id_="letters")
        self._listed_for = ""  # what was typed when the list was made

    def compose(self) -> ComposeResult:
        with self.body():
            yield self.head()
            yield self._typed
            yield self._list
            with Horizontal(classes="panel-bar"):
                yield Button(on_button("Take"), compact=True, id="take")
                yield Button(on_button(BACK), compact=True, id="back")

    def on_mount(self) -> None:
        self._fill()
        self.set_focus(self._typed)  # not `focus()`, which leaves it for later

    @on(Input.Changed, "#letters")
    def _fill(self) -> None:
        self._listed_for = self._typed.value
        wanted = self._listed_for.casefold().split()
        found = [c for c in self._choices if all(word in c.text.casefold() for word in wanted)]
        if not found and self._other is not None:
            found = [self._other(self._listed_for.strip())]
        self._found = found
        self.listed(found)
        if not found:
            self._list.add_option(Option(_NONE, disabled=True))
        self._list.highlighted = 0 if found else None

    def listed(self, found: Sequence[Choice]) -> None:
        """List these choices."""
        self._list.clear_options()
        self._list.add_options(
            [Option(Content(safe(choice.text)), id=f"choice-{at}") for at, choice in enumerate(found)]
        )

    def key_of(self, option: Option) -> str:
        """What a choice gives back."""
        assert option.id is not None
        return self._found[int(option.id.removeprefix("choice-"))].key

    def action_move(self, steps: int) -> None:
        (self._list.action_cursor_down if steps > 0 else self._list.action_cursor_up)()

    def takes(self, key: Key) -> bool:
        if key.character == LEADER:  # no name that is looked for begins with it
            self.close(None)
            return True
        if key.key != "enter" or self.focused is not self._typed:
            return super().takes(key)
        if self._listed_for != self._typed.value:  # the list is not made yet for the last letters
            self._fill()
        self._take()
        return True

    @on(Button.Pressed, "#take")
    def _take(self) -> None:
        if self._list.highlighted is not None:
            self._give(self._list.get_option_at_index(self._list.highlighted))

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        self._give(event.option)

    def _give(self, option: Option) -> None:
        self.close(self.key_of(option))


Filled = dict[str, str]


class FillPanel(Panel[bool]):
    """A few fields of free text; Enter goes on to the next and from the last one takes them all.

    `do` is called with what was filled in. Where it raises FastenError the panel stays as it is and says why. One that
    is `ready` can be kept at once as it is filled.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down", "app.focus_next", show=False, priority=True),
        Binding("up", "app.focus_previous", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        blanks: Sequence[Blank],
        do: Callable[[Filled], None],
        *,
        note: str = "",
        take: str = "Keep",
        ready: bool = False,
    ) -> None:
        super().__init__(title)
        self._is_ready = ready
        self._blanks, self._do, self._note, self._take_label = blanks, do, note, take
        self._why = Static(classes="panel-why", markup=False)

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel"):
            yield self.head()
            if self._note:
                yield Static(safe(self._note), classes="panel-note", markup=False)
            with VerticalScroll(classes="panel-fields", can_focus=False):
                for blank in self._blanks:
                    with Horizontal(classes="blank"):
                        yield self._label(blank)
                        yield _input(blank)
            yield self._why
            with Horizontal(classes="panel-bar"):
                yield Button(on_button(self._take_label), compact=True, id="take")
                yield Button(on_button(BACK), compact=True, id="back")

    def _label(self, blank: Blank) -> Static:
        """What a field is called; all fields begin in one column, after the longest of their labels."""
        label = Static(blank.label, classes="label", markup=False)
        label.styles.width = max(_LABEL, *(cell_len(one.label) + 1 for one in self._blanks))
        return label

    def on_mount(self) -> None:
        self.set_focus(self.query_one("#take") if self._is_ready else self.query(Input).first())

    def to_end(self) -> None:
        """Go on after what stands in the first field, instead of in its place."""
        first = self.query(Input).first()
        first.selection = Selection.cursor(len(first.value))

    def takes(self, key: Key) -> bool:
        if key.key != "enter" or not isinstance(self.focused, Input):
            return super().takes(key)
        aside = {f"fill-{blank.key}" for blank in self._blanks if blank.aside}
        inputs = [one for one in self.query(Input) if one.id not in aside]
        if self.focused is inputs[-1] or self.focused not in inputs:
            self._take()
        else:
            self.set_focus(inputs[inputs.index(self.focused) + 1])
        return True

    @on(Button.Pressed, "#take")
    def _take(self) -> None:
        try:
            self._do({blank.key: self.query_one(f"#fill-{blank.key}", Input).value for blank in self._blanks})
        except FastenError as error:
            self._why.update(Content(f"! {safe(str(error))}"))
            self._why.display = True
        else:
            self.close(True)


def _input(blank: Blank) -> Input:
    example = f"(e.g. {blank.example})" if blank.example else ""
    kind = LinesField if blank.many else TextField
    return kind(blank.text, example, id_=f"fill-{blank.key}")


class ReadPanel(Panel[str]):
    """A text to read, written for the columns there are, and buttons for what to do: each gives its word back."""

    def __init__(self, title: str, write: Callable[[int], str], offers: Sequence[Choice] = ()) -> None:
        super().__init__(title)
        self._write_for, self._offers = write, offers
        self._words = Static(markup=False)
        self._scroll = VerticalScroll(self._words, classes="panel-text")

    def compose(self) -> ComposeResult:
        with Vertical(classes="panel -tall-panel"):
            yield self.head()
            yield self._scroll
            with Horizontal(classes="panel-bar"):
                for number, offer in enumerate(self._offers):
                    yield Button(on_button(offer.text), compact=True, id=f"offer-{number}")
                yield Button(on_button(f"{LEADER} {BACK}"), compact=True, id="back")

    def on_mount(self) -> None:
        self.set_focus(self._scroll)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        width = max(self._scroll.scrollable_content_region.width, _LEAST_COLUMNS)
        self._words.update(Content(self._write_for(width)))

    @on(Button.Pressed)
    def _offered(self, event: Button.Pressed) -> None:
        if event.button.id and event.button.id.startswith("offer-"):
            self.close(self._offers[int(event.button.id.removeprefix("offer-"))].key)
