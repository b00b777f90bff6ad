"""The tools of an answer in their sizes, each under what a list and a shelf may call it."""

from collections.abc import Iterator

from fasten.advice.bits import is_there, pilot_of
from fasten.advice.conditions import SHAPES
from fasten.advice.drive import drive_of
from fasten.catalog.job_parts import TOOL_KINDS
from fasten.catalog.named import material
from fasten.catalog.parts import NUTS
from fasten.catalog.practice import TOOLS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Answer, Joint, MountPoint
from fasten.model.line import LineId, Sort
from fasten.model.plan import ToolNeed
from fasten.record import replace
from fasten.text.figures import id_size, mm
from fasten.text.names import plain_name

SET_BY = frozenset({"setting tool", "tap"})
STOP_COLLAR = "stop collar"
BITS = "bit"  # the heading of what is listed by what it drills
BOARD = frozenset({"board", "wood"})


def tools_of(answer: Answer, point: MountPoint, tables: Tables) -> Iterator[ToolNeed]:
    """The tools of an answer but for its bits, which are a list of their own, and the stops for these."""
    for need in answer.tools:
        if tables.need(TOOL_KINDS, need.key).heading != BITS:
            yield _measuring(sized(need.key, answer.proposal.joint, tables), answer)
    yield from _stops(answer, point, tables)


def _measuring(need: ToolNeed, answer: Answer) -> ToolNeed:
    """The tool that measures the torque of the answer with its target; any other as it is."""
    torque = answer.proposal.torque
    is_it = torque is not None and plain_name(need.key) == plain_name(torque.tool)
    return replace(need, torque_nm=torque.target_nm) if torque is not None and is_it else need


def setting_tools(joint: Joint, tables: Tables) -> tuple[ToolNeed, ...]:
    """Every tool that sets or taps what the joint holds by."""
    rows = (row for row in tables.rows(TOOLS) if row.method == joint.method)
    return tuple(tool for row in rows if (tool := sized(row.tool, joint, tables)).heading in SET_BY)


def shaping_tools(joint: Joint, tables: Tables) -> tuple[ToolNeed, ...]:
    """Every tool that makes the drilled hole of a joint a hexagon or a square; none for a round one."""
    shape = None if joint.hole is None else SHAPES.get(joint.hole.shape)
    rows = (row for row in tables.rows(TOOLS) if row.method == joint.method)
    return tuple(sized(row.tool, joint, tables) for row in rows if shape in row.only_if)


def sized(key: str, joint: Joint, tables: Tables) -> ToolNeed:
    """The tool of this key in the size that a joint wants; a driver goes by the recess that it turns as well."""
    size_of = tables.need(TOOL_KINDS, key).size_of
    drive, (size, of_id) = drive_of(joint), _size(size_of, joint, tables)
    recess = drive.kind if size_of == "drive" and drive is not None else ""
    return _tool(key, tables, size, tuple(filter(None, (recess, of_id))), recess)


def unsized(key: str, tables: Tables) -> ToolNeed:
    """The tool of this key, whatever it is used on."""
    return _tool(key, tables, "", ())


def _tool(key: str, tables: Tables, size: str, of_id: tuple[str, ...], recess: str = "") -> ToolNeed:
    kind = tables.need(TOOL_KINDS, key)
    key, name = f"{kind.tool} {recess}".strip(), f"{kind.in_list} {recess}".strip()
    names = tool_names(key, size) | tool_names(name, size)
    return ToolNeed(LineId(Sort.TOOL, kind.tool, of_id), kind.heading, key, name, size, names)


def tool_names(name: str, size: str) -> frozenset[str]:
    """What a tool may go by on a shelf, its size written before or after its name."""
    names = (f"{name} {size}", f"{size} {name}") if size else (name,)
    return frozenset(map(plain_name, names))


def _size(size_of: str, joint: Joint, tables: Tables) -> tuple[str, str]:
    """The size of a tool as a list says it, and as its id has it."""
    receiver, screw, hole = joint.receiver, joint.screw, joint.hole
    if size_of == "thread":
        return _same(receiver.thread if receiver is not None else screw.thread if screw is not None else "")
    if size_of in {"drive", "hexagon"}:
        drive = drive_of(joint)
        return _same("" if drive is None else drive.size)
    if size_of == "nut" and receiver is not None:
        nut = tables.find(NUTS, receiver.series, receiver.thread)
        across_mm = None if nut is None else nut.across_flats_mm
        return ("", "") if across_mm is None else (mm(across_mm), id_size(across_mm))
    if size_of == "hole" and hole is not None:
        return f"over {mm(hole.diameter_mm)}", id_size(hole.diameter_mm)
    return "", ""


def _same(size: str) -> tuple[str, str]:
    return size, size


def _stops(answer: Answer, point: MountPoint, tables: Tables) -> Iterator[ToolNeed]:
    """A stop for the pilot that probes a panel, as far past the sheet as the rule says, and for every blind hole."""
    hole = answer.proposal.joint.hole
    if hole is None or is_there(hole, point):
        return
    if hole.depth_mm is not None:
        yield _stop(hole.bit.name, hole.depth_mm, tables)
    pilot = pilot_of(answer, tables)
    if pilot is not None and material(tables, point.material).family not in BOARD:
        past_mm = rule(tables, Rules.DRILL_STOP_PAST_SHEET).value
        yield _stop(pilot.name, point.thickness_max_mm + past_mm, tables)


def _stop(bit: str, set_mm: float, tables: Tables) -> ToolNeed:
    return replace(_tool(STOP_COLLAR, tables, bit, (bit,)), set_mm=set_mm)
