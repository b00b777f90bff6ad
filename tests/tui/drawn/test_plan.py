"""The plan to scale: a row as high as two columns are wide, what is made and how, edges as far as they are given."""

import math
import re
from itertools import combinations, product

import pytest

from fasten.model import Advice
from fasten.report.template.sheet import TemplateSheet, sheet_for
from fasten.tui.drawn.plan import plan_lines, plan_within
from fasten.tui.drawn.runs import columns, plain

from .test_figures import KNOWN, answered


@pytest.fixture(scope="module")
def advices() -> dict[str, Advice]:
    return {"rivet nut": answered(**KNOWN), "not proven": answered()}


@pytest.fixture(scope="module")
def sheet(advices: dict[str, Advice]) -> TemplateSheet:
    return sheet_for(advices["rivet nut"].answers[0], advices["rivet nut"].mount, "x")


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


def test_a_row_is_as_high_as_two_columns_are_wide(sheet: TemplateSheet) -> None:
    lines = [plain(line) for line in plan_lines(sheet, 76, 15)]
    rows = [at for at, line in enumerate(lines) if "□" in line]
    first = lines[rows[0]]
    wide = first.rindex("□") - first.index("□")
    assert 2 * (rows[-1] - rows[0]) / wide == pytest.approx(180 / 240, abs=2 / wide)


def test_a_hole_made_to_another_figure_has_a_mark_and_words_of_its_own(sheet: TemplateSheet) -> None:
    other = ((2, "made 7.6 mm, wants 8 mm"),)
    for lines in (
        plan_lines(sheet, 76, 9, made=(1,), otherwise=other),
        plan_within(sheet, 44, 16, (1,), None, is_given=True, otherwise=other),
    ):
        text = "\n".join(map(plain, lines))
        assert "▣2 made 7.6 mm, wants 8 mm" in " ".join(text.split())
        assert (text.count("■"), text.count("□"), text.count("▣")) == (1, 2, 2)  # one of them beside its words


def test_the_distance_to_the_edge_stands_on_a_line_to_it(sheet: TemplateSheet) -> None:
    text = "\n".join(map(plain, plan_lines(sheet, 76, 24)))
    assert re.search("├─*40─*┤", text)


GRID_OF_TEN = tuple((x, y) for x in (0.0, 166.7, 333.3, 500.0) for y in (0.0, 300.0)) + ((0.0, 150.0), (500.0, 150.0))
RING_OF_EIGHT = tuple(
    (90 * math.cos(math.tau * (at + 0.5) / 8), 90 * math.sin(math.tau * (at + 0.5) / 8)) for at in range(8)
)
ONE_COLUMN = ((0.0, 0.0), (0.0, 150.0))
ONE_INSIDE = ((0.0, 0.0), (100.0, 0.0), (20.0, 50.0), (0.0, 100.0), (100.0, 100.0))


@pytest.mark.parametrize("points", [GRID_OF_TEN, RING_OF_EIGHT, ONE_COLUMN, ONE_INSIDE])
def test_no_figure_of_the_plan_is_cut_or_runs_into_the_number_of_a_fixing(
    points: tuple[tuple[float, float], ...],
) -> None:
    apart = {f"{math.dist(one, other):.4g}" for one, other in combinations(points, 2)}
    known = apart | {str(count) for count in range(1, len(points) + 1)} | {"8", "60"}
    x, y = (sum(values) / len(points) for values in zip(*points, strict=True))
    for edge_mm, width, rows in product((None, 8.0, 60.0), (42, 44, 60, 76), (7, 12, 16, 24)):
        centres = tuple((across - x, up - y) for across, up in points)
        drawn = plan_lines(TemplateSheet("x", centres, 7.0, None, "", None, edge_mm, ()), width, rows)
        for line in (plain(line).partition("seen from")[0] for line in drawn[:rows]):
            found = set(re.findall(r"[\d.]+", line.partition("nearest")[0].partition(" places")[0]))
            assert found <= known | {"10", "20", "50", "100", "200", "500"}, line
