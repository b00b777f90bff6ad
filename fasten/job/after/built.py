"""What was done at a mount point, visit by visit: read field by field, added to what was done before, never changed."""

import re
from collections.abc import Mapping

from fasten.after.measured import DROP, READINGS, SIZES, field_name, read_drop, read_readings, read_sizes
from fasten.errors import FastenError, SizeError
from fasten.job.after.said import FIELDS
from fasten.job.words import CHECKED, FITTED, OFF, VISIT_KINDS, Mount, Visit
from fasten.record import replace
from fasten.text.figures import unit_spelled
from fasten.text.names import choice
from fasten.text.shown import shown, visible
from fasten.text.units import write

AS_PLANNED = "as planned"
"""What a record says of hardware where all of it is that of the answer."""
KIND, WHEN, PHOTOS = "kind", "date", "photos"
TEXTS = (
    WHEN, KIND, "hole", "sheet", "hardware", "length", "torque", "turning", "held", DROP, "tool", "renewed", "by",
    "note", *READINGS, "retorque",
)  # fmt: skip
_OF_FITTING = ("hole", "sheet", "hardware", "length", "torque", "turning", "held", "renewed")
_DAY = r"([0-9]{4})-([0-9]{2})-([0-9]{2})"
_SHOWN = 60  # characters of each field that a sentence repeats
NEVER_REPLACED = FastenError(
    "a visit is never replaced: the next is added to it", where="built",
    fix="leave --replace out; fasten undo takes back the last one",
)  # fmt: skip


def recorded(mount: Mount, said: Mapping[str, str], today: str, photos: tuple[str, ...] = ()) -> Mount:
    """The mount point with one more visit, of what was said, field by field, on the day given where none is said.

    Raises: FastenError if nothing was said, or a field is not what it is for.
    """
    return with_visit(mount, read_visit(said, today, photos))


def with_visit(mount: Mount, visit: Visit) -> Mount:
    """The mount point with one more visit, the newest."""
    return replace(mount, visits=(*mount.visits, visit))


def read_visit(said: Mapping[str, str], today: str, photos: tuple[str, ...] = ()) -> Visit:
    """A visit of what was said.

    That something came off, or was looked at, is enough by itself; of what was fitted something must be said. What
    says nothing of how it was fitted, such as a note or the drop across it, is a look at it, where it is not said to be
    another kind.
    Raises: FastenError if nothing was said, or a field is not what it is for.
    """
    texts = {name: said.get(name, "").strip() for name in TEXTS}
    kind = choice(texts[KIND], {name: name for name in VISIT_KINDS}, KIND) if texts[KIND] else ""
    is_said = photos or any(text for name, text in texts.items() if name not in (WHEN, KIND))
    if kind in ("", FITTED) and not is_said:
        raise FastenError("nothing is said that was built", where="built", fix="add --hole, --hardware or --torque")
    for name, text in texts.items():
        if text:
            _check(name, text)
    _check_not_ahead(texts[WHEN] or today, today)
    kind = kind or (FITTED if any(texts[name] for name in _OF_FITTING) else CHECKED)
    return Visit(**{**texts, WHEN: texts[WHEN] or today, KIND: kind}, photos=photos)


def understood(name: str, text: str) -> str:
    """A field as it was understood, sizes in their own unit; raises FastenError where it is not what it is for."""
    if name == KIND:
        return choice(text, {kind: kind for kind in VISIT_KINDS}, KIND)
    _check(name, text)
    if name in SIZES:
        return ", ".join(write(size, SIZES[name]) for size in read_sizes(text, name))
    return text.strip()


def visits_text(mount: Mount) -> str:
    """That a mount point has visits, and what its last says, in a sentence; the start of it where it is long."""
    last = mount.visits[-1] if mount.visits else None
    said = ", ".join(f"{name} {visible(text, _SHOWN)}" for name, text in said_by(last))
    return f"{shown(mount.name)} has a record already ({said}); the next is added to it"


def said_by(built: Visit | None) -> tuple[tuple[str, str], ...]:
    """What a record says, field by field, as it was typed but for the spelling of a size: 5 nm is 5 N·m."""
    if built is None:
        return ()
    texts = [(name, getattr(built, name)) for name in TEXTS if name != KIND]
    sized = SIZES.keys() | READINGS.keys()
    spelled = ((field_name(name), unit_spelled(text) if name in sized else text) for name, text in texts if text)
    kind = ((KIND, built.kind),) if built.kind in (OFF, CHECKED) else ()
    return (*spelled, *kind, *((PHOTOS, photo) for photo in built.photos))


def _check(name: str, text: str) -> None:
    """Read a field as what it is for; one that is no size is answered by the example of what is said of the field."""
    try:
        _read(name, text)
    except SizeError as error:
        example = re.search("'(.+?)'", FIELDS[field_name(name)])
        raise error.such_as(example[1] if example else "") from None


def _read(name: str, text: str) -> None:
    if name == WHEN:
        _check_day(text, name)
    elif name in SIZES:
        read_sizes(text, name)
    elif name == DROP:
        read_drop(text)
    elif name in READINGS:
        read_readings(text, name)


def _check_day(text: str, where: str) -> None:
    from calendar import monthrange

    found = re.fullmatch(_DAY, text)
    year, month, day = (int(number) for number in found.groups()) if found is not None else (0, 0, 0)
    if not (year and 1 <= month <= 12 and 1 <= day <= monthrange(year, month)[1]):
        raise FastenError(f"{shown(text)} is not a date", where=where, fix="write year, month and day: 2026-05-03")


def _check_not_ahead(day: str, today: str) -> None:
    """Raises FastenError where a day is still to come; one day ahead is today elsewhere in the world."""
    if day > _next(today):
        fix = f"write the day it was done, {today} at the latest"
        raise FastenError(f"{day} is still to come: a record is of what was done", where=WHEN, fix=fix)


def _next(today: str) -> str:
    """The day after, without a clock."""
    from calendar import monthrange

    year, month, day = map(int, today.split("-"))
    if day < monthrange(year, month)[1]:
        return f"{year:04}-{month:02}-{day + 1:02}"
    return f"{year:04}-{month + 1:02}-01" if month < 12 else f"{year + 1:04}-01-01"
