"""What a size of cable does on a run: what it carries, how warm it gets, and what is lost along it."""

from fasten.catalog.ampacity import cable_ampacity
from fasten.catalog.tables import Tables
from fasten.catalog.wiring import BUNDLE_FACTORS, ENGINE_BAY_FACTORS
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.mechanics.wiring import conductor_temperature_c, drop_v, warm_mohm_per_m
from fasten.model import Check, Input
from fasten.proof.checks import at_most
from fasten.record import lean, replace
from fasten.wiring.words import Material, Run, RunWhere, Size

_OWN_DROP = "current x resistance x (length + ground lead)"
_BUNDLE = "bundle"
_HOT = (RunWhere.ENGINE_BAY, RunWhere.EXHAUST)


@lean
class Conductor:
    """A size of cable on a run.

    `free_a` is what it carries in free air; its warmth goes by that, and by what others beside it leave of it.
    `ampacity_a` is what is left in its place; `row` and `insulation_c` name what governs. `drop_v` is over the whole
    path, the ground lead too.
    """

    size: Size
    free_a: float
    ampacity_a: float
    row: str
    insulation_c: int
    ambient_c: float
    conductor_c: float
    resistance_mohm_per_m: float
    drop_v: float
    limit_v: float
    factors: tuple[Input, ...]
    ampacity_from: tuple[str, ...]


def conductor(size: Size, full_a: float, run: Run, tables: Tables) -> Conductor | None:
    """The cable of a size on a run with this current; None where nothing is known of what it carries."""
    base = cable_ampacity(size.area_mm2, _column(run, tables), tables)
    if base is None:
        return None
    of_clad, clad_sources = _clad(run, tables)
    free_a = base.amps_a * of_clad[1]
    placed, placed_sources = _placed(base.insulation_c, run, tables)
    ambient_c, _ = rule_figure(tables, WiringRules.AMBIENT_ENGINE if run.where in _HOT else WiringRules.AMBIENT)
    rated_c, _ = rule_figure(tables, WiringRules.AMBIENT)
    warm_c = conductor_temperature_c(
        ambient_c=ambient_c,
        insulation_c=base.insulation_c,
        rated_c=rated_c,
        current_a=full_a,
        ampacity_a=free_a * _of_bundle(placed),
    )
    resistance = warm_mohm_per_m(cold_mohm_per_m=size.resistance_mohm_per_m * of_clad[0], conductor_c=warm_c)
    lost = drop_v(current_a=full_a, resistance_mohm_per_m=resistance, length_mm=run.length_mm + run.back_mm)
    lost += full_a * run.body_mohm / 1000 + run.body_others_v
    left = free_a
    for factor in placed:
        left *= factor.value
    clad = (Input("copper-clad", of_clad[1], "-"),) if run.material is Material.CLAD else ()
    return Conductor(
        size=size, free_a=free_a, ampacity_a=left, row=base.row, insulation_c=base.insulation_c, ambient_c=ambient_c,
        conductor_c=warm_c, resistance_mohm_per_m=resistance, drop_v=run.before_v + lost, limit_v=run.limit_v,
        factors=(Input("table", base.amps_a, "A"), *clad, *placed),
        ampacity_from=(*base.from_, *clad_sources, *placed_sources),
    )  # fmt: skip


def conductor_checks(found: Conductor, full_a: float, run: Run, tables: Tables) -> tuple[Check, ...]:
    """How warm it gets, what is lost along it, and whether it carries the current: a line each."""
    _, rated_source = rule_figure(tables, WiringRules.AMBIENT)
    share = _of_bundle(found.factors)
    beside, free_air = ((Input(_BUNDLE, share, "-"),), f"(free air x {_BUNDLE})") if share < 1 else ((), "free air")
    warm = at_most(
        "conductor-temperature", "Temperature of the conductor, of what its insulation bears", found.conductor_c,
        found.insulation_c, "°C",
        (Input("ambient", found.ambient_c, "°C"), Input("insulation", found.insulation_c, "°C"),
         Input("current", full_a, "A"), Input("free air", found.free_a, "A"), *beside),
        f"ambient + (insulation - 30) (current / {free_air})²", (*found.ampacity_from[:1], rated_source),
    )  # fmt: skip
    carries = at_most(
        "ampacity", "Full current, of what the cable carries", full_a, found.ampacity_a, "A", found.factors,
        "current <= table x factors", found.ampacity_from,
    )  # fmt: skip
    return (warm, drop_check(found, full_a, run, tables), carries)


def clad_more_v(found: Conductor, full_a: float, run: Run, tables: Tables) -> float:
    """How much more is lost along cable that is there, and of which it is not said what it is of, as copper-clad."""
    if run.chosen is None or run.material_said or run.material is Material.CLAD:
        return 0.0
    clad = conductor(found.size, full_a, replace(run, material=Material.CLAD), tables)
    return 0.0 if clad is None else clad.drop_v - found.drop_v


def drop_check(found: Conductor, full_a: float, run: Run, tables: Tables) -> Check:
    """The voltage drop: by the limit a size is proposed, over the stop it is refused."""
    within = found.drop_v <= run.limit_v
    _, stop_source = rule_figure(tables, WiringRules.DROP_STOP)
    inputs = (
        Input("current", full_a, "A"), Input("resistance", found.resistance_mohm_per_m, "mΩ/m"),
        Input("length", run.length_mm, "mm"), Input("ground lead", run.back_mm, "mm"),
        *((Input("before it", run.before_v, "V"),) if run.before_v else ()),
        *((Input("body", run.body_mohm, "mΩ"),) if run.body_mohm else ()),
        *((Input("others in the body", run.body_others_v, "V"),) if run.body_others_v else ()),
    )  # fmt: skip
    whole = "current x (resistance x (length + ground lead) + body)" if run.body_mohm else _OWN_DROP
    whole += " + others in the body" if run.body_others_v else ""
    return at_most(
        "drop", "Voltage drop, of its limit" if within else "Voltage drop, of the stop limit", found.drop_v,
        run.limit_v if within else run.stop_v, "V", inputs, f"{whole}{' + before it' if run.before_v else ''}",
        (*found.size.from_, stop_source),
    )  # fmt: skip


def _column(run: Run, tables: Tables) -> float:
    """The insulation to go by: in the engine bay no warmer one than a factor is known for."""
    if run.where not in _HOT:
        return run.insulation_c
    return min(run.insulation_c, tables.rows(ENGINE_BAY_FACTORS)[-1].insulation_c)


def _clad(run: Run, tables: Tables) -> tuple[tuple[float, float], tuple[str, ...]]:
    """By how much copper-clad aluminium raises the resistance and lowers the current; 1 for copper."""
    if run.material is Material.COPPER:
        return (1.0, 1.0), ()
    more, source = rule_figure(tables, WiringRules.CLAD_RESISTANCE)
    less, less_source = rule_figure(tables, WiringRules.CLAD_AMPACITY)
    return (more, less), (source, less_source)


def _placed(insulation_c: int, run: Run, tables: Tables) -> tuple[tuple[Input, ...], tuple[str, ...]]:
    """The factors of its place: the engine bay, and well loaded conductors beside it."""
    found, sources = [], []
    if run.where in _HOT:
        row = next(row for row in tables.rows(ENGINE_BAY_FACTORS) if row.insulation_c == insulation_c)
        found.append(Input("engine bay", row.factor_share, "-"))
        sources.append(tables.source_id(ENGINE_BAY_FACTORS, row))
    bundles = [row for row in tables.rows(BUNDLE_FACTORS) if row.conductors <= run.bundled]
    if bundles:
        found.append(Input(_BUNDLE, bundles[-1].factor_share, "-"))
        sources.append(tables.source_id(BUNDLE_FACTORS, bundles[-1]))
    return tuple(found), tuple(sources)


def _of_bundle(factors: tuple[Input, ...]) -> float:
    """What conductors beside it leave of what it carries, which warm it; 1 where there are none."""
    return next((one.value for one in factors if one.name == _BUNDLE), 1.0)
