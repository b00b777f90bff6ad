"""The rules that the program goes by are those of their table, and every one of them is read."""

import ast

import pytest
from built.code import modules, walked

from fasten.advice.advise import advise
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule, rule_value
from fasten.catalog.tables import builtin
from fasten.question.fields import BEHIND
from fasten.question.read import read_question
from fasten.question.resolve import resolve

# Found by the board and the face at hand, where there is a row for it.
OF_A_BOARD = {f"mdf-{what}-{into}" for what in ("strip", "seat") for into in ("face", "edge")}
# Names that are made of the size, material or family at hand.
MADE = ("prevailing-torque-m", "edge-distance-plastic", "edge-distance-laminate")


def test_every_rule_has_its_row_and_every_row_its_rule() -> None:
    named = {name.value for name in Rules}
    assert named.isdisjoint(OF_A_BOARD)
    assert named | OF_A_BOARD == {row.rule for row in builtin().rows(RULES)}
    for name in Rules:
        assert name.name == name.value.upper().replace("-", "_")


def test_every_rule_is_read() -> None:
    read = {
        node.attr
        for _, tree in modules()
        for node in walked(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == Rules.__name__
    }
    assert read == {name.name for name in Rules if not name.value.startswith(MADE)}


@pytest.mark.parametrize("name", Rules)
def test_a_rule_cites_its_own_row(name: Rules) -> None:
    row = builtin().need(RULES, name.value)
    assert rule(builtin(), name) is row
    assert rule_value(builtin(), name) == (row.value, f"rules:{row.from_}")


def test_the_question_for_space_behind_says_what_the_work_keeps_clear() -> None:
    """The help gives both clearances in words of its own, and the first step fills them in from the rules."""
    moving, fixed = (rule(builtin(), name).value for name in (Rules.MOVING_CLEARANCE, Rules.FIXED_CLEARANCE))
    assert f"less {moving:g} mm to what moves and {fixed:g} mm to the rest" in BEHIND.help
    said = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly"}
    best = advise(resolve(read_question(said, builtin()), builtin()), builtin(), changes=False).answers[0]
    kept = f"{moving:g} mm more to what moves (any glass down) and {fixed:g} mm more to what does not"
    assert any(kept in step.text for step in best.steps)
