"""Advice as plain data for JSON: stable keys with the unit in them, null where nothing is known.

Keys are only ever added. Values of the data never stand as keys: the fields of a mount point are the program's own.
"""

from collections.abc import Mapping
from typing import Any

from fasten.model import Advice, Answer, Hole, Joint, MountPoint, Patch, Receiver, Refusal, Remedy, Span
from fasten.model.asked import NOT_ASKED
from fasten.record import names_of, replace
from fasten.report.json_keys import KEPT
from fasten.report.plain import to_plain

FORMAT = 1
_SCREW = ("thread", "length_mm", "head", "standard", "class", "finish", "engagement_mm", "protrusion_mm")
_TORQUE = ("target_nm", "min_nm", "max_nm", "target_inlbf", "limited_by", "nut_factor", "from")
_HOLE = ("diameter_mm", "tolerance_mm", "depth_mm", "shape")
_DRAWN = frozenset({"joint", "failed"})
_BIT = ("name", "diameter_mm", "deviation_mm", "holds")


def advice_json(advice: Advice) -> dict[str, Any]:
    """The advice as a dict ready for `json.dumps`.

    Raises: TypeError for a number that is not finite, which JSON cannot hold.
    """
    return {
        "format": FORMAT,
        "mount": _mount(advice.mount),
        "answers": [answer_json(answer, advice.mount) for answer in advice.answers],
        "refusals": [refusal_json(refused) for refused in advice.refusals],
        "sources": to_plain(advice.sources),
        "ground": to_plain(advice.ground),
        "remedies": [_remedy(one) for one in advice.remedies],
        "on_holes": to_plain(advice.on_holes),
    }


def _remedy(one: Remedy) -> dict[str, Any]:
    """What would make the panel stiff enough, its fields by name."""
    beside = None if one.beside is None else {**to_plain(one.beside), "said": dict(one.beside.said)}
    return {**to_plain(one), "said": dict(one.said), "beside": beside}


def _mount(mount: MountPoint) -> dict[str, Any]:
    """Each field with its value and where that is from; null for both where it is not given."""
    origins = {name: origin.value for name, origin in mount.origins}
    names = (name for name in names_of(MountPoint) if name not in NOT_ASKED)
    return {
        KEPT.get(name, name): {"value": to_plain(getattr(mount, name)), "origin": origins.get(name)} for name in names
    }


def answer_json(answer: Answer, mount: MountPoint) -> dict[str, Any]:
    """One answer as plain data."""
    proposal = answer.proposal
    return {
        "rank": answer.rank,
        "method": answer.method,
        "title": answer.title,
        "status": proposal.status.value,
        "proven": proposal.proven,
        **_joint(proposal.joint, mount),
        "torque": _only(_TORQUE, to_plain(proposal.torque)),
        "checks": to_plain(proposal.checks),
        "exempt": to_plain(proposal.exempt),
        "removals": to_plain(proposal.removals),
        "score": to_plain(answer.score),
        "steps": [step.text for step in answer.steps],
        "tools": [need.text for need in answer.tools],
        "consumables": [need.text for need in answer.consumables],
        "cautions": [caution.text for caution in answer.cautions],
        "remarks": to_plain(answer.remarks),
    }


def _joint(joint: Joint, mount: MountPoint) -> dict[str, Any]:
    needed_mm = max(joint.behind_set_mm, joint.behind_done_mm)
    return {
        "receiver": None if joint.receiver is None else _receiver(joint.receiver),
        "hole": None if joint.hole is None else _hole(joint.hole),
        "patch": None if joint.patch is None else _patch(joint.patch),
        "screw": _only(_SCREW, to_plain(joint.screw)),
        "washers": to_plain(joint.washers),
        "lock": joint.lock.name,
        "layers": to_plain(joint.layers),
        "grip_mm": joint.grip_mm,
        "behind": {"needed_mm": needed_mm, "available_mm": mount.behind_mm},
        "joint_kind": joint.kind.value,
    }


def refusal_json(refused: Refusal) -> dict[str, Any]:
    """A refusal as plain data; its cure is given as the change."""
    return {key: value for key, value in refusal_plain(refused).items() if key != "cure"}


def refusal_plain(refused: Refusal) -> dict[str, Any]:
    """A refusal as plain data with its cure; what was tried is for a drawing alone."""
    plain = to_plain(replace(refused, joint=None, failed=None))
    return {key: value for key, value in plain.items() if key not in _DRAWN}


def _receiver(part: Receiver) -> dict[str, Any]:
    return {
        "part": part.part, "series": part.series, "thread": part.thread, "length_mm": to_plain(part.length_mm),
        "grip_mm": to_plain(part.grip) if isinstance(part.grip, Span) else None, "material": part.material,
    }  # fmt: skip


def _patch(patch: Patch) -> dict[str, Any]:
    plain = to_plain(patch)
    return {"part": patch.part, **{key: value for key, value in plain.items() if key != "kind"}}


def _hole(hole: Hole) -> dict[str, Any]:
    plain = to_plain(hole)
    return {**{key: plain[key] for key in _HOLE}, "bit": _only(_BIT, plain["bit"])}


def _only(keys: tuple[str, ...], plain: Mapping[str, Any] | None) -> dict[str, Any] | None:
    """The keys that are promised, in their order: what else a part knows is the program's own business."""
    return None if plain is None else {key: plain[key] for key in keys}
