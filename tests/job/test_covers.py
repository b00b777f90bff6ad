"""What lies under what in a job: covers of the car and mount points, by name, in no circle, kept as it was written."""

import tomllib

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.change import find_cover, removed, renamed, with_cover_fields, with_fields
from fasten.job.store.job_toml import checked_job, job_text, read_job
from fasten.job.words import Cover, Job

TABLES = builtin()
CARD = """
[[cover]]
name = "door card"
removed = "rarely"
fixings = 9
renewed = "push-in clip"
renew-every = 3
rated = 20
"""


def mount(name: str, removed_: str, *covers: str, item: str = "speaker") -> str:
    under = f"covered-by = {list(covers)}\n".replace("'", '"') if covers else ""
    return (
        f'\n[[mount]]\nname = "{name}"\nitem = "{item}"\nonto = "steel 0.8 mm"\nremoved = "{removed_}"\n'
        f'behind = "60 mm"\nedge = "40 mm"\n{under}'
    )


def door(*more: str, card: str = CARD) -> Job:
    mounts = (
        mount("adapter", "yearly", "speaker"), mount("speaker", "yearly", "door card"),
        mount("crossover", "rarely", "Door Card"), *more,
    )  # fmt: skip
    return read_job(f'format = 2\nkind = "job"\n{card}{"".join(mounts)}'.encode(), "car.toml", TABLES)[0]


def refused(*more: str, card: str = CARD) -> str:
    with pytest.raises(FastenError) as caught:
        door(*more, card=card)
    return str(caught.value)


def test_covers_come_back_as_they_were() -> None:
    job = door()
    assert job.covers == (Cover("door card", "rarely", 9, "push-in clip", 3, 20),)
    assert [one.covered_by for one in job.mounts] == [("speaker",), ("door card",), ("Door Card",)]
    text = job_text(job)
    assert tomllib.loads(text)["cover"] == tomllib.loads(CARD)["cover"]
    for own in (False, True):
        assert read_job(text.encode(), "car.toml", TABLES, own=own) == (job, "")
    assert (job_text(checked_job(job, "")), checked_job(job, "")) == (text, job)


def test_what_is_not_known_of_a_cover_stays_with_it() -> None:
    job = door(card=CARD + 'colour = "grey"\n')
    text = job_text(job)
    assert tomllib.loads(text)["cover"][0]["colour"] == "grey"
    assert read_job(text.encode(), "car.toml", TABLES)[0] == job


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (mount("lamp", "rarely", "door crad"), "mount \"lamp\", covered-by: 'door crad' is no cover and no mount"),
        (mount("lamp", "rarely", "door crad"), "did you mean 'door card'?"),
        (mount("lamp", "rarely", "lamp"), "'lamp', which is under 'lamp'"),
        (mount("a", "rarely", "b") + mount("b", "rarely", "c") + mount("c", "rarely", "a"),
         "'a', which is under 'b', which is under 'c', which is under 'a'"),
        (mount("Door card", "rarely"), "a mount point has this name already"),
        (CARD, "a cover has this name already"),
    ],
)  # fmt: skip
def test_what_covers_nothing_that_there_is_is_refused_and_so_is_a_circle(more: str, told: str) -> None:
    assert told in refused(more)


def test_a_long_chain_is_no_circle_and_is_read() -> None:
    chain = [mount("n0", "rarely"), *(mount(f"n{at}", "rarely", f"n{at - 1}") for at in range(1, 60))]
    assert len(door(*chain).mounts) == 63


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ('"rarely"', '"seldomish"', 'cover "door card", removed'),
        ("= 9", "= 0", "fixings: is 0, it must be at least 1"),
        ('"push-in clip"', "3", "renewed: is 3, not text"),
    ],
)
def test_a_broken_cover_is_refused_with_its_place(was: str, now: str, told: str) -> None:
    assert told in refused(card=CARD.replace(was, now, 1))


def test_another_name_goes_on_in_what_lies_under_it_and_what_is_gone_covers_nothing() -> None:
    job = renamed(door(), "speaker", "woofer", builtin())
    assert job.mounts[0].covered_by == ("woofer",)
    left, _ = removed(job, "woofer", builtin())
    assert left.mounts[0].covered_by == ()


def test_what_covers_it_is_set_by_name() -> None:
    job = with_fields(door(), "adapter", {"covered-by": "speaker, door card"}, TABLES, None).job
    assert job.mounts[0].covered_by == ("speaker", "door card")
    assert with_fields(job, "adapter", {"covered-by": ""}, TABLES, None).job.mounts[0].covered_by == ()
    with pytest.raises(FastenError, match="did you mean 'crossover'"):
        with_fields(job, "adapter", {"covered-by": "crosover"}, TABLES, None)
    with pytest.raises(FastenError, match="in a circle"):
        with_fields(job, "speaker", {"covered-by": "adapter"}, TABLES, None)


def said_of(job: Job, name: str, **settings: str) -> Job:
    cover = find_cover(job, name)
    assert cover is not None
    return with_cover_fields(job, cover, {key.replace("_", "-"): text for key, text in settings.items()}, TABLES)


def test_a_name_that_nothing_has_yet_is_a_new_cover_and_one_that_is_nearly_there_a_slip() -> None:
    job = with_fields(door(), "crossover", {"covered-by": "door card, sill trim"}, TABLES, None).job
    assert job.covers[1] == Cover("sill trim")
    with pytest.raises(FastenError, match="door card"):
        with_fields(door(), "crossover", {"covered-by": "door cart"}, TABLES, None)


def test_what_is_said_of_a_cover_stays_where_another_field_is_set() -> None:
    job = said_of(door(), "Door card", renew_every="4", fixings="")
    assert job.covers == (Cover("door card", "rarely", None, "push-in clip", 4, 20),)
    assert said_of(job, "cover boot trim", removed="yearly").covers[1] == Cover("boot trim", "yearly")


def test_a_cover_is_added_with_its_table_alone_and_takes_no_other_field() -> None:
    assert find_cover(door(), "boot trim") is None
    with pytest.raises(FastenError, match="not a field of a cover"):
        said_of(door(), "door card", colour="grey")
    with pytest.raises(FastenError, match="no count"):
        said_of(door(), "door card", fixings="some")


def test_a_cover_goes_by_its_new_name_and_goes_with_what_was_under_it_left() -> None:
    job = renamed(door(), "door card", "front card", TABLES)
    assert (job.covers[0].name, [one.covered_by for one in job.mounts]) == (
        "front card", [("speaker",), ("front card",), ("front card",)])  # fmt: skip
    left, notes = removed(job, "cover front card", TABLES)
    assert (left.covers, [one.covered_by for one in left.mounts]) == ((), [("speaker",), (), ()])
    assert notes == ("speaker is under it no more", "crossover is under it no more")
    with pytest.raises(FastenError, match="already"):
        renamed(door(), "door card", "Speaker", TABLES)
