"""An answer as lines: figures, parts, the joint, steps, plan, cautions, proof, and what does not fit."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from fasten.model import Advice, Answer, Origin
from fasten.record import record
from fasten.report.answer.as_text import Chapter, chapters
from fasten.report.answer.headline import parts
from fasten.report.template.sheet import sheet_for
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.tui.drawn.cells import FULL, NONE, SIXTEEN
from fasten.tui.drawn.checks import proof_lines, rest_lines
from fasten.tui.drawn.figures import figure_lines, rows
from fasten.tui.drawn.plan import plan_lines
from fasten.tui.drawn.runs import Line, heading
from fasten.tui.drawn.section import section_lines
from fasten.tui.drawn.verdict import verdict_of

_AFTER_PROOF = (
    Chapter.HOLES, Chapter.STIFFER, Chapter.REFUSED, Chapter.OTHERS, Chapter.TIGHTENING, Chapter.GROUND, Chapter.TOOLS,
    Chapter.CONSUMABLES, Chapter.REMOVALS, Chapter.UNDERSTOOD, Chapter.RANKED,
)  # fmt: skip
_REST = "Other checks"
_HEIGHTS = ((36, 9, 5), (0, 8, 3))  # rows of the screen, and of the section and of its dimensions from there on
_NARROW = 60  # columns, under which the section is a row lower
_PLAIN = "plain"
_SEVERAL = 2


@record
class Room:
    """What an answer has room for: columns, rows of the section and of its dimensions, and how many tones."""

    width: int
    rows: int = 9
    measures: int = 5
    tones: str = FULL


def room_of(width: int, height: int, look: str) -> Room:
    """The room in so many columns of a screen so high, in a look."""
    rows, measured = next(found for least, *found in _HEIGHTS if height >= least)
    return Room(
        width, rows if width >= _NARROW else rows - 1, measured, {SIXTEEN: SIXTEEN, _PLAIN: NONE}.get(look, FULL)
    )


def answer_lines(advice: Advice, room: Room, *, current: bool = True) -> Iterator[Line]:
    """All that follows the verdict, in lines of so many columns; small and quiet where it is not current any more.

    Each is made when it is asked for.
    """
    width = room.width
    advice = replace(advice, refusals=tuple(sorted(advice.refusals, key=lambda refusal: not refusal.change)))
    if not advice.answers:
        yield from _chapters(advice, (Chapter.REFUSED, Chapter.HOLES, Chapter.STIFFER, Chapter.UNDERSTOOD), width)
        return
    answer = advice.answers[0]
    yield from _lines(wrapped(capital(answer.title), width), "bold ink" if current else "quiet")
    for text in answer.remarks:
        yield from _lines(wrapped(f"{text}.", width, rest="  "))
    yield from _drawn(advice, answer, room) if current else rows(parts(answer), width, "quiet")
    yield from _chapters(advice, (Chapter.STEPS,), width)
    yield from _plan(advice, answer, room) if current else ()
    yield from _chapters(advice, (Chapter.CAUTIONS,), width)
    yield from _chapter(Chapter.PROOF.value, proof_lines(advice, answer, width), width)
    yield from _chapters(advice, _AFTER_PROOF, width)
    yield from _chapter(_REST, rest_lines(advice, answer, width), width)


def _drawn(advice: Advice, answer: Answer, room: Room) -> Iterator[Line]:
    """The figures, filled only where the answer holds, the parts in words, and the joint."""
    yield from figure_lines(answer, room.width, solid=verdict_of(advice).stands)
    yield ()
    joint, behind_mm = answer.proposal.joint, advice.mount.behind_mm
    yield from section_lines(joint, behind_mm, room.width, room.rows, room.measures, room.tones)


def _plan(advice: Advice, answer: Answer, room: Room) -> list[Line]:
    """The fixings to scale, where there are several."""
    sheet = sheet_for(answer, advice.mount, advice.mount.item)
    if len(sheet.centres_mm) < _SEVERAL:
        return []
    is_given = dict(advice.mount.origins).get("pattern", Origin.GIVEN) is Origin.GIVEN
    return [(), heading("PLAN", room.width), *plan_lines(sheet, room.width, room.rows, is_given=is_given)]


def _chapters(advice: Advice, wanted: Sequence[Chapter], width: int) -> Iterator[Line]:
    found = chapters(advice, width, wanted)
    for chapter in wanted:
        yield from _chapter(chapter.value, found.get(chapter, ()), width)


def _chapter(title: str, texts: Iterable[str], width: int) -> Iterator[Line]:
    """A blank row, the heading with its rule, and the lines; nothing where there are none."""
    lines = _lines(texts)
    if lines:
        yield from ((), heading(title.upper(), width), *lines)


def _lines(texts: Iterable[str], role: str = "ink") -> list[Line]:
    return [((text, role),) for text in texts]
