"""What was typed, field by field: what is understood of each, and the advice once it is enough. No widgets here."""

import os
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from fasten.advice.advise import advise
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.shelf.owned import owned_of
from fasten.job.words import Pin, Shelf
from fasten.model import Advice, Boss, Carried, MountPoint, Origin, Panel, Refusal
from fasten.question import fields
from fasten.question.fields import Field, bound_of
from fasten.question.read import read_question, values_of
from fasten.question.resolve import resolve
from fasten.record import replace
from fasten.report.safe import safe
from fasten.text.figures import figure, mm, with_unit, words
from fasten.text.given import bounded, given_text, sides
from fasten.tui.state.beside import ALONE, Beside
from fasten.tui.state.outcome import Good, Outcome, Reading

_MOST_READ = 128
_LEAST_OF_ITEM = 3  # letters that begin an item: all else of a mount point hangs on it, and a slip must not change it


def consider(
    said: Mapping[str, str], tables: Tables, shelf: Shelf | None = None, beside: Beside = ALONE, *,
    only_first: bool = False,
) -> Outcome:  # fmt: skip
    """Read every field that is not empty and, if all are understood and enough, advise by what is on the shelf.

    It is answered in its job, as the list has it: with what stands on its board, and in a series that is used already.
    """
    readings = {name: read_one(name, text, tables) for name, text in said.items() if text.strip()}
    outcome = Outcome(readings, preset=_preset(readings, tables))
    if outcome.unsaid or outcome.misread:
        return outcome
    try:
        taken = {name: reading.taken for name, reading in readings.items()}
        advice = _advice(taken, tables, shelf, beside, only_first=only_first)
    except FastenError as error:
        return _refused(error, readings)
    return replace(outcome, good=Good(outcome.entry, advice))


def _preset(readings: Mapping[str, Reading], tables: Tables) -> tuple[str, ...]:
    """The needed fields that the item itself says."""
    item = readings.get(fields.ITEM.name)
    if item is None or item.why:
        return ()
    named = fields.ITEM.read(item.taken, tables)[fields.ITEM.fills[0]]
    needed = (fields.field_named(name) for name in fields.NEEDED)
    return tuple(field.name for field in needed if fields.preset_of(field, named, tables) is not None)


def _advice(
    taken: dict[str, str], tables: Tables, shelf: Shelf | None, beside: Beside, *, only_first: bool
) -> Advice:  # fmt: skip
    from fasten.job.beside import answered_beside

    owned = owned_of(shelf, tables)
    try:
        return answered_beside(taken, beside.name, beside.job, beside.uses, tables, owned, only_first=only_first)
    except FastenError:
        resolve(read_question(taken, tables), tables)  # what is wrong with it by itself is said of its own fields
        raise


def considered(
    said: Mapping[str, str], tables: Tables, pin: Pin | None = None, shelf: Shelf | None = None, beside: Beside = ALONE,
    ticked: tuple[str, ...] = (), *, only_first: bool = False,
) -> Outcome:  # fmt: skip
    """The same, by the holes that are `ticked`; what was typed must outlive a fault in working out one answer."""
    try:
        outcome = consider(said, tables, shelf, beside, only_first=only_first)
        found = _with_pin(outcome, pin, tables)
        if not ticked or found.good is None or not found.good.advice.answers:
            return found
        return _with_holes(found, found.good, outcome, pin, ticked, tables, shelf)
    except Exception as error:
        if os.environ.get("FASTEN_DEBUG"):
            raise
        fault = safe(f"a fault of the program, not yours: {type(error).__name__}: {error}")
        return Outcome({}, trouble=fault, is_fault=True)


def _with_pin(outcome: Outcome, pin: Pin | None, tables: Tables) -> Outcome:
    return outcome if pin is None or outcome.good is None else _holding(outcome, outcome.good, pin, tables)


def _with_holes(
    found: Outcome, good: Good, free: Outcome, pin: Pin | None, ticked: tuple[str, ...], tables: Tables,
    shelf: Shelf | None,
) -> Outcome:  # fmt: skip
    """The same where a hole is made to another figure than the first answer wants: it is an existing hole then."""
    from fasten.job.ticked import counted_as_existing, existing_mm

    there_mm = existing_mm(ticked, good.advice.answers[0], good.advice.mount)
    if there_mm is None or free.good is None:
        return found
    point, owned = free.good.advice.mount, owned_of(shelf, tables)
    alone = advise(point, tables, owned)  # before the others of the job had a say
    if pin is None and alone.answers and existing_mm(ticked, alone.answers[0], point) is None:
        return replace(found, good=replace(good, advice=alone))
    advice = advise(replace(point, existing_hole_mm=there_mm), tables, owned)
    again = _with_pin(replace(free, good=replace(good, advice=advice)), pin, tables)
    if again.good is None or not again.good.advice.answers:
        return again
    first, *others = again.good.advice.answers
    first = replace(first, remarks=(*first.remarks, counted_as_existing(ticked)))
    return replace(again, good=replace(again.good, advice=replace(again.good.advice, answers=(first, *others))))


def _holding(outcome: Outcome, good: Good, pin: Pin, tables: Tables) -> Outcome:
    """The same with the joint that is held before all others, proved anew; or with why it does not do."""
    from fasten.job.choices import pinned, pinned_on, why_not
    from fasten.job.pins import pin_of

    point = pinned_on(pin, good.advice.mount, tables)
    found = pinned(pin, point, tables)
    if isinstance(found, Refusal):
        return replace(outcome, held=f"what is held does not do: {why_not(found)}")
    others = [answer for answer in good.advice.answers if pin_of(answer) != pin_of(found)]
    ranked = tuple(replace(answer, rank=rank) for rank, answer in enumerate((found, *others), 1))
    return replace(
        outcome,
        good=Good(good.entry, replace(good.advice, mount=point, answers=ranked)),
        held=f"held: {found.title}",
        is_held=True,
    )


@lru_cache(_MOST_READ)
def read_one(name: str, text: str, tables: Tables) -> Reading:
    """One field read by itself; by the next key all fields but one say the same."""
    field = fields.field_named(name)
    try:
        taken = completed(field, text.strip(), tables)
        values = values_of(name, taken, tables)
    except FastenError as error:
        return Reading(text, why=_sentence(error))
    is_begun = taken != text.strip() and _folded(text) not in _names(field, tables)
    return Reading(taken, understood=worded(field, values), is_begun=is_begun)


def completed(field: Field, text: str, tables: Tables) -> str:
    """The word that a text begins, where the field takes one of few words and only one begins so.

    Raises: FastenError if several do.
    """
    names = _names(field, tables)
    typed = _folded(text)
    if typed in names:
        return names[typed]
    found = list(dict.fromkeys(word for begins, word in names.items() if begins.startswith(typed)))
    if found and field is fields.ITEM and len(typed) < _LEAST_OF_ITEM:
        more = "type three letters of it, or its whole name"
        raise FastenError(f"{text.strip()}… may be {', '.join(found)}", where=field.name, fix=more)
    if len(found) > 1:
        raise FastenError(f"more than one begins so: {', '.join(found)}", where=field.name, fix="type another letter")
    return found[0] if found else text


def _names(field: Field, tables: Tables) -> dict[str, str]:
    """The words that a field takes, by every name of each."""
    return {} if field.names is None else {_folded(name): word for name, word in field.names(tables).items()}


def worded(field: Field, values: Mapping[str, Any]) -> str:
    """A field in words, from the values of a question or mount point by attribute; empty where it was not said."""
    if field is fields.ONTO:
        outline = "" if values["outline"] is None else f" {values['outline'].value}"
        return f"{words(values['material'])}{outline} {_thickness(values)}"
    known = ((values[name], fields.unit_of(name)) for name in field.fills if values[name] is not None)
    text = next((with_unit(value, unit) if unit else _plain(value) for value, unit in known), "")
    return bounded(text, values.get(bound_of(field.fills[0])))


def filled(field: Field, mount: MountPoint) -> str:
    """What stands in the mount point for a field that was not said, and whether it is preset or assumed."""
    origin, values = _held(field, mount)
    if origin is Origin.GIVEN:
        return ""
    if Panel.UNKNOWN in values.values():
        return "each is tried, the worst counts"
    return f"{origin.value}: {worded(field, values)}"


def stands_in(field: Field, mount: MountPoint) -> str:
    """What stands in the mount point for a field that was not said; empty where nothing does."""
    origin, values = _held(field, mount)
    return "" if origin is Origin.GIVEN or Panel.UNKNOWN in values.values() else worded(field, values)


def _held(field: Field, mount: MountPoint) -> tuple[Origin, dict[str, Any]]:
    """Where what a field fills is from, and what it is; what has no origin was given or is not there."""
    own = field in (fields.MASS, fields.CG)  # without what it carries
    names = {name: f"item_{name}" if own else name for name in field.fills}
    origin = dict(mount.origins).get(names[field.fills[0]], Origin.GIVEN)
    return origin, {} if origin is Origin.GIVEN else {name: getattr(mount, held) for name, held in names.items()}


def _refused(error: FastenError, readings: Mapping[str, Reading]) -> Outcome:
    if error.where not in fields.NAMES:
        return Outcome(readings, trouble=safe(str(error)))
    taken = readings[error.where].taken if error.where in readings else ""
    return Outcome({**readings, error.where: Reading(taken, why=_sentence(error))})


def _sentence(error: FastenError) -> str:
    return safe(f"{error.what}; {error.fix}" if error.fix else error.what)


def _thickness(values: Mapping[str, Any]) -> str:
    """Of a question as it was said, of a mount point as it is assumed."""
    if "thickness_mm" in values:
        return (values["place"] or "") if values["thickness_mm"] is None else mm(values["thickness_mm"])
    least, most = values["thickness_min_mm"], values["thickness_max_mm"]
    if least == most:
        return mm(most)
    return f"{values['place']}, {figure(least)} to {mm(most)}, assumed"


def _plain(value: object) -> str:
    if (made := given_text(value)) is not None:
        return made
    if isinstance(value, Boss):
        return sides(value.outer_mm, value.depth_mm)
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
