"""A fixing that a repair left out: a visit takes off those that are left, and measures as many."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.after.damaged import planned_at
from fasten.job.after.judged import check_said, judged
from fasten.job.after.start import holes_found_mm
from fasten.job.after.visit import visit_sheet
from fasten.job.choices import choices
from fasten.job.words import Repair, Visit

from .test_repairs import FITTED, M5, amp, gets

OUT = Repair(3, "oversize 8.2 mm", "L1", M5)
THREE = replace(FITTED, hole="7 mm, 7 mm, 7 mm", torque="1 N·m, 1 N·m, 0.2 N·m")


def test_a_visit_takes_off_the_fixings_that_are_left() -> None:
    found = visit_sheet(amp(OUT), choices(amp(OUT), builtin()), (), None, builtin())
    assert [one.fixings for one in found.off] == [3]


def test_as_many_are_measured_as_are_left() -> None:
    """The last of three is fixing 4, which is judged by what was read there: 0.2 N·m is too little."""
    check_said(THREE, gets(OUT), builtin(), is_sure=True)
    with pytest.raises(FastenError, match="4 are given, and it has 3 fixings"):
        check_said(FITTED, gets(OUT), builtin(), is_sure=True)
    for torque, verdict in (("1 N·m, 1 N·m, 1 N·m", "holds"), (THREE.torque, "does not hold")):
        found = judged(gets(OUT, visit=replace(THREE, torque=torque)), builtin())
        assert found is not None
        assert found.verdict.value == verdict


def test_what_was_measured_before_it_was_left_out_still_counts() -> None:
    found = judged(gets(OUT, visit=replace(FITTED, hole="7 mm, 7 mm, 8.2 mm, 7 mm")), builtin())
    assert found is not None
    assert found.verdict.value == "holds"


def test_a_hole_that_is_measured_is_of_its_fixing_where_one_before_it_is_left_out() -> None:
    """Of fixings 1, 2 and 4 the last is 8.2 mm: the next repair starts from that one, and not from all of them."""
    out = Visit("2026-05-02", "", "", "", "", kind="repaired")
    job = amp(OUT, visit=replace(FITTED, hole="7 mm"))
    mount = job.mounts[0]
    mount = replace(mount, visits=(*mount.visits, out, replace(THREE, date="2026-05-03", hole="7 mm, 7 mm, 8.2 mm")))
    planned = planned_at("amp", replace(job, mounts=(mount,)), builtin())
    assert planned.stands.before.measured_mm == (7.0, 7.0, 0.0, 8.2)


def test_a_fixing_that_there_is_no_more_leaves_none_out() -> None:
    """A repair of a ninth fixing, from when there were more: what is measured of the four is for all of them."""
    mount = amp(replace(OUT, at=9)).mounts[0]
    out = Visit("2026-05-02", "7 mm, 7 mm, 8.2 mm", "", "", "", kind="repaired")
    assert holes_found_mm(replace(mount, visits=(out,)), 4, builtin()) == (8.2,) * 4
