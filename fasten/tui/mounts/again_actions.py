"""The same again: a job from a few words, copies and pairs, and what is confirmed or said of twins."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from fasten.errors import FastenError
from fasten.question.fields import ITEM, ONTO, field_named
from fasten.record import replace
from fasten.report.safe import safe
from fasten.tui.asking import Asking
from fasten.tui.widgets.panels import Choice, PickPanel

if TYPE_CHECKING:
    from fasten.job.start.same import Copied
    from fasten.job.words import Job, Mount
    from fasten.tui.state.open_job import Revision

_THIS, _TWINS, _INSTALL = "this", "twins", "install"
_BOTH = "Changed here. The same at its twin?"


class AgainActions(Asking):
    """What adds to a job, or says a thing once for several mount points."""

    async def action_onward(self) -> None:
        """Go on to the next word: start what is named in the first, or confirm what a mount point is fastened to."""
        if self._is_asking:
            await self.keys_taken()
            if self._starts() or await self._confirms():
                return
        await super().action_onward()
        await self.ask_twins()

    async def action_step(self, steps: int) -> None:
        """Take another word in hand, and ask of the last one whether twins are the same."""
        await super().action_step(steps)
        await self.ask_twins()

    # -- a job from a few words -----------------------------------------------------------------------------------

    def _starts(self) -> bool:
        """Whether what is typed for the item names installs, which are added to the job then."""
        if self.mounts.form.current != ITEM.name:
            return False
        self.mounts.work_out_now()
        reading = self.mounts.outcome.readings.get(ITEM.name)
        if reading is None or not reading.offer:
            return False
        self.attempt(self._start)
        self.resume()
        return True

    def _start(self) -> None:
        from fasten.job.edit import without_mount
        from fasten.job.start.start import started
        from fasten.text.figures import counted
        from fasten.tui.mounts.starting import wanted_of

        job, mount = self.open_job.job, self.open_job.mount
        if mount is not None:  # only its item is said, which was the beginning of what is started
            job = without_mount(job, mount.name)
        now = started(job, wanted_of(self.mounts.form.said()[ITEM.name], self.tables), self.tables)
        added = now.mounts[len(job.mounts) :]
        self.mounts.forget()
        self.open_job.take(now, "started", self.open_job.revision, added[0].name)
        self.say(f"{counted(len(added), 'mount point')} added, all of it preset; Enter confirms what each is on")

    # -- what is only proposed ------------------------------------------------------------------------------------

    async def _confirms(self) -> bool:
        """Whether what the mount point is fastened to was proposed and is confirmed by this key, or asked for."""
        from fasten.job.preset import proposed_onto

        mount = self.open_job.mount
        proposed = "" if mount is None else proposed_onto(mount)
        form = self.mounts.form
        if mount is None or form.current != ONTO.name or not proposed or form.said()[ONTO.name].strip() != proposed:
            return False
        offered = self._confirmable(mount, proposed)
        if len(offered) == 1:
            self._confirmed(self.open_job.revision, _THIS)
        else:
            panel = PickPanel(f"{mount.name} is on {proposed}. Only this one?", offered)
            await self.push_screen(panel, partial(self._confirmed, self.open_job.revision))
        return True

    def _confirmable(self, mount: Mount, proposed: str) -> list[Choice]:
        """What one key may confirm: this mount point, its twins with it, or all of its install."""
        from fasten.job.preset import proposed_onto
        from fasten.job.start.same import twins

        job = self.open_job.job
        alike = [one for one in twins(job, mount) if proposed_onto(one) == proposed]
        of_it = [one for one in job.mounts if mount.install and one.install == mount.install and proposed_onto(one)]
        offered = [Choice(_THIS, "this one only")]
        if alike:
            offered.insert(0, Choice(_TWINS, f"the same at {', '.join(one.name for one in alike)}"))
        if len(of_it) > len(alike) + 1:
            substrates = ", ".join(dict.fromkeys(proposed_onto(one) for one in of_it))
            offered.append(Choice(_INSTALL, f"all {len(of_it)} of this install as proposed: {substrates}"))
        return offered

    def _confirmed(self, seen: Revision, key: str | None) -> None:
        mount = self.open_job.mount
        if key is None or mount is None:
            return
        from fasten.job.edit import with_mount
        from fasten.job.preset import confirmed
        from fasten.job.start.same import on_twins
        from fasten.job.start.start import with_onto_confirmed

        job, now = self.open_job.job, confirmed(mount, (ONTO.name,))
        if key == _INSTALL:
            job = with_onto_confirmed(job, mount.install)
        else:
            job = on_twins(job, mount, now) if key == _TWINS else job
            job = with_mount(job, now, instead_of=mount.name)
        self.mounts.before = now
        if self.attempt(lambda: self.open_job.take(job, f"{mount.name} confirmed", seen)):
            self.mounts.form.go_on(self.asked_next())
        self.resume()

    # -- twins ----------------------------------------------------------------------------------------------------

    async def leave(self) -> None:
        """The mount point in hand is about to be left: take what was typed, and ask of it what is asked of twins."""
        await self.keys_taken()
        self.take_typed()
        await self.ask_twins()

    async def action_go(self, name: str) -> None:
        """Go to another place, and ask of what was said of a mount point whether its twins are the same."""
        if self.place == "mounts" and name != "mounts":
            await self.leave()
        await super().action_go(name)

    async def ask_twins(self) -> None:
        """Ask once whether what was just said of a mount point is the same at those that are alike."""
        from fasten.job.start.same import asks_both

        was, now = self.mounts.before, self.open_job.mount
        self.mounts.before = now
        if was is None or now is None:
            return
        was = replace(was, name=now.name)
        alike = asks_both(self.open_job.job, was, now)
        if not alike:
            return
        names = ", ".join(one.name for one in alike)
        choices = (Choice(_TWINS, f"the same at {names}"), Choice(_THIS, f"only at {now.name}"))
        await self.push_screen(PickPanel(_BOTH, choices), partial(self._asked_twins, was, now))

    def _asked_twins(self, was: Mount, now: Mount, key: str | None) -> None:
        if key == _TWINS:
            from fasten.job.start.same import on_twins

            job, here = on_twins(self.open_job.job, was, now), self.open_job.mount
            # By now one of them may be in hand, which is shown anew.
            in_hand = "" if here is None else here.name
            self.attempt(lambda: self.open_job.take(job, f"{now.name} and its twins", self.open_job.revision, in_hand))
        self.resume()

    # -- copies ---------------------------------------------------------------------------------------------------

    def action_copy(self) -> None:
        """The same again, without what was measured here."""
        from fasten.job.start.same import copied

        self._again(copied)

    def action_pair(self) -> None:
        """The same on the other side."""
        from fasten.job.start.same import paired

        self._again(paired)

    def _again(self, make: Callable[[Job, str], Copied]) -> None:
        mount = self.open_job.mount
        if mount is None:
            self.say("Nothing is asked yet, so there is nothing to copy")
            return
        try:
            found = make(self.open_job.job, mount.name)
        except FastenError as error:
            self.say(str(error), warn=True)
            return
        if self.attempt(
            lambda: self.open_job.take(found.job, f"{found.mount.name} added", self.open_job.revision, found.mount.name)
        ):
            again = ", ".join(field_named(name).label.lower() for name in found.again)
            self.say(safe(f"{found.mount.name} is added{f'; measure again: {again}' if again else ''}"))
        self.resume()
