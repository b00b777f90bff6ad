"""What the screen stands on: five places over one job, a bar that names them, keys, and saving."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.events import DescendantBlur, Event, Key, Resize
from textual.screen import ModalScreen, Screen
from textual.widget import Widget
from textual.widgets import ContentSwitcher, Input

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.question.fields import ITEM
from fasten.report.safe import safe
from fasten.tui.actions import HOME, LEADER, Action, here, of_key
from fasten.tui.drawn.foot import Word
from fasten.tui.drawn.top import Shown
from fasten.tui.mounts.mounts import MountsPlace
from fasten.tui.saving import Saving
from fasten.tui.state.beside import Beside
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_job import OpenJob, Revision
from fasten.tui.state.open_shelf import OpenShelf
from fasten.tui.state.outcome import labelled
from fasten.tui.terminal.clock import time_written
from fasten.tui.terminal.collecting import collect
from fasten.tui.terminal.kept_look import OWN_LOOK, KeptLook
from fasten.tui.terminal.sparing import SparingCompositor
from fasten.tui.widgets.button import Button
from fasten.tui.widgets.foot import FootLine
from fasten.tui.widgets.large import LargeLine, others, words_of
from fasten.tui.widgets.panels import DoPanel, Panel
from fasten.tui.widgets.title import Said, Title, counted_work

SAVE_EVERY_S = 1.0
_LISTS = frozenset({"box", "shelf", "gauge", "work", "run-work"})  # without a field: a letter acts by itself
_TOP_INSET = 2  # columns beside the top line
READY_S = 0.2  # after the screen stands, what the first answer needs is loaded


class Frame(Saving):
    """One job in hand, saved as it changes. What can be done with it is in the classes that stand on this one."""

    TITLE = "fasten"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-short"), (20, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [
        # Taken here, before any widget: a key typed fast after one of these must reach the field that it moved to.
        Binding("semicolon", "do", "What now", key_display=LEADER, priority=True),
        Binding("tab", "step(1)", "On", priority=True),
        Binding("shift+tab", "step(-1)", "Back", priority=True),
        Binding("down", "arrow(1)", "Next field", priority=True),
        Binding("up", "arrow(-1)", "Field before", priority=True),
        Binding("enter", "onward", "Next field, or press", priority=True),
        Binding("pageup", "page(-1)", "Up"),
        Binding("pagedown", "page(1)", "Down"),
        Binding("escape", "stop", "Stop", show=False, priority=True),
        Binding("ctrl+c", "quit", "Quit", show=False, priority=True),
    ]

    def __init__(
        self, tables: Tables, job_files: JobFiles, shelf: OpenShelf, path: Path | None = None, *, blink: bool = True,
        look: KeptLook = OWN_LOOK,
    ) -> None:  # fmt: skip
        super().__init__(look.look(), job_files, job_files.start(path))
        self.keep_look = look.keep
        self.tables = tables
        self.open_shelf = shelf
        self.blink = blink
        problems = tuple(f"Your own table is left out: {safe(str(p))}" for p in tables.problems)
        self.mounts = MountsPlace(tables, self.open_shelf.known, self.beside, blink=blink, problems=problems)
        self._title, self._foot, self._said_line = Title(), FootLine(), Said()
        self._large = LargeLine()
        self._places = ContentSwitcher(initial="mounts", id="places")
        self._left: set[str] = set()  # fields that were left as they are
        self.shown: Revision | None = None  # what every page shows
        self._is_list = False

    def beside(self) -> Beside:
        """What the mount point in hand is answered beside."""
        raise NotImplementedError

    def get_default_screen(self) -> Screen[None]:
        """A screen with the classes of its size from the start, so that nothing on it is styled twice."""
        sizes = ((self.size.width, self.HORIZONTAL_BREAKPOINTS), (self.size.height, self.VERTICAL_BREAKPOINTS))
        classes = (max(point for point in points if point[0] <= size)[1] for size, points in sizes)
        screen: Screen[None] = Screen(id="_default", classes=" ".join(classes))
        screen._compositor = SparingCompositor()
        return screen

    def compose(self) -> ComposeResult:
        yield self._title
        with self._places:
            yield self.mounts
        yield self._large
        yield self._foot
        yield self._said_line

    def on_mount(self) -> None:
        self.take_up(self.open_job)
        self.set_interval(SAVE_EVERY_S, self.save_beside)
        self.set_interval(SAVE_EVERY_S, collect)
        self.set_timer(READY_S, self._make_ready)

    def _make_ready(self) -> None:
        from fasten.tui.preload import ready

        self.run_worker(partial(ready, self.tables), thread=True)

    # -- the job in hand -----------------------------------------------------------------------------------------------

    @on(MountsPlace.Said)
    def _said(self) -> None:
        self.take_typed()
        self.tell()

    def on_descendant_blur(self, _event: DescendantBlur) -> None:
        self.rest()

    def rest(self) -> None:
        """A word was left: what is typed next is a change of its own, and what was begun is what was meant."""
        self.take_typed()
        self.mounts.rest()
        self.open_job.rest(self.mounts.form.current)
        self._left.add(self.mounts.form.current)
        self.save_beside()

    def take_up(self, open_job: OpenJob) -> None:
        """Take a job in hand, and say so where it can only be read."""
        self.open_job, self.trouble = open_job, ""
        self.saved_at = "" if open_job.path is None else time_written(open_job.path)
        self.tell()
        self.resume()
        if said := open_job.read_only or open_job.file_note:
            self.say(said, warn=True)

    def take_typed(self) -> None:
        """Take what was typed last without waiting for its answer."""
        if not self.mounts.is_typed:
            return  # what was loaded stands as its file words it
        taken = self.mounts.taken()
        self.open_job.say(taken, taken.get(ITEM.name, "mount"), self.mounts.hand)
        self.mounts.took(self.open_job.mount)

    def tell(self) -> None:
        """Have every page and the title line show the job as it is now."""
        if self.shown != self.open_job.revision and not self.is_leaving:
            self.shown = self.open_job.revision
            self._show_job()
        names = tuple(mount.name for mount in self.open_job.job.mounts)
        self.mounts.show_names(names, self.open_job.at, self.open_job.revision)
        self.tell_state()

    def _show_job(self) -> None:
        open_job = self.open_job
        if self.mounts.hand != open_job.hand:
            if lost := self.mounts.unkept:
                self.say(f"Not kept: {labelled(lost)}", warn=True)
            self._left.clear()
        self.mounts.show(open_job.mount, open_job.hand)
        if self.place != "mounts":
            self.arrived(self.place)

    def tell_state(self) -> None:
        """The title line: which job, and whether it is kept."""
        open_job, state = self.open_job, self._state()
        name = open_job.job.title or (open_job.path.stem if open_job.path else "new job")
        work = counted_work(self.work_progress, by_letter=self._acts_by_letter)
        warns = open_job.read_only != "" or self.trouble != "" or not self._left.isdisjoint(self.mounts.unkept)
        said = "  ".join(filter(None, (state if warns or not work else "", work)))
        mount = open_job.mount.name if open_job.mount is not None else "New mount point"
        is_here = HOME.get(self.place, self.place) == "mounts"
        at, count = open_job.at, len(open_job.job.mounts)
        shown = Shown(name, mount if is_here else "", at, count, said, warns, work != "")
        self._title.tell(shown, self.size.width - _TOP_INSET)
        offered = self.offered()
        larges = self.larges(offered)
        is_short, filled = self._stands_on("-short"), self.place not in HOME
        self._large.tell(self.size.width, larges, is_short=is_short, filled=filled)
        self._foot.tell(self.size.width, self.place, others(offered, larges), typing=not self._acts_by_letter)
        if self.said:
            self.call_after_refresh(self.show_said)  # over what is pressed by then

    def _stands_on(self, size: str) -> bool:
        """Whether the pages have the class of a size: a panel that has just come up over them has none yet."""
        return self.screen_stack[0].has_class(size)

    def larges(self, offered: Sequence[Action]) -> list[Word]:
        """The large actions: none at a desk, and none while something is typed."""
        if self._stands_on("-wide") or not self._acts_by_letter:
            return []
        return words_of(self.place, offered)

    def _state(self) -> str:
        if self.open_job.read_only:
            return "READ ONLY"
        if self.trouble:
            return "NOT SAVED"
        if self.mounts.unkept:
            return f"not kept: {labelled(self.mounts.unkept)}"
        return f"saved {self.saved_at}".rstrip() if self.open_job.is_saved else "…"

    def say(self, text: str, *, warn: bool = False) -> None:
        super().say(safe(text), warn=warn)

    def show_said(self) -> None:
        pressed = self.query(f"#{self.place} .pressed") if self.screen_stack else ()
        rows = sum(one.size.height for one in (*pressed, self._large) if one.display)
        self._said_line.tell(self.said, rows)

    # -- places --------------------------------------------------------------------------------------------------------

    @property
    def place(self) -> str:
        return self._places.current or "mounts"

    @property
    def _in_place(self) -> Widget:
        return self.query_one(f"#{self.place}")

    async def action_go(self, name: str) -> None:
        """Go to another place, made when it is first wanted."""
        self.save()
        if not self.query(f"#{name}"):
            await self._places.add_content(self.made(name))
        self._places.current = name
        self._is_list = name in _LISTS
        self.screen.remove_class("-reading")
        self.arrived(name)
        self.resume()

    def made(self, name: str) -> Widget:
        """A place, when it is first wanted."""
        raise NotImplementedError(name)

    def arrived(self, name: str) -> None:
        """Show in a place what has changed since."""

    def resume(self) -> None:
        """Take the keys up where they were left in this place."""
        self._in_place.resume()  # type: ignore[attr-defined]

    # -- keys ----------------------------------------------------------------------------------------------------------

    async def on_event(self, event: Event) -> None:
        """Do what a key stands for before the next is looked at: keys may come faster than panels open and close."""
        key = event if isinstance(event, Key) and not event.is_forwarded and self.screen_stack else None
        if key is not None and not isinstance(self.screen, ModalScreen):
            self.clear_read()
        if key is None or not (await self._takes(key) or await self._edits(key)):
            await super().on_event(event)

    def on_mouse_down(self) -> None:
        if not isinstance(self.screen, ModalScreen):
            self.clear_read()

    async def _takes(self, key: Key) -> bool:
        """Whether a key was one of a panel's own or, where nothing is being typed, a letter that is an action."""
        if isinstance(self.screen, Panel):
            await self.keys_taken()
        if isinstance(self.screen, Panel):  # one of those keys may have closed it
            return self.screen.takes(key)
        is_typed = isinstance(self.focused, Input) or isinstance(self.screen, ModalScreen)
        action = self._of_key(key.character) if key.character and not is_typed else None
        if action is not None and not (action.name == "quit" and self.has_just_worked):
            await self.run_action(action.name)
        return action is not None

    def _of_key(self, key: str) -> Action | None:
        return of_key(key, self.place, is_working=self.is_working)

    @property
    def _acts_by_letter(self) -> bool:
        return self._is_list or (bool(self.screen_stack) and self.screen.has_class("-reading"))

    async def _edits(self, key: Key) -> bool:
        """Whether what has the focus does something by this key, such as Backspace, which is done in its turn."""
        if self._edit_of(key) is None:
            return False
        await self.keys_taken()
        found = self._edit_of(key)  # what has the focus may be another by now
        return found is not None and await self.run_action(found.binding.action, found.node)

    def _edit_of(self, key: Key) -> ActiveBinding | None:
        found = self.active_bindings.get(key.key)
        return found if found is not None and found.node is self.focused and found.enabled else None

    @on(FootLine.Pressed)
    async def _tapped_foot(self, message: FootLine.Pressed) -> None:
        if not isinstance(self.screen, ModalScreen):
            await self.run_action(message.does)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """A panel has its own keys; arrow keys scroll where something is being read; Tab leaves it."""
        if action in {"do", "onward", "arrow", "page", "stop"} and isinstance(self.screen, ModalScreen):
            return False
        if action in {"onward", "arrow"}:
            return isinstance(self.focused, Input | Button)
        if action == "stop":
            return self.is_working
        return super().check_action(action, parameters)

    async def action_do(self) -> None:
        """Show everything that can be done here, with what was typed; each does its work on that."""
        await self.keys_taken()
        self.take_typed()
        self.tell()
        known = here(self.place, is_working=self.is_working)
        await self.push_screen(DoPanel(self.offered(), known), partial(self._chosen, self.open_job.revision))

    async def _chosen(self, seen: Revision, action: Action | None) -> None:
        if action is None or (action.name == "quit" and self.has_just_worked):
            return  # it was meant to stop the work, which ended by itself
        if self.is_as_seen(seen):
            await self.run_action(action.name)

    def action_page(self, pages: int) -> None:
        """Scroll what is read here."""
        self._in_place.page(pages)  # type: ignore[attr-defined]

    async def action_read(self) -> None:
        """Give the answer the whole of a small screen, or go back to the field that was in hand."""
        if self.place != "mounts":
            await self.action_go("mounts")
        reading = not self.screen.has_class("-reading")
        self.screen.set_class(reading, "-reading")
        self.tell()
        if reading:
            self.mounts.answer.read()
        else:
            self.resume()

    def on_resize(self, _event: Resize) -> None:
        self.call_next(self.tell)  # by then the size is the new one

    def offered(self) -> tuple[Action, ...]:
        """What can be done here as it is now, the most wanted first."""
        return tuple(action for action in here(self.place, is_working=self.is_working) if self.can(action.name))

    def can(self, _name: str) -> bool:
        """Whether there is anything to do an action to."""
        return True

    def attempt(self, change: Callable[[], object]) -> bool:
        """Change the job, and have every page show it and save it; whether that could be done."""
        try:
            change()
        except FastenError as error:
            self.say(str(error), warn=True)
            return False
        finally:
            self.save()
        return True

    def is_as_seen(self, seen: Revision) -> bool:
        """Whether the job is still as it was shown; where it is not, that is said."""
        return self.attempt(partial(self.open_job.check, seen))
