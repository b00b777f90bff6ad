"""Shelf first: what is owned is preferred, as a frozen thing that advice is kept by; without a shelf nothing is."""

from dataclasses import replace

import pytest
from built.few import sample

from fasten.advice.advise import advise
from fasten.advice.owned import complete, fitted, sets
from fasten.advice.parts import joint_parts
from fasten.catalog.tables import builtin
from fasten.job.choices import choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.pins import pin_of
from fasten.job.shelf.owned import Owned, owned_of
from fasten.job.words import Shelf, ShelfPart
from fasten.model import Answer, MountPoint, Score
from fasten.model.line import Part
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.headline import headline

from .sample_jobs import SAID, job, mount

TABLES = builtin()
EMPTY = Shelf("", "", "", (), (), (), ())
AMP = resolve(read_question(SAID["amp"], TABLES), TABLES)  # four fixings
LIGHT = resolve(read_question({**SAID["amp"], "mass": "2 kg", "support": "firm"}, TABLES), TABLES)
SETTING = ("rivet-nut setter", "rivet-nut mandrel M4", "rivet-nut mandrel M5")


def owned(**things: tuple[str, ...]) -> Owned:
    found = owned_of(replace(EMPTY, **things), TABLES)  # type: ignore[arg-type]
    assert found is not None
    return found


def shelf_of(answer: Answer, sets: int) -> Shelf:
    """The parts of so many fixings of an answer."""
    counted = joint_parts(answer.proposal.joint, TABLES)
    return replace(EMPTY, parts=tuple(ShelfPart(part, each * sets) for part, each in counted))


def first(point: MountPoint, shelf: Shelf) -> Answer:
    return advise(point, TABLES, owned_of(shelf, TABLES), changes=False).answers[0]


def points(score: Score, name: str) -> float:
    return next((part.points for part in score.parts if part.name == name), 0.0)


def nut(answer: Answer) -> tuple[str, str]:
    receiver = answer.proposal.joint.receiver
    return (receiver.thread, receiver.series) if receiver is not None else ("", "")


def test_no_shelf_is_nothing_owned_and_asks_nothing() -> None:
    assert owned_of(None, TABLES) is None
    assert advise(AMP, TABLES, None, changes=False) == advise(AMP, TABLES, changes=False)


def test_what_is_owned_is_hashable_and_tells_no_more_than_it_must() -> None:
    """A price or a note makes no other answer, so it makes no other key either."""
    shelf = shelf_of(advise(AMP, TABLES, changes=False).answers[0], 4)
    priced = replace(shelf, note="van", parts=tuple(replace(p, price=0.5, note="left drawer") for p in shelf.parts))
    assert owned_of(shelf, TABLES) == owned_of(priced, TABLES)
    assert hash(owned_of(shelf, TABLES)) == hash(owned_of(priced, TABLES))
    before = advise.cache_info().hits
    advise(AMP, TABLES, owned_of(shelf, TABLES), changes=False)
    advise(AMP, TABLES, owned_of(priced, TABLES), changes=False)
    assert advise.cache_info().hits > before


def test_the_thread_that_is_there_comes_before_the_one_to_buy() -> None:
    """Without a shelf M5 is first and M4 second, which is loose in a 5.5 mm hole and yet proven."""
    nuts = [a for a in advise(AMP, TABLES, changes=False).answers if a.method == "rivet_nut"]
    assert len(nuts) > 1
    assert first(AMP, shelf_of(nuts[0], 4)).proposal.joint == nuts[0].proposal.joint
    assert first(AMP, shelf_of(nuts[1], 4)).proposal.joint == nuts[1].proposal.joint
    assert nut(nuts[0]) != nut(nuts[1])


def test_parts_count_as_there_only_in_number() -> None:
    """Four fixings: three sets are too few."""
    answer = advise(AMP, TABLES, changes=False).answers[0]
    assert points(first(AMP, shelf_of(answer, 4)).score, "parts_there") == -3.0
    assert points(first(AMP, shelf_of(answer, 3)).score, "parts_there") == 0
    fewer = owned_of(shelf_of(answer, 3), TABLES)
    assert fewer is not None
    assert not complete(answer.proposal.joint, 4, fewer, TABLES)
    assert complete(answer.proposal.joint, 3, fewer, TABLES)


def test_of_two_series_of_a_thread_the_one_on_the_shelf_wins() -> None:
    """Enough nuts of the long grip, and no screw for them; three for four fixings are too few."""
    bare = advise(LIGHT, TABLES, changes=False).answers[0]
    assert nut(bare) == ("M5", "round, flat head")
    long_grip = Part("rivet nut", "M5", "round, flat head, long grip", "steel", 17.0)
    for count, series in ((4, "round, flat head, long grip"), (3, "round, flat head")):
        assert nut(first(LIGHT, replace(EMPTY, parts=(ShelfPart(long_grip, count),)))) == ("M5", series)


@pytest.mark.slow
def test_one_part_of_several_promotes_nothing() -> None:
    """A bag of screws or of washers is no reason for another joint: only what is all there is."""
    for name in ("amp", "trim", "rack", "fuse"):
        point = resolve(read_question(SAID[name], TABLES), TABLES)
        bare = advise(point, TABLES, changes=False).answers
        made = [joint_parts(answer.proposal.joint, TABLES) for answer in bare]
        alone = {answer.title for answer, parts in zip(bare, made, strict=True) if len(parts) == 1}
        several = dict.fromkeys(part for parts in made if len(parts) > 1 for part, _ in parts)
        for part in sample(list(several), 6):
            shelf = replace(EMPTY, parts=(ShelfPart(part, 99),))
            assert first(point, shelf).title in {bare[0].title} | alone


BOLTS = ShelfPart(Part("screw", "M6", "ISO 15071", "8.8", 20.0), 50)
WASHERS = ShelfPart(Part("washer", "M4", "ISO 7089", "", None), 100)
LINES = (
    {"bits": ("7 mm",)}, {"bits": ("7 mm", "5 mm", "8 mm")}, {"parts": (BOLTS,)}, {"parts": (WASHERS,)},
    {"tools": ("trim tools",)}, {"consumables": ("masking tape",)}, {"bits": ("7 mm",), "parts": (BOLTS,)},
)  # fmt: skip


@pytest.mark.parametrize("things", LINES, ids=range(len(LINES)))
def test_what_a_shelf_does_not_list_is_not_known_to_be_missing(things: dict[str, tuple[str, ...]]) -> None:
    """One 7 mm bit once turned rivet nuts into self-drilling screws, for the rivet nuts were not on the shelf."""
    for name in sample(list(SAID)[LINES.index(things) % 3 :], 5):
        point = resolve(read_question(SAID[name], TABLES), TABLES)
        bare, with_it = advise(point, TABLES, changes=False), advise(point, TABLES, owned(**things), changes=False)
        assert [a.title for a in with_it.answers] == [a.title for a in bare.answers], name
        assert all(a.remarks == () for a in with_it.answers)


def test_all_of_it_there_leaves_the_order_as_it_is_without_a_shelf_but_for_the_tools() -> None:
    """Whoever owns everything gets the best, as does who owns nothing."""
    for name in ("amp", "speaker", "fuse", "rack", "cover"):
        point = resolve(read_question(SAID[name], TABLES), TABLES)
        bare = advise(point, TABLES, changes=False).answers
        parts = dict.fromkeys(part for a in bare for part, _ in joint_parts(a.proposal.joint, TABLES))
        bits = tuple(a.proposal.joint.hole.bit.name for a in bare if a.proposal.joint.hole is not None)
        shelf = replace(EMPTY, parts=tuple(ShelfPart(part, 999) for part in parts), bits=bits)
        full = advise(point, TABLES, owned_of(shelf, TABLES), changes=False).answers
        made, bought = ([a.title for a in of if joint_parts(a.proposal.joint, TABLES)] for of in (full, bare))
        assert made == bought


def test_where_the_shelf_changed_the_first_answer_it_says_which_would_be_first_without_it() -> None:
    nuts = [a for a in advise(AMP, TABLES, changes=False).answers if a.method == "rivet_nut"]
    changed = advise(AMP, TABLES, owned_of(shelf_of(nuts[1], 4), TABLES), changes=False).answers
    assert changed[0].remarks == (f"First because of your shelf; without it: {nuts[0].title}",)
    assert all(answer.remarks == () for answer in changed[1:])
    assert headline(changed[0], 80)[1].startswith("First because of your shelf; without it: M5 rivet nut")
    assert first(AMP, shelf_of(nuts[0], 4)).remarks == ()
    listed = hardware(job(mount("amp")), choices(job(mount("amp")), TABLES, owned_of(shelf_of(nuts[1], 4), TABLES)),
                      shelf_of(nuts[1], 4), TABLES)  # fmt: skip
    assert [(entry.mount, entry.text) for entry in listed.remarks] == [("amp", changed[0].remarks[0])]


def test_strips_that_are_there_count_as_parts_do() -> None:
    """Else a full set of rivet nuts would take the place of hook-and-loop that lies beside it."""
    said = {"item": "trim panel", "onto": "steel 0.8 mm", "removed": "weekly", "edge": "60mm", "behind": "60mm"}
    point = resolve(read_question(said | {"panel": "floor"}, TABLES), TABLES)
    bare = advise(point, TABLES, changes=False).answers
    assert bare[0].method == "hook_and_loop"
    nuts = next(a for a in bare if a.method == "rivet_nut")
    shelf = replace(shelf_of(nuts, 99), consumables=("hook-and-loop, 20 mm wide", "structural adhesive"))
    assert first(point, shelf).method == "hook_and_loop"
    assert points(first(point, shelf).score, "parts_there") == -3.0


def test_a_setting_tool_counts_unless_all_of_it_is_there() -> None:
    joint = advise(AMP, TABLES, changes=False).answers[0].proposal.joint
    assert joint.method == "rivet_nut"
    assert sets(joint, owned(tools=SETTING), TABLES)
    assert sets(joint, owned(tools=("M5 Rivet-Nut Mandrel", "rivet-nut setter")), TABLES)
    assert not sets(joint, owned(tools=("rivet-nut setter",)), TABLES), "it sets nothing without its mandrel"
    assert not sets(joint, owned(), TABLES)
    for things, asked in ((owned(), 2.0), (owned(tools=SETTING), 0.0)):
        answer = next(a for a in advise(AMP, TABLES, things, changes=False).answers if a.proposal.joint == joint)
        assert points(answer.score, "tool_needed") == asked


def test_a_bit_counts_where_its_parts_are_there_too() -> None:
    answer = advise(AMP, TABLES, changes=False).answers[0]
    assert answer.proposal.joint.hole is not None
    bits = (answer.proposal.joint.hole.bit.name,)
    parts = shelf_of(answer, 4)
    for shelf, taken in ((parts, 0.0), (replace(EMPTY, bits=bits), 0.0), (replace(parts, bits=bits), -0.5)):
        found = next(
            a for a in advise(AMP, TABLES, owned_of(shelf, TABLES), changes=False).answers if a.title == answer.title
        )
        assert points(found.score, "bit_there") == taken
        assert points(found.score, "bit_needed") == 0.0


def test_a_bit_of_the_shelf_within_tolerance_is_the_one_to_drill_with() -> None:
    """The hole of an M5 rivet nut here is 7.6 mm and may be 0.1 mm over; N is 0.302 in, and 7.5 mm is too small."""
    bolted = next(
        a for a in advise(AMP, TABLES, changes=False).answers if nut(a)[0] == "M5" and a.method == "rivet_nut"
    )
    hole = bolted.proposal.joint.hole
    assert hole is not None
    assert (hole.diameter_mm, hole.tolerance_mm.plus) == (7.6, 0.1)
    inch = fitted(bolted.proposal.joint, owned(bits=("N",))).hole
    assert inch is not None
    assert (inch.bit.name, inch.bit.holds) == ("N", True)
    assert abs(inch.bit.deviation_mm - (0.302 * 25.4 - 7.6)) < 1e-5
    assert fitted(bolted.proposal.joint, owned(bits=("7.5 mm",))) == bolted.proposal.joint
    assert fitted(bolted.proposal.joint, owned(bits=(hole.bit.name, "N"))) == bolted.proposal.joint


def test_an_answer_with_a_bit_of_the_shelf_tells_that_bit_everywhere() -> None:
    found = choice(mount("amp"), TABLES, owned(bits=("N",)))
    assert found.answer is not None
    assert found.answer.proposal.joint.hole is not None
    assert found.answer.proposal.joint.hole.bit.name == "N"
    assert "bit N" in [need.text for need in found.answer.tools]
    assert any("with bit N and a stop" in step.text for step in found.answer.steps)
    shelf = replace(EMPTY, bits=("N",))
    listed = hardware(job(mount("amp")), (found,), shelf, TABLES)
    assert ("N", True) in {(line.name, line.on_shelf) for line in listed.bits}


def test_a_pin_holds_against_the_shelf() -> None:
    nuts = [a for a in advise(AMP, TABLES, changes=False).answers if a.method == "rivet_nut"]
    held = replace(mount("amp"), pin=pin_of(nuts[1]))
    [found] = choices(job(held), TABLES, owned_of(shelf_of(nuts[0], 4), TABLES))
    assert found.answer is not None
    assert found.answer.proposal.joint == nuts[1].proposal.joint
