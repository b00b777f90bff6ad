"""The section of joints without a screw or without a hole: a clip, a stud that is there, what holds by its face."""

import re
from dataclasses import replace

import pytest
from built.receivers import changed, patch_kind
from hypothesis import given
from hypothesis import strategies as st

from fasten.model import Answer, Joint, JointKind, Layer, Patch, Span, kinds
from fasten.report.answer.as_text import advice_text
from fasten.report.answer.headline import headline
from fasten.report.section.lines import section

from .sample import PROVEN, RIVET_NUT_ANSWER
from .sample_joints import BLIND_RIVET_JOINT, RIVET_NUT, RIVET_NUT_JOINT, TAPPED_JOINT

ITEM, SHEET = Layer("item", "aluminium", 3.0), Layer("substrate", "steel", 0.8)
CLIP = replace(
    BLIND_RIVET_JOINT,
    method="push_in_clip",
    kind=JointKind.LOCATED,
    screw=None,
    receiver=changed(RIVET_NUT, part="push-in clip", series="barbed stem", thread="6 mm", length_mm=14.0,
                     grip_mm=Span(1.0, 4.5), flange_mm=14.0, flange_thickness_mm=1.5, body_mm=6.0, bulge_mm=None),
    grip_mm=2.3,
    behind_set_mm=11.7,
    behind_done_mm=11.7,
)  # fmt: skip
STRIP = Patch(patch_kind("hook-and-loop"), "sample strip", 50.0, 25.0, 4.0, "rectangle", "sample-memory")
HELD = replace(
    TAPPED_JOINT,
    method="hook_and_loop",
    kind=JointKind.LOCATED,
    layers=(ITEM, Layer("patch", "hook-and-loop", 4.0), SHEET),
    hole=None,
    screw=None,
    receiver=None,
    patch=STRIP,
    grip_mm=0.0,
    behind_done_mm=0.0,
)
MAGNET = replace(
    HELD,
    method="magnet",
    layers=(ITEM, Layer("patch", "magnet", 6.0), Layer("patch", "keeper", 1.0), SHEET),
    patch=Patch(patch_kind("magnet"), "sample pot", 32.0, 32.0, 7.0, "round", "sample-memory"),
)
STUD = replace(
    TAPPED_JOINT,
    method="factory_thread",
    layers=(ITEM, SHEET),
    hole=None,
    screw=None,
    receiver=changed(RIVET_NUT, part="hexagon nut", series="ISO 4032", thread="M6", length_mm=5.2, grip_mm=None,
                     flange_mm=10.0, flange_thickness_mm=None, body_mm=6.0, bulge_mm=None),
    behind_done_mm=0.0,
)  # fmt: skip
THREAD = replace(TAPPED_JOINT, method="factory_thread", layers=(ITEM, SHEET), hole=None, behind_done_mm=6.2)
FACES: dict[str, Joint] = {"strip": HELD, "magnet": MAGNET}
JOINTS: dict[str, Joint] = {**FACES, "clip": CLIP, "stud": STUD, "thread": THREAD}
ROWS = 11


def answer(joint: Joint, title: str) -> Answer:
    return replace(RIVET_NUT_ANSWER, title=title, proposal=replace(RIVET_NUT_ANSWER.proposal, joint=joint, torque=None))


@pytest.mark.parametrize("width", [32, 44, 80])
@pytest.mark.parametrize("behind_mm", [None, 1.0, 12.0, 400.0])
@pytest.mark.parametrize("name", JOINTS)
def test_every_line_is_inside_the_width_and_the_drawing_is_symmetrical(
    name: str, behind_mm: float | None, width: int
) -> None:
    lines = section(JOINTS[name], behind_mm, width)
    assert max(map(len, lines)) <= width
    assert lines[:ROWS] == lines[:ROWS][::-1]


@pytest.mark.parametrize("name", FACES)
def test_what_holds_by_its_face_has_no_shank_no_grip_and_nothing_behind(name: str) -> None:
    lines = section(FACES[name], 12.0, 44)
    text = " ".join(lines)
    assert "▓" not in text
    assert not any(word in text for word in ("grip", "screw", "mm behind", "┊", "▐"))
    assert "Nothing comes out behind." in text
    assert "To scale through the layers, not along them." in text


def test_a_strip_is_drawn_between_its_layers_and_ends_before_them() -> None:
    lines = section(HELD, None, 44)
    outer, axis = lines[0], lines[ROWS // 2]
    assert re.fullmatch(r" ╱+ +█+.?", outer)
    assert re.fullmatch(r" ╱+▒+█+.?", axis)
    assert axis.count("▒") == pytest.approx(axis.count("╱") * 4.0 / 3.0, abs=1.0)


def test_a_strip_tells_its_sides_and_how_far_it_holds_the_item_off() -> None:
    text = " ".join(section(HELD, None, 60))
    assert "▒ hook-and-loop 50 x 25 mm, 4 mm" in text
    assert "stands off 4 mm" in text


def test_a_round_magnet_and_its_keeper_are_measured_together() -> None:
    text = " ".join(section(MAGNET, None, 60))
    assert "▒ magnet 32 mm, 6 mm" in text
    assert "▒ keeper 32 mm, 1 mm" in text
    assert "stands off 7 mm" in text


@given(thickness_mm=st.floats(0.2, 20.0), width=st.integers(32, 120))
def test_no_strip_vanishes(thickness_mm: float, width: int) -> None:
    joint = replace(HELD, layers=(ITEM, Layer("patch", "hook-and-loop", thickness_mm), SHEET))
    assert "▒" in section(joint, None, width)[ROWS // 2]


def test_a_clip_goes_through_and_is_wider_behind() -> None:
    lines = section(CLIP, 30.0, 60)
    text = " ".join(lines)
    assert "▓ push-in clip" in text
    assert "clip 14 mm" in text
    assert "grip 2.3 mm" in text
    assert "needs 11.7 mm behind" in text
    behind = [line.rstrip("▐┊ ").count("▓") for line in lines[:ROWS]]
    assert max(behind) == behind[ROWS // 2]


def test_a_stud_ends_on_the_panel_under_its_nut() -> None:
    lines = section(STUD, 30.0, 60)
    axis = lines[ROWS // 2]
    assert axis.index("█") > axis.rindex("▓"), "it stands on the sheet and does not go through"
    assert "stud, hexagon nut" in " ".join(lines)
    assert "screw" not in " ".join(lines)


def test_a_screw_into_a_thread_that_is_there_has_no_point() -> None:
    rows = section(THREAD, 30.0, 60)[:ROWS]
    ends = sorted({row.rstrip("▐┊ ").rindex("▓") for row in rows if row.count("▓") > 3})
    assert ends[-1] - ends[-2] == 1


# -- headline and text ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "wanted", "absent"),
    [
        ("strip", ["Hole none to drill", "Hold by hook-and-loop, sample strip, 50 x 25 mm at each place"], ["Bit"]),
        ("magnet", ["Hole none to drill", "Hold by magnet, sample pot, 32 mm across at each place"], ["Bit"]),
        ("clip", ["Put in push-in clip 6 mm, barbed stem, 14 mm long, grip 1 to 4.5 mm"], ["none to drill"]),
        ("stud", ["Hole none to drill", "Nut hexagon nut M6, ISO 4032"], ["Bit", "Put in", "outside"]),
    ],
)
def test_the_headline_names_what_there_is_and_no_screw(name: str, wanted: list[str], absent: list[str]) -> None:
    text = " ".join(" ".join(headline(answer(JOINTS[name], "sample"), 44)).split())
    assert all(words in text for words in wanted), text
    assert not any(words in text for words in [*absent, "Screw", "Torque", " - "])


def test_a_ball_stud_is_no_screw() -> None:
    assert RIVET_NUT_JOINT.screw is not None
    screw = replace(
        RIVET_NUT_JOINT.screw, kind=kinds.BALL_STUD, head="8 mm ball", standard="with its own nut", pitch_mm=0.0
    )
    joint = replace(RIVET_NUT_JOINT, method="ball_stud", screw=screw)
    head = " ".join(" ".join(headline(answer(joint, "sample"), 44)).split())
    assert "Stud M5, 8 mm ball, with its own nut" in head
    assert "Screw" not in head
    drawn = " ".join(section(joint, None, 60))
    assert "ball stud M5 x 14" in drawn
    assert "stud 14 mm" in drawn
    assert "engaged" not in drawn


@pytest.mark.parametrize("name", JOINTS)
def test_the_whole_text_holds_no_empty_part(name: str) -> None:
    advice = replace(PROVEN, answers=(answer(JOINTS[name], "sample"),))
    lines = advice_text(advice).split("\n")
    assert max(map(len, lines)) <= 44
    assert "TIGHTENING" not in lines
    assert not any(re.fullmatch(r"[A-Z][a-z ]+", line.strip()) and line.startswith("Screw") for line in lines)
