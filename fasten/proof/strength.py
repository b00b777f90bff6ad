"""Does it hold: every way to fail against every kind of load, shear and pull together.

Nothing is left out in silence: a mode without a figure, a family without a factor and a part of the joint that no mode
examines each give a line that is not checked, unless a table or the method says why it need not be.
"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from math import hypot
from operator import itemgetter

from fasten.catalog.practice import FACTORS, LOAD_CASES, Factor
from fasten.catalog.rows import STRENGTH_FORMULAS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Check, Demand, Exemption, Input, Joint, MountPoint, Subject
from fasten.proof.checks import at_most, holds, is_missed_by_little, on_estimate, used_of, waits
from fasten.proof.demands import DEFAULT_CASE
from fasten.proof.loads import DIRECTIONS, Loads, OfKind, case_name, driving_n, loads_of
from fasten.proof.modes.families import LAWS, Law
from fasten.proof.modes.mode import Capacity, Mode, Needed
from fasten.proof.modes.tested import is_own
from fasten.record import lean

Found = tuple[Mode, Capacity | Needed]
Side = list[tuple[Mode, Capacity | Needed, Factor]]


def capacities(joint: Joint, mount: MountPoint, modes: tuple[Mode, ...], tables: Tables) -> list[Found]:
    """Each mode that applies to a joint, with its capacity or what it needs."""
    return [(mode, mode.found(joint, mount, tables)) for mode in modes if mode.applies(joint)]


@lean
class Asked:
    """What a mode must bear: of each kind that counts for its family the worst load, and the factor on it."""

    mode: Mode
    most: tuple[tuple[float, float], ...]


def asked(mode: Mode, loads: Loads, tables: Tables) -> Asked:
    """The same of these loads; what is looked for is found soonest in a hard stop."""
    known, of = loads.most, (mode.family.name, mode.load)
    if of not in known:
        known[of] = tuple(_most(*of, loads, tables))
    return Asked(mode, known[of])


def _most(family: str, load: str, loads: Loads, tables: Tables) -> Iterator[tuple[float, float]]:
    for one in reversed(loads.kinds):
        row = factors_of(tables, one.kind).get(family)
        if row is not None and row.factor is not None:
            yield driving_n(one.worst[load], load), row.factor


def overloads(asked: Asked, capacity: Capacity | Needed, tables: Tables) -> int:
    """Under how many kinds of load a mode fails, by its figures alone; `strength_checks` has the lines of all."""
    if isinstance(capacity, Needed):
        return 0
    over = 0
    for load_n, factor in asked.most:
        most_n = capacity.load_n / factor
        over += not (holds(load_n, most_n) or _is_marginal(asked.mode, capacity, used_of(load_n, most_n), tables))
    return over


def _is_marginal(mode: Mode, capacity: Capacity, used: float, tables: Tables) -> bool:
    return _is_estimate(mode, capacity) and is_missed_by_little(used, rule(tables, Rules.MARGINAL).value)


def strength_checks(
    joint: Joint, modes: tuple[Mode, ...], found: list[Found], exempt: Mapping[Subject, str],
    demands: tuple[Demand, ...], tables: Tables,
) -> Iterator[Check]:  # fmt: skip
    """Each mode under the worst load of each kind, shear and pull together, and all that is left open."""
    loads = loads_of(demands)
    yield from (_needed(mode, waiting, loads, tables) for mode, waiting in found if isinstance(waiting, Needed))
    joined = _joined(found)
    for one in loads.kinds:
        yield from _of_kind(found, one, tables)
        yield from _interactions(joined, one, tables)
    yield from _not_examined(joint, modes, exempt)
    yield from _left_out(loads, tables)


def strength_failures(found: list[Found], demands: tuple[Demand, ...], tables: Tables) -> Iterator[Check]:
    """Of the same all lines that fail, and few of those that do not: what a refusal is made of."""
    joined = _joined(found)
    for one in loads_of(demands).kinds:
        factors = factors_of(tables, one.kind)
        over = [pair for pair in found if _is_over(*pair, one, factors)]
        yield from _of_kind(over, one, tables)
        yield from _interactions(joined, one, tables)


def _is_over(mode: Mode, capacity: Capacity | Needed, one: OfKind, factors: dict[str, Factor]) -> bool:
    row = factors.get(mode.family.name)
    if row is None or row.factor is None or isinstance(capacity, Needed):
        return False
    return not holds(driving_n(one.worst[mode.load], mode.load), capacity.load_n / row.factor)


def exemptions(joint: Joint, modes: tuple[Mode, ...], exempt: Mapping[Subject, str]) -> tuple[Exemption, ...]:
    """Why parts of this joint that no mode examines need no check."""
    return tuple(Exemption(subject.value, exempt[subject]) for subject in _open(joint, modes) if subject in exempt)


def _open(joint: Joint, modes: tuple[Mode, ...]) -> tuple[Subject, ...]:
    return _all_but(tuple([mode.subjects for mode in modes if mode.applies(joint)]))


@lru_cache(maxsize=256)
def _all_but(examined: tuple[frozenset[Subject], ...]) -> tuple[Subject, ...]:
    seen = frozenset[Subject]().union(*examined)
    return tuple(subject for subject in Subject if subject not in seen)


def _not_examined(joint: Joint, modes: tuple[Mode, ...], exempt: Mapping[Subject, str]) -> list[Check]:
    return [
        waits(f"not-examined.{subject.name.lower().replace('_', '-')}", f"Not examined: {subject.value}", "N", None,
              "needs a way to check it", (), "-", joint.from_)
        for subject in _open(joint, modes) if subject not in exempt
    ]  # fmt: skip


def _left_out(loads: Loads, tables: Tables) -> tuple[Check, ...]:
    """A hard stop that the chosen case does not bring: open, for nothing is proven that only stands the road."""
    return () if any(one.kind == "hard_stop" for one in loads.kinds) else (_hard_stop(tables),)


def _hard_stop(tables: Tables) -> Check:
    rows = [row for row in tables.rows(LOAD_CASES) if row.case == DEFAULT_CASE]
    worst = max(rows, key=lambda row: hypot(row.x_g, row.y_g, row.z_g))
    needed_g = hypot(worst.x_g, worst.y_g, worst.z_g)
    inputs = (Input("x", worst.x_g, "g"), Input("y", worst.y_g, "g"), Input("z", worst.z_g, "g"))
    source = tables.source_id(LOAD_CASES, worst)
    return waits("hard-stop", "Hard stop", "g", needed_g, "needs the load case hard-stop", inputs,
                 "sqrt(x^2 + y^2 + z^2)", (source,))  # fmt: skip


@lru_cache(maxsize=16)
def factors_of(tables: Tables, kind: str) -> dict[str, Factor]:
    """The rows of the factors on a kind of load, by their families."""
    return {row.family: row for row in tables.rows(FACTORS) if row.kind == kind}


def _of_kind(found: list[Found], one: OfKind, tables: Tables) -> Iterator[Check]:
    """A line for each mode whose family counts in this kind; one that waits where no table says whether it does."""
    factors = factors_of(tables, one.kind)
    for mode, capacity in found:
        row = factors.get(mode.family.name)
        if row is None:
            needs = f"needs a factor on {mode.family.name} for the kind {one.kind}"
            yield waits(f"{mode.id}.{one.kind}", mode.title, "N", None, needs, (), "-", ())
        elif row.factor is not None and isinstance(capacity, Capacity):
            yield _strength(mode, capacity, row, row.factor, one, tables)


def _strength(mode: Mode, capacity: Capacity, row: Factor, factor: float, one: OfKind, tables: Tables) -> Check:
    worst = one.worst[mode.load]
    inputs = (*worst.inputs, *capacity.inputs, Input("factor", factor, "-"))
    sources = tuple(dict.fromkeys((worst.from_, *capacity.from_, tables.source_id(FACTORS, row))))
    check = at_most(f"{mode.id}.{row.kind}", mode.title, driving_n(worst, mode.load), capacity.load_n / factor, "N",
                    inputs, capacity.formula, sources, factor=factor, load_case=one.cases[mode.load])  # fmt: skip
    return _lenient(check, _is_estimate(mode, capacity), tables)


def _is_estimate(mode: Mode, capacity: Capacity) -> bool:
    return mode.estimate and not is_own(capacity)


def _lenient(check: Check, is_estimate: bool, tables: Tables) -> Check:
    """A strength that rests on an estimate is marginal where it is missed by a little."""
    return on_estimate(check, rule(tables, Rules.MARGINAL).value) if is_estimate else check


def _needed(mode: Mode, needed: Needed, demands: Loads, tables: Tables) -> Check:
    """What a mode waits for, and the least that it must come to: the greatest demand, times its factor."""
    rows = ((demand, factors_of(tables, demand.kind).get(mode.family.name)) for demand in demands)
    counted = [(demand, row.factor, row) for demand, row in rows if row is not None and row.factor is not None]
    if not counted:
        what = f"needs {needed.what}"
        return waits(mode.id, mode.title, "N", None, what, (), needed.formula, needed.from_, asks=needed.asks)
    demand, factor, row = max(counted, key=lambda one: (driving_n(one[0], mode.load) * one[1], one[0].load))
    inputs = (*demand.inputs, Input("factor", factor, "-"))
    sources = tuple(dict.fromkeys((demand.from_, *needed.from_, tables.source_id(FACTORS, row))))
    return waits(mode.id, mode.title, "N", driving_n(demand, mode.load) * factor, f"needs {needed.what}", inputs,
                 needed.formula, sources, load_case=case_name(demand), asks=needed.asks)  # fmt: skip


def _joined(found: list[Found]) -> list[tuple[Law, list[Found]]]:
    """The modes of each law by which shear and pull act together."""
    by_law: dict[str, list[Found]] = {}
    for one in found:
        law = one[0].family.law
        if isinstance(law, Law) and not one[0].apart:
            by_law.setdefault(law.id, []).append(one)
    return [(law, by_law[law.id]) for law in LAWS if law.id in by_law]


def _interactions(joined: list[tuple[Law, list[Found]]], one: OfKind, tables: Tables) -> Iterator[Check]:
    """Shear and pull together, by the law of the families, where modes of both directions count in this kind.

    Where one of them waits for its figure, its own line is open, and both together are once it is known.
    """
    factors = factors_of(tables, one.kind)
    for law, found in joined:
        sides: dict[str, Side] = {load: [] for load in DIRECTIONS}
        for mode, capacity in found:
            row = factors.get(mode.family.name)
            if row is not None and row.factor is not None:
                sides[mode.load].append((mode, capacity, row))
        waiting = any(isinstance(capacity, Needed) for side in sides.values() for _, capacity, _ in side)
        if all(sides.values()) and not waiting:
            yield _together(law, one, sides["shear"], sides["tension"], tables)


def _together(law: Law, one: OfKind, shear: Side, tension: Side, tables: Tables) -> Check:
    row = tables.need(STRENGTH_FORMULAS, law.id)
    source = tables.source_id(STRENGTH_FORMULAS, row)
    (shear_n, by_shear, shears), (tension_n, by_tension, pulls) = _least(shear, tables), _least(tension, tables)
    found = (
        (law.used(shear_n=load.shear_n, shear_capacity_n=shear_n, tension_n=load.tension_n,
                  tension_capacity_n=tension_n), load)
        for load in one.loads
    )  # fmt: skip
    used, worst = max(found, key=itemgetter(0))
    inputs = (
        Input("shear", worst.shear_n, "N"), Input("tension", worst.tension_n, "N"),
        Input("shear capacity", shear_n, "N"), Input("tension capacity", tension_n, "N"),
    )  # fmt: skip
    sources = tuple(dict.fromkeys((worst.from_, *by_shear, *by_tension, source)))
    check = at_most(f"{law.id}.{one.kind}", law.title, used, 1.0, "-", inputs, row.expression, sources,
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
