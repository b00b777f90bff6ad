"""More tapping screws are offered only where somebody would drill as many."""

import pytest

from fasten.catalog.tables import builtin
from fasten.methods.tapping_screw import thin_sheet_gate
from fasten.question.read import read_question
from fasten.question.resolve import resolve


@pytest.mark.parametrize(
    ("mass", "fixings", "offered"),
    [("6 kg", "4", 12), ("6.1 kg", "4", None), ("22 kg", "4", None), ("8 kg", "8", 16), ("8.1 kg", "8", None)],
)
def test_no_more_than_twelve_or_twice_as_many_are_offered(mass: str, fixings: str, offered: int | None) -> None:
    """Half a kilogram a screw in sheet thinner than a turn; in a rectangle an even number."""
    said = {"item": "enclosure", "onto": "steel 0.8 mm", "removed": "rarely", "mass": mass, "fixings": fixings,
            "pattern": "rectangle 400x300"}  # fmt: skip
    refusal = thin_sheet_gate("tapping_screw", resolve(read_question(said, builtin()), builtin()), 1.3, builtin())
    assert refusal is not None
    assert (refusal.change is None) is (offered is None)
    assert offered is None or (refusal.change is not None and refusal.change.startswith(f"{offered} fixings"))
