"""The panel is part of the joint: whether it is stiff enough under the item, and whether a fixing dents it.

A mount point has one line for how the item sways on its panel. The least it can be holds from 25 Hz on, the most it can
be fails under 15; what lies between is measured, and the line says how. Where its support is not given, or
what was said does not decide, a practice rule holds a small mass.
"""

from functools import lru_cache
from math import inf

from fasten.catalog.named import material
from fasten.catalog.practice import RULES, Rule
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.floor import mass_on_panel_kg
from fasten.mechanics.plate import needed_n_per_mm, push_limit_mm
from fasten.model import Asks, Check, Demand, Input, Joint, MountPoint, OnFrame, Panel, Status
from fasten.model.check import STIFFNESS
from fasten.proof.checks import at_most, waits
from fasten.proof.dent import dents
from fasten.proof.doubled import rivet_checks
from fasten.proof.panel_mass import TITLE, by_practice, is_skin
from fasten.proof.rails import sway_on_rails, weld_checks
from fasten.proof.sway import BOARDS, Swaying, push_errors, rocking_share, stretched_mm, sway_of
from fasten.record import record, replace
from fasten.text.figures import mm
from fasten.text.shown import shown
from fasten.text.units import number

_READ_MM = 0.01  # a reading over a straightedge is written to this
_MOST_MM = 3.0  # nobody need push a panel further


def checks(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], stiff: Check | None, tables: Tables
) -> tuple[Check, ...]:
    """What a joint asks of its panel, with the line of its stiffness, and of its doubler; of a frame there is none."""
    rivets = (*rivet_checks(mount, demands, tables), *weld_checks(mount, demands, tables))
    return rivets if stiff is None else (stiff, *dents(joint, mount, demands, tables), *rivets)


def stiff(mount: MountPoint, tables: Tables) -> Check | None:
    """How stiff the panel is; None of a frame, which is stiff and does not dent."""
    return None if isinstance(mount.support, OnFrame) else stiffness(mount, tables)


@lru_cache(maxsize=256)
def stiffness(mount: MountPoint, tables: Tables) -> Check:
    """Whether the item sways fast enough on its panel: one line for the whole mount point."""
    least = rule(tables, Rules.PANEL_FREQUENCY)
    if mount.rails is not None:
        on_rails = sway_on_rails(mount, mount.rails, tables)
        return replace(_compared(on_rails, least, on_rails.low_hz, tables), title="Stiffness of the rails")
    if mount.board is not None and mount.on_board is None:
        needs = f"needs its job, whose list and verdict add up all that stands on {shown(mount.board)}"
        return waits(STIFFNESS, TITLE, "Hz", least.value, needs, (), "-", (tables.source_id(RULES, least),))
    return _of_panel(mount, tables)


def _of_panel(mount: MountPoint, tables: Tables) -> Check:
    """The least it can be holds from the limit on, the most fails under the lower one; else practice, or it is open."""
    least, worst = rule(tables, Rules.PANEL_FREQUENCY), rule(tables, Rules.PANEL_FREQUENCY_LEAST)
    swaying = sway_of(mount, tables)
    if swaying is not None and swaying.low_hz >= least.value:
        return _compared(swaying, least, swaying.low_hz, tables)
    if swaying is not None and swaying.high_hz < worst.value:
        return _compared(swaying, worst, swaying.high_hz, tables)
    practice, may_be_roof = by_practice(mount, tables), mount.panel is Panel.UNKNOWN and is_skin(mount, tables)
    held = practice.status is Status.HOLDS and not (swaying is not None and swaying.snaps)
    if held and not may_be_roof:
        return practice
    needs = swaying.needs if swaying is not None and swaying.needs else _push_for(mount, tables)
    asks = Asks.SUPPORT if mount.support is None else None
    if held:
        needs, asks = "needs the panel named: by practice a roof skin holds nothing", Asks.PANEL
    if swaying is None:
        given = practice.inputs
        return waits(STIFFNESS, TITLE, "kg", practice.demand, needs, given, practice.formula, practice.from_, asks=asks)
    low = Input("sways at least", swaying.low_hz, "Hz")
    high = () if swaying.high_hz == inf else (Input("sways at most", swaying.high_hz, "Hz"),)
    sources = tuple(dict.fromkeys((*swaying.from_, tables.source_id(RULES, least))))
    return waits(
        STIFFNESS, TITLE, "Hz", least.value, needs, (*swaying.inputs, low, *high), swaying.formula, sources, asks=asks
    )


def _compared(swaying: Swaying, limit: Rule, found_hz: float, tables: Tables) -> Check:
    """The limit against what is there: it holds where the item sways no slower."""
    inputs = (*swaying.inputs, Input("sways at", found_hz, "Hz"))
    sources = tuple(dict.fromkeys((*swaying.from_, tables.source_id(RULES, limit))))
    return at_most(STIFFNESS, TITLE, limit.value, found_hz, "Hz", inputs, swaying.formula, sources)


@record
class PushLimit:
    """A push that settles how stiff a panel is, and how far it may move it at most, as it is read."""

    force_n: float
    moved_mm: float


def push_limit(mount: MountPoint, tables: Tables) -> PushLimit | None:
    """The hardest push whose limit can be read; None where there is none."""
    bounces_hz = rule(tables, Rules.PANEL_FREQUENCY).value / rocking_share(mount)  # where it rocks just fast enough
    needed = needed_n_per_mm(mass_kg=mass_on_panel_kg(mount), frequency_hz=bounces_hz)
    is_board = material(tables, mount.material).family in BOARDS
    names = (Rules.FIRM_PUSH, Rules.HARDER_PUSH, *((Rules.KNEE_PUSH,) if is_board else ()))
    forces = (rule(tables, name).value for name in reversed(names))
    found = (PushLimit(force, limit) for force in forces if (limit := _limit_mm(mount, force, needed, tables)))
    return next(found, None)


def _push_for(mount: MountPoint, tables: Tables) -> str:
    """The push that would settle it, and how far it may move the panel."""
    found = push_limit(mount, tables)
    if found is None:
        return "needs two pushes there, such as 60 N and 150 N, with how far each moves the panel"
    return f"needs a push there: {number(found.force_n, 0)} N may move the panel {mm(found.moved_mm)} at most"


def _limit_mm(mount: MountPoint, force_n: float, needed: float, tables: Tables) -> float | None:
    """How far a push may move the panel; None where nobody reads that, or a sheet stretches by then."""
    error_n, reading_mm, _ = push_errors(force_n, tables)
    found = push_limit_mm(
        force_n=force_n, force_error_n=error_n, reading_error_mm=reading_mm, needed_n_per_mm=needed,
        thickness_mm=stretched_mm(mount, tables),
    )  # fmt: skip
    rounded = int(min(found, _MOST_MM) / _READ_MM + 1e-9) * _READ_MM
    is_read = rounded >= reading_mm
    return round(rounded, 2) if is_read and rounded <= stretched_mm(mount, tables) / 2 else None
