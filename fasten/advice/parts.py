"""Which parts an answer takes at each fixing, each under one spelling."""

from fasten.catalog.job_parts import CONSUMABLES
from fasten.catalog.parts import HEADS, WASHERS
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of, outside_mm
from fasten.geometry.lines import receiver_line, screw_line
from fasten.model import Joint, Patch, Position, Receiver, StackPart, kinds
from fasten.model.kinds import Bought, Kind, ScrewKind, WasherKind
from fasten.model.line import LineId, Part, Sort, series_of_line
from fasten.record import lean
from fasten.text.figures import figure, id_size, mm, words

_SAME_LENGTH = 4  # decimals of a millimetre to which two lengths are one


@lean
class Fitted:
    """A part of one fixing: what a list calls it, of which kind it is, and what its line is found again by."""

    part: Part
    kind: Kind
    id: LineId


def fitted_parts(joint: Joint, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    """The parts of one fixing with how many of each: screw, washers, receiver, limiter, what holds by its face.

    What is bought by the area of its face is a consumable and not among them.
    """
    found = [
        *_screw(joint),
        *_receiver(joint),
        *_limiters(joint),
        *_washers(joint, tables),
        *_patch(joint, tables),
    ]
    counts: dict[Fitted, int] = {}
    for part in found:
        counts[part] = counts.get(part, 0) + 1
    return tuple(counts.items())


def joint_parts(joint: Joint, tables: Tables) -> tuple[tuple[Part, int], ...]:
    """The same, as a list calls them."""
    return tuple((fitted.part, each) for fitted, each in fitted_parts(joint, tables))


def receiver_parts(joint: Joint) -> tuple[Part, ...]:
    """What stays in the substrate, as a list calls it; nothing for a rivet or a joint without."""
    return tuple(fitted.part for fitted in _receiver(joint))


def series_of(joint: Joint) -> str | None:
    """The id of the series of what stays in the substrate, of whatever length; None where nothing does."""
    receiver = _own_receiver(joint)
    return None if receiver is None else series_of_line(receiver_line(receiver).text)


def form_of(part: Part, kind: Kind, tables: Tables) -> str:
    """What a part's standard leaves to be looked up: the head of a screw; hole, outside and thickness of a washer."""
    head = tables.find(HEADS, part.name, part.size) if isinstance(kind, ScrewKind) else None
    if head is not None:
        return f"{_words(head.form).removesuffix(' tapping')} head"
    washer = tables.find(WASHERS, part.name, part.size) if isinstance(kind, WasherKind) else None
    if washer is not None:
        return f"{figure(washer.hole_mm)} x {figure(washer.outer_mm)} x {mm(washer.thickness_mm)}"
    return ""


def _fitted(kind: Kind, part: Part, *sizes: str) -> Fitted:
    """A part and the id of its line; `sizes` are size, series, grade, outside and length, empty where it has none."""
    return Fitted(part, kind, LineId(Sort.PART, kind.key, sizes))


def _screw(joint: Joint) -> list[Fitted]:
    screw = joint.screw
    if screw is None:
        return []
    part = Part(screw.kind.line, screw.thread, _words(screw.standard), _words(screw.class_), screw.length_mm)
    return [Fitted(part, screw.kind, screw_line(screw))]


def _own_receiver(joint: Joint) -> Receiver | None:
    """The receiver, but for a rivet, which is the screw as well."""
    receiver = joint.receiver
    return None if receiver is None or receiver.kind.bought is Bought.AS_ITS_SCREW else receiver


def _receiver(joint: Joint) -> list[Fitted]:
    receiver = _own_receiver(joint)
    if receiver is None:
        return []
    length = None if receiver.kind.bought is Bought.BY_THREAD else receiver.length_mm
    wide = outside_mm(receiver) if receiver.kind.bought is Bought.BY_OUTSIDE else None
    part = Part(receiver.kind.line, receiver.thread, _series(receiver, wide), _words(receiver.material), length)
    return [Fitted(part, receiver.kind, receiver_line(receiver))]


def _series(receiver: Receiver, wide_mm: float | None) -> str:
    series = _words(receiver.series)
    return series if wide_mm is None else f"{series}, {mm(wide_mm)} outside"


def _limiters(joint: Joint) -> list[Fitted]:
    """The compression limiter, by the thread that goes through it, how wide and how high it is."""
    limiter, through = limiter_of(joint), joint.screw or joint.receiver
    if limiter is None or through is None:
        return []
    high_mm, kind = round(limiter.thickness_mm, _SAME_LENGTH), kinds.LIMITER
    part = Part(kind.line, through.thread, f"{mm(limiter.outer_mm)} outside", "", high_mm)
    return [_fitted(kind, part, through.thread, "", "", id_size(limiter.outer_mm), id_size(high_mm))]


def _washers(joint: Joint, tables: Tables) -> list[Fitted]:
    return [_washer(washer, tables) for washer in joint.washers if washer.place != Position.LIMITER]


def _washer(washer: StackPart, tables: Tables) -> Fitted:
    if washer.side_mm is not None:
        plate = Part(kinds.PLATE.line, washer.size, _words(washer.standard), "", None)
        return _fitted(kinds.PLATE, plate, washer.size, washer.standard, "", "", "")
    row = tables.find(WASHERS, washer.standard, washer.size)
    kind = kinds.SPRING_WASHER if row is not None and row.form == "spring" else kinds.WASHER
    part = Part(kind.line, washer.size, _words(washer.standard), "", None)
    return _fitted(kind, part, washer.size, washer.standard, "", "", "")


def _patch(joint: Joint, tables: Tables) -> list[Fitted]:
    patch = joint.patch
    if patch is None or tables.find(CONSUMABLES, patch.kind.key, "patch", ()) is not None:
        return []
    part = Part(patch.kind.line, patch_size(patch), _words(patch.series), "", None)
    return [_fitted(patch.kind, part, patch_size(patch), patch.series, "", "", "")]


def stuck_with(joint: Joint, tables: Tables) -> tuple[str, ...]:
    """The consumables that hold a joint by its face: what is bought by its area, and what keeps it on."""
    patch = joint.patch
    if patch is None:
        return ()
    row = tables.find(CONSUMABLES, patch.kind.key, "patch", ())
    found = (patch.kind.key if row is not None and row.per == "area" else None, patch.bond)
    return tuple(name for name in found if name is not None)


def patch_size(patch: Patch) -> str:
    """The size of what holds by its face."""
    round_ = patch.shape == "round"
    return mm(patch.length_mm) if round_ else f"{figure(patch.length_mm)} x {mm(patch.width_mm)}"


def _words(text: str) -> str:
    return " ".join(words(text).split())
