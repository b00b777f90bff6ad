"""A run as text: cable and fuse first, then what is not checked, each step of the chain, and the proof."""

from collections import Counter
from collections.abc import Iterator

from fasten.model import Status
from fasten.report.answer.proof import proof
from fasten.report.forms.as_text import section_lines
from fasten.report.wire.sections import sections, to_accept
from fasten.report.wrap import wrapped
from fasten.text.exceeded import exceeded
from fasten.text.figures import figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.text.shown import shown
from fasten.text.units import number
from fasten.wiring.conductor import Conductor
from fasten.wiring.current import Current
from fasten.wiring.fuse import Fuse
from fasten.wiring.pieces import in_block
from fasten.wiring.plan import plan_of
from fasten.wiring.sizing import Lead, NoSize, Sizing, title_of
from fasten.wiring.wired import Wired
from fasten.wiring.words import RunWhere

_LABEL = 9


def wire_text(answer: Wired | NoSize, width: int) -> str:
    """The answer in lines of at most `width` columns, ended by a line feed."""
    lines = _refused(answer, width) if isinstance(answer, NoSize) else _answered(answer, width)
    return "\n".join(lines) + "\n"


def _refused(answer: NoSize, width: int) -> Iterator[str]:
    yield "Nothing fits"
    yield from wrapped(f"{capital(answer.because)}: {answer.fix}.", width)


def _answered(answer: Wired, width: int) -> Iterator[str]:
    yield from wrapped(headline(answer.sizing), width)
    yield from wrapped(_verdict(answer), width, rest="  ")
    for label, text in chain(answer.sizing):
        yield from wrapped(text, width, first=f"{label:{_LABEL}}", rest=" " * _LABEL)
    plan = plan_of(answer.sizing.run.name, answer)
    for section in (*sections(answer, plan), *to_accept(answer)):
        yield from section_lines(section, width)
    yield from ("", "PROOF", *proof(answer.checks, answer.sources, width))


def headline(sizing: Sizing) -> str:
    """The cable with its fuse, and where that sits."""
    fuse = sizing.fuse
    if fuse is None:
        return title_of(sizing)
    if in_block(sizing.run):
        return f"{title_of(sizing)} in the block"
    at = "each battery" if fuse.count > 1 else "its source"
    return f"{title_of(sizing)} within {figure(fuse.within_mm)} mm of {at}"


def open_titles(answer: Wired) -> list[str]:
    """What is still to be measured or confirmed, by short names, each once and how often where it is more than once."""
    counts = Counter(title[0].lower() + title[1:] for title in answer.to_measure)
    return [title if count == 1 else f"{title} ({count})" for title, count in counts.items()]


def _verdict(answer: Wired) -> str:
    failing = [exceeded(check) for check in answer.checks if check.status is Status.FAILS]
    if failing:
        enough = answer.sizing.enough
        would = f"; {enough.name} would do" if enough is not None else ""
        return f"DOES NOT HOLD: {'; '.join(failing)}{would}"
    if answer.needs:
        return f"NOT PROVEN: measure or confirm {len(answer.needs)}: {', '.join(open_titles(answer))}"
    count = len(answer.checks)
    return f"All {count} checks hold, none left open." if count > 1 else "Its one check holds."


def chain(sizing: Sizing) -> Iterator[tuple[str, str]]:
    """Each step of the chain: label and text."""
    current, found = sizing.current, sizing.conductor
    if current is not None:
        yield "Current", _current(current, sizing)
    if found is not None and sizing.lead is None:
        yield "Drop", _drop(sizing, found)
    if found is not None:
        yield "Carries", _carries(found)
    if found is not None and sizing.run.place_assumed:
        yield "Assumed", _assumed(sizing.run.where, found.ambient_c)
    if sizing.lead is not None:
        yield "Lead", _lead(sizing.lead, "there and back")
    if sizing.path is not None:
        names = (*sizing.run.leads_before.names, *sizing.run.leads_behind.names)
        yield "Path", _lead(sizing.path, f"with {', '.join(map(shown, names))}")
    if sizing.fuse is not None:
        yield "Fuse", _fuse(sizing.fuse, sizing.run.holder_names)
    yield from _instead(sizing)


def _assumed(where: RunWhere, ambient_c: float) -> str:
    """Where a run counts as, where that is not said."""
    because = "an end of it is there" if where is RunWhere.ENGINE_BAY else "no place is said"
    return f"{where.value}, {figure(ambient_c)} °C along all of it, as {because}"


def _current(current: Current, sizing: Sizing) -> str:
    music = "" if current.music_a is None else f"; about {figure(round(current.music_a))} A of it on music"
    own = sum(sizing.run.own_fuses_a)
    least = f", its own fuses {figure(own)} A" if own else ""
    supply = "" if sizing.lead is not None else f" and {figure(sizing.run.supply_v)} V"
    return f"{number(current.full_a, 1)} A at full output{supply}{least}{music}"


def _drop(sizing: Sizing, found: Conductor) -> str:
    run = sizing.run
    ground = ", power and ground lead" if run.ground_mm or run.return_mm else ""
    ground += f", body {figure(run.body_mohm)} mΩ" if run.body_mohm else ""
    ground += f", {rounded_up(run.body_others_v, 3)} V of it by others in the body" if run.body_others_v else ""
    ground += f", {rounded_up(run.before_v, 3)} V of it on the way there" if run.before_v else ""
    over = f"; {rounded_up(sizing.over_limit_v, 3)} V over the limit" if sizing.over_limit_v else ""
    return (
        f"{rounded_up(found.drop_v, 3)} of {rounded_down(found.limit_v, 3)} V{ground}, "
        f"conductor at {figure(round(found.conductor_c))} °C{over}"
    )


def _carries(found: Conductor) -> str:
    factors = "".join(f", {one.name} {figure(one.value)}" for one in found.factors[1:])
    return f"{rounded_down(found.ampacity_a, 1)} A, row {found.row} at {found.insulation_c} °C{factors}"


def _fuse(fuse: Fuse, holders: tuple[str, ...]) -> str:
    window = f"{rounded_up(fuse.least_a, 1)} to {rounded_down(fuse.most_a, 1)} A would do"
    where = f", in {' and '.join(holders)}" if holders else ""
    return f"{figure(fuse.rating_a)} A {fuse.family.title}, {fuse.family.standard}{where}; {window}"


def _lead(lead: Lead, way: str) -> str:
    return (
        f"{rounded_up(lead.loop_ohm, 3)} Ω {way}, {rounded_up(lead.share_of_z_pct, 1)} % of the impedance, "
        f"{rounded_up(lead.loss_db, 2)} dB quieter"
    )


def _instead(sizing: Sizing) -> Iterator[tuple[str, str]]:
    one = sizing.instead
    if one is None or one.fuse is None:
        return
    found, over_v = one.conductor, one.conductor.drop_v - one.conductor.limit_v
    if over_v <= 0:  # it was passed over for what is behind it
        return
    lost = f"loses {rounded_up(found.drop_v, 3)} V: {rounded_up(over_v, 3)} over the limit"
    yield "Instead", f"{found.size.name} carries a {figure(one.fuse.rating_a)} A fuse, but {lost}"
