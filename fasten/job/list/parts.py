"""Which parts an answer takes at each fixing, each under one spelling."""

import re
from functools import lru_cache

from fasten.catalog.job_parts import CONSUMABLES
from fasten.catalog.parts import HEADS, WASHERS
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of, outside_mm
from fasten.model import Joint, Patch, Position, Receiver, StackPart, kinds
from fasten.model.kinds import Bought, Kind, ScrewKind, WasherKind
from fasten.model.line import LineId, Part, Sort
from fasten.record import record
from fasten.text.figures import figure, id_size, mm, words
from fasten.text.letters import unjoined
from fasten.text.units import number

_SAME_LENGTH = 4  # decimals of a millimetre to which two lengths are one
_STANDARD = re.compile(r"\b(iso|din|en|sae|asme)[ -]?(?=[0-9])")


@record
class Fitted:
    """A part of one fixing: what a list calls it, of which kind it is, and what its line is found again by."""

    part: Part
    kind: Kind
    id: LineId


def fitted_parts(joint: Joint, tables: Tables) -> tuple[tuple[Fitted, int], ...]:
    """The parts of one fixing with how many of each: screw, washers, receiver, sleeve, what holds by its face.

    What is bought by the area of its face is a consumable and not among them.
    """
    found = [
        *_screw(joint),
        *_receiver(joint),
        *_sleeves(joint),
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


@lru_cache(maxsize=4096)
def same_part(part: Part) -> Part:
    """The one spelling under which parts are compared: case, spaces, dashes and underscores make no other part."""
    length = None if part.length_mm is None else round(part.length_mm, _SAME_LENGTH)
    return Part(kind_name(part.kind), _size(part.size), plain_name(part.name), plain_name(part.grade), length)


def kind_name(text: str) -> str:
    """The one spelling of a kind of part, whether it goes by its key or as a list calls it; else of the text."""
    plain = plain_name(text)
    return _KIND_NAMES.get(plain, plain)


def plain_name(text: str) -> str:
    """The one spelling under which names are compared: a hyphen tells no two things apart."""
    return " ".join(spelled(text).replace("-", " ").split())


def part_text(part: Part) -> str:
    """A part in words: kind, size and length, then what tells it from others."""
    length = "" if part.length_mm is None else f" x {number(part.length_mm, 2)} mm"
    said = (f"{part.kind} {part.size}{length}".strip(), part.name, part.grade)
    return ", ".join(text for text in said if text)


def form_of(part: Part, kind: Kind, tables: Tables) -> str:
    """What a part's standard leaves to be looked up: the head of a screw; hole, outside and thickness of a washer."""
    head = tables.find(HEADS, part.name, part.size) if isinstance(kind, ScrewKind) else None
    if head is not None:
        return f"{_words(head.form).removesuffix(' tapping')} head"
    washer = tables.find(WASHERS, part.name, part.size) if isinstance(kind, WasherKind) else None
    if washer is not None:
        return f"{figure(washer.hole_mm)} x {figure(washer.outer_mm)} x {mm(washer.thickness_mm)}"
    return ""


def spelled(text: str) -> str:
    """A name with its hyphens, whatever its case, its spaces and the sort of dash."""
    folded = re.sub(r"[‐‑‒–—−_]", lambda found: " " if found[0] == "_" else "-", unjoined(text).casefold())
    return _STANDARD.sub(r"\1 ", " ".join(folded.split()))


def _size(text: str) -> str:
    return spelled(text).replace(" ", "").replace("×", "x").replace(",", ".")


_KIND_NAMES = {plain_name(text): plain_name(kind.key) for kind in kinds.ALL for text in (kind.line, kind.key)}


def _fitted(kind: Kind, part: Part, *sizes: str) -> Fitted:
    """A part and the id of its line; `sizes` are size, series, grade, outside and length, empty where it has none."""
    return Fitted(part, kind, LineId(Sort.PART, kind.key, sizes))


def _screw(joint: Joint) -> list[Fitted]:
    screw = joint.screw
    if screw is None:
        return []
    part = Part(screw.kind.line, screw.thread, _words(screw.standard), _words(screw.class_), screw.length_mm)
    return [_fitted(screw.kind, part, screw.thread, screw.standard, screw.class_, "", id_size(screw.length_mm))]


def _receiver(joint: Joint) -> list[Fitted]:
    """The receiver, but for a rivet, which is the screw as well."""
    receiver = joint.receiver
    if receiver is None or receiver.kind.bought is Bought.AS_ITS_SCREW:
        return []
    length = None if receiver.kind.bought is Bought.BY_THREAD else receiver.length_mm
    wide = outside_mm(receiver) if receiver.kind.bought is Bought.BY_OUTSIDE else None
    part = Part(receiver.kind.line, receiver.thread, _series(receiver, wide), _words(receiver.material), length)
    return [
        _fitted(
            receiver.kind, part, receiver.thread, receiver.series, receiver.material, id_size(wide), id_size(length)
        )
    ]


def _series(receiver: Receiver, wide_mm: float | None) -> str:
    series = _words(receiver.series)
    return series if wide_mm is None else f"{series}, {mm(wide_mm)} outside"


def _sleeves(joint: Joint) -> list[Fitted]:
    """The stop in foam, by the thread that goes through it, how wide and how high it is."""
    stop, through = limiter_of(joint), joint.screw or joint.receiver
    if stop is None or through is None:
        return []
    high_mm, kind = round(stop.thickness_mm, _SAME_LENGTH), kinds.STOP_SLEEVE
    part = Part(kind.line, through.thread, f"{mm(stop.outer_mm)} outside", "", high_mm)
    return [_fitted(kind, part, through.thread, "", "", id_size(stop.outer_mm), id_size(high_mm))]


def _washers(joint: Joint, tables: Tables) -> list[Fitted]:
    return [_washer(washer, tables) for washer in joint.washers if washer.place != Position.LIMITER]


def _washer(washer: StackPart, tables: Tables) -> Fitted:
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
