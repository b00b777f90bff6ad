"""Every input that a check shows counts: change it and the capacity or the demand moves, shown for each mode."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from built.receivers import changed

from fasten.advice.advise import METHODS
from fasten.catalog.tables import builtin
from fasten.geometry.joint import bulge_mm, drilled
from fasten.methods import rivet_nut
from fasten.model import Joint, MountPoint, Panel, Pattern, Position, Proposal, Where
from fasten.proof.demands import demands
from fasten.proof.modes import common as modes
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes import item as item_modes
from fasten.proof.modes.mode import Mode
from fasten.proof.prove import prove
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

TABLES = builtin()
AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "behind": "40mm",
}  # fmt: skip

Changed = tuple[Joint, MountPoint]


def _screw(joint: Joint, mount: MountPoint, **change: object) -> Changed:
    assert joint.screw is not None
    return replace(joint, screw=replace(joint.screw, **change)), mount  # type: ignore[arg-type]


def _receiver(joint: Joint, mount: MountPoint, **change: object) -> Changed:
    assert joint.receiver is not None
    return replace(joint, receiver=changed(joint.receiver, **change)), mount


def _patch(joint: Joint, mount: MountPoint, **change: object) -> Changed:
    assert joint.patch is not None
    return replace(joint, patch=replace(joint.patch, **change)), mount  # type: ignore[arg-type]


def _bearing(joint: Joint, mount: MountPoint) -> Changed:
    wider = replace(drilled(joint), diameter_mm=drilled(joint).diameter_mm + 1)
    return _screw(replace(joint, hole=wider), mount, diameter_mm=joint.screw.diameter_mm + 1)  # type: ignore[union-attr]


def _behind(joint: Joint, mount: MountPoint) -> Changed:
    washers = tuple(replace(w, outer_mm=w.outer_mm + 1) if w.place is Position.NUT else w for w in joint.washers)
    joint = replace(joint, washers=washers)
    receiver = joint.receiver
    return (
        _receiver(joint, mount, bulge_mm=bulge_mm(receiver) + 1) if receiver and bulge_mm(receiver) else (joint, mount)
    )


def _on_item(joint: Joint, mount: MountPoint) -> Changed:
    washers = tuple(replace(w, outer_mm=w.outer_mm + 1) if w.place is Position.HEAD else w for w in joint.washers)
    return _screw(replace(joint, washers=washers), mount, head_mm=joint.screw.head_mm + 1)  # type: ignore[union-attr]


def _thread(joint: Joint, mount: MountPoint) -> Changed:
    return _screw(joint, mount, thread="M3", pitch_mm=0.5, diameter_mm=3.0)


def _wider(joint: Joint, mount: MountPoint) -> Changed:
    return _screw(joint, mount, diameter_mm=joint.screw.diameter_mm + 1)  # type: ignore[union-attr]


CHANGES: dict[str, Callable[[Joint, MountPoint], Changed]] = {
    "sheet": lambda joint, mount: (replace(joint, sheet_mm=joint.sheet_mm * 0.9), mount),
    "diameter that bears": _bearing,
    "edge distance": lambda joint, mount: (joint, replace(mount, edge_mm=0.6 * drilled(joint).diameter_mm)),
    "diameter behind the sheet": _behind,
    "diameter on the item": _on_item,
    "hole in the item": lambda joint, mount: (joint, replace(mount, item_hole_mm=mount.item_hole_mm - 0.2)),
    "stress area": _thread,
    "least major diameter of the screw": _thread,
    "greatest pitch diameter of the thread": _thread,
    "engagement": lambda joint, mount: _screw(joint, mount, engagement_mm=joint.screw.engagement_mm + 1),  # type: ignore[union-attr]
    "screw strength": lambda joint, mount: _screw(joint, mount, class_="10.9"),
    "proof stress": lambda joint, mount: _screw(joint, mount, class_="10.9"),
    "shear share": lambda joint, mount: _screw(joint, mount, class_="10.9"),
    "pitch": lambda joint, mount: _screw(joint, mount, pitch_mm=0.5),
    "major diameter": lambda joint, mount: _screw(joint, mount, diameter_mm=joint.screw.diameter_mm + 0.1),  # type: ignore[union-attr]
    "axial load of its table": lambda joint, mount: _receiver(joint, mount, thread_proof_n=100.0),
    "tension of its table": lambda joint, mount: _receiver(joint, mount, thread_proof_n=100.0),
    "shear of its table": lambda joint, mount: _receiver(joint, mount, shear_n=100.0),
    "diameter through the item": _wider,
    "edge of the item, assumed": _wider,
    "low-end strength of abs": lambda joint, mount: (joint, replace(mount, item_material="pp")),
    "share left in heat": lambda joint, mount: (joint, replace(mount, where=Where.UNDERFLOOR)),
    "length of the face": lambda joint, mount: _patch(joint, mount, length_mm=10.0),
    "width of the face": lambda joint, mount: _patch(joint, mount, width_mm=10.0),
    "diameter of the face": lambda joint, mount: _patch(joint, mount, length_mm=10.0),
    "shear of the bond": lambda joint, mount: _patch(joint, mount, bond="structural adhesive"),
    "pull of the bond": lambda joint, mount: _patch(joint, mount, bond="structural adhesive"),
    "pot": lambda joint, mount: _patch(joint, mount, series="32 mm pot, rimmed plate"),
    "pull on thick bare steel": lambda joint, mount: _patch(joint, mount, series="32 mm pot, flat plate"),
    "density of pine": lambda joint, mount: (joint, replace(mount, item_material="hardwood")),
}


def _change(name: str, joint: Joint, mount: MountPoint) -> Changed:
    if name in {"item thickness", "thinner sheet"}:
        return joint, replace(mount, item_thickness_mm=0.4)
    if name.startswith("strength of "):
        worse = {"steel": "aluminium", "aluminium": "abs"}
        fields = {"material": worse[mount.material]} if name.endswith(mount.material) else {}
        item = {"item_material": worse[mount.item_material]} if name.endswith(mount.item_material) else {}
        return joint, replace(mount, **fields, **item)  # type: ignore[arg-type]
    return CHANGES[name](joint, mount)


CASES = (
    {"onto": "steel 0.8 mm", "item": "trim-panel", "mass": "0.5kg"},
    {"onto": "steel 0.8 mm"},
    {"onto": "steel 0.8 mm", "reach": "both-sides", "item-hole": "9mm"},
    {"onto": "steel 6 mm"},
    {"onto": "steel 0.8 mm", "removed": "never", "mass": "0.4kg", "item-thickness": "1mm", "item-hole": "4.5mm"},
    {"onto": "steel 0.8 mm", "item-material": "pine", "item-thickness": "18mm", "mass": "0.5kg"},
    {"onto": "steel 0.8 mm", "item-material": "abs", "mass": "0.5kg"},
    {"onto": "steel 0.8 mm", "removed": "never", "mass": "0.1kg"},
)


def _shown() -> dict[str, tuple[Mode, Proposal, MountPoint]]:
    """Every mode once, with a proposal that was proved in it."""
    found: dict[str, tuple[Mode, Proposal, MountPoint]] = {}
    for case in CASES:
        mount = resolve(read_question(AMPLIFIER | case, TABLES), TABLES)
        for method in METHODS:
            if method.gates(mount, TABLES) is not None:
                continue
            applies, loads = method.modes(mount, TABLES), demands(mount, TABLES)
            for joint in method.joints(mount, TABLES):
                proposal = prove(joint, mount, method, loads, TABLES)
                if isinstance(proposal, Proposal):
                    found |= {mode.id: (mode, proposal, mount) for mode in applies if mode.id not in found}
    return found


SHOWN = _shown()
ALL = [
    value for module in (modes, item_modes, face_modes) for value in vars(module).values() if isinstance(value, Mode)
]
# The thicker sheet counts only where the thinner is 1 mm and up (tests/validation/test_sheet.py); board and plastic
# have the same limit on pressure, and the load is that times an area (tests/validation/test_board_and_plastic.py).
# The lead-in, the share of shear over tensile strength and the depth of a board item that bears are rules: no joint or
# mount can move them, and tests/validation/test_recomputed.py calculates with them.
STEADY = {"thicker sheet", "pressure", "lead-in", "shear over tensile", "most depth over diameter"}
# So are the shares and the friction of a face; of hook-and-loop and of tape for what stays the table has one figure.
STEADY |= {"shear of a new pair", "pull of a new pair", "share left by opening it", "stress that may stay on the tape"}
STEADY |= {"share left by paint", "face friction", "height of the rim", "yield of the plate"}


@pytest.mark.parametrize("mode", ALL, ids=lambda mode: mode.id)
def test_every_input_of_every_mode_moves_its_capacity(mode: Mode) -> None:
    _, proposal, mount = SHOWN[mode.id]
    before = mode.capacity(proposal.joint, mount, TABLES)
    assert before.inputs
    for entry in before.inputs:
        if entry.name in STEADY:
            continue
        joint, moved = _change(entry.name, proposal.joint, mount)
        after = mode.capacity(joint, moved, TABLES)
        assert after.load_n != pytest.approx(before.load_n, rel=1e-9), f"{entry.name} moves nothing"


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("mass_kg", 7.0),
        ("fixings", 6),
        ("cg_mm", 60.0),
        ("panel", Panel.SEAT_BACK),
        ("pattern", Pattern("rectangle", 200.0, 100.0)),
    ],
)
def test_every_input_of_a_load_moves_its_demand(field: str, value: object) -> None:
    mount = resolve(read_question(AMPLIFIER | {"panel": "floor"}, TABLES), TABLES)
    one, other = (
        [(demand.shear_n, demand.tension_n) for demand in demands(point, TABLES)]
        for point in (mount, replace(mount, **{field: value}))  # type: ignore[arg-type]
    )
    assert one != other


def test_an_edge_nobody_gave_is_taken_as_the_edge_that_is_asked_for() -> None:
    """An answer that says `needs 15.2 mm to any edge` must have calculated with 15.2 mm, not with more."""
    mount = resolve(read_question(AMPLIFIER, TABLES), TABLES)
    method = rivet_nut
    loads = demands(mount, TABLES)
    found = (prove(joint, mount, method, loads, TABLES) for joint in method.joints(mount, TABLES))
    for proposal in (proposal for proposal in found if isinstance(proposal, Proposal)):
        checks = {check.id: check for check in proposal.checks}
        taken = {entry.name: entry.value for entry in checks["sheet-bearing.hard_stop"].inputs}
        assert taken["edge distance"] == checks["edge-distance"].demand


def test_a_body_that_turns_caps_the_torque_and_outlasts_threadlocker_whatever_part_it_is() -> None:
    """Spin-out counts by its figure, not by the name of the part, and where no breaking torque is known."""
    mount = resolve(read_question(AMPLIFIER | {"mass": "2kg", "panel": "floor"}, TABLES), TABLES)
    joint = next(joint for joint in rivet_nut.joints(mount, TABLES) if joint.screw and joint.screw.thread == "M5")
    other, _ = _receiver(joint, mount, part="something new", breaking_nm=None)
    found = prove(other, mount, rivet_nut, demands(mount, TABLES), TABLES)
    assert isinstance(found, Proposal)
    assert found.torque is not None
    assert found.torque.limited_by == "loosening with threadlocker"
    assert "lock-breakaway" in {check.id for check in found.checks}
