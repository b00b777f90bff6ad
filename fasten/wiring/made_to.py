"""The figures that steps of a run are made to, each by the name that `step-ticks` calls it by."""

from collections.abc import Callable, Mapping

from fasten.model import MadeTo
from fasten.text.figures import figure
from fasten.text.rounding import rounded_up
from fasten.wiring.conditions import Done
from fasten.wiring.pieces import Piece

Finds = Callable[[Done], MadeTo | None]


def _cut(done: Done) -> MadeTo | None:
    """The length of the first piece, and the other pieces after it; nothing where a device divides the cable."""
    if any(piece.route_mm is None for piece in done.made.pieces):
        return None
    first, *others = done.made.pieces
    more = (f"then {_metres(piece)} m {piece.colour}" for piece in others)
    return MadeTo(_metres(first), "m", ", ".join((first.colour, *more)))


def _metres(piece: Piece) -> str:
    return rounded_up(piece.cut_mm / 1000, 2)


def _strip(done: Done) -> MadeTo | None:
    """How far both ends are stripped; nothing where it is not as far at each."""
    lengths = {rounded_up(end.strip_mm, 0) for end in done.made.ends if end.strip_mm is not None}
    return MadeTo(lengths.pop(), "mm") if len(lengths) == 1 else None


def _pull(done: Done) -> MadeTo | None:
    """What the trial crimp holds."""
    most = max((end.pull_n or 0.0) for end in done.made.ends)
    return MadeTo(rounded_up(most, 0), "N", "for a minute") if most else None


def _fuse(done: Done) -> MadeTo | None:
    """The fuse that goes in."""
    return None if done.sizing.fuse is None else MadeTo(figure(done.sizing.fuse.rating_a), "A")


RUN_FIGURES: Mapping[str, Finds] = {
    "cable cut": _cut, "strip": _strip, "pull": _pull, "fuse": _fuse,
}  # fmt: skip
