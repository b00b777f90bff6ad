"""A hardware list and a verdict as plain data for JSON: the fields of `fasten.job.list.lists`.

Keys are only ever added.
"""

from typing import Any

from fasten.job.list.lists import HardwareList, Verdict
from fasten.report.plain import to_plain

FORMAT = 1


def hardware_json(listed: HardwareList) -> dict[str, Any]:
    """The list as a dict ready for `json.dumps`."""
    return {"format": FORMAT, **to_plain(listed)}


def ready_json(verdict: Verdict) -> dict[str, Any]:
    """The verdict as a dict ready for `json.dumps`."""
    return {"format": FORMAT, **to_plain(verdict)}
