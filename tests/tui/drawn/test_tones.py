"""The drawn joints in each look: what touches differs in lightness or texture, and every look shows the same facts."""

from functools import cache
from itertools import pairwise

import pytest

from fasten.model import Joint
from fasten.tui.drawn.cells import _HATCH, _TEXTURE, _TONES, FULL, NONE, SIXTEEN, _half, _role
from fasten.tui.drawn.compared import compared_rows
from fasten.tui.drawn.joint import Drawing, laid_out
from fasten.tui.drawn.other import Sheet, nearest_lines
from fasten.tui.drawn.rows import row_lines
from fasten.tui.drawn.runs import Line, plain
from fasten.tui.drawn.section import section_lines
from fasten.tui.palette import _ROLES, DARK, LIGHT, colours

from ..test_palette import contrast
from .test_figures import KNOWN, answered

ASKED: tuple[dict[str, str], ...] = (
    KNOWN,
    KNOWN | {"between": "carpet 4 mm"},
    KNOWN | {"support": "bay 300x450", "doubler": "280x1.6 mm bonded"},
    {"item": "crossover", "onto": "steel 1 mm", "removed": "rarely", "edge": "10mm", "behind": "60mm", "mass": "0.3kg"},
    {"item": "crossover", "onto": "plywood 18 mm", "removed": "monthly", "reach": "both-sides", "edge": "60mm",
     "behind": "60mm"},
    {"item": "trim-panel", "onto": "ABS 3 mm", "removed": "rarely", "edge": "60mm", "behind": "60mm",
     "item-hole": "6.6mm"},
    {"item": "fuse-holder", "onto": "steel 1 mm", "removed": "never", "edge": "60mm", "behind": "60mm",
     "item-hole": "4.9mm", "panel": "side"},
)  # fmt: skip
ROOMS = ((78, 9), (43, 7))
LEAST, LEAST_ON_PAPER = 1.4, 2.9
LETTERS = {"ghost", "unknown"}  # drawn as text
INSIDE = {"screw-root", "screw-lit"}  # stripes of a thread; the lit side of a screw, inside its outline
GLYPHS = set("█▀▄▌▐▏▎▍▋▊▉▘▝▖▗▛▜▙▟▚╱╲·░▒▓#:? ")


@cache
def joints() -> tuple[tuple[Joint, float | None], ...]:
    """A joint of each method that answers."""
    found: dict[str, tuple[Joint, float | None]] = {}
    for said in ASKED:
        advice = answered(**said)
        for answer in advice.answers:
            found.setdefault(answer.method, (answer.proposal.joint, advice.mount.behind_mm))
    assert len(found) >= 10
    return tuple(found.values())


def half_rows(drawing: Drawing, width: int) -> list[bytes]:
    centres = [(row + 0.5 - drawing.rows / 2) / drawing.per_mm for row in range(drawing.rows)]
    return [_half(drawing.parts, width, centre, centre + side / drawing.per_mm, drawing.per_mm)
            for centre in centres for side in (-0.25, 0.25)]  # fmt: skip


@cache
def touching() -> frozenset[tuple[str, str]]:
    """Every two tones that lie beside or over each other for a cell's side or more in some joint."""
    found: dict[tuple[str, str], int] = {}
    for joint, behind_mm in joints():
        for width, rows in ROOMS:
            lines = half_rows(laid_out(joint, behind_mm, width, rows), width)
            beside = [pair for line in lines for pair in pairwise(line)]
            over = [pair for one, other in pairwise(lines) for pair in zip(one, other, strict=True)]
            for one, other in (*beside, *over):
                pair = tuple(sorted((_TONES[one], _TONES[other])))
                found[pair[0], pair[1]] = found.get((pair[0], pair[1]), 0) + (one != other)
    return frozenset(pair for pair, count in found.items() if count >= 2 and not LETTERS & set(pair))


def family(tone: str) -> str:
    return tone.partition("-")[0] if tone.startswith(("screw", "receiver")) else tone


@pytest.mark.parametrize("look", [DARK, LIGHT])
def test_tones_that_touch_differ_in_lightness_or_in_texture(look: str) -> None:
    of = colours(look)
    for one, other in touching():
        if family(one) == family(other) or _TEXTURE.get(one) != _TEXTURE.get(other):
            continue
        is_paper, found = "paper" in (one, other), contrast(of[_role(one)], of[_role(other)])
        if not INSIDE & {one, other} or (is_paper and look == DARK) or {one, other} == {"screw-lit", "sheet"}:
            assert found >= (LEAST_ON_PAPER if is_paper else LEAST), (one, other, found)


def test_on_sixteen_colours_and_on_none_what_touches_differs_by_number_or_by_hatch() -> None:
    for one, other in touching():
        if family(one) != family(other):
            number = [_ROLES[_role(tone)][2] if tone != "paper" else 0 for tone in (one, other)]
            hatch = [_HATCH[family(tone)] for tone in (one, other)]
            assert number[0] != number[1] or hatch[0] != hatch[1], (one, other)
            assert hatch[0] != hatch[1], (one, other)


def words(lines: tuple[Line, ...]) -> list[str]:
    """The lines that are text, without what is drawn."""
    return [text for text in map(plain, lines) if set(text) - GLYPHS]


def test_every_look_says_the_same_of_a_joint_and_draws_the_same_rows() -> None:
    for joint, behind_mm in joints():
        for width, rows in ROOMS:
            full, *others = (section_lines(joint, behind_mm, width, rows, 5, tones) for tones in (FULL, SIXTEEN, NONE))
            for other in others:
                assert len(other) == len(full)
                assert words(other) == words(full)


def test_without_colour_no_fit_and_every_state_are_told_by_form_and_word() -> None:
    advice = answered(behind="9 mm", edge="40 mm", support="firm")
    lines = [plain(line) for line in nearest_lines(advice, Sheet(78, 9, 5, NONE))]
    assert any(line.startswith("▞▞▞ Space behind: wants") and line.endswith("▞▞▞") for line in lines)
    [row, *_] = compared_rows(answered(**KNOWN))
    assert plain(row_lines(row, 78)[0]).split()[1] == "●"
    assert plain(row_lines(row, 78)[0]).endswith("holds")
