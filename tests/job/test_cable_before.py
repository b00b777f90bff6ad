"""What is lost on the way counts by the cable that lies there: a ground of its own cable, and cable of unsaid metal."""

import pytest
from recalculation.test_runs import lost_v

from fasten.job.wiring.runs import RunChoice
from fasten.model import Status

from .test_trees import FROM_BATTERY, FRONT, choices, mount, run

MONO = mount("mono", "amplifier", power="1000 W class D", own_fuses="100 A")
AMPS = 1000 / (0.75 * 13.8)
COPPER = {"insulation": "105 C", "material": "copper"}


def drop_of(one: RunChoice) -> tuple[float, Status]:
    assert one.answer is not None
    assert one.answer.sizing.conductor is not None
    drop = next(check for check in one.answer.checks if check.id == "drop")
    return one.answer.sizing.conductor.drop_v, drop.status


def of_unsaid(one: RunChoice) -> list[str]:
    assert one.answer is not None
    return [check.id for check in one.answer.checks if check.id.startswith("material.")]


def test_a_thinner_ground_loses_what_its_own_cable_does() -> None:
    """5 m of 1/0 AWG and 5 m of 4 AWG, and not 10 m of 1/0 AWG."""
    runs = (
        run("plus", FROM_BATTERY, "mono", "5 m", cable="1/0 AWG", **COPPER),
        run("ground", "mono", "body", "5 m", cable="4 AWG", **COPPER),
    )
    lost, _ = drop_of(choices(runs, MONO)["plus"])
    assert lost == pytest.approx(lost_v("1/0", AMPS, 5) + lost_v("4", AMPS, 5), rel=0.003)


def test_a_ground_of_copper_clad_loses_more_than_the_copper_before_it() -> None:
    """16 m of 2 AWG lose 1.0 of the 1.38 V of the stop; with 11 m of them copper-clad, 1.46 V."""
    runs = (
        run("plus", FROM_BATTERY, "mono", "5 m", cable="2 AWG", **COPPER),
        run("ground", "mono", "body", "11 m", cable="2 AWG", insulation="105 C", material="copper-clad"),
    )
    found = choices(runs, MONO)
    (lost, status), (in_ground, of_ground) = drop_of(found["plus"]), drop_of(found["ground"])
    assert lost == pytest.approx(lost_v("2", AMPS, 5) + in_ground, rel=0.003)
    assert (of_ground, status) == (Status.HOLDS, Status.FAILS)


@pytest.mark.parametrize(
    ("said", "status", "open_"),
    [
        ({"material": "copper"}, Status.HOLDS, []),
        ({}, Status.HOLDS, ["material.trunk"]),
        ({"material": "copper-clad"}, Status.FAILS, []),
    ],
)
def test_cable_of_unsaid_metal_is_open_where_what_is_behind_it_hangs_on_it(
    said: dict[str, str], status: Status, open_: list[str]
) -> None:
    """9 m of 2 AWG lose 0.57 V, as copper-clad 0.94 V; with 0.54 V behind it that is over the 1.38 V of the stop."""
    runs = (
        run("trunk", FROM_BATTERY, "front", "9 m", cable="2 AWG", insulation="105 C", **said),
        run("branch", "front", "mono", "5 m", cable="4 AWG", **COPPER),
        run("ground", "mono", "body", "0.45 m", cable="2 AWG", **COPPER),
    )
    found = choices(runs, MONO, FRONT)
    assert drop_of(found["trunk"])[1] is Status.HOLDS
    assert (drop_of(found["branch"])[1], of_unsaid(found["branch"])) == (status, open_)


@pytest.mark.parametrize(("metres", "is_open"), [("2 m", False), ("9 m", True)])
def test_so_is_the_cable_of_its_ground(metres: str, *, is_open: bool) -> None:
    runs = (
        run("plus", FROM_BATTERY, "mono", "5 m", cable="4 AWG", **COPPER),
        run("ground", "mono", "body", metres, cable="2 AWG", insulation="105 C"),
    )
    assert of_unsaid(choices(runs, MONO)["plus"]) == (["material.ground"] if is_open else [])
