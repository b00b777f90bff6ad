"""Repairs: what can have happened, which routes there are, how each is proved, what is refused with which figure."""

import json
from dataclasses import replace
from functools import cache
from math import hypot, sqrt

import pytest

from fasten.advice.advise import advise
from fasten.after import mixed
from fasten.after.damage import check_possible, hole_left_mm, possible, read_damage
from fasten.after.mixed import Odd
from fasten.after.routes import MOST, Repaired, repaired, substrate_of
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.repairs import DAMAGES, REPAIR_ROUTES, REPAIR_SUBSTRATES, REPAIRS
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.joint import outside_mm
from fasten.mechanics.mixed_group import Shares, shares
from fasten.model import Answer, MountPoint, Pattern, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.job.repair import repair_document, repair_json
from fasten.report.plain import json_text

TABLES = builtin()
SKIN = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "60 mm", "edge": "60 mm",
    "support": "firm", "panel": "floor", "far-side": "dry",
}  # fmt: skip
MOUNTS = {
    "skin08": SKIN,
    "floor12": SKIN | {"onto": "steel 1.2 mm", "reach": "both-sides"},
    "plate3": SKIN | {"onto": "steel plate 3 mm", "item-hole": "6.6 mm"},
    "mdf18": {"item": "crossover", "onto": "mdf 18 mm", "removed": "rarely", "edge": "60 mm", "panel": "floor"},
    "birch12": {"item": "crossover", "onto": "birch plywood 12 mm", "removed": "rarely", "edge": "60 mm",
                "panel": "floor"},
    "absboss": {"item": "trim-panel", "onto": "abs 3 mm", "boss": "16x24 mm", "mass": "0.3 kg", "item-hole": "4.5 mm",
                "removed": "rarely", "edge": "60 mm", "behind": "60 mm", "panel": "side"},
    "abs3": {"item": "trim-panel", "onto": "abs 3 mm", "mass": "0.3 kg", "removed": "rarely", "edge": "60 mm",
             "behind": "60 mm", "panel": "side", "reach": "both-sides"},
    "grp4": {"item": "signal-processor", "onto": "fibreglass 4 mm", "removed": "rarely", "edge": "60 mm",
             "behind": "60 mm", "panel": "floor", "reach": "both-sides"},
}  # fmt: skip
RECTANGLE = ((-120.0, -90.0), (120.0, -90.0), (120.0, 90.0), (-120.0, 90.0))


@cache
def fixed(substrate: str) -> tuple[Answer, MountPoint]:
    advice = advise(resolve(read_question(MOUNTS[substrate], TABLES), TABLES), TABLES, changes=False)
    return advice.answers[0], advice.mount


def done(substrate: str, what: str, at: int | None = None) -> Repaired:
    answer, mount = fixed(substrate)
    return repaired(answer.proposal.joint, mount, read_damage(what), at, TABLES)


# -- the table --------------------------------------------------------------------------------------------------------


def test_there_is_a_cell_for_every_substrate_and_damage() -> None:
    cells = {(row.substrate, row.what) for row in TABLES.rows(REPAIRS)}
    assert cells == {(one.substrate, what) for one in TABLES.rows(REPAIR_SUBSTRATES) for what in DAMAGES}


@pytest.mark.parametrize("row", TABLES.rows(REPAIRS), ids=lambda row: f"{row.substrate}-{row.what}")
def test_a_cell_names_known_routes_the_old_part_first_each_with_why(row: object) -> None:
    cell = TABLES.need(REPAIRS, row.substrate, row.what)  # type: ignore[attr-defined]
    routes = [TABLES.need(REPAIR_ROUTES, key) for key in cell.routes]
    assert len(cell.routes) == len(cell.why) == len(set(cell.routes))
    assert any(route.sort == "route" for route in routes)
    assert routes[0].sort in {"out", "stop"} or not any(route.sort == "out" for route in routes)


def test_every_method_that_a_route_names_is_one() -> None:
    known = {row.method for row in TABLES.rows(METHOD_WORDS)}
    for route in TABLES.rows(REPAIR_ROUTES):
        assert set(route.methods) <= known
        assert bool(route.methods) == (
            route.proof in {"methods", "series", "tapped", "cover", "crack", "plate behind", "doubler on board"}
        )
        assert (route.needs is not None) == (route.proof in {"needs", "tested", "held", "sheet left"})


@pytest.mark.parametrize("substrate", MOUNTS)
def test_each_substrate_is_known_by_its_mount_point(substrate: str) -> None:
    assert substrate_of(fixed(substrate)[1], TABLES) == substrate


@pytest.mark.parametrize("substrate", MOUNTS)
@pytest.mark.parametrize("damage", ["stripped", "oversize 14 mm", "off 3 mm right", "cracked", "corroded", "spun"])
def test_every_route_is_proved_open_with_what_it_needs_or_refused_with_why(substrate: str, damage: str) -> None:
    answer, _ = fixed(substrate)
    if read_damage(damage).what not in possible(answer.proposal.joint):
        with pytest.raises(FastenError):
            check_possible(read_damage(damage), answer.proposal.joint, answer.title)
        return
    found = done(substrate, damage)
    row = TABLES.need(REPAIRS, substrate, read_damage(damage).what)
    routes = {key for key in row.routes if TABLES.need(REPAIR_ROUTES, key).sort == "route"}
    assert len(found.routes) <= MOST
    assert {route.route for route in (*found.routes, *found.refused)} <= routes
    for route in found.routes:
        assert route.proven == (not route.needs)
        assert route.checks
        assert all(check.status is not Status.FAILS for check in route.checks)
        assert all(check.needs or check.status is not Status.NOT_CHECKED for check in route.checks)
    for route in found.refused:
        assert route.refused is not None
        assert route.refused.because
        assert route.refused.figures, route.refused
    assert json.loads(json_text(repair_json("m", found, ())))["format"] == 1
    assert repair_document("m", found, ()).sections or found.asks


# -- what can have happened -------------------------------------------------------------------------------------------


def joint_of(substrate: str, method: str) -> tuple[Answer, MountPoint]:
    advice = advise(resolve(read_question(MOUNTS[substrate], TABLES), TABLES), TABLES, changes=False)
    return next(answer for answer in advice.answers if answer.method == method), advice.mount


def test_a_tapped_hole_cannot_spin_and_says_what_can_happen() -> None:
    answer, _ = joint_of("plate3", "tapped_hole")
    with pytest.raises(FastenError, match="cannot be spun: nothing in it can turn; what can happen there: stripped"):
        check_possible(read_damage("spun"), answer.proposal.joint, answer.title)


def test_what_holds_by_its_face_has_no_hole_to_be_wide() -> None:
    said = {"item": "trim-panel", "onto": "steel 0.8 mm", "removed": "rarely", "mass": "0.2 kg", "panel": "floor"}
    advice = advise(resolve(read_question(said, TABLES), TABLES), TABLES, changes=False)
    stuck = [answer.proposal.joint for answer in advice.answers if answer.method == "hook_and_loop"]
    assert [possible(joint) for joint in stuck] == [("cracked", "corroded")]


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("melted", "is not"),
        ("oversize", "how wide"),
        ("off 3", "unit"),
        ("spun 3 mm", "takes no size"),
        ("off", "how far"),
    ],
)
def test_what_is_not_understood(text: str, what: str) -> None:
    with pytest.raises(FastenError, match=what):
        read_damage(text)


def test_a_stripped_screw_leaves_a_hole_of_its_outside_and_a_spun_insert_too() -> None:
    screw, _ = joint_of("mdf18", "screw_into_board")
    joint = screw.proposal.joint
    assert joint.screw is not None
    assert hole_left_mm(read_damage("stripped"), joint) == joint.screw.diameter_mm
    insert, _ = joint_of("mdf18", "screw_in_insert")
    receiver = insert.proposal.joint.receiver
    assert receiver is not None
    assert hole_left_mm(read_damage("spun"), insert.proposal.joint) == outside_mm(receiver)


# -- the odd fixing ---------------------------------------------------------------------------------------------------


def odd_shares(odd: int, ratio: float) -> tuple[Shares, ...]:
    stiff = tuple(ratio if at == odd else 1.0 for at in range(4))
    return shares(points_mm=RECTANGLE, stiffnesses=stiff, middle_mm=(0.0, 0.0), foot_mm=5.0)


def even_lever_mm() -> float:
    """1 / |A^-1 p| of a corner of 240 x 180: A = 4 x 120² and 4 x 90²."""
    return 1 / hypot(120 / (4 * 120**2), 90 / (4 * 90**2))


def test_one_fixing_unlike_the_others_on_a_rectangle() -> None:
    """Springs of unequal stiffness, solved by hand for 240 x 180: 0.45 and 0.50 without it, 0.57 and 0.31 at four."""
    none, alike, stiff = (odd_shares(2, ratio) for ratio in (0.0, 1.0, 4.0))
    assert max(one.shear for one in none) == pytest.approx(0.448, abs=0.001)
    assert [one.tension for one in none] == pytest.approx([0.0, 0.5, 0.0, 0.5])
    assert [(one.shear, one.tension) for one in alike] == [pytest.approx((0.25, 0.25))] * 4
    assert [one.tipping_per_mm for one in alike] == [pytest.approx(1 / even_lever_mm())] * 4
    assert (stiff[2].shear, stiff[2].tension) == pytest.approx((0.571, 0.308), abs=0.001)


def test_shares_of_a_pull_balance_the_pull() -> None:
    for ratio in (0.0, 1.0, 4.0):
        found = odd_shares(0, ratio)
        assert sum(one.tension for one in found) == pytest.approx(1.0)


def test_the_shear_share_is_the_worst_of_all_directions() -> None:
    """Tried by turning the force: equilibrium about the middle of stiffness, in steps of a degree."""
    from math import cos, radians, sin

    for ratio in (0.0, 4.0):
        stiff = [1.0, 1.0, ratio, 1.0]
        total = sum(stiff)
        mx, my = (sum(k * p[a] for k, p in zip(stiff, RECTANGLE, strict=True)) / total for a in (0, 1))
        polar = sum(k * ((x - mx) ** 2 + (y - my) ** 2) for k, (x, y) in zip(stiff, RECTANGLE, strict=True))
        found = odd_shares(2, ratio)
        for place, (x, y) in enumerate(RECTANGLE):
            worst = 0.0
            for step in range(360):
                u, v = cos(radians(step)), sin(radians(step))
                moment = -mx * v + my * u
                fx = stiff[place] * (u / total - moment * (y - my) / polar)
                fy = stiff[place] * (v / total + moment * (x - mx) / polar)
                worst = max(worst, sqrt(fx * fx + fy * fy))
            assert found[place].shear == pytest.approx(worst, rel=1e-3)


def test_strength_is_not_shared_but_slip_is() -> None:
    from fasten.proof.demands import demands

    _, mount = fixed("skin08")
    odd = Odd(2)
    each = mixed.carried(mount, (odd,), TABLES)
    assert (max(each[at].shear for at in (0, 1, 3)), each[2].shear) == pytest.approx((0.448, 0.571), abs=0.001)
    assert (max(each[at].tension for at in (0, 1, 3)), each[2].tension) == pytest.approx((0.5, 0.308), abs=0.001)
    even = {load.load: load for load in demands(mount, TABLES) if load.kind == "service"}
    for load in mixed.loads_at(mount, (odd,), (0, 1, 3), TABLES):
        if load.kind == "service":
            assert load.shear_n == pytest.approx(even[load.load].shear_n * 4 * 0.448, rel=2e-3)
            assert load.slips_n == pytest.approx(even[load.load].shear_n)


def test_slip_is_shared_by_those_that_keep_a_clamp_alone() -> None:
    """Left out, or held without a clamp: three clamps carry the slip of four, a third more each."""
    from fasten.proof.demands import demands

    _, mount = fixed("skin08")
    even = max(load.shear_n for load in demands(mount, TABLES) if load.kind == "service")
    loads = mixed.loads_at(mount, (Odd(2, mixed.LEFT_OUT, clamps=False),), (0, 1, 3), TABLES)
    assert max(load.slips_n for load in loads if load.kind == "service") == pytest.approx(even * 4 / 3)


def test_three_corners_tip_about_their_own_middle() -> None:
    """|A^-1 p| of three corners of 240 x 180, solved by hand: 1/144 mm at the two that face the gap crosswise."""
    found = odd_shares(3, 0.0)
    assert found[1].tipping_per_mm == pytest.approx(1 / 144)
    assert (found[0].tipping_per_mm, found[2].tipping_per_mm) == pytest.approx((1 / 240, 1 / 180))
    assert found[3].tipping_per_mm == 0.0


def test_a_hole_that_moved_turns_the_load_about_the_middle_of_the_item() -> None:
    """Two of a row 100 apart, one drilled 20 nearer: a pull through the old middle leaves 50/80 to that one."""
    found = shares(points_mm=((-50.0, 0.0), (30.0, 0.0)), stiffnesses=(1.0, 1.0), middle_mm=(0.0, 0.0), foot_mm=5.0)
    assert [one.tension for one in found] == pytest.approx([30 / 80, 50 / 80])


def test_an_odd_fixing_may_be_alike_as_well() -> None:
    """Three of a row 150 apart, one drilled 60 and 40 off: 1/33 mm on a foot of 11 mm where it is as stiff as the rest.

    Without it nothing is carried there, at four times as stiff 1/40 mm, |A^-1 p| with the foot clear of the row.
    """
    _, mount = fixed("skin08")
    of_row = replace(mount, fixings=3, pattern=Pattern("row", 150.0, None))
    each = mixed.carried(of_row, (Odd(2, moved_mm=(210.0, -40.0)),), TABLES)
    across, along = 1 / 33, 0.0029
    assert each[2].tipping_per_mm == pytest.approx(hypot(across, along), abs=1e-5)


# -- routes -----------------------------------------------------------------------------------------------------------


def test_an_oversize_hole_takes_the_next_thread_with_the_item_opened_and_no_body_too_small() -> None:
    found = done("skin08", "oversize 8.2 mm", 3)
    kept = {route.route: route for route in found.routes}
    assert kept["N3"].proven
    assert kept["N3"].opened_mm == 6.6
    hole = kept["N3"].answer.proposal.joint.hole if kept["N3"].answer is not None else None
    assert hole is not None
    assert hole.diameter_mm == 9.0
    series = next(route.refused for route in found.refused if route.route == "N2")
    assert series is not None
    assert series.figures[0].value == 8.2


def test_the_fixings_that_stay_are_proved_with_what_the_odd_one_may_leave_them() -> None:
    found = done("skin08", "oversize 8.2 mm", 3)
    route = next(one for one in found.routes if one.route == "N3")
    others = [check for check in route.checks if check.id.startswith("other-fixings/")]
    assert others
    inputs = {entry.name: entry.value for check in others for entry in check.inputs}
    assert inputs["pull over an even share"] == pytest.approx(2.0)
    whole = done("skin08", "oversize 8.2 mm")
    assert not any(c.id.startswith("other-fixings/") for one in whole.routes for c in one.checks)


def test_an_off_hole_is_slotted_before_any_new_one_is_drilled() -> None:
    """3 mm less the play of M5 in 5.5 mm, 0.25: the opening grows by 2.75 mm, the clamp alone holds with 1.8."""
    found = done("skin08", "off 3 mm right", 3)
    best = found.routes[0]
    assert (best.route, best.proven, best.new_hole) == ("S1", True, False)
    assert best.opened_mm == pytest.approx(5.5 + 2.75)
    window = next(check for check in best.checks if check.id == "torque-window")
    assert {entry.name: entry.value for entry in window.inputs}["factor on slip"] == 1.8


def test_routes_are_sorted_proven_first_then_no_new_hole_then_by_the_table() -> None:
    for what in ("spun", "stripped", "off 3 mm right", "oversize 8.2 mm"):
        keys = [(not one.proven, one.new_hole, one.order) for one in done("skin08", what, 1).routes]
        assert keys == sorted(keys)


def test_one_left_out_leaves_three_and_is_refused_below() -> None:
    _, mount = fixed("skin08")
    answer, _ = fixed("skin08")
    damage = read_damage("oversize 8.2 mm")
    two = replace(mount, fixings=2, pattern=replace(mount.pattern, kind="row", a_mm=240.0, b_mm=None))  # type: ignore[type-var]
    found = repaired(answer.proposal.joint, two, damage, 1, TABLES)
    refused = next(one.refused for one in found.refused if one.route == "L1")
    assert refused is not None
    assert [figure.value for figure in refused.figures] == [1.0, 3.0]


def test_a_larger_screw_in_a_stripped_hole_counts_its_own_thread_alone_and_waits_for_a_test_pull() -> None:
    answer, mount = joint_of("mdf18", "screw_into_board")
    joint = answer.proposal.joint
    found = repaired(joint, mount, read_damage("stripped"), None, TABLES)
    route = next(one for one in (*found.routes, *found.refused) if one.route == "R1")
    assert not route.proven
    assert route.answer is not None
    new = route.answer.proposal.joint
    assert new.screw is not None
    assert joint.screw is not None
    assert new.hole is not None
    assert route.opened_mm is not None, "the item's hole was preset for the smaller screw"
    assert route.opened_mm > new.screw.diameter_mm
    root_mm, old_mm = new.hole.diameter_mm, joint.screw.diameter_mm
    assert new.screw.diameter_mm >= old_mm + 1, "at least 1 mm thicker"
    share = (new.screw.diameter_mm - old_mm) / (new.screw.diameter_mm - root_mm)
    told = {e.value for check in route.checks for e in check.inputs if e.name == "share of thread"}
    assert sorted(told) == [pytest.approx(share)]
    assert "test pull" in route.needs[-1]


def test_a_bolt_in_a_board_cuts_no_thread_to_go_a_size_up_from() -> None:
    said = MOUNTS["birch12"] | {"reach": "both-sides", "behind": "60 mm"}
    advice = advise(resolve(read_question(said, TABLES), TABLES), TABLES, changes=False)
    joint = next(one.proposal.joint for one in advice.answers if one.method == "through_bolt")
    found = repaired(joint, advice.mount, read_damage("stripped"), None, TABLES)
    refused = next(one.refused for one in found.refused if one.route == "R1")
    assert refused is not None
    assert "cuts no thread" in refused.because


def test_a_crack_rust_and_a_row_of_spun_nuts_ask_first_and_one_nut_does_not() -> None:
    for what in ("cracked", "corroded", "spun"):
        assert "structure, belt, seat or airbag" in done("skin08", what).asks
    assert done("skin08", "spun", 2).asks == ""


def test_a_cover_plate_is_proved_with_its_rivets_and_its_bending() -> None:
    """Rivets keep two diameters from the rim of the bad hole and from the edge of the plate."""
    found = done("skin08", "oversize 9.4 mm", 3)
    route = next(one for one in found.routes if one.route == "C1")
    assert route.proven
    ids = {check.id.partition(".")[0] for check in route.checks}
    assert {"plate-bends", "plate-rivets/rivet-shear", "plate-rivets/rivet-tension"} <= ids
    assert "Plate " in route.notes[0]
    bends = next(check for check in route.checks if check.id == "plate-bends.hard_stop")
    given = {entry.name: entry.value for entry in bends.inputs}
    assert given["span"] / 2 * sqrt(2) - 9.4 / 2 >= 2 * 4.0
    assert route.answer is not None
    assert route.answer.proposal.joint.sheet_mm == given["plate"]


def test_nothing_over_a_crack_is_proven_without_the_support_of_the_panel() -> None:
    answer, mount = fixed("skin08")
    found = repaired(answer.proposal.joint, replace(mount, support=None), read_damage("cracked"), 3, TABLES)
    assert not any(one.proven for one in found.routes if one.route in {"C1", "K1"})


def test_a_crack_is_never_proven() -> None:
    found = done("skin08", "cracked")
    doubler = next(one for one in found.routes if one.route == "K1")
    assert not doubler.proven
    assert "how long the crack is" in doubler.needs[0]


@pytest.mark.parametrize(
    ("left", "said"), [("", "corroded 0.7 mm"), (" 0.7 mm", ""), (" 0.5 mm", "the body is repaired first")]
)
def test_a_corroded_sheet_is_proved_by_what_is_left_of_it(left: str, said: str) -> None:
    """0.7 of 0.8 mm is over 0.8 of it, 0.5 mm is under."""
    answer, mount = joint_of("skin08", "rivet_nut")
    found = repaired(answer.proposal.joint, mount, read_damage(f"corroded{left}"), 3, TABLES)
    route = next(one for one in (*found.routes, *found.refused) if one.route == "Z1")
    because = route.refused.because if route.refused is not None else "; ".join(route.needs)
    assert said in because
    if not said:
        assert route.answer is not None
        assert route.answer.proposal.joint.sheet_mm == 0.7
        spun = {check.id: check.allowable for check in route.checks if check.allowable is not None}
        plain = {check.id: check.allowable for check in answer.proposal.checks if check.allowable is not None}
        assert spun["sheet-bearing.hard_stop"] < plain["sheet-bearing.hard_stop"]
