"""The text of a table or of a job as plain data: TOML, of which tables that ship are read as JSON, which is quicker."""

import json
import re
from collections.abc import Iterator
from typing import Any

_LONG = '"""'
_ROWS = "\nrows = "
_DIGITS = 19  # of a whole number: what has as many is left to `loads`
_PARTS = 16  # of a dotted key; no file of ours has more than two
_QUOTED = r'"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*+\''
_DOTTED = rf"(?:\.[ \t]*+(?:[A-Za-z0-9_-]++|{_QUOTED})[ \t]*+){{{_PARTS}}}"
_NO_KEY = rf'(?s:"""(?:[^"\\]++|\\.|"(?!""))*+"{{3,5}}|\'\'\'(?:[^\']++|\'(?!\'\'))*+\'{{3,5}})|{_QUOTED}|#[^\n]*+'


def loads(text: str) -> dict[str, Any]:
    """TOML as plain data, raising what tomllib raises, and RecursionError for a key of very many dotted parts.

    tomllib takes time and memory by the square of them: a few kilobytes of dots would take all there is.
    """
    if any(line.count(".") >= _PARTS for line in text.split("\n")) and _is_dotted(text):
        raise RecursionError(f"a key of more than {_PARTS} parts")
    from tomllib import loads as read  # slow to load, and of the tables that ship none needs it

    return read(text)


def _is_dotted(text: str) -> bool:
    """Whether any key has very many dotted parts: asked of few texts, as the patterns alone take long to make."""
    return re.search(_DOTTED, text) is not None and re.search(_DOTTED, re.sub(_NO_KEY, "a", text)) is not None


def loads_by_json(text: str) -> dict[str, Any]:
    """What `loads` makes of a table of ours, whose rows are JSON too and read by its parser in a tenth of the time.

    JSON lets things pass that TOML does not, so what is to be checked is read by `loads`. Raises what that raises.
    """
    head, rows, listed = text.partition(_ROWS)
    try:
        found = json.loads(listed, parse_constant=int)  # int takes no NaN and Infinity: TOML has them in small letters
        data = plain_head(head) or loads(head)
    except (ValueError, RecursionError):
        return loads(text)
    if not rows or not isinstance(data.get("data"), dict) or _last_table(head) != "data" or "rows" in data["data"]:
        return loads(text)
    data["data"]["rows"] = found
    return data


def _last_table(head: str) -> str:
    """The name of the table that what follows belongs to."""
    return head.rpartition("\n[")[2].partition("]")[0]


def plain_head(text: str) -> dict[str, Any] | None:
    """What `loads` makes of the head of a table as ours are: texts, whole numbers and lists of texts, a line each.

    None where any line is another, or says what was said already: `loads` says what is wrong with it.
    """
    whole: dict[str, Any] = {}
    into, sources = whole, list[dict[str, Any]]()
    lines = iter(text.split("\n"))
    for line in lines:
        name, equals, value = line.partition("=")
        name = name.rstrip(" ")
        if line == "[[source]]" and whole.setdefault("source", sources) is sources:
            into = {}
            sources.append(into)
        elif line == "[data]" and "data" not in whole:
            into = whole["data"] = {}
        elif equals and name.isidentifier() and name.isascii() and name not in into:
            into[name] = _plain_value(value.lstrip(" "), lines)
            if into[name] is None:
                return None
        elif line:
            return None
    return whole


def _plain_value(value: str, lines: Iterator[str]) -> Any:
    """A text, a whole number or a list of texts, as TOML reads it; None where it is anything else, or not plain."""
    if value.startswith(_LONG):
        return _long_text(value.removeprefix(_LONG), lines)
    value = value.rstrip(" ")
    if "\\" in value.replace(r"\n", "") or not value.isprintable():
        return None
    begins, ends = value[:1], value[-1:]
    if begins == "[" and ends == "]" and all(part.strip(" ") in ("", ",") for part in value[1:-1].split('"')[::2]):
        try:
            return json.loads(value)
        except ValueError:
            return None
    if begins == ends == '"' and value.count('"') == len('""'):
        return value[1:-1].replace(r"\n", "\n")
    return int(value) if value.isascii() and value.isdecimal() and begins != "0" and len(value) < _DIGITS else None


def _long_text(text: str, lines: Iterator[str]) -> str | None:
    """A text of several lines, of which the first stands already; None where it holds what means something."""
    while not text.endswith(_LONG):
        line = next(lines, "")
        if not line.strip(" "):
            return None
        text = f"{text[:-1]}{line.lstrip(' ')}" if text.endswith("\\") else f"{text}\n{line}"
    text = text.removesuffix(_LONG)
    is_plain = text.replace("\n", "").isprintable() and text[:1] != "\n" and '"' not in text and "\\" not in text
    return text if is_plain else None
