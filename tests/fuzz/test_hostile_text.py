"""Text that means harm, in every name, note and table, through every way out: none of it arrives raw.

What is raw differs. For a terminal it is a character that moves, hides or turns something round: every line must be
printable. For a spreadsheet it is a cell that begins a formula, at commas and at semicolons; for Markdown, HTML and SVG
it is anything that makes another element than harmless text in its place makes, as read by a parser of each. JSON holds
the text itself, in ASCII. Jobs here are invented, and hold what no job file may: that is one more thing to test.
"""

import csv
import json
import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from xml.etree import ElementTree

import pytest
from markdown_it import MarkdownIt

from fasten.__main__ import MISUSE, OUR_FAULT, main
from fasten.advisor import advise
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.errors import FastenError
from fasten.job.choices import choices
from fasten.job.hardware import hardware
from fasten.job.job_toml import job_text, read_job
from fasten.job.names import file_name
from fasten.job.owned import owned_of
from fasten.job.ready import ready
from fasten.job.standard import standard
from fasten.job.substitute import instead, missing_screw, on_shelf, others_on_shelf
from fasten.job.words import Built, Job, Mount, Part, Shelf, ShelfPart
from fasten.job.work import work_sheet
from fasten.question import read_question
from fasten.report.advice_json import advice_json
from fasten.report.advice_text import advice_text
from fasten.report.built_text import built_json, built_text
from fasten.report.document import Document, written
from fasten.report.fewest_document import fewest_document, fewest_json
from fasten.report.hardware_document import hardware_document, ready_document
from fasten.report.hardware_json import hardware_json, ready_json
from fasten.report.instead_document import Told, instead_document, instead_json
from fasten.report.plain import json_text
from fasten.report.section_svg import section_svg
from fasten.report.template_svg import sheet_for, template_svg
from fasten.report.work_document import work_document
from fasten.report.work_json import work_json
from fasten.resolve import resolve

from .targets import Quick, overlay_text

PLAIN = "left amp"
# What a terminal obeys or hides; a file may not hold most of it.
HIDDEN = {
    "clear the screen": "a\x1b[2Jb",
    "link of a terminal": "\x1b]8;;http://x.example\x1b\\amp\x1b]8;;\x1b\\",
    "title of a terminal": "\x1b]0;amp\x07",
    "escapes of eight bits": "a\x9b31mb\x9d0;x\x9c",
    "backspaces": "amp\x08\x08\x7f",
    "carriage return": "amp\rpwned",
    "line feed": "amp\nfasten: all is well",
    "text turned round": "a\u202egnp.exe",
    "isolated text": "a\u2066b\u2069",
    "nothing to see": "a\u200bb\ufeffc\u2060",
    "joined": "a\u200db\u200cc",
    "lines of another kind": "a\u2028b\u2029c\x85",
    "tags nobody sees": "a\U000e0041",
    "a byte that is no text": "a\udc9bb",
}
# What is plain to a terminal and may stand in a file, and means something further on.
MARKED = {
    "bold": "[bold]amp[/bold]",
    "an action": "[@click=app.quit]amp[/]",
    "an end of nothing": "[/",
    "a script": "<script>alert(1)</script>",
    "an image": "\"'><img src=x onerror=alert(1)>",
    "an end of SVG": "]]></text></svg><script>x</script>",
    "an entity": "&lt;b&gt; &#60;",
    "a comment": "--><!-- amp",
    "bars": "a|b||c",
    "code": "`amp` ```",
    "a link": "[amp](javascript:alert(1)) <http://x.example>",
    "an image of Markdown": "![amp](http://x.example/a.png)",
    "a bare link": "http://x.example www.x.example amp@x.com x.com //x.com mailto:a@x.com",
    "emphasis": "**amp** _amp_ ~~amp~~ \\*",
    "a heading": "# amp",
    "a list": "- amp",
    "a rule": "---",
    "a formula": '=HYPERLINK("http://x.example","amp")',
    "a sum": "+1+1",
    "less": "-1",
    "at": "@SUM(A1)",
    "another program": "=cmd|' /C calc'!A0",
    "a wide formula": "＝1+1",
    "a formula in the next cell": 'amp";=1+1;"',
    "a formula in the next cell by spaces": "amp ; '+1",
    "places to fill": "{0} {what} %s $x ${x} {{7*7}}",
    "a path": "../../../amp",
    "a root": "/etc/amp",
    "a drive": "C:\\amp\\..\\x",
    "an option": "--force",
}
ALL = HIDDEN | MARKED
IN_FILES = ("a path", "a drive", "an option", "a script", "a formula")
hostile = pytest.mark.parametrize("text", ALL.values(), ids=list(ALL))
SAID = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm"}


def job_of(text: str) -> Job:
    """A job with this text wherever one can be: of three mount points one is answered, the others cannot be read."""
    mounts = (
        Mount(text, tuple(SAID.items()), text, built=Built(text, text, text, text, text)),
        Mount(f"{text} 2", (*SAID.items(), ("item-hole", text)), text),
        Mount(f"{text} 3", tuple((SAID | {"item": text}).items())),
    )
    return Job(text, text, text, mounts, (text,))


def shelf_of(text: str) -> Shelf:
    parts = (
        ShelfPart(Part("screw", "M5", "ISO 4762", "8.8", 16.0), 3, 5, 1.0, text),
        ShelfPart(Part("screw", "M5", text, text, 20.0), 30, None, None, text),
        ShelfPart(Part(text, text, text, text, None), 3, 5, 1.0, text),
    )
    return Shelf(text, text, text, parts, ("5 mm", text), ("drill", text), (text,))


def printable(page: str) -> None:
    """No character that a terminal obeys, hides or turns round; lines end as lines do."""
    assert all(line.isprintable() for line in page.split("\n")), f"hidden characters in {page!r}"


# -- what the job makes -----------------------------------------------------------------------------------------------


@cache
def documents(text: str, width: int = 80) -> dict[str, Document]:
    """Every document of a job that holds this text."""
    job, shelf, tables = job_of(text), shelf_of(text), builtin()
    found = choices(job, tables, owned_of(shelf, tables))
    listed = hardware(job, found, shelf, tables)
    return {
        "hardware": hardware_document(listed),
        "ready": ready_document(ready(listed, found)),
        "work": work_document(work_sheet(job, found, shelf, tables), width),
        "fewest": fewest_document(standard(found, tables, lambda: False, None)),
        "instead": instead_document(told(text)),
    }


def told(text: str) -> Told:
    """What does instead of the screw of the first mount point."""
    job, shelf, tables = job_of(text), shelf_of(text), builtin()
    asked = choices(job, tables)[0]
    assert asked.answer is not None
    return Told(
        mount=asked.name, title=asked.answer.title, wanted=missing_screw(asked, tables), behind_mm=40.0,
        found=instead(asked, on_shelf(asked, shelf, tables), tables), others=others_on_shelf(asked, shelf, tables),
        reason=text,
    )  # fmt: skip


def plain_data(text: str) -> Iterator[Any]:
    """What a job that holds this text is to another program."""
    job, shelf, tables = job_of(text), shelf_of(text), builtin()
    found = choices(job, tables, owned_of(shelf, tables))
    listed = hardware(job, found, shelf, tables)
    yield hardware_json(listed)
    yield ready_json(ready(listed, found))
    yield work_json(work_sheet(job, found, shelf, tables))
    yield fewest_json(standard(found, tables, lambda: False, None))
    yield instead_json(told(text))
    yield built_json(job.mounts[0])


def pages(text: str, format_: str) -> dict[str, str]:
    return {name: written(document, format_, 80) for name, document in documents(text).items()}


@hostile
def test_text_moves_no_cursor(text: str) -> None:
    for width in (44, 80):
        for document in documents(text).values():
            printable(written(document, "text", width))
    printable(built_text(job_of(text).mounts[0]))


@hostile
def test_csv_begins_no_formula_at_commas_or_semicolons(text: str) -> None:
    for page in pages(text, "csv").values():
        printable(page.replace("\r\n", "\n"))
        for separator in ",;":
            for row in csv.reader(StringIO(page, newline=""), delimiter=separator):
                assert not [cell for cell in row if begins_formula(cell)]


def begins_formula(cell: str) -> bool:
    return cell.lstrip(' \t\r\n"\u00a0')[:1] in tuple("=+-@＝＋－＠−")


class Reader(HTMLParser):
    """Counts the elements of a page by the names of what is said of them, those of a drawing's words apart."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: Counter[tuple[str, ...]] = Counter()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert not any(name.startswith("on") or name in ("href", "src") for name, _ in attrs)
        if tag != "text":  # how many lines a text takes on a drawing depends on the text
            self.elements[(tag, *(name for name, _ in attrs))] += 1

    def handle_comment(self, data: str) -> None:
        self.elements[("comment",)] += 1


def elements_html(page: str) -> Counter[tuple[str, ...]]:
    reader = Reader()
    reader.feed(page)
    return reader.elements


@hostile
def test_html_has_no_other_elements(text: str) -> None:
    plain = pages(PLAIN, "html")
    for name, page in pages(text, "html").items():
        printable(page)
        assert elements_html(page) == elements_html(plain[name])


def elements_md(page: str) -> Counter[str]:
    """The elements of a page, each kind counted, as a common reader of Markdown with tables and bare links has them."""
    tokens = MarkdownIt("gfm-like").parse(page)
    inner = [child for token in tokens for child in token.children or ()]
    return Counter(token.type for token in (*tokens, *inner) if token.type not in ("text", "text_special"))


@hostile
def test_markdown_has_no_other_elements(text: str) -> None:
    plain = pages(PLAIN, "md")
    for name, page in pages(text, "md").items():
        printable(page)
        assert elements_md(page) == elements_md(plain[name])


def drawings(text: str) -> tuple[str, str]:
    tables = builtin()
    point = resolve(read_question(SAID, tables), tables)
    answer = advise(point, tables).answers[0]
    joint = answer.proposal.joint
    return template_svg(sheet_for(answer, point, text)), section_svg(joint, point.behind_mm, 160.0, text)


@hostile
def test_svg_has_no_other_elements(text: str) -> None:
    for drawn, plain in zip(drawings(text), drawings(PLAIN), strict=True):
        printable(drawn)
        assert elements_svg(drawn) == elements_svg(plain)


def elements_svg(drawn: str) -> set[tuple[str, ...]]:
    return {(node.tag, *node.attrib) for node in ElementTree.fromstring(drawn).iter()}


@hostile
def test_json_holds_the_text_itself_in_ascii(text: str) -> None:
    for plain in plain_data(text):
        page = json_text(plain)
        assert page.isascii()
        printable(page)
        assert text in every_text(json.loads(page))


def every_text(plain: Any) -> Iterator[str]:
    if isinstance(plain, str):
        yield plain
    elif isinstance(plain, list | dict):
        for entry in plain.values() if isinstance(plain, dict) else plain:
            yield from every_text(entry)


# -- files ------------------------------------------------------------------------------------------------------------


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


@pytest.mark.parametrize("text", TYPED.values(), ids=list(TYPED))
def test_what_is_typed_and_said_on_stderr_is_harmless(text: str, car: Path, ended: Ended) -> None:
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


@pytest.mark.parametrize("text", [HIDDEN["joined"], *(MARKED[name] for name in IN_FILES)], ids=["joined", *IN_FILES])
def test_commands_write_into_their_folder_alone(text: str, car: Path, ended: Ended) -> None:
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
    for line in ("ready", "ready --json", "fewest", "fewest --json", "work", "hardware --json"):
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


@pytest.mark.parametrize("text", MARKED.values(), ids=list(MARKED))
def test_a_table_of_the_users_own_marks_nothing_up(text: str) -> None:
    assert answered(text) == answered(PLAIN)


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


@pytest.mark.parametrize("text", HIDDEN.values(), ids=list(HIDDEN))
def test_a_table_of_hidden_text_is_left_out_and_told(text: str, car: Path, ended: Ended) -> None:
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
