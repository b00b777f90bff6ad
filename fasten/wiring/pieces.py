"""The pieces that a run is cut into, and the ends that each has: at its ends, fuses, devices and the ground."""

from collections.abc import Mapping
from functools import cached_property, lru_cache

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Status
from fasten.model.check import worst
from fasten.record import lean, record, replace
from fasten.wiring.ends import DEVICES, HOLDERS, EndFit, fit
from fasten.wiring.fuse import Fuse, is_battery, is_ground
from fasten.wiring.places import place_of
from fasten.wiring.sizing import MOST_KEPT, Sizing, nameless
from fasten.wiring.terminals import terminal_checks
from fasten.wiring.words import (
    BatteryPost,
    DeviceEnd,
    End,
    Loudspeaker,
    NamedEnd,
    Pole,
    Run,
    Splice,
    SpliceEnd,
    StudAt,
    StudEnd,
    Terminal,
    TerminalEnd,
    Unsized,
)

_FIRST = ("outside", "shrink", "bore", "conductor", "tab")  # what is measured first, by what it changes
RED, BLACK, BLUE, PAIR, ANY = "red", "black", "blue", "pair", "any colour"


@record
class Joint:
    """A place where cable of a run ends: its label, what it is, whose torque it goes by, how many conductors end.

    `at` is what it is at: the name of something of the job, or the family of a fuse.
    """

    label: str
    end: End
    whose: str
    count: int
    at: str


@lean
class Piece:
    """A piece of cable: its colour, how long it is along the route and as it is cut.

    `route_mm` is None where the place of a device divides it. `from_` and `to` are what its ends are called.
    """

    colour: str
    route_mm: float | None
    cut_mm: float
    from_: str
    to: str


@record
class Made:
    """A run made up: the pieces, and every end with what it is fitted with."""

    pieces: tuple[Piece, ...]
    ends: tuple[EndFit, ...]

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """What must fit or be confirmed at its ends, each once: first what changes most."""
        found: dict[str, Check] = {}
        for check in (check for end in self.ends for check in end.checks):
            if check.id not in found or worst((check, found[check.id])) is not found[check.id].status:
                found[check.id] = check  # what is open at one end does not hold by another
        return tuple(sorted(found.values(), key=lambda check: _place(check.id)))

    @cached_property
    def open_at(self) -> Mapping[str, tuple[EndFit, ...]]:
        """The ends at which each check is open, by its id."""
        found: dict[str, list[EndFit]] = {}
        for end in self.ends:
            for id_ in dict.fromkeys(check.id for check in end.checks if is_open(check)):
                found.setdefault(id_, []).append(end)
        return {id_: tuple(ends) for id_, ends in found.items()}


def is_open(check: Check) -> bool:
    """Whether nothing is known yet of what a check waits for."""
    return check.status is Status.NOT_CHECKED


def _place(identity: str) -> int:
    kind = identity.partition(".")[0]
    return _FIRST.index(kind) if kind in _FIRST else len(_FIRST)


def made(sizing: Sizing, tables: Tables) -> Made:
    """The pieces and ends of a run."""
    return made_of_any_name(nameless(sizing), tables)


@lru_cache(MOST_KEPT)
def made_of_any_name(sizing: Sizing, tables: Tables) -> Made:
    """The same of a run without a name, on which none of it depends."""
    run = sizing.run
    chain = _chain(run, None if in_block(run) or run.to_holder else sizing.fuse)
    ground = _ground(run)
    pieces = (*_pieces(chain, sizing, tables), *_ground_piece(ground, sizing, tables))
    ends = tuple(_fitted(joint, pole, sizing, tables) for joint in (*chain, *ground) for pole in range(joint.count))
    return Made(pieces, ends)


def _fitted(joint: Joint, pole: int, sizing: Sizing, tables: Tables) -> EndFit:
    """An end with all that must fit or be confirmed there."""
    found = fit(joint.end, _pole(joint, pole), sizing.size, sizing.run, tables, joint.whose)
    full_a = None if sizing.current is None else sizing.current.full_a
    carries = terminal_checks(joint.end, joint.whose, sizing.size, full_a, tables)
    return replace(found, place=place_of(joint.end, joint.at), checks=(*found.checks, *carries))


def in_block(run: Run) -> bool:
    """Whether the fuse of a run sits in the block that it comes out of."""
    return run.in_block


def end_text(end: End) -> str:
    """An end in words, as it is asked for."""
    if isinstance(end, BatteryPost):
        return f"battery {end.pole.value}"
    if isinstance(end, StudEnd):
        battery, device = f"battery {end.pole.value}", f"stud {end.stud}"
        return {StudAt.BATTERY: battery, StudAt.BODY: "body", StudAt.DEVICE: device}[end.at]
    if isinstance(end, TerminalEnd):
        return end.terminal.value if end.tab is None else f"tab {end.tab}"
    if isinstance(end, NamedEnd | DeviceEnd):
        return end.name
    return end.splice.value if end.splice is Splice.CONNECTOR else f"{end.splice.value} splice"


def unfed_at(run: Run) -> str:
    """Where what feeds a run begins, as far as it is known, that no battery or run feeds; empty where one does."""
    if run.unfed_at or run.fed or is_ground(run) or is_battery(run.from_) or is_battery(run.to):
        return run.unfed_at
    return run.from_name or run.name or end_text(run.from_)


def colour_of(run: Run) -> str:
    """The colour of the cable: red for plus, black for ground, blue for a remote lead."""
    if isinstance(run.carries, Loudspeaker):
        return PAIR
    if isinstance(run.carries, Unsized):
        return BLUE if run.carries is Unsized.REMOTE else ANY
    return BLACK if is_ground(run) else RED


def _chain(run: Run, fuse: Fuse | None) -> tuple[Joint, ...]:
    count = 2 if isinstance(run.carries, Loudspeaker) else 1
    through = [] if run.through is None else [_through(run.through, side) for side in ("in", "out")]
    first, last = _holder(fuse, run, 0), _holder(fuse, run, 1) if fuse is not None and fuse.count > 1 else []
    if fuse is not None and fuse.count == 1 and is_battery(run.to) and not is_battery(run.from_):
        first, last = [], first
    plus = " +" if run.ground_mm else ""
    to = run.to_name or (_bare_text(run.to) if plus else end_text(run.to))
    whose = [HOLDERS if holder else DEVICES for holder in (run.from_holder, run.to_holder)]
    return (
        Joint(run.from_name or end_text(run.from_), run.from_, whose[0], count, run.from_name),
        *first, *through, *last,
        Joint(f"{to}{plus}", run.to, whose[1], count, run.to_name),
    )  # fmt: skip


def _holder(fuse: Fuse | None, run: Run, which: int) -> list[Joint]:
    """The two ends at a fuse holder, as its row has them; it is called as in the job where it is a mount point."""
    if fuse is None:
        return []
    at = f"fuse {fuse.family.family}"
    name = dict(enumerate(run.holder_names)).get(which, "fuse 2" if which else "fuse")
    return [Joint(f"{name} {side}", holder_end(fuse), HOLDERS, 1, at) for side in ("in", "out")]


def holder_end(fuse: Fuse) -> End:
    """What the holder of a fuse takes."""
    kinds: dict[str, End] = {
        "stud": StudEnd(fuse.family.stud, StudAt.DEVICE), "set screw": TerminalEnd(Terminal.SET_SCREW),
        "splice": SpliceEnd(Splice.BUTT),
    }  # fmt: skip
    return kinds[fuse.family.ends]


def hangs_in_cable(fuse: Fuse) -> bool:
    """Whether the holder of a fuse is spliced into its cable, so that nothing else has to hold it."""
    return isinstance(holder_end(fuse), SpliceEnd)


def _through(end: StudEnd, side: str) -> Joint:
    return Joint(f"device {side}", end, DEVICES, 1, "through")


def _ground(run: Run) -> tuple[Joint, ...]:
    """The ends of a ground lead beside the run: at the device and at the body."""
    if not run.ground_mm:
        return ()
    return (
        Joint(f"{run.to_name or _bare_text(run.to)} -", _minus(run.to), DEVICES, 1, run.to_name),
        Joint("body", StudEnd(None, StudAt.BODY), DEVICES, 1, ""),
    )


def _minus(end: End) -> End:
    """The other pole, where an end is at the plus of a battery; a device takes its ground as it takes its plus."""
    if isinstance(end, BatteryPost):
        return BatteryPost(Pole.MINUS)
    return replace(end, pole=Pole.MINUS) if isinstance(end, StudEnd) and is_battery(end) else end


def _bare_text(end: End) -> str:
    """An end in words, without its pole."""
    return "battery" if is_battery(end) else end_text(end)


def _pole(joint: Joint, pole: int) -> str:
    return joint.label if joint.count == 1 else f"{joint.label} {'+-'[pole]}"


def _pieces(chain: tuple[Joint, ...], sizing: Sizing, tables: Tables) -> list[Piece]:
    """One piece more than there are holders and devices on the way."""
    run, colour = sizing.run, colour_of(sizing.run)
    stops = [*chain[1:-1:2]]
    routes = _routes(stops, run, tables)
    labels = [chain[0].label, *(stop.label.rpartition(" ")[0] for stop in stops), chain[-1].label]
    more = 2 * end_more_mm(sizing, tables)
    whole = run.length_mm if None in routes else 0.0
    known = sum(route for route in routes if route is not None)
    unknown = routes.count(None)
    return [
        Piece(colour, route, (route if route is not None else (whole - known) / unknown) + more, *labels[at : at + 2])
        for at, route in enumerate(routes)
    ]  # fmt: skip


def _routes(stops: list[Joint], run: Run, tables: Tables) -> list[float | None]:
    """How long each piece is along the route; two pieces at a device are as its place has them."""
    at_mm, _ = rule_figure(tables, WiringRules.FUSE_AT)
    near = min(at_mm, run.length_mm / 2)
    kinds = [stop.whose == HOLDERS for stop in stops]
    if not stops:
        return [run.length_mm]
    if all(kinds):
        ends = [near] * len(stops)
        rest = run.length_mm - sum(ends)
        if len(stops) == 2:
            return [near, rest, near]
        return [rest, near] if is_battery(run.to) and not is_battery(run.from_) else [near, rest]
    routes: list[float | None] = [None] * (len(stops) + 1)
    if kinds[0]:
        routes[0] = near
    if kinds[-1]:
        routes[-1] = near
    return routes


def _ground_piece(ground: tuple[Joint, ...], sizing: Sizing, tables: Tables) -> list[Piece]:
    if not ground:
        return []
    cut = sizing.run.ground_mm + 2 * end_more_mm(sizing, tables)
    return [Piece(BLACK, sizing.run.ground_mm, cut, ground[0].label, ground[1].label)]


def end_more_mm(sizing: Sizing, tables: Tables) -> float:
    """What is cut for each end beside the route."""
    below, _ = rule_figure(tables, WiringRules.END_MORE_THIN_BELOW)
    thin = sizing.size.area_mm2 < below
    return rule_figure(tables, WiringRules.END_MORE_THIN if thin else WiringRules.END_MORE)[0]
