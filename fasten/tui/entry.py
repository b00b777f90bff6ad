"""What was typed, field by field: what is understood of each, and the advice once it is enough. No widgets here."""

import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from fasten.advice.advise import advise
from fasten.catalog.materials import Item
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.shelf.owned import owned_of
from fasten.job.words import Pin, Shelf
from fasten.model import (
    Between,
    Boss,
    Carried,
    Into,
    MountPoint,
    Origin,
    Panel,
    Pattern,
    Question,
    Reach,
    Refusal,
    Removal,
    Visible,
    Where,
)
from fasten.question.read import FIELDS, read_question
from fasten.question.resolve import resolve
from fasten.report.safe import safe
from fasten.text.figures import figure, mm, with_unit, words
from fasten.text.units import Dimension
from fasten.tui.asks import Good, Outcome, Reading

_PROBE = {"onto": "steel 0.8 mm", "removed": "never"}  # stands for the other fields while one is read alone


def consider(said: Mapping[str, str], tables: Tables, shelf: Shelf | None = None) -> Outcome:
    """Read every field that is not empty and, if all are understood and enough, advise by what is on the shelf."""
    readings = {name: read_one(name, text, tables) for name, text in said.items() if text.strip()}
    outcome = Outcome(readings)
    if outcome.unsaid or outcome.misread:
        return outcome
    try:
        question = read_question({name: reading.taken for name, reading in readings.items()}, tables)
        advice = advise(resolve(question, tables), tables, owned_of(shelf, tables))
    except FastenError as error:
        return _refused(error, readings)
    return Outcome(readings, Good(outcome.entry, advice))


def considered(said: Mapping[str, str], tables: Tables, pin: Pin | None = None, shelf: Shelf | None = None) -> Outcome:
    """The same; what was typed must outlive a fault in working out one answer."""
    try:
        outcome = consider(said, tables, shelf)
        return outcome if pin is None or outcome.good is None else _holding(outcome, outcome.good, pin, tables)
    except Exception as error:
        if os.environ.get("FASTEN_DEBUG"):
            raise
        told = safe(f"a fault of the program, not yours: {type(error).__name__}: {error}")
        return Outcome(trouble=told, is_fault=True)


def _holding(outcome: Outcome, good: Good, pin: Pin, tables: Tables) -> Outcome:
    """The same with the joint that is held before all others, proved anew; or with why it does not do."""
    from fasten.job.choices import pin_of, pinned, told

    found = pinned(pin, good.advice.mount, tables)
    if isinstance(found, Refusal):
        return replace(outcome, held=f"what is held does not do: {told(found)}")
    others = [answer for answer in good.advice.answers if pin_of(answer) != pin_of(found)]
    ranked = tuple(replace(answer, rank=rank) for rank, answer in enumerate((found, *others), 1))
    return replace(
        outcome, good=Good(good.entry, replace(good.advice, answers=ranked)), held=f"held: {found.title}", is_held=True
    )


def read_one(name: str, text: str, tables: Tables) -> Reading:
    """One field read by itself, with plain values for the others."""
    try:
        taken = completed(name, text.strip(), tables)
        question = read_question({"item": tables.rows(Item, "items")[0].item, **_PROBE, name: taken}, tables)
    except FastenError as error:
        return Reading(text, why=_sentence(error))
    return Reading(taken, understood=worded(name, question))


def completed(name: str, text: str, tables: Tables) -> str:
    """The word that a text begins, where the field takes one of few words and only one begins so.

    Raises: FastenError if several do.
    """
    names = _WORDS[name](tables) if name in _WORDS else {}
    typed = _folded(text)
    if typed in names:
        return names[typed]
    found = list(dict.fromkeys(word for begins, word in names.items() if begins.startswith(typed)))
    if len(found) > 1:
        raise FastenError(f"more than one begins so: {', '.join(found)}", where=name, fix="type another letter")
    return found[0] if found else text


def worded(name: str, source: Question | MountPoint) -> str:
    """A field of a question or mount point in words; empty where it was not said."""
    if name == "onto":
        outline = "" if source.outline is None else f" {source.outline.value}"
        return f"{words(source.material)}{outline} {_thickness(source)}"
    if name == "hole-there" and source.thread_there is not None:
        return f"{source.thread_there.thread} {source.thread_there.kind}"
    attribute, dimension = _attribute(name, source)
    value = getattr(source, attribute)
    if isinstance(value, float) and dimension is not None:
        return with_unit(value, dimension.unit)
    return "" if value is None else _plain(value)


def filled(name: str, mount: MountPoint) -> str:
    """What stands in the mount point for a field that was not said, and whether it is preset or assumed."""
    attribute, _ = _attribute(name, mount)
    origin = dict(mount.origins).get(attribute)
    if origin is Origin.ASSUMED and getattr(mount, attribute) is Panel.UNKNOWN:
        return "each is tried, the worst counts"
    return f"{origin.value}: {worded(name, mount)}" if origin in (Origin.PRESET, Origin.ASSUMED) else ""


def _attribute(name: str, source: Question | MountPoint) -> tuple[str, Dimension | None]:
    """Where a field stands and what it measures; of a mount point that carries others, the item's own."""
    attribute, dimension = _ATTRIBUTES.get(name, (name.replace("-", "_"), None))
    own = name in ("mass", "cg") and isinstance(source, MountPoint)
    return f"item_{attribute}" if own else attribute, dimension


def _refused(error: FastenError, readings: Mapping[str, Reading]) -> Outcome:
    if error.where not in FIELDS:
        return Outcome(readings, trouble=safe(str(error)))
    taken = readings[error.where].taken if error.where in readings else ""
    return Outcome({**readings, error.where: Reading(taken, why=_sentence(error))})


def _sentence(error: FastenError) -> str:
    return safe(f"{error.what}; {error.fix}" if error.fix else error.what)


def _thickness(source: Question | MountPoint) -> str:
    if isinstance(source, Question):
        return (source.place or "") if source.thickness_mm is None else mm(source.thickness_mm)
    least, most = source.thickness_min_mm, source.thickness_max_mm
    if least == most:
        return mm(most)
    return f"{source.place}, {figure(least)} to {mm(most)}, assumed"


def _plain(value: object) -> str:
    if isinstance(value, Pattern):
        sides = [figure(side) for side in (value.a_mm, value.b_mm) if side is not None]
        return f"{value.kind} {' x '.join(sides)} mm"
    if isinstance(value, Between):
        return f"{words(value.material)} {mm(value.thickness_mm)}"
    if isinstance(value, Boss):
        sides = [figure(side) for side in (value.outer_mm, value.depth_mm) if side is not None]
        return f"{' x '.join(sides)} mm"
    if isinstance(value, tuple):
        return ", ".join(_thing(thing) for thing in value)
    return words(str(getattr(value, "value", value)))


def _thing(thing: Carried) -> str:
    """A thing that is carried, as it may be typed again."""
    said = (
        thing.name or "",
        "" if thing.mass_kg is None else with_unit(thing.mass_kg, "kg"),
        "" if thing.cg_mm is None else f"at {mm(thing.cg_mm)}",
    )
    return " ".join(text for text in said if text)


def _folded(text: str) -> str:
    return " ".join(text.replace("-", " ").split()).casefold()


def _items(tables: Tables) -> dict[str, str]:
    """Every name of every item; the key of an item wins over another's second name."""
    rows = tables.rows(Item, "items")
    others = {_folded(other): row.item for row in rows for other in (row.title, *row.other_names.split("|"))}
    return others | {_folded(row.item): row.item for row in rows}


def _one_of(members: Iterable[Removal | Panel | Reach | Where | Visible]) -> Callable[[Tables], dict[str, str]]:
    names = {_folded(member.value): member.value for member in members}
    return lambda _tables: names


_WORDS: Mapping[str, Callable[[Tables], Mapping[str, str]]] = {
    "item": _items,
    "removed": _one_of(Removal),
    "into": _one_of(Into),
    "reach": _one_of(Reach),
    "panel": _one_of(Panel),
    "where": _one_of(Where),
    "visible": _one_of(Visible),
}
_ATTRIBUTES = {
    "mass": ("mass_kg", Dimension.MASS),
    "cable": ("cable_mm2", Dimension.AREA),
    "current": ("current_a", Dimension.CURRENT),
    **{name: (f"{name.replace('-', '_')}_mm", Dimension.LENGTH)
       for name in ("run", "item-thickness", "item-hole", "behind", "edge", "hole-there", "cg", "body")},
}  # fmt: skip
