"""Jobs, shelves and tables of the user's own with anything anywhere: opened or told, and what is opened can be shown.

The cases are few here; `tests/benchmarks/fuzz.py` runs the same checks over hundreds of thousands.
"""

import json
import re
import tomllib
from functools import cache
from pathlib import Path
from random import Random

import pytest
from built.few import few, sample
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fasten.catalog.tables import builtin, shipped_folder
from fasten.job.list.lists import HardwareList
from fasten.job.shelf.check import troubles

from .near_misses import counts, is_passed_over, listed_for, near_miss
from .targets import (
    ASKED,
    OVERLAYS,
    SHELF,
    TOML,
    Quick,
    check_job,
    check_overlay,
    check_shelf,
    job_of,
    overlay_text,
)

pytestmark = pytest.mark.slow

quick = settings(deadline=None, database=None, suppress_health_check=[HealthCheck.too_slow])
ANYTHING = st.binary(max_size=12) | st.sampled_from([word.encode() for word in TOML])


@st.composite
def mangled(draw: st.DrawFn, seeds: tuple[str, ...]) -> bytes:
    """A good file in which up to three stretches are anything else."""
    data = draw(st.sampled_from(seeds)).encode()
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(data)))
        data = data[:start] + draw(ANYTHING) + data[start + draw(st.integers(0, 12)) :]
    return data


VALUES = st.one_of(
    st.text(max_size=12).map(json.dumps), st.integers().map(str), st.floats().map(str), st.sampled_from(TOML),
    st.sampled_from(['"5 mm"', '"M6"', '"1/4 in"', '"²"', "[]", "{}", '"steel 1 mm"', '"ground lug"', '"stud M6"']),
)  # fmt: skip


@st.composite
def revalued(draw: st.DrawFn, seeds: tuple[str, ...]) -> bytes:
    """A good file in which a few entries have other values."""
    lines = draw(st.sampled_from(seeds)).split("\n")
    for at in draw(st.lists(st.integers(0, len(lines) - 1), min_size=1, max_size=3)):
        name, equals, _ = lines[at].partition(" = ")
        lines[at] = f"{name}{equals}{draw(VALUES)}" if equals else lines[at]
    return "\n".join(lines).encode("utf-8", "backslashreplace")


JOBS = tuple(map(job_of, ASKED))
TABLES = tuple(map(overlay_text, OVERLAYS))


@settings(quick, max_examples=few(150))
@given(mangled(JOBS) | revalued(JOBS))
def test_any_job_is_opened_or_told(data: bytes) -> None:
    check_job(data)


@settings(quick, max_examples=few(150))
@given(mangled((SHELF,)) | revalued((SHELF,)))
def test_any_shelf_is_opened_or_told(data: bytes) -> None:
    check_shelf(data)


@settings(quick, max_examples=few(100))
@given(mangled(TABLES))
def test_any_table_of_the_users_own_is_laid_over_or_told(data: bytes) -> None:
    check_overlay(data)


@st.composite
def stretched(draw: st.DrawFn) -> bytes:
    """A good table of the user's own in which a column has another figure or text in every row."""
    head, rows = overlay_text(draw(st.sampled_from(OVERLAYS)), most=40).split("rows = [\n")
    cells = [json.loads(line.strip().rstrip(",")) for line in rows.splitlines()[:-1]]
    column = draw(st.integers(1, len(cells[0]) - 1))
    figure = st.floats(allow_nan=False, allow_infinity=False) | st.sampled_from(
        [0, 1, 1e-3, 1e-9, 5e-324, 2e4, 1e9, 1e15, 1e308, 2**63]
    )
    words = st.sampled_from(["-", "", "²", "M²", "M1e5", "{hole}", "|", "steel", "x" * 900])
    value = draw(figure if any(isinstance(row[column], int | float) for row in cells) else words)
    told = "".join(f"  {json.dumps([*row[:column], value, *row[column + 1 :]])},\n" for row in cells)
    return f"{head}rows = [\n{told}]\n".encode()


@settings(quick, max_examples=few(120))
@given(stretched())
def test_no_figure_of_the_users_own_breaks_an_answer(data: bytes) -> None:
    check_overlay(data)


@settings(quick, max_examples=few(200))
@given(st.integers(0, 10**9))
def test_no_line_of_a_shelf_is_passed_over(seed: int) -> None:
    """A slip away from what a list asks for, it counts or is named; and what counts is never said to match nothing."""
    shelf = near_miss(_listed(), Random(seed))
    said = troubles(shelf, builtin())
    assert not is_passed_over(shelf), shelf
    assert all(trouble.taken for trouble in said) or not counts(shelf), (shelf, said)
    assert all(str(trouble.error).isprintable() for trouble in said)


@cache
def _listed() -> HardwareList:
    return listed_for(ASKED)


@pytest.mark.parametrize("name", sample(OVERLAYS, 9))
def test_a_good_table_is_laid_over(name: str) -> None:
    """Else the tests above would try nothing but refusals."""
    assert check_overlay(overlay_text(name, most=400).encode())


@pytest.mark.parametrize("said", ASKED, ids=lambda said: str(said["item"]))
def test_a_good_job_is_opened(said: dict[str, str]) -> None:
    assert check_job(job_of(said).encode())
    assert check_shelf(re.sub("count = 8", "count = 0", SHELF).encode())


@pytest.mark.parametrize(
    ("name", "column", "value", "why"),
    [
        ("heads", "height_max", 1e308, "a size must be 0.001 to 20000"),
        ("hook-and-loop", "shear", 1e15, "a size must be 0.000000001 to 1000000000"),
        ("tee-nuts", "hole_min", 19.5, "hole_min_mm is 19.5 and hole_max_mm "),
        ("tee-nuts", "flange", 3, "hole_max_mm is 6 and flange_mm 3, the wrong way round"),
        ("adhesives", "kind", "glue", "kind is 'glue', not one of tape, paste"),
        ("adhesives", "removed", "daily", "removed is 'daily', not one of never, rarely, yearly, monthly, weekly"),
        ("adhesives", "standing", "-", "standing is '-', which this row needs"),
        ("adhesives", "hot_share", 1.5, "hot_share is 1.5, more than the whole"),
        ("bonded-studs", "thread", "M3", "thread is 'M3', not one of M4, M5, M6, M8, M10"),
        ("bonded-studs", "class", "best", "class 'best' is not in the table property-classes"),
    ],
)
def test_what_no_part_has_is_told(name: str, column: str, value: float | str, why: str, tmp_path: Path) -> None:
    """Each of these once ended in a fault of the program, when an answer was calculated from it."""
    head, rows = overlay_text(name, most=1).split("rows = [\n")
    at = tomllib.loads(f"{head}rows = []")["data"]["columns"].index(column)
    cells = json.loads(rows.splitlines()[0].strip().rstrip(","))
    cells[at] = value
    (tmp_path / "mine.toml").write_text(f"{head}rows = [\n{json.dumps(cells)}\n]\n", encoding="utf-8")
    (problem,) = Quick(shipped_folder(), tmp_path).problems
    assert why in problem.what
