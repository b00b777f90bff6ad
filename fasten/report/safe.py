"""Text that came from outside, made harmless to print."""

from fasten.text.letters import is_text


def safe(text: str) -> str:
    """The text on one line, with control, hidden and direction-turning characters written as escapes.

    A terminal obeys such characters: a name must not move the cursor, clear the screen or turn a line round. Joiners
    harm nothing and stay: a name that is kept with one is shown with it.
    """
    return text if text.isprintable() else "".join(c if is_text(c) else _escaped(c) for c in text)


def _escaped(char: str) -> str:
    return " " if char.isspace() else char.encode("unicode_escape").decode("ascii")
