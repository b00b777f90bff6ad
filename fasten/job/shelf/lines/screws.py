"""Lines that are screws: machine screws by their head, those that form their thread, and screws for board."""

from collections.abc import Iterator

from fasten.catalog.parts import HEADS, PREFERRED_LENGTHS, Head
from fasten.catalog.rows import TAPPING_THREADS, UNIFIED_THREADS
from fasten.catalog.tables import Tables
from fasten.catalog.vocabulary import WITHDRAWN_STANDARDS
from fasten.job.list.stock import stock
from fasten.job.shelf.lines.asking import answered, listed, usual_lengths
from fasten.job.shelf.lines.sized import Sized, sized
from fasten.job.shelf.lines.tokens import Tokens
from fasten.job.shelf.lines.words import Asked, Read
from fasten.model import kinds
from fasten.model.line import Part
from fasten.question.resolve import ASSUMED_GRADE
from fasten.record import replace
from fasten.text.figures import figure, words
from fasten.text.units import in_to_mm
from fasten.text.values import ValueSort, number

_HEXAGON = "hexagon"
SCREW, HARDENED = kinds.MACHINE_SCREW.line, "case-hardened"
_INCH = "inch machine screws take no part in an answer here: kept as a note, or {size} meant?"
_ASSORTED = "nothing is counted from an assortment: which sizes?"
_DRIVES = (ValueSort.STAR, "hexalobular"), (ValueSort.CROSS, "cross_recess")
_USUAL_SIZE = "M5"
_EXAMPLES = ("ST4.2", "ST3.5")  # tapping screws of an assortment


def machine_screw(tokens: Tokens, tables: Tables) -> Read:
    """A machine screw by its thread, length, head or standard, and class."""
    found = sized(tokens, tables, tapping=False, has_length=True, by_mm=True)
    if found.is_inch:
        return _inch(tokens, found, tables)
    if not found.size.startswith("M"):
        found = replace(found, size="")
    standard, assumed = standard_of(tokens, tables)
    fitting = _heads(tokens, found.size, standard, tables)
    wants = list(_wants(tokens, found, standard, fitting))
    head = fitting[0] if fitting else None
    grade, taken = _grade(tokens)
    nearest = _nearest(found, fitting or _usual(found.size or _USUAL_SIZE, tables), grade, tables)
    part = None
    if head is not None and found.length_mm is not None:
        part = Part(SCREW, found.size, head.standard, grade, found.length_mm)
    notes = (*found.assumed, *assumed, *taken, *_otherwise(fitting))
    return answered(tokens, wants, nearest, part, found.count, notes)


def tapping_screw(tokens: Tokens, standard: str, tables: Tables, kind: str = SCREW) -> Read:
    """A screw that forms its thread in sheet, by its size and length; its head is the one that is listed."""
    found = sized(tokens, tables, tapping=True, has_length=True)
    if not found.size.startswith("ST"):
        found = replace(found, size="")
    wants = list(_of_its_own(tokens))
    if found.size and tables.find(TAPPING_THREADS, found.size) is None:
        wants.append(f"there is no {found.size}: which size")
        found = replace(found, size="")
    elif not found.size:
        wants.append("which size")
    elif found.length_mm is None:
        wants.append("how long")
    other = _other_head(tokens)
    if other:
        wants.append(f"no answer takes {other}: is it the pan head with a hexalobular drive")
    sizes = (found.size,) if found.size else _EXAMPLES
    lengths = {size: _tapping_lengths(size, found.length_mm, tables) for size in sizes}
    nearest = [Part(kind, size, standard, HARDENED, length) for at in (0, 1) for size in sizes
               for length in lengths[size][at : at + 1]]  # fmt: skip
    if tokens.named("vague") and not found.size:
        return Asked(tokens.line, _ASSORTED, tuple(nearest[:2]), found.count)
    part = Part(kind, found.size, standard, HARDENED, found.length_mm) if found.size and found.length_mm else None
    said = (
        ("pan head", tokens.named("head")),
        ("hexalobular drive", tokens.named("drive") or tokens.of(ValueSort.STAR)),
    )
    unsaid = ", ".join(what for what, is_said in said if not is_said)
    return answered(tokens, wants, nearest, part, found.count, (*found.assumed, *filter(None, (unsaid,))))


def board_screw(tokens: Tokens, standard: str, tables: Tables) -> Read:
    """A screw for board, by its diameter and length."""
    found = sized(tokens, tables, tapping=False, has_length=True)
    sizes = {number(part.size.removesuffix(" mm")): part.size for part in stock(tables).parts.values()
             if part.name == standard}  # fmt: skip
    size = sizes.get(number(found.size), "") if found.size.replace(".", "", 1).isdigit() else ""
    wants = [] if size else [f"which diameter: {listed(sorted(sizes.values()))}"]
    wants += [] if found.length_mm else ["how long"]
    near = [size] if size else sorted(sizes.values())
    nearest = [Part(SCREW, one, standard, HARDENED, length) for length in usual_lengths("wood", 5.0, tables)
               for one in near]  # fmt: skip
    part = Part(SCREW, size, standard, HARDENED, found.length_mm) if size and found.length_mm else None
    return answered(tokens, wants, nearest, part, found.count, found.assumed)


def standard_of(tokens: Tokens, tables: Tables) -> tuple[str, tuple[str, ...]]:
    """The standard that a line names, as it is called now, and what it was called."""
    named = next(iter(tokens.of(ValueSort.STANDARD)), None)
    if named is None:
        return "", ()
    text = f"{named.first.upper()} {named.second}"
    now = tables.find(WITHDRAWN_STANDARDS, text)
    if now is None:
        return text, ()
    differs = f": {now.differs}" if now.differs else ""
    return now.now, (f"{text} is {now.now} now{differs}",)


def _heads(tokens: Tokens, size: str, standard: str, tables: Tables) -> list[Head]:
    """The heads that the line may mean, those that answers take first."""
    forms = {word.names for word in tokens.named("head")} or {
        word.names for word in tokens.named("series") if word.names == _HEXAGON
    }
    drives = {word.names for word in tokens.named("drive")} | {name for sort, name in _DRIVES if tokens.of(sort)}
    if not (forms or standard):
        return []
    rows = [row for row in tables.rows(HEADS) if row.size == size]
    rows = [row for row in rows if not standard or row.standard == standard]
    rows = [row for row in rows if not forms or row.form in forms]
    rows = [row for row in rows if not drives or row.drive in drives]
    return sorted(rows, key=lambda row: not _is_taken(row, tables))


def _is_taken(head: Head, tables: Tables) -> bool:
    return stock(tables).holds(Part(SCREW, head.size, head.standard, ASSUMED_GRADE, 20.0))


def _wants(tokens: Tokens, found: Sized, standard: str, fitting: list[Head]) -> Iterator[str]:
    yield from _of_its_own(tokens)
    if found.pitch_mm is not None:
        yield f"its pitch of {figure(found.pitch_mm)} mm fits no part of an answer: is it the coarse thread"
    if not found.size:
        yield "which thread"
    elif not fitting and not (tokens.named("head", "series") or standard):
        yield "which head: flange, pan, button, cap or countersunk"
    elif not fitting:
        yield f"no {standard or 'such'} head of {found.size} is listed: which head is it"
    if len({head.drive for head in fitting}) > 1:
        yield f"{listed(words(head.drive) for head in fitting)}"
    if found.length_mm is None and found.size:
        yield "how long"


def _of_its_own(tokens: Tokens) -> Iterator[str]:
    """What makes it another part than any that is known here."""
    for word in tokens.named("unlike"):
        yield f"no answer takes {word.names} ({word.text}): is it one without"


def _otherwise(fitting: list[Head]) -> Iterator[str]:
    """Where two standards have the head, in what the other differs from the one that was taken."""
    taken, others = fitting[:1], fitting[1:]
    for head in taken:
        for other in others:
            if other.drive == head.drive and other.drive_size != head.drive_size:
                yield f"{head.standard}: {other.standard} has {other.drive_size} mm flats, this {head.drive_size}"


def _grade(tokens: Tokens) -> tuple[str, tuple[str, ...]]:
    said = next(iter(tokens.of(ValueSort.STRENGTH)), None)
    if said is not None:
        return said.first.upper(), ()
    by_word = next(iter(tokens.named("class")), None)
    if by_word is not None:
        return by_word.names, (f"class {by_word.names}",)
    is_pan = any(word.names == "pan" for word in tokens.named("head"))
    doubt = ": pan heads are often 4.8, look at the mark" if is_pan else ""
    return ASSUMED_GRADE, (f"class {ASSUMED_GRADE}{doubt}",)


def _usual(size: str, tables: Tables) -> list[Head]:
    """The heads that answers take, flanges first."""
    found = [head for head in tables.rows(HEADS) if head.size == size and _is_taken(head, tables)]
    return sorted(found, key=lambda head: head.form != "hexagon_flange")


def _nearest(found: Sized, heads: list[Head], grade: str, tables: Tables) -> list[Part]:
    size = found.size or _USUAL_SIZE
    lengths = (found.length_mm,) if found.length_mm else usual_lengths("machine", number(size[1:]), tables)
    taken = [head for head in heads if _is_taken(head, tables)]
    drives = {head.drive for head in heads}
    shown = heads if len(drives) > 1 or not taken else taken
    return [Part(SCREW, size, head.standard, grade, length) for head in shown for length in lengths]


def _inch(tokens: Tokens, found: Sized, tables: Tables) -> Read:
    """An inch screw: kept, with the metric one that comes nearest."""
    size = _metric_near(tokens, tables)
    heads = _heads(tokens, size, "", tables) or _usual(size, tables)
    rough_mm = found.length_mm or 0.0
    made = sorted(usual_lengths("machine", 0.0, tables) if not rough_mm else _made(tables),
                  key=lambda length: max(length - rough_mm, rough_mm - length))  # fmt: skip
    taken = sorted(heads, key=lambda head: not _is_taken(head, tables))
    nearest = tuple(Part(SCREW, size, head.standard, ASSUMED_GRADE, made[0]) for head in taken[:2])
    return Asked(tokens.line, _INCH.format(size=size), nearest, found.count)


def _made(tables: Tables) -> list[float]:

    return [
        row.length_mm for row in tables.rows(PREFERRED_LENGTHS) if row.family == "machine" and row.choice == "first"
    ]


def _metric_near(tokens: Tokens, tables: Tables) -> str:
    named = next(iter(tokens.of(ValueSort.UNIFIED, ValueSort.NUMBERED))).first
    row = next((row for row in tables.rows(UNIFIED_THREADS) if row.size.removeprefix("#") == named), None)
    major_mm = in_to_mm(row.major_in) if row is not None else 5.0
    sizes = {head.size for head in tables.rows(HEADS) if head.size.startswith("M")}
    return min(sizes, key=lambda size: max(number(size[1:]) - major_mm, major_mm - number(size[1:])))


def _tapping_lengths(size: str, length_mm: float | None, tables: Tables) -> tuple[float, ...]:
    return (length_mm,) if length_mm else usual_lengths("tapping", number(size.removeprefix("ST")), tables)


def _other_head(tokens: Tokens) -> str:
    """A head or drive of a tapping screw that is not listed."""
    forms = [word.text for word in tokens.named("head") if word.names != "pan"]
    drives = [word.text for word in tokens.named("drive") if word.names != "hexalobular"]
    crosses = [value.text for value in tokens.of(ValueSort.CROSS)]
    return " ".join((*forms, *drives, *crosses))
