"""A fixing left out: the rest proved without it, by their real places, with what rested on it between them."""

from itertools import pairwise

from fasten.advice.advise import method_by
from fasten.after import mixed
from fasten.after.case import Case, Found, figures_of, left_of, own_odd
from fasten.after.mixed import Odd
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of
from fasten.geometry.patterns import gap_mm
from fasten.geometry.soft import pressed
from fasten.model import Asks, Check, Figure, MountPoint, OnFrame, Pattern, Refusal, Status
from fasten.model.check import STIFFNESS
from fasten.proof import panel
from fasten.proof.checks import waits
from fasten.proof.fit.rim import why_limited
from fasten.proof.panel_mass import TITLE
from fasten.proof.prove import prove
from fasten.record import replace

_FEWEST, _FEWEST_LIGHT, _LIGHT_KG = 3, 2, 1.0
_ROUND_OFF_MM = 1e-6


def left_out(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The rest proved without it, its share on them by their real places: never below three, two where it is light."""
    mount, least = case.group, _FEWEST_LIGHT if case.group.mass_kg < _LIGHT_KG else _FEWEST
    gone = 1 + sum(one.stiffnesses == mixed.LEFT_OUT for one in case.others)
    if not case.alone or mount.fixings - gone < least:
        left = mount.fixings - gone if case.at is not None else 0
        figures = (Figure("fixings left", float(left), "-"), Figure("fewest", float(least), "-"))
        return Found(Refusal(case.planned.method, "too few fixings are left without it", figures), (), mount)
    odd = (replace(own_odd(case), stiffnesses=mixed.LEFT_OUT, clamps=False), *case.others)
    left_in = left_of(case)
    if not left_in:
        because = "none of the others is as it was planned, and repaired ones are not proved without it"
        figures = (Figure("fixings repaired", float(len(case.others)), "-"), Figure("of", float(mount.fixings), "-"))
        return Found(Refusal(case.planned.method, because, figures), (), mount)
    rest = _rest(mount, odd)
    stiff = _stiffness(mount, rest, tables)
    refused = _clamps_too_far(rest, case, tables) or _rim_too_soft(rest, case, tables)
    if refused is None and stiff is not None and stiff.status is Status.FAILS:
        because = "without it the item sways too slowly on its panel"
        refused = Refusal(case.planned.method, because, figures_of(stiff), check=stiff.id)
    if refused is not None:
        return Found(refused, (), mount)
    loads = mixed.loads_at(mount, odd, left_in, tables)
    proof = prove(case.planned, mount, method_by(case.planned), loads, tables)
    return Found(proof, () if stiff is None else (stiff,), mount)


def _rest(mount: MountPoint, odd: tuple[Odd, ...]) -> MountPoint:
    """The mount point as it is without those that are left out."""
    gone = {one.place for one in odd if one.stiffnesses == mixed.LEFT_OUT}
    points = tuple(point for at, point in enumerate(mixed.points_of(mount, odd)) if at not in gone)
    wide, high = (max(side) - min(side) for side in zip(*points, strict=True))
    return replace(mount, fixings=len(points), pattern=Pattern("points", wide, high, points), holes_at=None)


def _clamps_too_far(rest: MountPoint, case: Case, tables: Tables) -> Refusal | None:
    """Why the clamps of a cable do not do without one: as far apart, and from its ends, as they may be at most."""
    if rest.run_mm is None or rest.pattern is None:
        return None
    most_mm, _ = rule_value(tables, Rules.CLAMP_SPACING)
    end_mm, _ = rule_value(tables, Rules.CLAMP_FROM_END)
    along = sorted(x for x, _ in rest.pattern.points_mm)  # in the middle of their cable
    apart_mm = max(after - before for before, after in pairwise(along))
    from_end_mm = rest.run_mm / 2 + max(along[0], -along[-1])
    for what, found_mm, limit_mm in (("clamps apart", apart_mm, most_mm), ("clamp from its end", from_end_mm, end_mm)):
        if found_mm > limit_mm + _ROUND_OFF_MM:
            figures = (Figure(what, found_mm, "mm"), Figure("at most", limit_mm, "mm"))
            return Refusal(case.planned.method, "without it the cable hangs too far between its clamps", figures)
    return None


def _rim_too_soft(rest: MountPoint, case: Case, tables: Tables) -> Refusal | None:
    """Why a rim that pressed its foam by itself does not over the wider gap; None where a limiter stops the foam."""
    if limiter_of(case.planned) is not None or pressed(rest.between, tables) is None or rest.pattern is None:
        return None
    why = why_limited(rest, tables)
    if why is None:
        return None
    gap = Figure("gap between fixings", gap_mm(rest.pattern, rest.fixings), "mm")
    return Refusal(case.planned.method, f"without it {why}", (gap,), check="rim-bends")


def _stiffness(mount: MountPoint, rest: MountPoint, tables: Tables) -> Check | None:
    """How the item sways on the rest, where that holds no more as it did on all."""
    support, gone = mount.support, mount.fixings - rest.fixings
    if isinstance(support, OnFrame):
        return _off_frame() if support.fixings is not None and support.fixings <= gone else None
    if panel.stiffness(mount, tables).status is not Status.HOLDS:
        return None
    found = panel.stiffness(rest, tables)
    return None if found.status is Status.HOLDS else found


def _off_frame() -> Check:
    """Those that are left out may be all that go through the frame."""
    needs = "needs a fixing that is left to go through the frame, or the support of the panel without one"
    return waits(STIFFNESS, TITLE, "Hz", None, needs, (), "-", (), asks=Asks.SUPPORT)
