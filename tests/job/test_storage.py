"""Job and shelf files: opened, saved, opened again, and never saved over blindly."""

import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest
from built.few import few
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store.job_toml import read_job
from fasten.job.store.shelf_toml import read_shelf
from fasten.job.store.storage import (
    LARGE,
    changed,
    check_mount,
    job_text,
    load_job,
    load_shelf,
    save_job,
    save_shelf,
    shelf_text,
    size_note,
)
from fasten.job.words import VISIT_KINDS, Job, Mount, Pin, Shelf, ShelfPart, Visit
from fasten.model.line import Part
from fasten.question import fields

SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
PIN = Pin("rivet_nut", "M6", "hexagon", 15.5, 20.0)
BUILT = Visit("2024-05-01", "9.1 mm", "hexagon body", "5 N·m", "")
JOB = Job("Estate", "blue estate", "first line\nsecond", (Mount("left amp", SAID, "hot side", PIN, (BUILT,)),))
OTHER = replace(JOB, title="Van")
SCREW = Part("screw", "M6", "ISO 4762", "8.8", 20.0)
SHELF = Shelf("Van", "EUR", "", (ShelfPart(SCREW, 12, 50, 3.5, "top box"),), ("5.1 mm",), (), ("tape",))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "car.toml"


def refused(job: Job, path: Path, stamp: object = None) -> FastenError:
    """The refusal of a save, which must have left the folder as it was."""
    before = {found: found.read_bytes() for found in path.parent.iterdir() if found.is_file()}
    with pytest.raises(FastenError) as caught:
        save_job(job, path, stamp)  # type: ignore[arg-type]
    assert {found: found.read_bytes() for found in path.parent.iterdir() if found.is_file()} == before
    return caught.value


def test_a_job_is_what_it_was_when_opened_again(path: Path) -> None:
    saved = save_job(JOB, path)
    loaded = load_job(path, builtin())
    assert loaded == saved
    assert (loaded.value, loaded.read_only, loaded.why) == (JOB, False, "")


def test_a_shelf_is_what_it_was_when_opened_again(path: Path) -> None:
    saved = save_shelf(SHELF, path)
    loaded = load_shelf(path)
    assert loaded == saved
    assert (loaded.value, loaded.read_only, loaded.why) == (SHELF, False, "")


def test_the_text_of_a_job_reads_as_it_was_said() -> None:
    said = (("mass", " 2 lb "), ("removed", "yearly"), ("onto", "20 ga steel"), ("item", "amplifier"))
    text = job_text(Job("", "", "", (Mount(" left amp ", said, pin=PIN),)))
    assert text == (
        "# Comments written here by hand are not kept when the program saves: every entry has a `note` for them.\n"
        "# A last line `# end` shows that the file is whole.\n"
        'format = 2\nkind = "job"\n'
        '\n[[mount]]\nname = "left amp"\nitem = "amplifier"\nonto = "20 ga steel"\nremoved = "yearly"\nmass = "2 lb"\n'
        '\n[mount.pin]\nmethod = "rivet_nut"\nthread = "M6"\nseries = "hexagon"\n'
        'receiver-length = "15.5 mm"\nscrew-length = "20 mm"\n'
        "\n# end\n"
    )


def test_the_text_of_a_shelf_has_units() -> None:
    text = shelf_text(SHELF)
    assert 'kind = "shelf"\ntitle = "Van"\ncurrency = "EUR"\n' in text
    assert text.endswith('length = "20 mm"\ncount = 12\npack = 50\nprice = 3.5\nnote = "top box"\n\n# end\n')


def test_a_length_in_inches_may_be_written_by_hand(path: Path) -> None:
    path.write_text('format = 1\nkind = "shelf"\n[[part]]\nkind = "screw"\nlength = "3/4 in"\ncount = 1\n')
    assert load_shelf(path).value.parts[0].part.length_mm == 19.05


def test_a_file_of_another_editor_is_read(path: Path) -> None:
    """A byte order mark and CRLF, in the middle of a note as well."""
    path.write_bytes(b"\xef\xbb\xbf" + job_text(JOB).replace("\n", "\r\n").encode())
    assert load_job(path, builtin()).value == JOB


def test_every_field_of_a_question_is_kept(path: Path) -> None:
    """The words are from the questions that `tests/test_question.py` reads."""
    said = {
        "item": "speaker adapter", "onto": "20 ga steel door", "removed": "Rarely", "mass": "2 lb", "fixings": "6",
        "pattern": "circle 165 mm", "item-thickness": "3/4 in", "item-hole": "5.5mm", "item-material": "MDF",
        "cg": "4 cm", "panel": "door", "between": "foam 3 mm", "behind": "40 mm", "edge": "1 in", "boss": "8x14 mm",
        "into": "edge", "reach": "both sides", "where": "underfloor", "visible": "YES", "grade": "a2-70",
        "body": "7.1 mm", "hole-there": "9 mm",
    }  # fmt: skip
    ordered = tuple((name, said[name]) for name in fields.NAMES if name in said)
    save_job(Job("", "", "", (Mount("all", ordered),)), path)
    assert load_job(path, builtin()).value.mounts[0].said == ordered


def test_the_previous_copy_is_kept(path: Path) -> None:
    first = save_job(JOB, path)
    save_job(OTHER, path, first.stamp)
    assert load_job(path.with_name("car.toml.previous"), builtin()).value == JOB
    assert sorted(found.name for found in path.parent.iterdir()) == ["car.toml", "car.toml.previous"]


def test_saving_the_same_again_keeps_the_previous_copy(path: Path) -> None:
    first = save_job(JOB, path)
    second = save_job(OTHER, path, first.stamp)
    assert save_job(OTHER, path, second.stamp) == second
    assert load_job(path.with_name("car.toml.previous"), builtin()).value == JOB


def test_a_file_changed_by_another_program_is_not_saved_over(path: Path) -> None:
    loaded = save_job(JOB, path)
    path.write_text(job_text(OTHER))
    error = refused(JOB, path, loaded.stamp)
    assert "another program changed the file" in error.what
    assert error.where == str(path)


def test_a_file_only_touched_by_another_program_is_saved(path: Path) -> None:
    loaded = save_job(JOB, path)
    os.utime(path, ns=(1, 1))
    assert not changed(path, loaded.stamp)
    assert save_job(OTHER, path, loaded.stamp).value == OTHER


def test_a_file_that_is_there_is_not_taken_for_a_new_one(path: Path) -> None:
    path.write_text("someone's own")
    assert "there is a file of this name already" in refused(JOB, path).what


def test_a_file_that_went_away_is_not_made_again_in_silence(path: Path) -> None:
    loaded = save_job(JOB, path)
    path.unlink()
    assert "gone" in refused(JOB, path, loaded.stamp).what
    assert save_job(JOB, path).value == JOB


@pytest.mark.parametrize("there", [True, False])
def test_of_saves_at_the_same_moment_one_wins(there: bool, path: Path) -> None:
    """Each was read from the same file: the others must not be lost in silence."""
    stamp = save_job(JOB, path).stamp if there else None

    def won(number: int) -> bool:
        try:
            return save_job(replace(JOB, title=f"number {number}"), path, stamp).value.title != ""
        except FastenError:
            return False

    with ThreadPoolExecutor(8) as pool:
        results = list(pool.map(won, range(40)))
    assert results.count(True) == 1
    assert load_job(path, builtin()).value.title == f"number {results.index(True)}"


def test_a_change_on_disk_is_seen(path: Path) -> None:
    loaded = save_job(JOB, path)
    assert not changed(path, loaded.stamp)
    path.write_text(job_text(OTHER))
    assert changed(path, loaded.stamp)
    path.unlink()
    assert changed(path, loaded.stamp)


def test_a_link_stays_a_link(tmp_path: Path, path: Path) -> None:
    (tmp_path / "real").mkdir()
    path.symlink_to(tmp_path / "real" / "shared.toml")
    first = save_job(JOB, path)
    save_job(OTHER, path, first.stamp)
    assert path.is_symlink()
    assert load_job(tmp_path / "real" / "shared.toml", builtin()).value == OTHER
    assert sorted(found.name for found in path.parent.iterdir()) == ["car.toml", "real"]


def test_a_link_that_leads_in_a_circle_is_refused(path: Path) -> None:
    path.symlink_to(path)
    assert "the file is not there" in refused(JOB, path).what
    assert path.is_symlink()


def test_who_may_read_a_file_stays(path: Path) -> None:
    first = save_job(JOB, path)
    path.chmod(0o640)
    save_job(OTHER, path, first.stamp)
    assert path.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("job", "told"),
    [
        (Job("", "", "", (Mount("", SAID),)), "mount 1, name: is empty"),
        (Job("", "", "", (Mount("\u200d ", SAID),)), "name: is empty"),
        (Job("", "", "", (Mount("x" * 10_000, SAID),)), "10000 characters long, at most 200"),
        (Job("", "", "", (Mount("a\x1b[2Jb", SAID),)), r"name: is 'a\x1b[2Jb', with a control"),
        (Job("", "", "", (Mount("a\nb", SAID),)), r"name: is 'a\nb', with a control"),
        (Job("", "", "", (Mount("a\u202eb", SAID),)), r"name: is 'a\u202eb', with a control"),
        (Job("", "", "", (Mount("a", SAID), Mount("b", SAID), Mount(" A ", SAID))), 'mount "A": mount 1 has this name'),
        (Job("", "", "", (Mount("a", (*SAID, ("colour", "red"))),)), "mount \"a\": the entry 'colour' is not known"),
        (Job("", "", "", (Mount("a", SAID, pin=replace(PIN, screw_length_mm=float("nan"))),)), "pin, screw-length: "),
        (Job("", "", "", (Mount("a", SAID, pin=replace(PIN, screw_length_mm=float("inf"))),)), "pin, screw-length: "),
        (Job("\udc80", "", "", ()), r"title: is '\udc80', with a control"),
        (Job("", "", "\r\n", ()), r"note: is '\r\n', with a control"),
        (Job("", "", "", (Mount("a", SAID, visits=(replace(BUILT, hole="x\0"),)),)), ", visit 1 (told), hole: "),
    ],
)
def test_what_could_not_be_opened_again_is_not_saved(job: Job, told: str, path: Path) -> None:
    error = refused(job, path)
    assert told in str(error)
    assert str(error).isprintable()


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"price": float("nan")}, "part 1 (screw M6), price: is nan, not a number"),
        ({"price": float("inf")}, "part 1 (screw M6), price: is inf, not a number"),
        ({"price": -1.0}, "part 1 (screw M6), price: is -1, it must be at least 0"),
        ({"count": -1}, "part 1 (screw M6), count: is -1, it must be at least 0"),
        ({"count": 10**30}, "count: is a number too large to show, it must be at most 1000000"),
        ({"pack": 0}, "part 1 (screw M6), pack: is 0, it must be at least 1"),
    ],
)
def test_a_shelf_that_could_not_be_opened_again_is_not_saved(change: dict[str, float], told: str, path: Path) -> None:
    part = replace(SHELF.parts[0], **change)  # type: ignore[arg-type]
    with pytest.raises(FastenError) as caught:
        save_shelf(replace(SHELF, parts=(part,)), path)
    assert told in str(caught.value)
    assert not path.exists()


def test_a_mount_point_can_be_checked_before_it_is_saved() -> None:
    check_mount(JOB.mounts[0], builtin())
    with pytest.raises(FastenError) as caught:
        check_mount(Mount("left amp", (*SAID, ("mass", "6"))), builtin())
    assert str(caught.value).startswith('mount "left amp", mass: 6 has no unit')


@pytest.mark.parametrize(
    "said",
    [
        (),
        SAID[:1],
        (("removed", "never"), ("mass", "6 kg")),
        (*SAID, ("fixings", "5"), ("pattern", "rectangle 240x180")),
    ],
    ids=["nothing", "an item", "no item", "fields that do not go together"],
)
def test_a_question_that_is_still_typed_opens_again(said: tuple[tuple[str, str], ...], path: Path) -> None:
    """The screen saves while one types: a kill then must not lock the job up."""
    job = replace(JOB, mounts=(*JOB.mounts, Mount("new", said)))
    save_job(job, path)
    assert load_job(path, builtin()).value == job


@pytest.mark.slow
def test_ten_thousand_mount_points_open(path: Path) -> None:
    mounts = tuple(Mount(f"amp {number}", SAID) for number in range(10_000))
    save_job(Job("", "", "", mounts), path)
    job = load_job(path, builtin()).value
    assert job.mounts == mounts
    assert "10000 mount points" in size_note(job)
    assert size_note(replace(job, mounts=mounts[: LARGE - 1])) == ""


@pytest.mark.slow
def test_what_is_too_large_to_open_is_not_saved(path: Path) -> None:
    job = Job("", "", "", tuple(Mount(f"amp {number}", SAID, "\n" * 10_000) for number in range(400)))
    assert "over 4 MB" in refused(job, path).what


LINES = st.text(st.characters(exclude_categories=("C", "Z"), include_characters=" \u00a0\u200d\"'\\#[]{}"), max_size=30)
PLAIN = LINES.map(str.strip)
NAMES = PLAIN.filter(lambda text: bool(text.strip("\u00a0\u202f\u200c\u200d ")))
NOTES = st.text(st.characters(exclude_categories=("C", "Z"), include_characters=" \n\t\"'\\#"), max_size=60)
LENGTHS = st.none() | st.floats(0.001, 20_000)
TEXTS = {
    "mass": ["6 kg", "2 lb", "0,8 kg"],
    "fixings": ["4", "6"],
    "behind": ["40 mm", '1 1/2"', "0 mm"],
    "between": ["foam 3 mm"],
    "edge": ["1 in"],
    "where": ["door", "Cabin"],
}
QUESTIONS = st.fixed_dictionaries(
    {"item": st.just("amplifier"), "onto": st.sampled_from(["steel 0.8 mm", "MDF 18 mm"]), "removed": st.just("Never")},
    optional={name: st.sampled_from(texts) for name, texts in TEXTS.items()},
).map(lambda said: tuple((name, said[name]) for name in fields.NAMES if name in said))
MOUNTS = st.builds(
    Mount,
    NAMES,
    QUESTIONS,
    NOTES,
    st.none() | st.builds(Pin, NAMES, PLAIN, PLAIN, LENGTHS, LENGTHS),
    st.lists(
        st.builds(
            Visit,
            PLAIN,
            PLAIN,
            PLAIN,
            PLAIN,
            NOTES,
            kind=st.sampled_from(VISIT_KINDS),
            sheet=PLAIN,
            by=PLAIN,
            photos=st.lists(NAMES, max_size=2).map(tuple),
        ),
        max_size=3,
    ).map(tuple),
)
JOBS = st.builds(
    Job, PLAIN, PLAIN, NOTES,
    st.lists(MOUNTS, max_size=4, unique_by=lambda mount: " ".join(mount.name.split()).casefold()).map(tuple),
    st.lists(LINES, max_size=3).map(tuple),
)  # fmt: skip
PARTS = st.builds(
    ShelfPart,
    st.builds(Part, NAMES, PLAIN, PLAIN, PLAIN, LENGTHS),
    st.integers(0, 1_000_000),
    st.none() | st.integers(1, 1_000_000),
    st.none() | st.floats(0, 1e9),
    NOTES,
)
LISTS = st.lists(NAMES, max_size=3).map(tuple)
SHELVES = st.builds(Shelf, PLAIN, PLAIN, NOTES, st.lists(PARTS, max_size=4).map(tuple), LISTS, LISTS, LISTS)
MANY = settings(max_examples=few(150), deadline=None, suppress_health_check=[HealthCheck.too_slow])


@pytest.mark.slow
@MANY
@given(JOBS)
@example(Job("", "", '\n"""\n# end\\', (Mount("#", SAID, "\n\n\\\n"),)))
@example(Job("", "", "", (Mount("a", SAID, "", Pin("x", "", "", None, None), (Visit("", "", "", "", ""),)),)))
def test_any_job_comes_back(job: Job) -> None:
    text = job_text(job)
    again, why = read_job(text.encode(), "car.toml", builtin())
    assert (again, why) == (job, "")
    assert job_text(again) == text


@pytest.mark.slow
@MANY
@given(SHELVES)
def test_any_shelf_comes_back(shelf: Shelf) -> None:
    text = shelf_text(shelf)
    again, why = read_shelf(text.encode(), "shelf.toml")
    assert (again, why) == (shelf, "")
    assert shelf_text(again) == text
