"""Names as people write them: how they are compared, and what is said of one that is not known."""

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import TypeVar

from fasten.errors import FastenError
from fasten.text.letters import unjoined
from fasten.text.shown import shown

_LONGEST_TEXT = 100
_MOST_KEPT = 2000  # names whose one spelling is kept: few are asked for, and each again and again
_STANDARD = re.compile(r"\b(iso|din|en|sae|asme)[ -]?(?=[0-9])")
_DASHES = str.maketrans({**dict.fromkeys("‐‑‒–—−", "-"), "_": " "})
_LISTED = 175  # characters of a list of choices in a message
NEAR = 0.6  # how alike two names are, by difflib's ratio, of which one may be meant; further off is no guess

Value = TypeVar("Value")


def unknown(text: str, wanted: str, choices: Iterable[str], where: str, *, among: Iterable[str] = ()) -> FastenError:
    """The refusal of a text that is none of the choices, with the nearest of their spellings `among`, or else all."""
    from difflib import get_close_matches

    names = list(dict.fromkeys(choices))
    close = get_close_matches(folded(text[:_LONGEST_TEXT]), list(among) or names, n=3, cutoff=NEAR)
    fix = f"did you mean {either(close)}?" if close else f"write {some(names)}"
    return FastenError(f"{shown(text)} is not {wanted}", where=where, fix=fix)


@lru_cache(maxsize=4096)  # the names of all rows, which each question is compared with
def folded(text: str) -> str:
    """A name as names are compared: lower case, single spaces, none of the hyphens between words."""
    return " ".join(tokens(text)).casefold()


def tokens(text: str) -> list[str]:
    """The words of a text, split at hyphens too, but not where a word begins a size, as in 1-1/2 in."""
    words = [word for token in unjoined(text).split() if (word := token.rstrip(",;"))]
    return [part for word in words for part in (re.split("[-_]+", word) if word[0].isalpha() else [word]) if part]


@lru_cache(maxsize=1024)  # rows keep their names, and are asked for them with every word that is typed
def phrases(*names: str) -> tuple[str, ...]:
    """Every name a row goes by, as names are compared; `|` splits several, `-` alone is none."""
    return tuple(words for name in names for part in name.split("|") if (words := folded(part)) not in ("", "-"))


def choice(text: str, names: Mapping[str, Value], where: str) -> Value:
    """The value of the name that a text is, or of the only one that its words begin.

    Raises: FastenError with the nearest names.
    """
    by_words = {folded(name): value for name, value in names.items()}
    words = folded(text)
    begun = [words] if words in by_words else [name for name in by_words if name.startswith(f"{words} ")]
    if len(begun) != 1:
        raise unknown(text, "an answer here", names, where)
    return by_words[begun[0]]


def capital(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def some(names: list[str]) -> str:
    """All of the names where they fit a message, or else the first few."""
    return either(names) if len(", ".join(names)) <= _LISTED else f"a name such as {either(names[:5])}"


def either(names: list[str]) -> str:
    """The names as a choice, the last after an or."""
    return " or ".join([", ".join(names[:-1])] * (len(names) > 1) + names[-1:])


@lru_cache(_MOST_KEPT)
def plain_name(text: str) -> str:
    """The one spelling under which names of parts and tools are compared: a hyphen tells no two things apart."""
    return " ".join(spelled(text).replace("-", " ").split())


def spelled(text: str) -> str:
    """A name with its hyphens, whatever its case, its spaces and the sort of dash."""
    folded = unjoined(text).casefold().translate(_DASHES)
    return _STANDARD.sub(r"\1 ", " ".join(folded.split()))
