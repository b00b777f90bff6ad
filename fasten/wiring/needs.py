"""The tools and consumables of a run or hole, from their rows: each by its key, as the list of a mount point has it."""

from collections.abc import Iterator

from fasten.advice.consumables import consumable_names
from fasten.advice.tools import unsized
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_work import RUN_TOOLS
from fasten.model.line import LineId, Sort
from fasten.model.plan import ConsumableNeed, ToolNeed
from fasten.text.names import plain_name
from fasten.wiring.conditions import applies

OTHER = "other"  # the heading of tools that set, tap and drive nothing
_CONSUMABLE = "consumable"  # the heading of what is used up


def needs_of(of: str, held: frozenset[str], tables: Tables) -> tuple[tuple[ToolNeed, ...], tuple[ConsumableNeed, ...]]:
    """The tools and consumables of the rows that apply to a run or hole."""
    keys = [row.tool for row in tables.rows(RUN_TOOLS) if row.of == of and applies(row.only_if, held)]
    tools = tuple(tool(key, tables) for key in keys if not is_consumable(key, tables))
    return tools, tuple(_consumable(key, tables) for key in keys if is_consumable(key, tables))


def tool(key: str, tables: Tables) -> ToolNeed:
    """A tool by its key, or by its name where only work on cable takes it."""
    if tables.find(TOOL_KINDS, key) is not None:
        return unsized(key, tables)
    return ToolNeed(LineId(Sort.TOOL, key), OTHER, key, key, "", frozenset({plain_name(key)}))


def is_consumable(key: str, tables: Tables) -> bool:
    """Whether what has this key is used up."""
    kind = tables.find(TOOL_KINDS, key)
    return kind is not None and kind.heading == _CONSUMABLE


def tool_keys(tables: Tables) -> Iterator[str]:
    """Every tool of the rows, once."""
    return (key for key in dict.fromkeys(row.tool for row in tables.rows(RUN_TOOLS)) if not is_consumable(key, tables))


def _consumable(key: str, tables: Tables) -> ConsumableNeed:
    """So much of it as a hole or fixing takes."""
    row = next(row for row in tables.rows(CONSUMABLES) if row.consumable == key)
    return ConsumableNeed(LineId(Sort.CONSUMABLE, key), consumable_names(key, tables), "", None, row.amount, row.unit,
                          row.plus, row.waste, shared=False)  # fmt: skip
