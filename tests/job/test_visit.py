"""A return visit: covers first, what is due at this removal, what is bought, the torque again.

A push-in clip is renewed every 3 removals and a prevailing-torque nut every 5, by the table of methods (ISO 2320).
"""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.after.visit import Off, VisitSheet, visit_sheet
from fasten.job.choices import choices
from fasten.job.start.start import started
from fasten.job.start.wanted import read_wanted
from fasten.job.words import CableRun, Job, Repair, Shelf, ShelfPart, Visit
from fasten.job.work import of_job
from fasten.model import Phase, Task
from fasten.report.forms.written import written
from fasten.report.job.visit import visit_document, visit_json

from .test_covers import door, mount
from .test_repairs import M5, M6, amp

TABLES = builtin()
BOARD = (
    '\n[[mount]]\nname = "board"\nitem = "equipment-board"\nonto = "steel 1 mm"\nremoved = "rarely"\n'
    'item-thickness = "12 mm"\nitem-material = "plywood"\npanel = "seat-back"\nbehind = "60 mm"\nedge = "40 mm"\n'
    'support = "firm"\nreach = "both-sides"\n'
)


def off(*days: str, renewed: str = "") -> tuple[Visit, ...]:
    return tuple(Visit(day, "", "", "", "", kind="off", renewed=renewed) for day in days)


def seen(job: Job, name: str, visits: tuple[Visit, ...]) -> Job:
    return replace(job, mounts=tuple(replace(one, visits=visits) if one.name == name else one for one in job.mounts))


def sheet(job: Job, *names: str, shelf: Shelf | None = None) -> VisitSheet:
    return visit_sheet(job, choices(job, TABLES), names, shelf, TABLES)


def card(job: Job) -> Off:
    return sheet(job, "adapter").off[0]


def test_what_covers_it_comes_off_first_each_once() -> None:
    assert [one.name for one in sheet(door(), "adapter").off] == ["door card", "speaker", "adapter"]
    assert [one.asked for one in sheet(door(), "adapter").off] == [False, False, True]
    assert [one.name for one in sheet(door()).off] == ["door card", "speaker", "adapter", "crossover"]
    assert [one.name for one in sheet(door(mount("lamp", "rarely")), "lamp").off] == ["lamp"]


def test_a_driver_comes_off_before_the_adapter_that_it_is_screwed_into() -> None:
    """As the install says, at each side of each pair."""
    job = started(Job("car", "", "", ()), read_wanted("2 pairs of door speakers", TABLES), TABLES)
    order = [one.name for one in sheet(job).off]
    for side in ("front left", "front right", "rear left", "rear right"):
        assert order.index(f"{side} door driver") < order.index(f"{side} door adapter")
    assert [one.name for one in sheet(job, "rear right door adapter").off] == [
        "rear right door driver", "rear right door adapter",
    ]  # fmt: skip
    said = {one.name: one.answer.remarks for one in choices(job, TABLES) if one.answer is not None}
    assert "front right door driver comes off first" in said["front right door adapter"]


def test_clips_are_due_at_the_third_removal_of_whatever_lies_under_them() -> None:
    days = ("2024-05-01", "2025-05-01")
    assert card(seen(door(), "speaker", off(days[0]))).renew == ()
    [due] = card(seen(seen(door(), "speaker", off(days[0])), "crossover", off(days[1]))).renew
    assert (due.part, due.count, due.every, due.since) == ("push-in clip", 9, 3, 2)


def test_what_is_done_on_one_day_has_a_cover_off_once() -> None:
    job = door()
    for name in ("adapter", "speaker", "crossover"):
        job = seen(job, name, off("2024-05-01"))
    assert card(job).renew == ()


def test_clips_are_new_where_their_cover_is_named_and_not_where_another_part_is() -> None:
    three = off("2023-05-01", "2024-05-01")
    assert card(seen(door(), "speaker", (*three, *off("2025-05-01", renewed="Door card")))).renew == ()
    assert card(seen(door(), "speaker", (*three, *off("2025-05-01", renewed="all")))).renew[0].since == 3


def test_what_is_due_of_a_mount_point_is_bought_less_what_the_shelf_has() -> None:
    job = seen(door(BOARD), "board", off("2022-01-01", "2023-01-01", "2024-01-01", "2025-01-01"))
    found = sheet(job, "board")
    [nut] = [due for due in found.off[0].renew if due.every == 5]
    assert (nut.part, nut.since) == ("prevailing-torque nut", 4)
    [bought] = found.buy
    assert (bought.count, bought.on_shelf, bought.to_buy) == (nut.count, 0, nut.count)
    some = Shelf("", "", "", (ShelfPart(bought.part, 1),), (), (), ())
    assert sheet(job, "board", shelf=some).buy == (replace(bought, on_shelf=1, to_buy=bought.count - 1),)
    assert sheet(door(BOARD), "board").buy == ()


def test_each_is_refitted_with_the_torque_of_its_proof() -> None:
    for one, choice in zip(sheet(door(), "crossover").off[1:], choices(door(), TABLES)[2:], strict=True):
        assert choice.answer is not None
        assert one.torque == choice.answer.proposal.torque


def test_what_has_no_answer_is_named_with_what_is_not_known() -> None:
    bad = door(mount("tray", "weekly", "door card").replace("steel 0.8 mm", "abs 2 mm").replace("speaker", "enclosure"))
    tray = sheet(bad, "tray").off[-1]
    assert tray.torque is None
    assert tray.needs


def test_it_is_written_as_text_and_as_data() -> None:
    found = sheet(seen(door(), "speaker", off("2024-05-01", "2025-05-01")), "adapter")
    text = " ".join(written(visit_document(found), "text", 100).split())
    assert "9 x push-in clip, every 3; 2 removals since new, and this one" in text
    assert text.index("1. door card") < text.index("2. speaker") < text.index("3. adapter")
    again = text[text.index("GOES ON AGAIN") :]
    assert again.index("1. adapter") < again.index("2. speaker") < again.index("3. door card")
    data = visit_json(found)
    assert [one["name"] for one in data["off"]] == ["door card", "speaker", "adapter"]
    assert data["off"][0]["renew"][0]["count"] == 9
    assert data["buy"][0]["to_buy"] == 9


def test_what_does_not_hold_is_mended_before_it_goes_on_again() -> None:
    """A body of 7 mm in a hole of 7.5 mm: no torque is of that."""
    for hole, said in (("7 mm", False), ("7.5 mm", True)):
        built = Visit("2026-05-01", hole, "", "1 N·m", "", kind="fitted")
        text = " ".join(written(visit_document(sheet(amp(visit=built))), "text", 200).split())
        assert ("amp: first what stands under as built; then 1 N·m" in text) is said


def test_the_battery_is_off_before_anything_comes_off_and_on_once_all_is_on_again() -> None:
    found = sheet(door(), "adapter")
    text = written(visit_document(found), "text", 200)
    off_at, first, last, on_at = (
        text.index(said) for said in ("Battery off", "1. door card", "3. door card", "Battery on")
    )
    assert off_at < first < last < on_at
    assert "fuse" not in " ".join((*found.first, *found.last)).lower(), "no cable of the job has one"
    data = visit_json(found)
    assert (data["first"], data["last"]) == ([*found.first], [*found.last])


def test_where_there_is_cable_every_battery_is_off_and_its_fuse_out() -> None:
    run = CableRun("main", (("carries", "80 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "3 m")))
    whole = replace(door(), runs=(run,))
    found = sheet(whole, "adapter")
    before, after = (of_job(whole, phase, TABLES) for phase in (Phase.BEFORE, Phase.AFTER))
    assert found.first[0] == before[0].text
    assert "pull the fuse nearest each battery" in found.first[1]
    assert found.first[1] not in [state.text for state in before], "no fuse is in yet when the work begins"
    assert "Main fuse last of all" in found.last[-1]
    assert set(found.last) <= {state.text for state in after}


def test_a_job_without_mount_points_has_nothing_to_visit() -> None:
    with pytest.raises(FastenError, match="no mount points"):
        sheet(Job("", "", "", ()))


def test_what_a_repair_takes_is_bought_until_it_is_ticked_and_refitted_with_its_own_torque() -> None:
    """A plate at fixing 3: nut, screw, plate, four rivets, and three shims. M6 in the hole instead takes 2.62 N·m."""
    for what, parts in (("C1", {"rivet nut": 1, "screw": 1, "doubler": 1, "blind rivet": 4, "shim": 3}),
                        ("N3", {"rivet nut": 1, "screw": 1})):  # fmt: skip
        repair = Repair(3, "oversize 8.2 mm", what, M5 if what == "C1" else M6)
        plan = sheet(amp(repair))
        assert {one.part.kind: one.to_buy for one in plan.buy} == parts
        assert all(one.part.name != one.part.name.lower() for one in plan.buy if one.part.kind == "screw")
        text = written(visit_document(plan), "text", 400)
        assert ("2.62 N·m" in text) is (what == "N3")
        found = choices(amp(repair), TABLES)[0]
        assert found.plan is not None
        done = tuple(tick for task in found.plan.tasks if task.step.id.startswith("repair/") for tick in ticks(task))
        ticked = replace(amp(repair), mounts=(replace(amp(repair).mounts[0], ticked=done),))
        assert sheet(ticked).buy == ()


def ticks(task: Task) -> list[str]:
    """The ticks of a step that is done at all its holes."""
    to = "" if task.figure is None else f" = {task.figure.text}"
    return [f"hole:{hole}{to}" for hole in task.holes] or [f"step:{task.step.id}{to}"]
