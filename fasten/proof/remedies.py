"""What would make a panel stiff enough under its item, each with its figure: only what clears the limit is named.

A frame, a wider pattern, rails across a free bay; thicker board or closer battens. Penny washers and plates make
nothing stiffer and are never among it.
"""

from collections.abc import Iterator
from math import ceil

from fasten.catalog.named import material
from fasten.catalog.practice import RAILS, STOCK_SHEETS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.model import Bay, Beside, Doubler, FloorSpan, Joined, MountPoint, Panel, Pattern, Rails, Remedy, Status
from fasten.proof.panel import stiffness
from fasten.proof.panel_mass import is_skin
from fasten.proof.rails import sway_on_rails
from fasten.proof.sway import BOARDS, sway_of
from fasten.record import replace
from fasten.text.figures import figure, mm, words
from fasten.text.given import given_text

PLATE_MM, STEEL = 3.0, "steel"  # across rails
_GONE = ("support", "doubler", "between", "hole-there")  # of the panel, which nothing is fixed to any more
_SIDE_MM = 5.0  # a pattern is measured out to this
_MOST_BOARD_MM = 40  # no thicker board is laid in a vehicle
_DOUBLER_MM = 10.0  # a doubler is cut to this
_SPAN_MM = 10.0  # battens are laid to this
FRAME = Remedy("frame", "every fixing through a frame", None, (("support", "frame"),))
BATTENS = Remedy("frame", "every fixing through the board into a batten or frame", None, (("support", "frame"),))
GIVE_BAY = Remedy("bay", "a wider pattern, a doubler or rails, which are sized once the free bay is given", None, ())
GIVE_SPAN = Remedy("span", "thicker board or closer battens, which are sized once their span is given", None, ())


def remedies(mount: MountPoint, tables: Tables) -> tuple[Remedy, ...]:
    """What would make the panel stiff enough; nothing where it is."""
    if stiffness(mount, tables).status is Status.HOLDS:
        return ()
    if mount.rails is not None:
        return _larger_rails(mount, mount.rails, tables)
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
    said = _said(wider[high])
    text = f"a wider pattern, {said}, under feet or a plate that the item keeps stiff"
    return Remedy("pattern", text, _sways_hz(replace(mount, pattern=wider[high]), tables), (("pattern", said),))


def _patterns(mount: MountPoint, bay: Bay, tables: Tables) -> Iterator[Pattern]:
    """Wider patterns in steps, each side no further out than the share of the bay that is not on its edge."""
    pattern, share = mount.pattern, rule(tables, Rules.BAY_SHARE).value
    if pattern is None or pattern.points_mm or mount.holes_at is not None or mount.run_mm is not None:
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
                said = _said(doubler)
                return Remedy(
                    f"{joined.value}-doubler",
                    f"a doubler under it, {said}",
                    _sways_hz(with_it, tables),
                    (("doubler", said),),
                )
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
    if mount.run_mm is not None:
        return None
    rails = _least_rails(_on_plate(mount), 2, bay.short_mm, tables)
    if rails is None:
        return None
    size = f"{figure(rails.side_mm)} x {mm(rails.wall_mm)}"
    text = f"two rails of {size} square steel tube over {mm(bay.short_mm)}"
    edge_mm = rule(tables, Rules.RAIL_PLATE_EDGE).value
    said = (
        ("onto", f"steel plate {mm(PLATE_MM)}"), ("rails", _said(rails)), ("behind", mm(rails.side_mm)),
        ("edge", mm(edge_mm)), *((name, "") for name in _GONE),
    )  # fmt: skip
    sways_hz = _on_rails_hz(replace(_on_plate(mount), rails=rails), tables)
    return Remedy("rails", text, sways_hz, said, _rail_ends(mount, rails))


def _larger_rails(mount: MountPoint, rails: Rails, tables: Tables) -> tuple[Remedy, ...]:
    """As many rails of the next tube that is stiff enough."""
    larger = _least_rails(mount, rails.count, rails.span_mm, tables)
    if larger is None:
        return ()
    said = _said(larger)
    sways_hz = _on_rails_hz(replace(mount, rails=larger), tables)
    return (Remedy("rails", f"rails {said}", sways_hz, (("rails", said),)),)


def _least_rails(mount: MountPoint, count: int, span_mm: float, tables: Tables) -> Rails | None:
    rails = (Rails(count, row.side_mm, row.wall_mm, span_mm) for row in tables.rows(RAILS))
    return next((one for one in rails if _clears(replace(mount, rails=one), tables)), None)


def _on_plate(mount: MountPoint) -> MountPoint:
    """The item on the plate across its rails, with nothing fixed to the panel."""
    return replace(
        mount, material=STEEL, thickness_min_mm=PLATE_MM, thickness_max_mm=PLATE_MM, place=None, support=None,
        doubler=None,
    )  # fmt: skip


def _on_rails_hz(mount: MountPoint, tables: Tables) -> float | None:
    return None if mount.rails is None else sway_on_rails(mount, mount.rails, tables).low_hz


def _rail_ends(mount: MountPoint, rails: Rails) -> Beside:
    """Each end of a rail as a bracket on a frame of the same panel: two fixings, half the mass."""
    end = {
        "item": "bracket", "onto": f"{words(mount.material)} {mm(mount.thickness_min_mm)}",
        "removed": mount.removed.value, "mass": f"{figure(mount.mass_kg / 2)} kg", "fixings": "2",
        "pattern": "row 60 mm", "item-thickness": f"{mm(PLATE_MM)}", "item-hole": "6.6 mm", "item-material": STEEL,
        "cg": mm(mount.cg_mm + rails.side_mm + PLATE_MM), "panel": mount.panel.value, "support": "frame",
        "reach": mount.reach.value, "where": mount.where.value,
    }  # fmt: skip
    left = {"panel"} if mount.panel is Panel.UNKNOWN else set()
    return Beside("rail end", 2 * rails.count, tuple((name, text) for name, text in end.items() if name not in left))


def _said(value: Pattern | Doubler | Rails | FloorSpan) -> str:
    """A value as it may be typed again."""
    text = given_text(value)
    assert text is not None, f"{value} has several parts"
    return text


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
            return Remedy("board", text, _sways_hz(thicker, tables), ())
    return None


def _closer(mount: MountPoint, span: FloorSpan, tables: Tables) -> Remedy | None:
    for step in range(1, int(span.span_mm / _SPAN_MM)):
        closer = FloorSpan(span.span_mm - step * _SPAN_MM)
        laid = replace(mount, support=closer)
        if _clears(laid, tables):
            said = _said(closer)
            text = f"battens no more than {mm(closer.span_mm)} apart"
            return Remedy("battens", text, _sways_hz(laid, tables), (("support", said),))
    return None
