"""What a joint, its panel and all work must be warned of."""

from fasten.advice.blanks import Filled
from fasten.advice.conditions import Holding, applies
from fasten.advice.rows import cautions_of_method
from fasten.catalog import practice
from fasten.catalog.tables import Tables
from fasten.model import Caution


def cautions_of(method: str, held: Holding, filled: Filled, tables: Tables) -> tuple[Caution, ...]:
    """The cautions of a method in the order of the table, for what is `held` and with these blanks."""
    return tuple(
        Caution(row.caution, row.text.format_map(filled), row.for_all)
        for row in cautions_of_method(method, tables)
        if applies(row.only_if, held)
    )


def for_all_work(tables: Tables) -> tuple[Caution, ...]:
    """The cautions that are for all work, whatever is fastened."""
    rows = (row for row in tables.rows(practice.CAUTIONS) if row.for_all)
    return tuple(Caution(row.caution, row.text, True) for row in rows)
