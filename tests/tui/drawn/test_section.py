"""The section in tones: cells with the fewest dots wrong, true to scale, every part named, and quick."""

from itertools import pairwise
from time import perf_counter
from typing import Any

import pytest

from fasten.model import Advice, Joint
from fasten.report.template.sheet import sheet_for
from fasten.tui.drawn.cells import _CODE, _MASKS, ALONG, FULL, NONE, SIXTEEN, Part, cell, painted
from fasten.tui.drawn.joint import laid_out
from fasten.tui.drawn.plan import plan_lines
from fasten.tui.drawn.runs import columns, plain
from fasten.tui.drawn.section import measures, section_lines

from .test_figures import KNOWN, answered

PAPER, SHEET, SCREW = (_CODE[tone] for tone in ("paper", "sheet", "screw"))
KINDS: dict[str, dict[str, Any]] = {
    "rivet nut": KNOWN,
    "not proven": {},
    "board": {"item": "crossover", "onto": "plywood 18 mm", "removed": "rarely", "edge": "60 mm"},
    "doubler": KNOWN | {"support": "bay 300x450", "doubler": "280x1.6 mm bonded"},
    "face": {"item": "trim-panel", "onto": "ABS 3 mm", "removed": "weekly"},
}


@pytest.fixture(scope="module")
def advices() -> dict[str, Advice]:
    return {name: answered(**said) for name, said in KINDS.items()}


def joint_of(advice: Advice) -> Joint:
    return advice.answers[0].proposal.joint


@pytest.mark.parametrize("count", range(1, 8))
def test_an_edge_along_the_axis_is_true_to_an_eighth_of_a_cell(count: int) -> None:
    dots = bytes([SCREW] * count + [PAPER] * (ALONG - count)) * 2
    glyph, fore, back = cell(dots)
    assert (glyph, fore, back) == (" ▏▎▍▌▋▊▉"[count], SCREW, PAPER)


def test_a_cell_split_across_and_one_of_a_single_tone() -> None:
    assert cell(bytes([SHEET] * ALONG + [PAPER] * ALONG)) == ("▀", SHEET, PAPER)
    assert cell(bytes([SHEET] * 2 * ALONG))[0] == " "


def test_no_other_glyph_would_have_fewer_dots_wrong() -> None:
    for number in range(300):
        dots = bytes((PAPER, SHEET, SCREW)[(number * (at + 3) + at * at // (1 + number % 5)) % 3] for at in range(16))
        glyph, fore, back = cell(dots)
        mask = _MASKS.get(glyph, (True,) * 16)
        wrong = sum(dot != (fore if inside else back) for dot, inside in zip(dots, mask, strict=True))
        for other in _MASKS.values():
            sides = [[dot for dot, inside in zip(dots, other, strict=True) if inside is side] for side in (True, False)]
            assert wrong <= 16 - sum(max(map(side.count, side)) for side in sides)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(("width", "rows"), [(76, 9), (43, 7)])
def test_every_joint_is_drawn_in_its_columns_with_every_part_named(
    advices: dict[str, Advice], kind: str, width: int, rows: int
) -> None:
    joint, behind_mm = joint_of(advices[kind]), advices[kind].mount.behind_mm
    for tones in (FULL, SIXTEEN, NONE):
        lines = section_lines(joint, behind_mm, width, rows, 5, tones)
        assert max(map(columns, lines)) <= width
    dimensions = [plain(line) for line in lines if any(style in ("accent", "bad") for _, style in line)]
    assert dimensions
    assert all(line.count("mm") >= 1 for line in dimensions)  # no figure without its unit
    said = " ".join(map(plain, lines))
    assert all(f"{layer.thickness_mm:g} mm" in said for layer in joint.layers)
    assert "mm" in said
    assert ("doubler, steel 1.6 mm" in said) is (kind == "doubler")


def test_the_drawing_is_as_long_as_its_scale_says_and_steel_that_is_thinner_is_drawn_thinner() -> None:
    thin, thick = (answered(**KNOWN | {"onto": f"steel {mm} mm"}) for mm in (0.8, 1.2))
    widths = []
    for advice in (thin, thick):
        drawing = laid_out(joint_of(advice), 40.0, 76, 9)
        back, page = drawing.page.back, drawing.page
        assert page.column(page.end_mm) - page.column(back.end_mm) == pytest.approx(
            (page.end_mm - back.end_mm) * page.scale, abs=0.01
        )
        widths.append(back.eighths / page.scale)
        assert back.eighths / ALONG == pytest.approx(back.slab.thickness_mm * page.scale, abs=0.2)
    assert widths[0] < widths[1]


def test_the_thread_is_drawn_at_its_true_pitch(advices: dict[str, Advice]) -> None:
    drawing = laid_out(joint_of(advices["rivet nut"]), 40.0, 76, 9)
    thread = next(part for part in drawing.parts if part.step)
    assert thread.step == pytest.approx(0.8 * drawing.page.scale * ALONG)
    row = painted([thread], 76, 9, drawing.per_mm, FULL)[4]
    dots = "".join(text for text, _ in row)
    assert dots.strip()
    roots = [at for at in range(1, 200) if thread.step * at < thread.end - thread.start]
    assert len(roots) == int((thread.end - thread.start - 0.001) / thread.step)


def test_a_turned_part_is_lit_from_above_and_without_tones_has_its_hatch() -> None:
    part = Part("screw", 0, 10 * ALONG, 0.0, 4.0)
    styles = [row[0][1] for row in painted([part], 10, 8, 1.0, FULL)]
    assert "screw-lit" in styles[1]
    assert "screw-shade" in styles[-2]
    assert {text for row in painted([part], 10, 8, 1.0, NONE) for text, _ in row} == {"▓" * 10}


def test_dimensions_come_in_the_order_of_need_and_what_is_short_is_marked(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    found = measures(laid_out(joint, 40.0, 76, 9))
    assert found[0].forms[0] == "needs 15.4 mm behind, 40 mm there"
    assert [measure.forms[0].split()[0] for measure in found[1:4]] == ["engaged", "3.91", "screw"]
    assert found[-1].goes_on  # 40 mm are further than the page
    assert measures(laid_out(joint, 9.0, 76, 9))[0].role == "bad"
    assert "not known" in measures(laid_out(joint, None, 76, 9))[0].forms[0]


def test_what_is_behind_is_drawn_at_its_place_or_as_not_known_or_not_at_all(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    near = laid_out(joint, 18.0, 76, 9)
    assert near.wall == round(near.page.column(near.page.back.end_mm + 18.0))
    assert laid_out(joint, 40.0, 76, 9).wall is None
    unknown = [plain(line) for line in section_lines(joint, None, 76, 9, 5, FULL)]
    assert sum("?" in line for line in unknown) == 9


def test_a_section_is_kept_and_quick(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    section_lines(joint, 40.0, 80, 9, 5, FULL)
    taken = []
    for _ in range(5):
        begun = perf_counter()
        section_lines(joint, 40.0, 80, 9, 5, FULL)
        taken.append(perf_counter() - begun)
    assert min(taken) < 0.02  # 4 ms on an idle machine


def test_neighbours_of_one_style_are_one_run(advices: dict[str, Advice]) -> None:
    drawing = laid_out(joint_of(advices["rivet nut"]), 40.0, 80, 9)
    for line in painted(drawing.parts, 80, 9, drawing.per_mm, FULL):
        assert all(one[1] != other[1] for one, other in pairwise(line))


def test_the_plan_numbers_every_fixing_and_asks_for_an_edge_that_is_not_known(advices: dict[str, Advice]) -> None:
    known, unknown = advices["rivet nut"], advices["not proven"]
    for advice, asks in ((known, False), (unknown, True)):
        sheet = sheet_for(advice.answers[0], advice.mount, "x")
        for width in (76, 43):
            lines = plan_lines(sheet, width, 9, made=(1,), current=2)
            text = "\n".join(map(plain, lines))
            assert max(map(columns, lines)) <= width
            assert (text.count("■"), text.count("□")) == (1, 3)
            assert all(str(number) in text for number in range(1, 5))
            assert "seen from the drill" in text
            assert (text.count("?") > 10) is asks
            assert "240" in text
            assert any("reverse" in style for line in lines for _, style in line)


def test_the_plan_shows_no_sheet_beyond_the_edge_that_was_given(advices: dict[str, Advice]) -> None:
    advice = advices["rivet nut"]
    lines = plan_lines(sheet_for(advice.answers[0], advice.mount, "x"), 76, 9)
    raised = max(sum(len(text) for text, style in line if "raised" in style) for line in lines)
    first = plain(lines[1])
    apart = first.index("3") - 1 - first.index("□")
    assert (raised - 1 - apart) / 2 <= 40 * apart / 240
