"""The same again: what is copied, what is measured again, which name the other side has, and what twins share."""

from dataclasses import replace

import pytest

from fasten.errors import FastenError
from fasten.job.edit import find_mount
from fasten.job.start.same import ALIKE, FOUND, asks_both, copied, on_twins, paired, twins
from fasten.job.words import Job, Mount, Pin, Visit
from fasten.question.fields import NAMES
from fasten.text.sides import other_side

SAID = (
    ("item", "tweeter"), ("onto", "abs 3 mm"), ("removed", "rarely"), ("item-hole", "4.5 mm"), ("behind", "40 mm"),
    ("edge", "20 mm"), ("support", "push 100 N 0.4 mm"), ("hole-there", "6.2 mm"), ("body", "M5 7.1 mm"),
)  # fmt: skip
LEFT = Mount(
    "left tweeter", SAID, note="seen", pin=Pin("bonded_stud", "M4", "", None, None),
    visits=(Visit("2026-05-03", "7 mm", "", "", ""),), preset=("removed",), install="tweeters",
)  # fmt: skip
JOB = Job("", "", "", (LEFT,), packed=("bit:drill/5",))


def test_every_field_is_either_of_the_item_and_its_substrate_or_found_at_one_place() -> None:
    """A new field must be put in one of the two lists of `fasten/job/start/same.py`."""
    assert sorted((*ALIKE, *FOUND)) == sorted(NAMES)


def test_what_was_measured_tested_found_built_or_ticked_is_not_copied() -> None:
    found = paired(JOB, "left tweeter")
    new = find_mount(found.job, "right tweeter")
    assert dict(new.said) == {"item": "tweeter", "onto": "abs 3 mm", "removed": "rarely", "item-hole": "4.5 mm"}
    assert (new.note, new.pin, new.built, new.preset, new.install) == ("", None, None, ("removed",), "tweeters")
    assert set(found.again) == {"behind", "edge", "support", "hole-there", "body"}
    assert set(found.left_out) == {"as built", "the choice that is held", "note"}
    assert found.job.packed == JOB.packed
    assert find_mount(found.job, "left tweeter").said == SAID


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("left amp", "right amp"), ("Right rear door", "Left rear door"), ("amp LEFT", "amp RIGHT"),
        ("nearside tweeter", "offside tweeter"), ("Offside door", "Nearside door"), ("off side", "near side"),
        ("LH pod", "RH pod"), ("driver side pod", "passenger side pod"), ("rear left door, left over", ""),
        ("cleft amp", ""), ("amp", ""), ("bright pod", ""),
    ],
)  # fmt: skip
def test_the_other_side_is_named_in_the_letters_of_the_first(name: str, other: str) -> None:
    turned = other_side(name)
    assert turned == (other or turned)
    assert other or turned in ("", "rear right door, left over")


def test_a_pair_is_refused_where_the_name_says_no_side_or_the_other_is_there() -> None:
    with pytest.raises(FastenError, match="says no side"):
        paired(replace(JOB, mounts=(replace(LEFT, name="tweeter"),)), "tweeter")
    both = paired(JOB, "left tweeter").job
    with pytest.raises(FastenError, match="already"):
        paired(both, "left tweeter")


def test_a_copy_gets_the_next_number_or_the_name_it_is_given() -> None:
    once = copied(JOB, "LEFT tweeter").job
    assert [mount.name for mount in copied(once, "left tweeter 2").job.mounts] == [
        "left tweeter", "left tweeter 2", "left tweeter 3",
    ]  # fmt: skip
    assert copied(JOB, "left tweeter", "spare").mount.name == "spare"
    with pytest.raises(FastenError, match="already"):
        copied(JOB, "left tweeter", "Left Tweeter")


def test_a_copy_and_the_first_are_twins_and_later_ones_with_them() -> None:
    job = copied(copied(JOB, "left tweeter").job, "left tweeter 2").job
    assert {one.name for one in twins(job, job.mounts[0])} == {"left tweeter 2", "left tweeter 3"}
    assert not twins(JOB, LEFT)


def changed(mount: Mount, **said: str) -> Mount:
    more = {name.replace("_", "-"): text for name, text in said.items()}
    return replace(mount, said=tuple((dict(mount.said) | more).items()))


def test_only_what_was_the_same_on_both_sides_asks_both() -> None:
    job = paired(JOB, "left tweeter").job
    left = job.mounts[0]
    assert [one.name for one in asks_both(job, left, changed(left, item_hole="5 mm"))] == ["right tweeter"]
    assert not asks_both(job, left, changed(left, behind="30 mm"))
    apart = replace(job, mounts=(left, changed(job.mounts[1], item_hole="6 mm")))
    assert not asks_both(apart, left, changed(left, item_hole="5 mm"))
    already = replace(job, mounts=(left, changed(job.mounts[1], item_hole="5 mm")))
    assert not asks_both(already, left, changed(left, item_hole="5 mm"))


def test_what_is_said_of_both_leaves_what_is_measured_at_each() -> None:
    job = paired(JOB, "left tweeter").job
    left, right = job.mounts
    apart = replace(job, mounts=(left, changed(right, behind="25 mm", mass="0.2 kg")))
    now = changed(left, item_hole="5 mm", mass="0.3 kg", behind="33 mm")
    there = dict(find_mount(on_twins(apart, left, now), "right tweeter").said)
    assert (there["item-hole"], there["behind"], there["mass"]) == ("5 mm", "25 mm", "0.2 kg")
