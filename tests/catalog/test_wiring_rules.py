"""The rules of runs of cable are those of their table, and every one of them is read."""

import ast

from built.code import modules, walked

from fasten.catalog.tables import builtin
from fasten.catalog.wiring import WIRING_RULES
from fasten.catalog.wiring_rules import WiringRules, rule_figure, wiring_rule


def test_every_rule_has_its_row_and_every_row_its_rule() -> None:
    assert [name.value for name in WiringRules] == [row.rule for row in builtin().rows(WIRING_RULES)]


def test_every_rule_is_read() -> None:
    read = {
        node.attr
        for _, tree in modules()
        for node in walked(tree)
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "WiringRules"
    }
    assert read == {name.name for name in WiringRules}


def test_a_rule_cites_its_own_row() -> None:
    for name in WiringRules:
        row = wiring_rule(builtin(), name)
        assert rule_figure(builtin(), name) == (row.value, f"wiring-rules:{row.from_}")
