"""Visits in a job's file: the newest last, an old record the first of them, what is not known of one kept with it."""

import tomllib

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.after.built import read_visit
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.words import Job, Mount, Visit, standing

HEAD = 'kind = "job"\n\n[[mount]]\nname = "amp"\nitem = "amplifier"\nonto = "steel 0.8 mm"\nremoved = "yearly"\n'
TOLD = '[mount.built]\ndate = "2024-05-01"\nhole = "9.1 mm"\n'
VISIT = '[[mount.visit]]\ndate = "2026-11-28"\nkind = "fitted"\nhole = "7 mm"\nphotos = ["photos/left-door-1.jpg"]\n'


def job(*more: str, format_: int = 2) -> Job:
    return read_job(f"format = {format_}\n{HEAD}{''.join(more)}".encode(), "car.toml", builtin())[0]


@pytest.mark.parametrize("format_", [1, 2])
def test_an_old_record_is_the_first_visit(format_: int) -> None:
    found = job(TOLD, format_=format_)
    assert found.mounts[0].visits == (Visit("2024-05-01", "9.1 mm", "", "", "", kind="told"),)
    again = tomllib.loads(job_text(found))["mount"][0]
    assert "built" not in again
    assert again["visit"] == [{"date": "2024-05-01", "kind": "told", "hole": "9.1 mm"}]


def test_visits_follow_an_old_record_and_come_back_as_they_were() -> None:
    found = job(TOLD, VISIT)
    assert [visit.kind for visit in found.mounts[0].visits] == ["told", "fitted"]
    assert found.mounts[0].visits[1].photos == ("photos/left-door-1.jpg",)
    text = job_text(found).encode()
    assert read_job(text, "car.toml", builtin()) == (found, "")
    assert read_job(text, "car.toml", builtin(), own=True) == (found, "")


def test_what_a_later_version_added_to_a_visit_stays_with_it() -> None:
    """Also of an old record, which becomes the first."""
    found = job(TOLD + "pressed = 3\n", VISIT, "wetness = 4\n", VISIT, "[mount.visit.weather]\nrain = true\n")
    text = job_text(found)
    first, second, third = tomllib.loads(text)["mount"][0]["visit"]
    assert (first["pressed"], second["wetness"], third["weather"]) == (3, 4, {"rain": True})
    assert read_job(text.encode(), "car.toml", builtin())[0] == found


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ('[[mount.visit]]\nkind = "lost"\n', "visit 1 (lost), kind: is 'lost', no kind of visit; write one of fitted"),
        ("[[mount.visit]]\ndate = 3\n", "visit 1, date: is 3, not text"),
        ("visit = 3\n", "visit: is 3, not a list; write [[mount.visit]] above each"),
    ],
)  # fmt: skip
def test_a_broken_visit_is_refused_with_its_place(more: str, told: str) -> None:
    with pytest.raises(FastenError) as caught:
        job(more)
    assert told in str(caught.value)


def visit(kind: str = "fitted", hole: str = "", hardware: str = "", torque: str = "", length: str = "") -> Visit:
    return Visit("2026-01-01", hole, hardware, torque, "", kind=kind, length=length)


def test_what_stands_is_the_newest_of_each() -> None:
    fitted, looked = visit(hole="7 mm", hardware="M5", torque="1 N·m", length="16 mm"), visit("checked", torque="2 N·m")
    assert standing((fitted, looked)).torque == "2 N·m"
    assert standing((fitted, looked)).hole == "7 mm"
    assert standing((fitted, visit("off"))).torque == ""
    other = standing((fitted, visit(hardware="M6")))
    assert (other.hole, other.length, other.torque) == ("7 mm", "", "")
    assert Mount("amp", ()).built is None


@pytest.mark.parametrize(("name", "text"), [("note", "photo later"), ("by", "Kim"), ("date", "2026-05-03")])
def test_what_measures_nothing_takes_nothing_back(name: str, text: str) -> None:
    """Neither what was measured when it was fitted, nor that it is off."""
    full = {"hole": "7 mm", "hardware": "M5 x 16", "torque": "1 N·m"}
    fitted, again = read_visit(full, "2026-01-01"), read_visit({name: text, "note": "look", "photos": ""}, "2026-05-03")
    assert (fitted.kind, again.kind) == ("fitted", "checked")
    stands = standing((fitted, again))
    assert {field: getattr(stands, field) for field in full} == full
    assert standing((fitted, visit("off"), again)).kind == "off"
    anew, last = read_visit({"hole": "7.1 mm"}, "2026-05-03"), visit("checked", torque="0.9 N·m")
    assert standing((fitted, anew)).torque == "", "a hole is measured as it is off"
    assert standing((fitted, visit("checked", hole="7.1 mm"), last, again)).hole == "7.1 mm"
