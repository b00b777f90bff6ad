"""What a shelf says nothing of: where it lists nothing of a kind, a thing of that kind is not known to be here."""

from fasten.catalog.tables import Tables
from fasten.job.list.lists import HardwareList
from fasten.job.list.parts import same_part
from fasten.job.words import Shelf
from fasten.record import replace
from fasten.text.names import plain_name


def with_known(listed: HardwareList, shelf: Shelf | None, tables: Tables) -> HardwareList:
    """The list with whether the shelf lists anything of the kind of each line."""
    if shelf is None:
        return listed
    kinds, headings = {same_part(entry.part).kind for entry in shelf.parts}, _headings(shelf, tables)
    return replace(
        listed,
        parts=tuple(replace(line, known=same_part(line.part).kind in kinds) for line in listed.parts),
        bits=tuple(replace(line, known=bool(shelf.bits)) for line in listed.bits),
        tools=tuple(replace(line, known=line.heading in headings) for line in listed.tools),
        consumables=tuple(replace(line, known=bool(shelf.consumables)) for line in listed.consumables),
    )


def _headings(shelf: Shelf, tables: Tables) -> set[str]:
    """The headings under which any tool of the shelf is listed."""
    from fasten.job.list.stock import stock  # all that may be needed takes long to load, and no shelf asks for none

    known = {plain_name(name): heading for name, heading in stock(tables).headings.items()}
    tools = [plain_name(name) for name in shelf.tools]
    return {known[name] for name in known if any(tool == name or _begins_or_ends(tool, name) for tool in tools)}


def _begins_or_ends(tool: str, name: str) -> bool:
    return tool.startswith(f"{name} ") or tool.endswith(f" {name}")
