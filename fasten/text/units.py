"""Sizes as people write them: text to one canonical float, and a float back to text.

The grammar, after spaces of every width, primes, dashes and ½-like characters are folded to plain ones:

    size     = [sign] number ["-"] unit | fraction            a bare fraction in drill-bit form is inches: 9/64
    number   = whole (" " | "-") fraction | fraction | decimal
    fraction = digits "/" digits                              1/4; after a whole number it must be below one
    decimal  = [digits] ("." | ",") digits | digits           0.8  .8  0,8; but 1,000 is refused: thousand or one?
    unit     = a spelling in the table below | one plain word that pint knows
    gauge    = [metal] digits ("ga" | "gauge" | "gage") [metal]

Only ASCII digits count; there are no exponents and no arithmetic. Case is ignored for spellings in the table, so
`5 nm` is a torque: no fastener is sized in nanometres. Numbers stay exact ratios until one rounded division at the end.

The user's text never reaches pint, whose own parser takes `0,8 mm` for zero and evaluates expressions. It is loaded
only for a plain word outside the table, and given that word and an already parsed number.
"""

import re
from collections.abc import Callable
from contextlib import suppress
from enum import Enum
from functools import lru_cache
from math import gcd, isclose, isfinite

from fasten.errors import FastenError, SizeError
from fasten.record import record
from fasten.text.letters import JOINERS

# Exact, from the international yard and pound of 1959 and standard gravity, 9.80665 m/s² (memory).
MM_PER_INCH = 25.4
newtons_per_lbf = 4.4482216152605

_LONGEST_TEXT, _SHOWN = 64, 40  # characters read, and repeated in a message


class Dimension(Enum):
    """What a size measures: canonical unit, words and an example for messages, bounds of a sane size in that unit."""

    unit: str
    words: str
    example: str
    least: float
    most: float

    LENGTH = ("length", "mm", "a length", "0.8 mm", 0.001, 20_000.0)
    MASS = ("mass", "kg", "a mass", "6 kg", 0.0001, 2_000.0)
    TORQUE = ("torque", "N·m", "a torque", "2.5 N·m", 0.001, 1_000.0)
    FORCE = ("force", "N", "a force", "20 N", 0.001, 1_000_000.0)
    AREA = ("area", "mm²", "an area", "50 mm²", 0.001, 1_000_000.0)
    CURRENT = ("current", "A", "a current", "200 A", 0.001, 5_000.0)
    TEMPERATURE = ("temperature", "°C", "a temperature", "60 °C", -100.0, 1_000.0)

    def __new__(cls, value: str, unit: str, words: str, example: str, *bounds: float) -> "Dimension":
        member = object.__new__(cls)
        member._value_ = value
        member.unit, member.words, member.example = unit, words, example
        member.least, member.most = bounds
        return member

    @property
    def signed(self) -> bool:
        """Whether zero and below are ordinary sizes, as they are for a temperature in °C."""
        return self.least < 0


@record
class Quantity:
    """A size that was read: `value` in its dimension's canonical unit, `unit` as the person wrote it."""

    value: float
    dimension: Dimension
    unit: str


@record
class Gauge:
    """A sheet gauge that was read; its thickness depends on the metal and comes from tables elsewhere."""

    number: int
    metal: str | None


@record
class Unit:
    """A row of the factor table: canonical = size × factor + offset, both exact decimals or fractions."""

    name: str
    dimension: Dimension
    factor: str
    spellings: str
    offset: str = "0"


def _product(first: str, second: str) -> str:
    """Spellings of a product of two units in either order, with and without the dot."""
    return " ".join(f"{a}·{b} {a}{b} {b}·{a} {b}{a}" for a in first.split() for b in second.split())


# Spellings are lower case, "·" stands for any way of joining two words, "²" for any way of writing a square.
# Factors: international yard and pound (1959) and standard gravity (1901), exact by definition.
UNITS: tuple[Unit, ...] = (
    Unit("mm", Dimension.LENGTH, "1", "mm millimetre millimetres millimeter millimeters"),
    Unit("cm", Dimension.LENGTH, "10", "cm centimetre centimetres centimeter centimeters"),
    Unit("m", Dimension.LENGTH, "1000", "m metre metres meter meters"),
    Unit("in", Dimension.LENGTH, "25.4", "in inch inches ins \" ''"),
    Unit("ft", Dimension.LENGTH, "304.8", "ft foot feet '"),
    Unit("thou", Dimension.LENGTH, "0.0254", "thou thous mil mils"),
    Unit("µm", Dimension.LENGTH, "0.001", "µm um micron microns"),
    Unit("kg", Dimension.MASS, "1", "kg kgs kilo kilos kilogram kilograms"),
    Unit("g", Dimension.MASS, "0.001", "g gram grams"),
    Unit("lb", Dimension.MASS, "0.45359237", "lb lbs pound pounds"),
    Unit("oz", Dimension.MASS, "0.028349523125", "oz ounce ounces"),
    Unit("N·m", Dimension.TORQUE, "1", "n·m nm newton·metre newton·metres newton·meter newton·meters"),
    Unit("cN·m", Dimension.TORQUE, "0.01", "cn·m cnm"),
    Unit("in·lbf", Dimension.TORQUE, "0.1129848290276167", _product("in inch", "lb lbs lbf pound pounds")),
    Unit("ft·lbf", Dimension.TORQUE, "1.3558179483314004", _product("ft foot", "lb lbs lbf pound pounds")),
    Unit("in·ozf", Dimension.TORQUE, "0.00706155181422604375", _product("in inch", "oz ozf ounce ounces")),
    Unit("kgf·cm", Dimension.TORQUE, "0.0980665", _product("kg kgf", "cm")),
    Unit("kgf·m", Dimension.TORQUE, "9.80665", _product("kgf", "m")),
    Unit("N", Dimension.FORCE, "1", "n newton newtons"),
    Unit("kN", Dimension.FORCE, "1000", "kn kilonewton kilonewtons"),
    Unit("lbf", Dimension.FORCE, "4.4482216152605", "lbf pound·force pounds·force"),
    Unit("kgf", Dimension.FORCE, "9.80665", "kgf"),
    Unit("mm²", Dimension.AREA, "1", "mm² sq·mm sqmm mm·sq"),
    Unit("cm²", Dimension.AREA, "100", "cm² sq·cm sqcm"),
    Unit("in²", Dimension.AREA, "645.16", "in² inch² sq·in sqin sq·inch sq·inches"),
    Unit("A", Dimension.CURRENT, "1", "a amp amps ampere amperes"),
    Unit("°C", Dimension.TEMPERATURE, "1", "°c °·c c degc deg·c degrees·c celsius"),
    Unit("°F", Dimension.TEMPERATURE, "5/9", "°f °·f f degf deg·f degrees·f fahrenheit", offset="-160/9"),
    Unit("K", Dimension.TEMPERATURE, "1", "k kelvin", offset="-273.15"),
)
_BY_SPELLING = {spelling: unit for unit in UNITS for spelling in unit.spellings.split()}

_METALS = dict.fromkeys(("steel", "mild steel"), "steel")
_METALS |= dict.fromkeys(("stainless", "stainless steel", "ss"), "stainless_steel")
_METALS |= dict.fromkeys(("aluminium", "aluminum", "alu", "al"), "aluminium")
_METALS |= {f"{z}{steel}": "galvanised_steel" for z in ("galvanised", "galvanized", "galv") for steel in ("", " steel")}

_FOLD = str.maketrans(
    dict.fromkeys("\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B))), " ")
    | dict.fromkeys("−‐‑–", "-")
    | dict.fromkeys("″”“", '"')
    | dict.fromkeys("′’", "'")
    | dict.fromkeys("*⋅∙•×", "·")
    | dict.fromkeys("º˚", "°")
    | dict.fromkeys(JOINERS, "")
    | {"⁄": "/", "μ": "µ", "℃": "°C", "℉": "°F"}
    | {"½": " 1/2 ", "¼": " 1/4 ", "¾": " 3/4 ", "⅛": " 1/8 ", "⅜": " 3/8 ", "⅝": " 5/8 ", "⅞": " 7/8 "}
)
# ½ is folded with a space behind, which keeps ½5 from running together into 1/25.
_FOLD_SPACES = {code: plain for code, plain in _FOLD.items() if plain == " "}

# Patterns are compiled on first use: compiling them here would slow every start of the program.
_SIZE = (
    r"(?P<sign>[+-])?"
    r"(?:(?:(?P<whole>[0-9]+)(?:-? +|-))?(?P<over>[0-9]+)/(?P<under>[0-9]+)|(?P<decimal>[0-9]*[.,]?[0-9]+))"
    r"(?: ?-(?=[A-Za-z])| *)(?P<unit>(?:[^0-9., /].*)?)"
)
_THOUSANDS = r"[+-]?[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9])"
_EXPONENT = r"[+-]?[0-9.,]+[eE][+-]?[0-9]+"
_GAUGE = r"(?P<before>[a-z ,]*)(?<![a-z])(?P<number>[0-9]{1,2})[ -]?(?:gauge|gage|ga)\b\.?(?P<after>[a-z ,]*)"
_JOIN = r" *\.? *[-·] *|\. *| +"
_PLAIN_WORD = r"[A-Za-zµ]{2,24}"


class _Text:
    """The text being read and what it is wanted for, so that every refusal can name both."""

    def __init__(self, text: str, wanted: Dimension | None, where: str) -> None:
        self.text, self.wanted, self.where = text, wanted, where

    def refuse(self, why: str, fix: str = "") -> FastenError:
        what = f"{_shown(self.text)} {why}"
        if fix:
            return FastenError(what, where=self.where, fix=fix)
        return SizeError(what, where=self.where, fix=f"write {(self.wanted or Dimension.LENGTH).example}")


def read(text: str, dimension: Dimension, what: str, *, allow_zero: bool = False) -> float:
    """Read a size of one dimension, written in the field `what`; `allow_zero` where none at all is a sensible answer.

    Returns: the size in the dimension's canonical unit.
    Raises: FastenError if the text is not such a size; it says how to write one."""
    typed = _Text(text, dimension, what)
    found = _parse(typed)
    if isinstance(found, Gauge):
        raise _gauge_refused(typed, found, dimension)
    if found.dimension is not dimension:
        raise typed.refuse(f"is {found.dimension.words}, wanted {dimension.words}")
    return _bounded(typed, found, allow_zero).value


def read_any(text: str) -> Quantity | Gauge:
    """Read a size of any dimension, or a sheet gauge; FastenError for any other text, saying how to write one."""
    typed = _Text(text, None, "")
    found = _parse(typed)
    return found if isinstance(found, Gauge) else _bounded(typed, found, allow_zero=False)


def number(value: float, digits: int) -> str:
    """Plain text of a number with at most `digits` decimals: no exponent, no trailing zeros, never -0."""
    if not isfinite(value):
        raise ValueError(f"value {value} cannot be written: it must be finite")
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def write(value: float, dimension: Dimension, digits: int = 4) -> str:
    """The size with its canonical unit, in at most `digits` decimals; more only where a tiny size would become 0."""
    text, places = number(value, digits), digits
    while text == "0" and value != 0:
        places += 1
        text = number(value, places)
    return f"{text} {dimension.unit}"


def write_inches(mm: float) -> str:
    """A length [mm] as decimal inches to the ten-thousandth: "0.0299 in"."""
    return f"{number(mm / MM_PER_INCH, 4)} in"


def fraction_text(mm: float) -> str | None:
    """A length [mm] as bits are marked, "9/64 in" or "1 1/2 in"; nothing where it is no whole number of 64ths."""
    count = round(mm / MM_PER_INCH * 64) if isfinite(mm) else 0
    if count < 1 or not isclose(count * MM_PER_INCH / 64, mm, rel_tol=1e-9):
        return None
    whole, part = divmod(count, 64)
    shared = gcd(part, 64)
    return " ".join([str(whole)] * (whole > 0) + [f"{part // shared}/{64 // shared}"] * (part > 0) + ["in"])


def in_to_mm(length_in: float) -> float:
    """A length [in] in millimetres."""
    return length_in * MM_PER_INCH


def nm_to_inlbf(nm: float) -> float:
    """A torque in inch-pounds.

    nm: torque [N·m]
    Returns: the same torque [in·lbf].
    Source: exact, from the inch and pound of 1959 and standard gravity (memory).
    """
    return nm * 1000.0 / (MM_PER_INCH * newtons_per_lbf)


def inlbf_to_nm(inlbf: float) -> float:
    """A torque in newton metres.

    inlbf: torque [in·lbf]
    Returns: the same torque [N·m].
    Source: exact, from the inch and pound of 1959 and standard gravity (memory).
    """
    return inlbf * MM_PER_INCH * newtons_per_lbf / 1000.0


def _shown(text: str) -> str:
    """The text on one short line, with invisible characters written as escapes."""
    start = text[:_SHOWN].translate(_FOLD_SPACES)
    visible = "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in start).strip()
    return visible if len(visible) <= _SHOWN >= len(text) else visible[:_SHOWN] + "…"


def _parse(typed: _Text) -> Quantity | Gauge:
    text = _plain(typed)
    if gauge := re.fullmatch(_GAUGE, text.lower()):
        return Gauge(int(gauge["number"]), _metal(typed, f"{gauge['before']} {gauge['after']}"))
    if re.match(_THOUSANDS, text):
        raise _thousands_refused(typed, text)
    if re.match(_EXPONENT, text):
        raise typed.refuse("has an exponent, which is not read")
    if not (size := re.fullmatch(_SIZE, text)):
        raise typed.refuse("is not a number and one unit")
    return _measured(typed, *_ratio(typed, size), size["unit"] or _unit_of_bare(typed, text, size))


def _plain(typed: _Text) -> str:
    """The text with look-alikes folded, once it is known to be short and free of hidden characters."""
    if len(typed.text) > _LONGEST_TEXT:
        raise typed.refuse(f"is {len(typed.text)} characters long, and a size has at most {_LONGEST_TEXT}")
    if not (text := typed.text.translate(_FOLD).strip(" ")):
        raise FastenError("nothing is written", where=typed.where, fix=typed.refuse("").fix)
    if not text.isprintable():
        raise typed.refuse("holds a control or hidden character")
    return text


def _metal(typed: _Text, words: str) -> str | None:
    name = " ".join(w for w in words.replace(",", " ").split() if w != "sheet")
    if name and name not in _METALS:
        raise typed.refuse(f"names no known sheet metal: {name}", "write steel, galvanised, stainless or aluminium")
    return _METALS.get(name)


def _gauge_refused(typed: _Text, gauge: Gauge, dimension: Dimension) -> FastenError:
    if dimension is not Dimension.LENGTH:
        return typed.refuse(f"is a sheet gauge, wanted {dimension.words}")
    fix = f"write {gauge.number} ga steel where a sheet is asked for, or a length such as {dimension.example}"
    return typed.refuse("is a gauge, which needs its metal and is a sheet thickness", fix)


def _thousands_refused(typed: _Text, text: str) -> FastenError:
    whole = _shown(text.replace(",", ""))
    single = text.count(",") == 1 and "." not in text
    either = f"{whole} or {_shown(text.replace(',', '.'))}" if single else whole
    return typed.refuse("has a comma before three digits, which may mean a thousand or a decimal", f"write {either}")


def _ratio(typed: _Text, size: re.Match[str]) -> tuple[int, int]:
    """The number that was matched, sign and all, as an exact ratio."""
    sign = -1 if size["sign"] == "-" else 1
    if size["decimal"] is not None:
        over, under = _exact(size["decimal"].replace(",", "."))
        return sign * over, under
    whole, over, under = int(size["whole"] or 0), int(size["over"]), int(size["under"])
    if under == 0:
        raise typed.refuse("divides by zero")
    if size["whole"] is not None and over >= under:
        raise typed.refuse("has a whole number before a fraction that is not below one", "write 1 1/2 in")
    return sign * (whole * under + over), under


def _exact(text: str) -> tuple[int, int]:
    """A decimal or a fraction, already known to be well formed, as a ratio of whole numbers."""
    over, _, under = text.partition("/")
    whole, _, decimals = over.partition(".")
    return int(whole + decimals), int(10 ** len(decimals)) * int(under or 1)


def _unit_of_bare(typed: _Text, text: str, size: re.Match[str]) -> str:
    """The unit of a number without one: inches for a fraction as bits are marked, otherwise a refusal."""
    wanted = typed.wanted or Dimension.LENGTH
    if wanted is not Dimension.LENGTH or size["over"] is None:
        also = f" or {_shown(text)} in" if wanted is Dimension.LENGTH else ""
        raise typed.refuse("has no unit", f"write {_shown(text)} {wanted.unit}{also}")
    # 8/32 is how some write the thread #8-32; a bit is always marked in lowest terms.
    if int(size["under"]) not in (2, 4, 8, 16, 32, 64, 128) or int(size["over"]) % 2 == 0:
        raise typed.refuse("has no unit and is not an inch fraction in lowest terms", f"write {_shown(text)} in")
    return "in"


def _measured(typed: _Text, over: int, under: int, written: str) -> Quantity:
    if (unit := _BY_SPELLING.get(_spelling(written))) is None:
        return _by_pint(typed, over / under, written)
    factor, per = _exact(unit.factor)
    shift, shift_per = _exact(unit.offset)
    scale = under * per * shift_per
    # Dividing one whole number by another rounds once, so 1/4 in and 6.35 mm give the same float.
    return Quantity((over * factor * shift_per + shift * under * per) / scale, unit.dimension, unit.name)


def _spelling(written: str) -> str:
    """The unit as the table spells it: lower case, one dot between words, squares as ²."""
    return re.sub(r"\^?2$", "²", re.sub(_JOIN, "·", written.lower().rstrip(". ")))


def _by_pint(typed: _Text, value: float, written: str) -> Quantity:
    # The beginning of a known unit is one still being typed: loading pint for it would stall the screen.
    unfinished = any(spelling.startswith(_spelling(written)) for spelling in _BY_SPELLING)
    if re.fullmatch(_PLAIN_WORD, written) and not unfinished:
        convert = _pint_converter()
        for dimension in set(Dimension) - {Dimension.TORQUE}:  # a joule is no torque, though the dimensions agree
            with suppress(Exception):  # pint meets odd words with many kinds of error; all mean "not such a unit"
                return Quantity(convert(value, written, dimension.unit), dimension, written)
    raise _unknown_unit(typed, written)


@lru_cache(maxsize=1)
def _pint_converter() -> Callable[[float, str, str], float]:
    try:
        import pint

        registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    except Exception as error:  # of another version than it was made with, what it stands on fails in many ways
        what = f"the library of rarer units does not load: {type(error).__name__}: {_shown(str(error))}"
        raise FastenError(what, where="pint", fix="install fasten anew, or write the size in a common unit") from error
    return lambda value, word, unit: float(registry.Quantity(value, word).m_as(unit))


def _unknown_unit(typed: _Text, written: str) -> FastenError:
    wanted = typed.wanted
    known = [unit.name for unit in UNITS if unit.dimension is wanted] or [dimension.unit for dimension in Dimension]
    fix = f"write {wanted.words if wanted else 'a size'} in {', '.join(known)}"
    return typed.refuse(f"has no known unit: {_shown(written)}", fix)


def _bounded(typed: _Text, found: Quantity, allow_zero: bool) -> Quantity:
    """The quantity, once it is known to be a size that could be meant."""
    dimension = found.dimension
    if found.value == 0 and not dimension.signed and not allow_zero:
        raise typed.refuse(f"is zero, and {dimension.words} must be above zero here")
    if found.value < 0 and not dimension.signed:
        raise typed.refuse(f"is negative, and {dimension.words} is not")
    if found.value < dimension.least and not (found.value == 0 and allow_zero):
        raise typed.refuse(f"is below {write(dimension.least, dimension)}, the least {dimension.words} may be")
    if not found.value <= dimension.most:
        raise typed.refuse(f"is above {write(dimension.most, dimension)}, the most {dimension.words} may be")
    return found
