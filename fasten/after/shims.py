"""A plate over one hole lifts its corner: each other fixing lies on a shim as thick, and its screw reaches through."""

from collections.abc import Iterable

from fasten.advice.advise import method_by
from fasten.advice.ranking import score
from fasten.advice.screw_length import with_length
from fasten.advice.work import answer as worded
from fasten.after import mixed
from fasten.after.before import Plate
from fasten.after.mixed import Odd
from fasten.catalog.parts import BOARD_SCREWS, LENGTH_RANGES
from fasten.catalog.tables import Tables
from fasten.geometry.joint import PANEL
from fasten.methods.board_common import lengths_mm
from fasten.model import Answer, Demand, Joint, Layer, MountPoint, Proposal, Refusal
from fasten.model.kinds import Thread
from fasten.proof.demands import demands
from fasten.proof.prove import prove
from fasten.record import replace

STEEL = "steel"


def lift_mm(plates: Iterable[Plate | None]) -> float:
    """How far plates lift the item: one that something holds down lies between item and panel."""
    return max((plate.thickness_mm for plate in plates if plate is not None and plate.rivets), default=0.0)


def on_shim(joint: Joint, shim_mm: float, mount: MountPoint, tables: Tables) -> list[Joint | Refusal]:
    """The joint on a shim: with its own screw, and with each longer one up to the first longer by all of the shim.

    A screw that is no longer does what it would do without a shim if it were shorter by that.
    """
    if joint.screw is None or shim_mm <= 0:
        return [joint]
    return [laid(joint, length_mm, shim_mm, mount, tables) for length_mm in _lengths(joint, shim_mm, tables)]


def shimmed(
    joint: Joint, shim_mm: float, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal:  # fmt: skip
    """A joint on a shim, proved with the shortest screw that does; the last refusal where none does."""
    found: Proposal | Refusal | None = None
    for one in on_shim(joint, shim_mm, mount, tables):
        found = one if isinstance(one, Refusal) else prove(one, mount, method_by(joint), loads, tables)
        if isinstance(found, Proposal):
            break
    assert found is not None, "its own screw is tried at least"
    return (
        replace(found, because=f"on a shim: {found.because}") if shim_mm > 0 and isinstance(found, Refusal) else found
    )


def loads_beside(mount: MountPoint, odd: tuple[Odd, ...], tables: Tables) -> tuple[Demand, ...]:
    """The demands on the fixings that no repair made unlike the rest, beside those that are."""
    left = tuple(at for at in range(mount.fixings) if at not in {one.place for one in odd})
    return mixed.loads_at(mount, odd, left, tables) if odd and left else demands(mount, tables)


def beside(
    answer: Answer, shim_mm: float, odd: tuple[Odd, ...], mount: MountPoint, tables: Tables
) -> Answer:  # fmt: skip
    """An answer as it stands beside fixings that a repair made unlike the rest, on shims where these lift the item; the
    same where it does not do so, which the routes say.
    """
    if not odd:
        return answer
    lying = shimmed(answer.proposal.joint, shim_mm, mount, loads_beside(mount, odd, tables), tables)
    if not isinstance(lying, Proposal):
        return answer
    return worded(answer.rank, score(lying, mount, tables), lying, mount, tables)


def proved_beside(joint: Joint, odd: tuple[Odd, ...], mount: MountPoint, tables: Tables) -> Proposal | Refusal:
    """A joint proved beside fixings that a repair made unlike the rest."""
    return prove(joint, mount, method_by(joint), loads_beside(mount, odd, tables), tables)


def laid(joint: Joint, length_mm: float, shim_mm: float, mount: MountPoint, tables: Tables) -> Joint | Refusal:
    """The joint on a shim with a screw of this length, not yet proved; a refusal where that does not reach."""
    """The joint on a shim with a screw of this length, not yet proved; a refusal where that does not reach."""
    found = with_length(joint, length_mm - shim_mm, mount, tables)
    return found if isinstance(found, Refusal) else _laid(found, length_mm, shim_mm)


def _lengths(joint: Joint, shim_mm: float, tables: Tables) -> tuple[float, ...]:
    screw = joint.screw
    assert screw is not None
    row = next((row for row in tables.rows(BOARD_SCREWS) if row.size == screw.thread), None)
    made = tables.find(LENGTH_RANGES, screw.standard, screw.thread)
    if row is not None and screw.kind.thread is Thread.FORMS_IN_BOARD:
        family, most_mm = row.family, row.length_max_mm
    elif made is not None:
        family, most_mm = "tapping" if screw.kind.thread is Thread.FORMS_IN_SHEET else "machine", made.max_mm
    else:
        return (screw.length_mm,)
    longer = [length for length, _ in lengths_mm(tables, family, screw.length_mm, most_mm) if length > screw.length_mm]
    enough = next((at for at, length in enumerate(longer) if length >= screw.length_mm + shim_mm), len(longer))
    return (screw.length_mm, *longer[: enough + 1])


def _laid(joint: Joint, length_mm: float, shim_mm: float) -> Joint:
    """A joint as it is without the shim, with the shim under the item and the screw as much longer."""
    assert joint.screw is not None
    over = next((at for at, layer in enumerate(joint.layers) if layer.role in PANEL), len(joint.layers))
    layers = (*joint.layers[:over], Layer("washer", STEEL, shim_mm), *joint.layers[over:])
    screw = replace(joint.screw, length_mm=length_mm)
    return replace(joint, layers=layers, screw=screw, grip_mm=joint.grip_mm + shim_mm)
