"""The blanks of a step, tool or caution, such as {hole} or {torque}, and what a proposal fills them with."""

from collections.abc import Callable, Mapping
from math import ceil

from fasten.advice.corrosion import Corrosion, on_item, on_panel
from fasten.advice.drive import drive_of
from fasten.advice.mass_slip import meant_kg
from fasten.advice.panel_parts import doubler_size, rail_length_mm, rail_plate, rail_tube
from fasten.advice.rows import pilot_mm
from fasten.advice.sag import sag_of
from fasten.catalog.named import adhesive
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.doubler import rivet_count, rivet_of
from fasten.geometry.floor import mass_on_panel_kg
from fasten.geometry.joint import limiter_of
from fasten.geometry.soft import each, named, taken
from fasten.geometry.stack import spreader_text, spreaders_of
from fasten.methods.holding import limited_because
from fasten.model import Joint, MountPoint, Proposal, Taken
from fasten.model.check import RIM, STIFFNESS
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits, up
from fasten.text.units import Dimension, number, write

NOTHING = "-"  # where the proposal has no such thing; no row with the blank applies then
DAYS_FROM_H = 72

Fills = Callable[[Proposal, MountPoint, Tables], str]
Beside = Callable[[Joint, MountPoint, Tables], Corrosion | None]


class Filled(dict[str, str]):
    """The blanks of a proposal at a mount point, each filled when a text first has it."""

    def __init__(self, proposal: Proposal, mount: MountPoint, tables: Tables) -> None:
        super().__init__()
        self._of = proposal, mount, tables

    def __missing__(self, name: str) -> str:
        """What fills the blank of this name."""
        self[name] = BLANKS[name](*self._of)
        return self[name]


def _hole(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The hole's diameter, or width across flats."""
    hole = proposal.joint.hole
    return NOTHING if hole is None else write(hole.diameter_mm, Dimension.LENGTH, 2)


def _item_hole(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The hole in the item."""
    return write(mount.item_hole_mm, Dimension.LENGTH, 2)


def _bit(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The bit that drills the hole."""
    hole = proposal.joint.hole
    return NOTHING if hole is None else hole.bit.name


def _pilot(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The first hole, through which the space behind is probed."""
    first_mm = pilot_mm(proposal.method, proposal.joint.hole, tables)
    return NOTHING if first_mm is None else write(first_mm, Dimension.LENGTH, 2)


def _there(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The existing hole."""
    there = mount.existing_hole_mm
    if mount.existing_holes_mm is not None:
        return f"{', '.join(number(size, 2) for size in mount.existing_holes_mm)} mm, in the order of the template"
    return NOTHING if there is None else write(there, Dimension.LENGTH, 2)


def _behind(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The space that must be free behind, while it is set and after."""
    return up(max(proposal.joint.behind_set_mm, proposal.joint.behind_done_mm))


def _grip(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What is gripped between head and receiver; from least to most where the sheet is in a range."""
    most_mm = proposal.joint.grip_mm
    least_mm = most_mm - (mount.thickness_max_mm - mount.thickness_min_mm)
    most = write(most_mm, Dimension.LENGTH, 2)
    return most if number(least_mm, 2) == number(most_mm, 2) else f"{number(least_mm, 2)} to {most}"


def _receiver(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The part that stays, by thread and name; the screw where there is none."""
    receiver = proposal.joint.receiver
    return "screw" if receiver is None else f"{receiver.thread} {receiver.part}"


def _screw(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The screw, bolt or rivet by thread and length."""
    screw = proposal.joint.screw
    return NOTHING if screw is None else f"{screw.thread} x {number(screw.length_mm, 1)}"


def _drive(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What the screw is turned by: recess and size."""
    drive = drive_of(proposal.joint)
    return NOTHING if drive is None else drive.text


def _across(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The width across the flats of the hexagon that is turned."""
    drive = drive_of(proposal.joint)
    return NOTHING if drive is None else drive.size


def _torque(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The torque, and what it is on top of."""
    torque = proposal.torque
    if torque is None:
        return NOTHING
    return f"{rounded_down(torque.target_nm, torque_digits(torque))} {Dimension.TORQUE.unit}{past_driving(torque)}"


def _test_torque(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What a test piece is tightened to, past the target."""
    if proposal.torque is None:
        return NOTHING
    most = rule(tables, Rules.TEST_TORQUE).value * proposal.torque.target_nm
    return f"{rounded_up(most, torque_digits(proposal.torque))} {Dimension.TORQUE.unit}"


def _lock(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What keeps it from working loose."""
    return proposal.joint.lock.name


def _limiter(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The compression limiter: hole, outside and height."""
    limiter = limiter_of(proposal.joint)
    if limiter is None:
        return NOTHING
    hole, outer, height = (number(mm, 1) for mm in (limiter.hole_mm, limiter.outer_mm, limiter.thickness_mm))
    return f"a {limiter.standard} {hole} x {outer} x {height} mm"


def _soft(how: Taken) -> Fills:
    """The soft layers that are taken away this way at each fixing, by name."""
    return lambda proposal, mount, tables: named(taken(mount.between, how, tables)) or NOTHING


def _why_stop(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """Why the foam has a compression limiter."""
    return limited_because(mount, tables) or NOTHING


def _sag(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How far the rim that presses the foam bends between two fixings."""
    check = next((check for check in proposal.checks if check.id == RIM), None)
    return NOTHING if check is None or check.demand is None else f"{rounded_up(check.demand, 2)} mm"


def _cut_out(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The soft layers that are cut out under the whole item, by name."""
    return named(tuple(layer for layer in each(mount.between) if layer.cut_out)) or NOTHING


def _patch(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What holds by its face, by its sides or how wide it is across."""
    patch = proposal.joint.patch
    if patch is None:
        return NOTHING
    length, width = (number(mm, 1) for mm in (patch.length_mm, patch.width_mm))
    return f"{length} mm across" if patch.shape == "round" else f"{length} x {width} mm"


def _bond(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The adhesive or tape that keeps it on its face."""
    patch = proposal.joint.patch
    return NOTHING if patch is None or patch.bond is None else patch.bond


def _set(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How long the adhesive takes until it may be touched."""
    patch = proposal.joint.patch
    return NOTHING if patch is None or patch.bond is None else _hours(adhesive(tables, patch.bond).set_h)


def _cure(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How long the adhesive takes until it may be loaded."""
    patch = proposal.joint.patch
    return NOTHING if patch is None or patch.bond is None else _hours(adhesive(tables, patch.bond).cure_h)


def _hours(hours: float) -> str:
    return f"{number(hours, 1)} h" if hours < DAYS_FROM_H else f"{number(hours / 24, 1)} days"


def _bare(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How many times as wide as a ground lug the metal is bared."""
    return number(rule(tables, Rules.GROUND_BARE).value, 1)


def _refinish(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """Within how many hours a ground joint is sealed."""
    return number(rule(tables, Rules.GROUND_REFINISH).value, 1)


def _ground(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What a ground joint may measure."""
    joint = proposal.ground
    if joint is None:
        return NOTHING
    if joint.current_a is None or joint.max_resistance_mohm is None:
        return f"at full current it drops no more than {number(joint.drop_mv, 1)} mV"
    current = write(joint.current_a, Dimension.CURRENT, 1)
    resistance = rounded_down(joint.max_resistance_mohm, 3)
    return f"at {current} it drops no more than {number(joint.drop_mv, 1)} mV, which is {resistance} mΩ"


def _finish(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The finish of the screw that corrodes with a metal under it, as the index of metals has it."""
    found = on_panel(proposal.joint, mount, tables) or on_item(proposal.joint, mount, tables)
    return NOTHING if found is None else found.finish


def _most_apart(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How far apart in the index two metals may be where the mount point lives."""
    found = on_panel(proposal.joint, mount, tables) or on_item(proposal.joint, mount, tables)
    return NOTHING if found is None else _volts(found.most_v)


def _volts(value_v: float) -> str:
    return f"{number(value_v, 2)} V"


def _corroding(beside: Beside, describe: Callable[[Corrosion], str]) -> Fills:
    """A blank about the metal that the screw corrodes with, of the panel or of the item."""

    def fill(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
        found = beside(proposal.joint, mount, tables)
        return NOTHING if found is None else describe(found)

    return fill


def _mass(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What hangs on the panel, rounded up so that it never reads as no more than the most."""
    return write(ceil(round(mass_on_panel_kg(mount) * 100, 6)) / 100, Dimension.MASS, 2)


def _most(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What unsupported skin carries."""
    return write(rule(tables, Rules.SKIN_MASS).value, Dimension.MASS, 2)


def _mass_given(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What was given of the item alone."""
    return write(mount.item_mass_kg, Dimension.MASS)


def _mass_meant(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What may have been meant, where that was a slip of its unit."""
    meant = meant_kg(mount, tables)
    return NOTHING if meant is None else write(meant, Dimension.MASS)


def _on_board(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What is on the board under it, all of it."""
    return write(mass_on_panel_kg(mount), Dimension.MASS, 2)


def _board_sag(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How far the board under it sags in time."""
    sag = sag_of(mount, tables)
    return NOTHING if sag is None else up(sag.in_time_mm)


def _most_sag(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How far it may."""
    sag = sag_of(mount, tables)
    return NOTHING if sag is None else write(sag.most_mm, Dimension.LENGTH, 1)


def _thin(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """Under which thickness sheet counts as skin."""
    return write(rule(tables, Rules.UNSUPPORTED_SKIN_SHEET).value, Dimension.LENGTH, 2)


def _stiffness(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """What settles how stiff the panel is; nothing where that is settled."""
    check = next((check for check in proposal.checks if check.id == STIFFNESS), None)
    return NOTHING if check is None or check.needs is None else check.needs.removeprefix("needs ")


def _kept(name: Rules) -> Fills:
    """A length by a rule."""
    return lambda proposal, mount, tables: write(rule(tables, name).value, Dimension.LENGTH, 2)


def _doubler(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The size of the doubler."""
    return NOTHING if mount.doubler is None else doubler_size(mount.doubler)


def _rails(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How many rails of which tube and length."""
    rails = mount.rails
    if rails is None:
        return NOTHING
    long = write(rail_length_mm(rails, tables), Dimension.LENGTH, 0)
    return f"{rails.count} rails of {rail_tube(rails)} square steel tube, {long} long"


def _rail_plate(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The plate across the rails."""
    return NOTHING if mount.rails is None else rail_plate(mount, tables)


def _rivets(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """How many rivets of which size hold the doubler, and their hole."""
    row = None if mount.doubler is None else rivet_of(mount.doubler, mount.thickness_min_mm, tables)
    if row is None or mount.doubler is None:
        return NOTHING
    count, hole = rivet_count(mount.doubler, tables), write(row.hole_mm, Dimension.LENGTH, 2)
    return f"{count} blind rivets {row.size} x {number(row.length_mm, 1)} in {hole} holes"


def _spreader(proposal: Proposal, mount: MountPoint, tables: Tables) -> str:
    """The penny washers and plates, and where each lies."""
    return " and ".join(map(spreader_text, spreaders_of(proposal.joint, tables))) or NOTHING


BLANKS: Mapping[str, Fills] = {
    "stiffness": _stiffness,
    "moving": _kept(Rules.MOVING_CLEARANCE), "fixed": _kept(Rules.FIXED_CLEARANCE),
    "item hole": _item_hole,
    "hole": _hole, "bit": _bit, "pilot": _pilot, "there": _there, "behind": _behind, "grip": _grip,
    "receiver": _receiver, "screw": _screw, "torque": _torque, "test torque": _test_torque, "drive": _drive,
    "across": _across, "lock": _lock, "stop": _limiter, "spreader": _spreader,
    "soft": _soft(Taken.CUT), "scraped": _soft(Taken.SCRAPED), "cut_out": _cut_out, "why_stop": _why_stop, "sag": _sag,
    "doubler size": _doubler, "rivets": _rivets, "rail tubes": _rails, "rail plate": _rail_plate,
    "weld run": _kept(Rules.WELD_RUN), "throat": _kept(Rules.WELD_THROAT),
    "pitch": _kept(Rules.DOUBLER_PITCH), "rivet edge": _kept(Rules.DOUBLER_RIVET_EDGE),
    "patch": _patch, "bond": _bond, "set": _set, "cure": _cure,
    "bare": _bare, "refinish": _refinish, "ground": _ground,
    "on_board": _on_board, "board_sag": _board_sag, "most_sag": _most_sag,
    "mass_given": _mass_given, "mass_meant": _mass_meant,
    "mass": _mass, "most": _most, "thin": _thin, "finish": _finish, "most_apart": _most_apart,
    "panel_metal": _corroding(on_panel, lambda found: found.metal),
    "panel_apart": _corroding(on_panel, lambda found: _volts(found.apart_v)),
    "panel_eaten": _corroding(on_panel, lambda found: found.eaten),
    "item_metal": _corroding(on_item, lambda found: found.metal),
    "item_apart": _corroding(on_item, lambda found: _volts(found.apart_v)),
    "item_eaten": _corroding(on_item, lambda found: found.eaten),
}  # fmt: skip
