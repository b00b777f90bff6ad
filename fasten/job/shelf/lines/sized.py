"""The size and length that a line gives: each as it was written, and what was taken for it without being said."""

from fasten.catalog.rows import METRIC_THREADS, TAPPING_THREADS
from fasten.catalog.tables import Tables
from fasten.job.shelf.lines.tokens import Tokens
from fasten.record import record
from fasten.text.units import in_to_mm
from fasten.text.values import Value, ValueSort, number

_MOST_PITCH_MM = 4.0  # in a thread's second figure: a screw is longer


@record
class Sized:
    """The size by which a part is known, empty where none is said; its length, if one is; how many.

    `pitch` is a pitch that was said, `is_inch` that its thread is an inch thread, which no part here has.
    """

    size: str
    length_mm: float | None
    count: int | None
    assumed: tuple[str, ...] = ()
    pitch_mm: float | None = None
    is_inch: bool = False


def sized(
    tokens: Tokens, tables: Tables, *, tapping: bool, has_length: bool, bare_is_count: bool = False, by_mm: bool = False
) -> Sized:
    """What a line says of its size, length and count; a bare number is what is still wanted of the two,
    or the count where `bare_is_count` says so. With `by_mm` a thread may be called by its millimetres."""
    found = _size(tokens, tables, tapping=tapping, by_mm=by_mm)
    lengths = tokens.of(ValueSort.LENGTH, ValueSort.FRACTION)
    length_mm = found.length_mm
    if length_mm is None and lengths and has_length:
        length_mm = lengths[0].mm
    count, bare = tokens.count, [value for value in tokens.of(ValueSort.BARE) if value.text != found.size]
    if length_mm is None and has_length and bare and not bare_is_count and _is_length(bare, tokens):
        length_mm = number(bare.pop(0).first)
    if count is None and bare and bare[-1].first.isdigit() and int(bare[-1].first):
        count = int(bare[-1].first)
    return Sized(found.size, length_mm or None, count, found.assumed, found.pitch_mm, found.is_inch)


def _is_length(bare: list[Value], tokens: Tokens) -> bool:
    """Whether the first bare number is a length: where the count is another, or it stands right after the size."""
    return tokens.count is not None or len(bare) > 1 or _after_size(bare[0], tokens)


def _size(tokens: Tokens, tables: Tables, *, tapping: bool, by_mm: bool) -> Sized:
    for value in tokens.values:
        if value.sort is ValueSort.METRIC:
            return _metric(value, tables)
        if value.sort is ValueSort.TAPPING:
            return Sized(f"ST{value.first}", number(value.length) if value.length else None, None)
        if value.sort is ValueSort.NUMBERED and tapping:
            return _numbered(value, tables)
        if value.sort in (ValueSort.UNIFIED, ValueSort.NUMBERED):
            return Sized(value.text, _inches(value.length), None, is_inch=True)
    return _in_millimetres(tokens, tables) if by_mm and tokens.named("head") else _of_two(tokens, tapping=tapping)


def _of_two(tokens: Tokens, *, tapping: bool) -> Sized:
    """Two sizes with a sign between, as of a screw for board: how thick and how long."""
    for pair in tokens.of(ValueSort.PAIR):
        return Sized(f"ST{pair.first}" if tapping else pair.first, number(pair.length), None)
    return Sized("", None, None)


def _in_millimetres(tokens: Tokens, tables: Tables) -> Sized:
    """A thread that is called by its millimetres: a 6 mm flange bolt, 20 mm long, and a 6x20 one, are M6."""
    pairs = [(pair, number(pair.length)) for pair in tokens.of(ValueSort.PAIR)]
    lengths = [value for value in tokens.of(ValueSort.LENGTH) if value.unit == "mm"]
    for said, length_mm in (*pairs, *((lengths[0], length.mm) for length in lengths[1:])):
        size = f"M{said.number:g}"
        if tables.find(METRIC_THREADS, size) is not None:
            return Sized(size, length_mm, None, (f"{said.text} is {size}",))
    return _of_two(tokens, tapping=False)


def _metric(value: Value, tables: Tables) -> Sized:
    """A second figure is a pitch where it may be one, a third always the length."""
    size, second = f"M{number(value.first):g}", number(value.second) if value.second else None
    row = tables.find(METRIC_THREADS, size)
    if value.length:
        return Sized(size, number(value.length), None, pitch_mm=_fine(second, row.pitch_mm if row else None))
    if second is not None and second < _MOST_PITCH_MM:
        return Sized(size, None, None, pitch_mm=_fine(second, row.pitch_mm if row else None))
    return Sized(size, second, None)


def _fine(pitch_mm: float | None, usual_mm: float | None) -> float | None:
    """A pitch that is not the usual one of its thread."""
    return None if pitch_mm is None or pitch_mm == usual_mm else pitch_mm


def _numbered(value: Value, tables: Tables) -> Sized:
    named = f"#{value.first}"
    row = next((row for row in tables.rows(TAPPING_THREADS) if row.number == named), None)
    if row is None:
        return Sized("", None, None)
    length_mm = number(value.length) if value.length and value.unit == "mm" else _inches(value.length)
    return Sized(row.designation, length_mm, None, (f"{named} is {row.designation}",))


def _inches(text: str) -> float | None:
    return round(in_to_mm(number(text)), 2) if text else None


def _after_size(value: Value, tokens: Tokens) -> bool:
    """Whether a number stands right after the size, as in M5 20."""
    sizes = tokens.of(ValueSort.METRIC, ValueSort.TAPPING)
    return any(tokens.plain[one.at + len(one.text) : value.at].strip() == "" and one.at < value.at for one in sizes)
