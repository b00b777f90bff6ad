"""Whatever is typed or pasted into any input stands as it is or is refused, and harms no screen, file or export."""

import csv
import io
import tomllib
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from built.few import sample
from textual.events import Paste
from textual.pilot import Pilot
from textual.widgets import Input

from fasten.job.store.storage import load_job, load_shelf
from fasten.question.fields import NAMES
from fasten.text.letters import is_text
from fasten.tui.box.paper import PAPERS

from .pilot import (
    AMPLIFIER,
    TABLES,
    app_of,
    do,
    drive,
    flat,
    lines,
    press,
    say,
    seen,
    settle,
    take,
    to_built,
)

pytestmark = pytest.mark.slow

ODD = ("[M8]", "[A2-70]", "[/", "[b", "🔊 amp", "مضخم الصوت", "a,\"b'{c}<d>&=1+1")
CONTROL = "a\x1b[2Jb\x07\x00\u202ec"
ESCAPED = r"a\x1b[2Jb\x07\x00\u202ec"
LONG = "x" * 10_000
TOGETHER = " ".join(ODD)


async def paste(pilot: Pilot[None], *texts: str) -> None:
    """Put each text in place of what stands in the field in hand, all at once, as a paste does."""
    for text in texts:
        field = pilot.app.focused
        assert isinstance(field, Input)
        field.value = ""
        field.post_message(Paste(text))
        await press(pilot, "enter")


async def record(pilot: Pilot[None], text: str) -> None:
    """Write a text down as what was built, in the fields that take any."""
    for name in ("hardware", "note"):
        await to_built(pilot, name)
        await paste(pilot, text)
    await do(pilot, "k")
    await do(pilot, "m")


def assert_whole(pilot: Pilot[None]) -> None:
    """No character that a terminal obeys stands on the screen, and no line of it is wider than the screen."""
    strips = pilot.app.screen._compositor.render_strips()
    assert all(strip.cell_length <= pilot.app.size.width for strip in strips)
    assert all(is_text(char) for strip in strips for char in strip.text), seen(pilot)


@pytest.mark.parametrize("text", sample([CONTROL, LONG, TOGETHER], 2), ids=lambda text: f"{len(text)} letters")
def test_every_question_takes_a_pasted_text_and_the_job_can_still_be_opened(text: str, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for name in NAMES:
            await take(pilot, name)
            pilot.app.query_one("#entry", Input).post_message(Paste(text))
        await settle(pilot)
        assert_whole(pilot)
        await do(pilot, "q")
        assert not pilot.app.is_running

    drive((80, 24), told, tmp_path)
    assert load_job(tmp_path / "job.toml", TABLES).value.mounts[0].name == "amplifier"


def test_what_is_looked_up_and_what_a_list_is_searched_for_is_no_more_than_text() -> None:
    async def told(pilot: Pilot[None]) -> None:
        for text in (*sample(ODD, 2), CONTROL, LONG):
            await do(pilot, "l")
            await paste(pilot, text)
            assert_whole(pilot)
            assert (ESCAPED if text == CONTROL else text[:20]) in flat(pilot)
            await do(pilot, "x")
            await paste(pilot, text)
            assert "What on paper?" in seen(pilot)
            assert_whole(pilot)
            await press(pilot, "tab", "tab", "tab", "enter")
            assert "What on paper?" not in seen(pilot)

    drive((80, 24), told)


def test_names_stand_as_typed_wherever_they_are_shown() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for text in sample(ODD[::2], 2):
            await do(pilot, "t")
            await paste(pilot, text, text, "1")
            await do(pilot, "j")
            await paste(pilot, "name the")
            await paste(pilot, text, text, text)
            await record(pilot, text)
            assert lines(pilot)[0].startswith(f" {text}  {text}  ‹ 1 of 1 ›")
            assert "  saved" in lines(pilot)[0]
            await do(pilot, "a")
            assert any(f"1 {mark} {text}" in flat(pilot) for mark in "■◐╳")
            await press(pilot, "enter")
            assert_whole(pilot)

    drive((120, 40), told)


def test_names_and_notes_stand_as_typed_in_the_file_and_on_every_paper(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "t")
        await paste(pilot, TOGETHER, TOGETHER, "1")
        await do(pilot, "j")
        await paste(pilot, "name the")
        await paste(pilot, *[TOGETHER] * 3)
        await record(pilot, TOGETHER)
        for paper in PAPERS:
            await do(pilot, "x")
            await paste(pilot, paper.title)
            assert " is written" in flat(pilot)
        assert_whole(pilot)

    drive((120, 40), told, tmp_path)
    job = load_job(tmp_path / "job.toml", TABLES).value
    assert (job.title, job.vehicle, job.note, job.mounts[0].name, job.mounts[0].note) == (TOGETHER,) * 5
    assert job.mounts[0].built is not None
    assert job.mounts[0].built.hardware == TOGETHER
    assert_parse(tmp_path, TOGETHER)


def assert_parse(folder: Path, text: str) -> None:
    """Every paper in the folder is what it says it is, and holds the text literally."""
    (table,) = folder.glob("*.csv")
    cells = [cell for row in csv.reader(io.StringIO(table.read_text(encoding="utf-8-sig"))) for cell in row]
    assert any(text in cell for cell in cells)
    for page in folder.glob("*.html"):
        assert text in _words(page.read_text(encoding="utf-8"))
    (drawing,) = folder.glob("*.svg")
    assert text in "".join(ElementTree.fromstring(drawing.read_text(encoding="utf-8")).itertext())
    (sheet,) = folder.glob("*-work.txt")
    assert text in sheet.read_text(encoding="utf-8")
    assert len(list(folder.glob("*.md"))) == 1


class Words(HTMLParser):
    """The text of a page."""

    words = ""

    def handle_data(self, data: str) -> None:
        self.words += data


def _words(page: str) -> str:
    parser = Words()
    parser.feed(page)
    return parser.words


@pytest.mark.parametrize(("text", "why"), [(LONG, "at most 200"), (CONTROL, "")], ids=["long", "control"])
def test_a_name_that_no_file_could_keep_is_refused_where_it_is_typed_and_one_with_escapes_is_plain(
    text: str, why: str, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "t")
        await paste(pilot, text, "", "1")
        assert_whole(pilot)
        if why:
            assert why in flat(pilot)
            assert "This mount point" in seen(pilot)
            await press(pilot, "tab", "tab", "enter")
        await do(pilot, "q")

    drive((80, 24), told, tmp_path)
    name = load_job(tmp_path / "job.toml", TABLES).value.mounts[0].name
    assert name == ("amplifier" if why else ESCAPED)


def test_a_long_title_leaves_room_to_say_whether_the_job_is_saved(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "j")
        await paste(pilot, "name the")
        await paste(pilot, "x" * 200, "", "")
        assert lines(pilot)[0].startswith(" xxxxx")
        assert "…  amplifier  ‹ 1 of 1 ›" in lines(pilot)[0]
        assert "  saved" in lines(pilot)[0]

    drive((44, 30), told, tmp_path)


@pytest.mark.parametrize("text", [TOGETHER, CONTROL], ids=["odd", "control"])
def test_what_is_on_the_shelf_stands_as_typed_on_the_screen_and_in_its_file(text: str, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await press(pilot, *"hpart", "enter")
        await paste(pilot, text, text, "16 mm", text, text, "20", "", "", text)
        await press(pilot, "enter")  # as it is, though nothing is like it
        assert f"20 □ {kept}" in flat(pilot)
        for sort in ("a bit", "a tool", "a consumable"):
            await press(pilot, "h", *sort, "enter")
            await paste(pilot, text)
            await press(pilot, "enter")
            assert f"{sort[2:]}: {kept}" in flat(pilot)
        assert_whole(pilot)

    kept = ESCAPED if text == CONTROL else text
    drive((120, 40), told, tmp_path)
    shelf = load_shelf(tmp_path / "shelf" / "shelf.toml").value
    assert (shelf.bits, shelf.tools, shelf.consumables) == ((kept,),) * 3
    assert (shelf.parts[0].part.kind, shelf.parts[0].part.size, shelf.parts[0].note) == (kept,) * 3
    assert tomllib.loads((tmp_path / "shelf" / "shelf.toml").read_text())["bits"] == [kept]


def test_a_figure_of_the_shelf_that_is_none_is_refused_and_nothing_that_was_filled_in_is_lost(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await press(pilot, *"hpart", "enter")
        await paste(pilot, "screw", "M5", "[/", "ISO 15071", "8.8", LONG, "", "", "")
        assert "! " in seen(pilot)
        assert pilot.app.screen.query_one("#fill-name", Input).value == "ISO 15071"
        assert not app_of(pilot).open_shelf.path.exists()

    drive((80, 24), told, tmp_path)
