"""What is asked of a machine screw's thread: clearance, tap drill, pitch, torque, proof load, stress area, drive."""

from collections.abc import Callable, Iterator

from fasten.catalog.materials import FINISHES
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look.first.line import Answer, named, size
from fasten.look.first.thread_line import thread_line
from fasten.look.query import Query
from fasten.look.readings import Reading, read
from fasten.look.thread import ClearanceHole, ProofLoad, Thread, metric_entry, unified_entry
from fasten.mechanics.torque import torque_nm
from fasten.text.units import number
from fasten.text.values import Value, ValueSort

_FITS = ("close", "medium", "loose")
_USUAL = {"metric": "8.8", "unified": "grade 5"}
_PLATED = "zinc_plated"
_ELSEWHERE = "in a rivet nut, board or plastic see its mount point"
_CLASSES = (ValueSort.STRENGTH, ValueSort.GRADE)
_OF_CLASS = ("proof", "torque")  # of a thread with nothing but its class beside it
_ORDER = {"metric": 0, "unified": 1}


def threads_of(value: Value, query: Query, tables: Tables) -> tuple[Thread, ...]:
    """The threads that a value may name, less those of a series that was not asked for."""
    found = tuple(_entry(reading, tables) for reading in _readings(value, query, tables) if reading.kind in _ORDER)
    series = [fit for fit in query.fits if fit in {"coarse", "fine"}]
    of_series = tuple(thread for thread in found if thread.series in series)
    return of_series or found


def _readings(value: Value, query: Query, tables: Tables) -> tuple[Reading, ...]:
    """How the look-up reads the value; of a metric size with `fine` beside it, every fine thread of that size."""
    if value.sort is ValueSort.METRIC and not value.second and "fine" in query.fits:
        from fasten.catalog.rows import METRIC_THREADS

        rows = [row for row in tables.rows(METRIC_THREADS) if row.major_mm == value.number and row.series == "fine"]
        return tuple(Reading("metric", row.designation) for row in rows)
    try:
        return read(value.text, tables)
    except FastenError:
        return ()


def _entry(reading: Reading, tables: Tables) -> Thread:
    make = metric_entry if reading.kind == "metric" else unified_entry
    return make(reading.name, tables, reading.notes)


def of_thread(value: Value, query: Query, tables: Tables) -> Iterator[Answer]:
    """The lines for a thread; of a size that is several threads, and a tapping screw too, those of each."""
    found = threads_of(value, query, tables)
    unsaid = ("clearance",) if set(query.fits) & set(_FITS) else _OF_CLASS if query.of(*_CLASSES) else ()
    for fact in query.facts or unsaid:
        for thread in found:
            yield from _FACTS[fact](thread, query, tables)
    if not query.facts and not set(query.fits) & set(_FITS):
        yield from map(thread_line, found)
    if value.sort is ValueSort.NUMBERED and (not query.facts or query.asks("drill", "hole", "pilot", "clearance")):
        from fasten.look.first.tapping import of_tapping

        yield from of_tapping(value, query, tables)


def _clearance(thread: Thread, query: Query, _tables: Tables) -> Iterator[Answer]:
    if len(thread.clearance) == len(_FITS):
        wanted = next((_FITS.index(fit) for fit in query.fits if fit in _FITS), 1)
        others = [f"{_FITS[at]} {_of(hole)}" for at, hole in enumerate(thread.clearance) if at != wanted]
        hole = thread.clearance[wanted]
        text = f"{thread.designation} clearance hole {_of(hole)}, {_FITS[wanted]} fit; {', '.join(others)}"
        yield Answer("clearance", text, hole.from_)


def _of(hole: ClearanceHole) -> str:
    return named(hole.name, hole.diameter_mm)


def _tap(thread: Thread, _query: Query, _tables: Tables) -> Iterator[Answer]:
    if drill := thread.tap_drill:
        share = f"{number(drill.thread_percent, 0)} % thread"
        yield Answer(
            "tap", f"{thread.designation} tap drill {named(drill.name, drill.diameter_mm)}, {share}", drill.from_
        )


def _hole(thread: Thread, query: Query, tables: Tables) -> Iterator[Answer]:
    """A hole for a thread is one that it goes through, or one that is tapped."""
    if set(query.fits) & set(_FITS):
        yield from _clearance(thread, query, tables)
    elif not query.asks("tap", "clearance", "pilot"):
        yield from _clearance(thread, query, tables)
        yield from _tap(thread, query, tables)


def _drill(thread: Thread, query: Query, tables: Tables) -> Iterator[Answer]:
    if not query.asks("tap", "clearance", "pilot"):
        yield from _tap(thread, query, tables)
        yield from _clearance(thread, query, tables)


def _pitch(thread: Thread, _query: Query, _tables: Tables) -> Iterator[Answer]:
    per_in = f", {thread.threads_per_in} threads to the inch" if thread.threads_per_in else ""
    yield Answer(
        "pitch", f"{thread.designation} pitch {size(thread.pitch_mm)} mm{per_in}, {thread.series}", thread.from_
    )


def _stress_area(thread: Thread, _query: Query, _tables: Tables) -> Iterator[Answer]:
    inch = f", {number(thread.stress_area_in2, 4)} in²" if thread.stress_area_in2 is not None else ""
    yield Answer(
        "stress area", f"{thread.designation} stress area {size(thread.stress_area_mm2)} mm²{inch}", thread.from_
    )


def _loads(thread: Thread, query: Query) -> list[ProofLoad]:
    """The proof loads of the class or grade that is named, or all."""
    asked = [value.first.upper() for value in query.of(ValueSort.STRENGTH)]
    asked += [f"grade {value.first}" for value in query.of(ValueSort.GRADE)]
    return [load for load in thread.proof_loads if not asked or load.class_ in asked]


def _untabled(thread: Thread, query: Query, loads: list[ProofLoad]) -> Iterator[Answer]:
    """Where a class is named of which no proof load is tabled, that this is why none and no torque is given."""
    said = ", ".join(value.first.upper() for value in query.of(*_CLASSES))
    if said and not loads:
        yield Answer("proof", f"{thread.designation} {said}: no proof load is in the tables, so no torque either", ())


def _proof(thread: Thread, query: Query, _tables: Tables) -> Iterator[Answer]:
    found = _loads(thread, query)
    yield from _untabled(thread, query, found)
    if found:
        text = "; ".join(f"{load.class_} {_force(load)}" for load in found)
        yield Answer("proof", f"{thread.designation} proof load: {text}", found[0].from_)


def _force(load: ProofLoad) -> str:
    newtons = f"{number(load.load_n, 0)} N"
    return newtons if load.load_lbf is None else f"{number(load.load_lbf, 0)} lbf, {newtons}"


def _torque(thread: Thread, query: Query, tables: Tables) -> Iterator[Answer]:
    """The torque of a plated screw in a steel nut; the class that is usual where none is named, which is said."""
    named_class = bool(query.of(*_CLASSES))
    usual = _USUAL["unified" if thread.threads_per_in else "metric"]
    loads = [load for load in _loads(thread, query) if named_class or load.class_ == usual]
    if not query.asks("proof"):
        yield from _untabled(thread, query, loads)
    finish = tables.need(FINISHES, _PLATED)
    share, of_share = rule_value(tables, Rules.PRELOAD_SHARE)
    for load in loads:
        preload_n = share * load.load_n
        diameter_mm = thread.basic.major_mm
        low, high = (
            number(torque_nm(nut_factor=factor, diameter_mm=diameter_mm, preload_n=preload_n), 1)
            for factor in (finish.nut_factor_min, finish.nut_factor_max)
        )
        assumed = "" if named_class else " assumed"
        screw = f"{thread.designation} {'' if thread.threads_per_in else 'class '}{load.class_}{assumed}"
        text = f"{screw}: {low} to {high} N·m, zinc plated, in a steel nut; {_ELSEWHERE}"
        cited = (*load.from_, of_share, tables.source_id(FINISHES, finish))
        yield Answer("torque", text, tuple(dict.fromkeys(cited)))


def _drive(thread: Thread, query: Query, tables: Tables) -> Iterator[Answer]:
    from fasten.look.first.drives import of_screws

    yield from of_screws(thread.designation, query, tables)


def _nothing(_thread: Thread, _query: Query, _tables: Tables) -> Iterator[Answer]:
    return iter(())


_FACTS: dict[str, Callable[[Thread, Query, Tables], Iterator[Answer]]] = {
    "clearance": _clearance, "tap": _tap, "hole": _hole, "drill": _drill, "pilot": _nothing, "pitch": _pitch,
    "amps": _nothing, "torque": _torque, "proof": _proof, "stress area": _stress_area,
    "key": _drive, "driver": _drive, "star": _drive, "cross": _drive, "spanner": _drive, "hexagon": _drive,
    "head": _drive,
}  # fmt: skip
