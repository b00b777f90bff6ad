"""Three repairs one after the other at random: each starts from what is there, and what is said to hold does."""

import json
import random
from dataclasses import replace
from math import dist
from typing import Any

import pytest
from after.test_recomputed_cells import again, apart
from after.test_repair import MOUNTS, TABLES
from built.few import few
from recalculation.reading import Line

from fasten.after.damage import possible, read_damage
from fasten.after.verdict import Verdict
from fasten.errors import FastenError
from fasten.job.after.built import recorded
from fasten.job.after.damaged import planned_at, routes_at, with_route
from fasten.job.after.judged import judged
from fasten.job.after.taken import in_force
from fasten.job.after.visit import visit_sheet
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.words import Job, Mount
from fasten.model import Proposal
from fasten.model.kinds import Body
from fasten.report.plain import json_text, to_plain
from fasten.report.template.svg import sheet_for, template_svg

pytestmark = pytest.mark.slow

WORDS = {"oversize": "oversize {wide:.1f} mm", "off": "off 3 mm right", "cracked": "cracked 5 mm"}


def repaired_job(seed: int) -> Job | None:
    """A mount point with up to three repairs taken as they are offered; None where nothing fits it."""
    draw = random.Random(seed)
    name = draw.choice(sorted(MOUNTS))
    job = Job("Car", "", "", (Mount("m", tuple(MOUNTS[name].items())),))
    for step in range(3):
        try:
            planned = planned_at("m", job, TABLES)
        except FastenError:
            return None
        at = draw.choice((None, *range(1, planned.fixings + 1))) if planned.fixings > 1 else 1
        joint = planned.joint_at(at)
        what = draw.choice(possible(joint))
        wide = (joint.hole.diameter_mm if joint.hole is not None else 5.0) + draw.choice((0.6, 1.2))
        try:
            found = routes_at(planned, read_damage(WORDS.get(what, what).format(wide=wide)), at, TABLES)
        except FastenError as error:
            if "was left out" not in error.what and "is not over its hole" not in error.what:
                raise
            continue
        if found.routes:
            route = draw.choice(found.routes)
            job = with_route(job, planned, found, route, f"2026-05-{step + 1:02}", TABLES)
    return job


@pytest.mark.parametrize("seed", range(few(300, 12)))
def test_repairs_one_after_the_other_are_proven_by_their_figures(seed: int) -> None:
    job = repaired_job(seed)
    if job is None:
        return
    found = choices(job, TABLES)[0]
    assert found.answer is not None
    assert found.plan is not None
    assert found.point is not None
    assert len(job.mounts[0].visits) == len(job.mounts[0].repairs)
    raws: list[dict[str, Any]] = [json.loads(json_text(to_plain(check))) for check in found.answer.proposal.checks]
    wrong = [raw for raw in raws if is_wrong(raw)]
    assert not wrong, wrong[:2]
    assert found.answer.proposal.proven is all(raw["status"] == "holds" for raw in raws)
    sheet = sheet_for(found.answer, found.point, "m", repairs=found.repairs)
    assert template_svg(sheet).startswith("<svg")
    if found.answer.proposal.proven:
        for place, centre in enumerate(sheet.centres_mm):
            new_mm = sheet.hole_at(place)[0] or 0.0
            near = [old for old in sheet.old if new_mm and dist(centre, old.centre_mm) < (new_mm + old.diameter_mm) / 2]
            assert not near, "they run into each other"
    hardware(job, (found,), None, TABLES)
    assert all(need.count > 0 for need in found.plan.parts)
    judged(found.of(replace(found.mount)), TABLES)
    visit_sheet(job, (found,), (), None, TABLES)


def is_wrong(raw: dict[str, Any]) -> bool:
    """Whether a line does not follow from its inputs, or says that it holds where it does not."""
    line = Line({**raw, "id": raw["id"].rpartition("/")[2]})
    if not line.checked:
        return False
    over = (
        raw["demand"] is not None and raw["allowable"] is not None and raw["demand"] > raw["allowable"] * 1.001 + 1e-6
    )
    sides = again(line)
    return (raw["status"] == "holds" and over) or (
        sides is not None and (apart(raw["demand"], sides[0]) or apart(raw["allowable"], sides[1]))
    )


@pytest.mark.parametrize("seed", range(1000, 1000 + few(120, 6)))
def test_what_holds_at_repaired_fixings_is_inside_the_window_and_hole_of_each(seed: int) -> None:
    job = repaired_job(seed)
    if job is None:
        return
    found, draw = choices(job, TABLES)[0], random.Random(seed)
    assert found.answer is not None
    assert found.point is not None
    each, gone = [found.answer.proposal] * found.point.fixings, set[int]()
    for one in in_force(found.repairs):
        if one.repair.at is not None and not one.whole and one.route is not None and one.route.answer is not None:
            gone |= {one.repair.at} if one.leaves_out else set()
            each[one.repair.at - 1] = one.route.answer.proposal
    for _ in range(12):
        torques = [drawn_nm(one, draw) for one in each]
        holes = [drawn_mm(one, draw) for one in each]
        said = {"note": "at random"}
        said |= {"torque": ", ".join(f"{nm} N·m" for nm in torques)} if all(torques) else {}
        said |= {"hole": ", ".join(f"{mm} mm" for mm in holes)} if all(holes) else {}
        verdict = judged(found.of(recorded(found.mount, said, "2026-11-29")), TABLES)
        assert verdict is not None
        if verdict.verdict in (Verdict.HOLDS, Verdict.LESS):
            assert found.answer.proposal.proven
            for number, proved in enumerate(each, 1):
                assert number in gone or is_inside(proved, torques[number - 1], holes[number - 1]), (number, said)


def drawn_nm(one: Proposal, draw: random.Random) -> float:
    if one.torque is None:
        return 0.0
    least, most = (0.8, 1.25) if draw.random() < 0.3 else (1.0, 1.0)
    return round(draw.uniform(least * one.torque.min_nm, most * one.torque.max_nm), 3)


def drawn_mm(one: Proposal, draw: random.Random) -> float:
    return 0.0 if one.joint.hole is None else round(one.joint.hole.diameter_mm + draw.choice((0, 0, 0.05, 0.2, 0.5)), 2)


def is_inside(one: Proposal, torque_nm: float, hole_mm: float) -> bool:
    hole, receiver = one.joint.hole, one.joint.receiver
    turns = receiver is not None and receiver.kind.body is Body.TURNS
    tight = one.torque is None or one.torque.min_nm - 1e-6 <= torque_nm <= one.torque.max_nm + 1e-6
    return tight and (not turns or hole is None or hole_mm <= hole.diameter_mm + hole.tolerance_mm.plus + 0.05 + 1e-6)
