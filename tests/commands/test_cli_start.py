"""`fasten start` and `fasten set`, as typed: a job from a few words, confirmed and told more of."""

import json
from pathlib import Path

from fasten.catalog.installs import INSTALLS
from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job
from fasten.job.words import Job, Mount

from .conftest import Run

TABLES = builtin()


def job() -> Job:
    return load_job(Path("car.toml"), TABLES).value


def mounts() -> dict[str, Mount]:
    return {mount.name: mount for mount in job().mounts}


def test_start_without_words_lists_every_install_and_writes_nothing(run: Run, tmp_path: Path) -> None:
    code, out, err = run("start")
    assert (code, err, list(tmp_path.iterdir())) == (0, "", [])
    for row in TABLES.rows(INSTALLS):
        assert row.title[1:] in out.replace("\n", " ")
    code, out, _ = run("start", "car.toml", "--json")
    assert code == 0
    assert [one["install"] for one in json.loads(out)["installs"]] == [row.install for row in TABLES.rows(INSTALLS)]


def test_start_makes_a_job_and_says_what_is_proposed_and_asked_first(run: Run) -> None:
    code, out, err = run("start", "car.toml", "--with", "two amplifiers, four door speakers, sub box")
    assert (code, err) == (0, "")
    assert "11 mount points added to car.toml" in out
    assert "enclosure: enclosure on steel floor, proposed" in out
    assert "first answer M5 rivet nut" in out
    assert "fasten set car.toml seat-amplifier --onto" in out
    assert len(job().mounts) == 11
    assert job().title == "car"


def test_start_adds_to_a_job_only_where_that_is_said(run: Run) -> None:
    run("start", "car.toml", "--with", "amplifier")
    code, out, err = run("start", "car.toml", "--with", "box")
    assert (code, out) == (2, "")
    assert "--add" in err
    code, out, _ = run("start", "car.toml", "--with", "box", "--add", "--json")
    found = json.loads(out)
    assert (code, [one["name"] for one in found["mounts"]]) == (0, ["enclosure"])
    assert found["mounts"][0]["onto_proposed"] is True
    assert list(mounts()) == ["amplifier", "enclosure"]


def test_a_wrong_word_is_one_sentence_and_makes_no_file(run: Run, tmp_path: Path) -> None:
    for words in (("--with", "amplifer"), ("--add",), ("--with", "three doors")):
        code, out, err = run("start", "car.toml", *words)
        assert (code, out, err.count("\n")) == (2, "", 1), words
    assert run("start", "--with", "amp")[0] == 2
    assert not list(tmp_path.iterdir())


def test_ready_names_what_is_only_proposed_until_it_is_confirmed(run: Run) -> None:
    run("start", "car.toml", "--with", "two amplifiers, ground")
    assert "steel floor is only proposed" in run("ready", "car.toml")[1].replace("\n", " ").replace("  ", " ")
    assert run("set", "car.toml", "seat-amplifier", "--onto")[0] == 0
    assert "onto" not in mounts()["left amplifier"].preset + mounts()["right amplifier"].preset
    assert "onto" in mounts()["main ground"].preset
    assert run("set", "car.toml", "main ground", "--onto", "steel 1.2 mm")[0] == 0
    assert dict(mounts()["main ground"].said)["onto"] == "steel 1.2 mm"
    out = run("ready", "car.toml")[1]
    assert "proposed" not in out


def test_set_says_fields_takes_them_back_and_shows_what_is_asked_next(run: Run) -> None:
    run("start", "car.toml", "--with", "amplifier")
    code, out, _ = run("set", "car.toml", "amplifier", "mass=6 kg", "removed=monthly", "note=behind the seat")
    assert (code, "First answer:" in out, "Asked next:" in out) == (0, True, True)
    assert dict(mounts()["amplifier"].said)["mass"] == "6 kg"
    assert mounts()["amplifier"].note == "behind the seat"
    assert "removed" not in mounts()["amplifier"].preset
    run("set", "car.toml", "amplifier", "mass=")
    assert "mass" not in dict(mounts()["amplifier"].said)
    before = Path("car.toml").read_bytes()
    code, out, _ = run("set", "car.toml", "amplifier", "--json")
    assert (code, json.loads(out)["ask"][0]) == (0, "support")
    assert Path("car.toml").read_bytes() == before


def test_set_refuses_what_it_cannot_read_and_changes_nothing(run: Run) -> None:
    run("start", "car.toml", "--with", "amplifier")
    before = Path("car.toml").read_bytes()
    for words in (
        ("amplifier", "mass=heavy"), ("amplifier", "weight=6kg"), ("amplifer", "mass=6kg"), ("amplifier", "mass"),
        ("amplifier", "mass=6kg", "mass=7kg"), ("amplifier", "fixings=5"), ("colour=red",), (), ("box", "--onto"),
        ("amplifier", "mass=[/b]"),
    ):  # fmt: skip
        code, out, err = run("set", "car.toml", *words)
        assert (code, out, err.count("\n")) == (2, "", 1), words
    assert Path("car.toml").read_bytes() == before


def test_set_asks_once_whether_a_twin_is_the_same(run: Run) -> None:
    run("start", "car.toml", "--with", "doors")
    left, right = "left door adapter", "right door adapter"
    code, _, err = run("set", "car.toml", left, "item-hole=5 mm", "mass=0.7 kg")
    assert code == 2
    assert all(word in err for word in (right, "--both", "--only"))
    assert run("set", "car.toml", left, "item-hole=5 mm", "--both")[0] == 0
    assert dict(mounts()[right].said)["item-hole"] == "5 mm"
    assert run("set", "car.toml", left, "mass=0.7 kg", "--only")[0] == 0
    assert "mass" not in dict(mounts()[right].said)
    assert run("set", "car.toml", left, "mass=0.8 kg")[0] == 0  # it differs there already: nothing to ask
    assert run("set", "car.toml", left, "behind=40 mm")[0] == 0  # measured at each side


def test_confirming_a_twin_asks_as_a_change_does(run: Run) -> None:
    run("start", "car.toml", "--with", "doors")
    assert run("set", "car.toml", "left door driver", "--onto")[0] == 2
    assert run("set", "car.toml", "left door driver", "--onto", "--both")[0] == 0
    assert not {"onto"} & {*mounts()["left door driver"].preset, *mounts()["right door driver"].preset}


def test_set_of_the_job_names_it_and_what_is_known_of_its_wiring(run: Run) -> None:
    run("start", "car.toml", "--with", "amplifier, power")
    code, out, _ = run("set", "car.toml", "title=Rear stage", "vehicle=an invented estate", "to-amplifiers=4.2 m")
    assert (code, "Rear stage" in out) == (0, True)
    assert (job().title, job().vehicle, dict(job().electrics)["to-amplifiers"]) == (
        "Rear stage", "an invented estate", "4.2 m"
    )  # fmt: skip
    assert "to-amplifiers" not in job().preset


def test_set_of_a_run_says_what_it_carries(run: Run) -> None:
    run("start", "car.toml", "--with", "amplifier, power")
    assert run("set", "car.toml", "amplifier power", "length=4.2 m", "carries=600 W class D")[0] == 0
    (found,) = [one for one in job().runs if one.name == "amplifier power"]
    assert dict(found.said)["length"] == "4.2 m"
    assert "length" not in found.preset
    assert run("set", "car.toml", "amplifier power", "length=far")[0] == 2
