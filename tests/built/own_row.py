"""Tables with a row of the user's own, as its box gives it."""

import json
from pathlib import Path

from fasten.catalog.tables import Tables, shipped_folder


def tables_with(folder: Path, table: str, columns: str, units: str, row: tuple[str | float, ...]) -> Tables:
    """The shipped tables and, in `folder`, one more row of a table; columns and units are told apart by spaces."""
    names, listed = columns.split(), [*row, "box"]
    of_each = ["" if unit == "-" else unit for unit in units.split()]
    (folder / "mine.toml").write_text(
        f"""format = 1
table = "{table}"
title = "My own"
standard = "none"
limits = "Made up for a test."
[[source]]
id = "box"
basis = "user's own"
text = "a made-up box"
[data]
columns = {json.dumps([*names, "from"])}
units = {json.dumps([*of_each, ""], ensure_ascii=False)}
rows = [{json.dumps(listed)}]
""",
        encoding="utf-8",
    )
    tables = Tables(shipped_folder(), folder)
    assert not tables.problems
    return tables
