"""Lines that are cable, heat-shrink, or a part that is fitted to cable: by what is said of size, stud and colour."""

import re
from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import AWG_SLEEVES, HEAT_SHRINK
from fasten.errors import FastenError
from fasten.job.list.parts import kind_name, part_text
from fasten.job.list.stock import stock
from fasten.job.shelf.amounts import Amount, written
from fasten.job.shelf.lines.asking import answered
from fasten.job.shelf.lines.tokens import Size, Tokens, number
from fasten.job.shelf.lines.words import Asked, Read, ReadNames
from fasten.model import end_kinds
from fasten.model.line import Part, Sort
from fasten.text.figures import figure
from fasten.wiring.crimps import colour_range, coloured
from fasten.wiring.parts import CABLE, SHRINK
from fasten.wiring.read import read_size

_N = r"[0-9]+(?:\.[0-9]+)?"
_GAUGE = re.compile(r"\b(?P<n>[0-9]{1,2}|[1-4]/0) ?(?:awg|ga|gauge)\b")
_AREA = re.compile(rf"\b(?P<n>{_N}) ?(?:mm2|mm²|sqmm)")
_STUD = re.compile(r"\bm ?(?P<n>[0-9]{1,2})\b")
_RATING = re.compile(rf"\b(?P<n>{_N}) ?a(?:mps?)?\b")
_TAB = re.compile(rf"\b(?P<n>{_N})(?: ?x ?(?P<t>{_N}))?")
_MM = re.compile(rf"\b(?P<n>{_N}) ?mm\b(?!²)")
_COLOUR = re.compile(r"\b(?P<n>red|black|blue|yellow|white|grey|green|orange|brown|purple|pink)\b")
_FAMILY = re.compile(r"\b(?P<n>large blade|blade|wafer|sf ?51|sf ?30|single bolt)\b")
_POST = re.compile(r"(?:post )?(?P<n>[+-]|positive|negative|plus|minus)(?= |$)")
_LONG = re.compile(rf"\b(?P<n>{_N}) ?(?:m|metres?|meters?)\b")
_MARKED = re.compile(r"\b(?P<n>[0-9]{2,3}) ?°? ?c\b")
_OUTSIDE = re.compile(rf"\b(?P<n>{_N}) ?mm (?:outside|od)\b")
_PAIR = re.compile(r"\b(?:speaker|loudspeaker|figure.?8|twin|two.?core|two conductors|pair)\b")
_CLAD = re.compile(r"\b(?:cca|copper.clad)\b")
_SHRINK = re.compile(rf"\b(?P<n>{_N}/{_N})")
_LINED = re.compile(r"\b(?:adhesive|glue)")
_POLES = {"positive": "+", "plus": "+", "negative": "-", "minus": "-"}
_TWO = 2


def cable(tokens: Tokens, tables: Tables) -> Read:
    """Cable by its size and colour, with how much of it there is and what was measured or read on it."""
    plain = tokens.plain
    size = next(_sizes(plain), "")
    colour = "two conductors" if _PAIR.search(plain) else _found(_COLOUR, plain)
    wants = [text for text, said in (("which size", size), ("which colour", colour)) if not said]
    if wants:
        near = (f"{CABLE}, {size or '8 AWG'}, {one}" for one in ((colour,) if colour else ("red", "black")))
        return Asked(tokens.line, f"{', and '.join(wants)}?", tuple(near), tokens.count)
    try:
        read_size(size.replace("²", "2"), tables, CABLE)
    except FastenError as error:
        return Asked(tokens.line, f"{error.what}: which size is it?", (), tokens.count)
    outside, marked = _found(_OUTSIDE, plain), _found(_MARKED, plain)
    said = (size, colour, f"{outside} mm outside" if outside else "", f"marked {marked} °C" if marked else "",
            "copper-clad" if _CLAD.search(plain) else "")  # fmt: skip
    name, long_m = ", ".join((CABLE, *filter(None, said))), _found(_LONG, plain)
    notes = () if marked else ("unmarked counts for 75 °C",)
    amount = Amount(number(long_m) * 1000, "mm") if long_m else None
    notes = (*notes, *(() if amount else ("no length said: it is there and not counted",)))
    return ReadNames(Sort.CONSUMABLE, (name if amount is None else written(name, amount),), notes)


def shrink(tokens: Tokens, tables: Tables) -> Read:
    """Heat-shrink by its inside before and after."""
    said, rows = _found(_SHRINK, tokens.plain), tables.rows(HEAT_SHRINK)
    row = next((row for row in rows if row.size == said), None)
    if row is None:
        near = tuple(f"{SHRINK}, {one.size} mm, {one.ratio}, adhesive" for one in rows[:_TWO])
        return Asked(tokens.line, "which size, before and after shrinking?", near, tokens.count)
    name, long_m = f"{SHRINK}, {row.size} mm, {row.ratio}, adhesive", _found(_LONG, tokens.plain)
    is_said = _LINED.search(tokens.plain) is not None
    full = written(name, Amount(number(long_m) * 1000, "mm")) if long_m else name
    return ReadNames(Sort.CONSUMABLE, (full,), () if is_said else ("with adhesive",))


def end_part(tokens: Tokens, kind: str, tables: Tables) -> Read:
    """A part that is fitted to cable: the one of its kind that has all that the line says of it."""
    known = [part for part in stock(tables).parts.values() if kind_name(part.kind) == kind_name(kind)]
    said = list(dict.fromkeys(_facets(tokens, kind, tables)))
    fitting = [part for part in known if all(_has(part, facet) for facet in said)]
    bare = [int(value.a) for value in tokens.of(Size.BARE) if value.a.isdigit() and int(value.a)]
    count = tokens.count or (bare[-1] if bare and kind != end_kinds.RECEPTACLE.line else None)
    wants = [] if len(fitting) == 1 else ["which one"] if fitting else ["none has all of that: which one"]
    return answered(tokens, wants, fitting or known, fitting[0] if len(fitting) == 1 else None, count)


def _facets(tokens: Tokens, kind: str, tables: Tables) -> Iterator[str]:
    """What a line says that tells a part from others of its kind, as the parts have it."""
    plain = tokens.plain
    for size in _sizes(plain):
        yield _as_listed(size, kind, tables)
    by_words = {
        end_kinds.TUBE_LUG.line: (_STUD,), end_kinds.RING_TERMINAL.line: (_STUD, _COLOUR),
        end_kinds.END_SLEEVE.line: (_COLOUR,), end_kinds.BUTT_SPLICE.line: (_COLOUR,),
        end_kinds.FUSE.line: (_RATING, _FAMILY), end_kinds.FUSE_HOLDER.line: (_FAMILY,),
        end_kinds.GROMMET.line: (_MM,), end_kinds.LINED_CLAMP.line: (), end_kinds.BATTERY_CLAMP.line: (_POST,),
    }  # fmt: skip
    for form in by_words.get(kind, ()):
        yield from (_spelled(form, found["n"]) for found in form.finditer(plain))
    if kind == end_kinds.RECEPTACLE.line:
        tab = next((one for one in _TAB.finditer(plain) if "." in one["n"]), None)
        yield from () if tab is None else (f"{figure(number(tab['n']))}x{tab['t'] or ''}",)
    if kind == end_kinds.LINED_CLAMP.line:
        ends = re.search(rf"(?P<a>{_N}) ?(?:-|to) ?(?P<b>{_N})", plain)
        yield from () if ends is None else (f"{ends['a']} to {ends['b']} mm",)


def _spelled(form: "re.Pattern[str]", text: str) -> str:
    if form is _STUD:
        return f"M{text}"
    if form is _RATING:
        return f"{figure(number(text))} A"
    if form is _MM:
        return f"{figure(number(text))} mm"
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
        return colour_range(coloured(found, tables))
    return found.name


def _has(part: Part, facet: str) -> bool:
    """Whether a part says this of itself, as words of its own; the family of a fuse is its whole name."""
    if _FAMILY.fullmatch(facet.casefold()):
        return part.name.casefold() == facet.casefold()
    text = part_text(part)
    end = "" if facet.endswith("x") else r"(?![0-9a-z²])"
    return re.search(rf"(?<![0-9a-z./]){re.escape(facet)}{end}", text, re.IGNORECASE) is not None


def _sizes(plain: str) -> Iterator[str]:
    yield from (f"{found['n']} AWG" for found in _GAUGE.finditer(plain))
    yield from (f"{figure(number(found['n']))} mm²" for found in _AREA.finditer(plain))


def _found(form: "re.Pattern[str]", plain: str) -> str:
    found = form.search(plain)
    return "" if found is None else found["n"] if "n" in found.groupdict() else found[0]
