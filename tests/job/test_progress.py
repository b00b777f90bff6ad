"""Long work says how far it is before each part and once at its end, and whoever watches it can stop it anywhere."""

from collections.abc import Callable
from functools import cache

import pytest

from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choices
from fasten.job.work import WorkSheet, work_sheet
from fasten.progress import Step, Stopped, stepped
from fasten.report.forms.as_text import document_text, text_pieces
from fasten.report.job.work import work_document, work_lead, work_sections, work_title

from .sample_jobs import job, mount

TABLES = builtin()
THREE = job(mount("amp"), mount("rack"), mount("box"))


@cache
def found() -> tuple[Choice, ...]:
    return choices(THREE, TABLES)


@cache
def sheet() -> WorkSheet:
    return work_sheet(THREE, found(), None, TABLES)


LONG: dict[str, Callable[[Step], object]] = {
    "parts": lambda step: list(stepped("abc", step)),
    "choices": lambda step: choices(THREE, TABLES, None, step),
    "work sheet": lambda step: work_sheet(THREE, found(), None, TABLES, step),
    "work document": lambda step: work_document(sheet(), 80, step),
}
every_long_work = pytest.mark.parametrize("work", LONG.values(), ids=list(LONG))


@every_long_work
def test_each_part_is_told_before_it_is_done_and_the_end_once(work: Callable[[Step], object]) -> None:
    told: list[tuple[int, int]] = []
    work(lambda done, of: told.append((done, of)))
    assert told == [(0, 3), (1, 3), (2, 3), (3, 3)]


@every_long_work
@pytest.mark.parametrize("at", range(4))
def test_it_is_stopped_where_the_step_says_so(work: Callable[[Step], object], at: int) -> None:
    told: list[int] = []

    def step(done: int, of: int) -> None:
        told.append(done)
        if done == at:
            raise Stopped

    with pytest.raises(Stopped):
        work(step)
    assert told == list(range(at + 1))


def test_a_sheet_is_written_page_by_page_before_the_last_is_drawn() -> None:
    """What is printed so is the document to the letter."""
    drawn: list[int] = []
    sections = work_sections(sheet(), 80, lambda done, of: drawn.append(done))
    pieces = text_pieces(work_title(sheet()), work_lead(sheet()), sections, 80)
    text = next(pieces)
    assert (text.splitlines()[0], drawn) == (work_title(sheet()), []), "the head, with no page drawn"
    while "1 OF 3: AMP" not in text:
        text += next(pieces)
    assert drawn == [0], "the first page, with no other drawn"
    assert text + "".join(pieces) == document_text(work_document(sheet(), 80), 80)
