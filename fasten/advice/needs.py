"""The tools and consumables of the work, from the rows of every method and of the proposal's own."""

from fasten.advice.blanks import Filled
from fasten.advice.conditions import Holding, applies
from fasten.advice.rows import sized_mm, tools_of_method
from fasten.catalog.job_parts import TOOL_KINDS
from fasten.catalog.tables import Tables
from fasten.model import Need, Patch, Proposal

CONSUMABLE = "consumable"  # the heading of what is used up


def needs_of(
    proposal: Proposal, held: Holding, filled: Filled, tables: Tables
) -> tuple[tuple[Need, ...], tuple[Need, ...]]:
    """The tools and consumables of a proposal in the order of `tool-kinds`, for what is `held`, with these blanks."""
    rows = {row.tool: row for row in tools_of_method(proposal.method, tables) if applies(row.only_if, held)}
    hole = proposal.joint.hole
    kinds = [kind for kind in tables.rows(TOOL_KINDS) if kind.tool in rows]
    needs = [(kind, Need(kind.tool, kind.text.format_map(filled), sized_mm(rows[kind.tool], hole))) for kind in kinds]
    tools = tuple(need for kind, need in needs if kind.heading != CONSUMABLE)
    consumables = tuple(need for kind, need in needs if kind.heading == CONSUMABLE)
    return tools, (*_bond(proposal.joint.patch, tables), *consumables)


def _bond(patch: Patch | None, tables: Tables) -> tuple[Need, ...]:
    """The adhesive or tape that keeps it on its face; one of the user's own tables goes by its name."""
    if patch is None or patch.bond is None:
        return ()
    kind = tables.find(TOOL_KINDS, patch.bond)
    return (Need(patch.bond, patch.bond if kind is None else kind.text),)
