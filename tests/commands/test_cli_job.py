"""The commands that make and change a job: pick into it, a length instead, fewest sizes; each as typed."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job, save_job, save_shelf
from fasten.job.words import Job, Mount, Pin, Shelf, ShelfPart, Visit
from fasten.model.line import Part

from .conftest import Run

TABLES = builtin()
AMP = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
PLATE = (
    "amplifier", "--onto", "aluminium 6 mm", "--removed", "yearly", "--item-thickness", "10 mm",
    "--item-hole", "6.6 mm", "--edge", "30 mm", "--behind", "7 mm",
)  # fmt: skip  # M6x20 stands 2.4 mm past the plate, M6x25 7.4 mm
UNFIT = ("enclosure", "--onto", "abs 2 mm", "--removed", "weekly")
M6X25 = Part("screw", "M6", "ISO 15071", "8.8", 25.0)


def job() -> Job:
    return load_job(Path("job.toml"), TABLES).value


def mounts() -> dict[str, Mount]:
    return {mount.name: mount for mount in job().mounts}


def plain(run: Run, *words: str) -> tuple[int, dict[str, Any]]:
    code, out, _ = run(*words, "--json")
    found = json.loads(out)
    assert found["format"] == 1
    return code, found


def shelf(*parts: tuple[Part, int], tools: tuple[str, ...] = ()) -> None:
    owned = tuple(ShelfPart(part, count) for part, count in parts)
    save_shelf(Shelf("Van", "", "", owned, (), tools, ()), Path("shelf.toml"))


def is_one_sentence(error: str) -> bool:
    return error.startswith("fasten: ") and error.count("\n") == 1 and "Traceback" not in error


# -- pick --into-job --------------------------------------------------------------------------------------------------


def test_a_job_is_made_where_there_is_none_and_the_answer_is_as_ever(run: Run) -> None:
    code, answer, error = run("pick", *AMP)
    again, kept, said = run("pick", *AMP, "--into-job", "job.toml", "--name", "left amp")
    assert (code, error) == (again, "") == (0, "")
    assert kept == answer
    assert said == "fasten: left amp is saved in job.toml\n"
    assert job().title == "job"
    assert mounts()["left amp"].said == (
        ("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("behind", "40mm"), ("edge", "30mm"),
    )  # fmt: skip


def test_json_is_the_same_with_and_without_a_job(run: Run) -> None:
    assert plain(run, "pick", *AMP)[1] == plain(run, "pick", *AMP, "--into-job", "job.toml", "--name", "amp")[1]


def test_a_job_that_is_there_gets_one_more(run: Run) -> None:
    for name in ("left amp", "right amp"):
        assert run("pick", *AMP, "--into-job", "job.toml", "--name", name)[0] == 0
    assert list(mounts()) == ["left amp", "right amp"]


def test_what_nothing_fits_is_kept_and_the_job_tells_it(run: Run) -> None:
    code, _, said = run("pick", *UNFIT, "--into-job", "job.toml", "--name", "box")
    assert (code, said) == (1, "fasten: box is saved in job.toml\n")
    code, found = plain(run, "ready", "job.toml")
    assert (code, [entry["mount"] for entry in found["unfit"]]) == (1, ["box"])


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("amplifier", "--onto", "stel 0.8 mm", "--removed", "yearly"), "stel"),
        (("amplifier", "--onto", "steel 0.8 mm"), "removed: nothing is said"),
    ],
)
def test_a_question_that_does_not_read_is_not_kept(run: Run, words: tuple[str, ...], told: str) -> None:
    code, out, error = run("pick", *words, "--into-job", "job.toml", "--name", "amp")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert told in error
    assert not Path("job.toml").exists()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--into-job", "job.toml"), "add --name"),
        (("--into-job", "job.toml", "--name", "  "), "add --name"),
        (("--name", "amp"), "add --into-job"),
        (("--replace",), "add --into-job"),
        (("--into-job", "no/such/job.toml", "--name", "amp"), "the folder is not there"),
        (("--into-job", ".", "--name", "amp"), "a folder stands where the file should be"),
        (("--into-job", "job.toml", "--name", "x\ny"), "control or hidden character"),
        (("--into-job", "job.toml", "--name", "x" * 300), "shorten it"),
    ],
)
def test_what_cannot_be_kept_is_one_sentence(run: Run, words: tuple[str, ...], told: str) -> None:
    code, out, error = run("pick", *AMP, *words)
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert told in error
    assert not Path("job.toml").exists()


def test_the_same_name_is_refused_with_what_to_do(run: Run) -> None:
    """Case and spaces make no other name."""
    run("pick", *AMP, "--into-job", "job.toml", "--name", "left amp")
    before = Path("job.toml").read_bytes()
    code, out, error = run("pick", *UNFIT, "--into-job", "job.toml", "--name", "Left  Amp")
    assert (code, out) == (2, "")
    assert "already" in error
    assert "--replace" in error
    assert Path("job.toml").read_bytes() == before


def test_replace_asks_anew_in_its_place_and_keeps_what_was_noted_and_built(run: Run) -> None:
    """A pin was for the question as it was; asked the same again it stays."""
    said = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
    pin, built = Pin("rivet_nut", "M5", "", None, None), Visit("today", "7.1 mm", "", "", "")
    other = Mount("other", said)
    save_job(Job("", "", "", (Mount("left amp", said, "under the seat", pin, (built,)), other)), Path("job.toml"))
    words = ("pick", "amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly")
    into = ("--into-job", "job.toml", "--name", "left amp", "--replace")
    assert "pinned no more" not in run(*words, *into)[2]
    assert mounts()["left amp"] == Mount("left amp", said, "under the seat", pin, (built,))
    code, _, error = run(*words, "--behind", "40mm", *into)
    assert code == 0
    assert "pinned no more" in error
    assert mounts()["left amp"] == Mount("left amp", (*said, ("behind", "40mm")), "under the seat", None, (built,))
    assert list(mounts()) == ["left amp", "other"]


def test_replace_where_there_is_nothing_to_replace_adds(run: Run) -> None:
    assert run("pick", *AMP, "--into-job", "job.toml", "--name", "amp", "--replace")[0] == 0
    assert list(mounts()) == ["amp"]


def test_a_broken_job_is_left_as_it_is(run: Run) -> None:
    Path("job.toml").write_text("format = 1\nkind = 'shelf'\n", encoding="utf-8")
    code, out, error = run("pick", *AMP, "--into-job", "job.toml", "--name", "amp")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert Path("job.toml").read_text(encoding="utf-8") == "format = 1\nkind = 'shelf'\n"


# -- the shelf --------------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_pick_with_a_shelf_prefers_what_is_there(run: Run) -> None:
    """Without one M5 is first. Part and tool of M4 are there: M4 is."""
    code, without = plain(run, "pick", *AMP)
    assert (code, without["answers"][0]["receiver"]["thread"]) == (0, "M5")
    m4 = next(answer for answer in without["answers"] if answer["title"].startswith("M4"))
    nut, screw = m4["receiver"], m4["screw"]
    series, standard = nut["series"].replace("_", " "), screw["standard"].replace("_", " ")
    shelf(
        (Part("rivet nut", "M4", series, nut["material"], nut["length_mm"]), 9),
        (Part("screw", "M4", standard, screw["class"], screw["length_mm"]), 9),
        tools=("rivet-nut setter", "rivet-nut mandrel M4"),
    )  # fmt: skip
    code, found = plain(run, "pick", *AMP, "--shelf", "shelf.toml")
    assert (code, found["answers"][0]["receiver"]["thread"]) == (0, "M4")
    assert "parts_there" in {part["name"] for answer in found["answers"] for part in answer["score"]["parts"]}
    run("pick", *AMP, "--into-job", "job.toml", "--name", "amp")
    for words, thread in (((), "M5"), (("--shelf", "shelf.toml"), "M4")):
        _, listed = plain(run, "hardware", "job.toml", *words)
        assert thread in {line["part"]["size"] for line in listed["parts"]}


def test_a_shelf_that_cannot_be_read_is_told_before_anything_is_kept(run: Run) -> None:
    code, _, error = run("pick", *AMP, "--shelf", "none.toml", "--into-job", "job.toml", "--name", "amp")
    assert code == 2
    assert "none.toml" in error
    assert not Path("job.toml").exists()


def test_no_shelf_is_looked_for_that_is_not_named(run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    shelf((M6X25, 50))
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path))
    run("pick", *AMP, "--into-job", "job.toml", "--name", "amp")
    assert plain(run, "hardware", "job.toml")[1]["shelf"] is False


# -- instead ----------------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_a_length_that_does_not_do_is_told_with_its_figures(run: Run) -> None:
    run("pick", *PLATE, "--into-job", "job.toml", "--name", "rack")
    code, out, error = run("instead", "job.toml", "Rack", "--length", "25mm")
    assert (code, error) == (1, "")
    assert out.startswith("Instead of screw M6 x 20 mm, ISO 15071, 8.8\n")
    assert re.search(r"M6 x 25 mm +NO +6 mm +9 mm +9 mm", out)
    assert "space behind" in out
    code, found = plain(run, "instead", "job.toml", "rack", "--length", "25mm")
    [entry] = found["substitutes"]
    assert (code, entry["does"], entry["bottoms_out"], entry["refusal"]["check"]) == (1, False, False, "space-behind")
    assert (entry["protrusion_mm"], entry["behind_needed_mm"]) == (pytest.approx(9), pytest.approx(9))
    assert found["wanted"]["length_mm"] == 20.0
    assert found["behind_available_mm"] == 7.0


@pytest.mark.slow
def test_a_shelf_offers_what_does_and_the_pin_holds_it(run: Run) -> None:
    run("pick", *PLATE, "--behind", "9 mm", "--into-job", "job.toml", "--name", "rack")
    shelf(
        (M6X25, 6),
        (Part("screw", "M6", "ISO 15071", "8.8", 16.0), 50),
        (Part("screw", "M6", "ISO 4762", "8.8", 25.0), 9),
    )
    code, out, error = run("instead", "job.toml", "rack", "--shelf", "shelf.toml", "--pin")
    assert code == 0
    assert "Screw M6 x 25 mm, ISO 15071, 8.8 will do." in out
    assert "ISO 4762" in out.partition("NOT TRIED")[2]
    assert error.endswith("fasten: pinned in job.toml: rack\n")
    held = mounts()["rack"].pin
    assert held is not None
    assert held.screw_length_mm == 25.0
    _, listed = plain(run, "hardware", "job.toml")
    assert [line["part"]["length_mm"] for line in listed["parts"] if line["part"]["kind"] == "screw"] == [25.0]


def test_too_few_of_what_does_is_no_substitute(run: Run) -> None:
    run("pick", *PLATE, "--behind", "9 mm", "--into-job", "job.toml", "--name", "rack")
    shelf((M6X25, 3))
    before = Path("job.toml").read_bytes()
    code, out, _ = run("instead", "job.toml", "rack", "--shelf", "shelf.toml", "--pin")
    assert code == 1
    assert "too few of what will do" in out
    assert Path("job.toml").read_bytes() == before


@pytest.mark.parametrize("words", [("--length", "25mm"), ("--shelf", "shelf.toml")])
def test_a_mount_point_without_such_a_screw_has_none_to_replace(run: Run, words: tuple[str, ...]) -> None:
    run("pick", *UNFIT, "--into-job", "job.toml", "--name", "box")
    shelf((M6X25, 9))
    code, found = plain(run, "instead", "job.toml", "box", *words)
    assert (code, found["wanted"], found["substitutes"]) == (1, None, [])
    assert found["reason"].startswith("nothing fits")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("rack",), "nothing is said to try"),
        (("rack", "--length", "25mm", "--shelf", "shelf.toml"), "both a shelf and a length"),
        (("rack", "--length", "long"), "length"),
        (("rack", "--length", "0 mm"), "length"),
        (("wreck", "--length", "25mm"), "did you mean 'rack'"),
    ],
)
def test_what_is_asked_wrongly_of_instead_is_one_sentence(run: Run, words: tuple[str, ...], told: str) -> None:
    run("pick", *PLATE, "--into-job", "job.toml", "--name", "rack")
    shelf((M6X25, 9))
    code, out, error = run("instead", "job.toml", *words)
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert told in error


# -- fewest -----------------------------------------------------------------------------------------------------------


def test_fewest_shows_before_and_after_and_keeps_it(run: Run) -> None:
    """A plate tapped M5 and a sheet with rivet nuts: before they share nothing."""
    run("pick", *AMP, "--into-job", "job.toml", "--name", "amp")
    words = ("--onto", "aluminium 5 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
    run("pick", "amplifier", *words, "--into-job", "job.toml", "--name", "bracket")
    untouched = Path("job.toml").read_bytes()
    code, found = plain(run, "fewest", "job.toml")
    assert (code, found["proven"]) == (0, True)
    assert len(found["after"]) < len(found["before"])
    assert found["cost"] < found["before_cost"]
    assert Path("job.toml").read_bytes() == untouched
    code, out, error = run("fewest", "job.toml", "--keep")
    assert code == 0
    assert f"{len(found['before'])} different sizes before, {len(found['after'])} after" in out
    assert "pinned in job.toml" in error
    assert any(mount.pin is not None for mount in job().mounts)
    again = plain(run, "fewest", "job.toml")[1]
    assert again["before"] == again["after"] == found["after"]


@pytest.mark.slow
def test_fewest_says_when_something_fits_nowhere_and_when_the_time_is_not_enough(run: Run) -> None:
    for name, words in (("amp", AMP), ("plate", PLATE), ("box", UNFIT)):
        run("pick", *words, "--into-job", "job.toml", "--name", name)
    code, found = plain(run, "fewest", "job.toml")
    assert (code, [entry["mount"] for entry in found["unfit"]]) == (0, ["box"])
    assert found["cost"] <= found["before_cost"]
    code, out, error = run("fewest", "job.toml", "--seconds", "0")
    assert (code, out) == (2, "")
    assert "the time was over before every mount point had its answer" in error


@pytest.mark.parametrize("seconds", ["soon", "-1", "nan", "inf", "1e9"])
def test_a_time_that_is_none_is_misuse(run: Run, seconds: str) -> None:
    run("pick", *AMP, "--into-job", "job.toml", "--name", "amp")
    code, out, error = run("fewest", "job.toml", f"--seconds={seconds}")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
