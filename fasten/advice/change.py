"""The small changes that may turn a refusal: each as the mount point it makes and what it is called."""

from collections.abc import Iterator
from functools import lru_cache

from fasten.catalog.named import material
from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.soft import held_by, named, staying, without
from fasten.methods.common import with_fixings
from fasten.model import Boss, Holds, MoreBehind, MountPoint, Refusal, ThickerBoard
from fasten.record import replace
from fasten.text.rounding import up_mm
from fasten.text.units import number

Change = tuple[MountPoint, str]


def cut_out(mount: MountPoint, tables: Tables) -> Iterator[Change]:
    """Carpet and the like cut out, so that the item stands on no spacers."""
    if mount.between is not None and held_by(mount.between, tables) is Holds.SPACER:
        yield replace(mount, between=without(mount.between)), f"the {named(staying(mount.between))} cut out under it"


def more_behind(refused: Refusal, mount: MountPoint) -> Iterator[Change]:
    """The space behind that the refusal needs."""
    if isinstance(refused.cure, MoreBehind):
        needed = up_mm(refused.cure.needed_mm)
        yield replace(mount, behind_mm=needed), f"{number(needed, 1)} mm behind"


def a_boss(refused: Refusal, mount: MountPoint, tables: Tables) -> Iterator[Change]:
    """The boss that a refusal needs; not for what a plastic panel should not carry, whatever its bosses bear."""
    if mount.mass_kg > rule(tables, Rules.SKIN_MASS).value:
        return
    boss = refused.cure
    if isinstance(boss, Boss) and boss.depth_mm is not None:
        text = f"a boss {number(boss.outer_mm, 2)} mm across, {number(boss.depth_mm, 2)} mm deep"
        yield replace(mount, boss=boss), text


def thicker(refused: Refusal, mount: MountPoint, tables: Tables) -> Iterator[Change]:
    """Board as thick as the refusal needs, or as thick as most of it is sold."""
    if material(tables, mount.material).family not in {"board", "wood"} or mount.place is not None:
        return
    usual_mm = rule(tables, Rules.BOARD_USUAL).value
    asked_mm = refused.cure.needed_mm if isinstance(refused.cure, ThickerBoard) else 0.0
    for thick_mm in (asked_mm, usual_mm):
        if thick_mm > mount.thickness_max_mm:
            text = f"{number(thick_mm, 1)} mm of board"
            yield replace(mount, thickness_min_mm=thick_mm, thickness_max_mm=thick_mm), text


@lru_cache(maxsize=16)  # a mount point is asked by every method in turn
def larger_hole(mount: MountPoint, tables: Tables) -> tuple[Change, ...]:
    """A hole in the item that a larger screw passes; `{thread}` stands for the one that fits."""
    return tuple(_larger_holes(mount, tables))


def _larger_holes(mount: MountPoint, tables: Tables) -> Iterator[Change]:
    for thread in ("M5", "M6", "M8"):
        row = tables.find(METRIC_CLEARANCE, thread)
        if row is not None and row.medium_mm > mount.item_hole_mm:
            text = f"a {number(row.medium_mm, 1)} mm item hole for {{thread}}"
            yield replace(mount, item_hole_mm=row.medium_mm), text


@lru_cache(maxsize=16)
def more_fixings(mount: MountPoint) -> tuple[Change, ...]:
    """More fixings in the same pattern; along a run of cable closer together."""
    return tuple(_more_fixings(mount))


def _more_fixings(mount: MountPoint) -> Iterator[Change]:
    pattern = mount.pattern
    if pattern is None or pattern.points_mm or mount.holes_at is not None:
        return
    for count in (mount.fixings + 2, mount.fixings + 4):
        closer = pattern
        if mount.run_mm is not None:
            closer = replace(pattern, a_mm=round(pattern.a_mm * (mount.fixings - 1) / (count - 1), 1))
        more = replace(mount, fixings=count, pattern=closer)
        yield more, with_fixings(replace(mount, pattern=closer), count)
