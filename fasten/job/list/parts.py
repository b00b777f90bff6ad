"""Which parts an answer takes at each fixing, each under one spelling."""

import re
from functools import lru_cache

from fasten.catalog.job_parts import Consumable
from fasten.catalog.rows import Head, Washer
from fasten.catalog.tables import Tables
from fasten.geometry.joint import outside_mm, stop_of
from fasten.job.words import Part
from fasten.model import Answer, Joint, MountPoint, Patch, Position, Receiver, StackPart
from fasten.model.kinds import Bought
from fasten.proof.torque.tightening import SPRING
from fasten.text.figures import figure, mm, words
from fasten.text.units import number

Counted = tuple[Part, int]

SLEEVE = "stop sleeve"
_SAME_LENGTH = 4  # decimals of a millimetre to which two lengths are one
_STANDARD = re.compile(r"\b(iso|din|en|sae|asme)[ -]?(?=[0-9])")


def parts_of(answer: Answer, mount: MountPoint, tables: Tables) -> tuple[Counted, ...]:
    """The parts of one fixing of an answer, as `joint_parts` has them."""
    return joint_parts(answer.proposal.joint, tables)


def joint_parts(joint: Joint, tables: Tables) -> tuple[Counted, ...]:
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
    counts: dict[Part, int] = {}
    for part in found:
        counts[part] = counts.get(part, 0) + 1
    return tuple(counts.items())


@lru_cache(maxsize=4096)
def same_part(part: Part) -> Part:
    """The one spelling under which parts are compared: case, spaces, dashes and underscores make no other part."""
    length = None if part.length_mm is None else round(part.length_mm, _SAME_LENGTH)
    return Part(plain_name(part.kind), _size(part.size), plain_name(part.name), plain_name(part.grade), length)


def plain_name(text: str) -> str:
    """The one spelling under which names are compared: a hyphen tells no two things apart."""
    return " ".join(spelled(text).replace("-", " ").split())


def part_text(part: Part) -> str:
    """A part in words: kind, size and length, then what tells it from others."""
    length = "" if part.length_mm is None else f" x {number(part.length_mm, 2)} mm"
    said = (f"{part.kind} {part.size}{length}".strip(), part.name, part.grade)
    return ", ".join(text for text in said if text)


def form_of(part: Part, tables: Tables) -> str:
    """What a part's standard leaves to be looked up: the head of a screw; hole, outside and thickness of a washer."""
    head = tables.find(Head, "heads", part.name, part.size) if part.kind.endswith("screw") else None
    if head is not None:
        return f"{_words(head.form).removesuffix(' tapping')} head"
    washer = tables.find(Washer, "washers", part.name, part.size) if part.kind in {"washer", SPRING} else None
    if washer is not None:
        return f"{figure(washer.hole_mm)} x {figure(washer.outer_mm)} x {mm(washer.thickness_mm)}"
    return ""


def spelled(text: str) -> str:
    """A name with its hyphens, whatever its case, its spaces and the sort of dash."""
    folded = re.sub(r"[‐‑‒–—−_]", lambda found: " " if found[0] == "_" else "-", text.casefold())
    return _STANDARD.sub(r"\1 ", " ".join(folded.split()))


def _size(text: str) -> str:
    return spelled(text).replace(" ", "").replace("×", "x").replace(",", ".")


def _screw(joint: Joint) -> list[Part]:
    screw = joint.screw
    if screw is None:
        return []
    return [Part(screw.kind.line, screw.thread, _words(screw.standard), _words(screw.class_), screw.length_mm)]


def _receiver(joint: Joint) -> list[Part]:
    """The receiver, but for a rivet, which is the screw as well."""
    receiver = joint.receiver
    if receiver is None or receiver.kind.bought is Bought.AS_ITS_SCREW:
        return []
    length = None if receiver.kind.bought is Bought.BY_THREAD else receiver.length_mm
    return [Part(_words(receiver.part), receiver.thread, _series(receiver), _words(receiver.material), length)]


def _series(receiver: Receiver) -> str:
    series = _words(receiver.series)
    if receiver.kind.bought is Bought.BY_OUTSIDE:
        return f"{series}, {mm(outside_mm(receiver))} outside"
    return series


def _sleeves(joint: Joint) -> list[Part]:
    """The stop in foam, by the thread that goes through it, how wide and how high it is."""
    stop, through = stop_of(joint), joint.screw or joint.receiver
    if stop is None or through is None:
        return []
    wide = f"{mm(stop.outer_mm)} outside"
    return [Part(SLEEVE, through.thread, wide, "", round(stop.thickness_mm, _SAME_LENGTH))]


def _washers(joint: Joint, tables: Tables) -> list[Part]:
    flat = [washer for washer in joint.washers if washer.place != Position.STOP]
    return [Part(_kind_of(washer, tables), washer.size, _words(washer.standard), "", None) for washer in flat]


def _kind_of(washer: StackPart, tables: Tables) -> str:
    row = tables.find(Washer, "washers", washer.standard, washer.size)
    return SPRING if row is not None and row.form == "spring" else "washer"


def _patch(joint: Joint, tables: Tables) -> list[Part]:
    patch = joint.patch
    if patch is None or tables.find(Consumable, "consumables", patch.part, "patch", ()) is not None:
        return []
    return [Part(_words(patch.part), patch_size(patch), _words(patch.series), "", None)]


def stuck_with(joint: Joint, tables: Tables) -> tuple[str, ...]:
    """The consumables that hold a joint by its face: what is bought by its area, and what keeps it on."""
    patch = joint.patch
    if patch is None:
        return ()
    row = tables.find(Consumable, "consumables", patch.part, "patch", ())
    found = (patch.part if row is not None and row.per == "area" else None, patch.bond)
    return tuple(name for name in found if name is not None)


def patch_size(patch: Patch) -> str:
    """The size of what holds by its face."""
    round_ = patch.shape == "round"
    return mm(patch.length_mm) if round_ else f"{figure(patch.length_mm)} x {mm(patch.width_mm)}"


def _words(text: str) -> str:
    return " ".join(words(text).split())
