"""What can be done about damage, as a document and as plain data for JSON."""

from collections.abc import Collection, Iterator
from typing import Any

from fasten.after.damage import damage_text
from fasten.after.routes import Repaired, Route
from fasten.job.choices import why_not
from fasten.model import Status
from fasten.report.answer.as_json import answer_json, refusal_json
from fasten.report.answer.headline import parts
from fasten.report.forms.document import Document, Section
from fasten.report.plain import to_plain
from fasten.text.figures import mm

FORMAT = 1


def repair_document(name: str, found: Repaired, stocked: Collection[str]) -> Document:
    """The question that comes first, the way out, the routes with their proof, those `stocked` marked, and the rest."""
    where = "every fixing" if found.at is None else f"fixing {found.at}"
    title = f"{name}: {damage_text(found.damage)}, {where}"
    if found.asks:
        return Document(title, (f"{found.asks}. If neither: ask again with --sound.",), ())
    sections = (
        Section("The old part out", notes=tuple(_out(found)), numbered=True),
        *(_route(place, route, route.route in stocked) for place, route in enumerate(found.routes, 1)),
        Section("Does not do", notes=tuple(_refused(found))),
        Section("Never", notes=found.never),
    )
    return Document(title, tuple(_lead(found)), tuple(one for one in sections if one.notes))


def route_sections(found: Repaired, route: Route, stocked: bool) -> tuple[Section, ...]:
    """One route from the old part to the end: how that comes out, what is done then, what to mind, and what never."""
    sections = (
        Section("The old part out", notes=tuple(_out(found)), numbered=True),
        Section("Then", notes=tuple(_notes(route)) + (("All of its parts are on the shelf",) if stocked else ())),
        Section("Mind", notes=(found.danger,) if found.danger else ()),
        Section("Never", notes=found.never),
    )
    return tuple(one for one in sections if one.notes)


def why_refused(route: Route) -> str:
    """Why a route does not do, with its figures."""
    assert route.refused is not None
    return why_not(route.refused)


def _lead(found: Repaired) -> Iterator[str]:
    if found.means:
        yield f"Here: {found.means}."
    if found.left_mm is not None:
        yield f"The hole that is left counts as {mm(found.left_mm)}."
    if found.danger:
        yield f"Mind: {found.danger}."
    if not found.routes:
        yield "No route does: what must change stands with each of them below."
    elif not found.routes[0].proven:
        yield "NOT PROVEN yet: each route says what it needs."


def _out(found: Repaired) -> Iterator[str]:
    for step in found.out:
        bits = f" Bit: {step.bits}." if step.bits else ""
        danger = f" Mind: {step.danger}." if step.danger else ""
        yield f"{step.route}, {step.title} ({step.why}). {step.text}{bits}{danger}"


def _route(place: int, route: Route, stocked: bool) -> Section:
    state = "proven" if route.proven else "not proven"
    return Section(
        f"{place}. {route.route}, {route.title}, {state}{', on the shelf' if stocked else ''}",
        notes=tuple(_notes(route)),
    )


def _notes(route: Route) -> Iterator[str]:
    yield f"{route.text} ({route.why})"
    if not route.proven:
        yield f"NOT PROVEN: needs {'; '.join(route.needs)}"
    if route.opened_mm is not None:
        yield f"Opening in the item: {mm(route.opened_mm)}"
    yield from route.notes
    if route.answer is not None:
        yield f"Here: {route.answer.title}"
        yield from (f"{label}: {text}" for label, text in parts(route.answer))
        held = sum(check.status is Status.HOLDS for check in route.checks)
        yield f"{len(route.checks)} checks, {held} of them hold"
    for label, text in (("Bits", route.bits), ("Hardware", route.hardware), ("Mind", route.danger)):
        if text and (route.answer is None or label == "Mind"):
            yield f"{label}: {text}"


def _refused(found: Repaired) -> Iterator[str]:
    for route in found.refused:
        assert route.refused is not None
        yield f"{route.route}, {route.title} ({route.why}): {why_not(route.refused)}"


def repair_json(name: str, found: Repaired, stocked: Collection[str]) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {
        "format": FORMAT, "mount": name, "damage": to_plain(found.damage), "at": found.at, "asks": found.asks or None,
        "means": found.means, "hole_left_mm": found.left_mm, "danger": found.danger, "out": to_plain(found.out),
        "routes": [_plain(route, route.route in stocked) for route in found.routes],
        "refused": [_plain(route, False) for route in found.refused], "never": list(found.never),
    }  # fmt: skip


def _plain(route: Route, stocked: bool) -> dict[str, Any]:
    return {
        "route": route.route, "title": route.title, "text": route.text,
        "why": route.why, "proven": route.proven, "needs": list(route.needs),
        "new_hole": route.new_hole, "on_shelf": stocked, "bits": route.bits, "hardware": route.hardware,
        "danger": route.danger, "checks": to_plain(route.checks),
        "notes": list(route.notes), "item_hole_mm": route.point.item_hole_mm, "edge_mm": route.point.edge_mm,
        "answer": None if route.answer is None else answer_json(route.answer, route.point),
        "refused": None if route.refused is None else refusal_json(route.refused),
    }  # fmt: skip
