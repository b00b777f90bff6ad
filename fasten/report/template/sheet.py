"""What a drilling template shows, and the sheet of one answer."""

from math import isfinite

from fasten.advice.rows import PILOT
from fasten.errors import FastenError
from fasten.geometry.patterns import positions_mm
from fasten.model import Answer, MountPoint, Status
from fasten.record import record
from fasten.report.answer.headline import needs, parts, standing
from fasten.require import Points
from fasten.text.figures import words
from fasten.text.names import capital


@record
class TemplateSheet:
    """What a template shows: centres about their own middle, y upward; the hole, its pilot, what is written once.

    `outline` is width and height of the item about the same middle. `edge_mm` is from the nearest row of holes to the
    edge of the panel, drawn below them; `edge_least_mm` how far from every centre any edge must stay, where the edge
    is not given. `hole_mm` is None where nothing is drilled and only places are marked; it is across flats where
    `hole_shape` is square or hexagon.
    """

    title: str
    centres_mm: Points
    hole_mm: float | None
    pilot_mm: float | None
    hole_note: str
    outline: tuple[float, float] | None
    edge_mm: float | None
    notes: tuple[str, ...]
    edge_least_mm: float | None = None
    hole_shape: str = "round"


def sheet_for(
    answer: Answer, mount: MountPoint, name: str, outline: tuple[float, float] | None = None
) -> TemplateSheet:
    """The template of one answer; `name` is what the mount point is called, `outline` the item's sides where known."""
    hole, said = answer.proposal.joint.hole, dict(parts(answer))
    return TemplateSheet(
        title=f"Drilling template: {name}",
        centres_mm=positions_mm(mount.pattern, mount.fixings),
        hole_mm=None if hole is None else hole.diameter_mm,
        pilot_mm=_pilot_mm(answer),
        hole_note="nothing is drilled" if hole is None else f"{said['Hole']}; bit {said['Bit']}",
        outline=outline,
        edge_mm=mount.edge_mm,
        notes=(
            f"{capital(words(mount.item))}: {answer.title}.",
            *_standing(answer),
            *(step.text for step in answer.steps[:1]),
        ),
        edge_least_mm=_edge_least_mm(answer) if mount.edge_mm is None else None,
        hole_shape="round" if hole is None else hole.shape,
    )


def _pilot_mm(answer: Answer) -> float | None:
    """The pilot that is drilled first, where there is one and it is smaller than the hole."""
    hole = answer.proposal.joint.hole
    pilot_mm = next((need.size_mm for need in answer.tools if need.key == PILOT), None)
    return pilot_mm if hole is not None and pilot_mm is not None and pilot_mm < hole.diameter_mm else None


def _edge_least_mm(answer: Answer) -> float | None:
    needed = (check.demand for check in answer.proposal.checks if check.id == "edge-distance" and check.unit == "mm")
    return next((demand for demand in needed if demand is not None and demand > 0), None)


def _standing(answer: Answer) -> tuple[str, ...]:
    """That the answer does not hold or is not proven, where it is so: a template outlives the screen it came from.

    What it says of itself follows: which fixing was repaired how, and so is not as the others are.
    """
    remarks = tuple(f"{text}." for text in answer.remarks)
    failing = "; ".join(check.title for check in answer.proposal.checks if check.status is Status.FAILS)
    if failing:
        return (f"DOES NOT HOLD: {failing}.", *remarks)
    return remarks if answer.proposal.proven else (f"{standing(answer)}: needs {'; '.join(needs(answer))}.", *remarks)


def check(sheet: TemplateSheet) -> None:
    """Check that the sheet can be drawn; raises FastenError unless it has centres and finite sizes above 0."""
    if not sheet.centres_mm:
        raise FastenError("a template needs at least one centre", where="centres_mm", fix="say how many fixings")
    if not all(isfinite(value) for centre in sheet.centres_mm for value in centre):
        raise FastenError("every centre must be a finite number of mm", where="centres_mm")
    sizes = {"hole_mm": sheet.hole_mm, "pilot_mm": sheet.pilot_mm, "edge_mm": sheet.edge_mm}
    sizes |= {"edge_least_mm": sheet.edge_least_mm}
    sizes |= {f"outline[{place}]": side for place, side in enumerate(sheet.outline or ())}
    for name, value in sizes.items():
        if value is not None and not (isfinite(value) and value > 0):
            raise FastenError(f"{name} {value} must be a finite number of mm above 0 to be drawn", where=name)
