"""The hardware list of a job: every total recounted, each thing once, amounts and spares by their tables."""

from collections import Counter
from dataclasses import replace
from functools import cache
from random import Random
from typing import TypeVar

import pytest
from built.few import few
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.advice.advise import advise
from fasten.catalog.job_parts import CONSUMABLES, SPARES
from fasten.catalog.spares import extra_of, size_mm
from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import BitLine, HardwareList, PartLine, ToolLine
from fasten.job.list.parts import part_text, same_part
from fasten.job.words import ShelfPart
from fasten.model import Joint, Position, kinds
from fasten.model.kinds import Kind, Spares
from fasten.model.line import Part

from .sample_jobs import UNFIT, job, list_of, mount, random_mounts, shelf

TABLES = builtin()
LineT = TypeVar("LineT")


@cache
def listed(seed: int, count: int) -> tuple[HardwareList, tuple[Choice, ...]]:
    """The list of a random job, each mount point with any of its answers, so that every method has its turn."""
    asked, random = job(*random_mounts(seed, count)), Random(seed)
    found = tuple(any_answer(entry, random) for entry in choices(asked, TABLES))
    return hardware(asked, found, None, TABLES), found


def any_answer(entry: Choice, random: Random) -> Choice:
    if entry.answer is None or entry.point is None:
        return entry
    return entry.with_answer(random.choice(advise(entry.point, TABLES, changes=False).answers), TABLES)


def part(found: HardwareList, kind: str) -> PartLine:
    return only([entry for entry in found.parts if entry.part.kind == kind], kind, found.parts)


def bit(found: HardwareList, name: str) -> BitLine:
    return only([entry for entry in found.bits if entry.name == name], name, found.bits)


def tool(found: HardwareList, name: str, size: str = "") -> ToolLine:
    of_name = [entry for entry in found.tools if (entry.name, entry.size) == (name, size)]
    return only(of_name, f"{name} {size}", found.tools)


def only(lines: list[LineT], wanted: str, listed: tuple[object, ...]) -> LineT:
    """The one line that is wanted; else which there were."""
    assert len(lines) == 1, f"{len(lines)} lines of {wanted} among {', '.join(map(told, listed))}"
    return lines[0]


def told(line: object) -> str:
    match line:
        case PartLine():
            return part_text(line.part)
        case ToolLine():
            return f"{line.name} {line.size}".strip()
        case _:
            return str(getattr(line, "name", line))


# -- totals -----------------------------------------------------------------------------------------------------------


Pieces = Counter[tuple[str, str, float | None]]  # by standard or series, size and length


def recounted(found: tuple[Choice, ...]) -> Pieces:
    """Counted fixing by fixing from each mount point's own answer."""
    pieces: Pieces = Counter()
    for entry in found:
        if entry.answer is not None and entry.point is not None:
            for _ in range(entry.point.fixings):
                _add(pieces, entry.answer.proposal.joint)
    return pieces


def _add(pieces: Pieces, joint: Joint) -> None:
    for washer in joint.washers:
        if washer.place != Position.LIMITER:
            pieces[washer.standard, washer.size, None] += 1
        elif (through := joint.screw or joint.receiver) is not None:
            pieces[f"{washer.outer_mm:g} mm outside", through.thread, round(washer.thickness_mm, 4)] += 1
    if joint.screw is not None:
        pieces[joint.screw.standard, joint.screw.thread, joint.screw.length_mm] += 1
    if joint.patch is not None and joint.patch.part == "pot magnet":  # strips and bonds go by their area
        pieces[joint.patch.series, f"{joint.patch.length_mm:g} mm", None] += 1
    receiver = joint.receiver
    if receiver is not None and receiver.part != "blind rivet":  # the rivet is its screw as well
        nut = receiver.part in {"prevailing-torque nut", "hexagon nut", "clip nut"}
        pieces[receiver.series, receiver.thread, None if nut else receiver.length_mm] += 1


def summed(found: HardwareList) -> Pieces:
    """The lines of the list; an insert goes by its series alone, without the outside that its name adds."""
    pieces: Pieces = Counter()
    for line in found.parts:
        insert = line.part.kind == "screw-in insert"
        name = line.part.name.rpartition(", ")[0] if insert else line.part.name
        pieces[name, line.part.size, line.part.length_mm] += line.needed
    return pieces


@pytest.mark.slow
@settings(max_examples=few(25, 7), deadline=None)
@given(st.integers(0, 10_000), st.integers(1, few(40, 16)))
def test_every_total_is_what_a_plain_recount_of_the_answers_gives(seed: int, count: int) -> None:
    found, entries = listed(seed, count)
    assert summed(found) == recounted(entries)
    for line in found.parts:
        assert line.needed == sum(place.count for place in line.places)
        assert line.total == line.needed + line.spares
        assert (line.on_shelf, line.to_buy) == (0, line.total)


@pytest.mark.slow
@settings(max_examples=few(15, 6), deadline=None)
@given(st.integers(0, 10_000), st.integers(1, few(40, 16)))
def test_nothing_appears_twice_under_two_spellings(seed: int, count: int) -> None:
    found, _ = listed(seed, count)
    for names in (
        [same_part(line.part) for line in found.parts],
        [line.diameter_mm for line in found.bits],
        [(line.name.casefold(), line.size) for line in found.tools],
        [(line.name.casefold(), line.detail) for line in found.consumables],
    ):
        assert len(names) == len(set(names))


@pytest.mark.slow
@settings(max_examples=few(15, 6), deadline=None)
@given(st.integers(0, 10_000), st.randoms(use_true_random=False))
def test_the_order_of_the_mount_points_changes_no_total(seed: int, random: object) -> None:
    mounts = list(random_mounts(seed, 12))
    straight = list_of(job(*mounts))
    random.shuffle(mounts)  # type: ignore[attr-defined]
    turned = list_of(job(*mounts))
    assert [(line.part, line.total) for line in straight.parts] == [(line.part, line.total) for line in turned.parts]
    amounts = {(line.name, line.detail): line.amount for line in straight.consumables}
    assert {(line.name, line.detail): line.amount for line in turned.consumables} == pytest.approx(amounts)


@pytest.mark.slow
@settings(max_examples=few(10, 6), deadline=None)
@given(st.integers(0, 10_000))
def test_every_bit_tool_and_consumable_of_an_answer_is_on_the_list(seed: int) -> None:
    found, entries = listed(seed, 15)
    keys = {line.key.removesuffix(" hexalobular").removesuffix(" slot") for line in found.tools}
    consumables = {line.key for line in found.consumables}
    counted = {row.consumable for row in TABLES.rows(CONSUMABLES) if row.per == "part"}
    for entry in entries:
        if entry.answer is None:
            continue
        for need in entry.answer.tools:
            if need.key == "bit":
                assert [line for line in found.bits if line.name == need.text.removeprefix("bit ")]
            else:
                assert need.key in keys | {"pilot"}
        assert {need.key for need in entry.answer.consumables} <= consumables | counted


def test_a_job_of_nothing_lists_nothing() -> None:
    found = list_of(job())
    assert (found.parts, found.bits, found.tools, found.consumables, found.cost) == ((), (), (), (), None)


def test_what_nothing_fits_is_told_and_takes_nothing() -> None:
    alone, both = (
        list_of(job(mount("amp"))),
        list_of(job(mount("amp"), replace(mount("box"), said=tuple(UNFIT.items())))),
    )
    assert both.parts == alone.parts
    [unfit] = both.unfit
    assert unfit.mount == "box"


# -- spares -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "size", "needed", "spares"),
    [
        (kinds.WASHER, "M4", 40, 12),  # 0.3
        (kinds.WASHER, "M4", 2, 4),  # at least 4
        (kinds.SPRING_WASHER, "M8", 41, 9),  # 0.2, rounded up
        (kinds.MACHINE_SCREW, "M5", 20, 2),  # 0.1, and not 3
        (kinds.MACHINE_SCREW, "M8", 4, 1),
        (kinds.TAPPING_SCREW, "ST3.5", 10, 4),
        (kinds.RIVET_NUT, "M6", 100, 15),
        (kinds.LOCK_NUT, "M10", 4, 1),
        (kinds.HEAT_SET_INSERT, "M4", 4, 2),
        (kinds.FOAM_TAPE, "", 5, 1),
        (kinds.MACHINE_SCREW, "M5", 0, 0),
    ],
)
def test_spares_follow_the_rule_of_kind_and_size(kind: Kind, size: str, needed: int, spares: int) -> None:
    """Common practice, no source: the shares and least counts of the table, worked out by hand."""
    assert extra_of(kind.spares, size, needed, TABLES).spare == spares


def test_small_parts_get_no_fewer_spares_than_large_ones() -> None:
    for kind in (Spares.SCREW, Spares.WASHER, Spares.NUT):
        for needed in (1, 4, 17, 100):
            by_size = [extra_of(kind, size, needed, TABLES).spare for size in ("M3", "M4", "M5", "M8")]
            assert by_size == sorted(by_size, reverse=True)


def test_what_the_method_renews_gets_one_set_more() -> None:
    """A prevailing-torque nut is renewed every five removals; ten yearly ones are more, a handful is not."""
    often, seldom = (part(list_of(job(mount("box", removed=r))), "prevailing-torque nut") for r in ("yearly", "rarely"))
    rule = extra_of(Spares.NUT, often.part.size, 4, TABLES).spare
    assert (often.needed, often.spares) == (4, rule + 4)
    assert seldom.spares == rule


def test_sizes_are_read_off_their_names() -> None:
    assert [size_mm(text) for text in ("M5", "ST4.2", "4 mm", "3.5 mm", "", "M²")] == [
        5, 4.2, 4, 3.5, float("inf"), float("inf"),
    ]  # fmt: skip


def test_spares_rules_end_in_one_for_any_part() -> None:
    last = TABLES.rows(SPARES)[-1]
    assert (last.kind, last.up_to_mm) == ("any", None)


# -- the shelf --------------------------------------------------------------------------------------------------------


def test_the_shelf_is_taken_off_under_any_spelling_and_packs_are_whole() -> None:
    asked = job(mount("amp left"), mount("amp right"))
    screw = part(list_of(asked), "screw")
    assert (screw.needed, screw.total) == (8, 10)
    odd = Part("Screw", "m5", screw.part.name.lower().replace(" ", ""), screw.part.grade, screw.part.length_mm)
    kept = shelf(ShelfPart(odd, 2, 4, 0.25), ShelfPart(screw.part, 1, None, None))
    line = part(list_of(asked, kept), "screw")
    assert (line.on_shelf, line.to_buy, line.pack, line.packs) == (3, 7, 4, 2)
    assert line.cost == pytest.approx(2.0)  # two packs of four at 0.25


def test_a_full_shelf_leaves_nothing_to_buy() -> None:
    asked = job(mount("amp"))
    parts = tuple(ShelfPart(line.part, line.total, 100, 1.0) for line in list_of(asked).parts)
    found = list_of(asked, shelf(*parts))
    assert [line.to_buy for line in found.parts] == [0] * len(parts)
    assert (found.cost, found.unpriced) == (None, 0)


def test_cost_is_the_sum_of_what_is_known_and_says_how_much_is_not() -> None:
    asked = job(mount("amp"), mount("box"))
    bare = list_of(asked)
    priced = tuple(ShelfPart(line.part, 0, None, 0.5) for line in bare.parts[:2])
    found = list_of(asked, shelf(*priced))
    assert found.cost == pytest.approx(sum(line.total for line in bare.parts[:2]) * 0.5)
    assert found.unpriced == len(bare.parts) - 2
    assert (bare.cost, bare.unpriced) == (None, len(bare.parts))


# -- bits, tools, stops -----------------------------------------------------------------------------------------------


def test_a_bit_says_what_it_drills_and_the_pilot_is_one_of_them() -> None:
    found = list_of(job(mount("amp left"), mount("amp right")))
    assert [(line.name, [(w.mount, w.purpose, w.count) for w in line.drills]) for line in found.bits] == [
        ("3 mm", [("amp left", "pilot", 1), ("amp right", "pilot", 1)]),
        ("7.6 mm", [("amp left", "hole", 4), ("amp right", "hole", 4)]),
    ]


def test_the_pilot_is_the_one_of_the_method_and_never_wider_than_the_hole() -> None:
    """A self-drilling screw is probed for at 2 mm, as its step says; the 2.5 mm hole of ST2.9 by itself."""
    asked = job(mount("fuse", item_hole="3.6mm"))
    [entry] = choices(asked, TABLES)
    assert entry.point is not None
    by_method = {answer.method: answer for answer in reversed(advise(entry.point, TABLES, changes=False).answers)}
    for method, pilot in (("self_drilling_screw", 2.0), ("tapping_screw", 2.5)):
        found = hardware(asked, (entry.with_answer(by_method[method], TABLES),), None, TABLES)
        assert [w.hole_mm for line in found.bits for w in line.drills if w.purpose == "pilot"] == [pilot]


@pytest.mark.parametrize("name", ["7.6 mm", "7.6mm", "7,6 mm", "Bit 7.6 mm"])
def test_a_bit_is_on_the_shelf_under_any_spelling(name: str) -> None:
    assert bit(list_of(job(mount("amp")), shelf(bits=(name,))), "7.6 mm").on_shelf


def test_another_bit_of_the_shelf_does_where_the_hole_allows_it() -> None:
    """The hole may be 0.1 over: a 7.65 mm bit drills it, a 7.5 mm one and a 7.8 mm one do not."""
    asked = job(mount("amp"))
    assert bit(list_of(asked, shelf(bits=("7.65 mm",))), "7.6 mm").instead == ("7.65 mm",)
    assert bit(list_of(asked, shelf(bits=("7.5 mm", "7.8 mm"))), "7.6 mm").instead == ()
    assert bit(list_of(asked, shelf(bits=("tin opener",))), "7.6 mm").instead == ()


def test_an_inch_bit_is_known_by_its_name() -> None:
    found = list_of(job(mount("bracket")))
    names = {line.name for line in found.bits} - {"3 mm"}
    owned = list_of(job(mount("bracket")), shelf(bits=tuple(names)))
    assert all(line.on_shelf for line in owned.bits if line.name in names)


def test_where_the_hole_is_there_only_the_test_piece_is_drilled() -> None:
    found = list_of(job(mount("amp", hole_there="7.6mm")))
    [line] = found.bits
    assert [(work.purpose, work.hole_mm, work.count) for work in line.drills] == [("hole in a test piece", 7.6, 1)]
    assert not [line for line in found.tools if line.name == "stop collar"]


def test_tools_come_by_heading_and_size() -> None:
    found = list_of(job(*(mount(name) for name in ("amp", "box", "trim", "speaker", "bracket"))))
    assert tool(found, "rivet-nut mandrel", "M5").heading == "setting tool"
    assert tool(found, "insert driver", "M4").heading == "setting tool"
    assert tool(found, "driver hexalobular", "T20").heading == "driver"
    assert tool(found, "spanner for the nut", "13 mm").heading == "driver"  # ISO 7040, M8: 13 mm across flats
    assert tool(found, "socket or spanner", "7 mm").used[0].mount == "amp"  # ISO 15071, M5: 7 mm
    assert tool(found, "countersink", "over 6.5 mm").heading == "countersink"
    [tap] = [line for line in found.tools if line.name == "tap"]
    assert (tap.heading, tap.size) == ("tap", "M5")
    headings = [line.heading for line in found.tools]
    assert headings == sorted(headings, key=["setting tool", "tap", "driver", "countersink", "stop", "other"].index)


@pytest.mark.parametrize("name", ["rivet-nut mandrel M5", "M5 Rivet-Nut Mandrel"])
def test_a_tool_is_on_the_shelf_with_its_size_on_either_side(name: str) -> None:
    found = list_of(job(mount("amp")), shelf(tools=(name,)))
    assert tool(found, "rivet-nut mandrel", "M5").on_shelf
    assert not tool(found, "rivet-nut setter").on_shelf


def test_the_nut_of_a_stud_that_is_there_brings_its_own_socket_and_no_bit() -> None:
    """ISO 4032, M6: 10 mm across flats."""
    found = list_of(job(mount("stud")))
    assert tool(found, "socket or spanner", "10 mm").used[0].mount == "stud"
    assert found.bits == ()


def test_stops_are_set_to_the_sheet_and_3_mm_and_to_the_depth_of_a_blind_hole() -> None:
    found = list_of(job(mount("amp"), mount("speaker")))
    [pilot] = tool(found, "stop collar", "3 mm").used
    assert pilot.mount == "amp"
    assert pilot.set_mm == pytest.approx(3.8)
    [blind] = tool(found, "stop collar", "6.5 mm").used
    joint = choice(mount("speaker"), TABLES).answer
    assert joint is not None
    assert joint.proposal.joint.hole is not None
    assert (blind.mount, blind.set_mm) == ("speaker", joint.proposal.joint.hole.depth_mm)


@pytest.mark.slow
def test_the_random_jobs_see_many_methods() -> None:
    """Else the recounts above would see little."""
    answers = [entry.answer for seed in range(10) for entry in listed(seed, 30)[1]]
    assert len({answer.method for answer in answers if answer is not None}) >= 12
