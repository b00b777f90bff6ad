"""A work sheet as plain data for JSON: each entry, a mount point with the answer as `pick` gives it.

Keys are only ever added.
"""

from typing import Any

from fasten.job.choices import Choice
from fasten.job.gauge.words import MeasuringPass
from fasten.job.work import WorkEntry, WorkSheet
from fasten.report.answer.as_json import answer_json, refusal_json
from fasten.report.job.built import verdict_json
from fasten.report.job.gauge import gauge_json
from fasten.report.job.ticked import ticked_json
from fasten.report.plain import to_plain

FORMAT = 1


def work_json(sheet: WorkSheet, measuring: MeasuringPass | None = None) -> dict[str, Any]:
    """The sheet as a dict ready for `json.dumps`; what is to be measured is null where nothing is, or was not asked."""
    return {
        "format": FORMAT,
        "title": sheet.title,
        "vehicle": sheet.vehicle,
        "note": sheet.note,
        "first": [state.text for state in sheet.first],
        "cautions": [caution.text for caution in sheet.cautions],
        "bits": to_plain(sheet.box.bits),
        "tools": to_plain(sheet.box.tools),
        "consumables": to_plain(sheet.box.consumables),
        "mounts": [_mount(entry, entry.source) for entry in sheet.entries if isinstance(entry.source, Choice)],
        "last": [state.text for state in sheet.last],
        "first_ticked": ticked_json(sheet.first),
        "last_ticked": ticked_json(sheet.last),
        "measuring": None if measuring is None else gauge_json(measuring),
    }


def _mount(entry: WorkEntry, source: Choice) -> dict[str, Any]:
    """Null for answer where nothing fits; `measure_first` is what a proof still needs."""
    plan, answer, point = entry.plan, source.answer, source.point
    return {
        "name": entry.name,
        "note": entry.note,
        "item": None if point is None else point.item,
        "fixings": None if point is None else point.fixings,
        "answer": None if answer is None or point is None else answer_json(answer, point),
        "measure_first": [] if plan is None or plan.proven else to_plain(plan.unresolved),
        "reason": entry.reason or None,
        "refusals": [refusal_json(refused) for refused in source.refusals],
        "steps": [step.text for step in entry.steps],
        "cautions": [caution.text for caution in entry.cautions],
        "built": to_plain(entry.built),
        "bag": to_plain(entry.bag),
        "ticked": ticked_json(entry.steps),
        "verdict": verdict_json(entry.verdict),
    }
