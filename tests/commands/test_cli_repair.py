"""`fasten repair`: what is printed, what it ends with, and what is refused."""

import json
from pathlib import Path

import pytest

from fasten.__main__ import DONE, MISUSE, NO_FIT, main
from fasten.catalog.tables import builtin
from fasten.job.store.job_toml import read_job
from fasten.job.store.storage import save_job
from fasten.job.words import Job, Mount

AMP = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "60 mm", "edge": "60 mm",
    "support": "firm", "panel": "floor", "far-side": "dry",
}  # fmt: skip
Text = pytest.CaptureFixture[str]


@pytest.fixture
def job(tmp_path: Path) -> str:
    path = tmp_path / "car.toml"
    save_job(Job("Car", "", "", (Mount("left amp", tuple(AMP.items())),)), path)
    return str(path)


def test_the_best_route_stands_first_with_its_hole_and_torque(job: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", "oversize 8.2 mm", "--at", "3"]) == DONE
    text = capsys.readouterr().out
    assert text.startswith("left amp: oversize 8.2 mm, fixing 3")
    assert text.index("1. N3, NEXT LARGER THREAD, PROVEN") < text.index("DOES NOT DO") < text.index("NEVER")
    assert "Hole: 9 mm" in text


def test_json_holds_every_route_with_its_checks(job: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", "off 3 mm", "--at", "1", "--json"]) == DONE
    found = json.loads(capsys.readouterr().out)
    assert list(found) == [
        "format", "mount", "damage", "at", "asks", "means", "hole_left_mm", "danger", "out", "routes", "refused",
        "never",
    ]  # fmt: skip
    assert found["damage"] == {"what": "off", "size_mm": 3, "way": None}
    assert found["routes"][0]["route"] == "S1"
    assert found["routes"][0]["checks"]


def test_a_crack_asks_first(job: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", "cracked"]) == NO_FIT
    assert "structure, belt, seat or airbag" in capsys.readouterr().out
    assert main(["repair", job, "left amp", "cracked", "--sound"]) == DONE
    assert "K1" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["spun", "--at", "7"], "there is no fixing '7'"),
        (["melted"], "is not"),
        (["oversize 5 mm"], "is not over its hole"),
    ],
)
def test_what_cannot_be_is_refused(job: str, args: list[str], said: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", *args]) == MISUSE
    assert said in capsys.readouterr().err


def test_no_such_mount_point(job: str, capsys: Text) -> None:
    assert main(["repair", job, "right amp", "spun"]) == MISUSE
    assert "right amp" in capsys.readouterr().err


# -- taking one -------------------------------------------------------------------------------------------------------

TAKE = ["oversize 8.2 mm", "--at", "3", "--take", "1"]


def _mount(job: str) -> Mount:
    return read_job(Path(job).read_bytes(), job, builtin())[0].mounts[0]


def test_a_route_that_is_taken_is_a_repair_and_a_visit(job: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", *TAKE]) == DONE
    assert "fixing 3 of left amp is repaired by N3" in " ".join(capsys.readouterr().out.split())
    mount = _mount(job)
    assert [(repair.at, repair.what, repair.route) for repair in mount.repairs] == [(3, "oversize 8.2 mm", "N3")]
    assert mount.repairs[0].pin is not None
    assert mount.repairs[0].pin.thread == "M6"
    assert [visit.kind for visit in mount.visits] == ["repaired"]
    assert "N3" in mount.visits[0].note


def test_undo_takes_a_repair_back(job: str, capsys: Text) -> None:
    before = _mount(job)
    main(["repair", job, "left amp", *TAKE])
    assert main(["undo", job]) == DONE
    assert _mount(job) == before


def test_the_documents_say_what_was_repaired(job: str, capsys: Text) -> None:
    main(["repair", job, "left amp", *TAKE])
    for command in (["hardware", job], ["work", job], ["template", job, "left amp"]):
        capsys.readouterr()
        assert main(command) == DONE
        said = " ".join(capsys.readouterr().out.split())
        assert "Fixing 3 was repaired" in said
        assert "hole 9 mm" in said


def test_an_open_route_may_be_taken_and_stays_open(job: str, capsys: Text) -> None:
    assert main(["repair", job, "left amp", "cracked", "--sound", "--take", "2"]) == NO_FIT
    assert "not proven: needs" in capsys.readouterr().out
    assert _mount(job).repairs[0].route == "K1"


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["oversize 8.2 mm", "--at", "3", "--take", "9"], "there is no route '9' that does"),
        (["oversize 8.2 mm", "--at", "3", "--take", "N3"], "there is no route 'N3'"),
        (["cracked", "--take", "1"], "before this is answered"),
    ],
)
def test_what_is_no_route_that_does_is_not_taken(job: str, args: list[str], said: str, capsys: Text) -> None:
    before = Path(job).read_bytes()
    assert main(["repair", job, "left amp", *args]) == MISUSE
    assert said in capsys.readouterr().err
    assert Path(job).read_bytes() == before


def test_what_was_repaired_is_repaired_again_and_undo_takes_back_the_last(job: str, capsys: Text) -> None:
    main(["repair", job, "left amp", *TAKE])
    once = _mount(job)
    assert main(["repair", job, "left amp", "spun", "--at", "3", "--take", "1"]) in (DONE, NO_FIT)
    twice = _mount(job)
    assert [one.at for one in twice.repairs] == [3, 3]
    assert [visit.kind for visit in twice.visits] == ["repaired", "repaired"]
    capsys.readouterr()
    main(["undo", job])
    assert _mount(job) == once


def test_what_is_built_after_a_repair_of_every_fixing_is_judged_by_it(job: str, capsys: Text) -> None:
    main(["repair", job, "left amp", "oversize 8.2 mm", "--take", "1"])
    capsys.readouterr()
    assert main(["built", job, "left amp", "--hole", "9 mm", "--torque", "2.6 N·m"]) == DONE
    assert "Verdict: holds" in capsys.readouterr().out
    assert _mount(job).pin is None
    assert main(["hardware", job]) == DONE
    said = capsys.readouterr().out
    assert "M6" in said
    assert "NOT PROVEN" not in said
