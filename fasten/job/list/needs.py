"""The lines of a list beside parts: bits with what they drill, and tools in their sizes."""

from fasten.job.list.alike import Alike
from fasten.job.list.lists import BitLine, Drilled, Setting, ToolLine
from fasten.job.shelf.view import ShelfView
from fasten.model.line import LineId, Sort
from fasten.model.plan import BitNeed, Plan, ToolNeed
from fasten.text.figures import id_size

HEADINGS = ("setting tool", "tap", "driver", "countersink", "stop", "other")


def bits(plans: tuple[Plan, ...], shelf: ShelfView) -> tuple[BitLine, ...]:
    """Every bit by diameter, with what it drills where."""
    drilled: dict[tuple[float, str], list[tuple[str, BitNeed]]] = {}
    for plan in plans:
        for need in plan.bits:
            drilled.setdefault((need.diameter_mm, need.name), []).append((plan.name, need))
    return tuple(_bit_line(name, mm, drilled[mm, name], shelf) for mm, name in sorted(drilled))


def _bit_line(name: str, diameter_mm: float, found: list[tuple[str, BitNeed]], shelf: ShelfView) -> BitLine:
    on_shelf = shelf.has_bit(diameter_mm)
    instead = () if on_shelf else _instead([need for _, need in found], shelf)
    work = tuple(
        Drilled(mount, need.purpose, need.hole_mm, need.depth_mm, need.count, need.ream) for mount, need in found
    )
    return BitLine(LineId(Sort.BIT, id_size(diameter_mm)), name, diameter_mm, on_shelf, instead, work)


def _instead(needs: list[BitNeed], shelf: ShelfView) -> tuple[str, ...]:
    """Bits of the shelf that drill each of the holes within tolerance; none where one has no bit, or is a pilot."""
    names = [_on_shelf(need, shelf) for need in needs]
    return tuple(dict.fromkeys(name for name in names if name is not None)) if None not in names else ()


def _on_shelf(need: BitNeed, shelf: ShelfView) -> str | None:
    within = need.within
    return None if within is None else shelf.bit_for(need.hole_mm, within.minus, within.plus)


def tools(plans: tuple[Plan, ...], shelf: ShelfView) -> tuple[ToolLine, ...]:
    """Every tool once, by heading, in the order in which the job first asks for it within each."""
    used: dict[LineId, tuple[ToolNeed, list[Setting]]] = {}
    lines = Alike(lambda plan: [(need, used.setdefault(need.id, (need, []))[1]) for need in dict.fromkeys(plan.tools)])
    for plan in plans:
        for need, settings in lines.of(plan, plan.tools):
            settings.append(Setting(plan.name, need.set_mm, need.torque_nm))
    ordered = sorted(used.values(), key=lambda found: HEADINGS.index(found[0].heading))
    return tuple(tool_line(need, tuple(settings), shelf) for need, settings in ordered)


def tool_line(need: ToolNeed, used: tuple[Setting, ...], shelf: ShelfView) -> ToolLine:
    """The line of a tool, used there."""
    there = shelf.has_tool(need.names)
    measured = (use for use in used if use.torque_nm) if there else ()
    beyond = tuple(use for use in measured if use.torque_nm and not shelf.reaches(need.names, use.torque_nm))
    return ToolLine(need.id, need.heading, need.key, need.name, need.size, there and not beyond, used, beyond=beyond)
