"""Lines of a shelf that match nothing: each is named, with what it lacks or the nearest thing that an answer takes."""

from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.list.parts import part_text, same_part
from fasten.job.list.stock import NO_SIZE, Stock, stock
from fasten.job.shelf.amounts import split
from fasten.job.shelf.lines.add import near_text, questions
from fasten.job.shelf.lines.words import Asked
from fasten.job.shelf.reels import is_cable, reel_of
from fasten.job.shelf.view import bit_named, without_range
from fasten.job.words import Shelf
from fasten.methods.stocked import ANY_MM
from fasten.model.line import Part
from fasten.record import record, replace
from fasten.text.names import plain_name, spelled
from fasten.text.shown import shown, visible
from fasten.wiring.parts import CABLE

BIT, TOOL, CONSUMABLE, PART, LINE = "bit", "tool", "consumable", "part", "line"
SORTS = (BIT, TOOL, CONSUMABLE, PART)
# What a kind of part goes by besides, in the trade.
OTHER_NAMES = {
    "bolt": "screw", "machine screw": "screw", "tapping screw": "screw", "self tapping screw": "screw",
    "wood screw": "screw", "nut": "hexagon nut", "locknut": "prevailing torque nut", "insert": "screw in insert",
    "lock nut": "prevailing torque nut", "rivet": "blind rivet", "clip": "push in clip", "penny washer": "washer",
}  # fmt: skip
_LIKE = 0.6  # the share of letters from which two names are alike
_KIND, _SIZE, _NAME, _GRADE = 4.0, 3.0, 2.0, 1.0  # what it is worth that two parts have it in common
_EXAMPLE_MM = 20.0  # of a screw, whose length is sized to its joint
_EXAMPLES = {"thread": "M5", "nut": "8 mm", "hexagon": "8 mm", "hole": "over 8 mm", "bit": "5 mm", "drive": "T20",
             CABLE: "8 AWG"}  # fmt: skip
_LONGEST, _SHOWN = 40, 80  # characters of a name that is compared, and of a line that is repeated


@record
class Trouble:
    """A line of a shelf as it stands there, and what there is to say of it.

    `lacks` is set where something has to be added; `taken` where it counts, spelled otherwise than a list spells it.
    """

    sort: str
    line: str
    what: str
    fix: str = ""
    lacks: bool = False
    taken: bool = False

    @property
    def error(self) -> FastenError:
        """The same as a refusal, its `where` the sort of line."""
        return FastenError(f"'{visible(self.line, _SHOWN)}' {self.what}", where=self.sort, fix=self.fix)


def troubles(shelf: Shelf, tables: Tables) -> tuple[Trouble, ...]:
    """What there is to say of the lines of a shelf: bits, tools, consumables, then parts, as its file has them."""
    named = ((BIT, shelf.bits), (TOOL, shelf.tools), (CONSUMABLE, shelf.consumables))
    found = [name_trouble(sort, name, tables) for sort, names in named for name in names]
    found += [part_trouble(entry.part, tables) for entry in shelf.parts]
    found += [_asked(asked) for asked in questions(shelf, tables)]
    return tuple(trouble for trouble in found if trouble is not None)


def _asked(asked: Asked) -> Trouble:
    """A line that is kept and not counted until its question is answered."""
    near = " or ".join(near_text(one) for one in asked.nearest)
    what = f"is not counted yet: {asked.question}"
    return Trouble(LINE, asked.line, what, f"nearest: {near}" if near else "write it anew", lacks=True)


def name_trouble(sort: str, name: str, tables: Tables) -> Trouble | None:
    """What there is to say of a bit, tool or consumable; None where it is one that an answer asks for."""
    return {BIT: _bit, TOOL: _tool, CONSUMABLE: _consumable}[sort](name, tables)


def _bit(name: str, tables: Tables) -> Trouble | None:
    if bit_named(name, tables) is not None:
        return None
    return Trouble(BIT, name, "is no size of a bit", "write such as 5 mm, 1/4 in, #7 or F")


def _tool(name: str, tables: Tables) -> Trouble | None:
    known, plain = stock(tables).tools, plain_name(without_range(name))
    for base in sorted(known, key=len, reverse=True):
        rest, is_sized = _beside(plain, plain_name(base)), known[base] != NO_SIZE
        if rest == "" and is_sized:
            what, fix = "does not say its size, so it matches nothing", f"write such as {base} {_EXAMPLES[known[base]]}"
            return Trouble(TOOL, name, what, fix, lacks=True)
        if rest is not None and is_sized == bool(rest):
            return _as_spelled(TOOL, name, base)
    return _unknown(TOOL, name, known)


def _consumable(text: str, tables: Tables) -> Trouble | None:
    name, _ = split(text)
    if is_cable(name):
        return _cable(text, tables)
    known, plain = stock(tables).consumables, plain_name(name)
    for base, more in known.items():
        start = plain_name(base)
        detail = plain.removeprefix(start).strip(" ,") if more else ""
        if plain in (start, f"{start},", f"{start} {detail}", f"{start}, {detail}"):
            return _as_spelled(CONSUMABLE, name, base)
    return _unknown(CONSUMABLE, name, known)


def _cable(text: str, tables: Tables) -> Trouble | None:
    try:
        reel_of(text, tables)
    except FastenError as error:
        return Trouble(CONSUMABLE, text, f"is no cable that can be counted: {error.what}", error.fix, lacks=True)
    return None


def _beside(plain: str, base: str) -> str | None:
    """What stands before or after a name; None where the text does not hold it at one of its ends."""
    if plain == base or plain.startswith((f"{base} ", f"{base}, ")):
        return plain.removeprefix(base).strip(" ,")
    return plain.removesuffix(base).strip() if plain.endswith(f" {base}") else None


def _as_spelled(sort: str, name: str, base: str) -> Trouble | None:
    """That a name is taken for another, where a hyphen makes the difference."""
    return None if spelled(base) in spelled(name) else Trouble(sort, name, f"is taken for {base}", taken=True)


def _unknown(sort: str, name: str, known: Iterable[str]) -> Trouble:
    bases, plain = {plain_name(base): base for base in known}, plain_name(name[:_LONGEST])
    close = get_close_matches(plain, bases, n=1, cutoff=_LIKE) or [base for base in bases if plain in base]
    fix = f"did you mean {bases[close[0]]}?" if close else "no list asks for anything like it"
    return Trouble(sort, name, "matches nothing", fix)


# -- parts ------------------------------------------------------------------------------------------------------------


def part_trouble(part: Part, tables: Tables) -> Trouble | None:
    """What there is to say of a part; None where an answer may take it."""
    known = stock(tables)
    if known.holds(part):
        return None
    line, nearest = part_text(part), _nearest(part, known)
    if nearest is None:
        return Trouble(
            PART, line, f"matches nothing: no part is a {shown(part.kind)}", "write such as screw or rivet nut"
        )
    lacking = _lacking(part, nearest)
    if lacking and plain_name(part.kind) == plain_name(nearest.kind):
        what = f"does not say its {listed(lacking)}, so it matches nothing"
        return Trouble(PART, line, what, f"write such as {part_text(nearest)}", lacks=True)
    return Trouble(PART, line, "matches nothing", f"the nearest is {part_text(nearest)}")


def _lacking(part: Part, nearest: Part) -> list[str]:
    """What the nearest part says of itself and this one does not."""
    pairs = {
        "size": (part.size, nearest.size), "standard or series": (part.name, nearest.name),
        "grade": (part.grade, nearest.grade), "length": (part.length_mm, nearest.length_mm),
    }  # fmt: skip
    return [word for word, (said, wanted) in pairs.items() if said in ("", None) and wanted not in ("", None)]


def listed(words: list[str]) -> str:
    """The words with commas between, the last after an and."""
    return " and ".join([", ".join(words[:-1])] * (len(words) > 1) + words[-1:])


def _nearest(part: Part, known: Stock) -> Part | None:
    """The part of the stock that has most in common with another; None where neither kind nor series is like any."""
    plain = same_part(part)
    kinds = {kind: _alike(plain.kind, kind) for kind in {entry.kind for entry in known.parts}}
    best = max(known.parts, key=lambda entry: (_in_common(plain, entry, kinds), *_closeness(plain, entry)))
    if not (kinds[best.kind] or plain.name == best.name):
        return None
    found = known.parts[best]
    return found if found.length_mm != ANY_MM else replace(found, length_mm=part.length_mm or _EXAMPLE_MM)


def _in_common(plain: Part, entry: Part, kinds: dict[str, float]) -> float:
    worth = ((_SIZE, plain.size, entry.size), (_NAME, plain.name, entry.name), (_GRADE, plain.grade, entry.grade))
    return _KIND * kinds[entry.kind] + sum(points for points, said, has in worth if said and said == has)


def _closeness(plain: Part, entry: Part) -> tuple[float, float]:
    """How near the length is, and how alike the series is, where all else is the same."""
    said_mm, has_mm = plain.length_mm, entry.length_mm
    is_known = said_mm is not None and has_mm not in (None, ANY_MM)
    off_mm = 0.0 if not is_known or said_mm is None or has_mm is None else max(said_mm, has_mm) - min(said_mm, has_mm)
    return -off_mm, SequenceMatcher(None, plain.name, entry.name).ratio()


def _alike(kind: str, other: str) -> float:
    """1 where a kind is the other or goes by its name, else the share of letters in common, from which it counts."""
    if other in (kind, OTHER_NAMES.get(kind)):
        return 1.0
    ratio = SequenceMatcher(None, kind, other).ratio()
    return ratio if ratio >= _LIKE else 0.0
