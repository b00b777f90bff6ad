"""A repaired fixing holds in the hole that its repair was proved in, and not in a wider one."""

import pytest

from fasten.after.damage import read_damage
from fasten.after.verdict import Verdict
from fasten.job.after.built import recorded
from fasten.job.after.damaged import planned_at, routes_at, with_route
from fasten.job.after.judged import judged
from fasten.job.choices import choices
from fasten.record import replace

from .test_repairs import TABLES, amp


@pytest.mark.parametrize(
    ("hole", "wanted"), [("9 mm", Verdict.HOLDS), ("9.05 mm", Verdict.HOLDS), ("13 mm", Verdict.OPEN)]
)
def test_a_bolt_in_a_spoilt_hole_is_open_in_one_that_is_wider_still(hole: str, wanted: Verdict) -> None:
    """Its washers cover 9 mm; of 13 mm nothing was proved."""
    job = amp()
    (mount,) = job.mounts
    job = replace(job, mounts=(replace(mount, said=(*mount.said, ("reach", "both-sides"))),))
    planned = planned_at("amp", job, TABLES)
    found = routes_at(planned, read_damage("oversize 9 mm"), 3, TABLES)
    bolt = next(route for route in found.routes if route.route == "B1")
    (now,) = choices(with_route(job, planned, found, bolt, "2026-06-01", TABLES), TABLES)
    said = {
        "kind": "fitted", "hole": f"7 mm, 7 mm, {hole}, 7 mm", "torque": "1 N·m, 1 N·m, 4.3 N·m, 1 N·m",
        "turning": "0.1 N·m, 0.1 N·m, 1 N·m, 0.1 N·m",
    }  # fmt: skip
    verdict = judged(now.of(recorded(now.mount, said, "2026-06-01")), TABLES)
    assert verdict is not None
    assert verdict.verdict is wanted, verdict.needs
    assert any("fixing 3 repaired as oversize: 13 mm measured" in need for need in verdict.needs) is (hole == "13 mm")
