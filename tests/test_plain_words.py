"""What a person reads has no name of a table, no exponent, no digits that nobody measured, and one thing is one thing.

Answers, refusals, lists, work sheets and messages of many questions are read whole, in every form they are written in.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from built.few import sample

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import Choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList
from fasten.job.ready import ready
from fasten.job.sizes.offers import fewest_sizes
from fasten.job.words import Job, Mount, Shelf, ShelfPart, Visit
from fasten.job.work import work_sheet
from fasten.model import MountPoint
from fasten.question.fields import FIELDS
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_text import advice_text
from fasten.report.answer.compare import compare_document
from fasten.report.forms.document import Document
from fasten.report.forms.written import FORMATS, written
from fasten.report.job.built import built_text, record_text
from fasten.report.job.fewest import fewest_document
from fasten.report.job.hardware import hardware_document, ready_document
from fasten.report.job.work import work_document
from fasten.report.section.svg import section_svg
from fasten.text.figures import counted, figure, mm, unit_spelled, with_unit, words
from fasten.tui.mounts.entry import filled, read_one

TABLES = builtin()
THINGS = "pack|line|thing|point|mount point|fixing|hole|place|centre|piece|drop|size|different size|clamp|ring"
WRONG = {
    "a name of a table": r"[A-Za-z0-9]_[A-Za-z]",
    "an exponent": r"[0-9]e[+-]?[0-9]",
    "one of many": rf"(?<![0-9.])1 (?:{THINGS})s\b",
    "a torque in nanometres": r"[0-9] ?nm\b",
    "digits that nobody measured": r"(?<![0-9.])(?:[1-9][0-9]*\.[0-9]{3,}|0\.[0-9]{4,}) ?(?:mm|kg)\b",
}
MAY_BE = r"[A-Z#0-9/]+ \([0-9.]+ mm\)"  # a bit by its name, whose size its standard prints to a thousandth

# Sizes that come to many digits, names of two words, masses that go into exponents, and one of each thing.
MATERIALS = ("18 ga steel", "stainless 3/64 in", "galvanised steel 1/32 in", "pvc foam 0.31 in", "fibreglass 3.175 mm")
ASKED: tuple[dict[str, str], ...] = (
    *({"item": item, "onto": onto, "mass": mass, "item-hole": "11/32 in", "item-thickness": "3/64 in"}
      for item in ("amplifier", "trim-panel") for onto in MATERIALS for mass in ("150 kg", "1/3 lb", "12345 g")),
    *({"item": "trim-panel", "onto": onto, "item-material": "stainless steel", "edge": "40 mm", "mass": "0.7 lb"}
      for onto in (*MATERIALS, "pp 3 mm", "mdf 18 mm", "hardwood 1 in", "abs 1/8 in")),
    {"item": "ground-lug", "onto": "galvanised steel floor"}, {"item": "ground-lug", "onto": "pvc foam 3 mm"},
    {"item": "ground-lug", "onto": "steel 1.5 mm", "item-hole": "1/2 in"},
    {"item": "ground-lug", "onto": "steel 1.5 mm", "rings": "9"},
    {"item": "ground-lug", "onto": "steel 1.5 mm", "ring": "M5", "cable": "4/0 AWG"},
    {"item": "wire-clamp", "onto": "steel 0.8 mm", "run": "100 in", "pattern": "row 11 in"},
    {"item": "wire-clamp", "onto": "steel 0.8 mm", "pattern": "row 13 in", "fixings": "3"},
    {"item": "bracket", "onto": "galvanised steel 1 mm", "fixings": "1", "between": "foam 1/8 in", "behind": "1/2 in"},
    {"item": "amplifier", "onto": "steel 0.8 mm", "body": "9/32 in"}, {"item": "amplifier", "onto": "copper 2 mm"},
    {"item": "amplifier", "onto": "steel"}, {"item": "amplifier", "onto": "stainless 99 ga"},
    {"item": "amplifier", "onto": "steel 0.8 mm", "hole-there": "11/32 in", "carries": "2 lb at 3 in, crossover"},
)  # fmt: skip


def faults(text: str) -> list[str]:
    """What is wrong in what is read of a text or drawing, each with a few words round it."""
    plain = re.sub(rf"<[^>]*>|{MAY_BE}", " ", text)
    return [
        f"{what}: …{plain[max(found.start() - 30, 0) : found.end() + 20]}…"
        for what, pattern in WRONG.items() for found in re.finditer(pattern, plain)
    ]  # fmt: skip


def said(number: int) -> dict[str, str]:
    removed = ("never", "rarely", "yearly", "monthly", "weekly")[number % 5]
    reach = ("one-side", "both-sides")[number % 2]
    return {"removed": removed, "reach": reach} | ASKED[number]


def point(number: int) -> MountPoint:
    return resolve(read_question(said(number), TABLES), TABLES)


def answered(number: int) -> Iterator[str]:
    """The advice with every refusal, the table of all answers and two drawings; or why the question is not taken."""
    try:
        advice = advise(point(number), TABLES)
    except FastenError as error:
        yield str(error)
        return
    yield advice_text(advice, 200)
    yield written(compare_document(advice), "text", 200)
    yield from (section_svg(answer.proposal.joint, advice.mount.behind_mm) for answer in advice.answers[:2])


TRIED = sample(range(len(ASKED)))
SAMPLED = [pytest.param(one, marks=() if at % 3 == 0 else pytest.mark.slow) for at, one in enumerate(TRIED)]


@pytest.mark.parametrize("number", SAMPLED)
def test_an_answer_is_in_plain_words(number: int) -> None:
    for text in answered(number):
        assert faults(text) == []


@pytest.mark.parametrize("number", range(len(ASKED)))
def test_the_screen_reads_back_in_plain_words(number: int) -> None:
    for name, text in said(number).items():
        read = read_one(name, text, TABLES)
        assert faults(read.understood + read.why) == []
    try:
        mount = point(number)
    except FastenError:
        return
    assert faults(" ".join(filled(field, mount) for field in FIELDS)) == []


# -- lists and sheets -------------------------------------------------------------------------------------------------

JOB = Job(
    "Estate", "blue estate", "",
    (
        Mount("lug", (("item", "ground-lug"), ("onto", "galvanised steel 18 ga"), ("removed", "rarely"),
                      ("behind", "2 in"), ("edge", "2 in")), visits=(Visit("2026-05-02", "0.3 in", "", "5 nm", ""),)),
        Mount("cover", (("item", "trim-panel"), ("onto", "pvc foam 1/8 in"), ("removed", "weekly"), ("edge", "2 in"),
                        ("mass", "1 lb"))),
        Mount("box", (("item", "enclosure"), ("onto", "stainless 3/64 in"), ("removed", "never"), ("mass", "300 lb"))),
    ),
)  # fmt: skip


@cache
def found() -> tuple[Choice, ...]:
    return choices(JOB, TABLES)


def listed(pack: int | None) -> HardwareList:
    """The list with one of each part on the shelf, sold by the pack."""
    bare = hardware(JOB, found(), None, TABLES)
    parts = tuple(ShelfPart(line.part, 1, pack, 0.0125) for line in bare.parts)
    return hardware(JOB, found(), Shelf("", "EUR", "", parts, (), (), ()), TABLES)


def documents() -> Iterator[Document]:
    yield hardware_document(hardware(JOB, found(), None, TABLES))
    for pack in (1, 100):
        yield hardware_document(listed(pack))
        yield ready_document(ready(listed(pack), found()))
    yield work_document(work_sheet(JOB, found(), None, TABLES), 80)
    for one in (replace(JOB, mounts=JOB.mounts[:1]), replace(JOB, mounts=())):
        yield hardware_document(hardware(one, choices(one, TABLES), None, TABLES))
        yield ready_document(ready(hardware(one, choices(one, TABLES), None, TABLES), choices(one, TABLES)))
        yield fewest_document(fewest_sizes(choices(one, TABLES), TABLES))


@pytest.mark.parametrize("format_", FORMATS)
def test_lists_and_sheets_are_in_plain_words(format_: str) -> None:
    for document in documents():
        assert faults(_without_ids(written(document, format_, 80), document)) == [], document.title


def _without_ids(text: str, document: Document) -> str:
    """The text without the ids of its lines, which are for programs."""
    for key in {key for section in document.sections for key in section.keys}:
        text = text.replace(key, "")
    return text


def test_one_pack_is_one() -> None:
    """All that is short fits one pack of a hundred."""
    text = written(hardware_document(listed(100)), "text", 120)
    assert "1 pack of 100" in text
    assert "2 packs of 1" in written(hardware_document(listed(1)), "text", 120)


def test_what_was_built_is_read_back_with_the_unit_spelled() -> None:
    """As it was typed, 5 nm is five newton metres; what was written down stays as it is in the file."""
    mount = JOB.mounts[0]
    for text in (built_text(mount), record_text(mount, 80)):
        assert "5 N·m" in text
        assert "0.3 in" in text
        assert faults(text) == []
    assert mount.built is not None
    assert mount.built.torque == "5 nm"


# -- the words themselves ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (150.0, "150"),
        (1.21412, "1.21"),
        (123.456, "123.5"),
        (12345.6, "12346"),
        (0.004, "0.004"),
        (1e-12, "0"),
        (0, "0"),
    ],
)
def test_a_figure(value: float, text: str) -> None:
    assert figure(value) == text
    assert mm(value) == with_unit(value, "mm") == f"{text} mm"
    assert with_unit(value, "-") == text


@pytest.mark.parametrize(
    ("count", "text"), [(0, "0 packs"), (1, "1 pack"), (2, "2 packs"), (1.0, "1 pack"), (1.5, "1.5 packs")]
)
def test_one_of_a_thing(count: float, text: str) -> None:
    assert counted(count, "pack") == text


def test_a_name_of_a_table() -> None:
    assert words("stainless_steel") == "stainless steel"


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("5 nm", "5 N·m"), ("44 in lbs", "44 in·lbf"), ("2,4 Nm", "2,4 N·m"), ("7.1mm", "7.1 mm"), ("9/64", "9/64 in"),
        ("1-1/2 inches", "1-1/2 in"), ("hand tight", "hand tight"), ("20 ga", "20 ga"), ("", ""),
    ],
)  # fmt: skip
def test_a_unit_is_spelled_one_way(typed: str, text: str) -> None:
    assert unit_spelled(typed) == text


# -- words that are gone ----------------------------------------------------------------------------------------------

ROOT = Path(__file__).parents[1]
# What nobody says at the bench, and what to write for it: in no text, name, docstring or table.
GONE = {
    r"reckon": "calculate",
    r"(?<!\")(?:\b|_)told(?:\b|_)": "given, shown or said",  # "told" is a kind of visit in job files
    r"\bnobody (?:said|says|tells|told|is asked)\b": "not given",
    r"\bwhoever\b": "name the person",
    r"\b(?:hole|thread|stud)s? that (?:is|are) (?:already )?there\b": "existing",
    r"\bstop in (?:the |its )?foam\b": "compression limiter",
    r"_doings\b": "actions",
    r"shelf_desk": "the open shelf",
    r"\bkeepers?\b": "job files",
    r"\broll\b": "the list of mount points",
    r"\brestack": "a screw of another length",
}


def written_in(package: str) -> str:
    """All that is written in a package, in the tables, or in the two guides."""
    if package == "guides":
        return "\n".join((ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "DEVELOPERS.md"))
    folder, within = ROOT / package, "*.py" if package == "fasten" else "**/*"
    files = sorted(path for path in folder.glob(within) if path.suffix in {".py", ".toml", ".md"})
    return "\n".join(path.read_text(encoding="utf-8") for path in files)


PACKAGES = (
    "guides", "catalogs", "fasten",
    *sorted(f"fasten/{path.parent.name}" for path in ROOT.glob("fasten/*/__init__.py")),
)  # fmt: skip


@pytest.mark.parametrize("package", PACKAGES)
def test_words_that_are_gone_do_not_come_back(package: str) -> None:
    text = written_in(package)
    assert text, f"nothing is read in {package}"
    for word, instead in GONE.items():
        found = re.search(word, text, re.IGNORECASE)
        assert found is None, f"{package}: {text[max(found.start() - 40, 0) : found.end() + 40]!r}; write: {instead}"
