"""How fast an item sways on its panel: by a push, a tap, the bay that it sits in or the span of a board.

The least and the most it can be; what lies between is not known.
"""

from math import inf, sqrt

from fasten.catalog.materials import MATERIALS, Material
from fasten.catalog.named import material
from fasten.catalog.practice import CLAMPED_BAYS, RULES, ClampedBay
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.floor import floor_of, mass_on_panel_kg
from fasten.geometry.patterns import positions_mm
from fasten.mechanics.plate import (
    bay_n_per_mm,
    bay_tilt_nmm_per_rad,
    floor_foot_ratio,
    floor_n_per_mm,
    mounted_frequency_hz,
    plate_rigidity_nmm,
    pushed_high_n_per_mm,
    pushed_low_n_per_mm,
    rocking_frequency_hz,
    two_pushes_n_per_mm,
)
from fasten.model import Bay, Bound, Firm, FloorSpan, Input, MountPoint, OnBoard, OnFrame, Panel, Pushed, Tapped
from fasten.proof.doubled import Doubled, doubled
from fasten.record import record

BOARDS = frozenset({"board", "wood"})
NO_STRETCH = 1e9  # mm: of what gains nothing as it stretches
CURVED = frozenset({Panel.SIDE, Panel.ROOF, Panel.DOOR})


@record
class Swaying:
    """How fast the item sways, at least and at most, from what, and by which formula."""

    low_hz: float
    high_hz: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]
    needs: str = ""  # what it takes to know better, where that is not a push
    snaps: bool = False  # it gives way as it is pushed: no practice makes up for that


def sway_of(mount: MountPoint, tables: Tables) -> Swaying | None:
    """How fast the item sways by what was said of the panel; None where nothing given decides it."""
    board, support = mount.on_board, mount.support
    floor = floor_of(mount)
    if isinstance(support, Firm):
        push, moved = rule(tables, Rules.FIRM_PUSH), rule(tables, Rules.FIRM_MOVED)
        return _one_push(mount, push.value, moved.value, tables, (tables.source_id(RULES, push),), most=inf)
    if isinstance(support, Pushed) and len(support.pushes) == 1:
        return _one_push(mount, support.pushes[0].force_n, support.pushes[0].moved_mm, tables, ())
    if isinstance(support, Pushed):
        return _two_pushes(mount, support, tables)
    if isinstance(support, Tapped):
        error = rule(tables, Rules.TAP_ERROR)
        inputs = (Input("tapped", support.frequency_hz, "Hz"), Input("error", error.value, "Hz"))
        low, high = max(support.frequency_hz - error.value, 0.0), support.frequency_hz + error.value
        return Swaying(low, high, inputs, "tapped - error", (tables.source_id(RULES, error),))
    if isinstance(support, Bay):
        return _in_bay(mount, support, tables)
    found = None if floor is None else _on_floor(mount, floor, tables)
    return found if found is None or board is None else _in_series(found, board, tables)


def _in_series(found: Swaying, board: OnBoard, tables: Tables) -> Swaying:
    """The item on its board, and the board on its panel: both give, so that it sways slower than on either alone."""
    if isinstance(board.under.support, OnFrame):
        return found
    below = sway_of(board.under, tables)
    if below is None or below.low_hz <= 0:
        needs = (
            "needs a frame under the board, or a push on the board itself: how the panel below it gives is not known"
        )
        return Swaying(0.0, inf, found.inputs, found.formula, found.from_, needs)
    low, high = (
        1 / sqrt(one**-2 + other**-2) for one, other in ((found.low_hz, below.low_hz), (found.high_hz, below.high_hz))
    )
    inputs = (*found.inputs, Input("the board on its panel sways at", below.low_hz, "Hz"))
    formula = f"{found.formula}; 1 / f^2 = 1 / f of the item^2 + 1 / f of the board^2"
    return Swaying(low, high, inputs, formula, tuple(dict.fromkeys((*found.from_, *below.from_))))


def push_errors(force_n: float, tables: Tables) -> tuple[float, float, tuple[str, ...]]:
    """What a push and a reading may be off by, and the sources of both."""
    force, reading = rule(tables, Rules.PUSH_ERROR), rule(tables, Rules.READING_ERROR)
    return force.value * force_n, reading.value, (tables.source_id(RULES, force), tables.source_id(RULES, reading))


def _one_push(
    mount: MountPoint,
    force_n: float,
    moved_mm: float,
    tables: Tables,
    from_: tuple[str, ...],
    most: float | None = None,
) -> Swaying:
    error_n, reading_mm, sources = push_errors(force_n, tables)
    high = most
    if high is None:
        high = inf
        if moved_mm > reading_mm:
            high = pushed_high_n_per_mm(
                force_n=force_n, moved_mm=moved_mm, force_error_n=error_n, reading_error_mm=reading_mm
            )
    stretches_mm = stretched_mm(mount, tables)
    low = pushed_low_n_per_mm(
        force_n=force_n, moved_mm=moved_mm, force_error_n=error_n, reading_error_mm=reading_mm,
        thickness_mm=stretches_mm,
    )  # fmt: skip
    inputs = (
        Input("push", force_n, "N"), Input("moved", moved_mm, "mm"), Input("error of the push", error_n, "N"),
        Input("error of the reading", reading_mm, "mm"),
        *((Input("sheet", stretches_mm, "mm"),) if stretches_mm < NO_STRETCH else ()),
    )  # fmt: skip
    stretch = " / (1 + 1.43 ((moved + error) / sheet)^2)" if stretches_mm < NO_STRETCH else ""
    formula = f"sqrt((push - error) / (moved + error){stretch} / mass) / (2 pi)"
    return by_stiffness(mount, low, high, inputs, formula, (*from_, *sources))


def stretched_mm(mount: MountPoint, tables: Tables) -> float:
    """The thickness that a panel stretches by: thin metal does, board and plastic are too thick or too soft."""
    return mount.thickness_min_mm if material(tables, mount.material).family == "sheet" else NO_STRETCH


def _two_pushes(mount: MountPoint, support: Pushed, tables: Tables) -> Swaying:
    first, second = support.pushes
    snaps, least, most = (
        rule(tables, n) for n in (Rules.SECOND_PUSH_SHARE, Rules.TWO_PUSHES_LOW, Rules.TWO_PUSHES_HIGH)
    )
    inputs = (
        Input("first push", first.force_n, "N"), Input("first moved", first.moved_mm, "mm"),
        Input("second push", second.force_n, "N"), Input("second moved", second.moved_mm, "mm"),
    )  # fmt: skip
    formula = "F = k0 w + c w^3 through both; 0.8 k0 to 1.25 k0"
    sources = tuple(tables.source_id(RULES, one) for one in (snaps, least, most))
    if first.moved_mm <= 0 or second.force_n / second.moved_mm < snaps.value * first.force_n / first.moved_mm:
        needs = "needs a frame or rails: the panel snaps as it is pushed"
        return Swaying(0.0, inf, inputs, formula, sources, needs, snaps=True)
    found = max(
        two_pushes_n_per_mm(
            first_n=first.force_n, first_mm=first.moved_mm, second_n=second.force_n, second_mm=second.moved_mm
        ),
        0.0,
    )
    return by_stiffness(mount, least.value * found, most.value * found, inputs, formula, sources)


def by_stiffness(
    mount: MountPoint, low: float, high: float, inputs: tuple[Input, ...], formula: str, from_: tuple[str, ...]
) -> Swaying:
    """Bounce from a stiffness, and rocking no slower than a tilt by that stiffness at the fixings makes it."""
    mass_kg = mass_on_panel_kg(mount)
    slower = rocking_share(mount)
    low_hz = slower * mounted_frequency_hz(stiffness_n_per_mm=low, mass_kg=mass_kg)
    high_hz = inf if high == inf else mounted_frequency_hz(stiffness_n_per_mm=high, mass_kg=mass_kg)
    given = (
        *inputs,
        Input("mass on the panel", mass_kg, "kg"),
        *((Input("rocking over bounce", slower, "-"),) if slower < 1 else ()),
    )
    return Swaying(low_hz, high_hz, given, formula, from_)


def rocking_share(mount: MountPoint) -> float:
    """How much slower the item rocks than it bounces, at most: its panel resists a tilt at the fixings as it does both.

    Of a block as long as its pattern: sqrt(r^2 / (r^2/3 + 4 h^2/3)), r the reach of the fixings, h the height.
    """
    reach = [
        max(abs(value) for value in side) for side in zip(*positions_mm(mount.pattern, mount.fixings), strict=True)
    ]
    arms = [value for value in reach if value > 0]
    return min([1.0, *(sqrt(3 / (1 + 4 * (mount.cg_mm / arm) ** 2)) for arm in arms)])


def _in_bay(mount: MountPoint, bay: Bay, tables: Tables) -> Swaying | None:
    rigidity, inputs, sources = rigidity_of(mount, tables)
    inputs = (Input("short side", bay.short_mm, "mm"), Input("long side", bay.long_mm, "mm"), *inputs)
    formula = "mass on a plate with simply supported edges at the fixings (Navier), bounce and rocking"
    share = rule(tables, Rules.BAY_SHARE)
    if rigidity is None:
        needs = "needs a push: how this material bends is not known"
        return Swaying(0.0, inf, inputs, formula, sources, needs)
    points = _along(mount, bay)
    out = max((max(2 * abs(x) / bay.short_mm, 2 * abs(y) / bay.long_mm) for x, y in points), default=0.0)
    if out > share.value:
        needs = "needs a frame: the fixings reach the lines of support; say frame where they go through them"
        return Swaying(0.0, inf, inputs, formula, (*sources, tables.source_id(RULES, share)), needs)
    given = {"points_mm": points, "short_mm": bay.short_mm, "long_mm": bay.long_mm, "rigidity_nmm": rigidity}
    bounce, tilts = bay_n_per_mm(**given), bay_tilt_nmm_per_rad(**given)  # type: ignore[arg-type]
    clamped = _clamped(points, bay, tables)
    if mount.doubler is not None:
        with_it = doubled(mount, mount.doubler, bay, points, rigidity, tables)
        return _with_doubler(mount, with_it, _slowest(mount, points, bounce, tilts), inputs, sources)
    low = _slowest(mount, points, bounce, tilts)
    high = _slowest(mount, points, bounce * clamped[0], (tilts[0] * clamped[1], tilts[1] * clamped[2]))
    flat = mount.panel not in CURVED and bay.bound is Bound.EXACT  # a narrower one may be stiff enough
    return Swaying(
        low,
        high if flat else inf,
        (*inputs, Input("mass on the panel", mass_on_panel_kg(mount), "kg")),
        formula,
        sources,
    )


def _with_doubler(
    mount: MountPoint, found: Doubled, bare_hz: float, inputs: tuple[Input, ...], from_: tuple[str, ...]
) -> Swaying:
    """No slower than without the doubler; how fast at most is not known."""
    formula = "stiffness of the bay with its doubler by finite elements, bounce and rocking"
    given, sources = (*inputs, *found.inputs), tuple(dict.fromkeys((*from_, *found.from_)))
    swaying = by_stiffness(mount, found.n_per_mm, inf, given, formula, sources)
    return Swaying(max(swaying.low_hz, bare_hz), inf, swaying.inputs, formula, sources, found.needs)


def _along(mount: MountPoint, bay: Bay) -> tuple[tuple[float, float], ...]:
    """The fixings in the bay, the long side of their pattern along its long side."""
    points = positions_mm(mount.pattern, mount.fixings)
    wide = [max(values) - min(values) for values in zip(*points, strict=True)]
    return points if wide[0] <= wide[1] else tuple((y, x) for x, y in points)


def _slowest(
    mount: MountPoint, points: tuple[tuple[float, float], ...], bounce: float, tilts: tuple[float, float]
) -> float:
    """The slower of bounce and rocking."""
    mass_kg = mass_on_panel_kg(mount)
    found = [mounted_frequency_hz(stiffness_n_per_mm=bounce, mass_kg=mass_kg)]
    for tilt, side in zip(tilts, zip(*points, strict=True), strict=True):
        if max(side) > min(side):
            length_mm = max(side) - min(side)
            found.append(
                rocking_frequency_hz(tilt_nmm_per_rad=tilt, mass_kg=mass_kg, length_mm=length_mm, cg_mm=mount.cg_mm)
            )
    return min(found)


def _clamped(points: tuple[tuple[float, float], ...], bay: Bay, tables: Tables) -> tuple[float, float, float]:
    """How much stiffer clamped edges make it: the square of the pattern's area stands for the pattern."""
    wide = [max(values) - min(values) for values in zip(*points, strict=True)]
    pitch = sqrt(max(wide[0], 0.0) * max(wide[1], 0.0)) / bay.short_mm
    rows = tables.rows(CLAMPED_BAYS)
    aspects = sorted({row.aspect for row in rows})
    aspect = min(bay.long_mm / bay.short_mm, aspects[-1])
    under = max(value for value in aspects if value <= aspect)
    over = min(value for value in aspects if value >= aspect)
    one, other = (_at_pitch([row for row in rows if row.aspect == value], pitch) for value in (under, over))
    share = 0.0 if over == under else (aspect - under) / (over - under)
    bounce, short, long = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return bounce, short, long


def _at_pitch(rows: list[ClampedBay], pitch: float) -> tuple[float, float, float]:
    held = min(pitch, rows[-1].pitch_ratio)
    under = max((row for row in rows if row.pitch_ratio <= held), key=lambda row: row.pitch_ratio)
    over = min((row for row in rows if row.pitch_ratio >= held), key=lambda row: row.pitch_ratio)
    apart = over.pitch_ratio - under.pitch_ratio
    share = 0.0 if apart == 0 else (held - under.pitch_ratio) / apart
    return (
        under.bounce + share * (over.bounce - under.bounce),
        under.tilt_short + share * (over.tilt_short - under.tilt_short),
        under.tilt_long + share * (over.tilt_long - under.tilt_long),
    )


def _on_floor(mount: MountPoint, span: FloorSpan, tables: Tables) -> Swaying | None:
    row = material(tables, mount.material)
    inputs = (Input("span", span.span_mm, "mm"), Input("board", mount.thickness_min_mm, "mm"))
    formula = "48 E B t^3 / (12 span^3), B the span: the item as a point"
    if row.family not in BOARDS or row.youngs_mpa is None:
        needs = "needs a push: a span is of a board whose bending is known"
        return Swaying(0.0, inf, inputs, formula, (), needs)
    low = floor_n_per_mm(
        youngs_mpa=row.youngs_mpa, thickness_mm=mount.thickness_min_mm, width_mm=span.span_mm, span_mm=span.span_mm
    )
    sides = [max(values) - min(values) for values in zip(*positions_mm(mount.pattern, mount.fixings), strict=True)]
    foot_mm = min(max(sides), 0.9 * span.span_mm)
    high = low * max(floor_foot_ratio(span_mm=span.span_mm, foot_mm=foot_mm), 1.0)
    given = (*inputs, Input("modulus", row.youngs_mpa, "MPa"))
    return by_stiffness(mount, low, high, given, formula, (tables.source_id(MATERIALS, row),))


def bending_nmm(row: Material, thickness_mm: float) -> float | None:
    """Bending stiffness of a panel of a material; None where it is not known how it bends."""
    if row.youngs_mpa is None or row.poisson is None:
        return None
    return plate_rigidity_nmm(youngs_mpa=row.youngs_mpa, poisson=row.poisson, thickness_mm=thickness_mm)


def rigidity_of(mount: MountPoint, tables: Tables) -> tuple[float | None, tuple[Input, ...], tuple[str, ...]]:
    """Bending stiffness of the panel at its thinnest, from what; None where its material's is not known."""
    row = material(tables, mount.material)
    inputs: tuple[Input, ...] = (Input("sheet", mount.thickness_min_mm, "mm"),)
    found = bending_nmm(row, mount.thickness_min_mm)
    if found is None or row.youngs_mpa is None or row.poisson is None:
        return None, inputs, ()
    given = (*inputs, Input("modulus", row.youngs_mpa, "MPa"), Input("Poisson's ratio", row.poisson, "-"))
    return found, given, (tables.source_id(MATERIALS, row),)
