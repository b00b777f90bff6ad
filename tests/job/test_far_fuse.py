"""A battery that a run ends at feeds it from its far end, where no fuse in a block or before it helps."""

import pytest

from fasten.job.wiring.runs import RunChoice
from fasten.wiring.accepted import with_accepted
from job.test_trees import FOUR, FROM_BATTERY, FRONT, GROUNDS, MONO, TWO, choices, mount, run

REAR, TRUNK = mount("rear battery", "battery"), run("trunk", FROM_BATTERY, "front", "5 m")


def far_fuses(one: RunChoice) -> list[float | None]:
    assert one.answer is not None
    return [check.demand for check in one.answer.checks if check.id.startswith("battery-fuse")]


@pytest.mark.parametrize(("amps", "beside", "has_own"), [("60 A", "two", False), ("40 A", "mono", True)])
def test_a_battery_that_ends_a_branch_wants_a_fuse_of_its_own_there(amps: str, beside: str, has_own: bool) -> None:
    """60 A takes a cable that carries the fuse of a small trunk and has none; 40 A has one, in the block."""
    charge = run("charge", "front", "rear battery", "1 m", carries=amps)
    found = choices((TRUNK, charge, run("c", "front", beside, "0.5 m"), *GROUNDS), MONO, FOUR, TWO, FRONT, REAR)
    answer = found["charge"].answer
    assert answer is not None
    fuse, before_a = answer.sizing.fuse, answer.sizing.run.upstream_fuse_a
    assert (fuse is not None) is has_own
    wanted_a = before_a if fuse is None else fuse.rating_a
    assert {name: far_fuses(one) for name, one in found.items()} == {
        name: [wanted_a] if name == "charge" else [] for name in found
    }
    ids = with_accepted((), "all", answer.confirms)
    assert sum(one.startswith("battery-fuse:rear-battery:") for one in ids) == 1


@pytest.mark.parametrize(("length", "is_open"), [("0.45 m", False), ("4 m", True)])
def test_a_holder_near_a_battery_has_its_fuse(length: str, is_open: bool) -> None:
    holder, first = mount("holder", "fuse-holder"), run("trunk", FROM_BATTERY, "holder", "0.4 m")
    charge = run("charge", "holder", "rear battery", length, carries="60 A")
    assert bool(far_fuses(choices((first, charge), holder, REAR)["charge"])) is is_open


def test_between_two_batteries_both_fuses_are_on_the_list() -> None:
    charge = run("charge", FROM_BATTERY, "rear battery", "5 m", carries="60 A")
    one = choices((charge,), REAR)["charge"]
    assert one.answer is not None
    assert one.answer.sizing.fuse is not None
    assert (one.answer.sizing.fuse.count, far_fuses(one)) == (2, [])
