"""What a joint, its panel and all work must be warned of."""

from fasten.advice.blanks import Filled
from fasten.advice.conditions import applies
from fasten.catalog import practice
from fasten.catalog.tables import Tables
from fasten.model import Caution, MountPoint, Proposal


def cautions_of(proposal: Proposal, mount: MountPoint, tables: Tables, held: frozenset[str]) -> tuple[Caution, ...]:
    """The cautions of a proposal in the order of the table, blanks filled; `held` are the conditions that hold."""
    filled = Filled(proposal, mount, tables)
    methods = {proposal.method, practice.EVERY}
    rows = (row for row in tables.rows(practice.CAUTIONS) if row.method in methods)
    return tuple(
        Caution(row.caution, row.text.format_map(filled), row.for_all) for row in rows if applies(row.only_if, held)
    )


def for_all_work(tables: Tables) -> tuple[Caution, ...]:
    """The cautions that are for all work, whatever is fastened."""
    rows = (row for row in tables.rows(practice.CAUTIONS) if row.for_all)
    return tuple(Caution(row.caution, row.text, True) for row in rows)
