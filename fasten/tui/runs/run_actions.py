"""What can be done on the page of runs: ask for another, take what is proposed, accept, name, say once, drop."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING, cast

from textual.events import Key
from textual.screen import ModalScreen
from textual.widgets import Input

from fasten.errors import FastenError
from fasten.job.words import Job
from fasten.record import replace
from fasten.tui.actions import LEADER
from fasten.tui.mounts.mount_actions import MountActions
from fasten.tui.state.blank import Blank
from fasten.tui.state.open_job import Growing, Revision
from fasten.tui.widgets.panels import Filled, FillPanel

if TYPE_CHECKING:
    from fasten.job.wiring.proposals import Proposal
    from fasten.tui.runs.messages import NotKept, Pressed
    from fasten.tui.runs.run_lines import RunLine
    from fasten.tui.runs.runs import RunsPlace

RUNS, RUN_WORK = "runs", "run-work"


class RunActions(MountActions):
    """Actions on the runs of cable of a job."""

    def on_runs_place_written(self) -> None:
        """What is typed has been read: the top line says whether it is kept."""
        self.tell_state()

    def on_runs_place_not_kept(self, message: NotKept) -> None:
        """Say what went with the run that was in hand."""
        self.say(f"Not kept: {message.words}", warn=True)

    def _state(self) -> str:
        """The same, and what of the run in hand is not understood, and so not in the job."""
        # by its name: what the page stands on is loaded when it is first wanted, not to say that nothing of it is open
        unkept = next((cast("RunsPlace", place).unkept for place in self._places.children if place.id == RUNS), "")
        is_worse = self.open_job.read_only or self.trouble or self.mounts.unkept
        return f"not kept: {unkept}" if unkept and not is_worse else super()._state()

    @property
    def runs(self) -> RunsPlace:
        """The page of runs."""
        from fasten.tui.runs.runs import RunsPlace

        return self.query_one(RunsPlace)

    @property
    def is_run_waiting(self) -> bool:
        """Whether something was typed of a run that is not drawn yet."""
        return self._is_at_runs and self.runs.is_waiting

    @property
    def _is_at_runs(self) -> bool:
        return self.place == RUNS

    @property
    def has_run(self) -> bool:
        """Whether a run is in hand."""
        return self._is_at_runs and self.runs.run is not None

    @property
    def _acts_by_letter(self) -> bool:
        return not isinstance(self.focused, Input) if self._is_at_runs else super()._acts_by_letter

    async def action_go(self, name: str) -> None:
        """Go to another place; from a run to the list of all runs."""
        was = self.place
        await super().action_go(name)
        if name == was == RUNS:
            self.runs.list_runs()

    async def action_new_mount(self) -> None:
        """Ask for another mount point, or here for another run."""
        if self._is_at_runs:
            self.runs.ask(None)
            self.tell_state()
        else:
            await super().action_new_mount()

    def action_read_run(self) -> None:
        """Go to what the run gets, or back to its question."""
        self.runs.read()

    async def action_name_run(self) -> None:
        """Name this run, and add a note."""
        run = self.runs.run
        if run is None:
            self.say("No run is in hand, so there is nothing to name")
            return
        blanks = (Blank("name", "Name", run.name), Blank("note", "Note", run.note))
        await self.push_screen(FillPanel("This run", blanks, partial(self._name_run, run.name, self.open_job.revision)))

    def _name_run(self, name: str, seen: Revision, filled: Filled) -> None:
        from fasten.job.edit import renamed_run

        job = renamed_run(self.open_job.job, name, filled["name"], filled["note"])
        self.open_job.change_runs(job, f"{name} named", seen)
        self.runs.is_named(filled["name"].strip())
        self.save()

    def action_remove_run(self) -> None:
        """Take this run out of the job; it can be taken back."""
        from fasten.job.edit import without_run

        run = self.runs.run
        if run is None:
            return
        job, seen = without_run(self.open_job.job, run.name), self.open_job.revision
        if self.attempt(lambda: self.open_job.change_runs(job, f"{run.name} deleted", seen)):
            self.runs.list_runs()
            self.say(f"{run.name} is deleted; {LEADER} u takes it back")

    # -- keys ----------------------------------------------------------------------------------------------------------

    def take_typed(self) -> None:
        """Take what was typed last without waiting for its answer."""
        super().take_typed()
        if self._is_at_runs:
            self.runs.take_typed()

    def change_runs(self, job: Job, what: str, growing: Growing) -> bool:
        """Take what is typed of a run as it is typed; whether that could be done."""
        try:
            self.open_job.change_runs(job, what, self.runs.seen, growing)
        except FastenError as error:
            self.say(str(error), warn=True)
            return False
        self.tell()
        return True

    @property
    def _is_asking_run(self) -> bool:
        """Whether a word of a run is in hand."""
        return self._is_at_runs and isinstance(self.focused, Input) and not isinstance(self.screen, ModalScreen)

    async def action_step(self, steps: int) -> None:
        """Go to the word after or before where a run is asked for."""
        if self._is_asking_run:
            await self.keys_taken()
            self.runs.step(steps)
        else:
            await super().action_step(steps)

    async def action_onward(self) -> None:
        """Go on to the next word."""
        if self._is_asking_run:
            await self.keys_taken()
            self.runs.onward()
        else:
            await super().action_onward()

    async def _takes(self, key: Key) -> bool:
        """Enter on a line does at once what it stands for, so that what is typed next goes where it leads."""
        if key.key == "enter" and self._is_at_runs and not isinstance(self.screen, ModalScreen):
            await self.keys_taken()
            line = self.runs.line_in_hand
            if line is not None:
                await self._press_line(line, self.runs.seen)
                return True
        return await super()._takes(key)

    def on_descendant_focus(self) -> None:
        if self._is_at_runs:
            self.tell_state()  # letters act by themselves, or not

    async def on_runs_place_pressed(self, message: Pressed) -> None:
        """Do what a line stands for that was tapped."""
        if not isinstance(self.screen, ModalScreen):
            await self._press_line(message.line, message.seen)

    async def on_runs_place_rows_wanted(self) -> None:
        """The words of a run as rows that a thumb can hit."""
        from fasten.tui.runs.run_question import label_of
        from fasten.tui.widgets.word_rows import WordRows

        if not isinstance(self.screen, ModalScreen):
            self.take_typed()
            await self.push_screen(WordRows(self.runs.rows(), label_of), self._took_run_word)

    def _took_run_word(self, name: str | None) -> None:
        if name is not None:
            self.runs.take_word(name)

    # -- lines ---------------------------------------------------------------------------------------------------------

    async def _press_line(self, line: RunLine, seen: Revision) -> None:
        from fasten.tui.runs.run_lines import Does

        match line.does:
            case Does.RUN:
                self.runs.ask(line.of, line.word)
                self.tell_state()
            case Does.TAKE | Does.TAKE_ALL:
                await self._take_proposals("" if line.does is Does.TAKE_ALL else line.of, seen)
            case Does.ACCEPT:
                self._accept(line.of, seen)
            case Does.STEP:
                self._tick_step(line.of, seen)
            case Does.SECTION | Does.HOLE | Does.CABLE:
                await self._ask_recorded(line.does.name.lower(), line.of, seen)
            case Does.VEHICLE:
                as_said = partial(self._say_vehicle, seen, lambda job: job)
                await self._ask_vehicle("What is said once of the vehicle", ("system",), as_said)
            case Does.NOTHING:
                pass

    def _proposed(self, job: Job, name: str) -> tuple[Proposal, ...]:
        """The proposals of a job, or the one that makes a run of this name."""
        from fasten.job.wiring.proposals import proposals
        from fasten.job.wiring.runs import run_choices

        found = proposals(job, run_choices(job, self.tables), self.tables)
        return tuple(one for one in found if name in ("", one.run.name))

    async def _take_proposals(self, name: str, seen: Revision) -> None:
        """Make the runs that are proposed; what they need of the vehicle is asked first, once."""
        from fasten.job.wiring.proposals import asked_by, taken

        was = self.open_job.job
        wanted = self._proposed(was, name)

        def take(filled: Filled) -> None:
            self._say_vehicle(seen, lambda job: taken(job, self._proposed(job, name)), filled)
            self._say_taken(was)

        if asks := asked_by(wanted):
            await self._ask_vehicle("These are asked once of the vehicle", asks, take)
            return
        job = taken(was, wanted)
        if self.attempt(lambda: self.open_job.change_runs(job, "runs taken", seen)):
            self._say_taken(was)

    def _say_taken(self, was: Job) -> None:
        """Say how many runs were taken, and what mount point was added; none where others are proposed by now."""
        now = self.open_job.job
        if now.runs == was.runs:
            self.say("By what is said now other runs are proposed: none is taken")
            return
        added = "".join(f", new mount point {mount.name}" for mount in now.mounts[len(was.mounts) :])
        self.say(f"{len(now.runs) - len(was.runs)} taken{added}; {LEADER} u takes them back")

    async def _ask_vehicle(self, title: str, names: tuple[str, ...], do: Callable[[Filled], None]) -> None:
        from fasten.job.store.runs_toml import EXAMPLES
        from fasten.job.wiring.proposals import ASKED

        said = dict(self.open_job.job.electrics)
        wanted = (*names, *(name for name in ASKED if name not in names)) if names == ("system",) else names
        blanks = tuple(
            Blank(name, name.replace("-", " "), said.get(name, ""), ASKED.get(name, EXAMPLES["system"]))
            for name in wanted
        )  # fmt: skip
        await self.push_screen(FillPanel(title, blanks, do))

    def _say_vehicle(self, seen: Revision, then: Callable[[Job], Job], filled: Filled) -> None:
        """Keep what is said of the vehicle, and what is done then."""
        from fasten.job.wiring.recorded import with_electrics

        job = then(with_electrics(self.open_job.job, filled, self.tables))
        self.open_job.change_runs(job, "what is said of the vehicle", seen)
        self.save()

    def _accept(self, id_: str, seen: Revision) -> None:
        """What was measured or seen, or not after all."""
        from fasten.job.wiring.settle import settled, to_settle

        found, ways = self.runs.known.found, self.runs.known.ways
        thing = next((one for one in to_settle(found, ways) if one.id == id_), None)
        if thing is None:
            self.is_as_seen(seen)
            return
        job = settled(self.open_job.job, found, id_, accept=not thing.accepted, ways=ways)
        self.attempt(lambda: self.open_job.change_runs(job, f"{thing.title} accepted", seen))

    def _tick_step(self, id_: str, seen: Revision) -> None:
        """A step of the run in hand is done, or not after all."""
        from fasten.job.edit import changed_run
        from fasten.job.ticked import with_tick, without_tick
        from fasten.job.work import states_of

        choice = self.runs.choice
        if choice is None or choice.plan is None or not self.is_as_seen(seen):
            return
        states = states_of(choice.ticked, choice.plan, choice.built, self.tables)
        state = next(one for one in states if one.task.step.id == id_)
        ticked = (without_tick if state.is_done else with_tick)(choice.ticked, state.task, 0)
        job = changed_run(self.open_job.job, choice.name, replace(choice.run, ticked=ticked))
        self.attempt(lambda: self.open_job.change_runs(job, f"tick, {choice.name}", seen))

    async def _ask_recorded(self, table: str, name: str, seen: Revision) -> None:
        from fasten.job.store.runs_toml import EXAMPLES, RECORDED
        from fasten.job.wiring.recorded import recorded

        key, names = RECORDED[table]
        entry = next((one for one in recorded(self.open_job.job, table) if one.name == name), None)
        said: Mapping[str, str] = {} if entry is None else {key: entry.name, **dict(entry.said)}
        blanks = tuple(Blank(one, one.capitalize(), said.get(one, ""), EXAMPLES.get(one, "")) for one in (key, *names))
        title = f"A {table}" if entry is None else f"A {table}; without a {key} it is taken out"
        await self.push_screen(FillPanel(title, blanks, partial(self._record, table, name, seen)))

    def _record(self, table: str, name: str, seen: Revision, filled: Filled) -> None:
        from fasten.job.wiring.recorded import RECORDED_AS, with_recorded

        if not name and not filled[RECORDED_AS[table]].strip():
            raise FastenError("nothing is said", where=RECORDED_AS[table], fix="say what it is, or go back")
        job = with_recorded(self.open_job.job, table, name, filled, self.tables)
        self.open_job.change_runs(job, f"{table} {filled[RECORDED_AS[table]] or name} changed", seen)
        self.save()
