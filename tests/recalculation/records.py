"""Whether a record of what was built holds, from its JSON and what was written down, by the equations written apart."""

from collections.abc import Iterator
from typing import Any

from recalculation.capacities import CAPACITY
from recalculation.factors import factor
from recalculation.loads import Group
from recalculation.reading import Line
from recalculation.torque import lower_nm, upper_nm

AGREE = 0.005
CALLIPER_MM, BODY_OVER_MM, HELD = 0.05, 0.3, 1.3  # trade practice, no source: as the records are judged by
SMALL_NM, SMALL, LARGE = 10.0, 0.06, 0.04  # ISO 6789, what a torque tool is off by


def against_holding(built: dict[str, Any], said: dict[str, Any], hole: dict[str, float] | None, group: Group,
                    shears: tuple[str, ...], running: bool) -> Iterator[str]:  # fmt: skip
    """Every reason why a record that is said to hold does not; `said` are its figures in mm, N·m, mV and A.

    `running` says that its nut takes a torque to turn by itself.
    """
    verdict = built["verdict"]
    yield from (f"needs {need}" for need in (*verdict["needs"], *verdict["do"]))
    lines = [Line(check) for check in verdict["checks"]]
    yield from (f"{line.raw['id']} is {line.raw['status']}" for line in lines if line.raw["status"] != "holds")
    for line in lines:
        yield from _strength(line, group, shears)
        if "sheet" in said and "sheet" in line.names() and abs(line.one("sheet") - said["sheet"]) > 1e-6:
            yield f"{line.raw['id']} is of sheet {line.one('sheet')}, and {said['sheet']} was measured"
    window = next((line for line in lines if line.stem == "torque-window"), None)
    if window is not None:
        yield from _torque(window, said, running)
    if window is not None and upper_nm(window) > said.get("most", upper_nm(window)) * (1 + AGREE):
        yield f"one or two readings raised {said['most']} to {upper_nm(window)}"
    if hole is not None:
        yield from _hole(hole, said, None if window is None else upper_nm(window))
    if "full" in said:
        if "drop" not in said:
            yield "the drop of a ground is not measured"
        elif said["drop"][0] / said["drop"][1] * said["full"] > 50:
            yield "over 50 mV at full current"


def _strength(line: Line, group: Group, shears: tuple[str, ...]) -> Iterator[str]:
    if line.stem not in CAPACITY or line.stem == "dent" or not line.kind:
        return
    bears = CAPACITY[line.stem](line) / factor(line.stem, line.kind)
    loads = [load.shear_n if line.stem in shears else load.tension_n for load in group.pulled(line.kind)]
    if max(loads) > bears * (1 + AGREE):
        yield f"{line.raw['id']}: {max(loads):.1f} N on {bears:.1f}"


def _torque(window: Line, said: dict[str, Any], running: bool) -> Iterator[str]:
    least, most = lower_nm(window), upper_nm(window)
    if not said.get("torque"):
        yield "no torque was read"
        return
    turning = said.get("turning") or ()
    if running and not turning:
        yield "what turns the nut was not read"
        return
    low = min(said["torque"]) - max(turning, default=0.0)
    high = max(said["torque"]) - (min(turning) if running else 0.0)
    if len(turning) == len(said["torque"]) and running:
        clamps = [one - other for one, other in zip(said["torque"], turning, strict=True)]
        low, high = min(clamps), max(clamps)
    if low < least * (1 - AGREE) or high > most * (1 + AGREE):
        yield f"{low:.3f} to {high:.3f} N·m outside {least:.3f} to {most:.3f}"


def _hole(hole: dict[str, float], said: dict[str, Any], most_nm: float | None) -> Iterator[str]:
    """A body may sit in a hole that is a little wide only where it was held; nothing goes into one too small."""
    holes, held_at = said.get("hole") or (), said.get("held") or ()
    for place, size in enumerate(holes):
        if size < hole["mm"] - hole["minus"] - CALLIPER_MM - 1e-9:
            yield f"hole {size} is too small"
        if not hole["body"] or size <= hole["mm"] + hole["plus"] + CALLIPER_MM + 1e-9:
            continue
        error = SMALL if most_nm is not None and most_nm / (1 + SMALL) <= SMALL_NM else LARGE
        wanted = HELD * (most_nm or 0.0) / (1 + error)
        held = held_at[place : place + 1] if len(held_at) == len(holes) else held_at
        if size > hole["mm"] + BODY_OVER_MM + 1e-9 or not held or min(held) < wanted * (1 - AGREE):
            yield f"a body in a hole of {size}, held at {held} of {wanted:.2f} N·m"
