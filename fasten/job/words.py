"""The words of a job and a shelf as frozen dataclasses; no logic. Files hold these; answers are recomputed."""

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import TypeVar

from fasten.model.line import Part
from fasten.question.fields import BOARD
from fasten.record import record, replace
from fasten.text.letters import one_name

Named = TypeVar("Named")


@record
class Pin:
    """Which joint of a mount point is held: the method, thread, series of receiver and lengths that were chosen.

    An empty series or a length of None holds nothing of that kind.
    """

    method: str
    thread: str
    series: str
    receiver_length_mm: float | None
    screw_length_mm: float | None


FITTED, OFF, CHECKED, REPAIRED, OLD = VISIT_KINDS = ("fitted", "off", "checked", "repaired", "told")


@record
class Visit:
    """What was done at a mount point on a day and measured there, as written down at the car; it is never changed.

    `kind` is one of `VISIT_KINDS`, the last that of an old record. `hole`, `torque`, `turning`, `held` and `retorque`,
    what moved it when it was tightened again, are one size, or one for each fixing. `photos` are paths, as text.
    `spin_out`, `pull_out`, `drive` and `strip` are what was read on test pieces, one after the other.
    """

    date: str
    hole: str
    hardware: str
    torque: str
    note: str
    kind: str = OLD
    sheet: str = ""
    length: str = ""
    turning: str = ""
    held: str = ""
    drop: str = ""
    tool: str = ""
    renewed: str = ""
    by: str = ""
    photos: tuple[str, ...] = ()
    spin_out: str = ""
    pull_out: str = ""
    drive: str = ""
    strip: str = ""
    retorque: str = ""

    @property
    def is_remark(self) -> bool:
        """Whether it says nothing that was measured, and so is no reason that anything came off."""
        read = (*_STAYS, "spin_out", "pull_out", "drive", "strip", "retorque", "renewed")
        return self.kind == CHECKED and not self.photos and not any(getattr(self, name) for name in read)


@record
class Repair:
    """A route of repair that was taken at a mount point, at one fixing numbered from 1, or at all of them (None).

    `what` happened, as it may be typed again; `pin` is the joint that the route came to, None where it is none.
    """

    at: int | None
    what: str
    route: str
    pin: Pin | None


@record
class Unknown:
    """Entries of a table of a file that this version does not know.

    `table` is empty, `pin`, or a visit or repair by its number, `visit 1`.

    `plain` is the TOML of those that stand among the others, `tables` that of the tables that come after them.
    """

    table: str
    names: tuple[str, ...]
    plain: str
    tables: str


@record
class Cover:
    """What belongs to the car and comes off before what lies under it, such as a door card.

    `removed` is how often it was fastened for, by its maker or by the user, as said. Of its `fixings`, what is
    `renewed` is renewed every so many removals and may come off so often; None where that is not said.
    """

    name: str
    removed: str = ""
    fixings: int | None = None
    renewed: str = ""
    renew_every: int | None = None
    rated: int | None = None
    note: str = ""
    unknown: tuple[Unknown, ...] = ()


@record
class Mount:
    """A mount point of a job: its name and the question as said, field by field, in the order of `fields.NAMES`.

    `preset` are the fields that the `install` it was started from says and that are not confirmed yet. Those of one
    `twin` are alike: what is said of the item and what it is on is said of all of them.

    `ticked` are the steps that are done and the holes that are made, by ids. `visits` are what was done since, the
    newest last; one is only ever added. `covered_by` are covers and mount points that come off before it. `repairs` are
    the routes of repair that were taken, the newest last.
    """

    name: str
    said: tuple[tuple[str, str], ...]
    note: str = ""
    pin: Pin | None = None
    visits: tuple[Visit, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    preset: tuple[str, ...] = ()
    install: str = ""
    twin: str = ""
    ticked: tuple[str, ...] = ()
    covered_by: tuple[str, ...] = ()
    repairs: tuple[Repair, ...] = ()

    @property
    def built(self) -> Visit | None:
        """What is there now, by all its visits; None where nobody wrote anything down."""
        return standing(self.visits) if self.visits else None


def standing(visits: tuple[Visit, ...]) -> Visit:
    """What is there after these visits, the newest last: what the last says, and of those before it what still stands.

    Hole, sheet and hardware stay until they are written down anew. How tight it is stays until it comes off. A look at
    what is off that measures nothing leaves it off.
    """
    *before, last = visits
    if not before:
        return last
    was, keeps = standing(tuple(before)), _kept(last.kind)
    kept = {name: getattr(was, name) for name in keeps if not getattr(last, name)}
    if last.hardware:
        kept.pop("length", None)
    is_off = last.kind == CHECKED and was.kind == OFF and not any(getattr(last, name) for name in _STAYS)
    return replace(replace(last, **kept), kind=OFF if is_off else last.kind)


def _kept(kind: str) -> tuple[str, ...]:
    """What of the visits before stays: a repair makes the hole anew, and all but a look loosens it."""
    if kind in (CHECKED, OLD):
        return _STAYS
    return tuple(name for name in _STAYS[:_LOOSE] if kind != REPAIRED or name != "hole")


_STAYS = ("hole", "sheet", "hardware", "length", "torque", "turning", "held", "drop", "tool")
_LOOSE = 4  # how many of these stay as it comes off


@record
class CableRun:
    """A run of cable of a job: its name, what was said of it, and the sections and holes that it goes through.

    `accepted` are the ids of what the user measured or accepted of it, `ticked` those of the steps that are done;
    `preset` are the fields that an install says.
    """

    name: str
    said: tuple[tuple[str, str], ...]
    sections: tuple[str, ...] = ()
    holes: tuple[str, ...] = ()
    note: str = ""
    accepted: tuple[str, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    preset: tuple[str, ...] = ()
    ticked: tuple[str, ...] = ()

    @property
    def begins_at(self) -> str:
        """What of the job it is said to begin at, as names are compared, without the terminal said after it."""
        return self._at("from")

    @property
    def ends_at(self) -> str:
        """What it is said to end at, in the same way."""
        return self._at("to")

    def _at(self, end: str) -> str:
        return one_name(dict(self.said).get(end, "").partition(",")[0])


@record
class Recorded:
    """A section or hole of a job by its name, or a cable by its size, and what was said of it.

    `preset` are the entries of a section that an install says. `accepted` are the ids of what the user measured or
    accepted of a section or hole, `ticked` those of its steps that are done.
    """

    name: str
    said: tuple[tuple[str, str], ...]
    unknown: tuple[Unknown, ...] = ()
    preset: tuple[str, ...] = ()
    accepted: tuple[str, ...] = ()
    ticked: tuple[str, ...] = ()


@record
class Job:
    """One vehicle: what was asked, what was pinned, what was built; `packed` are the lines of its box that are in.

    `apart` are ticks that were of no line when its list was last ticked, and all of a file that kept them by words.
    `ticked` are the steps that are done of what comes once for all of it, by ids.
    `electrics` is what was said of the vehicle's wiring as a whole: its system, and how far it is to what; `preset` are
    the entries of it that an install says.
    """

    title: str
    vehicle: str
    note: str
    mounts: tuple[Mount, ...]
    packed: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    electrics: tuple[tuple[str, str], ...] = ()
    cables: tuple[Recorded, ...] = ()
    sections: tuple[Recorded, ...] = ()
    holes: tuple[Recorded, ...] = ()
    runs: tuple[CableRun, ...] = ()
    preset: tuple[str, ...] = ()
    ticked: tuple[str, ...] = ()
    covers: tuple[Cover, ...] = ()

    @cached_property
    def named(self) -> Mapping[str, tuple[Mount, ...]]:
        """Its mount points by name, as names are compared."""
        return _grouped((mount.name, mount) for mount in self.mounts)

    @cached_property
    def on_boards(self) -> Mapping[str, tuple[Mount, ...]]:
        """Those that stand on a board of the job, by its name, as names are compared."""
        return _grouped((text, mount) for mount in self.mounts for name, text in mount.said if name == BOARD.name)

    @cached_property
    def under_covers(self) -> Mapping[str, tuple[Mount, ...]]:
        """Those that lie under something, by the name of each thing that covers them, as names are compared."""
        return _grouped((name, mount) for mount in self.mounts for name in mount.covered_by)

    @cached_property
    def of_item(self) -> Mapping[str, tuple[Mount, ...]]:
        """Those of each item, by its key."""
        from fasten.question.item import item_of  # which loads the tables

        return _grouped((item_of(dict(mount.said)), mount) for mount in self.mounts)

    @cached_property
    def beginning(self) -> Mapping[str, tuple[CableRun, ...]]:
        """Its runs by what each is said to begin at, without the terminal said after it, as names are compared."""
        return _grouped((run.begins_at, run) for run in self.runs)

    @cached_property
    def ending(self) -> Mapping[str, tuple[CableRun, ...]]:
        """Its runs by what each is said to end at, in the same way."""
        return _grouped((run.ends_at, run) for run in self.runs)


def _grouped(named: Iterable[tuple[str, Named]]) -> dict[str, tuple[Named, ...]]:
    """Each once for each name, in their order."""
    found: dict[str, list[Named]] = {}
    for name, one in named:
        found.setdefault(one_name(name), []).append(one)
    return {name: tuple(ones) for name, ones in found.items()}


@record
class ShelfPart:
    """A part on the shelf: how many, how many a pack holds, and what one costs (None: not known)."""

    part: Part
    count: int
    pack: int | None = None
    price: float | None = None
    note: str = ""


@record
class Shelf:
    """What the user owns: parts, bits by name, tools by name, consumables by name; `currency` names the prices.

    `asked` are lines as they were typed that leave a question: they are kept and not counted until it is answered.
    """

    title: str
    currency: str
    note: str
    parts: tuple[ShelfPart, ...]
    bits: tuple[str, ...]
    tools: tuple[str, ...]
    consumables: tuple[str, ...]
    asked: tuple[str, ...] = ()
