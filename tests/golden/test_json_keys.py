"""The JSON of every command, key by key: all that is printed is documented. FASTEN_REWRITE=1 writes the list anew."""

import json
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fasten.__main__ import main
from fasten.commands.demo import demo_folder
from fasten.model import Origin
from fasten.question.fields import NAMES
from fasten.report.json_keys import OF, keys, keys_text

pytestmark = pytest.mark.slow

FILE = Path(__file__).with_name("json-keys.txt")
CAR, DEMO, SHELF = "car.toml", "example/job.toml", "example/shelf.toml"
COMMANDS: dict[str, tuple[str, ...]] = {
    "pick": ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40 mm"),
    "wire": ("1000 W class D", "--from", "battery stud M8", "--to", "set screw", "--length", "5m"),
    "runs": (CAR,), "hardware": (DEMO, "--shelf", SHELF), "ready": (DEMO, "--shelf", SHELF), "work": (DEMO,),
    "gauge": (CAR,), "instead": (DEMO, "left amplifier", "--length", "25 mm"), "fewest": (DEMO,),
    "built": (CAR, "amplifier", "--hole", "7 mm"),
    "repair": (DEMO, "left amplifier", "spun"), "start": (CAR, "--with", "processor", "--add"),
    "set": (CAR, "amplifier"), "copy": (CAR, "amplifier"), "look": ("M6",), "tables": (), "demo": (),
    "shelf": (SHELF,),
}  # fmt: skip
MORE = (
    ("repair", DEMO, "left amplifier", "oversize 8.2 mm"),
    ("shelf", SHELF, "kit"), ("shelf", SHELF, "add", "50 x M5 x 16 mm flange bolts", "20 rivet nuts"),
    ("start",), ("pair", CAR, "left amplifier"), ("keep", CAR, "amplifier", "1"), ("undo", CAR), ("tables", "json"),
    ("keep", CAR, "amplifier"), ("look", "5.1 mm"), ("look", "20 ga"), ("look", "4 AWG"), ("look", "#8"),
    ("look", "ST4.2"), ("look", "grade 5"), ("work", DEMO, "--visit"),
    ("pick", "ground lug", "--onto", "steel 1.2 mm", "--removed", "rarely", "--cable", "25 mm2"),
    ("pick", "amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--between", "foam 3 mm", "--power",
     "600 W class D", "--outputs", "4 x 75 W 4 ohm", "--support", "push 60 N 0.2 mm, 150 N 0.5 mm"),
)  # fmt: skip


def test_every_command_that_prints_json_has_its_document() -> None:
    assert set(OF) == set(COMMANDS)


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, ...], dict[str, Any]]:
    """What each command prints as JSON."""
    folder, before = tmp_path_factory.mktemp("keys"), Path.cwd()
    shutil.copytree(demo_folder(), folder / "example")
    os.chdir(folder)
    try:
        main(["start", CAR, "--with", "amplifier, left amp, doors, power"])
        return {words: _json(words) for words in ((name, *words) for name, words in COMMANDS.items())} | {
            words: _json(words) for words in MORE
        }
    finally:
        os.chdir(before)


def _json(words: tuple[str, ...]) -> dict[str, Any]:
    from contextlib import redirect_stderr, redirect_stdout
    from io import StringIO

    out = StringIO()
    with redirect_stdout(out), redirect_stderr(StringIO()):
        main([*words, "--json"])
    found: dict[str, Any] = json.loads(out.getvalue())
    return found


def _keys(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from _keys(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _keys(inner)


def test_every_key_that_is_printed_is_documented(printed: dict[tuple[str, ...], dict[str, Any]]) -> None:
    documented = {one.key for one in keys()}
    missing = {(words[0], key) for words, found in printed.items() for key in _keys(found) if key not in documented}
    assert not missing, "write what they are in fasten/report/json_keys.txt"


def test_what_stands_at_the_top_of_each_document_is_documented(
    printed: dict[tuple[str, ...], dict[str, Any]],
) -> None:
    for name, words in COMMANDS.items():
        assert list(printed[name, *words]) == OF[name].split(), name


def test_each_field_of_a_mount_point_keeps_where_it_is_from(printed: dict[tuple[str, ...], dict[str, Any]]) -> None:
    mount = printed["pick", *COMMANDS["pick"]]["mount"]
    assert all(set(field) == {"value", "origin"} for field in mount.values())
    assert {field["origin"] for field in mount.values()} == {None, *(origin.value for origin in Origin)}
    assert (mount["behind_mm"]["origin"], mount["item_hole_mm"]["origin"]) == ("given", "preset")


def test_every_field_of_a_question_is_documented_by_its_name() -> None:
    assert set(NAMES) <= {one.key for one in keys()}


def test_the_list_of_keys_is_as_it_was_read() -> None:
    text = keys_text(80)
    if os.environ.get("FASTEN_REWRITE"):
        FILE.write_text(text, encoding="utf-8")
    assert text == FILE.read_text(encoding="utf-8")
    assert all(len(line) <= 80 for line in text.splitlines())
