"""What this version of the program wrote last is read without being checked again; all else is checked."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store import after_toml, job_toml, mount_toml, written
from fasten.job.store.check import JobFile, checked, keys_of, known_only
from fasten.job.store.files import Stamp, read_file
from fasten.job.store.job_toml import read_job
from fasten.job.store.parse import parse
from fasten.job.store.shelf_toml import read_shelf
from fasten.job.store.storage import job_text, load_job, load_shelf, save_job, save_shelf, shelf_text
from fasten.job.store.written import Written
from fasten.job.words import Job, Mount, Shelf

from .test_line_ids import LATER
from .test_storage import JOB, JOBS, MANY, SHELF, SHELVES

ASKED = (("item", "amplifier"), ("onto", "steel 0.8 mm"))
PLAIN = Job("Estate", "", "of nobody", (Mount("left", ASKED, note="to see"), Mount("right", ASKED)), packed=("a b",))


@pytest.mark.slow
@MANY
@given(JOBS)
@example(read_job(LATER.encode(), "car.toml", builtin())[0])
def test_any_job_that_the_program_wrote_reads_the_same_unchecked(job: Job) -> None:
    text = job_text(job).encode()
    assert read_job(text, "car.toml", builtin(), own=True) == read_job(text, "car.toml", builtin())


@pytest.mark.slow
@MANY
@given(SHELVES)
def test_any_shelf_that_the_program_wrote_reads_the_same_unchecked(shelf: Shelf) -> None:
    text = shelf_text(shelf).encode()
    assert read_shelf(text, "shelf.toml", own=True) == read_shelf(text, "shelf.toml")


def checked_anew(content: bytes) -> Job:
    data = parse(content, "")
    kept = job_toml._job(checked(known_only(data, JobFile), JobFile, ""), "")
    return job_toml._with_unknown(kept, data, "")


@pytest.mark.slow
@MANY
@given(JOBS)
@example(PLAIN)
def test_any_job_of_plain_texts_reads_as_if_it_was_checked(job: Job) -> None:
    content = job_text(job).encode()
    assert job_toml._plain_job(parse(content, ""), content, "") in (None, checked_anew(content))


def test_a_job_as_the_program_writes_it_needs_no_check() -> None:
    content = job_text(PLAIN).encode()
    assert job_toml._plain_job(parse(content, ""), content, "") == checked_anew(content) == PLAIN


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("# end\n", "# end\n\n"),
        ('title = "Estate"', "title = 3"),
        ('title = "Estate"', 'title = "Estate "'),
        ('title = "Estate"', f'title = "{"E" * 201}"'),
        ('title = "Estate"', 'title = "Est\\u0007ate"'),
        ('title = "Estate"', 'title = "Est\\u200date"'),
        ('title = "Estate"', 'title = "Estate"\nnew = "entry"'),
        ('title = "Estate"', 'title = ["Estate"]'),
        ('"a b"', '"a b",\n    ""'),
        ('"a b"', '"a  b "'),
        ('name = "left"', 'name = ""'),
        ('name = "left"\n', ""),
        ('name = "left"', 'name = "right"'),
        ('name = "left"', 'name = "left"\ncolour = "red"'),
        ("format = 2", "format = 1"),
    ],
)
def test_a_job_that_says_it_otherwise_is_checked(was: str, now: str) -> None:
    text = job_text(PLAIN)
    assert was in text
    content = text.replace(was, now, 1).encode()
    assert job_toml._plain_job(parse(content, ""), content, "") is None


def test_a_job_and_a_shelf_read_the_same_unchecked() -> None:
    text = job_text(JOB).encode()
    own, checked = (read_job(text, "car.toml", builtin(), own=own) for own in (True, False))
    assert own == checked
    assert own == (JOB, "")
    later = job_text(read_job(LATER.encode(), "car.toml", builtin())[0]).encode()
    assert read_job(later, "car.toml", builtin(), own=True) == read_job(later, "car.toml", builtin())
    text = shelf_text(SHELF).encode()
    assert read_shelf(text, "shelf.toml", own=True) == read_shelf(text, "shelf.toml")
    assert read_shelf(text, "shelf.toml", own=True) == (SHELF, "")


def test_the_keys_that_are_read_are_those_that_are_checked() -> None:
    assert keys_of() == job_toml.JOB_KEYS
    assert set(mount_toml.MOUNT_KEYS) == set(keys_of("mount"))
    assert (keys_of("pin"), keys_of("built")) == (after_toml.PIN_KEYS, after_toml.BUILT_KEYS)
    assert keys_of("visit") == after_toml.VISIT_KEYS
    assert keys_of("repair") == after_toml.REPAIR_KEYS


def test_what_was_saved_is_known_until_anything_else_changes_it(tmp_path: Path) -> None:
    kept, path = Written(tmp_path / "state"), tmp_path / "car.toml"
    saved = save_job(JOB, path, written=kept)
    assert kept.knows(saved.stamp)
    assert load_job(path, builtin(), kept) == saved
    path.write_text(path.read_text().replace('title = "Estate"', "title = 3"))
    assert not kept.knows(read_file(path)[1])
    with pytest.raises(FastenError, match="title: is 3, not text"):
        load_job(path, builtin(), kept)


def test_a_shelf_is_known_likewise(tmp_path: Path) -> None:
    kept, path = Written(tmp_path / "state"), tmp_path / "shelf.toml"
    saved = save_shelf(SHELF, path, written=kept)
    assert kept.knows(saved.stamp)
    assert load_shelf(path, kept) == saved


def test_what_another_version_wrote_is_checked(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    kept = Written(tmp_path / "state")
    stamp = save_job(JOB, tmp_path / "car.toml", written=kept).stamp
    monkeypatch.setattr(written, "__version__", "99.0")
    assert not kept.knows(stamp)


def test_a_folder_that_cannot_be_written_costs_time_alone(tmp_path: Path) -> None:
    (tmp_path / "state").write_text("in the way")
    for kept in (Written(tmp_path / "state"), Written(tmp_path / "state" / "deeper"), Written()):
        path = tmp_path / "car.toml"
        path.unlink(missing_ok=True)
        assert load_job(save_job(JOB, path, written=kept).path, builtin(), kept).value == JOB


def test_only_the_newest_are_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(written, "MOST", 3)
    kept = Written(tmp_path)
    stamps = [Stamp(f"{number}".encode()) for number in range(5)]
    for at, stamp in enumerate(stamps):
        kept.note(stamp)
        entry = next(path for path in tmp_path.iterdir() if path.name.endswith(stamp.digest))
        os.utime(entry, (at, at))
    assert [kept.knows(stamp) for stamp in stamps] == [False, False, True, True, True]


RUN = """import sys
from fasten.__main__ import main
main(sys.argv[1:])
print("pydantic" in sys.modules, file=sys.stderr)
"""


@pytest.mark.slow
def test_ready_of_an_own_job_loads_no_checker_and_says_the_same(tmp_path: Path) -> None:
    path, other = tmp_path / "car.toml", tmp_path / "other.toml"
    plain = replace(JOB, mounts=tuple(replace(mount, pin=None, visits=()) for mount in JOB.mounts))
    save_job(plain, path, written=Written(tmp_path / "data" / "written"))
    other.write_text(path.read_text() + "# touched\n")
    environment = {**os.environ, "FASTEN_DATA": str(tmp_path / "data")}
    found = [
        subprocess.run(
            [sys.executable, "-c", RUN, "ready", str(one)], env=environment, capture_output=True, text=True, check=False
        )
        for one in (path, other)
    ]
    assert found[0].stdout == found[1].stdout != ""
    assert [run.stderr.strip().splitlines()[-1] for run in found] == ["False", "True"]
