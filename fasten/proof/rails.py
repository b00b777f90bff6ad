"""Rails under an item: how fast it sways on them, and whether the plate across them stays on."""

from math import hypot, inf

from fasten.catalog.materials import MATERIALS
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.plate import rails_n_per_mm, tube_inertia_mm4
from fasten.model import Check, Demand, Input, MountPoint, Rails
from fasten.proof.checks import at_most
from fasten.proof.loads import case_name
from fasten.proof.sway import Swaying, by_stiffness

WELD = "rails-weld.hard_stop"


def sway_on_rails(mount: MountPoint, rails: Rails, tables: Tables) -> Swaying:
    """How fast the item sways on its rails at least: their ends free to turn on what carries them."""
    steel = tables.need(MATERIALS, "steel")
    assert steel.youngs_mpa is not None
    inertia = tube_inertia_mm4(side_mm=rails.side_mm, wall_mm=rails.wall_mm)
    found = rails_n_per_mm(inertia_mm4=inertia, span_mm=rails.span_mm, rails=rails.count, youngs_mpa=steel.youngs_mpa)
    inputs = (
        Input("rails", rails.count, "-"), Input("side of the tube", rails.side_mm, "mm"),
        Input("wall", rails.wall_mm, "mm"), Input("span", rails.span_mm, "mm"),
        Input("modulus", steel.youngs_mpa, "MPa"),
    )  # fmt: skip
    formula = "sqrt(rails 48 E I / span^3 / mass) / (2 pi), I = (side^4 - (side - 2 wall)^4) / 12"
    return by_stiffness(mount, found, inf, inputs, formula, (tables.source_id(MATERIALS, steel),))


def weld_checks(mount: MountPoint, demands: tuple[Demand, ...], tables: Tables) -> list[Check]:
    """All that the fixings bear in a hard stop, against the welds of the plate: two runs to a rail."""
    stops = [one for one in demands if one.kind == "hard_stop"]
    if mount.rails is None or not stops:
        return []
    throat, run, strength = (rule(tables, name) for name in (Rules.WELD_THROAT, Rules.WELD_RUN, Rules.WELD_STRENGTH))
    worst = max(stops, key=lambda one: hypot(one.shear_n, one.tension_n))
    load = mount.fixings * hypot(worst.shear_n, worst.tension_n)
    held = 2 * mount.rails.count * run.value * throat.value * strength.value
    inputs = (
        *worst.inputs, Input("fixings", mount.fixings, "-"), Input("rails", mount.rails.count, "-"),
        Input("run", run.value, "mm"), Input("throat", throat.value, "mm"), Input("strength", strength.value, "MPa"),
    )  # fmt: skip
    sources = (*(tables.source_id(RULES, one) for one in (throat, run, strength)), worst.from_)
    return [
        at_most(
            WELD, "Welds of the plate on its rails", load, held, "N", inputs,
            "fixings x load on one <= 2 runs a rail x run x throat x strength", tuple(dict.fromkeys(sources)),
            load_case=case_name(worst),
        )
    ]  # fmt: skip
