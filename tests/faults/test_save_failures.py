"""A save that fails leaves the old file as it was and nothing beside it, and says why."""

import errno
import os
import stat
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from built.few import few

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Job, Mount

from .had import as_nobody, own_folder, small_disk, small_files

ROOT = Path(__file__).parents[2]
KILLS, SCREENS = few(100, 25), few(25, 4)
SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
JOB = Job("Estate", "", "", (Mount("left amp", SAID),))
OTHER = Job("Van", "", "x" * 9_000, (Mount("right amp", SAID),))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "car.toml"


@pytest.fixture
def owned(tmp_path: Path) -> Iterator[Path]:
    """A folder of a user who is not root, as whom the test goes on: root may write anywhere."""
    save_job(JOB, tmp_path / "loaded.toml")  # whatever is imported on the way must be readable
    load_job(tmp_path / "loaded.toml", builtin())
    with own_folder() as folder, as_nobody():
        yield folder


def refused(path: Path, before: list[str]) -> FastenError:
    """The refusal of saving OTHER over JOB; the folder must hold just what it held."""
    with pytest.raises(FastenError) as caught:
        save_job(OTHER, path, load_job(path, builtin()).stamp)
    assert sorted(found.name for found in path.parent.iterdir()) == before
    assert load_job(path, builtin()).value == JOB
    assert caught.value.where == str(path)
    assert caught.value.fix
    return caught.value


def fail_at(call: int, number: int) -> Callable[..., int]:
    """A system call that fails the `call`th time it is made, and every time after."""
    calls = iter(range(call - 1, -1, -1))

    def failing(file: int, *rest: object) -> int:
        if next(calls, 0) == 0:
            raise OSError(number, os.strerror(number))
        return len(rest[0]) if rest else 0  # type: ignore[arg-type]

    return failing


@pytest.mark.parametrize("name", ["write", "fsync"])
@pytest.mark.parametrize("call", [1, 2])
@pytest.mark.parametrize(
    ("number", "told"),
    [
        (errno.ENOSPC, "not saved, the disk is full; nothing was overwritten"),
        (errno.EDQUOT, "not saved, the disk is full; nothing was overwritten"),
        (errno.EIO, "not saved, it cannot be written: input/output error; nothing was overwritten"),
    ],
)
def test_a_disk_that_fails_leaves_the_old_file(
    name: str, call: int, number: int, told: str, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the new file, and in the copy of the old one that is written after it."""
    save_job(JOB, path)
    with monkeypatch.context() as patched:
        patched.setattr(os, name, fail_at(call, number))
        with pytest.raises(FastenError) as caught:
            save_job(OTHER, path, load_job(path, builtin()).stamp)
    assert caught.value.what == told
    assert [found.name for found in path.parent.iterdir()] == ["car.toml"]
    assert load_job(path, builtin()).value == JOB


def test_a_full_disk_leaves_no_new_file(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patched:
        patched.setattr(os, "write", fail_at(1, errno.ENOSPC))
        with pytest.raises(FastenError, match="the disk is full"):
            save_job(JOB, path)
    assert list(path.parent.iterdir()) == []


def test_a_folder_that_cannot_be_closed_after_the_file_is_in_place_is_no_failed_save(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file holds what it should by then: to say that it is not saved would have somebody do it twice."""
    save_job(JOB, path)
    stamp, close = load_job(path, builtin()).stamp, os.close
    failed: list[int] = []

    def closing(file: int) -> None:
        is_folder = stat.S_ISDIR(os.fstat(file).st_mode)
        close(file)
        if is_folder:
            failed.append(file)
            raise OSError(errno.EIO, os.strerror(errno.EIO))

    with monkeypatch.context() as patched:
        patched.setattr(os, "close", closing)
        saved = save_job(OTHER, path, stamp)
    assert failed
    assert load_job(path, builtin()).value == saved.value == OTHER
    assert load_job(path, builtin()).stamp == saved.stamp


def test_a_disk_that_takes_a_few_bytes_at_a_time_gets_them_all(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write = os.write
    monkeypatch.setattr(os, "write", lambda file, data: write(file, data[:7]))
    save_job(OTHER, path)
    assert load_job(path, builtin()).value == OTHER


def test_a_disk_that_is_really_full(path: Path) -> None:
    with small_disk(path.parent):
        save_job(JOB, path)
        error = refused(path, ["car.toml"])
    assert error.what == "not saved, the disk is full; nothing was overwritten"


def test_a_limit_of_the_system_is_told(path: Path) -> None:
    save_job(JOB, path)
    with small_files(4096):
        error = refused(path, ["car.toml"])
    assert error.what == "not saved, it cannot be written: file too large; nothing was overwritten"


def test_a_folder_that_may_only_be_read(owned: Path) -> None:
    path = owned / "car.toml"
    save_job(JOB, path)
    owned.chmod(0o500)
    assert "not saved, the folder cannot be written to: permission denied" in refused(path, ["car.toml"]).what
    with pytest.raises(FastenError, match="the folder cannot be written to"):
        save_job(JOB, owned / "new.toml")


def test_a_file_that_may_only_be_read(owned: Path) -> None:
    """A new file could take its place, but whoever protected it did not want that."""
    path = owned / "car.toml"
    save_job(JOB, path)
    path.chmod(0o400)
    assert "the file is write-protected" in refused(path, ["car.toml"]).what


def test_a_file_that_may_not_be_read(owned: Path) -> None:
    path = owned / "car.toml"
    stamp = save_job(JOB, path).stamp
    path.chmod(0)
    with pytest.raises(FastenError, match="the file cannot be read: permission denied"):
        load_job(path, builtin())
    with pytest.raises(FastenError, match="the file cannot be read: permission denied"):
        save_job(OTHER, path, stamp)


def test_a_folder_that_may_not_be_entered(owned: Path) -> None:
    (owned / "in").mkdir()
    path = owned / "in" / "car.toml"
    stamp = save_job(JOB, path).stamp
    (owned / "in").chmod(0)
    with pytest.raises(FastenError, match="the file cannot be read: permission denied"):
        load_job(path, builtin())
    with pytest.raises(FastenError, match="permission denied"):
        save_job(OTHER, path, stamp)
    (owned / "in").chmod(0o700)
    assert load_job(path, builtin()).value == JOB


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("gone/car.toml", "not saved, the folder is not there"),
        ("file/car.toml", "not saved, it cannot be written: not a directory"),
        ("x" * 247, "not saved, the name of the file is 247 bytes long, at most 246"),
        ("a\0b", "not saved, it cannot be written: "),
        ("folder", "a folder stands where the file should be"),
    ],
)
def test_a_path_where_nothing_can_be_saved(name: str, told: str, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    (tmp_path / "folder").mkdir()
    with pytest.raises(FastenError) as caught:
        save_job(JOB, tmp_path / name)
    assert caught.value.what.startswith(told)
    assert str(caught.value).isprintable()


def test_a_folder_in_the_place_of_the_previous_copy(path: Path) -> None:
    save_job(JOB, path)
    path.with_name("car.toml.previous").mkdir()
    assert "it cannot be written" in refused(path, ["car.toml", "car.toml.previous"]).what


def test_the_longest_file_name_can_be_saved_again(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 241 + ".toml")
    save_job(OTHER, path, save_job(JOB, path).stamp)
    assert sorted(found.name for found in tmp_path.iterdir()) == [path.name, f"{path.name}.previous"]


def test_what_a_killed_save_left_goes_at_the_next(path: Path) -> None:
    save_job(JOB, path)
    seen: list[str] = []
    replace = os.replace

    def killed(part: Path, _: Path) -> None:
        seen.append(Path(part).name)
        raise SystemExit

    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(os, "replace", killed)
        patched.setattr(Path, "unlink", lambda _: None)
        with pytest.raises(SystemExit):
            save_job(OTHER, path, load_job(path, builtin()).stamp)
    left = sorted(found.name for found in path.parent.iterdir() if found != path)
    assert len(left) == 2
    assert seen[0] in left
    assert os.replace is replace
    (path.parent / ".fasten-of-another.part").touch()
    save_job(OTHER, path, load_job(path, builtin()).stamp)
    assert sorted(found.name for found in path.parent.iterdir()) == [
        ".fasten-of-another.part", "car.toml", "car.toml.previous",
    ]  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "told"),
    [([str(KILLS)], f"{KILLS} kills, "), ([str(SCREENS), "--screen"], f"{SCREENS} kills of the screen, ")],
)
def test_kills_at_random_moments_leave_whole_files(words: list[str], told: str) -> None:
    """`tests/benchmarks/kill_saves.py` compares the files after each kill and gives up at the first broken one."""
    if not hasattr(os, "fork"):
        pytest.skip("it forks")
    command = [sys.executable, "tests/benchmarks/kill_saves.py", "--seed", "7", *words]
    run = subprocess.run(
        command, cwd=ROOT, env={**os.environ, "PYTHONPATH": "."}, capture_output=True, text=True, check=False
    )
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.startswith(told)
    assert run.stdout.endswith("every file whole, 0 parts left after a save\n")
