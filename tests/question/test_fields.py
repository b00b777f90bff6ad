"""One record a field: everything that reads, asks, keeps or names a field follows from it."""

import argparse
import ast
import subprocess
import sys
from collections import defaultdict
from dataclasses import fields as attributes
from types import UnionType
from typing import Any, get_args, get_origin, get_type_hints

import pytest
from built.code import modules, walked

from fasten.catalog.tables import builtin
from fasten.commands.pick import arguments
from fasten.errors import FastenError
from fasten.job.store.check import MountEntry
from fasten.model import MountPoint, Question
from fasten.question.fields import FIELDS, FORM, NAMES, NEEDED, Field, Needed, Unsaid, field_named
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .asking import LEAST

SAID = {
    "item": "amp", "onto": "mdf ring 18 mm", "removed": "yearly", "mass": "6 kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3 mm", "item-hole": "5.5 mm", "item-material": "aluminium",
    "cg": "30 mm", "panel": "floor", "between": "foam 3 mm", "behind": "0 mm", "edge": "20 mm", "boss": "8x14 mm",
    "support": "bay 300x450", "doubler": "200x1.6 mm bonded",
    "rails": "2 of 20x1.5 mm over 400 mm", "on-board": "rear board",
    "into": "edge", "reach": "one-side", "where": "cabin", "far-side": "wet", "visible": "yes", "grade": "8.8",
    "body": "7.1 mm",
    "hole-there": "6.2 mm", "holes-at": "points 0,0 240,0 240,180 0,180",
    "case": "hard-stop", "carries": "amplifier 5 kg, signal-processor", "run": "2 m",
    "ring": "M8", "rings": "2", "cable": "50 mm2", "current": "200 A",
    "power": "1000 W class D", "own-fuses": "3 x 35 A", "outputs": "4 x 75 W 4 ohm",
}  # fmt: skip
OWN = "question.fields"
# Where such a word names a layer, a figure that a check shows, or a part of a drawing: nothing is asked here.
FIGURES = ("methods.", "proof.", "report.section.", "report.template.", "wiring.", "report.wire.")
# Other modules in which the name of a field stands as a literal: as the attribute of a mount point that is filled
# there, or as a word of its own meaning (a column, the name of a check, a dimension, a class of the screen). The list
# only shrinks: a new field has none, and a name that is gone from a module must go from here too.
ALLOWED = {
    "behind": {"advice.blanks", "model.words", "report.answer.as_json", "tui.drawn.cells", "tui.drawn.joint",
        "tui.palette"},
    "between": {"model.words"},
    "boss": {"question.read_parts"},
    "cable": {"catalog.wiring_ends", "job.store.check", "job.store.job_toml", "job.store.runs_toml"},
    "carries": {"question.resolve"},
    "case": {"catalog.practice"},
    "current": {"model.words", "text.units"},
    "doubler": {"model.kinds"},
    "edge": {"model.words"},
    "fixings": {"question.resolve", "report.job.work_json"},
    "grade": {"catalog.rows", "job.shelf.check", "job.store.shelf_toml", "look.readings",
        "look.strength", "question.resolve", "report.look_text", "tui.state.open_shelf"},
    "hole-there": {"advice.method", "model.words"},
    "into": {"question.resolve"},
    "item": {"catalog.materials", "question.resolve", "report.job.work_json", "tui.drawn.cells", "tui.drawn.joint",
        "tui.palette"},
    "item-hole": {"advice.remark"},
    "mass": {"advice.blanks", "text.units"},
    "panel": {"model.words", "question.read_onto", "question.resolve", "tui.widgets.panels"},
    "pattern": {"question.resolve", "tui.drawn.plan"},
    "rails": {"catalog.practice"},
    "reach": {"question.resolve"},
    "removed": {"catalog.face_parts", "catalog.practice", "question.resolve"},
    "ring": {"model.words", "question.read_onto", "question.resolve"},
    "rings": {"question.resolve"},
    "support": {"model.words"},
    "visible": {"question.resolve"},
    "run": {"commands.runs", "job.wiring.runs", "job.store.check", "job.store.runs_toml", "report.job.hardware"},
    "where": {"job.wiring.runs", "job.store.runs_toml", "question.resolve", "tui.box.box_lines"},
}  # fmt: skip


def test_a_name_of_a_field_stands_nowhere_but_in_its_record() -> None:
    found = defaultdict(set)
    for module, tree in modules():
        for node in walked(tree):
            where = module.removeprefix("fasten.")
            if isinstance(node, ast.Constant) and node.value in NAMES and not where.startswith((OWN, *FIGURES)):
                found[node.value].add(where)
    assert found == ALLOWED


def test_every_attribute_of_a_question_is_filled_by_one_field() -> None:
    filled = [name for field in FIELDS for name in field.fills]
    assert sorted(filled) == sorted(entry.name for entry in attributes(Question))


def test_the_command_line_the_job_file_and_the_form_take_every_field() -> None:
    parser = argparse.ArgumentParser()
    arguments(parser)
    taken = {action.dest.replace("_", "-"): action.help for action in parser._actions}
    assert {name: taken[name] for name in NAMES} == {field.name: field.help for field in FIELDS}
    assert set(NAMES) <= {entry.alias for entry in MountEntry.model_fields.values()}
    assert sorted(field.name for field in FORM) == sorted(NAMES)
    assert tuple(field.name for field in FORM[: len(NEEDED)]) == NEEDED, "what is needed is asked first"


@pytest.mark.parametrize("field", FIELDS, ids=NAMES)
def test_a_field_reads_what_its_attributes_are(field: Field) -> None:
    types = get_type_hints(Question)
    values = field.read(SAID[field.name], builtin())
    assert tuple(values) == field.fills
    assert any(value is not None for value in values.values())
    for name, value in values.items():
        assert isinstance(value, _classes(types[name])), name


@pytest.mark.parametrize("field", FIELDS, ids=NAMES)
def test_what_a_field_comes_to_unsaid_is_what_its_record_says(field: Field) -> None:
    if isinstance(field.unsaid, Needed):
        assert field.name in LEAST
        return
    item = LEAST["item"] if field.of is None else field.of.item
    mount = resolve(read_question({**LEAST, "item": item}, builtin()), builtin())
    filled = [getattr(mount, name) is not None for name in field.fills]
    assert all(filled) if field.unsaid is Unsaid.FILLED else not any(filled)
    assert [name in dict(mount.origins) for name in field.fills] == filled, "what is filled says from where"


def test_every_attribute_of_a_mount_point_that_is_a_field_keeps_what_was_said() -> None:
    said = {
        name: text for name, text in SAID.items() if field_named(name).of is None and name not in {"rails", "on-board"}
    }
    question = read_question(said | {"onto": "steel 0.8 mm", "into": "face"}, builtin())
    mount = resolve(question, builtin())
    shared = {entry.name for entry in attributes(Question)} & {entry.name for entry in attributes(MountPoint)}
    changed = {name for name in shared if getattr(mount, name) != getattr(question, name)}
    assert changed == {"mass_kg", "cg_mm", "carries"}, "with what it carries"


def test_fields_of_few_words_take_every_name_of_them() -> None:
    for field in FIELDS:
        names: dict[str, str] = dict(field.names(builtin())) if field.names else {}
        for name, word in names.items():
            assert name == "-" or field.read(name, builtin()) == field.read(word, builtin())


def test_the_records_load_nothing_that_reads() -> None:
    code = (
        "import sys; from fasten.question.fields import FIELDS; "
        "print(*sorted(name for name in sys.modules if name.startswith('fasten.')))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.split() == ["fasten.question", "fasten.question.fields"]


def _classes(hint: Any) -> tuple[type, ...]:
    """The classes that a value of an attribute may be of."""
    kinds = get_args(hint) if isinstance(hint, UnionType) else (hint,)
    return tuple(get_origin(kind) or kind for kind in kinds)


@pytest.mark.parametrize(
    ("name", "meant"), [("weight", "mass"), ("thickness", "item-thickness or onto"), ("Fuse", "own-fuses")]
)
def test_a_field_in_another_word_is_asked_back_by_its_own(name: str, meant: str) -> None:
    with pytest.raises(FastenError, match=f"did you mean {meant}\\?"):
        field_named(name)


@pytest.mark.parametrize(
    ("name", "example"),
    [
        ("mass", "6 kg"), ("item-thickness", "3 mm"), ("item-hole", "5.5 mm"), ("cg", "30 mm"), ("behind", "40 mm"),
        ("edge", "20 mm"), ("run", "2 m"), ("current", "200 A"), ("hole-there", "6.2 mm"), ("boss", "8x14 mm"),
        ("between", "carpet 12 mm"), ("pattern", "rectangle 240x180"), ("support", "push 100 N 0.4 mm"),
    ],
)  # fmt: skip
def test_what_is_no_size_is_answered_by_an_example_that_the_field_reads(name: str, example: str) -> None:
    field = field_named(name)
    mistyped = {
        "boss": "8 miles x 14 mm",
        "between": "carpet 0 mm",
        "pattern": "rectangle 0x180",
        "support": "ribs 0 mm",
    }
    with pytest.raises(FastenError) as caught:
        field.read(mistyped.get(name, "0 mm" if name == "hole-there" else "wide"), builtin())
    assert (caught.value.where, caught.value.fix) == (name, f"write {example}")
    assert field.read(example, builtin())
