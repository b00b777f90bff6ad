"""What is ticked of the work: a step once, a hole at each fixing. A tick keeps the figure that it was made with.

Ticks are kept by ids, never by words: `step:every/look/1 = 15.4 mm`, `hole:3 = 7.6 mm`. Where the plan comes to want
another figure, a step is to be done again, and a hole is an existing one. A tick that kept none, of a step that has one
by now, is none either.
"""

import re
from collections.abc import Iterable, Mapping

from fasten.advice.made_to import hole_of
from fasten.job.words import REPAIRED, Mount, Visit
from fasten.model import Answer, MountPoint, Phase, Task, WorkStep
from fasten.record import lean, record
from fasten.text.figures import counted
from fasten.text.units import number

_STEP, _HOLE, _TO = "step:", "hole:", " = "
_UNSAID = "to a figure not kept"
LOOSENED = (Phase.LOCK, Phase.FIT, Phase.TIGHTEN, Phase.VERIFY)  # what is undone as an item comes off
_SIZE = re.compile(r"([0-9]+(?:\.[0-9]+)?) mm(?:, .*)?")


@record
class HoleState:
    """A hole of a step: its number, the figure it was made with (empty: it was not made), and if that is the one."""

    number: int
    made: str
    is_done: bool


@lean
class StepState:
    """A step and what is ticked of it. `made` is the figure of its tick, where another is wanted by now."""

    task: Task
    is_done: bool
    made: str = ""
    holes: tuple[HoleState, ...] = ()

    @property
    def step(self) -> WorkStep:
        """The step itself."""
        return self.task.step

    @property
    def text(self) -> str:
        """What a person reads."""
        return self.task.step.text

    @property
    def differing(self) -> tuple[str, ...]:
        """What was made to another figure than is wanted now, in words, each hole by its number."""
        wants = self.task.kept
        found = ((f"hole {hole.number} ", hole.made) for hole in self.holes if hole.made and not hole.is_done)
        own = (("", self.made),) if self.made else ()
        return tuple(f"{which}{differs(made, wants)}" for which, made in (*own, *found))


def differs(made: str, wants: str) -> str:
    """That something was made to one figure and another is wanted."""
    return f"made {made}, wants {wants or 'no such figure'}"


def states(ticked: Iterable[str], tasks: Iterable[Task], built: Visit | None) -> tuple[StepState, ...]:
    """What the ticks say of these steps; what was used is written down once there is a record, since any repair."""
    kept = ticks(ticked)
    return tuple(_state(task, kept, built) for task in tasks)


def ticks(ticked: Iterable[str]) -> dict[str, str]:
    """The figure of each tick by what it is of; empty where it has none. The last of one counts."""
    return {id_: figure for id_, _, figure in (tick.partition(_TO) for tick in ticked)}


def with_tick(ticked: tuple[str, ...], task: Task, hole: int) -> tuple[str, ...]:
    """The ticks with this step made as it is wanted now, at this hole (0: the step is ticked once)."""
    id_, figure = _id(task, hole), task.kept
    tick = f"{id_}{_TO}{figure}" if figure else id_
    return ticked if tick in ticked else (*without_tick(ticked, task, hole), tick)


def without_tick(ticked: tuple[str, ...], task: Task, hole: int) -> tuple[str, ...]:
    """The ticks without what was made of this step, at this hole, to whatever figure."""
    return tuple(one for one in ticked if one.partition(_TO)[0] != _id(task, hole))


def holes_mm(ticked: Iterable[str]) -> dict[int, float]:
    """How wide the holes are that were made, by their number."""
    found = ((id_.removeprefix(_HOLE), _SIZE.fullmatch(figure)) for id_, figure in ticks(ticked).items()
             if id_.startswith(_HOLE))  # fmt: skip
    return {int(place): float(size[1]) for place, size in found if size is not None and place.isdecimal()}


def planned_ticks(mount: Mount) -> tuple[str, ...]:
    """The ticks of a mount point without the holes of repaired fixings, which are made as the repair wants them."""
    places = {repair.at for repair in mount.repairs}
    if None in places:
        return tuple(tick for tick in mount.ticked if not tick.startswith(_HOLE))
    ids = {f"{_HOLE}{place}" for place in places}
    return tuple(tick for tick in mount.ticked if tick.partition(_TO)[0] not in ids)


def once_repaired(ticked: tuple[str, ...], at: int | None, *, is_whole: bool, is_elsewhere: bool) -> tuple[str, ...]:
    """The ticks that stand once a fixing is repaired, or the whole (`at` is None): its item came off for that.

    A hole that is made stays one, except where the repair makes another at a new place.
    """
    if is_whole:
        return () if is_elsewhere else holes_of(ticked)
    away = _id_of_hole(at) if is_elsewhere else None
    return tuple(tick for tick in ticked if tick.partition(_TO)[0] != away and not _is_loosened(tick))


def _is_loosened(tick: str) -> bool:
    """Whether it is of a step that is undone as the item comes off; its phase stands before its place in an id."""
    return not tick.startswith(_HOLE) and any(f"/{phase.value}/" in tick for phase in LOOSENED)


def _id_of_hole(at: int | None) -> str:
    return f"{_HOLE}{at}"


def holes_of(ticked: Iterable[str]) -> tuple[str, ...]:
    """The ticks of holes among these."""
    return tuple([tick for tick in ticked if tick.startswith(_HOLE)])


def made_as_wanted(found: Iterable[StepState]) -> tuple[int, ...]:
    """The holes of these steps that are made as they are wanted, by their number."""
    return tuple(sorted(hole.number for state in found for hole in state.holes if hole.is_done))


def made_otherwise(found: Iterable[StepState]) -> tuple[tuple[int, str], ...]:
    """The holes of these steps that are made to another figure than is wanted, each with both in words."""
    holes = ((hole, state.task.kept) for state in found for hole in state.holes if hole.made and not hole.is_done)
    return tuple(sorted((hole.number, differs(hole.made, wants)) for hole, wants in holes if wants))


def existing_mm(ticked: Iterable[str], answer: Answer, mount: MountPoint) -> float | None:
    """How wide an existing hole is by what was made to another figure than this answer wants; None where none was."""
    holes = {place: size for place, size in holes_mm(ticked).items() if place <= mount.fixings}
    wanted = hole_of(answer.proposal)
    if wanted is None or not holes or mount.existing_thread is not None:
        return None
    kept = ticks(ticked)
    others = [size for place, size in holes.items() if kept[f"{_HOLE}{place}"] != wanted.text]
    widest = max((*others, mount.existing_hole_mm or 0.0))
    return widest if others and widest != mount.existing_hole_mm else None


def counted_as_existing(ticked: Iterable[str]) -> str:
    """That the holes which are made count as existing ones, and how wide they are."""
    holes = list(holes_mm(ticked).values())
    sizes = " and ".join(f"{number(size, 2)} mm" for size in sorted(set(holes)))
    verb = "counts as an existing hole" if len(holes) == 1 else "count as existing holes"
    return f"{counted(len(holes), 'hole')} made at {sizes}: {verb}"


def _state(task: Task, kept: Mapping[str, str], built: Visit | None) -> StepState:
    if task.step.phase is Phase.RECORD:
        return StepState(task, built is not None and (built.kind != REPAIRED or built.torque != ""))
    wants = task.kept
    if not task.holes:
        made = kept.get(_id(task, 0))
        return StepState(task, made == wants, (made or _UNSAID) if made is not None and made != wants else "")
    holes = tuple(_hole(place, kept.get(f"{_HOLE}{place}", ""), wants) for place in task.holes)
    return StepState(task, all(hole.is_done for hole in holes), holes=holes)


def _hole(place: int, made: str, wants: str) -> HoleState:
    return HoleState(place, made, made == wants)


def _id(task: Task, hole: int) -> str:
    return f"{_HOLE}{hole}" if hole else f"{_STEP}{task.step.id}"
