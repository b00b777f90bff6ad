"""What stands on the page of a run of cable, or of a section or hole of one: what it is, and what is written down."""

from collections.abc import Iterator

from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.wiring.blanks import metres
from fasten.wiring.pieces import end_text
from fasten.wiring.sizing import title_of


def cable_lead(source: RunChoice | WayChoice) -> Iterator[str]:
    """What a run is and where it goes, or what goes through a section or hole; nothing where there is no answer."""
    if isinstance(source, WayChoice):
        if source.plan is not None:
            yield f"{source.plan.title}: {', '.join(source.runs)}." if source.runs else f"{source.plan.title}."
    elif source.answer is not None:
        run = source.answer.sizing.run
        ends = f"{run.from_name or end_text(run.from_)} to {run.to_name or end_text(run.to)}"
        yield f"{title_of(source.answer.sizing)}: {ends}, {metres(run.length_mm)} along the route."
        if ways := (*source.run.sections, *source.run.holes):
            yield f"By {', '.join(ways)}."


def cable_blanks(source: RunChoice | WayChoice, blank: str) -> Iterator[str]:
    """What is written down of it at the car, the date last."""
    fields: tuple[str, ...] = ("Parts",)
    if isinstance(source, RunChoice):
        is_loaded = source.answer is not None and source.answer.sizing.current is not None
        fields = ("Cable", *(("Millivolts", "Amperes") if is_loaded else ()))
    yield " ".join(f"{label}:{blank}" for label in (*fields, "Initials", "Date"))
