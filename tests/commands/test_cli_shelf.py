"""`fasten shelf`: lines in, what they came to out, and questions that are answered later."""

import io
import json
from pathlib import Path

import pytest

from fasten.__main__ import DONE, MISUSE, main

pytestmark = pytest.mark.slow

Text = pytest.CaptureFixture[str]


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("COLUMNS", "80")
    return str(tmp_path / "shelf.toml")


def kept(shelf: str, capsys: Text) -> dict[str, list[object]]:
    capsys.readouterr()
    main(["shelf", shelf, "--json"])
    found: dict[str, list[object]] = json.loads(capsys.readouterr().out)
    return found


def test_lines_are_added_and_told_with_what_was_assumed(shelf: str, capsys: Text) -> None:
    assert main(["shelf", shelf, "add", "M5x16 flange 50", "#7 drill"]) == DONE
    said = capsys.readouterr().out
    assert "50 screw M5 x 16 mm, ISO 15071, 8.8" in said
    assert "class 8.8" in said
    assert len(kept(shelf, capsys)["parts"]) == 1


def test_a_file_and_stdin_are_read_too(
    shelf: str, tmp_path: Path, capsys: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "own.csv"
    file.write_text("count,thread,length,head\n50,M5,16,flange\n", encoding="utf-8-sig")
    assert main(["shelf", shelf, "add", "--file", str(file)]) == DONE
    monkeypatch.setattr("sys.stdin", io.StringIO("M6 lock nuts 30\n5 mm bit\n"))
    assert main(["shelf", shelf, "add", "-"]) == DONE
    found = kept(shelf, capsys)
    assert (len(found["parts"]), found["bits"]) == (2, ["5 mm"])


def test_a_question_is_shown_with_the_nearest_two_and_answered(shelf: str, capsys: Text) -> None:
    main(["shelf", shelf, "add", "M6 nuts 50"])
    said = capsys.readouterr().out
    assert "Plain or locking" in said
    assert "1: prevailing-torque nut M6, ISO 7040, steel" in said
    assert main(["shelf", shelf, "answer", "1", "1"]) == DONE
    assert not kept(shelf, capsys)["questions"]


def test_a_line_comes_off_by_the_words_in_which_the_shelf_is_printed(shelf: str, capsys: Text) -> None:
    main(["shelf", shelf, "add", "M5x16 flange 50", "5 mm bit", "M6 nuts 50"])
    assert main(["shelf", shelf, "drop", "screw M5 x 16 mm, ISO 15071, 8.8", "5 MM", "m6 nuts 50"]) == DONE
    found = kept(shelf, capsys)
    assert [found[key] for key in ("parts", "bits", "questions")] == [[], [], []]
    main(["shelf", shelf, "add", "M5x16 flange 50", "5 mm bit"])
    assert main(["shelf", shelf, "drop", "5 mm", "screw M5 x 20 mm, ISO 15071, 8.8"]) == MISUSE
    assert "did you mean screw M5 x 16 mm, ISO 15071, 8.8" in capsys.readouterr().err
    assert len(kept(shelf, capsys)["bits"]) == 1


def test_the_last_change_of_a_shelf_is_taken_back_and_made_again(shelf: str, capsys: Text) -> None:
    main(["shelf", shelf, "add", "5 mm bit"])
    assert main(["shelf", shelf, "undo"]) == MISUSE
    assert "nothing was taken back" in capsys.readouterr().err
    main(["shelf", shelf, "add", "6 mm bit"])
    for bits in (["5 mm"], ["5 mm", "6 mm"]):
        assert main(["shelf", shelf, "undo"]) == DONE
        assert kept(shelf, capsys)["bits"] == bits


def test_kits_are_listed_and_ticked(shelf: str, capsys: Text) -> None:
    assert main(["shelf", shelf, "kit", "bits", "mandrels"]) == DONE
    assert len(kept(shelf, capsys)["bits"]) == 25
    main(["shelf", shelf, "kit", "--json"])
    there = {row["kit"]: row["there"] for row in json.loads(capsys.readouterr().out)["kits"]}
    assert (there["bits"], there["mandrels"], there["sockets"]) == (True, True, False)


@pytest.mark.parametrize(
    "words",
    [["add"], ["kit", "everything"], ["answer"], ["answer", "1", "1"], ["answer", "x", "1"], ["M5x16"], ["drop", "x"]],
)
def test_what_cannot_be_done_is_one_sentence_and_keeps_the_shelf(shelf: str, words: list[str], capsys: Text) -> None:
    assert main(["shelf", shelf, *words]) == MISUSE
    assert capsys.readouterr().err.startswith("fasten: ")
    assert not Path(shelf).exists()
