"""A cable that was recorded counts as it is: where the roll in hand does not do, the run does not hold."""

import pytest

from fasten.catalog.tables import builtin
from fasten.job.shelf.reels import with_reels
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.words import CableRun, Job, Recorded, Shelf
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


SHORT = CableRun("short", (("carries", "60 A"), ("from", "battery stud M8"), ("to", "set screw"), ("length", "1 m"),
                           ("ground", "0.45 m")))  # fmt: skip
LEAD = CableRun("lead", (("carries", "loudspeaker 500 W 2 ohm"), ("from", "bare"), ("to", "bare"), ("length", "4 m")))


def open_with(run: CableRun, *reels: str) -> bool:
    """Whether it is open what the cable of a run is of, with these reels on the shelf."""
    job = with_reels(Job("Boot stage", "invented", "", (), runs=(run,)), Shelf("", "", "", (), (), (), reels), TABLES)
    (found,) = run_choices(job, TABLES)
    assert found.answer is not None, found.reason
    return "material" in [check.id for check in found.answer.checks if check.status is Status.NOT_CHECKED]


def test_a_run_from_a_reel_of_the_shelf_is_open_until_its_metal_is_said() -> None:
    """60 A want a fuse from 75 A: 8 AWG carries 80 A as copper (33 CFR 183.425, table 5), and 63 A as copper-clad."""
    reel, run = "cable, 8 AWG, red, marked 105 C", SHORT
    assert not open_with(run)
    assert open_with(run, f"{reel}: 9 m")
    assert not open_with(run, f"{reel}, copper: 9 m")
    assert open_with(run, f"{reel}, copper: 9 m", f"{reel}: 4 m")
    assert not open_with(run, "cable, 4 AWG, red, marked 105 C: 9 m"), "another size"


def test_two_conductors_are_for_loudspeaker_leads_alone() -> None:
    """4 m of 12 AWG take 2.8 % of 2 Ω as copper and 4.6 % as copper-clad, which carry 19.75 A: that decides nothing."""
    pair = "two conductors"
    found = {size: open_with(LEAD, f"cable, {size}, {pair}: 9 m") for size in ("14 AWG", "12 AWG")}
    assert found == {"14 AWG": True, "12 AWG": False}
    assert not open_with(LEAD, f"cable, 14 AWG, {pair}, copper: 9 m")
    assert not open_with(LEAD, "cable, 14 AWG, red, marked 105 C: 9 m")
    assert not open_with(SHORT, f"cable, 8 AWG, {pair}, marked 105 C: 9 m")


@pytest.mark.parametrize(
    ("at_run", "recorded", "counts_c", "is_open"),
    [
        ("105 C", "", 105.0, False), ("", "90 C", 90.0, False), ("105 C", "75 C", 75.0, True),
        ("75 C", "105 C", 75.0, True), ("105 C", "105", 105.0, False),
    ],
)  # fmt: skip
def test_what_is_said_at_the_run_of_its_cable_counts(
    at_run: str, recorded: str, counts_c: float, *, is_open: bool
) -> None:
    """Where run and cable differ the lower counts until it is looked at."""
    own = (("cable", "4 AWG"), *((("insulation", at_run),) if at_run else ()))
    run = CableRun("short", (*SHORT.said, *own))
    said = (("outside", "9.8 mm"), *((("marked", recorded),) if recorded else ()))
    job = Job("Boot stage", "invented", "", (), cables=(Recorded("4 AWG", said),), runs=(run,))
    answer = run_choices(job, TABLES)[0].answer
    assert answer is not None
    assert answer.sizing.run.insulation_c == counts_c
    open_ = {check.id for check in answer.checks if check.status is Status.NOT_CHECKED}
    assert ("insulation" in open_) is is_open


def test_copper_clad_counts_wherever_it_is_said() -> None:
    for at_run, recorded in (("copper-clad", "copper"), ("copper", "copper-clad")):
        run = CableRun("short", (*SHORT.said, ("cable", "4 AWG"), ("material", at_run)))
        cable = Recorded("4 AWG", (("material", recorded),))
        (found,) = run_choices(Job("Boot stage", "invented", "", (), cables=(cable,), runs=(run,)), TABLES)
        assert found.answer is not None
        assert found.answer.sizing.run.material.value == "copper-clad"
