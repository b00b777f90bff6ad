"""Does it hold: every way to fail against every kind of load, shear and pull together."""

from collections.abc import Callable
from math import hypot

from fasten.catalog.practice import Factor, LoadCase
from fasten.catalog.rows import Formula
from fasten.catalog.tables import Tables
from fasten.mechanics.checks import at_most
from fasten.mechanics.demands import DEFAULT_CASE
from fasten.mechanics.modes import Capacity, Mode
from fasten.mechanics.screw import shank_interaction
from fasten.mechanics.sheet import sheet_interaction
from fasten.model import Check, Demand, Input, Joint, MountPoint, Status

Interaction = Callable[..., float]
KINDS = ("service", "hard_stop", "sustained")


def strength_checks(
    joint: Joint, mount: MountPoint, applies: tuple[Mode, ...], demands: tuple[Demand, ...], tables: Tables
) -> list[Check]:
    """Each mode under the worst load of each kind, shear and pull together, and a hard stop that was left out."""
    applies = tuple(mode for mode in applies if mode.known(joint))
    capacities = {mode.id: mode.capacity(joint, mount, tables) for mode in applies}
    checks: list[Check] = []
    for kind in KINDS:
        loads = [demand for demand in demands if demand.kind == kind]
        for mode in applies:
            factor = tables.find(Factor, "factors", kind, mode.family)
            if factor is not None and loads:
                checks.append(_strength(mode, capacities[mode.id], factor, loads, tables))
        checks.extend(_interactions(applies, capacities, kind, loads, tables))
    return [*checks, *_left_out(demands, tables)]


def _left_out(demands: tuple[Demand, ...], tables: Tables) -> list[Check]:
    """A hard stop that the chosen case does not bring: open, for nothing is proven that only stands the road."""
    if any(demand.kind == "hard_stop" for demand in demands):
        return []
    rows = [row for row in tables.rows(LoadCase, "load-cases") if row.case == DEFAULT_CASE]
    worst = max(rows, key=lambda row: hypot(row.x_g, row.y_g, row.z_g))
    asked = hypot(worst.x_g, worst.y_g, worst.z_g)
    inputs = (Input("x", worst.x_g, "g"), Input("y", worst.y_g, "g"), Input("z", worst.z_g, "g"))
    needs = "needs the load case hard-stop"
    return [Check("hard-stop", "Hard stop", Status.NOT_CHECKED, asked, None, "g", None, None, None, inputs,
                  "sqrt(x^2 + y^2 + z^2)", (tables.source_id("load-cases", worst),), needs)]  # fmt: skip


def _strength(mode: Mode, capacity: Capacity, factor: Factor, loads: list[Demand], tables: Tables) -> Check:
    worst = max(loads, key=lambda demand: (_load_n(demand, mode), demand.load, demand.panel.value))
    inputs = (*worst.inputs, *capacity.inputs, Input("factor", factor.factor, "-"))
    sources = tuple(dict.fromkeys((worst.from_, *capacity.from_, tables.source_id("factors", factor))))
    return at_most(f"{mode.id}.{factor.kind}", mode.title, _load_n(worst, mode), capacity.load_n / factor.factor, "N",
                   inputs, capacity.formula, sources, factor=factor.factor, load_case=_case(worst))  # fmt: skip


def _load_n(demand: Demand, mode: Mode) -> float:
    return demand.shear_n if mode.load == "shear" else demand.tension_n


def _case(demand: Demand) -> str:
    return f"{demand.case}: {demand.load}, on {demand.panel.value}"


def _interactions(
    applies: tuple[Mode, ...], capacities: dict[str, Capacity], kind: str, loads: list[Demand], tables: Tables
) -> list[Check]:
    """Shear and tension together: squared in the shank and the board, linear in all else."""
    checks: list[Check] = []
    if not loads:
        return checks
    for families, law, id_, title in (
        (("sheet", "sheet_screw", "sheet_en"), sheet_interaction, "sheet-together", "Sheet, shear and pull together"),
        (("screw", "rivet"), shank_interaction, "shank-together", "Shank, shear and pull together"),
        (("board",), shank_interaction, "board-together", "Board, shear and pull together"),
        (("plastic",), sheet_interaction, "plastic-together", "Plastic, shear and pull together"),
        (("rated",), sheet_interaction, "rated-together", "Part, shear and pull together"),
        (("hook",), sheet_interaction, "hook-together", "Strips, shear and pull together"),
        (("bond", "tape", "tape_standing"), sheet_interaction, "bond-together", "Bond, shear and pull together"),
        (("magnet",), sheet_interaction, "magnet-together", "Magnet, shear and pull together"),
    ):
        pairs = [
            [(mode, factor) for mode in applies if mode.joined and mode.load == load and mode.family in families
             and (factor := tables.find(Factor, "factors", kind, mode.family)) is not None]
            for load in ("shear", "tension")
        ]  # fmt: skip
        if all(pairs):
            checks.append(_together(pairs, capacities, law, f"{id_}.{kind}", title, loads, tables))
    return checks


def _together(
    pairs: list[list[tuple[Mode, Factor]]], capacities: dict[str, Capacity], law: Interaction, id_: str, title: str,
    loads: list[Demand], tables: Tables,
) -> Check:  # fmt: skip
    (shear_n, by_shear), (tension_n, by_tension) = (_least(side, capacities, tables) for side in pairs)

    def used(demand: Demand) -> float:
        return law(
            shear_n=demand.shear_n, shear_capacity_n=shear_n, tension_n=demand.tension_n, tension_capacity_n=tension_n
        )

    worst = max(loads, key=lambda demand: (used(demand), demand.load, demand.panel.value))
    inputs = (
        Input("shear", worst.shear_n, "N"), Input("tension", worst.tension_n, "N"),
        Input("shear allowed", shear_n, "N"), Input("tension allowed", tension_n, "N"),
    )  # fmt: skip
    row = tables.find(Formula, "strength-formulas", id_.partition(".")[0])
    assert row is not None, f"no formula for {id_}"
    source = tables.source_id("strength-formulas", row)
    sources = tuple(dict.fromkeys((worst.from_, *by_shear, *by_tension, source)))
    return at_most(id_, title, used(worst), 1.0, "-", inputs, row.expression, sources, load_case=_case(worst))


def _least(
    side: list[tuple[Mode, Factor]], capacities: dict[str, Capacity], tables: Tables
) -> tuple[float, tuple[str, ...]]:
    """The least that one direction may carry, and the sources it comes from."""
    mode, factor = min(side, key=lambda pair: capacities[pair[0].id].load_n / pair[1].factor)
    capacity = capacities[mode.id]
    return capacity.load_n / factor.factor, (*capacity.from_, tables.source_id("factors", factor))
