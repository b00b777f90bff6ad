"""An answer as lines: figures, parts, the joint, steps, plan, cautions, proof, and what does not fit."""

from collections.abc import Iterable, Iterator, Sequence

from fasten.catalog.tables import Tables
from fasten.job.after.judged import judged
from fasten.job.choices import Choice
from fasten.job.ticked import StepState, made_as_wanted, made_otherwise
from fasten.model import Advice, Answer
from fasten.record import record, replace
from fasten.report.answer.as_text import Chapter, chapters
from fasten.report.answer.headline import parts
from fasten.report.job.ticked import ticked_text
from fasten.report.template.sheet import sheet_for
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.tui.drawn.cells import FULL, NONE, SIXTEEN
from fasten.tui.drawn.checks import proof_lines, rest_lines
from fasten.tui.drawn.figures import figure_lines, rows
from fasten.tui.drawn.other import Sheet, built_lines, nearest_lines
from fasten.tui.drawn.plan import places_given, plan_lines
from fasten.tui.drawn.rows import DONE
from fasten.tui.drawn.runs import Line, beside, heading
from fasten.tui.drawn.section import section_lines
from fasten.tui.drawn.verdict import verdict_of

_AFTER_PROOF = (
    Chapter.HOLES, Chapter.STIFFER, Chapter.REFUSED, Chapter.OTHERS, Chapter.TIGHTENING, Chapter.GROUND, Chapter.TOOLS,
    Chapter.CONSUMABLES, Chapter.REMOVALS, Chapter.UNDERSTOOD, Chapter.RANKED,
)  # fmt: skip
_BUILT = "As built"
_REST = "Other checks"
# Rows of the screen from which, and of the section and its dimensions.
_HEIGHTS = ((50, 13, 5), (36, 9, 5), (0, 8, 3))
_NARROW = 60  # columns, under which the section is a row lower
_PLAIN = "plain"
_SEVERAL = 2
_ABREAST, _PLAN_SHARE, _BETWEEN = 80, 44, 2  # columns from which plan and steps stand abreast, and what the plan gets


@record
class Room:
    """What an answer has room for: columns, rows of the section and of its dimensions, and how many tones."""

    width: int
    rows: int = 9
    measures: int = 5
    tones: str = FULL

    @property
    def sheet(self) -> Sheet:
        """The room for a drawing."""
        return Sheet(self.width, self.rows, self.measures, self.tones)


@record
class Kept:
    """What a job keeps of a mount point that its answer shows: its steps by its ticks, and what was built.

    `choice` is what it got where something was built, by which that is judged, with the tables to judge it by.
    """

    steps: tuple[StepState, ...] = ()
    on: str = ""
    built: tuple[str, ...] = ()
    choice: Choice | None = None
    tables: Tables | None = None


NOTHING_KEPT = Kept()


def room_of(width: int, height: int, look: str) -> Room:
    """The room in so many columns of a screen so high, in a look."""
    rows, measured = next(found for least, *found in _HEIGHTS if height >= least)
    return Room(
        width, rows if width >= _NARROW else rows - 1, measured, {SIXTEEN: SIXTEEN, _PLAIN: NONE}.get(look, FULL)
    )


def first_lines(advice: Advice, room: Room, *, current: bool = True) -> list[Line]:
    """What follows the verdict first: title, remarks and figures; small and quiet where it is not current any more."""
    if not advice.answers:
        return []
    answer = advice.answers[0]
    lines = _lines(wrapped(capital(answer.title), room.width), "bold ink" if current else "quiet")
    for text in answer.remarks:
        lines += _lines(wrapped(f"{text}.", room.width, rest="  "))
    solid = current and verdict_of(advice).stands
    return lines + (
        figure_lines(answer, room.width, solid=solid) if current else rows(parts(answer), room.width, "quiet")
    )


def answer_lines(
    advice: Advice, room: Room, *, current: bool = True, kept: Kept | None = None
) -> Iterator[Line]:  # fmt: skip
    """All that follows these: the joint, the steps and the proof, in lines of so many columns.

    Each is made when it is asked for.
    """
    width = room.width
    advice = replace(advice, refusals=tuple(sorted(advice.refusals, key=lambda refusal: not refusal.change)))
    if not advice.answers:
        yield from nearest_lines(advice, room.sheet) if current else ()
        yield from _chapters(advice, (Chapter.REFUSED, Chapter.HOLES, Chapter.STIFFER, Chapter.UNDERSTOOD), width)
        return
    answer = advice.answers[0]
    yield from _joint(advice, answer, room) if current else ()
    kept = kept or NOTHING_KEPT
    yield from _chapter(f"{_BUILT} {kept.on}".strip(), _whole(kept.built, width), width)
    yield from _as_built(advice, room, kept)
    yield from _plan_and_steps(advice, answer, room, kept, current=current)
    yield from _chapters(advice, (Chapter.CAUTIONS,), width)
    yield from _chapter(Chapter.PROOF.value, proof_lines(advice, answer, width), width)
    yield from _chapters(advice, _AFTER_PROOF, width)
    yield from _chapter(_REST, rest_lines(advice, answer, width), width)


def _joint(advice: Advice, answer: Answer, room: Room) -> Iterator[Line]:
    """A row between, and the joint drawn."""
    yield ()
    joint, behind_mm = answer.proposal.joint, advice.mount.behind_mm
    yield from section_lines(joint, behind_mm, room.width, room.rows, room.measures, room.tones)


def _as_built(advice: Advice, room: Room, kept: Kept) -> Iterator[Line]:
    """What comes of what was built; nothing where nothing was, or nothing of it can be judged."""
    found = judged(kept.choice, kept.tables) if kept.choice is not None and kept.tables is not None else None
    if found is not None:
        yield from built_lines(found, advice.mount.behind_mm, room.sheet)


def _whole(texts: Iterable[str], width: int) -> Iterator[str]:
    for text in texts:
        yield from wrapped(text, width, rest="  ")


def _ticked(steps: Sequence[StepState], width: int) -> Iterator[str]:
    """The steps with what is ticked of them; those that are done before the first that is not are one line."""
    first = next((at for at, state in enumerate(steps) if not state.is_done), len(steps))
    if first:
        yield f"{DONE} 1 to {first} done" if first > 1 else f"{DONE} 1 done"
    for number, state in enumerate(steps[first:], first + 1):
        yield from wrapped(ticked_text(state), width, first=f"{number:>2}. ", rest="    ")


def _steps(advice: Advice, kept: Kept, width: int) -> Iterator[Line]:
    found = _chapter(Chapter.STEPS.value, _ticked(kept.steps, width), width)
    yield from found if kept.steps else _chapters(advice, (Chapter.STEPS,), width)


def _plan_and_steps(
    advice: Advice, answer: Answer, room: Room, kept: Kept, *, current: bool
) -> Iterator[Line]:  # fmt: skip
    """The plan beside the steps where there is room for both; else the steps, then the plan.

    The plan of an answer that is not current any more is left out; its steps stay where they were.
    """
    if room.width >= _ABREAST:
        left = room.width * _PLAN_SHARE // 100
        plan = _plan(advice, answer, replace(room, width=left - _BETWEEN), kept.steps)
        if plan:
            steps = list(_steps(advice, kept, room.width - left))
            yield from beside([(plan if current else [], left), (steps, room.width - left)])
            return
    yield from _steps(advice, kept, room.width)
    yield from _plan(advice, answer, room, kept.steps) if current else ()


def _plan(advice: Advice, answer: Answer, room: Room, steps: Sequence[StepState]) -> list[Line]:
    """The fixings to scale, where there are several."""
    sheet = sheet_for(answer, advice.mount, advice.mount.item)
    if len(sheet.centres_mm) < _SEVERAL:
        return []
    made, otherwise, is_given = made_as_wanted(steps), made_otherwise(steps), places_given(advice.mount)
    lines = plan_lines(sheet, room.width, room.rows, made, is_given=is_given, otherwise=otherwise)
    return [(), heading("PLAN", room.width), *lines]


def _chapters(advice: Advice, wanted: Sequence[Chapter], width: int) -> Iterator[Line]:
    found = chapters(advice, width, wanted, in_form=True)
    for chapter in wanted:
        yield from _chapter(chapter.value, found.get(chapter, ()), width)


def _chapter(title: str, texts: Iterable[str], width: int) -> Iterator[Line]:
    """A blank row, the heading with its rule, and the lines; nothing where there are none."""
    lines = _lines(texts)
    if lines:
        yield from ((), heading(title.upper(), width), *lines)


def _lines(texts: Iterable[str], role: str = "ink") -> list[Line]:
    return [((text, role),) for text in texts]
