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
        data = plain(head) or loads(head)
    except (ValueError, RecursionError):
        return loads(text)
    if not rows or not isinstance(data.get("data"), dict) or _last_table(head) != "data" or "rows" in data["data"]:
        return loads(text)
    data["data"]["rows"] = found
    return data


def _last_table(head: str) -> str:
    """The name of the table that what follows belongs to."""
    return head.rpartition("\n[")[2].partition("]")[0]


def plain(text: str) -> dict[str, Any] | None:
    """What `loads` makes of a text as ours are: texts, whole numbers and lists of texts, below their heads.

    None where any line is another, or says what was said already: `loads` says what is wrong with it.
    """
    whole = _Whole()
    into: dict[str, Any] | None = whole.found
    lines = iter(text.split("\n"))
    for line in lines:
        name, equals, value = line.partition("=")
        name = name.rstrip(" ")
        if equals and into is not None and is_key(name) and name not in into:
            into[name] = _plain_value(value.strip(" "), lines)
            if into[name] is None:
                return None
        elif line[:1] == "[":
            into = whole.opened(line)
            if into is None:
                return None
        elif line and not (line[0] == "#" and line.isprintable()):
            return None
    return whole.found


class _Whole:
    """What was found so far, and the table below each head, which may be one of a list and of another table."""

    def __init__(self) -> None:
        self.found: dict[str, Any] = {}
        self._lists: dict[str, list[dict[str, Any]]] = {}

    def opened(self, line: str) -> dict[str, Any] | None:
        """The table that begins with this head; None where it is no plain head, or there is something else already."""
        is_list = line.startswith("[[")
        path = line[2:-2] if is_list else line[1:-1]
        first, dot, last = path.partition(".")
        if line != (f"[[{path}]]" if is_list else f"[{path}]") or not is_key(first) or (dot and not is_key(last)):
            return None
        if dot and first not in self._lists:
            return None
        within = self._lists[first][-1] if dot else self.found
        if not dot:  # what is below the one before is not below this one
            last = first
            self._lists = {one: tables for one, tables in self._lists.items() if not one.startswith(f"{first}.")}
        table: dict[str, Any] = {}
        if is_list and path in self._lists:
            self._lists[path].append(table)
        elif last in within:
            return None
        else:
            within[last] = [table] if is_list else table
            if is_list:
                self._lists[path] = within[last]
        return table


def is_key(name: str) -> bool:
    """Whether a name is one that needs no quotes, and no figure first."""
    return name.isascii() and name.replace("-", "_").isidentifier()


def _plain_value(value: str, lines: Iterator[str]) -> Any:
    """A text, a whole number or a list of texts, as TOML reads it; None where it is anything else, or not plain."""
    if value.startswith(_LONG):
        return _long_text(value.removeprefix(_LONG), lines)
    return _listed(lines) if value == "[" else _on_a_line(value)


def _on_a_line(value: str) -> Any:
    """The same of what stands on one line."""
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


def _listed(lines: Iterator[str]) -> list[str] | None:
    """A list of texts, each on a line of its own with a comma after it, of which the first bracket stands already."""
    found: list[str] = []
    for line in lines:
        said = line.strip(" ")
        if said == "]":
            return found
        text = _on_a_line(said[:-1]) if said.startswith('"') and said.endswith(",") else None
        if text is None:
            return None
        found.append(text)
    return None


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
