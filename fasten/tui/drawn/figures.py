"""The figures in use: hole and bit, screw, torque, each three rows high, its plain text beside its label."""

from collections.abc import Sequence

from rich.cells import cell_len

from fasten.geometry.joint import drilled
from fasten.model import Answer, Hole, Joint, Screw, Torque
from fasten.model.kinds import Set
from fasten.record import record
from fasten.report.answer.headline import parts
from fasten.report.wrap import wrapped
from fasten.text.figures import figure, words
from fasten.text.rounding import past_driving, rounded_down, rounded_up, torque_digits
from fasten.text.units import number
from fasten.tui.drawn.digits import can_draw, large
from fasten.tui.drawn.runs import Line, beside, padded

WIDE = 60  # columns from which the screw is drawn as large as the others
_SHARES = {2: (50, 50), 3: (27, 38, 35)}  # per cent of the width
_LABEL = 8
_ABREAST = 2  # figures on a narrow screen


@record
class Large:
    """A figure to draw: its label, what is drawn, its unit, the same in plain text, what stands beneath."""

    label: str
    value: str
    unit: str
    text: str
    beneath: str


def figures(answer: Answer) -> list[Large]:
    """Hole, screw and torque of an answer, those of them that there are and that can be drawn."""
    joint, torque = answer.proposal.joint, answer.proposal.torque
    found = [_hole(joint, joint.hole)] if joint.hole else []
    found += [_screw(screw)] if (screw := joint.screw) is not None and screw.kind.set is Set.TIGHTENED else []
    found += [_torque(torque)] if torque else []
    return [entry for entry in found if can_draw(entry.value)]


def figure_lines(answer: Answer, width: int, *, solid: bool) -> list[Line]:
    """The figures side by side, as many as there is room for, then every other part in plain text."""
    shown = _fitting(figures(answer), width)
    drawn = {_PART[entry.label] for entry in shown if entry.label != _SCREW}  # of a screw there is more to say
    rest = [(label, text) for label, text in parts(answer) if label not in drawn]
    return [*_side_by_side(shown, width, solid=solid), *rows(rest, width)]


def large_lines(found: Sequence[Large], width: int, *, solid: bool) -> list[Line]:
    """Any figures side by side, as many as there is room for; the others in plain text."""
    drawable = [entry for entry in found if can_draw(entry.value)]
    shown = _fitting(drawable if width >= WIDE else drawable[:_ABREAST], width)
    rest = [(entry.label, f"{entry.text}, {entry.beneath}") for entry in found if entry not in shown]
    return [*_side_by_side(shown, width, solid=solid), *rows(rest, width)]


def _fitting(found: list[Large], width: int) -> list[Large]:
    """Those that there is room for: on a narrow screen the screw is said in words, as is what is too wide."""
    shown = [entry for entry in found if width >= WIDE or entry.label != _SCREW]
    fits = [len(large(entry.value)[0]) < room for entry, room in zip(shown, _columns(shown, width), strict=True)]
    return [entry for entry, is_fit in zip(shown, fits, strict=True) if is_fit]


def _columns(shown: list[Large], width: int) -> list[int]:
    return [width * share // 100 for share in _SHARES.get(len(shown), (100,))][: len(shown)]


def rows(entries: Sequence[tuple[str, str]], width: int, role: str = "ink") -> list[Line]:
    """Label and text of each part, the label quiet, in plain text."""
    return [
        ((line[:_LABEL].lower() if at == 0 else line[:_LABEL], "quiet"), (line[_LABEL:], role))
        for label, text in entries
        for at, line in enumerate(wrapped(text, width, first=f"{label:{_LABEL}}", rest=" " * _LABEL))
    ]


_BOTH, _ALONE, _SCREW, _TORQUE = "hole and bit", "hole", "screw", "torque"
_PART = {_BOTH: "Hole", _ALONE: "Hole", _SCREW: "Screw", _TORQUE: "Torque"}


def _hole(joint: Joint, hole: Hole) -> Large:
    size, bit = number(hole.diameter_mm, 2), drilled(joint).bit
    is_both = bit.holds and number(bit.diameter_mm, 2) == size
    across = "hexagon, across flats, " if hole.shape == "hexagon" else ""
    minus, plus = number(hole.tolerance_mm.minus, 2), number(hole.tolerance_mm.plus, 2)
    off = "" if minus == plus == "0" else f"-{minus} +{plus}, "
    deep = "through" if hole.depth_mm is None else f"{figure(hole.depth_mm)} mm deep"
    return Large(_BOTH if is_both else _ALONE, size, "mm", f"{size} mm", f"{across}{off}{deep}")


def _screw(screw: Screw) -> Large:
    graded = f"class {screw.class_}" if screw.class_[:1].isdigit() else words(screw.class_)
    size = f"{screw.thread}×{figure(screw.length_mm)}"
    return Large(_SCREW, size, "", f"{screw.thread} x {figure(screw.length_mm)} mm", f"{words(screw.head)}, {graded}")


def _torque(torque: Torque) -> Large:
    """Rounded to the safe side, as in the steps and on paper."""
    digits = torque_digits(torque)
    target, most = (rounded_down(nm, digits) for nm in (torque.target_nm, torque.max_nm))
    window = f"{rounded_up(torque.min_nm, digits)} to {most}, {rounded_down(torque.target_inlbf, 1)} in·lbf"
    return Large(_TORQUE, target, "N·m", f"{target} N·m", f"{window}{past_driving(torque)}")


def _side_by_side(shown: list[Large], width: int, *, solid: bool) -> list[Line]:
    if not shown:
        return []
    rooms = _columns(shown, width)
    return beside([(_block(entry, room - 1, solid=solid), room) for entry, room in zip(shown, rooms, strict=True)])


def _block(entry: Large, room: int, *, solid: bool) -> list[Line]:
    """Label and plain text, the figure with its unit at its foot, and the tolerance beneath."""
    style = "bold ink" if solid else "quiet"
    *upper, foot = large(entry.value, solid=solid)
    named: Line = ((f"{entry.label} ", "quiet"), (entry.text, "bold ink" if solid else "ink"))
    drawn: list[Line] = [((row, style),) for row in upper]
    unit = f" {entry.unit}" if cell_len(foot) + len(entry.unit) < room else ""
    drawn.append(((foot, style), (unit, "bold ink" if solid else "quiet")))
    beneath: list[Line] = [((text, "quiet"),) for text in wrapped(entry.beneath, room)]
    return [padded(named, room), *drawn, *beneath]
