"""A cable that was recorded counts as it is: where the roll in hand does not do, the run does not hold."""

import pytest

from fasten.catalog.tables import builtin
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.words import CableRun, Job, Recorded
from fasten.model import Status
from fasten.model.check import worst

TABLES = builtin()
RUN = CableRun("power", (("carries", "1500 W class D"), ("from", "battery stud M8"), ("to", "set screw"),
                         ("length", "5 m"), ("ground", "0.45 m")))  # fmt: skip


def sized_with(*said: tuple[str, str]) -> RunChoice:
    cables = (Recorded("1/0 AWG", said),) if said else ()
    (found,) = run_choices(Job("Boot stage", "invented", "", (), cables=cables, runs=(RUN,)), TABLES)
    return found


def status_with(*said: tuple[str, str]) -> tuple[str, Status]:
    answer = sized_with(*said).answer
    assert answer is not None
    return answer.sizing.size.name, worst(answer.checks)


def test_the_size_is_that_of_marked_copper_where_nothing_is_recorded() -> None:
    assert status_with() == ("1/0 AWG", Status.NOT_CHECKED)


@pytest.mark.parametrize("said", [(("material", "copper-clad"),), (("material", "copper-clad"), ("marked", "75 C"))])
def test_a_roll_that_does_not_do_does_not_hold(said: tuple[tuple[str, str], ...]) -> None:
    """230 A of 1/0 AWG at 75 °C (33 CFR 183.425, table 5) times 0.79 is 181.7 A; 1500 W at 0.75 and 0.8 wants 181.2 A.

    No fuse is rated between the two.
    """
    assert status_with(*said) == ("1/0 AWG", Status.FAILS)


def test_a_reel_of_which_the_metal_is_not_said_is_open_where_that_decides() -> None:
    """As copper it carries 230 A at 75 °C and its fuse of 200 A; as copper-clad 181.7 A, and no fuse."""
    for said, is_open in (((("marked", "75 C"),), True), ((("marked", "75 C"), ("material", "copper")), False)):
        answer = sized_with(*said).answer
        assert answer is not None
        assert ("material" in [check.id for check in answer.checks]) is is_open
