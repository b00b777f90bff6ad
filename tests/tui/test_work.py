"""The work at the car: a step at a time with its figure, each step and hole ticked by keys, by mouse and by touch."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Job, Mount
from fasten.model import Phase
from fasten.tui.state.worked import Spot, Work
from fasten.tui.widgets.content import TAP
from fasten.tui.widgets.lines import Lines
from fasten.tui.work.work import WorkPlace

from .pilot import TABLES, app_of, at_sizes, do, drive, every_size, flat, lines, press, seen, settle, until

pytestmark = pytest.mark.slow

AMP = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "40 mm", "edge": "40 mm",
       "support": "firm", "panel": "floor"}  # fmt: skip
BEFORE = 5  # steps that come before everything


def job_in(folder: Path, **said: str) -> Path:
    """A job of two amplifiers, the first with what is said otherwise."""
    mounts = (Mount("left amp", tuple((AMP | said).items())), Mount("right amp", tuple(AMP.items())))
    save_job(Job("Front", "", "", mounts), folder / "front.toml")
    return folder / "front.toml"


def page(pilot: Pilot[None]) -> WorkPlace:
    return pilot.app.query_one(WorkPlace)


def work(pilot: Pilot[None]) -> Work:
    found = page(pilot).work
    assert found is not None
    return found


def kept(folder: Path) -> Job:
    return load_job(folder / "front.toml", TABLES).value


async def to_work(pilot: Pilot[None]) -> None:
    """The work at the first mount point, what comes before everything ticked."""
    await do(pilot, "a")
    await press(pilot, "1", "enter")
    await do(pilot, "w")
    await press(pilot, *["k"] * BEFORE)


async def to_holes(pilot: Pilot[None]) -> Spot:
    """The step that makes the holes, in hand."""
    await to_work(pilot)
    while not (spot := page(pilot).spot) or not spot.hole:
        await press(pilot, "k")
    return spot


async def tap(pilot: Pilot[None], what: str, beside: tuple[int, int] = (0, 0)) -> None:
    """Tap what stands for this on the screen, or so many cells beside it."""
    wide, high = pilot.app.size
    places = ((x, y) for y in range(high) for x in range(wide))
    found = [at for at in places if pilot.app.screen.get_style_at(*at).meta.get(TAP) == what]
    assert found, f"{what} stands nowhere:\n{seen(pilot)}"
    await pilot.click(offset=(found[0][0] + beside[0], found[0][1] + beside[1]))
    await settle(pilot)


async def tap_word(pilot: Pilot[None], word: str) -> None:
    row = next(at for at, line in reversed(list(enumerate(lines(pilot)))) if word in line)
    await pilot.click(offset=(lines(pilot)[row].index(word), row))
    await settle(pilot)


@every_size
def test_steps_and_holes_are_ticked_by_one_key_each_and_saved(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        spot = await to_holes(pilot)
        assert spot.hole == 1
        assert "hole 1 made" in flat(pilot)
        assert kept(tmp_path).ticked == tuple(f"step:job/before/{number}" for number in range(1, BEFORE + 1))
        await press(pilot, "k", "enter")
        wants = work(pilot).state(spot).task.figure
        assert wants is not None
        assert kept(tmp_path).mounts[0].ticked[-2:] == (f"hole:1 = {wants.text}", f"hole:2 = {wants.text}")
        assert "hole 3 made" in flat(pilot)
        await press(pilot, "u")
        assert "hole 2 made" in flat(pilot), "taken back, it is to be made again"
        assert len(kept(tmp_path).mounts[0].ticked) == len(work(pilot).choice.ticked)
        await press(pilot, "up")
        assert "not hole 1 made after all" in flat(pilot)
        await press(pilot, "k")
        assert not any(tick.startswith("hole:") for tick in kept(tmp_path).mounts[0].ticked)

    drive(size, told, tmp_path, job_in(tmp_path))


@at_sizes((44, 30), (120, 40))
def test_a_tap_on_a_fixing_makes_its_hole_and_on_a_made_one_takes_it_in_hand(
    size: tuple[int, int], tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_holes(pilot)
        await tap(pilot, "hole:3")
        assert kept(tmp_path).mounts[0].ticked[-1].startswith("hole:3 = ")
        assert page(pilot).spot == Spot(page(pilot).spot.id, 1)  # type: ignore[union-attr]
        await tap(pilot, "hole:2", beside=(0, -1))  # a finger is wider than a cell
        assert kept(tmp_path).mounts[0].ticked[-1].startswith("hole:2 = ")
        await tap(pilot, "hole:3")
        assert "not hole 3 made after all" in flat(pilot)
        await tap_word(pilot, "not hole 3")
        assert not any(tick.startswith("hole:3") for tick in kept(tmp_path).mounts[0].ticked)

    drive(size, told, tmp_path, job_in(tmp_path))


@every_size
def test_every_action_of_the_page_is_tapped(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        await do(pilot, "w")
        await tap_word(pilot, "battery off")
        assert kept(tmp_path).ticked == ("step:job/before/1",)
        await tap(pilot, "step:2")
        assert "box checked" in flat(pilot)
        await tap_word(pilot, "›")
        assert work(pilot).at == 1
        await tap_word(pilot, "‹")
        assert work(pilot).at == 0
        if size[0] < 100:
            await tap_word(pilot, "full list")
            assert "instructions" in flat(pilot)  # the step in hand is in view, its heading where there is room
            await tap_word(pilot, "one step")
            await tap_word(pilot, "section")
        else:
            assert "BEFORE EVERYTHING" in flat(pilot)
            await tap_word(pilot, "view")
        assert app_of(pilot).place == "mounts"

    drive(size, told, tmp_path, job_in(tmp_path))


@every_size
def test_a_hole_made_to_another_size_shows_both_and_is_not_done(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        spot = await to_holes(pilot)
        figure = work(pilot).state(spot).task.figure
        assert figure is not None
        assert f"hole 1 made 4.9 mm, wants {figure.text}" in flat(pilot)
        state = work(pilot).state(spot).holes[0]
        assert (state.is_done, state.made) == (False, "4.9 mm")
        await do(pilot, "v")
        assert any("existing hole" in text for text in app_of(pilot).mounts.first_answer().remarks)  # type: ignore[union-attr]

    path = job_in(tmp_path)
    job = load_job(path, TABLES).value
    first, second = job.mounts
    made = Mount(first.name, first.said, ticked=("hole:1 = 4.9 mm",))
    path.unlink()
    save_job(Job(job.title, "", "", (made, second)), path)
    drive(size, told, tmp_path, path)


@every_size
def test_the_last_step_writes_down_what_was_used_and_the_answer_shows_it(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_work(pilot)
        while work(pilot).state(page(pilot).spot or Spot("", 0)).step.phase is not Phase.RECORD:
            await press(pilot, "k")
        assert "write down what was used" in flat(pilot)
        await press(pilot, "k", "enter")
        while app_of(pilot).built_page.is_asking:
            await press(pilot, "enter")
        await press(pilot, "enter")
        built = kept(tmp_path).mounts[0].built
        assert built is not None
        assert built.torque.endswith("N·m")
        assert page(pilot).spot is None, "what comes after a week's driving is left for then"
        assert "on to the next mount point" in flat(pilot)
        assert f"torque {built.torque}" in flat(pilot)
        await do(pilot, "v")
        words = pilot.app.query_one("#words", Lines)
        await until(pilot, lambda: f"AS BUILT {built.date}" in words.render().plain)
        assert f"Torque: {built.torque}" in words.render().plain
        await do(pilot, "w")
        await press(pilot, "enter")
        assert work(pilot).at == 1

    drive(size, told, tmp_path, job_in(tmp_path))


def test_figures_are_filled_only_where_the_answer_holds(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_holes(pilot)
        assert "NOT PROVEN" in flat(pilot)
        assert not {"█"} & set("".join(lines(pilot)[4:9])), seen(pilot)

    drive((44, 30), told, tmp_path, job_in(tmp_path, support=""))


def test_what_fits_nowhere_has_no_steps(tmp_path: Path) -> None:
    path = job_in(tmp_path, onto="abs 2 mm", removed="weekly", item="enclosure")
    before = kept(tmp_path)

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        await do(pilot, "w")
        assert "Nothing fits here" in flat(pilot)
        await press(pilot, "up", "down", "k")
        assert work(pilot).at == 1, "nothing is ticked here, so it goes on"
        assert kept(tmp_path) == before

    drive((44, 30), told, tmp_path, path)


def test_keys_pressed_faster_than_the_screen_answers_tick_one_thing_each(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_work(pilot)
        await press(pilot, *["enter"] * 4)
        assert len(kept(tmp_path).mounts[0].ticked) == 4

    drive((80, 24), told, tmp_path, job_in(tmp_path))


@at_sizes((44, 15), (44, 30))
def test_what_is_said_hides_nothing_that_is_pressed_and_goes_with_the_next_tap(
    size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_work(pilot)
        app = app_of(pilot)
        app.say("the first of two things that are said")
        app.say("the second of them")
        await settle(pilot)
        assert "the second of them" in seen(pilot)
        spot = page(pilot).spot
        assert spot is not None
        assert work(pilot).state(spot).task.said(spot.hole) in seen(pilot)
        assert "full list" in seen(pilot)
        monkeypatch.setattr("fasten.tui.terminal.working.READ_S", 0.0)
        await tap_word(pilot, work(pilot).state(spot).task.said(spot.hole))
        assert "the second of them" not in seen(pilot)
        assert page(pilot).spot != spot, "the tap was on what is pressed"

    drive(size, told, tmp_path, job_in(tmp_path))
