"""The work at the mount point in hand: one step at a time with its figure and the holes, or all of them in a list."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.events import Click, Resize
from textual.message import Message
from textual.widgets import Static

from fasten.job.choices import Choice
from fasten.job.ticked import StepState
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.words import Job
from fasten.model import Phase
from fasten.report.safe import safe
from fasten.tui.drawn.answer import room_of
from fasten.tui.drawn.band import band
from fasten.tui.drawn.foot import Word
from fasten.tui.drawn.large import block
from fasten.tui.drawn.run_answer import verdict_of as verdict_of_run
from fasten.tui.drawn.run_answer import verdict_of_way
from fasten.tui.drawn.runs import Line
from fasten.tui.drawn.verdict import Verdict, verdict_of_choice
from fasten.tui.drawn.work import READINGS, Sight, head_lines, is_read, list_lines, now_lines
from fasten.tui.state.open_job import STALE, Revision
from fasten.tui.state.worked import Spot, Work, spots_of
from fasten.tui.widgets.content import content, tapped

Make = Callable[[Spot, Revision], Awaitable[None]]
Go = Callable[[int], Awaitable[None]]
_KEY = "k"
_WAIT = "Calculating what each mount point gets …"
_MADE_ROWS = 3
_REASONS = 4  # rows of a verdict that does not hold


class WorkPlace(Vertical, can_focus=True):
    """The work comes down; what is pressed is given to `make`, and to `go` where another mount point is wanted.

    Both are waited for: the next key is meant for what comes after.
    """

    class ReadingsWanted(Message):
        """The line for what test pieces bore was tapped."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "make", show=False), Binding("down", "beside(1)", show=False),
        Binding("up", "beside(-1)", show=False), Binding("right", "mount(1)", show=False),
        Binding("left", "mount(-1)", show=False),
    ]  # fmt: skip

    def __init__(self, make: Make, go: Go, *, id_: str = "work") -> None:
        super().__init__(id=id_)
        self._make, self._go = make, go
        self._head = Static(id="work-head", markup=False)
        self._now = Static(id="work-now", markup=False)
        self._list = Static(id="work-words", markup=False)
        self._scroll = VerticalScroll(self._list, id="work-list", can_focus=False)
        self._do = Static(id="work-do", classes="pressed", markup=False)
        self.work: Work | None = None
        self.spot: Spot | None = None
        self._hand = STALE
        self.is_whole = False
        self._wanted = ""  # how the id of the step begins that comes into hand once the steps are known
        self.is_waiting: Job | None = None  # for what the mount points of this job get

    def compose(self) -> ComposeResult:
        yield self._head
        with Horizontal(id="work-split"):
            yield self._now
            yield self._scroll
        yield self._do

    def show(self, work: Work, hand: Revision) -> None:
        """Show the work at a mount point; what was in hand of it stays in hand until it is ticked."""
        was, spot = self.work, self.spot
        if was is None or spot is None or hand != self._hand or not work.has(spot):
            self.spot = work.next()
        elif new := work.first_new(was, spot):
            self.spot = new
        elif work.is_done(spot) and not was.is_done(spot):
            self.spot = work.next(spot)
        self.work, self._hand, self.is_waiting = work, hand, None
        self._write()
        if self._wanted:
            self.take_first_of(self._wanted)

    def wait(self, job: Job | None) -> None:
        """Show nothing until it is known what the mount points of a job get; None where that is not calculated."""
        self.work = self.spot = None
        self.is_waiting = job
        self._head.update(_WAIT)
        self._now.update("")
        self._list.update("")
        self._do.display = False

    def whole(self) -> None:
        """Show all steps, or one at a time."""
        self.is_whole = not self.is_whole
        self.set_class(self.is_whole, "-whole")
        self._write()

    def resume(self) -> None:
        self.screen.set_focus(self)

    def page(self, pages: int) -> None:
        (self._scroll.scroll_page_down if pages > 0 else self._scroll.scroll_page_up)(animate=False)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    async def action_make(self) -> None:
        """Tick what is in hand; where nothing is left, go on to the next mount point."""
        if self.spot is not None:
            await self._make(self.spot, self._hand)
        elif self.work is not None:
            await self._go(1)

    def action_beside(self, steps: int) -> None:
        """Take the step or hole after or before in hand."""
        if self.work is not None and self.work.spots:
            spots = self.work.spots
            self.spot = self.work.beside(self.spot, steps) if self.spot is not None else spots[-1]
            self._write()

    async def action_mount(self, steps: int) -> None:
        """Go to the mount point after or before."""
        await self._go(steps)

    @property
    def is_at_test_piece(self) -> bool:
        """Whether the step in hand is that of a test piece, which can be read."""
        work, spot = self.work, self.spot
        return work is not None and spot is not None and is_read(work.state(spot).step)

    async def on_click(self, event: Click) -> None:
        what, number = tapped(self, event)
        if what == READINGS:
            self.post_message(self.ReadingsWanted())
            return
        if self._do.display and self._do.region.contains(event.screen_x, event.screen_y):
            await self.action_make()
        elif what == "step":
            self._take(number)
        elif what == "hole":
            await self._tap_hole(number)

    def _take(self, at: int) -> None:
        """Take a step in hand: what is left of it, or the first of it."""
        work = self.work
        if work is None:
            return
        _, state = list(work.steps)[at]
        spots = spots_of(state)
        self.spot = next((spot for spot in spots if not work.is_done(spot)), spots[0])
        self._write()

    def take_hole(self, number: int) -> None:
        """Take a hole in hand."""
        spot = self._hole(number)
        if spot is not None:
            self.spot = spot
            self._write()

    def take_first_of(self, head: str) -> None:
        """Take the first step in hand whose id begins so, as soon as the steps are known."""
        self._wanted = head if self.work is None else ""
        steps = () if self.work is None else enumerate(self.work.steps)
        found = next((at for at, (_, state) in steps if state.step.id.startswith(head)), None)
        if found is not None:
            self._take(found)

    async def _tap_hole(self, number: int) -> None:
        """A hole that is to be made is made; one that is made is taken in hand, and can be taken back."""
        work, spot = self.work, self._hole(number)
        if work is None or spot is None:
            return
        if self.spot is not None and self.spot.id == spot.id and not work.is_done(spot):
            await self._make(spot, self._hand)
        else:
            self.take_hole(number)

    def _hole(self, number: int) -> Spot | None:
        """The hole of this number; None where none is made here."""
        states = () if self.work is None else (state for _, state in self.work.steps if state.holes)
        found = (Spot(state.step.id, number) for state in states if number in state.task.holes)
        return next(found, None)

    def _write(self) -> None:
        work, width = self.work, self.size.width
        if work is None or not width:
            return
        choice = work.choice
        verdict = _verdict(choice)
        tones = room_of(width, self.app.size.height, self.app.theme).tones
        sight = Sight(work, self.spot, verdict.stands, tones)
        is_wide = self.screen.has_class("-wide")
        rows = 1 if self.screen.has_class("-short") else _REASONS
        self._head.update(content([*head_lines(sight, width), *_banded(verdict, width)[:rows]]))
        self._do.update(content(self._pressed(work, width, 1 if is_wide else _MADE_ROWS)))
        self._do.display = self.spot is not None or work.mounts > 1
        self.call_after_refresh(self._write_below, sight, is_wide)

    def _write_below(self, sight: Sight, is_wide: bool) -> None:
        """What is in hand and the list, in what room the rest leaves them."""
        if is_wide or not self.is_whole:
            size = self._now.size
            self._now.update(content(now_lines(sight, max(size.width - 1, 1), size.height)))
        if is_wide or self.is_whole:
            lines, row = list_lines(sight, max(self._scroll.scrollable_content_region.width, 20))
            self._list.update(content(lines))
            self._scroll.scroll_to(y=max(row - self._scroll.size.height // 3, 0), animate=False)

    def _pressed(self, work: Work, width: int, rows: int) -> tuple[Line, ...]:
        """What is pressed next, by what it says once it is made."""
        return block(Word(self._word(work), _KEY if self.spot is not None else "", ""), width, rows, filled=True)

    def _word(self, work: Work) -> str:
        spot = self.spot
        if spot is None:
            return safe(work.onward)
        state: StepState = work.state(spot)
        said = state.task.said(spot.hole)
        if state.step.phase is Phase.RECORD:
            return "look at what was written down" if state.is_done else "write down what was used"
        return f"not {said} after all" if work.is_done(spot) else said


def _verdict(choice: Choice | RunChoice | WayChoice) -> Verdict:
    if isinstance(choice, Choice):
        return verdict_of_choice(choice)
    return verdict_of_run(choice) if isinstance(choice, RunChoice) else verdict_of_way(choice)


def _banded(verdict: Verdict, width: int) -> list[Line]:
    """The verdict where it does not hold: nobody drills by a figure that is not proven without seeing it."""
    if verdict.stands:
        return []
    row, more = band(False, verdict.words, verdict.reasons, width, verdict.role)
    return [row, *more]
