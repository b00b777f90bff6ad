"""What fills the blanks of a step or caution of a run, such as {pieces} or {turns}."""

from collections.abc import Callable, Iterable, Iterator, Mapping

from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.mechanics.wiring import drop_v, weight_kg
from fasten.text.figures import figure
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, rounded_up
from fasten.text.shown import shown
from fasten.wiring.conditions import BARE, Done, is_between_batteries
from fasten.wiring.covers import outside_of
from fasten.wiring.ends import NONE, EndFit, Turn
from fasten.wiring.fuse import smaller_of
from fasten.wiring.parts import part_words, pieces_of
from fasten.wiring.passing import leads
from fasten.wiring.pieces import Piece
from fasten.wiring.sizing import hot_instead

NOTHING = "-"
_WEIGHED_MM, _LIGHT_G, _G_PER_KG = 100.0, 10.0, 1000.0
Fills = Callable[[Done], str]


class Filled(dict[str, str]):
    """The blanks of a run, each filled when a text first has it."""

    def __init__(self, done: Done) -> None:
        super().__init__()
        self._done = done

    def __missing__(self, name: str) -> str:
        """What fills the blank of this name."""
        self[name] = BLANKS[name](self._done)
        return self[name]


def metres(mm: float) -> str:
    """A length of cable in metres, to a centimetre and rounded up."""
    return f"{rounded_up(mm / 1000, 2)} m"


def turn_text(turn: Turn) -> str:
    """The torque of an end in few words: the figure, else whose it is."""
    if turn.target_nm is not None:
        return _target(turn.target_nm, past_turning=turn.past_turning)
    if turn.least_nm is None or turn.most_nm is None:
        return turn.whose
    return _span(turn.least_nm, turn.most_nm)


def _target(nm: float, *, past_turning: bool) -> str:
    return f"{rounded_down(nm, 2)} N·m{' past what turns the nut' if past_turning else ''}"


def _span(least_nm: float, most_nm: float) -> str:
    return f"{figure(least_nm)} to {figure(most_nm)} N·m"


def _pieces(done: Done) -> str:
    colours = dict.fromkeys(piece.colour for piece in done.made.pieces)
    size = done.sizing.size.name
    return "; ".join(f"{colour} {size}: {_lengths(pieces_of(done, colour))}" for colour in colours)


def _lengths(pieces: list[Piece]) -> str:
    """The lengths to cut; what a device divides is cut there."""
    divided = [piece.cut_mm for piece in pieces if piece.route_mm is None]
    at_device = f"{metres(sum(divided))} in {len(divided)} pieces, as the device sits"
    known = [metres(piece.cut_mm) for piece in pieces if piece.route_mm is not None]
    return " and ".join([*known, *([at_device] if divided else [])])


def _middle(done: Done) -> str:
    over, _ = rule_figure(done.tables, WiringRules.MARKER_OVER)
    return ", and one in the middle" if done.sizing.run.length_mm > over else ""


def _each(ends: Iterable[EndFit], said: Callable[[EndFit], str]) -> str:
    """What is said of the ends, each text once with the ends it is of."""
    found: dict[str, list[str]] = {}
    for end in ends:
        if text := said(end):
            found.setdefault(text, []).append(end.label)
    return "; ".join(f"{', '.join(labels)}: {text}" for text, labels in found.items()) or NOTHING


def _strips(done: Done) -> str:
    return _each(done.before_holes, _strip)


def _strip(end: EndFit) -> str:
    return "" if end.strip_mm is None else f"{rounded_up(end.strip_mm, 0)} mm"


def _shrinks(done: Done) -> str:
    return _each(done.before_holes, _shrink)


def _shrink(end: EndFit) -> str:
    return "" if end.shrink is None else f"{end.shrink.row.size}, {rounded_up(end.shrink.cut_mm, 0)} mm"


def _before_crimp(done: Done) -> str:
    shrinks = [end.shrink for end in done.before_holes if end.shrink is not None]
    return " before the crimp" if any(shrink.before_crimp for shrink in shrinks) else ""


def _crimps(done: Done) -> str:
    return _each(done.before_holes, _crimp)


def _crimp(end: EndFit) -> str:
    return "" if end.part is None or end.tool is None else f"{part_words(end.part)}, {end.tool}"


def terminals(done: Done) -> str:
    """What is crimped on each end, whatever it is crimped with."""
    return _each(done.before_holes, lambda end: "" if end.part is None else part_words(end.part))


def _late(done: Done) -> str:
    """The ends that are made once the cable is through, each with all that is done to it."""
    return ". ".join(f"{end.label}: {'; '.join(_made_late(end))}" for end in done.past_holes)


def _made_late(end: EndFit) -> Iterator[str]:
    if end.shrink is not None:
        yield f"slide on {_shrink(end)}"
    if end.strip_mm is not None:
        yield f"strip {_strip(end)}"
    yield f"crimp {_crimp(end)}" if end.tool is not None else "crimp it"
    if end.shrink is not None:
        yield "shrink it"


def _led_by(done: Done) -> str:
    """Which end goes through first, where the other does not pass."""
    first = leads(done.made, done.sizing.run, done.through)
    return f", its end at {first} first: the other may not pass" if first else ""


def _bares(done: Done) -> str:
    return capital(_each(done.before_holes, lambda end: end.bare.value if end.bare in BARE else ""))


def _pull(done: Done) -> str:
    return rounded_up(max((end.pull_n or 0.0) for end in done.made.ends), 0)


def _turns(done: Done) -> str:
    return _each(done.made.ends, lambda end: "" if end.turn.whose == NONE else turn_words(end.turn))


def turns_in_brief(done: Done) -> str:
    """How tight the ends are, in few words; empty where nothing is turned."""
    found = _each(done.made.ends, lambda end: "" if end.turn.whose == NONE else turn_text(end.turn))
    return "" if found == NOTHING else found


def turn_words(turn: Turn) -> str:
    """The torque of an end, and whose figure comes before it."""
    if turn.target_nm is not None:
        return turn_text(turn)
    if turn.least_nm is None or turn.most_nm is None:
        return turn.whose
    return f"{turn.whose}, where it says none {_span(turn.least_nm, turn.most_nm)}"


def _bend(done: Done) -> str:
    outside = outside_of(done.sizing.size, done.sizing.run, done.tables)
    times, _ = rule_figure(done.tables, WiringRules.BEND)
    return f"{figure(times)} times its outside" if outside is None else rounded_up(times * outside.most_mm, 0)


def _along(done: Done, length_mm: float) -> str:
    """What may be lost along so much of the cable at full output, in mV."""
    found, current = done.sizing.conductor, done.sizing.current
    if found is None or current is None:
        return NOTHING
    lost = drop_v(current_a=current.full_a, resistance_mohm_per_m=found.resistance_mohm_per_m, length_mm=length_mm)
    return rounded_up(lost * 1000, 0)


def _ends(done: Done) -> str:
    return ", ".join(dict.fromkeys(end.label for end in done.made.ends))


def _enough(done: Done) -> str:
    enough = done.sizing.enough
    return "" if enough is None else f"; {enough.name} keeps it"


def _volts(volts: float | None) -> str:
    return NOTHING if volts is None else rounded_up(volts, 3)


def _fuse(done: Done) -> str:
    fuse = done.sizing.fuse
    if fuse is None:
        return NOTHING
    each = f"{figure(fuse.rating_a)} A"
    return f"the {each} fuse" if fuse.count == 1 else f"both fuses of {each}"


def _minus_off(done: Done) -> str:
    """What is taken off before anything: the minus of every battery that the run is at."""
    if is_between_batteries(done):
        return "Take the minus off both batteries and tie each"
    return "Take the battery minus off and tie it"


def _last(done: Done) -> str:
    return "Both fuses go" if is_between_batteries(done) else "The fuse goes"


def _smaller(done: Done) -> str:
    smaller_a = None if done.sizing.fuse is None else smaller_of(done.sizing.fuse, done.tables)
    return "" if smaller_a is None else figure(smaller_a)


def _within(done: Done) -> str:
    return NOTHING if done.sizing.fuse is None else figure(done.sizing.fuse.within_mm)


def _drop(done: Done) -> str:
    return _volts(None if done.sizing.conductor is None else done.sizing.conductor.drop_v)


def _weight(done: Done) -> str:
    """What 100 mm of the bare conductor weighs in copper, in g: to a tenth, thin cable to a hundredth."""
    density, _ = rule_figure(done.tables, WiringRules.COPPER_DENSITY)
    weighs = weight_kg(area_mm2=done.sizing.size.area_mm2, length_mm=_WEIGHED_MM, density_g_cm3=density)
    grams = weighs * _G_PER_KG
    return f"{grams:.{2 if grams < _LIGHT_G else 1}f}"


def _loop(done: Done) -> str:
    return NOTHING if done.sizing.lead is None else rounded_up(done.sizing.lead.loop_ohm, 3)


def _at_studs(done: Done) -> str:
    return " and ".join(f"{count} lugs end at {shown(stud)}" for stud, count in done.sizing.run.at_studs)


def _hot(done: Done) -> str:
    """What the run would get in the engine bay."""
    return hot_instead(done.sizing, done.tables) or "the same cable and fuse"


BLANKS: Mapping[str, Fills] = {
    "pieces": _pieces, "middle marker": _middle, "strips": _strips, "shrinks": _shrinks, "before crimp": _before_crimp,
    "crimps": _crimps, "bares": _bares, "pull": _pull, "turns": _turns, "bend": _bend, "ends": _ends,
    "fuse": _fuse, "minus off": _minus_off, "fuses": _last,
    "within": _within, "drop": _drop, "enough": _enough, "loop": _loop,
    "smaller": _smaller, "size": lambda done: done.sizing.size.name, "weight": _weight,
    "holes": lambda done: " and ".join(one.name for one in done.through), "led by": _led_by, "late ends": _late,
    "plus mv": lambda done: _along(done, done.sizing.run.length_mm),
    "ground mv": lambda done: _along(done, done.sizing.run.ground_mm),
    "over": lambda done: rounded_up(done.sizing.over_limit_v, 3),
    "limit": lambda done: rounded_down(done.sizing.run.limit_v, 3),
    "ground": lambda done: figure(done.sizing.run.ground_mm or done.sizing.run.length_mm),
    "ground most": lambda done: figure(rule_figure(done.tables, WiringRules.GROUND_MOST)[0]),
    "at studs": _at_studs, "hot": _hot,
}  # fmt: skip
