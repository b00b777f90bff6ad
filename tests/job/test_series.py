"""Of two series of a thread the job takes the one that is settled, else the one that most of it gets by itself."""

from dataclasses import replace
from itertools import permutations

import pytest

from fasten.advice.advise import advise
from fasten.advice.parts import series_of
from fasten.catalog.tables import builtin
from fasten.job.beside import answered_beside
from fasten.job.choices import Choice, choice, choices, uses_of
from fasten.job.entries import mount_choice
from fasten.job.pins import pin_of
from fasten.job.series import Use, used_series
from fasten.job.words import Job, Mount, Pin, Visit
from fasten.model import Advice

TABLES = builtin()
AT = {"removed": "yearly", "panel": "side", "far-side": "dry", "behind": "60mm", "edge": "60mm"}
AMP = {"item": "amplifier", "onto": "steel 1.2 mm", "mass": "5kg", "support": "firm"} | AT  # a large head alone will do
BLOCK = {"item": "distribution-block", "onto": "steel 1 mm", "item-hole": "5.5mm"} | AT  # either will do
LARGE, FLAT = "round, large head, knurled", "round, flat head"
NUT = "part:rivet_nut/M5/"


def mount(name: str, said: dict[str, str], pin: Pin | None = None, built: Visit | None = None, **more: str) -> Mount:
    return Mount(name, tuple((said | more).items()), pin=pin, visits=(built,) if built else ())


def job(*mounts: Mount, packed: tuple[str, ...] = ()) -> Job:
    return Job("car", "", "", mounts, packed=packed)


def series(one: Choice) -> str:
    assert one.answer is not None, one.reason
    receiver = one.answer.proposal.joint.receiver
    assert receiver is not None
    assert (one.answer.method, receiver.thread) == ("rivet_nut", "M5")
    return receiver.series


def taken(asked: Job) -> dict[str, str]:
    return {one.name: series(one) for one in choices(asked, TABLES)}


def test_alone_each_gets_its_own_and_together_they_take_one_in_any_order() -> None:
    amp, block = mount("amp", AMP), mount("block", BLOCK)
    assert taken(job(amp)) == {"amp": LARGE}
    assert taken(job(block)) == {"block": FLAT}
    assert taken(job(amp, block)) == taken(job(block, amp)) == {"amp": LARGE, "block": LARGE}


def test_what_most_of_the_job_gets_counts_and_who_cannot_take_it_keeps_its_own() -> None:
    mounts = (mount("amp", AMP), mount("block", BLOCK), mount("second", BLOCK, fixings="2"))
    for order in permutations(mounts):
        assert taken(job(*order)) == {"amp": LARGE, "block": FLAT, "second": FLAT}


def test_what_is_pinned_built_or_packed_counts_before_what_most_get() -> None:
    mounts = (mount("amp", AMP), mount("block", BLOCK), mount("second", BLOCK, fixings="2"))
    pin = Pin("rivet_nut", "M5", LARGE, None, None)
    others = {"block": LARGE, "second": LARGE}
    assert taken(job(mount("amp", AMP, pin=pin), *mounts[1:])) == {"amp": LARGE} | others
    record = Visit("2026-03-14", "", "", "", "")
    assert taken(job(mount("amp", AMP, built=record), *mounts[1:])) == {"amp": LARGE} | others
    packed = "part:rivet_nut/M5/round,_large_head,_knurled/steel/-/12.83 = 4"
    assert taken(job(*mounts, packed=(packed,))) == {"amp": LARGE} | others


def test_what_is_drilled_for_counts_and_stays_as_it_is() -> None:
    """A hole that is made has the size of its nut."""
    begun = replace(mount("block", BLOCK), ticked=("hole:1 = 7",))
    assert taken(job(mount("amp", AMP), mount("second", AMP), begun)) == {"amp": LARGE, "second": LARGE, "block": FLAT}
    made = replace(mount("amp", AMP), ticked=("hole:1 = 7.6",))
    assert taken(job(made, mount("block", BLOCK), mount("second", BLOCK)))["block"] == LARGE


def test_what_is_pinned_or_built_stays_as_it_is() -> None:
    pin = Pin("rivet_nut", "M5", FLAT, None, None)
    most = (mount("amp", AMP), mount("second", AMP))
    record = Visit("2026-03-14", "", "", "", "")
    assert taken(job(*most, mount("block", BLOCK, pin=pin)))["block"] == FLAT
    assert taken(job(*most, mount("block", BLOCK, built=record)))["block"] == FLAT
    assert taken(job(*most, mount("block", BLOCK)))["block"] == LARGE


def test_the_answer_says_what_it_would_be_by_itself() -> None:
    block = choices(job(mount("amp", AMP), mount("block", BLOCK)), TABLES)[1]
    alone = choice(mount("block", BLOCK), TABLES)
    assert block.answer is not None
    assert alone.answer is not None
    assert alone.answer.title in block.answer.remarks[0]
    assert alone.answer.remarks == ()


def test_one_mount_point_by_itself_is_answered_as_in_the_whole_job() -> None:
    whole = job(mount("amp", AMP), mount("block", BLOCK))
    for one in choices(whole, TABLES):
        assert mount_choice(one.mount, whole, TABLES).answer == one.answer
        others = job(*(other for other in whole.mounts if other != one.mount))
        uses = uses_of(choice(other, TABLES) for other in others.mounts)
        advice = answered_beside(dict(one.mount.said), one.name, others, uses, TABLES)
        assert advice.answers[0] == one.answer


def test_another_series_is_no_other_method_or_thread() -> None:
    found = advise_of(BLOCK)
    other = Use(f"{NUT}no_such_series", 4, settled=True)
    advice = answered_beside(BLOCK, "block", job(), (other,), TABLES)
    assert advice.answers == found.answers


def advise_of(said: dict[str, str]) -> Advice:
    point = choice(mount("alone", said), TABLES).point
    assert point is not None
    return advise(point, TABLES, changes=False)


@pytest.mark.parametrize(
    ("uses", "packed", "used"),
    [
        ((), (), set()),
        ((("a", 4, False),), (), {"a"}),
        ((("a", 4, False), ("b", 4, False), ("b", 1, False)), (), {"b"}),  # at more mount points
        ((("a", 4, False), ("b", 6, False)), (), {"b"}),  # at as many, with more fixings
        ((("b", 4, False), ("a", 4, False)), (), {"a"}),  # by name
        ((("a", 4, True), ("b", 4, False), ("b", 4, False)), (), {"a"}),  # settled
        ((("b", 4, False), ("b", 4, False)), (f"{NUT}a/steel/-/11 = 8",), {"a"}),  # packed
        ((("a", 4, True), ("b", 4, True)), (), {"a", "b"}),
    ],
)
def test_which_series_a_job_uses(
    uses: tuple[tuple[str, int, bool], ...], packed: tuple[str, ...], used: set[str]
) -> None:
    found = used_series((Use(NUT + name, fixings, settled) for name, fixings, settled in uses), packed)
    assert found == {NUT + name for name in used}
    m6 = Use("part:rivet_nut/M6/a", 1, settled=False)
    both = used_series((*(Use(NUT + name, fixings, settled) for name, fixings, settled in uses), m6), packed)
    assert both == found | {m6.series}  # each thread by itself


def test_a_series_is_named_as_the_line_of_the_list_names_it() -> None:
    answer = choice(mount("amp", AMP), TABLES).answer
    assert answer is not None
    assert series_of(answer.proposal.joint) == f"{NUT}round,_large_head,_knurled"
    assert pin_of(answer).series == LARGE
