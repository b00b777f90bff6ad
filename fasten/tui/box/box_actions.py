"""What can be done with the box and the shelf: tick, put on the shelf, change, standardise, put on paper."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from textual import on
from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import OptionList

from fasten.errors import FastenError
from fasten.job.words import Shelf, ShelfPart
from fasten.record import replace
from fasten.tui.actions import LEADER
from fasten.tui.mounts.mount_actions import MountActions
from fasten.tui.state.blank import Blank
from fasten.tui.state.open_job import Revision
from fasten.tui.state.open_shelf import Doubt, Held, blanks_of, part_from, with_line, with_part, with_thing
from fasten.tui.widgets.panels import Choice, Filled, FillPanel, PickPanel
from fasten.tui.widgets.verdict_lines import Reasoned

if TYPE_CHECKING:
    from fasten.tui.box.box import BoxPlace
    from fasten.tui.box.fewer import Fewer
    from fasten.tui.box.paper import Paper, Source
    from fasten.tui.box.shelf import ShelfPlace
    from fasten.tui.state.long_work import LongWork

_SORTS = tuple(Choice(sort, f"a {sort}") for sort in ("part", "bit", "tool", "consumable"))
_NAMES = {
    "bit": Blank("name", "Size", "", "5 mm, 1/4 in, #7"),
    "tool": Blank("name", "Name", "", "rivet-nut setter"),
    "consumable": Blank("name", "Name", "", "bare-edge primer"),
}


class BoxActions(MountActions):
    """Actions on the box."""

    _fewest: tuple[Revision, Shelf | None, Fewer] | None = None  # found of this job by this shelf
    _fewest_work: LongWork | None = None

    @property
    def box_page(self) -> BoxPlace:
        """The page of the box."""
        from fasten.tui.box.box import BoxPlace

        return self.query_one(BoxPlace)

    @property
    def _shelf_page(self) -> ShelfPlace:
        from fasten.tui.box.shelf import ShelfPlace

        return self.query_one(ShelfPlace)

    def shelf_now(self) -> Shelf | None:
        """The shelf; where its file cannot be read that is said, and nothing is taken to be owned."""
        try:
            return self.open_shelf.read()
        except FastenError as error:
            self.say(str(error), warn=True)
            return None

    def show_box(self) -> None:
        """Show the box of the job as it stands."""
        self.box_page.load(self.open_job.job, self.shelf_now(), self.open_job.revision)

    @on(Reasoned)
    async def _tapped_reason(self, message: Reasoned) -> None:
        """Go to what a reason is of: the mount point or run that it names, or the first line that is short."""
        from fasten.tui.runs.runs import RunsPlace

        await self.keys_taken()
        self.take_typed()
        names = [mount.name for mount in self.open_job.job.mounts]
        if message.reason.entry in names:
            await self.action_go("mounts")
            self.go_to(names.index(message.reason.entry), self.open_job.revision)
        elif message.reason.entry in {run.name for run in self.open_job.job.runs}:
            await self.action_go("runs")
            self.query_one(RunsPlace).ask(message.reason.entry)
            self.tell_state()
        else:
            await self.action_go("box")
            self.box_page.mark_short()

    def action_tick(self) -> None:
        """The line in hand is packed, or not after all."""
        self.box_page.tick()

    def on_box_place_ticked(self, message: BoxPlace.Ticked) -> None:
        from fasten.job.list.ticks import toggled

        box = self.box_page.box
        if box is None:
            self.is_as_seen(message.seen)
            return
        ticked = toggled(self.open_job.job, message.thing, box.listed)
        if self.attempt(lambda: self.open_job.tick(ticked, message.seen)):
            self.show_box()

    def on_box_place_changed(self, message: BoxPlace.Changed) -> None:
        named, more = message.changed[:3], len(message.changed) - 3
        self.say(f"By what is on the shelf, {'; '.join(named)}{f'; and {more} more' if more > 0 else ''}")

    def action_have(self) -> None:
        """Put what the line in hand wants on the shelf."""
        from fasten.job.list.ticks import Stray

        place = self.box_page
        thing = place.in_hand.thing if place.in_hand is not None else None
        if thing is None or isinstance(thing, Stray):
            self.say("Mark a line of the box first")
            return
        if self.is_as_seen(place.seen):
            self._shelve(lambda shelf: with_line(shelf, thing))
            self.show_box()

    async def action_fewest(self) -> None:
        """The same job with fewer different sizes, before and after."""
        from fasten.tui.box.fewer import fewer

        job, shelf, seen = self.open_job.job, self.shelf_now(), self.open_job.revision
        if self._fewest is not None and self._fewest[:2] == (seen, shelf):
            await self._read_fewest(seen, self._fewest[2])
            return
        if self._fewest_work is not None:
            self._fewest_work.drop()
        self._fewest_work = await self.work_out(
            partial(fewer, job, shelf, self.tables), partial(self._found_fewest, seen, shelf), self._say_stopped
        )

    async def _found_fewest(self, seen: Revision, shelf: Shelf | None, found: Fewer) -> None:
        """Show them where the box is still open, and elsewhere say where they are."""
        if not self.is_as_seen(seen):
            return
        self._fewest = seen, shelf, found
        if self.place == "box" and not isinstance(self.screen, ModalScreen):
            await self._read_fewest(seen, found)
        else:
            self.say("The fewest sizes are found; press f in the box to read them")

    async def _read_fewest(self, seen: Revision, found: Fewer) -> None:
        offers = (Choice("hold", "Hold these"),) if found.pins or found.runs != self.open_job.job.runs else ()
        await self.push_screen(self.read_document(found.document, offers), partial(self._fewest_taken, found, seen))

    def _fewest_taken(self, found: Fewer, seen: Revision, key: str | None) -> None:
        if key == "hold":
            self.attempt(lambda: self.open_job.pin_all(found.pins, found.runs, seen))

    def _say_stopped(self) -> None:
        self.say("Stopped; nothing was changed or written")

    async def action_export(self) -> None:
        """Work sheet, hardware list or drilling template as a file."""
        from fasten.tui.box.paper import PAPERS

        choices = [Choice(str(number), paper.title) for number, paper in enumerate(PAPERS)]
        await self.push_screen(PickPanel("What on paper?", choices), partial(self._exported, self.open_job.revision))

    async def _exported(self, seen: Revision, key: str | None) -> None:
        if key is None or not self.is_as_seen(seen):
            return
        from fasten.tui.box.paper import PAPERS, Source, content

        open_job, paper = self.open_job, PAPERS[int(key)]
        own = {"file": open_job.path.stem} if open_job.path else {}
        source = Source(open_job.job, open_job.mount, self.shelf_now(), self.tables, **own)
        put = partial(self._put, paper, source, seen)
        await self.work_out(partial(content, paper, source), put, self._say_stopped)

    def _put(self, paper: Paper, source: Source, seen: Revision, content: bytes) -> None:
        from fasten.tui.box.paper import put

        if not self.is_as_seen(seen):
            return
        try:
            path = put(paper, source, content, self.open_job.path.parent if self.open_job.path else Path())
        except FastenError as error:
            self.say(str(error), warn=True)
        else:
            self.say(f"{path.name} is written, in {path.parent}")

    # -- the shelf -----------------------------------------------------------------------------------------------------

    def show_shelf(self) -> None:
        """Show the shelf as it stands."""
        self._shelf_page.load(self.shelf_now(), str(self.open_shelf.path), self.tables)
        self.tell_state()  # there may be a change to take back now

    async def action_own(self) -> None:
        """Put something on the shelf."""
        self._doubt = Doubt()
        await self.push_screen(self.panel_to_own(_SORTS), self._sorted)

    def panel_to_own(self, sorts: tuple[Choice, ...]) -> PickPanel:
        """Where it is said what is put on the shelf, one of these sorts."""
        return PickPanel("What is it?", sorts)

    async def _sorted(self, sort: str | None) -> None:
        if sort == "part":
            await self.push_screen(FillPanel("A part on the shelf", blanks_of(None), self._shelve_part))
        elif sort is not None:
            self._sort = sort
            await self.push_screen(FillPanel(f"A {sort} on the shelf", (_NAMES[sort],), self._shelve_thing))

    def _shelve_thing(self, filled: Filled) -> None:
        name = filled["name"].strip()
        if not name:
            raise FastenError("nothing is said", fix="say what it is, or go back")
        self._check_name(self._sort, name)
        self._change_shelf(lambda shelf: with_thing(shelf, self._sort, name))

    def _shelve_part(self, filled: Filled) -> None:
        part = self._checked_part(filled)
        self._change_shelf(lambda shelf: with_part(shelf, part))

    def _check_name(self, sort: str, name: str) -> None:
        """Ask for what a name lacks before it is kept; a name that is emptied is taken off."""
        from fasten.job.shelf.check import name_trouble

        if name:
            self._doubt.check(name, name_trouble(sort, name, self.tables))

    def _checked_part(self, filled: Filled) -> ShelfPart:
        """The part that was filled in; what it lacks is asked for, but where it is taken off."""
        from fasten.job.shelf.check import part_trouble

        part = part_from(filled)
        if part.count:
            self._doubt.check(part.part, part_trouble(part.part, self.tables))
        return part

    async def _takes(self, key: Key) -> bool:
        """Enter on the shelf opens its line at once, so that what is typed next goes into it."""
        if key.key == "enter" and self.place == "shelf" and not isinstance(self.screen, ModalScreen):
            held = self._shelf_page.in_hand
            if held is not None and isinstance(self.focused, OptionList):
                await self._ask_change(held)
                return True
        return await super()._takes(key)

    async def on_shelf_place_wanted(self, message: ShelfPlace.Wanted) -> None:
        if not isinstance(self.screen, ModalScreen):  # a second tap may come before the first has opened it
            await self._ask_change(message.held)

    async def _ask_change(self, held: Held) -> None:
        self._doubt = Doubt()
        entry = held.entry
        if entry is not None:
            title, blanks = "A part on the shelf; how many 0 takes it off", blanks_of(entry)
        else:
            title = f"A {held.sort} on the shelf; empty takes it off"
            blanks = (replace(_NAMES[held.sort], text=held.name),)
        await self.push_screen(FillPanel(title, blanks, lambda filled: self._change_held(held, filled)))

    def _change_held(self, held: Held, filled: Filled) -> None:
        if held.entry is None:
            name = filled["name"].strip()
            self._check_name(held.sort, name)
            self._change_shelf(lambda shelf: with_thing(shelf, held.sort, name, instead_of=held.name), held)
        else:
            part = self._checked_part(filled)
            self._change_shelf(lambda shelf: with_part(shelf, part, instead_of=held.entry), held)

    def action_drop(self) -> None:
        """Take the line in hand off the shelf."""
        held = self._shelf_page.in_hand
        if held is not None:
            self._drop(held)

    def _drop(self, held: Held) -> None:
        entry = held.entry
        if entry is not None:
            is_off = self._shelve(lambda shelf: with_part(shelf, replace(entry, count=0)), held)
        else:
            is_off = self._shelve(lambda shelf: with_thing(shelf, held.sort, "", instead_of=held.name), held)
        if is_off:
            self.say(f"{held.name} is off the shelf; {LEADER} u puts it back")

    def _shelve(self, change: Callable[[Shelf], Shelf], held: Held | None = None) -> bool:
        try:
            self._change_shelf(change, held)
        except FastenError as error:
            self.say(str(error), warn=True)
            return False
        return True

    def _change_shelf(self, change: Callable[[Shelf], Shelf], held: Held | None = None) -> None:
        """Change the shelf; where it is a line of it that was shown, that line must still be on it."""
        try:
            self.open_shelf.change(change(self.open_shelf.to_change(held)))
        finally:
            if self.query("#shelf"):
                self._shelf_page.load(self.open_shelf.shelf, str(self.open_shelf.path), self.tables)
            self.tell_state()

    def step_shelf(self, *, back: bool) -> None:
        """Take the last change of the shelf back, or make it again."""
        try:
            self.open_shelf.to_change()
            was = self.open_shelf.undo() if back else self.open_shelf.redo()
        except FastenError as error:
            self.say(str(error), warn=True)
            self.show_shelf()
            return
        done, nothing = ("Taken back", "take back") if back else ("Made again", "make again")
        self.say(f"{done} on the shelf" if was else f"There is nothing to {nothing} on the shelf")
        self.show_shelf()
