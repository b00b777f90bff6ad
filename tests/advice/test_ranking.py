"""The points of an answer follow what is said of the mount point."""

import pytest

from fasten.advice.advise import advise
from fasten.advice.ranking import score
from fasten.advice.trial import proposals
from fasten.catalog.tables import builtin
from fasten.methods import rivet_nut
from fasten.model.known import FarEnd
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
SAID = {"item": "distribution-block", "onto": "steel 1 mm", "removed": "rarely", "behind": "60mm", "edge": "60mm"}


def wrong_ends(**said: str) -> set[FarEnd]:
    """The ends of rivet nuts that cost points."""
    more = {name.replace("_", "-"): text for name, text in said.items()}
    mount = resolve(read_question(SAID | more, TABLES), TABLES)
    found = tuple(proposals(rivet_nut, mount, TABLES, None))
    ends = {one.joint.receiver.end for one in found if one.joint.receiver is not None}
    assert ends == {FarEnd.OPEN, FarEnd.CLOSED}
    wrong = (one for one in found if any(part.name == "wrong_end" for part in score(one, mount, TABLES).parts))
    return {one.joint.receiver.end for one in wrong if one.joint.receiver is not None and one.joint.receiver.end}


@pytest.mark.parametrize(
    ("said", "wrong"),
    [
        ({}, FarEnd.CLOSED),
        ({"panel": "floor"}, FarEnd.OPEN),  # its back is outside
        ({"panel": "floor", "far_side": "dry"}, FarEnd.CLOSED),
        ({"panel": "side", "far_side": "wet"}, FarEnd.OPEN),  # in the cabin, on the skin
        ({"where": "door", "far_side": "dry"}, FarEnd.CLOSED),
        ({"where": "underfloor"}, FarEnd.OPEN),
    ],
)
def test_the_end_that_is_wrong_follows_the_water_behind(said: dict[str, str], wrong: FarEnd) -> None:
    assert wrong_ends(**said) == {wrong}


def test_on_a_floor_the_closed_end_comes_first() -> None:
    mount = resolve(read_question(SAID | {"panel": "floor", "removed": "yearly"}, TABLES), TABLES)
    first = advise(mount, TABLES, changes=False).answers[0].proposal.joint
    assert first.receiver is not None
    assert first.receiver.end is FarEnd.CLOSED
