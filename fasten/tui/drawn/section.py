"""The section of a joint for the screen: the names of its parts over it, the joint in tones, its dimensions beneath."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from fasten.model import Joint
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.section.figures import along, mm, thread_end_mm
from fasten.report.section.page import Page, body_of
from fasten.report.wrap import packed, wrapped
from fasten.text.names import capital
from fasten.text.rounding import rounded_up
from fasten.text.units import number
from fasten.tui.drawn.cells import painted
from fasten.tui.drawn.joint import Drawing, has_plate, laid_out
from fasten.tui.drawn.runs import Line, Run

_MOST_NAMES = 2
_TRUE = 1.05  # times longer than thick, from which it is said
_BREAK = "─ ▞ ─┤"
_LEAST_MM = 0.005  # under which there is nothing to measure
_ACROSS = "▞▞▞"


@record
class Measure:
    """A dimension: from and to in mm under the head, its wordings, the longest first, and its role.

    One that goes on has a further place on the same line, `None` where that is not on the page, and its words.
    """

    start_mm: float
    end_mm: float
    forms: tuple[str, ...]
    role: str = "accent"
    goes_on: bool = False
    further_mm: float | None = None
    further: str = ""


@record
class _Name:
    """From where to where a part goes, under the head, what it is called, the longest first, and its role."""

    start_mm: float
    end_mm: float
    forms: tuple[str, ...]
    role: str


@lru_cache(maxsize=64)  # most of what is typed leaves the joint as it is
def section_lines(
    joint: Joint, behind_mm: float | None, width: int, rows: int, most: int, tones: str, *, wanted: Joint | None = None,
    failed: str = "",
) -> tuple[Line, ...]:  # fmt: skip
    """The joint in so many columns, drawn in so many rows, with at most so many rows of dimensions beneath.

    `behind_mm` is the space behind the substrate; None where it is not given. `wanted` is the joint that is needed,
    where another was built, and `failed` why it is refused, which is written across it.
    """
    drawing = laid_out(joint, behind_mm, width, rows)
    names, left = _names(drawing, width)
    drawn = painted(drawing.parts, width, drawing.rows, drawing.per_mm, tones)
    if failed:
        drawn[len(drawn) // 2] = _across(failed, width)
    said = [((text, "quiet"),) for text in (*packed(left, width), *wrapped(" ".join(_notes(drawing)), width))]
    return (*names, *drawn, *_dimensions(measures(drawing, wanted), drawing.page, width, most), *said)


def _across(failed: str, width: int) -> Line:
    """What fails, in a full row: nobody takes the drawing for a joint to make."""
    said = f"{_ACROSS} {failed} "
    shown = said if len(said) < width else f"{said[: width - 2]}…"
    return ((shown, "bold bad"), ("▞" * (width - len(shown)), "bold bad"))


# -- dimensions -------------------------------------------------------------------------------------------------------


def measures(drawing: Drawing, wanted: Joint | None = None) -> list[Measure]:
    """The dimensions, most wanted first: the space behind, then engaged, past it, screw and grip."""
    page = drawing.page
    along_it = _differing(page, wanted)
    ordered = (*along_it[2:], *along_it[1::-1])
    return [*_behind(drawing), *(found for found in ordered if found.end_mm - found.start_mm > _LEAST_MM)]


def _differing(page: Page, wanted: Joint | None) -> list[Measure]:
    """The dimensions of the joint itself; where another is needed, what differs says what that wants."""
    found = along(page)
    other = along(Page(wanted, page.shank, page.scale, page.head_cells, page.placed)) if wanted is not None else found
    if len(other) != len(found):
        return [Measure(start, end, (text,)) for start, end, text in found]
    return [
        Measure(start, end, (text,))
        if text == wants
        else Measure(start, end, (f"{text}, wants {_unlike(text, wants)}",), "open")
        for (start, end, text), (_, _, wants) in zip(found, other, strict=True)
    ]


def _unlike(text: str, wants: str) -> str:
    """The other words without those that both begin with."""
    ours, others = text.split(), wants.split()
    alike = next((at for at, (one, other) in enumerate(zip(ours, others, strict=False)) if one != other), 0)
    return " ".join(others[alike:])


def _behind(drawing: Drawing) -> list[Measure]:
    """The space behind: what is needed and what is there on one line, which is broken where that is further off."""
    page, behind_mm, back_mm = drawing.page, drawing.behind_mm, drawing.page.back.end_mm
    if page.needed_mm <= 0:
        if behind_mm is None or page.shank is None or drawing.wall is None:
            return []
        return [Measure(back_mm, back_mm + behind_mm, (f"{mm(behind_mm)} there",), "quiet")]
    forms: tuple[str, ...]
    needed, end_mm = f"needs {rounded_up(page.needed_mm, 1)} mm", back_mm + page.needed_mm
    if behind_mm is None:
        forms = (f"{needed} behind, not known", f"{needed}, not known", needed)
        return [Measure(back_mm, end_mm, forms)]
    there, place_mm = f"{mm(behind_mm)} there", back_mm + behind_mm
    if behind_mm < page.needed_mm:
        forms = (f"{there}, {needed}", *_of(page, behind_mm), there)
        return [Measure(back_mm, place_mm, forms, "bad", True, end_mm, needed)]
    forms = (f"{needed}, {there}", *_of(page, behind_mm), needed)
    if drawing.wall is None:
        return [Measure(back_mm, end_mm, forms, goes_on=True, further=there)]
    return [Measure(back_mm, end_mm, forms, "accent", behind_mm > page.needed_mm, place_mm, there)]


def _of(page: Page, behind_mm: float) -> tuple[str, str]:
    """How much of the space is needed, where there is little room to say it."""
    text = f"{rounded_up(page.needed_mm, 1)} of {mm(behind_mm)}"
    return f"needs {text}", text


def _dimensions(found: Iterable[Measure], page: Page, width: int, most: int) -> list[Line]:
    """As many of the dimensions as there are rows for, each where it is measured."""
    rows: list[list[Run]] = []
    for measure in found:
        start, text = _placed(measure, page, width)
        row = next((row for row in rows if start > _used(row)), None)
        if row is None and len(rows) < most:
            rows.append(row := [])
        if row is not None:
            row += [(" " * (start - _used(row)), ""), (text, measure.role)]
    return [tuple(run for run in row if run[0]) for row in rows]


def _placed(measure: Measure, page: Page, width: int) -> tuple[int, str]:
    """Where a dimension begins and its text: with what goes on where there is room for that, else by itself."""
    first = max(0, round(page.column(measure.start_mm)))
    last = min(round(page.column(measure.end_mm)), width - 1)
    if measure.goes_on and (text := _gone_on(measure, page, last - first, width - first)):
        return first, text
    return _alone(measure.forms, first, last, width)


def _gone_on(measure: Measure, page: Page, inner: int, room: int) -> str:
    """Both parts of a line that goes on; empty where there is no room for it."""
    said = measure.forms[-1]
    inside = f" {said} ".center(inner - 1, "─") if len(said) + 4 < inner else ""
    line = f"├{inside or '─' * max(inner - 1, 0)}┼"
    if measure.further_mm is None:
        line += _BREAK
    else:
        beyond = round(page.column(measure.further_mm) - page.column(measure.end_mm))
        line += f"{'─' * (beyond - 1)}┤" if beyond > 0 else ""
    text = f"{line} {measure.further}" if inside else f"{line} {said}, {measure.further}"
    return text if len(text) <= room else ""


def _alone(forms: tuple[str, ...], first: int, last: int, width: int) -> tuple[int, str]:
    """The longest wording that fits inside the line, else one beside it."""
    inner = last - first - 1
    inside = next((form for form in forms if len(form) + 4 <= inner), None)
    if inside is not None:
        return first, "├" + f" {inside} ".center(inner, "─") + "┤"
    line = "├" + "─" * inner + "┤" if inner >= 0 else "│"
    beside = next((form for form in forms if first + len(line) + 1 + len(form) <= width), None)
    if beside is not None:
        return first, f"{line} {beside}"
    before = next((form for form in forms if len(form) + 1 <= first), None)
    if before is not None:
        return first - len(before) - 1, f"{before} {line}"
    alone = forms[-1]  # without its line, but never without its unit
    return max(0, min(first, width - len(alone))), alone


# -- names ------------------------------------------------------------------------------------------------------------


def _names(drawing: Drawing, width: int) -> tuple[list[Line], list[str]]:
    """Each name with a stroke at its part, in two rows at most, and what found no room there.

    Names are short where more of them find room so. At the end of a row stands how much longer than thick it is drawn.
    """
    scale = _stretch_words(drawing)
    tried = (
        _written(drawing, width, upper, scale, short=short)
        for upper in (width - len(scale) - 2, width) for short in (False, True)
    )  # fmt: skip
    rows, left = min(tried, key=lambda one: len(one[1]))
    return [tuple(run for run in row if run[0]) for row in rows if row], left


def _written(
    drawing: Drawing, width: int, upper: int, scale: str, *, short: bool
) -> tuple[list[list[Run]], list[str]]:  # fmt: skip
    """The rows of names from the upper down, and what found no room in them; the upper has so many columns."""
    rows: list[list[Run]] = [[] for _ in range(_MOST_NAMES)]
    rooms = (width, upper)  # from the lower row up
    named = ((name, name.forms[-1:] if short else name.forms) for name in _named(drawing))
    left = [name.forms[0] for name, forms in named if not _is_written(name, forms, rows, rooms, drawing.page)]
    at_end = next((row for row in reversed(rows) if row and _used(row) + 2 + len(scale) <= width), None)
    if at_end is not None:
        at_end += [(" " * (width - _used(at_end) - len(scale)), ""), (scale, "quiet")] if scale else []
    return rows, [*left, *([scale] if scale and at_end is None else [])]


def _is_written(name: _Name, forms: Sequence[str], rows: Sequence[list[Run]], rooms: Sequence[int], page: Page) -> bool:
    """Write a name where there is room, the first of these forms that there is room for; whether there is."""
    for words in forms:
        for row, room in zip(reversed(rows), rooms, strict=True):
            at = _place(row, name, words, page, room)
            if at is not None:
                row += [(" " * (at - _used(row)), ""), ("╷", name.role), (words, "quiet")]
                return True
    return False


def _place(row: Sequence[Run], name: _Name, words: str, page: Page, width: int) -> int | None:
    """The column of the stroke: at its middle, else as far on as the part goes; None where there is no room."""
    last = min(round(page.column(name.end_mm)) - 1, width - 1)
    at = max(min(round(page.column((name.start_mm + name.end_mm) / 2)), last), 0)
    free = _used(row) + bool(row)
    at = max(at, min(free, last))
    return at if at >= free and at + len(words) + 1 <= width else None


def _stretch_words(drawing: Drawing) -> str:
    if drawing.page.shank is None or 1 / _TRUE < drawing.stretched < _TRUE:
        return ""
    return f"length {number(drawing.stretched, 1)} x thickness"


def _used(row: Sequence[Run]) -> int:
    return sum(len(text) for text, _ in row)


def _named(drawing: Drawing) -> Iterable[_Name]:
    """Each part from the head down."""
    page, ghost = drawing.page, drawing.ghost
    if page.shank is not None:
        head_mm = page.head_cells / page.scale
        yield _Name(-head_mm, 0.0, (capital(page.shank.name),), "screw")
    body = body_of(page.joint)
    flange = next((band for band in page.placed if band.slab.role == "flange"), None)
    for band in page.placed:
        if band is not flange:
            yield _Name(band.start_mm, band.end_mm, (f"{band.slab.name} {mm(band.slab.thickness_mm)}",), "quiet")
    if body is not None:
        name, back_mm = safe(body.part), page.back.end_mm
        forms = (name,) if flange is None else (f"{name}, flange {mm(flange.slab.thickness_mm)}", name)
        yield _Name(back_mm, max(thread_end_mm(page), back_mm + 1.0), forms, "receiver")
    if ghost is not None:
        yield _Name(max(page.end_mm, ghost.start_mm), ghost.end_mm, (ghost.words,), "quiet")


def _notes(drawing: Drawing) -> list[str]:
    """What the drawing does not show as it is."""
    page = drawing.page
    bands = (band for band in page.placed if band.widened)
    widened = [*(f"{band.slab.name} {mm(band.slab.thickness_mm)}" for band in bands), *drawing.widened]
    seams = [band.slab.name.partition(",")[0] for band, after in zip(page.placed, page.placed[1:], strict=False)
             if after.column * 8 - band.column * 8 - band.eighths > 1]  # fmt: skip
    widened += ["the gaps between layers"] if len(seams) > 1 else [f"the gap behind the {name}" for name in seams]
    return [
        *(["To scale through the layers, not along them."] if page.shank is None else []),
        *([f"Widened to be seen: {'; '.join(widened)}."] if widened else []),
        *(["The height of the head is not known."] if page.shank is not None and page.shank.head_mm is None else []),
        *(["How thick the plate behind is, is not known."] if has_plate(page.joint) else []),
        *(["Nothing comes out behind."] if page.needed_mm <= 0 else []),
    ]
