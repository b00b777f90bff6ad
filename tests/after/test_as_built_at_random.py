"""Records at random of what was built: none that is said to hold may not, by equations that were written apart.

All 2,000 of them run by hand, `tests/benchmarks/as_built.py`.
"""

import pytest
from benchmarks.as_built import SEED, group_of, mount_points, wrong_holds
from built.few import few
from recalculation.records import against_holding
from recalculation.test_recalculation import SHEARS

from fasten.after.verdict import Verdict
from fasten.report.job.built import built_json

from .test_judge import AMP, planned, verdict

pytestmark = pytest.mark.slow


def test_no_record_is_said_to_hold_that_does_not() -> None:
    found, verdicts = wrong_holds(few(2000, 120), SEED)
    assert not found, found[:3]
    assert verdicts["holds"] > few(400, 15)
    assert len(verdicts) >= 3


def test_what_does_not_hold_is_found_by_the_same_equations() -> None:
    """The torque, the sheet and the hole of a record that holds, each moved beyond what it may be."""
    choice = next(one for one in mount_points() if one.name == AMP)
    built = built_json(planned()[AMP].mount, verdict(AMP, torque="1 N·m"))
    hole, own = {"mm": 7.0, "plus": 0.1, "minus": 0.0, "body": 1.0}, group_of(choice)

    def because(**said: object) -> str:
        return "; ".join(against_holding(built, {"torque": (1.0,), **said}, hole, own, SHEARS, running=False))

    assert because() == ""
    assert "outside" in because(torque=(1.2,))
    assert "outside" in because(torque=(0.2, 1.0))
    assert "was measured" in because(sheet=0.7)
    assert "held at" in because(hole=(7.2,))
    assert because(hole=(7.2,), held=(1.4,)) == ""
    assert "over 50 mV" in because(full=200.0, drop=(16.0, 60.0))


def test_what_turned_a_screw_takes_nothing_off_the_torque_where_no_nut_takes_it() -> None:
    """A tight thread still loads the body with all that was read: 1.3 N·m is over 1.06, whatever 0.5 of it did."""
    assert verdict(AMP, torque="1.3 N·m", turning="0.5 N·m").verdict is Verdict.FAILS
    assert verdict(AMP, torque="1 N·m", turning="0.9 N·m").verdict is Verdict.FAILS
