"""A run as it was asked for, with every gap filled: lengths along the route, insulation, limits and the supply."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.errors import FastenError
from fasten.model import Power
from fasten.text.figures import figure
from fasten.wiring.fields import BODY_PATH, CARRIES, FROM, GROUND, HOLDER, LIMIT, OWN_FUSES, TO
from fasten.wiring.fuse import is_battery, is_grounded, is_minus
from fasten.wiring.read import unknown_end
from fasten.wiring.words import (
    Amps,
    Branches,
    DeviceEnd,
    End,
    Limit,
    Loudspeaker,
    Material,
    NamedEnd,
    Question,
    Run,
    RunWhere,
    Series,
    Unsized,
)

_DUST_V = 1e-9
_SUPPLY = {12: WiringRules.SUPPLY_12, 24: WiringRules.SUPPLY_24}


def resolve(question: Question, tables: Tables, names: tuple[str, ...] = ()) -> Run:
    """The run of a question, its ends known; `names` are those of the job that an end may be, for messages.

    Raises:
        FastenError: an end is not known, or the load is for another system than the vehicle's.
    """
    for where, end in ((FROM.name, question.from_), (TO.name, question.to)):
        if isinstance(end, NamedEnd):
            raise unknown_end(end, names, where)
        if isinstance(question.carries, Loudspeaker) and (is_battery(end) or is_grounded(end)):
            what = "a loudspeaker lead goes to no battery and no body"
            raise FastenError(what, where=where, fix="write the amplifier's end, such as set screw")
    _check_lead(question)
    _check_light(question)
    _check_shorts(question)
    _check_ground(question)
    _check_system(question)
    supply_v, supply_source = rule_figure(tables, _SUPPLY[question.system_v])
    straight, straight_source = rule_figure(tables, WiringRules.STRAIGHT_MORE)
    more = 1 + straight / 100 if question.straight else 1.0
    stop, _ = rule_figure(tables, WiringRules.DROP_STOP)
    limit_v, limit_source = _limit_v(question.limit, supply_v, stop, tables)
    insulation_c, insulation_source = _insulation(question, tables)
    own_a = () if question.own_fuses is None else question.own_fuses.ratings_a
    sources = (supply_source, limit_source, insulation_source, *((straight_source,) if question.straight else ()))
    return Run(
        name=question.name, carries=question.carries or Branches(0.0, 0.0), from_=question.from_, to=question.to,
        length_mm=question.length_mm * more, ground_mm=question.ground_mm or 0.0,
        material=question.material or Material.COPPER, chosen=question.cable, insulation_c=insulation_c,
        marked=question.insulation_c is not None or question.cable is None, limit_v=limit_v,
        stop_v=stop / 100 * supply_v, holder=question.holder, own_fuses_a=own_a,
        series=_series(question), where=question.where or RunWhere.CABIN, through=question.through, supply_v=supply_v,
        body_mohm=question.body_mohm or 0.0,
        material_said=question.material is not None or question.cable is None,
        place_assumed=question.where is None and (is_battery(question.from_) or is_battery(question.to)),
        from_sources=tuple(dict.fromkeys(filter(None, sources))),
    )  # fmt: skip


def _check_lead(question: Question) -> None:
    """Raises FastenError where something is said of a loudspeaker lead that it has not."""
    if not isinstance(question.carries, Loudspeaker):
        return
    for field in (GROUND, BODY_PATH, LIMIT, HOLDER, OWN_FUSES):
        if getattr(question, field.fills) is not None:
            what = f"a loudspeaker lead has no {field.label.casefold()}"
            fix = f"take {field.name} out: a lead goes by the share of its impedance, and has neither fuse nor ground"
            raise FastenError(what, where=field.name, fix=fix)


def _check_light(question: Question) -> None:
    """Raises FastenError where a lead for next to no current begins at a battery: no fuse would protect it."""
    load, ends = question.carries, ((FROM.name, question.from_), (TO.name, question.to))
    at = next((where for where, end in ends if is_battery(end) or is_minus(end)), None)
    if isinstance(load, Unsized) and at is not None:
        what = f"cable at a battery wants a fuse, and {load.value} says no current for one"
        raise FastenError(what, where=at, fix="write what it carries, such as 5 A, or where the lead begins: connector")


def _series(question: Question) -> Series:
    return question.series or (Series.AWG if question.cable is None else question.cable.series)


def _check_shorts(question: Question) -> None:
    ends = question.from_, question.to
    if any(map(_is_plus, ends)) and any(map(is_grounded, ends)):
        what = "a cable from the plus of a battery to its minus or the body is a short circuit"
        fix = "write battery post -, or battery stud M8 -, for the minus; body alone for the ground of a load"
        raise FastenError(what, where=FROM.name if _is_plus(question.from_) else TO.name, fix=fix)


def _check_ground(question: Question) -> None:
    """Raises FastenError where a ground lead is said beside a run that is one itself."""
    where = next((one for one, end in ((FROM.name, question.from_), (TO.name, question.to)) if is_grounded(end)), None)
    if question.ground_mm and where is not None:
        what = "a run at the minus or the body is a ground lead itself and has none beside it"
        fix = "take ground out, or feed the load from the plus: battery post +, or battery stud M8"
        raise FastenError(what, where=where, fix=fix)


def _is_plus(end: End) -> bool:
    return is_battery(end) and not isinstance(end, DeviceEnd)  # of a battery by its name the pole is not said


def _check_system(question: Question) -> None:
    load = question.carries
    if isinstance(load, Power | Amps) and load.load_v not in (None, question.system_v):
        what = f"a {load.load_v} V load on {question.system_v} V"
        raise FastenError(what, where=CARRIES.name, fix="check the load's own plate, or feed it through a converter")


def _limit_v(limit: Limit | None, supply_v: float, stop: float, tables: Tables) -> tuple[float, str]:
    """The voltage drop to size by, and its source where it is a rule; raises FastenError over the `stop` in %."""
    if limit is not None:
        limit_v = limit.value / 100 * supply_v if limit.percent else limit.value
        if limit_v > stop / 100 * supply_v + _DUST_V:
            said = f"{figure(limit.value)} {'%' if limit.percent else 'V'}"
            what = f"a limit of {said} is over {figure(stop)} % of {figure(supply_v)} V, over which no cable is taken"
            raise FastenError(what, where=LIMIT.name, fix="write 3 %, or 0.5 V")
        return limit_v, ""
    percent, source = rule_figure(tables, WiringRules.DROP_LIMIT)
    return percent / 100 * supply_v, source


def _insulation(question: Question, tables: Tables) -> tuple[float, str]:
    """What the cable is made for: as printed; unmarked where it is at hand, specified where it is to be bought."""
    if question.insulation_c is not None:
        return question.insulation_c, ""
    name = WiringRules.INSULATION_BOUGHT if question.cable is None else WiringRules.INSULATION_UNMARKED
    return rule_figure(tables, name)
