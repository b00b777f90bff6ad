"""Space behind and edge that are known at least: what they are too short for is not refused, it must be measured."""

from collections.abc import Iterator

from fasten.model import Asks, Bound, Check, Input, MountPoint, Proposal, Status
from fasten.record import replace
from fasten.text.figures import mm

KNOWN = "known at least"


def opened(mount: MountPoint) -> Iterator[MountPoint]:
    """The mount point as if what is known at least were not said: each of the two alone, then both."""
    known = list(_least(mount))
    for asks in known:
        yield _without(mount, asks)
    if len(known) > 1:
        yield _without(_without(mount, Asks.BEHIND), Asks.EDGE)


def with_both(proposal: Proposal, mount: MountPoint) -> Proposal:
    """The proposal with the figure that is known beside the one that is needed, in each check that waits for more."""
    least = dict(_figures(mount))
    if not least:
        return proposal
    checks = tuple(_beside(check, least) for check in proposal.checks)
    return replace(proposal, checks=checks)


def _beside(check: Check, least: dict[Asks, float]) -> Check:
    known = None if check.asks is None else least.get(check.asks)
    if check.status is not Status.NOT_CHECKED or known is None:
        return check
    needs = f"{check.needs} (at least {mm(known)} is known)"
    return replace(check, needs=needs, inputs=(*check.inputs, Input(KNOWN, known, "mm")))


def _figures(mount: MountPoint) -> Iterator[tuple[Asks, float]]:
    for asks, figure, bound in (
        (Asks.BEHIND, mount.behind_mm, mount.behind_bound), (Asks.EDGE, mount.edge_mm, mount.edge_bound),
    ):  # fmt: skip
        if figure is not None and bound is Bound.AT_LEAST:
            yield asks, figure


def _least(mount: MountPoint) -> Iterator[Asks]:
    return (asks for asks, _ in _figures(mount))


def _without(mount: MountPoint, asks: Asks) -> MountPoint:
    if asks is Asks.BEHIND:
        return replace(mount, behind_mm=None, behind_bound=None)
    return replace(mount, edge_mm=None, edge_bound=None)
