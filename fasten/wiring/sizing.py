"""The chain of a run: current, cable and fuse, each with its line of proof; or why no size does."""

from collections.abc import Iterator
from functools import lru_cache

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.mechanics.wiring import lead_loss_db, loop_ohm
from fasten.model import Check, Input, Power, Status
from fasten.model.check import worst
from fasten.proof.checks import at_most, waits
from fasten.record import lean, record, replace
from fasten.text.figures import figure
from fasten.text.rounding import rounded_down, rounded_up
from fasten.text.shown import shown
from fasten.wiring.conductor import Conductor, conductor, conductor_checks
from fasten.wiring.covers import is_plugged
from fasten.wiring.current import Current, current_of
from fasten.wiring.fuse import Fuse, fuse_check, fuse_of, is_ground, is_minus_lead, least_rating, sources_of
from fasten.wiring.sizes import sizes
from fasten.wiring.words import Amps, Branches, Joined, Loudspeaker, Run, RunWhere, Size, Unsized

_DUST = 1e-6
NO_FUSE = "no-fuse"  # the check of a cable that has no fuse, which nothing but a fuse settles
MOST_KEPT = 500  # different runs of which the answers are kept


@lean
class Lead:
    """What a loudspeaker lead comes to: its resistance there and back, as a share of the impedance, and the loss."""

    loop_ohm: float
    share_of_z_pct: float
    loss_db: float


@lean
class Option:
    """A size of cable on a run with the fuse it carries; None where no rating lies in its window."""

    conductor: Conductor
    fuse: Fuse | None
    fits: bool


@lean
class Sizing:
    """A run that has its cable.

    `current`, `conductor` and `fuse` are None where none is calculated. `enough` is the size that would do where the
    chosen one is too small, `instead` the next smaller one that carries its fuse but loses more than the limit.
    """

    run: Run
    size: Size
    current: Current | None
    conductor: Conductor | None
    fuse: Fuse | None
    lead: Lead | None
    instead: Option | None
    enough: Size | None
    checks: tuple[Check, ...]

    def __hash__(self) -> int:
        return hash((self.run, self.size))  # all else follows from these, and is far more

    @property
    def path(self) -> Lead | None:
        """What all leads from the amplifier to the loudspeaker come to; None where a lead is alone."""
        beside = self.run.leads_before, self.run.leads_behind
        if self.lead is None or not any(one.names for one in beside):
            return None
        share_pct = self.lead.share_of_z_pct + sum(one.share_pct for one in beside)
        loss = lead_loss_db(lead_ohm=share_pct / 100, impedance_ohm=1.0)
        return Lead(self.lead.loop_ohm + sum(one.loop_ohm for one in beside), share_pct, loss)

    @property
    def over_limit_v(self) -> float:
        """By how much the voltage drop misses the limit; 0 where it does not."""
        if self.conductor is None or self.lead is not None:  # a loudspeaker lead has a limit of its own
            return 0.0
        return max(0.0, self.conductor.drop_v - self.conductor.limit_v)


@record
class NoSize:
    """Why no size does, with figures; `fix` is what to do instead. `in_circle` where it feeds itself."""

    run: Run
    because: str
    fix: str
    in_circle: bool = False


Sized = Sizing | NoSize


def in_circle(run: Run, through: tuple[str, ...]) -> NoSize:
    """Why there is nothing for a run that feeds itself through these."""
    fix = "let one of them begin elsewhere; a block of grounds is a mount point of its own"
    return NoSize(run, f"it feeds itself in a circle: {', '.join(map(shown, through))}", fix, in_circle=True)


def nameless(sizing: Sizing) -> Sizing:
    """The same of a run without a name: what many runs of a job may share."""
    return replace(sizing, run=replace(sizing.run, name=""))


def cable_of(sizing: Sizing) -> str:
    """The cable: its size and what it is of, or that it comes with its plugs."""
    load = sizing.run.carries
    if isinstance(load, Unsized) and is_plugged(sizing.run):
        return f"{load.value} lead with plugs"
    return f"{sizing.size.name} {sizing.run.material.value}"


def hot_instead(sizing: Sizing, tables: Tables) -> str:
    """What a run gets in the engine bay instead; empty where that is the same cable and fuse."""
    hot = sized(replace(sizing.run, where=RunWhere.ENGINE_BAY), tables)
    if isinstance(hot, NoSize):
        return "another way, as no size does"
    if worst(hot.checks) is Status.FAILS:
        return f"more than {hot.size.name}"
    return "" if title_of(hot) == title_of(sizing) else title_of(hot)


def title_of(sizing: Sizing) -> str:
    """The cable, and its fuses, or the one before it that protects it as well."""
    cable, fuse = cable_of(sizing), sizing.fuse
    if isinstance(sizing.run.carries, Unsized) and is_plugged(sizing.run):
        return cable
    if fuse is None:
        return f"{cable}{_behind(sizing.run)}"
    count = f"{fuse.count} fuses of {figure(fuse.rating_a)} A" if fuse.count > 1 else f"{figure(fuse.rating_a)} A fuse"
    return f"{cable}, {count}"


def _behind(run: Run) -> str:
    """The fuse before a run that protects it as well, or all the fuses of what a lead from battery minus carries."""
    if run.upstream_fuse_a is None:
        return ""
    before = figure(run.upstream_fuse_a)
    return f", behind {before} A of fuses" if is_minus_lead(run) else f", behind the {before} A fuse"


def sized(run: Run, tables: Tables) -> Sizing | NoSize:
    """The cable and fuse of a run, or why there are none."""
    run = _as_lead(run, tables) if isinstance(run.carries, Loudspeaker) else run
    return replace(sized_of_any_name(_of_any_name(run), tables), run=run)


def _of_any_name(run: Run) -> Run:
    """A run without the names of it and of what it is at, on which no size depends."""
    return replace(run, name="", from_name="", to_name="")


@lru_cache(MOST_KEPT)
def sized_of_any_name(run: Run, tables: Tables) -> Sizing | NoSize:
    """The same of a run without names: of many runs few ask for something else."""
    if isinstance(run.carries, Unsized):
        return _unsized(run, tables)
    if isinstance(run.carries, Loudspeaker):
        return _lead(run.carries, run, tables)
    return _power(run.carries, run, tables)


def option(size: Size, current: Current, run: Run, tables: Tables) -> Option | None:
    """A size on a run: whether it carries its fuse and keeps the limit; None where nothing is known of it."""
    found = conductor(size, current.full_a, run, tables)
    if found is None or current.fuse_floor_a is None:
        return None
    grounded = is_ground(run)
    fuse = None if grounded else fuse_of(
        current.fuse_floor_a, found.ampacity_a, size.area_mm2, run.holder, sources_of(run.from_, run.to), tables,
        is_chosen=run.chosen is not None,
    )  # fmt: skip
    before_a = run.upstream_fuse_a
    if before_a is None and grounded:
        before_a = least_rating(current.fuse_floor_a, size.area_mm2, None, tables)
    upstream = before_a is not None and found.ampacity_a >= before_a
    fuse = None if upstream else fuse  # the fuse before it protects it as well
    carries = fuse is not None or upstream
    keeps = found.drop_v <= run.limit_v + run.over_v and size.area_mm2 >= run.least_mm2 * (1 - _DUST)
    return Option(found, fuse, carries and keeps)


def _power(load: Amps | Power | Branches, run: Run, tables: Tables) -> Sizing | NoSize:
    current = current_of(load, run, tables)
    most, _ = rule_figure(tables, WiringRules.CURRENT_MOST)
    if current.full_a > most:
        because = f"{figure(current.full_a)} A is over {figure(most)} A, the most of one run"
        return NoSize(run, because, _shared_out(run))
    found = _tried(current, run, tables)
    fit = found[-1] if found and found[-1].fits else None
    taken = fit if run.chosen is None else option(run.chosen, current, run, tables)
    if taken is None:
        return _none_fits(found, current, run, tables) if run.chosen is None else _no_row(run.chosen, run, tables)
    before = found[:-1] if fit is not None and run.chosen is None else []
    is_more = fit is not None and not taken.fits and taken.conductor.size.area_mm2 < fit.conductor.size.area_mm2
    enough = fit.conductor.size if fit is not None and is_more else None
    return Sizing(
        run=run, size=taken.conductor.size, current=current, conductor=taken.conductor, fuse=taken.fuse, lead=None,
        instead=next((one for one in reversed(before) if one.fuse is not None), None), enough=enough,
        checks=_power_checks(taken, current, run, tables),
    )  # fmt: skip


def _tried(current: Current, run: Run, tables: Tables) -> list[Option]:
    """The sizes up to the first that fits, which is the last of them; all where none does."""
    found: list[Option] = []
    for size in sizes(run.series, tables):
        one = option(size, current, run, tables)
        if one is not None:
            found.append(one)
            if one.fits:
                break
    return found


def _power_checks(taken: Option, current: Current, run: Run, tables: Tables) -> tuple[Check, ...]:
    checks = (current.check, *conductor_checks(taken.conductor, current.full_a, run, tables))
    found, floor_a = taken.conductor, current.fuse_floor_a or current.full_a
    if taken.fuse is not None:
        return (*checks, fuse_check(taken.fuse, tables, found.ampacity_from))
    before_a = run.upstream_fuse_a
    asked_a = before_a or least_rating(floor_a, found.size.area_mm2, None if is_ground(run) else run.holder, tables)
    if asked_a is None or (before_a is None and not is_ground(run) and asked_a <= found.ampacity_a):
        kind = "none is known" if run.holder is None else f"the kind {run.holder} has none so high"
        needs = f"needs a fuse of {rounded_up(floor_a, 1)} A or more: {kind}; name another kind"
        return (*checks, waits(NO_FUSE, "Fuse", "A", floor_a, needs, (), "", ()))
    before = "Least fuse before it" if is_ground(run) else "Least fuse"
    if before_a is not None:
        before = "Fuses before it" if is_minus_lead(run) else "Fuse before it"
    inputs = Input("least", asked_a, "A"), Input("carries", found.ampacity_a, "A")
    return (*checks, at_most("fuse", f"{before}, of what the cable carries", asked_a, found.ampacity_a, "A", inputs,
                             "least <= what the cable carries", found.ampacity_from))  # fmt: skip


def _too_small(family: str, current: Current, run: Run, tables: Tables) -> NoSize | None:
    """Why no fuse of the family that was asked for does; None where one does."""
    most_a = max(rating for row in tables.rows(FUSE_FAMILIES) if row.family == family for rating in row.ratings_a)
    floor_a = current.fuse_floor_a or 0.0
    if floor_a <= most_a:
        return None
    because = f"a fuse {family} is made up to {figure(most_a)} A, and this one needs {rounded_up(floor_a, 1)} A"
    return NoSize(run, because, "leave the kind of fuse out, or name one for more current")


def _no_row(size: Size, run: Run, tables: Tables) -> NoSize:
    """Why a chosen cable is no answer: no row says what it carries."""
    known = (one for one in sizes(run.series, tables) if conductor(one, 0.0, run, tables) is not None)
    least = next((f"from {one.name} up" for one in known), "marked 60 °C or more")
    because = f"no row of ampacity is for {size.name} at {figure(run.insulation_c)} °C"
    return NoSize(run, because, f"take cable {least}")


def _none_fits(found: list[Option], current: Current, run: Run, tables: Tables) -> NoSize:
    """Why the largest size does not do."""
    if not found:
        return NoSize(run, f"nothing is known of cable for {figure(run.insulation_c)} °C here", "take 105 °C cable")
    if run.holder is not None and (short := _too_small(run.holder, current, run, tables)) is not None:
        return short
    last = found[-1].conductor
    lost = f"{last.size.name} loses {rounded_up(last.drop_v, 3)} V, the limit is {rounded_down(run.limit_v, 3)} V"
    floor = current.fuse_floor_a or 0.0
    if found[-1].fuse is None and last.drop_v <= run.limit_v:
        lost = f"{last.size.name} carries {figure(last.ampacity_a)} A, and its fuse needs {rounded_up(floor, 1)} A"
    return NoSize(run, f"no size does: {lost}", f"{_shared_out(run)}, or shorten the run")


def _shared_out(run: Run) -> str:
    """What to do where one cable cannot carry all of it."""
    if is_minus_lead(run):
        return "run another cable just like it beside it, from the battery minus to the body"
    return f"give each amplifier a {'ground' if is_ground(run) else 'fused run'} of its own"


def on_path(sizing: Sizing, behind: Joined, tables: Tables) -> Sized:
    """A loudspeaker lead that has its size, with the leads behind it."""
    load, run = sizing.run.carries, replace(sizing.run, leads_behind=behind)
    return _lead(load, run, tables, sizing.size) if isinstance(load, Loudspeaker) else sizing


def lead_options(load: Loudspeaker, run: Run, tables: Tables) -> Iterator[tuple[Conductor, Lead]]:
    """The sizes that do for a lead by itself, thinnest first: each carries the current, its loop keeps the limit."""
    run = _as_lead(run, tables)
    known = sizes(run.series, tables)
    tried = known if run.chosen is None or run.chosen in known else (*known, run.chosen)
    current, (share, _) = current_of(load, run, tables), rule_figure(tables, WiringRules.LOOP_SHARE)
    for size in tried:
        found = conductor(size, current.full_a, run, tables)
        if found is None or current.full_a > found.ampacity_a or size.area_mm2 < run.least_mm2 * (1 - _DUST):
            continue
        lead = _loop(found, load, run)
        if lead.share_of_z_pct <= share:
            yield found, lead


def _lead(load: Loudspeaker, run: Run, tables: Tables, kept: Size | None = None) -> Sized:
    """A lead; the limit is for the whole path. Where no size keeps it, the least that does by itself is not proven."""
    run = _as_lead(run, tables)
    current = current_of(load, run, tables)
    share, share_source = rule_figure(tables, WiringRules.LOOP_SHARE)
    wanted, (fit, least) = kept or run.chosen, _on_whole_path(load, run, share, tables)
    if wanted is not None:
        chosen = conductor(wanted, current.full_a, run, tables)
        if chosen is None:
            return _no_row(wanted, run, tables)
        taken = chosen, _loop(chosen, load, run)
    elif least is not None:
        taken = fit or least
    else:
        because = f"no size keeps the lead to {figure(share)} % of {figure(load.impedance_ohm)} Ω and carries it"
        return NoSize(run, because, "shorten the lead, or choose a thicker cable")
    found, lead = taken
    warm, _, carries = conductor_checks(found, current.full_a, run, tables)
    enough = fit[0].size if fit is not None and fit[0].size.area_mm2 > found.size.area_mm2 else None
    loop = _loop_check(load, lead, run, (*found.size.from_, share_source), share)
    return Sizing(run, found.size, current, found, None, lead, None, enough, (warm, loop, carries))


def _on_whole_path(
    load: Loudspeaker, run: Run, share_pct: float, tables: Tables
) -> tuple[tuple[Conductor, Lead] | None, tuple[Conductor, Lead] | None]:
    """The thinnest that keeps the limit with the leads before and behind it, and the thinnest that does by itself."""
    room_pct, least = share_pct - run.leads_before.share_pct - run.leads_behind.share_pct, None
    for one in lead_options(load, run, tables):
        least = least or one
        if one[1].share_of_z_pct <= room_pct:
            return one, least
    return None, least


def _loop_check(load: Loudspeaker, lead: Lead, run: Run, from_: tuple[str, ...], most: float) -> Check:
    """The loop of all leads on the path, each as a share of the impedance that is said of it, by the limit."""
    inputs = (Input("loop", lead.loop_ohm, "Ω"), Input("impedance", load.impedance_ohm, "Ω"))
    beside = [one for one in (("before it", run.leads_before), ("behind it", run.leads_behind)) if one[1].names]
    more = tuple(Input(name, joined.share_pct, "%") for name, joined in beside)
    formula = " + ".join(("loop / impedance", *(name for name, _ in beside)))
    whole = lead.share_of_z_pct + sum(joined.share_pct for _, joined in beside)
    title = f"Resistance of the {'path' if beside else 'lead'}, of its limit"
    return at_most("loop", title, whole, most, "%", (*inputs, *more), f"{formula} <= limit", from_)


def _as_lead(run: Run, tables: Tables) -> Run:
    """A run by the column of insulation that a loudspeaker lead is sized by."""
    warmest, _ = rule_figure(tables, WiringRules.LOUDSPEAKER_INSULATION)
    return run if run.insulation_c <= warmest else replace(run, insulation_c=warmest)


def _loop(found: Conductor, load: Loudspeaker, run: Run) -> Lead:
    ohm = loop_ohm(resistance_mohm_per_m=found.resistance_mohm_per_m, length_mm=run.length_mm)
    loss = lead_loss_db(lead_ohm=ohm, impedance_ohm=load.impedance_ohm)
    return Lead(ohm, 100 * ohm / load.impedance_ohm, loss)


def _least(run: Run, tables: Tables) -> Size:
    """The thinnest cable that is made up by hand."""
    return sizes(run.series, tables)[0]


def _unsized(run: Run, tables: Tables) -> Sizing:
    """What carries next to nothing: no thinner than what can be made up by hand."""
    least = _least(run, tables)
    size = run.chosen or least
    inputs = Input("least", least.area_mm2, "mm²"), Input("cable", size.area_mm2, "mm²")
    check = at_most("conductor", "Thinnest cable to make up, of this one", least.area_mm2, size.area_mm2, "mm²",
                    inputs, "least <= cable", size.from_)  # fmt: skip
    return Sizing(run, size, None, None, None, None, None, None if check.status is Status.HOLDS else least, (check,))
