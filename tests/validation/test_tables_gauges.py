"""Sheet gauges against the rule each is defined by and against printed charts."""

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

import pytest

from fasten.catalog.rows import GAUGES
from fasten.catalog.tables import builtin

Printed = Callable[[str], list[dict[str, str]]]

# US Standard Gauge of 1893, weight of iron plate in ounces a square foot (from memory; 16 ga is 40 oz).
OUNCES = {
    7: 120, 8: 110, 9: 100, 10: 90, 11: 80, 12: 70, 13: 60, 14: 50, 15: 45, 16: 40, 17: 36, 18: 32,
    19: 28, 20: 24, 21: 22, 22: 20, 23: 18, 24: 16, 25: 14, 26: 12, 27: 11, 28: 10, 29: 9, 30: 8,
}  # fmt: skip
ZINC_OUNCES = Decimal("2.5")


def _pounds(number: int) -> Decimal:
    return Decimal(OUNCES[number]) / 16


RULES: dict[str, Callable[[int], Decimal]] = {
    "steel": lambda number: _pounds(number) / Decimal("41.82"),
    "galvanised-steel": lambda number: (_pounds(number) + ZINC_OUNCES / 16) / Decimal("41.82"),
    "stainless-steel": lambda number: _pounds(number) / 40,
    "aluminium": lambda number: Decimal("0.005") * Decimal(92) ** (Decimal(36 - number) / 39),
}


def _gauges(metal: str) -> dict[int, float]:
    return {row.number: row.thickness_in for row in builtin().rows(GAUGES[metal.replace("-", "_")])}


@pytest.mark.parametrize("metal", RULES)
def test_every_gauge_by_its_rule(metal: str) -> None:
    """W/41.82, (W + 2.5 oz)/41.82, W/40 and 0.005 x 92^((36 - n)/39), halves up (rules from memory)."""
    expected = {
        number: float(RULES[metal](number).quantize(Decimal("0.0001"), ROUND_HALF_UP)) for number in _gauges(metal)
    }
    assert _gauges(metal) == expected


@pytest.mark.parametrize("metal", RULES)
def test_every_gauge_as_printed(metal: str, printed: Printed) -> None:
    """Public gauge charts; further rows from memory, as the file says."""
    rows = {int(row["gauge"]): float(row["thickness"]) for row in printed("gauges.csv") if row["metal"] == metal}
    assert _gauges(metal) == rows


@pytest.mark.parametrize("metal", RULES)
def test_the_gauges_have_no_gap(metal: str) -> None:
    """7 to 30, galvanised from 9 as it is printed; every higher number is thinner."""
    gauges = _gauges(metal)
    assert list(gauges) == list(range(9 if metal == "galvanised-steel" else 7, 31))
    assert sorted(gauges.values(), reverse=True) == list(gauges.values())


def test_zinc_adds_the_same_at_every_gauge() -> None:
    """2.5 oz a square foot is 0.0037 in, 0.095 mm; four decimals leave one unit of play."""
    steel = _gauges("steel")
    for number, thickness in _gauges("galvanised-steel").items():
        assert thickness - steel[number] == pytest.approx(0.00374, abs=0.0001), number


def test_stainless_is_not_the_carbon_steel_table() -> None:
    """W/40 over W/41.82 is 4.55 % more; a table that gives both alike is wrong."""
    steel = _gauges("steel")
    for number, thickness in _gauges("stainless-steel").items():
        assert thickness / steel[number] == pytest.approx(1.0455, abs=0.005), number
