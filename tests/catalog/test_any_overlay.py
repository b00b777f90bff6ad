"""Whatever a file of the user's own holds is told or used: nothing is raised, the shipped tables still answer."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from built.few import few
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fasten.catalog.tables import Tables, builtin, shipped_folder

pytestmark = pytest.mark.slow

MOST = 300
GOOD = """
format = 1
table = "washers"
title = "My own"
standard = "none"
limits = "Made up for a test."
[[source]]
id = "mine"
basis = "user's own"
text = "measured with a made-up caliper"
[data]
columns = ["standard", "form", "size", "hole", "outer", "thickness", "from"]
units = ["", "", "", "mm", "mm", "mm", ""]
rows = [
  ["ISO 7089", "plain", "M6", 6.4, 40, 1.6, "mine"],
  ["ISO 7089", "plain", "M99", 100, 400, 10.0, "mine"],
]
"""
NAMES = st.sampled_from(["format", "table", "title", "source", "data", "columns", "rows", "units", "id", "x\n", ""])
SCALARS = st.one_of(
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    st.dates(),
    st.sampled_from([1, 5.5, "mine", "mm", "-", "user's own", "washers", 10**30]),
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES, inner, max_size=4), max_leaves=8
)
fuzz = settings(
    max_examples=few(200), deadline=None, database=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def toml(value: Any) -> str:
    if isinstance(value, str):
        escaped = "".join(f"\\U{ord(char):08x}" for char in value)
        return f'"{escaped}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(map(toml, value))}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{toml(key)} = {toml(item)}' for key, item in value.items())}}}"
    return str(value)


def render(data: dict[str, Any]) -> str:
    return "\n".join(f"{toml(key)} = {toml(value)}" for key, value in data.items())


def spots(data: Any) -> list[tuple[Any, Any]]:
    """Every place in nested data: what holds it and its key there."""
    keys = list(data) if isinstance(data, dict) else range(len(data)) if isinstance(data, list) else []
    return [spot for key in keys for spot in [(data, key), *spots(data[key])]]


def overlaid(folder: Path, content: str | bytes) -> Tables:
    """The shipped tables with this one file of the user's own."""
    (folder / "mine.toml").write_bytes(content.encode() if isinstance(content, str) else content)
    return Tables(shipped_folder(), folder)


def problems(tables: Tables) -> list[str]:
    """The problems as text, each on one short line."""
    messages = [str(problem) for problem in tables.problems]
    assert all(message.isprintable() and len(message) < MOST for message in messages)
    return messages


def told_or_used(tables: Tables) -> bool:
    """Whether the one file was either refused, and only that, or laid over the shipped table."""
    overlaid_washers = tables.table("washers") != builtin().table("washers")
    return len(problems(tables)) == (0 if overlaid_washers else 1)


@fuzz
@given(content=st.binary(max_size=300))
def test_any_bytes_are_told(tmp_path: Path, content: bytes) -> None:
    tables = overlaid(tmp_path, content)
    assert len(problems(tables)) == 1
    assert problems(tables)[0].startswith("mine.toml: ")


@fuzz
@given(content=st.text(st.sampled_from("[]{}=.,\"'#\\\n\r\tu0e1x_-:TZ é\x1b"), max_size=80))
def test_any_text_is_told(tmp_path: Path, content: str) -> None:
    assert len(problems(overlaid(tmp_path, content))) == 1


@fuzz
@given(data=st.dictionaries(NAMES, VALUES, max_size=6))
def test_any_structure_is_told(tmp_path: Path, data: dict[str, Any]) -> None:
    assert len(problems(overlaid(tmp_path, render(data)))) == 1


@fuzz
@given(chosen=st.data(), value=VALUES)
def test_good_file_with_anything_anywhere_is_told_or_used(tmp_path: Path, chosen: st.DataObject, value: Any) -> None:
    data = tomllib.loads(GOOD)
    holder, key = chosen.draw(st.sampled_from(spots(data)))
    holder[key] = value
    assert told_or_used(overlaid(tmp_path, render(data)))


@fuzz
@given(chosen=st.data())
def test_good_file_with_one_part_lost_is_told_or_used(tmp_path: Path, chosen: st.DataObject) -> None:
    data = tomllib.loads(GOOD)
    holder, key = chosen.draw(st.sampled_from(spots(data)))
    del holder[key]
    assert told_or_used(overlaid(tmp_path, render(data)))
