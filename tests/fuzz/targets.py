"""What is fuzzed: each target takes bytes, lets a FastenError pass and nothing else, and holds the outcome to rules.

Used by the tests with hypothesis and, over far more cases, by `tests/benchmarks/fuzz.py`. Every file and question here
is invented.
"""

import json
import tempfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass, fields
from functools import cache
from itertools import islice
from pathlib import Path

from fasten.advice.advise import advise
from fasten.catalog.load import COLUMN_OF_UNIT, Table
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.errors import FastenError
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready
from fasten.job.shelf.check import troubles
from fasten.job.shelf.owned import owned_of
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.store.shelf_toml import read_shelf, shelf_text
from fasten.job.words import Job, Mount, Shelf
from fasten.look import look
from fasten.question.fields import NAMES
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text
from fasten.report.forms.written import FORMATS, written
from fasten.report.job.hardware import hardware_document, ready_document
from fasten.report.look_text import look_text
from fasten.report.plain import json_text, to_json
from fasten.text.letters import is_text
from fasten.text.units import UNITS, Dimension, Gauge, read, read_any

from .oracle import agrees

LONGEST = 700  # characters of a message
AMP = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6 kg", "behind": "40 mm"}
BOARD = {"item": "equipment board", "onto": "mdf 18 mm", "removed": "yearly", "behind": "60mm", "edge": "40mm"}
CLIP = {"item": "trim panel", "onto": "abs 3 mm", "removed": "rarely", "boss": "10x20mm", "between": "foam 3 mm"}
LUG = {"item": "ground lug", "onto": "steel 1.5 mm", "removed": "yearly", "ring": "M8", "rings": "1", "cable": "4 AWG"}
MORE = {
    "pattern": "rectangle 240x180",
    "fixings": "4",
    "item-hole": "6.6mm",
    "carries": "amplifier 5 kg, 2 kg at 80 mm",
}
THERE = {"item": "speaker", "onto": "steel floor", "removed": "never", "hole-there": "M6 stud", "edge": "1 in"}
CABLE = {"item": "wire clamp", "onto": "steel 1 mm", "removed": "rarely", "behind": "40mm", "run": "1.2 m"}
GAUGE = {**AMP, "onto": "20 ga steel", "reach": "both-sides", "grade": "8.8"}
ASKED = (AMP, BOARD, CLIP, LUG, AMP | MORE, THERE, CABLE, GAUGE)


@dataclass(frozen=True)
class Target:
    """One thing to fuzz: `check` says whether the bytes were accepted; `words` are pieces that a fuzzer may try.

    `share` is its part of all cases.
    """

    name: str
    share: float
    seeds: tuple[bytes, ...]
    words: tuple[str, ...]
    check: Callable[[bytes], bool]


def told(error: FastenError) -> bool:
    """Hold a refusal to what every screen relies on: one line, printable, not endless."""
    message = str(error)
    assert message.isprintable(), f"a refusal that no terminal may print: {message!r}"
    assert len(message) < LONGEST, f"a refusal of {len(message)} characters: {message}"
    return False


def shows(text: str) -> None:
    """Hold what goes to a terminal or a file to characters that can be seen."""
    assert all(is_text(char) or char == "\n" for char in text), f"hidden characters in {text!r}"


PIECED = b"\xfe"  # no text begins with it: what follows picks pieces of the grammar, which come closer to being read


def text_of(data: bytes, words: tuple[str, ...]) -> str:
    """Bytes as the command line gets them, what is no text left in as it is; or a piece for each byte."""
    if data.startswith(PIECED):
        return "".join(words[byte % len(words)] for byte in data[1:])
    return data.decode("utf-8", "surrogateescape")


# -- sizes and look-ups -----------------------------------------------------------------------------------------------


def check_size(data: bytes) -> bool:
    """Every dimension reads it or refuses; what is read is what a second reading makes of it, in that dimension."""
    text, accepted = text_of(data, SIZE_WORDS), False
    for dimension in Dimension:
        try:
            found = read(text, dimension, "field")
        except FastenError as error:
            told(error)
            continue
        accepted = True
        assert agrees(text, dimension, found), f"{text!r} was read as {found} {dimension.unit}"
    try:
        any_ = read_any(text)
    except FastenError as error:
        return told(error) or accepted
    if isinstance(any_, Gauge):
        assert not accepted, f"{text!r} is a gauge and a size"
        return True
    assert agrees(text, any_.dimension, any_.value), f"{text!r} was read as {any_}"
    return True


def check_look(data: bytes) -> bool:
    """Whatever is looked up is found or refused, and what is found can be shown."""
    try:
        found = look(text_of(data, LOOK_WORDS), builtin())
    except FastenError as error:
        return told(error)
    shows(look_text(found))
    json.loads(to_json(found))
    return True


# -- a question, as `pick` gets it ------------------------------------------------------------------------------------


def fields_of(data: bytes) -> dict[str, str]:
    """Lines of `field = text` as the fields of a question; or one of those above with fields said otherwise."""
    if data.startswith(PIECED):
        said = dict(ASKED[sum(data[1:2]) % len(ASKED)])
        for field, *picked in (data[at : at + 4] for at in range(2, len(data), 4)):
            said[NAMES[field % len(NAMES)]] = "".join(FIELD_WORDS[byte % len(FIELD_WORDS)] for byte in picked)
        return said
    lines = (line.partition("=") for line in text_of(data, FIELD_WORDS).split("\n"))
    return {name.strip(): text for name, _, text in lines if name.strip()}


def lines_of(said: dict[str, str]) -> bytes:
    """The other way round."""
    return "\n".join(f"{name} = {text}" for name, text in said.items()).encode()


def check_question(data: bytes) -> bool:
    """Whatever is asked is answered or refused, and the answer can be shown."""
    try:
        advice = advise(resolve(read_question(fields_of(data), builtin()), builtin()), builtin())
    except FastenError as error:
        return told(error)
    shows(advice_text(advice))
    json_text(advice_json(advice))
    return True


# -- the user's own tables --------------------------------------------------------------------------------------------


class Quick(Tables):
    """Tables that take what is not overlaid from those that are read already: reading it anew is most of the time."""

    def read(self, wanted: TableOf[Row]) -> Table:
        overlaid = any(overlay.table.name == wanted.name for overlay in self._overlays)
        return super().read(wanted) if overlaid else builtin().table(wanted.name)


@cache
def _kept() -> "tempfile.TemporaryDirectory[str]":
    return tempfile.TemporaryDirectory(prefix="fuzzed-tables-")  # goes when the process ends


def _folder() -> Path:
    return Path(_kept().name)


def check_overlay(data: bytes) -> bool:
    """A table of the user's own is laid over or told, and whatever it holds, questions are answered."""
    (_folder() / "mine.toml").write_bytes(data)
    tables = Quick(shipped_folder(), _folder())
    for problem in tables.problems:
        assert not told(problem)
    if tables.problems:
        return False
    for said in ASKED[: 3 if len(data) % 4 else None]:
        _answer(said, tables)
    return True


def _answer(said: dict[str, str], tables: Tables) -> None:
    try:
        advice = advise.__wrapped__(resolve(read_question(said, tables), tables), tables)
    except FastenError as error:
        told(error)
    else:
        shows(advice_text(advice))
        json_text(advice_json(advice))


def overlay_text(name: str, most: int = 2) -> str:
    """The first rows of a shipped table as a table of the user's own."""
    rows = islice(builtin().table(name).rows, most)
    columns, units = zip(*(_column(field.name) for field in fields(TABLES[name].row_type)), strict=True)
    lines = [json.dumps([_cell(row, field) for field in vars(row)], ensure_ascii=False) for row in rows]
    return (
        f'format = 1\ntable = "{name}"\ntitle = "Mine"\nstandard = "none"\nlimits = "Invented."\n'
        f'[[source]]\nid = "mine"\nbasis = "user\'s own"\ntext = "measured"\n'
        f"[data]\ncolumns = {json.dumps(columns)}\nunits = {json.dumps(units, ensure_ascii=False)}\n"
        f"rows = [\n{''.join(f'  {line},' + chr(10) for line in lines)}]\n"
    )


def _column(field: str) -> tuple[str, str]:
    for suffix, unit in COLUMN_OF_UNIT:
        if field.endswith(f"_{suffix}"):
            return field.removesuffix(f"_{suffix}"), unit
    return field.rstrip("_"), ""


def _cell(row: Row, field: str) -> object:
    value = getattr(row, field)
    return "mine" if field == "from_" else "-" if value is None else value


# -- jobs and shelves -------------------------------------------------------------------------------------------------

ONE = Job("Estate", "", "", (Mount("left amp", tuple(AMP.items())),))


def check_job(data: bytes) -> bool:
    """A job is opened or told; what was opened is saved as it is, and the documents of a small one can be shown."""
    try:
        job, why = read_job(data, "car.toml", builtin())
    except FastenError as error:
        return told(error)
    if not why:
        assert read_job(job_text(job).encode(), "car.toml", builtin())[0] == job
    if len(job.mounts) <= 2:
        _show(job, None)
    return True


def check_shelf(data: bytes) -> bool:
    """A shelf is opened or told; what was opened is saved as it is, and a job can be packed from it."""
    try:
        shelf, why = read_shelf(data, "shelf.toml")
    except FastenError as error:
        return told(error)
    if not why:
        assert read_shelf(shelf_text(shelf).encode(), "shelf.toml")[0] == shelf
    for trouble in troubles(shelf, builtin()):
        assert not told(trouble.error)
    _show(ONE, shelf)
    return True


def _show(job: Job, shelf: Shelf | None) -> None:
    found = choices(job, builtin(), owned_of(shelf, builtin()))
    listed = hardware(job, found, shelf, builtin())
    for format_ in FORMATS:
        shows(written(hardware_document(listed), format_, 80).replace("\r\n", "\n"))
    shows(written(ready_document(ready(listed, found)), "text", 44))
    json.loads(to_json(listed))


def job_of(said: dict[str, str]) -> str:
    """The text of a job of one mount point that asks this."""
    return f"{JOB}{_toml_of({'name': 'amp', **said}, '[[mount]]')}{PIN}{BUILT}"


def _toml_of(said: dict[str, str], head: str) -> str:
    return f"{head}\n" + "".join(f"{name} = {json.dumps(text)}\n" for name, text in said.items())


JOB = 'format = 1\nkind = "job"\ntitle = "Estate"\nvehicle = "blue"\nnote = """\ntwo\nlines"""\npacked = ["a"]\n'
PIN = '[mount.pin]\nmethod = "rivet_nut"\nthread = "M6"\nreceiver-length = "16 mm"\nscrew-length = "20 mm"\n'
BUILT = '[mount.built]\ndate = "2024-05-01"\nhole = "9.1 mm"\nhardware = "M6"\ntorque = "4 N·m"\nnote = "tight"\n'
TYPED = (
    b"steel 0.8 mm\r", "½ caf\u00e9".encode(), "caf\u00e9".encode("latin-1"), b"\x1b[200~amp\x1b[201~",
    b"\x1b[<0;9;3M\x1b[<0;9;3m", b"\x1b[M \xff!", b"\x1b[97;1;55296u", b"\x1b[9999999999;1u", b"\x1b[1:2;3u",
    b"\x1b[48;9999;9999;0;0t", b"\x1b[?2048;1$y", b"\x1b[A\x1b", b"\xf0\x9f",
)  # fmt: skip
TYPED_WORDS = (";", "\x1b[", "\x1b[200~", "\x1b[201~", "\x1b[<", "\x1b[M", "u", "~", "é")
SHELF = (
    'format = 1\nkind = "shelf"\ntitle = "Van"\ncurrency = "EUR"\nbits = ["5.1 mm", "#7"]\ntools = ["drill"]\n'
    'consumables = ["primer"]\n[[part]]\nkind = "screw"\nsize = "M6"\nname = "ISO 4762"\ngrade = "8.8"\n'
    'length = "20 mm"\ncount = 8\npack = 50\nprice = 4.5\nnote = "new"\n'
)

NEWER = SHELF.replace("= 1\n", "= 2\n")
NEAR = SHELF.replace('"screw"', '"bolt"').replace('["drill"]', '["rivet nut setter", "rivet-nut mandrel"]')

# -- seeds and words --------------------------------------------------------------------------------------------------

SIZES = (
    "5.1 mm",
    "9/64",
    '1 1/2"',
    "½ in",
    "20 ga steel",
    "0,8 mm",
    "-5 °C",
    "2.5 N·m",
    "10 in-lb",
    "1,000 mm",
    "5 yd",
)
LOOKED = ("M6", "M6x0.75x20", "1/4-20 unc x 1", "#8", "st4.2", "F", "9/64", "5.1mm", "20 ga", "grade 5", "a2-70 m6")
ITEMS = ("amplifier", "crossover", "enclosure", "trim-panel", "speaker", "ground lug", "wire clamp", "fuse holder")
KEYWORDS = (
    "steel", "aluminium", "mdf", "abs", "foam", "floor", "ga", "rectangle", "circle", "row", "at", "stud", "AWG",
    "yes", "no", "face", "edge", "one-side", "both-sides", "never", "weekly", "door",
)  # fmt: skip
NASTY = (
    "\x1b[2J", "\u202e", "\u200b", "\x00", "½", "٣", "=HYPERLINK", "[bold]", "<script>", "|", "`", "e308", "nan", "-",
)  # fmt: skip
UNIT_WORDS = tuple(dict.fromkeys(word for unit in UNITS for word in unit.spellings.split()))
TOML = (
    '"""', "'''", "[[", "]]", "{", "}", " = ", "1e308", "1e-308", "0x7f", "true", "inf", "nan", "1979-05-27", '"-"',
    "\\u202e", "99999999999999999999", "0.0", "-1", '"mine"', "#", "\r\n", "[[mount]]\n", "[[part]]\n", "format = 2\n",
)  # fmt: skip
NUMBERS = (*"0123456789./,- ", "1/2", "0.8", "25", "½")
SIZE_WORDS = tuple(dict.fromkeys((*NUMBERS, *UNIT_WORDS, " ga", "gauge", " steel", *NASTY)))
LOOK_WORDS = ("m", "x", "#", "st", " ", " unc", " unf", " drill", "grade ", "no", '"', " mm", "a2-70", " ga", *NUMBERS)
FIELD_WORDS = ("", " ", "", " mm", " kg", "x", *ITEMS, *(f"{word} " for word in KEYWORDS), *SIZES, *NUMBERS, "M6", "M8")
OVERLAYS = tuple(name for name, table in TABLES.items() if table.row_type.parts)


def _encoded(texts: Iterable[str]) -> tuple[bytes, ...]:
    return tuple(text.encode() for text in texts)


def _pieced(length: int) -> tuple[bytes, ...]:
    return tuple(PIECED + bytes(range(start, start + length)) for start in range(0, 256 - length, length))


def check_typed(data: bytes) -> bool:
    """What a terminal sends; keys that come after it are still heard."""
    from textual.events import Key

    from fasten.tui.terminal.driver import Typed

    typed = Typed()
    came = [*typed.read(data), *typed.waited()]
    after = [*typed.read(b"\x1b[201~" + b"z" * 40)]  # ends a paste, and a sequence that is not at its end
    assert any(isinstance(message, Key) and message.key == "z" for message in after), f"deaf after {data!r}"
    return bool(came)


TARGETS = (
    Target("sizes", 0.26, _encoded(SIZES) + _pieced(3), SIZE_WORDS, check_size),
    Target("look", 0.18, _encoded(LOOKED) + _pieced(3), (*NASTY, *LOOK_WORDS), check_look),
    Target(
        "question", 0.12, tuple(map(lines_of, ASKED)) + _pieced(9), (*NAMES, *ITEMS, *KEYWORDS, *NASTY, *SIZES),
        check_question,
    ),
    Target("overlay", 0.10, _encoded(map(overlay_text, OVERLAYS)), (*TOML, *OVERLAYS), check_overlay),
    Target("job", 0.12, _encoded(map(job_of, ASKED)), (*TOML, *NAMES, *KEYWORDS, *NASTY), check_job),
    Target("typed", 0.10, TYPED, TYPED_WORDS, check_typed),
    Target("shelf", 0.12, _encoded((SHELF, NEAR, NEWER)), (*TOML, *NASTY, "count"), check_shelf),
)  # fmt: skip
