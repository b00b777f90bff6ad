"""The window of torque and the checks of strength by hand, on the joint that is built for it."""

from dataclasses import replace
from typing import Any

import pytest

from fasten.catalog.materials import FACES, FINISHES
from fasten.catalog.practice import TIGHTENING
from fasten.catalog.rows import TableOf
from fasten.catalog.tables import RowT
from fasten.geometry.patterns import positions_mm
from fasten.model import Demand, Joint, JointKind, MountPoint, Panel, Status, Subject, kinds
from fasten.proof.demands import demands
from fasten.proof.modes.common import BACK_PULL, PULL_OUT, RECEIVER_THREAD, SHEET_BEARING
from fasten.proof.modes.families import Family
from fasten.proof.modes.mode import Capacity, Mode, Needed
from fasten.proof.strength import capacities, exemptions, strength_checks
from fasten.proof.torque.limits import upper_limits
from fasten.proof.torque.tightening import Window, faces, tool_error, window

from .built_joint import EXAMINED, JOINT, MOUNT, TABLES, TAPPING, fit_only, given, nut, rule

K = 0.2  # nut factor that the limits below are calculated with
SCATTER = 0.25


def asked(shear_n: float, tension_n: float, kind: str = "service", load: str = "built") -> Demand:
    return Demand("road", kind, load, Panel.FLOOR, shear_n, tension_n, (), "built")


def of(joint: Joint, *loads: Demand, mount: MountPoint = MOUNT) -> Window:
    return window(joint, mount, loads, fit_only(joint).limits, TABLES)


def row(table: TableOf[RowT], key: str) -> RowT:
    return TABLES.need(table, key)


# -- from below -------------------------------------------------------------------------------------------------------


def test_service_asks_for_preload_against_slip_and_separation() -> None:
    """NASA TM-106943: (1.2 T + V / friction) over what scatter and creep leave, times K d; by hand from the tables."""
    finish, way = row(FINISHES, "zinc_plated"), row(TIGHTENING, "torque_wrench")
    face = row(FACES, "painted_metal")
    found = of(JOINT, asked(30.0, 50.0), asked(10.0, 20.0, load="less"), asked(900.0, 900.0, "hard_stop"))
    needed_n = 1.2 * 50.0 + 1.2 * 30.0 / face.friction  # its locker keeps the screw from turning
    assert found.preload_needed_n == pytest.approx(needed_n)
    assert found.lower_nm == pytest.approx(
        finish.nut_factor * 5.0 * needed_n / ((1 - way.scatter) * rule("kept-with-locker")) / 1000
    )
    assert {"shear in service": 30.0, "tension in service": 50.0, "preload kept": 0.5}.items() <= {
        part.name: part.value for part in found.inputs
    }.items()
    assert found.lower_formula is None


def test_a_located_joint_is_only_seated() -> None:
    """It bears shear, keeps no preload, and is seated against 1.2 T over scatter alone."""
    finish, way = row(FINISHES, "zinc_plated"), row(TIGHTENING, "torque_wrench")
    found = of(replace(JOINT, kind=JointKind.LOCATED), asked(30.0, 50.0))
    assert found.preload_needed_n == pytest.approx(60.0)
    assert found.lower_nm == pytest.approx(finish.nut_factor * 5.0 * 60.0 / (1 - way.scatter) / 1000)
    assert {part.name for part in found.inputs} == {
        "tension in service", "factor on separation", "scatter", "nut factor", "screw diameter",
    }  # fmt: skip
    assert TABLES.source_id(FACES, row(FACES, "painted_metal")) not in found.from_
    assert found.lower_formula == "seated: K d x separation x T / (1 - scatter)"


def test_a_load_so_small_still_asks_and_no_load_asks_nothing() -> None:
    """Half a newton of shear asks 0.5 / friction; none asks nothing, and a window without a load begins at 0."""
    friction = row(FACES, "painted_metal").friction
    assert of(JOINT, asked(0.5, 0.0)).preload_needed_n == pytest.approx(1.2 * 0.5 / friction)
    nothing = of(JOINT, asked(0.0, 0.0))
    assert (nothing.preload_needed_n, nothing.lower_nm) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("item", "material", "face"),
    [
        ("steel", "steel", "painted_metal"), ("steel", "mdf", "metal_on_board"), ("pine", "steel", "metal_on_board"),
        ("abs", "steel", "metal_on_plastic"), ("steel", "fibreglass", "metal_on_plastic"),
        ("mdf", "abs", "metal_on_plastic"),
    ],
)  # fmt: skip
def test_the_softer_face_decides(item: str, material: str, face: str) -> None:
    assert faces(JOINT, replace(MOUNT, item_material=item, material=material), TABLES) == face


# -- from above -------------------------------------------------------------------------------------------------------


def limits(joint: Joint, mount: MountPoint = MOUNT) -> dict[str, float]:
    own = fit_only(joint).limits(joint, mount, K, TABLES)
    return {found.name: found.torque_nm for found in (*upper_limits(joint, mount, K, SCATTER, TABLES), *own)}


def test_limits_of_a_rivet_nut() -> None:
    """0.75 of M5 8.8 proof, 14.2 mm² x 580 = 8236 N: 0.2 x 5 x 6177 / 1000; 0.65 of 9.0; 0.65 of 3.4 N·m.

    Undone, 0.8 of the torque and the 0.75 N·m of its locker stay under 0.8 of 3.4 N·m.
    """
    assert limits(JOINT) == pytest.approx(
        {
            "proof load of the screw": 6.177, "breaking torque of the thread": 5.85, "spin-out of the body": 2.21,
            "loosening with threadlocker": 3.4 - 0.75 / 0.8,
        }
    )  # fmt: skip
    assert "loosening with threadlocker" not in limits(replace(JOINT, lock=kinds.NO_LOCK))


def test_without_a_locker_the_clamp_is_kept_better_and_must_hold_more() -> None:
    """Nothing but the clamp keeps the screw from turning: 1.8 on slip; 0.6 is kept, tightened after the first drive."""
    found = of(replace(JOINT, lock=kinds.NO_LOCK), asked(30.0, 50.0))
    assert found.preload_needed_n == pytest.approx(1.2 * 50.0 + 1.8 * 30.0 / 0.15)
    assert {"factor on slip": 1.8, "preload kept": 0.6}.items() <= {one.name: one.value for one in found.inputs}.items()


@pytest.mark.parametrize(("most_nm", "error"), [(1.0, 0.06), (10.6, 0.06), (10.7, 0.04), (40.0, 0.04)])
def test_the_target_leaves_room_for_the_tool(most_nm: float, error: float) -> None:
    """ISO 6789: 6 % up to 10 N·m, 4 % above."""
    assert tool_error(most_nm, TABLES).value == error


def test_a_window_that_no_tool_can_hit_is_shut() -> None:
    """1.06/0.94 = 1.128: a tool set so that it stays under the upper end must surely reach the lower one."""
    window_ = of(JOINT, asked(30.0, 50.0))
    assert window_.surely_nm == pytest.approx(window_.upper.torque_nm / 1.1277, rel=1e-4)
    assert window_.target_nm * 0.94 == pytest.approx(window_.surely_nm)
    torque = window_.torque()
    assert torque.clamp_reserve == pytest.approx(1 - 250.0 / (0.65 * window_.target_nm * 1000 / (0.2 * 5)))


def test_a_thinner_sheet_turns_sooner_and_without_a_figure_nothing_is_made_up() -> None:
    """0.38 of 0.76 mm: half of 3.4; share 0.65."""
    assert limits(replace(JOINT, sheet_mm=0.38))["spin-out of the body"] == pytest.approx(0.65 * 1.7)
    assert "spin-out of the body" not in limits(nut(spin_out_nm=None))
    assert "spin-out of the body" not in limits(nut(spin_out_sheet_mm=None))
    assert set(limits(nut(breaking_nm=None))) == {
        "proof load of the screw", "spin-out of the body", "loosening with threadlocker",
    }  # fmt: skip
    assert set(limits(replace(JOINT, receiver=None))) == {"proof load of the screw"}


def test_what_its_box_says_stands_for_all_that_is_calculated_of_it() -> None:
    assert limits(nut(torque_nm=1.5)) == pytest.approx({"proof load of the screw": 6.177, "the torque of its box": 1.5})


def test_a_tapped_hole_strips_and_a_tapping_screw_pulls_out() -> None:
    """Half of 0.85 t d Fu, AISI E4, by K d; ST4.8 breaks at 6.3 N·m (ISO 2702), of which half."""
    tapped = replace(JOINT, method="tapped_hole", receiver=None, sheet_mm=6.0)
    assert set(limits(tapped, replace(MOUNT, thickness_min_mm=6.0))) == {
        "proof load of the screw", "stripping of the tapped thread",
    }  # fmt: skip
    found = limits(TAPPING)
    strength = {entry.name: entry.value for entry in _pull_out().inputs}["strength of steel"]
    assert found["thread in the sheet"] == pytest.approx(0.2 * 4.8 * 0.5 * 0.85 * 0.8 * 4.8 * strength / 1000)
    assert found["breaking torque of the screw"] == pytest.approx(0.5 * 6.3)
    assert set(found) == {"thread in the sheet", "breaking torque of the screw"}


def _pull_out() -> Capacity:
    return PULL_OUT.capacity(TAPPING, MOUNT, TABLES)


def test_a_soft_item_is_not_crushed() -> None:
    """10 MPa on the ring of a head of 9.5 over a hole of 5.5, scatter against it."""
    ring_mm2 = 3.14159265 / 4 * (9.5**2 - 5.5**2)
    found = limits(JOINT, replace(MOUNT, item_material="mdf"))
    assert found["pressure under the head"] == pytest.approx(0.2 * 5 * rule("board-bearing") * ring_mm2 / 1.25 / 1000)
    assert "pressure under the head" not in limits(JOINT)


def test_the_lowest_limit_decides_and_by_name_where_two_are_alike() -> None:
    assert of(JOINT, asked(1.0, 1.0)).upper.name == "spin-out of the body"
    alike = nut(breaking_nm=3.4)
    assert of(alike, asked(1.0, 1.0)).upper.name == "breaking torque of the thread"


# -- strength ---------------------------------------------------------------------------------------------------------

MODES = (SHEET_BEARING, BACK_PULL)


def checked(*loads: Demand, modes: tuple[Mode, ...] = MODES) -> dict[str, Any]:
    return {
        check.id: check
        for check in strength_checks(JOINT, modes, capacities(JOINT, MOUNT, modes, TABLES), EXAMINED, loads, TABLES)
    }


def test_each_mode_meets_the_worst_load_that_drives_it() -> None:
    """Shear drives bearing, pull drives pull-through: two loads, each the worst of its own."""
    found = checked(asked(200.0, 10.0, load="brake"), asked(20.0, 90.0, load="bump"))
    assert (found["sheet-bearing.service"].demand, found["pull-through.service"].demand) == (200.0, 90.0)
    assert found["sheet-bearing.service"].load_case == "road: brake, on floor"
    assert found["pull-through.service"].load_case == "road: bump, on floor"
    capacity = SHEET_BEARING.capacity(JOINT, MOUNT, TABLES)
    factor = given(found["sheet-bearing.service"])["factor"]
    assert found["sheet-bearing.service"].allowable == pytest.approx(capacity.load_n / factor)
    assert found["sheet-bearing.service"].factor == factor > 1


def test_shear_and_pull_together_are_added_in_sheet() -> None:
    """EN 1993-1-3 8.3: V/Va + T/Ta, of the load where the sum is greatest and of the least that each way may carry."""
    found = checked(asked(200.0, 10.0, load="brake"), asked(20.0, 90.0, load="bump"))
    shear_n, pull_n = (found[f"{name}.service"].allowable for name in ("sheet-bearing", "pull-through"))
    by_hand = max(200.0 / shear_n + 10.0 / pull_n, 20.0 / shear_n + 90.0 / pull_n)
    assert found["sheet-together.service"].demand == pytest.approx(by_hand)
    assert given(found["sheet-together.service"])["shear capacity"] == pytest.approx(shear_n)
    assert set(given(found["sheet-together.service"])) == {"shear", "tension", "shear capacity", "tension capacity"}


def test_one_direction_alone_is_not_joined() -> None:
    assert "sheet-together.service" not in checked(asked(200.0, 10.0), modes=(SHEET_BEARING,))
    assert "sheet-together.service" not in checked(asked(200.0, 10.0), modes=(BACK_PULL,))
    apart = replace(BACK_PULL, apart="no rule joins them")
    assert "sheet-together.service" not in checked(asked(200.0, 10.0), modes=(SHEET_BEARING, apart))


def test_a_mode_that_does_not_apply_gives_no_line() -> None:
    other = replace(BACK_PULL, applies=lambda _joint: False)
    assert set(checked(asked(1.0, 1.0), modes=(other, RECEIVER_THREAD))) == {"receiver-thread.service", "hard-stop"}


def test_a_mode_without_a_figure_says_what_it_needs_and_how_much_that_must_be() -> None:
    """3 on the sheet in service and 1.25 in a stop: of 90 N and 250 N pull the 250 N ask more, 312.5 N at least."""
    waiting = replace(BACK_PULL, find=lambda _joint, _mount, _tables: Needed("its pull", "value of its box", ("box",)))
    found = checked(asked(1.0, 90.0), asked(1.0, 250.0, "hard_stop"), modes=(SHEET_BEARING, waiting))
    left = found["pull-through"]
    assert (left.status, left.needs, left.demand) == (Status.NOT_CHECKED, "needs its pull", pytest.approx(312.5))
    assert not any(name.startswith("sheet-together") for name in found), "both together wait with it"


def test_a_family_without_a_factor_leaves_its_mode_open() -> None:
    found = checked(
        asked(1.0, 1.0),
        modes=(replace(BACK_PULL, family=Family("nobody's", BACK_PULL.family.law, BACK_PULL.family.of)),),
    )
    left = found["pull-through.service"]
    assert (left.status, left.needs) == (Status.NOT_CHECKED, "needs a factor on nobody's for the kind service")


def test_what_no_mode_examines_stays_open_unless_the_method_says_why() -> None:
    """Bearing and pull-through examine the sheet: the screw and the item are left, one of them for a reason."""
    loads = (asked(1.0, 1.0), asked(1.0, 1.0, "hard_stop"))
    because = {Subject.ITEM: "nothing goes through it", Subject.SUBSTRATE_SHEAR: "examined, so this is not told"}
    found = strength_checks(JOINT, MODES, capacities(JOINT, MOUNT, MODES, TABLES), because, loads, TABLES)
    left = [check.id for check in found if check.status is Status.NOT_CHECKED]
    assert left == ["not-examined.holds-tension", "not-examined.holds-shear"]
    told = [(entry.subject, entry.because) for entry in exemptions(JOINT, MODES, because)]
    assert told == [("the item under the head", "nothing goes through it")]


def test_a_hard_stop_that_nobody_brought_stays_open() -> None:
    """The worst that is left out, 20 g of FMVSS 571.207 by analogy; where there is a hard stop, nothing is."""
    left = checked(asked(1.0, 1.0))["hard-stop"]
    assert (left.status, left.demand, left.unit) == (Status.NOT_CHECKED, 20.0, "g")
    brought = checked(asked(1.0, 1.0), asked(50.0, 50.0, "hard_stop"))
    assert "hard-stop" not in brought
    assert brought["sheet-bearing.hard_stop"].demand == 50.0


# -- which loads decide -----------------------------------------------------------------------------------------------


def test_only_loads_that_no_other_exceeds_both_ways_are_kept() -> None:
    """Every panel alone, then all together: what is kept is what none of its kind exceeds, each once."""
    panels = (Panel.FLOOR, Panel.SEAT_BACK, Panel.SIDE, Panel.ROOF)
    alone = [each for panel in panels for each in demands(replace(MOUNT, panel=panel), TABLES)]
    together = demands(replace(MOUNT, panel=Panel.UNKNOWN), TABLES)

    def exceeded(one: Demand, others: list[Demand]) -> bool:
        return any(
            other.kind == one.kind
            and other.shear_n >= one.shear_n
            and other.tension_n >= one.tension_n
            and (other.shear_n, other.tension_n) != (one.shear_n, one.tension_n)
            for other in others
        )

    pairs = [(each.kind, each.shear_n, each.tension_n) for each in together]
    assert len(pairs) == len(set(pairs))
    assert set(pairs) == {(each.kind, each.shear_n, each.tension_n) for each in alone if not exceeded(each, alone)}
    assert {each.kind for each in together} == {"service", "hard_stop", "sustained"}


# 1 kg on a rectangle of 240 x 180, centre of gravity 30 mm off: 9.80665 N, a quarter a fixing; the lever of a corner is
# 1 / hypot(120 / 57600, 90 / 32400) = 288 mm, so 1 g across tips with 9.80665 x 30 / 288 = 1.0215 N.
@pytest.mark.parametrize(
    ("panel", "kept"),
    [
        (Panel.FLOOR, [("braking on the rebound", 1, 2), ("forward", 20, 0), ("up", 0, 10), ("weight", 0, 0)]),
        (
            Panel.SIDE,
            [("braking on a bump", 17**0.5, 0), ("cornering left on a bump", 4, 1), ("forward", 20, 0),
             ("to one side", 0, 10), ("weight", 1, 0)],
        ),
        (
            Panel.ROOF,
            [("braking on a bump", 1, 4), ("forward", 20, 0), ("down", 0, 10), ("weight", 0, 1)],
        ),
    ],
)  # fmt: skip
def test_which_loads_decide_on_a_panel(panel: Panel, kept: list[tuple[str, float, float]]) -> None:
    """By hand: what is across and what pulls, in g; of two that ask the same (braking, pulling away) the first stands.

    On a floor no bump pulls, so the rebound exceeds it; the weight presses and asks nothing.
    """
    found = demands(replace(MOUNT, panel=panel), TABLES)
    assert [each.load for each in found] == [load for load, _, _ in kept]
    for each, (_, across_g, along_g) in zip(found, kept, strict=True):
        assert each.shear_n == pytest.approx(9.80665 / 4 * across_g)
        assert each.tension_n == pytest.approx(9.80665 / 4 * along_g + 9.80665 * 30 / 288 * across_g)


def test_one_fixing_sits_at_the_origin() -> None:
    assert positions_mm(None, 1) == ((0.0, 0.0),)
