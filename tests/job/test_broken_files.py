"""Files that cannot be opened as they stand: each told in one sentence, with the line, or the table and the key."""

import os
import tomllib
import tracemalloc
from pathlib import Path

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.store.check import JobFile, checked
from fasten.job.store.storage import job_text, load_job, load_shelf, save_job, save_shelf
from fasten.job.words import Job, Mount, Pin

JOB_HEAD = 'format = 1\nkind = "job"\n'
SHELF_HEAD = 'format = 1\nkind = "shelf"\n'
AMP = '[[mount]]\nname = "left amp"\nitem = "amplifier"\nonto = "steel 0.8 mm"\nremoved = "yearly"\n'
SCREW = '[[part]]\nkind = "screw"\nsize = "M6"\n'
SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "car.toml"


def told(path: Path, content: str | bytes = b"", *, kind: str = "job") -> str:
    """The refusal of a file, which names it and is fit for one line of any screen."""
    if content:
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    with pytest.raises(FastenError) as caught:
        load_job(path, builtin()) if kind == "job" else load_shelf(path)
    error = caught.value
    assert error.where.startswith(str(path))
    assert error.fix
    assert str(error).isprintable()
    assert len(str(error)) < 600
    return str(error).removeprefix(str(path))


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (JOB_HEAD + "colour = 3", ": the entry 'colour' is not known; the entries are format, kind, title, "),
        (JOB_HEAD + AMP + 'mas = "6 kg"', ", mount \"left amp\": the entry 'mas' is not known; did you mean mass?"),
        (JOB_HEAD + AMP + 'item_hole = "6 mm"', "the entry 'item_hole' is not known; did you mean item-hole"),
        (
            JOB_HEAD + AMP + '[mount.pin]\nmethod = "x"\nlength = "3 mm"',
            ", mount \"left amp\", pin: the entry 'length'",
        ),
        (JOB_HEAD + AMP + '"\\u001b[2J" = 1', r"the entry '\x1b[2J' is not known"),
        (JOB_HEAD + "[[mount]]\n", ", mount 1: the entry 'name' is missing"),
        (JOB_HEAD + AMP + "[mount.pin]\n", ", mount \"left amp\", pin: the entry 'method' is missing"),
        (JOB_HEAD + AMP + AMP, ', mount "left amp": mount 1 has this name already'),
        (JOB_HEAD + AMP + AMP.replace("left amp", " LEFT  Amp"), ', mount "LEFT  Amp": mount 1 has this name already'),
        (JOB_HEAD + AMP + "mass = 6", ', mount "left amp", mass: is 6, not text; put it in quotes, with its unit'),
        (JOB_HEAD + AMP + 'mass = "6"', ', mount "left amp", mass: 6 has no unit'),
        (JOB_HEAD + AMP + 'grade = "9.9"', ', mount "left amp", grade: '),
        (JOB_HEAD + AMP.replace("yearly", "daily"), ', mount "left amp", removed: '),
        (JOB_HEAD + '[[mount]]\nname = "b"\nmass = "6"\n', ', mount "b", mass: 6 has no unit'),
        (JOB_HEAD + '[[mount]]\nname = "b"\nonto = "0.8 mm"\n', ', mount "b", onto: '),
        (JOB_HEAD + 'packed = ["a\\tb"]', ", packed 1: is 'a\\tb', with a control"),
        (JOB_HEAD + AMP + 'mass = "6\\u0000kg"', ', mount "left amp", mass: is '),
        (
            JOB_HEAD + AMP + "[mount.built]\ndate = 2024-05-01",
            "built, date: is a date or time, not text; put it in quo",
        ),
        (JOB_HEAD + "mount = [3]", ", mount 1: is 3, not a table"),
        (JOB_HEAD + '[mount]\nname = "a"', ", mount: is a block, not a list; write [[mount]] above each"),
        (JOB_HEAD + AMP + "pin = 3", ', mount "left amp", pin: is 3, not a table'),
        (JOB_HEAD + "title = nan", ", title: is nan, not text"),
        (JOB_HEAD + "title = 1" + "0" * 100, ", title: is a number too large to show, not text"),
        (JOB_HEAD + "title = 1" + "0" * 5000, ": holds a number too long to read"),
        (JOB_HEAD + "title = " + "[" * 5000 + "]" * 5000, ": lists or blocks are nested too deep"),
        (JOB_HEAD + "title.a.a = 1", ", title: is a block, not text"),
        (JOB_HEAD + "title" + ".a" * 100_000 + " = 1", ": lists or blocks are nested too deep"),
        (JOB_HEAD + "title = {a" + " . 'a'" * 100_000 + " = 1}", ": lists or blocks are nested too deep"),
        (JOB_HEAD + "[" + '"a". ' * 100_000 + "a]", ": lists or blocks are nested too deep"),
        (JOB_HEAD + f'[[mount]]\nname = "{"x" * 10_000}"', "name: is 'xxxxxxxx"),
        (JOB_HEAD + '[[mount]]\nname = "a\\u001b[2Jb"', r"name: is 'a\x1b[2Jb', with a control"),
        (JOB_HEAD + '[[mount]]\nname = "  "', ", mount 1, name: is empty"),
        ('kind = "job"\n', ": the entry 'format' is missing; write format = 2"),
        ('kind = "job"\nformat = true\n', ": format is true, this program reads 2"),
        ('kind = "job"\nformat = "1"\n', ": format is '1', this program reads 2"),
        ('kind = "job"\nformat = 0\n', ": format is 0, this program reads 2"),
        ("format = 1\n", ": the entry 'kind' is missing; write kind = \"job\" if this is a job"),
        (SHELF_HEAD, ": kind is 'shelf', wanted 'job'; give a job file here"),
        ("# only this\n", ": the entry 'format' is missing"),
        ("\n \n", ": the file is empty"),
        ("\ufeff", ": the file is empty"),
    ],
)
def test_a_broken_job_is_told_with_its_place(content: str, expected: str, path: Path) -> None:
    assert expected in told(path, content)


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (SCREW + "count = -1", ", part 1 (screw M6), count: is -1, it must be at least 0"),
        (SCREW + "count = 1.5", ", part 1 (screw M6), count: is 1.5, not a whole number"),
        (SCREW + "count = true", ", part 1 (screw M6), count: is true, not a whole number"),
        (SCREW + "count = 1" + "0" * 400, "count: is a number too large to show, it must be at most 1000000"),
        (SCREW, ", part 1 (screw M6): the entry 'count' is missing"),
        (SCREW + "count = 1\nprice = nan", ", part 1 (screw M6), price: is nan, not a number"),
        (SCREW + "count = 1\nprice = -inf", ", part 1 (screw M6), price: is -inf, "),
        (SCREW + "count = 1\nprice = 1" + "0" * 400, ", part 1 (screw M6), price: is a number too large to show"),
        (SCREW + 'count = 1\nlength = "20"', ", part 1 (screw M6), length: 20 has no unit; write 20 mm"),
        (SCREW + "count = 1\nlength = 20", ", part 1 (screw M6), length: is 20, not text; write it in quotes with its"),
        (SCREW + 'count = 1\nlength = "2 kg"', ", part 1 (screw M6), length: 2 kg is a mass, wanted a length"),
        (SCREW + "count = 1\nowner = 1", ", part 1 (screw M6): the entry 'owner' is not known"),
        ("bits = [3]", ", bits 1: is 3, not text"),
        ('bits = ["5.1 mm", ""]', ", bits 2: is empty"),
        ('tools = "drill"', ", tools: is 'drill', not a list"),
    ],
)
def test_a_broken_shelf_is_told_with_its_place(content: str, expected: str, path: Path) -> None:
    assert expected in told(path, SHELF_HEAD + content, kind="shelf")


def test_a_job_is_no_shelf(path: Path) -> None:
    assert "kind is 'job', wanted 'shelf'; give a shelf file here" in told(path, JOB_HEAD, kind="shelf")


def test_an_empty_file_is_told(path: Path) -> None:
    path.touch()
    assert ": the file is empty; " in told(path)


def test_broken_syntax_is_told_with_its_line(path: Path) -> None:
    assert "(at line 4, column 9)" in told(path, JOB_HEAD + '\ntitle = Estate "x"\n')
    assert "(at its end, line 3)" in told(path, JOB_HEAD + 'title = "Est')


def test_what_is_not_utf_8_is_told_with_its_line(path: Path) -> None:
    assert ": line 3 is not UTF-8 text" in told(path, JOB_HEAD.encode() + b'title = "caf\xe9"\n')


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_file_cut_short_anywhere_is_refused(newline: str, path: Path) -> None:
    """Cut between two entries it would still be TOML, and a limit such as the space behind would be lost unseen."""
    mounts = (
        Mount("left amp", (*SAID, ("behind", "12 mm")), "hot\nµ", Pin("x", "M6", "", 9.0, None)),
        Mount("b", SAID),
    )
    content = job_text(Job("Estate", "", "", mounts)).replace("\n", newline).encode()
    for length in range(1, len(content) - len(newline)):
        told(path, content[:length])
    path.write_bytes(content.removesuffix(newline.encode()))
    assert load_job(path, builtin()).value.mounts == mounts


def test_an_entry_written_under_the_end_is_read(path: Path) -> None:
    """Who adds a mount point by hand adds it at the bottom."""
    path.write_text(job_text(Job("", "", "", ())) + AMP)
    assert [mount.name for mount in load_job(path, builtin()).value.mounts] == ["left amp"]


def test_a_newer_job_opens_for_reading_only(path: Path) -> None:
    """Known parts are shown; what is new in them is left out, and a mount point that needs more than that as well."""
    new = 'format = 3\nkind = "job"\ntitle = "Estate"\nweather = "wet"\n'
    path.write_text(new + AMP + 'spin = "left"\n[mount.pin]\nmethod = "x"\nmood = 1\n[[mount]]\nname = "b"\nitem = 7\n')
    loaded = load_job(path, builtin())
    assert loaded.read_only
    assert loaded.value.title == "Estate"
    assert loaded.value.mounts == (Mount("left amp", SAID, pin=Pin("x", "", "", None, None)),)
    assert "format 3 is newer than this program reads, 2: open for reading only; 1 of its mount points" in loaded.why
    before = path.read_bytes()
    with pytest.raises(FastenError, match="newer version"):
        save_job(loaded.value, path, loaded.stamp)
    with pytest.raises(FastenError, match="already"):
        save_job(loaded.value, path)
    assert path.read_bytes() == before


def test_a_newer_shelf_opens_for_reading_only(path: Path) -> None:
    new = 'format = 2\nkind = "shelf"\nrows = 3\nbits = ["5.1 mm"]\n'
    path.write_text(new + SCREW + "count = 3\ndrawer = 1\n" + SCREW + 'count = "many"\n')
    loaded = load_shelf(path)
    assert loaded.read_only
    assert loaded.value.bits == ("5.1 mm",)
    assert [owned.count for owned in loaded.value.parts] == [3]
    assert "1 of its parts cannot be shown" in loaded.why
    with pytest.raises(FastenError, match="newer version"):
        save_shelf(loaded.value, path, loaded.stamp)


@pytest.mark.parametrize(
    ("kind", "content"),
    [("job", 'mount = "elsewhere"'), ("job", "title = 3"), ("shelf", "bits = [3]"), ("shelf", "[part]")],
)
def test_a_newer_file_that_is_not_understood_is_refused(kind: str, content: str, path: Path) -> None:
    said = told(path, f'format = 3\nkind = "{kind}"\n{content}\n', kind=kind)
    reads = 2 if kind == "job" else 1
    assert f"format 3 is newer than this program reads, {reads}, and is not understood" in said
    assert said.endswith("bring the program up to date")


def test_a_folder_and_a_pipe_and_nothing_are_no_files(path: Path) -> None:
    assert ": the file is not there" in told(path)
    path.symlink_to(path.with_name("gone.toml"))
    assert ": the file is not there" in told(path)
    path.unlink()
    os.mkfifo(path)
    assert ": this is not a plain file" in told(path)
    path.unlink()
    path.mkdir()
    assert ": a folder stands where the file should be" in told(path)


def test_what_is_too_large_is_not_read(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(4_000_001)
    assert ": the file is over 4 MB" in told(path)
    assert ": the file is over 4 MB" in told(path, kind="shelf")
    with path.open("wb") as file:
        file.truncate(16_000_001)
    assert ": the file is over 16 MB" in told(path)


@pytest.mark.parametrize(
    "text", ["1.2" * 60, "a.b" * 60 + ' "x"', "# " + ".a" * 60, "'" + ".a" * 60 + "'", '"""' + "'.a" * 60]
)
def test_dots_in_a_text_are_no_key_of_many_parts(text: str, path: Path) -> None:
    """What is saved must open again, whatever a note holds."""
    job = Job("", "", f"{text}\n{text}", (Mount("left amp", SAID, note=text),))
    save_job(job, path)
    assert load_job(path, builtin()).value == job


@pytest.mark.slow
@pytest.mark.parametrize(
    "wrong",
    ["mount = [" + "1," * 150_000 + "]", "packed = [" + "1," * 150_000 + "]",
     "".join(f"k{number} = 1\n" for number in range(30_000)),
     '[[mount]]\nname = "a"\n' + "".join(f"k{number} = 1\n" for number in range(30_000))],
    ids=["mounts", "packed", "entries", "entries of a mount"],
)  # fmt: skip
def test_a_file_of_nothing_but_faults_takes_no_more_memory_than_one_fault(wrong: str) -> None:
    """Every fault kept until the first is told once took a kilobyte each."""
    data = tomllib.loads(JOB_HEAD + wrong)
    tracemalloc.start()
    with pytest.raises(FastenError):
        checked(data, JobFile, "car.toml")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 10_000_000


@pytest.mark.parametrize("name", ["a\0b", "x" * 300, "\udcff\x1b[2J"])
def test_a_path_that_cannot_be_is_told(name: str, tmp_path: Path) -> None:
    with pytest.raises(FastenError) as caught:
        load_job(tmp_path / name, builtin())
    assert str(caught.value).isprintable()
