"""Boards that are mount points of a job: what stands on one adds up, its own fixings are the span, and both give."""

from math import sqrt

import pytest

from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choice, choices
from fasten.job.words import Job, Mount
from fasten.model import Check, Origin, Status

TABLES = builtin()
BOARD = {
    "item": "equipment-board", "onto": "steel 1.2 mm", "removed": "rarely", "panel": "floor", "support": "frame",
    "mass": "4kg", "behind": "60mm", "edge": "60mm", "pattern": "rectangle 700x350", "fixings": "6",
    "item-thickness": "15mm",
}  # fmt: skip
ON_IT = {
    "item": "amplifier", "onto": "plywood 15 mm", "removed": "yearly", "panel": "floor", "mass": "6kg",
    "edge": "60mm", "behind": "60mm", "on-board": "Rear Board",
}  # fmt: skip


def job(*on_it: dict[str, str], **board: str) -> Job:
    things = (Mount(f"thing {count}", tuple(said.items())) for count, said in enumerate(on_it, 1))
    return Job("car", "", "", (Mount("rear board", tuple((BOARD | board).items())), *things))


def found(asked: Job) -> dict[str, Choice]:
    return {one.name: one for one in choices(asked, TABLES)}


def stiffness(one: Choice) -> Check:
    assert one.answer is not None, one.reason
    return next(check for check in one.answer.proposal.checks if check.id == "panel-stiffness")


def given(check: Check) -> dict[str, float]:
    return {entry.name: entry.value for entry in check.inputs}


def test_what_stands_on_one_board_adds_up_over_its_widest_gap() -> None:
    """Two of 6 kg on 15 mm of plywood, practice 23.4 kg; a third and a fourth are 24: then only the span decides."""
    two = stiffness(found(job(ON_IT, ON_IT))["thing 1"])
    assert (two.status, given(two)["mass on the panel"]) == (Status.HOLDS, 12)
    four = stiffness(found(job(*[ON_IT] * 4))["thing 1"])
    assert four.status is not Status.HOLDS
    assert given(four)["mass on the panel"] == 24
    assert given(four)["span"] == 350  # the middle fixings of 700 are 350 from the corners


def test_the_board_carries_what_names_it() -> None:
    one = found(job(ON_IT, ON_IT))["rear board"]
    assert one.point is not None
    assert one.point.mass_kg == pytest.approx(16)
    assert one.point.cg_mm == pytest.approx((4 * 30 + 12 * (15 + 30)) / 16)


def test_board_and_skin_are_in_series() -> None:
    """1/f^2 = 1/a^2 + 1/b^2, b of the board with all on it in its bay."""
    heavy = [ON_IT] * 4
    alone = given(stiffness(found(job(*heavy))["thing 1"]))["sways at least"]
    both = given(stiffness(found(job(*heavy, support="tapped 30 Hz"))["thing 1"]))
    assert both["the board on its panel sways at"] == 29
    assert both["sways at least"] == pytest.approx(1 / sqrt(alone**-2 + 29**-2))


def test_on_a_panel_of_which_nothing_is_known_a_span_decides_nothing() -> None:
    check = stiffness(found(job(*[ON_IT] * 4, support="", mass="2kg"))["thing 1"])
    assert check.status is Status.NOT_CHECKED


def test_without_its_job_what_stands_beside_is_not_left_out() -> None:
    check = stiffness(choice(Mount("amp", tuple(ON_IT.items())), TABLES))
    assert check.status is Status.NOT_CHECKED
    assert check.needs == "needs its job, whose list and verdict add up all that stands on 'Rear Board'"


def test_a_board_that_the_job_does_not_have_is_named() -> None:
    lost = found(job(ON_IT | {"on-board": "front board"}))["thing 1"]
    assert lost.answer is None
    assert "no mount point of the job is called front board" in lost.reason


def test_only_a_board_is_a_board() -> None:
    lost = found(job(ON_IT | {"onto": "steel 1 mm"}))["thing 1"]
    assert "is no board" in lost.reason


ADAPTER = {"item": "speaker-adapter", "onto": "steel door", "removed": "yearly", "mass": "0.6 kg"}
DRIVER = {"item": "speaker", "onto": "mdf ring 18 mm", "removed": "yearly", "mass": "4 kg"}


@pytest.mark.parametrize(
    ("adapter", "driver", "mass_kg", "said"),
    [
        ({"carries": "speaker"}, DRIVER, 4.6, Origin.GIVEN), ({"carries": "speaker 2 kg"}, DRIVER, 2.6, Origin.GIVEN),
        ({"carries": "speaker, crossover"}, DRIVER, 5.4, Origin.PRESET), ({}, DRIVER, 0.6, Origin.GIVEN),
        ({"carries": "speaker"}, DRIVER | {"mass": ""}, 2.1, Origin.PRESET),
        ({"carries": "speaker"}, DRIVER | {"item": "crossover"}, 2.1, Origin.PRESET),
        ({"carries": "speaker"}, DRIVER | {"mass": "heavy"}, 2.1, Origin.PRESET),
    ],
)  # fmt: skip
def test_an_adapter_carries_the_driver_that_is_screwed_into_it(
    adapter: dict[str, str], driver: dict[str, str], mass_kg: float, said: Origin
) -> None:
    """The driver weighs what is said of it at its own mount point, not what drivers usually do."""
    mounts = (
        Mount("adapter", tuple((ADAPTER | adapter).items()), covered_by=("driver",)),
        Mount("driver", tuple((name, text) for name, text in driver.items() if text)),
    )
    point = found(Job("car", "", "", mounts))["adapter"].point
    assert point is not None
    assert point.mass_kg == pytest.approx(mass_kg)
    assert dict(point.origins)["mass_kg"] is said
