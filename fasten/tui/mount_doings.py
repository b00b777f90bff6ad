"""What can be done with a mount point: ask for another, name, compare and hold, substitute, record, delete."""

from __future__ import annotations

from dataclasses import asdict, replace
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from textual import on

from fasten.errors import FastenError
from fasten.tui.actions import LEADER
from fasten.tui.desktop import Desktop
from fasten.tui.panels import Blank, Choice, Filled, FillPanel, PickPanel, ReadPanel
from fasten.tui.roll import Roll

if TYPE_CHECKING:
    from fasten.report.document import Document

_NEW = "+"  # stands for a new mount point among those there are
_LET_GO = "-"
_REPLACE = "replace"
_OFFERED = 3  # proposals that can be held from the panel by a button


class MountDoings(Desktop):
    """Actions on the mount point in hand."""

    async def action_new_mount(self) -> None:
        """Ask for another mount point."""
        await self.action_go("mounts")
        self.desk.go_to(None)
        self.show_mount()
        self.mounts.resume()

    async def action_all_mounts(self) -> None:
        """Go to another mount point."""
        known = [Choice(str(at), f"{at + 1}  {mount.name}") for at, mount in enumerate(self.desk.job.mounts)]
        await self.push_screen(PickPanel("Which mount point?", [*known, Choice(_NEW, "a new one")]), self._picked_mount)

    @on(Roll.Picked)
    def _tapped(self, message: Roll.Picked) -> None:
        self.save()
        self.desk.go_to(message.at)
        self.show_mount()
        self.mounts.resume()

    async def _picked_mount(self, key: str | None) -> None:
        if key is not None:
            await self.action_go("mounts")
            self.desk.go_to(None if key == _NEW else int(key))
            self.show_mount()
            self.mounts.resume()

    async def action_rename(self) -> None:
        """Name this mount point, and add a note."""
        mount = self.desk.mount
        if mount is None:
            self.say("Nothing is asked yet, so there is nothing to name")
            return
        blanks = (Blank("name", "Name", mount.name), Blank("note", "Note", mount.note))
        await self.push_screen(FillPanel("This mount point", blanks, self._rename))

    def _rename(self, filled: Filled) -> None:
        self.desk.rename(filled["name"], filled["note"])
        self.changed()

    def action_remove_mount(self) -> None:
        """Take this mount point out of the job; it can be taken back."""
        if name := self.desk.remove():
            self.show_mount()
            self.say(f"{name} is deleted; {LEADER} u takes it back")

    def read_document(self, document: Document, offers: tuple[Choice, ...] = ()) -> ReadPanel:
        """A panel with a document as wide as the screen lets it be."""
        from fasten.report.written import written

        untitled = replace(document, title="")
        return ReadPanel(document.title, lambda width: written(untitled, "text", width).strip("\n"), offers)

    async def action_compare(self) -> None:
        """The proposals side by side, and hold one."""
        from fasten.report.compare_document import compare_document
        from fasten.tui.compared import compared

        good = self.mounts.outcome.good
        if good is None or not good.advice.answers:
            self.say("There is no answer yet to compare")
            return
        answers = good.advice.answers[:_OFFERED]
        held = self.desk.mount is not None and self.desk.mount.pin is not None
        offers = [Choice(str(answer.rank), f"Hold {answer.rank}") for answer in answers]
        let_go = (Choice(_LET_GO, "Let go"),) if held else ()
        document = compare_document(good.advice)
        panel = ReadPanel(document.title, lambda width: compared(document, width), (*offers, *let_go))
        await self.push_screen(panel, self._compared)

    def _compared(self, key: str | None) -> None:
        good = self.mounts.outcome.good
        if key is None or good is None:
            return
        from fasten.job.choices import pin_of

        self.desk.pin(None if key == _LET_GO else pin_of(good.advice.answers[int(key) - 1]))
        self._held()

    def _held(self) -> None:
        self.mounts.held(self.desk.mount, self.mount_line())
        self.save()

    async def action_instead(self) -> None:
        """A screw length is missing: what on the shelf will do."""
        blank = Blank("length", "Length", "", "25 mm")
        note = "A screw is missing. Type the length at hand, or leave it empty to try all on the shelf."
        await self.push_screen(
            FillPanel("Instead of a screw", (blank,), self._try_instead, note=note, take="Try"), self._instead
        )

    def _try_instead(self, filled: Filled) -> None:
        from fasten.tui.instead import tried

        if self.desk.mount is None:
            raise FastenError("nothing is asked yet, so no screw can be missing")
        self._tried = tried(self.desk.mount, filled["length"].strip(), self.shelf_desk.read(), self.tables)

    async def _instead(self, is_tried: bool | None) -> None:
        if not is_tried:
            return
        told = self._tried
        offers = (Choice("hold", "Hold the first"),) if told.pin else ()
        await self.push_screen(self.read_document(told.document, offers), self._instead_taken)

    def _instead_taken(self, key: str | None) -> None:
        if key == "hold" and self._tried.pin is not None:
            self.desk.pin(self._tried.pin)
            self._held()

    async def action_as_built(self) -> None:
        """Write down what was really used; a record that is there is shown first, and stays unless it is replaced."""
        mount = self.desk.mount
        if mount is None:
            self.say("Nothing is asked yet, so nothing can have been built")
        elif mount.built is None:
            await self._ask_built(_REPLACE)
        else:
            from fasten.report.built_text import record_text

            panel = ReadPanel(f"As built: {mount.name}", partial(record_text, mount), (Choice(_REPLACE, "Replace it"),))
            await self.push_screen(panel, self._ask_built)

    async def _ask_built(self, key: str | None) -> None:
        mount = self.desk.mount
        if key is None or mount is None:
            return
        from fasten.report.built_text import NAMES, as_advised

        was = asdict(mount.built) if mount.built is not None else as_advised(self.mounts.first_answer())
        texts = {"date": date.today().isoformat(), **was}
        blanks = [Blank(name, name.capitalize(), texts.get(name, "")) for name in NAMES]
        await self.push_screen(FillPanel(f"As built: {mount.name}", blanks, self._build))

    def _build(self, filled: Filled) -> None:
        self.desk.built(filled, date.today().isoformat())
        self.changed()
