"""Blind rivet: set from one side, drilled out to remove; only for what never comes off and hangs over nobody."""

from collections.abc import Iterator

from fasten.catalog.materials import ITEMS
from fasten.catalog.opened import times_of
from fasten.catalog.parts import BLIND_RIVETS, BlindRivet
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import IN_HOLE, NOTHING_EXEMPT, kind_of, layers, needs_family, refuse, soft_between
from fasten.methods.screw_end import own_length
from fasten.methods.stocked import Stocked
from fasten.model import (
    Check,
    Joint,
    MountPoint,
    Panel,
    Receiver,
    Refusal,
    Removal,
    Screw,
    Span,
    kinds,
)
from fasten.model.known import Body, FarEnd, Flange, Rating
from fasten.proof.checks import waits
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.rivet import RIVETED
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import figure, mm

NAME = "blind_rivet"
GROUND = common.NO_GROUND_RIVET
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
screw_end = own_length


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Never removed, hard layers only, no amplifier, not overhead, and a rivet that fills the item's hole."""
    wrong = needs_family(NAME, mount, tables, "sheet") or _never(mount, tables)
    if wrong is not None:
        return wrong
    if mount.removed is not Removal.NEVER:
        wanted = times_of(mount, tables).once
        return refuse(NAME, f"comes out only by drilling, and this comes off {mount.removed.value}",
                      ("removals wanted", wanted, "-"), ("removals rated", 0, "-"))  # fmt: skip
    if soft_between(mount) is not None:
        return refuse(NAME, "a rivet presses a soft layer flat and stays loose")
    if not list(_fitting(mount, tables)):
        stacked = mount.item_thickness_mm + mount.thickness_max_mm
        holes = " or ".join(figure(hole) for hole in sorted({row.hole_mm for row in _gripping(mount, tables)}))
        fills = f": rivets that grip it fill a hole of {holes} mm, never a wider one" if holes else ""
        because = f"no rivet fills a {mm(mount.item_hole_mm)} item hole and grips {mm(stacked)}{fills}"
        return refuse(NAME, because,
                      ("item hole", mount.item_hole_mm, "mm"), ("layers together", stacked, "mm"))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each rivet that fills the item's hole and grips both layers."""
    for row in _fitting(mount, tables):
        yield _joint(mount, row, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The rivet itself, the sheet on its shank and under its blind head, and the item under its head."""
    return (*RIVETED, *through_item(mount, tables))


def fit(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What the hole needs of the sheet, and whether it hangs overhead, where the panel is not given."""
    return (*around_hole(joint, mount, tables), *_overhead(joint, mount, tables))


def _overhead(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """Open where the panel is not known: it may be a roof."""
    if mount.panel is not Panel.UNKNOWN:
        return ()
    words = tables.need(METHOD_WORDS, NAME)
    sources = (tables.source_id(METHOD_WORDS, words), *joint.from_)
    return (waits("overhead", "Never overhead", "-", None, "needs the panel: a rivet never hangs over people", (),
                  "the panel is no roof", sources),)  # fmt: skip


def _never(mount: MountPoint, tables: Tables) -> Refusal | None:
    """An amplifier, by itself or on a board, and anything overhead: no rivet holds it, whatever it weighs."""
    if mount.panel is Panel.ROOF:
        return refuse(NAME, "a rivet never hangs anything over people: it lets go at once, without a sign before it")
    names = (mount.item, *(thing.name for thing in mount.carries or () if thing.name is not None))
    rows = (tables.find(ITEMS, name) for name in names)
    held = next((row for row in rows if row is not None and row.riveted == "no"), None)
    if held is None:
        return None
    return refuse(NAME, f"a rivet is no fixing for an {held.title}, which is heavy and comes out to be mended")


def _gripping(mount: MountPoint, tables: Tables) -> Iterator[BlindRivet]:
    stacked = mount.item_thickness_mm + mount.thickness_max_mm
    return (row for row in tables.rows(BLIND_RIVETS) if row.grip_min_mm <= stacked <= row.grip_max_mm)


def _fitting(mount: MountPoint, tables: Tables) -> Iterator[BlindRivet]:
    """Those that grip and whose body, swollen, fills the item's hole: never one in a wider hole."""
    for row in _gripping(mount, tables):
        play_mm = mount.item_hole_mm - row.hole_mm
        if -stack.FITS_HOLE <= play_mm <= row.hole_plus_mm + stack.FITS_HOLE:
            yield row


def _joint(mount: MountPoint, row: BlindRivet, tables: Tables) -> Joint:
    source = tables.source_id(BLIND_RIVETS, row)
    stacked = mount.item_thickness_mm + mount.thickness_max_mm
    receiver = Receiver(
        kind=kinds.BLIND_RIVET, series=row.standard, thread=row.size, length_mm=row.length_mm, material=row.material,
        grip=Span(row.grip_min_mm, row.grip_max_mm), flange=Flange(row.head_mm, row.head_height_mm),
        body=Body(row.diameter_mm), bulge=no.NO_BULGE, edge=no.NO_EDGE, pull=Rating(row.tension_n),
        shear=Rating(row.shear_n), breaking=no.NOT_TIGHTENED, box_torque=no.NOT_TIGHTENED, spin_out=no.NOT_TIGHTENED,
        prevailing=no.NOT_TIGHTENED, end=FarEnd.OPEN, from_=source,
    )  # fmt: skip
    screw = Screw(
        kind=kinds.RIVET, thread=row.size, length_mm=row.length_mm, head="rivet head", standard=row.standard,
        class_=row.material,
        finish="plain", drive="blind-rivet setter", diameter_mm=row.diameter_mm, pitch_mm=0.0, head_mm=row.head_mm,
        head_height_mm=row.head_height_mm, engagement_mm=0.0, protrusion_mm=row.length_mm - stacked,
    )  # fmt: skip
    past_mm = row.length_mm - mount.item_thickness_mm - mount.thickness_min_mm
    return Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, (), None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape="round"),
        receiver=receiver, screw=screw, washers=(), grip_mm=stacked, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm,
        behind_set_mm=past_mm + rule(tables, Rules.MANDREL_REACH).value, behind_done_mm=past_mm, lock=kinds.NO_LOCK,
        from_=(source,),
    )  # fmt: skip


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every rivet."""
    for row in tables.rows(BLIND_RIVETS):
        yield Stocked(kinds.RIVET, row.size, row.standard, row.material, row.length_mm)
