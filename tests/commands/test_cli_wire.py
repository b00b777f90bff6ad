"""`fasten wire`: the answer, its codes and its JSON."""

import json
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job

MAIN = ("--from", "battery stud M8", "--to", "set screw", "--length", "5m", "--ground", "0.45m")


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    code = main(["wire", *words])
    out, err = capsys.readouterr()
    return code, out, err


def test_the_answer_opens_with_cable_and_fuse_and_what_is_not_checked(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = said(capsys, "1000 W class D", *MAIN)
    lines = out.splitlines()
    assert code == 0
    assert lines[0] == "2 AWG copper, 125 A fuse within 450 mm of its source"
    assert lines[1].startswith("NOT PROVEN: ")
    for text in (
        "96.6 A at full output and 13.8 V",
        "0.343 of 0.414 V, power and ground lead, conductor at 46 °C",
        "210 A, row 2 AWG at 105 °C",
        "4 AWG carries a 125 A fuse, but loses 0.555 V: 0.141 over the limit",
    ):
        assert text in out


def test_a_chosen_cable_that_is_too_small_ends_with_1_and_says_what_would_do(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code, out, _ = said(capsys, "1000 W class D", *MAIN, "--cable", "8 AWG")
    assert code == 1
    assert "DOES NOT HOLD" in out
    assert "2 AWG would do" in out


def test_what_no_size_does_for_ends_with_1(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = said(capsys, "350 A", *MAIN)
    assert (code, out.splitlines()[0]) == (1, "Nothing fits")
    code, out, _ = said(capsys, "350 A", *MAIN, "--json")
    assert (code, json.loads(out)["fits"]) == (1, False)


@pytest.mark.parametrize("words", [("1000 W class D 48 V", *MAIN), ("72 A", *MAIN, "--system", "48 V"), ("5 A",)])
def test_misuse_is_one_sentence(capsys: pytest.CaptureFixture[str], words: tuple[str, ...]) -> None:
    code, out, err = said(capsys, *words)
    assert (code, out, err.count("\n")) == (2, "", 1)


def test_json_has_the_steps_of_the_chain(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = said(capsys, "1000 W class D", *MAIN, "--json")
    found = json.loads(out)
    assert found["format"] == 1
    assert (found["current"]["full_a"], found["current"]["fuse_floor_a"]) == (96.6184, 120.773)
    assert (found["conductor"]["size"], found["conductor"]["ampacity_a"]) == ("2 AWG", 210.0)
    assert (found["fuse"]["rating_a"], found["fuse"]["type"], found["fuse"]["within_mm"]) == (125.0, "SF51", 450.0)
    assert [check["id"] for check in found["checks"]][:5] == [
        "current", "conductor-temperature", "drop", "ampacity", "fuse",
    ]  # fmt: skip
    assert {source for check in found["checks"] for source in check["from"]} == {one["id"] for one in found["sources"]}


def test_json_of_a_loudspeaker_lead(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = said(capsys, "loudspeaker 100 W 4 ohm", "--from", "set screw", "--to", "tab 6.3x0.8", "--length", "4m",
                     "--json")  # fmt: skip
    assert json.loads(out)["lead"] == {"loop_ohm": 0.177173, "share_of_z_pct": 4.42934, "loss_db": 0.37645}


def test_json_has_every_end_and_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = said(capsys, "1000 W class D", *MAIN, "--json")
    found = json.loads(out)
    assert [(end["where"], end["part"], end["strip_mm"]) for end in found["ends"]][:2] == [
        ("battery +", "lug", 18.0), ("fuse in", "lug", 18.0),
    ]  # fmt: skip
    lug, sleeve = found["parts"][:2]
    assert (lug["size"], lug["stud"], lug["needed"], lug["spare"], lug["trial"], lug["state"]) == (
        "2 AWG", "M8", 4, 1, 1, "confirm",
    )  # fmt: skip
    assert (sleeve["colour"], sleeve["why"]) == ("red", ["the bore of the set screw: the sleeve is 8.7 mm outside"])
    assert [(line["cut_m"], line["pack_m"]) for line in found["parts"] if line["part"] == "cable"] == [
        (5.4, 6.0), (0.65, 1.5),
    ]  # fmt: skip
    assert found["sections"] == found["holes"] == []
    assert len(found["open"]) == 4
    assert "heat gun" in found["tools"]


def test_a_run_is_kept_in_a_job_and_listed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(tmp_path / "car.toml")
    into = ("--into-job", job, "--name", "main power")
    assert said(capsys, "1000 W class D", *MAIN, *into)[0] == 0
    code, _, err = said(capsys, "500 W class D", *MAIN, *into)
    assert (code, "add --replace" in err) == (2, True)
    assert said(capsys, "500 W class D", *MAIN, *into, "--replace")[0] == 0
    assert main(["runs", job]) == 0
    assert "main power" in capsys.readouterr().out
    assert main(["runs", job, "main power"]) == 0
    assert capsys.readouterr().out.startswith("6 AWG copper, 80 A fuse")
    assert main(["runs", job, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["runs"][0]["conductor"]["size"] == "6 AWG"
    assert main(["runs", job, "second"]) == 2
    assert "no run 'second'" in capsys.readouterr().err
    assert said(capsys, "350 A", *MAIN, "--into-job", job, "--name", "too much")[0] == 1
    assert main(["runs", job]) == 0  # the list is written, and says why
    assert "350 A is over 300 A" in capsys.readouterr().out
    assert main(["runs", job, "too much"]) == 1
    assert main(["set", job, "main power", "cable=10 AWG"]) == 0
    for form in ((), ("--json",), ("--format", "csv")):
        assert main(["runs", job, "main power", *form]) == 1, "the chosen cable is too small"
    assert main(["set", job, "hole plate", "through=steel 0.9 mm"]) == 0
    assert main(["runs", job, "plate"]) == 0, "it is open, and nothing of it fails"
    code, _, err = said(capsys, "5 A", *MAIN, "--into-job", job)
    assert (code, "has no name" in err) == (2, True)
    assert said(capsys, "5 A", *MAIN, "--name", "x")[0] == 2


def test_proposals_are_listed_and_taken(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(tmp_path / "car.toml")
    amp = ("amplifier", "--onto", "plywood 18 mm", "--removed", "yearly", "--power", "500 W class D")
    assert main(["pick", *amp, "--into-job", job, "--name", "amp"]) == 0
    capsys.readouterr()
    assert main(["runs", job]) == 0
    assert "1. amp: no power run yet" in capsys.readouterr().out
    assert main(["runs", job, "--take", "all"]) == 2
    assert "--battery 'battery stud M8'" in capsys.readouterr().err
    said_once = ("--battery", "battery stud M8", "--to-amplifiers", "5m", "--to-dash", "4m")
    assert main(["runs", job, "--take", "1,2", *said_once]) == 0
    out, err = capsys.readouterr()
    assert "2 runs taken" in err
    assert "amp power" in out
    assert main(["runs", job, "--take", "all", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["proposals"] == []


@pytest.fixture
def three_large(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """The file of a job of three amplifiers that together just do with one trunk."""
    job = str(tmp_path / "car.toml")
    for name in ("left", "middle", "right"):
        amp = ("amplifier", "--onto", "plywood 18 mm", "--removed", "yearly", "--power", "1000 W class D")
        assert main(["pick", *amp, "--into-job", job, "--name", name]) == 0
    capsys.readouterr()
    return job


def test_the_block_that_amplifiers_lack_comes_with_its_runs_and_goes_with_them(
    three_large: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["runs", three_large, "--json"]) == 0
    offered = json.loads(capsys.readouterr().out)["proposals"]
    assert [one["name"] for one in offered if one["mounts"] == ["distribution block"]] == [
        "distribution block trunk", "left power", "middle power", "right power",
    ]  # fmt: skip
    before = Path(three_large).read_text()
    assert main(["runs", three_large, "--take", "2"]) == 0
    assert "1 run taken, new mount point 'distribution block'" in capsys.readouterr().err
    assert load_job(Path(three_large), builtin()).value.mounts[-1].name == "distribution block"
    assert main(["ready", three_large]) == 1
    assert "nothing is said to mount it on" in capsys.readouterr().out
    assert main(["undo", three_large]) == 0
    assert Path(three_large).read_text() == before


def test_numbers_are_those_of_the_list_that_was_seen(three_large: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Over 9 m no trunk does, so that another list is proposed and its numbers mean other runs."""
    before, far = Path(three_large).read_text(), ("--battery", "battery stud M8", "--to-amplifiers", "9m")
    assert main(["runs", three_large, "--take", "1,2", *far]) == 2
    assert "other runs are proposed" in capsys.readouterr().err
    assert Path(three_large).read_text() == before
    assert main(["runs", three_large, *far]) == 0
    assert main(["runs", three_large, "--take", "1,2", *far]) == 0
    taken = load_job(Path(three_large), builtin()).value
    assert [run.name for run in taken.runs] == ["left power", "left ground"]
    assert len(taken.mounts) == 3


def test_what_is_accepted_is_kept_in_the_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(tmp_path / "car.toml")
    into = (*MAIN, "--into-job", job, "--name", "feed")
    assert said(capsys, "20 A", *into, "--accept", "palm:x")[0] == 2
    assert not Path(job).exists(), "nothing is saved of what is refused"
    code, out, _ = said(capsys, "20 A", *into, "--accept", "bore:8-awg:4.9:set-screw")
    assert (code, "bore" in out.splitlines()[1]) == (0, False)
    assert main(["runs", job, "feed", "--accept", "all"]) == 0
    assert "none left open" in capsys.readouterr().out
    assert main(["runs", job, "feed", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["runs"][0]["proven"] is True
    for words in (["feed", "--accept", "palm:x"], ["--accept", "all"]):
        assert main(["runs", job, *words]) == 2
        assert capsys.readouterr().err.count("\n") == 1
    assert main(["runs", job, "feed", "--accept", "none"]) == 0
    assert "NOT PROVEN" in capsys.readouterr().out


def test_a_run_that_closes_a_circle_is_refused_with_its_names_and_nothing_is_saved(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "car.toml"
    for name in ("front", "rear"):
        assert main(["pick", "distribution-block", "--onto", "plywood 18 mm", "--removed", "rarely",
                     "--into-job", str(path), "--name", name]) == 0  # fmt: skip
    there = ("--from", "front", "--to", "rear", "--length", "1m", "--into-job", str(path), "--name", "there")
    assert said(capsys, *there)[0] == 2  # it is kept, and nothing is known yet of what it carries
    before = path.read_bytes()
    back = ("--from", "rear", "--to", "front", "--length", "1m", "--into-job", str(path), "--name", "back")
    code, _, err = said(capsys, *back)
    assert (code, "in a circle: 'there', 'back', nothing was saved" in err) == (2, True)
    assert path.read_bytes() == before
