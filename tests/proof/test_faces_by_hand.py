"""What holds by its face, by hand on patches built here: areas, heat, the weaker face, room, and a stud's bond.

Figures of the tables, low ends, from memory: elastic adhesive 1.0 MPa in shear and 0.5 straight off, half of it in
heat up to 90 °C; foam tape 0.082 MPa up to 80 °C; the face of MDF tears at 0.55 MPa; a parked car reaches 80 °C.
"""

from collections.abc import Callable
from dataclasses import replace
from math import pi

import pytest
from built.receivers import changed, patch_kind

from fasten.catalog.tables import Tables
from fasten.geometry.joint import shaft_mm
from fasten.model import Check, Demand, Joint, MountPoint, Panel, Patch, Pattern, Status, Where
from fasten.proof.fit import faces as face_fit
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes.faces import area, bonded_area, face_limits, is_bonded, last_resort
from fasten.proof.modes.mode import Capacity
from fasten.proof.torque import faces as face_torque
from fasten.proof.torque.limits import no_more_limits
from fasten.proof.torque.tightening import factor

from .built_joint import JOINT, MOUNT, NUT, TABLES

STRIP = Patch(patch_kind("hook-and-loop"), "plain-backed strip", 50.0, 20.0, 4.0, "strip", "built", "elastic adhesive")
TAPE = Patch(patch_kind("foam tape"), "built", 40.0, 25.0, 1.1, "strip", "built", "acrylic foam tape")
POT = Patch(patch_kind("pot magnet"), "25 mm pot, flat plate", 25.0, 25.0, 12.0, "round", "built", "elastic adhesive")
BASE = Patch(patch_kind("stud base"), "built", 30.0, 30.0, 1.5, "round", "built", "structural adhesive")
COOL = replace(MOUNT, where=Where.UNDERFLOOR, material="steel", item_material="steel")
HOT = replace(COOL, where=Where.CABIN)


def held_by(patch: Patch) -> Joint:
    return replace(JOINT, method="built", hole=None, screw=None, receiver=None, patch=patch, washers=())


_NUT = changed(NUT, part="hexagon nut", breaking_nm=None, spin_out_nm=None, prevailing_nm=0.4)
STUD = replace(held_by(BASE), screw=JOINT.screw, receiver=_NUT)


def inputs(capacity: Capacity) -> dict[str, float]:
    return {part.name: part.value for part in capacity.inputs}


def _asked(joint: Joint) -> Callable[[Joint, MountPoint, Tables], tuple[Check, ...]]:
    return face_fit.checks if joint.screw is None else face_fit.on_its_base


def fits(joint: Joint, mount: MountPoint) -> dict[str, Check]:
    return {check.id: check for check in _asked(joint)(joint, mount, TABLES)}


# -- areas and faces --------------------------------------------------------------------------------------------------


def test_areas() -> None:
    """50 x 20; pi/4 25²; of a base 0.7 is not holes."""
    assert area(held_by(STRIP))[0] == 1000.0
    assert area(held_by(POT))[0] == pytest.approx(pi / 4 * 625)
    assert [part.name for part in area(held_by(POT))[1]] == ["diameter of the face"]
    assert bonded_area(held_by(POT), TABLES)[0] == pytest.approx(pi / 4 * 625)
    assert bonded_area(held_by(BASE), TABLES)[0] == pytest.approx(0.7 * pi / 4 * 900)


def test_which_faces_can_tear() -> None:
    """Tape and strip are bonded to the item too; a magnet's plate and a base are not. Steel has no figure."""
    mount = replace(COOL, material="steel", item_material="mdf")
    assert [part.value for part in face_limits(held_by(TAPE), mount, TABLES)[0]] == [0.55]
    assert face_limits(held_by(POT), mount, TABLES) == ((), ())
    both = replace(COOL, material="mdf", item_material="mdf")
    assert [part.value for part in face_limits(held_by(STRIP), both, TABLES)[0]] == [0.55]
    other = replace(COOL, material="pine", item_material="mdf")
    assert [part.value for part in face_limits(held_by(STRIP), other, TABLES)[0]] == [0.40, 0.55]


def test_what_is_a_bond_and_what_nothing_else_holds() -> None:
    assert [is_bonded(held_by(patch)) for patch in (STRIP, POT, BASE, TAPE)] == [True, True, True, False]
    assert not is_bonded(held_by(replace(STRIP, bond=None)))
    assert not is_bonded(JOINT)
    laminate = replace(COOL, material="fibreglass")
    told = [last_resort(held_by(patch), COOL, TABLES) for patch in (STRIP, POT, BASE, TAPE)]
    assert told == [False, False, True, True]
    assert not last_resort(held_by(BASE), laminate, TABLES)
    assert last_resort(held_by(TAPE), laminate, TABLES)
    assert not last_resort(JOINT, COOL, TABLES)


# -- what each bears --------------------------------------------------------------------------------------------------


def test_strips_lose_half_of_what_they_hold_when_new() -> None:
    """A s share: 1000 x 0.06 x 0.5 in shear, 0.03 straight off."""
    assert face_modes.HOOK_SHEAR.capacity(held_by(STRIP), COOL, TABLES).load_n == pytest.approx(30.0)
    assert face_modes.HOOK_PULL.capacity(held_by(STRIP), COOL, TABLES).load_n == pytest.approx(15.0)


def test_a_bond_is_weaker_in_heat_and_no_stronger_than_its_face() -> None:
    """1000 mm²: 1.0 and 0.5 MPa cold, half in heat; on MDF at most 0.55."""
    shear, pull = face_modes.BOND_SHEAR, face_modes.BOND_PULL
    cold = shear.capacity(held_by(STRIP), COOL, TABLES)
    assert cold.load_n == pytest.approx(1000.0)
    assert "share left in heat" not in inputs(cold)
    hot = shear.capacity(held_by(STRIP), HOT, TABLES)
    assert hot.load_n == pytest.approx(500.0)
    assert inputs(hot)["share left in heat"] == 0.5
    assert pull.capacity(held_by(STRIP), COOL, TABLES).load_n == pytest.approx(500.0)
    assert shear.capacity(held_by(STRIP), replace(COOL, material="mdf"), TABLES).load_n == pytest.approx(550.0)
    assert shear.capacity(held_by(STRIP), replace(HOT, material="mdf"), TABLES).load_n == pytest.approx(500.0)
    creeps = face_modes.TAPE_CREEP.capacity(held_by(TAPE), COOL, TABLES)
    assert creeps.load_n == pytest.approx(1.72)


def test_a_magnet_through_paint_and_in_heat() -> None:
    """120 N bare: 0.7 through paint is 84, 0.85 of that in heat is 71.4; it slides at 0.15 of it, a rim stops it."""
    assert face_modes.MAGNET_PULL.capacity(held_by(POT), COOL, TABLES).load_n == pytest.approx(84.0)
    hot = face_modes.MAGNET_PULL.capacity(held_by(POT), HOT, TABLES)
    assert hot.load_n == pytest.approx(71.4)
    assert inputs(hot)["share left in heat"] == 0.85
    assert "share left in heat" not in inputs(face_modes.MAGNET_PULL.capacity(held_by(POT), COOL, TABLES))
    assert len(hot.from_) == len(face_modes.MAGNET_PULL.capacity(held_by(POT), COOL, TABLES).from_) + 1
    assert face_modes.MAGNET_SLIP.capacity(held_by(POT), COOL, TABLES).load_n == pytest.approx(12.6)
    rimmed = held_by(replace(POT, series="25 mm pot, rimmed plate"))
    slips = face_modes.MAGNET_SLIP.capacity(rimmed, COOL, TABLES)
    assert slips.load_n == pytest.approx(25.0 * 1.5 * inputs(slips)["yield of the plate"])


# -- does it fit ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("patch", "heat"),
    [
        (STRIP, {"heat-bond": 90.0}),
        (replace(STRIP, series="self-adhesive strip", bond=None), {"heat-backing": 60.0}),
        (POT, {"heat-bond": 90.0, "heat-magnet": 80.0}), (TAPE, {"heat-bond": 80.0}),
    ],
)  # fmt: skip
def test_every_part_with_a_limit_is_held_against_a_parked_car(patch: Patch, heat: dict[str, float]) -> None:
    """80 °C behind glass; under the floor nothing is asked."""
    found = {id_: check for id_, check in fits(held_by(patch), HOT).items() if id_.startswith("heat")}
    assert {id_: check.allowable for id_, check in found.items()} == heat
    assert {check.demand for check in found.values()} == {80.0}
    assert [check.status for check in found.values()] == [
        Status.HOLDS if limit >= 80.0 else Status.FAILS for limit in heat.values()
    ]
    assert not [id_ for id_ in fits(held_by(patch), COOL) if id_.startswith("heat")]


def test_the_shorter_side_lies_whole_on_the_substrate() -> None:
    """Half of 20 to the edge."""
    assert fits(held_by(STRIP), replace(COOL, edge_mm=10.0))["face-edge"].status is Status.HOLDS
    assert fits(held_by(STRIP), replace(COOL, edge_mm=9.9))["face-edge"].status is Status.FAILS
    open_ = fits(held_by(STRIP), replace(COOL, edge_mm=None))["face-edge"]
    assert (open_.status, open_.demand, open_.allowable) == (Status.NOT_CHECKED, 10.0, None)
    assert open_.needs == "needs 10.0 mm from the middle of each face to any edge"


@pytest.mark.parametrize(
    ("pattern", "count", "used"),
    [
        (Pattern("row", 20.0, None), 2, 20.0 / 20.0),  # the shorter side next to the neighbour
        (Pattern("row", 19.0, None), 3, 20.0 / 19.0),
        (Pattern("rectangle", 100.0, 40.0), 4, 50.0 / 100.0),  # 50 of 100 and 20 of 40, better than 50 of 40
        (Pattern("rectangle", 22.0, 49.0), 4, 50.0 / 49.0),  # 20 of 22, and 50 along y does not do
        (Pattern("rectangle", 10.0, 60.0), 2, 20.0 / 60.0),  # a diagonal: clear along one of both is enough
        (Pattern("rectangle", 0.5, 60.0), 4, 20.0 / 0.5),  # nearer than a millimetre is still beside it
    ],
)
def test_room_beside_neighbours(pattern: Pattern, count: int, used: float) -> None:
    """Faces of 50 x 20 all laid one way, the better of two; the worst pair counts, by its clearer direction."""
    check = fits(held_by(STRIP), replace(COOL, pattern=pattern, fixings=count))["face-room"]
    assert check.utilisation == pytest.approx(used)


def test_one_alone_has_room() -> None:
    assert "face-room" not in fits(held_by(STRIP), replace(COOL, pattern=None, fixings=1))


# -- a bonded stud ----------------------------------------------------------------------------------------------------


def test_a_bond_bears_so_much_torque() -> None:
    """0.7 x 5 MPa x pi 30³/16 = 18.56 N·m over the factor on a bond, less 0.4 of a new nut; run on within it."""
    borne_nm = 0.7 * 5.0 * pi * 30.0**3 / 16 / 1000 / factor(TABLES, "bond")[0]
    loads = (Demand("road", "service", "built", Panel.FLOOR, 1.0, 1.0, (), "built"),)
    upper = face_torque.stud_window(STUD, COOL, loads, no_more_limits, TABLES).upper
    assert upper.torque_nm == pytest.approx(min(6.177, borne_nm) - 0.4)
    small = replace(STUD, patch=replace(BASE, length_mm=12.0, width_mm=12.0))
    upper = face_torque.stud_window(small, COOL, loads, no_more_limits, TABLES).upper
    small_nm = borne_nm * (12.0 / 30.0) ** 3
    assert upper.name == "torsion of the bond"
    assert upper.torque_nm == pytest.approx(small_nm - 0.4)
    run_on = fits(STUD, COOL)["nut-run-on"]
    assert run_on.demand == 0.4
    assert run_on.allowable == pytest.approx(borne_nm)
    on_mdf = face_torque.run_on(STUD, replace(COOL, material="mdf"), TABLES)
    assert on_mdf.allowable == pytest.approx(borne_nm * 0.55 / 5.0)
    assert "nut-run-on" not in fits(held_by(STRIP), COOL)


def test_a_patch_is_as_wide_as_its_longer_side() -> None:
    assert shaft_mm(held_by(STRIP)) == 50.0
    assert shaft_mm(held_by(replace(STRIP, length_mm=10.0))) == 20.0
