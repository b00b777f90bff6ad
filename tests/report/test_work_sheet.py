"""The work sheet on paper: what is loud, what is blank, what is escaped, and that no text of a user does anything."""

import csv
import json
import re
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from io import StringIO
from xml.etree import ElementTree as ET

import pytest
from built.few import few
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choices
from fasten.job.words import Job, Mount, Visit
from fasten.job.work import WorkEntry, WorkSheet, work_sheet
from fasten.report.forms.document import Section
from fasten.report.forms.written import FORMATS, written
from fasten.report.job.work import BLANK, work_document
from fasten.report.job.work_json import work_json

NASTY = "<script>alert(1)</script>&\"'|`*_[x](y)]]>-->{{=1+1}}\x1b[2J\u202e"
AMP = (
    ("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("behind", "40mm"), ("edge", "30mm"),
    ("support", "firm"),
)  # fmt: skip
BOX = (
    ("item", "enclosure"), ("onto", "steel floor"), ("removed", "yearly"), ("behind", "60mm"), ("edge", "50mm"),
    ("reach", "both-sides"), ("support", "frame"),
)  # fmt: skip
TRIM = (
    ("item", "trim panel"), ("onto", "steel 0.8 mm"), ("removed", "weekly"), ("mass", "0.4kg"), ("edge", "40mm"),
    ("panel", "side"),
)  # fmt: skip
BUILT = Visit("2026-05-02", "7.7 mm", "M5 x 20, one washer more", "1.5 N·m", "third one turned, renewed")
JOB = Job(
    "Estate", "blue estate", "invented",
    (
        Mount("amp", AMP, "under the seat", visits=(BUILT,)),
        Mount("box", BOX),
        Mount("open amp", AMP[:3]),
        Mount("bad", (("item", "enclosure"), ("onto", "abs 2 mm"), ("removed", "weekly"))),
        Mount("trim", TRIM),
    ),
)  # fmt: skip


@cache
def sheet() -> WorkSheet:
    return work_sheet(JOB, choices(JOB, builtin()), None, builtin())


def page(format_: str, width: int = 80, of: WorkSheet | None = None) -> str:
    return written(work_document(of or sheet(), width), format_, width)


def sections(name: str) -> list[Section]:
    """The sections of one mount point, its own heading first."""
    found: list[Section] = []
    for section in work_document(sheet(), 80).sections:
        if section.page:
            found = found if found and found[0].heading.endswith(f": {name}") else []
        if found or section.heading.endswith(f": {name}"):
            found.append(section)
    return found[: next((n for n, s in enumerate(found) if n and s.page), len(found))]


def section(name: str, start: str) -> Section:
    return next(found for found in sections(name) if found.heading.startswith(start))


# -- what stands where ------------------------------------------------------------------------------------------------


def test_a_mount_point_has_its_parts_section_torque_steps_cautions_and_line_to_fill_in() -> None:
    assert [found.heading for found in sections("box")] == [
        "2 of 5: box", "M8 through bolt and prevailing-torque nut", "Section to scale", "Torque", "Steps", "Cautions",
        "As built, to be filled in",
    ]  # fmt: skip


def test_a_mass_that_was_not_given_is_marked_as_assumed() -> None:
    assert " kg assumed, on" in sections("box")[0].notes[0]
    assert "0.4 kg, on" in sections("trim")[0].notes[0]


def test_the_first_of_the_sheet_is_the_battery_and_the_last_its_labels() -> None:
    headings = [found.heading for found in work_document(sheet(), 80).sections]
    assert headings[:2] == ["Before everything", "Cautions for all of it"]
    assert headings[-2:] == ["After everything", "Bag labels"]
    assert work_document(sheet(), 80).sections[0].notes[0].startswith("□ Battery off")


def test_tools_stand_once_with_their_sizes_and_where_they_go() -> None:
    found = [entry for entry in work_document(sheet(), 80).sections if entry.heading == "Setting tools"]
    assert len(found) == 1
    assert ("Rivet-nut mandrel M5", "", "amp, open amp") in found[0].rows


def test_the_torque_window_is_rounded_to_the_safe_side() -> None:
    mount = next(found for found in sheet().entries if found.name == "amp")
    assert isinstance(mount.source, Choice)
    assert mount.source.answer is not None
    torque = mount.source.answer.proposal.torque
    assert torque is not None
    target, least, most = (
        float(text) for text in re.findall(r"([0-9.]+) N·m", " ".join(section("amp", "Torque").notes))
    )
    assert target <= torque.target_nm < target + 0.01
    assert most <= torque.max_nm < most + 0.01
    assert least - 0.01 < torque.min_nm <= least
    assert torque.limited_by in " ".join(section("amp", "Torque").notes)


def test_what_a_locking_nut_takes_comes_on_top_of_the_torque() -> None:
    """A prevailing torque turns no preload into the joint: the target is over it."""
    assert any("what the nut takes to turn" in note for note in section("box", "Torque").notes)
    assert not any("what the nut takes" in note for note in section("amp", "Torque").notes)
    rows = {row[0]: row[-1] for row in work_document(sheet(), 80).sections[-1].rows}
    assert rows["box"].endswith("over what the nut takes to turn")
    assert "over" not in rows["amp"]


def test_a_joint_without_a_torque_says_so() -> None:
    assert section("trim", "Torque").notes == ("No figure: as the steps say, by feel or until it is set.",)


def test_what_is_not_proven_says_first_and_loudly_what_to_measure() -> None:
    _, first, *_ = sections("open amp")
    assert (first.heading, first.loud) == ("Not proven: measure first", True)
    assert any(re.fullmatch(r"[0-9.]+ mm behind", note) for note in first.notes)
    assert not any(found.loud for found in sections("box"))
    assert "NOT PROVEN at open amp: measure first" in page("text")


def test_where_nothing_fits_the_reason_stands_loudly_in_place_of_steps() -> None:
    headings = [found.heading for found in sections("bad")]
    assert headings == ["4 of 5: bad", "Nothing fits: do not drill here", "What was refused, and why"]
    loud, refused = sections("bad")[1:]
    assert loud.loud
    assert loud.notes[0].startswith("Came nearest: ")
    mount = next(found for found in sheet().entries if found.name == "bad").source
    assert isinstance(mount, Choice)
    told = " ".join(refused.notes)
    assert all(refusal.title.casefold() in told.casefold() for refusal in mount.refusals)
    assert all(refusal.because in told for refusal in mount.refusals)
    assert "NOTHING FITS at bad: drill nothing there." in page("text")


def test_what_is_in_there_stands_before_the_work_and_a_new_line_after_it() -> None:
    found = sections("amp")
    assert (found[1].heading, found[1].loud) == ("As built on 2026-05-02: what is in there now", True)
    assert found[1].notes == (
        "Size of the hole: 7.7 mm", "Hardware: M5 x 20, one washer more", "Torque: 1.5 N·m",
        "Note: third one turned, renewed", "Verdict: holds",
    )  # fmt: skip
    for name in ("amp", "box"):
        [blanks] = section(name, "As built, to be filled in").notes
        for label in ("Size of the hole", "Hardware", "Torque", "Date"):
            assert f"{label}:{BLANK}" in blanks


def test_what_was_not_written_down_is_not_made_up() -> None:
    mount = replace(sheet().entries[0], built=Visit("", "", "", "", ""))
    text = page("text", of=replace(sheet(), entries=(mount,)))
    assert "nothing was written down" in text


def test_a_label_names_the_bag_the_vehicle_the_parts_the_bit_and_the_torque() -> None:
    labels = work_document(sheet(), 80).sections[-1]
    assert labels.cards
    rows = {row[0]: dict(zip([column.title for column in labels.columns], row, strict=True)) for row in labels.rows}
    assert set(rows) == {"amp", "box", "open amp", "trim"}, "nothing goes into the bag of what does not fit"
    amp = rows["amp"]
    assert amp["For"] == "blue estate, bag A, 1 of 5"
    assert amp["In it"].startswith("4 x screw M5 x 16 mm, ISO 15071, 8.8 (hexagon flange head); 4 x rivet nut M5")
    assert amp["Bit"] == "7.6 mm"
    assert re.fullmatch(r"[0-9.]+ N·m", amp["Torque"])
    assert rows["trim"]["Bit"] == "none"
    assert "hook-and-loop" in rows["trim"]["In it"]


# -- text -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [44, 80, 120])
def test_no_line_is_wider_than_asked_and_no_blank_is_broken(width: int) -> None:
    lines = page("text", width).splitlines()
    assert max(map(len, lines)) <= width
    assert sum(line.count(BLANK) for line in lines) == 4 * 4
    assert "█" in "".join(lines), "the section is drawn"


def test_steps_are_numbered_in_every_format() -> None:
    first = section("amp", "Steps").notes[0]
    start = first.split(":")[0]
    assert f"1.  {start}" in page("text")
    assert f"\n1. {start}" in page("md")
    assert f"<ol><li>{start}" in page("html")
    cells = csv.DictReader(StringIO(page("csv")))
    assert ("1", first) in {(row["What"], row["Note"]) for row in cells}


# -- HTML -------------------------------------------------------------------------------------------------------------


class Reader(HTMLParser):
    """Collects tags with their attributes, and text."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(text: str) -> Reader:
    reader = Reader()
    reader.feed(text)
    return reader


def test_html_needs_nothing_from_elsewhere_and_runs_nothing() -> None:
    text = page("html")
    assert not re.search(r"(src|href)=|@import|<script|\bon[a-z]+=", text)
    assert set(re.findall(r"https?://[^\"' ]+", text)) == {"http://www.w3.org/2000/svg"}
    assert set(re.findall(r"url\((.)", text)) <= {"#"}


def test_each_mount_point_begins_a_page_and_has_its_drawing() -> None:
    tags = read(page("html")).tags
    assert sum(attrs.get("class") == "page" for tag, attrs in tags if tag == "h2") == len(JOB.mounts) + 1
    assert sum(tag == "svg" for tag, _ in tags) == 4
    assert "break-before:page" in page("html")


def test_no_two_parts_of_the_page_have_one_id() -> None:
    """Two mount points with the same joint each have a drawing with hatches of its own."""
    twice = replace(JOB, mounts=(JOB.mounts[0], replace(JOB.mounts[0], name="amp two")))
    text = page("html", of=work_sheet(twice, choices(twice, builtin()), None, builtin()))
    ids = [attrs["id"] for _, attrs in read(text).tags if "id" in attrs]
    assert ids
    assert len(ids) == len(set(ids))


def test_the_drawings_are_svg_of_their_own() -> None:
    for drawing in re.findall(r"<svg.*?</svg>", page("html"), re.DOTALL):
        assert ET.fromstring(drawing).attrib["viewBox"]


def test_labels_are_cards_to_cut_out() -> None:
    assert sum(attrs.get("class") == "card" for _, attrs in read(page("html")).tags) == 4
    assert "1px dashed" in page("html")


# -- what users write -------------------------------------------------------------------------------------------------


def written_by(text: str) -> WorkSheet:
    """The sheet with this text wherever a user can write one."""

    def entry(found: WorkEntry) -> WorkEntry:
        return replace(found, name=text, note=text, built=Visit(text, text, text, text, text))

    box = replace(sheet().box, title=text, vehicle=text)
    entries = tuple(map(entry, sheet().entries))
    return replace(sheet(), title=text, vehicle=text, note=text, entries=entries, box=box)


@pytest.mark.slow
@settings(max_examples=few(25, 10), deadline=None)
@given(st.text(max_size=40))
def test_no_text_becomes_a_tag(text: str) -> None:
    plain, nasty = (read(page("html", of=written_by(words))) for words in ("plain", f"x{text}{NASTY}"))
    assert [(tag, set(attrs)) for tag, attrs in nasty.tags] == [(tag, set(attrs)) for tag, attrs in plain.tags]
    assert all("<script>" not in str(value) for _, attrs in nasty.tags for value in attrs.values())


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.sampled_from("=+-@\t＝＠−"), st.text(max_size=40))
def test_no_cell_begins_a_formula(begins: str, text: str) -> None:
    for row in csv.reader(StringIO(page("csv", of=written_by(begins + text)))):
        for cell in row:
            assert cell.strip()[:1] not in set("=+-@＝＋－＠−") or not cell.strip()


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.text(max_size=200))
def test_no_text_of_a_user_makes_a_line_too_wide(text: str) -> None:
    assert all(len(line) <= 44 for line in page("text", 44, written_by(text)).splitlines())


@pytest.mark.parametrize("format_", FORMATS)
def test_no_control_character_gets_through(format_: str) -> None:
    text = page(format_, of=written_by(NASTY))
    assert not re.search("[\x00-\x09\x0b\x0c\x0e-\x1f\x7f\u202a-\u202e\u2028\u2029]", text)


# -- JSON -------------------------------------------------------------------------------------------------------------


def test_json_has_the_answer_as_pick_tells_it_and_null_where_nothing_fits() -> None:
    data = json.loads(json.dumps(work_json(sheet()), allow_nan=False))
    assert data["format"] == 1
    assert list(data) == [
        "format", "title", "vehicle", "note", "first", "cautions", "bits", "tools", "consumables", "mounts", "last",
        "first_ticked", "last_ticked", "measuring",
    ]  # fmt: skip
    amp, _, open_, bad, _ = data["mounts"]
    assert list(amp) == [
        "name", "note", "item", "fixings", "answer", "measure_first", "reason", "refusals", "steps", "cautions",
        "built", "bag", "ticked", "verdict",
    ]  # fmt: skip
    assert amp["answer"]["hole"]["diameter_mm"] == 7.6
    assert amp["built"]["hole"] == "7.7 mm"
    assert amp["measure_first"] == []
    assert any(need.endswith("mm behind") for need in open_["measure_first"])
    assert (bad["answer"], bad["steps"], bad["bag"]) == (None, [], [])
    assert bad["reason"]
    assert bad["refusals"]
