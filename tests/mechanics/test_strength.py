"""What the chosen load case brings, and what it leaves open."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

CRITICAL = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "reach": "one-side",
    "behind": "40mm", "edge": "40mm", "support": "firm",
}  # fmt: skip


def answers(**said: str) -> tuple[Answer, ...]:
    return advise(resolve(read_question(CRITICAL | said, builtin()), builtin()), builtin(), changes=False).answers


@pytest.mark.parametrize(("case", "proven"), [("hard-stop", True), ("ambulance", True), ("road", False)])
def test_nothing_is_proven_that_only_stands_the_road(case: str, proven: bool) -> None:
    """FMVSS 571.207 by analogy 20 g, EN 1789 10 g: each is a stop. `road` alone is none, and that stays open."""
    found = answers(case=case)
    assert found
    for answer in found:
        left = [check for check in answer.proposal.checks if check.id == "hard-stop"]
        assert answer.proposal.proven is proven
        assert [(check.status, check.demand, check.unit) for check in left] == (
            [] if proven else [(Status.NOT_CHECKED, 20.0, "g")]
        )
