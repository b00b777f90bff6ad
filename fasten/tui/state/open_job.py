"""The job in hand: what is asked, what was changed and can be taken back, and whether it is saved. No widgets here."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from threading import Lock
from typing import NewType

from fasten.errors import FastenError
from fasten.job.words import CableRun, Job, Mount, Pin
from fasten.record import record, replace

Saver = Callable[[Job], None]
EMPTY = Job("", "", "", ())
Revision = NewType("Revision", int)  # of which job, and of which state of it, something is shown; no two are alike
STALE = Revision(0)  # of what is not shown any more
Growing = tuple[object, ...]  # a mount point and those of its fields that are being typed
_numbers = count(1)


def _another() -> Revision:
    return Revision(next(_numbers))


@record
class Step:
    """A job as it stood before a change, which mount point was in hand, and what the change was."""

    job: Job
    at: int | None
    what: str


@dataclass(eq=False, repr=False)
class OpenJob:
    """The job in hand. `at` is the mount point in hand; None while a new one has nothing to its name.

    A change names the `revision` that was shown when it was asked for, and raises FastenError where the job is another
    by now. `hand` is the revision since which the mount point in hand is the same one.
    """

    save_job: Saver
    path: Path | None = None
    job: Job = EMPTY
    at: int | None = None
    read_only: str = ""
    saved: Job = EMPTY
    is_stale: Callable[[], bool] = lambda: False  # whether another program wrote or removed the file
    revision: Revision = field(default_factory=_another)
    hand: Revision = field(default_factory=_another)
    file_note: str = ""  # what must be known of its file
    writing: Lock = field(default_factory=Lock)  # held while its file is written, which a thread may do
    _past: list[Step] = field(default_factory=list)
    _next: list[Step] = field(default_factory=list)
    _growing: Growing | None = None  # what the last change was made to: more of the same is one step to take back
    _adding: int | None = None  # the mount point that was added last, as long as only further fields of it are said

    @property
    def mount(self) -> Mount | None:
        """The mount point in hand."""
        return None if self.at is None else self.job.mounts[self.at]

    @property
    def mount_line(self) -> str:
        """The mount point in hand by its name, and which of how many it is."""
        mount, at, mounts = self.mount, self.at, len(self.job.mounts)
        if mount is None or at is None:
            return f"New mount point, {mounts} in the job" if mounts else "New mount point"
        built = f", as built {mount.built.date}" if mount.built else ""
        return f"{mount.name}, {at + 1} of {mounts}{built}"

    @property
    def said(self) -> dict[str, str]:
        """The question in hand, field by field."""
        return {} if self.mount is None else dict(self.mount.said)

    @property
    def is_saved(self) -> bool:
        """Whether the file holds the job as it stands, and nothing else is being written to it."""
        return self.job == self.saved and not self.writing.locked()

    def check(self, seen: Revision) -> None:
        """Raises FastenError where the job is not any more as it was shown."""
        if seen != self.revision:
            what = "the job has changed since this was shown; nothing was done"
            raise FastenError(what, fix="look at it as it is now, then do this again")

    def say(self, taken: Mapping[str, str], name: str, hand: Revision) -> None:
        """Take the fields that are understood; the first of them make a new mount point under the name given.

        Raises: FastenError where they were said of a mount point that is not in hand any more.
        """
        from fasten.job.preset import with_said
        from fasten.question.fields import NAMES

        self.check(self.revision if hand == self.hand else hand)
        said = tuple((key, taken[key]) for key in NAMES if taken.get(key, "").strip())
        if self.mount is None:
            if said:
                self._add(Mount(self.free_name(name), said))
        elif said != self.mount.said:
            changed = {key for key, _ in set(said) ^ set(self.mount.said)}
            growing = (self.at, *sorted(changed))
            is_more = self._adding == self.at and changed.isdisjoint(self.said)
            self._growing = growing if is_more else self._growing
            self._replace(self.mount, with_said(self.mount, said), f"{self.mount.name} changed", growing)

    def free_name(self, wanted: str) -> str:
        """The name wanted, or the same with the first number that no other mount point has."""
        taken = {mount.name.casefold() for mount in self.job.mounts}
        names = (wanted, *(f"{wanted} {number}" for number in range(2, len(taken) + 3)))
        return next(name for name in names if name.casefold() not in taken)

    def rest(self, name: str) -> None:
        """A field was left: what is changed of it next is a step of its own."""
        if self._growing is not None and name in self._growing:
            self._growing = None

    def go_to(self, at: int | None, seen: Revision) -> None:
        """Take another mount point in hand; None for a new one."""
        self.check(seen)
        self._take_in_hand(at)

    def rename(self, name: str, note: str, place: str, under: str, seen: Revision) -> None:
        """Name the mount point in hand, note what there is to note, and put it at a place of the list, from 1.

        It is `under` covers and mount points, by their names.

        Raises: FastenError where that cannot be kept, or there is no such place.
        """
        from fasten.job.after.covered import with_covered_by
        from fasten.job.change import moved, read_place
        from fasten.job.edit import with_mount

        self.check(seen)
        if self.mount is None:
            return
        bare = _kept(replace(self.mount, name=name.strip(), note=note.strip(), covered_by=()))
        kept = replace(bare, covered_by=self.mount.covered_by)
        job = with_mount(self.job, kept, instead_of=self.mount.name)
        over = tuple(part.strip() for part in under.split(",") if part.strip())
        job = job if over == kept.covered_by else with_covered_by(job, kept.name, over)
        at = read_place(place)
        self._change(moved(job, kept.name, at), f"{self.mount.name} named")
        self.at = at - 1

    def entitle(self, title: str, vehicle: str, note: str, seen: Revision) -> None:
        """Name the job; raises FastenError where what is said cannot be kept."""
        self.check(seen)
        head = _checked(Job(title.strip(), vehicle.strip(), note.strip(), ()))
        self._change(replace(self.job, title=head.title, vehicle=head.vehicle, note=head.note), "job named")

    def take(self, job: Job, what: str, seen: Revision, name: str = "") -> None:
        """Take a job that was made of this one, with the mount point of a name in hand where one is given."""
        self.check(seen)
        self._change(job, what)
        if name:
            self._take_in_hand(next(at for at, mount in enumerate(job.mounts) if mount.name == name))

    def pin(self, pin: Pin | None, seen: Revision) -> None:
        """Hold one joint of the mount point in hand, or none."""
        self.check(seen)
        if self.mount is not None:
            self._replace(self.mount, replace(self.mount, pin=pin), f"choice for {self.mount.name}")

    def pin_all(self, pins: Mapping[str, Pin], runs: tuple[CableRun, ...], seen: Revision) -> None:
        """Hold the joints given by the name of their mount point, and the runs as they are given, in one step."""
        self.check(seen)
        mounts = tuple(replace(mount, pin=pins.get(mount.name, mount.pin)) for mount in self.job.mounts)
        self._change(replace(self.job, mounts=mounts, runs=runs), "fewest sizes")

    def built(self, job: Job, done: Mount, seen: Revision) -> None:
        """Take a job in which a mount point has one more visit, of what was really used.

        Raises: FastenError where that cannot be kept.
        """
        self.check(seen)
        _kept(done)
        self._change(job, f"as built, {done.name}")

    def make(self, ticked: Job, what: str, hand: Revision) -> None:
        """Take the ticks of the work as they are now, made at the mount point that was in hand."""
        self.check(self.revision if hand == self.hand else hand)
        self._change(ticked, what)

    def tick(self, ticked: Job, seen: Revision) -> None:
        """Take the ticks of the box as they are now."""
        self.check(seen)
        self._change(replace(self.job, packed=ticked.packed, apart=ticked.apart), "tick")
        self.revision = seen  # what is shown is as true as before: the next line may be ticked at once

    def change_runs(self, job: Job, what: str, seen: Revision, growing: Growing | None = None) -> None:
        """Take the cable of the job as it is now: runs, sections, holes, and what is said of the vehicle's wiring."""
        self.check(seen)
        self._change(job, what, growing)

    def measured(self, job: Job, what: str, seen: Revision) -> None:
        """Take what was measured at a mount point as it is in this job."""
        self.check(seen)
        self._change(job, what)

    def remove(self, seen: Revision) -> str:
        """Take the mount point in hand out of the job; its name."""
        self.check(seen)
        if self.at is None:
            return ""
        from fasten.job.edit import without_mount

        name, left = self.job.mounts[self.at].name, len(self.job.mounts) - 1
        self._change(without_mount(self.job, name), f"{name} deleted")
        self._take_in_hand(min(self.at, left - 1) if left else None)
        return name

    @property
    def can_undo(self) -> bool:
        """Whether there is a change to take back."""
        return bool(self._past)

    @property
    def can_redo(self) -> bool:
        """Whether there is one to make again."""
        return bool(self._next)

    def undo(self) -> str:
        """Take the last change back; what it was, empty where there is none."""
        return self._back(self._past, self._next)

    def redo(self) -> str:
        """Make the last change that was taken back again; what it was."""
        return self._back(self._next, self._past)

    def save(self) -> None:
        """Save the job where it is not saved, after any other save; raises FastenError, the job stays as it is here."""
        with self.writing:
            job = self.job
            if job == self.saved:
                return
            if self.read_only:
                raise FastenError(self.read_only, fix="what is changed here is not kept")
            self.save_job(job)
            self.saved = job

    def _add(self, mount: Mount) -> None:
        from fasten.job.edit import with_mount

        self._change(with_mount(self.job, mount), f"{mount.name} added")
        self.at = self._adding = len(self.job.mounts) - 1
        self._growing = (self.at, *sorted(self.said))

    def _replace(self, old: Mount, new: Mount, what: str, growing: Growing | None = None) -> None:
        from fasten.job.edit import with_mount

        self._change(with_mount(self.job, new, instead_of=old.name), what, growing)

    def _change(self, job: Job, what: str, growing: Growing | None = None) -> None:
        if growing is None or growing != self._growing:
            self._past.append(Step(self.job, self.at, what))
            self._adding = None
        self._next.clear()
        self._growing = growing
        self.job, self.revision = job, _another()

    def _take_in_hand(self, at: int | None) -> None:
        self.at, self._growing, self._adding = at, None, None
        self.hand = self.revision = _another()

    def _back(self, steps: list[Step], others: list[Step]) -> str:
        if not steps:
            return ""
        step = steps.pop()
        others.append(Step(self.job, self.at, step.what))
        self.job = step.job
        last = len(step.job.mounts) - 1
        self._take_in_hand(last if step.at is None and last >= 0 else step.at)
        return step.what


def _kept(mount: Mount) -> Mount:
    """The mount point as a file would give it back; raises FastenError where it could not, before it is taken."""
    return _checked(Job("", "", "", (mount,))).mounts[0]


def _checked(job: Job) -> Job:
    from fasten.job.store.job_toml import checked_job

    try:
        return checked_job(job, "")
    except FastenError as error:
        field = error.where.rpartition(", ")[2]
        raise FastenError(error.what, where=field, fix=error.fix) from error
