"""What was given and has several parts, written as it may be typed again."""

from collections.abc import Callable, Mapping
from typing import Any

from fasten.model import (
    Bay,
    Between,
    Bound,
    Doubler,
    ExistingThread,
    Firm,
    FloorSpan,
    OnFrame,
    Outputs,
    OwnFuses,
    Pattern,
    Power,
    Pushed,
    Rails,
    Ribs,
    Tapped,
)
from fasten.text.figures import figure, mm, with_unit, words
from fasten.text.units import number


def bounded(text: str, bound: Bound | None) -> str:
    """A figure, and that there may be more where a gauge found it."""
    return f"at least {text}" if bound is Bound.AT_LEAST else text


def given_text(value: object) -> str | None:
    """What has several parts, in words; None for anything else."""
    write = _WRITERS.get(type(value))
    return None if write is None else write(value)


def sides(first: float | None, second: float | None) -> str:
    """One size, or two with a cross between."""
    return f"{' x '.join(figure(side) for side in (first, second) if side is not None)} mm"


def _pushes(pushed: Pushed) -> str:
    return "push " + ", ".join(f"{with_unit(push.force_n, 'N')} {mm(push.moved_mm)}" for push in pushed.pushes)


def _layers(between: Between) -> str:
    """Soft layers from the item down."""
    layer = f"{words(between.material)} {mm(between.thickness_mm)}{' cut out' if between.cut_out else ''}"
    return layer if between.under is None else f"{layer}, {_layers(between.under)}"


def _pattern(pattern: Pattern) -> str:
    if not pattern.points_mm:
        return f"{pattern.kind} {sides(pattern.a_mm, pattern.b_mm)}"
    return f"{pattern.kind} {' '.join(f'{number(x, 1)},{number(y, 1)}' for x, y in pattern.points_mm)}"


def _existing(there: ExistingThread) -> str:
    return f"{there.thread} {there.kind}{'' if there.length_mm is None else f' {mm(there.length_mm)}'}"


def _power(power: Power) -> str:
    volts = "" if power.load_v is None else f" {power.load_v} V"
    return f"{with_unit(power.power_w, 'W')} class {power.class_}{volts}"


def _fuses(fuses: OwnFuses) -> str:
    """Equal ones together: 2 x 30 A, 15 A."""
    counts = {rating: fuses.ratings_a.count(rating) for rating in fuses.ratings_a}
    return ", ".join(f"{count} x {with_unit(rating, 'A')}" for rating, count in counts.items())


def _outputs(outputs: Outputs) -> str:
    return ", ".join(f"{one.count} x {figure(one.power_w)} W {figure(one.impedance_ohm)} ohm" for one in outputs.each)


def _bay(bay: Bay) -> str:
    return f"bay under {mm(bay.short_mm)}" if bay.bound is Bound.AT_MOST else f"bay {sides(bay.short_mm, bay.long_mm)}"


_WRITERS: Mapping[type, Callable[[Any], str]] = {
    ExistingThread: _existing,
    Pattern: _pattern,
    Between: _layers,
    OnFrame: lambda value: "frame" if value.fixings is None else f"frame {value.fixings}",
    Firm: lambda value: "firm",
    Ribs: lambda value: f"ribs {mm(value.depth_mm)}",
    Pushed: _pushes,
    Tapped: lambda value: f"tapped {with_unit(value.frequency_hz, 'Hz')}",
    Bay: _bay,
    Doubler: lambda value: f"{sides(value.side_mm, value.thickness_mm)} {value.joined.value}",
    Rails: lambda value: f"{value.count} of {sides(value.side_mm, value.wall_mm)} over {mm(value.span_mm)}",
    FloorSpan: lambda value: f"span {mm(value.span_mm)}",
    Power: _power,
    OwnFuses: _fuses,
    Outputs: _outputs,
}
