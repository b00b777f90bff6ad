"""A row of a list says count, mark, name and state, loses no word at any width, and keeps its place as it is ticked."""

import pytest

from fasten.tui.box.box_lines import Line, in_order
from fasten.tui.drawn.rows import BUY, DONE, HERE, Row, State, brief_row, row_lines
from fasten.tui.drawn.runs import columns, plain, two_columns

SHORT, OWNED, PACKED = State(BUY, "buy 4", "open", 0), State(HERE, "here", "ink", 1), State(DONE, "packed", "good", 2)
INSERT = Row("8", "Screw-in insert M5 x 12 mm, coarse outside thread, steel", SHORT, ("6 needed and 2 spare: floor 6",))


@pytest.mark.parametrize("width", [24, 30, 42, 78])
def test_a_row_loses_no_word_and_keeps_its_state_in_sight(width: int) -> None:
    lines = row_lines(INSERT, width)
    assert max(map(columns, lines)) <= width
    words = " ".join(map(plain, lines)).split()
    assert sorted(words) == sorted(f"8 {BUY} {INSERT.name} buy 4 {INSERT.beneath[0]}".split())
    assert plain(lines[0]).startswith(f"  8 {BUY} Screw-in")
    beside = plain(lines[0]).endswith("buy 4")
    assert beside is (width > 25)
    assert beside or any(plain(line).strip() == "buy 4" for line in lines)


@pytest.mark.parametrize("width", [24, 30, 42, 78])
def test_a_brief_row_keeps_number_mark_and_state_and_says_that_there_is_more(width: int) -> None:
    one, two = brief_row(INSERT, width, 1), brief_row(INSERT, width, 2)
    assert [len(one), len(two)] == [1, 2]
    assert all(columns(line) == width for line in two)
    assert plain(two[0]).startswith(f"  8 {BUY} S")
    assert plain(two[0]).endswith("buy 4")
    assert ("…" in plain(two[0])) is (width < 78)


def test_what_goes_on_beneath_a_row_hangs_under_its_words() -> None:
    lines = row_lines(Row("1", "nut", SHORT, (f"{'screw':9}{'M5 x 16 hexagon flange ' * 3}",), 9), 42)
    assert all(plain(line).startswith(" " * 15) for line in lines[2:])


def test_blocks_go_into_two_columns_without_being_parted() -> None:
    blocks = [[((f"{name}{at}", ""),) for at in range(high)] for name, high in (("a", 3), ("b", 2), ("c", 2))]
    lines = [plain(line).split() for line in two_columns(blocks, 40)]
    assert lines == [["a0", "b0"], ["a1", "b1"], ["a2", "c0"], ["c1"]]
    assert two_columns([], 40) == []


def things(*states: State) -> list[Line]:
    heading = Line("", "PARTS", is_heading=True)
    rows = [Line(f"part {at}", "", row=Row("1", f"part {at}", state)) for at, state in enumerate(states)]
    return [heading, *rows, Line("", "BITS", is_heading=True), Line("bit", "", row=Row("", "bit", SHORT))]


def test_what_is_short_comes_first_then_what_is_here_then_what_is_packed_under_each_heading() -> None:
    found = in_order(things(PACKED, OWNED, SHORT), {})
    assert [line.key or line.text for line in found] == ["PARTS", "part 2", "part 1", "part 0", "BITS", "bit"]


def test_a_row_that_is_ticked_stays_where_it_is_until_the_page_is_come_to_again() -> None:
    ranks: dict[str, int] = {}
    in_order(things(OWNED, OWNED, OWNED), ranks)
    ticked = things(PACKED, OWNED, OWNED)
    assert [line.key for line in in_order(ticked, ranks)][1:4] == ["part 0", "part 1", "part 2"]
    assert [line.key for line in in_order(ticked, {})][1:4] == ["part 1", "part 2", "part 0"]
