"""Text of advice: narrow enough, first what is needed at the car, and nothing in it that a terminal obeys."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.geometry.joint import drilled
from fasten.model import (
    Advice,
    Answer,
    BitChoice,
    Caution,
    Phase,
    Position,
    Refusal,
    Span,
    StackPart,
    Status,
    Tolerance,
    WorkStep,
)
from fasten.report.answer.as_text import advice_text
from fasten.report.answer.headline import MOST_LINES, headline
from fasten.report.answer.proof import bar, mark
from fasten.report.wrap import packed, shortened, wrapped
from fasten.text.exceeded import percent
from fasten.text.figures import figure
from fasten.text.rounding import rounded_down, rounded_up

from .sample import (
    NOTHING_FITS,
    PROVEN,
    RIVET_NUT_ANSWER,
    SPIN_OUT,
    THROUGH_BOLT,
    THROUGH_BOLT_ANSWER,
    TORQUE,
    UNPROVEN,
    UNPROVEN_ANSWER,
)
from .sample_joints import BLIND_RIVET_JOINT

ADVICE = {"proven": PROVEN, "bolt": THROUGH_BOLT, "unproven": UNPROVEN, "nothing": NOTHING_FITS}
BASES = {source.id: source.basis for source in PROVEN.sources}


def flat(text: str) -> str:
    """The text without its line breaks, to look for a phrase that may be broken."""
    return " ".join(text.split())


def section_of(text: str, title: str) -> str:
    return flat(text.split(f"\n{title}\n", 1)[1].split("\n\n", 1)[0])


@pytest.mark.parametrize("width", [32, 44, 60, 100])
@pytest.mark.parametrize("name", ADVICE)
def test_every_line_is_inside_the_width(name: str, width: int) -> None:
    assert max(map(len, advice_text(ADVICE[name], width).split("\n"))) <= width


def test_first_twelve_lines_hold_all_that_is_needed_at_the_car() -> None:
    head = flat("\n".join(advice_text(PROVEN).split("\n")[:12]))
    for wanted in (
        "Rivet nut M5, round body",
        "Hole 7.1 mm, -0 +0.1, through",
        "Bit 7.1 mm",
        "Put in rivet nut, round body M5, sample round, 13 mm long, grip 0.5 to 3 mm",
        "Screw M5 x 14 mm pan, class 4.8, ISO 7045",
        "Torque 1.9 N·m, 16.8 in·lbf (1.2 to 2.21)",
        "All 2 checks hold",
        "Caution A round body turns",
    ):
        assert wanted in head


def test_unproven_answer_says_so_before_the_hole() -> None:
    head = advice_text(UNPROVEN).split("\n")[:4]
    assert flat("\n".join(head[1:3])) == "NOT PROVEN: needs 15.2 mm behind; 14.2 mm to the nearest edge"
    assert head[3].startswith("Hole")


def test_failing_check_is_said_before_the_hole() -> None:
    assert "DOES NOT HOLD: Bulge pulled through the sheet" in flat("\n".join(headline(THROUGH_BOLT_ANSWER, 44)[:3]))


def crowded(count: int, title: str) -> Answer:
    joint = THROUGH_BOLT_ANSWER.proposal.joint
    washers = tuple(StackPart("ISO 7093-1", "8", Position.HEAD, 8.4, 24.0 + i, 2.0) for i in range(count))
    proposal = replace(UNPROVEN_ANSWER.proposal, joint=replace(joint, washers=washers), torque=TORQUE)
    return replace(UNPROVEN_ANSWER, title=title, proposal=proposal)


@given(count=st.integers(0, 9), title=st.text("abc ", min_size=1, max_size=200))
def test_headline_never_takes_more_than_twelve_lines(count: int, title: str) -> None:
    """However many parts: the torque and a caution are there, what needs checking is not shortened."""
    lines = headline(crowded(count, title), 44)
    assert len(lines) <= MOST_LINES
    text = flat("\n".join(lines))
    assert "needs 15.2 mm behind; 14.2 mm to the nearest edge" in text
    assert "Torque 1.9 N·m" in text
    assert "Hole 9 mm" in text
    assert "Caution" in text


def test_what_the_headline_shortens_stands_below_in_full() -> None:
    answer = crowded(5, "M8 through bolt")
    assert "…" in "".join(headline(answer, 44))
    full = section_of(advice_text(replace(UNPROVEN, answers=(answer,))), "PARTS IN FULL")
    for size in ("8.4x24x2", "8.4x28x2"):
        assert f"Washer: {size} mm, head, ISO 7093-1" in full
    assert "PARTS IN FULL" not in advice_text(PROVEN)


def test_washers_of_one_size_share_a_line() -> None:
    assert "Washer  8.4x24x2 mm, head + nut, ISO 7093-1" in headline(THROUGH_BOLT_ANSWER, 44)


def test_hexagon_hole_and_bit_outside_its_tolerance_are_said() -> None:
    joint = RIVET_NUT_ANSWER.proposal.joint
    bit = BitChoice("#29", 3.454, -0.246, False)
    hole = replace(drilled(joint), diameter_mm=3.7, shape="hexagon", depth_mm=12.0, bit=bit)
    answer = replace(RIVET_NUT_ANSWER, proposal=replace(RIVET_NUT_ANSWER.proposal, joint=replace(joint, hole=hole)))
    head = flat("\n".join(headline(answer, 60)))
    assert "Hole 3.7 mm hexagon, across flats, -0 +0.1, 12 mm deep" in head
    assert "Bit #29 (3.454 mm), 0.25 mm under: OUTSIDE, drill under and ream" in head


def test_hole_that_a_screw_drills_itself_has_no_tolerance() -> None:
    joint = RIVET_NUT_ANSWER.proposal.joint
    hole = replace(drilled(joint), tolerance_mm=Tolerance(0.0, 0.0))
    answer = replace(RIVET_NUT_ANSWER, proposal=replace(RIVET_NUT_ANSWER.proposal, joint=replace(joint, hole=hole)))
    assert "Hole    7.1 mm, through" in headline(answer, 44)


def test_rivet_is_one_part_and_has_no_torque() -> None:
    proposal = replace(RIVET_NUT_ANSWER.proposal, joint=BLIND_RIVET_JOINT, torque=None)
    text = advice_text(replace(PROVEN, answers=(replace(RIVET_NUT_ANSWER, title="Blind rivet", proposal=proposal),)))
    assert "Rivet   4.8 x 8 mm" in text
    assert "Put in" not in text
    assert "TIGHTENING" not in text


def test_nothing_fits_opens_so_and_gives_each_figure_and_change() -> None:
    text = advice_text(NOTHING_FITS)
    assert text.startswith("Nothing fits\n- Rivet nut: 9 mm behind")
    for wanted in (
        "(available 9 mm, needed 15.2 mm)",
        "> would fit with: a receiver 6.8 mm long",
        "Tapping screw: 0.8 mm steel is thinner",
        "pitch 1.41 mm)",
        "Through bolt: one side can be reached",
        "> would fit with: reach behind",
    ):
        assert wanted in flat(text)


def test_proof_shows_use_factor_case_and_weakest_source() -> None:
    proof = section_of(advice_text(THROUGH_BOLT), "PROOF")
    assert "+ Slip under the item [s] ████▊░░░ 60 % 150 of 250 N, factor 1.5, service" in proof
    assert "! FAILS: Bulge pulled through the sheet [p] ████████> 145 % 2400 of 1659 N, factor 1.25, hard stop" in proof
    assert "[s] standard, [p] common practice" in proof
    assert "[m]" not in proof


def test_unchecked_line_says_what_it_needs() -> None:
    assert "? Space behind: not checked, needs 15.2 mm behind" in section_of(advice_text(UNPROVEN), "PROOF")


def test_understood_is_sorted_by_where_it_is_from() -> None:
    said = section_of(advice_text(UNPROVEN), "UNDERSTOOD AS")
    given_, rest = said.split("Preset: ")
    preset, rest = rest.split("Assumed: ")
    assumed, missing = rest.split("Not given: ")
    assert "thickness 0.8 mm" in given_
    assert "pattern rectangle 240 x 180 mm" in given_
    assert "item material aluminium" in preset
    assert "panel unknown" in assumed
    assert missing == "behind, edge, support"


def test_thickness_of_a_place_is_shown_as_a_range() -> None:
    mount = replace(PROVEN.mount, thickness_min_mm=0.7, thickness_max_mm=1.2)
    assert "thickness from 0.7 mm, to 1.2 mm" in flat(advice_text(replace(PROVEN, mount=mount)))


def test_other_answers_and_their_state_are_listed() -> None:
    others = section_of(advice_text(PROVEN), "OTHER ANSWERS")
    assert others == "2. Through bolt M8 with large washers, 60 % used"


def test_user_text_cannot_command_the_terminal() -> None:
    evil = "\x1b[2J[/b]\u202e\r\nHole 99 mm"
    mount = replace(PROVEN.mount, item=evil, case=evil)
    answer = replace(
        RIVET_NUT_ANSWER,
        title=evil,
        steps=(WorkStep(Phase.LOOK, 1, evil, "evil/look/1"),),
        cautions=(Caution(evil, evil, False),),
    )
    refusal = Refusal(evil, evil, (), evil)
    advice = Advice(mount, (answer,), (refusal,), PROVEN.sources)
    lines = advice_text(advice).split("\n")
    assert all(line.isprintable() for line in lines)
    assert not any(line.startswith("Hole 99") for line in lines)
    assert "[/b]" in advice_text(advice)


@pytest.mark.parametrize(
    ("utilisation", "drawn", "written"),
    [
        (0.0, "░░░░░░░░", "0 %"),
        (0.001, "▏░░░░░░░", "0 %"),
        (0.5, "████░░░░", "50 %"),
        (0.996, "████████", "99.6 %"),
        (1.0, "████████", "100 %"),
        (1.004, "████████>", "100.4 %"),
        (1.45, "████████>", "145 %"),
        (float("inf"), "████████>", "over"),
    ],
)
def test_bar_and_percent(utilisation: float, drawn: str, written: str) -> None:
    assert (bar(utilisation), percent(utilisation)) == (drawn, written)


@pytest.mark.parametrize(
    ("sources", "expected"),
    [
        ((), ""),
        (("sample-standard",), "s"),
        (("sample-standard", "sample-handbook"), "h"),
        (("sample-memory", "sample-practice"), "m"),
        (("sample-standard", "unheard-of"), "?"),
    ],
)
def test_mark_is_of_the_weakest_source(sources: tuple[str, ...], expected: str) -> None:
    assert mark(sources, BASES) == expected


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (0.8, "0.8"), (0.00004, "0.00004"), (15.333, "15.33"), (294.21, "294.2"), (1658.88, "1659")],
)
def test_figure_keeps_what_counts(value: float, text: str) -> None:
    assert figure(value) == text


@pytest.mark.parametrize(
    ("value", "down", "up"), [(1.15, "1.15", "1.15"), (1.566, "1.56", "1.57"), (2.0, "2", "2"), (0.704, "0.7", "0.71")]
)
def test_limits_are_never_rounded_past_themselves(value: float, down: str, up: str) -> None:
    assert (rounded_down(value, 2), rounded_up(value, 2)) == (down, up)


def test_number_keeps_its_unit_on_one_line() -> None:
    assert wrapped("set it to 1.9 N·m", 14) == ("set it to", "1.9 N·m")


def test_shortened_ends_at_a_word_and_says_that_more_was_there() -> None:
    assert shortened(("one two three", "four"), 1, 13) == ("one two …",)
    assert shortened(("one", "four"), 2, 13) == ("one", "four")


def test_packed_fills_lines_and_breaks_none() -> None:
    assert packed(["aa", "bb", "cc"], 7) == ("aa   bb", "cc")


def test_check_without_a_case_or_factor_leaves_them_out() -> None:
    check = replace(SPIN_OUT, factor=None, from_=(), status=Status.HOLDS)
    proposal = replace(RIVET_NUT_ANSWER.proposal, checks=(check,))
    text = section_of(advice_text(replace(PROVEN, answers=(replace(RIVET_NUT_ANSWER, proposal=proposal),))), "PROOF")
    assert "+ Receiver turning in the sheet ██████▉░ 86 % 1.9 of 2.21 N·m" in text
    assert "factor" not in text


def test_nut_factor_is_printed_as_its_range() -> None:
    proposal = replace(RIVET_NUT_ANSWER.proposal, torque=replace(TORQUE, nut_factor=Span(0.15, 0.25)))
    text = advice_text(replace(PROVEN, answers=(replace(RIVET_NUT_ANSWER, proposal=proposal),)))
    assert "Nut factor 0.15 to 0.25" in section_of(text, "TIGHTENING")
