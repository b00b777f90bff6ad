"""Lines that are no part: bits by their sizes, tools and consumables by the names that a list gives them."""

import re
from collections.abc import Iterator

from fasten.catalog.parts import BLIND_RIVETS, HEADS
from fasten.catalog.tables import Tables
from fasten.job.list.stock import stock
from fasten.job.shelf.amounts import Amount, written
from fasten.job.shelf.lines.tokens import Tokens, taken_apart
from fasten.job.shelf.lines.words import Asked, Read, ReadNames
from fasten.job.shelf.view import bit_named
from fasten.model.line import Sort
from fasten.text.figures import figure, mm
from fasten.text.values import INCHES, ValueSort, number

_N = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_STEP = rf"(?: ?(?:x|by|in|@|step|steps of|,)? ?(?P<s>{_N}) ?(?:mm)?(?: steps?)?)?"
_RANGE = re.compile(rf"(?P<a>{_N}) ?(?:mm)? ?(?:to|-|\u2013|\.\.) ?(?P<b>{_N}) ?(?:mm)?{_STEP}")
_THREADS = re.compile(rf"m ?(?P<a>{_N}) ?(?:to|-|\u2013) ?m? ?(?P<b>{_N})")
_STARS = re.compile(r"\bt ?(?P<a>[0-9]{1,2}) ?(?:to|-|\u2013) ?t? ?(?P<b>[0-9]{1,2})\b")
_LOOSE = re.compile(rf"(?P<n>{_N}(?:,[0-9]+)?) ?(?P<u>ml|l|g|kg)\b", re.IGNORECASE)
_PER = {"ml": ("ml", 1.0), "l": ("ml", 1000.0), "g": ("g", 1.0), "kg": ("g", 1000.0)}
_MOST = 500
_HEXALOBULAR = "hexalobular"  # in the column of drives
_LOBES, _CROSS, _SOCKET = "driver hexalobular", "driver cross recess", "driver hexagon socket"
_RECESSES = {ValueSort.STAR: _LOBES, ValueSort.CROSS: _CROSS}
_USUAL = {_LOBES: ("T20", "T25"), _CROSS: ("1", "2"), _SOCKET: ("3", "4")}
_MADE = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)  # metric threads that tools are made for


def bits(tokens: Tokens, tables: Tables) -> Read:
    """Bits of one size, of several or of a range; those for stone, wood or tile are asked for."""
    names = list(_bit_names(taken_apart(tokens.line, tables, counts=False), tables))
    others = tokens.named("other")
    if others:
        bit = f" {names[0]}" if names else ""
        what = f"{others[0].text} is for {others[0].names}: count{bit} for metal all the same?"
        return Asked(tokens.line, what, tuple(names[:1]))
    if not names and tokens.of(*_RECESSES):
        return drivers(
            tokens, next(_RECESSES[value.sort] for value in tokens.values if value.sort in _RECESSES), tables
        )
    if not names:
        return Asked(tokens.line, "which sizes of bit?", ("5 mm", "1 to 10 mm by 0.5"))
    return ReadNames(Sort.BIT, tuple(names), _unread(tokens))


def _bit_names(tokens: Tokens, tables: Tables) -> Iterator[str]:
    found = _RANGE.search(tokens.plain)
    if found is not None and found["s"] and number(found["s"]) > 0:
        count = round((number(found["b"]) - number(found["a"])) / number(found["s"]))
        yield from (_metric(number(found["a"]) + at * number(found["s"])) for at in range(min(count, _MOST) + 1))
        return
    for value in tokens.values:
        name = _bit_name(value.sort, value.first, value.unit, value.text)
        if name and bit_named(name, tables) is not None:
            yield name


def _metric(size_mm: float) -> str:
    return mm(round(size_mm, 3))


def _bit_name(sort: ValueSort, figure_: str, unit: str, text: str) -> str:
    if sort is ValueSort.NUMBERED:
        return f"#{figure_}"
    if sort is ValueSort.FRACTION or (sort is ValueSort.LENGTH and unit in ("in", "inch", '"')):
        return f"{figure_} in"
    if sort is ValueSort.LETTER:
        return text.removeprefix("letter ").upper()
    return mm(number(figure_)) if sort in (ValueSort.LENGTH, ValueSort.BARE, ValueSort.PAIR) else ""


def drivers(tokens: Tokens, base: str, tables: Tables) -> Read:
    """Drivers of a recess by their sizes."""
    whole = taken_apart(tokens.line, tables, counts=False)
    stars = [f"{base} T{size}" for size in _stars(whole, tables)]
    others = whole.of(ValueSort.CROSS, ValueSort.BARE, ValueSort.LENGTH)
    mark = "T" if base == _LOBES else ""
    plain = [f"{base} {mark}{figure(value.number)}" for value in others]
    names = stars or plain
    if not names:
        return Asked(tokens.line, "which sizes?", tuple(f"{base} {size}" for size in _USUAL.get(base, ())))
    return ReadNames(Sort.TOOL, tuple(names), _unread(tokens))


def _stars(tokens: Tokens, tables: Tables) -> list[str]:
    """The star drives that are named, those of a range among them."""
    found = _STARS.search(tokens.plain)
    if found is None:
        return [value.first for value in tokens.of(ValueSort.STAR)]
    made = sorted({int(row.drive_size[1:]) for row in tables.rows(HEADS) if row.drive == _HEXALOBULAR
                   and row.drive_size[1:].isdigit()})  # fmt: skip
    return [str(size) for size in made if int(found["a"]) <= size <= int(found["b"])]


def by_flats(tokens: Tokens, base: str, tables: Tables) -> Read:
    """Sockets, spanners and stop collars by their size, one or several, or a range in whole millimetres."""
    whole = taken_apart(tokens.line, tables, counts=False)
    found = _RANGE.search(whole.plain)
    said = whole.of(ValueSort.BARE, ValueSort.LENGTH)
    sizes = [value.mm for value in said if value.unit not in INCHES] or [value.mm for value in said]
    if found is not None and not found["s"] and number(found["b"]) - number(found["a"]) < _MOST:
        sizes = [float(size) for size in range(round(number(found["a"])), round(number(found["b"])) + 1)]
    if not sizes:
        return Asked(tokens.line, "which sizes?", (f"{base} 8 mm", f"{base} 10 mm"))
    return ReadNames(Sort.TOOL, tuple(f"{base} {mm(size)}" for size in sizes), _unread(tokens))


def by_thread(tokens: Tokens, base: str, tables: Tables, beside: tuple[str, ...] = ()) -> Read:
    """Mandrels, taps and insert drivers by their threads, with the tool they are `beside`."""
    found = _THREADS.search(tokens.plain)
    threads = [f"M{number(value.first):g}" for value in tokens.of(ValueSort.METRIC)]
    if found is not None:
        threads = [f"M{size:g}" for size in _MADE if number(found["a"]) <= size <= number(found["b"])]
    if not threads:
        return Asked(tokens.line, "for which threads?", (f"{base} M5", f"{base} M6"))
    return ReadNames(Sort.TOOL, (*beside, *(f"{base} {thread}" for thread in threads)), _unread(tokens))


def tool(tokens: Tokens, name: str) -> Read:
    """A tool by its name, a torque tool with its range."""
    torque = next(iter(tokens.of(ValueSort.TORQUE)), None)
    if torque is None:
        return ReadNames(Sort.TOOL, (name,), _unread(tokens))
    low, high = (torque.first, torque.second) if torque.second else ("", torque.first)
    reach = f"{low} to {high} N\u00b7m" if low else f"up to {high} N\u00b7m"
    return ReadNames(Sort.TOOL, (f"{name}, {reach}",), _unread(tokens))


def riveter(tokens: Tokens, base: str, tables: Tables) -> Read:
    """A setter for blind rivets, which is listed by the rivets it sets, those of a range among them."""
    sizes = [value.first for value in tokens.of(ValueSort.LENGTH, ValueSort.BARE)]
    found = _RANGE.search(tokens.plain)
    if found is not None:
        made = dict.fromkeys(row.size for row in tables.rows(BLIND_RIVETS))
        sizes = [size for size in made if number(found["a"]) <= number(size) <= number(found["b"])]
    if not sizes:
        return Asked(tokens.line, "for which rivets?", (f"{base} 3.2", f"{base} 4.0"))
    return ReadNames(Sort.TOOL, tuple(f"{base} {size}" for size in sizes), _unread(tokens))


def consumable(tokens: Tokens, name: str) -> Read:
    """A consumable by its name; another kind of it is asked for."""
    for word in tokens.named("unlike"):
        return Asked(tokens.line, f"no answer takes {word.names} ({word.text}): is it {name}?", (name,), tokens.count)
    return ReadNames(Sort.CONSUMABLE, (_counted(name, tokens, 0),), _unread(tokens))


def layered(tokens: Tokens, name: str) -> Read:
    """A consumable by its thickness or length: the first that is said."""
    sizes = [max(value.number, number(value.length)) for value in tokens.of(ValueSort.PAIR)]
    sizes += [value.mm for value in tokens.of(ValueSort.LENGTH)]
    if not sizes:
        return Asked(tokens.line, "how thick or long is one?", (f"{name} 3 mm", f"{name} 200 mm"), tokens.count)
    return ReadNames(Sort.CONSUMABLE, (_counted(f"{name} {mm(sizes[0])}", tokens, 1),), _unread(tokens))


def _counted(name: str, tokens: Tokens, sizes: int) -> str:
    """A consumable with how much of it the line says there is, after so many sizes that tell it from others."""
    lengths = [value.mm for value in tokens.of(ValueSort.LENGTH)[0 if tokens.of(ValueSort.PAIR) else sizes :]]
    loose = _LOOSE.search(tokens.line)
    if loose is not None:
        return written(name, Amount(number(loose["n"].replace(",", ".")) * _PER[loose["u"].casefold()][1],
                                    _PER[loose["u"].casefold()][0]))  # fmt: skip
    if lengths:
        return written(name, Amount(lengths[-1] * (tokens.count or 1), "mm"))
    bare = [int(value.first) for value in tokens.of(ValueSort.BARE) if value.first.isdigit()]
    count = tokens.count or (bare[-1] if bare and sizes else 0)
    return written(name, Amount(float(count), "piece")) if count else name


def _unread(tokens: Tokens) -> tuple[str, ...]:
    return tuple(f"not read: {word}" for word in tokens.unknown if not _LOOSE.fullmatch(word))


def known_name(plain: str, tables: Tables) -> ReadNames | None:
    """A tool or consumable that is written just as a list has it."""
    known = stock(tables)
    for sort, names in ((Sort.TOOL, known.tools), (Sort.CONSUMABLE, known.consumables)):
        for name in names:
            if plain == name.casefold() or plain.startswith(f"{name.casefold()} "):
                return ReadNames(sort, (f"{name}{plain[len(name) :]}",))
    return None
