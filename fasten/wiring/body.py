"""What is lost in the body by all that goes back through it, where the way back of a load through it is measured.

Each way is measured from a ground point to the minus of the battery. How much of it another load shares is not known,
but no more than the shorter of the two: so much counts, which is all of it where both end at one ground point.
"""

from collections.abc import Iterator

from fasten.record import record
from fasten.wiring.feeding import Feeding, Load
from fasten.wiring.fuse import is_battery, is_body, is_minus
from fasten.wiring.words import Run


@record
class Return:
    """A load that goes back through the body, and how long the way is, in mΩ; None where it is not measured.

    `of` is what of the job the load is, or the run that grounds it; then it may be the load of any other run.
    """

    of: str
    load: Load
    body_mohm: float | None
    is_named: bool = True


@record
class Others:
    """What others lose on a way through the body, in V; of those that are `unknown` it is not known what they carry."""

    lost_v: float = 0.0
    unknown: tuple[str, ...] = ()


def returns_of(feeding: Feeding) -> tuple[Return, ...]:
    """All loads that go back through the body, each once."""
    beside = {one.of: one for one in _beside(feeding)}
    return (*beside.values(), *(one for one in _by_ground(feeding) if one.of not in beside))


def others_on(run: Run, of: frozenset[str], returns: tuple[Return, ...]) -> Others:
    """What the loads lose that are not `of` a run, on its measured way through the body.

    Where none of them is known to be of it, those that a ground run brings from nothing of the job may be.
    """
    is_known = any(one.of in of for one in returns)
    others = [one for one in returns if one.of not in of and (is_known or one.is_named)]
    lost_mv = sum(one.load.full_a * min(run.body_mohm, one.body_mohm or run.body_mohm) for one in others)
    return Others(lost_mv / 1000, tuple(name for one in others for name in one.load.unknown))


def at_body(run: Run) -> bool:
    """Whether a ground run ends at the body."""
    return any(map(is_body, (run.from_, run.to)))


def _beside(feeding: Feeding) -> Iterator[Return]:
    """The loads with a ground lead beside the run that feeds them."""
    for name in feeding.branches:
        run = feeding.legs[name].run
        if run.ground_mm and feeding.is_load(name) and not is_battery(run.to):
            yield Return(run.to_name or name, feeding.own_load(name), run.body_mohm or None)


def _by_ground(feeding: Feeding) -> Iterator[Return]:
    """The loads with a ground run, by itself or through others that it joins."""
    for name in feeding.grounds:
        run = feeding.legs[name].run
        items = feeding.grounded_items(name)
        if not at_body(run):
            continue
        for item in sorted(items):
            yield Return(item, feeding.item_load(item), run.body_mohm or _said(item, feeding))
        if not items and not is_minus(run.from_) and not is_minus(run.to):
            yield Return(name, feeding.own_load(name), run.body_mohm or None, is_named=False)


def _said(item: str, feeding: Feeding) -> float | None:
    """How long the way back of something of the job is, where a run that feeds it says so, or its ground lead."""
    ground = feeding.ground_of(item)
    runs = (*feeding.fed_by(item), *(() if ground is None else (ground,)))
    return next((mohm for name in runs if (mohm := feeding.legs[name].run.body_mohm)), None)
