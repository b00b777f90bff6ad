"""The measuring pass of the job: what to cut, large, and a row for each mark to try; Enter keeps what was found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widgets import OptionList, Static

from fasten.record import record
from fasten.tui.drawn.runs import Line, heading
from fasten.tui.state.open_job import STALE, Revision
from fasten.tui.widgets.columns import ColumnList, Written
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import OPTION_COLUMNS, turn_page

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.gauge.words import Mark, MeasuringPass
    from fasten.job.words import Job, Mount, Shelf
    from fasten.tui.drawn.rows import Row
    from fasten.tui.state.long_work import LongWork

    Beside = Callable[
        [Callable[[LongWork], MeasuringPass], Callable[[MeasuringPass], object], Callable[[], object]], LongWork
    ]

_WAIT = "Finding what to measure \u2026"
_STOPPED = "What to measure was not found to its end. Press g to find it."
_TRY, _OPEN = "GOES AS IT SHOULD?", "NO MEASURING SETTLES"
_LEAST_COLUMNS, _TALL = 20, 20


@record
class Try:
    """A mark with what is kept of its field by now, empty where it is still to try."""

    mark: Mark
    kept: str

    @property
    def is_done(self) -> bool:
        """Whether it was tried."""
        return self.kept != ""


class _Row(Written):
    """A mark to try, or what no measuring settles; a heading where it is a text."""

    def __init__(self, row: Row | str, tried: Try | None = None) -> None:
        super().__init__(self._written, disabled=tried is None)
        self.row, self.tried = row, tried

    def _written(self, width: int) -> Content:
        from fasten.tui.drawn.rows import row_lines

        return content([heading(self.row, width)] if isinstance(self.row, str) else row_lines(self.row, width))


class GaugePlace(Vertical):
    """What to cut and what to try, for the job as it was when the page was come to; ticks stay in their rows."""

    class Tried(Message):
        """A mark is to be kept as it was found, in the job as it was shown."""

        def __init__(self, tried: Try, seen: Revision) -> None:
            super().__init__()
            self.tried, self.seen = tried, seen

    def __init__(self, tables: Tables, beside: Beside) -> None:
        super().__init__(id="gauge")
        self._tables, self._beside = tables, beside
        self._head = Static(_WAIT, id="gauge-head", markup=False)
        self._lines = ColumnList("gauge-lines")
        self._work: LongWork | None = None
        self._found: MeasuringPass | None = None
        self._asked: tuple[tuple[Mount, ...], Shelf | None] | None = None
        self._job: Job | None = None
        self._before: dict[tuple[str, str], str] = {}  # what each field said when the pass was begun
        self.seen = STALE

    def compose(self) -> ComposeResult:
        yield self._head
        yield self._lines

    def load(self, job: Job, shelf: Shelf | None, seen: Revision, *, anew: bool = False) -> None:
        """Show the pass of a job; one that is found already stays while only its own marks were kept since."""
        self._job, self.seen = job, seen
        asked = (_without_marks(job, self._found), shelf)
        if anew or self._found is None or asked != self._asked:
            self._begin(job, shelf)
        else:
            self._show()

    def _begin(self, job: Job, shelf: Shelf | None) -> None:
        if self._work is not None:
            self._work.drop()
        self._found, self._asked = None, None
        self._before = {(mount.name, field): text for mount in job.mounts for field, text in mount.said}
        self._head.update(_WAIT)
        self._lines.fill(())
        self._work = self._beside(
            partial(_pass_of, job, shelf, self._tables), partial(self._took, shelf), self._stopped
        )

    def _took(self, shelf: Shelf | None, found: MeasuringPass) -> None:
        self._found = found
        if self._job is not None:
            self._asked = (_without_marks(self._job, found), shelf)
            self._show()
            self._mark(0)

    def go_on(self) -> None:
        """Mark the next row that is still to try; the first, past the last."""
        self._mark((self._lines.highlighted or 0) + 1)

    def _mark(self, begin: int) -> None:
        rows = [self._lines.get_option_at_index(at) for at in range(self._lines.option_count)]
        left = [at for at, row in enumerate(rows) if isinstance(row, _Row) and row.tried and not row.tried.is_done]
        self._lines.highlighted = next((at for at in left if at >= begin), left[0] if left else None)

    def _stopped(self) -> None:
        self._found, self._asked, self.seen = None, None, STALE
        self._head.update(_STOPPED)

    @property
    def tries(self) -> tuple[Try, ...]:
        """Every mark of the pass, as the job has it now."""
        if self._found is None or self._job is None:
            return ()
        said = {mount.name: dict(mount.said) for mount in self._job.mounts}
        return tuple(
            Try(mark, _kept(mark, said.get(mark.mount, {}), self._before))
            for one in self._found.mounts for mark in one.marks
        )  # fmt: skip

    @property
    def marked(self) -> Try | None:
        """The trial that is marked."""
        at = self._lines.highlighted
        row = None if at is None else self._lines.get_option_at_index(at)
        return row.tried if isinstance(row, _Row) else None

    def resume(self) -> None:
        self.screen.set_focus(self._lines)

    def page(self, pages: int) -> None:
        turn_page(self._lines, pages)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._show)

    # -- what is shown -------------------------------------------------------------------------------------------------

    def _show(self) -> None:
        if self._found is None:
            return
        at = self._lines.highlighted
        self._head.update(content(list(_head(self._found, self.tries, self._columns, self.app.size.height))))
        self._lines.fill(list(self._rows()))
        self._lines.highlighted = at

    @property
    def _columns(self) -> int:
        return max(self.app.size.width - OPTION_COLUMNS, _LEAST_COLUMNS)

    def _rows(self) -> Iterator[_Row]:
        assert self._found is not None
        if tries := self.tries:
            yield _Row(_TRY)
        for number, tried in enumerate(tries, 1):
            yield _Row(_row(number, tried), tried)
        if self._found.unresolved:
            yield _Row(_OPEN)
        for row in _open_rows(self._found):
            yield _Row(row)

    @on(OptionList.OptionSelected, "#gauge-lines")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        if isinstance(event.option, _Row) and event.option.tried is not None:
            self.post_message(self.Tried(event.option.tried, self.seen))


def _pass_of(job: Job, shelf: Shelf | None, tables: Tables, work: LongWork) -> MeasuringPass:
    from fasten.job.gauge.gauge import measuring_pass
    from fasten.job.shelf.owned import owned_of

    return measuring_pass(job, tables, owned_of(shelf, tables), step=work.steps("To measure"))


def _without_marks(job: Job, found: MeasuringPass | None) -> tuple[Mount, ...]:
    """The mount points without what the marks of a pass settle: what is kept of those makes no other pass."""
    from fasten.record import replace

    settled = {(mark.mount, mark.field) for one in found.mounts for mark in one.marks} if found else set()
    return tuple(
        replace(mount, said=tuple(pair for pair in mount.said if (mount.name, pair[0]) not in settled))
        for mount in job.mounts
    )


def _kept(mark: Mark, said: dict[str, str], before: dict[tuple[str, str], str]) -> str:
    text = said.get(mark.field, "")
    return "" if text == before.get((mark.mount, mark.field), "") else text


def _head(found: MeasuringPass, tries: tuple[Try, ...], width: int, rows: int) -> Iterator[Line]:
    """The band, then the first thing to cut that is still to be used, large, and the rest in a sentence."""
    from fasten.report.job.gauge import cut_text
    from fasten.report.wrap import wrapped
    from fasten.tui.drawn.band import band

    left = [one for one in tries if not one.is_done]
    reasons = (f"{len(tries) - len(left)} of {len(tries)} tried", *_unsettled(found))
    words = "NOTHING LEFT TO MEASURE" if not left else f"{len(left)} TO TRY"
    first, more = band(not left and not found.unresolved, words, reasons, width)
    yield first
    yield from more
    if left and rows >= _TALL:
        yield from _large(left[0], width)
    for text in wrapped(cut_text(found), width) if cut_text(found) else ():
        yield ((text, "ink"),)


def _unsettled(found: MeasuringPass) -> tuple[str, ...]:
    count = len(found.unresolved)
    return (f"{count} stay{'s' if count == 1 else ''} open",) if count else ()


def _large(tried: Try, width: int) -> Iterator[Line]:
    """The gauge of the next mark, three rows high."""
    from fasten.text.figures import figure
    from fasten.tui.drawn.digits import large

    yield ((f"{tried.mark.tool.value}, next at {tried.mark.mount}"[:width], "quiet"),)
    *tops, last = large(figure(tried.mark.gauge_mm))
    yield from (((row, "ink"),) for row in tops)
    yield ((last, "ink"), (" mm", "quiet"))


def _row(number: int, tried: Try) -> Row:
    from fasten.report.job.gauge import instead, trial
    from fasten.tui.drawn.rows import DONE, HERE, Row, State

    state = State(DONE, tried.kept, "good", 1) if tried.is_done else State(HERE, "to try", "open", 0)
    beneath = (trial(tried.mark), *((instead(tried.mark),) if instead(tried.mark) else ()))
    return Row(str(number), tried.mark.mount, state, beneath)


def _open_rows(found: MeasuringPass) -> Iterator[Row]:
    from fasten.tui.drawn.rows import HERE, Row, State

    for one in found.unresolved:
        yield Row("", one.mount, State(HERE, "open", "open", 0), one.open)
