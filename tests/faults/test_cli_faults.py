"""Every command that writes or reads a file, and every fault that files, folders, streams and other programs have.

Each ends in 2 and one sentence that says what, where and what to do; nothing is lost, and no file is left half written.
"""

import fcntl
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

import fasten.job.files as job_files
import fasten.job.storage as job_storage
from fasten.__main__ import main
from fasten.catalog.tables import builtin
from fasten.commands._folders import jobs_folder
from fasten.commands._tables import overlay_folder
from fasten.errors import FastenError
from fasten.job.storage import load_job, save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf

from .had import as_nobody, files, own_folder, small_disk, small_files

ROOT = Path(__file__).parents[2]
AMP = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("behind", "40 mm"), ("edge", "40 mm"))
COVER = (("item", "trim-panel"), ("onto", "MDF 18 mm"), ("removed", "monthly"), ("edge", "40 mm"))
JOB = Job("Estate", "", "", (Mount("amp", AMP), Mount("cover", COVER)))
ASKED = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly")
# Each writes into the folder `car`; those of a job that is there change it.
INTO_JOB = {
    "pick": ("pick", *ASKED, "--into-job", "car/job.toml", "--name", "other amp"),
    "built": ("built", "car/job.toml", "amp", "--torque", "2 N·m"),
    "instead": ("instead", "car/job.toml", "amp", "--length", "20mm", "--pin"),
    "fewest": ("fewest", "car/job.toml", "--keep"),
}
OVER = {
    f"{words[0]} over a file": (*words, "--force", "--out", "car/old.txt")
    for words in (("hardware", "job.toml"), ("work", "job.toml"), ("template", "job.toml", "amp"))
}
ANEW = {
    "pick, a new job": ("pick", *ASKED, "--into-job", "car/new.toml", "--name", "amp"),
    "hardware": ("hardware", "job.toml", "--format", "csv", "--out", "car/new.csv"),
    "work": ("work", "job.toml", "--json", "--out", "car/new.json"),
    "template": ("template", "job.toml", "amp", "--out", "car"),
    "demo": ("demo", "--copy", "car/demo"),
}
WRITING = INTO_JOB | OVER | ANEW
READING = {
    "pick": ("pick", *ASKED, "--name", "other amp", "--into-job"), "built": ("built", "--note=n", "--", "FILE", "amp"),
    "instead": ("instead", "--length", "20mm", "FILE", "amp"), "fewest": ("fewest",), "hardware": ("hardware",),
    "ready": ("ready",), "work": ("work",), "template": ("template", "FILE", "amp"),
    "a shelf": ("ready", "job.toml", "--shelf"), "a shelf to pick from": ("pick", *ASKED, "--shelf"),
}  # fmt: skip
Told = Callable[[tuple[str, ...]], str]
every_write = pytest.mark.parametrize("words", WRITING.values(), ids=list(WRITING))


def filled(folder: Path) -> Path:
    """A folder to stand in, with a job of its own, and jobs and documents in the folder `car`."""
    (folder / "car").mkdir()
    for path in (folder / "job.toml", folder / "car" / "job.toml"):
        save_job(JOB, path)
    save_shelf(Shelf("", "", "", (), ("5 mm",), (), ()), folder / "shelf.toml")
    (folder / "car" / "old.txt").write_text("an older document\n", encoding="utf-8")
    return folder


@pytest.fixture(autouse=True)
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without tables of whoever runs the test, and as a person sees it."""
    monkeypatch.setenv("FASTEN_TABLES", str(ROOT / "no-such-folder"))
    monkeypatch.delenv("FASTEN_DEBUG", raising=False)


@pytest.fixture
def car(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(filled(tmp_path))
    return tmp_path


@pytest.fixture(scope="session")
def imported(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Whatever the commands import is loaded: not everybody may read it."""
    folder = filled(tmp_path_factory.mktemp("imported"))
    with pytest.MonkeyPatch.context() as here:
        here.chdir(folder)
        here.setenv("FASTEN_TABLES", str(ROOT / "no-such-folder"))
        for words in (*WRITING.values(), ("ready", "job.toml", "--shelf", "shelf.toml")):
            assert main(list(words)) in {0, 1}


@pytest.fixture
def owned(imported: None, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The same of a user who is not root, as whom the test goes on."""
    with own_folder() as folder, monkeypatch.context() as here, as_nobody():
        here.chdir(filled(folder))
        yield folder


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Told:
    """Runs a command line that is refused; the one sentence it says."""

    def run(words: tuple[str, ...]) -> str:
        capsys.readouterr()
        code = main(list(words))
        said = capsys.readouterr()
        assert (code, said.out) == (2, ""), said
        assert said.err.startswith("fasten: ")
        assert said.err.count("\n") == 1
        assert said.err.rstrip("\n").isprintable()
        assert "; " in said.err, "it says what to do"
        return said.err

    return run


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


@every_write
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
    assert len((ROOT / "fasten" / "demo" / "job.toml").read_bytes()) < 3_000
    assert len((ROOT / "fasten" / "demo" / "shelf.toml").read_bytes()) > 3_000
    with small_files(3_000):
        assert "shelf.toml: not saved" in told(("demo", "--copy", "car/demo"))
    assert files(car / "car" / "demo") == {}
    assert main(["demo", "--copy", "car/demo"]) == 0


@every_write
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
    assert "another program changed the file" in said or "there is a file of this name already" in said
    assert written[0].read_bytes() == b"theirs"


@every_write
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


@every_write
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
    (car / "car" / "old.txt").unlink()
    put(car / "car" / "job.toml")
    put(car / "car" / "old.txt")
    before = {path: path.lstat().st_mode for path in car.rglob("*")}
    for words in (*INTO_JOB.values(), *(OVER.values() if put is not Path.mkdir else ())):
        told(words)
    told(("hardware", "job.toml", "--out", "job.toml/x"))
    told(("demo", "--copy", "job.toml"))
    assert {path: path.lstat().st_mode for path in car.rglob("*")} == before


def test_an_example_is_not_copied_through_a_link(car: Path, told: Told) -> None:
    (car / "car" / "shelf.toml").symlink_to(car / "elsewhere.toml")
    assert "shelf.toml is there already, nothing was copied" in told(("demo", "--copy", "car"))
    assert not (car / "elsewhere.toml").exists()


def test_of_many_programs_that_change_one_job_none_loses_what_another_did(car: Path) -> None:
    """Each is told that it is saved, or that it is not."""
    programs = [
        subprocess.Popen(
            [sys.executable, "-m", "fasten", "pick", *ASKED, "--into-job", "car/job.toml", "--name", f"amp {number}"],
            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, cwd=car, env=environment(),
        )
        for number in range(8)
    ]  # fmt: skip
    said = [program.communicate()[1] for program in programs]
    kept = {mount.name for mount in load_job(car / "car" / "job.toml", builtin()).value.mounts}
    saved = {f"amp {number}" for number, program in enumerate(programs) if program.returncode == 0}
    assert kept == {"amp", "cover"} | saved
    assert saved
    for number, program in enumerate(programs):
        is_kept = f"amp {number}" in saved
        assert program.returncode == (0 if is_kept else 2)
        assert (f"amp {number} is saved" if is_kept else "another program changed the file") in said[number]
        assert said[number].count("\n") == 1


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


@pytest.mark.parametrize("words", READING.values(), ids=list(READING))
def test_a_file_that_may_not_be_read(words: tuple[str, ...], owned: Path, told: Told) -> None:
    (owned / "closed.toml").write_text("")
    (owned / "closed.toml").chmod(0)
    assert "closed.toml: the file cannot be read: permission denied" in told(on_file(words, "closed.toml"))
    (owned / "car").chmod(0)
    assert "permission denied" in told(on_file(words, "car/job.toml"))


@pytest.mark.parametrize("words", READING.values(), ids=list(READING))
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


# -- what is printed --------------------------------------------------------------------------------------------------


def environment(**more: str) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name not in ("PYTHONUNBUFFERED", "FASTEN_DEBUG")}
    return kept | {"FASTEN_TABLES": str(ROOT / "no-such-folder"), "PYTHONPATH": str(ROOT)} | more


def shell(line: str, folder: Path, **more: str) -> tuple[int, str, str]:
    """What a line of the shell ends in, prints and says; `fasten` in it is the program."""
    command = f'fasten() {{ "{sys.executable}" -m fasten "$@"; }}; {line}'
    run = subprocess.run(
        ["sh", "-c", command], cwd=folder, env=environment(**more), capture_output=True, text=True, check=False
    )
    return run.returncode, run.stdout, run.stderr


NOT_TAKEN = (
    "fasten: the answer could not be written out: no space left on device; send it somewhere else, or make room\n"
)
PRINTING = ("look M6", "--help", "work job.toml", "tables --json")


@pytest.mark.parametrize("line", [*PRINTING, "look M6, unbuffered"])
def test_a_report_that_no_disk_takes(line: str, car: Path) -> None:
    if not os.path.exists("/dev/full"):
        pytest.skip("this system has no disk that is always full")
    command, _, unbuffered = line.partition(", ")
    assert shell(f"fasten {command} >/dev/full", car, PYTHONUNBUFFERED=unbuffered) == (2, "", NOT_TAKEN)


@pytest.mark.parametrize("line", PRINTING)
def test_a_report_that_nobody_wants(line: str, car: Path) -> None:
    """As `head` leaves when it has enough, and as a stream is closed from the start."""
    assert shell(f"fasten {line} | true", car) == (0, "", "")
    code, out, said = shell(f"fasten {line} >&-", car)
    assert code in {0, 1}
    assert (out, said) == ("", "") or "--help" in line  # which argparse then says on stderr


def test_what_is_said_and_nobody_hears_does_not_stop_the_work_nor_lands_in_the_report(car: Path) -> None:
    words = f"fasten pick amplifier --onto 'steel 0.8 mm' --removed yearly --into-job {car}/job.toml --json --name"
    _, plain, said = shell(f"{words} 'amp 1'", car)
    assert "amp 1 is saved" in said
    for number, away in enumerate(("2>&-", "2>/dev/full", "2>/dev/full 1>&2 || true; echo done"), 2):
        code, out, said = shell(f"{words} 'amp {number}' {away}", car)
        assert code == 0
        assert (out, said) == (plain if number < 4 else "done\n", "")
    assert shell("fasten frobnicate 2>&-", car) == (2, "", "")
    assert shell("fasten frobnicate 2>/dev/full", car) == (2, "", "")
    assert shell("fasten frobnicate >&- 2>&- <&-", car) == (2, "", "")
    mounts = load_job(car / "job.toml", builtin()).value.mounts
    assert [mount.name for mount in mounts] == ["amp", "cover", "amp 1", "amp 2", "amp 3", "amp 4"]


@pytest.mark.parametrize("line", PRINTING)
def test_a_terminal_of_plain_ascii(line: str, car: Path) -> None:
    """What it cannot show is written as an escape; nothing is left out, and nothing fails."""
    env = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONIOENCODING": "ascii"}
    code, out, said = shell(f"fasten {line}", car, **env)
    usual = shell(f"fasten {line}", car, PYTHONIOENCODING="utf-8")
    assert (code, said) == (usual[0], "")
    assert out.isascii()
    assert out.encode().decode("unicode_escape").split() == usual[1].split() or "json" in line


def test_a_fault_of_the_system_that_no_command_foresaw_is_no_fault_of_the_program(
    told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(_: list[str]) -> int:
        raise PermissionError(13, "Permission denied", "a\x1b[2J.toml")

    monkeypatch.setattr("fasten.cli.run", run)
    assert told(()) == ("fasten: a\\x1b[2J.toml: permission denied; check that it is there and that you may use it\n")


# -- nobody at home ---------------------------------------------------------------------------------------------------


@pytest.fixture
def homeless(monkeypatch: pytest.MonkeyPatch) -> None:
    """HOME is not set, and the system does not know the user either, as in many a container."""
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "FASTEN_TABLES", "FASTEN_DATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("pwd.getpwuid", {}.__getitem__)


@pytest.mark.usefixtures("homeless")
def test_without_a_home_everything_is_answered_from_the_tables_of_the_program(car: Path) -> None:
    assert overlay_folder() is None
    for words in (("look", "M6"), ("tables",), *WRITING.values()):
        assert main(list(words)) in {0, 1}
    assert not (car / "~").exists()


@pytest.mark.usefixtures("homeless")
def test_without_a_home_no_jobs_are_kept_in_whatever_folder_one_stands_in() -> None:
    with pytest.raises(
        FastenError, match="no home folder is known in which to keep your jobs; set HOME, or FASTEN_DATA"
    ):
        jobs_folder()


@pytest.mark.parametrize("named", ["job.toml", "/dev/null", "nowhere", "job.toml/x"])
def test_a_folder_of_tables_that_is_none_is_told_and_the_rest_answers(
    named: str, car: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("FASTEN_TABLES", named)
    assert main(["look", "M6"]) == 0
    said = capsys.readouterr().err
    assert said.count("\n") == (0 if named == "nowhere" else 1)
