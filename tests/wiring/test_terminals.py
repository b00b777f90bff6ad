"""What passes through the terminals of a run, against the published tables of tabs and studs."""

import pytest

from fasten.model import Check, Status

from .asked import TABLES
from .test_ends import answer

# A page on IEC 61210 and a maker's test values, typical current [A] of a receptacle by its tab.
TABS_A = {"2.8x0.5": (2, 6), "4.8x0.5": (6, 15), "4.8x0.8": (10, 20), "6.3x0.8": (15, 32), "9.5x1.2": (25, 50)}
# A maker of terminal boards, stud of brass that clamps lug on lug [A]; strip fuses on M5 and M8 by ISO 8820-5.
BRASS_A, STRIP_A = {"M4": 35, "M5": 75, "M6": 125, "M8": 150, "M10": 200}, {"M5": 200, "M8": 500}


def line(id_: str, **said: str) -> Check:
    return next(check for check in answer(**said).checks if check.id == id_)


@pytest.mark.parametrize("tab", TABS_A)
def test_a_tab_holds_below_its_range_and_fails_over_it(tab: str) -> None:
    least, most = TABS_A[tab]
    found = [
        line(f"tab-current.{tab}", carries=f"{amps} A", to=f"tab {tab}", length="0.5 m").status
        for amps in (least, least + 0.5, most, most + 0.5)
    ]
    assert found == [Status.HOLDS, Status.NOT_CHECKED, Status.NOT_CHECKED, Status.FAILS]


def test_a_tab_from_memory_is_never_proven() -> None:
    for amps in (1, 5, 20):
        assert line("tab-current.2.8x0.8", carries=f"{amps} A", to="tab 2.8x0.8").status is Status.NOT_CHECKED


@pytest.mark.parametrize("stud", ["M4", "M5", "M6", "M8"])
def test_a_stud_holds_by_brass_and_fails_over_every_part_that_is_known(stud: str) -> None:
    brass = BRASS_A[stud]
    assert line(f"stud-current.{stud}", carries=f"{brass} A", to=f"stud {stud}").status is Status.HOLDS
    over = line(f"stud-current.{stud}", carries=f"{brass + 1} A", to=f"stud {stud}")
    assert over.status is (Status.NOT_CHECKED if stud != "M4" else Status.FAILS)


def test_no_stud_carries_less_than_a_smaller_one_or_than_its_strip_fuse() -> None:
    from fasten.catalog.wiring_ends import STUD_CURRENTS

    rows = {row.stud: row for row in TABLES.rows(STUD_CURRENTS)}
    assert {stud: row.safe_a for stud, row in rows.items()} == BRASS_A
    for stud, row in rows.items():
        strips = [amps for at, amps in STRIP_A.items() if int(at[1:]) <= int(stud[1:])]
        assert row.up_to_a == max([*strips, row.safe_a])


def test_280_amperes_on_m6_and_m4_do_not_hold() -> None:
    found = answer(carries="280 A", from_="battery stud M6", to="stud M4", length="1 m")
    assert {check.id for check in found.checks if check.status is Status.FAILS} == {
        "stud-current.M6", "stud-current.M4"
    }  # fmt: skip


def test_the_studs_of_a_fuse_holder_go_by_its_fuse() -> None:
    found = answer(carries="200 A", from_="battery post +", to="set screw", ground="", length="1 m")
    assert not any(check.id.startswith("stud-current") for check in found.checks)


@pytest.mark.parametrize("clamp", ["clamp plate", "push-in"])
def test_a_clamp_is_open_until_it_is_said_what_it_takes(clamp: str) -> None:
    def status(end: str) -> Status:
        return line(f"enters.{clamp}", to=end, cable="2 AWG", carries="40 A", length="1 m").status

    assert status(clamp) is Status.NOT_CHECKED
    assert status(f"{clamp} takes 2 AWG") is Status.HOLDS
    assert status(f"{clamp} takes 4 AWG") is Status.FAILS
