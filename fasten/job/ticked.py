"""What is ticked of the work: a step once, a hole at each fixing. A tick keeps the figure that it was made with.

Ticks are kept by ids, never by words: `step:every/look/1 = 15.4 mm`, `hole:3 = 7.6 mm`. Where the plan comes to want
another figure, a step is to be done again, and a hole is an existing one.
"""

import re
from collections.abc import Iterable, Mapping

from fasten.advice.made_to import hole_of
from fasten.job.words import Visit
from fasten.model import Answer, Doing, MountPoint, Phase, Proposal, WorkStep
from fasten.record import record
from fasten.text.figures import counted
from fasten.text.units import number

_STEP, _HOLE, _TO = "step:", "hole:", " = "
_SIZE = re.compile(r"([0-9]+(?:\.[0-9]+)?) mm(?:, .*)?")


@record
class HoleState:
    """A hole of a step: its number, the figure it was made with (empty: it was not made), and if that is the one."""

    number: int
    made: str
    is_done: bool


@record
class StepState:
    """A step and what is ticked of it. `made` is the figure of its tick, where another is wanted by now."""

    doing: Doing
    is_done: bool
    made: str = ""
    holes: tuple[HoleState, ...] = ()

    @property
    def step(self) -> WorkStep:
        """The step itself."""
        return self.doing.step

    @property
    def text(self) -> str:
        """What a person reads."""
        return self.doing.step.text

    @property
    def differing(self) -> tuple[str, ...]:
        """What was made to another figure than is wanted now, in words, each hole by its number."""
        wants = "" if self.doing.figure is None else self.doing.figure.text
        found = ((f"hole {hole.number} ", hole.made) for hole in self.holes if hole.made and not hole.is_done)
        own = (("", self.made),) if self.made else ()
        return tuple(f"{which}{differs(made, wants)}" for which, made in (*own, *found))


def differs(made: str, wants: str) -> str:
    """That something was made to one figure and another is wanted."""
    return f"made {made}, wants {wants}"


def states(ticked: Iterable[str], doings: Iterable[Doing], built: Visit | None) -> tuple[StepState, ...]:
    """What the ticks say of these steps; what was used is written down once there is a record."""
    kept = ticks(ticked)
    return tuple(_state(doing, kept, built) for doing in doings)


def ticks(ticked: Iterable[str]) -> dict[str, str]:
    """The figure of each tick by what it is of; empty where it has none. The last of one counts."""
    return {id_: figure for id_, _, figure in (tick.partition(_TO) for tick in ticked)}


def with_tick(ticked: tuple[str, ...], doing: Doing, hole: int) -> tuple[str, ...]:
    """The ticks with this step made as it is wanted now, at this hole (0: the step is ticked once)."""
    id_, figure = _id(doing, hole), "" if doing.figure is None else doing.figure.text
    tick = f"{id_}{_TO}{figure}" if figure else id_
    return ticked if tick in ticked else (*without_tick(ticked, doing, hole), tick)


def without_tick(ticked: tuple[str, ...], doing: Doing, hole: int) -> tuple[str, ...]:
    """The ticks without what was made of this step, at this hole, to whatever figure."""
    return tuple(one for one in ticked if one.partition(_TO)[0] != _id(doing, hole))


def holes_mm(ticked: Iterable[str]) -> dict[int, float]:
    """How wide the holes are that were made, by their number."""
    found = ((id_.removeprefix(_HOLE), _SIZE.fullmatch(figure)) for id_, figure in ticks(ticked).items()
             if id_.startswith(_HOLE))  # fmt: skip
    return {int(place): float(size[1]) for place, size in found if size is not None and place.isdecimal()}


def holes_of(ticked: Iterable[str]) -> tuple[str, ...]:
    """The ticks of holes among these."""
    return tuple(tick for tick in ticked if tick.startswith(_HOLE))


def made_as_wanted(ticked: Iterable[str], proposal: Proposal) -> tuple[int, ...]:
    """The holes that are made as this proposal wants them, by their number."""
    wanted = hole_of(proposal)
    kept = ticks(ticked)
    return tuple(place for place in holes_mm(ticked) if wanted is not None and kept[f"{_HOLE}{place}"] == wanted.text)


def made_otherwise(ticked: Iterable[str], proposal: Proposal) -> tuple[tuple[int, str], ...]:
    """The holes that are made to another figure than this proposal wants, each with both in words."""
    wanted, kept = hole_of(proposal), ticks(ticked)
    return tuple(
        (place, differs(made, wanted.text))
        for place in sorted(holes_mm(ticked)) if wanted is not None and (made := kept[f"{_HOLE}{place}"]) != wanted.text
    )  # fmt: skip


def existing_mm(ticked: Iterable[str], answer: Answer, mount: MountPoint) -> float | None:
    """How wide an existing hole is by what was made to another figure than this answer wants; None where none was."""
    holes = {place: size for place, size in holes_mm(ticked).items() if place <= mount.fixings}
    wanted = hole_of(answer.proposal)
    if wanted is None or not holes or mount.thread_there is not None:
        return None
    kept = ticks(ticked)
    others = [size for place, size in holes.items() if kept[f"{_HOLE}{place}"] != wanted.text]
    widest = max((*others, mount.hole_there_mm or 0.0))
    return widest if others and widest != mount.hole_there_mm else None


def counted_as_existing(ticked: Iterable[str]) -> str:
    """That the holes which are made count as existing ones, and how wide they are."""
    holes = list(holes_mm(ticked).values())
    sizes = " and ".join(f"{number(size, 2)} mm" for size in sorted(set(holes)))
    verb = "counts as an existing hole" if len(holes) == 1 else "count as existing holes"
    return f"{counted(len(holes), 'hole')} made at {sizes}: {verb}"


def _state(doing: Doing, kept: Mapping[str, str], built: Visit | None) -> StepState:
    if doing.step.phase is Phase.RECORD:
        return StepState(doing, built is not None)
    wants = "" if doing.figure is None else doing.figure.text
    if not doing.holes:
        made = kept.get(_id(doing, 0))
        return StepState(doing, made == wants, made if made is not None and made != wants else "")
    holes = tuple(_hole(place, kept.get(f"{_HOLE}{place}", ""), wants) for place in range(1, doing.holes + 1))
    return StepState(doing, all(hole.is_done for hole in holes), holes=holes)


def _hole(place: int, made: str, wants: str) -> HoleState:
    return HoleState(place, made, made == wants)


def _id(doing: Doing, hole: int) -> str:
    return f"{_HOLE}{hole}" if hole else f"{_STEP}{doing.step.id}"
