"""Blocks behind blocks: loads, floors, fuses and drops through any tree; what of it is not known stays open."""

from collections.abc import Iterable
from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.model import Status, end_kinds
from fasten.model.check import worst
from fasten.wiring.current import current_of
from fasten.wiring.sizes import sizes
from fasten.wiring.sizing import Sizing, option
from fasten.wiring.words import Branches, Run, Series, Size, Unsized

TABLES = builtin()
ON = (("onto", "plywood 18 mm"), ("removed", "yearly"))
FROM_BATTERY = "battery stud M8"


def mount(name: str, item: str, **said: str) -> Mount:
    return Mount(name, (("item", item), *ON, *((key.replace("_", "-"), text) for key, text in said.items())))


def run(name: str, from_: str, to: str, length: str, **said: str) -> CableRun:
    return CableRun(name, (*said.items(), ("from", from_), ("to", to), ("length", length)))


MONO, FOUR = mount("mono", "amplifier", power="1000 W class D"), mount("four", "amplifier", power="300 W class AB")
TWO = mount("two", "amplifier", power="150 W class AB", own_fuses="2 x 10 A")
FRONT, REAR = mount("front", "distribution-block"), mount("rear", "distribution-block")
GROUNDS = tuple(run(f"{name} ground", name, "body", "0.45 m") for name in ("mono", "four", "two"))
TRUNK, A = run("trunk", FROM_BATTERY, "front", "5 m"), run("a", "front", "mono", "0.6 m")
SUB, B, C = run("sub", "front", "rear", "1.5 m"), run("b", "rear", "four", "0.8 m"), run("c", "rear", "two", "0.5 m")
TREE = (TRUNK, A, SUB, B, C, *GROUNDS)


def choices(runs: Iterable[CableRun], *mounts: Mount) -> dict[str, RunChoice]:
    mounts = mounts or (MONO, FOUR, TWO, FRONT, REAR)
    return {one.name: one for one in run_choices(Job("Car", "invented", "", mounts, runs=tuple(runs)), TABLES)}


def sizings(runs: Iterable[CableRun], *mounts: Mount) -> dict[str, Sizing]:
    return {name: one.answer.sizing for name, one in choices(runs, *mounts).items() if one.answer is not None}


def open_of(runs: Iterable[CableRun], *mounts: Mount) -> dict[str, list[str]]:
    """What of the sums of each run is open."""
    of_sums = {"unloaded", "rivals", "not-whole", "path", "ground"}
    return {
        name: [check.id for check in one.answer.checks if check.id.partition(".")[0] in of_sums]
        for name, one in choices(runs, *mounts).items() if one.answer is not None
    }  # fmt: skip


def own_v(one: Sizing) -> float:
    assert one.conductor is not None
    assert one.current is not None
    length_mm = one.run.length_mm + one.run.return_mm
    return one.current.full_a * one.conductor.resistance_mohm_per_m * length_mm / 1e6


def drop_v(one: Sizing) -> float:
    assert one.conductor is not None
    return one.conductor.drop_v


# -- summed ------------------------------------------------------------------------------------------------------------


def test_loads_and_floors_are_summed_through_a_block_behind_a_block() -> None:
    """1000/(0.75 x 13.8) = 96.62 A; 300 and 150/(0.6 x 13.8) = 36.23 and 18.12 A; floors 120.77, 45.29 and 20 A."""
    found = sizings(TREE)
    currents = {name: found[name].current for name in ("trunk", "sub")}
    assert {name: one and round(one.full_a, 2) for name, one in currents.items()} == {"trunk": 150.97, "sub": 54.35}
    floors = {name: one and round(one.fuse_floor_a or 0, 2) for name, one in currents.items()}
    assert floors == {"trunk": 186.06, "sub": 65.29}
    assert found["trunk"].fuse is not None
    assert found["trunk"].fuse.rating_a == 200.0
    assert open_of(TREE) == {name: [] for name in found}


def test_the_drop_is_over_the_whole_path_and_each_conductor_carries_the_fuse_before_it() -> None:
    found = sizings(TREE)
    whole = own_v(found["trunk"]) + own_v(found["sub"]) + own_v(found["b"])
    assert drop_v(found["b"]) == pytest.approx(whole)
    assert drop_v(found["b"]) <= 0.414
    fuse_a = {"trunk": 200.0}
    for name, before in (("a", "trunk"), ("sub", "trunk"), ("b", "sub"), ("c", "sub")):
        one = found[name]
        assert one.conductor is not None
        assert one.run.in_block
        fuse_a[name] = fuse_a[before] if one.fuse is None else one.fuse.rating_a
        assert fuse_a[name] <= one.conductor.ampacity_a, name
        assert fuse_a[name] <= fuse_a[before], name


def test_the_whole_tree_takes_the_least_copper() -> None:
    """Every trunk with every cable between the blocks and every branch, one by one."""
    found, known = sizings(TREE), sizes(Series.AWG, TABLES)
    runs = {name: replace(found[name].run, least_mm2=0.0, before_v=0.0, upstream_fuse_a=None) for name in found}

    def tried(name: str, size: Size, before_v: float, fuse_a: float | None) -> tuple[float, float, float | None] | None:
        behind: Run = replace(runs[name], before_v=before_v, upstream_fuse_a=fuse_a)
        assert not isinstance(behind.carries, Unsized)
        one = option(size, current_of(behind.carries, behind, TABLES), behind, TABLES)
        if one is None or not one.fits:
            return None
        copper = size.area_mm2 * (behind.length_mm + behind.return_mm)
        return copper, one.conductor.drop_v, fuse_a if one.fuse is None else one.fuse.rating_a

    def least(name: str, before_v: float, fuse_a: float | None) -> float:
        got = (tried(name, size, before_v, fuse_a) for size in known)
        return min((one[0] for one in got if one is not None), default=float("inf"))

    best = float("inf")
    for trunk in (one for size in known if (one := tried("trunk", size, 0.0, None)) is not None):
        for sub in (one for size in known if (one := tried("sub", size, *trunk[1:])) is not None):
            behind = least("a", *trunk[1:]) + least("b", *sub[1:]) + least("c", *sub[1:])
            best = min(best, trunk[0] + sub[0] + behind)
    taken = sum(
        found[name].size.area_mm2 * (found[name].run.length_mm + found[name].run.return_mm)
        for name in ("trunk", "a", "sub", "b", "c")
    )
    assert taken == pytest.approx(best)


def test_an_item_that_feeds_another_carries_its_load_too() -> None:
    """96.62 and 36.23 A; each ground carries its own."""
    chain = (run("p", FROM_BATTERY, "mono", "5 m"), run("q", "mono", "four", "0.4 m"), *GROUNDS[:2])
    found = sizings(chain, MONO, FOUR)
    full = {name: one.current and round(one.current.full_a, 1) for name, one in found.items()}
    assert full == {"p": 132.9, "q": 36.2, "mono ground": 96.6, "four ground": 36.2}
    assert drop_v(found["q"]) > drop_v(found["p"])
    answer = choices(chain, MONO, FOUR)["p"].answer
    assert answer is not None
    assert any(check.id.startswith("own-fuses") for check in answer.checks), "the amplifier's own fuses stay open"


def test_what_is_said_of_a_trunk_gives_way_to_more_behind_it() -> None:
    said = {"carries": "80 A"}
    found = sizings((run("trunk", FROM_BATTERY, "front", "5 m", **said), A, *GROUNDS[:1]))
    assert found["trunk"].current
    assert found["trunk"].current.full_a == pytest.approx(96.618, abs=0.001)
    more = sizings((run("trunk", FROM_BATTERY, "front", "5 m", carries="150 A"), A, *GROUNDS[:1]))
    assert more["trunk"].current
    assert more["trunk"].current.full_a == 150.0
    assert drop_v(more["a"]) > drop_v(more["trunk"])


def test_what_is_behind_a_second_battery_is_fed_by_it() -> None:
    rear = mount("rear battery", "battery")
    charge = run("charge", FROM_BATTERY, "rear battery", "5 m", carries="60 A", ground="0.4 m")
    found = sizings((charge, run("t", "rear battery", "front", "0.5 m"), A, *GROUNDS[:1]), MONO, FRONT, rear)
    assert found["charge"].current
    assert found["charge"].current.full_a == 60.0
    assert found["charge"].fuse
    assert found["charge"].fuse.count == 2, "one at each battery, its terminal said or not"
    assert found["t"].run.before_v == 0.0


@pytest.mark.parametrize("at", ["stud M8", "battery stud M8", "battery post +"])
def test_an_end_at_a_battery_of_the_job_is_at_a_pole_however_it_is_said(at: str) -> None:
    rear = mount("rear battery", "battery")
    for minus in ("rear battery", "rear battery, stud M8", "rear battery, battery post -"):
        charge = run("charge", FROM_BATTERY, f"rear battery, {at}", "5 m", carries="60 A")
        found = sizings((charge, run("g", minus, "body", "0.4 m")), rear)
        assert found["charge"].fuse
        assert found["charge"].fuse.count == 2
        assert found["charge"].run.return_mm == 400.0
        assert found["g"].fuse is None


def test_a_battery_of_the_job_has_no_terminal_of_a_device() -> None:
    wrong = run("charge", FROM_BATTERY, "rear battery, set screw", "5 m", carries="60 A")
    reason = choices((wrong,), mount("rear battery", "battery"))["charge"].reason
    assert "is a battery, which has posts or studs" in reason


def test_grounds_that_join_are_summed_and_are_in_the_drop_of_each_load() -> None:
    minus = mount("minus", "distribution-block")
    joined = (run("ma", "mono", "minus", "0.3 m"), run("mb", "four", "minus", "0.3 m"),
              run("mg", "minus", "body", "0.4 m"))  # fmt: skip
    found = sizings((TRUNK, A, run("b", "front", "four", "0.8 m"), *joined), MONO, FOUR, FRONT, minus)
    full = {name: one.current and round(one.current.full_a, 1) for name, one in found.items()}
    assert full == {"trunk": 132.9, "a": 96.6, "b": 36.2, "ma": 96.6, "mb": 36.2, "mg": 132.9}
    assert all(found[name].fuse is None for name in ("ma", "mb", "mg"))
    assert found["mg"].size.area_mm2 >= found["trunk"].size.area_mm2
    assert drop_v(found["a"]) >= drop_v(found["trunk"]) + own_v(found["a"]) + own_v(found["mg"])
    assert set(open_of((TRUNK, A, *joined), MONO, FOUR, FRONT, minus)["mg"]) == {"unloaded"}, "nothing feeds four"


def test_the_body_of_a_ground_run_counts_in_the_drop_of_its_load() -> None:
    measured = replace(GROUNDS[0], said=(*GROUNDS[0].said, ("body", "1 mohm")))
    plain, found = sizings((TRUNK, A, GROUNDS[0])), sizings((TRUNK, A, measured))
    assert found["a"].run.body_mohm == 1.0
    assert own_v(found["a"]) + found["a"].run.before_v + 96.618e-3 == pytest.approx(drop_v(found["a"]), abs=1e-5)
    assert (
        found["trunk"].size.area_mm2 + found["a"].size.area_mm2
        > plain["trunk"].size.area_mm2 + plain["a"].size.area_mm2
    )


# -- what is not known -------------------------------------------------------------------------------------------------


def test_a_load_that_is_not_known_leaves_all_on_its_way_open() -> None:
    deaf = mount("deaf", "amplifier")
    runs = (TRUNK, A, SUB, B, run("d", "rear", "deaf", "0.5 m"), *GROUNDS[:2])
    found = open_of(runs, MONO, FOUR, FRONT, REAR, deaf)
    assert found["trunk"] == found["sub"][:1] == ["unloaded"]
    assert all("not-whole" in found[name] for name in ("a", "sub", "b"))
    answer = choices(runs, MONO, FOUR, FRONT, REAR, deaf)["b"].answer
    assert answer is not None
    assert not {"unloaded", "not-whole"} & {one.check for one in answer.confirms}, "no look settles it"


def test_an_item_of_unknown_load_that_feeds_another_leaves_its_feed_open() -> None:
    runs = (run("p", FROM_BATTERY, "deaf", "5 m"), run("q", "deaf", "four", "0.4 m"), GROUNDS[1])
    found = open_of(runs, mount("deaf", "amplifier"), FOUR)
    assert found["p"] == ["unloaded"]
    assert found["q"] == ["not-whole"]


def test_what_is_behind_an_unknown_start_is_open_by_the_same_name() -> None:
    """Once it is measured there, all behind it is settled."""
    runs = (SUB, B, C, *GROUNDS[1:])
    assert open_of(runs)["b"] == open_of(runs)["sub"] == ["path.front"]
    ids = {one.id for name in ("sub", "b") for one in (choices(runs)[name].answer or pytest.fail(name)).confirms}
    assert "path:front" in ids


def test_a_block_that_a_circle_and_a_battery_feed_has_answers_that_are_open() -> None:
    back = run("back", "rear", "front", "1 m")
    assert "rivals" in open_of((TRUNK, A, SUB, back, B, *GROUNDS[:2]))["a"]


def test_a_circle_is_refused_with_its_names() -> None:
    back = run("back", "rear", "front", "1 m")
    found = choices((SUB, back, B, GROUNDS[1]))
    assert "it feeds itself in a circle: 'sub', 'back'" in found["sub"].reason
    assert found["back"].answer is None
    assert open_of((SUB, back, B, GROUNDS[1]))["b"] == ["not-whole"]
    assert "in a circle: 'self'" in choices((run("self", "front", "front", "1 m"),))["self"].reason


@pytest.mark.parametrize(
    ("runs", "name", "open_"),
    [
        ((A, GROUNDS[0]), "a", ["path.front"]),
        ((run("a", "connector", "mono", "1 m"), GROUNDS[0]), "a", ["path.a"]),
        ((TRUNK, replace(TRUNK, name="again"), A, GROUNDS[0]), "a", ["rivals", "not-whole"]),
        ((TRUNK, replace(TRUNK, name="again"), A, GROUNDS[0]), "trunk", ["rivals"]),
        ((TRUNK, A), "a", ["ground.mono"]),
        ((run("a", FROM_BATTERY, "mono", "5 m"),), "a", ["ground.mono"]),
    ],
)
def test_a_part_of_the_way_that_is_not_known_is_open(runs: tuple[CableRun, ...], name: str, open_: list[str]) -> None:
    assert open_of(runs)[name] == open_
    answer = choices(runs)[name].answer
    assert answer is not None
    assert worst(answer.checks) is Status.NOT_CHECKED


def test_a_body_stud_that_is_no_mount_point_is_on_no_list_until_it_is_seen() -> None:
    stud = mount("lug", "ground-lug")
    for ground, is_open in ((GROUNDS[0], True), (run("mono ground", "mono", "lug", "0.45 m"), False)):
        answer = choices((TRUNK, A, ground), MONO, FRONT, stud)["mono ground"].answer
        assert answer is not None
        assert ("ground-point.mono ground" in [one.id for one in answer.checks]) is is_open
        assert ("ground-point:mono-ground" in [one.id for one in answer.confirms]) is is_open


def test_a_run_behind_one_that_nothing_does_for_is_open() -> None:
    heavy = mount("mono", "amplifier", power="2500 W class D"), mount("four", "amplifier", power="1500 W class D")
    runs = (TRUNK, A, run("b", "front", "four", "0.8 m"), *GROUNDS[:2])
    assert "over 300 A" in choices(runs, *heavy, FRONT)["trunk"].reason
    assert open_of(runs, *heavy, FRONT)["a"] == ["not-whole"]


def test_behind_chosen_cable_that_misses_the_limit_branches_get_their_cable_and_the_volts() -> None:
    trunk = run("trunk", FROM_BATTERY, "front", "5 m", cable="2 AWG", insulation="105 C")
    found = sizings((trunk, A, run("b", "front", "four", "0.8 m"), *GROUNDS[:2]))
    assert found["trunk"].over_limit_v > 0
    assert found["a"].over_limit_v > found["trunk"].over_limit_v
    assert own_v(found["a"]) <= 0.414
    assert not any(check.status is Status.FAILS for check in found["a"].checks)


def test_a_branch_that_nothing_does_for_leaves_the_others_their_cable() -> None:
    """150 A over 18 m and back loses 0.8 V and more in 4/0 AWG; the other branch does not suffer for it."""
    far = run("far", "front", "two", "18 m", carries="150 A", ground="18 m")
    found = choices((TRUNK, A, far, *GROUNDS[:1]))
    assert "no size does" in found["far"].reason
    assert found["a"].answer is not None
    assert found["a"].answer.sizing.over_limit_v == 0.0


def test_recorded_cable_of_a_trunk_counts_in_the_drop_of_its_branches() -> None:
    """The reel in hand is copper-clad: what it loses is before each branch."""
    size = sizings(TREE)["trunk"].size.name
    clad = (Recorded(size, (("material", "copper-clad"), ("marked", "105 C"))),)
    job = Job("Car", "invented", "", (MONO, FOUR, TWO, FRONT, REAR), cables=clad, runs=TREE)
    found = {one.name: one.answer.sizing for one in run_choices(job, TABLES) if one.answer is not None}
    assert drop_v(found["trunk"]) > 1.5 * drop_v(sizings(TREE)["trunk"])
    assert found["b"].run.before_v >= drop_v(found["trunk"])
    assert isinstance(found["trunk"].run.carries, Branches)


# -- grounds behind fuses ----------------------------------------------------------------------------------------------


def fuse_line(runs: Iterable[CableRun], name: str, *mounts: Mount) -> tuple[float | None, Status]:
    """What the fuse before a ground run is, and whether its cable carries that."""
    answer = choices(runs, *mounts)[name].answer
    assert answer is not None
    line = next(check for check in answer.checks if check.id == "fuse")
    return line.demand, line.status


def test_a_ground_lead_carries_the_fuse_that_is_there() -> None:
    """600 W by 0.6 and 13.8 V are 72.5 A: a fuse from 90.6 A, which is made as 100 A; 6 AWG at 75 °C carries 95 A."""
    amp = mount("amp", "amplifier", power="600 W class AB")
    power = run("power", FROM_BATTERY, "amp, set screw", "4 m")
    for cable, status in (("6 AWG", Status.FAILS), ("4 AWG", Status.HOLDS)):
        ground = run("ground", "amp, set screw", "body", "0.45 m", cable=cable)
        assert fuse_line((power, ground), "ground", amp) == (100, status)


def test_a_ground_of_a_branch_carries_the_fuse_of_its_branch_or_the_one_before_it() -> None:
    found = sizings(TREE)
    for name, branch in (("mono", "a"), ("four", "b"), ("two", "c")):
        fuse = found[branch].fuse
        before_a = found[branch].run.upstream_fuse_a if fuse is None else fuse.rating_a
        assert fuse_line(TREE, f"{name} ground") == (before_a, Status.HOLDS)


def test_a_ground_of_several_carries_their_fuses_or_the_one_of_their_trunk() -> None:
    joined = (run("mono joins", "mono", "rear", "0.4 m"), run("four joins", "four", "rear", "0.4 m"),
              run("shared", "rear", "body", "0.4 m"))  # fmt: skip
    alone = (run("mono power", FROM_BATTERY, "mono", "3 m"), run("four power", FROM_BATTERY, "four", "3 m"))
    found = sizings((*joined, *alone), MONO, FOUR, REAR)
    each = [one.fuse.rating_a for name in ("mono power", "four power") if (one := found[name]).fuse is not None]
    assert fuse_line((*joined, *alone), "shared", MONO, FOUR, REAR)[0] == sum(each) > each[0]
    trunked = (TRUNK, A, run("d", "front", "four", "0.5 m"))
    trunk = sizings((*joined, *trunked), MONO, FOUR, FRONT, REAR)["trunk"].fuse
    assert trunk is not None
    demand_a, _ = fuse_line((*joined, *trunked), "shared", MONO, FOUR, FRONT, REAR)
    assert demand_a is not None
    assert demand_a <= trunk.rating_a


def test_a_block_is_on_the_list_with_its_outputs() -> None:
    """Two branches at the front block and two at the rear one; a block of grounds has no fuses."""

    def blocks(runs: Iterable[CableRun], *mounts: Mount) -> dict[str, tuple[str, str, int]]:
        return {
            name: (need.part.size, need.part.name, need.count)
            for name, one in choices(runs, *mounts).items() if one.plan is not None
            for need in one.plan.parts if need.id.key == end_kinds.BLOCK.key
        }  # fmt: skip

    assert blocks(TREE) == {"trunk": ("2 outputs", "with fuses", 1), "sub": ("2 outputs", "with fuses", 1)}
    minus = mount("minus", "distribution-block")
    joined = (run("ma", "mono", "minus", "0.3 m"), run("mb", "four", "minus", "0.3 m"),
              run("mg", "minus", "body", "0.4 m"))  # fmt: skip
    found = blocks((TRUNK, A, run("b", "front", "four", "0.8 m"), *joined), MONO, FOUR, FRONT, minus)
    assert found == {"trunk": ("2 outputs", "with fuses", 1), "mg": ("2 outputs", "of grounds", 1)}
