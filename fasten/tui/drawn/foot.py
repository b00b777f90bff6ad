"""The foot: pages at the left, what can be done at the right, each letter underlined in its own word."""

from collections.abc import Sequence

from fasten.record import record
from fasten.tui.drawn.runs import Line, Run, columns

MORE = "more"
_GAP = 2


@record
class Word:
    """A word that can be pressed: what it says, its letter, what it does, and whether it is where the screen is."""

    text: str
    key: str
    name: str
    is_current: bool = False


@record
class Foot:
    """The line, and from which column to which each word is pressed, with what it does."""

    line: Line
    spans: tuple[tuple[int, int, str], ...]

    def at(self, column: int) -> str:
        """What the word in a column does; empty where there is none."""
        return next((name for start, end, name in self.spans if start <= column < end), "")


def foot_of(width: int, pages: Sequence[Word], actions: Sequence[Word], more: Word, *, typing: bool) -> Foot:
    """The foot in so many columns: as many of the actions as there is room for, the most wanted first.

    While something is typed, the key of `more` stands filled at the start: it comes before every letter.
    """
    lead, right = ([_leader(more)], []) if typing else ([], [_more(more)])
    words = [_keyed(page, "bold" if page.is_current else "") for page in pages]
    spare = width - sum(_wide(word) for word in (*lead, *right)) - _GAP
    # The pages that a screen has no room for are among what `more` lists.
    left = [*lead, *(word for at, word in enumerate(words) if sum(map(_wide, words[: at + 1])) <= spare)]
    room = width - sum(_wide(word) for word in left) - sum(_wide(word) for word in right) - 1
    shown: list[tuple[Line, str]] = []
    for action in actions:
        word = _keyed(action, "")
        if _wide(word) + _GAP > room:
            break
        room -= _wide(word) + _GAP
        shown.append(word)
    return _laid(width, left, [*shown, *right])


def _laid(width: int, left: list[tuple[Line, str]], right: list[tuple[Line, str]]) -> Foot:
    runs: list[Run] = []
    spans: list[tuple[int, int, str]] = []
    for word, name in left:
        _put(runs, spans, word, name, 0 if not runs else 1)
    free = width - _used(runs) - sum(columns(word) + _GAP for word, _ in right)
    for number, (word, name) in enumerate(right):
        _put(runs, spans, word, name, max(free, 0) + _GAP if number == 0 else _GAP)
    runs.append((" " * max(width - _used(runs), 0), "ink on raised"))
    return Foot(tuple(runs), tuple(spans))


def _put(runs: list[Run], spans: list[tuple[int, int, str]], word: Line, name: str, gap: int) -> None:
    runs.append((" " * gap, "ink on raised"))
    start = _used(runs)
    runs.extend(word)
    spans.append((start, _used(runs), name))


def _used(runs: Sequence[Run]) -> int:
    return columns(tuple(runs))


def _wide(word: tuple[Line, str]) -> int:
    return columns(word[0]) + 1


def _leader(more: Word) -> tuple[Line, str]:
    return ((f" {more.key} ", "bold accent reverse"),), more.name


def _more(more: Word) -> tuple[Line, str]:
    return ((more.key, "bold underline accent on raised"), (f" {more.text}", "bold ink on raised")), more.name


def lettered(word: Word) -> tuple[str, int]:
    """The word and where its letter is in it; one that is not in it stands after it, and there may be none."""
    at = word.text.lower().find(word.key) if word.key else len(word.text)
    return (word.text, at) if at >= 0 else (f"{word.text} {word.key}", len(word.text) + 1)


def _keyed(word: Word, weight: str) -> tuple[Line, str]:
    """The word with its letter underlined; a letter that is not in it stands after it. The current page is filled."""
    text, at = lettered(word)
    style = f"{weight} accent reverse" if word.is_current else "ink on raised"
    letter = f"{weight} underline accent reverse" if word.is_current else "bold underline accent on raised"
    parts = ((text[:at], style), (text[at], letter), (text[at + 1 :], style))
    return tuple((part, role.strip()) for part, role in parts if part), word.name
