"""One fixing unlike the others: what it and they carry where it is softer or stiffer than they are."""

from dataclasses import replace

from fasten.geometry.patterns import positions_mm
from fasten.mechanics.mixed_group import STIFFNESSES, Shares, shares
from fasten.model import Demand, Input, MountPoint


def worst_shares(mount: MountPoint, at: int) -> tuple[Shares, Shares]:
    """The worst shares of the others and of the odd fixing, over all that its stiffness may be."""
    points = positions_mm(mount.pattern, mount.fixings)
    found = [shares(points_mm=points, odd=at, ratio=ratio) for ratio in STIFFNESSES]
    others = [pair for each in found for place, pair in enumerate(each) if place != at]
    odd = [each[at] for each in found]
    return _worst(others), _worst(odd)


def _worst(found: list[Shares]) -> Shares:
    return Shares(max(one.shear for one in found), max(one.tension for one in found))


def scaled(loads: tuple[Demand, ...], share: Shares, fixings: int) -> tuple[Demand, ...]:
    """The demands on a fixing that carries these shares instead of an even one."""
    shear, tension = share.shear * fixings, share.tension * fixings
    inputs = (Input("shear over an even share", shear, "-"), Input("pull over an even share", tension, "-"))
    return tuple(
        replace(
            load, shear_n=load.shear_n * shear, tension_n=load.tension_n * tension, shared_n=load.shear_n,
            inputs=(*load.inputs, *inputs),
        )
        for load in loads
    )  # fmt: skip


def without(mount: MountPoint, at: int) -> tuple[Shares, Shares]:
    """The worst shares of the others without one of them, and what is left to it: nothing."""
    found = shares(points_mm=positions_mm(mount.pattern, mount.fixings), odd=at, ratio=0.0)
    return _worst([share for place, share in enumerate(found) if place != at]), found[at]
