"""Mount points of a job take what its cable says: ground lugs cable and current of the runs that end there, clamps the
length of their section, where these were not given.
"""

from collections.abc import Callable, Iterable, Mapping
from math import inf

from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import with_run_of_section
from fasten.job.words import Job, Mount
from fasten.question.fields import CABLE, CURRENT, ITEM, LUG, RINGS
from fasten.question.item import item_of
from fasten.record import replace
from fasten.text.units import Dimension, number, read
from fasten.wiring.current import Current
from fasten.wiring.words import Size


def with_runs(job: Job, found: tuple[RunChoice, ...]) -> Job:
    """The job whose ground lugs have the thickest cable and the current of all runs that end there, where not given.

    Each run has its ring and its current there, whatever was said. The clamps of a section have its length.
    """
    said, sized = _by_end(found, _said_at), _by_end(found, _sized_at)
    return replace(job, mounts=tuple(with_run_of_section(_with_run(mount, said, sized), job) for mount in job.mounts))


def _by_end(found: Iterable[RunChoice], ends: Callable[[RunChoice], Iterable[str]]) -> Mapping[str, list[RunChoice]]:
    """The runs at each of their ends, by its name as names are compared."""
    there: dict[str, list[RunChoice]] = {}
    for one in found:
        for name in dict.fromkeys(ends(one)):
            there.setdefault(name, []).append(one)
    return there


def _said_at(choice: RunChoice) -> tuple[str, str]:
    """Where a run is said to begin and end, whether or not it has an answer."""
    return choice.run.begins_at, choice.run.ends_at


def _sized_at(choice: RunChoice) -> tuple[str, ...]:
    """Where a run begins and ends as it is sized; nowhere without an answer."""
    if choice.answer is None:
        return ()
    run = choice.answer.sizing.run
    return same_name(run.from_name), same_name(run.to_name)


def _with_run(
    mount: Mount, said_at: Mapping[str, list[RunChoice]], sized_at: Mapping[str, list[RunChoice]]
) -> Mount:  # fmt: skip
    said = {name: text for name, text in mount.said if name not in mount.preset or name == ITEM.name}
    if item_of(said) != LUG:
        return mount
    named, ending = (by_end.get(same_name(mount.name), []) for by_end in (said_at, sized_at))
    rings, sizings = len(named), [one.answer.sizing for one in ending if one.answer is not None]
    loaded = [(one.size, one.current) for one in sizings if one.current is not None]
    if not loaded and rings <= 1:
        return mount
    brought_a = sum(current.full_a for _, current in loaded)
    if brought_a > _current_said_a(said):
        said.pop(CURRENT.name, None)
    taken = {name: text for name, text in _taken(loaded).items() if name not in said}
    if any(one.run.unloaded for one in sizings) or any(one.answer is None for one in named):
        taken.pop(CURRENT.name, None)  # it is not known, or not whole, what they bring
    if rings > _rings_said(said):
        taken[RINGS.name] = str(rings)
    kept = tuple((name, text) for name, text in mount.said if name not in taken and name in (*said, *mount.preset))
    return replace(
        mount, said=(*kept, *taken.items()), preset=tuple(name for name in mount.preset if name not in taken)
    )


def _taken(loaded: list[tuple[Size, Current]]) -> dict[str, str]:
    """What the cables there say: the thickest, and the current of all."""
    if not loaded:
        return {}
    thickest = max((size for size, _ in loaded), key=lambda size: size.area_mm2)
    full_a = sum(current.full_a for _, current in loaded)
    return {CABLE.name: thickest.name.replace("²", "2"), CURRENT.name: f"{number(full_a, 1)} A"}


def _current_said_a(said: Mapping[str, str]) -> float:
    """The full current that is said; what cannot be read, or is not said, is more than any."""
    try:
        return read(said[CURRENT.name], Dimension.CURRENT, CURRENT.name)
    except (KeyError, FastenError):
        return inf


def _rings_said(said: Mapping[str, str]) -> int:
    text = said.get(RINGS.name, "1").strip()
    return int(text) if text.isdecimal() else 1
