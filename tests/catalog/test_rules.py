"""The rules that the program goes by are those of their table, and a rule that nothing reads is known as such."""

import ast

import pytest
from test_layers import modules

from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule, rule_value
from fasten.catalog.tables import builtin

# Rows that no line of the program reads. The list only shrinks: a new row is read, and one that is read goes from here.
UNREAD = {
    "sheet-pitches", "spacing-rivet-nut", "edge-distance-rivet", "spacing-rivet", "attached-hole-ratio",
    "screw-past-receiver", "screw-protrusion-max", "thin-sheet-round-body", "moving-clearance", "fixed-clearance",
    "soft-cut-back", "twist-drill-max", "insert-hole-past",
}  # fmt: skip
# Found by the board and the face at hand, where there is a row for it.
OF_A_BOARD = {f"mdf-{what}-{into}" for what in ("strip", "seat") for into in ("face", "edge")}
# Names that are made of the size, material or family at hand.
MADE = ("prevailing-torque-m", "edge-distance-plastic", "edge-distance-laminate")


def test_every_rule_has_its_row_and_every_row_its_rule() -> None:
    named = {name.value for name in Rules}
    assert named.isdisjoint(UNREAD | OF_A_BOARD)
    assert named | UNREAD | OF_A_BOARD == {row.rule for row in builtin().rows(RULES)}
    for name in Rules:
        assert name.name == name.value.upper().replace("-", "_")


def test_every_rule_is_read() -> None:
    read = {
        node.attr
        for _, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == Rules.__name__
    }
    assert read == {name.name for name in Rules if not name.value.startswith(MADE)}


@pytest.mark.parametrize("name", Rules)
def test_a_rule_cites_its_own_row(name: Rules) -> None:
    row = builtin().need(RULES, name.value)
    assert rule(builtin(), name) is row
    assert rule_value(builtin(), name) == (row.value, f"rules:{row.from_}")
