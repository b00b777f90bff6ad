"""Where on a run an end is, as a key: what is accepted there goes by it. Made of keys and names, not of shown text."""

from functools import lru_cache
from unicodedata import normalize

from fasten.wiring.words import BatteryPost, End, Pole, SpliceEnd, StudEnd, TerminalEnd

_MOST = 1000


@lru_cache(_MOST)
def slug(text: str) -> str:
    """A key in small letters and figures, everything else a hyphen."""
    kept = "".join(char if char.isalnum() or char in "./" else " " for char in normalize("NFKC", text).casefold())
    return "-".join(kept.split())


def place_of(end: End, at: str) -> str:
    """The key of an end: what of the job it is `at`, or which holder, and what the cable goes to there."""
    return "-".join(filter(None, (slug(at), *map(slug, _parts(end)))))


def _parts(end: End) -> tuple[str, ...]:
    if isinstance(end, BatteryPost):
        return ("post", end.pole.name)
    if isinstance(end, StudEnd):
        return (end.at.value, *(("minus",) if end.pole is Pole.MINUS else ()))
    if isinstance(end, SpliceEnd):
        return (end.splice.value,)
    if isinstance(end, TerminalEnd):
        sizes = (_figure("bore", end.bore_mm), _figure("takes", end.takes_mm2), end.tab or "")
        return (end.terminal.value, *sizes)
    return ()  # it is known by what of the job it is at


def _figure(what: str, value: float | None) -> str:
    return "" if value is None else f"{what} {value:g}"
