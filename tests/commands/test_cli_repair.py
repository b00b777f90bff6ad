"""`fasten repair`: what is printed, what it ends with, and what is refused."""

import json
from pathlib import Path

import pytest

from fasten.__main__ import DONE, MISUSE, NO_FIT, main
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
    assert text.index("1. N3, PROVEN") < text.index("DOES NOT DO") < text.index("NEVER")
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
