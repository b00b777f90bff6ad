"""The figures that steps of a run are made to, by the names of `step-ticks`, and what else a tick of them keeps."""

from collections.abc import Callable, Iterable, Mapping

from fasten.model import MadeTo
from fasten.record import replace
from fasten.text.figures import figure
from fasten.text.rounding import rounded_up
from fasten.wiring.blanks import BLANKS, Fills, terminals
from fasten.wiring.conditions import Done
from fasten.wiring.pieces import Piece
from fasten.wiring.sizing import cable_of

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


def _cut_to(done: Done) -> str:
    """The pieces as they are cut."""
    cut = _cut(done)
    return BLANKS["pieces"](done) if cut is None else cut.text


def _millivolts(name: str) -> Fills:
    return lambda done: f"{BLANKS[name](done)} mV"


# what of a step's blanks decides whether it is still as wanted; the rest follows, such as a weight, or names something
_DECIDING: Mapping[str, Fills] = {
    "pieces": _cut_to, "pull": lambda done: f"{BLANKS['pull'](done)} N", "ends": terminals, "crimps": terminals,
    **{name: BLANKS[name] for name in ("shrinks", "strips", "bares", "late ends", "turns", "fuse")},
    "bend": lambda done: f"{BLANKS['bend'](done)} mm", "loop": lambda done: f"{BLANKS['loop'](done)} Ω",
    "plus mv": _millivolts("plus mv"), "ground mv": _millivolts("ground mv"),
}  # fmt: skip


def made_of(done: Done, blanks: Iterable[str], *, on_cable: bool) -> str:
    """What a tick of a step keeps: by its blanks the figures that it is made to, then the cable that it is made on.

    Ends are called by their places, so that another name of what they are at makes nothing undone.
    """
    ends = tuple(replace(end, label=f"end {at}") for at, end in enumerate(done.made.ends, 1))
    placed = replace(done, made=replace(done.made, ends=ends))
    found = ", ".join(_DECIDING[name](placed) for name in blanks if name in _DECIDING)
    return " on ".join(filter(None, (found, cable_of(done.sizing) if on_cable else "")))
