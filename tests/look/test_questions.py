"""Questions as people write them: the answer stands in the first line, by what is published for each."""

import re
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from fasten.catalog.tables import builtin
from fasten.catalog.vocabulary import LOOK_WORDS
from fasten.errors import FastenError
from fasten.look import look
from fasten.look.query import parse
from fasten.report.look_text import WIDTH, look_text
from fasten.text.values import ValueSort

# What is asked, what must stand in the first line, and the publication that has it.
ASKED: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("M6 clearance", ("6.6 mm",), "ISO 273 medium"),
    ("m8 close fit hole", ("8.4 mm",), "ISO 273 fine"),
    ("tap drill M6", ("5 mm",), "ISO 2306"),
    ("M10x1.25 tap drill", ("8.8 mm",), "ISO 2306, where D - P is 8.75"),
    ("pitch of M8 fine", ("1 mm",), "ISO 262, selected fine"),
    ("lock nut M6", ("10 mm", "8 mm"), "ISO 7040: across flats, height at most"),
    ("spanner for M8 nut", ("13 mm",), "ISO 4032, ISO 7040"),
    ("large washer M6", ("6.4", "18", "1.6 mm"), "ISO 7093-1"),
    ("din 125 m6", ("6.4", "12", "1.6 mm", "ISO 7089"), "ISO 7089, for which DIN 125 was withdrawn"),
    ("hex key for M5 button head", ("3 mm",), "ISO 7380-1"),
    ("M6 socket cap head size", ("10 mm", "6 mm"), "ISO 4762"),
    ("din 933 m8", ("13 mm", "ISO 4017"), "ISO 4017"),
    ("M5x16 flange", ("M5 x 16", "7 mm"), "ISO 15071"),
    ("star 20", ("M4", "ST4.2"), "ISO 14583, ISO 14585, ISO 10664 drive 20"),
    ("PH2", ("M4", "M5"), "ISO 7045, ISO 4757 recess 2"),
    ("7mm socket", ("M5", "ISO 15071"), "ISO 15071"),
    ("8.8", ("800 MPa", "640 MPa"), "ISO 898-1"),
    ("A2-70", ("700 MPa", "450 MPa"), "ISO 3506-1"),
    ("grade 5 1/4-20 proof", ("2700 lbf",), "SAE J429: 85 ksi on 0.0318 in²"),
    ("m5 12.9 proof", ("13800 N",), "ISO 898-1"),
    ("torque for m8 8.8", ("21.6", "28"), "0.75 x 21 200 N x 8 mm x 0.17 to 0.22"),
    ("13 in lb", ("1.47 N·m",), "1 in·lbf is 0.112985 N·m"),
    ("stress area m5", ("14.2 mm²",), "ISO 898-1"),
    ("1/4-20 tap drill", ("#7", "5.105 mm"), "tap drill charts"),
    ("10-32 tap", ("#21", "4.039 mm"), "tap drill charts"),
    ("#8-32 close clearance", ("#15", "4.572 mm"), "ASME B18.2.8"),
    ("5/16-18 tap drill", ("F", "6.528 mm"), "tap drill charts"),
    ("letter F", ("6.528 mm", "0.257 in"), "letter drills"),
    ("3/16", ("4.763 mm",), "25.4 mm to the inch"),
    ("5.1mm", ("5.1 mm", "0.2008 in"), "25.4 mm to the inch"),
    ("6.8 mm what for", ("M8",), "ISO 2306"),
    ("4.2 self tapper in 0.8 steel", ("3.2 mm",), "thin-sheet chart, steel, drilled"),
    ("ST4.8 pilot 1.2 steel", ("3.9 mm",), "thin-sheet chart, steel, drilled"),
    ("6.3 tapping", ("ST6.3", "#14", "1.8 mm"), "ISO 1478"),
    ("no8 self tapper", ("ST4.2", "#8"), "ISO 1478"),
    ("rivet nut M5", ("7", "7.2", "7.6", "8 mm"), "makers' series: the hole is the body's"),
    ("m6 rivet nut closed end", ("9 mm", "23 mm"), "closed end, from memory"),
    ("tee nut m6 hole", ("7.5", "8 mm"), "a supplier's sheet and a published test"),
    ("clip for 7mm hole", ("1 to 6 mm",), "from memory"),
    ("22 gauge galv", ("0.853 mm", "0.0336 in"), "galvanised sheet gauge"),
    ("0.8mm steel", ("0.8 mm", "0.0315 in", "0.836 mm"), "manufacturers' standard gauge 21"),
    ("4 awg", ("21.15 mm²", "25 mm²"), "ASTM B258, IEC 60228"),
    ("12 gauge wire", ("3.31 mm²", "4 mm²"), "ASTM B258, IEC 60228"),
    ("8 ga vs 10mm2", ("8.37 mm²",), "ASTM B258"),
    ("M8 ring", ("8.4 mm",), "ISO 273 fine"),
    ("M12 penny washer", ("13.5", "44", "4 mm"), "ISO 7094"),
    ("hexagon nut m10 spanner", ("16 mm", "ISO 4032"), "ISO 4032"),
    ("din 934 m10", ("16 mm", "8.4 mm", "ISO 4032"), "ISO 4032"),
    ("4.0 rivet", ("4.1 mm",), "ISO 15977 style"),
    ("10 mm hex", ("10 mm", "ISO 15071"), "ISO 15071 M8"),
    ("24 mm washer", ("M12", "ISO 7089"), "ISO 7089"),
    ("M5 insert in mdf", ("6.5 mm",), "sold short inserts, common practice"),
    ("25 mm2", ("0.78",), "IEC 60228 class 5"),
    ("60 amp fuse", ("60 A",), "33 CFR 183.425"),
    ("1 mm pitch of m6", ("M6", "1 mm"), "ISO 261"),
)  # fmt: skip
# Written down before they were tried, with what the publication has.
MORE: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("clearance hole for M4", ("4.5 mm",), "ISO 273 medium"),
    ("loose fit M10", ("12 mm",), "ISO 273 coarse"),
    ("M5 through hole", ("5.5 mm",), "ISO 273 medium"),
    ("what drill to tap M8", ("6.8 mm",), "ISO 2306"),
    ("m4 tapping drill", ("3.3 mm",), "ISO 2306"),
    ("pitch M10", ("1.5 mm",), "ISO 261"),
    ("thread pitch of 1/4-20", ("1.27 mm", "20",), "ASME B1.1"),
    ("tpi 10-24", ("24",), "ASME B1.1"),
    ("M8 nut size", ("13 mm",), "ISO 4032"),
    ("wrench for M10 bolt", ("16 mm",), "ISO 4017"),
    ("what spanner fits an M6 flange bolt", ("8 mm",), "ISO 15071"),
    ("key for M8 socket cap", ("6 mm",), "ISO 4762"),
    ("M4 countersunk", ("8.96", "2.5 mm",), "ISO 10642"),
    ("csk M6 head", ("13.44",), "ISO 10642"),
    ("M5 penny washer", ("18",), "ISO 7094"),
    ("washer for M8", ("8.4", "16", "1.6 mm",), "ISO 7089"),
    ("din 9021 m8", ("24", "2 mm",), "ISO 7093-1"),
    ("iso 7380 m6", ("4 mm",), "ISO 7380-1"),
    ("din 912 m5", ("4 mm", "8.5",), "ISO 4762"),
    ("star 30", ("M6",), "ISO 14583"),
    ("pz3", ("M6",), "ISO 7045"),
    ("8 mm socket", ("M6", "ISO 15071",), "ISO 15071"),
    ("5 mm hex key", ("M6", "M8",), "ISO 4762 M6, ISO 7380-1 M8"),
    ("10.9", ("1040 MPa",), "ISO 898-1"),
    ("A4-80", ("800 MPa",), "ISO 3506-1"),
    ("grade 8", ("150 ksi",), "SAE J429"),
    ("M6 10.9 proof load", ("16700 N",), "ISO 898-1"),
    ("m10 stress area", ("58 mm²",), "ISO 898-1"),
    ("20 ft lb", ("27.12 N·m",), "1 ft·lbf=1.355818"),
    ("5 Nm in inch pounds", ("44.3 in·lbf",), "8.850746"),
    ("5/8", ("15.875 mm",), "25.4"),
    ("number 21 drill", ("4.039 mm",), "number drill 21, 0.159 in"),
    ("letter Q", ("8.433 mm",), "letter drill Q, 0.332 in"),
    ("1/2 inch in mm", ("12.7 mm",), "25.4"),
    ("3.3 mm drill", ("M4",), "ISO 2306"),
    ("10.2 mm bit", ("M12",), "ISO 2306"),
    ("ST3.5 in 1 mm steel", ("2.8 mm",), "thin-sheet chart, steel, drilled"),
    ("#10 tapping screw", ("ST4.8",), "ISO 1478"),
    ("m8 rivet nut hole", ("10.6", "13.5 mm",), "makers' series"),
    ("m5 tee nut", ("7.2", "7.4 mm",), "supplier"),
    ("heat set insert M4", ("5.6", "5.7 mm",), "handbook"),
    ("rivet 3.2 hole", ("3.3 mm",), "ISO 15977"),
    ("16 gauge aluminium", ("1.29 mm",), "Brown & Sharpe 0.0508 in = 1.290"),
    ("20 ga stainless", ("0.953 mm",), "gauge 0.0375"),
    ("8 awg in mm2", ("8.37 mm²",), "ASTM B258"),
    ("35mm2 cable", ("0.55",), "IEC 60228 class 5"),
    ("100 amp cable", ("6 AWG",), "33 CFR 105°C 6 AWG 120; 8 AWG 80"),
    ("ring terminal for m6 stud", ("6.4 mm",), "ISO 273 fine"),
    ("6.3 mm tab", ("6.3x0.8",), "IEC 61210"),
    ("ferrule for 10 mm2", ("10 mm²",), "DIN 46228-4"),
    ("14 mm hole grommet", ("10 mm",), "memory"),
    ("how tight M8 8.8", ("21.6", "28",), "0.75 x 21200"),
    ("clearance hole for M6 button head", ("6.6 mm",), "ISO 273 medium: asked of the thread, not of the head"),
    ("tap drill for M5 flange bolt", ("4.2 mm",), "ISO 2306"),
    ("#10 machine screw clearance", ("5.613 mm",), "ASME B18.2.8 normal"),
    ("pitch of M6 lock nut", ("1 mm",), "ISO 261"),
    ("din 125 m6 hole", ("6.4 mm",), "ISO 7089: of the washer, not of a screw"),
    ("pilot for st4.2 pan head", ("3.2 mm",), "thin-sheet chart, steel, drilled"),
    ("60 amp fuse wire size", ("10 AWG",), "33 CFR 183.425, 105 °C: the cable, then its fuses"),
    ("washer 8mm bolt", ("8.4 mm", "M8"), "ISO 7089: an 8 mm bolt is an M8"),
    ("6mm socket head screw key", ("5 mm", "ISO 4762"), "ISO 4762"),
    ("8mm bolt", ("M8", "9 mm"), "ISO 261, ISO 273 medium"),
    ("10.9 M8 bolt", ("30400 N",), "ISO 898-1: a class beside a thread asks what it bears"),
    ("how much does an M6 8.8 hold", ("11600 N",), "ISO 898-1"),
    ("2.5mm2 wire amps", ("20 A", "35 A"), "33 CFR 183.425, row 14 AWG"),
    ("fuse for 16mm2 cable", ("95 A", "for its fuse see the run it is in"), "33 CFR 183.425, row 6 AWG"),
    ("st4.2 self drilling", ("ST4.2",), "ISO 1478"),
    ("0 gauge wire in mm2", ("53.48 mm²",), "ASTM B258"),
    ("5/32 rivet hole", ("4.1 mm",), "ISO 15977: 5/32 in is sold as 4.0"),
    ("1.2mm sheet gauge", ("18 gauge", "1.214 mm"), "manufacturers' standard gauge"),
    ("5mm clearance", ("5.5 mm",), "ISO 273 medium"),
    ("a2-70 m6 torque", ("no proof load",), "none in the tables, and none made up"),
    ("star bit for m5 pan head", ("star 25",), "ISO 14583"),
    ("st5.5 hole in 1mm steel", ("no hole for it",), "none in the tables, and none made up"),
    ("4x20 wood screw", ("root 2.8 mm",), "EN 14592 as sold"),
    ("pilot for 4 mm screw in mdf", ("4 mm wood screw", "its pilot depends on the board"), "EN 14592 as sold"),
    ("3.2x8 rivet", ("3.3 mm",), "ISO 15977"),
    ("#8 x 1/2 self tapper", ("ST4.2",), "ISO 1478"),
    ("0.8 steel", ("0.836 mm",), "manufacturers' standard gauge 21"),
    ("grade 8.8", ("800 MPa",), "ISO 898-1"),
    ("M6 x 20 countersunk", ("M6 x 20",), "ISO 10642"),
)  # fmt: skip
READINGS = (
    ("M5x16 flange", ("ISO 15071", "EN 1665")),
    ("3/16", ("bit", "length")),
    ("7mm socket", ("M5 hexagon flange", "M4 hexagon")),
    ("8 ga vs 10mm2", ("8 AWG", "10 mm² wire")),
    ("drill for #8", ("tap drill", "clearance hole", "pilot")),
    ("10mm hex", ("spanner", "hexagon key")),
    ("20 gauge", ("20 gauge steel", "20 gauge galvanised", "20 gauge stainless", "20 AWG wire")),
    ("5mm tap drill", ("M5 tap drill 4.2 mm", "tap drill of M6")),
    ("10mm nut", ("M10 ordinary", "M6 hexagon nut")),
    ("8mm washer", ("M8 plain", "M4 spring")),
    ("M6 nut", ("ISO 4032", "ISO 7040", "rivet nut", "tee nut")),
    ("rivet nut M5", ("reduced head", "large head", "flat head", "long grip", "hexagon", "closed end")),
)


def stands(wanted: str, line: str) -> bool:
    """Whether a word or figure stands in a line by itself, and not in a longer figure."""
    return re.search(rf"(?<![\w.]){re.escape(wanted)}(?!\.?\d)", line) is not None


@pytest.mark.parametrize(("question", "wanted", "source"), ASKED + MORE)
def test_the_answer_stands_in_the_first_line(question: str, wanted: tuple[str, ...], source: str) -> None:
    line = look(question, builtin()).answers[0].text
    assert all(stands(word, line) for word in wanted), (line, source)


@pytest.mark.parametrize(("question", "readings"), READINGS)
def test_every_reading_has_a_line_of_its_own(question: str, readings: tuple[str, ...]) -> None:
    lines = [answer.text for answer in look(question, builtin()).answers]
    at = [next(n for n, line in enumerate(lines) if reading in line) for reading in readings]
    assert len(set(at)) == len(readings), lines


def test_a_torque_says_what_it_is_for() -> None:
    """0.75 of 11 600 N at 6 mm and 0.17 to 0.22 is 8.87 to 11.48 N·m: for class 8.8, in a steel nut."""
    line = look("M6 torque", builtin()).answers[0].text
    assert "8.9 to 11.5 N·m" in line
    assert all(said in line for said in ("8.8 assumed", "steel nut", "rivet nut, board or plastic see its mount point"))
    assert "assumed" not in look("M6 8.8 torque", builtin()).answers[0].text


def test_an_area_comes_before_a_length_before_a_thread() -> None:
    read = {text: parse(text, builtin()).values[0].sort for text in ("10mm2", "10 mm", "m2", "6.8", "6.8 drill")}
    assert read == {
        "10mm2": ValueSort.AREA,
        "10 mm": ValueSort.LENGTH,
        "m2": ValueSort.METRIC,
        "6.8": ValueSort.STRENGTH,
        "6.8 drill": ValueSort.LENGTH,
    }


def test_the_longest_words_count() -> None:
    assert parse("lock nut m6", builtin()).parts[0].form == "prevailing_torque"
    assert parse("m6 tapping drill", builtin()).facts == ("tap",)
    assert not parse("m6 tapping drill", builtin()).tapping


def test_a_word_that_means_nothing_is_named_with_the_nearest() -> None:
    found = look("M6 prof load", builtin())
    assert found.answers
    assert "prof means nothing here; nearest is proof" in found.notes[0]
    assert "note: prof means nothing here" in look_text(found, brief=True)
    assert look("what size of clearance hole do i need for an M6 bolt", builtin()).notes == ()


@pytest.mark.parametrize(
    ("question", "words"),
    [("button head", "no thread with it"), ("M3 penny washer", "no penny washer of M3"), ("clip", "no hole with it"),
     ("iso 9999 m6", "ISO 9999 M6 is not in the tables"),
     ("25mm self drilling screw", "no size with it"), ("rivet", "no diameter with it"), ("conduit", "no bundle")],
)  # fmt: skip
def test_what_is_missing_is_asked_for(question: str, words: str) -> None:
    with pytest.raises(FastenError) as refused:
        look(question, builtin())
    assert words in str(refused.value)


def test_a_withdrawn_number_is_named_with_what_replaced_it() -> None:
    line = look("din 985 m6", builtin()).answers[0].text
    assert "ISO 10511" in line
    assert "DIN 985 is withdrawn" in line


@pytest.mark.parametrize("question", [question for question, _, _ in ASKED])
def test_brief_is_the_lines_alone(question: str) -> None:
    found = look(question, builtin())
    brief, whole = look_text(found, brief=True), look_text(found)
    assert all(len(line) <= WIDTH for line in brief.splitlines())
    assert whole.startswith(brief.split("\n\n")[0])


@pytest.mark.parametrize("question", ["1/2 inch in mm", "8mm in inches", "2 awg in mm2", "5 N·m in inch pounds"])
def test_a_unit_that_is_converted_to_is_no_unknown_word(question: str) -> None:
    assert look(question, builtin()).notes == ()


def test_a_figure_that_is_no_gauge_is_none_beside_wire() -> None:
    """A gauge is a whole number: 6.8 beside `wire` is a class, and is not taken for one."""
    assert look("6.8 wire", builtin()).answers[0].about == "strength"


PHRASES = [phrase for row in builtin().rows(LOOK_WORDS) for phrase in row.written.split("|")]
VALUES = ("M6", "m5x16", "#8 x 1/2", "1/4-20", "ST4.2", "8.8", "6.8", "A2-70", "grade 5", "letter F", "3/16", "4x20",
          "3.2 x 8 mm", "8mm", "1/2 in", "25mm2", "4 awg", "1/0 awg", "0 gauge", "60 a", "0.5-5 nm", "star 20", "PH2",
          "iso 4762", "9.5", "100", "4/0")  # fmt: skip


@given(some.lists(some.sampled_from((*PHRASES, *VALUES)), min_size=1, max_size=4))
@settings(max_examples=100, deadline=None)
def test_whatever_is_asked_is_answered_or_refused_in_a_sentence(words: list[str]) -> None:
    """No value beside no word ends in a fault: what the tables lack is said."""
    with suppress(FastenError):
        assert all(line.text for line in look(" ".join(words)[:64], builtin()).answers)
