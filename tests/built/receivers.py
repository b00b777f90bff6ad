"""A receiver from plain figures, None where there is none: tests say what differs and nothing else."""

from dataclasses import dataclass, replace
from typing import Any

from fasten.model import Receiver, Span, kinds
from fasten.model.kinds import PartKind, PatchKind
from fasten.model.known import (
    Absent,
    Body,
    Bulge,
    EdgeReach,
    FarEnd,
    Flange,
    MostTorque,
    Needed,
    Plate,
    Rating,
    SpinOut,
    Stated,
)

NONE = Absent("built without one")
_KINDS = {kind.name: kind for kind in vars(kinds).values() if isinstance(kind, PartKind)}
_PATCHES = {kind.name: kind for kind in vars(kinds).values() if isinstance(kind, PatchKind)}


def kind(name: str) -> PartKind:
    """The kind of this name; a name that nobody knows is a rivet nut by all else."""
    return _KINDS.get(name) or _replaced(kinds.RIVET_NUT, name)


def patch_kind(name: str) -> PatchKind:
    """The kind of patch of this name; a name that nobody knows is a pot magnet by all else."""
    return _PATCHES.get(name) or _replaced(kinds.POT_MAGNET, name)


def _replaced(base: Any, name: str) -> Any:
    return replace(base, name=name)


def receiver(part: str, series: str, thread: str, length_mm: float, material: str, from_: str, **more: Any) -> Receiver:
    """A receiver with nothing but what is told."""
    bare = Receiver(
        kind=kind(part), series=series, thread=thread, length_mm=length_mm, material=material, grip=NONE, flange=NONE,
        body=NONE, bulge=NONE, edge=NONE, pull=NONE, shear=NONE, breaking=NONE, box_torque=NONE, spin_out=NONE,
        prevailing=NONE, end=FarEnd.OPEN, from_=from_,
    )  # fmt: skip
    return changed(bare, **more)


def changed(base: Receiver, **more: Any) -> Receiver:
    """The receiver with other figures; `flange_thickness_mm` goes with `flange_mm`, `spin_out_sheet_mm` its torque."""
    found: dict[str, Any] = {}
    if "part" in more:
        found["kind"] = kind(more.pop("part"))
    if {"flange_mm", "flange_thickness_mm"} & more.keys():
        found["flange"] = _flange(base, more)
    if {"spin_out_nm", "spin_out_sheet_mm"} & more.keys():
        found["spin_out"] = _spin_out(base, more)
    for name, (field, make) in _PLAIN.items():
        if name in more:
            value = more.pop(name)
            found[field] = NONE if value is None else make(value)
    if found.get("pull") is NONE:
        found["pull"] = Needed("the pull its box gives")
    return replace(base, **found, **more)


_PLAIN: dict[str, tuple[str, Any]] = {
    "grip_mm": ("grip", lambda span: span), "body_mm": ("body", Body), "bulge_mm": ("bulge", Bulge),
    "thread_proof_n": ("pull", Rating), "shear_n": ("shear", Rating), "breaking_nm": ("breaking", MostTorque),
    "prevailing_nm": ("prevailing", MostTorque), "torque_nm": ("box_torque", MostTorque),
    "reach_mm": ("edge", EdgeReach),
}  # fmt: skip


def _flange(base: Receiver, more: dict[str, Any]) -> Flange | Plate | Absent:
    had = base.flange
    across = more.pop("flange_mm", None if isinstance(had, Absent) else had.across_mm)
    thick = more.pop("flange_thickness_mm", had.thickness_mm if isinstance(had, Flange) else None)
    if across is None:
        return NONE
    return Plate(across) if thick is None else Flange(across, thick)


def _spin_out(base: Receiver, more: dict[str, Any]) -> SpinOut | Absent:
    had = base.spin_out
    torque = more.pop("spin_out_nm", had.torque_nm if isinstance(had, SpinOut) else None)
    sheet = more.pop("spin_out_sheet_mm", had.sheet_mm if isinstance(had, SpinOut) else None)
    return NONE if torque is None or sheet is None else SpinOut(torque, sheet, sheet, 1.0, Stated.LEAST)


@dataclass(frozen=True)
class Figures:
    """A receiver's figures, None where there is none."""

    grip_mm: Span | None
    flange_mm: float | None
    flange_thickness_mm: float | None
    body_mm: float | None
    bulge_mm: float | None
    prevailing_nm: float | None


def figures(part: Receiver | None) -> Figures:
    """What tests read off a receiver, nothing of none."""
    if part is None:
        return Figures(None, None, None, None, None, None)
    return Figures(
        grip_mm=part.grip if isinstance(part.grip, Span) else None,
        flange_mm=None if isinstance(part.flange, Absent) else part.flange.across_mm,
        flange_thickness_mm=part.flange.thickness_mm if isinstance(part.flange, Flange) else None,
        body_mm=part.body.outside_mm if isinstance(part.body, Body) else None,
        bulge_mm=part.bulge.across_mm if isinstance(part.bulge, Bulge) else None,
        prevailing_nm=part.prevailing.torque_nm if isinstance(part.prevailing, MostTorque) else None,
    )
