"""Answers as plain data, ready for JSON: the field names are the keys, and nothing is left out.

Data keeps every digit; JSON text has six significant ones. No figure here is known to more, and the last digits of a
float differ from one Python to the next.
"""

from enum import Enum
from math import isfinite
from typing import Any

from fasten.model.line import LineId
from fasten.record import is_record, names_of

_SIGNIFICANT = 6


def to_plain(value: object) -> Any:
    """A value of dataclasses, enums, tuples and plain values as dicts, lists and plain values.

    A trailing underscore of a field name is dropped, since `from` and `class` are words of the language. What is
    absent is null. Data never stands as a key, so there is no way in for a dict.

    Raises:
        TypeError: a value has no plain form, a dict or an endless number among them.
    """
    if isinstance(value, Enum):
        return to_plain(value.value)
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, LineId):
        return value.text
    if isinstance(value, float):
        if not isfinite(value):
            raise TypeError(f"{value} has no place in JSON")
        return value
    if isinstance(value, tuple | list):
        return [to_plain(item) for item in value]
    if is_record(value):
        return {name.removesuffix("_"): to_plain(getattr(value, name)) for name in names_of(type(value))}
    raise TypeError(f"a {type(value).__name__} has no plain form")


def to_json(value: object) -> str:
    """The plain form as indented JSON text, escaped so that any terminal and any file can hold it."""
    return json_text(to_plain(value))


def json_text(plain: Any) -> str:
    """Plain data as indented JSON text in ASCII: nothing in it moves a cursor, and no encoding of a terminal breaks it.

    Figures have six significant digits. What was no greater than another stays so, and a whole number stays whole.

    Raises:
        ValueError: an endless number is in it.
    """
    import json

    return json.dumps(_rounded(plain), indent=2, allow_nan=False)


def _rounded(plain: Any) -> Any:
    if isinstance(plain, float):
        return float(f"{plain:.{_SIGNIFICANT}g}") + 0.0  # no minus before a nought
    if isinstance(plain, list | tuple):
        return [_rounded(item) for item in plain]
    if isinstance(plain, dict):
        return {key: _rounded(value) for key, value in plain.items()}
    return plain
