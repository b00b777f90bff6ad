"""The torque window of a joint: what keeps it from slipping below, what would give first above.

Scatter is counted once: the nominal nut factor with the spread of the way it is tightened, then the share of preload
the joint keeps.
"""

from collections.abc import Callable
from functools import cached_property, lru_cache
from operator import itemgetter

from fasten.catalog.materials import FACES, FINISHES, Face, Finish
from fasten.catalog.named import material
from fasten.catalog.practice import FACTORS, RULES, TIGHTENING, Rule, Tightening
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of, screw_of
from fasten.mechanics.torque import preload_against_separation_n, preload_against_slip_n, torque_nm
from fasten.model import Check, Demand, Input, Joint, JointKind, MountPoint, Read, Span, Torque
from fasten.model.kinds import Locks, Thread
from fasten.model.known import MostTorque
from fasten.proof.checks import at_most, holds
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.loads import Loads, loads_of
from fasten.proof.modes import tested
from fasten.proof.modes.capacity import Capacity
from fasten.proof.torque import ring
from fasten.proof.torque.limits import IN_SHEET, Limit, by_torque, upper_limits
from fasten.record import lean, record
from fasten.text.units import nm_to_inlbf

WAY = "torque_wrench"
Followed = tuple[tuple[Input, ...], tuple[str, ...]]
"""The figures that something follows from, and their sources."""


@lean
class Reserve:
    """What a clamped joint has left: the clamp that service needs, and the least that a torque gives by its scatter.

    `kept` is the share of it that the joint keeps.
    """

    needed_n: float
    newtons_a_nm: float
    kept: float

    def share(self, torque_nm: float) -> float:
        """Share of the least clamp that may go before service slips or parts the joint, 1 - (T + V/µ)/(F (1 - u))."""
        return 1 - self.needed_n / (self.newtons_a_nm * torque_nm)

    def kept_n(self, torque_nm: float) -> float:
        """The least clamp that stays of this torque, F (1 - u) kept."""
        return self.kept * self.newtons_a_nm * torque_nm


@record
class Window:
    """The torque a joint may have. `preload_needed_n` is what service needs of one fixing, `lower_nm` what gives it.

    A located joint claims no preload: `lower_nm` seats it, when it is tightened, against what service pulls and what
    foam pushes back, and nothing counts on that afterwards.

    It is the torque that clamps: what a prevailing-torque nut takes to turn comes on top and is read on the wrench.
    Tables give only its greatest, and a worn nut tightened by that would crush what it clamps. What the torque itself
    breaks or turns therefore gets its limit less that greatest.

    A tool may be off by `error` either way, so that the target lies under the upper end by it, or in the middle where
    the screw `forms` its thread, and the least that it surely gives must be no less than `lower_nm`.
    """

    lower_nm: float
    upper: Limit
    preload_needed_n: float
    shown: Callable[[], Followed]
    nut_factor: Span
    error: Rule
    forms: bool
    reserve: Reserve | None = None
    lower_formula: str | None = None

    @cached_property
    def _shown(self) -> Followed:
        return self.shown()

    @property
    def inputs(self) -> tuple[Input, ...]:
        """What its lower end follows from, which is asked of a window that is shown alone."""
        return self._shown[0]

    @property
    def from_(self) -> tuple[str, ...]:
        """The sources of that."""
        return self._shown[1]

    @property
    def target_nm(self) -> float:
        """What the tool is set to."""
        if self.forms:
            return (self.lower_nm + self.upper.torque_nm) / 2
        return self.upper.torque_nm / (1 + self.error.value)

    @property
    def surely_nm(self) -> float:
        """What a tool set so that it never goes over the upper end surely reaches."""
        return self.upper.torque_nm * (1 - self.error.value) / (1 + self.error.value)

    @property
    def holds(self) -> bool:
        """Whether it is open, by its figures alone; `checks` has its line."""
        return holds(self.lower_nm, self.surely_nm)

    def torque(self) -> Torque:
        """The window as an answer gives it."""
        kept = None if self.reserve is None else self.reserve.share(self.target_nm)
        return Torque(
            target_nm=self.target_nm, min_nm=self.lower_nm, max_nm=self.upper.torque_nm,
            target_inlbf=nm_to_inlbf(self.target_nm), limited_by=self.upper.name, nut_factor=self.nut_factor, tool=WAY,
            from_=(*self.from_, *self.upper.shown().from_), past_driving=self.upper.name == IN_SHEET,
            clamp_reserve=kept,
        )  # fmt: skip


@record
class ByFeel:
    """There is no torque to give, and why."""

    why: str


@record
class NotTightened:
    """Nothing is tightened, and why."""

    why: str


Torqued = Window | ByFeel | NotTightened
Limits = Callable[[Joint, MountPoint, float, Tables], tuple[Limit, ...]]


def window(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables) -> Window:
    """Torque window of a screwed joint, empty where `lower_nm` is above `upper.torque_nm`."""
    finish, way = tables.need(FINISHES, screw_of(joint).finish), tables.need(TIGHTENING, WAY)
    common = upper_limits(joint, mount, finish.nut_factor, way.scatter, tables)
    upper = min((*common, *limits(joint, mount, finish.nut_factor, tables)), key=by_torque)
    lower = _lower(joint, mount, demands, finish, way, tables)
    lug = ring.lug(mount, tables)
    seated = (
        lower if lug is None else _on_ring(joint, ring.pressed(lug, mount, ring.LEAST, tables), finish, way, tables)
    )
    ends_at = seated if seated.torque_nm > lower.torque_nm else lower
    return Window(
        ends_at.torque_nm, upper, lower.needed_n, ends_at.shown, Span(finish.nut_factor_min, finish.nut_factor_max),
        tool_error(upper.torque_nm, tables), _forms_in_sheet(joint), lower.reserve, ends_at.formula,
    )  # fmt: skip


@lean
class _Lower:
    """A torque that must be reached at least, and what it follows from; the clamp that service needs, where it does."""

    torque_nm: float
    shown: Callable[[], Followed]
    formula: str | None
    needed_n: float = 0.0
    reserve: Reserve | None = None


def _lower(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], finish: Finish, way: Tightening, tables: Tables
) -> _Lower:
    """What service needs: of a clamped joint all the time, of a located one when it is tightened."""
    screw, face = screw_of(joint), tables.need(FACES, faces(joint, mount, tables))
    slip, slip_source = factor(tables, "slip-unlocked" if _turns_free(joint) else "slip")
    separation, separation_source = factor(tables, "separation")
    needed_n, worst, least_n = _needed(loads_of(demands), face.friction, slip, separation, bears_shear(joint))
    clamped = joint.kind is JointKind.CLAMPED
    push_n, foam, foam_sources = limiter_fit.foam_push(mount, tables)
    kept_share, kept_sources = _kept(joint, face, mount, tables)
    nominal_n = (needed_n + push_n) / ((1 - way.scatter) * (kept_share if clamped else 1.0))

    def shown() -> Followed:
        against_slip = (
            Input("shear in service", worst.slips_n, "N"), Input("face friction", face.friction, "-"),
            Input("factor on slip", slip, "-"),
        )  # fmt: skip
        by_wrench, wrench_sources = _by_wrench(joint, finish, way, tables)
        against_pull = (
            Input("tension in service", worst.tension_n, "N"), Input("factor on separation", separation, "-"),
            *by_wrench,
        )  # fmt: skip
        kept = (Input("preload kept", kept_share, "-"),) if clamped else ()
        sources = (worst.from_, slip_source, separation_source, *wrench_sources)
        return (
            (*(() if bears_shear(joint) else against_slip), *against_pull, *kept, *foam),
            (*sources, *(kept_sources if clamped else foam_sources)),
        )

    lower_nm = torque_nm(nut_factor=finish.nut_factor, diameter_mm=screw.diameter_mm, preload_n=nominal_n)
    if not clamped:
        return _Lower(lower_nm, shown, _seated(joint, foam=bool(foam)), needed_n)
    reserve = Reserve(least_n, (1 - way.scatter) * 1000 / (finish.nut_factor * screw.diameter_mm), kept_share)
    return _Lower(lower_nm, shown, None, needed_n, reserve)


def _on_ring(joint: Joint, seats: Capacity, finish: Finish, way: Tightening, tables: Tables) -> _Lower:
    """What keeps the contact of a ring."""
    least_n, diameter_mm = seats.load_n / (1 - way.scatter), screw_of(joint).diameter_mm
    by_wrench, sources = _by_wrench(joint, finish, way, tables)
    return _Lower(
        torque_nm(nut_factor=finish.nut_factor, diameter_mm=diameter_mm, preload_n=least_n),
        lambda: ((*seats.inputs, *by_wrench), (*seats.from_, *sources)), f"K d ({seats.formula}) / (1 - scatter)",
    )  # fmt: skip


def _by_wrench(joint: Joint, finish: Finish, way: Tightening, tables: Tables) -> Followed:
    """What makes a clamp of a torque."""
    inputs = (
        Input("scatter", way.scatter, "-"), Input("nut factor", finish.nut_factor, "-"),
        Input("screw diameter", screw_of(joint).diameter_mm, "mm"),
    )  # fmt: skip
    return inputs, (tables.source_id(FINISHES, finish), tables.source_id(TIGHTENING, way))


def checks(joint: Joint, found: Window, tables: Tables) -> tuple[Check, ...]:
    """One line: what the torque must reach at least, against what gives first."""
    error, upper = Input("tool error", found.error.value, "-"), found.upper.shown()
    inputs = tuple(dict.fromkeys((*found.inputs, *upper.inputs, error)))
    forces = "separation x T" if bears_shear(joint) else "(separation x T + slip x V / friction)"
    lower = found.lower_formula or f"K d {forces} / ((1 - scatter) kept)"
    sources = tuple(dict.fromkeys((*found.from_, *upper.from_, tables.source_id(RULES, found.error))))
    formula = f"{lower} <= ({upper.formula}) (1 - tool error) / (1 + tool error)"
    check = at_most("torque-window", f"Torque window, limited by {found.upper.name}", found.lower_nm, found.surely_nm,
                    "N·m", inputs, formula, sources)  # fmt: skip
    return (check,)


def tool_error(most_nm: float, tables: Tables) -> Rule:
    """What a tool may be off by that is set under this torque, as a share of it."""
    small, large, from_ = _tool_errors(tables)
    return small if most_nm / (1 + small.value) <= from_.value else large


@lru_cache(maxsize=8)
def _tool_errors(tables: Tables) -> tuple[Rule, Rule, Rule]:
    """Of small torques and of large ones, and from where on they are large."""
    names = (Rules.TOOL_ERROR_SMALL, Rules.TOOL_ERROR_LARGE, Rules.TOOL_ERROR_FROM)
    small, large, from_ = (rule(tables, name) for name in names)
    return small, large, from_


def _turns_free(joint: Joint) -> bool:
    """Whether nothing but the clamp keeps the joint: no lock, and a spring washer is none (NASA RP-1228); or the hole
    is wide enough to slip in.
    """
    return joint.lock.how in {Locks.NOTHING, Locks.SPRING} or joint.oversize_mm > 0


def _kept(joint: Joint, face: Face, mount: MountPoint, tables: Tables) -> tuple[float, tuple[str, ...]]:
    """The share of preload that the joint keeps: of its faces, of its wet locker, or as read when it was tightened
    again, the lowest.
    """
    found: list[tuple[float, tuple[str, ...]]] = [(face.kept_preload, (tables.source_id(FACES, face),))]
    if joint.lock.how is Locks.LOCKER:
        wet = rule(tables, Rules.KEPT_WITH_LOCKER)
        found.append((wet.value, (tables.source_id(FACES, face), tables.source_id(RULES, wet))))
    read = tested.found(Read.KEPT, joint, mount, tables) if mount.tests else None
    if read is not None:
        found.append((min(read.readings), read.from_))
    return min(found)


def _seated(joint: Joint, foam: bool) -> str:
    """The formula of a torque that only seats: on the limiter where there is one, against foam where it is pressed."""
    where = "seated" if limiter_of(joint) is None else "seated on the limiter"
    force = "(separation x T + push x width x foam)" if foam else "x separation x T"
    return f"{where}: K d {force} / (1 - scatter)"


@lru_cache(maxsize=32)
def factor(tables: Tables, family: str) -> tuple[float, str]:
    """The factor of service on the load itself, and its source."""
    row = tables.need(FACTORS, "service", family)
    assert row.factor is not None, f"{family} counts in service"
    return row.factor, tables.source_id(FACTORS, row)


def _needed(loads: Loads, friction: float, slip: float, separation: float, bears: bool) -> tuple[float, Demand, float]:
    """The most preload that service needs with these factors, by which load, and what that needs without any."""
    known, asked = loads.clamped, (friction, slip, separation, bears)
    if asked not in known:
        each = [(_needed_n(one, friction, slip, separation, bears), one) for one in loads.service]
        needed_n, worst = max(each, key=itemgetter(0))
        known[asked] = needed_n, worst, _needed_n(worst, friction, 1.0, 1.0, bears)
    return known[asked]


def _needed_n(demand: Demand, friction: float, slip: float, separation: float, bears: bool) -> float:
    """Preload that keeps one fixing from separating and, where it does not carry shear in bearing, from slipping."""
    against_pull = preload_against_separation_n(pull_n=demand.tension_n, load_share=0.0, factor=separation)
    if bears:
        return against_pull
    return against_pull + preload_against_slip_n(shear_n=demand.slips_n, friction=friction, factor=slip)


def bears_shear(joint: Joint) -> bool:
    """Whether shear goes in bearing: in a located joint, and, as AISI E4 has it, where the screw forms its thread."""
    return joint.kind is JointKind.LOCATED or _forms_in_sheet(joint)


def _forms_in_sheet(joint: Joint) -> bool:
    return joint.screw is not None and joint.screw.kind.thread is Thread.FORMS_IN_SHEET


def faces(joint: Joint, mount: MountPoint, tables: Tables) -> str:
    """Which pair of faces the joint clamps: the softer one decides."""
    return _faces(tables, mount.item_material, mount.material)


@lru_cache(maxsize=64)
def _faces(tables: Tables, *materials: str) -> str:
    families = {material(tables, name).family for name in materials}
    if families & {"plastic", "laminate"}:
        return "metal_on_plastic"
    if families & {"board", "wood"}:
        return "metal_on_board"
    return "painted_metal"


def past_driving(torque: Torque) -> str:
    """What is said of a torque that only clamps: how hard a thread-forming screw drives in sheet is in no table."""
    return " past what drives it" if torque.limited_by == IN_SHEET else ""


# -- how it is tightened ----------------------------------------------------------------------------------------------


def by_box(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
) -> Window | ByFeel:
    """`torque` of a part whose box says how tight: the window once it has been read."""
    if joint.receiver is not None and isinstance(joint.receiver.box_torque, MostTorque):
        return window(joint, mount, demands, limits, tables)
    return ByFeel("its box has not been read")


def by_feel(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables) -> ByFeel:
    """`torque` of a screw where no figure is known for what strips it."""
    return ByFeel("no figure is known for what strips it there")


def not_tightened(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
) -> NotTightened:
    """`torque` of what is set, pressed in or stuck on."""
    return NotTightened("nothing is tightened")
