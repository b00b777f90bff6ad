"""Text that came from outside, made harmless to print."""


def safe(text: str) -> str:
    """The text on one line, with control, hidden and direction-turning characters written as escapes.

    A terminal obeys such characters: a name must not move the cursor, clear the screen or turn a line round.
    """
    return text if text.isprintable() else "".join(c if c.isprintable() else _escaped(c) for c in text)


def _escaped(char: str) -> str:
    return " " if char.isspace() else char.encode("unicode_escape").decode("ascii")
