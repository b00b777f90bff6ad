"""Lines that are cable, heat-shrink, or a part that is fitted to cable: by what is said of size, stud and colour."""

import re
from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import AWG_SLEEVES, HEAT_SHRINK
from fasten.catalog.wiring_work import CONVOLUTED_TUBES
from fasten.errors import FastenError
from fasten.job.list.parts import kind_name, part_text
from fasten.job.list.stock import stock
from fasten.job.shelf.amounts import Amount, written
from fasten.job.shelf.lines.asking import answered
from fasten.job.shelf.lines.tokens import Tokens, taken_apart
from fasten.job.shelf.lines.words import Asked, Read, ReadNames
from fasten.model import end_kinds
from fasten.model.line import Part, Sort
from fasten.text.figures import figure
from fasten.text.values import Value, ValueSort, is_nominal, number
from fasten.wiring.crimps import SAME, colour_range, coloured
from fasten.wiring.parts import CABLE, SHRINK
from fasten.wiring.read import read_size
from fasten.wiring.ways import TUBE
from fasten.wiring.words import Material

_N = r"[0-9]+(?:\.[0-9]+)?"
_COLOUR = re.compile(r"\b(?P<n>red|black|blue|yellow|white|grey|green|orange|brown|purple|pink)\b")
_FAMILY = re.compile(r"\b(?P<n>large blade|blade|wafer|sf ?51|sf ?30|single bolt)\b")
_POST = re.compile(r"(?:post )?(?P<n>[+-]|positive|negative|plus|minus)(?= |$)")
_MARKED = re.compile(r"\b(?P<n>[0-9]{2,3}) ?°? ?c\b")
_OUTSIDE = re.compile(rf"\b(?P<n>{_N}) ?mm (?:outside|od)\b")
_PAIR = re.compile(r"\b(?:speaker|loudspeaker|figure.?8|twin|two.?core|two conductors|pair)\b")
_OF_TWO = re.compile(r"\b2 ?[x×] ?(?=[0-9.]+ ?(?:awg|ga|gauge|mm))")  # two conductors of one size
_COPPER = re.compile(r"\bcopper\b(?!.clad)|\bofc\b")
_CLAD = re.compile(r"\b(?:cca|copper.clad)\b")
_SHRINK = re.compile(rf"\b(?P<n>{_N}/{_N})")
_LINED = re.compile(r"\b(?:adhesive|glue)")
_MARK = re.compile(rf"(?<![\w.#/-])(?P<a>{_N})-(?P<m>[0-9]{{1,2}})(?![\w.-])")  # of a lug: its cable and stud, 35-8
_POLES = {"positive": "+", "plus": "+", "negative": "-", "minus": "-"}
_TWO = 2
_NEAR_SHARE, _SAME_MM = 0.03, 0.05
_SIZES = (ValueSort.LENGTH, ValueSort.FRACTION)
_LUGS = (end_kinds.TUBE_LUG.line, end_kinds.RING_TERMINAL.line)
# What tells parts of a kind apart: sizes, and words.
_SORTS = {
    end_kinds.TUBE_LUG.line: (ValueSort.METRIC, ValueSort.LENGTH),
    end_kinds.RING_TERMINAL.line: (ValueSort.METRIC, ValueSort.LENGTH),
    end_kinds.FUSE.line: (ValueSort.AMPS,), end_kinds.GROMMET.line: (ValueSort.LENGTH, ValueSort.FRACTION),
}  # fmt: skip
_FORMS = {
    end_kinds.RING_TERMINAL.line: (_COLOUR,), end_kinds.END_SLEEVE.line: (_COLOUR,),
    end_kinds.BUTT_SPLICE.line: (_COLOUR,), end_kinds.FUSE.line: (_FAMILY,), end_kinds.FUSE_HOLDER.line: (_FAMILY,),
    end_kinds.BATTERY_CLAMP.line: (_POST,),
}  # fmt: skip


def cable(tokens: Tokens, tables: Tables) -> Read:
    """Cable by its size and colour, with how much of it there is and what was measured or read on it."""
    plain = tokens.plain
    if (of_two := _OF_TWO.search(plain)) is not None and _PAIR.search(plain):
        return cable(taken_apart(f"{plain[: of_two.start()]}{plain[of_two.end() :]}", tables), tables)
    size = next(_sizes(tokens), "")
    colour = "two conductors" if _PAIR.search(plain) else _found(_COLOUR, plain)
    wants = [text for text, said in (("which size", size), ("which colour", colour)) if not said]
    colours = list(dict.fromkeys(found["n"] for found in _COLOUR.finditer(plain)))
    if size and len(colours) > 1 and not _PAIR.search(plain):
        near = (f"{CABLE}, {size}, {one}" for one in colours[:_TWO])
        return Asked(tokens.line, f"{' and '.join(colours)}: which of them, each on a line of its own?", tuple(near))
    if wants:
        near = (f"{CABLE}, {size or '8 AWG'}, {one}" for one in ((colour,) if colour else ("red", "black")))
        return Asked(tokens.line, f"{', and '.join(wants)}?", tuple(near), tokens.count)
    try:
        read_size(size.replace("²", "2"), tables, CABLE)
    except FastenError as error:
        return Asked(tokens.line, f"{error.what}: which size is it?", (), tokens.count)
    outside, marked = _found(_OUTSIDE, plain), _found(_MARKED, plain)
    said = (size, colour, f"{outside} mm outside" if outside else "", f"marked {marked} °C" if marked else "",
            _metal(plain))  # fmt: skip
    name = ", ".join((CABLE, *filter(None, said)))
    notes = () if marked else ("unmarked counts for 75 °C",)
    notes = (*notes, *_unsaid_mm(tokens))
    notes = (*notes, *(() if _metal(plain) else ("copper or copper-clad is not said: to be seen before a run of it",)))
    amount = _amount(tokens)
    notes = (*notes, *(() if amount else ("no length said: it is there and not counted",)))
    return ReadNames(Sort.CONSUMABLE, (name if amount is None else written(name, amount),), notes)


def _unsaid_mm(tokens: Tokens) -> Iterator[str]:
    """Sizes of a line of which it does not say what they are of."""
    of_it = _OUTSIDE.sub("", tokens.plain)
    for value in tokens.of(ValueSort.LENGTH):
        if not value.is_metres and value.text in of_it:
            yield f"not read: {value.text}, write {figure(value.mm)} mm outside if it is that"


def _metal(plain: str) -> str:
    """What cable is of; empty where a line does not say it."""
    if _CLAD.search(plain):
        return Material.CLAD.value
    return Material.COPPER.value if _COPPER.search(plain) else ""


def shrink(tokens: Tokens, tables: Tables) -> Read:
    """Heat-shrink by its inside before and after."""
    said, rows = _found(_SHRINK, tokens.plain), tables.rows(HEAT_SHRINK)
    row = next((row for row in rows if row.size == said), None)
    if row is None:
        about = next((value.mm for value in tokens.of(ValueSort.LENGTH) if not value.is_metres), 0.0)
        by_size = sorted(rows, key=lambda one: _off(one.supplied_mm, about)) if about else rows
        near = tuple(f"{SHRINK}, {one.size} mm, {one.ratio}, adhesive" for one in by_size[:_TWO])
        return Asked(tokens.line, "which size, before and after shrinking?", near, tokens.count)
    name, amount = f"{SHRINK}, {row.size} mm, {row.ratio}, adhesive", _amount(tokens)
    is_said = _LINED.search(tokens.plain) is not None
    full = name if amount is None else written(name, amount)
    return ReadNames(Sort.CONSUMABLE, (full,), () if is_said else ("with adhesive",))


def tube(tokens: Tokens, tables: Tables) -> Read:
    """Convoluted tube by its inside: what is called 13 mm is half an inch, which is what is sold."""
    said = next((value.mm for value in tokens.of(*_SIZES) if not value.is_metres), 0.0)
    rows = sorted(tables.rows(CONVOLUTED_TUBES), key=lambda row: _off(row.inside_mm, said))
    names = [f"{TUBE}, {figure(row.inside_mm)} mm inside" for row in rows[:_TWO]]
    if not said or _off(rows[0].inside_mm, said) > _NEAR_SHARE * said:
        return Asked(tokens.line, "which size inside?", tuple(names), tokens.count)
    amount, is_exact = _amount(tokens), _off(rows[0].inside_mm, said) < _SAME_MM
    name = names[0] if amount is None else written(names[0], amount)
    return ReadNames(Sort.CONSUMABLE, (name,), () if is_exact else (f"{figure(rows[0].inside_mm)} mm inside",))


def _off(size: float, said: float) -> float:
    return max(size - said, said - size)


def end_part(tokens: Tokens, kind: str, tables: Tables) -> Read:
    """A part that is fitted to cable: the one of its kind that has all that the line says of it."""
    known = [part for part in stock(tables).parts.values() if kind_name(part.kind) == kind_name(kind)]
    said = list(dict.fromkeys(_facets(tokens, kind, tables)))
    fitting = [part for part in known if all(_has(part, facet) for facet in said)]
    if kind == end_kinds.LINED_CLAMP.line and not said:
        fitting = [part for part in known if _holds(part, tokens)] or known
    bare = [int(value.first) for value in tokens.of(ValueSort.BARE) if value.first.isdigit() and int(value.first)]
    count = tokens.count or (bare[-1] if bare and kind != end_kinds.RECEPTACLE.line else None)
    wants = [] if len(fitting) == 1 else ["which one"] if fitting else ["none has all of that: which one"]
    others = [part for part in stock(tables).parts.values() if part.kind in _LUGS]
    near = fitting or [part for part in others if said and all(_has(part, one) for one in said)]
    return answered(tokens, wants, near or known, fitting[0] if len(fitting) == 1 else None, count)


def _holds(clamp: Part, tokens: Tokens) -> bool:
    """Whether a clamp holds a bundle as wide as the line says."""
    least, most = (number(text) for text in re.findall(_N, clamp.size))
    return any(least <= value.mm <= most for value in tokens.of(ValueSort.LENGTH))


def _facets(tokens: Tokens, kind: str, tables: Tables) -> Iterator[str]:
    """What a line says that tells a part from others of its kind, as the parts have it."""
    for size in _sizes(tokens):
        yield _as_listed(size, kind, tables)
    mark = _MARK.search(tokens.plain) if kind == end_kinds.TUBE_LUG.line else None
    if mark is not None:
        yield from (f"{figure(number(mark['a']))} mm²", f"M{mark['m']}")
    for sort in _SORTS.get(kind, ()):
        yield from (_spelled(value, kind) for value in tokens.of(sort))
    for form in _FORMS.get(kind, ()):
        yield from (_named(form, found["n"]) for found in form.finditer(tokens.plain))
    if kind == end_kinds.RECEPTACLE.line:
        sizes = tokens.of(ValueSort.PAIR, ValueSort.LENGTH, ValueSort.BARE)
        tab = next((value for value in sizes if "." in value.first), None)
        yield from () if tab is None else (f"{figure(tab.number)}x{tab.length}",)
    if kind == end_kinds.LINED_CLAMP.line:
        ends = re.search(rf"(?P<a>{_N}) ?(?:-|to) ?(?P<b>{_N})", tokens.plain)
        yield from () if ends is None else (f"{ends['a']} to {ends['b']} mm",)


def _spelled(value: Value, kind: str) -> str:
    """A size as the list of parts has it: the millimetres of a lug are its stud's, inches what is sold for them."""
    plain = figure(value.number)
    units = {ValueSort.METRIC: f"M{plain}", ValueSort.AMPS: f"{plain} A"}
    whole = float(round(value.mm))
    size = figure(whole if is_nominal(value.mm, whole) else value.mm)
    return units.get(value.sort) or (f"M{size}" if kind in _LUGS else f"{size} mm")


def _named(form: "re.Pattern[str]", text: str) -> str:
    """A word as the list of parts has it."""
    if form is _FAMILY:
        return text.replace(" ", "").upper() if text.startswith("sf") else text
    return f"post {_POLES.get(text, text)}" if form is _POST else text


def _as_listed(size: str, kind: str, tables: Tables) -> str:
    """A size of cable as the parts of a kind have it: sleeves by their area, insulated terminals by their range."""
    try:
        found = read_size(size.replace("²", "2"), tables, CABLE)
    except FastenError:
        return size
    if kind == end_kinds.END_SLEEVE.line:
        row = tables.find(AWG_SLEEVES, found.name)
        return found.name if row is None else f"{figure(row.sleeve_mm2)} mm²"
    if kind in (end_kinds.RING_TERMINAL.line, end_kinds.BUTT_SPLICE.line):
        terminal = coloured(found, tables)
        return colour_range(terminal) if found.area_mm2 <= terminal.most_mm2 * SAME else size
    return found.name


def _has(part: Part, facet: str) -> bool:
    """Whether a part says this of itself, as words of its own; the family of a fuse is its whole name."""
    if _FAMILY.fullmatch(facet.casefold()):
        return part.name.casefold() == facet.casefold()
    text = part_text(part)
    end = "" if facet.endswith("x") else r"(?![0-9a-z²])"
    return re.search(rf"(?<![0-9a-z./]){re.escape(facet)}{end}", text, re.IGNORECASE) is not None


def _sizes(tokens: Tokens) -> Iterator[str]:
    yield from (f"{value.first} AWG" for value in tokens.of(ValueSort.AWG, ValueSort.GAUGE))
    yield from (f"{figure(value.number)} mm²" for value in tokens.of(ValueSort.AREA))


def _amount(tokens: Tokens) -> Amount | None:
    """How much of a reel there is."""
    long = next((value for value in tokens.of(ValueSort.LENGTH) if value.is_metres), None)
    return None if long is None else Amount(long.mm, "mm")


def _found(form: "re.Pattern[str]", plain: str) -> str:
    found = form.search(plain)
    return "" if found is None else found["n"] if "n" in found.groupdict() else found[0]
