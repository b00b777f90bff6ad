"""What an entry is, in one line: the answer where nothing else was asked."""

from collections.abc import Callable, Iterator
from typing import Any

from fasten.look.first.line import Answer
from fasten.look.first.thread_line import thread_line


def lines_of(entry: Any) -> Iterator[Answer]:
    """The line or lines of an entry; what another kind needs is not loaded."""
    yield from _LINES.get(type(entry).__name__, _wiring)(entry)


def _thread(entry: Any) -> Iterator[Answer]:
    yield thread_line(entry)


def _tapping(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.tapping import headline

    yield headline(entry)


def _bit(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.lengths import bit_line

    yield bit_line(entry)


def _length(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.lengths import length_line

    yield length_line(entry)


def _gauge(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.gauges import gauge_lines

    yield from gauge_lines(entry)


def _strength(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.strengths import strength_line

    yield strength_line(entry)


def _wiring(entry: Any) -> Iterator[Answer]:
    from fasten.look.first.wires import wiring_line

    yield wiring_line(entry)


_LINES: dict[str, Callable[[Any], Iterator[Answer]]] = {  # by the type of the entry, whose module is not loaded for it
    "Thread": _thread, "Tapping": _tapping, "BitEntry": _bit, "Length": _length, "GaugeEntry": _gauge,
    "Strength": _strength,
}  # fmt: skip
