"""A work sheet as plain data for JSON: each mount point with the answer as `pick` gives it.

Keys are only ever added.
"""

from typing import Any

from fasten.job.work import WorkMount, WorkSheet
from fasten.report.answer.as_json import answer_json, refusal_json
from fasten.report.answer.headline import needs
from fasten.report.plain import to_plain

FORMAT = 1


def work_json(sheet: WorkSheet) -> dict[str, Any]:
    """The sheet as a dict ready for `json.dumps`."""
    return {
        "format": FORMAT,
        "title": sheet.title,
        "vehicle": sheet.vehicle,
        "note": sheet.note,
        "first": to_plain(sheet.first),
        "cautions": [caution.text for caution in sheet.cautions],
        "bits": to_plain(sheet.box.bits),
        "tools": to_plain(sheet.box.tools),
        "consumables": to_plain(sheet.box.consumables),
        "mounts": [_mount(mount) for mount in sheet.mounts],
        "last": to_plain(sheet.last),
    }


def _mount(mount: WorkMount) -> dict[str, Any]:
    """Null for answer where nothing fits; `measure_first` is what a proof still needs."""
    answer, point = mount.answer, mount.point
    return {
        "name": mount.name,
        "note": mount.note,
        "item": None if point is None else point.item,
        "fixings": None if point is None else point.fixings,
        "answer": None if answer is None or point is None else answer_json(answer, point),
        "measure_first": [] if answer is None or answer.proposal.proven else to_plain(needs(answer)),
        "reason": mount.reason or None,
        "refusals": [refusal_json(refused) for refused in mount.refusals],
        "steps": [step.text for step in mount.steps],
        "cautions": [caution.text for caution in mount.cautions],
        "built": to_plain(mount.built),
        "bag": to_plain(mount.bag),
    }
