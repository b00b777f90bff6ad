"""In which form a document is written, what does not go together, and what is wrong as JSON."""

import csv
import json
from io import StringIO
from pathlib import Path

import pytest

from .conftest import Run


@pytest.fixture(autouse=True)
def _started(run: Run) -> None:
    run("start", "car.toml", "--with", "fuse holder")


@pytest.mark.parametrize("command", ["hardware", "work", "runs"])
def test_the_name_of_a_file_says_how_it_is_written(run: Run, command: str) -> None:
    for name, starts in (("a.html", "<!DOCTYPE html"), ("a.md", "# "), ("a.json", "{"), ("a.csv", "\ufeffSection")):
        assert run(command, "car.toml", "--out", name)[0] == 0
        assert Path(name).read_text(encoding="utf-8").startswith(starts), name


@pytest.mark.parametrize("command", ["hardware", "work", "runs", "gauge"])
def test_in_a_folder_a_document_goes_by_the_file_of_a_job_without_a_title(run: Run, command: str) -> None:
    Path("papers").mkdir()
    job = Path("car.toml")
    job.write_text(job.read_text(encoding="utf-8").replace('title = "car"', 'title = ""'), encoding="utf-8")
    run(command, "car.toml", "--format", "md", "--out", "papers")
    assert [path.name for path in Path("papers").iterdir()] == [f"car-{command}.md"]


def test_what_does_not_go_together_is_refused_before_anything_is_written(run: Run, tmp_path: Path) -> None:
    before = sorted(tmp_path.iterdir())
    for words in (
        ("hardware", "car.toml", "--json", "--format", "csv"), ("work", "car.toml", "--json", "--format", "md"),
        ("runs", "car.toml", "--format", "csv", "--out", "a.html"), ("hardware", "car.toml", "--out", "a.svg"),
        ("hardware", "car.toml", "--json", "--out", "a.csv"), ("template", "car.toml", "fuse holder", "--out", "a.md"),
    ):  # fmt: skip
        code, out, err = run(*words)
        assert (code, out, bool(err)) == (2, "", True), words
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize("command", ["work", "hardware", "gauge", "runs", "template"])
def test_a_name_that_ends_in_no_way_we_write_is_refused_with_those_we_do(run: Run, command: str) -> None:
    words = ("amp",) if command == "template" else ()
    code, _, said = run(command, "car.toml", *words, "--out", "w.pdf")
    assert code == 2
    assert ".pdf is no way to write this" in said
    assert "html" in said
    assert not Path("w.pdf").exists()


def test_the_csv_of_each_document_is_one_rectangular_table_with_the_ids_of_its_lines(run: Run) -> None:
    ids = {line["id"] for line in json.loads(run("hardware", "car.toml", "--json")[1])["parts"]}
    for command in ("hardware", "work", "runs"):
        header, *rows = list(csv.reader(StringIO(run(command, "car.toml", "--format", "csv")[1])))
        assert len(set(header)) == len(header)
        assert {len(row) for row in rows} == {len(header)}
        if command == "hardware":
            assert ids <= {row[header.index("Id")] for row in rows}


@pytest.mark.parametrize(
    "words",
    [
        ("hardware", "none.toml"), ("pick", "amplifier", "--onto", "butter"), ("wire", "x"), ("look", "kayak"),
        ("start", "x.toml", "--with", "kayak"), ("set", "car.toml", "kayak", "mass=1 kg"), ("tables", "--no"),
        ("copy", "car.toml", "kayak"), ("work", "none.toml"), ("ready", "none.toml"), ("undo", "none.toml"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_json_where_json_is_asked_for(run: Run, words: tuple[str, ...]) -> None:
    code, out, err = run(*words, "--json")
    found = json.loads(err)
    assert (code, out, found["format"], found["error"]["exit"]) == (2, "", 1, 2)
    assert found["error"]["what"]
    plain = run(*words)[2]
    assert found["error"]["what"] in plain


def test_json_after_two_dashes_is_a_word_and_not_asked_for(run: Run) -> None:
    assert run("look", "--", "--json")[2].startswith("fasten: ")
    run("look", "kayak", "--json")
    assert run("look", "kayak")[2].startswith("fasten: ")


def test_a_document_that_is_written_is_done_whatever_it_says(run: Run) -> None:
    """A mount point without an answer is told in the document; `ready` gives the verdict."""
    run("pick", "enclosure", "--onto", "abs 2 mm", "--removed", "weekly", "--into-job", "car.toml", "--name", "box")
    for command in ("hardware", "work", "runs", "fewest"):
        assert run(command, "car.toml")[0] == 0, command
    assert run("ready", "car.toml")[0] == 1
    assert run("template", "car.toml", "box")[0] == 1  # there is nothing to draw
    assert run("pick", "enclosure", "--onto", "abs 2 mm", "--removed", "weekly")[0] == 1
    assert run("pick", "amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly")[0] == 0  # open, but it fits
