"""Lines that are any other part: of its kind whatever its size, length and series leave; what is left is asked."""

import re
from collections.abc import Iterable, Iterator

from fasten.catalog.parts import NUTS, WASHERS
from fasten.catalog.tables import Tables
from fasten.job.list.parts import kind_name
from fasten.job.list.stock import stock
from fasten.job.shelf.lines.asking import answered, listed
from fasten.job.shelf.lines.screws import standard_of
from fasten.job.shelf.lines.sized import Sized, sized
from fasten.job.shelf.lines.tokens import Tokens
from fasten.job.shelf.lines.words import Asked, Read
from fasten.methods.stocked import ANY_MM
from fasten.model import kinds
from fasten.model.line import Part
from fasten.text.figures import figure, mm
from fasten.text.names import plain_name
from fasten.text.values import INCHES, Value, ValueSort, is_nominal, number

_NEAR_MM = 0.3  # by which a length may be written otherwise
_SILENT = frozenset({"round", "flat head", "knurled", "coarse outside thread"})  # said by nobody who has the usual one
_PLAIN, _LARGE = "plain", "large"
_USUAL_SIZE = "M5"
_SIZE_LONG = re.compile(r"[0-9] ?(?:mm|in|inch|\")? ?long\b")
_WHICH_NUT = "plain or locking: only a locking nut takes part in an answer"


def of_kind(tokens: Tokens, kind: str, tables: Tables) -> Read:
    """A part of a kind: the one that size, series and length leave, or a question."""
    known = [part for part in stock(tables).parts.values() if kind_name(part.kind) == kind_name(kind)]
    found = _sized(tokens, known, tables)
    fitting = [part for part in known if _is_size(part.size, found.size)] if found.size else known
    said = _series_said(tokens)
    series = [part for part in fitting if all(word in plain_name(part.name) or word in part.name for word in said)]
    named = _plainest(series, said)
    short = [part for part in named if _is_long(part, found.length_mm)]
    short = short or [part for part in series if _is_long(part, found.length_mm)]  # its length says which series it is
    wants = list(_wants(tokens, found, fitting, named, short))
    left = short or named or fitting or known
    part = _whole(short[0], found.length_mm) if len(short) == 1 and not wants else None
    return answered(
        tokens, wants, _near(left, found), part, found.count, (*found.assumed, *_assumed(part, tokens, found))
    )


def washer(tokens: Tokens, tables: Tables) -> Read:
    """A washer by its size and form, or by how wide it is."""
    found = sized(tokens, tables, tapping=False, has_length=True)
    standard, assumed = standard_of(tokens, tables)
    forms = {word.names for word in tokens.named("series")} & {_LARGE, "penny"}
    size = "" if found.is_inch else found.size
    rows = [row for row in tables.rows(WASHERS) if row.size == size and row.form != "spring"]
    kept = [row for row in rows if (not standard or row.standard == standard) and (not forms or row.form in forms)]
    wide = [row for row in kept if found.length_mm is not None and row.outer_mm == found.length_mm]
    chosen = wide or [row for row in kept if row.form == _PLAIN] or kept
    wants = [] if size else ["which thread"]
    wants += ["how wide"] if found.length_mm is not None and not wide else []
    wants += ["which washer"] if size and not chosen else []
    part = Part(kinds.WASHER.line, size, chosen[0].standard, "", None) if chosen and not wants else None
    usual = not (forms or standard or wide) and part is not None
    larger = [row for row in rows if row.form == _LARGE]
    notes = [
        f"plain, {mm(chosen[0].outer_mm)} outside; {mm(row.outer_mm)} is {row.standard}" for row in larger if usual
    ]
    usual_rows = rows or [row for row in tables.rows(WASHERS) if row.size == _USUAL_SIZE and row.form != "spring"]
    notes += [f"not read: {word.text}" for word in tokens.named("unlike", "class")]
    near = [Part(kinds.WASHER.line, row.size, row.standard, "", None) for row in usual_rows]
    return answered(tokens, wants, near, part, found.count, (*assumed, *notes))


def nut(tokens: Tokens, form: str, tables: Tables) -> Read:
    """A nut by its size and form; without a form or standard it is asked whether it locks."""
    found = sized(tokens, tables, tapping=False, has_length=False)
    standard, assumed = standard_of(tokens, tables)
    size = "" if found.is_inch else found.size
    rows = [row for row in tables.rows(NUTS) if row.size == (size or "M6")]
    kept = [row for row in rows if row.standard == standard] if standard else [row for row in rows if row.form == form]
    wants = [] if size else ["which thread"]
    wants += [] if kept else [_WHICH_NUT]
    wants += _of_other_material(tokens, [])
    near = sorted(kept or rows, key=lambda row: row.form == "prevailing_torque_thin")
    parts = [Part(_nut_kind(row.form), row.size, row.standard, "steel", None) for row in near]
    part = parts[0] if kept and not wants else None
    return answered(tokens, wants, parts, part, found.count, assumed)


def _nut_kind(form: str) -> str:
    return kinds.HEXAGON_NUT.line if form == "hexagon" else kinds.LOCK_NUT.line


def insert(tokens: Tokens, tables: Tables) -> Read:
    """An insert of which it is not said what it goes into."""
    found = sized(tokens, tables, tapping=False, has_length=True)
    sorts = (kinds.SCREW_IN_INSERT.line, kinds.HEAT_SET_INSERT.line)
    known = [part for part in stock(tables).parts.values() if part.kind in sorts and part.size == (found.size or "M5")]
    near = [next(part for part in known if part.kind == sort) for sort in sorts]
    return Asked(tokens.line, "for wood and board, or to be set in plastic by heat?", tuple(near), found.count)


def by_standard(tokens: Tokens, tables: Tables) -> Read | None:
    """A nut or washer that is named by its standard alone; None where the standard is of neither."""
    standard, _ = standard_of(tokens, tables)
    if any(row.standard == standard for row in tables.rows(NUTS)):
        return nut(tokens, "", tables)
    if any(row.standard == standard and row.form != "spring" for row in tables.rows(WASHERS)):
        return washer(tokens, tables)
    if any(row.standard == standard for row in tables.rows(WASHERS)):
        return of_kind(tokens, kinds.SPRING_WASHER.line, tables)
    return None


# -- of a kind --------------------------------------------------------------------------------------------------------


def _sized(tokens: Tokens, known: list[Part], tables: Tables) -> Sized:
    """The size, a plain length where parts of the kind go by one; no length is that of a hole beside it."""
    has_length = any(part.length_mm is not None for part in known)
    made = {part.length_mm for part in known}
    bare = [number(value.first) for value in tokens.of(ValueSort.BARE)]
    is_count = len(bare) == 1 and tokens.count is None and ANY_MM not in made and bare[0] not in made
    found = sized(tokens, tables, tapping=False, has_length=has_length, bare_is_count=is_count)
    said = tokens.of(ValueSort.LENGTH, ValueSort.FRACTION)
    size = _size_of(said[0], known) if said and not found.size else ""
    if size:
        assumed = () if size == figure(said[0].mm) else (f"{said[0].text} is {size}",)
        return Sized(size, said[1].mm if len(said) > 1 else None, found.count, (*found.assumed, *assumed))
    if tokens.named("hole") and found.length_mm in [value.mm for value in said]:
        return Sized(found.size, None, found.count, found.assumed)
    return found


def _size_of(value: Value, known: list[Part]) -> str:
    """The size of which there are parts that a length is: one in inches is that in millimetres."""
    sizes = list(dict.fromkeys(part.size for part in known))
    exact = next((figure(value.mm) for size in sizes if _is_size(size, figure(value.mm))), "")
    if exact or not (value.unit in INCHES or value.sort is ValueSort.FRACTION):
        return exact
    return next((size for size in sizes if is_nominal(value.mm, _figure(size))), "")


def _is_size(size: str, said: str) -> bool:
    """Whether a part is of a size, however its figure is written."""
    plain, other = (text.casefold().removesuffix(" mm") for text in (size, said))
    if plain == other:
        return True
    figures = [re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", text) for text in (plain, other)]
    return all(figures) and number(plain) == number(other)


def _is_long(part: Part, length_mm: float | None) -> bool:
    if length_mm is None or part.length_mm in (None, ANY_MM):
        return True
    assert part.length_mm is not None
    return -_NEAR_MM <= part.length_mm - length_mm <= _NEAR_MM


def _series_said(tokens: Tokens) -> list[str]:
    """What the line says of a series; long behind a size is how long it is, and no long grip."""
    words = tokens.named("series")
    return [word.names for word in words if not (word.text == "long" and _SIZE_LONG.search(tokens.plain))]


def _plainest(parts: list[Part], said: list[str]) -> list[Part]:
    """Of those that have every word of the line, where it says one, those that have least that was not said."""
    if not said or not parts:
        return parts
    least = min(_unsaid(part, said) for part in parts)
    return [part for part in parts if _unsaid(part, said) == least]


def _unsaid(part: Part, said: Iterable[str]) -> int:
    pieces = [piece.strip() for piece in part.name.split(",")]
    return sum(piece not in _SILENT and not any(word in piece for word in said) for piece in pieces)


def _wants(tokens: Tokens, found: Sized, fitting: list[Part], named: list[Part], short: list[Part]) -> Iterator[str]:
    yield from _of_other_material(tokens, fitting)
    if not found.size and len({part.size for part in fitting}) > 1:
        yield _which_size(fitting)
    elif not fitting:
        yield f"none of {found.size} is known: which size is it"
    elif len({part.name for part in short}) > 1:
        yield f"{_which_series(short)}{'' if found.length_mm else ', and how long'}"
    elif not short:
        yield f"how long: {listed(_lengths(named or fitting))}"
    elif len(short) > 1 or (short[0].length_mm == ANY_MM and found.length_mm is None):
        yield f"how long: {listed(_lengths(short))}" if len(short) > 1 else "how long"


def _of_other_material(tokens: Tokens, parts: list[Part]) -> Iterator[str]:
    """What of a line makes it another part than those known: a left-hand thread, or a material that they are not of."""
    for word in tokens.named("unlike", "class"):
        if not any(plain_name(word.text) in plain_name(part.grade) for part in parts):
            yield f"no answer takes {word.names} ({word.text}): is it one without"


def _which_size(parts: list[Part]) -> str:
    sizes = sorted(
        {part.size for part in parts}, key=lambda size: number(re.sub(r"[^0-9.]", "", size.split(" ")[0]) or "0")
    )
    return f"which size, {sizes[0]} to {sizes[-1]}"


def _which_series(parts: list[Part]) -> str:
    return f"which: {'; '.join(sorted({part.name for part in parts}, key=_unsaid_name))}"


def _unsaid_name(name: str) -> tuple[int, str]:
    return sum(piece.strip() not in _SILENT for piece in name.split(",")), name


def _lengths(parts: list[Part]) -> list[str]:
    return [mm(part.length_mm) for part in parts if part.length_mm is not None and part.length_mm != ANY_MM]


def _whole(part: Part, length_mm: float | None) -> Part:
    if part.length_mm != ANY_MM:
        return part
    return Part(part.kind, part.size, part.name, part.grade, length_mm)


def _near(parts: list[Part], found: Sized) -> list[Part]:
    """The plainest of those that are left, of different names where there are; without a size, about the middle."""
    if not found.size:
        sizes = sorted(parts, key=lambda part: (_figure(part.size), _unsaid_name(part.name)))
        sizes = list({part.size: part for part in reversed(sizes)}.values())[::-1]
        middle = max((len(sizes) - 1) // 2, 0)
        return sizes[middle : middle + 2]
    length = found.length_mm
    ordered = sorted(parts, key=lambda part: (_unsaid_name(part.name), _off(part, length)))
    firsts = {part.name: part for part in reversed(ordered)}
    return [*(firsts[name] for name in dict.fromkeys(part.name for part in ordered)), *ordered]


def _figure(size: str) -> float:
    """The first figure of a size."""
    found = re.search(r"[0-9]+(?:\.[0-9]+)?", size)
    return number(found[0]) if found is not None else 0.0


def _off(part: Part, length_mm: float | None) -> float:
    if part.length_mm is None or length_mm is None:
        return 0.0
    return max(part.length_mm - length_mm, length_mm - part.length_mm)


def _assumed(part: Part | None, tokens: Tokens, found: Sized) -> Iterator[str]:
    """What was taken of a part without being said: its series, what it is made of, its length."""
    if part is None:
        return
    said = _series_said(tokens)
    if part.name and not all(any(word in piece for word in said) for piece in part.name.split(",")):
        yield part.name
    if part.grade and plain_name(part.grade) not in tokens.plain and part.grade != "steel":
        yield part.grade
    if found.length_mm is None and part.length_mm is not None:
        yield f"{mm(part.length_mm)} long: measure one"
