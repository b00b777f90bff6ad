"""Text that means harm in names of files, in files, and in tables of one's own: it stays where it belongs."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from built.few import sample

from fasten.__main__ import MISUSE, OUR_FAULT, main
from fasten.advice.advise import advise
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.errors import FastenError
from fasten.job.choices import choices
from fasten.job.names import file_name
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.words import Job, Mount
from fasten.job.work import work_sheet
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text
from fasten.report.forms.written import written
from fasten.report.job.work import work_document
from fasten.report.plain import json_text
from fasten.report.section.svg import section_svg

from .hostile import (
    HIDDEN,
    IN_FILES,
    MARKED,
    PLAIN,
    SAID,
    elements_html,
    elements_md,
    elements_svg,
    every_text,
    hostile,
    job_of,
    printable,
)
from .targets import Quick, overlay_text

pytestmark = pytest.mark.slow


@hostile
def test_a_file_that_is_named_after_a_text_stays_in_its_folder(text: str) -> None:
    name = file_name(text)
    assert re.fullmatch(r"\w[\w-]*", name)
    assert Path(name).name == name
    assert name.isprintable()


@pytest.mark.parametrize(
    "text", [text for name, text in HIDDEN.items() if name not in ("joined", "a byte that is no text")]
)
def test_a_job_file_holds_no_hidden_text(text: str) -> None:
    escaped = '"' + "".join(f"\\U{ord(char):08x}" for char in text) + '"'
    content = f'format = 1\nkind = "job"\n[[mount]]\nname = {escaped}\nitem = "amplifier"\n'
    with pytest.raises(FastenError, match="with a control or hidden character in it") as caught:
        read_job(content.encode(), "car.toml", builtin())
    printable(str(caught.value))


Ended = Callable[..., str]


@pytest.fixture
def ended(capsys: pytest.CaptureFixture[str]) -> Ended:
    """Runs a command line and returns what it says, all of it fit for a terminal; it never ends by a fault."""

    def run(*words: str, code: int | None = None) -> str:
        found = main(list(words))
        said = capsys.readouterr()
        assert found != OUR_FAULT, said.err
        assert code is None or found == code
        printable(said.out.replace("\r\n", "\n"))
        printable(said.err)
        return said.out + said.err

    return run


@pytest.fixture
def car(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, from where three folders up is still inside what the test made."""
    folder = tmp_path / "a" / "b" / "c"
    folder.mkdir(parents=True)
    monkeypatch.chdir(folder)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("FASTEN_TABLES", str(folder / "tables"))
    monkeypatch.setenv("FASTEN_DATA", str(folder / "data"))
    return folder


TYPED = HIDDEN | {
    name: MARKED[name] for name in (*IN_FILES, "an action", "an end of nothing", "a link", "places to fill")
}


@pytest.mark.parametrize("name", sample(list(TYPED), 7))
def test_what_is_typed_and_said_on_stderr_is_harmless(name: str, car: Path, ended: Ended) -> None:
    text = TYPED[name]
    mount = ("--onto", "steel 0.8 mm", "--removed", "yearly", "--into-job", "car.toml", f"--name={text}")
    for words in (
        ("look", "--", text), ("look", "--json", "--", f"M6 {text}"), ("pick", f"--onto={text}", "--", text),
        ("pick", "amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", f"--mass={text}"),
        ("pick", "amplifier", *mount, "--json"), ("hardware", "--", text), ("hardware", "car.toml", f"--format={text}"),
        ("ready", "car.toml", f"--shelf={text}"), ("template", "--", "car.toml", text), ("work", f"-{text}"),
        ("instead", "--length=20mm", "--", "car.toml", text), ("fewest", f"--seconds={text}", "car.toml"),
        ("built", f"--note={text}", "--", "car.toml", text), ("hardware", "car.toml", f"--out=nowhere/{text}"),
        ("frobnicate", text), ("demo", f"--copy=demo/{text}/x", "--json"),
    ):  # fmt: skip
        ended(*words)


@pytest.mark.parametrize("name", sample([*IN_FILES, "joined"], 3))
def test_commands_write_into_their_folder_alone(name: str, car: Path, ended: Ended) -> None:
    text = (HIDDEN | MARKED)[name]
    job = job_of(text)
    (car / "car.toml").write_text(job_text(replace(job, mounts=job.mounts[:1])), encoding="utf-8")
    out = car / "out"
    out.mkdir()
    before = everything(car)
    for command, *words in (
        ("hardware", "car.toml"), ("work", "car.toml"), ("work", "--json", "car.toml"),
        ("template", "--", "car.toml", text),
        *(("hardware", f"--format={format_}", "car.toml") for format_ in ("csv", "md", "html")),
    ):  # fmt: skip
        ended(command, "--out=out", *words)
    made = everything(car) - before
    assert len(made) == 7
    assert {path.parent for path in made} == {out}
    for line in sample(("ready", "ready --json", "fewest", "fewest --json", "work", "hardware --json"), 2):
        ended(*line.split(), "car.toml")


def everything(car: Path) -> set[Path]:
    return set(car.parents[2].rglob("*"))


def test_no_document_is_written_through_a_link(car: Path, ended: Ended) -> None:
    (car / "car.toml").write_text(job_text(Job("estate", "", "", ())), encoding="utf-8")
    victim = car.parent / "victim"
    victim.write_text("precious")
    (car / "out").mkdir()
    link = car / "out" / "estate-hardware.txt"
    for there in (victim, car.parent / "not there yet"):
        link.unlink(missing_ok=True)
        link.symlink_to(there)
        for forced in ((), ("--force",)):
            told_why = ended("hardware", "car.toml", "--out", "out", *forced, code=MISUSE)
            assert "a link stands where the document should be" in told_why
    assert victim.read_text() == "precious"
    assert not (car.parent / "not there yet").exists()


# -- the user's own tables --------------------------------------------------------------------------------------------


def own_table(text: str) -> str:
    """Rivet nuts of the user's own with this text in every place that takes any, of names that come first."""
    table = overlay_text("rivet-nuts", 200)
    for there in ('"Mine"', '"none"', '"Invented."', '"measured"'):
        table = table.replace(there, json.dumps(text))
    return re.sub(r'(?m)^  \["mine", "([^"]*)"', lambda row: f'  ["mine", {json.dumps(f"a {text} {row[1]}")}', table)


@pytest.mark.parametrize("name", sample(list(MARKED), 15))
def test_a_table_of_the_users_own_marks_nothing_up(name: str) -> None:
    assert answered(MARKED[name]) == answered(PLAIN)


@cache
def answered(text: str) -> list[object]:
    """What elements the pages of an answer from a table with this text have, each page looked at on the way."""
    with TemporaryDirectory() as folder:
        (Path(folder) / "mine.toml").write_text(own_table(text), encoding="utf-8")
        tables = Quick(shipped_folder(), Path(folder))
    assert tables.problems == []
    point = resolve(read_question(SAID, tables), tables)
    advice = advise(point, tables)
    printable(advice_text(advice))
    page = json_text(advice_json(advice))
    assert page.isascii()
    assert any(text in entry for entry in every_text(json.loads(page)))
    found = choices(Job("", "", "", (Mount(PLAIN, tuple(SAID.items())),)), tables)
    work = work_document(work_sheet(Job("", "", "", ()), found, None, tables), 80)
    drawn = section_svg(advice.answers[0].proposal.joint, point.behind_mm, 160.0)
    return [elements_html(written(work, "html", 80)), elements_md(written(work, "md", 80)), elements_svg(drawn)]


REFUSED = {name: text for name, text in HIDDEN.items() if name != "joined"}


@pytest.mark.parametrize("named", sample(list(REFUSED), 6))
def test_a_table_of_hidden_text_is_left_out_and_told(named: str, car: Path, ended: Ended) -> None:
    text = REFUSED[named]
    folder = car / "tables"
    folder.mkdir()
    escaped = "".join(f"\\U{ord(char):08x}" for char in text)
    name = text.replace("/", "")
    (folder / f"{name}.toml").write_text(own_table(PLAIN).replace(PLAIN, escaped), encoding="utf-8")
    (folder / "x.toml").write_text(f"[{json.dumps(text)}]\n", encoding="utf-8")
    assert ended("look", "M6", code=0).count("your own table is left out") == 2
    ended("tables")
    ended("tables", "--json")


def test_no_table_is_read_through_a_link_out_of_its_folder(car: Path) -> None:
    folder = car / "tables"
    folder.mkdir()
    (car / "secret.toml").write_text(own_table("secret"), encoding="utf-8")
    (folder / "real.txt").write_text(own_table(PLAIN), encoding="utf-8")
    (folder / "a.toml").symlink_to(car / "secret.toml")
    (folder / "b.toml").symlink_to(Path("..") / "secret.toml")
    (folder / "c.toml").symlink_to(folder / "real.txt")
    tables = Tables(shipped_folder(), folder)
    assert [problem.where for problem in tables.problems] == ["a.toml", "b.toml"]
    assert all("leads out" in problem.what for problem in tables.problems)
    assert [source.text for source in tables.table("rivet-nuts").sources.values()].count(PLAIN) == 1


def test_a_folder_of_tables_may_itself_be_a_link(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    (tmp_path / "kept" / "real.txt").write_text(own_table(PLAIN), encoding="utf-8")
    (tmp_path / "kept" / "mine.toml").symlink_to("real.txt")
    (tmp_path / "tables").symlink_to("kept")
    assert Tables(shipped_folder(), tmp_path / "tables").problems == []
