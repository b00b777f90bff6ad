"""What can be done where something went wrong: go to the routes out of it, and take one."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from textual.events import Key
from textual.screen import ModalScreen

from fasten.errors import FastenError
from fasten.report.safe import safe
from fasten.tui.actions import LEADER, STOP
from fasten.tui.work.work_actions import WorkActions

if TYPE_CHECKING:
    from fasten.after.damage import Damage
    from fasten.after.routes import Repaired
    from fasten.job.after.damaged import Planned
    from fasten.job.words import Job
    from fasten.tui.repair.repair import RepairPlace
    from fasten.tui.state.long_work import LongWork
    from fasten.tui.state.open_job import Revision

REPAIR = "repair"


class RepairActions(WorkActions):
    """Actions on damage at the mount point in hand."""

    _held: Sequence[Key] = ()  # typed while it is found out what is fitted

    @property
    def repair_page(self) -> RepairPlace:
        """The page of repair."""
        from fasten.tui.repair.repair import RepairPlace

        return self.query_one(RepairPlace)

    @property
    def has_route(self) -> bool:
        """Whether a route is in hand that can be taken."""
        return self.place == REPAIR and self.repair_page.route is not None and self.repair_page.taken is None

    @property
    def _is_at_repair(self) -> bool:
        return self.place == REPAIR and not isinstance(self.screen, ModalScreen)

    @property
    def _acts_by_letter(self) -> bool:
        return not self.repair_page.is_asking if self.place == REPAIR else super()._acts_by_letter

    async def action_repair(self) -> None:
        """Go to the repair of the mount point in hand; from there, begin anew."""
        self.take_typed()
        if self.open_job.at is None:
            self.say("Nothing is asked yet, so nothing can be repaired")
        elif self.place == REPAIR:
            self.repair_page.begin_anew()
        else:
            await self.action_go(REPAIR)

    def show_repair(self) -> None:
        """Show the repair of the mount point in hand, once it is known what was planned there."""
        mount = self.open_job.mount
        if mount is None:
            self.call_later(self.action_go, "mounts")
            return
        self.repair_page.wait(mount)
        job, seen = self.open_job.job, self.open_job.revision
        self.work_beside(partial(self._planned, job, mount.name), partial(self._show_repair, seen), self._left_repair)

    def _planned(self, job: Job, name: str, work: LongWork) -> Planned | FastenError:
        from fasten.job.after.damaged import planned_at
        from fasten.job.shelf.owned import owned_of

        owned = owned_of(self.open_shelf.known(), self.tables)
        try:
            return planned_at(name, self.standings.whole(job), self.tables, owned, work.steps("What is fitted"))
        except FastenError as error:
            return error

    def _show_repair(self, seen: Revision, planned: Planned | FastenError) -> None:
        mount = self.open_job.mount
        held, self._held = self._held, ()
        if seen != self.open_job.revision or mount is None:
            return  # it is asked again for the job as it is now
        if isinstance(planned, FastenError):
            self.repair_page.fail(safe(f"{planned.what}"))
        else:
            self.repair_page.show(mount, planned, seen)
            for key in held:
                self.post_message(Key(key.key, key.character))
        self.tell_state()

    async def _left_repair(self) -> None:
        self._held = ()
        if self.place == REPAIR:
            await self.action_go("mounts")

    def prove_routes(self, planned: Planned, damage: Damage, at: int | None) -> None:
        """Prove every route beside the screen."""
        do = partial(self._routes, planned, damage, at)
        self.work_beside(do, self._found_routes, self.repair_page.stopped)

    def _routes(
        self, planned: Planned, damage: Damage, at: int | None, work: LongWork
    ) -> tuple[Repaired, frozenset[str]] | FastenError:
        from fasten.job.after.damaged import on_shelf, routes_at
        from fasten.job.shelf.owned import owned_of

        try:
            found = routes_at(planned, damage, at, self.tables, work.steps("Routes"))
        except FastenError as error:
            return error
        return found, on_shelf(found, owned_of(self.open_shelf.known(), self.tables), self.tables)

    def _found_routes(self, found: tuple[Repaired, frozenset[str]] | FastenError) -> None:
        if isinstance(found, FastenError):
            self.repair_page.fail(safe(str(found.what)))
        else:
            self.repair_page.found(*found)
        self.tell_state()

    # -- keys ----------------------------------------------------------------------------------------------------------

    async def _takes(self, key: Key) -> bool:
        """Enter says what is typed or marked, so that what is typed next goes to what is asked then.

        What is typed before anything is asked waits for that: it is text, and no letter of it an action.
        """
        if self._is_at_repair and self.repair_page.is_waiting and (key.is_printable or key.key == "enter"):
            if key.character == STOP.key and not self._held:
                return await super()._takes(key)
            self._held = (*self._held, key)
            return True
        if key.key == "enter" and self._is_at_repair:
            await self.keys_taken()
            self.repair_page.press()
            self.tell_state()
            return True
        return await super()._takes(key)

    async def action_step(self, steps: int) -> None:
        """Go to the word after or before."""
        if self._is_at_repair:
            await self.keys_taken()
            self.repair_page.step(steps)
            self.tell_state()
        else:
            await super().action_step(steps)

    async def action_arrow(self, steps: int) -> None:
        """Mark the row after or before what is typed beside it."""
        if self._is_at_repair:
            await self.keys_taken()
            self.repair_page.move(steps)
        else:
            await super().action_arrow(steps)

    def on_descendant_focus(self) -> None:
        if self.place == REPAIR:
            self.tell_state()  # letters act by themselves, or not

    # -- routes --------------------------------------------------------------------------------------------------------

    def action_take_route(self) -> None:
        """Have the route in hand written down."""
        self.repair_page.take()

    def action_view_route(self) -> None:
        """Show the route in hand in full, or all of them again."""
        self.repair_page.view()
        self.tell_state()

    async def on_repair_place_onward(self) -> None:
        """A route is taken: its step is with the others of the mount point, and comes into hand."""
        await self.action_work()
        self.take_repair_step()

    def on_repair_place_taken(self, message: RepairPlace.Taken) -> None:
        """Write down that a route was taken."""
        from fasten.job.after.damaged import with_route
        from fasten.job.after.repairs import place_text

        job, route, name = self.open_job.job, message.route, message.planned.choice.name

        def take() -> None:
            now = with_route(job, message.planned, message.found, route, date.today().isoformat(), self.tables)
            self.open_job.take(now, f"{name} repaired", message.seen)

        if self.attempt(take) and self.open_job.mount is not None:
            place = place_text(self.open_job.mount.repairs[-1])
            open_ = "" if route.proven else f"; not proven: needs {'; '.join(route.needs)}"
            self.say(f"{place} of {name}: {route.title}, written down{open_}; {LEADER} u takes it back")
