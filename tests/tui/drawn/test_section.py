"""The section in tones: cells with the fewest dots wrong, true to scale, every part named, and quick."""

from dataclasses import replace
from itertools import pairwise
from time import perf_counter
from typing import Any

import pytest

from fasten.advice.screw_length import with_length
from fasten.after.judge import Judged
from fasten.after.verdict import Verdict
from fasten.catalog.head_forms import HEAD_FORMS
from fasten.catalog.parts import HEADS
from fasten.catalog.tables import builtin
from fasten.model import Advice, Joint, Refusal
from fasten.report.section.heads import head_of_form
from fasten.tui.drawn.cells import _CODE, _MASKS, ALONG, FULL, NONE, SIXTEEN, Part, cell, painted
from fasten.tui.drawn.joint import laid_out
from fasten.tui.drawn.other import Sheet, built_lines, nearest_lines, nearest_of
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
    assert found[0].forms[0] == "needs 15.4 mm, 40 mm there"
    assert [measure.forms[0].split()[0] for measure in found[1:4]] == ["engaged", "3.91", "screw"]
    assert found[0].goes_on  # 40 mm are further than the page
    assert measures(laid_out(joint, 9.0, 76, 9))[0].role == "bad"
    assert "not known" in measures(laid_out(joint, None, 76, 9))[0].forms[0]


def test_what_is_behind_is_drawn_at_its_place_or_as_not_known_or_not_at_all(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    near = laid_out(joint, 18.0, 76, 9)
    assert near.wall == round(near.page.column(near.page.back.end_mm + 18.0))
    assert laid_out(joint, 40.0, 76, 9).wall is None
    unknown = [plain(line) for line in section_lines(joint, None, 76, 9, 5, FULL)]
    assert sum("?" in line for line in unknown) == 9


def text_of(joint: Joint, behind_mm: float | None, width: int = 80, rows: int = 9) -> str:
    return "\n".join(map(plain, section_lines(joint, behind_mm, width, rows, 5, FULL)))


def test_need_and_space_are_one_dimension_which_is_broken_where_the_space_goes_on(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    assert "needs 15.4 mm ──" in text_of(joint, 40.0)
    assert "┼─ ▞ ─┤ 40 mm there" in text_of(joint, 40.0)
    near = text_of(joint, 18.0)
    assert "▞" not in near
    assert "┤ 18 mm there" in near
    short = text_of(joint, 9.0)
    assert "9 mm there ──" in short
    assert "┤ needs 15.4 mm" in short
    assert "┊" not in text_of(joint, 40.0)  # no line that reads as a sheet


def test_one_scale_where_it_fills_the_width_else_the_names_say_how_much_longer_it_is(
    advices: dict[str, Advice],
) -> None:
    joint = joint_of(advices["rivet nut"])
    narrow, wide, high = (laid_out(joint, None, *room) for room in ((43, 7), (80, 9), (80, 15)))
    assert narrow.stretched == pytest.approx(1.0)
    assert high.stretched == pytest.approx(1.0)
    assert wide.stretched > 1.05
    said = [plain(line) for line in section_lines(joint, None, 80, 9, 5, FULL)]
    assert any(line.endswith(f"length {wide.stretched:.1f} x thickness") for line in said[:2])
    assert "thickness" not in text_of(joint, None, 43, 7)


def test_what_needs_the_space_behind_is_drawn_as_a_ghost_and_named(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    ghost = laid_out(joint, 40.0, 80, 9).ghost
    assert ghost is not None
    assert ghost.end_mm - ghost.start_mm == pytest.approx(joint.behind_set_mm)
    for width, rows in ((80, 9), (43, 7)):
        assert "before it is set" in text_of(joint, 40.0, width, rows)
        assert ":::" in text_of(joint, 40.0, width, rows)
    screwed = answered(item="crossover", onto="steel 1 mm", removed="rarely", edge="40mm", behind="60mm", mass="0.3kg")
    tapping = next(one.proposal.joint for one in screwed.answers if one.proposal.joint.receiver is None)
    assert (laid_out(tapping, 60.0, 80, 9).ghost is not None) is (tapping.behind_set_mm > tapping.behind_done_mm)


def test_the_same_parts_are_seen_at_every_size(advices: dict[str, Advice]) -> None:
    for kind in ("rivet nut", "board", "doubler"):
        seen = set()
        for width, rows in ((80, 13), (76, 9), (60, 8), (43, 7)):
            drawing = laid_out(joint_of(advices[kind]), 40.0, width, rows)
            lines = painted(drawing.parts, width, drawing.rows, drawing.per_mm, NONE)
            drawn = "".join(map(plain, lines)).translate(str.maketrans("▏▎▍▌▋▊▉", "███████"))  # however thin a sheet is
            seen.add(frozenset(drawn) - set(" #"))  # what is behind may be further off
        assert len(seen) == 1, (kind, seen)


def test_a_head_has_the_profile_of_its_form() -> None:
    assert [round(head_of_form("hexagon_flange").radius(at), 2) for at in (0.1, 0.5)] == [1.0, 0.66]
    assert head_of_form("cylinder").radius(0.99) == 1.0
    assert head_of_form("button").radius(0.9) < head_of_form("pan").radius(0.9) < 1.0
    assert head_of_form("countersunk").is_sunk
    assert head_of_form("of no table").profile == "pan"
    forms = {row.form for row in builtin().rows(HEADS)}
    assert forms <= {row.form for row in builtin().rows(HEAD_FORMS)}


def test_a_flange_of_a_head_is_drawn_wider_than_its_hexagon(advices: dict[str, Advice]) -> None:
    drawing = laid_out(joint_of(advices["rivet nut"]), 40.0, 80, 9)
    under = ALONG * (1 + drawing.page.head_cells)
    head = [part for part in drawing.parts if part.tone == "screw" and part.end <= under]
    assert head[-1].outer_mm == pytest.approx(drawing.page.shank.head_radius_mm if drawing.page.shank else 0.0)
    assert head[len(head) // 2].outer_mm < 0.8 * head[-1].outer_mm


def test_what_is_in_between_a_blind_hole_and_the_far_face_is_solid(advices: dict[str, Advice]) -> None:
    drawing = laid_out(joint_of(advices["board"]), None, 80, 9)
    hole = joint_of(advices["board"]).hole
    assert hole is not None
    assert hole.depth_mm is not None
    layers = [part for part in drawing.parts if part.tone == "board"]
    assert [part.inner_mm > 0 for part in layers] == [True, False]
    assert layers[0].end == layers[1].start


def test_the_thread_of_a_receiver_is_hollow_where_no_screw_fills_it() -> None:
    joint = joint_of(answered(**KNOWN | {"panel": "floor"}))
    assert joint.screw is not None
    assert joint.screw.protrusion_mm < -5
    drawing = laid_out(joint, 40.0, 80, 9)
    middle = [plain(line) for line in painted(drawing.parts, 80, 9, drawing.per_mm, FULL)][4]
    inside = [round(drawing.page.column(drawing.page.end_mm - by_mm)) for by_mm in (1.0, joint.screw.protrusion_mm + 1)]
    assert middle[inside[0]] != " "
    assert middle[inside[1]] == " "


def test_layers_that_touch_differ_in_tone_or_leave_a_seam() -> None:
    advice = answered(item="trim-panel", onto="abs 3 mm", removed="rarely", edge="60mm", behind="60mm")
    parts = [part for part in laid_out(joint_of(advice), 60.0, 78, 9).parts if "plastic" in part.tone]
    assert {part.tone for part in parts} == {"item-plastic", "plastic"}


def test_the_nearest_refusal_is_drawn_with_what_fails_across_it() -> None:
    advice = answered(behind="9 mm", edge="40 mm", support="firm")
    assert not advice.answers
    nearest = nearest_of(advice)
    assert nearest is not None
    assert nearest.failed is not None
    lines = list(nearest_lines(advice, Sheet(80, 9, 5, FULL)))
    across = [line for line in lines if all(style == "bold bad" for _, style in line) and "▞" in plain(line)]
    assert len(across) == 1
    assert columns(across[0]) == 80
    assert f"{nearest.failed.title}: wants" in plain(across[0])
    assert "has 9 mm" in plain(across[0])
    assert "drill nothing" in "".join(map(plain, lines))


def test_nothing_is_drawn_where_no_refusal_has_a_joint() -> None:
    advice = answered(behind="9 mm", edge="40 mm", support="firm")
    bare = replace(advice, refusals=tuple(replace(one, joint=None) for one in advice.refusals))
    assert list(nearest_lines(bare, Sheet(80, 9, 5, FULL))) == []


def test_a_joint_that_was_built_otherwise_says_what_was_wanted(advices: dict[str, Advice]) -> None:
    wanted = joint_of(advices["rivet nut"])
    assert wanted.screw is not None
    built = replace(wanted, screw=replace(wanted.screw, length_mm=12.0, engagement_mm=3.5, protrusion_mm=-0.1))
    lines = section_lines(built, 40.0, 80, 9, 5, FULL, wanted=wanted)
    marked = " ".join(text for line in lines for text, style in line if style == "open")
    assert "screw 12 mm, wants 16 mm" in marked
    assert "grip" not in marked
    assert not any(style == "open" for line in section_lines(wanted, 40.0, 80, 9, 5, FULL, wanted=wanted)
                   for _, style in line)  # fmt: skip


def test_what_was_built_is_drawn_where_another_joint_is_needed(advices: dict[str, Advice]) -> None:
    planned = advices["rivet nut"].answers[0].proposal
    assert planned.joint.screw is not None
    short = with_length(planned.joint, 8.0, advices["rivet nut"].mount, builtin())
    assert isinstance(short, Refusal)
    judged = Judged(Verdict.FAILS, (), (short.because,), (), (), planned, short)
    lines = list(built_lines(judged, 40.0, Sheet(80, 9, 5, FULL)))
    text = "\n".join(map(plain, lines))
    assert "Verdict: does not hold" in text
    assert f"▞▞▞ {short.because}, {short.figures[0].name} " in text
    assert "screw 8 mm, wants 16 mm" in text
    as_planned = replace(judged, verdict=Verdict.HOLDS, do=(), proved=planned)
    assert [plain(line) for line in built_lines(as_planned, 40.0, Sheet(80, 9, 5, FULL))] == ["Verdict: holds"]


def test_a_section_is_kept_and_quick(advices: dict[str, Advice]) -> None:
    joint = joint_of(advices["rivet nut"])
    kept, taken = section_lines(joint, 40.0, 80, 9, 5, FULL), []
    assert section_lines(replace(joint), 40.0, 80, 9, 5, FULL) is kept
    for _ in range(5):
        begun = perf_counter()
        section_lines.__wrapped__(joint, 40.0, 80, 9, 5, FULL)
        taken.append(perf_counter() - begun)
    assert min(taken) < 0.02  # 3 ms on an idle machine


def test_neighbours_of_one_style_are_one_run(advices: dict[str, Advice]) -> None:
    drawing = laid_out(joint_of(advices["rivet nut"]), 40.0, 80, 9)
    for line in painted(drawing.parts, 80, 9, drawing.per_mm, FULL):
        assert all(one[1] != other[1] for one, other in pairwise(line))


def test_gaps_that_are_widened_to_be_seen_are_named_once() -> None:
    asked = {"item": "equipment-board", "onto": "steel 1 mm", "removed": "rarely", "behind": "60 mm", "edge": "40 mm"}
    board = answered(
        **asked, support="firm", reach="both-sides", **{"item-material": "plywood", "item-thickness": "12 mm"}
    )
    text = " ".join(map(plain, section_lines(joint_of(board), 60.0, 80, 9, 3, FULL)))
    assert text.count("the gap") == 2, text
    assert "the gaps between layers" in text
