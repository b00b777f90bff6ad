"""The word of a sentence that goes by what is typed where the folded ones stand. No widgets here."""

from collections.abc import Sequence

from fasten.tui.state.outcome import Reading

Called = Sequence[
    tuple[str, tuple[str, ...]]
]  # words by name, and how each is called: as the sentence does, then others


def found_word(typed: str, called: Called) -> str:
    """The name of the first word that is called so; empty where none is.

    Of several, one that the sentence calls so comes first, and one whose name begins so before one that has it within.
    """
    text = typed.strip().casefold()
    if not text:
        return ""
    ways = range(max((len(texts) for _, texts in called), default=0))
    sought = [(way, within) for way in ways for within in (False, True)]
    return next((name for way, within in sought for name, texts in called if _is(text, texts, way, within)), "")


def _is(text: str, texts: tuple[str, ...], way: int, within: bool) -> bool:
    called = texts[way].strip(" ,").casefold() if way < len(texts) else ""
    return text in called if within else called.startswith(text)


def reading_of(typed: str, label: str) -> Reading:
    """What was found by what is typed, by its label; where that is empty, nothing was."""
    return Reading(typed, label.lower()) if label else Reading(typed, why="nothing is called so")
