"""The conditions under which a row of steps, tools or cautions of a run applies: their names in `only_if`."""

from collections.abc import Callable, Iterable, Mapping

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Status
from fasten.record import lean
from fasten.wiring.ends import NONE, Bare, EndFit
from fasten.wiring.fuse import is_battery, is_body, is_ground, is_grounded, is_minus, smaller_of
from fasten.wiring.passing import Passage, late
from fasten.wiring.pieces import Made
from fasten.wiring.sizing import Sizing
from fasten.wiring.words import End, Loudspeaker, Material, Run, RunWhere, Unsized

NOT = "not "


@lean
class Done:
    """A run that is sized and made up: what conditions and blanks are of; `through` are its holes in the job."""

    sizing: Sizing
    made: Made
    tables: Tables
    through: tuple[Passage, ...] = ()

    @property
    def late(self) -> frozenset[int]:
        """The ends, by their places, that are made only once the cable is through its holes."""
        return late(self.made, self.sizing.run, self.through)

    @property
    def before_holes(self) -> tuple[EndFit, ...]:
        """The ends that are made before."""
        return tuple(end for at, end in enumerate(self.made.ends) if at not in self.late)

    @property
    def past_holes(self) -> tuple[EndFit, ...]:
        """The ends that are made after."""
        return tuple(end for at, end in enumerate(self.made.ends) if at in self.late)

    def __hash__(self) -> int:
        return hash(self.sizing)  # how it is made up follows from that, but for what is accepted


Holds = Callable[[Done], bool]
BARE = frozenset({Bare.STRAND, Bare.RETIGHTENED, Bare.CLAMPED})


def is_ready_made(done: Done) -> bool:
    """Whether the cable comes with a plug at each end, so that nothing of it is made up."""
    return all(end.bare is Bare.PLUGGED for end in done.made.ends)


def is_between_batteries(done: Done) -> bool:
    """Whether both ends are at the plus of a battery."""
    return all(map(is_battery, _ends(done)))


# fmt: off
CONDITIONS: Mapping[str, Holds] = {
    # what it carries
    "power":          lambda d: d.sizing.conductor is not None and d.sizing.lead is None,
    "loudspeaker":    lambda d: isinstance(d.sizing.run.carries, Loudspeaker),
    "sized by hand":  lambda d: isinstance(d.sizing.run.carries, Unsized),
    "loaded":         lambda d: not isinstance(d.sizing.run.carries, Unsized),
    "over 100 A":     lambda d: d.sizing.current is not None and d.sizing.current.full_a > _over(d),
    # the cable
    "chosen cable":   lambda d: d.sizing.run.chosen is not None,
    "copper-clad":    lambda d: d.sizing.run.material is Material.CLAD,
    "over limit":     lambda d: d.sizing.over_limit_v > 0,
    "engine bay":     lambda d: d.sizing.run.where in (RunWhere.ENGINE_BAY, RunWhere.EXHAUST),
    "place assumed":  lambda d: _is_cabin_assumed(d.sizing.run) and d.sizing.conductor is not None,
    # the fuse and the ground
    "fuse":           lambda d: d.sizing.fuse is not None,
    "large fuse":     lambda d: (
        d.sizing.fuse is not None and d.sizing.run.holder is None and smaller_of(d.sizing.fuse, d.tables) is not None
    ),
    "two batteries":  is_between_batteries,
    "at battery":     lambda d: is_battery(d.sizing.run.from_) or is_battery(d.sizing.run.to),
    "battery minus":  lambda d: any(map(is_minus, _ends(d))),
    "ground lead":    lambda d: d.sizing.run.ground_mm > 0,
    "ground run":     lambda d: d.sizing.conductor is not None and is_ground(d.sizing.run),
    "body measured":  lambda d: d.sizing.run.body_mohm > 0,
    "bare body":      lambda d: is_at_bare_body(d.sizing.run),
    "to body":        lambda d: d.sizing.run.ground_mm > 0 or any(map(is_grounded, _ends(d))),
    "shared stud":    lambda d: bool(d.sizing.run.at_studs),
    "long ground":    lambda d: _ground_mm(d) > rule_figure(d.tables, WiringRules.GROUND_MOST)[0],
    # the holes it goes through
    "through hole":   lambda d: bool(d.through),
    "late end":       lambda d: bool(d.late),
    # the ends
    "stripped":       lambda d: any(end.strip_mm is not None for end in d.before_holes),
    "crimped":        lambda d: any(end.tool is not None for end in d.before_holes),
    "pulled":         lambda d: any(end.pull_n is not None for end in d.made.ends),
    "bare end":       lambda d: any(end.bare in BARE for end in d.before_holes),
    "retightened":    lambda d: any(end.bare is Bare.RETIGHTENED for end in d.made.ends),
    "soldered":       lambda d: any(end.bare is Bare.SOLDERED for end in d.made.ends),
    "shrink":         lambda d: any(end.shrink is not None for end in d.before_holes),
    "tightened":      lambda d: any(end.turn.whose != NONE for end in d.made.ends),
    "measured":       lambda d: d.sizing.conductor is not None,
    "ready-made":     is_ready_made,
    "to measure":     lambda d: any(one.status is Status.NOT_CHECKED for end in d.made.ends for one in end.checks),
}
# fmt: on


def is_at_bare_body(run: Run) -> bool:
    """Whether a run, or the ground lead beside it, ends at the body where the job has no mount point."""
    ends = (run.from_, run.from_name), (run.to, run.to_name)
    at_body = any(is_body(end) and not name for end, name in ends)
    return at_body or run.ground_mm > 0


def _is_cabin_assumed(run: Run) -> bool:
    return run.place_assumed and run.where is RunWhere.CABIN


def holding(done: Done) -> frozenset[str]:
    """The names of the conditions that hold."""
    return frozenset(name for name, holds in CONDITIONS.items() if holds(done))


def applies(only_if: Iterable[str], held: frozenset[str]) -> bool:
    """Whether all of `only_if` hold; a name after `not` must not."""
    return all((name.removeprefix(NOT) in held) != name.startswith(NOT) for name in only_if)


def _ends(done: Done) -> tuple[End, ...]:
    return done.sizing.run.from_, done.sizing.run.to


def _over(done: Done) -> float:
    return rule_figure(done.tables, WiringRules.BODY_CABLE_OVER)[0]


def _ground_mm(done: Done) -> float:
    """How long the ground lead is: the one beside the run, or the run that is one."""
    run = done.sizing.run
    return run.length_mm if is_ground(run) else run.ground_mm
