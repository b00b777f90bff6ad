"""Which item a question is of, by any of the names that it goes by."""

from collections.abc import Mapping
from functools import lru_cache

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.question.fields import ITEM


@lru_cache(maxsize=256)
def item_key(text: str) -> str:
    """The key of an item by any of its names; of what is none the text itself. Items are those that are shipped."""
    try:
        key = ITEM.read(text, builtin())[ITEM.fills[0]]
    except FastenError:
        return text
    return str(key)


def item_of(said: Mapping[str, str]) -> str:
    """The key of the item that a question is of, however it was typed; empty where none is said."""
    text = said.get(ITEM.name, "")
    return item_key(text) if text else ""
