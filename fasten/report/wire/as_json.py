"""A run as plain data for JSON: stable keys with the unit in them, null where there is nothing."""

from typing import Any

from fasten.job.wiring.ways import WayChoice
from fasten.report.plain import to_plain
from fasten.wiring.ends import EndFit
from fasten.wiring.lines import lines_of
from fasten.wiring.plan import plan_of
from fasten.wiring.sizing import NoSize, Sizing
from fasten.wiring.wired import Wired

FORMAT = 1


def wire_json(answer: Wired | NoSize, ways: tuple[WayChoice, ...] = ()) -> dict[str, Any]:
    """The answer as a dict ready for `json.dumps`; what no size does for has `because` and `fix` alone.

    `ways` are the sections and holes of its job that it goes through.
    """
    if isinstance(answer, NoSize):
        return {"format": FORMAT, "fits": False, "because": answer.because, "fix": answer.fix}
    sizing, plan = answer.sizing, plan_of(answer.sizing.run.name, answer)
    return {
        "format": FORMAT,
        "fits": not answer.fails,
        "proven": not answer.fails and not answer.needs,
        "current": _current(sizing),
        "conductor": _conductor(sizing),
        "fuse": _fuse(sizing),
        "lead": to_plain(sizing.lead),
        "path": _path(sizing),
        "instead": _instead(sizing),
        "enough": None if sizing.enough is None else sizing.enough.name,
        "pieces": to_plain(answer.done.made.pieces),
        "ends": [_end(end) for end in answer.done.made.ends],
        **ways_json(ways),
        "parts": to_plain(lines_of(plan, answer.done.made.ends, answer.done.tables)),
        "tools": [need.name for need in plan.tools],
        "steps": [step.text for step in plan.steps],
        "cautions": [caution.text for caution in plan.cautions],
        "checks": to_plain(answer.checks),
        "open": list(answer.needs),
        "confirms": to_plain(answer.confirms),
        "lapsed": list(answer.lapsed),
        "sources": to_plain(answer.sources),
    }


def ways_json(ways: tuple[WayChoice, ...]) -> dict[str, Any]:
    """Sections and holes, each with what it gets."""
    return {
        "sections": [_way(way) for way in ways if not way.is_hole],
        "holes": [_way(way) for way in ways if way.is_hole],
    }


def _way(way: WayChoice) -> dict[str, Any]:
    plan, known = way.plan, {"name": way.name, **dict(way.way.said), "runs": list(way.runs)}
    if plan is None:
        return known | {"because": way.reason}
    parts = ((need.part, need.count) for need in plan.parts)
    return known | {
        "because": None,
        "title": plan.title,
        "proven": plan.proven,
        "parts": [{"part": one.kind, "size": one.size, "type": one.name, "needed": count} for one, count in parts],
        "consumables": [
            {"name": need.names[-1], "detail": need.detail, "used": need.amount, "unit": need.unit}
            for need in plan.consumables
        ],
        "bits_mm": [need.diameter_mm for need in plan.bits],
        "steps": [step.text for step in plan.steps],
        "checks": to_plain(plan.checks),
        "open": list(plan.unresolved),
        "confirms": to_plain(way.confirms),
    }


def _current(sizing: Sizing) -> dict[str, Any] | None:
    found = sizing.current
    if found is None:
        return None
    return {"full_a": found.full_a, "fuse_floor_a": found.fuse_floor_a, "music_a": found.music_a}


def _conductor(sizing: Sizing) -> dict[str, Any]:
    found, run = sizing.conductor, sizing.run
    return {
        "size": sizing.size.name,
        "area_mm2": sizing.size.area_mm2,
        "material": run.material.value,
        "insulation_c": run.insulation_c,
        "ampacity_a": None if found is None else found.ampacity_a,
        "conductor_c": None if found is None else found.conductor_c,
        "drop_v": None if found is None else found.drop_v,
        "limit_v": None if found is None else found.limit_v,
    }


def _fuse(sizing: Sizing) -> dict[str, Any] | None:
    fuse = sizing.fuse
    if fuse is None:
        return None
    return {
        "rating_a": fuse.rating_a, "type": fuse.family.family, "standard": fuse.family.standard,
        "least_a": fuse.least_a, "most_a": fuse.most_a, "within_mm": fuse.within_mm, "count": fuse.count,
        "holders": list(sizing.run.holder_names),
    }  # fmt: skip


def _path(sizing: Sizing) -> dict[str, Any] | None:
    """The leads in series, from the amplifier on, and what they come to together; None where a lead is alone."""
    before, behind = sizing.run.leads_before.names, sizing.run.leads_behind.names
    leads = [*reversed(before), sizing.run.name, *behind]
    return None if sizing.path is None else {"leads": leads, **to_plain(sizing.path)}


def _instead(sizing: Sizing) -> dict[str, Any] | None:
    one = sizing.instead
    if one is None or one.fuse is None:
        return None
    return {"size": one.conductor.size.name, "drop_v": one.conductor.drop_v, "fuse_a": one.fuse.rating_a}


def _end(end: EndFit) -> dict[str, Any]:
    part, shrink = end.part, end.shrink
    return {
        "where": end.label, "part": None if part is None else part.kind.line,
        "size": None if part is None else part.size, "stud": part.stud or None if part is not None else None,
        "type": part.type_ or None if part is not None else None,
        "colour": part.colour or None if part is not None else None,
        "bare": None if end.bare is None else end.bare.value,
        "strip_mm": end.strip_mm, "shrink": None if shrink is None else shrink.row.size,
        "shrink_cut_mm": None if shrink is None else shrink.cut_mm,
        "shrink_before_crimp": None if shrink is None else shrink.before_crimp, "pull_n": end.pull_n,
        "tool": end.tool, "torque_from": end.turn.whose, "torque_least_nm": end.turn.least_nm,
        "torque_most_nm": end.turn.most_nm, "torque_target_nm": end.turn.target_nm,
    }  # fmt: skip
