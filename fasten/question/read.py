"""What a person typed, field by field, as a Question: one reading for the command line, the screen and job files.

Whatever is not said stays unsaid: nothing here fills a gap.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.model import Pattern, Question
from fasten.question import fields
from fasten.question.fields import field_named, missing, preset_of

_MOST_KEPT = 1024


def read_question(said: Mapping[str, str], tables: Tables) -> Question:
    """Read the fields of a question by their names; an empty or missing one was not said.

    Raises: FastenError, its `where` the field, if a text is not understood, or item or onto is missing, or removed
        where the item has no preset of it; with all others that are wrong.
    """
    texts = {field_named(name): text.strip() for name, text in said.items() if text.strip()}
    values: dict[str, Any] = {}
    wrong: list[FastenError] = []
    for field in fields.FIELDS:
        try:
            values |= _of(field, texts.get(field), values.get(fields.ITEM.fills[0]), tables)
        except FastenError as error:
            wrong.append(error)
    if wrong:
        wrong[0].others = tuple(wrong[1:])
        raise wrong[0]
    question = Question(**values)
    if question.pattern is not None and question.fixings is not None:
        check_count(question.pattern, question.fixings)
    return question


def _of(field: fields.Field, text: str | None, item: str | None, tables: Tables) -> Mapping[str, Any]:
    """What a field fills from its text; nothing where none was written. Raises FastenError where it needs one."""
    if text is not None:
        return values_of(field.name, text, tables)
    if isinstance(field.unsaid, fields.Needed) and preset_of(field, item, tables) is None:
        raise missing(field)
    return {}


@lru_cache(_MOST_KEPT)
def values_of(name: str, text: str, tables: Tables) -> Mapping[str, Any]:
    """What a text of a field fills, by attribute: few are others from one key, or question, to the next.

    Raises: FastenError, its `where` the field.
    """
    return field_named(name).read(text, tables)


def check_count(pattern: Pattern, count: int) -> None:
    """Check that so many fixings can sit in the pattern; raises FastenError."""
    where = fields.PATTERN.name
    if count == 1:
        raise FastenError("one fixing takes no pattern", where=where, fix="leave it out or say how many fixings")
    if pattern.points_mm and count != len(pattern.points_mm):
        what = f"{len(pattern.points_mm)} holes are written there, and there are {count} fixings"
        raise FastenError(what, where=where, fix="write every hole once, or change fixings")
    if pattern.kind == "rectangle" and (count < 4 or count % 2):
        what = f"a rectangle takes an even count of fixings from 4, not {count}"
        raise FastenError(what, where=where, fix="change fixings, or write circle 165 mm or row 100 mm")
