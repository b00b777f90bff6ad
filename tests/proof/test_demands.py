"""The demands that decide, found among the greatest accelerations alone, against those found among all of them."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.geometry.patterns import positions_mm
from fasten.mechanics.group import tipping_lever_mm
from fasten.model import MountPoint, Panel
from fasten.proof.demands import Carried, demands, demands_as, foot_mm
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()


def amplifier() -> MountPoint:
    said = {"item": "amplifier", "onto": "steel 1.0 mm", "removed": "yearly"}
    return resolve(read_question(said, TABLES), TABLES)


def of_all(mount: MountPoint) -> object:
    points = positions_mm(mount.pattern, mount.fixings)
    lever_mm = tipping_lever_mm(points_mm=points, foot_mm=foot_mm(mount, TABLES))
    even = 1 / mount.fixings
    return demands_as(mount, TABLES, Carried(even, even, 1 / lever_mm, even))


@pytest.mark.parametrize("panel", Panel)
@pytest.mark.parametrize("case", [None, "road", "standing", "hard-stop"])
@pytest.mark.parametrize("cg_mm", [0.0, 1.0, 60.0, 400.0])
def test_the_demands_are_those_of_all_accelerations(panel: Panel, case: str | None, cg_mm: float) -> None:
    for mass_kg in (0.05, 6.0, 40.0):
        mount = replace(amplifier(), panel=panel, case=case, cg_mm=cg_mm, mass_kg=mass_kg)
        assert demands(mount, TABLES) == of_all(mount) != ()
