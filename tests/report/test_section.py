"""The section is to scale, loses nothing, stays inside its width, and prints the joint's own figures."""

import re
from dataclasses import replace
from math import ceil

import pytest
from built.receivers import changed, figures
from hypothesis import given
from hypothesis import strategies as st

from fasten.model import Joint, Layer
from fasten.report.section.lines import section
from fasten.text.units import number

from .sample_joints import CARPET_JOINT, JOINTS, RIVET_NUT_JOINT, TAPPED_JOINT, TAPPING_JOINT

FULL_ROWS = 11
BLOCKS = {char: eighths for eighths, char in enumerate("▏▎▍▌▋▊▉█", start=1)}


def edge_row(joint: Joint, width: int = 44, behind_mm: float | None = None) -> str:
    """The outermost row, which only layers and the wall behind reach."""
    return section(joint, behind_mm, width)[0]


def with_layers(joint: Joint, *layers: Layer) -> Joint:
    return replace(joint, layers=layers)


def sheet_cells(row: str) -> float:
    return sum(BLOCKS.get(char, 0) for char in row) / 8


def widened(joint: Joint, width: int) -> bool:
    return "widened" in " ".join(section(joint, None, width))


@pytest.mark.parametrize("width", [32, 44, 80, 120])
@pytest.mark.parametrize("behind_mm", [None, 1.0, 9.0, 15.2, 17.0, 40.0, 900.0])
@pytest.mark.parametrize("name", JOINTS)
def test_every_line_is_inside_the_width(name: str, behind_mm: float | None, width: int) -> None:
    assert max(map(len, section(JOINTS[name], behind_mm, width))) <= width


@pytest.mark.parametrize("name", JOINTS)
def test_drawing_is_symmetrical_about_the_axis(name: str) -> None:
    rows = section(JOINTS[name], 40.0, 44)[:FULL_ROWS]
    assert rows == rows[::-1]
    assert len(set(rows)) > 2


@given(thickness_mm=st.floats(0.5, 6.0), width=st.integers(44, 120))
def test_item_twice_as_thick_is_twice_as_wide(thickness_mm: float, width: int) -> None:
    """Both layers in one drawing, so under one scale: an item, and a board behind it twice as thick."""
    layers = (Layer("item", "aluminium", thickness_mm), Layer("soft", "carpet", 2 * thickness_mm))
    joint = with_layers(TAPPING_JOINT, *layers, Layer("substrate", "steel", 0.8))
    row = edge_row(joint, width)
    assert widened(joint, width) or abs(row.count("░") - 2 * row.count("╱")) <= 1.5


@given(thickness_mm=st.floats(0.5, 1.5), width=st.integers(44, 120))
def test_sheet_twice_as_thick_is_twice_as_wide(thickness_mm: float, width: int) -> None:
    """Two sheets of one drawing: each is true to an eighth of a cell, less an eighth where a seam must be seen."""
    thin = Layer("substrate", "steel", thickness_mm)
    joint = with_layers(TAPPING_JOINT, thin, Layer("soft", "mat", 2.0), replace(thin, thickness_mm=2 * thickness_mm))
    first, second = edge_row(joint, width).split("░", 1)
    assert widened(joint, width) or abs(sheet_cells(second) - 2 * sheet_cells(first)) <= 0.5


def test_thin_sheets_are_told_apart_in_eighths_of_a_cell() -> None:
    """0.7, 0.8, 0.9, 1.0 and 1.2 mm look different, though all take one or two cells."""
    sheets = [with_layers(RIVET_NUT_JOINT, Layer("item", "steel", 3.0), Layer("substrate", "steel", mm))
              for mm in (0.7, 0.8, 0.9, 1.0, 1.2)]  # fmt: skip
    seen = [sheet_cells(edge_row(joint)) for joint in sheets]
    assert seen == sorted(set(seen))
    assert all(ceil(cells) <= 2 for cells in seen)


@pytest.mark.slow
@given(
    thicknesses=st.lists(st.floats(0.01, 40.0), min_size=3, max_size=3),
    width=st.integers(44, 120),
)
def test_no_layer_vanishes_and_a_widened_one_says_so(thicknesses: list[float], width: int) -> None:
    item, soft, sheet = thicknesses
    joint = with_layers(
        CARPET_JOINT, Layer("item", "ABS", item), Layer("soft", "foam", soft), Layer("substrate", "steel", sheet)
    )
    row = edge_row(joint, width)
    assert re.search(r"╱+░+ *(█|▉|▊|▋|▌|▍|▎|╲)", row)
    scale = row.count("░") / soft if row.count("░") > 1 else None
    if scale is not None and item * scale < 0.5:
        assert widened(joint, width)


def test_foil_thinner_than_a_cell_is_drawn_and_said() -> None:
    joint = with_layers(RIVET_NUT_JOINT, Layer("item", "foil", 0.05), Layer("substrate", "steel", 0.8))
    lines = section(joint, 40.0, 44)
    assert "╱" in lines[0]
    assert "item, foil 0.05 mm is widened to be seen." in " ".join(lines)


@pytest.mark.parametrize("name", JOINTS)
def test_figures_are_those_of_the_joint(name: str) -> None:
    joint = JOINTS[name]
    text = " ".join(section(joint, 41.5, 60)[FULL_ROWS:])
    wanted = [joint.grip_mm, max(joint.behind_set_mm, joint.behind_done_mm), 41.5]
    wanted += [layer.thickness_mm for layer in joint.layers]
    if joint.screw:
        wanted.append(joint.screw.length_mm)
    if joint.screw and joint.method != "blind_rivet":
        wanted += [joint.screw.engagement_mm, joint.screw.protrusion_mm]
    names = joint.screw.length_mm if joint.screw else 0.0
    assert f"x {number(names, 2)}" in text
    printed = set(re.findall(r"[0-9.]+(?= mm)", text))
    assert printed == {number(value, 2) for value in wanted} | (
        {number(figures(joint.receiver).flange_thickness_mm or 0, 2)} if joint.receiver and "flange" in text else set()
    )


def test_grip_of_a_rivet_nut_is_drawn_under_its_sheet() -> None:
    lines = section(RIVET_NUT_JOINT, 40.0, 44)
    grip = next(line for line in lines if "grip 0.8 mm" in line)
    assert grip.index("├") == lines[0].index("█")


def test_far_wall_is_broken_and_near_wall_is_to_scale() -> None:
    far, near = section(RIVET_NUT_JOINT, 40.0, 44), section(RIVET_NUT_JOINT, 17.0, 44)
    assert far[0].endswith("┊▐")
    assert "further off" in " ".join(far)
    assert near[0].endswith(" ▐")
    assert "further off" not in " ".join(near)


def test_space_behind_that_is_short_or_unknown_is_said() -> None:
    assert "short by 6.2 mm" in " ".join(section(RIVET_NUT_JOINT, 9.0, 44))
    unknown = section(RIVET_NUT_JOINT, None, 44)
    assert unknown[0].endswith("?")
    assert "not known" in unknown[-1]


def test_head_sheet_flange_and_bulge_are_each_seen() -> None:
    """Rows from the axis outward: screw, body, then flange and bulge with the sheet between, then sheet alone."""
    rows = section(RIVET_NUT_JOINT, 40.0, 44)[FULL_ROWS // 2 :]
    assert set(rows[0]) == set(" ▓┊▐")
    assert re.search(r"▓+╱+▒▒█[▏▎]▒+ ", rows[3])
    assert re.search(r"^ +╱+ +█[▏▎] ", rows[5])


def test_text_of_a_table_cannot_command_the_terminal() -> None:
    joint = with_layers(TAPPED_JOINT, Layer("item", "evil\x1b[2J", 3.0), TAPPED_JOINT.layers[1])
    text = "".join(section(joint, None, 60))
    assert text.isprintable()
    assert "evil\\x1b[2J" in text


@pytest.mark.parametrize(("width", "layers"), [(31, RIVET_NUT_JOINT.layers), (44, ())])
def test_what_cannot_be_drawn_is_refused(width: int, layers: tuple[Layer, ...]) -> None:
    with pytest.raises(ValueError, match=r"at least 32|nothing to draw"):
        section(replace(RIVET_NUT_JOINT, layers=layers), None, width)


def test_body_that_the_table_does_not_give_is_drawn_as_wide_as_its_hole() -> None:
    assert RIVET_NUT_JOINT.receiver is not None
    unknown = replace(RIVET_NUT_JOINT, receiver=changed(RIVET_NUT_JOINT.receiver, body_mm=None))
    assert section(unknown, 40.0, 44) == section(RIVET_NUT_JOINT, 40.0, 44)


def test_screw_that_ends_inside_a_closed_body_says_what_is_beyond_it() -> None:
    assert RIVET_NUT_JOINT.screw is not None
    closed = replace(RIVET_NUT_JOINT, screw=replace(RIVET_NUT_JOINT.screw, length_mm=12.0, protrusion_mm=-2.5))
    lines = section(closed, 40.0, 60)
    axis = lines[FULL_ROWS // 2]
    assert "2.5 mm of thread beyond it" in " ".join(lines)
    assert axis.count("▒") == pytest.approx(lines[0].count("╱") * 2.5 / 3.0, abs=1.0)


def test_countersunk_head_lies_inside_the_item() -> None:
    assert TAPPED_JOINT.screw is not None
    joint = replace(TAPPED_JOINT, screw=replace(TAPPED_JOINT.screw, head="countersunk", head_height_mm=3.3))
    rows = section(joint, 40.0, 60)[: FULL_ROWS // 2 + 1]
    starts = [row.index("▓") for row in rows if "▓" in row]
    assert set(starts) == {rows[0].index("╱")}
    heads = [row.count("▓") for row in rows if "▓" in row]
    assert heads == sorted(set(heads))
