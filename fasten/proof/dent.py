"""Whether what service pulls on one fixing dents the sheet about it."""

from math import hypot, pi, sqrt

from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.parts import PLATES
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import behind_mm, shaft_mm
from fasten.mechanics.plate import dent_load_n
from fasten.model import Bay, Check, Demand, Input, Joint, MountPoint, Position
from fasten.model.known import Flange
from fasten.proof.checks import at_most, waits
from fasten.proof.loads import case_name
from fasten.text.units import number

DENT, TITLE = "dent.service", "Dent at a fixing"


def dents(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], tables: Tables) -> list[Check]:
    """What service pulls on one fixing, against what dents the sheet about it; nothing of a stop, which may dent it."""
    row = material(tables, mount.material)
    foot_mm, reach_mm = _foot_mm(joint), _reach_mm(mount, tables)
    if row.family != "sheet" or foot_mm >= reach_mm:
        return []
    worst = max((one for one in demands if one.kind == "service"), key=lambda one: one.tension_n)
    if row.yield_mpa is None:
        needs = f"needs the yield strength of {row.title}"
        return [waits(DENT, TITLE, "N", worst.tension_n, needs, worst.inputs, "-", (), load_case=case_name(worst))]
    factor = rule(tables, Rules.DENT_FACTOR)
    bends_mm = hypot(mount.thickness_min_mm, doubler_mm := 0.0 if mount.doubler is None else mount.doubler.thickness_mm)
    load = dent_load_n(yield_mpa=row.yield_mpa, thickness_mm=bends_mm, foot_mm=foot_mm, reach_mm=reach_mm)
    inputs = (
        *worst.inputs, Input("yield", row.yield_mpa, "MPa"), Input("sheet", mount.thickness_min_mm, "mm"),
        Input("radius of what bears", foot_mm, "mm"), Input("nothing holds it within", reach_mm, "mm"),
        Input("factor", factor.value, "-"), *((Input("doubler", doubler_mm, "mm"),) if doubler_mm else ()),
    )  # fmt: skip
    sources = (tables.source_id(MATERIALS, row), tables.source_id(RULES, factor), worst.from_)
    bends = "t^2" if mount.doubler is None else "(t^2 + doubler^2)"
    formula = f"6 pi (yield {bends} / 4) / (3 - 2 radius / reach) / factor"
    most = load / factor.value
    if mount.support is None and worst.tension_n > most:
        plate = _plate_that_clears(worst.tension_n * factor.value, mount, reach_mm, row.yield_mpa, tables)
        needs = f"needs a frame at each fixing{plate}: {number(worst.tension_n, 0)} N would dent the sheet"
        return [waits(DENT, TITLE, "N", worst.tension_n, needs, inputs, formula, sources, load_case=case_name(worst))]
    return [
        at_most(
            DENT, TITLE, worst.tension_n, most, "N", inputs, formula, sources,
            factor=factor.value, load_case=case_name(worst),
        )
    ]  # fmt: skip


def _plate_that_clears(load_n: float, mount: MountPoint, reach_mm: float, yield_mpa: float, tables: Tables) -> str:
    """The smallest plate behind each fixing that the sheet bears the load on, in words; empty where none does."""
    sheet = {"yield_mpa": yield_mpa, "thickness_mm": mount.thickness_min_mm, "reach_mm": reach_mm}
    for row in tables.rows(PLATES):
        foot_mm = plate_foot_mm(row.side_mm)
        if foot_mm >= reach_mm or dent_load_n(foot_mm=foot_mm, **sheet) >= load_n:
            return f", or from both sides a {row.size} plate behind it"
    return ""


def _foot_mm(joint: Joint) -> float:
    """Radius of what bears on the sheet: the largest of flange, washer behind and plate, at least the screw."""
    if joint.patch is not None:
        area = joint.patch.length_mm * joint.patch.width_mm
        return sqrt(area / pi)
    flange = None if joint.receiver is None else joint.receiver.flange
    flange_mm = flange.across_mm if isinstance(flange, Flange) else 0.0
    sides = [part.side_mm for part in joint.washers if part.place is Position.NUT and part.side_mm is not None]
    return max(flange_mm / 2, behind_mm(joint) / 2, shaft_mm(joint) / 2, *(plate_foot_mm(side) for side in sides))


def plate_foot_mm(side_mm: float) -> float:
    """Radius of the round foot of a square plate's area."""
    return side_mm / sqrt(pi)


def _reach_mm(mount: MountPoint, tables: Tables) -> float:
    return mount.support.short_mm / 2 if isinstance(mount.support, Bay) else rule(tables, Rules.DENT_REACH).value
