"""What the mount points of a job need beside parts: bits with what they drill, and tools in their sizes."""

from collections.abc import Iterator

from fasten.advice.conditions import SHAPES
from fasten.advice.drive import drive_of
from fasten.advice.ranking import is_there
from fasten.advice.rows import PILOT as PILOT_BIT
from fasten.catalog.job_parts import TOOL_KINDS
from fasten.catalog.parts import NUTS
from fasten.catalog.practice import TOOLS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.bits import OWN_POINT, Bit, thickest_metric_bit
from fasten.job.choices import Choice
from fasten.job.list.lists import BitLine, Drilled, Setting, ToolLine
from fasten.job.shelf.view import ShelfView, tool_names
from fasten.model import Answer, Hole, Joint, MountPoint
from fasten.model.line import LineId, Sort
from fasten.proof.modes.common import material
from fasten.record import record
from fasten.text.figures import id_size, mm

HEADINGS = ("setting tool", "tap", "driver", "countersink", "stop", "other")
SET_BY = frozenset({"setting tool", "tap"})
HOLE, PILOT, TRIAL = "hole", "pilot", "hole in a test piece"
STOP_COLLAR = "stop collar"
BITS = "bit"  # the heading of what is listed by what it drills
BOARD = frozenset({"board", "wood"})


@record
class Fit:
    """A mount point that gets an answer."""

    name: str
    point: MountPoint
    answer: Answer

    @property
    def joint(self) -> Joint:
        """The joint of the answer."""
        return self.answer.proposal.joint


@record
class SizedTool:
    """A tool with its size: the key that finds it in the tables, and what a list says of it."""

    id: LineId
    heading: str
    key: str
    name: str
    size: str

    @property
    def text(self) -> str:
        """Name and size."""
        return f"{self.name} {self.size}".strip()

    @property
    def names(self) -> frozenset[str]:
        """What it may go by on a shelf."""
        return tool_names(self.key, self.size) | tool_names(self.name, self.size)


def fits_of(found: tuple[Choice, ...]) -> tuple[Fit, ...]:
    """The mount points that get an answer, in the job's order."""
    return tuple(Fit(c.name, c.point, c.answer) for c in found if c.answer is not None and c.point is not None)


# -- bits -------------------------------------------------------------------------------------------------------------


def bits(fits: tuple[Fit, ...], shelf: ShelfView, tables: Tables) -> tuple[BitLine, ...]:
    """Every bit by diameter, with what it drills where."""
    drilled: dict[tuple[float, str], list[tuple[Drilled, Hole | None]]] = {}
    for fit in fits:
        for name, diameter_mm, hole, work in _drilling(fit, tables):
            drilled.setdefault((diameter_mm, name), []).append((work, hole))
    return tuple(_bit_line(name, mm, found, shelf) for (mm, name), found in sorted(drilled.items(), key=_by_size))


def _by_size(entry: tuple[tuple[float, str], object]) -> tuple[float, str]:
    return entry[0]


def _drilling(fit: Fit, tables: Tables) -> Iterator[tuple[str, float, Hole | None, Drilled]]:
    """What is drilled at a mount point: bit, its diameter, the hole where it is the final one, and the work."""
    hole = fit.joint.hole
    count = fit.point.fixings
    if hole is None:
        return
    if is_there(hole, fit.point):
        yield from _tried(hole, fit)
        return
    pilot = _pilot(hole, fit, tables)
    if pilot is not None:
        yield pilot.name, pilot.diameter_mm, None, Drilled(fit.name, PILOT, pilot.diameter_mm, None, 1, False)
    if hole.bit.name != OWN_POINT:
        work = Drilled(fit.name, HOLE, hole.diameter_mm, hole.depth_mm, count, not hole.bit.holds)
        yield hole.bit.name, hole.bit.diameter_mm, hole, work


def _tried(hole: Hole, fit: Fit) -> Iterator[tuple[str, float, Hole | None, Drilled]]:
    """Where the hole is there already only the test piece is drilled."""
    if hole.bit.name != OWN_POINT:
        work = Drilled(fit.name, TRIAL, hole.diameter_mm, hole.depth_mm, 1, not hole.bit.holds)
        yield hole.bit.name, hole.bit.diameter_mm, hole, work


def _pilot(hole: Hole, fit: Fit, tables: Tables) -> Bit | None:
    """The bit that the method probes with, or the largest that leaves the hole; None where nothing is probed."""
    most_mm = next((need.size_mm for need in fit.answer.tools if need.key == PILOT_BIT), None)
    return None if most_mm is None else thickest_metric_bit(most_mm, tables)


def drilled_with(hole: Hole | None, point: MountPoint) -> str | None:
    """The bit that drills the hole itself; None where none has to be there for it."""
    return None if hole is None or is_there(hole, point) or hole.bit.name == OWN_POINT else hole.bit.name


def _bit_line(name: str, diameter_mm: float, found: list[tuple[Drilled, Hole | None]], shelf: ShelfView) -> BitLine:
    on_shelf = shelf.has_bit(diameter_mm)
    instead = () if on_shelf else _instead([hole for _, hole in found], shelf)
    return BitLine(
        LineId(Sort.BIT, id_size(diameter_mm)),
        name,
        diameter_mm,
        on_shelf,
        instead,
        tuple(work for work, _ in found),
    )


def _instead(holes: list[Hole | None], shelf: ShelfView) -> tuple[str, ...]:
    """Bits of the shelf that drill each of the holes within tolerance; none where one has no bit, or is a pilot."""
    names = [None if hole is None else _held(hole, shelf) for hole in holes]
    return tuple(dict.fromkeys(name for name in names if name is not None)) if None not in names else ()


def _held(hole: Hole, shelf: ShelfView) -> str | None:
    return shelf.bit_for(hole.diameter_mm, hole.tolerance_mm.minus, hole.tolerance_mm.plus)


# -- tools ------------------------------------------------------------------------------------------------------------


def tools(fits: tuple[Fit, ...], shelf: ShelfView, tables: Tables) -> tuple[ToolLine, ...]:
    """Every tool once, by heading, in the order in which the job first asks for it within each."""
    used: dict[SizedTool, list[Setting]] = {}
    for fit in fits:
        for tool, set_mm in dict.fromkeys(_tools(fit, tables)):
            used.setdefault(tool, []).append(Setting(fit.name, set_mm))
    ordered = sorted(used, key=lambda tool: HEADINGS.index(tool.heading))
    return tuple(
        ToolLine(tool.id, tool.heading, tool.key, tool.name, tool.size, shelf.has_tool(tool.names), tuple(used[tool]))
        for tool in ordered
    )


def _tools(fit: Fit, tables: Tables) -> Iterator[tuple[SizedTool, float | None]]:
    """The tools of an answer but for its bits, which are a list of their own, and the stops for these."""
    for need in fit.answer.tools:
        if tables.need(TOOL_KINDS, need.key).heading != BITS:
            yield sized(need.key, fit.joint, tables), None
    yield from _stops(fit, tables)


def setting_tools(joint: Joint, tables: Tables) -> tuple[SizedTool, ...]:
    """Every tool that sets or taps what the joint holds by."""
    rows = (row for row in tables.rows(TOOLS) if row.method == joint.method)
    return tuple(tool for row in rows if (tool := sized(row.tool, joint, tables)).heading in SET_BY)


def shaping_tools(joint: Joint, tables: Tables) -> tuple[SizedTool, ...]:
    """Every tool that makes the drilled hole of a joint a hexagon or a square; none for a round one."""
    shape = None if joint.hole is None else SHAPES.get(joint.hole.shape)
    rows = (row for row in tables.rows(TOOLS) if row.method == joint.method)
    return tuple(sized(row.tool, joint, tables) for row in rows if shape in row.only_if)


def sized(key: str, joint: Joint, tables: Tables) -> SizedTool:
    """The tool of this key in the size that a joint wants; a driver goes by the recess that it turns as well."""
    kind = tables.need(TOOL_KINDS, key)
    drive, (size, of_id) = drive_of(joint), _size(kind.size_of, joint, tables)
    recess = drive.kind if kind.size_of == "drive" and drive is not None else ""
    line_id = LineId(Sort.TOOL, kind.tool, tuple(filter(None, (recess, of_id))))
    return SizedTool(line_id, kind.heading, f"{kind.tool} {recess}".strip(), f"{kind.in_list} {recess}".strip(), size)


def unsized(key: str, tables: Tables) -> SizedTool:
    """The tool of this key, whatever it is used on."""
    kind = tables.need(TOOL_KINDS, key)
    return SizedTool(LineId(Sort.TOOL, kind.tool), kind.heading, kind.tool, kind.in_list, "")


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


def _stops(fit: Fit, tables: Tables) -> Iterator[tuple[SizedTool, float]]:
    """A stop for the pilot that probes a panel, as far past the sheet as the rule says, and for every blind hole."""
    hole, point = fit.joint.hole, fit.point
    if hole is None or is_there(hole, point):
        return
    if hole.depth_mm is not None:
        yield _stop(hole.bit.name, tables), hole.depth_mm
    pilot = _pilot(hole, fit, tables)
    if pilot is not None and material(tables, point.material).family not in BOARD:
        past_mm = rule(tables, Rules.DRILL_STOP_PAST_SHEET).value
        yield _stop(pilot.name, tables), point.thickness_max_mm + past_mm


def _stop(bit: str, tables: Tables) -> SizedTool:
    kind = tables.need(TOOL_KINDS, STOP_COLLAR)
    return SizedTool(LineId(Sort.TOOL, kind.tool, (bit,)), kind.heading, kind.tool, kind.in_list, bit)
