"""What would make a panel stiff enough under its item, each with its figure: only what clears the limit is named.

A frame, a wider pattern, rails across a free bay; thicker board or closer battens. Penny washers and plates make
nothing stiffer and are never among it.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.practice import RAILS, STOCK_SHEETS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.mechanics.plate import needed_n_per_mm, rail_inertia_mm4, tube_inertia_mm4
from fasten.model import Bay, Doubler, FloorSpan, Joined, MountPoint, Panel, Pattern, Remedy, Status
from fasten.proof.panel import stiffness
from fasten.proof.panel_mass import is_skin
from fasten.proof.sway import BOARDS, mass_on_panel_kg, sway_of
from fasten.text.figures import figure, mm
from fasten.text.given import given_text

_SIDE_MM = 5.0  # a pattern is measured out to this
_MOST_BOARD_MM = 40  # no thicker board is laid in a vehicle
_DOUBLER_MM = 10.0  # a doubler is cut to this
_SPAN_MM = 10.0  # battens are laid to this
FRAME = Remedy("every fixing through a frame", None, (("support", "frame"),))
BATTENS = Remedy("every fixing through the board into a batten or frame", None, (("support", "frame"),))
GIVE_BAY = Remedy("a wider pattern, a doubler or rails, which are sized once the free bay is given", None, ())
GIVE_SPAN = Remedy("thicker board or closer battens, which are sized once their span is given", None, ())


def remedies(mount: MountPoint, tables: Tables) -> tuple[Remedy, ...]:
    """What would make the panel stiff enough; nothing where it is."""
    if stiffness(mount, tables).status is Status.HOLDS:
        return ()
    if material(tables, mount.material).family in BOARDS:
        return (BATTENS, *_of_board(mount, tables))
    if mount.panel is Panel.ROOF and is_skin(mount, tables):  # nothing is hung from a roof but on its bows
        return (FRAME,)
    if not isinstance(mount.support, Bay):
        return (FRAME, GIVE_BAY)
    found = (
        _wider_pattern(mount, mount.support, tables),
        *(_doubler(mount, mount.support, joined, tables) for joined in Joined),
        _rails(mount, mount.support, tables),
    )
    return (FRAME, *(one for one in found if one is not None))


def _clears(mount: MountPoint, tables: Tables) -> bool:
    return stiffness(mount, tables).status is Status.HOLDS


def _sways_hz(mount: MountPoint, tables: Tables) -> float | None:
    """How fast the item sways at least; None where practice alone holds it."""
    swaying, least = sway_of(mount, tables), rule(tables, Rules.PANEL_FREQUENCY).value
    return None if swaying is None or swaying.low_hz < least else swaying.low_hz


def _wider_pattern(mount: MountPoint, bay: Bay, tables: Tables) -> Remedy | None:
    """The least pattern of the same kind that is wide enough, within what the bay allows: found by halving."""
    wider = tuple(_patterns(mount, bay, tables))
    if not wider or not _clears(replace(mount, pattern=wider[-1]), tables):
        return None
    low, high = -1, len(wider) - 1
    while high - low > 1:
        middle = (low + high) // 2
        clears = _clears(replace(mount, pattern=wider[middle]), tables)
        low, high = (low, middle) if clears else (middle, high)
    said = given_text(wider[high])
    assert said is not None
    text = f"a wider pattern, {said}, under feet or a plate that the item keeps stiff"
    return Remedy(text, _sways_hz(replace(mount, pattern=wider[high]), tables), (("pattern", said),))


def _patterns(mount: MountPoint, bay: Bay, tables: Tables) -> Iterator[Pattern]:
    """Wider patterns in steps, each side no further out than the share of the bay that is not on its edge."""
    pattern, share = mount.pattern, rule(tables, Rules.BAY_SHARE).value
    if pattern is None or mount.run_mm is not None:
        return
    wide = [max(side) - min(side) for side in zip(*positions_mm(pattern, mount.fixings), strict=True)]
    rooms = [share * side for side in (bay.short_mm, bay.long_mm)]
    room = min(a / b for a, b in zip(sorted(rooms), sorted(wide), strict=True) if b > 0)
    most = int((pattern.a_mm * room - pattern.a_mm) / _SIDE_MM + 1e-9)
    for step in range(1, most + 1):
        grown = (pattern.a_mm + step * _SIDE_MM) / pattern.a_mm
        b_mm = None if pattern.b_mm is None else int(pattern.b_mm * grown / _SIDE_MM) * _SIDE_MM
        yield replace(pattern, a_mm=pattern.a_mm * grown, b_mm=b_mm)


def _doubler(mount: MountPoint, bay: Bay, joined: Joined, tables: Tables) -> Remedy | None:
    """The thinnest doubler that clears, from twice the sheet where it is riveted, from as much where it is bonded."""
    if mount.doubler is not None or mount.run_mm is not None:
        return None
    least_mm = mount.thickness_min_mm * (2 if joined is Joined.RIVETED else 1)
    for row in tables.rows(STOCK_SHEETS):
        for side_mm in _doubler_sides(mount, bay, tables) if row.thickness_mm >= least_mm - 1e-9 else ():
            doubler = Doubler(side_mm, row.thickness_mm, joined)
            with_it = replace(mount, doubler=doubler)
            if _clears(with_it, tables):
                said = given_text(doubler)
                assert said is not None
                return Remedy(f"a doubler under it, {said}", _sways_hz(with_it, tables), (("doubler", said),))
    return None


def _doubler_sides(mount: MountPoint, bay: Bay, tables: Tables) -> Iterator[float]:
    """From half to 0.7 of the short side, in steps, but past every fixing."""
    wide = [max(side) - min(side) for side in zip(*positions_mm(mount.pattern, mount.fixings), strict=True)]
    covers_mm = max(wide) + 2 * rule(tables, Rules.DOUBLER_REACH).value
    sides = (max(share * bay.short_mm, covers_mm) for share in (0.5, 0.7))
    for side_mm in dict.fromkeys(ceil(side / _DOUBLER_MM - 1e-9) * _DOUBLER_MM for side in sides):
        if side_mm <= 0.7 * bay.short_mm + _DOUBLER_MM:
            yield side_mm


def _rails(mount: MountPoint, bay: Bay, tables: Tables) -> Remedy | None:
    """Two tubes of the least stocked size that are stiff enough from one line of support to the other."""
    steel, span_mm = tables.need(MATERIALS, "steel"), bay.short_mm
    assert steel.youngs_mpa is not None
    needed = needed_n_per_mm(mass_kg=mass_on_panel_kg(mount), frequency_hz=rule(tables, Rules.PANEL_FREQUENCY).value)
    least = rail_inertia_mm4(stiffness_n_per_mm=needed, span_mm=span_mm, rails=2, youngs_mpa=steel.youngs_mpa)
    rows = tables.rows(RAILS)
    row = next((row for row in rows if tube_inertia_mm4(side_mm=row.side_mm, wall_mm=row.wall_mm) >= least), None)
    if row is None:
        return None
    text = f"two rails of {figure(row.side_mm)} x {mm(row.wall_mm)} square steel tube over {mm(span_mm)}"
    return Remedy(text, None, ())


def _of_board(mount: MountPoint, tables: Tables) -> tuple[Remedy, ...]:
    """Board as thick, and battens as close, as it takes: each alone."""
    if not isinstance(mount.support, FloorSpan):
        return (GIVE_SPAN,)
    found = (_thicker(mount, tables), _closer(mount, mount.support, tables))
    return tuple(one for one in found if one is not None)


def _thicker(mount: MountPoint, tables: Tables) -> Remedy | None:
    for thick_mm in range(int(mount.thickness_max_mm) + 1, _MOST_BOARD_MM + 1):
        thicker = replace(mount, thickness_min_mm=float(thick_mm), thickness_max_mm=float(thick_mm))
        if _clears(thicker, tables):
            text = f"{material(tables, mount.material).title} of {thick_mm} mm or more"
            return Remedy(text, _sways_hz(thicker, tables), ())
    return None


def _closer(mount: MountPoint, span: FloorSpan, tables: Tables) -> Remedy | None:
    for step in range(1, int(span.span_mm / _SPAN_MM)):
        closer = FloorSpan(span.span_mm - step * _SPAN_MM)
        laid = replace(mount, support=closer)
        if _clears(laid, tables):
            said = given_text(closer)
            assert said is not None
            text = f"battens no more than {mm(closer.span_mm)} apart"
            return Remedy(text, _sways_hz(laid, tables), (("support", said),))
    return None
