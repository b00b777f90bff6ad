"""Tables in memory in which every text that people read says something else, its blanks kept."""

from dataclasses import replace
from string import Formatter

from fasten.catalog.load import Table
from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables, shipped_folder

# The columns of each table that hold words and nothing that is looked up by.
WORDS = {
    "steps": ("text",), "cautions": ("text",), "work-order": ("text",), "tool-kinds": ("text", "listed"),
    "methods": ("title", "replace"), "rules": ("text",), "weights": ("why",),
}  # fmt: skip


class Reworded(Tables):
    """The shipped tables with every text replaced by another."""

    def __init__(self) -> None:
        super().__init__(shipped_folder())

    def read(self, wanted: TableOf[Row]) -> Table:
        found, columns = super().read(wanted), WORDS.get(wanted.name, ())
        return replace(found, rows=tuple(_row(row, columns, number) for number, row in enumerate(found.rows)))


def _row(row: Row, columns: tuple[str, ...], number: int) -> Row:
    said = {column: getattr(row, column) for column in columns}
    return replace(row, **{column: _other(text, number) for column, text in said.items() if text})


def _other(text: str, number: int) -> str:
    """Other words, a number that tells them apart, and the same blanks."""
    blanks = " ".join(f"{{{name}}}" for _, name, _, _ in Formatter().parse(text) if name)
    return f"Quite otherwise {number} {blanks}".strip()
