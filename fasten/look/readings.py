"""Every way to read a text: `#8` is two machine-screw threads, a tapping screw and a drill."""

import re
from collections.abc import Iterator

from fasten.catalog.rows import (
    INCH_DRILLS,
    INCH_GRADES,
    METRIC_THREADS,
    PROPERTY_CLASSES,
    TAPPING_THREADS,
    UNIFIED_THREADS,
    UnifiedThread,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.record import record, replace
from fasten.text.letters import JOINERS
from fasten.text.quoting import WRITING
from fasten.text.shown import visible

LONGEST = 64
SHORTEST_SCREW_MM = 3.0
_WRONG_SYSTEM = {
    "grade": "SAE J429 grades are for inch screws; a metric screw has an ISO 898-1 class, such as 8.8",
    "class": "ISO 898-1 classes are for metric screws; an inch screw has an SAE J429 grade, such as 5",
}
_PLAIN = str.maketrans({"×": "x", "−": "-", "‐": "-", "‑": "-", "–": "-", "″": '"', "”": '"', "“": '"', "*": "x"}
                       | dict.fromkeys(JOINERS, ""))  # fmt: skip
_BIT_WORDS = {"drill", "bit", "letter"}
_SCREW_WORDS = {"screw", "bolt", "thread", "tapping", "machine", "tap"}
_SERIES = {"unc": "coarse", "unf": "fine"}
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_METRIC = rf"m ?({_NUMBER})(?: ?[x-] ?({_NUMBER}|\.[0-9]+))?(?: ?x ?({_NUMBER}))?(?: ?mm)?"
_SIZE = r"(?:(?:#|no\.?|number) ?)?([0-9]+/[0-9]+|[0-9]{1,2})\"?"
_UNIFIED = rf"{_SIZE} ?- ?([0-9]{{2}})(?: ?(unc|unf))?(?: ?x ?([0-9./ -]+?) ?(?:\"|in|inch)?)?"
_SERIES_ONLY = rf"{_SIZE} ?(unc|unf)"
_TAPPING = rf"st ?({_NUMBER})(?: ?x ?({_NUMBER}) ?(?:mm)?)?"
_NUMBERED = r"(?:#|no\.?|number) ?([0-9]{1,2})"
_FRACTION = r"([0-9]+/[0-9]+)( ?(?:\"|in|inch))?"
_GRADE = r"\b(?:grade|gr\.?) ?([0-9](?:\.[0-9])?)(?![0-9])"
_OF_WIRING = r"awg$|^[1-4]/0$|mm[2²]$|[0-9] ?(?:a|amps?)$|fuse$|tab|receptacle$|ring$|lug$|grommet$|shrink$"
_CLASS = r"(?:^|(?<= )|(?<=class))(?:class )?((?:[0-9]{1,2}\.[0-9]|a[0-9]-[0-9]{2}))$"


@record
class Reading:
    """One way to read a text: the kind of thing, its name in the tables or its size, and what must be said with it.

    `asked` are the unified threads that a grade was asked for.
    """

    kind: str
    name: str = ""
    size: float = 0.0
    notes: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()


def read(text: str, tables: Tables) -> tuple[Reading, ...]:
    """Every way to read the text.

    Raises:
        FastenError: there is none; says how to write one, or what comes nearest.
    """
    plain = plain_text(text)
    if re.search(_OF_WIRING, plain):
        from fasten.look.cable import wiring_entry  # what it reads is not loaded for a thread

        if wiring_entry(plain, tables) is not None:
            return (Reading("wiring", plain),)
    strengths, rest = _strengths(plain, tables)
    kinds, rest = _wanted_kinds(rest)
    if not rest and strengths:
        return strengths
    found = tuple(reading for reading in _names(rest, tables) if kinds is None or (reading.kind == "bit") == kinds)
    if not found or rest.endswith(('"', "in", "inch")):
        found += tuple(_sizes(rest, tables, {reading.kind for reading in found}))
    if not found:
        raise _unknown(text, plain, tables)
    return _with_strengths(found, strengths)


def plain_text(text: str) -> str:
    """A text in lower case, with plain signs, one space between words and a point in its numbers.

    Raises:
        FastenError: it is too long, empty or holds what cannot be shown.
    """
    if len(text) > LONGEST:
        raise FastenError(
            f"{visible(text, 30)} is {len(text)} characters long, and a size has at most {LONGEST}", fix=WRITING
        )
    plain = " ".join(text.translate(_PLAIN).lower().split())
    if not plain:
        raise FastenError("nothing to look up", fix=WRITING)
    if not plain.isprintable():
        raise FastenError(f"{visible(text)} holds a control or hidden character", fix=WRITING)
    return re.sub(r"(?<=[0-9]),(?=[0-9]{1,2}(?![0-9]))", ".", plain)


def _strengths(plain: str, tables: Tables) -> tuple[tuple[Reading, ...], str]:
    """Grades and classes named in the text, and the text without them."""
    if match := re.search(_GRADE, plain):
        grades = [row.grade for row in tables.rows(INCH_GRADES)]
        if match[1] not in grades:
            raise FastenError(
                f"grade {match[1]} is not in the tables", fix=f"SAE J429 grades here are {', '.join(grades)}"
            )
        return (Reading("grade", match[1]),), _without(plain, match)
    match = re.search(_CLASS, plain)
    if match and tables.find(PROPERTY_CLASSES, match[1].upper()):
        return (Reading("class", match[1].upper()),), _without(plain, match)
    return (), plain


def _without(plain: str, match: re.Match[str]) -> str:
    return " ".join((plain[: match.start()] + " " + plain[match.end() :]).split())


def _wanted_kinds(plain: str) -> tuple[bool | None, str]:
    """Whether only bits, or anything but bits, are asked for, and the text without the words that ask for it."""
    words = plain.split()
    rest = " ".join(word for word in words if word not in _BIT_WORDS | _SCREW_WORDS)
    if _BIT_WORDS & set(words):
        return True, rest
    return (False if _SCREW_WORDS & set(words) else None), rest


def _names(plain: str, tables: Tables) -> Iterator[Reading]:
    if match := re.fullmatch(_METRIC, plain):
        yield from _metric(match, tables)
    elif match := re.fullmatch(_TAPPING, plain):
        yield from _tapping(match, tables)
    elif match := re.fullmatch(_UNIFIED, plain):
        yield from _unified(match, tables)
    elif match := re.fullmatch(_SERIES_ONLY, plain):
        yield from (
            Reading("unified", row.designation)
            for row in _of_size(_size(match[1]), tables)
            if row.series == _SERIES[match[2]]
        )
    elif match := re.fullmatch(_NUMBERED, plain):
        yield from _screws_of(f"#{int(match[1])}", tables)
        yield from _bit(f"#{int(match[1])}", "number", tables)
    elif match := re.fullmatch(_FRACTION, plain):
        yield from _screws_of(match[1], tables)
        yield from _bit(match[1], "fraction", tables)
    elif re.fullmatch(r"[a-z]", plain):
        yield from _bit(plain.upper(), "letter", tables)


def _metric(match: re.Match[str], tables: Tables) -> Iterator[Reading]:
    major = float(match[1])
    threads = [row for row in tables.rows(METRIC_THREADS) if row.major_mm == major]
    coarse = next((row for row in threads if row.designation == f"M{major:g}"), None)
    pitch = float(match[2]) if match[2] else None
    thread = coarse if pitch is None else next((row for row in threads if row.pitch_mm == pitch), None)
    if thread is not None:
        yield Reading("metric", thread.designation, notes=_length_note(match[3], "mm"))
    elif coarse is not None and pitch is not None and pitch >= SHORTEST_SCREW_MM and match[3] is None:
        yield Reading("metric", coarse.designation, notes=_length_note(match[2], "mm"))


def _length_note(length: str | None, unit: str) -> tuple[str, ...]:
    return (f"{length} {unit} is read as the length of the screw, not as a pitch",) if length else ()


def _unified(match: re.Match[str], tables: Tables) -> Iterator[Reading]:
    for row in _of_size(_size(match[1]), tables):
        if row.threads_per_in == int(match[2]):
            notes = _length_note(match[4], "in")
            if match[3] and row.series != _SERIES[match[3]]:
                notes += (f"{row.designation} is the {row.series} series, not {match[3].upper()}",)
            yield Reading("unified", row.designation, notes=notes)


def _size(written: str) -> str:
    return written if "/" in written else f"#{int(written)}"


def _of_size(size: str, tables: Tables) -> list[UnifiedThread]:
    return [row for row in tables.rows(UNIFIED_THREADS) if row.size == size]


def _screws_of(size: str, tables: Tables) -> Iterator[Reading]:
    yield from (Reading("unified", row.designation) for row in _of_size(size, tables))
    for row in tables.rows(TAPPING_THREADS):
        if size in re.split(r"[ (),]+", row.number):
            yield Reading("tapping", row.designation)


def _tapping(match: re.Match[str], tables: Tables) -> Iterator[Reading]:
    row = tables.find(TAPPING_THREADS, f"ST{float(match[1]):g}")
    if row is not None:
        yield Reading("tapping", row.designation, notes=_length_note(match[2], "mm"))


def _bit(name: str, series: str, tables: Tables) -> Iterator[Reading]:
    if tables.find(INCH_DRILLS[series], name) is not None:
        yield Reading("bit", name)


def _sizes(plain: str, tables: Tables, already: set[str]) -> Iterator[Reading]:
    """Readings of a number with a unit: a gauge, or a length and the bit of that diameter."""
    if not any(char.isdigit() for char in plain):
        return
    from fasten.geometry.bits import all_bits, nearest_bit
    from fasten.text.units import Dimension, Gauge, read_any

    try:
        size = read_any(plain)
    except FastenError:
        if re.match(r"[+-]?[0-9.,]", plain):
            raise
        return
    if isinstance(size, Gauge):
        yield Reading("gauge", size.metal or "", size.number)
        return
    if size.dimension is not Dimension.LENGTH:
        raise FastenError(f"{visible(plain)} is {size.dimension.words}, and sizes are looked up here", fix=WRITING)
    nearest = nearest_bit(size.value, 0.0, 0.0, all_bits(tables))
    if nearest.holds and "bit" not in already:
        yield Reading("bit", nearest.name)
    yield Reading("length", size=size.value)


def _with_strengths(found: tuple[Reading, ...], strengths: tuple[Reading, ...]) -> tuple[Reading, ...]:
    """The readings, each strength with the threads it was asked for and a note where it does not apply."""
    asked = tuple(reading.name for reading in found if reading.kind == "unified")
    metric = any(reading.kind == "metric" for reading in found)
    noted = []
    for strength in strengths:
        wrong = metric if strength.kind == "grade" else bool(asked)
        noted.append(replace(strength, asked=asked, notes=(_WRONG_SYSTEM[strength.kind],) if wrong else ()))
    return found + tuple(noted)


def _unknown(text: str, plain: str, tables: Tables) -> FastenError:
    from difflib import get_close_matches

    names = {name.lower(): name for name in _known(tables)}
    written = plain.replace(" ", "")
    near = [names[name] for name in get_close_matches(written, names, n=4, cutoff=0.5) if len(name) > 1]
    fix = f"nearest are {', '.join(near)}" if near else WRITING
    return FastenError(f"{visible(text)} is not a size in the tables", fix=fix)


def _known(tables: Tables) -> Iterator[str]:
    yield from (row.designation for row in tables.rows(METRIC_THREADS))
    yield from (row.designation for row in tables.rows(UNIFIED_THREADS))
    yield from (row.designation for row in tables.rows(TAPPING_THREADS))
    for table in INCH_DRILLS.values():
        yield from (row.name_ for row in tables.rows(table))
