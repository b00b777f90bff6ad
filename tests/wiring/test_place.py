"""A run of which nothing says where it lies: it counts as in the cabin, and is open where that decides."""

import pytest

from fasten.wiring.wired import Wired, wired

from .asked import TABLES, asked

CHOSEN = {"carries": "72 A", "cable": "8 AWG", "insulation": "105 C", "material": "copper", "own_fuses": "75 A"}


def places(**said: str) -> list[str]:
    """What is open of where a run lies, whatever is accepted."""
    found = wired(asked(**{"length": "1.5 m", "from_": "battery stud M6", **said}), TABLES, ("where",))
    assert isinstance(found, Wired)
    return [check.needs or "" for check in found.checks if check.id == "where"]


def test_a_run_from_the_battery_is_open_where_the_engine_bay_wants_more() -> None:
    """8 AWG carries 80 A in the cabin, 0.85 of that under the bonnet: 68 A, and 72 A flow."""
    (needs,) = places(**CHOSEN)
    assert needs.endswith("in the engine bay it wants more than 8 AWG")


@pytest.mark.parametrize(
    "said",
    [
        {**CHOSEN, "where": "cabin"}, {**CHOSEN, "where": "underfloor"}, {**CHOSEN, "from_": "stud M6"},
        {"carries": "1000 W class D", "length": "5 m"},
    ],
)  # fmt: skip
def test_it_is_not_where_that_is_said_or_it_gets_the_same(said: dict[str, str]) -> None:
    assert places(**said) == []
