"""What tables are installed: a list for people and for JSON."""

from fasten.catalog.load import BASES, Table
from fasten.catalog.registry import TABLES
from fasten.catalog.tables import Tables
from fasten.record import record
from fasten.report.look_text import MARKS, WIDTH, wrapped

FORMAT = 1


@record
class Listed:
    """One table: how many rows it has and on what they rest."""

    name: str
    title: str
    standard: str
    limits: str
    rows: int
    bases: tuple[str, ...]


@record
class Listing:
    """Every table, and what is wrong with any of them; `checked` says whether every value was looked at."""

    format: int
    checked: bool
    tables: tuple[Listed, ...]
    problems: tuple[str, ...]


def listing(tables: Tables, *, checked: bool, problems: tuple[str, ...]) -> Listing:
    """The list of every table that can be read; one that cannot is among the problems."""
    broken = {problem.split(".toml")[0] for problem in problems}
    return Listing(
        FORMAT, checked, tuple(_listed(tables.table(name)) for name in TABLES if name not in broken), problems
    )


def tables_text(found: Listing) -> str:
    """The list as text of 44 columns."""
    lines: list[str] = []
    for table in found.tables:
        marks = "".join(f"[{MARKS[basis]}]" for basis in table.bases)
        lines.append(f"{table.name:{WIDTH - len(marks)}}{marks}")
        lines += wrapped(f"{table.title}; {table.rows} rows", WIDTH, "  ", "  ")
    lines += ["", *wrapped("  ".join(f"[{mark}] {basis}" for basis, mark in MARKS.items()), WIDTH, "", "")]
    if found.checked and not found.problems:
        lines.append("every value checked, nothing wrong")
    return "\n".join(lines) + "\n"


def _listed(table: Table) -> Listed:
    used = {table.sources[row.from_].basis for row in table.rows if row.from_ in table.sources}
    bases = tuple(basis for basis in BASES if basis in used)
    return Listed(table.name, table.title, table.standard, table.limits, len(table.rows), bases)
