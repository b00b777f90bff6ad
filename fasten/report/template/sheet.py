"""What a drilling template shows, and the sheet of one answer."""

from math import isfinite

from fasten.advice.rows import PILOT
from fasten.after.before import OldHole
from fasten.errors import FastenError
from fasten.geometry.patterns import positions_mm
from fasten.job.after.taken import Taken
from fasten.model import Answer, MountPoint, Status
from fasten.record import record
from fasten.report.answer.headline import needs, parts, standing
from fasten.report.template.odd import OddHole, odd_of
from fasten.require import Points
from fasten.text.figures import words
from fasten.text.names import capital


@record
class TemplateSheet:
    """What a template shows: centres about their own middle, y upward; the hole, its pilot, what is written once.

    `outline` is width and height of the item about the same middle. `edge_mm` is from the nearest row of holes to the
    edge of the panel, drawn below them; `edge_least_mm` how far from every centre any edge must stay, where the edge
    is not given. `hole_mm` is None where nothing is drilled and only places are marked; it is across flats where
    `hole_shape` is square or hexagon. `odd` are holes that a repair made unlike the others, `old` those left behind.
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
    odd: tuple[OddHole, ...] = ()
    old: tuple[OldHole, ...] = ()

    def hole_at(self, place: int) -> tuple[float | None, str]:
        """How wide a hole is and of which shape: of one that a repair made unlike the others, its own."""
        own = self.odd_at(place)
        return (self.hole_mm, self.hole_shape) if own is None else (own.hole_mm, own.shape)

    def odd_at(self, place: int) -> OddHole | None:
        """The hole at a place from 0, where a repair made it unlike the others."""
        return next((one for one in self.odd if one.place == place), None)


def sheet_for(
    answer: Answer, mount: MountPoint, name: str, outline: tuple[float, float] | None = None,
    repairs: tuple[Taken, ...] = (),
) -> TemplateSheet:  # fmt: skip
    """The template of one answer; `name` is what the mount point is called, `outline` the item's sides where known.

    After `repairs` each hole is as it now is.
    """
    hole, said = answer.proposal.joint.hole, dict(parts(answer))
    odd, centres = odd_of(repairs, mount), list(positions_mm(mount.pattern, mount.fixings))
    for one in odd.holes:
        centres[one.place] = one.centre_mm
    return TemplateSheet(
        title=f"Drilling template: {name}",
        centres_mm=tuple(centres),
        hole_mm=None if hole is None else hole.diameter_mm,
        pilot_mm=_pilot_mm(answer),
        hole_note="nothing is drilled" if hole is None else f"{said['Hole']}; bit {said['Bit']}",
        outline=outline,
        edge_mm=mount.edge_mm,
        notes=(
            f"{capital(words(mount.item))}: {answer.title}.",
            *_standing(answer),
            *(one.note for one in odd.holes),
            *(step.text for step in answer.steps[:1]),
        ),
        edge_least_mm=_edge_least_mm(answer) if mount.edge_mm is None else None,
        hole_shape="round" if hole is None else hole.shape,
        odd=odd.holes,
        old=odd.old,
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
