"""Documents in four formats: nothing runs over, nothing is taken for a formula, for Markdown or for HTML."""

import csv
import re
from html.parser import HTMLParser
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.report.forms.as_csv import DEFUSED, defused
from fasten.report.forms.as_md import escaped
from fasten.report.forms.as_text import document_text
from fasten.report.forms.document import Column, Document, Section
from fasten.report.forms.written import FORMATS, written

NASTY = "<script>alert(1)</script>&\"'|`*_[x](y)\x1b[2J\u202e"
COLUMNS = (Column("Part"), Column("Count", True), Column("Where"))
SAMPLE = Document(
    "Hardware list: sample",
    ("Two mount points.",),
    (
        Section(
            "Parts", COLUMNS, (("Screw M5 x 16 mm", "8", "left amp 4, right amp 4"), ("Nut", "12", "")), ("a note",)
        ),
        Section("Steps", (), (), ("one", "two")),
    ),
)


def sample(text: str) -> Document:
    """A document with this text in each place a text can be."""
    columns = (Column(text), Column(text, True))
    return Document(text, (text,), (Section(text, columns, ((text, text),), (text,)),))


# -- text -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [44, 80, 120])
@given(text=st.text(max_size=200))
def test_no_line_of_text_is_wider_than_asked(width: int, text: str) -> None:
    assert all(len(line) <= width for line in document_text(sample(text), width).splitlines())


def test_a_table_stands_in_columns_where_it_fits() -> None:
    assert document_text(SAMPLE, 60) == (
        "Hardware list: sample\n"
        "Two mount points.\n"
        "\n"
        "PARTS\n"
        "Part              Count  Where\n"
        "Screw M5 x 16 mm      8  left amp 4, right amp 4\n"
        "Nut                  12\n"
        "- a note\n"
        "\n"
        "STEPS\n"
        "- one\n"
        "- two\n"
    )


def test_where_it_does_not_fit_each_row_is_a_paragraph() -> None:
    text = document_text(SAMPLE, 44)
    assert "- Screw M5 x 16 mm\n    count 8; where left amp 4, right amp 4\n- Nut\n    count 12\n" in text


def test_a_column_that_says_nothing_is_left_out_of_what_people_read() -> None:
    section = Section("Parts", COLUMNS, (("Screw", "", "here"),))
    document = Document("t", (), (section,))
    assert "Count" not in written(document, "text", 80)
    assert "Count" not in written(document, "md", 80)
    assert "Count" not in written(document, "html", 80)
    assert "Count" in written(document, "csv", 80)  # where columns must not move


def test_too_narrow_or_another_format_is_refused() -> None:
    with pytest.raises(ValueError, match="at least 20"):
        written(SAMPLE, "text", 10)
    with pytest.raises(ValueError, match="none of text, csv, md, html"):
        written(SAMPLE, "pdf", 80)


# -- CSV --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "cell",
    [
        "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1+1", "＋1", "－1", "＠x", " =1", "\u00a0=1", "−1",
        "\u200b=1",
    ],
)  # fmt: skip
def test_what_a_spreadsheet_would_calculate_is_defused(cell: str) -> None:
    assert defused(cell).startswith(DEFUSED)


@pytest.mark.parametrize("cell", ["Screw M5 x 16 mm", "8", "ISO 15071", "", "a=b", "0.25", "2 of 50"])
def test_plain_cells_stay_as_they_are(cell: str) -> None:
    assert defused(cell) == cell


@given(st.text(max_size=60))
def test_no_cell_begins_a_formula_whatever_is_written(text: str) -> None:
    for row in csv.reader(StringIO(written(sample(text), "csv", 80))):
        for cell in row:
            assert cell.strip()[:1] not in set("=+-@＝＋－＠") or not cell.strip()


def test_csv_can_be_read_back_cell_by_cell() -> None:
    rows = list(csv.reader(StringIO(written(SAMPLE, "csv", 80))))
    assert rows[0] == ["Section", "What", "Count", "Where", "Id", "Note"]
    assert ["Parts", "Screw M5 x 16 mm", "8", "left amp 4, right amp 4", "", ""] in rows
    assert rows[-1][0] == "Hardware list: sample"


def test_csv_is_one_table_whatever_the_sections_have() -> None:
    others = Section("Order", notes=("first", "second"), numbered=True)
    parts = Section("Bits", (Column("Bit"), Column("For")), (("5 mm", "amp"),), keys=("bit:drill/5",))
    document = Document("t", ("said first",), (*SAMPLE.sections, others, parts))
    header, *rows = list(csv.reader(StringIO(written(document, "csv", 80))))
    assert {len(row) for row in rows} == {len(header)}
    found = [dict(zip(header, row, strict=True)) for row in rows]
    assert {row["What"]: row["Id"] for row in found}["5 mm"] == "bit:drill/5"
    assert [(row["What"], row["Note"]) for row in found if row["Section"] == "Order"] == [
        ("1", "first"), ("2", "second"),
    ]  # fmt: skip
    assert (found[-1]["Section"], found[-1]["Note"]) == ("t", "said first")


def test_csv_has_each_column_once() -> None:
    """A table with ids of its own has them in the column of ids."""
    ids = Section("To measure", (Column("What"), Column("Id")), (("Palm", "palm:m8"),))
    header, *rows = list(csv.reader(StringIO(written(Document("t", (), (ids,)), "csv", 80))))
    assert header == ["Section", "What", "Id", "Note"]
    assert rows[0] == ["To measure", "Palm", "palm:m8", ""]


# -- HTML -------------------------------------------------------------------------------------------------------------


class Reader(HTMLParser):
    """Collects the tags and the text of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text.append(data)


@given(st.text(max_size=60))
def test_no_text_becomes_a_tag(text: str) -> None:
    plain, nasty = Reader(), Reader()
    plain.feed(written(sample("plain"), "html", 80))
    nasty.feed(written(sample(text + NASTY), "html", 80))
    assert nasty.tags == plain.tags


def test_html_shows_the_text_itself() -> None:
    reader = Reader()
    reader.feed(written(sample("<b>&amp;</b>"), "html", 80))
    # The title twice, what is said first, a heading, two heads of columns, two cells, a note.
    assert reader.text.count("<b>&amp;</b>") == 9


def test_html_needs_nothing_from_elsewhere() -> None:
    page = written(SAMPLE, "html", 80)
    assert not re.search(r"(src|href)=|https?:|@import|url\(", page)
    assert '<meta charset="utf-8">' in page


# -- Markdown ---------------------------------------------------------------------------------------------------------


@given(st.text(max_size=60))
def test_a_row_of_markdown_keeps_its_cells(text: str) -> None:
    rows = [line for line in written(sample(text + "x"), "md", 80).splitlines() if line.startswith("| ")]
    assert len(rows) == 3  # heads, the line under them, one row
    for row in rows:
        assert len(re.split(r"(?<!\\)\|", row.replace("\\\\", ""))) == 4


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("<script>", "&lt;script&gt;"),
        ("a|b", "a\\|b"),
        ("[x](y)", "\\[x\\](y)"),
        ("# not a heading", "\\# not a heading"),
        ("- not a list", "\\- not a list"),
        ("1. not a list", "1\\. not a list"),
        ("2.8 mm", "2.8 mm"),
        ("> no quote", "&gt; no quote"),
        ("*b* _i_ `c`", "\\*b\\* \\_i\\_ \\`c\\`"),
        ("a\nb", "a b"),
        ("Screw M5 x 16 mm, ISO 15071, 8.8", "Screw M5 x 16 mm, ISO 15071, 8.8"),
    ],
)
def test_markdown_shows_the_text_itself(text: str, shown: str) -> None:
    assert escaped(text) == shown


@pytest.mark.parametrize("format_", FORMATS)
def test_no_format_lets_a_control_character_through(format_: str) -> None:
    page = written(sample("a\x1b[2J\x07\u202eb\u2028c"), format_, 80)
    assert not re.search("[\x00-\x09\x0b\x0c\x0e-\x1f\x7f\u202a-\u202e\u2028\u2029]", page)
