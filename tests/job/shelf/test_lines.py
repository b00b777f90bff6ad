"""Lines of a shelf as people write them: each is a part with all that tells it apart, or comes back with a question.

The second list was written before the reader was tried on it, so that it shows how it does with lines nobody fitted.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from fasten.catalog.tables import builtin
from fasten.job.list.parts import part_text
from fasten.job.list.stock import stock
from fasten.job.shelf.check import name_trouble, part_trouble
from fasten.job.shelf.lines.read import read_line, read_lines
from fasten.job.shelf.lines.words import Asked, Read, ReadNames, ReadPart
from fasten.model import end_kinds
from fasten.model.line import Part, Sort


def said(read: Read) -> str:
    """What a line comes to, in a word of its own form: 50 part, a sort with names, or ?, with what is near."""
    if isinstance(read, ReadPart):
        return f"{read.entry.count} {part_text(read.entry.part)}"
    if isinstance(read, ReadNames):
        return f"{read.sort.value} {'; '.join(read.names)}"
    near = " | ".join(one if isinstance(one, str) else part_text(one) for one in read.nearest)
    return f"? {read.count or '-'} {near}"


FIRST = {
    "M5x16 flange 50": "50 screw M5 x 16 mm, ISO 15071, 8.8",
    "m5 20 flange 8.8 qty 25": "25 screw M5 x 20 mm, ISO 15071, 8.8",
    "M4x10 pan head cross x 200": "200 screw M4 x 10 mm, ISO 7045, 8.8",
    "m5x12 button head stainless 30": "30 screw M5 x 12 mm, ISO 7380-1, A2-70",
    "iso 4017 m8x25 (4)": "4 screw M8 x 25 mm, ISO 4017, 8.8",
    "M5x16 50": "? 50 screw M5 x 16 mm, ISO 15071, 8.8 | screw M5 x 16 mm, ISO 14583, 8.8",
    "M5 flange screws, a handful": "? - screw M5 x 16 mm, ISO 15071, 8.8 | screw M5 x 20 mm, ISO 15071, 8.8",
    "10-32 x 1/2 pan 100": "? 100 screw M5 x 12 mm, ISO 14583, 8.8 | screw M5 x 12 mm, ISO 7045, 8.8",
    "ST3.5x9.5 pan tapping star 100": "100 screw ST3.5 x 9.5 mm, ISO 14585, case-hardened",
    "self tappers assorted": "? - screw ST4.2 x 13 mm, ISO 14585, case-hardened | "
    "screw ST3.5 x 9.5 mm, ISO 14585, case-hardened",
    "40 rivet nuts m6 steel flat head": "40 rivet nut M6 x 15 mm, round, flat head, steel",
    "m5 rivet nuts 7mm hole 25": "? 25 rivet nut M5 x 13 mm, round, flat head, steel | "
    "rivet nut M5 x 13.5 mm, hexagon, flat head, steel",
    "M8 hex rivet nut 18mm x10": "10 rivet nut M8 x 18 mm, hexagon, flat head, steel",
    "50 M5 rivet nuts 19 mm long": "50 rivet nut M5 x 19 mm, round, flat head, closed end, steel",
    "50 M5 rivet nuts flat head 19 mm": "50 rivet nut M5 x 19 mm, round, flat head, closed end, steel",
    "50 M5 long grip rivet nuts": "50 rivet nut M5 x 17 mm, round, flat head, long grip, steel",
    "10 m 35 mm2 OFC red": "consumable cable, 35 mm\u00b2, red, copper: 10 m",
    "M6 lock nuts 30": "30 prevailing-torque nut M6, ISO 7040, steel",
    "M6 nuts 50": "? 50 prevailing-torque nut M6, ISO 7040, steel | hexagon nut M6, ISO 4032, steel",
    "M5 washers 100": "100 washer M5, ISO 7089",
    "spring washers M5 x100": "100 spring washer M5, DIN 127",
    "clip nuts M5 20": "20 clip nut M5, 11 mm from edge to thread, spring steel",
    "M5 wood inserts 12mm 25": "25 screw-in insert M5 x 12 mm, coarse outside thread, 10 mm outside, steel",
    "tee nuts M6 20": "20 tee nut M6 x 9 mm, 4 prongs, steel",
    "3.2 x 8 blind rivets 50": "50 blind rivet 3.2 x 8 mm, ISO 15977, aluminium body, steel mandrel",
    "trim clips 50": "? 50 push-in clip 7 mm x 18 mm, barbed stem, plastic | "
    "push-in clip 8 mm x 20 mm, barbed stem, plastic",
    "8mm sds bit": "? - 8 mm",
    "5mm drill bit": "bit 5 mm",
    "#7 drill": "bit #7",
    "torque driver 0.5-5nm": "tool torque screwdriver, 0.5 to 5 N\u00b7m",
    "sockets 7 8 10 13": "tool socket or spanner 7 mm; socket or spanner 8 mm; socket or spanner 10 mm; "
    "socket or spanner 13 mm",
    "cable ties 200mm 100": "consumable cable tie 200 mm",
    "foam tape 3mm 5m": "consumable gasket tape, foam 3 mm",
}

UNTRIED = {
    "50 x M5 x 16 mm flange bolts": "50 screw M5 x 16 mm, ISO 15071, 8.8",
    "flange bolts M6x20 10.9 100pcs": "100 screw M6 x 20 mm, ISO 15071, 10.9",
    "M6x25 button head A2-70, 20 off": "20 screw M6 x 25 mm, ISO 7380-1, A2-70",
    "12 M8 x 30 socket cap 12.9": "12 screw M8 x 30 mm, ISO 4762, 12.9",
    "M5 x 20 pan head hexalobular star 8.8 qty: 60": "60 screw M5 x 20 mm, ISO 14583, 8.8",
    "countersunk M5x16 stainless, box of 50": "50 screw M5 x 16 mm, ISO 10642, A2-70",
    "DIN 933 M8x20 30": "30 screw M8 x 20 mm, ISO 4017, 8.8",
    "DIN 912 M6x16 8": "8 screw M6 x 16 mm, ISO 4762, 8.8",
    "M5x16 pan 40": "? 40 screw M5 x 16 mm, ISO 14583, 8.8 | screw M5 x 16 mm, ISO 7045, 8.8",
    "m5x0.8x16 flange 10": "10 screw M5 x 16 mm, ISO 15071, 8.8",
    "M8x1x25 hex bolts 10": "? 10 screw M8 x 25 mm, ISO 4017, 8.8",
    "#8 x 1/2 self tapping screws 100": "100 screw ST4.2 x 12.7 mm, ISO 14585, case-hardened",
    "self tapping ST4.2 x 13 200": "200 screw ST4.2 x 13 mm, ISO 14585, case-hardened",
    "self drilling screws ST4.2x16 50": "50 self-drilling screw ST4.2 x 16 mm, ISO 14585, case-hardened",
    "wood screws 4 x 20 100": "100 screw 4 mm x 20 mm, EN 14592, case-hardened",
    "4.5x40 chipboard screws (200)": "200 screw 4.5 mm x 40 mm, EN 14592, case-hardened",
    "2 packs of 50 M4 lock nuts": "100 prevailing-torque nut M4, ISO 7040, steel",
    "DIN 985 M5 25": "25 prevailing-torque nut M5, ISO 10511, steel",
    "a dozen M8 washers": "12 washer M8, ISO 7089",
    "M5 penny washers 30": "30 washer M5, ISO 7094",
    "M5 washers 15mm wide 50": "50 washer M5, ISO 7093-1",
    "ISO 7093-1 M6 x 40": "40 washer M6, ISO 7093-1",
    "M5 closed end rivet nuts 20": "20 rivet nut M5 x 19 mm, round, flat head, closed end, steel",
    "rivet nuts M4 reduced head 10.5mm (100)": "100 rivet nut M4 x 10.5 mm, round, reduced head, knurled, steel",
    "rivet nuts 30": "? 30 rivet nut M5 x 13 mm",
    "4.0 x 10 rivets 100": "100 blind rivet 4.0 x 10 mm, ISO 15977, aluminium body, steel mandrel",
    "heat set inserts M4 50": "50 heat-set insert M4 x 8.15 mm, heat-set, brass",
    "M5 inserts 10": "? 10 screw-in insert M5",
    "7mm trim clips 30": "30 push-in clip 7 mm x 18 mm, barbed stem, plastic",
    "brass M5x16 flange 10": "? 10 screw M5 x 16 mm, ISO 15071, 8.8",
    "hss drill bits 3, 4, 5 and 6.5 mm": "bit 3 mm; 4 mm; 5 mm; 6.5 mm",
    "1/4 in drill": "bit 1/4 in",
    "star bits T15 T20 T25": "tool driver hexalobular T15; driver hexalobular T20; driver hexalobular T25",
    "hex keys 2.5 3 4 5": "tool driver hexagon socket 2.5; driver hexagon socket 3; driver hexagon socket 4; "
    "driver hexagon socket 5",
    "rivet nut setter with mandrels M4-M8": "tool rivet-nut setter; rivet-nut mandrel M4; rivet-nut mandrel M5; "
    "rivet-nut mandrel M6; rivet-nut mandrel M8",
    "sockets 7 to 13": "tool socket or spanner 7 mm; socket or spanner 8 mm; socket or spanner 9 mm; "
    "socket or spanner 10 mm; socket or spanner 11 mm; socket or spanner 12 mm; socket or spanner 13 mm",
    "centre punch": "tool centre punch",
    "masking tape": "consumable masking tape",
    "low-strength threadlocker": "consumable low-strength threadlocker",
    "grandfather's box of bits and bobs": "? -",
}


# What was read wrong before: a count beside a box, a number that is also a class, a socket of a screw, a terminal for
# cable too thick for it, inches of a rivet, a drive beside a bit, another strength, a word that is spelled wrong.
MENDED = {
    "M5x16 flange bolts box of 100": "100 screw M5 x 16 mm, ISO 15071, 8.8",
    "#8 x 1/2 self tapping screws box of 200": "200 screw ST4.2 x 12.7 mm, ISO 14585, case-hardened",
    "drill bits 3.3, 4.2, 5, 6.8": "bit 3.3 mm; 4.2 mm; 5 mm; 6.8 mm",
    "25 pcs M4x12 countersunk socket stainless A2": "25 screw M4 x 12 mm, ISO 10642, A2-70",
    "M5x16 hex 50": "50 screw M5 x 16 mm, ISO 4017, 8.8",
    "M6x16 flange grade 10.9 x 20": "20 screw M6 x 16 mm, ISO 15071, 10.9",
    "ring terminals M8 25mm2 qty 10": "? 10 lug 25 mm² M8, copper tube",
    '3/16" rivets 12mm 100': "100 blind rivet 4.8 x 12 mm, ISO 15977, aluminium body, steel mandrel",
    "heat shrink 19mm 2m": "? - heat-shrink, 19/6 mm",
    "split loom 13mm 10 ft": "consumable convoluted tube, 12.7 mm inside: 3.05 m",
    "T25 bit": "tool driver hexalobular T25",
    "PH2 bit": "tool driver cross recess 2",
    "threadlocker medium": "? - low-strength threadlocker",
    "20pcs 8 AWG ring 8mm": "? 20 lug 8 AWG M8, copper tube",
    "5/16 hole grommet 12": "? 12 grommet 5 mm, hole 8 mm, groove 1.5 mm",
    "6mm flange bolts 20mm long x 50": "50 screw M6 x 20 mm, ISO 15071, 8.8",
    "6x20 flange bolts 50": "50 screw M6 x 20 mm, ISO 15071, 8.8",
    "zip ties 4.8x300 100": "consumable cable tie 300 mm: 100 pieces",
    "ball studs 10": "? 10 ball stud M5, with its own nut, steel | ball stud M6, with its own nut, steel",
    "2.5mm drill bits pack of 10": "bit 2.5 mm",
    "5mm drill bit x 2": "bit 5 mm",
    "25mm² red 2m and black 2m cable": "? - cable, 25 mm², red | cable, 25 mm², black",
    "p clips 10mm 20": "? 20 lined clamp 7 to 10 mm, lined | lined clamp 10 to 14 mm, lined",
    "40 M6 nylon insert lock nuts": "40 prevailing-torque nut M6, ISO 7040, steel",
    "wood screws 4.0x25 csk 100": "100 screw 4 mm x 25 mm, EN 14592, case-hardened",
    "T10-T30 star bits": "tool driver hexalobular T10; driver hexalobular T15; driver hexalobular T20; "
    "driver hexalobular T25; driver hexalobular T30",
    "star bits 15 20": "tool driver hexalobular T15; driver hexalobular T20",
    "1/4 in drive sockets 8 10": "tool socket or spanner 8 mm; socket or spanner 10 mm",
    "self tappers 4x20 x 50": "? 50 screw ST4.2 x 20 mm",
    "stainless rivets 4.8x12 50": "? 50 blind rivet 4.8 x 12 mm",
    "M6 lock nuts stainless 20": "? 20 prevailing-torque nut M6",
    "4mm x 8mm aluminium rivets, 200": "200 blind rivet 4.0 x 8 mm, ISO 15977, aluminium body",
    "brass heat set inserts M4 20": "20 heat-set insert M4 x 8.15 mm, heat-set, brass",
    "lugs 35-8 x 10": "10 lug 35 mm² M8, copper tube",
    "lugs 16-10 x 4": "4 lug 16 mm² M10, copper tube",
    "rivet gun 2.4 to 4.8": "tool blind-rivet setter 3.2; blind-rivet setter 4.0; blind-rivet setter 4.8",
    "hex bit set": "? - driver hexagon socket 3 | driver hexagon socket 4",
    "tape 5m": "? - ",
    "M6 wahsers 50": "? 50 washer M6, ISO 7089",
    "washers 50": "? 50 washer M5, ISO 7089 | washer M5, ISO 7093-1",
    "Hydraulic press with dies for tube lugs, 4 AWG": "tool hydraulic press with dies for tube lugs, 4 AWG",
    "hydraulic press with dies for tube lugs": "? - hydraulic press with dies for tube lugs, 4 AWG",
    "#8 washers 50": "? 50 washer M5, ISO 7089 | washer M5, ISO 7093-1",
}


WIRED = {
    "10 m 8 AWG red power cable 105C 7.2 mm outside": "consumable cable, 8 AWG, red, 7.2 mm outside, marked 105 °C: "
    "10 m",
    "5m black 25mm2 cable": "consumable cable, 25 mm², black: 5 m",
    "speaker cable 14ga 20 m": "consumable cable, 14 AWG, two conductors: 20 m",
    "4 AWG cca red 3 metres cable": "consumable cable, 4 AWG, red, copper-clad: 3 m",
    "8 AWG red copper cable 10 m": "consumable cable, 8 AWG, red, copper: 10 m",
    "4 AWG black OFC cable 3 m": "consumable cable, 4 AWG, black, copper: 3 m",
    "4 AWG red copper clad cable 3 m": "consumable cable, 4 AWG, red, copper-clad: 3 m",
    "8 AWG cable 5 m": "? - cable, 8 AWG, red | cable, 8 AWG, black",
    "red cable": "? - cable, 8 AWG, red",
    "8 AWG M8 lugs 10": "10 lug 8 AWG M8, copper tube",
    "25 mm2 M8 copper lugs (6)": "6 lug 25 mm² M8, copper tube",
    "red ring terminals M6 25": "25 ring terminal to 1 mm² M6, insulated, red",
    "18 AWG M5 rings x20": "20 ring terminal to 1 mm² M5, insulated, red",
    "lugs M8 10": "? 10 lug",
    "8 AWG ferrules 50": "50 wire-end sleeve 10 mm², collar, 12 mm, red",
    "16mm2 ferrules (20)": "20 wire-end sleeve 16 mm², collar, 12 mm, blue",
    "6.3 receptacles for 18 AWG qty 20": "20 receptacle 6.3x0.8, for 18 AWG",
    "blue butt splices 10": "10 butt splice to 2.5 mm², insulated, blue",
    "50 A wafer fuses 5": "5 fuse 50 A, wafer",
    "50A fuses 5": "? 5 fuse 50 A",
    "blade fuse holders 2": "2 fuse holder, blade",
    "p-clips 14 to 19.5 mm (10)": "10 lined clamp 14 to 19.5 mm, lined",
    "15 mm grommets 4": "4 grommet 15 mm, hole 20 mm",
    "heat shrink 9/3 2 m": "consumable heat-shrink, 9/3 mm, 3:1, adhesive: 2 m",
    "heat shrink 2 m": "? - heat-shrink, 4.8/1.6 mm",
    "harness tape 15 m": "consumable harness tape: 15 m",
    "masking tape 10m": "consumable masking tape: 10 m",
    "sealant 300 ml": "consumable sealant: 300 ml",
    "wire stripper": "tool wire stripper",
    "2 x 18 AWG speaker cable": "consumable cable, 18 AWG, two conductors",
    "speaker cable 2x14 ga 10 m": "consumable cable, 14 AWG, two conductors: 10 m",
    "100 cable tie, 100 x 2.5 mm": "consumable cable tie 100 mm: 100 pieces",
    "2 Lead with plugs 1 m, signal": "2 lead with plugs 1 m, signal",
    "5 Contact of the connector 18 AWG, as the connector's maker says": "5 contact of the connector 18 AWG",
}


@pytest.mark.parametrize(("line", "comes_to"), [*FIRST.items(), *UNTRIED.items(), *WIRED.items(), *MENDED.items()])
def test_a_line_comes_to_a_part_or_a_question(line: str, comes_to: str) -> None:
    found = said(read_line(line, builtin()))
    assert found == comes_to if comes_to.startswith("bit ") else found.startswith(comes_to)


@pytest.mark.parametrize(
    ("line", "assumed"),
    [("ST4.2x16 tapping 50", ("pan head, hexalobular drive",)), ("ST4.2x16 pan tapping 50", ("hexalobular drive",)),
     ("ST4.2x16 tapping star 50", ("pan head",)), ("ST4.2x16 pan tapping T20 50", ())],
)  # fmt: skip
def test_of_a_tapping_screw_what_of_head_and_drive_is_not_said_is_assumed(line: str, assumed: tuple[str, ...]) -> None:
    read = read_line(line, builtin())
    assert isinstance(read, ReadPart)
    assert read.assumed == assumed


def test_a_range_of_bits_is_each_of_them() -> None:
    read = read_line("drills 1 to 10 x 0.1", builtin())
    assert isinstance(read, ReadNames)
    assert (read.sort, len(read.names), read.names[0], read.names[-1]) == (Sort.BIT, 91, "1 mm", "10 mm")


@pytest.mark.parametrize(
    ("line", "assumed"),
    [("M5x16 flange 50", "class 8.8"), ("m5x12 button head stainless 30", "class A2-70"), ("M5 washers 100", "plain"),
     ("3.2 x 8 blind rivets 50", "aluminium body"), ("#8 x 13mm self tapping screws 100", "#8 is ST4.2"),
     ("DIN 985 M5 25", "DIN 985 is ISO 10511 now"), ("tee nuts M6 20", "9 mm long"),
     ("M4x10 pan head cross x 200", "4.8"), ("M5x16 flange shiny 50", "not read: shiny")],
)  # fmt: skip
def test_what_was_taken_without_being_said_is_shown(line: str, assumed: str) -> None:
    read = read_line(line, builtin())
    assert isinstance(read, ReadPart)
    assert assumed in "; ".join(read.assumed)


@pytest.mark.parametrize("line", [*FIRST, *UNTRIED, *WIRED])
def test_what_a_line_offers_can_be_on_a_shelf(line: str) -> None:
    """Each of the nearest is a part that an answer takes, but for a head that none takes, or is the name of a bit."""
    read = read_line(line, builtin())
    for near in read.nearest if isinstance(read, Asked) else ():
        if isinstance(near, Part) and near.name not in ("ISO 7045", "ISO 4017"):
            assert part_trouble(near, builtin()) is None


@pytest.mark.parametrize("line", [line for line, to in (FIRST | UNTRIED | WIRED).items() if to[:1] in "bt"])
def test_the_names_of_bits_and_tools_are_those_of_a_list(line: str) -> None:
    read = read_line(line, builtin())
    assert isinstance(read, ReadNames)
    assert [name_trouble(read.sort.value, name.partition(",")[0], builtin()) for name in read.names] == [None] * len(
        read.names
    )


def test_csv_with_titles_says_which_number_is_which() -> None:
    text = "count,thread,length,head,class\n50,M5,16,flange,8.8\n20,M6,25,button,A2-70\n"
    assert [said(read) for read in read_lines(text, builtin())] == [
        "50 screw M5 x 16 mm, ISO 15071, 8.8", "20 screw M6 x 25 mm, ISO 7380-1, A2-70",
    ]  # fmt: skip


def test_csv_with_semicolons_and_decimal_commas() -> None:
    text = "size;kind;length;qty\nST4,2;tapping;9,5;100\n"
    found = [said(read) for read in read_lines(text, builtin())]
    assert found == ["100 screw ST4.2 x 9.5 mm, ISO 14585, case-hardened"]


def test_cells_in_any_order_without_titles() -> None:
    lines = ["M5, 50, flange, 16 mm", "flange; M5; 16 mm; 50 pcs", "50\tM5x16\tflange"]
    assert {said(read_line(line, builtin())) for line in lines} == {"50 screw M5 x 16 mm, ISO 15071, 8.8"}


@settings(deadline=None, max_examples=100)
@given(some.text(max_size=60) | some.lists(some.sampled_from(
    ["M5", "x", "16", "50", "flange", "nut", "rivet", "bit", "ST4.2", "#8", "1/2", "mm", "ISO 7040", "hex", "washer",
     "stainless", "a handful", "drill", "1 to 9 x 0", "M", "star", "T20", ",", "(", "socket", "clip", "penny"]),
    max_size=7).map(" ".join))  # fmt: skip
def test_whatever_is_written_every_line_comes_to_something(text: str) -> None:
    lines = [line for line in text.splitlines() if line.strip(" \t,;|")]
    reads = read_lines(text, builtin())
    assert len(reads) in (len(lines), len(lines) - 1)
    for read in reads:
        assert not isinstance(read, Asked) or read.question.endswith("?")
        assert not isinstance(read, ReadPart) or read.entry.count > 0


def test_every_part_of_cable_is_read_as_a_list_writes_it() -> None:
    lines = {kind.line for kind in end_kinds.ALL}
    parts = [part for part in stock(builtin()).parts.values() if part.kind in lines]
    assert len(parts) > 100
    for part in parts:
        read = read_line(f"3 {part_text(part)}", builtin())
        assert isinstance(read, ReadPart), part
        assert (read.entry.part, read.entry.count, read.assumed) == (part, 3, ())


def test_a_size_of_which_it_is_not_said_what_it_is_of_is_shown() -> None:
    read = read_line("18 AWG blue cable 2.6 mm", builtin())
    assert isinstance(read, ReadNames)
    assert any("not read: 2.6 mm" in note for note in read.assumed)
    measured = read_line("18 AWG blue cable 2.6 mm outside", builtin())
    assert isinstance(measured, ReadNames)
    assert not any("not read" in note for note in measured.assumed)
