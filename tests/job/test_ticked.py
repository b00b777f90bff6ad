"""What is ticked of the work: kept by ids with its figure, and never counted as done where another figure is wanted."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import Choice, choices
from fasten.job.pins import pin_of
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.tick_by import with_ticks
from fasten.job.ticked import StepState, existing_mm, made_otherwise, states
from fasten.job.words import Job, Mount
from fasten.job.work import work_sheet
from fasten.model import Phase
from fasten.report.job.ticked import ticked_json, ticked_text

from .sample_jobs import SAID, job, mount
from .test_work import drilled, source, worked

TABLES = builtin()
MADE = tuple(f"hole:{place} = 4.9 mm" for place in (1, 2))  # narrower than a nut for M5 wants


def found_of(asked: Mount) -> Choice:
    [found] = choices(job(asked), TABLES)
    return found


def steps_of(asked: Mount, *, whole: Job | None = None) -> tuple[StepState, ...]:
    whole = job(asked) if whole is None else whole
    return work_sheet(whole, choices(whole, TABLES), None, TABLES).entries[0].steps


def opened(steps: tuple[StepState, ...]) -> StepState:
    return next(state for state in steps if state.holes)


def ticked(asked: Mount, *made: str, unmade: tuple[str, ...] = ()) -> Mount:
    whole = job(asked)
    return with_ticks(whole, choices(whole, TABLES), asked.name, made, unmade, TABLES)[0].mounts[0]


def number_of(asked: Mount, phase: Phase) -> int:
    return next(at for at, state in enumerate(steps_of(asked), 1) if state.step.phase is phase)


def test_a_tick_is_kept_by_ids_and_figure_and_read_again_from_the_file() -> None:
    amp = mount("amp")
    drill = number_of(amp, Phase.OPEN_UP)
    amp = ticked(amp, "1", f"{drill}.3")
    hole = opened(steps_of(amp)).task.figure
    assert hole is not None
    assert amp.ticked[1] == f"hole:3 = {hole.text}"
    assert amp.ticked[0].startswith("step:every/look/1 = ")
    whole = replace(job(amp), ticked=("step:job/before/1",))
    assert read_job(job_text(whole).encode(), "job.toml", TABLES)[0] == whole
    assert read_job(job_text(whole).encode(), "job.toml", TABLES, own=True)[0] == whole


def test_a_step_is_done_once_all_its_holes_are() -> None:
    amp = mount("amp")
    drill = number_of(amp, Phase.OPEN_UP)
    three = ticked(amp, *(f"{drill}.{place}" for place in (1, 2, 4)))
    state = opened(steps_of(three))
    assert [hole.is_done for hole in state.holes] == [True, True, False, True]
    assert not state.is_done
    assert "Holes: ■ 1, ■ 2, □ 3, ■ 4." in ticked_text(state)
    assert opened(steps_of(ticked(three, f"{drill}.3"))).is_done
    assert opened(steps_of(ticked(amp, str(drill)))).is_done, "without a number all of its holes"
    assert ticked(three, unmade=(f"{drill}.1", f"{drill}.2", f"{drill}.4")).ticked == ()


def test_a_hole_of_another_size_is_an_existing_hole_and_never_done() -> None:
    """The nut for M5 wants more than 4.9 mm: those that were made narrower are opened up, and nothing narrower fits."""
    amp = replace(mount("amp"), ticked=MADE)
    found = found_of(amp)
    assert found.point is not None
    assert found.answer is not None
    assert found.point.existing_hole_mm == 4.9
    assert any("count as existing holes" in text for text in found.answer.remarks)
    state = opened(steps_of(amp))
    assert state.task.figure is not None
    wants = state.task.figure.text
    assert [hole.is_done for hole in state.holes] == [False] * 4
    assert state.differing == tuple(f"hole {place} made 4.9 mm, wants {wants}" for place in (1, 2))
    assert f"□ 1 (made 4.9 mm, wants {wants})" in ticked_text(state)
    others = made_otherwise([state])
    assert others == tuple((place, f"made 4.9 mm, wants {wants}") for place in (1, 2))
    [first, *_] = ticked_json([state])[0]["holes"]
    assert first == {"hole": 1, "done": False, "made_to": "4.9 mm"}


def test_a_hole_that_is_too_wide_for_what_is_held_refuses_it() -> None:
    amp = mount("amp")
    answer = found_of(amp).answer
    assert answer is not None
    held = replace(amp, pin=pin_of(answer))
    assert found_of(held).answer is not None
    wide = found_of(replace(held, ticked=("hole:1 = 15 mm",)))
    assert wide.answer is None
    assert "a hole cannot be made smaller" in wide.reason
    assert wide.reason.startswith("1 hole made at 15 mm: counts as an existing hole")


def test_holes_made_as_wanted_change_nothing() -> None:
    amp = mount("amp")
    made = ticked(amp, str(number_of(amp, Phase.OPEN_UP)))
    assert found_of(made).answer == found_of(amp).answer
    assert [state.task for state in steps_of(made)] == [state.task for state in steps_of(amp)]


def test_what_is_made_to_a_figure_is_to_be_done_again_for_another() -> None:
    amp = mount("amp")
    look = steps_of(amp)[0]
    assert look.task.figure is not None
    [again] = states(("step:every/look/1 = 5 mm",), (look.task,), None)
    assert (again.is_done, again.made) == (False, "5 mm")
    assert f"made 5 mm, wants {look.task.figure.text}" in ticked_text(again)


def test_ticks_of_the_whole_job_are_shared_by_its_mount_points() -> None:
    whole, said = with_ticks(job(mount("amp"), mount("rack")), (), "", ("before.1",), (), TABLES)
    assert said == ("battery off",)
    assert whole.ticked == ("step:job/before/1",)
    sheet = work_sheet(whole, choices(whole, TABLES), None, TABLES)
    assert [state.is_done for state in sheet.first] == [True, *[False] * (len(sheet.first) - 1)]


@pytest.mark.parametrize("wanted", ["0", "x", "99", "1.1", "2.9", "before", "before.1.1", "5.0", ""])
def test_a_step_that_is_none_is_refused(wanted: str) -> None:
    with pytest.raises(FastenError):
        ticked(mount("amp"), wanted)


def test_what_was_used_is_ticked_by_its_record_alone() -> None:
    amp = mount("amp")
    with pytest.raises(FastenError, match="written down"):
        ticked(amp, str(number_of(amp, Phase.RECORD)))


@pytest.mark.parametrize("name", SAID)
def test_every_step_of_every_method_can_be_ticked_by_an_id_of_its_own(name: str) -> None:
    """Of the holes of a mount point one step alone makes them."""
    plan = found_of(mount(name)).plan
    assert plan is not None
    ids = [task.step.id for task in plan.tasks]
    assert len(ids) == len(set(ids))
    assert sum(task.holes != () for task in plan.tasks) <= 1
    assert all(task.done.format(n=1) for task in plan.tasks)
    assert all(f"{phase.value.replace(' ', '_')}/" in task.step.id
               for task in plan.tasks for phase in [task.step.phase])  # fmt: skip


def test_a_hole_that_is_drilled_is_ticked_at_each_fixing() -> None:
    for method, names in drilled().items():
        for name in names:
            found = worked(name, method)
            point, opens = source(found).point, [one for one in found.steps if one.step.phase is Phase.OPEN_UP]
            assert point is not None
            assert [len(one.holes) for one in opens][:1] in ([], [point.fixings]), (method, name)


def test_no_size_of_a_hole_is_read_where_none_is_said() -> None:
    amp = found_of(mount("amp"))
    assert amp.answer is not None
    assert amp.point is not None
    for tick in ("hole:1", "hole:1 = M5", "hole:x = 9 mm", "step:every/look/1 = 9 mm"):
        assert existing_mm((tick,), amp.answer, amp.point) is None
