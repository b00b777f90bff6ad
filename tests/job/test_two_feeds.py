"""An item that several runs feed: its ground carries what all of them bring, and all of their fuses may feed it."""

import pytest

from .test_trees import FROM_BATTERY, FRONT, MONO, mount, run, sizings

AMP = mount("amp", "amplifier")
GROUND = run("ground", "amp", "body", "0.5 m")


def test_its_ground_carries_the_sum_and_the_fuses_of_both() -> None:
    """Two runs of 150 A each behind 200 A fuses: 300 A go back, and 400 A may before both have blown."""
    feeds = tuple(run(name, FROM_BATTERY, "amp", "2 m", carries="150 A") for name in ("one", "two"))
    found = sizings((*feeds, GROUND), AMP)
    fuses_a = [fuse.rating_a for name in ("one", "two") if (fuse := found[name].fuse) is not None]
    ground = found["ground"]
    assert ground.current is not None
    assert ground.current.full_a == pytest.approx(300.0)
    assert ground.run.upstream_fuse_a == pytest.approx(sum(fuses_a))
    assert ground.conductor is not None
    assert ground.conductor.ampacity_a >= sum(fuses_a)


def test_one_fuse_before_both_is_all_that_may_flow() -> None:
    feeds = tuple(run(name, "front", "amp", "1 m", carries="30 A") for name in ("one", "two"))
    found = sizings((run("trunk", FROM_BATTERY, "front", "3 m"), *feeds, GROUND), AMP, FRONT)
    trunk = found["trunk"].fuse
    assert trunk is not None
    assert found["ground"].run.upstream_fuse_a is not None
    assert found["ground"].run.upstream_fuse_a <= trunk.rating_a
    assert found["ground"].current is not None
    assert found["ground"].current.full_a == pytest.approx(60.0)


def test_a_run_past_that_fuse_counts_beside_it() -> None:
    """One from the block and one from the battery: what the second brings never goes through the fuse of the first."""
    feeds = run("one", "front", "amp", "1 m", carries="30 A"), run("two", FROM_BATTERY, "amp", "3 m", carries="30 A")
    found = sizings((run("trunk", FROM_BATTERY, "front", "3 m"), *feeds, GROUND), AMP, FRONT)
    second = found["two"].fuse
    assert second is not None
    first_a = found["one"].run.upstream_fuse_a if found["one"].fuse is None else found["one"].fuse.rating_a
    assert found["ground"].run.upstream_fuse_a == pytest.approx((first_a or 0) + second.rating_a)


def test_what_is_known_by_its_power_counts_once() -> None:
    """1000 W of class D take 1000/(0.75 x 13.8) A however many runs bring it."""
    feeds = tuple(run(name, FROM_BATTERY, "mono", "2 m") for name in ("one", "two"))
    found = sizings((*feeds, run("ground", "mono", "body", "0.5 m")), MONO)
    assert found["ground"].current is not None
    assert found["ground"].current.full_a == pytest.approx(1000 / (0.75 * 13.8))
