"""Removals over ten years of what covers other things: each interval once, the plain sum at most.

Rarely is 5 and yearly 10 by the table of removals, monthly 120; a push-in clip is rated for 20 and renewed every 3.
"""

from dataclasses import replace

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.job.after.covered import CoverTimes, above, cover_text, cover_times, under
from fasten.job.choices import Choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.pins import pin_of
from fasten.job.ready import covers_open, ready
from fasten.job.words import Job
from fasten.model import Advice, Opens, Removal, Status
from fasten.proof.opened import removals_hold
from fasten.report.answer.as_text import advice_text

from .test_covers import CARD, door, mount

TABLES = builtin()
DSP = mount("dsp", "monthly", "door card")


def card(job: Job) -> CoverTimes:
    [found] = cover_times(job, TABLES)
    return found


def got(job: Job, name: str) -> Choice:
    return next(one for one in choices(job, TABLES) if one.name == name)


def test_a_card_comes_off_once_for_all_that_comes_off_as_often() -> None:
    found = card(door())
    assert (found.times.once, found.times.most, found.made, found.rated) == (15, 30, 5, 20)
    assert (found.every, found.sets, found.pieces, found.is_over) == (3, 5, 45, False)
    assert covers_open(door(), TABLES) == ()
    assert all(part in cover_text(found) for part in ("15 times", "at most 30", "over the 5 of rarely", "5 sets, 45"))


def test_with_a_monthly_thing_under_it_its_clips_do_not_do() -> None:
    found = card(door(DSP))
    assert (found.times.once, found.is_over) == (135, True)
    assert "over the 20 that its fixings are rated for: hold it by another method" in cover_text(found)
    job = door(DSP)
    every = choices(job, TABLES)
    verdict = ready(hardware(job, every, None, TABLES), every, frozenset(), covers_open(job, TABLES))
    assert not verdict.ready
    [unproven] = [one for one in verdict.unproven if one.mount == "door card"]
    assert unproven.needs == ("another method: 135 removals in ten years, and 20 are rated",)


def test_the_rates_of_a_method_stand_in_where_none_are_given() -> None:
    plain = card(door(card=CARD.replace("renew-every = 3\nrated = 20\n", "")))
    assert (plain.rated, plain.every, plain.pieces) == (20, 3, 45)
    unknown = card(door(card='[[cover]]\nname = "door card"\n'))
    assert (unknown.rated, unknown.every, unknown.sets, unknown.is_over) == (None, None, None, False)
    assert unknown.times.unsaid == ("door card",)
    assert "not checked" in cover_text(unknown)


def test_the_list_and_the_answers_under_it_say_so() -> None:
    job = door()
    every = choices(job, TABLES)
    remarks = hardware(job, every, None, TABLES).remarks
    assert [one.text for one in remarks if one.mount == "door card"] == [cover_text(card(job))]
    for name in ("adapter", "speaker", "crossover"):
        answer = got(job, name).answer
        assert answer is not None
        assert any(text.startswith("door card comes off first: it comes off 15 times") for text in answer.remarks)


def test_what_is_under_it_and_what_is_over_it_go_by_way_of_others() -> None:
    job = door()
    assert [one.name for one in under("DOOR CARD", job)] == ["adapter", "speaker", "crossover"]
    assert [one.name for one in above(job.mounts[0], job)] == ["door card", "speaker"]


def removals(choice: Choice) -> tuple[Status, float | None, dict[str, float]]:
    assert choice.answer is not None
    check = next(one for one in choice.answer.proposal.checks if one.id == "removals")
    return check.status, check.demand, {one.name: one.value for one in check.inputs}


def test_a_mount_point_comes_off_for_what_is_under_it_too() -> None:
    """The speaker is off yearly for itself and for its adapter: ten times, twenty at most."""
    choice = got(door(), "speaker")
    assert removals(choice)[:2] == (Status.HOLDS, 10)
    assert removals(choice)[2]["at most, were no visit shared"] == 20
    assert choice.answer is not None
    assert choice.answer.proposal.removals.wanted == 10


def test_what_is_rated_for_less_than_what_it_covers_is_refused() -> None:
    """Whatever method it is: one rated for fewer than the 125 removals of a monthly thing under a rare one."""
    rare, busy = (door(mount("lid", "rarely", item="crossover"), *more)
                  for more in ((), (mount("inner", "monthly", "lid"),)))  # fmt: skip
    point = got(rare, "lid").point
    assert point is not None
    few = [one for one in advise(point, TABLES, changes=False).answers if one.proposal.removals.rated < 125]
    assert few
    for answer in few:
        pin = pin_of(answer)
        held = [replace(job, mounts=tuple(replace(one, pin=pin) if one.name == "lid" else one for one in job.mounts))
                for job in (rare, busy)]  # fmt: skip
        assert [got(job, "lid").answer is None for job in held] == [False, True]
    free = got(busy, "lid").answer
    assert free is None or free.proposal.removals.wanted == 125 <= free.proposal.removals.rated


@pytest.mark.parametrize(("under_it", "status"), [("rarely", Status.HOLDS), ("monthly", Status.FAILS)])
def test_a_clip_bears_fifteen_removals_and_not_more_than_twenty(under_it: str, status: Status) -> None:
    point = got(door(), "crossover").point
    assert point is not None
    opens = tuple(Opens(name, Removal(often)) for name, often in (("it", "yearly"), ("other", under_it)))
    check = removals_hold("push_in_clip", replace(point, opens=opens), TABLES)
    assert (check.status, check.allowable) == (status, 20)


def test_it_is_open_where_what_is_under_it_does_not_say_how_often_it_comes_off() -> None:
    job = door(mount("lid", "rarely", item="crossover"), mount("inner", "rarely", "lid"))
    said = tuple(pair for pair in job.mounts[-1].said if pair[0] not in ("removed", "item", "onto"))
    unsaid = replace(job, mounts=(*job.mounts[:-1], replace(job.mounts[-1], said=said)))
    lid = got(unsaid, "lid")
    assert removals(lid)[0] is Status.NOT_CHECKED
    assert lid.plan is not None
    assert any("how often inner comes off" in need for need in lid.plan.unresolved)


@pytest.mark.parametrize("cover", ["", "door card"])
def test_without_anything_under_it_nothing_is_said_of_sharing(cover: str) -> None:
    job = door(mount("lamp", "yearly", *([cover] if cover else [])))
    assert len(removals(got(job, "lamp"))[2]) == 2


def test_the_answer_in_full_says_how_often_it_comes_off_for_what_is_under_it() -> None:
    found = got(door(), "speaker")
    assert found.answer is not None
    assert found.point is not None
    text = " ".join(advice_text(Advice(found.point, (found.answer,), (), ())).split())
    assert "at most 20: for itself and for adapter under it" in text
