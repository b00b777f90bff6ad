"""What can be done with a mount point: ask for another, name, compare and hold, substitute, record, delete."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from textual import on
from textual.screen import ModalScreen

from fasten.errors import FastenError
from fasten.record import replace
from fasten.tui.actions import HOME, LEADER
from fasten.tui.mounts.again_actions import AgainActions
from fasten.tui.mounts.mount_list import MountList
from fasten.tui.state.blank import Blank
from fasten.tui.state.open_job import Revision
from fasten.tui.widgets.panels import Choice, Filled, FillPanel, ReadPanel
from fasten.tui.widgets.title import Title

if TYPE_CHECKING:
    from fasten.job.words import Cover, Pin
    from fasten.model import Answer
    from fasten.report.forms.document import Document
    from fasten.tui.drawn.rows import Row

_NEW = "+"  # stands for a new mount point among those there are
_LET_GO = "-"
_COVER = "cover "  # begins the key of a cover


class MountActions(AgainActions):
    """Actions on the mount point in hand."""

    async def action_new_mount(self) -> None:
        """Ask for another mount point."""
        await self.leave()
        await self.action_go("mounts")
        self.go_to(None, self.open_job.revision)

    def go_to(self, at: int | None, seen: Revision) -> None:
        """Take another mount point in hand; None for a new one."""
        self.attempt(lambda: self.open_job.go_to(at, seen))
        (self.resume if self.place in HOME else self.mounts.resume)()

    async def action_all_mounts(self) -> None:
        """Go to another mount point."""
        from fasten.tui.widgets.row_panels import RowPick

        job = self.open_job.job
        known = [Choice(str(at), f"{at + 1}  {mount.name}") for at, mount in enumerate(job.mounts)]
        covers = [Choice(f"{_COVER}{at}", cover.name) for at, cover in enumerate(job.covers)]
        choices = [*known, Choice(_NEW, "a new one"), *covers]
        panel = RowPick("Which mount point?", choices, self._mount_rows())
        await self.push_screen(panel, partial(self._picked_mount, self.open_job.revision))
        self.find_standings()

    def _mount_rows(self) -> list[Row]:
        """A row for each mount point, with how it stands as far as that is known, and one for a new one."""
        from fasten.tui.drawn.rail import row_of
        from fasten.tui.drawn.rows import Row, State

        names = [mount.name for mount in self.open_job.job.mounts]
        known = self.mounts.mount_list.standings
        found = known if len(known) == len(names) else [None] * len(names)
        rows = [row_of(at, name, one) for at, (name, one) in enumerate(zip(names, found, strict=True), 1)]
        return [*rows, Row("", "a new one", State(" ", "", "accent", 0)), *self._cover_rows()]

    def _cover_rows(self) -> Iterator[Row]:
        """A row for each cover of the car, with how often it comes off for all that is under it."""
        from fasten.job.after.covered import cover_text, cover_times
        from fasten.tui.drawn.rows import Row, State

        for one in cover_times(self.open_job.job, self.tables) if self.open_job.job.covers else ():
            state = State(" ", "over its fixings" if one.is_over else "cover", "open" if one.is_over else "quiet", 0)
            yield Row("", one.cover.name, state, (cover_text(one),))

    def find_standings(self) -> None:
        """Calculate how the mount points stand, where that is not known."""
        raise NotImplementedError

    def standings_found(self) -> None:
        """Have a list of mount points that is in view say how they stand."""
        from fasten.tui.widgets.row_panels import RowPick

        if isinstance(self.screen, RowPick):
            self.screen.renew(self._mount_rows())

    @on(MountList.Picked)
    async def _tapped(self, message: MountList.Picked) -> None:
        await self.keys_taken()
        is_as_seen = message.seen == self.open_job.revision
        await self.leave()
        self.go_to(message.at, self.open_job.revision if is_as_seen else message.seen)

    @on(Title.Stepped)
    async def _stepped_mount(self, message: Title.Stepped) -> None:
        """The mount point before or after, by a tap in the top line; at the ends the one in hand stays."""
        if isinstance(self.screen, ModalScreen):
            return
        await self.leave()
        last, at = len(self.open_job.job.mounts) - 1, self.open_job.at
        wanted = min(max(last + 1 + message.steps if at is None else at + message.steps, 0), last)
        if wanted != at:
            self.go_to(wanted, self.open_job.revision)

    async def _picked_mount(self, seen: Revision, key: str | None) -> None:
        if key is not None and key.startswith(_COVER):
            await self._ask_cover(self.open_job.job.covers[int(key.removeprefix(_COVER))].name, seen)
        elif key is not None:
            await self.leave()
            if key == _NEW or HOME.get(self.place) != "mounts":
                await self.action_go("mounts")
            self.go_to(None if key == _NEW else int(key), seen)

    async def action_rename(self) -> None:
        """Name this mount point, and add a note."""
        mount = self.open_job.mount
        if mount is None:
            self.say("Nothing is asked yet, so there is nothing to name")
            return
        blanks = (
            Blank("name", "Name", mount.name), Blank("note", "Note", mount.note),
            Blank("place", "Place", str((self.open_job.at or 0) + 1)),
            Blank("under", "Under", ", ".join(mount.covered_by), "door card", aside=True),
        )  # fmt: skip
        note = "What it is under comes off first: covers of the car, or mount points, by their names."
        panel = FillPanel("This mount point", blanks, partial(self._rename, self.open_job.revision), note=note)
        await self.push_screen(panel, partial(self._renamed, self.open_job.job.covers))

    def _rename(self, seen: Revision, filled: Filled) -> None:
        self.open_job.rename(filled["name"], filled["note"], filled["place"], filled["under"], seen)
        self.save()

    async def _renamed(self, before: tuple[Cover, ...], is_kept: bool | None) -> None:
        """Ask of a cover that is new how often it comes off, and by what it is held."""
        new = [cover for cover in self.open_job.job.covers if cover not in before] if is_kept else []
        if new:
            await self._ask_cover(new[0].name, self.open_job.revision)

    async def _ask_cover(self, name: str, seen: Revision) -> None:
        from fasten.job.edit import cover_named

        cover = cover_named(self.open_job.job, name)
        if cover is None:
            return
        from fasten.job.store.covers_toml import COVER_KEYS

        labels = ("Comes off", "Fixings", "Held by", "New every", "Rated for", "Note")
        examples = ("rarely", "9", "trim clips", "3", "20", "")
        texts = [getattr(cover, key.replace("-", "_")) for key in COVER_KEYS[1:]]
        blanks = [
            Blank(key, label, "" if text is None else str(text), example)
            for key, label, text, example in zip(COVER_KEYS[1:], labels, texts, examples, strict=True)
        ]
        note = "A cover of the car: how often it comes off by itself, what holds it, and after how often that is new."
        await self.push_screen(FillPanel(cover.name, blanks, partial(self._say_cover, cover.name, seen), note=note))

    def _say_cover(self, name: str, seen: Revision, filled: Filled) -> None:
        from fasten.job.after.covered import with_cover

        self.open_job.take(with_cover(self.open_job.job, name, filled, self.tables), f"{name} changed", seen)
        self.save()
        self.mounts.work_out_now()

    def action_remove_mount(self) -> None:
        """Take this mount point out of the job; it can be taken back."""
        if name := self.open_job.remove(self.open_job.revision):
            self.save()
            self.say(f"{name} is deleted; {LEADER} u takes it back")

    def read_document(self, document: Document, offers: tuple[Choice, ...] = ()) -> ReadPanel:
        """A panel with a document as wide as the screen lets it be."""
        from fasten.report.forms.written import written

        untitled = replace(document, title="")
        return ReadPanel(document.title, lambda width: written(untitled, "text", width).strip("\n"), offers)

    async def action_compare(self) -> None:
        """The proposals beside each other, and hold one."""
        from fasten.tui.drawn.compared import compared_rows
        from fasten.tui.widgets.row_panels import TakePanel

        good = self.mounts.outcome.good
        if good is None or not good.advice.answers:
            self.say("There is no answer yet to compare")
            return
        answers = good.advice.answers
        held = self.open_job.mount is not None and self.open_job.mount.pin is not None
        choices = [Choice(str(answer.rank), answer.title) for answer in answers]
        let_go = (Choice(_LET_GO, "Let go"),) if held else ()
        panel = TakePanel("Proposals to compare", choices, compared_rows(good.advice), "Hold", let_go)
        await self.push_screen(panel, partial(self._compared, answers, self.open_job.revision))

    def _compared(self, answers: Sequence[Answer], seen: Revision, key: str | None) -> None:
        if key is None:
            return
        from fasten.job.pins import pin_of

        pin = None if key == _LET_GO else pin_of(answers[int(key) - 1])
        self.attempt(lambda: self.open_job.pin(pin, seen))

    async def action_instead(self) -> None:
        """A screw length is missing: what on the shelf will do."""
        blank = Blank("length", "Length", "", "25 mm")
        note = "A screw is missing. Type the length at hand, or leave it empty to try all on the shelf."
        seen = self.open_job.revision
        panel = FillPanel("Instead of a screw", (blank,), partial(self._try_instead, seen), note=note, take="Try")
        await self.push_screen(panel, partial(self._instead, seen))

    def _try_instead(self, seen: Revision, filled: Filled) -> None:
        from fasten.tui.mounts.instead import tried

        self.open_job.check(seen)
        if self.open_job.mount is None:
            raise FastenError("nothing is asked yet, so no screw can be missing")
        self._tried = tried(
            self.open_job.mount, self.open_job.job, filled["length"].strip(), self.open_shelf.read(), self.tables
        )

    async def _instead(self, seen: Revision, is_tried: bool | None) -> None:
        if not is_tried:
            return
        tried = self._tried
        offers = (Choice("hold", "Hold the first"),) if tried.pin else ()
        await self.push_screen(
            self.read_document(tried.document, offers), partial(self._instead_taken, tried.pin, seen)
        )

    def _instead_taken(self, pin: Pin | None, seen: Revision, key: str | None) -> None:
        if key == "hold":
            self.attempt(lambda: self.open_job.pin(pin, seen))
