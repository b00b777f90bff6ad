"""Lines on the shelf as people write them: typed or pasted, common kits, and the questions that lines leave."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from fasten.tui.box.box_actions import BoxActions
from fasten.tui.state.blank import Blank
from fasten.tui.widgets.panels import Choice, Filled, FillPanel, PickPanel
from fasten.tui.widgets.text_fields import BREAK

if TYPE_CHECKING:
    from fasten.job.shelf.lines.words import Read
    from fasten.job.words import Shelf
    from fasten.tui.state.open_shelf import Held

LINES, KIT, LINE = "lines", "kit", "line"
_WAYS = (Choice(LINES, "lines as they are written, typed or pasted"), Choice(KIT, "a common kit"))
_TYPED = "line: "  # begins the key of what was typed and is none of the sorts
_NOTE = "One line, or many pasted, plain or CSV: count, kind, size, length, head, class, standard in any order."


class ShelfLineActions(BoxActions):
    """Actions on lines of the shelf."""

    def panel_to_own(self, sorts: tuple[Choice, ...]) -> PickPanel:
        """The same, lines first; what is typed and is none of them is a line as it is written."""
        return PickPanel("What is it?", (*_WAYS, *sorts), lambda text: Choice(f"{_TYPED}{text}", f"add: {text}"))

    async def _sorted(self, sort: str | None) -> None:
        if sort is not None and sort.startswith(_TYPED):
            self._add_line(sort.removeprefix(_TYPED))
        elif sort == LINES:
            blank = Blank(LINES, "Lines", "", "50 x M5 x 16 mm flange bolts", many=True)
            await self.push_screen(FillPanel("What you own", (blank,), self._add_lines, note=_NOTE))
        elif sort == KIT:
            await self.push_screen(PickPanel("Which kit?", self._kits()), self._add_kit)
        else:
            await super()._sorted(sort)

    def _add_lines(self, filled: Filled) -> None:
        from fasten.job.shelf.lines.add import added
        from fasten.job.shelf.lines.read import read_lines

        reads = read_lines(filled[LINES].replace(BREAK, "\n"), self.tables)
        self._change_shelf(lambda shelf: added(shelf, reads))
        self._tell_reads(reads)

    def _add_line(self, text: str) -> None:
        from fasten.job.shelf.lines.add import added
        from fasten.job.shelf.lines.read import read_lines

        reads = read_lines(text, self.tables)
        if self._shelve(lambda shelf: added(shelf, reads)):
            self._tell_reads(reads)

    def _kits(self) -> tuple[Choice, ...]:
        from fasten.job.shelf.lines.add import has_kit, kits

        shelf, found = self.open_shelf.known(), kits(self.tables)
        there = {kit.name for kit in found if shelf is not None and has_kit(shelf, kit.name, self.tables)}
        return tuple(Choice(kit.name, f"{kit.title}{', there' if kit.name in there else ''}") for kit in found)

    def _add_kit(self, name: str | None) -> None:
        from fasten.job.shelf.lines.add import added, kit_reads

        if name is not None:
            self._shelve(lambda shelf: added(shelf, kit_reads(name, self.tables)))

    async def _ask_change(self, held: Held) -> None:
        if held.sort != LINE:
            await super()._ask_change(held)
            return
        from fasten.job.shelf.lines.add import near_text, questions

        shelf = self.open_shelf.known()
        at = 0 if shelf is None else shelf.asked.index(held.name) + 1
        asked = None if shelf is None else questions(shelf, self.tables)[at - 1]
        if asked is not None:
            near = "; ".join(f"{number}: {near_text(one)}" for number, one in enumerate(asked.nearest, 1))
            note = f"{asked.question} {near}. Write a number, or the line anew."
            panel = FillPanel(held.name, (Blank(LINE, "It is", "", "1"),), partial(self._answer, held, at), note=note)
            await self.push_screen(panel)

    def _answer(self, held: Held, at: int, filled: Filled) -> None:
        from fasten.job.shelf.lines.add import answer

        def change(shelf: Shelf) -> Shelf:
            now, read = answer(shelf, at, filled[LINE], self.tables)
            self._tell_reads((read,))
            return now

        self._change_shelf(change, held)

    def _tell_reads(self, reads: tuple[Read, ...]) -> None:
        """How many lines were taken, and how many leave a question."""
        from fasten.job.shelf.lines.words import Asked

        asked = sum(isinstance(read, Asked) for read in reads)
        left = f"; {asked} not counted yet: press Enter on each" if asked else ""
        self.say(f"{len(reads) - asked} of {len(reads)} taken{left}")
