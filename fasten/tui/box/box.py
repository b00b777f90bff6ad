"""The third place: everything that must be in the box, ticked as it is packed, under the verdict on the job."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widgets import OptionList

from fasten.progress import Step, unseen
from fasten.record import record, replace
from fasten.tui.box.box_lines import SHORT, Line, in_order, lines_of_box, passed_over
from fasten.tui.drawn.runs import heading
from fasten.tui.state.open_job import STALE, Revision
from fasten.tui.widgets.columns import ColumnList, Written
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import turn_page
from fasten.tui.widgets.verdict_lines import VerdictLines

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.list.lists import HardwareList
    from fasten.job.list.lists import Verdict as Ready
    from fasten.job.list.ticks import Line as Thing
    from fasten.job.list.ticks import Stray
    from fasten.job.words import Job, Shelf
    from fasten.tui.drawn.verdict import Verdict
    from fasten.tui.state.long_work import LongWork

    Beside = Callable[[Callable[[LongWork], "Box"], Callable[["Box"], object], Callable[[], object]], LongWork]

_WAIT = "Calculating the box …"
_STOPPED = "The box was not calculated to its end. Press b to calculate it."
_HOW = "Enter or a tap ticks a line as packed, and takes the tick away again."
_NO_SHELF = "No shelf was given"  # begins what the list says where no shelf is named; here it is the one there is
_EMPTY = "Nothing is on the shelf yet, so all that is not packed counts as missing."


@record
class Box:
    """The list and the verdict of a job, in lines, and what each mount point gets by what is on the shelf."""

    asked: Job
    by: Shelf | None
    found: tuple[Choice, ...]
    listed: HardwareList
    verdict: Verdict
    lines: tuple[Line, ...]

    @property
    def titles(self) -> tuple[tuple[str, str], ...]:
        """Which answer each mount point has."""
        return tuple((choice.name, choice.answer.title) for choice in self.found if choice.answer is not None)


def box_of(job: Job, shelf: Shelf | None, tables: Tables, step: Step = unseen) -> Box:
    """What a job needs and whether it is ready; `step` is called for each mount point and may raise Stopped."""
    from fasten.job.entries import mount_choices
    from fasten.job.shelf.owned import owned_of

    return boxed(job, mount_choices(job, tables, owned_of(shelf, tables), step), shelf, tables)


def boxed(job: Job, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables) -> Box:
    """The same of a job whose mount points are answered already."""
    from fasten.job.entries import with_run_entries
    from fasten.job.list.hardware import hardware
    from fasten.job.ready import ready_of
    from fasten.job.shelf.reels import with_reels
    from fasten.report.job.hardware import hardware_document, ready_document

    both = with_run_entries(with_reels(job, shelf, tables), found, tables)
    listed = hardware(job, both, shelf, tables)
    is_ready = ready_of(job, listed, both, tables)
    document, verdict = hardware_document(listed), ready_document(is_ready)
    lead = (*verdict.lead, *(line for line in document.lead if line.startswith("To buy")))
    owned = [_EMPTY] if shelf is None and job.mounts else []
    lead = (*(text for text in lead if not text.startswith(_NO_SHELF)), *owned)
    lead = (*lead, *([_HOW] if job.mounts else []), *passed_over(shelf, tables))
    further = [Line("", text) for text in lead[1:]]  # among the lines, where no screen is too low for them
    lines = (*further, *lines_of_box(document, verdict, listed))
    return Box(job, shelf, found, listed, _verdict(is_ready, lead[:1]), lines)


def _verdict(found: Ready, lead: tuple[str, ...]) -> Verdict:
    from fasten.tui.drawn.reasons import reasons_of
    from fasten.tui.drawn.verdict import Verdict

    if found.ready:
        less = (f"{len(found.as_built)} as built with less",) if found.as_built else ()
        return Verdict(True, "READY", ("all is at hand, and every answer is proven", *less))
    rows = reasons_of(found)
    return Verdict(False, "NOT READY", () if rows else lead, rows=rows)


def _box_of(job: Job, shelf: Shelf | None, tables: Tables, work: LongWork) -> Box:
    return box_of(job, shelf, tables, work.steps("Box"))


def _boxed_anew(
    job: Job, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables, work: LongWork
) -> Box:  # fmt: skip
    """The same; a mount point at which other runs end by now is answered anew."""
    from fasten.job.entries import with_own_runs

    if tuple(choice.mount for choice in found) != with_own_runs(job, tables).mounts:
        return _box_of(job, shelf, tables, work)
    return boxed(job, found, shelf, tables)


class _Row(Written):
    """A line where it is listed, and the box that it is of."""

    def __init__(self, line: Line, box: Box) -> None:
        super().__init__(partial(_prompt, line), disabled=line.is_heading, key=line.key or line.text)
        self.line, self.box = line, box


def _prompt(line: Line, width: int) -> Content:
    from fasten.report.wrap import wrapped
    from fasten.tui.drawn.rows import row_lines

    if line.row is not None:
        return content(row_lines(line.row, width))
    if line.is_heading:
        return content([heading(line.text, width)])
    return Content("\n".join(wrapped(line.text, width)))


class BoxPlace(Vertical):
    """The verdict and the lines; a line is ticked by Enter, by a tap or by its key."""

    class Ticked(Message):
        """A line was packed, or taken out again, in the box of a job as it was shown."""

        def __init__(self, thing: Thing | Stray, seen: Revision) -> None:
            super().__init__()
            self.thing, self.seen = thing, seen

    class Changed(Message):
        """By what the shelf now holds, other answers are the best ones."""

        def __init__(self, changed: list[str]) -> None:
            super().__init__()
            self.changed = changed

    def __init__(self, tables: Tables, beside: Beside) -> None:
        super().__init__(id="box")
        self._tables, self._beside = tables, beside
        self._work: LongWork | None = None
        self._verdict = VerdictLines(_WAIT)
        self._lines = ColumnList("box-lines")
        self._asked: tuple[Job, Shelf | None] | None = None
        self._key = ""  # of the line that was in hand
        self._ranks: dict[str, int] = {}  # by which the lines stand in order, as they were when the page was come to
        self._is_laid_out = False
        self.seen = STALE  # of the job that the lines are of
        self.box: Box | None = None

    def compose(self) -> ComposeResult:
        yield self._verdict
        yield self._lines

    def arrive(self) -> None:
        """Put the lines in order anew: the page is come to again."""
        self._ranks.clear()

    def load(self, job: Job, shelf: Shelf | None, seen: Revision) -> None:
        """Show the box of a job; what is worked out already is not worked out again.

        No line of other mount points stands there meanwhile, be they of this job or of another.
        """
        was, self._asked, self.seen = self._asked, (job, shelf), seen
        if was is None or was[0].mounts != job.mounts:
            self._clear()
        if self.box is not None and self.box.by == shelf:
            self._work_out(partial(_boxed_anew, job, self.box.found, shelf, self._tables))
        elif was is None or (was[0].mounts, was[1]) != (job.mounts, shelf):
            self._verdict.update(_WAIT)
            self._work_out(partial(_box_of, job, shelf, self._tables))
        # else it is being worked out, and takes the ticks as they are then

    def _clear(self) -> None:
        self._key = self._key_in_hand
        self.box = None
        self._lines.fill(())

    @property
    def _key_in_hand(self) -> str:
        return self.in_hand.key if self.in_hand is not None else self._key

    @property
    def in_hand(self) -> Line | None:
        """The line that is marked."""
        at = self._lines.highlighted
        return None if self.box is None or at is None else self.box.lines[at]

    def resume(self) -> None:
        self.screen.set_focus(self._lines)

    def page(self, pages: int) -> None:
        turn_page(self._lines, pages)

    def mark_short(self) -> None:
        """Mark the first line that is short."""
        lines = self.box.lines if self.box is not None else ()
        short = (at for at, line in enumerate(lines) if line.row is not None and line.row.state.rank == SHORT)
        self._lines.highlighted = next(short, self._lines.highlighted)

    def tick(self) -> None:
        """Tick the line in hand."""
        if self.in_hand is not None:
            self._tick(self.in_hand, self.seen)

    def _tick(self, line: Line, seen: Revision) -> None:
        if line.thing is not None:
            self.post_message(self.Ticked(line.thing, seen))

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        """The verdict and every line as wide as there is room; of the box that stands there by now."""
        if self.box is not None:
            self._tell(self.box)
        self._lines.write()
        if not self._is_laid_out:  # with no height, the line in hand was the first that could be seen
            self._is_laid_out = True
            self._lines.scroll_home(animate=False, immediate=True)
            self._lines.scroll_to_highlight()

    def _work_out(self, do: Callable[[LongWork], Box]) -> None:
        if self._work is not None:
            self._work.drop()  # another box is wanted by now
        self._work = self._beside(do, self._worked_out, self._stopped)

    def _worked_out(self, box: Box) -> None:
        job, shelf = self._asked if self._asked is not None else (box.asked, None)
        was = self.box
        self._show(box)
        if was is not None:
            self._tell_changes(dict(was.titles), box)
        if job != box.asked:
            self._work_out(partial(_boxed_anew, job, box.found, shelf, self._tables))

    def _stopped(self) -> None:
        self._asked, self.seen = None, STALE
        self._clear()
        self._verdict.update(_STOPPED)

    def _show(self, box: Box) -> None:
        """Show a box, the line in hand still in hand."""
        box = replace(box, lines=in_order(box.lines, self._ranks))
        key = self._key_in_hand
        self.box = box
        self._tell(box)
        self._lines.fill([_Row(line, box) for line in box.lines])
        things = [(line.key, at) for at, line in enumerate(box.lines) if line.is_thing]
        first = things[0][1] if things else None
        self._lines.highlighted = dict(things).get(key, first)

    def _tell_changes(self, before: dict[str, str], box: Box) -> None:
        """Where something was put on the shelf, say where another answer is the best one by it."""
        changed = [f"{name} now gets {title}" for name, title in box.titles if before.get(name, title) != title]
        if changed:
            self.post_message(self.Changed(changed))

    def _tell(self, box: Box) -> None:
        """The verdict, and how much is packed."""
        from fasten.job.list.ticks import Stray, is_packed
        from fasten.tui.drawn.band import band

        packed = [is_packed(line.thing) for line in box.lines if line.thing and not isinstance(line.thing, Stray)]
        verdict, width = box.verdict, self._verdict.content_size.width or self.app.size.width
        reasons = (f"{sum(packed)} of {len(packed)} packed", *verdict.reasons)
        row, more = band(verdict.stands, verdict.words, reasons, width)
        self._verdict.show([row, *more], verdict.rows, width)

    @on(OptionList.OptionSelected, "#box-lines")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        # The one that was selected: the next key may have gone on to another by now, and the lines may be others.
        row = event.option
        if isinstance(row, _Row):
            self._tick(row.line, self.seen if self.box is not None and row.box.found is self.box.found else STALE)
