"""What was really built at a mount point: read field by field, recorded once, replaced only when that is asked for."""

import re
from collections.abc import Callable, Mapping
from dataclasses import astuple, fields, replace

from fasten.errors import FastenError
from fasten.job.words import Built, Mount
from fasten.text import units
from fasten.text.figures import unit_spelled
from fasten.text.shown import shown, visible
from fasten.text.units import Dimension

NAMES = tuple(field.name for field in fields(Built))
WHEN = "date"
_SIZES = {"hole": Dimension.LENGTH, "torque": Dimension.TORQUE}
_DAY = r"([0-9]{4})-([0-9]{2})-([0-9]{2})"
_SHOWN = 60  # characters of each field that a refusal repeats


def recorded(mount: Mount, said: Mapping[str, str], today: str, *, replace_it: bool) -> Mount:
    """The mount point with a record of what was said, field by field, on the day given where none is said.

    Raises: FastenError if nothing was said, a field is not what it is for, or there is a record that is to stay.
    """
    if mount.built is not None and not replace_it:
        raise FastenError(there_already(mount), where="built", fix="add --replace to put another in its place")
    return replace(mount, built=_read(said, today, mount.built))


def there_already(mount: Mount) -> str:
    """That a mount point has a record, and what it says, in a sentence; the start of it where it is long."""
    said = ", ".join(f"{name} {visible(text, _SHOWN)}" for name, text in said_by(mount.built))
    return f"{shown(mount.name)} has a record already ({said}), nothing was overwritten"


def said_by(built: Built | None) -> tuple[tuple[str, str], ...]:
    """What a record says, field by field, as it was typed but for the spelling of a size: 5 nm is 5 N·m."""
    texts = () if built is None else zip(NAMES, astuple(built), strict=True)
    return tuple((name, unit_spelled(text) if name in _SIZES else text) for name, text in texts if text)


def _read(said: Mapping[str, str], today: str, before: Built | None) -> Built:
    """The record; what stands as it did before is not read again, however it was written."""
    texts = {name: said.get(name, "").strip() for name in NAMES}
    if not any(text for name, text in texts.items() if name != WHEN):
        raise FastenError("nothing is said that was built", where="built", fix="add --hole, --hardware or --torque")
    for name, reading in _READERS.items():
        if texts[name] and texts[name] != getattr(before, name, ""):
            reading(texts[name], name)
    return Built(**{**texts, WHEN: texts[WHEN] or today})


def _check_day(text: str, where: str) -> None:
    from calendar import monthrange

    found = re.fullmatch(_DAY, text)
    year, month, day = (int(number) for number in found.groups()) if found is not None else (0, 0, 0)
    if not (year and 1 <= month <= 12 and 1 <= day <= monthrange(year, month)[1]):
        raise FastenError(f"{shown(text)} is not a date", where=where, fix="write year, month and day: 2026-05-03")


def _check_size(dimension: Dimension) -> Callable[[str, str], None]:
    def check(text: str, where: str) -> None:
        units.read(text, dimension, where)

    return check


_READERS: Mapping[str, Callable[[str, str], None]] = {
    "date": _check_day,
    **{name: _check_size(dimension) for name, dimension in _SIZES.items()},
}
