"""Mount points of a job take what its cable says: ground lugs cable and current of the runs that end there, clamps the
length of their section, where these were not given.
"""

from collections.abc import Mapping
from functools import partial

from fasten.job.store.job_toml import same_name
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import with_run_of_section
from fasten.job.words import Job, Mount
from fasten.question.fields import CABLE, CURRENT, ITEM, LUG, RINGS
from fasten.question.item import item_of
from fasten.record import replace
from fasten.text.units import number
from fasten.wiring.current import Current
from fasten.wiring.fields import FROM, TO
from fasten.wiring.words import Run, Size


def with_runs(job: Job, found: tuple[RunChoice, ...]) -> Job:
    """The job whose ground lugs have the thickest cable and the current of all runs that end there, where not given.

    Each run has its ring there, whatever was said. The clamps of a section have its length.
    """
    return replace(job, mounts=tuple(with_run_of_section(_with_run(mount, found), job) for mount in job.mounts))


def _with_run(mount: Mount, found: tuple[RunChoice, ...]) -> Mount:
    said = {name: text for name, text in mount.said if name not in mount.preset or name == ITEM.name}
    if item_of(said) != LUG:
        return mount
    rings = sum(_names(one, mount) for one in found)
    ending = [one.answer.sizing for one in found if one.answer is not None and _ends_at(one.answer.sizing.run, mount)]
    loaded = [(one.size, one.current) for one in ending if one.current is not None]
    if not loaded and rings <= 1:
        return mount
    taken = {name: text for name, text in _taken(loaded).items() if name not in said}
    if any(map(partial(_is_unknown, mount=mount), found)):
        taken.pop(CURRENT.name, None)
    if rings > _rings_said(said):
        taken[RINGS.name] = str(rings)
    kept = tuple((name, text) for name, text in mount.said if name not in taken)
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


def _rings_said(said: Mapping[str, str]) -> int:
    text = said.get(RINGS.name, "1").strip()
    return int(text) if text.isdecimal() else 1


def _is_unknown(choice: RunChoice, mount: Mount) -> bool:
    """Whether it is not known, or not whole, what a run brings to a mount point where it ends."""
    if choice.answer is not None:
        return bool(choice.answer.sizing.run.unloaded) and _ends_at(choice.answer.sizing.run, mount)
    return _names(choice, mount)


def _names(choice: RunChoice, mount: Mount) -> bool:
    """Whether a run is said to begin or end at a mount point, whether or not it has an answer."""
    ends = (text.partition(",")[0] for name, text in choice.run.said if name in (FROM.name, TO.name))
    return same_name(mount.name) in map(same_name, ends)


def _ends_at(run: Run, mount: Mount) -> bool:
    return same_name(mount.name) in {same_name(run.to_name), same_name(run.from_name)}
