"""Every command that writes or reads a file, and every fault that files, folders and other programs have.

Each ends in 2 and one sentence that says what, where and what to do; nothing is lost, and no file is left half written.
"""

import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from built.few import few, sample

import fasten.job.store.files as job_files
import fasten.job.store.storage as job_storage
from fasten.__main__ import main
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Mount

from .commands import AMP, ASKED, INTO_JOB, JOB, OVER, READING, ROOT, WRITING, Told, environment
from .had import files, small_disk, small_files

pytestmark = pytest.mark.slow

READ_ANEW = {"pick", "built"}  # where others change the job meanwhile, they read it and change it once more
SHARED = {name: words for name, words in WRITING.items() if words[0] in READ_ANEW}
MOST = sample(list(WRITING), 7)
every_write = pytest.mark.parametrize("words", [WRITING[name] for name in MOST], ids=MOST)
MANY = few(8, 4)  # programs at once
SMALL = 7_000  # bytes of a file: more than the job of the example, fewer than its shelf
SOME = sample(list(WRITING), 4)  # one that changes a job, one that goes over a file, and some that begin one
some_writes = pytest.mark.parametrize("words", [WRITING[name] for name in SOME], ids=SOME)
READ = sample(list(READING), 4)
some_reads = pytest.mark.parametrize("words", [READING[name] for name in READ], ids=READ)


@pytest.fixture
def just_before_writing(monkeypatch: pytest.MonkeyPatch) -> Callable[[Callable[[Path], object]], None]:
    """Has something happen after a command has read all that it reads, right before the first file is written."""

    def arranged(happens: Callable[[Path], object]) -> None:
        write = job_files.write_file
        once = iter((happens,))

        def writing(path: Path, *rest: Any) -> Any:
            for due in once:
                due(path)
            return write(path, *rest)

        monkeypatch.setattr(job_files, "write_file", writing)
        monkeypatch.setattr(job_storage, "write_file", writing)

    return arranged


# -- writing ----------------------------------------------------------------------------------------------------------


@every_write
def test_each_writes_where_nothing_is_wrong(words: tuple[str, ...], car: Path) -> None:
    """Or the refusals below would prove nothing."""
    before = files(car)
    assert main(list(words)) in {0, 1}
    assert files(car) != before


@every_write
def test_a_disk_that_takes_no_more(words: tuple[str, ...], car: Path, told: Told) -> None:
    before = files(car)
    with small_files():
        assert "not saved, it cannot be written: file too large; nothing was overwritten" in told(words)
    assert files(car) == before


@some_writes
def test_a_disk_that_is_really_full(words: tuple[str, ...], car: Path, told: Told) -> None:
    kept = {path.name: path.read_bytes() for path in (car / "car").iterdir()}
    with small_disk(car / "car", "16k"):
        for name, content in kept.items():
            (car / "car" / name).write_bytes(content)
        with suppress_full(), (car / "car" / "fill").open("wb", buffering=0) as file:
            while file.write(b"\0" * 4096):
                pass
        before = files(car)
        assert "not saved, the disk is full; nothing was overwritten; make room" in told(words)
        assert files(car) == before


@contextmanager
def suppress_full() -> Iterator[None]:
    try:
        yield
    except OSError as error:
        assert error.strerror == "No space left on device"  # noqa: PT017 (what fills the disk, not what is tested)


def test_half_an_example_is_not_left_behind(car: Path, told: Told) -> None:
    """Its job is written by then, and would bar the way to another try."""
    assert len((ROOT / "fasten" / "demo" / "job.toml").read_bytes()) < SMALL
    assert len((ROOT / "fasten" / "demo" / "shelf.toml").read_bytes()) > SMALL
    with small_files(SMALL):
        assert "shelf.toml: not saved" in told(("demo", "--copy", "car/demo"))
    assert files(car / "car" / "demo") == {}
    assert main(["demo", "--copy", "car/demo"]) == 0


@some_writes
def test_a_folder_that_goes_while_the_command_is_at_work(
    words: tuple[str, ...], car: Path, told: Told, just_before_writing: Callable[[Callable[[Path], object]], None]
) -> None:
    just_before_writing(lambda _: shutil.rmtree(car / "car"))
    said = told(words)
    assert "the file is gone since it was read" in said or "not saved, the folder is not there" in said
    assert not (car / "car").exists()


@every_write
def test_another_program_writes_the_file_meanwhile(
    words: tuple[str, ...], car: Path, told: Told, just_before_writing: Callable[[Callable[[Path], object]], None]
) -> None:
    written: list[Path] = []

    def other(path: Path) -> None:
        written.append(path)
        path.write_bytes(b"theirs")

    just_before_writing(other)
    said = told(words)
    if words[0] in READ_ANEW:
        assert "not TOML" in said, "it was read anew"
    else:
        assert "another program changed the file" in said or "there is a file of this name already" in said
    assert written[0].read_bytes() == b"theirs"


@pytest.mark.parametrize("words", SHARED.values(), ids=list(SHARED))
def test_a_job_that_another_command_saves_meanwhile_keeps_what_both_did(
    words: tuple[str, ...], car: Path, just_before_writing: Callable[[Callable[[Path], object]], None]
) -> None:
    """A mount point comes in from elsewhere, or the whole job does that is to be begun."""
    just_before_writing(lambda path: write_anew(path, "theirs"))
    assert main(list(words)) == 0
    path = next(car / word for word in words if word.endswith(".toml"))
    mounts = {mount.name: mount for mount in load_job(path, builtin()).value.mounts}
    assert "theirs" in mounts
    assert ("amp" if "new" in path.name else "other amp") in mounts or mounts["amp"].built is not None


@pytest.mark.parametrize("words", SHARED.values(), ids=list(SHARED))
def test_a_job_that_is_saved_again_and_again_is_given_up_in_the_end(
    words: tuple[str, ...], car: Path, told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = job_files.write_file
    times: list[Path] = []

    def writing(path: Path, *rest: Any) -> Any:
        monkeypatch.setattr(job_storage, "write_file", write)
        write_anew(path, f"theirs {len(times)}")
        monkeypatch.setattr(job_storage, "write_file", writing)
        times.append(path)
        return write(path, *rest)

    monkeypatch.setattr("fasten.commands._jobs._MOMENT_S", 0.0)
    monkeypatch.setattr(job_storage, "write_file", writing)
    said = told(words)
    assert "another program changed the file since it was read; nothing was overwritten" in said
    assert len(times) == 40
    (path,) = set(times)
    assert {mount.name for mount in load_job(path, builtin()).value.mounts} >= {f"theirs {n}" for n in range(40)}


def write_anew(path: Path, name: str) -> None:
    """Add a mount point to a job, as another command does."""
    loaded = load_job(path, builtin()) if path.exists() else None
    job = loaded.value if loaded else replace(JOB, mounts=())
    save_job(replace(job, mounts=(*job.mounts, Mount(name, AMP))), path, loaded.stamp if loaded else None)


@some_writes
def test_another_program_holds_the_folder_and_stands_still(
    words: tuple[str, ...], car: Path, told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(job_files, "_PATIENCE", 2)
    (car / "car" / "demo").mkdir()
    before = files(car)
    held = [os.open(car / "car" / name, os.O_RDONLY) for name in (".", "demo")]
    try:
        for folder in held:
            fcntl.flock(folder, fcntl.LOCK_EX)
        assert "another program holds the folder" in told(words)
    finally:
        for folder in held:
            os.close(folder)
    assert files(car) == before


@some_writes
@pytest.mark.parametrize("mode", [0o500, 0], ids=["may only be read", "may not be entered"])
def test_a_folder_that(mode: int, words: tuple[str, ...], owned: Path, told: Told) -> None:
    before = files(owned)
    (owned / "car").chmod(mode)
    assert "permission denied" in told(words)
    (owned / "car").chmod(0o700)
    assert files(owned) == before


@pytest.mark.parametrize("words", (INTO_JOB | OVER).values(), ids=list(INTO_JOB | OVER))
def test_a_file_that_may_only_be_read(words: tuple[str, ...], owned: Path, told: Told) -> None:
    for path in (owned / "car").iterdir():
        path.chmod(0o400)
    before = files(owned)
    assert "the file is write-protected; nothing was overwritten" in told(words)
    assert files(owned) == before


IN_THE_WAY: dict[str, Callable[[Path], object]] = {
    "a folder": Path.mkdir,
    "a pipe": os.mkfifo,
    "a link to itself": lambda path: path.symlink_to(path.name),
    "a link to nothing": lambda path: path.symlink_to("nothing"),
}


@pytest.mark.parametrize("put", IN_THE_WAY.values(), ids=list(IN_THE_WAY))
def test_something_in_the_way_is_not_written_to(put: Callable[[Path], object], car: Path, told: Told) -> None:
    (car / "car" / "job.toml").unlink()
    (car / "car" / "old").unlink()
    put(car / "car" / "job.toml")
    put(car / "car" / "old")
    before = {path: path.lstat().st_mode for path in car.rglob("*")}
    for words in (*INTO_JOB.values(), *(OVER.values() if put is not Path.mkdir else ())):
        told(words)
    told(("hardware", "job.toml", "--out", "job.toml/x"))
    told(("demo", "--copy", "job.toml"))
    assert {path: path.lstat().st_mode for path in car.rglob("*")} == before


def test_an_example_is_not_copied_through_a_link(car: Path, told: Told) -> None:
    (car / "car" / "shelf.toml").symlink_to(car / "elsewhere.toml")
    assert "shelf.toml are there already, nothing was copied" in told(("demo", "--copy", "car"))
    assert not (car / "elsewhere.toml").exists()


def test_of_many_programs_that_change_one_job_none_loses_what_another_did(car: Path) -> None:
    """Each finds the job changed by others, reads it anew and saves what it did."""
    programs = [
        subprocess.Popen(
            [sys.executable, "-m", "fasten", "pick", *ASKED, "--into-job", "car/job.toml", "--name", f"amp {number}"],
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, cwd=car, env=environment(),
        )
        for number in range(MANY)
    ]  # fmt: skip
    said = [program.communicate()[1] for program in programs]
    kept = {mount.name for mount in load_job(car / "car" / "job.toml", builtin()).value.mounts}
    assert [program.returncode for program in programs] == [0] * MANY, said
    assert kept == {"amp", "cover"} | {f"amp {number}" for number in range(MANY)}
    assert said == [f"fasten: amp {number} is saved in car/job.toml\n" for number in range(MANY)]


def test_no_clock_decides_whether_a_job_has_changed(car: Path) -> None:
    """It may have been set back since, and what another program writes may be of the same size and time."""
    path = car / "car" / "job.toml"
    loaded = load_job(path, builtin())
    os.utime(path, (2**33, 2**33))
    for words in INTO_JOB.values():
        assert main(list(words)) in {0, 1}
    as_it_was = path.stat()
    loaded = load_job(path, builtin())
    path.write_text(path.read_text(encoding="utf-8").replace("Estate", "Saloon"), encoding="utf-8")
    os.utime(path, ns=(as_it_was.st_atime_ns, as_it_was.st_mtime_ns))
    assert path.stat().st_size == as_it_was.st_size
    assert job_files.changed(path, loaded.stamp)
    with pytest.raises(FastenError, match="another program changed the file"):
        save_job(JOB, path, loaded.stamp)


# -- reading ----------------------------------------------------------------------------------------------------------


def written(content: bytes) -> Callable[[Path], object]:
    return lambda path: path.write_bytes(content)


def huge(path: Path) -> None:
    path.touch()
    os.truncate(path, 100_000_000)


BROKEN: dict[str, tuple[Callable[[Path], object], str]] = {
    "a folder": (Path.mkdir, "a folder stands where the file should be"),
    "a pipe": (os.mkfifo, "not a plain file"),
    "a link to itself": (lambda path: path.symlink_to(path.name), "is not there"),
    "a link to nothing": (lambda path: path.symlink_to("nothing"), "is not there"),
    "nothing in it": (written(b""), "the file is empty"),
    "cut short": (written(b'format = 1\nkind = "job"\ntitle = "Es'), "line 3"),
    "no text": (written(b"\xff\xfe\x00a"), "line 1 is not UTF-8 text"),
    "a null": (written(b'format = 1\nkind = "job"\ntitle = "a\x00b"\n'), "line 3"),
    "100 MB": (huge, "over 16 MB"),
    "of another sort": (written(b'format = 1\nkind = "recipe"\n'), "kind is 'recipe'"),
}


def on_file(words: tuple[str, ...], name: str) -> tuple[str, ...]:
    return tuple(name if word == "FILE" else word for word in words) if "FILE" in words else (*words, name)


@pytest.mark.parametrize("words", READING.values(), ids=list(READING))
def test_a_file_that_cannot_be_used_is_told_and_left_alone(words: tuple[str, ...], car: Path, told: Told) -> None:
    for number, (make, why) in enumerate(BROKEN.values()):
        path = car / f"broken-{number}.toml"
        make(path)
        before = path.lstat()
        said = told(on_file(words, path.name))
        assert why in said
        assert path.name in said
        assert (path.lstat().st_ino, path.lstat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


@some_reads
def test_a_file_that_may_not_be_read(words: tuple[str, ...], owned: Path, told: Told) -> None:
    (owned / "closed.toml").write_text("")
    (owned / "closed.toml").chmod(0)
    assert "closed.toml: the file cannot be read: permission denied" in told(on_file(words, "closed.toml"))
    (owned / "car").chmod(0)
    assert "permission denied" in told(on_file(words, "car/job.toml"))


@some_reads
def test_a_file_of_another_editor_is_read(
    words: tuple[str, ...], car: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With a byte order mark, and lines that end in two characters."""
    name = "shelf.toml" if "--shelf" in words else "job.toml"
    other = car / "other.toml"
    said = []
    for content in ((car / name).read_bytes(), b"\xef\xbb\xbf" + (car / name).read_bytes().replace(b"\n", b"\r\n")):
        other.write_bytes(content)
        code = main(list(on_file(words, "other.toml")))
        said.append((code, capsys.readouterr()))
    assert said[0] == said[1]
    assert said[0][0] in {0, 1}
