"""The screen: four places over one job, a bar that names them, and one list of actions that drives keys and panel."""

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar, Protocol

from textual import on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.events import DescendantBlur, Key
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Button, ContentSwitcher, Input, Static

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.report.safe import safe
from fasten.tui.actions import LEADER, PLACES, Action, here, of_key
from fasten.tui.desk import Desk
from fasten.tui.form import bar_button, on_bar
from fasten.tui.keeping import Keeper
from fasten.tui.mounts import MountsPlace
from fasten.tui.panels import Blank, Choice, DoPanel, FillPanel, PickPanel

SAVE_EVERY_S = 1.0
_NEW = "+"  # stands for a new mount point or job among those there are


class Place(Protocol):
    """What every place can do."""

    def resume(self) -> None:
        """Take the keys up where they were left."""

    def page(self, pages: int) -> None:
        """Scroll what is read."""


class FastenApp(App[None]):
    """One job in hand, saved as it changes."""

    TITLE = "fasten"
    CSS_PATH = "style.tcss"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (20, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [
        # Taken here, before any widget: a key typed fast after one of these must reach the field that it moved to.
        Binding(LEADER, "do", "What now", key_display=LEADER, priority=True),
        Binding("tab", "step(1)", "On", priority=True),
        Binding("shift+tab", "step(-1)", "Back", priority=True),
        Binding("down", "arrow(1)", "Next field", priority=True),
        Binding("up", "arrow(-1)", "Field before", priority=True),
        Binding("enter", "onward", "Next field, or press", priority=True),
        Binding("pageup", "page(-1)", "Up"),
        Binding("pagedown", "page(1)", "Down"),
        Binding("ctrl+c", "quit", "Quit", show=False, priority=True),
    ]

    def __init__(self, tables: Tables, keeper: Keeper, path: Path | None = None, *, blink: bool = True) -> None:
        super().__init__()
        self._tables = tables
        self._keeper = keeper
        self._blink = blink
        self.desk: Desk = keeper.start(path)
        problems = tuple(f"Your own table is left out: {safe(str(p))}" for p in tables.problems)
        self._mounts = MountsPlace(tables, blink=blink, problems=problems)
        self._trouble = ""

    def compose(self) -> ComposeResult:
        yield Static(id="title", markup=False)
        with ContentSwitcher(initial="mounts", id="places"):
            yield self._mounts
        with Horizontal(id="bar"):
            yield bar_button(LEADER, "do")
            for place in PLACES:
                yield bar_button(place.label, f"go-{place.key}")
            yield bar_button("Read", "read")
            yield Static(f"{LEADER} and a letter does anything; Page Up and Page Down scroll", id="hint", markup=False)

    def on_mount(self) -> None:
        self._show_mount()
        self._mounts.resume()
        self.set_interval(SAVE_EVERY_S, self._save)

    # -- the job in hand -----------------------------------------------------------------------------------------------

    @on(MountsPlace.Said)
    def _said(self, message: MountsPlace.Said) -> None:
        was = self.desk.at
        self.desk.say(message.taken, message.taken.get("item", "mount"))
        if self.desk.at != was:
            self._mounts.took(self.desk.mount, self._mount_line())
        self._tell()

    def on_descendant_blur(self, _event: DescendantBlur) -> None:
        self._save()

    def _save(self) -> None:
        trouble = ""
        try:
            self.desk.save()
        except FastenError as error:
            trouble = safe(str(error))
        if trouble and trouble != self._trouble:
            self._say(f"Not saved: {trouble}", warn=True)
        self._trouble = trouble
        self._tell()

    def _tell(self) -> None:
        """The title line: which job, and whether it is saved."""
        desk = self.desk
        name = desk.job.title or (desk.path.stem if desk.path else "new job")
        state = "READ ONLY" if desk.read_only else "NOT SAVED" if self._trouble else "saved" if desk.is_saved else "…"
        self.query_one("#title", Static).update(Content(safe(f"fasten  {name}  {state}")))

    def _show_mount(self) -> None:
        self._mounts.load(self.desk.mount, self._mount_line())
        self._tell()

    def _mount_line(self) -> str:
        desk = self.desk
        if desk.mount is None or desk.at is None:
            return f"New mount point, {len(desk.job.mounts)} in the job" if desk.job.mounts else "New mount point"
        return f"{desk.mount.name}, {desk.at + 1} of {len(desk.job.mounts)}"

    def _say(self, text: str, *, warn: bool = False) -> None:
        self.notify(safe(text), severity="warning" if warn else "information", timeout=4, markup=False)

    # -- places --------------------------------------------------------------------------------------------------------

    @property
    def place(self) -> str:
        return self.query_one("#places", ContentSwitcher).current or "mounts"

    @property
    def _in_place(self) -> Widget:
        return self.query_one(f"#{self.place}")

    async def action_go(self, name: str) -> None:
        """Go to another place, made when it is first wanted."""
        self._save()
        places = self.query_one("#places", ContentSwitcher)
        if not self.query(f"#{name}"):
            await places.add_content(self._made(name))
        places.current = name
        self.screen.remove_class("-reading")
        in_place = self._in_place
        in_place.resume()  # type: ignore[attr-defined]

    def _made(self, name: str) -> Widget:
        from fasten.tui.lookup import LookPlace

        made: dict[str, Callable[[], Widget]] = {"look": lambda: LookPlace(self._tables, blink=self._blink)}
        return made[name]()

    # -- keys ----------------------------------------------------------------------------------------------------------

    async def on_key(self, event: Key) -> None:
        """A letter alone is an action where nothing is being typed."""
        if event.character and not isinstance(self.focused, Input) and not isinstance(self.screen, ModalScreen):
            action = of_key(event.character, self.place)
            if action is not None:
                event.stop()
                await self.run_action(action.name)

    @on(Button.Pressed)
    async def _pressed(self, event: Button.Pressed) -> None:
        if not isinstance(self.screen, ModalScreen):
            await self._press(event.button)

    async def _press(self, button: Button) -> None:
        kind, _, key = (button.id or "").partition("-")
        if kind == "more":
            await self._mounts.form.unfold()
        elif kind == "do":
            await self.action_do()
        elif kind == "read":
            self.action_read()
        elif kind == "go" and (place := of_key(key, self.place)) is not None:
            await self.run_action(place.name)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A panel has its own keys; arrow keys scroll where something is being read; Tab leaves it."""
        if action in {"do", "onward", "arrow", "page"} and isinstance(self.screen, ModalScreen):
            return False
        if action in {"onward", "arrow"}:
            return isinstance(self.focused, Input | Button)
        return super().check_action(action, parameters)

    async def action_do(self) -> None:
        """Show everything that can be done here."""
        self.push_screen(DoPanel(here(self.place)), self._done)

    async def _done(self, action: Action | None) -> None:
        if action is not None:
            await self.run_action(action.name)

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
        """Scroll what is read here."""
        self._in_place.page(pages)  # type: ignore[attr-defined]

    # -- actions -------------------------------------------------------------------------------------------------------

    def action_read(self) -> None:
        """Give the answer the whole of a small screen, or go back to the field that was in hand."""
        reading = self.place == "mounts" and not self.screen.has_class("-reading")
        self.screen.set_class(reading, "-reading")
        self.query_one("#read", Button).label = on_bar("Ask" if reading else "Read")
        if reading:
            self._mounts.answer.read()
        else:
            self._in_place.resume()  # type: ignore[attr-defined]

    async def action_new_mount(self) -> None:
        """Ask for another mount point."""
        self._save()
        self.desk.go_to(None)
        self._show_mount()
        self._mounts.resume()

    def action_all_mounts(self) -> None:
        """Go to another mount point."""
        choices = [Choice(str(at), f"{at + 1}  {mount.name}") for at, mount in enumerate(self.desk.job.mounts)]
        self.push_screen(PickPanel("Which mount point?", [*choices, Choice(_NEW, "a new one")]), self._picked_mount)

    def _picked_mount(self, key: str | None) -> None:
        if key is not None:
            self.desk.go_to(None if key == _NEW else int(key))
            self._show_mount()
            self._mounts.resume()

    def action_rename(self) -> None:
        """Name this mount point, and add a note."""
        mount = self.desk.mount
        if mount is None:
            self._say("Nothing is asked yet, so there is nothing to name")
            return
        blanks = (Blank("name", "Name", mount.name), Blank("note", "Note", mount.note))
        self.push_screen(FillPanel("This mount point", blanks), self._renamed)

    def _renamed(self, filled: dict[str, str] | None) -> None:
        if filled is not None:
            self._try(lambda: self.desk.rename(filled["name"], filled["note"]))

    def action_remove_mount(self) -> None:
        """Take this mount point out of the job; it can be taken back."""
        if name := self.desk.remove():
            self._show_mount()
            self._say(f"{name} is deleted; u takes it back")

    def action_undo(self) -> None:
        """Take the last change back."""
        self._stepped(self.desk.undo(), "Taken back", "There is nothing to take back")

    def action_redo(self) -> None:
        """Make it again."""
        self._stepped(self.desk.redo(), "Made again", "There is nothing to make again")

    def _stepped(self, what: str, told: str, nothing: str) -> None:
        if what:
            self._show_mount()
        self._say(f"{told}: {what}" if what else nothing)

    def action_jobs(self) -> None:
        """Open another job, start one, or name this one."""
        choices = [Choice(str(path), path.stem) for path in self._keeper.paths()]
        more = (Choice(_NEW, "start a new job"), Choice("", "name the job in hand"))
        self.push_screen(PickPanel("Which job?", [*choices, *more]), self._picked_job)

    def _picked_job(self, key: str | None) -> None:
        if key == "":
            job = self.desk.job
            blanks = (
                Blank("title", "Job", job.title),
                Blank("vehicle", "Vehicle", job.vehicle),
                Blank("note", "Note", job.note),
            )
            self.push_screen(FillPanel("This job", blanks), self._entitled)
        elif key is not None:
            self._try(lambda: self._take_up(self._keeper.new() if key == _NEW else self._keeper.open(Path(key))))

    def _entitled(self, filled: dict[str, str] | None) -> None:
        if filled is not None:
            self._try(lambda: self.desk.entitle(filled["title"], filled["vehicle"], filled["note"]))

    def _take_up(self, desk: Desk) -> None:
        self.desk.save()
        self.desk, self._trouble = desk, ""
        self._show_mount()
        self._mounts.resume()

    def action_shade(self) -> None:
        """Change between light and dark."""
        self.theme = "textual-light" if self.current_theme.dark else "textual-dark"

    async def action_quit(self) -> None:
        """Leave; the job is saved first, and where it cannot be, that is said before it is lost."""
        try:
            self.desk.save()
        except FastenError as error:
            if not self._trouble:
                self._save()
                return
            self._leave_word = str(error)
        self.exit()

    def _try(self, change: Callable[[], None]) -> None:
        try:
            change()
        except FastenError as error:
            self._say(str(error), warn=True)
        else:
            self._mounts.name_it(self._mount_line())
        self._save()
