"""The one look-up box: what each text is read as, what the entries say, and the shape of their JSON."""

import json
import re
from typing import Any

import pytest

from fasten.__main__ import main
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.look import look
from fasten.report.look_text import WIDTH, look_text
from fasten.report.plain import to_json

NEWTONS_PER_LBF = 4.4482216152605


def found(text: str) -> list[dict[str, Any]]:
    """The entries of a look-up as a script would read them."""
    entries = json.loads(to_json(look(text, builtin())))["found"]
    assert isinstance(entries, list)
    return entries


def only(text: str) -> dict[str, Any]:
    entries = found(text)
    assert len(entries) == 1, [entry["kind"] for entry in entries]
    return entries[0]


def kinds(text: str) -> list[tuple[str, str]]:
    """Kind and name of each entry."""
    names = ("designation", "name", "class", "number", "length_mm")
    return [(entry["kind"], str(next(entry[name] for name in names if name in entry))) for entry in found(text)]


def test_m6() -> None:
    """ISO 261, ISO 965-2, ISO 898-1, ISO 2306 and ISO 273 as printed."""
    entry = only("M6")
    assert (entry["kind"], entry["designation"], entry["pitch_mm"]) == ("thread", "M6", 1.0)
    assert entry["internal"]["class"] == "6H"
    assert entry["internal"]["minor_mm"] == {"min": 4.917, "max": 5.153}
    assert entry["internal"]["pitch_mm"] == {"min": 5.350, "max": 5.500}
    assert entry["external"]["major_mm"] == {"min": 5.794, "max": 5.974}
    assert entry["stress_area_mm2"] == 20.1
    assert entry["tap_drill"]["diameter_mm"] == 5.0
    assert entry["tap_drill"]["thread_percent"] == pytest.approx(77.0, abs=0.05)
    assert "1.299038" in entry["tap_drill"]["percent_basis"]
    assert [hole["diameter_mm"] for hole in entry["clearance"]] == [6.4, 6.6, 7.0]
    assert {load["class"]: load["load_n"] for load in entry["proof_loads"]}["8.8"] == 11600
    assert entry["pitch_in"] is None
    assert entry["notes"] == []


def test_inch_threads() -> None:
    """ASME B1.1 limits, tap drills of printed charts, and the load SAE J429 prints: 1/4-20 grade 5 at 2700 lbf."""
    ten = only("#10-32")
    assert ten["internal"]["minor_in"] == {"min": 0.156, "max": 0.164}
    assert ten["internal"]["minor_mm"]["max"] == pytest.approx(0.164 * 25.4)
    assert ten["tap_drill"]["name"] == "#21"
    assert only("5/16-18")["tap_drill"]["name"] == "F"
    quarter = only("1/4-20")
    loads = {load["class"]: load for load in quarter["proof_loads"]}
    assert loads["grade 5"]["load_lbf"] == 2700
    assert loads["grade 5"]["load_n"] == pytest.approx(2700 * NEWTONS_PER_LBF)


def test_m12_clearance() -> None:
    """ISO 273; open data files err here and give 14 for the medium fit."""
    assert [hole["diameter_mm"] for hole in only("M12")["clearance"]] == [13.0, 13.5, 14.5]


def test_fine_thread_has_calculated_loads_and_says_so() -> None:
    """M8x1 of class 8.8: 39.2 mm² at 580 MPa; ISO 898-1 table 3 and the printed area."""
    entry = only("M8x1")
    assert {load["class"]: load["load_n"] for load in entry["proof_loads"]}["8.8"] == pytest.approx(39.2 * 580)
    assert "stress area times proof stress" in entry["notes"][0]


def test_number_eight_is_four_things() -> None:
    wanted = [("thread", "#8-32"), ("thread", "#8-36"), ("tapping_thread", "ST4.2"), ("bit", "#8")]
    for text in ("#8", "no8", "No. 8", "number 8"):
        assert kinds(text) == wanted
    assert kinds("drill #8") == [("bit", "#8")]
    assert kinds("#8 screw") == wanted[:3]


def test_no_grade_below_a_quarter_inch() -> None:
    """SAE J429 begins at 1/4 in."""
    assert "no grade below 1/4 in" in only("#10-32")["notes"][0]
    assert only("#10-32")["proof_loads"] == []
    asked = found("grade 5 #10")
    assert [entry["kind"] for entry in asked] == ["thread", "thread", "tapping_thread", "bit", "grade"]
    assert "no grade 5 for #10-24, #10-32" in asked[-1]["notes"][0]
    assert found("grade 5 1/4-20")[-1]["notes"] == []


def test_gauge_in_every_metal() -> None:
    """22 ga as printed: 0.0299, 0.0336, 0.0313 and 0.0253 in."""
    thickness = {item["material"]: item for item in only("22 ga")["thickness"]}
    printed = {"steel": 0.0299, "galvanised_steel": 0.0336, "stainless_steel": 0.0313, "aluminium": 0.0253}
    assert {name: item["thickness_in"] for name, item in thickness.items()} == printed
    assert thickness["steel"]["thickness_mm"] == pytest.approx(0.0299 * 25.4)


def test_gauge_of_one_metal() -> None:
    """20 ga steel is printed as 0.0359 in; galvanised has no 7 ga, and the entry says so."""
    assert [item["thickness_in"] for item in only("20 gauge steel")["thickness"]] == [0.0359]
    assert "no gauge 7 is printed for galvanised steel" in only("7 ga")["notes"]


def test_bit_taps_clears_and_pilots() -> None:
    """5.1 mm lies in the 6H minor diameter of M6 (to 5.153) and the 2B of 1/4-20, whose chart drill is #7."""
    bit = found("5.1 mm")[0]
    assert (bit["kind"], bit["name"], bit["diameter_mm"]) == ("bit", "5.1 mm", 5.1)
    assert {tap["thread"]: tap["listed_drill"] for tap in bit["taps"]} == {"M6": "5 mm", "1/4-20": "#7"}
    assert {clear["size"]: clear["fit"] for clear in bit["clears"]} == {"M4.5": "medium", "#8": "normal"}
    assert bit["pilots"] == []
    near = {other["name"]: other["deviation_mm"] for other in bit["neighbours"]}
    assert near["#7"] == pytest.approx(0.0054)
    assert {"5 mm", "5.2 mm", "#8", "13/64"} < set(near)


def test_bit_pilots_by_sheet() -> None:
    """DIN 7975 prints 3.2 mm for ST4.2 in 1.5 mm sheet of 300 MPa."""
    pilots = found("3.2 mm")[0]["pilots"]
    wanted = [p for p in pilots if p["size"] == "ST4.2" and p["material"] == "sheet_300_mpa"]
    assert [(p["sheet_mm"]["min"] <= 1.5 <= p["sheet_mm"]["max"], p["hole_mm"]) for p in wanted] == [(True, 3.2)]


def test_quarter_inch_is_a_bit_and_two_threads() -> None:
    assert kinds("1/4") == [("thread", "1/4-20"), ("thread", "1/4-28"), ("bit", "1/4")]
    assert kinds("1/4in") == [*kinds("1/4"), ("length", "6.35")]
    assert kinds("F") == kinds("f") == [("bit", "F")]
    assert kinds("9/64") == [("bit", "9/64")]
    assert kinds("#21") == [("bit", "#21")]


def test_length_as_sheet() -> None:
    """0.8 mm: 0.836 is 21 ga steel (0.0329 in printed), 0.795 is 22 ga stainless (0.0313 in printed)."""
    bit, length = found("0.8 mm")
    assert bit["name"] == "0.8 mm"
    gauges = {near["material"]: near["number"] for near in length["gauges"]}
    assert gauges == {"steel": 21, "galvanised_steel": 23, "stainless_steel": 22, "aluminium": 20}
    holes = {(h["size"], h["material"]) for h in length["sheet_holes"] if h["table"] == "tapping-holes-thin-sheet"}
    assert ("ST4.2", "steel") in holes
    din = {h["size"] for h in length["sheet_holes"] if h["table"] == "tapping-holes-din-7975"}
    assert din == {"ST2.2"}, "every larger size has a pitch over 0.8 mm, which DIN 7975 excludes"
    assert "thinner than the screw's pitch" in length["notes"][0]


def test_length_as_a_measured_screw() -> None:
    """A caliper reads 5.9 on an M6 screw (5.794 to 5.974 in 6g) and 4.75 on #10 (down to 0.1818 in)."""
    names = {screw["designation"] for screw in found("5.9 mm")[-1]["screws"]}
    assert {"M6", "M6x0.75"} <= names
    assert {"#10-24", "#10-32", "ST4.8"} <= {screw["designation"] for screw in found("4.75 mm")[-1]["screws"]}


def test_a_length_far_from_everything_is_still_converted() -> None:
    entry = only("75 in")
    assert entry["length_mm"] == 1905.0
    assert entry["gauges"] == entry["bits"] == entry["screws"] == []


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("m6x0.75", "M6x0.75"), ("M6 x 1", "M6"), ("M6×1", "M6"), ("M6-1.0", "M6"), ("M 6", "M6"),
        ("m6x0,75", "M6x0.75"), ("M6x0.75 mm", "M6x0.75"),
        ("10-32 UNF", "#10-32"), ("#10-32", "#10-32"), ("no.10-32", "#10-32"), ("1/4 - 20", "1/4-20"),
        ("1/4 unc", "1/4-20"), ("1/4-20 UNC", "1/4-20"),
        ("ST4.2", "ST4.2"), ("st 4,2", "ST4.2"), ("st4.2x16", "ST4.2"),
    ],
)  # fmt: skip
def test_ways_to_write_a_thread(text: str, name: str) -> None:
    assert only(text)["designation"] == name


def test_a_screw_length_is_not_a_pitch() -> None:
    entry = only("M6x20")
    assert (entry["designation"], entry["notes"]) == (
        "M6",
        ["20 mm is read as the length of the screw, not as a pitch"],
    )
    assert only("M6x0.75x20")["designation"] == "M6x0.75"
    assert "3/4 in is read" in only("1/4-20x3/4")["notes"][0]
    assert "not UNC" in " ".join(only("10-32 unc")["notes"])


def test_classes() -> None:
    """ISO 898-1 table 3: 8.8 has 800, 640 and 580 MPa. ISO 3506-1 gives no proof stress."""
    entry = only("8.8")
    assert (entry["tensile_mpa"], entry["yield_mpa"], entry["proof_mpa"]) == (800, 640, 580)
    assert kinds("M6 8.8") == [("thread", "M6"), ("property_class", "8.8")]
    assert only("a2-70")["proof_mpa"] is None
    assert "no proof stress" in only("A2-70")["notes"][0]
    assert "inch screws" in found("M6 grade 5")[-1]["notes"][0]
    assert kinds("8.8 mm")[0] == ("bit", "8.8 mm")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("M6x0.8", "nearest are M6x0.75"), ("#11-32", "nearest are #10-32"), ("ST4.3", "ST4.2"),
        ("xyzzy", "write a size"), ("", "nothing to look up"), ("   ", "20 ga or grade 5"), ("6 kg", "6 kg is a mass"),
        ("20", "20 mm or 20 in"), ("-3 mm", "negative"), ("grade 3", "2, 5, 8"), ("99 ga", "7 ga to 30 ga"),
        ("M6\x1b[31m", r"m6\x1b[31m holds a control"), ("M6" * 40, "80 characters"), ("no99", "not a size"),
    ],
)  # fmt: skip
def test_what_is_not_known_is_refused_with_what_to_write(text: str, words: str) -> None:
    with pytest.raises(FastenError) as refused:
        look(text, builtin())
    assert words.lower() in str(refused.value).lower()
    assert str(refused.value).isprintable()


def shape(value: Any) -> Any:
    """Keys of nested JSON, with the first item standing for a list."""
    if isinstance(value, dict):
        return {key: shape(item) for key, item in value.items()}
    if isinstance(value, list):
        return [shape(value[0])] if value else []
    return None


SPAN = {"min": None, "max": None}
CITED = [None]


def test_shape_of_a_thread() -> None:
    """Golden: keys are only ever added."""
    entry = only("1/4-20")
    assert shape(entry) == {
        "kind": None, "from": CITED, "designation": None, "series": None,
        "pitch_mm": None, "pitch_in": None, "threads_per_in": None,
        "basic": dict.fromkeys(("major_mm", "pitch_mm", "minor_mm", "major_in", "pitch_in", "minor_in")),
        "internal": {"class": None, "minor_mm": SPAN, "pitch_mm": SPAN, "minor_in": SPAN, "pitch_in": SPAN},
        "external": {"class": None, "major_mm": SPAN, "pitch_mm": SPAN, "major_in": SPAN, "pitch_in": SPAN},
        "stress_area_mm2": None, "stress_area_in2": None,
        "tap_drill": {"from": CITED, **dict.fromkeys(
            ("name", "diameter_mm", "diameter_in", "thread_percent", "percent_basis"))},
        "clearance": [{"from": CITED, **dict.fromkeys(("fit", "name", "diameter_mm", "diameter_in"))}],
        "proof_loads": [{"from": CITED, **dict.fromkeys(("class", "load_n", "load_lbf"))}],
        "notes": [],
    }  # fmt: skip


def test_shape_of_the_other_kinds() -> None:
    """Golden: keys are only ever added."""
    hole = {"from": CITED, "sheet_mm": SPAN, **dict.fromkeys(("size", "table", "material", "made", "hole_mm"))}
    near = {"from": CITED, **dict.fromkeys(("name", "series", "diameter_mm", "diameter_in", "deviation_mm"))}
    assert shape(only("ST4.2")) == {
        "from": CITED, "holes": [hole], "notes": [None],
        "self_drilling_mm": {"from": CITED, "min": None, "max": None, "max_stainless": None},
        "clearance": {"from": CITED, "hole_mm": None}, "breaking": {"from": CITED, "torque_nm": None},
        **dict.fromkeys(("kind", "designation", "number", "major_mm", "root_mm", "pitch_mm", "threads_per_in")),
    }  # fmt: skip
    assert shape(found("4.2 mm")[0]) == {
        "kind": None, "from": CITED, "name": None, "series": None, "diameter_mm": None, "diameter_in": None,
        "taps": [{"from": CITED, "thread": None, "minor_mm": SPAN, "thread_percent": None, "percent_basis": None,
                  "listed_drill": None}],
        "clears": [{"from": CITED, **dict.fromkeys(("size", "fit", "hole_mm", "deviation_mm"))}],
        "pilots": [{"from": CITED, "sheet_mm": SPAN, **dict.fromkeys(
            ("size", "table", "material", "hole_mm", "deviation_mm"))}],
        "neighbours": [near], "notes": [],
    }  # fmt: skip
    assert shape(only("22 ga")) == {
        "kind": None, "from": [], "number": None, "notes": [None],
        "thickness": [{"from": CITED, **dict.fromkeys(("material", "thickness_mm", "thickness_in"))}],
    }  # fmt: skip
    assert shape(found("1.9 mm")[-1]) == {
        "kind": None, "from": [], "length_mm": None, "length_in": None, "notes": [],
        "gauges": [{"from": CITED, **dict.fromkeys(
            ("material", "number", "thickness_mm", "thickness_in", "deviation_mm"))}],
        "bits": [near], "sheet_holes": [hole],
        "screws": [{"from": CITED, "designation": None, "major_mm": SPAN}],
        "self_drilling": [{"from": CITED, **dict.fromkeys(("size", "min_mm", "max_mm"))}],
    }  # fmt: skip


def cited(value: Any) -> set[str]:
    """Every source id anywhere in an entry."""
    if isinstance(value, list):
        return set().union(*map(cited, value))
    if isinstance(value, dict):
        return set(value.get("from", ())) | set().union(*map(cited, value.values()))
    return set()


LOOKED_UP = ("M6", "M8x1", "#8", "1/4in", "0.8 mm", "5.1 mm", "22 ga", "grade 5 #10", "A2-70", "ST6.3", "75 in")


@pytest.mark.parametrize("text", LOOKED_UP)
def test_every_source_is_told_once(text: str) -> None:
    """What entries cite and what is listed are the same set, and every id has a basis."""
    whole = json.loads(to_json(look(text, builtin())))
    assert list(whole) == ["format", "query", "answers", "found", "notes", "sources"]
    assert (whole["format"], whole["query"]) == (1, text)
    ids = [source["id"] for source in whole["sources"]]
    assert len(ids) == len(set(ids))
    assert set(ids) == cited(whole["found"]) | cited(whole["answers"])
    assert all(source["basis"] and source["text"] for source in whole["sources"])


@pytest.mark.parametrize("text", LOOKED_UP)
def test_text_fits_a_phone(text: str) -> None:
    """44 columns, and a legend for exactly the marks that stand on the lines."""
    written = look_text(look(text, builtin()))
    assert max(map(len, written.splitlines())) <= WIDTH == 44
    *blocks, legend = written.split("\n\n")
    marks = set(re.findall(r" (\[[shpmu]\])$", "\n".join(blocks), re.MULTILINE))
    assert marks == (set(re.findall(r"\[[shpmu]\]", legend)) if blocks else set())


def test_a_line_carries_its_weakest_basis() -> None:
    """The tap drill of M6 is printed in a standard, but the percent of thread is the handbooks' way of counting."""
    lines = look_text(look("M6", builtin())).splitlines()
    marks = {line.split("  ")[1].strip(): line[-3:] for line in lines if line.startswith("  ")}
    assert marks["thread left"] == "[h]"
    assert marks["clear fine"] == "[s]"
    assert any(line.startswith("  self-drilling") and line.endswith("[m]") for line in
               look_text(look("ST4.2", builtin())).splitlines())  # fmt: skip


@pytest.mark.parametrize("text", ["", "xyzzy", "6 kg"])
def test_the_shells_quotes_are_told_on_the_command_line_alone(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    """On the screen nobody quotes what he types."""
    with pytest.raises(FastenError) as refused:
        look(text, builtin())
    assert "quotes" not in str(refused.value)
    assert '"' not in str(refused.value)
    main(["look", text])
    assert 'the shell needs quotes round "#8"' in capsys.readouterr().err


def test_a_length_says_what_each_of_its_parts_is_read_as() -> None:
    """5.1 mm: no screw measures so across; 1.5 mm: a screw of M1.6, a bit, and many a sheet."""
    thick = look_text(look("5.1 mm", builtin())).split("\n")
    at = thick.index("5.1 mm as a length, 0.2008 in")
    heads = [line for line in thick[at:] if line.startswith("read as")]
    assert heads == ["read as a hole:", "read as a sheet, this thick:"]
    sheet = thick[thick.index("read as a sheet, this thick:") + 1]
    assert sheet.startswith("  ST5.5 drills")
    thin = look_text(look("1.5 mm", builtin()))
    assert "as a length, 0.0591 in\nread as a screw, across its thread:\n" in thin
    assert "ISO 898-1 class 8.8" in look_text(look("8.8", builtin()))
    assert "\nread as" not in look_text(look("9 m", builtin())), "there is nothing so long"


# -- cable and its terminals -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "kind", "facts"),
    [
        ("4 AWG", "cable_size", {"at 105 °C": "160 A in free air, row 4 AWG", "crimp holds": "623 N"}),
        ("1/0", "cable_size", {"wire-end sleeve": "50 mm², blue, 10.9 mm outside"}),
        ("1/0awg", "cable_size", {"wire-end sleeve": "50 mm², blue, 10.9 mm outside"}),
        (
            "25 mm2",
            "cable_size",
            {"at 105 °C": "145 A in free air, row metric 25 mm²", "at 75 °C": "125 A in free air, row 4 AWG"},
        ),
        ("25 mm²", "cable_size", {"lug": "barrel 20 mm, for M6, M8, M10"}),
        ("60 A", "fuse_rating", {"thinnest cable": "10 AWG, 60 A at 105 °C in free air"}),
        ("6.3 tab", "tab", {"6.3x0.8": "cable 0.3 to 6 mm²"}),
        ("M8 ring", "ring_lug", {"lug 2 AWG": "barrel 16 mm", "tube lug to 35 mm²": "palm 17 mm"}),
        ("M8 ring", "ring_lug", {"blue insulated ring": "cable to 2.5 mm²"}),
        ("1.5 mm2", "cable_size", {"insulated ring": "blue, for M4, M5, M6, M8, strip 7 mm"}),
        ("10 mm grommet", "grommet", {"10 mm inside": "hole 14 mm", "7 mm inside": "hole 10 mm"}),
        ("225 A", "fuse_rating", {"thinnest cable": "1/0 AWG, 285 A at 105 °C in free air"}),
        (
            "1/2 shrink",
            "heat_shrink",
            {
                "19/6 mm, 3:1": "over 7.06 to 17.1 mm",
                "1/2 in, 2:1, thin wall": "12.7 mm inside, 6.4 mm once shrunk; no adhesive",
            },
        ),
        ("19/6 shrink", "heat_shrink", {"19/6 mm, 3:1": "over 7.06 to 17.1 mm"}),
    ],
)
def test_cable_and_its_terminals_are_looked_up(text: str, kind: str, facts: dict[str, str]) -> None:
    entry = only(text)
    assert entry["kind"] == kind
    known = {fact["what"]: fact["text"] for fact in entry["facts"]}
    assert known | facts == known
    shown = look_text(look(text, builtin()), WIDTH)
    assert entry["name"] in shown
    assert all(len(line) <= WIDTH for line in shown.splitlines())


@pytest.mark.parametrize("text", ["40 AWG", "7 mm2 ring", "M7 ring", "99 mm grommet", "12.5 tab", "1/0 shrink"])
def test_what_no_table_of_cable_has_is_refused(text: str) -> None:
    with pytest.raises(FastenError):
        look(text, builtin())
