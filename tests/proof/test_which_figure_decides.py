"""Of two figures that the tables happen to have alike, the right one is taken: told on tables where they differ."""

import re
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from fasten.catalog.tables import Tables, shipped_folder
from fasten.model import Demand, Into, Joint, MountPoint, Panel, Proposal, Where
from fasten.proof.demands import demands
from fasten.proof.modes.families import BOND, TAPE, Family
from fasten.proof.modes.item import pressure_mpa
from fasten.proof.modes.mode import IN_ITEM, Capacity, Load, Mode
from fasten.proof.prove import prove
from fasten.proof.strength import capacities, strength_checks
from fasten.proof.torque.board import window

from .built_joint import EXAMINED, JOINT, MOUNT, SCREW, SELDOM, TABLES, TAPPING, fit_only, given, line

COOL = replace(MOUNT, where=Where.UNDERFLOOR)
HOT = replace(MOUNT, where=Where.CABIN)
DRIVEN = replace(JOINT, method="screw_into_board", receiver=None, screw=replace(SCREW, class_="8.8"))
BOARD = replace(COOL, material="mdf", thickness_min_mm=18.0, thickness_max_mm=18.0)


def differing(folder: Path, table: str, *changes: tuple[str, str, str]) -> Tables:
    """Copied tables; in one of them, each row that starts with these words has another value in place of one."""
    copied = Path(shutil.copytree(shipped_folder(), folder / "catalogs"))
    file = copied / f"{table}.toml"
    lines = file.read_text(encoding="utf-8").splitlines()
    for start, before, after in changes:
        (at,) = (at for at, line in enumerate(lines) if re.match(rf"\s*\[{start}", line))
        assert lines[at].count(before) == 1
        lines[at] = lines[at].replace(before, after)
    file.write_text("\n".join(lines), encoding="utf-8")
    return Tables(copied)


@pytest.mark.parametrize(
    ("item", "mount", "pressure"),
    [
        ("mdf", COOL, 6.0), ("mdf", HOT, 6.0),
        ("fibreglass", COOL, 6.0),
        ("abs", COOL, 25.0), ("abs", HOT, 0.5 * 29.6),  # half of the low end in a parked car
    ],
)  # fmt: skip
def test_board_and_plastic_bear_each_their_own(tmp_path: Path, item: str, mount: MountPoint, pressure: float) -> None:
    """Board and laminate their 6 MPa; plastic its 25, and never more than its own hot strength."""
    tables = differing(
        tmp_path, "rules", ('"board-bearing"', "10.000", "6.000"), ('"plastic-bearing"', "10.000", "25.000")
    )
    assert pressure_mpa(item, mount, tables)[0] == pytest.approx(pressure)


@pytest.mark.parametrize("missing", ["mdf-strip-face", "mdf-seat-face"])
def test_torque_in_board_needs_what_strips_and_what_seats(tmp_path: Path, missing: str) -> None:
    tables = differing(tmp_path, "rules", (f'"{missing}"', missing, "nowhere"))
    assert BOARD.into is Into.FACE
    assert window(DRIVEN, BOARD, TABLES) is not None
    assert window(DRIVEN, BOARD, tables) is None


def test_the_hard_stop_left_out_is_the_one_that_is_taken_where_nobody_says(tmp_path: Path) -> None:
    """20 g, also where another case brings 40 g, which nobody asked for."""
    harder = differing(tmp_path, "load-cases", (r'"ambulance",\s*"forward"', "10,", "40,"))
    (left,) = strength_checks(JOINT, (), capacities(JOINT, MOUNT, (), harder), EXAMINED, (), harder)
    assert (left.id, left.demand) == ("hard-stop", 20.0)


@pytest.mark.parametrize(("joint", "cited"), [(JOINT, True), (TAPPING, False)], ids=["rivet nut", "tapping screw"])
def test_space_behind_cites_the_mandrel_or_the_drill_stop(tmp_path: Path, joint: Joint, cited: bool) -> None:
    """A mandrel stands out where a rivet nut is set; elsewhere the drill stop lets the point past the sheet."""
    tables = differing(tmp_path, "rules", ('"mandrel-reach"', '"practice"', '"din-7975"'))
    found = prove(joint, SELDOM, fit_only(joint), demands(SELDOM, tables), tables)
    assert isinstance(found, Proposal)
    assert ("rules:din-7975" in line(found, "space-behind").from_) is cited


def test_the_least_of_each_side_counts_where_shear_and_pull_act_together() -> None:
    """By what each may carry once divided: a bond of 1200 N over 3 is less than a tape of 500 N over 1."""
    loads = (Demand("road", "service", "built", Panel.FLOOR, 150.0, 200.0, (), "built"),)

    def mode(name: str, family: Family, load: Load, bears_n: float) -> Mode:
        held = Capacity(bears_n, (), "built", (f"{name} of its table",))
        return Mode(name, name, family, load, lambda _joint, _mount, _tables: held, IN_ITEM)

    applies = (
        mode("slid", TAPE, "shear", 300.0), mode("sheared", BOND, "shear", 1500.0),
        mode("peeled", TAPE, "tension", 500.0), mode("parted", BOND, "tension", 1200.0),
        mode("torn", BOND, "tension", 1800.0),
    )  # fmt: skip
    found = {
        check.id: check
        for check in strength_checks(JOINT, applies, capacities(JOINT, MOUNT, applies, TABLES), EXAMINED, loads, TABLES)
    }
    together = found["bond-together.service"]
    assert given(together) == {"shear": 150.0, "tension": 200.0, "shear capacity": 300.0, "tension capacity": 400.0}
    assert together.demand == pytest.approx(1.0)
    assert {"slid of its table", "parted of its table"} <= set(together.from_)
    assert {"sheared of its table", "peeled of its table", "torn of its table"}.isdisjoint(together.from_)
