"""Does it hold: every way to fail against every kind of load, shear and pull together.

Nothing is left out in silence: a mode without a figure, a family without a factor and a part of the joint that no mode
examines each give a line that is not checked, unless a table or the method says why it need not be.
"""

from collections.abc import Iterator, Mapping
from math import hypot

from fasten.catalog.practice import FACTORS, LOAD_CASES, Factor
from fasten.catalog.rows import STRENGTH_FORMULAS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Check, Demand, Exemption, Input, Joint, MountPoint, Subject
from fasten.model.check import LOAD_KINDS
from fasten.proof.checks import at_most, holds, is_missed_by_little, on_estimate, used_of, waits
from fasten.proof.demands import DEFAULT_CASE
from fasten.proof.modes.families import LAWS, Family, Law
from fasten.proof.modes.mode import Capacity, Mode, Needed
from fasten.proof.modes.tested import is_own
from fasten.record import record

DIRECTIONS = ("shear", "tension")
Found = tuple[Mode, Capacity | Needed]
Side = list[tuple[Mode, Capacity | Needed, Factor]]


def capacities(joint: Joint, mount: MountPoint, modes: tuple[Mode, ...], tables: Tables) -> list[Found]:
    """Each mode that applies to a joint, with its capacity or what it needs."""
    return list(each_capacity(joint, mount, modes, tables))


def each_capacity(joint: Joint, mount: MountPoint, modes: tuple[Mode, ...], tables: Tables) -> Iterator[Found]:
    """The same, one by one."""
    return ((mode, mode.found(joint, mount, tables)) for mode in modes if mode.applies(joint))


@record
class Peak:
    """The greatest shear and the greatest pull of all loads of a kind."""

    kind: str
    shear_n: float
    tension_n: float


def peaks(demands: tuple[Demand, ...]) -> tuple[Peak, ...]:
    """The greatest loads of each kind; what is looked for is found soonest in a hard stop."""
    by_kind = ((kind, [one for one in demands if one.kind == kind]) for kind in reversed(LOAD_KINDS))
    return tuple(
        Peak(kind, max([one.shear_n for one in loads]), max([one.tension_n for one in loads]))
        for kind, loads in by_kind
        if loads
    )


def overloaded(found: Found, most: tuple[Peak, ...], tables: Tables) -> bool:
    """Whether a mode fails under these loads, by its figures alone; `strength_checks` has the lines of all."""
    mode, capacity = found
    if isinstance(capacity, Needed):
        return False
    for peak in most:
        row = _factor(peak.kind, mode.family, tables)
        if row is None or row.factor is None:
            continue
        load_n, most_n = peak.shear_n if mode.load == "shear" else peak.tension_n, capacity.load_n / row.factor
        if not (holds(load_n, most_n) or _is_marginal(mode, capacity, used_of(load_n, most_n), tables)):
            return True
    return False


def _is_marginal(mode: Mode, capacity: Capacity, used: float, tables: Tables) -> bool:
    return _is_estimate(mode, capacity) and is_missed_by_little(used, rule(tables, Rules.MARGINAL).value)


def strength_checks(
    joint: Joint, modes: tuple[Mode, ...], found: list[Found], exempt: Mapping[Subject, str],
    demands: tuple[Demand, ...], tables: Tables,
) -> Iterator[Check]:  # fmt: skip
    """Each mode under the worst load of each kind, shear and pull together, and all that is left open."""
    yield from (_needed(mode, waiting, demands, tables) for mode, waiting in found if isinstance(waiting, Needed))
    for kind in LOAD_KINDS:
        loads = [demand for demand in demands if demand.kind == kind]
        if loads:
            yield from _of_kind(found, kind, loads, tables)
            yield from _interactions(found, kind, loads, tables)
    yield from _not_examined(joint, modes, exempt)
    yield from _left_out(demands, tables)


def exemptions(joint: Joint, modes: tuple[Mode, ...], exempt: Mapping[Subject, str]) -> tuple[Exemption, ...]:
    """Why parts of this joint that no mode examines need no check."""
    return tuple(Exemption(subject.value, exempt[subject]) for subject in _open(joint, modes) if subject in exempt)


def _open(joint: Joint, modes: tuple[Mode, ...]) -> list[Subject]:
    examined = {subject for mode in modes if mode.applies(joint) for subject in mode.subjects}
    return [subject for subject in Subject if subject not in examined]


def _not_examined(joint: Joint, modes: tuple[Mode, ...], exempt: Mapping[Subject, str]) -> list[Check]:
    return [
        waits(f"not-examined.{subject.name.lower().replace('_', '-')}", f"Not examined: {subject.value}", "N", None,
              "needs a way to check it", (), "-", joint.from_)
        for subject in _open(joint, modes) if subject not in exempt
    ]  # fmt: skip


def _left_out(demands: tuple[Demand, ...], tables: Tables) -> list[Check]:
    """A hard stop that the chosen case does not bring: open, for nothing is proven that only stands the road."""
    if any(demand.kind == "hard_stop" for demand in demands):
        return []
    rows = [row for row in tables.rows(LOAD_CASES) if row.case == DEFAULT_CASE]
    worst = max(rows, key=lambda row: hypot(row.x_g, row.y_g, row.z_g))
    needed_g = hypot(worst.x_g, worst.y_g, worst.z_g)
    inputs = (Input("x", worst.x_g, "g"), Input("y", worst.y_g, "g"), Input("z", worst.z_g, "g"))
    source = tables.source_id(LOAD_CASES, worst)
    return [waits("hard-stop", "Hard stop", "g", needed_g, "needs the load case hard-stop", inputs,
                  "sqrt(x^2 + y^2 + z^2)", (source,))]  # fmt: skip


def _factor(kind: str, family: Family, tables: Tables) -> Factor | None:
    return tables.find(FACTORS, kind, family.name)


def _of_kind(found: list[Found], kind: str, loads: list[Demand], tables: Tables) -> Iterator[Check]:
    """A line for each mode whose family counts in this kind; one that waits where no table says whether it does."""
    worst = {load: _worst(load, loads) for load in DIRECTIONS}
    cases = {load: case_name(demand) for load, demand in worst.items()}
    for mode, capacity in found:
        row = _factor(kind, mode.family, tables)
        if row is None:
            needs = f"needs a factor on {mode.family.name} for the kind {kind}"
            yield waits(f"{mode.id}.{kind}", mode.title, "N", None, needs, (), "-", ())
        elif row.factor is not None and isinstance(capacity, Capacity):
            yield _strength(mode, capacity, row, row.factor, worst[mode.load], cases[mode.load], tables)


def _strength(
    mode: Mode, capacity: Capacity, row: Factor, factor: float, worst: Demand, case: str, tables: Tables
) -> Check:
    inputs = (*worst.inputs, *capacity.inputs, Input("factor", factor, "-"))
    sources = tuple(dict.fromkeys((worst.from_, *capacity.from_, tables.source_id(FACTORS, row))))
    check = at_most(f"{mode.id}.{row.kind}", mode.title, _load_n(worst, mode), capacity.load_n / factor, "N",
                    inputs, capacity.formula, sources, factor=factor, load_case=case)  # fmt: skip
    return _lenient(check, _is_estimate(mode, capacity), tables)


def _is_estimate(mode: Mode, capacity: Capacity) -> bool:
    return mode.estimate and not is_own(capacity)


def _lenient(check: Check, is_estimate: bool, tables: Tables) -> Check:
    """A strength that rests on an estimate is marginal where it is missed by a little."""
    return on_estimate(check, rule(tables, Rules.MARGINAL).value) if is_estimate else check


def _needed(mode: Mode, needed: Needed, demands: tuple[Demand, ...], tables: Tables) -> Check:
    """What a mode waits for, and the least that it must come to: the greatest demand, times its factor."""
    counted = [
        (demand, row.factor, row) for demand in demands
        if (row := _factor(demand.kind, mode.family, tables)) is not None and row.factor is not None
    ]  # fmt: skip
    if not counted:
        what = f"needs {needed.what}"
        return waits(mode.id, mode.title, "N", None, what, (), needed.formula, needed.from_, asks=needed.asks)
    demand, factor, row = max(counted, key=lambda one: (_load_n(one[0], mode) * one[1], one[0].load))
    inputs = (*demand.inputs, Input("factor", factor, "-"))
    sources = tuple(dict.fromkeys((demand.from_, *needed.from_, tables.source_id(FACTORS, row))))
    return waits(mode.id, mode.title, "N", _load_n(demand, mode) * factor, f"needs {needed.what}", inputs,
                 needed.formula, sources, load_case=case_name(demand), asks=needed.asks)  # fmt: skip


def _worst(load: str, loads: list[Demand]) -> Demand:
    return max(loads, key=lambda demand: (_driving_n(demand, load), demand.load, demand.panel.value))


def _load_n(demand: Demand, mode: Mode) -> float:
    return _driving_n(demand, mode.load)


def _driving_n(demand: Demand, load: str) -> float:
    return demand.shear_n if load == "shear" else demand.tension_n


def case_name(demand: Demand) -> str:
    return f"{demand.case}: {demand.load}, on {demand.panel.value}"


def _interactions(found: list[Found], kind: str, loads: list[Demand], tables: Tables) -> list[Check]:
    """Shear and pull together, by the law of the families, where modes of both directions count in this kind.

    Where one of them waits for its figure, its own line is open, and both together are once it is known.
    """
    sides: dict[str, dict[str, Side]] = {}
    for mode, capacity in found:
        law, row = mode.family.law, None if mode.apart else _factor(kind, mode.family, tables)
        if isinstance(law, Law) and row is not None and row.factor is not None:
            by_load = sides.setdefault(law.id, {load: [] for load in DIRECTIONS})
            by_load[mode.load].append((mode, capacity, row))
    checks = []
    for law in LAWS:
        by_load = sides.get(law.id, {})
        waiting = any(isinstance(capacity, Needed) for side in by_load.values() for _, capacity, _ in side)
        if by_load and all(by_load.values()) and not waiting:
            checks.append(_together(law, kind, by_load["shear"], by_load["tension"], loads, tables))
    return checks


def _together(law: Law, kind: str, shear: Side, tension: Side, loads: list[Demand], tables: Tables) -> Check:
    row = tables.need(STRENGTH_FORMULAS, law.id)
    source = tables.source_id(STRENGTH_FORMULAS, row)
    (shear_n, by_shear, shears), (tension_n, by_tension, pulls) = _least(shear, tables), _least(tension, tables)

    found = (
        (law.used(shear_n=one.shear_n, shear_capacity_n=shear_n, tension_n=one.tension_n, tension_capacity_n=tension_n),
         one) for one in loads
    )  # fmt: skip
    used, worst = max(found, key=lambda pair: (pair[0], pair[1].load, pair[1].panel.value))
    inputs = (
        Input("shear", worst.shear_n, "N"), Input("tension", worst.tension_n, "N"),
        Input("shear capacity", shear_n, "N"), Input("tension capacity", tension_n, "N"),
    )  # fmt: skip
    sources = tuple(dict.fromkeys((worst.from_, *by_shear, *by_tension, source)))
    check = at_most(f"{law.id}.{kind}", law.title, used, 1.0, "-", inputs, row.expression, sources,
                    load_case=case_name(worst))  # fmt: skip
    return _lenient(check, shears.estimate or pulls.estimate, tables)


def _least(side: Side, tables: Tables) -> tuple[float, tuple[str, ...], Mode]:
    """The least that one direction may carry, the sources it comes from, and which way to fail it is."""
    held = [
        (found.load_n / row.factor, found, row, mode) for mode, found, row in side
        if isinstance(found, Capacity) and row.factor is not None
    ]  # fmt: skip
    load_n, capacity, row, mode = min(held, key=lambda one: one[0])
    return load_n, (*capacity.from_, tables.source_id(FACTORS, row)), mode
