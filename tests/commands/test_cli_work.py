"""`fasten work` and `fasten template` as a whole: what is printed, what is written where, and how they end."""

import json
import re
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from fasten.__main__ import DONE, MISUSE, NO_FIT, main
from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.geometry.patterns import rectangle
from fasten.job.pins import pin_of
from fasten.job.store.storage import save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf, Visit
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

SVG = "{http://www.w3.org/2000/svg}"
AMP = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "pattern": "rectangle 240x180", "fixings": "4",
    "behind": "40mm", "edge": "30mm",
}  # fmt: skip
ROW = AMP | {"pattern": "row 100 mm", "fixings": "3", "edge": "25.5 mm"}
TRIM = {"item": "trim panel", "onto": "steel 0.8 mm", "removed": "weekly", "mass": "0.4kg"}
UNFIT = {"item": "enclosure", "onto": "abs 2 mm", "removed": "weekly"}
Text = pytest.CaptureFixture[str]


def mount(name: str, said: dict[str, str], built: Visit | None = None) -> Mount:
    return Mount(name, tuple(said.items()), visits=(built,) if built else ())


@pytest.fixture
def saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An invented job with what fits, what is held by its face, and what nothing fits; its name tries to leave."""
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "none"))
    monkeypatch.setenv("COLUMNS", "80")
    built = Visit("2026-05-02", "7.7 mm", "M5 x 20", "1.5 N·m", "")
    mounts = (
        mount("Left amp", AMP, built), mount("../../row", ROW), mount("trim", TRIM), mount("bad", UNFIT),
    )  # fmt: skip
    path = tmp_path / "job.toml"
    save_job(Job("../../etc/estate", "blue estate", "", mounts), path)
    return path


def drawing(path: Path, name: str, text: Text) -> ET.Element:
    assert main(["template", str(path), name]) == DONE
    return ET.fromstring(text.readouterr().out)


# -- work -------------------------------------------------------------------------------------------------------------


def test_the_whole_sheet_ends_with_1_where_nothing_fits_somewhere(saved: Path, capsys: Text) -> None:
    assert main(["work", str(saved)]) == DONE
    told = capsys.readouterr()
    assert told.err == ""
    assert told.out.startswith("Work sheet: ../../etc/estate\nblue estate, 4 mount points.\n")
    for heading in ("1 OF 4: LEFT AMP", "3 OF 4: TRIM", "NOTHING FITS: DO NOT DRILL HERE", "BAG LABELS"):
        assert heading in told.out
    assert "AS BUILT ON 2026-05-02: WHAT IS IN THERE NOW" in told.out


def test_named_mount_points_alone_in_the_order_named_whatever_their_case(saved: Path, capsys: Text) -> None:
    assert main(["work", str(saved), "TRIM", "left  amp", "trim"]) == DONE
    out = capsys.readouterr().out
    assert re.findall(r"^(\d OF \d: .*)$", out, re.MULTILINE) == ["1 OF 2: TRIM", "2 OF 2: LEFT AMP"]


def test_a_mount_point_that_is_not_there_is_misuse(saved: Path, capsys: Text) -> None:
    assert main(["work", str(saved), "lefd amp"]) == MISUSE
    assert "the job has no mount point 'lefd amp'; did you mean 'Left amp'?" in capsys.readouterr().err


@pytest.mark.parametrize("width", ["44", "80", "120"])
def test_it_is_as_wide_as_the_terminal(saved: Path, capsys: Text, monkeypatch: pytest.MonkeyPatch, width: str) -> None:
    monkeypatch.setenv("COLUMNS", width)
    main(["work", str(saved)])
    lines = capsys.readouterr().out.splitlines()
    assert max(map(len, lines)) <= int(width)
    assert "=" * int(width) in lines


@pytest.mark.parametrize(
    ("options", "ending"),
    [
        ((), ".txt"), (("--format", "csv"), ".csv"), (("--format", "md"), ".md"), (("--format", "html"), ".html"),
        (("--json",), ".json"),
    ],
)  # fmt: skip
def test_a_title_cannot_lead_out_of_the_folder(
    saved: Path, tmp_path: Path, options: tuple[str, ...], ending: str
) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    assert main(["work", str(saved), "left amp", *options, "--out", str(folder)]) == DONE
    assert [path.name for path in folder.iterdir()] == [f"etc-estate-work{ending}"]
    assert "Left amp" in (folder / f"etc-estate-work{ending}").read_text(encoding="utf-8-sig")


def test_a_file_that_is_there_is_replaced_only_when_told(saved: Path, tmp_path: Path, capsys: Text) -> None:
    out = tmp_path / "sheet.html"
    out.write_text("mine")
    assert main(["work", str(saved), "left amp", "--format", "html", "--out", str(out)]) == MISUSE
    assert (out.read_text(), "nothing was written" in capsys.readouterr().err) == ("mine", True)
    assert main(["work", str(saved), "left amp", "--format", "html", "--out", str(out), "--force"]) == DONE
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_json_is_of_format_1(saved: Path, capsys: Text) -> None:
    assert main(["work", str(saved), "--json"]) == DONE
    data = json.loads(capsys.readouterr().out)
    assert data["format"] == 1
    assert [found["name"] for found in data["mounts"]] == ["Left amp", "../../row", "trim", "bad"]


def test_the_shelf_says_which_tools_are_there(saved: Path, tmp_path: Path, capsys: Text) -> None:
    shelf = tmp_path / "shelf.toml"
    save_shelf(Shelf("van", "", "", (), ("7.6 mm",), ("eye protection",), ()), shelf)
    assert main(["work", str(saved), "left amp", "--shelf", str(shelf)]) == DONE
    out = capsys.readouterr().out
    assert re.search(r"^Eye protection +yes", out, re.MULTILINE)
    assert re.search(r"^Trim tools +no", out, re.MULTILINE)


def test_a_name_with_a_joiner_is_found_and_shown_as_it_is_kept(tmp_path: Path, capsys: Text) -> None:
    """Scripts and joined emoji need them; a name that differs by one alone would look the same, so it is the same."""
    named = "می\u200cروم"
    path = tmp_path / "job.toml"
    save_job(Job("", "", "", (mount(named, AMP),)), path)
    assert main(["work", str(path), "میروم"]) == DONE
    assert named in capsys.readouterr().out


def test_a_joiner_in_a_word_or_a_size_is_read_over_in_every_place(tmp_path: Path, capsys: Text) -> None:
    """It is kept where a person wrote it, so wherever a text is read it must not tell two words apart."""
    path, shelf = tmp_path / "job.toml", tmp_path / "shelf.toml"
    said = ["ampli\u200dfier", "--onto", "ste\u200cel 0.8\u200d mm", "--removed", "year\u200dly"]
    assert main(["pick", *said, "--into-job", str(path), "--name", "a"]) == DONE
    assert "ampli\u200dfier" in path.read_text(encoding="utf-8")
    save_shelf(Shelf("van", "", "", (), ("7.\u200d6 mm",), ("eye pro\u200ctection",), ()), shelf)
    capsys.readouterr()
    assert main(["work", str(path), "\u200da", "--shelf", str(shelf)]) == DONE
    printed = capsys.readouterr()
    assert re.search(r"^Eye protection +yes", printed.out, re.MULTILINE)
    assert re.search(r"^7\.6 mm +yes", printed.out, re.MULTILINE)
    assert printed.err == "", "no line of the shelf matches nothing"
    assert main(["look", "M\u200c6", "--json"]) == DONE
    assert json.loads(capsys.readouterr().out)["found"][0]["designation"] == "M6"


@pytest.mark.parametrize(("form", "begins"), [("html", "<!DOCTYPE html>"), ("dxf", "  0"), ("svg", "<svg")])
def test_a_template_comes_in_the_form_that_is_asked_for(saved: Path, form: str, begins: str) -> None:
    out = saved.parent / f"row.{form}"
    assert main(["template", str(saved), "../../row", "--format", form, "--out", str(out)]) == DONE
    assert out.read_text(encoding="utf-8").startswith(begins)


def test_the_work_sheet_is_two_pages_and_gauges_and_with_pages_or_names_one_for_each(saved: Path, capsys: Text) -> None:
    main(["work", str(saved), "--format", "html"])
    out = capsys.readouterr().out
    assert out.count("<section>") == 3
    assert "measure first" in out.split("<section>")[3], "gauges are cut for it"
    main(["work", str(saved), "--format", "html", "--pages"])
    assert "As built, to be filled in" in capsys.readouterr().out


# -- template ---------------------------------------------------------------------------------------------------------


def test_a_template_has_its_centres_where_the_pattern_has_them(saved: Path, capsys: Text) -> None:
    """Four corners of 240 x 180 mm, up to where the sheet's middle is laid; within 0.01 mm."""
    root = drawing(saved, "left amp", capsys)
    holes = [element for element in root.iter(f"{SVG}circle") if "data-hole" in element.attrib]
    wanted = rectangle(4, 240, 180)
    assert len(holes) == len(wanted) == 4
    x0, y0 = (float(holes[0].attrib[key]) for key in ("cx", "cy"))
    for hole, (x, y) in zip(holes, wanted, strict=True):
        assert abs(float(hole.attrib["cx"]) - x0 - (x - wanted[0][0])) < 0.01
        assert abs(y0 - float(hole.attrib["cy"]) - (y - wanted[0][1])) < 0.01
        assert abs(2 * float(hole.attrib["r"]) - 7.6) < 0.01


def test_a_template_is_in_mm_at_1_to_1_with_50_mm_to_measure(saved: Path, capsys: Text) -> None:
    root = drawing(saved, "left amp", capsys)
    width, height = (root.attrib[key] for key in ("width", "height"))
    assert root.attrib["viewBox"] == f"0 0 {width.removesuffix('mm')} {height.removesuffix('mm')}"
    assert width.endswith("mm")
    assert height.endswith("mm")
    [scale] = [element for element in root.iter(f"{SVG}line") if "data-scale" in element.attrib]
    assert float(scale.attrib["x2"]) - float(scale.attrib["x1"]) == pytest.approx(50.0, abs=0.005)
    assert scale.attrib["y1"] == scale.attrib["y2"]


def test_a_template_draws_the_edge_where_it_was_told(saved: Path, capsys: Text) -> None:
    """Three in a row, 25.5 mm from the edge."""
    root = drawing(saved, "../../row", capsys)
    [edge] = [element for element in root.iter(f"{SVG}line") if element.attrib.get("data-line") == "edge"]
    lowest = max(float(element.attrib["cy"]) for element in root.iter(f"{SVG}circle") if "data-hole" in element.attrib)
    assert abs(float(edge.attrib["y1"]) - lowest - 25.5) < 0.01


def test_a_template_goes_to_a_file_in_the_folder_whatever_its_mount_point_is_called(
    saved: Path, tmp_path: Path, capsys: Text
) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    assert main(["template", str(saved), "../../row", "--out", str(folder)]) == DONE
    assert capsys.readouterr().out == ""
    assert [path.name for path in folder.iterdir()] == ["row-template.svg"]
    assert ET.parse(folder / "row-template.svg").getroot().tag == f"{SVG}svg"


def test_names_that_map_to_one_file_have_a_template_each(saved: Path, tmp_path: Path) -> None:
    """Neither takes the place of the other, --force or not; a name that shares with none keeps its plain file."""
    named = Job("", "", "", tuple(mount(name, AMP) for name in ("a/b", "a|b", "A:B 2")))
    save_job(named, tmp_path / "alike.toml")
    folder = tmp_path / "out"
    folder.mkdir()
    for name in ("a/b", "a|b", "A:B 2"):
        assert main(["template", str(tmp_path / "alike.toml"), name, "--out", str(folder), "--force"]) == DONE
    titles = {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}
    assert len(titles) == 3
    assert "A-B-2-template.svg" in titles
    for name in ("a/b", "a|b"):
        assert sum(name in drawn for drawn in titles.values()) == 1


def test_what_holds_by_its_face_has_no_template(saved: Path, capsys: Text) -> None:
    assert main(["template", str(saved), "trim"]) == MISUSE
    told = capsys.readouterr()
    assert told.out == ""
    assert "no hole is drilled at 'trim', so there is no template: hook-and-loop" in told.err


def test_what_nothing_fits_has_no_template_and_says_why(saved: Path, capsys: Text) -> None:
    assert main(["template", str(saved), "bad"]) == NO_FIT
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.startswith("fasten: no template for 'bad': nothing fits: ")


def test_a_template_is_of_the_joint_that_is_pinned(saved: Path, capsys: Text) -> None:
    """The second answer instead of the first: another hole on the paper."""
    answers = advise(resolve(read_question(AMP, builtin()), builtin()), builtin(), changes=False).answers
    holes = [answer.proposal.joint.hole for answer in answers]
    other = next(at for at, hole in enumerate(holes) if hole is not None and holes[0] and hole != holes[0])
    wanted = holes[other]
    assert wanted is not None
    path = saved.with_name("pinned.toml")
    save_job(Job("pinned", "", "", (Mount("amp", tuple(AMP.items()), pin=pin_of(answers[other])),)), path)
    root = drawing(path, "amp", capsys)
    holes_drawn = [element for element in root.iter(f"{SVG}circle") if "data-hole" in element.attrib]
    assert len(holes_drawn) == 4
    assert all(abs(2 * float(hole.attrib["r"]) - wanted.diameter_mm) < 0.01 for hole in holes_drawn)


# -- ticks ------------------------------------------------------------------------------------------------------------


def test_a_step_is_ticked_by_its_number_and_taken_back(saved: Path, capsys: Text) -> None:
    assert main(["work", str(saved), "left amp", "--tick", "1", "--tick", "before.2", "--json"]) == DONE
    out, err = capsys.readouterr()
    assert "found out, instructions read" in err
    sheet = json.loads(out)
    assert [step["done"] for step in sheet["first_ticked"]][:3] == [False, True, False]
    assert [step["done"] for step in sheet["mounts"][0]["ticked"]][:2] == [True, False]
    assert "step:every/look/0" in saved.read_text(encoding="utf-8")
    assert main(["work", str(saved), "left amp", "--untick", "1"]) == DONE
    assert "not found out" in capsys.readouterr().err
    assert "step:every/look/0" not in saved.read_text(encoding="utf-8")


@pytest.mark.parametrize("asked", [["bad", "--tick", "1"], ["--tick", "1"], ["trim", "left amp", "--tick", "1"],
                                   ["left amp", "--tick", "one"], ["left amp", "--tick", "60"]])  # fmt: skip
def test_a_step_that_cannot_be_ticked_leaves_the_job_as_it_was(saved: Path, capsys: Text, asked: list[str]) -> None:
    before = saved.read_bytes()
    assert main(["work", str(saved), *asked]) == MISUSE
    assert capsys.readouterr().err.startswith("fasten: tick: ")
    assert saved.read_bytes() == before
